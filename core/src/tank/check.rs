//! From a draft to a checked job: every input in its range, every default filled in.

use super::job::Job;
use super::ranged::{Inspection, mm};
use super::{Assumed, JobError, Problem, bounds, joints, sizes};
use crate::arc::{conventional_voltage, settings};
use crate::body::SheetPlan;
use crate::input::limits::{CURRENT, TRAVEL};
use crate::input::{Draft, Field};
use crate::seam::TACK_PITCH;
use crate::tables::{Family, Process};
use crate::units::{Length, Ratio, Temperature, TemperatureUnit};

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
        let mut look = Inspection::default();
        if draft.name.trim().is_empty() {
            look.refuse(Field::Name, Problem::Unnamed);
        }
        self.name.clone_from(&draft.name);
        sizes::shape(&mut look, &draft.shape);
        self.shape.clone_from(&draft.shape);
        self.take_sheet(draft, &mut look);
        let thickness = self.thickness;
        joints::take(&mut self.joints, draft, thickness, &mut look, &mut assumed);
        sizes::fittings(&mut look, draft);
        self.fittings.clear();
        // As many as the draft may have, as of the baffles.
        let _ = self.fittings.extend_from_slice(&draft.fittings);
        sizes::baffles(&mut look, draft);
        self.baffles.clear();
        let _ = self.baffles.extend_from_slice(&draft.baffles);
        self.take_fill(draft, &mut look, &mut assumed);
        self.take_arc(draft, &mut look, &mut assumed);

        self.stitch_max = draft.weld.stitch_max.unwrap_or_else(|| {
            let most = usual_stitch(self.alloy.family());
            assumed(Assumed::StitchMax(most));
            most
        });
        look.hold(Field::StitchMax, self.stitch_max, &bounds::STITCH_MAX);
        self.tack_pitch = draft.weld.tack_pitch;
        look.hold_some(Field::TackPitch, self.tack_pitch, &bounds::TACK_PITCH);
        if self.tack_pitch.is_none() {
            let pitch = Length::from_metres(TACK_PITCH * thickness.si());
            assumed(Assumed::TackPitch(pitch));
        }
        let process = self.arc.process;
        self.welding.take(draft, process, &mut look, &mut assumed);
        self.service.take(draft, &mut look);
        look.outcome()
    }

    /// Alloy and sheet.
    fn take_sheet(&mut self, draft: &Draft, look: &mut Inspection) {
        let stock = &draft.stock;
        self.alloy = stock.alloy;
        self.temper = stock.temper;
        self.thickness = stock.thickness;
        look.hold(Field::Thickness, self.thickness, &bounds::THICKNESS);
        self.sheet = SheetPlan::uniform(self.thickness);
        for &(face, own) in &stock.faces {
            let field = Field::FaceThickness(face);
            if draft.shape.has(face) {
                look.hold(field, own, &bounds::THICKNESS);
            }
            // A sheet plan is full before the faces of a shape are all.
            if !draft.shape.has(face) || self.sheet.set(face, own).is_err() {
                look.refuse(field, Problem::NoSuchFace(face));
            }
        }
    }

    /// What the tank is to hold, and how it stands.
    fn take_fill(
        &mut self,
        draft: &Draft,
        look: &mut Inspection,
        assumed: &mut impl FnMut(Assumed),
    ) {
        let fill = &draft.fill;
        self.headspace = fill.headspace.unwrap_or_else(|| {
            let share = Ratio::from_share(0.05);
            assumed(Assumed::Headspace(share));
            share
        });
        look.hold(Field::Headspace, self.headspace, &bounds::HEADSPACE);
        let measure = fill.target_of.unwrap_or_default();
        self.target = fill.target.map(|volume| (measure, volume));
        look.hold_some(Field::Target, fill.target, &bounds::TARGET);
        self.pick_up = fill.pick_up.unwrap_or_default();
        look.hold(Field::PickUp, self.pick_up, &bounds::PICK_UP);
        self.dip_step = fill.dip_step.unwrap_or(mm(10.0));
        look.hold(Field::DipStep, self.dip_step, &bounds::DIP_STEP);
        self.dip_volume = fill.dip_volume;
        look.hold_some(Field::DipVolume, self.dip_volume, &bounds::DIP_VOLUME);

        let usual = Temperature::new(15.0, TemperatureUnit::Celsius);
        let cold = fill.fill_temperature.unwrap_or(usual);
        // The liquid gets as warm as the tank in service, where that is warmer than what is told of the liquid.
        let used = draft.service.temperature;
        let used = used.filter(|used| *used > fill.hottest.unwrap_or(cold));
        let warmed = fill.hottest.or(used.filter(|_| fill.liquid.is_some()));
        if warmed.is_some() && fill.fill_temperature.is_none() {
            assumed(Assumed::FillTemperature(usual));
        }
        look.hold(Field::FillTemperature, cold, &bounds::TEMPERATURE);
        look.hold_some(Field::Hottest, fill.hottest, &bounds::TEMPERATURE);
        self.temperatures = used.or(fill.hottest).map(|hottest| [cold, hottest]);

        self.pick_up_at = fill.pick_up_at;
        let place = self.pick_up_at.as_slice().as_flattened();
        look.hold_all(Field::PickUpAt, place, &bounds::PLACE);
        self.neck = fill.neck;
        look.hold_some(Field::Neck, self.neck, &bounds::NECK);
        self.pitch = fill.pitch.unwrap_or_default();
        look.hold(Field::Pitch, self.pitch, &bounds::LEAN);
        self.roll = fill.roll.unwrap_or_default();
        look.hold(Field::Roll, self.roll, &bounds::LEAN);
        self.dip_at = fill.dip_at;
        let place = self.dip_at.as_slice().as_flattened();
        look.hold_all(Field::DipAt, place, &bounds::PLACE);
        self.liquid = fill.liquid;
        self.reaches = fill.reaches;
    }

    /// Settings of the arc.
    fn take_arc(
        &mut self,
        draft: &Draft,
        look: &mut Inspection,
        assumed: &mut impl FnMut(Assumed),
    ) {
        let (own, arc, thickness) = (&draft.arc, &mut self.arc, self.thickness);
        let family = self.alloy.family();
        arc.process = own.process.unwrap_or_else(|| {
            let usual = Process::usual(family);
            assumed(Assumed::Process(usual));
            usual
        });
        arc.current = match own.current {
            Some(current) => current,
            None => match settings::current(arc.process, family, thickness) {
                Some(start) => {
                    assumed(Assumed::Current(start));
                    start.value
                }
                None => {
                    look.refuse(Field::Current, Problem::NoStartingValue);
                    CURRENT.0
                }
            },
        };
        look.hold(Field::Current, arc.current, &bounds::CURRENT);
        arc.voltage = own.voltage.unwrap_or_else(|| {
            let voltage = conventional_voltage(arc.process, arc.current);
            assumed(Assumed::Voltage(voltage));
            voltage
        });
        look.hold(Field::Voltage, arc.voltage, &bounds::VOLTAGE);
        arc.travel = match own.travel {
            Some(travel) => travel,
            None => match settings::travel(arc.process, family, thickness) {
                Some(start) => {
                    assumed(Assumed::Travel(start));
                    start.value
                }
                None => {
                    look.refuse(Field::Travel, Problem::NoStartingValue);
                    TRAVEL.0
                }
            },
        };
        look.hold(Field::Travel, arc.travel, &bounds::TRAVEL);
        arc.efficiency = own.efficiency.unwrap_or_else(|| {
            let factor = arc.process.nominal_efficiency();
            assumed(Assumed::Efficiency(factor));
            factor
        });
        look.hold(Field::Efficiency, arc.efficiency, &bounds::EFFICIENCY);
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
