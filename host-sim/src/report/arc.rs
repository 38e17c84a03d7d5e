//! The arc as the job sets it, and the heat that it gives a millimetre of seam.

use seamwright_core::tank::Tank;
use seamwright_core::units::{CurrentUnit, RatioUnit, VoltageUnit};

use super::Units;
use super::model::{Cell, Section, said};

pub(super) fn section(tank: &Tank, units: Units) -> Section {
    let arc = tank.arc();
    let current = arc.current.display(CurrentUnit::Ampere, 0);
    let voltage = arc.voltage.display(VoltageUnit::Volt, 1);
    let electric = said(format!("{current}, {voltage}"))
        .data("current_a", arc.current.si())
        .data("voltage_v", arc.voltage.si());
    let energy = units.line_energy(arc.arc_energy());
    let energy = said(format!(
        "{energy}  U I / v, what AWS and ASME call heat input"
    ));
    let heat = units.line_energy(arc.heat_input());
    let share = arc.efficiency.display(RatioUnit::Percent, 0);
    let heat = said(format!("{heat}  with the factor {share} of EN 1011-1"))
        .data("heat_input_j_m", arc.heat_input().si())
        .data("efficiency", arc.efficiency.si());
    let travel = Cell::of("travel_m_s", arc.travel, units, Units::speed);
    let mut section = Section::new("Arc and heat").at(&["arc"]);
    let process = said(format!(
        "{} ({} of ISO 4063)",
        arc.process.name(),
        arc.process.number()
    ))
    .data("process", arc.process.name())
    .data("process_iso_4063", arc.process.number());
    section.fact("process", process);
    section.fact("current, voltage", electric);
    section.fact("travel", travel);
    section.fact(
        "arc energy",
        energy.data("arc_energy_j_m", arc.arc_energy().si()),
    );
    section.fact("heat input", heat);
    section
}
