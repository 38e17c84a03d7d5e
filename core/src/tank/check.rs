//! From a draft to a checked job: every input in its range, every default filled in.

use super::job::Job;
use super::ranged::{mm, ranged};
use super::{Assumed, JobError, Problem, joints, sizes, welding};
use crate::arc::{Arc, conventional_voltage, settings};
use crate::body::SheetPlan;
use crate::input::limits::{
    CURRENT, EFFICIENCY, HEADSPACE_MOST, LEAN_MOST, REACH, SIZE, STITCH_MAX, TEMPERATURE,
    THICKNESS, TRAVEL, VOLTAGE,
};
use crate::input::{Draft, Field};
use crate::seam::TACK_PITCH;
use crate::tables::{Family, Process};
use crate::units::range::Value;
use crate::units::{Angle, Length, Ratio, Temperature, TemperatureUnit, Volume};

impl Job {
    /// Checks a draft, calling `assumed` for every value that the draft leaves to its default.
    ///
    /// # Errors
    /// [`JobError`] names the first input at fault, its value and its limit.
    pub fn check(draft: &Draft, assumed: impl FnMut(Assumed)) -> Result<Self, JobError> {
        let mut job = Self::EMPTY;
        job.take(draft, assumed)?;
        Ok(job)
    }

    /// The check of a draft, made where the job is to stay: several copies of it would not fit a small machine's stack.
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
        let stitch_max = ranged(Field::StitchMax, stitch_max, STITCH_MAX, Value::Length)?;
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
        self.reaches = draft.fill.reaches;
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

fn checked_sheet(draft: &Draft, thickness: Length) -> Result<SheetPlan, JobError> {
    let mut sheet = SheetPlan::uniform(thickness);
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
