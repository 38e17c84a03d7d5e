//! Time from 800 to 500 °C: EN 1011-2:2001, annex D (from memory). For unalloyed and low-alloy ferritic
//! steel only; in the sheet of a tank it is always long, so that hardening beside the seam is no concern.

use super::super::refuse::{Field, Refused, above, within};
use crate::quantity::{Length, LineEnergy, Temperature, TemperatureUnit, Time};

/// A run on ferritic steel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Run {
    /// Heat input `Q`, in J/m.
    heat: f64,
    /// Preheat in °C.
    preheat: f64,
    /// Thickness in metres.
    thickness: f64,
    /// Factors of the joint's form, for sheet and for thick plate.
    factors: [f64; 2],
}

impl Run {
    /// A run. `factors` are `F₂` and `F₃` for the joint's form: 1 and 1 for a run on plate, 0.9 and 0.9
    /// for filling a butt, 0.45 to 0.67 and 0.67 for a fillet (from memory).
    ///
    /// # Errors
    /// [`Refused`] for a heat input that is not above 0 and at most 10 kJ/mm, a preheat outside −20 to
    /// 300 °C, a thickness outside 0.5 to 200 mm, or a factor outside 0.3 to 1.
    pub fn new(
        heat: LineEnergy,
        preheat: Temperature,
        thickness: Length,
        factors: [f64; 2],
    ) -> Result<Self, Refused> {
        let [f2, f3] = factors;
        within(Field::Start, preheat.si(), 253.15, 573.15)?;
        Ok(Self {
            heat: above(Field::LineEnergy, heat.si(), 0.0, 1e7)?,
            preheat: preheat.in_unit(TemperatureUnit::Celsius),
            thickness: within(Field::Thickness, thickness.si(), 0.0005, 0.2)?,
            factors: [
                within(Field::JointFactor, f2, 0.3, 1.0)?,
                within(Field::JointFactor, f3, 0.3, 1.0)?,
            ],
        })
    }

    /// `1/(500−T₀)` and `1/(800−T₀)`.
    fn ends(&self) -> (f64, f64) {
        (1.0 / (500.0 - self.preheat), 1.0 / (800.0 - self.preheat))
    }

    /// In thick plate: `(6700 − 5 T₀) Q [1/(500−T₀) − 1/(800−T₀)] F₃`, with `Q` in kJ/mm.
    #[must_use]
    pub fn thick(&self) -> Time {
        let ((cold, hot), [_, factor]) = (self.ends(), self.factors);
        let heat = self.heat / 1e6;
        Time::from_seconds((6_700.0 - 5.0 * self.preheat) * heat * (cold - hot) * factor)
    }

    /// In sheet: `(4300 − 4.3 T₀) 10⁵ (Q/d)² [1/(500−T₀)² − 1/(800−T₀)²] F₂`, `Q` in kJ/mm, `d` in mm.
    #[must_use]
    pub fn thin(&self) -> Time {
        let ((cold, hot), [factor, _]) = (self.ends(), self.factors);
        let ratio = self.heat / 1e6 / (self.thickness * 1e3);
        let constant = (4_300.0 - 4.3 * self.preheat) * 1e5 * ratio * ratio;
        Time::from_seconds(constant * (cold * cold - hot * hot) * factor)
    }

    /// The thickness at which both agree, for factors of 1.
    #[must_use]
    pub fn transition(&self) -> Length {
        let (cold, hot) = self.ends();
        let ratio = (4_300.0 - 4.3 * self.preheat) / (6_700.0 - 5.0 * self.preheat) * 1e5;
        Length::from_metres(1e-3 * libm::sqrt(ratio * self.heat / 1e6 * (cold + hot)))
    }

    /// The one that holds: that of sheet below the transition, that of thick plate from there on.
    #[must_use]
    pub fn time(&self) -> Time {
        if self.thickness < self.transition().si() {
            self.thin()
        } else {
            self.thick()
        }
    }
}
