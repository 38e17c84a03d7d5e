//! What the tank takes in a test: its walls and then its seams, tried one by one.

use seamwright_core::input::Face;
use seamwright_core::leak::Vessel;
use seamwright_core::seam::Seam;
use seamwright_core::strength::{JoinedWalls, SeamsTake, StrengthError, Trial};
use seamwright_core::tank::Tank;
use seamwright_core::units::Pressure;

use super::scene::{Site, WeakSeam};
use crate::amount::Units;
use crate::page::Progress;
use crate::page::parts::{Known, count, faces};

/// The pressure that walls are tried with.
const TRIAL: Pressure = Pressure::from_pascals(1_000.0);

/// What walls and then seams take in a test, one by one.
#[derive(Clone, Debug)]
pub(super) struct Tried {
    /// What the walls bear together, which comes first, and once more for the seams.
    joined: Known<JoinedWalls>,
    /// The pressure that seams are tried with, in pascals, and how often they have been; zero before the first.
    pressure: f64,
    trials: u8,
    next: u8,
    /// The wall that takes least so far; any before the first.
    weakest: Face,
    /// The least that a wall takes so far, in pascals; zero before the first.
    least: f64,
    seam: Known<WeakSeam>,
    vessel: Known<Result<Vessel, StrengthError>>,
    all: bool,
}

impl Tried {
    pub(super) const NOTHING: Self = Self {
        joined: Known::Not,
        pressure: 0.0,
        trials: 0,
        next: 0,
        weakest: Face::Front,
        least: 0.0,
        seam: Known::Not,
        vessel: Known::Not,
        all: false,
    };

    pub(super) fn clear(&mut self) {
        *self = Self::NOTHING;
    }

    /// How many walls and seams are done; `None` once all are.
    pub(super) fn progress(&self, tank: &Tank) -> Option<Progress> {
        let done = usize::from(self.next);
        let of = count(tank) + tank.seam_count();
        (!self.all).then_some(Progress { done, of })
    }

    /// What a test is of, once the walls are done; its seam once the seams are, too.
    pub(super) fn site(&self, tank: &Tank, units: Units) -> Option<Site<'_>> {
        Some(Site {
            vessel: self.vessel.get()?,
            seam: self.all.then(|| self.seam.get().copied()),
            liquid: tank.job().liquid(),
            units,
        })
    }

    /// The next.
    #[inline(never)]
    pub(super) fn go_on(&mut self, tank: &Tank) {
        if self.joined.get().is_none() {
            let pressure = if self.trials == 0 {
                TRIAL
            } else {
                Pressure::from_pascals(self.pressure)
            };
            match tank.joined_walls(Trial::Test(pressure)) {
                Ok(joined) => self.joined = Known::Is(joined),
                Err(error) => self.refuse(error),
            }
            return;
        }
        let place = usize::from(self.next);
        if let Some(face) = faces(tank).nth(place) {
            self.wall(tank, face);
        } else if self.vessel.get().is_none() {
            let weakest = (self.weakest, Pressure::from_pascals(self.least));
            self.vessel = Known::Is(match self.joined.get() {
                Some(joined) if self.least > 0.0 => tank.vessel_taking(joined, weakest, None),
                _ => Err(StrengthError::Unknown),
            });
            if let Some(Ok(vessel)) = self.vessel.get() {
                // Seams are tried with what the walls take.
                (self.pressure, self.trials) = (vessel.weakest.si(), 1);
                self.joined = Known::Not;
            }
            return;
        } else if let Some(seam) = tank.seams().nth(place - count(tank)) {
            self.bear(tank, &seam);
        } else {
            self.settle(tank);
            return;
        }
        self.next += 1;
    }

    /// All seams were tried with one pressure: that they bear it, or what they take, or with what to try them again.
    fn settle(&mut self, tank: &Tank) {
        if let (Known::Is(Ok(vessel)), Some(weak)) = (&mut self.vessel, self.seam.get()) {
            let tried = Pressure::from_pascals(self.pressure);
            let reserve = weak.bears.si() / self.pressure;
            match SeamsTake::by(tried, reserve, self.trials) {
                SeamsTake::That => {}
                SeamsTake::Only(takes) => *vessel = vessel.with_seam(weak.mark, takes),
                SeamsTake::Try(less) => {
                    (self.pressure, self.trials) = (less.si(), self.trials + 1);
                    (self.joined, self.seam) = (Known::Not, Known::Not);
                    self.next = u8::try_from(count(tank)).unwrap_or(u8::MAX);
                    return;
                }
            }
        }
        self.all = true;
    }

    /// A wall, as `Tank::weakest_wall` has it.
    fn wall(&mut self, tank: &Tank, face: Face) {
        let Some(joined) = self.joined.get() else {
            return;
        };
        match tank.bearing_by(face, joined) {
            Some(Ok(bearing)) => {
                if let Some(takes) = bearing.takes
                    && (self.least == 0.0 || takes.si() < self.least)
                {
                    (self.weakest, self.least) = (face, takes.si());
                }
            }
            Some(Err(error)) => self.refuse(error),
            None => {}
        }
    }

    /// There will be no test, and nothing more to try.
    fn refuse(&mut self, error: StrengthError) {
        self.vessel = Known::Is(Err(error));
        self.all = true;
    }

    fn bear(&mut self, tank: &Tank, seam: &Seam) {
        let joined = self.joined.get();
        let Some(Ok(strength)) = joined.and_then(|joined| tank.seam_bearing_by(seam, joined))
        else {
            return;
        };
        let bears = Pressure::from_pascals(strength.reserve * self.pressure);
        if self.seam.get().is_none_or(|weak| bears < weak.bears) {
            let mark = seam.mark;
            self.seam = Known::Is(WeakSeam { mark, bears });
        }
    }
}
