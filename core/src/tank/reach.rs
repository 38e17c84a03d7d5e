//! What of a tank's liquid reaches its pick-ups, and where its air gets out: how baffles and the body's own legs part it.

use core::fmt;

use heapless::Vec;

use super::Tank;
use crate::capacity::{Drawing, FillTo, Lean, LeanRange, MAX_PICK_UPS, Pool, WorstUsable};
use crate::compartment::{
    Compartments, Heights, MAX_PIPES, Mouth, PickUp, PickUpOutside, TooManyPieces,
};
use crate::fitting::Fitting;
use crate::geom::Vector;
use crate::input::limits::MAX_FITTINGS;
use crate::units::{Length, LengthUnit, Volume};

/// A passage opens into what lies this far within its inner end, in metres: past the rounding of where that is.
const WITHIN: f64 = 1e-4;
/// A level may be off by this, in metres, and be the same.
const SAME: f64 = 1e-9;

/// What joins compartments outside the tank, and what draws beside the pick-up of the job. Fittings count from 1.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Plumbing {
    /// Fittings through which liquid is drawn, in place of the job's own pick-up; none where that draws.
    pub draws: Vec<u8, MAX_PICK_UPS>,
    /// Pairs of fittings that a balance pipe joins, which runs nowhere higher than its ends.
    pub pipes: Vec<[u8; 2], MAX_PIPES>,
}

/// Why a tank as its compartments lie cannot be made, or cannot be drawn from.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum ReachError {
    /// The inside is in more pieces than can be followed.
    TooMany(TooManyPieces),
    /// A compartment is shut all round: no hole and no fitting lets its air out while it is welded.
    ShutIn {
        /// A baffle that shuts it, counted from 1, where one does.
        baffle: Option<u8>,
        /// Where it begins along x, y and z.
        low: [Length; 3],
        /// Where it ends.
        high: [Length; 3],
    },
    /// The pick-up of the job lies in no compartment.
    PickUp {
        /// Where it is.
        at: [Length; 3],
        /// How far off.
        error: PickUpOutside,
    },
    /// The inner end of a fitting that draws, or that a pipe joins, lies in no compartment.
    Fitting {
        /// The fitting, counted from 1.
        fitting: u8,
        /// How far off.
        error: PickUpOutside,
    },
    /// No fitting has that number, or it has no bore.
    NoPassage {
        /// The number, counted from 1.
        fitting: u8,
    },
}

impl fmt::Display for ReachError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mm = |length: &Length| length.display(LengthUnit::Millimetre, 1);
        match self {
            Self::TooMany(error) => error.fmt(f),
            Self::ShutIn { low, high, .. } => write!(
                f,
                "the compartment from {}, {}, {} to {}, {}, {} along x, y and z is shut all round: welded so, the air in it heats with no way out and can burst the last seam; give the baffle a hole, or this compartment a fitting with a bore",
                mm(&low[0]),
                mm(&low[1]),
                mm(&low[2]),
                mm(&high[0]),
                mm(&high[1]),
                mm(&high[2])
            ),
            Self::PickUp {
                at: [x, y, z],
                error,
            } => write!(
                f,
                "the pick-up at {}, {}, {} along x, y and z draws nothing: {error}",
                mm(x),
                mm(y),
                mm(z)
            ),
            Self::Fitting { fitting, error } => {
                write!(
                    f,
                    "the inner end of fitting {fitting} draws nothing: {error}"
                )
            }
            Self::NoPassage { fitting } => {
                write!(f, "fitting {fitting} has no bore, or is not there")
            }
        }
    }
}

impl core::error::Error for ReachError {}

/// A tank with its compartments, pick-ups and openings for air.
#[derive(Clone, Debug)]
pub struct Reach<'a> {
    tank: &'a Tank,
    parted: Compartments,
    pick_ups: Vec<PickUp, MAX_PICK_UPS>,
    /// Passages whose inner end stands over the fill mark while the tank is level, and the pieces that they open into.
    airs: Vec<(usize, Mouth), MAX_FITTINGS>,
    /// Whether any fitting has a passage.
    has_passage: bool,
    /// The fill mark, along z in metres from the origin.
    fill_level: f64,
    told_place: bool,
}

/// What one compartment keeps.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Kept {
    /// The compartment, counted from 0.
    pub compartment: usize,
    /// What stays in it when all is drawn that the pick-ups reach, below the pick-ups too.
    pub volume: Volume,
    /// Of that, what stays because it would have to rise over something to get to a pick-up.
    pub pooled: Volume,
    /// Where that pool begins along x, y and z.
    pub low: [Length; 3],
    /// Where it ends; the surface, along z, while the tank stands level.
    pub high: [Length; 3],
}

/// Air that stays shut in while a tank is filled at a lean.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct ShutAir {
    /// The lean.
    pub lean: Lean,
    /// The air.
    pub air: Volume,
    /// What the tank takes so.
    pub takes: Volume,
    /// The compartment that most of it is in, counted from 0.
    pub compartment: usize,
}

impl Tank {
    /// Parts the inside and finds what reaches the pick-ups.
    ///
    /// # Errors
    /// [`ReachError`] where a compartment is shut all round though others are not, or where a pick-up or a pipe leads
    /// nowhere.
    pub fn reach(&self, plumbing: &Plumbing) -> Result<Reach<'_>, ReachError> {
        let mut parted =
            Compartments::of(&self.body.inside, &self.inner).map_err(ReachError::TooMany)?;
        for [one, other] in &plumbing.pipes {
            let ends = [self.mouth(*one)?, self.mouth(*other)?];
            let [a, b] = [
                opened(&parted, *one, ends[0])?,
                opened(&parted, *other, ends[1])?,
            ];
            parted
                .add_pipe([a.piece, b.piece], ends)
                .map_err(ReachError::TooMany)?;
        }
        let mut pick_ups = Vec::new();
        for number in &plumbing.draws {
            let mouth = self.mouth(*number)?;
            // As many as there may be.
            let _ = pick_ups.push(opened(&parted, *number, mouth)?);
        }
        let told_place = !plumbing.draws.is_empty() || self.job.pick_up_at.is_some();
        if plumbing.draws.is_empty() {
            let at = self.pick_up_point();
            let mouth = Mouth::point(at);
            let pick_up = if told_place {
                parted.pick_up(mouth).map_err(|error| ReachError::PickUp {
                    at: [at.x, at.y, at.z].map(Length::from_metres),
                    error,
                })?
            } else {
                parted.nearest_pick_up(mouth)
            };
            let _ = pick_ups.push(pick_up);
        }
        let pool = self.pool(Lean::LEVEL);
        let fill_level = pool.height_of(self.capacity.fill_depth);
        let mut airs = Vec::new();
        let mut has_passage = false;
        for fitting in self.fittings().filter(|one| one.bore().si() > 0.0) {
            has_passage = true;
            let mouth = fitting.mouth();
            if mouth.high(pool.up()) >= fill_level - SAME {
                each_opened(&parted, mouth, |piece| {
                    if !airs.contains(&(piece, mouth)) {
                        // Those past the last add nothing that the others do not say.
                        let _ = airs.push((piece, mouth));
                    }
                });
            }
        }
        let reach = Reach {
            tank: self,
            parted,
            pick_ups,
            airs,
            has_passage,
            fill_level,
            told_place,
        };
        reach.check_air()?;
        Ok(reach)
    }

    /// The inner end of a fitting, counted from 1.
    fn mouth(&self, number: u8) -> Result<Mouth, ReachError> {
        let missing = ReachError::NoPassage { fitting: number };
        let place = usize::from(number).checked_sub(1).ok_or(missing)?;
        let fitting = self.fittings().nth(place).ok_or(missing)?;
        if fitting.bore().si() > 0.0 {
            Ok(fitting.mouth())
        } else {
            Err(missing)
        }
    }
}

impl Fitting<'_> {
    /// Its inner end.
    pub(crate) fn mouth(&self) -> Mouth {
        let deep = self.sheet.si() + self.stand_in().si();
        Mouth {
            at: self.centre + self.inward * deep,
            axis: self.inward,
            radius: 0.5 * self.bore().si(),
        }
    }
}

/// The pick-up at the inner end of a fitting.
fn opened(parted: &Compartments, fitting: u8, mouth: Mouth) -> Result<PickUp, ReachError> {
    let within = Mouth {
        at: mouth.at + mouth.axis * WITHIN,
        ..mouth
    };
    let pick_up = parted
        .pick_up(within)
        .map_err(|error| ReachError::Fitting { fitting, error })?;
    Ok(PickUp { mouth, ..pick_up })
}

/// Calls `show` with every piece that a passage opens into.
fn each_opened(parted: &Compartments, mouth: Mouth, mut show: impl FnMut(usize)) {
    let reference = if libm::fabs(mouth.axis.z) > 0.9 {
        Vector::new(1.0, 0.0, 0.0)
    } else {
        Vector::new(0.0, 0.0, 1.0)
    };
    let right = mouth.axis.cross(reference).unit().unwrap_or_default();
    let ahead = mouth.axis.cross(right);
    let middle = mouth.at + mouth.axis * WITHIN;
    let mut see = |point| {
        if let Some(piece) = parted.piece_at(point, 0.0) {
            show(piece);
        }
    };
    see(middle);
    for n in 0..8_u8 {
        let (sine, cosine) = libm::sincos(f64::from(n) * core::f64::consts::FRAC_PI_4);
        see(middle + (right * cosine + ahead * sine) * (0.99 * mouth.radius));
    }
}

impl Reach<'_> {
    /// How the inside is parted.
    #[must_use]
    pub const fn compartments(&self) -> &Compartments {
        &self.parted
    }

    /// Whether the inner end of a fitting opens into a compartment, counted from 0.
    pub(crate) fn opens_into(&self, fitting: &Fitting<'_>, compartment: usize) -> bool {
        let mut opens = false;
        each_opened(&self.parted, fitting.mouth(), |piece| {
            opens |= self.parted.room_of(piece) == compartment;
        });
        opens
    }

    /// Whether the job says where the pick-up is; else it is taken to be in the middle of the plan, or in the compartment
    /// nearest to that.
    #[must_use]
    pub const fn is_place_told(&self) -> bool {
        self.told_place
    }

    /// The compartments that pick-ups draw from, counted from 0, each once.
    #[must_use]
    pub fn drawn_from(&self) -> Vec<usize, MAX_PICK_UPS> {
        let mut all = Vec::new();
        for one in &self.pick_ups {
            let room = self.parted.room_of(one.piece);
            if !all.contains(&room) {
                // As many as there may be pick-ups.
                let _ = all.push(room);
            }
        }
        all
    }

    /// The compartment that one drains into on its way to a pick-up, both counted from 0; `None` where it holds the
    /// pick-up, or where no way leads to one.
    #[must_use]
    pub fn drains_to(&self, compartment: usize) -> Option<usize> {
        let mut ends: Vec<usize, MAX_PICK_UPS> = Vec::new();
        for one in &self.pick_ups {
            let _ = ends.push(one.piece);
        }
        let next = self.parted.next_on_the_way(&ends);
        next.get(compartment).copied().flatten().map(usize::from)
    }

    /// What the pick-ups draw from the level tank, filled to its mark: less than what lies above them where baffles or legs
    /// hold some back. The fill is taken to stand at the mark in every compartment.
    #[must_use]
    pub fn usable(&self) -> Volume {
        let pool = self.tank.pool(Lean::LEVEL);
        let up = pool.up();
        let lowest = self.lowest(up);
        let origin = pool.height_of(Length::from_metres(0.0));
        let own = self.tank.job.pick_up;
        let depth = if libm::fabs(own.si() + origin - lowest) <= SAME {
            // To the last bit as where all of it is one pool.
            own
        } else {
            Length::from_metres(libm::fmax(lowest - origin, 0.0))
        };
        let below = pool.at(depth).map_or(pool.brim(), |level| level.volume);
        let above = self.tank.capacity.fill.si() - below.si();
        let drawn = self.parted.drawn_to(up, &self.pick_ups);
        let kept: f64 = self
            .each_kept(up, &drawn, self.fill_level, lowest)
            .map(|(_, _, pooled)| pooled)
            .sum();
        Volume::from_cubic_metres(libm::fmax(above - kept, 0.0))
    }

    /// The lowest level at which a pick-up still draws.
    fn lowest(&self, up: Vector) -> f64 {
        self.pick_ups
            .iter()
            .map(|one| one.mouth.high(up))
            .fold(f64::INFINITY, libm::fmin)
    }

    /// For each piece what stays in it, where no liquid stands above `fill`, and what of that lies above `lowest`.
    fn each_kept<'s>(
        &'s self,
        up: Vector,
        drawn: &'s Heights,
        fill: f64,
        lowest: f64,
    ) -> impl Iterator<Item = (usize, f64, f64)> + 's {
        drawn.iter().enumerate().map(move |(piece, to)| {
            let to = libm::fmin(*to, fill);
            let all = self.parted.below(piece, up, to);
            // Nearer than that they are one level, rounded twice.
            let pooled = if to > lowest + SAME {
                all - self.parted.below(piece, up, lowest)
            } else {
                0.0
            };
            (piece, all, pooled)
        })
    }

    /// Calls `show` with what each compartment keeps when all is drawn from the level tank.
    pub fn each_kept_level(&self, show: impl FnMut(Kept)) {
        self.each_kept_at(Lean::LEVEL, self.fill_level, show);
    }

    /// Calls `show` with what each compartment may keep at a lean, taken to be as full there as it can be.
    pub fn each_kept_leaning(&self, lean: Lean, show: impl FnMut(Kept)) {
        self.each_kept_at(lean, f64::INFINITY, show);
    }

    fn each_kept_at(&self, lean: Lean, fill: f64, mut show: impl FnMut(Kept)) {
        let up = lean.up();
        let drawn = self.parted.drawn_to(up, &self.pick_ups);
        let lowest = self.lowest(up);
        for room in 0..self.parted.count() {
            let (mut volume, mut pooled) = (0.0, 0.0);
            let mut pools: Vec<usize, { crate::compartment::MAX_PIECES }> = Vec::new();
            let mut surface = f64::NEG_INFINITY;
            for (piece, all, over) in self.each_kept(up, &drawn, fill, lowest) {
                if self.parted.room_of(piece) != room {
                    continue;
                }
                let shut = !drawn.get(piece).is_some_and(|to| to.is_finite());
                let level = drawn.get(piece).copied().unwrap_or(f64::INFINITY);
                // What no way leads from stays whatever the lean.
                let (all, over) = if shut && !fill.is_finite() {
                    let own = self.parted.below(piece, Lean::LEVEL.up(), self.fill_level);
                    (own, own)
                } else {
                    (all, over)
                };
                volume += all;
                pooled += over;
                if over > 0.0 {
                    // As many as there are pieces.
                    let _ = pools.push(piece);
                    surface = libm::fmax(surface, libm::fmin(level, fill));
                }
            }
            let [low, mut high] = if pools.is_empty() {
                self.parted.bounds(self.parted.pieces_of(room))
            } else {
                self.parted.bounds(pools.iter().copied())
            };
            if lean == Lean::LEVEL && surface.is_finite() {
                high[2] = libm::fmin(high[2], surface);
            }
            show(Kept {
                compartment: room,
                volume: Volume::from_cubic_metres(volume),
                pooled: Volume::from_cubic_metres(pooled),
                low: low.map(Length::from_metres),
                high: high.map(Length::from_metres),
            });
        }
    }

    /// What can be drawn at the worst of the leans that the job allows; `None` where it allows none. No opening is
    /// taken to spill.
    #[must_use]
    pub fn worst(&self) -> Option<WorstUsable> {
        let leans = self.leans()?;
        let fill = FillTo::Volume(self.tank.capacity.fill);
        let drawing = Drawing::new(self.tank.space(), &self.parted, fill, &self.pick_ups, &[]);
        Some(drawing.ok()?.worst(leans))
    }

    fn leans(&self) -> Option<LeanRange> {
        let [pitch, roll] = self.tank.job.leans();
        if pitch.si() == 0.0 && roll.si() == 0.0 {
            return None;
        }
        LeanRange::either_way(pitch, roll).ok()
    }

    /// Whether some passage opens above the fill mark; `None` where the job names no passage at all.
    #[must_use]
    pub fn breathes(&self) -> Option<bool> {
        self.has_passage.then_some(!self.airs.is_empty())
    }

    /// The air that cannot get out while the tank is filled at a lean, by any passage that stands above the fill mark when
    /// it is level; `None` where there is none.
    #[must_use]
    pub fn shut_air(&self, lean: Lean) -> Option<ShutAir> {
        (!self.airs.is_empty()).then(|| {
            let pool = Pool::new(self.tank.space(), lean);
            let mut most = (0, 0.0);
            let mut air = 0.0;
            for room in 0..self.parted.count() {
                let own = self.shut_in(lean.up(), |piece| self.parted.room_of(piece) == room);
                air += own;
                if own > most.1 {
                    most = (room, own);
                }
            }
            ShutAir {
                lean,
                air: Volume::from_cubic_metres(air),
                takes: Volume::from_cubic_metres(libm::fmax(pool.brim().si() - air, 0.0)),
                compartment: most.0,
            }
        })
    }

    /// The lean of those that the job allows at which the most air stays shut in.
    #[must_use]
    pub fn worst_shut_air(&self) -> Option<ShutAir> {
        if self.airs.is_empty() {
            return None;
        }
        let (lean, _) = self
            .leans()?
            .least(|lean| -self.shut_in(lean.up(), |_| true));
        self.shut_air(lean)
    }

    /// The air shut in in some pieces, in m³.
    fn shut_in(&self, up: Vector, which: impl Fn(usize) -> bool) -> f64 {
        let mut places: Vec<(usize, f64), MAX_FITTINGS> = Vec::new();
        for (piece, mouth) in &self.airs {
            // As many as there are passages.
            let _ = places.push((*piece, mouth.high(up)));
        }
        let aired = self.parted.aired_to(up, &places);
        let shut = aired.iter().enumerate().filter(|(piece, _)| which(*piece));
        shut.map(|(piece, to)| {
            let [low, high] = self.parted.extent(piece, up);
            if *to >= high {
                return 0.0;
            }
            let wet = self.parted.below(piece, up, libm::fmax(*to, low));
            self.parted.volume(piece) - wet
        })
        .sum()
    }

    /// Every compartment has a way for air (past the rim of a baffle that is welded here and there or stands clear of its walls, too), or the tank is one space that some fitting, or a hole drilled for the purpose,
    /// opens.
    fn check_air(&self) -> Result<(), ReachError> {
        let pieces = self.parted.piece_count();
        let mut open: Vec<bool, { crate::compartment::MAX_PIECES }> = Vec::new();
        // As many as there are pieces.
        let _ = open.resize(pieces, false);
        let leaks = |number: u8| {
            let place = usize::from(number).saturating_sub(1);
            let Some(draft) = self.tank.job.baffles.get(place) else {
                return false;
            };
            draft.spaced.is_some() || !draft.free.is_empty()
        };
        let first = self.parted.joined(0, leaks);
        if first.iter().all(|joined| *joined) {
            return Ok(());
        }
        for fitting in self.tank.fittings().filter(|one| one.bore().si() > 0.0) {
            each_opened(&self.parted, fitting.mouth(), |piece| {
                for (slot, joined) in open.iter_mut().zip(&self.parted.joined(piece, leaks)) {
                    *slot |= *joined;
                }
            });
        }
        // Of several the smallest: what is left of the tank beside it may be meant to be the tank.
        let mut least: Option<(f64, Vec<bool, { crate::compartment::MAX_PIECES }>)> = None;
        for shut in (0..pieces).filter(|piece| open.get(*piece) == Some(&false)) {
            let own = self.parted.joined(shut, leaks);
            let volume = members(&own).map(|piece| self.parted.volume(piece)).sum();
            if least.as_ref().is_none_or(|(known, _)| volume < *known) {
                least = Some((volume, own));
            }
        }
        let Some((_, own)) = least else {
            return Ok(());
        };
        let [low, high] = self.parted.bounds(members(&own));
        let baffle = self
            .tank
            .inner
            .baffles()
            .iter()
            .zip(1_u8..)
            .find(|(baffle, _)| {
                let [axis, ..] = crate::fitting::axes(baffle.across());
                let half = 0.5 * baffle.thickness().si();
                let near = |at: f64, wall: f64| libm::fabs(at - wall) <= SAME;
                members(&own).any(|piece| {
                    let [low, high] = self.parted.extent(piece, axis);
                    near(high, baffle.at().si() - half) || near(low, baffle.at().si() + half)
                })
            });
        Err(ReachError::ShutIn {
            baffle: baffle.map(|(_, number)| number),
            low: low.map(Length::from_metres),
            high: high.map(Length::from_metres),
        })
    }
}

/// The places at which a list says yes.
fn members(list: &[bool]) -> impl Iterator<Item = usize> + Clone + '_ {
    let all = list.iter().enumerate();
    all.filter(|(_, is)| **is).map(|(place, _)| place)
}
