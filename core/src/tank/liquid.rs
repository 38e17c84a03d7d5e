//! The liquid of a tank: its dip chart, what can be drawn at a lean, how it grows.

use super::{Plumbing, Tank};
use crate::capacity::{
    Dip, DipError, DipScale, DipStep, Dipped, Expansion, ExpansionError, Lean, Level, Warming,
    WorstUsable, linear_expansion,
};
use crate::geom::Vector;
use crate::geom::split::pieces;
use crate::units::{Area, Length, Volume};

impl Tank {
    /// The dip chart of the level tank: from empty to full in steps of the job's own, the last step
    /// shorter where it must be.
    ///
    /// ```
    /// # use seamwright_core::prelude::*;
    /// # let mm = |value| Length::new(value, LengthUnit::Millimetre);
    /// # let outside = Block::new(mm(320.0), mm(180.0), mm(160.0));
    /// # let draft = Draft::new("Header tank", outside, StockDraft::of(Alloy::A5754, mm(2.0)))?;
    /// # let tank = Tank::build(&draft)?;
    /// let last = tank.dip().last().ok_or("no mark")?;
    /// assert_eq!(last.volume, tank.capacity().brim);
    /// # Ok::<(), Box<dyn core::error::Error>>(())
    /// ```
    pub fn dip(&self) -> impl Iterator<Item = Level> {
        let pool = self.pool(Lean::LEVEL);
        let full = pool.full_depth();
        let step = self.job.dip_step.si();
        let steps = pieces(full.si(), step);
        // `check_counts` has seen to it that these are at most MAX_MARKS.
        let whole = steps as u16;
        (0..=whole).filter_map(move |n| {
            let depth = if n == whole {
                full
            } else {
                Length::from_metres(f64::from(n) * step)
            };
            pool.at(depth).ok()
        })
    }

    /// What can be drawn at the worst of the leans that the job allows, by its own pick-up: [`Reach::worst`](super::Reach::worst); `None` where it
    /// allows none, or where the pick-up draws nothing. Needs some 2,000 clips of the body: a laptop's work.
    #[must_use]
    pub fn worst_usable(&self) -> Option<WorstUsable> {
        self.reach(&Plumbing::default()).ok()?.worst()
    }

    /// Where the pick-up draws: over the middle of the plan where the job says no place.
    #[must_use]
    pub fn pick_up_point(&self) -> Vector {
        let inside = &self.body.inside;
        let (x, y) = match self.job.pick_up_at {
            Some([x, y]) => (x.si(), y.si()),
            None => {
                let middle = |axis: Vector| {
                    let (low, high) = inside.extent(axis);
                    0.5 * (low + high)
                };
                (
                    middle(Vector::new(1.0, 0.0, 0.0)),
                    middle(Vector::new(0.0, 1.0, 0.0)),
                )
            }
        };
        let (low, _) = inside.extent(Vector::new(0.0, 0.0, 1.0));
        Vector::new(x, y, low + self.job.pick_up.si())
    }

    /// The dip rod where the job puts it, read at a lean; `None` where the job puts it nowhere.
    ///
    /// # Errors
    /// [`DipError`] where the rod says nothing at that lean; a place over no liquid is refused when the
    /// tank is built.
    #[must_use]
    pub fn dip_rod(&self, lean: Lean) -> Option<Result<Dipped<'_>, DipError>> {
        Some(Dipped::new(self.pool(lean), self.rod.as_ref()?))
    }

    /// What readings are taken on at a lean: the rod where the job puts one, or else the depth over the lowest inside
    /// point.
    ///
    /// ```
    /// use seamwright_core::capacity::DipStep;
    /// use seamwright_core::prelude::*;
    ///
    /// let mm = |value| Length::new(value, LengthUnit::Millimetre);
    /// let outside = Block::new(mm(404.0), mm(254.0), mm(104.0));
    /// let tank = Tank::build(&Draft::new("Header tank", outside, StockDraft::of(Alloy::A5754, mm(2.0)))?)?;
    /// let chart = tank.dip_scale(Lean::LEVEL)?.marks(DipStep::Reading(mm(25.0)))?;
    /// // 400 mm by 250 mm hold a litre on each 10 mm.
    /// let litres: Vec<String> = chart.map(|dip| dip.volume.display(VolumeUnit::Litre, 1).to_string()).collect();
    /// assert_eq!(litres, ["0.0 L", "2.5 L", "5.0 L", "7.5 L", "10.0 L"]);
    /// # Ok::<(), Box<dyn core::error::Error>>(())
    /// ```
    ///
    /// # Errors
    /// As [`dip_rod`](Self::dip_rod).
    pub fn dip_scale(&self, lean: Lean) -> Result<DipScale<'_>, DipError> {
        match self.dip_rod(lean) {
            Some(rod) => Ok(DipScale::Stick(rod?)),
            None => Ok(DipScale::Depth(self.pool(lean))),
        }
    }

    /// The step of the job's own dip chart.
    #[must_use]
    pub fn dip_step(&self) -> DipStep {
        let by_reading = DipStep::Reading(self.job.dip_step);
        self.job.dip_volume.map_or(by_reading, DipStep::Volume)
    }

    /// How many marks the job's own dip chart has: from empty to full by depth, or by round volume where
    /// the job asks for that.
    #[must_use]
    pub fn dip_count(&self) -> u16 {
        let steps = match self.job.dip_volume {
            Some(step) => libm::floor(self.capacity.brim.si() / step.si() * (1.0 + 1e-12)),
            None => pieces(self.capacity.full_depth.si(), self.job.dip_step.si()),
        };
        // `check_counts` has seen to it that these are at most MAX_MARKS.
        (steps as u16).saturating_add(1)
    }

    /// One mark of that chart, counted from 0: what the rod reads where the job puts one, or else the
    /// depth; and what the tank holds then, with its depth. `None` past the last, or where the rod is dry.
    #[must_use]
    pub fn dip_mark(&self, place: u16) -> Option<(Dip, Length)> {
        if place >= self.dip_count() {
            return None;
        }
        let pool = self.pool(Lean::LEVEL);
        let level = match self.job.dip_volume {
            Some(step) => {
                let volume = Volume::from_cubic_metres(libm::fmin(
                    f64::from(place) * step.si(),
                    pool.brim().si(),
                ));
                let depth = pool.depth_for(volume).ok()?;
                Level {
                    depth,
                    volume,
                    surface: Area::default(),
                }
            }
            None => {
                let depth = f64::from(place) * self.job.dip_step.si();
                let full = pool.full_depth().si();
                pool.at(Length::from_metres(libm::fmin(depth, full))).ok()?
            }
        };
        let reading = match self.dip_rod(Lean::LEVEL) {
            Some(rod) => rod.ok()?.reading_at(level.depth)?,
            None => level.depth,
        };
        let dip = Dip {
            reading,
            volume: level.volume,
        };
        Some((dip, level.depth))
    }

    /// The growth of the liquid from filling to its hottest, into what the fill leaves free, the growth
    /// of the tank itself counted; `None` where the job names no liquid, or no
    /// temperature that it gets to.
    #[must_use]
    pub fn expansion(&self) -> Option<Result<Expansion, ExpansionError>> {
        let [from, hottest] = self.job.temperatures()?;
        let warming = Warming {
            contents: self.job.liquid?.into(),
            fill: self.capacity.fill,
            room: self.capacity.brim,
            from,
            hottest,
            linear: linear_expansion(self.job.alloy.family()),
        };
        Some(warming.expand(&self.pool(Lean::LEVEL)))
    }
}
