//! What a job file says beyond the tank itself: the equipment, the arc's wave, supplies and prices.
//!
//! None of it changes the tank, so it stays out of the [`Draft`](seamwright_core::input::Draft), which a gauge
//! with little memory has to hold. All of it is checked as it is read.

mod arc;
mod limits;
mod shrink;
mod supply;

use seamwright_core::arc::duty::{RatingPlate, TORCH_AC_SHARE};
use seamwright_core::arc::power::Cycle;
use seamwright_core::supply::Draw;
use seamwright_core::supply::cost::Prices;
use seamwright_core::tables::{Filler, Process};
use seamwright_core::units::flow::Flow;
use seamwright_core::units::{Length, Pressure, Ratio, Time, Volume};

use super::reader::{Reader, Section};
use super::schema::SUPPLY;

/// What a job file says beyond the tank.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Extras {
    /// Ratings of the power source.
    pub power_source: Option<RatingPlate>,
    /// Ratings of the torch.
    pub torch: Torch,
    /// The wave of an alternating arc.
    pub wave: Option<Wave>,
    /// Diameter of the tungsten electrode.
    pub tungsten: Option<Length>,
    /// Bore of the gas nozzle.
    pub nozzle: Option<Length>,
    /// Rod, gas, time and prices.
    pub supply: Supply,
    /// What blanks are cut larger for; `None` where they are not.
    pub shrink: Option<Draw>,
}

/// Ratings of a torch, on direct and on alternating current.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Torch {
    /// On direct current.
    pub dc: Option<RatingPlate>,
    /// On alternating current.
    pub ac: Option<RatingPlate>,
}

/// The wave of an alternating arc.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wave {
    /// Share of the time with the electrode negative.
    pub balance: Ratio,
    /// Cycles in a second.
    pub frequency: Option<f64>,
    /// The wave with both its levels, where they are given.
    pub cycle: Option<Cycle>,
}

/// Rod, gas, time and prices.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Supply {
    /// The filler at hand.
    pub filler: Option<Filler>,
    /// Diameter of the rod.
    pub rod_diameter: Option<Length>,
    /// Length of a rod.
    pub rod_length: Option<Length>,
    /// What is thrown away of each rod.
    pub stub: Option<Length>,
    /// Rod on top of what the seams take.
    pub waste: Option<Ratio>,
    /// Flow of gas.
    pub gas_flow: Option<Flow>,
    /// Before the arc.
    pub pre_flow: Option<Time>,
    /// After it.
    pub post_flow: Option<Time>,
    /// Water capacity of the cylinder.
    pub cylinder: Option<Volume>,
    /// What its gauge shows.
    pub cylinder_pressure: Option<Pressure>,
    /// Setting up, cleaning, fitting.
    pub other_time: Option<Time>,
    /// The currency and the prices in it.
    pub prices: Option<(String, Prices)>,
}

impl Torch {
    /// The ratings for a process, and whether they are those for direct current taken down to
    /// [`TORCH_AC_SHARE`].
    #[must_use]
    pub fn on(&self, process: Process) -> Option<(RatingPlate, bool)> {
        match process {
            Process::TigDc => self.dc.clone().map(|plate| (plate, false)),
            Process::TigAc => match &self.ac {
                Some(plate) => Some((plate.clone(), false)),
                None => self
                    .dc
                    .clone()?
                    .reduced(TORCH_AC_SHARE)
                    .ok()
                    .map(|plate| (plate, true)),
            },
        }
    }
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
    if let Some(section) = arc_section {
        arc::read(reader, section, &mut extras);
    }
    if let Some(section) = reader.section(top, "supply", &SUPPLY) {
        extras.supply = supply::supply(reader, &section);
    }
    extras
}
