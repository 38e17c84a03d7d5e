//! What the tank's panels bear and what it weighs, as far as their pages tell.

use heapless::Vec;
use seamwright_core::geom::Vector;
use seamwright_core::input::Face;
use seamwright_core::input::limits::{MAX_BAFFLES, MAX_FACES};
use seamwright_core::leak::Vessel;
use seamwright_core::mass::BalanceError;
use seamwright_core::mass::balance::{Balance, MountError};
use seamwright_core::seam::{Seam, SeamMark};
use seamwright_core::strength::{Bearing, Cure, Form, StrengthError, Trial};
use seamwright_core::tank::Tank;
use seamwright_core::units::{Length, Mass, Pressure};

/// Panels and baffles that a tank may have.
const MOST_PANELS: usize = MAX_FACES + MAX_BAFFLES;

/// Something that is worked out once.
// Its tag stands apart (`repr`), so that the first is zero: see `Tank::EMPTY`.
#[derive(Clone, Debug)]
#[repr(u8)]
pub(super) enum Known<T> {
    Not,
    Is(T),
}

impl<T> Known<T> {
    pub(super) const fn get(&self) -> Option<&T> {
        match self {
            Self::Not => None,
            Self::Is(value) => Some(value),
        }
    }
}

/// How a panel bears what the tank holds, as far as its page tells.
#[derive(Clone, Copy, Debug)]
pub struct Borne {
    /// What it was taken as.
    pub form: Form,
    /// Its sheet.
    pub thickness: Length,
    /// The highest pressure on it.
    pub pressure: Pressure,
    /// Yield strength beside a weld over the highest stress.
    pub reserve: f64,
    /// What would mend it; `None` where it has the reserve that is wanted.
    pub cure: Option<Cure>,
    /// It has an inside corner, at which this says nothing.
    pub inside_corner: bool,
    /// A dished end so thin that it may wrinkle.
    pub may_wrinkle: bool,
}

impl From<Bearing> for Borne {
    fn from(bearing: Bearing) -> Self {
        Self {
            form: bearing.form,
            thickness: bearing.thickness,
            pressure: bearing.pressure,
            reserve: bearing.reserve,
            cure: bearing.cure,
            inside_corner: bearing.inside_corner,
            may_wrinkle: bearing.may_wrinkle,
        }
    }
}

/// A panel and how it bears.
pub type Panel = (Face, Result<Borne, StrengthError>);

/// What a tank weighs and where.
#[derive(Clone, Copy, Debug)]
pub struct Weighed {
    /// All of it.
    pub mass: Mass,
    /// Its centre of gravity, in metres; `None` of no mass.
    pub centre: Option<Vector>,
}

/// The mounts of a full tank.
#[derive(Clone, Copy, Debug)]
pub struct Mounts {
    /// The one that bears most, counted from 1, and what, in newtons.
    pub heaviest: (u8, f64),
    /// One that must hold the tank down, and with how many newtons.
    pub lifts: Option<(u8, f64)>,
}

/// Masses of a tank.
#[derive(Clone, Copy, Debug)]
pub struct Masses {
    /// Empty, at the fill mark, at the brim.
    pub states: [Result<Weighed, BalanceError>; 3],
    /// Its mounts, where the job has any.
    pub mounts: Option<Result<Mounts, MountError>>,
}

/// The walls of a tank and its baffles, one by one: each takes a small chip about a second.
#[derive(Clone, Debug)]
pub(super) struct Judging {
    /// The place of the next.
    next: u8,
    panels: Vec<Panel, MOST_PANELS>,
    all: bool,
}

impl Judging {
    pub(super) const NOTHING: Self = Self {
        next: 0,
        panels: Vec::new(),
        all: false,
    };

    pub(super) fn clear(&mut self) {
        self.next = 0;
        self.panels.clear();
        self.all = false;
    }

    /// Whether all are judged.
    pub(super) const fn is_done(&self) -> bool {
        self.all
    }

    /// How many are done.
    pub(super) fn done(&self) -> usize {
        usize::from(self.next)
    }

    /// Those that are judged; once all are, those that cannot be judged first, then the weakest.
    pub(super) fn panels(&self) -> &[Panel] {
        if self.all { &self.panels } else { &[] }
    }

    /// Judges the next, in use.
    // Out of line, as is what follows: it needs much stack, and only while it works.
    #[inline(never)]
    pub(super) fn go_on(&mut self, tank: &Tank) {
        let Some(face) = faces(tank).nth(usize::from(self.next)) else {
            let reserve = |panel: &Panel| match &panel.1 {
                Ok(borne) => borne.reserve,
                Err(_) => f64::NEG_INFINITY,
            };
            let by_reserve = |a: &Panel, b: &Panel| reserve(a).total_cmp(&reserve(b));
            self.panels.sort_unstable_by(by_reserve);
            self.all = true;
            return;
        };
        self.next += 1;
        if let Some(bearing) = tank.bearing(face, Trial::Use) {
            // More room than there are.
            let _ = self.panels.push((face, bearing.map(Borne::from)));
        }
    }
}

/// A seam, and the even pressure at which it has no reserve left: a reserve of 1, as `SeamStrength` has it.
#[derive(Clone, Copy, Debug)]
pub struct WeakSeam {
    /// Its mark.
    pub mark: SeamMark,
    /// The pressure; its reserve at another is the ratio of the two, for plates and welds are taken as elastic.
    pub bears: Pressure,
}

/// The pressure that seams are tried with.
const TRIAL: Pressure = Pressure::from_pascals(1_000.0);

/// What walls and then seams take in a test, one by one.
#[derive(Clone, Debug)]
pub(super) struct Testing {
    next: u8,
    /// The least that a wall takes so far, in pascals; zero before the first.
    least: f64,
    seam: Known<WeakSeam>,
    vessel: Known<Result<Vessel, StrengthError>>,
    all: bool,
}

impl Testing {
    pub(super) const NOTHING: Self = Self {
        next: 0,
        least: 0.0,
        seam: Known::Not,
        vessel: Known::Not,
        all: false,
    };

    pub(super) fn clear(&mut self) {
        *self = Self::NOTHING;
    }

    /// How many are done.
    pub(super) fn done(&self) -> usize {
        usize::from(self.next)
    }

    /// Of how many.
    pub(super) fn count(tank: &Tank) -> usize {
        count(tank) + tank.seam_count()
    }

    /// Whether all are.
    pub(super) const fn is_done(&self) -> bool {
        self.all
    }

    /// What the test must know of the tank, once the walls are.
    pub(super) const fn vessel(&self) -> Option<&Result<Vessel, StrengthError>> {
        self.vessel.get()
    }

    /// The seam that bears least, of those that can be judged; `None` until all seams are.
    pub(super) fn seam(&self) -> Option<Option<WeakSeam>> {
        self.all.then(|| self.seam.get().copied())
    }

    /// The next.
    #[inline(never)]
    pub(super) fn go_on(&mut self, tank: &Tank) {
        let place = usize::from(self.next);
        if let Some(face) = faces(tank).nth(place) {
            self.wall(tank, face);
        } else if self.vessel.get().is_none() {
            let takes = Pressure::from_pascals(self.least);
            self.vessel = Known::Is(if self.least > 0.0 {
                tank.vessel_taking(takes, None)
            } else {
                Err(StrengthError::Unknown)
            });
            return;
        } else if let Some(seam) = tank.seams().nth(place - count(tank)) {
            self.bear(tank, &seam);
        } else {
            self.all = true;
            return;
        }
        self.next += 1;
    }

    /// A wall, as `Tank::takes` has it.
    fn wall(&mut self, tank: &Tank, face: Face) {
        match tank.bearing(face, Trial::Test(Pressure::default())) {
            Some(Ok(bearing)) => {
                if let Some(takes) = bearing.takes
                    && (self.least == 0.0 || takes.si() < self.least)
                {
                    self.least = takes.si();
                }
            }
            Some(Err(error)) => {
                // There will be no test, and nothing more to try.
                self.vessel = Known::Is(Err(error));
                self.all = true;
            }
            None => {}
        }
    }

    fn bear(&mut self, tank: &Tank, seam: &Seam) {
        let Some(Ok(strength)) = tank.seam_bearing(seam, Trial::Test(TRIAL)) else {
            return;
        };
        let bears = Pressure::from_pascals(strength.reserve * TRIAL.si());
        if self.seam.get().is_none_or(|weak| bears < weak.bears) {
            let mark = seam.mark;
            self.seam = Known::Is(WeakSeam { mark, bears });
        }
    }
}

/// How many walls and baffles there are.
pub(super) fn count(tank: &Tank) -> usize {
    faces(tank).count()
}

fn faces(tank: &Tank) -> impl Iterator<Item = Face> + '_ {
    // At most four.
    let baffles = tank.inner().baffles().len() as u8;
    let walls = tank.body().outside.faces().map(|view| view.face());
    walls.chain((1..=baffles).map(Face::Baffle))
}

#[inline(never)]
pub(super) fn weigh(tank: &Tank) -> Masses {
    let weighed = |balance: &Balance| Weighed {
        mass: balance.mass(),
        centre: balance.centre(),
    };
    let capacity = tank.capacity();
    let full = tank.laden_balance(capacity.brim);
    let states = [
        tank.empty_balance().map(|one| weighed(&one)),
        tank.laden_balance(capacity.fill).map(|one| weighed(&one)),
        full.as_ref().map(weighed).map_err(|error| *error),
    ];
    let mounts = match full {
        Ok(full) if !tank.mounts().is_empty() => Some(bear_on_mounts(tank, &full)),
        _ => None,
    };
    Masses { states, mounts }
}

fn bear_on_mounts(tank: &Tank, full: &Balance) -> Result<Mounts, MountError> {
    let loads = tank.mount_loads(full)?;
    let mut heaviest = (0, f64::NEG_INFINITY);
    let mut lifts: Option<(u8, f64)> = None;
    for (load, number) in loads.mounts.iter().zip(1_u8..) {
        if load.force > heaviest.1 {
            heaviest = (number, load.force);
        }
        if load.least < 0.0 && lifts.is_none_or(|(_, held)| -load.least > held) {
            lifts = Some((number, -load.least));
        }
    }
    Ok(Mounts { heaviest, lifts })
}
