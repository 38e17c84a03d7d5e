//! From a draft to a checked job: every input in its range, every default filled in.

use crate::body::{Block, Cut, Face, Sheet};
use crate::bound::{OutOfRange, Value, within};
use crate::capacity::Measure;
use crate::heat::arc::{Arc, Process, conventional_voltage};
use crate::heat::settings;
use crate::quantity::{Current, Length, LengthUnit, Ratio, Speed, SpeedUnit, Voltage, Volume};
use crate::seam::{Joint, TACK_LENGTH, TACK_PITCH};
use crate::stock::{Alloy, Family, Temper};

use super::{Assumed, Draft, Field, JobError, Name, Problem};

const fn mm(value: f64) -> Length {
    Length::new(value, LengthUnit::Millimetre)
}

/// Smallest and largest dimension of a body.
pub const SIZE: (Length, Length) = (mm(1.0), mm(20_000.0));
/// Thinnest and thickest sheet.
pub const THICKNESS: (Length, Length) = (mm(0.3), mm(25.0));
/// Furthest that a point of a cutting plane may lie from the corner, on each axis.
pub const REACH: Length = mm(100_000.0);
/// Most of the brim that may be kept empty.
pub const HEADSPACE_MOST: Ratio = Ratio::from_share(0.9);
/// Smallest and largest current, for which the conventional load voltage holds.
pub const CURRENT: (Current, Current) = (Current::from_amperes(1.0), Current::from_amperes(600.0));
/// Smallest and largest arc voltage.
pub const VOLTAGE: (Voltage, Voltage) = (Voltage::from_volts(5.0), Voltage::from_volts(60.0));
/// Slowest and fastest travel.
pub const TRAVEL: (Speed, Speed) = (
    Speed::new(5.0, SpeedUnit::MillimetrePerMinute),
    Speed::new(5_000.0, SpeedUnit::MillimetrePerMinute),
);
/// Smallest and largest share of arc energy that counts as heat input.
pub const EFFICIENCY: (Ratio, Ratio) = (Ratio::from_share(0.05), Ratio::from_share(1.0));

/// A job whose inputs are complete and in range.
#[derive(Clone, Debug, PartialEq)]
pub struct Job {
    pub(super) name: Name,
    pub(super) block: Block,
    pub(super) alloy: Alloy,
    pub(super) temper: Option<Temper>,
    pub(super) thickness: Length,
    pub(super) sheet: Sheet,
    pub(super) joint: Joint,
    pub(super) headspace: Ratio,
    pub(super) target: Option<(Measure, Volume)>,
    pub(super) pick_up: Length,
    pub(super) dip_step: Length,
    pub(super) arc: Arc,
    pub(super) stitch_max: Length,
    pub(super) tack_pitch: Option<Length>,
}

impl Job {
    /// What the tank is called.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Its body as its maker describes it.
    #[must_use]
    pub const fn block(&self) -> &Block {
        &self.block
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
    pub const fn joint(&self) -> Joint {
        self.joint
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
    pub fn check(draft: &Draft, mut assumed: impl FnMut(Assumed)) -> Result<Self, JobError> {
        if draft.name.trim().is_empty() {
            return Err(JobError {
                field: Field::Name,
                problem: Problem::Unnamed,
            });
        }
        let block = checked_block(&draft.shape)?;
        let alloy = draft.stock.alloy;
        let thickness = ranged(
            Field::Thickness,
            draft.stock.thickness,
            THICKNESS,
            Value::Length,
        )?;
        let sheet = checked_sheet(draft, thickness)?;

        let joint = draft.joints.default.unwrap_or_else(|| {
            assumed(Assumed::Joint);
            Joint::default()
        });
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
        Ok(Self {
            name: draft.name.clone(),
            block,
            alloy,
            temper: draft.stock.temper,
            thickness,
            sheet,
            joint,
            headspace,
            target,
            pick_up,
            dip_step,
            arc,
            stitch_max,
            tack_pitch,
        })
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

fn ranged<T: Copy + PartialOrd>(
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

fn checked_block(block: &Block) -> Result<Block, JobError> {
    for (field, size) in [
        (Field::Length, block.length),
        (Field::Width, block.width),
        (Field::Height, block.height),
    ] {
        ranged(field, size, SIZE, Value::Length)?;
    }
    // A leg may reach past the far side of its face: the plane is what counts.
    let legs = (mm(0.1), mm(2.0 * 20_000.0));
    for (cut, number) in block.cuts.iter().zip(1_u8..) {
        let check = |values: &[Length], field: fn(u8, u8) -> Field, range| {
            values.iter().zip(1_u8..).try_for_each(|(value, place)| {
                ranged(field(number, place), *value, range, Value::Length).map(|_| ())
            })
        };
        match cut {
            Cut::Edge { legs: values, .. } => check(values, Field::CutLeg, legs)?,
            Cut::Corner { legs: values, .. } => check(values, Field::CutLeg, legs)?,
            Cut::Plane { through, .. } => {
                check(
                    through,
                    Field::CutThrough,
                    (Length::from_metres(-REACH.si()), REACH),
                )?;
            }
        }
    }
    Ok(block.clone())
}

fn checked_sheet(draft: &Draft, thickness: Length) -> Result<Sheet, JobError> {
    let mut sheet = Sheet::uniform(thickness);
    for (face, own) in &draft.stock.faces {
        let field = Field::FaceThickness(*face);
        if let Face::Cut(n) = face
            && !(1..=draft.shape.cuts.len()).contains(&usize::from(*n))
        {
            return Err(JobError {
                field,
                problem: Problem::NoSuchFace(*face),
            });
        }
        sheet.set(*face, ranged(field, *own, THICKNESS, Value::Length)?);
    }
    Ok(sheet)
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
