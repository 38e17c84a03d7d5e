//! The inputs of one tank as plain data: what a job file says and what the wire carries, unchecked.

use heapless::{String, Vec};

use super::limits::{
    MAX_BAFFLE_HOLES, MAX_BAFFLES, MAX_FACES, MAX_FITTINGS, MAX_FOLDS, MAX_LABEL, MAX_MOUNTS,
    MAX_NAME, MAX_OWN_JOINTS,
};
use super::{Face, Field, Joint, Measure, OwnJoint, Shape, TooMany, WallSet};
use crate::tables::{Alloy, Liquid, Process, Temper};
use crate::units::{
    Angle, Current, Length, Pressure, Ratio, Speed, Temperature, Time, Voltage, Volume,
};

/// The name of a fitting.
pub type Label = String<MAX_LABEL>;

/// A job's name.
pub type Name = String<MAX_NAME>;

/// The inputs of one tank. `None` leaves a value to its default, and the plan says which it took.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Draft {
    /// What the tank is called.
    pub name: Name,
    /// Its body.
    pub shape: Shape,
    /// Its sheet.
    pub stock: StockDraft,
    /// How its edges are joined.
    pub joints: JointsDraft,
    /// What is set into its walls.
    pub fittings: Vec<FittingDraft, MAX_FITTINGS>,
    /// Plates across its inside.
    pub baffles: Vec<BaffleDraft, MAX_BAFFLES>,
    /// What it is to hold.
    pub fill: FillDraft,
    /// Settings of the arc.
    pub arc: ArcDraft,
    /// How it is welded.
    pub weld: WeldDraft,
    /// What it is in for.
    pub service: UseDraft,
}

impl Draft {
    /// A tank of that name, shape and sheet, all else left to its default: open corners all round, nothing
    /// set in, what practice supplies.
    ///
    /// Whatever else is known is written over it:
    ///
    /// ```
    /// use seamwright_core::input::{Block, Draft, FillDraft, StockDraft};
    /// use seamwright_core::tables::Alloy;
    /// use seamwright_core::tank::Tank;
    /// use seamwright_core::units::{Length, LengthUnit, Ratio};
    ///
    /// let mm = |value| Length::new(value, LengthUnit::Millimetre);
    /// let header = Draft {
    ///     fill: FillDraft { headspace: Some(Ratio::from_share(0.1)), ..FillDraft::default() },
    ///     ..Draft::new(
    ///         "Header tank",
    ///         Block::new(mm(320.0), mm(180.0), mm(160.0)),
    ///         StockDraft::of(Alloy::A5754, mm(2.0)),
    ///     )?
    /// };
    /// let tank = Tank::build(&header)?;
    /// assert_eq!(tank.panels().count(), 6);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    ///
    /// # Errors
    /// [`TooMany`] where the name is longer than [`MAX_NAME`] bytes.
    pub fn new(name: &str, shape: impl Into<Shape>, stock: StockDraft) -> Result<Self, TooMany> {
        let long = |_| TooMany {
            field: Field::Name,
            most: MAX_NAME,
        };
        Ok(Self {
            name: Name::try_from(name).map_err(long)?,
            shape: shape.into(),
            stock,
            joints: JointsDraft::default(),
            fittings: Vec::new(),
            baffles: Vec::new(),
            fill: FillDraft::default(),
            arc: ArcDraft::default(),
            weld: WeldDraft::default(),
            service: UseDraft::default(),
        })
    }
}

/// Sheet.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct StockDraft {
    /// The alloy.
    pub alloy: Alloy,
    /// Its temper, where it was given.
    pub temper: Option<Temper>,
    /// The thickness all over.
    pub thickness: Length,
    /// Faces of another thickness.
    pub faces: Vec<(Face, Length), MAX_FACES>,
}

impl StockDraft {
    /// Sheet of one alloy and one thickness all over, its temper not told.
    #[must_use]
    pub const fn of(alloy: Alloy, thickness: Length) -> Self {
        Self {
            alloy,
            temper: None,
            thickness,
            faces: Vec::new(),
        }
    }
}

/// Joints.
#[derive(Clone, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct JointsDraft {
    /// The joint of every edge that is not named below.
    pub default: Option<Joint>,
    /// Edges with a joint of their own.
    pub own: Vec<OwnJoint, MAX_OWN_JOINTS>,
    /// Edges that are folded, not welded.
    pub folds: Vec<[Face; 2], MAX_FOLDS>,
    /// Inside radius of every fold.
    pub bend_radius: Option<Length>,
    /// How far in from the inside of a bend its length stays the same, as a share of the thickness.
    pub k_factor: Option<Ratio>,
    /// How far a tee runs past, a joggle laps or a flange reaches.
    pub lap: Option<Length>,
    /// Root gap.
    pub gap: Option<Length>,
}

/// Something set into a wall: a bung, a neck, a pick-up tube, a sender's flange.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct FittingDraft {
    /// What it is called.
    pub name: Label,
    /// The wall that it is set into.
    pub face: Face,
    /// Where its centre is, to the right and up from the lower left corner of the box about the face,
    /// seen from outside. On a drum's shell: along the axis, and round from the closing seam.
    pub at: [Length; 2],
    /// Across its passage; zero for one that is solid.
    pub bore: Length,
    /// Across it where it passes the sheet: the hole.
    pub outer: Option<Length>,
    /// How far it stands into the tank from the outside of the sheet.
    pub stand_in: Length,
}

impl FittingDraft {
    /// A bung: a passage of `bore` whose fitting passes the sheet in a hole `outer` across, centred `at`
    /// on the face and flush inside.
    ///
    /// # Errors
    /// [`TooMany`] where the name is longer than [`MAX_LABEL`] bytes.
    pub fn bung(
        name: &str,
        face: Face,
        at: [Length; 2],
        bore: Length,
        outer: Length,
    ) -> Result<Self, TooMany> {
        let long = |_| TooMany {
            field: Field::Name,
            most: MAX_LABEL,
        };
        Ok(Self {
            name: Label::try_from(name).map_err(long)?,
            face,
            at,
            bore,
            outer: Some(outer),
            stand_in: Length::default(),
        })
    }
}

/// Which size a baffle stands across.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Across {
    /// Along x.
    Length,
    /// Along y.
    Width,
    /// Along z.
    Height,
}

impl Across {
    /// All.
    pub const ALL: [Self; 3] = [Self::Length, Self::Width, Self::Height];

    /// The word for it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Length => "length",
            Self::Width => "width",
            Self::Height => "height",
        }
    }
}

/// A hole in a baffle.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct HoleDraft {
    /// Where its centre is, along the two other axes in the order x, y, z, from the outside corner of
    /// the tank.
    pub at: [Length; 2],
    /// Across it.
    pub diameter: Length,
}

/// A plate across the inside.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct BaffleDraft {
    /// The size that it stands across.
    pub across: Across,
    /// Where its middle stands on that axis, from the outside corner of the tank.
    pub at: Length,
    /// Its sheet; the tank's own where none is given.
    pub thickness: Option<Length>,
    /// Its holes.
    pub holes: Vec<HoleDraft, MAX_BAFFLE_HOLES>,
    /// The walls that it is not welded to from inside.
    pub free: WallSet,
    /// Length of each weld and the gap to the next, where its edges are welded here and there: `l (e)` of ISO 2553.
    pub spaced: Option<[Length; 2]>,
}

impl BaffleDraft {
    /// A baffle without holes, of the tank's own sheet, with its middle `at` that far from the outside
    /// corner of the tank.
    #[must_use]
    pub const fn new(across: Across, at: Length) -> Self {
        Self {
            across,
            at,
            thickness: None,
            holes: Vec::new(),
            free: WallSet::NONE,
            spaced: None,
        }
    }
}

/// What the tank is to hold.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct FillDraft {
    /// Share of the brim that stays empty.
    pub headspace: Option<Ratio>,
    /// What it should hold.
    pub target: Option<Volume>,
    /// By which measure.
    pub target_of: Option<Measure>,
    /// Height of the pick-up above the lowest inside point.
    pub pick_up: Option<Length>,
    /// Where the pick-up is on the plan, along x and y from the outside corner of the tank.
    pub pick_up_at: Option<[Length; 2]>,
    /// Lower edge of the fill neck inside, above the lowest inside point: the tank is full there.
    pub neck: Option<Length>,
    /// How far the tank may lean lengthwise, either way, and still draw.
    pub pitch: Option<Angle>,
    /// How far it may lean sideways, either way, and still draw.
    pub roll: Option<Angle>,
    /// Step of the dip chart by depth.
    pub dip_step: Option<Length>,
    /// Step of the dip chart by volume.
    pub dip_volume: Option<Volume>,
    /// Where the dip rod stands on the plan, along x and y from the outside corner of the tank.
    pub dip_at: Option<[Length; 2]>,
    /// How warm the liquid is when it is filled.
    pub fill_temperature: Option<Temperature>,
    /// How warm it gets.
    pub hottest: Option<Temperature>,
    /// What the tank holds.
    pub liquid: Option<Liquid>,
    /// What of the fill reaches the pick-ups, where a laptop has found that baffles or legs hold some back
    /// ([`Reach::usable`](crate::tank::Reach::usable)): a gauge has no room to find it. `None` where all above the
    /// pick-up does.
    pub reaches: Option<Volume>,
}

/// Settings of the arc.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct ArcDraft {
    /// The process.
    pub process: Option<Process>,
    /// Mean current.
    pub current: Option<Current>,
    /// Mean arc voltage.
    pub voltage: Option<Voltage>,
    /// Speed along the seam.
    pub travel: Option<Speed>,
    /// Share of the arc energy that counts as heat input.
    pub efficiency: Option<Ratio>,
}

/// How the tank is welded.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct WeldDraft {
    /// Longest stitch.
    pub stitch_max: Option<Length>,
    /// Widest spacing of tacks, centre to centre.
    pub tack_pitch: Option<Length>,
    /// The warmest that the metal may be where a stitch starts.
    pub interpass_max: Option<Temperature>,
    /// The air and all around.
    pub ambient: Option<Temperature>,
    /// Emissivity of the outside.
    pub emissivity: Option<Ratio>,
    /// From one stitch to the next, waits not counted.
    pub moving: Option<Time>,
    /// Whether stitches of a seam are welded towards the ones before them.
    pub back_step: Option<bool>,
    /// Least width of an opening that lets hand and torch in.
    pub opening: Option<Length>,
    /// How far they reach from there.
    pub reach: Option<Length>,
}

/// What the tank is in for.
#[derive(Clone, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct UseDraft {
    /// How warm it gets in service.
    pub temperature: Option<Temperature>,
    /// The most that its cap holds back, over the air outside.
    pub pressure: Option<Pressure>,
    /// Accelerations along x, y and z in units of standard gravity, besides its weight.
    pub acceleration: Option<[Ratio; 3]>,
    /// Whether it is anodised after welding.
    pub anodised: Option<bool>,
    /// Where it stands, from the outside corner.
    pub mounts: Vec<[Length; 3], MAX_MOUNTS>,
}
