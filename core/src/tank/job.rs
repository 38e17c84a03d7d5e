//! The checked inputs of a tank.

use super::welding::{Service, Welding};
use crate::arc::Arc;
use crate::blank::Joints;
use crate::body::SheetPlan;
use crate::input::limits::{MAX_BAFFLES, MAX_FITTINGS};
use crate::input::{BaffleDraft, Block, Face, FittingDraft, Measure, Name, Shape, Sized};
use crate::seam::{TACK_LENGTH, TACK_PITCH};
use crate::tables::{Alloy, Liquid, Process, Temper};
use crate::units::{Angle, Current, Length, Ratio, Speed, Temperature, Voltage, Volume};

/// A job whose inputs are complete and in range.
#[derive(Clone, Debug, PartialEq)]
pub struct Job {
    pub(crate) name: Name,
    pub(crate) shape: Shape,
    pub(crate) alloy: Alloy,
    pub(crate) temper: Option<Temper>,
    pub(crate) thickness: Length,
    pub(crate) sheet: SheetPlan,
    pub(crate) joints: Joints,
    pub(crate) fittings: heapless::Vec<FittingDraft, MAX_FITTINGS>,
    pub(crate) baffles: heapless::Vec<BaffleDraft, MAX_BAFFLES>,
    pub(crate) headspace: Ratio,
    pub(crate) target: Option<(Measure, Volume)>,
    pub(crate) pick_up: Length,
    pub(crate) pick_up_at: Option<[Length; 2]>,
    pub(crate) neck: Option<Length>,
    pub(crate) reaches: Option<Volume>,
    pub(crate) pitch: Angle,
    pub(crate) roll: Angle,
    pub(crate) dip_step: Length,
    pub(crate) dip_volume: Option<Volume>,
    pub(crate) dip_at: Option<[Length; 2]>,
    pub(crate) liquid: Option<Liquid>,
    pub(crate) temperatures: Option<[Temperature; 2]>,
    pub(crate) arc: Arc,
    pub(crate) stitch_max: Length,
    pub(crate) tack_pitch: Option<Length>,
    pub(crate) welding: Welding,
    pub(crate) service: Service,
}

impl Job {
    /// A place for a job that is about to be checked.
    pub(crate) const EMPTY: Self = Self {
        name: Name::new(),
        shape: Shape::Block(Block {
            sized: Sized::Outside,
            length: Length::from_metres(0.0),
            width: Length::from_metres(0.0),
            height: Length::from_metres(0.0),
            cuts: heapless::Vec::new(),
        }),
        alloy: Alloy::A1050,
        temper: None,
        thickness: Length::from_metres(0.0),
        sheet: SheetPlan::uniform(Length::from_metres(0.0)),
        joints: Joints::EMPTY,
        fittings: heapless::Vec::new(),
        baffles: heapless::Vec::new(),
        headspace: Ratio::from_share(0.0),
        target: None,
        pick_up: Length::from_metres(0.0),
        pick_up_at: None,
        neck: None,
        reaches: None,
        pitch: Angle::from_radians(0.0),
        roll: Angle::from_radians(0.0),
        dip_step: Length::from_metres(0.0),
        dip_volume: None,
        dip_at: None,
        liquid: None,
        temperatures: None,
        arc: Arc {
            process: Process::TigAc,
            current: Current::from_amperes(0.0),
            voltage: Voltage::from_volts(0.0),
            travel: Speed::from_metres_per_second(0.0),
            efficiency: Ratio::from_share(0.0),
        },
        stitch_max: Length::from_metres(0.0),
        tack_pitch: None,
        welding: Welding::EMPTY,
        service: Service::EMPTY,
    };

    /// What the tank is called.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Its body as its maker describes it.
    #[must_use]
    pub const fn shape(&self) -> &Shape {
        &self.shape
    }

    /// The alloy of its sheet.
    #[must_use]
    pub const fn alloy(&self) -> Alloy {
        self.alloy
    }

    /// The temper of its sheet, where it was given.
    #[must_use]
    pub const fn temper(&self) -> Option<Temper> {
        self.temper
    }

    /// The thickness of the sheet, all faces that are not set apart.
    #[must_use]
    pub const fn thickness(&self) -> Length {
        self.thickness
    }

    /// The thickness of one face.
    #[must_use]
    pub fn thickness_of(&self, face: Face) -> Length {
        self.sheet.of(face)
    }

    /// How its edges are joined.
    #[must_use]
    pub const fn joints(&self) -> &Joints {
        &self.joints
    }

    /// The sheet of every face.
    #[must_use]
    pub const fn sheet(&self) -> &SheetPlan {
        &self.sheet
    }

    /// What is set into its walls.
    #[must_use]
    pub fn fittings(&self) -> &[FittingDraft] {
        &self.fittings
    }

    /// Plates across its inside.
    #[must_use]
    pub fn baffles(&self) -> &[BaffleDraft] {
        &self.baffles
    }

    /// The share of the brim that stays empty.
    #[must_use]
    pub const fn headspace(&self) -> Ratio {
        self.headspace
    }

    /// What it should hold and by which measure, where that was given.
    #[must_use]
    pub const fn target(&self) -> Option<(Measure, Volume)> {
        self.target
    }

    /// Height of the pick-up above the lowest inside point.
    #[must_use]
    pub const fn pick_up(&self) -> Length {
        self.pick_up
    }

    /// Where the pick-up is on the plan, where that was given.
    #[must_use]
    pub const fn pick_up_at(&self) -> Option<[Length; 2]> {
        self.pick_up_at
    }

    /// Lower edge of the fill neck above the lowest inside point, where that was given.
    #[must_use]
    pub const fn neck(&self) -> Option<Length> {
        self.neck
    }

    /// What of the fill reaches the pick-ups, where that was found to be less than what lies above them.
    #[must_use]
    pub const fn reaches(&self) -> Option<Volume> {
        self.reaches
    }

    /// How far the tank may lean and still draw: lengthwise and sideways, either way.
    #[must_use]
    pub const fn leans(&self) -> [Angle; 2] {
        [self.pitch, self.roll]
    }

    /// Whether it leans in use at all.
    #[must_use]
    pub fn is_leant(&self) -> bool {
        self.leans().iter().any(|lean| lean.si() > 0.0)
    }

    /// Step of the dip chart by volume, where that was given.
    #[must_use]
    pub const fn dip_volume(&self) -> Option<Volume> {
        self.dip_volume
    }

    /// Where the dip rod stands on the plan, where that was given.
    #[must_use]
    pub const fn dip_at(&self) -> Option<[Length; 2]> {
        self.dip_at
    }

    /// What the tank holds, where that was given.
    #[must_use]
    pub const fn liquid(&self) -> Option<Liquid> {
        self.liquid
    }

    /// How warm the liquid is when it is filled and how warm it gets: what is told of it, or how warm the tank gets in
    /// service where that is more; `None` where neither is told, or service is no warmer than the filling.
    #[must_use]
    pub const fn temperatures(&self) -> Option<[Temperature; 2]> {
        self.temperatures
    }

    /// Step of the dip chart.
    #[must_use]
    pub const fn dip_step(&self) -> Length {
        self.dip_step
    }

    /// Settings of the arc.
    #[must_use]
    pub const fn arc(&self) -> &Arc {
        &self.arc
    }

    /// How it is welded, as far as its heat goes.
    #[must_use]
    pub const fn welding(&self) -> &Welding {
        &self.welding
    }

    /// What it is in for.
    #[must_use]
    pub const fn service(&self) -> &Service {
        &self.service
    }

    /// The longest stitch.
    #[must_use]
    pub const fn stitch_max(&self) -> Length {
        self.stitch_max
    }

    /// The length of a tack on a sheet of `thicker`.
    #[must_use]
    pub fn tack_length(&self, thicker: Length) -> Length {
        Length::from_metres(TACK_LENGTH * thicker.si())
    }

    /// The widest spacing of tacks on a seam whose thinner sheet is `thinner`.
    #[must_use]
    pub fn tack_pitch(&self, thinner: Length) -> Length {
        self.tack_pitch
            .unwrap_or(Length::from_metres(TACK_PITCH * thinner.si()))
    }
}
