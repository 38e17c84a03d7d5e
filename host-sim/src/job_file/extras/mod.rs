//! What a job file says beyond the tank itself: the equipment, the arc's wave, supplies and prices.
//!
//! None of it changes the tank of a gauge (a job whose baffles are cut is not sent to one), so it stays out of the [`Draft`](seamwright_core::input::Draft), which a gauge
//! with little memory has to hold. All of it is checked as it is read.

mod arc;
mod coat;
pub(super) mod limits;
mod purge;
mod shrink;
mod supply;

use seamwright_core::advice::process::CoatedSheet;
use seamwright_core::arc::Equipment;
use seamwright_core::arc::power::Wave;
use seamwright_core::fitting::BaffleCut;
use seamwright_core::gmaw::WireArcDraft;
use seamwright_core::purge::PurgeDraft;
use seamwright_core::supply::cost::Prices;
use seamwright_core::supply::{Draw, KitDraft};
use seamwright_core::tables::Process;
use seamwright_core::tank::Plumbing;
use seamwright_core::units::{Length, Pressure, Time, Volume};

pub(super) use coat::read as coated;

use super::reader::{Reader, Section};
use super::schema::{PURGE, SUPPLY};

/// What a job file says beyond the tank.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Extras {
    /// Ratings of power source and torch.
    pub equipment: Equipment,
    /// The wave of an alternating arc.
    pub wave: Option<Wave>,
    /// Diameter of the tungsten electrode.
    pub tungsten: Option<Length>,
    /// Bore of the gas nozzle.
    pub nozzle: Option<Length>,
    /// What goes with a wire's arc.
    pub wire_arc: WireArcDraft,
    /// What the sheet is coated with.
    pub coated: Option<CoatedSheet>,
    /// Argon behind the seams; `None` where the job plans none.
    pub purge: Option<PurgeDraft>,
    /// Rod, gas, time and prices.
    pub supply: Supply,
    /// Where liquid is drawn beside the pick-up, and pipes that join compartments.
    pub plumbing: Plumbing,
    /// What blanks are cut larger for; `None` where they are not.
    pub shrink: Option<Draw>,
    /// How each baffle is cut.
    pub baffles: Vec<BaffleCut>,
}

impl Extras {
    /// Whether any baffle is cut other than to the inside of the sheet: such a tank is the laptop's, since a
    /// gauge has no room for what it asks for, and would plan another.
    #[must_use]
    pub fn cuts_baffles(&self) -> bool {
        self.baffles.iter().any(|cut| !cut.is_none())
    }
}

/// Rod, gas, time and prices.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Supply {
    /// Rod and gas.
    pub kit: KitDraft,
    /// Water capacity of the cylinder.
    pub cylinder: Option<Volume>,
    /// What its gauge shows.
    pub cylinder_pressure: Option<Pressure>,
    /// Setting up, cleaning, fitting.
    pub other_time: Option<Time>,
    /// The currency and the prices in it.
    pub prices: Option<(String, Prices)>,
}

pub(super) fn read<'t>(
    reader: &mut Reader<'t>,
    top: &Section<'t>,
    [arc_section, weld_section]: [Option<&Section<'t>>; 2],
) -> Extras {
    let mut extras = Extras::default();
    if let Some(section) = weld_section {
        extras.shrink = shrink::read(reader, section);
    }
    extras.purge = reader
        .section(top, "purge", &PURGE)
        .map(|section| purge::read(reader, &section));
    let mut process = None;
    if let Some(section) = arc_section {
        process = reader.word_given::<Process>(section, "process");
        arc::read(reader, section, &mut extras);
        arc::check_process(reader, section, process);
    }
    if let Some(section) = reader.section(top, "supply", &SUPPLY) {
        let wire_diameter = extras.supply.kit.wire_diameter;
        extras.supply = supply::supply(reader, &section);
        extras.supply.kit.wire_diameter = wire_diameter;
        arc::check_process(reader, &section, process);
    }
    extras
}
