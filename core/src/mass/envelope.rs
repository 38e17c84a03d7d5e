//! What mounts bear at the worst of every fill, every lean and every acceleration of the job.

use core::fmt;

use heapless::Vec;

use super::balance::{Balance, reactions};
use super::error::BalanceError;
use super::footing::{Footing, TipLine, TipLines};
use super::laden::Laden;
use super::search::{Place, STARTS, Search};
use super::slosh::{Slosh, SloshEffect, Sloshes};
use crate::capacity::Lean;
use crate::geom::Vector;
use crate::input::limits::MAX_MOUNTS;
use crate::strength::load::Sway;
use crate::tank::Tank;
use crate::units::constant::GRAVITY;
use crate::units::range::{Value, within};
use crate::units::{Angle, AngleUnit, Decimal, Force, Ratio, Torque, Volume, VolumeUnit};

/// What is looked for of each mount: least and most of its push, shear, force any way.
const EACH: usize = 4;
/// Liquid may be more than the brim by this share, for rounding.
const SLACK: f64 = 1e-9;
/// Upwards in tank axes.
const UP: Vector = Vector::new(0.0, 0.0, 1.0);
/// All that is looked for: of each mount, over each line, and the moment of a single one.
const MOST_GOALS: usize = EACH * MAX_MOUNTS + MAX_MOUNTS + 1;

/// How a tank is filled, leans and is shaken.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct LoadCase {
    /// The liquid in it.
    pub liquid: Volume,
    /// Its pitch.
    pub pitch: Angle,
    /// Its roll.
    pub roll: Angle,
    /// Its acceleration along x, y and z of the tank in standard gravities, as what is felt besides the weight.
    pub acceleration: [Ratio; 3],
}

impl LoadCase {
    /// What is felt as gravity, in m/s² in tank axes.
    #[must_use]
    pub fn felt(&self) -> Vector {
        let shaken = self.acceleration.map(Ratio::si);
        felt(self.pitch.si(), self.roll.si(), shaken)
    }
}

impl fmt::Display for LoadCase {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "with {} in it",
            self.liquid.display(VolumeUnit::Litre, 2)
        )?;
        for (name, angle) in [("pitch", self.pitch), ("roll", self.roll)] {
            if angle.si() != 0.0 {
                write!(f, ", {name} {}", angle.display(AngleUnit::Degree, 1))?;
            }
        }
        let mut joint = ", shaken ";
        for (name, share) in ["x", "y", "z"].into_iter().zip(self.acceleration) {
            if share.si() != 0.0 {
                write!(f, "{joint}{} g along {name}", Decimal::new(share.si(), 2))?;
                joint = " and ";
            }
        }
        Ok(())
    }
}

/// A force at its least or its most, and when that is.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct ForceCase {
    /// The force.
    pub force: Force,
    /// When.
    pub at: LoadCase,
}

/// What one mount bears at the worst.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct MountEnvelope {
    /// How hard it pushes with the tank full to the brim, level and still.
    pub still: Force,
    /// The least push square to the plane of the mounts ([`MountsEnvelope::normal`]): below zero the mount must hold the
    /// tank.
    pub least: ForceCase,
    /// The most push.
    pub most: ForceCase,
    /// The largest force within that plane.
    pub shear: ForceCase,
    /// The largest force in any direction.
    pub any_way: ForceCase,
    /// By how much sloshing may lower `least` and raise `most`, at most: a bound, see [`Slosh`].
    pub slosh: Force,
}

/// How near a tank that stands loose comes to tipping over a line through two outer mounts.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Tipping {
    /// The two mounts, counted from 1.
    pub over: [u8; 2],
    /// The least moment that keeps it down; below zero it tips.
    pub holds: Torque,
    /// When that is.
    pub at: LoadCase,
    /// By how much sloshing may lower that, at most.
    pub slosh: Torque,
}

impl Tipping {
    /// Whether it tips.
    #[must_use]
    pub fn tips(&self) -> bool {
        self.holds.si() < 0.0
    }
}

/// What all mounts bear at the worst, in the order of the job.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct MountsEnvelope {
    /// Each mount.
    pub mounts: Vec<MountEnvelope, MAX_MOUNTS>,
    /// The way in which they push: the normal of the plane they lie in, upwards; off a wall on which the tank hangs,
    /// towards the tank; upwards too where they lie in no plane.
    pub normal: Vector,
    /// The largest moment that a single mount must bear besides; zero for three and more.
    pub moment: Torque,
    /// The line over which it tips first, of all; `None` of a single mount, and of a tank that hangs on a wall.
    pub tipping: Option<Tipping>,
    /// What sloshing may add, along each axis that the job shakes.
    pub sloshes: Sloshes,
}

impl MountsEnvelope {
    /// The mount that pushes least, counted from 1.
    #[must_use]
    pub fn least(&self) -> Option<(u8, ForceCase)> {
        let all = (1..).zip(self.mounts.iter().map(|one| one.least));
        all.min_by(|(_, a), (_, b)| a.force.si().total_cmp(&b.force.si()))
    }

    /// The mount that pushes most, counted from 1.
    #[must_use]
    pub fn most(&self) -> Option<(u8, ForceCase)> {
        let all = (1..).zip(self.mounts.iter().map(|one| one.most));
        all.max_by(|(_, a), (_, b)| a.force.si().total_cmp(&b.force.si()))
    }

    /// Whether the mounts stand on a floor, rather than hang on an upright wall.
    #[must_use]
    pub fn is_on_floor(&self) -> bool {
        super::footing::is_floor(self.normal)
    }
}

/// What is felt as gravity (m/s²) at a lean, shaken by so many standard gravities.
pub(super) fn felt(pitch: f64, roll: f64, [x, y, z]: [f64; 3]) -> Vector {
    let (sp, cp) = libm::sincos(pitch);
    let (sr, cr) = libm::sincos(roll);
    let down = Vector::new(-sp, -cp * sr, -cp * cr);
    (down + Vector::new(x, y, z)) * GRAVITY
}

/// What a load comes to.
struct Borne {
    weight: Vector,
    /// The load's moment about the origin.
    moment: Vector,
    /// What the mounts must give about their middle.
    given: Vector,
    turn: Vector,
}

/// What is looked for: all are to be as large as can be.
#[derive(Clone, Copy, Debug)]
enum Goal {
    /// How little mount n pushes.
    Least(usize),
    /// How much.
    Most(usize),
    Shear(usize),
    AnyWay(usize),
    /// How near the tank is to tipping over line n.
    Tips(usize),
    /// The moment on a single mount.
    Moment,
}

/// A footing with a tank on it.
struct Stand<'a> {
    laden: &'a Laden<'a>,
    footing: &'a Footing,
    lines: &'a [TipLine],
}

impl Stand<'_> {
    fn borne(&self, place: &Place) -> (Borne, Volume) {
        let felt = felt(place.pitch(), place.roll(), place.shaken());
        // In free fall nothing weighs anything, wherever the liquid is.
        let up = (-felt).unit().unwrap_or(UP);
        let (balance, liquid) = self.laden.at(up, place.share());
        let weight = felt * balance.mass;
        let moment = balance.moment.cross(felt);
        let given = self.footing.middle.cross(weight) - moment;
        let turn = self.footing.turn(given);
        let borne = Borne {
            weight,
            moment,
            given,
            turn,
        };
        (borne, liquid)
    }

    fn figure(&self, goal: Goal, borne: &Borne) -> f64 {
        let force = |mount: usize| {
            let mut forces = self.footing.forces(borne.weight, borne.turn);
            forces.nth(mount).unwrap_or_default()
        };
        let normal = self.footing.normal;
        match goal {
            Goal::Least(mount) => -force(mount).dot(normal),
            Goal::Most(mount) => force(mount).dot(normal),
            Goal::Shear(mount) => {
                let force = force(mount);
                (force - normal * force.dot(normal)).length()
            }
            Goal::AnyWay(mount) => force(mount).length(),
            Goal::Tips(line) => self
                .lines
                .get(line)
                .map_or(0.0, |line| -line.holding_moment(borne.weight, borne.moment)),
            Goal::Moment => borne.given.length(),
        }
    }

    fn case(&self, place: &Place) -> LoadCase {
        let (_, liquid) = self.borne(place);
        LoadCase {
            liquid,
            pitch: Angle::from_radians(place.pitch()),
            roll: Angle::from_radians(place.roll()),
            acceleration: place.shaken().map(Ratio::from_share),
        }
    }
}

/// The best that was found for a goal.
#[derive(Clone, Copy)]
struct Found {
    goal: Goal,
    /// The worst by each way of starting, and where.
    starts: [(f64, Place); STARTS],
}

impl Found {
    const fn none(goal: Goal) -> Self {
        let starts = [(f64::NEG_INFINITY, Place::EMPTY); STARTS];
        Self { goal, starts }
    }

    fn worst(&self) -> (f64, Place) {
        let none = (f64::NEG_INFINITY, Place::EMPTY);
        let worse = |a: (f64, Place), b: &(f64, Place)| if b.0 > a.0 { *b } else { a };
        self.starts.iter().fold(none, worse)
    }
}

/// All goals at the worst of a sway: a scan of every goal at once, then each by itself from its own worst place.
fn worst(stand: &Stand<'_>, sway: &Sway) -> Vec<Found, MOST_GOALS> {
    let search = Search::new(sway);
    let goals = (0..stand.footing.mounts().len()).flat_map(|mount| {
        [
            Goal::Least(mount),
            Goal::Most(mount),
            Goal::Shear(mount),
            Goal::AnyWay(mount),
        ]
    });
    let lines = (0..stand.lines.len()).map(Goal::Tips);
    let mut all: Vec<Found, MOST_GOALS> = goals
        .chain(lines)
        .chain([Goal::Moment])
        .take(MOST_GOALS)
        .map(Found::none)
        .collect();
    search.each(|start, place| {
        let (borne, _) = stand.borne(place);
        for found in &mut all {
            let value = stand.figure(found.goal, &borne);
            if let Some(own) = found.starts.get_mut(start)
                && value > own.0
            {
                *own = (value, *place);
            }
        }
    });
    for found in &mut all {
        let goal = found.goal;
        for start in &mut found.starts {
            // Some are not in the scan of a tank that nothing shakes.
            if start.0 > f64::NEG_INFINITY {
                *start = search.climb(start.1, start.0, |place| {
                    stand.figure(goal, &stand.borne(place).0)
                });
            }
        }
    }
    all
}

impl Tank {
    /// The mounts of the job at the worst of every fill from none to the brim, every pitch and roll up to the job's either
    /// way, and every acceleration up to the job's, either way along all axes at once or less; `None` where the job names
    /// no mount.
    ///
    /// The liquid moves as one with the tank, its surface square to what is felt as gravity; one surface through all
    /// compartments, even where a baffle would part it, which shifts it the farthest as long as they are filled alike.
    /// Forces as in [`reactions`](super::balance::reactions), of a rigid tank on mounts that are all equally stiff. The
    /// worst is found by a scan (five pitches, five rolls, each way of all accelerations in full and by half and none of
    /// them, seventeen levels) and a climb from the worst of each of the three, in all six figures by steps that are halved
    /// until they are a five-hundredth of the scan's. It is kept within 0.5 % of the largest force: of 400 random cases of
    /// each of 1,000 random tanks none was more than 0.07 % past what was found. Some 20,000 fills are looked at at most: a laptop's
    /// work.
    ///
    /// # Errors
    /// [`BalanceError`] where the tank cannot be weighed or its mounts cannot bear it; not where it lifts off one.
    #[must_use]
    pub fn mounts_envelope(&self) -> Option<Result<MountsEnvelope, BalanceError>> {
        if self.mounts().is_empty() {
            return None;
        }
        Some(self.envelope())
    }

    /// The tank as it is in one case: its liquid's surface square to what is felt as gravity, and to upright in free fall.
    ///
    /// # Errors
    /// [`BalanceError`] for more liquid than it holds, a liquid without a density, or a figure past its limits.
    pub fn balance_in(&self, case: &LoadCase) -> Result<Balance, BalanceError> {
        let most = self.pool(Lean::LEVEL).brim().si() * (1.0 + SLACK);
        let most = Volume::from_cubic_metres(most);
        let liquid = within(case.liquid, Volume::default(), most, Value::Volume)?;
        let up = (-case.felt()).unit().unwrap_or(UP);
        Ok(Laden::new(self)?.holding(up, liquid))
    }

    fn envelope(&self) -> Result<MountsEnvelope, BalanceError> {
        let footing = self.footing()?;
        let laden = Laden::new(self)?;
        let sway = self.sway();
        let lines: TipLines = footing.tip_lines();
        let stand = Stand {
            laden: &laden,
            footing: &footing,
            lines: &lines,
        };
        let sloshes = Slosh::all(self, laden.density());
        let effect = SloshEffect::new(self, laden.density());
        let mut mounts = Vec::new();
        let (full, _) = laden.at(UP, 1.0);
        let at_rest = felt(0.0, 0.0, [0.0; 3]);
        let still = reactions(&full, at_rest, footing.mounts())?.mounts;
        for (mount, still) in still.iter().enumerate() {
            let slosh = effect.most(|load, moment| {
                let turn = footing.turn(footing.middle.cross(load) - moment);
                let mut forces = footing.forces(load, turn);
                forces.nth(mount).unwrap_or_default().dot(footing.normal)
            });
            // As many as the job may have.
            let _ = mounts.push(MountEnvelope {
                still: Force::from_newtons(still.force.dot(footing.normal)),
                slosh: Force::from_newtons(slosh),
                ..MountEnvelope::default()
            });
        }
        let mut envelope = MountsEnvelope {
            mounts,
            normal: footing.normal,
            moment: Torque::default(),
            tipping: None,
            sloshes,
        };
        for found in worst(&stand, &sway) {
            envelope.take(&stand, &effect, &found);
        }
        Ok(envelope)
    }

    /// How the mounts of the job stand under the tank.
    pub(super) fn footing(&self) -> Result<Footing, BalanceError> {
        let mut mounts: Vec<Vector, MAX_MOUNTS> = Vec::new();
        for [x, y, z] in self.mounts() {
            // As many as the job may have.
            let _ = mounts.push(Vector::new(x.si(), y.si(), z.si()));
        }
        Ok(Footing::new(&mounts)?.facing(self.body().inside.centroid()))
    }
}

impl MountsEnvelope {
    /// Puts what was found where it belongs.
    fn take(&mut self, stand: &Stand<'_>, effect: &SloshEffect, found: &Found) {
        let (value, place) = found.worst();
        let at = stand.case(&place);
        let mut put =
            |mount: usize, which: fn(&mut MountEnvelope) -> &mut ForceCase, sense: f64| {
                if let Some(own) = self.mounts.get_mut(mount) {
                    let force = Force::from_newtons(sense * value);
                    *which(own) = ForceCase { force, at };
                }
            };
        match found.goal {
            Goal::Least(mount) => put(mount, |own| &mut own.least, -1.0),
            Goal::Most(mount) => put(mount, |own| &mut own.most, 1.0),
            Goal::Shear(mount) => put(mount, |own| &mut own.shear, 1.0),
            Goal::AnyWay(mount) => put(mount, |own| &mut own.any_way, 1.0),
            Goal::Tips(place) => {
                let Some(line) = stand.lines.get(place) else {
                    return;
                };
                let holds = Torque::from_newton_metres(-value);
                if self.tipping.is_none_or(|old| holds < old.holds) {
                    let slosh = effect.most(|load, moment| line.holding_moment(load, moment));
                    self.tipping = Some(Tipping {
                        over: line.ends.map(|end| end + 1),
                        holds,
                        at,
                        slosh: Torque::from_newton_metres(slosh),
                    });
                }
            }
            Goal::Moment => {
                if self.mounts.len() == 1 {
                    self.moment = Torque::from_newton_metres(value);
                }
            }
        }
    }
}
