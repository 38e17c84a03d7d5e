//! The whole job in a few figures.

use seamwright_core::units::{EnergyUnit, LengthUnit, TimeUnit};
use seamwright_core::weld::WeldPlan;

use super::model::{Cell, Section, said};
use super::{Asked, Units};
use crate::cut::Cut;

pub(super) fn section(asked: &Asked<'_>, cut: &Cut<'_>, units: Units) -> Section {
    let totals = asked.tank.totals();
    let long = match units {
        Units::Metric => totals.seam.display(LengthUnit::Metre, 3),
        Units::Us | Units::Imperial => totals.seam.display(LengthUnit::Foot, 2),
    };
    let burning = totals.arc.display(TimeUnit::Minute, 1);
    let burning = said(format!("{burning}, tacks not counted"));
    let heat = said(totals.heat.display(EnergyUnit::Kilojoule, 0));
    let mass = Cell::of("mass_kg", cut.mass(), units, Units::mass);
    let mut section = Section::new("In all").at(&["totals"]);
    section.fact("seams to weld", said(long).data("seam_m", totals.seam.si()));
    section.fact("tacks", said(totals.tacks).data("tack_count", totals.tacks));
    let stitches = said(totals.stitches).data("stitch_count", totals.stitches);
    section.fact("stitches", stitches);
    section.fact("arc burning", burning.data("arc_s", totals.arc.si()));
    section.fact("heat into the tank", heat.data("heat_j", totals.heat.si()));
    section.fact("mass of the blanks", mass);
    let order = asked.welding.as_ref().ok().map(WeldPlan::totals);
    section.put("wait_s", order.map(|order| order.waits().si()));
    section.put("job_s", order.map(|order| order.job().si()));
    section
}
