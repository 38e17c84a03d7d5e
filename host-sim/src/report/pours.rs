//! A dip chart set right by what was really poured in.

use seamwright_core::capacity::{
    Calibrated, Calibration, Dip, DipError, Lean, MOST_POURS, Pair, Pour, calibrate,
};
use seamwright_core::tank::Tank;
use seamwright_core::units::{Length, Volume};

use super::Units;
use super::dip::{Chart, Step};
use super::model::{Cell, Section, Table, right, said};
use crate::failure::Failure;

/// Pours and what they say of the chart.
#[derive(Clone, Debug)]
pub struct Poured {
    /// The pours, in order.
    pub pours: Vec<Pour>,
    /// What the model says to each, and what was measured.
    pub pairs: Vec<Pair>,
    /// The calibration.
    pub found: Calibrated,
}

/// The volume by the model where the rod, or the depth, reads so.
fn model(tank: &Tank, lean: Lean, reading: Length) -> Result<Volume, String> {
    match tank.dip_rod(lean) {
        Some(rod) => rod
            .and_then(|rod| rod.volume(reading))
            .map_err(|error| error.to_string()),
        None => tank
            .pool(lean)
            .at(reading)
            .map(|level| level.volume)
            .map_err(|error| error.to_string()),
    }
}

/// What the rod, or the depth, reads where the model says so much.
fn reading(tank: &Tank, lean: Lean, volume: Volume) -> Option<Length> {
    match tank.dip_rod(lean) {
        Some(rod) => {
            let read = |rod: seamwright_core::capacity::Dipped<'_>| -> Result<Length, DipError> {
                rod.reading(volume)
            };
            rod.and_then(read).ok()
        }
        None => tank.pool(lean).depth_for(volume).ok(),
    }
}

/// Sets the model right by pours.
///
/// # Errors
/// A pour past the tank, or pours that do not tell.
pub fn set_right(tank: &Tank, lean: Lean, pours: Vec<Pour>) -> Result<Poured, Failure> {
    let help = "give 2 to 16 pours in order, each with all that was poured in so far and what the rod reads \
                then, well spread over the tank";
    if pours.len() > MOST_POURS {
        return Err(Failure::input(
            format!("{} pours; at most {MOST_POURS} are taken", pours.len()),
            help,
        ));
    }
    let mut pairs = Vec::new();
    for (pour, number) in pours.iter().zip(1_u8..) {
        let model = model(tank, lean, pour.depth)
            .map_err(|error| Failure::input(format!("pour {number}: {error}"), help))?;
        pairs.push(Pair {
            model,
            measured: pour.measured,
        });
    }
    let found = calibrate(&pairs, tank.capacity().brim)
        .map_err(|error| Failure::input(format!("the pours set nothing right: {error}"), help))?;
    Ok(Poured {
        pours,
        pairs,
        found,
    })
}

impl Poured {
    const fn calibration(&self) -> &Calibration {
        &self.found.calibration
    }

    /// A chart set right: at each reading what is in it then, or at each round volume where it stands.
    /// Marks below what the pours reach down to fall away.
    #[must_use]
    pub fn corrected(&self, tank: &Tank, step: Step, chart: &Chart) -> Chart {
        let calibration = self.calibration();
        let by_volume = match (step.every, step.volume.or(tank.job().dip_volume())) {
            (None, Some(step)) => Some(step.si()),
            _ => None,
        };
        let at_reading = |dip: &Dip| {
            Some(Dip {
                reading: dip.reading,
                volume: calibration.volume(dip.volume).ok()?,
            })
        };
        let most = match tank.dip_rod(chart.lean) {
            Some(rod) => rod.ok().map(|rod| rod.last().volume),
            None => Some(tank.pool(chart.lean).brim()),
        };
        let most = most.and_then(|most| calibration.volume(most).ok());
        let marks = match (by_volume, most) {
            (Some(step), Some(most)) => {
                let whole = (most.si() / step * (1.0 + 1e-12)).floor() as u32;
                (0..=whole)
                    .filter_map(|n| {
                        let volume = Volume::from_cubic_metres(f64::from(n) * step);
                        let reading = reading(tank, chart.lean, calibration.model(volume).ok()?)?;
                        Some(Dip { reading, volume })
                    })
                    .collect()
            }
            _ => chart.marks.iter().filter_map(at_reading).collect(),
        };
        Chart {
            marks,
            ..chart.clone()
        }
    }

    /// In one line: what the marks rest on.
    #[must_use]
    pub fn note(&self) -> String {
        format!(
            "set right by {} pours: {:+.1} mL, then {:.4} times the model",
            self.pours.len(),
            self.calibration().offset.si() * 1e6,
            self.calibration().scale
        )
    }

    /// The pours with what is left over, and how well they fit.
    #[must_use]
    pub fn section(&self, units: Units) -> Section {
        let columns = [
            right("reading"),
            right("poured"),
            right("by the model"),
            right("set right"),
            right("left over"),
        ];
        let volume = |key: &str, value| Cell::of(key, value, units, Units::volume);
        let rows = self.pours.iter().zip(&self.pairs).map(|(pour, pair)| {
            let left = self.calibration().residual(*pair);
            let right = Volume::from_cubic_metres(pair.measured.si() - left.si());
            [
                Cell::of("reading_m", pour.depth, units, Units::length),
                volume("measured_m3", pair.measured),
                volume("model_m3", pair.model),
                said(units.volume(right)),
                volume("residual_m3", left),
            ]
        });
        let told = if self.pours.len() > 2 {
            format!(
                "{}; pour {} fits worst, by {}; standard deviation {}",
                self.note(),
                self.found.worst,
                units.volume(self.found.worst_by),
                units.volume(self.found.deviation)
            )
        } else {
            format!(
                "{}; two pours leave nothing over to check them by: pour a third",
                self.note()
            )
        };
        let mut section = Section::new("Pours").at(&["calibration"]);
        section.table(Table::new(columns, rows).keyed("pours"));
        section.flush(told);
        section.put("offset_m3", self.calibration().offset.si());
        section.put("scale", self.calibration().scale);
        section.put("deviation_m3", self.found.deviation.si());
        section.put("worst_pour", self.found.worst);
        section
    }
}
