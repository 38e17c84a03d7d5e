//! A dip chart set right by what was really poured in.

use seamwright_core::capacity::{
    Calibration, DipError, DipScale, Lean, MOST_POURS, Pour, PourError, PourFit,
};
use seamwright_core::tank::Tank;

use super::Units;
use super::dip::{Chart, Step};
use super::model::{Cell, Section, Table, right, said};
use crate::failure::Failure;

/// Pours and what they say of the chart.
#[derive(Clone, Debug)]
pub struct Poured {
    /// The pours, in order.
    pub pours: Vec<Pour>,
    /// What the model says to each, and what that sets right.
    pub fit: PourFit,
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
    let scale = tank
        .dip_scale(lean)
        .map_err(|error| Failure::input(format!("pour 1: {error}"), help))?;
    let fit = scale.set_right(&pours, tank.capacity().brim);
    let fit = fit.map_err(|error| {
        let told = match error {
            // Of a depth there is no rod to speak of.
            PourError::Reading {
                pour,
                error: DipError::Reading(error),
            } if matches!(scale, DipScale::Depth(_)) => format!("pour {pour}: {error}"),
            PourError::Reading { .. } => error.to_string(),
            PourError::Calibrate(error) => format!("the pours set nothing right: {error}"),
        };
        Failure::input(told, help)
    })?;
    Ok(Poured { pours, fit })
}

impl Poured {
    const fn calibration(&self) -> &Calibration {
        &self.fit.found.calibration
    }

    /// A chart set right: at each reading what is in it then, or at each round volume where it stands.
    /// Marks below what the pours reach down to fall away.
    #[must_use]
    pub fn corrected(&self, tank: &Tank, step: Step, chart: &Chart) -> Chart {
        let scale = tank.dip_scale(chart.lean).ok();
        let marks = scale.and_then(|scale| {
            scale
                .marks_set_right(step.of(tank), self.calibration())
                .ok()
        });
        Chart {
            marks: marks.into_iter().flatten().collect(),
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
        let rows = self.pours.iter().zip(&self.fit.pairs).map(|(pour, pair)| {
            let left = self.calibration().residual(*pair);
            let right = self.calibration().corrected(*pair);
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
                self.fit.found.worst,
                units.volume(self.fit.found.worst_by),
                units.volume(self.fit.found.deviation)
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
        section.put("deviation_m3", self.fit.found.deviation.si());
        section.put("worst_pour", self.fit.found.worst);
        section
    }
}
