//! Whether the seams bear what the panels hand them.
//!
//! Welds are judged by the throat: EN 1999-1-1, 8.6.3.3, and EN 1993-1-8, 4.5.3.2 (from memory):
//! `√(σ⊥² + 3 τ²)` on the throat, no more than the strength of the weld metal over a partial factor of
//! 1.25. That holds for sound welds. A weld with lack of fusion, porosity or a crack bears less, and only
//! a test shows it.

use super::input::{Input, InputError, check};
use super::plate::{Bending, Ramp, Sides};
use crate::quantity::{Length, Pressure};

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
        /// That sheet.
        thickness: Length,
        /// The share of it that is fused: 1 for all.
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
    /// [`InputError`] for a throat below 0.1 mm or above 100 mm.
    pub fn throat(self) -> Result<Length, InputError> {
        let throat = match self {
            Self::Butt { thickness, fused } => thickness.si() * fused,
            Self::Corner { throat } => throat.si(),
            Self::Fillet { leg } => leg.si() * core::f64::consts::FRAC_1_SQRT_2,
        };
        check(Input::Throat, throat).map(Length::from_metres)
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

/// How a seam bears its load.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct SeamStrength {
    /// The equivalent stress of the forces on the throat, without the moment.
    pub forces: Pressure,
    /// The same with the moment.
    pub with_moment: Pressure,
    /// Strength over the partial factor and the stress of the forces alone.
    pub reserve_forces: f64,
    /// The same with the moment: what to go by for a seam welded from one side.
    pub reserve: f64,
}

/// The stress on a weld's throat and its reserve, for a filler with the tensile strength `filler`.
///
/// A corner or fillet weld takes the resultant of the two forces as shear, the worst way that it can lie
/// on the throat: `√3 F / a`. A butt weld takes the pull as tension and the other force as shear. The
/// moment bends the throat: `6 M / a²`.
///
/// # Errors
/// [`InputError`] for a figure past its limits.
pub fn seam(weld: Weld, load: Along, filler: Pressure) -> Result<SeamStrength, InputError> {
    let a = weld.throat()?.si();
    let strength = check(Input::Strength, filler.si())? / WELD_FACTOR;
    let pull = check(Input::LineForce, load.pull)?;
    let across = check(Input::LineForce, load.across)?;
    let bending = 6.0 * check(Input::LineForce, load.moment)? / (a * a);
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

/// The metals that a class of fatigue is known for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum FatigueMetal {
    /// Aluminium and its alloys.
    Aluminium,
    /// Steel, stainless steel among them.
    Steel,
}

/// A welded detail that shakes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Detail {
    /// A mount or lug of 50 to 150 mm welded on along the stress.
    MountAlong,
    /// A fillet weld across the stress, at its toe.
    FilletToe,
    /// A fillet or one-sided corner weld across the stress, at its root.
    Root,
    /// A butt weld from one side without backing.
    OneSidedButt,
}

/// The stress range that a detail bears two million times.
///
/// IIW recommendations, XIII-1965-03 (Hobbacher), FAT classes, the lower end of what is given; EN 1999-1-3,
/// annex J, is alike (from memory, one class up or down). A caution, not a design: what shakes a tank in
/// use is seldom known, and a mount that shakes is judged by someone who is licensed to.
#[must_use]
pub const fn fatigue_class(detail: Detail, metal: FatigueMetal) -> Pressure {
    let megapascals = match (metal, detail) {
        (FatigueMetal::Aluminium, Detail::MountAlong) => 25.0,
        (FatigueMetal::Aluminium, Detail::FilletToe) => 22.0,
        (FatigueMetal::Aluminium, Detail::Root | Detail::OneSidedButt) => 12.0,
        (FatigueMetal::Steel, Detail::MountAlong) => 71.0,
        (FatigueMetal::Steel, Detail::FilletToe) => 63.0,
        (FatigueMetal::Steel, Detail::Root | Detail::OneSidedButt) => 36.0,
    };
    Pressure::from_pascals(megapascals * 1e6)
}
