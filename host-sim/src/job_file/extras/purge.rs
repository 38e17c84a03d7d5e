//! `[purge]`.

use seamwright_core::input::limits;
use seamwright_core::purge::PurgeDraft;
use seamwright_core::units::Ratio;
use seamwright_core::units::flow::Flow;

use super::super::reader::{Reader, Section};
use super::limits::measured;
use super::supply::FLOWS;

/// A millionth, in per cent.
const PPM: f64 = 1e-4;

pub(super) fn read<'t>(reader: &mut Reader<'t>, section: &Section<'t>) -> PurgeDraft {
    let mut flow = |name| {
        let flow = measured(reader, section, name, "a flow", &FLOWS, limits::GAS_FLOW);
        flow.map(Flow::from_litres_per_minute)
    };
    let (before, held) = (flow("flow"), flow("hold_flow"));
    let (least, most) = limits::PURGE_OXYGEN;
    let percent = |share: Ratio| 100.0 * share.si();
    let oxygen = measured(
        reader,
        section,
        "oxygen",
        "a share of oxygen",
        &[("%", 1.0), ("ppm", PPM)],
        (percent(least), percent(most)),
    );
    PurgeDraft {
        flow: before,
        hold_flow: held,
        oxygen: oxygen.map(|percent| Ratio::from_share(0.01 * percent)),
    }
}
