//! Rosenthal's fields in full.
//!
//! Both fields depend on `u = v r / 2a` and the direction only, and their hottest place at a distance `y`
//! from the seam lies where `∂T/∂ξ = 0`. With `ξ = −r s` for the distance ahead that is `s = K₀(u)/K₁(u)`
//! in a thin plate and `s = u/(1+u)` in a thick one, so `u` gives both `v y / 2a = u √(1−s²)` and the peak
//! itself, and either is found from the other by one search in `u`.

use core::f64::consts::{LN_10, PI};

use super::super::bessel::{k0_k1_scaled, k0_scaled};
use super::Moving;
use crate::geom::root;
use crate::units::range::{Limit, RangeError};
use crate::units::{Angle, Figure, Length, Temperature, Time};

/// The search covers `u` from 10⁻⁶ to 10⁸: from far inside any pool to past any sheet.
const LOG_U: (f64, f64) = (-6.0 * LN_10, 8.0 * LN_10);

#[derive(Clone, Copy, Debug, PartialEq)]
enum Form {
    Thin,
    Thick,
}

impl Form {
    /// `1 − s` at `u`.
    fn short_of_behind(self, u: f64) -> f64 {
        match self {
            // The ratio's own series in 1/u, where the difference would lose figures.
            Self::Thin if u > 1e4 => (0.5 - (0.375 - 0.375 / u) / u) / u,
            Self::Thin => {
                let [k0, k1] = k0_k1_scaled(u);
                (k1 - k0) / k1
            }
            Self::Thick => 1.0 / (1.0 + u),
        }
    }

    /// `v y / 2a` of the place that is hottest in passing at `u`.
    fn aside(self, u: f64) -> f64 {
        let short = self.short_of_behind(u);
        u * libm::sqrt(short * (2.0 - short))
    }

    /// Logarithm of the field's own function at `u`, `share` of `r` behind the arc being `1 − short`.
    fn log_field(self, u: f64, short: f64) -> f64 {
        let own = match self {
            Self::Thin => libm::log(k0_scaled(u)),
            Self::Thick => -libm::log(u),
        };
        own - u * short
    }

    /// That of the hottest place in passing.
    fn log_peak(self, u: f64) -> f64 {
        self.log_field(u, self.short_of_behind(u))
    }
}

/// The steady temperature field that moves with an arc.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rosenthal {
    form: Form,
    /// The rise in kelvins at a field value of 1.
    scale: f64,
    /// `v / 2a`, in 1/m.
    beta: f64,
    moving: Moving,
}

/// The hottest that a place gets, and when.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Peak {
    /// How hot.
    pub temperature: Temperature,
    /// How long after the arc passed abreast of it.
    pub after: Time,
}

impl Moving {
    /// The field in sheet that the heat soaks through at once:
    /// `T − T₀ = q/(2πλd) · exp(−vξ/2a) · K₀(vr/2a)`.
    ///
    /// `sheets` is how many the heat leaves into along the seam: 1 where the seam is the edge of a single
    /// one, 2 for a butt or a corner, 3 for a tee, all of one thickness; the mirror image then makes the
    /// field that of `2 / sheets` of the power, exactly.
    ///
    /// # Errors
    /// [`RangeError`] unless there are 1 to 4 sheets.
    pub fn thin(&self, sheets: u8) -> Result<Rosenthal, RangeError> {
        let share = 2.0 / Figure::Sheets.within(f64::from(sheets), 1.0, 4.0)?;
        Ok(Rosenthal {
            form: Form::Thin,
            scale: share * self.power / (2.0 * PI * self.conductivity * self.thickness),
            beta: 0.5 * self.travel / self.diffusivity(),
            moving: *self,
        })
    }

    /// The field in metal so thick that its far side does not matter:
    /// `T − T₀ = q/(2πλr) · exp(−v(ξ+r)/2a)`.
    ///
    /// `wedge` is the angle that the metal fills about the seam: 180° for a seam on a flat face, 90° for
    /// one along a sharp edge, 270° for one in an inside corner; it counts as `π / wedge` of the power
    /// (Grong, chapter 1; from memory).
    ///
    /// # Errors
    /// [`RangeError`] unless the wedge is 10° to 350°.
    pub fn thick(&self, wedge: Angle) -> Result<Rosenthal, RangeError> {
        let degree = PI / 180.0;
        let wedge = Figure::Angle.within(wedge.si(), 10.0 * degree, 350.0 * degree)?;
        let beta = 0.5 * self.travel / self.diffusivity();
        Ok(Rosenthal {
            form: Form::Thick,
            // The field's own function is 1/u, so the scale holds one β.
            scale: self.power * beta / (2.0 * wedge * self.conductivity),
            beta,
            moving: *self,
        })
    }
}

impl Rosenthal {
    fn temperature(&self, log_field: f64) -> Temperature {
        Temperature::from_kelvins(self.moving.start + self.scale * libm::exp(log_field))
    }

    /// The temperature at a place: `ahead` of the arc along the seam, below zero behind it, and `aside`
    /// from the line of the seam (in a thick plate sideways or down, or both).
    ///
    /// # Errors
    /// [`RangeError`] within a micrometre of the arc, where the field has no bound, or past 100 m.
    pub fn at(&self, ahead: Length, aside: Length) -> Result<Temperature, RangeError> {
        let (xi, y) = (ahead.si(), aside.si());
        let r = Figure::Distance.above(libm::hypot(xi, y), 1e-6, 100.0)?;
        // 1 + ξ/r, without the difference of near equals behind the arc.
        let short = if xi < 0.0 {
            (y / r) * (y / r) / (1.0 - xi / r)
        } else {
            1.0 + xi / r
        };
        Ok(self.temperature(self.form.log_field(self.beta * r, short)))
    }

    /// Where the logarithm of `u` meets `target` on `f`.
    fn search(f: fn(Form, f64) -> f64, form: Form, target: f64) -> Option<f64> {
        let (low, high) = LOG_U;
        root::between(&|log| f(form, libm::exp(log)) - target, low, high).map(libm::exp)
    }

    /// The hottest that a place at a distance from the line of the seam gets.
    ///
    /// # Errors
    /// [`RangeError`] for a distance of a micrometre or less, or so large that nothing arrives: `v y / 2a`
    /// past 8000.
    pub fn peak(&self, aside: Length) -> Result<Peak, RangeError> {
        let most = 8_000.0 / self.beta;
        let y = Figure::Distance.above(aside.si(), 1e-6, most)?;
        let target = libm::log(self.beta * y);
        let f = |form: Form, u| libm::log(form.aside(u));
        let u = Self::search(f, self.form, target).ok_or(RangeError {
            figure: Figure::Distance,
            value: y,
            limit: Limit::AtMost(most),
        })?;
        let short = self.form.short_of_behind(u);
        Ok(Peak {
            temperature: self.temperature(self.form.log_field(u, short)),
            after: Time::from_seconds(u * (1.0 - short) / (self.beta * self.moving.travel)),
        })
    }

    /// The width of the band, both sides of the line of the seam together, that gets hotter than
    /// `temperature`: of the melt for the melting range's end, of the heat-affected zone for its own
    /// limit.
    ///
    /// # Errors
    /// [`RangeError`] unless the temperature is above the cold sheet's, and where the band would be wider
    /// than any sheet (a rise too small) or narrower than a point (too large).
    pub fn width_above(&self, temperature: Temperature) -> Result<Length, RangeError> {
        let rise = self.moving.rise(temperature)?;
        let u = self.invert(Form::log_peak, rise)?;
        Ok(Length::from_metres(2.0 * self.form.aside(u) / self.beta))
    }

    /// `u` at which the falling function `f` gives a rise.
    fn invert(&self, f: fn(Form, f64) -> f64, rise: f64) -> Result<f64, RangeError> {
        let (low, high) = LOG_U;
        Self::search(f, self.form, libm::log(rise / self.scale)).ok_or_else(|| {
            let end = |log: f64| self.scale * libm::exp(f(self.form, libm::exp(log)));
            RangeError {
                figure: Figure::Rise,
                value: rise,
                limit: if rise > end(low) {
                    Limit::AtMost(end(low))
                } else {
                    Limit::AtLeast(end(high))
                },
            }
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_series_far_out_joins_the_ratio() {
        let below = Form::Thin.short_of_behind(1e4 * (1.0 - 1e-13));
        let above = Form::Thin.short_of_behind(1e4 * (1.0 + 1e-13));
        assert!((below / above - 1.0).abs() < 2e-11, "{below} {above}");
    }

    #[test]
    fn peaks_fall_and_places_move_out_with_u() {
        for form in [Form::Thin, Form::Thick] {
            let at = |k: i32| libm::exp(0.1 * f64::from(k));
            for k in -138..184 {
                assert!(form.log_peak(at(k + 1)) < form.log_peak(at(k)));
                assert!(form.aside(at(k + 1)) > form.aside(at(k)));
            }
        }
    }
}
