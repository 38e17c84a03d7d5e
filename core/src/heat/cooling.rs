//! How fast a weld in ferritic steel cools from 800 to 500 °C: EN 1011-2:2001, annex D (from memory).
//!
//! For unalloyed and low-alloy ferritic steel only. Thin sheet always cools slowly enough not to harden;
//! this is for the thick flange on the thin tank.

use core::fmt;

use crate::units::{
    Length, LengthUnit, LineEnergy, LineEnergyUnit, Temperature, TemperatureUnit, Time,
};

/// What is welded, for the factors F2 and F3 of annex D, table D.1 (from memory).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Form {
    /// A bead on a plate: 1 and 1.
    OnPlate,
    /// A filling run of a butt weld: 0.9 and 0.9.
    Butt,
    /// A fillet in a corner joint: 0.67 to 0.9, the more the thicker against the transition, and 0.67.
    Corner,
    /// A fillet in a tee: 0.45 to 0.67 and 0.67.
    Tee,
}

impl Form {
    /// Every form.
    pub const ALL: [Self; 4] = [Self::OnPlate, Self::Butt, Self::Corner, Self::Tee];

    /// F2, for heat that flows in the plane of the sheet: the least and the most.
    #[must_use]
    pub const fn f2(self) -> [f64; 2] {
        match self {
            Self::OnPlate => [1.0, 1.0],
            Self::Butt => [0.9, 0.9],
            Self::Corner => [0.67, 0.9],
            Self::Tee => [0.45, 0.67],
        }
    }

    /// F3, for heat that flows into the depth too.
    #[must_use]
    pub const fn f3(self) -> f64 {
        match self {
            Self::OnPlate => 1.0,
            Self::Butt => 0.9,
            Self::Corner | Self::Tee => 0.67,
        }
    }
}

/// How the heat flows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Flow {
    /// In the plane of the sheet: thinner than the transition.
    InPlane,
    /// Into the depth too.
    InDepth,
}

/// How fast a weld cools.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Cooling {
    /// The time from 800 to 500 °C, least and most; the two differ only where F2 is a range.
    pub time: [Time; 2],
    /// How the heat flows, which is by the thickness against the transition.
    pub flow: Flow,
    /// The thickness at which both formulas give the same time with factors of 1.
    pub transition: Length,
    /// The formula for flow in the plane with a factor of 1.
    pub in_plane: Time,
    /// The formula for flow in the depth with a factor of 1.
    pub in_depth: Time,
}

/// Least and most heat input: far beyond any TIG run both ways.
pub const HEAT_INPUT: [LineEnergy; 2] = [
    LineEnergy::new(0.01, LineEnergyUnit::KilojoulePerMillimetre),
    LineEnergy::new(10.0, LineEnergyUnit::KilojoulePerMillimetre),
];
/// Least and most thickness.
pub const THICKNESS: [Length; 2] = [
    Length::new(0.5, LengthUnit::Millimetre),
    Length::new(200.0, LengthUnit::Millimetre),
];
/// Coldest and warmest start: up to 300 °C, since the formulas lose their sense as it nears 500 °C.
pub const START: [Temperature; 2] = [
    Temperature::new(-40.0, TemperatureUnit::Celsius),
    Temperature::new(300.0, TemperatureUnit::Celsius),
];

/// An input outside the range of the formulas.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum CoolingError {
    /// The heat input lies outside [`HEAT_INPUT`].
    HeatInput(LineEnergy),
    /// The thickness lies outside [`THICKNESS`].
    Thickness(Length),
    /// The preheat or interpass temperature lies outside [`START`].
    Start(Temperature),
}

impl fmt::Display for CoolingError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::HeatInput(value) => {
                let show = |v: LineEnergy| v.display(LineEnergyUnit::KilojoulePerMillimetre, 3);
                let [least, most] = HEAT_INPUT.map(show);
                write!(
                    f,
                    "heat input of {}: it must be {least} to {most}",
                    show(*value)
                )
            }
            Self::Thickness(value) => {
                let show = |v: Length| v.display(LengthUnit::Millimetre, 2);
                let [least, most] = THICKNESS.map(show);
                write!(
                    f,
                    "thickness of {}: it must be {least} to {most}",
                    show(*value)
                )
            }
            Self::Start(value) => {
                let show = |v: Temperature| v.display(TemperatureUnit::Celsius, 1);
                let [least, most] = START.map(show);
                write!(f, "start at {}: it must be {least} to {most}", show(*value))
            }
        }
    }
}

impl core::error::Error for CoolingError {}

/// The time from 800 to 500 °C of a weld in ferritic steel that starts at `start`.
///
/// In the depth: t = (6700 − 5 T0) Q (1/(500 − T0) − 1/(800 − T0)) F3. In the plane:
/// t = (4300 − 4.3 T0) 10⁵ (Q/d)² (1/(500 − T0)² − 1/(800 − T0)²) F2. Q in kJ/mm net of the arc's
/// efficiency, d in mm, T0 in °C, t in s: EN 1011-2, annex D (from memory).
///
/// # Errors
/// [`CoolingError`] with the first input outside its range.
pub fn cooling(
    heat_input: LineEnergy,
    thickness: Length,
    start: Temperature,
    form: Form,
) -> Result<Cooling, CoolingError> {
    let [least, most] = HEAT_INPUT;
    if !(heat_input >= least && heat_input <= most) {
        return Err(CoolingError::HeatInput(heat_input));
    }
    let [least, most] = THICKNESS;
    if !(thickness >= least && thickness <= most) {
        return Err(CoolingError::Thickness(thickness));
    }
    let [least, most] = START;
    if !(start >= least && start <= most) {
        return Err(CoolingError::Start(start));
    }
    let q = heat_input.in_unit(LineEnergyUnit::KilojoulePerMillimetre);
    let d = thickness.in_unit(LengthUnit::Millimetre);
    let t0 = start.in_unit(TemperatureUnit::Celsius);
    let (low, high) = (1.0 / (500.0 - t0), 1.0 / (800.0 - t0));
    let depth = (6_700.0 - 5.0 * t0) * q * (low - high);
    let flat = (4_300.0 - 4.3 * t0) * 1e5 * q * q * (low * low - high * high);
    // Where both are equal d² is the quotient.
    let transition = libm::sqrt(flat / depth);
    let in_plane = flat / (d * d);
    let seconds = Time::from_seconds;
    let (time, flow) = if d < transition {
        let time = form.f2().map(|factor| seconds(in_plane * factor));
        (time, Flow::InPlane)
    } else {
        ([seconds(depth * form.f3()); 2], Flow::InDepth)
    };
    Ok(Cooling {
        time,
        flow,
        transition: Length::new(transition, LengthUnit::Millimetre),
        in_plane: seconds(in_plane),
        in_depth: seconds(depth),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(q: f64, d: f64, t0: f64, form: Form) -> Result<Cooling, CoolingError> {
        cooling(
            LineEnergy::new(q, LineEnergyUnit::KilojoulePerMillimetre),
            Length::new(d, LengthUnit::Millimetre),
            Temperature::new(t0, TemperatureUnit::Celsius),
            form,
        )
    }

    #[test]
    fn at_the_transition_both_are_alike() {
        let thick = of(1.0, 50.0, 20.0, Form::OnPlate).unwrap();
        let d = thick.transition.in_unit(LengthUnit::Millimetre);
        let at = of(1.0, d, 20.0, Form::OnPlate).unwrap();
        assert!((at.in_plane.si() / at.in_depth.si() - 1.0).abs() < 1e-12);
    }

    #[test]
    fn the_factor_is_that_of_the_flow() {
        for form in Form::ALL {
            let thin = of(1.0, 6.0, 20.0, form).unwrap();
            let thick = of(1.0, 30.0, 20.0, form).unwrap();
            assert_eq!(
                thin.time,
                form.f2()
                    .map(|f| Time::from_seconds(thin.in_plane.si() * f))
            );
            assert_eq!(
                thick.time,
                [Time::from_seconds(thick.in_depth.si() * form.f3()); 2]
            );
        }
    }

    #[test]
    fn what_is_out_of_range_is_named() {
        let heat = of(f64::NAN, 6.0, 20.0, Form::Tee);
        assert!(matches!(heat, Err(CoolingError::HeatInput(_))));
        let thin = of(1.0, 0.4, 20.0, Form::Tee);
        assert!(matches!(thin, Err(CoolingError::Thickness(_))));
        let warm = of(1.0, 6.0, 301.0, Form::Tee);
        assert!(matches!(warm, Err(CoolingError::Start(_))));
    }
}
