//! From a draft to a checked job: every input in its range, every default filled in.

use crate::arc::{Arc, conventional_voltage, settings};
use crate::blank::joint::Joints;
use crate::body::Sheet;
use crate::input::{Block, Face, Measure, Shape, Sized};
use crate::seam::{TACK_LENGTH, TACK_PITCH};
use crate::tables::{Alloy, Family, Liquid, Process, Temper};
use crate::units::range::{OutOfRange, Value, within};
use crate::units::{
    Angle, Current, Length, LengthUnit, Ratio, Speed, Temperature, TemperatureUnit, Voltage, Volume,
};

use super::welding;
use super::welding::{Service, Welding};
use super::{Assumed, JobError, Problem, joints, sizes};
use crate::input::limits::{
    CURRENT, EFFICIENCY, HEADSPACE_MOST, LEAN_MOST, MAX_BAFFLES, MAX_FITTINGS, REACH, SIZE,
    TEMPERATURE, THICKNESS, TRAVEL, VOLTAGE,
};
use crate::input::{BaffleDraft, Draft, Field, FittingDraft, Name};

pub(super) const fn mm(value: f64) -> Length {
    Length::new(value, LengthUnit::Millimetre)
}

/// A job whose inputs are complete and in range.
#[derive(Clone, Debug, PartialEq)]
pub struct Job {
    pub(crate) name: Name,
    pub(crate) shape: Shape,
    pub(crate) alloy: Alloy,
    pub(crate) temper: Option<Temper>,
    pub(crate) thickness: Length,
    pub(crate) sheet: Sheet,
    pub(crate) joints: Joints,
    pub(crate) fittings: heapless::Vec<FittingDraft, MAX_FITTINGS>,
    pub(crate) baffles: heapless::Vec<BaffleDraft, MAX_BAFFLES>,
    pub(crate) headspace: Ratio,
    pub(crate) target: Option<(Measure, Volume)>,
    pub(crate) pick_up: Length,
    pub(crate) pick_up_at: Option<[Length; 2]>,
    pub(crate) neck: Option<Length>,
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
        sheet: Sheet::uniform(Length::from_metres(0.0)),
        joints: Joints::EMPTY,
        fittings: heapless::Vec::new(),
        baffles: heapless::Vec::new(),
        headspace: Ratio::from_share(0.0),
        target: None,
        pick_up: Length::from_metres(0.0),
        pick_up_at: None,
        neck: None,
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
    pub const fn sheet(&self) -> &Sheet {
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

    /// How far the tank may lean and still draw: lengthwise and sideways, either way.
    #[must_use]
    pub const fn leans(&self) -> [Angle; 2] {
        [self.pitch, self.roll]
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

    /// How warm the liquid is when it is filled and how warm it gets.
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

    /// Checks a draft, calling `assumed` for every value that the draft leaves to its default.
    ///
    /// # Errors
    /// [`JobError`] names the first input at fault, its value and its limit.
    pub fn check(draft: &Draft, assumed: impl FnMut(Assumed)) -> Result<Self, JobError> {
        let mut job = Self::EMPTY;
        job.take(draft, assumed)?;
        Ok(job)
    }

    /// The same where the job is to stay: several copies of it would not fit a small machine's stack.
    /// After an error it is of no use.
    pub(crate) fn take(
        &mut self,
        draft: &Draft,
        mut assumed: impl FnMut(Assumed),
    ) -> Result<(), JobError> {
        if draft.name.trim().is_empty() {
            return Err(JobError {
                field: Field::Name,
                problem: Problem::Unnamed,
            });
        }
        sizes::shape(&draft.shape)?;
        let alloy = draft.stock.alloy;
        let thickness = ranged(
            Field::Thickness,
            draft.stock.thickness,
            THICKNESS,
            Value::Length,
        )?;
        let sheet = checked_sheet(draft, thickness)?;

        let joints = joints::checked(draft, thickness, &mut assumed)?;
        sizes::fittings(draft)?;
        sizes::baffles(draft)?;
        let headspace = draft.fill.headspace.unwrap_or_else(|| {
            let share = Ratio::from_share(0.05);
            assumed(Assumed::Headspace(share));
            share
        });
        let headspace = ranged(
            Field::Headspace,
            headspace,
            (Ratio::from_share(0.0), HEADSPACE_MOST),
            Value::Ratio,
        )?;
        let target = match draft.fill.target {
            Some(volume) => {
                let most = Volume::from_cubic_metres(8_000.0);
                let least = Volume::from_cubic_metres(0.0);
                Some((
                    draft.fill.target_of.unwrap_or_default(),
                    ranged(Field::Target, volume, (least, most), Value::Volume)?,
                ))
            }
            None => None,
        };
        let pick_up = draft.fill.pick_up.unwrap_or_default();
        let pick_up = ranged(
            Field::PickUp,
            pick_up,
            (Length::default(), SIZE.1),
            Value::Length,
        )?;
        let dip_step = draft.fill.dip_step.unwrap_or(mm(10.0));
        let dip_step = ranged(Field::DipStep, dip_step, (mm(0.1), SIZE.1), Value::Length)?;

        let fill = checked_fill(draft, &mut assumed)?;

        let arc = checked_arc(draft, alloy.family(), thickness, &mut assumed)?;

        let stitch_max = draft.weld.stitch_max.unwrap_or_else(|| {
            let most = usual_stitch(alloy.family());
            assumed(Assumed::StitchMax(most));
            most
        });
        let stitch_max = ranged(
            Field::StitchMax,
            stitch_max,
            (mm(1.0), SIZE.1),
            Value::Length,
        )?;
        if draft.weld.tack_pitch.is_none() {
            assumed(Assumed::TackPitch(Length::from_metres(
                TACK_PITCH * thickness.si(),
            )));
        }
        let tack_pitch = match draft.weld.tack_pitch {
            Some(pitch) => Some(ranged(
                Field::TackPitch,
                pitch,
                (mm(1.0), SIZE.1),
                Value::Length,
            )?),
            None => None,
        };
        let welding = welding::checked(draft, arc.process, &mut assumed)?;
        welding::check_service(draft)?;
        self.name.clone_from(&draft.name);
        self.shape.clone_from(&draft.shape);
        self.alloy = alloy;
        self.temper = draft.stock.temper;
        self.thickness = thickness;
        self.sheet = sheet;
        self.joints = joints;
        self.fittings.clear();
        // As many as the draft may have.
        let _ = self.fittings.extend_from_slice(&draft.fittings);
        self.baffles.clear();
        // As many as the draft may have.
        let _ = self.baffles.extend_from_slice(&draft.baffles);
        self.headspace = headspace;
        self.target = target;
        self.pick_up = pick_up;
        self.pick_up_at = fill.pick_up_at;
        self.neck = fill.neck;
        self.pitch = fill.pitch;
        self.roll = fill.roll;
        self.dip_step = dip_step;
        self.dip_volume = fill.dip_volume;
        self.dip_at = fill.dip_at;
        self.liquid = draft.fill.liquid;
        self.temperatures = fill.temperatures;
        self.arc = arc;
        self.stitch_max = stitch_max;
        self.tack_pitch = tack_pitch;
        self.welding = welding;
        self.service.take(draft);
        Ok(())
    }
}

/// The longest stitch where the job names none: common practice, no source. About 75 to 100 mm on thin
/// aluminium, 25 to 50 mm on steels.
fn usual_stitch(family: Family) -> Length {
    match family {
        Family::Aluminium => mm(80.0),
        Family::Stainless | Family::Steel => mm(50.0),
    }
}

pub(crate) fn ranged<T: Copy + PartialOrd>(
    field: Field,
    value: T,
    (least, most): (T, T),
    show: fn(T) -> Value,
) -> Result<T, JobError> {
    within(value, least, most, show).map_err(|error: OutOfRange| JobError {
        field,
        problem: Problem::OutOfRange(error),
    })
}

fn checked_sheet(draft: &Draft, thickness: Length) -> Result<Sheet, JobError> {
    let mut sheet = Sheet::uniform(thickness);
    for (face, own) in &draft.stock.faces {
        let field = Field::FaceThickness(*face);
        let missing = JobError {
            field,
            problem: Problem::NoSuchFace(*face),
        };
        if !draft.shape.has(*face) {
            return Err(missing);
        }
        let own = ranged(field, *own, THICKNESS, Value::Length)?;
        sheet.set(*face, own).map_err(|_| missing)?;
    }
    Ok(sheet)
}

/// What was checked of `[fill]` beside the measures that every tank has.
struct Fill {
    pick_up_at: Option<[Length; 2]>,
    neck: Option<Length>,
    pitch: Angle,
    roll: Angle,
    dip_volume: Option<Volume>,
    dip_at: Option<[Length; 2]>,
    temperatures: Option<[Temperature; 2]>,
}

fn checked_fill(draft: &Draft, assumed: &mut impl FnMut(Assumed)) -> Result<Fill, JobError> {
    let fill = &draft.fill;
    let optional = |field, value: Option<Length>, range| match value {
        Some(value) => ranged(field, value, range, Value::Length).map(Some),
        None => Ok(None),
    };
    let place = |field, at: Option<[Length; 2]>| match at {
        Some([x, y]) => {
            let range = (Length::from_metres(-REACH.si()), REACH);
            let x = ranged(field, x, range, Value::Length)?;
            let y = ranged(field, y, range, Value::Length)?;
            Ok(Some([x, y]))
        }
        None => Ok(None),
    };
    let lean = |field, angle: Option<Angle>| {
        ranged(
            field,
            angle.unwrap_or_default(),
            (Angle::default(), LEAN_MOST),
            Value::Angle,
        )
    };
    let dip_volume = match fill.dip_volume {
        Some(volume) => Some(ranged(
            Field::DipVolume,
            volume,
            (
                Volume::from_cubic_metres(1e-6),
                Volume::from_cubic_metres(8_000.0),
            ),
            Value::Volume,
        )?),
        None => None,
    };
    let temperature = |field, value| ranged(field, value, TEMPERATURE, Value::Temperature);
    let temperatures = match (fill.hottest, fill.fill_temperature) {
        (Some(hottest), cold) => {
            let cold = cold.unwrap_or_else(|| {
                let usual = Temperature::new(15.0, TemperatureUnit::Celsius);
                assumed(Assumed::FillTemperature(usual));
                usual
            });
            Some([
                temperature(Field::FillTemperature, cold)?,
                temperature(Field::Hottest, hottest)?,
            ])
        }
        (None, Some(cold)) => {
            temperature(Field::FillTemperature, cold)?;
            None
        }
        (None, None) => None,
    };
    Ok(Fill {
        pick_up_at: place(Field::PickUpAt, fill.pick_up_at)?,
        neck: optional(Field::Neck, fill.neck, (mm(0.1), SIZE.1))?,
        pitch: lean(Field::Pitch, fill.pitch)?,
        roll: lean(Field::Roll, fill.roll)?,
        dip_volume,
        dip_at: place(Field::DipAt, fill.dip_at)?,
        temperatures,
    })
}

fn checked_arc(
    draft: &Draft,
    family: Family,
    thickness: Length,
    assumed: &mut impl FnMut(Assumed),
) -> Result<Arc, JobError> {
    let missing = |field| JobError {
        field,
        problem: Problem::NoStartingValue,
    };
    let process = draft.arc.process.unwrap_or_else(|| {
        let usual = Process::usual(family);
        assumed(Assumed::Process(usual));
        usual
    });
    let current = match draft.arc.current {
        Some(current) => current,
        None => {
            let start = settings::current(family, thickness).ok_or(missing(Field::Current))?;
            assumed(Assumed::Current(start));
            start.value
        }
    };
    let current = ranged(Field::Current, current, CURRENT, Value::Current)?;
    let voltage = draft.arc.voltage.unwrap_or_else(|| {
        let voltage = conventional_voltage(current);
        assumed(Assumed::Voltage(voltage));
        voltage
    });
    let voltage = ranged(Field::Voltage, voltage, VOLTAGE, Value::Voltage)?;
    let travel = match draft.arc.travel {
        Some(travel) => travel,
        None => {
            let start = settings::travel(family, thickness).ok_or(missing(Field::Travel))?;
            assumed(Assumed::Travel(start));
            start.value
        }
    };
    let travel = ranged(Field::Travel, travel, TRAVEL, Value::Speed)?;
    let efficiency = draft.arc.efficiency.unwrap_or_else(|| {
        let factor = process.nominal_efficiency();
        assumed(Assumed::Efficiency(factor));
        factor
    });
    let efficiency = ranged(Field::Efficiency, efficiency, EFFICIENCY, Value::Ratio)?;
    Ok(Arc {
        process,
        current,
        voltage,
        travel,
        efficiency,
    })
}
