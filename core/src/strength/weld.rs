//! Whether the seams bear what the panels hand them.
//!
//! Welds are judged by the throat: EN 1999-1-1, 8.6.3.3, and EN 1993-1-8, 4.5.3.2 (from memory):
//! `√(σ⊥² + 3 τ²)` on the throat, no more than the strength of the weld metal over a partial factor of
//! 1.25. That holds for sound welds. A weld with lack of fusion, porosity or a crack bears less, and only
//! a test shows it.

use super::limits;
use super::plate::{Bending, Ramp, Sides};
use crate::units::range::RangeError;
use crate::units::{Length, Pressure};

/// The partial factor of a weld's strength: EN 1999-1-1, 6.1.3, and EN 1993-1-8, 2.2 (from memory).
pub const WELD_FACTOR: f64 = 1.25;

/// What a plate hands to a metre of its edge, over the highest pressure times the short side: one half for
/// a long strip; up to 0.505 for edges free to turn (Roark, table 11.4, case 1a, from memory) and 0.52
/// with edges held from turning (finite differences, in this project's tests).
pub const EDGE_SHARE: f64 = 0.52;

/// How a seam carries force from sheet to sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Weld {
    /// Through the whole of the thinner sheet, in one plane.
    Butt {
        /// Thickness of that thinner sheet.
        thickness: Length,
        /// The share of that thickness that is fused: 1 for all.
        fused: f64,
    },
    /// In the open groove of a corner: from the inside edges to the face of the bead.
    Corner {
        /// From root to face.
        throat: Length,
    },
    /// In the angle between two faces: a lap, a tee, a covered corner.
    Fillet {
        /// The shorter leg.
        leg: Length,
    },
}

impl Weld {
    /// Its throat: for a fillet in a right angle leg / √2.
    ///
    /// # Errors
    /// [`RangeError`] for a throat below 0.1 mm or above 100 mm.
    pub fn throat(self) -> Result<Length, RangeError> {
        let throat = match self {
            Self::Butt { thickness, fused } => thickness.si() * fused,
            Self::Corner { throat } => throat.si(),
            Self::Fillet { leg } => leg.si() * core::f64::consts::FRAC_1_SQRT_2,
        };
        limits::throat(throat).map(Length::from_metres)
    }
}

/// What a seam bears, for each metre of it; plain numbers in N/m and N·m/m, signs left off.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Along {
    /// Force that pulls the two sheets apart in the plane of the one: the reaction of the other.
    pub pull: f64,
    /// Force across that one: its own reaction.
    pub across: f64,
    /// Bending moment.
    pub moment: f64,
}

impl Along {
    /// At the corner between two panels: each hands its edge reaction, [`EDGE_SHARE`] of its highest
    /// pressure on its short side, to the other one's plane; the moment is the greater one of the two where
    /// edges are held from turning.
    ///
    /// A seam welded from one side turns more readily than the sheet, and then bears less moment than this;
    /// but it cannot be counted on to turn and last.
    #[must_use]
    pub fn corner(panels: [(Sides, Ramp); 2], clamped: [&Bending; 2]) -> Self {
        let [pull, across] = panels.map(|(sides, ramp)| EDGE_SHARE * ramp.most() * sides.short());
        let [one, other] = clamped.map(|bending| bending.moment);
        Self {
            pull,
            across,
            moment: libm::fmax(one, other),
        }
    }

    /// On the seam of a cylinder that runs along it, in pascals of [`Hoop::round`](super::wall::Hoop) and
    /// the sheet's thickness; with [`Hoop::along`](super::wall::Hoop) on one that runs round it.
    #[must_use]
    pub fn wall(stress: Pressure, thickness: Length) -> Self {
        Self {
            pull: stress.si() * thickness.si(),
            ..Self::default()
        }
    }
}

impl Along {
    /// Borne by welds with gaps between them: a metre of weld takes [`Division::gathered`](crate::seam::Division::gathered) metres' load.
    #[must_use]
    pub fn gathered(self, by: f64) -> Self {
        Self {
            pull: self.pull * by,
            across: self.across * by,
            moment: self.moment * by,
        }
    }
}

/// How a seam bears its load.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct SeamStrength {
    /// The equivalent stress of the forces on the throat, without the moment.
    pub forces: Pressure,
    /// The stress of forces and moment together.
    pub with_moment: Pressure,
    /// Strength over the partial factor and the stress of the forces alone.
    pub reserve_forces: f64,
    /// Strength over the partial factor and the stress with the moment: what to go by for a seam welded from one side.
    pub reserve: f64,
}

impl SeamStrength {
    /// Whether it bears its load with the partial factor [`WELD_FACTOR`].
    #[must_use]
    pub fn is_enough(&self) -> bool {
        self.reserve >= 1.0
    }
}

/// The weakest of some seams.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WeakestSeam<T> {
    /// Which.
    pub seam: T,
    /// How it bears its load.
    pub strength: SeamStrength,
    /// The least reserve of any of them by forces alone, which may be another one's.
    pub reserve_forces: f64,
}

/// The seam with the least reserve, the first of equals; `None` of none.
pub fn weakest_seam<T>(
    seams: impl IntoIterator<Item = (T, SeamStrength)>,
) -> Option<WeakestSeam<T>> {
    let mut weakest: Option<WeakestSeam<T>> = None;
    for (seam, strength) in seams {
        let reserve_forces = strength.reserve_forces;
        let mut one = WeakestSeam {
            seam,
            strength,
            reserve_forces,
        };
        if let Some(old) = weakest.take() {
            let forces = libm::fmin(old.reserve_forces, reserve_forces);
            if old.strength.reserve.total_cmp(&strength.reserve).is_le() {
                one = old;
            }
            one.reserve_forces = forces;
        }
        weakest = Some(one);
    }
    weakest
}

/// The stress on a weld's throat and its reserve, for a filler with the tensile strength `filler`.
///
/// A corner or fillet weld takes the resultant of the two forces as shear, the worst way that it can lie
/// on the throat: `√3 F / a`. A butt weld takes the pull as tension and the other force as shear. The
/// moment bends the throat: `6 M / a²`.
///
/// # Errors
/// [`RangeError`] for a figure past its limits.
pub fn seam(weld: Weld, load: Along, filler: Pressure) -> Result<SeamStrength, RangeError> {
    let a = weld.throat()?.si();
    let strength = limits::strength(filler)? / WELD_FACTOR;
    let pull = limits::line_force(load.pull)?;
    let across = limits::line_force(load.across)?;
    let bending = 6.0 * limits::line_force(load.moment)? / (a * a);
    let (normal, shear) = match weld {
        Weld::Butt { .. } => (pull / a, across / a),
        Weld::Corner { .. } | Weld::Fillet { .. } => (0.0, libm::hypot(pull, across) / a),
    };
    let equal = |normal: f64| libm::sqrt(normal * normal + 3.0 * shear * shear);
    let (forces, with_moment) = (equal(normal), equal(normal + bending));
    Ok(SeamStrength {
        forces: Pressure::from_pascals(forces),
        with_moment: Pressure::from_pascals(with_moment),
        reserve_forces: strength / forces,
        reserve: strength / with_moment,
    })
}

/// What a report says beside figures of strength.
pub const CAUTION: &str = "These figures are for sound welds and still loads. They do not stand in for the \
    rules that hold where the tank is used, nor for a person licensed to judge it: have any tank that \
    carries fuel or pressure, or whose failure can hurt someone, judged and tested by them.";

/// What a report says where mounts shake.
pub const FATIGUE_CAUTION: &str = "Welds that shake fail far below the strength of the sheet. Keep welded \
    mounts off the middle of panels, spread them on a doubler, and let the mount give, not the tank.";

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{Figure, LengthUnit};

    fn mm(value: f64) -> Length {
        Length::new(value, LengthUnit::Millimetre)
    }

    fn mpa(value: f64) -> Pressure {
        Pressure::from_pascals(value * 1e6)
    }

    fn near(got: f64, want: f64) {
        assert!((got / want - 1.0).abs() < 1e-12, "{got} against {want}");
    }

    /// A butt weld fused all through is the sheet itself: it bears the sheet's own stresses, the hoop's and
    /// the bent plate's.
    #[test]
    fn a_whole_butt_weld_is_sheet() {
        let weld = Weld::Butt {
            thickness: mm(2.0),
            fused: 1.0,
        };
        let got = seam(weld, Along::wall(mpa(30.0), mm(2.0)), mpa(190.0)).unwrap();
        near(got.forces.si(), 30e6);
        near(got.reserve, 190.0 / 1.25 / 30.0);
        let bent = Bending {
            moment: 40.0,
            deflection: 0.0,
        };
        let load = Along {
            moment: bent.moment,
            ..Along::default()
        };
        near(
            seam(weld, load, mpa(190.0)).unwrap().with_moment.si(),
            bent.stress(0.002),
        );
        // Half fused, a quarter of the bending strength.
        let half = Weld::Butt {
            thickness: mm(2.0),
            fused: 0.5,
        };
        near(
            seam(half, load, mpa(190.0)).unwrap().with_moment.si(),
            4.0 * bent.stress(0.002),
        );
    }

    /// Two equal panels at a corner: the resultant is √2 of each reaction, `√3 √2 · 0.52 p b / a`.
    #[test]
    fn a_corner_between_two_panels() {
        let panel = (Sides::new(0.3, 0.5).unwrap(), Ramp::even(2e4));
        let (small, large) = (
            Bending {
                moment: 1.0,
                deflection: 0.0,
            },
            Bending {
                moment: 9.0,
                deflection: 0.0,
            },
        );
        let load = Along::corner([panel, panel], [&small, &large]);
        near(load.moment, 9.0);
        let got = seam(Weld::Corner { throat: mm(2.0) }, load, mpa(170.0)).unwrap();
        near(got.forces.si(), 6_f64.sqrt() * 0.52 * 2e4 * 0.3 / 0.002);
        assert!(got.reserve < got.reserve_forces);
        assert_eq!(
            Weld::Fillet { leg: mm(0.01) }.throat().unwrap_err().figure,
            Figure::Throat
        );
        assert_eq!(
            seam(Weld::Corner { throat: mm(2.0) }, load, mpa(0.0))
                .unwrap_err()
                .figure,
            Figure::Strength
        );
    }

    #[test]
    fn the_weakest_of_three() {
        let one = |reserve, reserve_forces| SeamStrength {
            forces: mpa(1.0),
            with_moment: mpa(1.0),
            reserve_forces,
            reserve,
        };
        let all = [one(2.0, 2.5), one(0.9, 3.0), one(0.9, 4.0)];
        let weakest = weakest_seam((1_u8..).zip(all)).unwrap();
        assert_eq!(weakest.seam, 2);
        assert_eq!(
            (weakest.strength.reserve, weakest.reserve_forces),
            (0.9, 2.5)
        );
        assert!(!weakest.strength.is_enough() && all[0].is_enough());
        assert!(weakest_seam::<u8>([]).is_none());
    }
}
