//! What sloshing may add to a load that is put on all at once: a bound.
//!
//! The loads of [`envelope`](super::envelope) are those of a liquid that has come to rest, its surface square to what it
//! feels. An acceleration that sets in at once makes the surface swing past that. An oscillator without damping swings
//! to twice the deflection that the same load makes standing still (the step response, as in Den Hartog, Mechanical
//! Vibrations, from memory); damping makes it less. So what swings may add, for a moment, as much again as it gives at
//! rest, and no more than that is told here.
//!
//! How much swings: of a box Housner's convective mass (G. W. Housner, "Dynamic pressures on accelerated fluid containers",
//! Bulletin of the Seismological Society of America 47, 1957, from memory), which is a few per cent above the first mode of
//! potential theory (NASA SP-106, 1966, from memory); of any other shape all of the liquid, which is more than can swing.
//! Modes above the first add at most a fifth in shallow liquid and some 3 % in deep: a fifth is put on, up to all of the
//! liquid. A baffle parts the length and leaves shorter cells, each of which swings by itself: holes let some liquid
//! through, so that baffles count only where nothing is left open under or over them and half of them or more is metal.
//! Not in it: a wave that breaks or strikes the roof, which can press harder for a moment; a shaking that keeps time with
//! the period, which can swing higher with every push.

use heapless::Vec;

use crate::body::Solid;
use crate::geom::Vector;
use crate::input::Across;
use crate::input::limits::MAX_BAFFLES;
use crate::tank::Tank;
use crate::units::constant::GRAVITY;
use crate::units::range::RangeError;
use crate::units::{Figure, Force, Length, Mass, Time};

/// Steps of depth in which what swings is looked at.
const DEPTHS: u32 = 32;
/// A baffle counts where it leaves open no more than this share: common practice, no source.
const OPEN_MOST: f64 = 0.5;
/// What modes above the first are counted with.
const HIGHER: f64 = 1.2;
/// A body is a box where surface and enclosing rectangle differ by no more than this share.
const SAME: f64 = 1e-6;

/// What swings along the axes that a job shakes.
pub type Sloshes = Vec<Slosh, 2>;

/// What may swing along one axis with the tank filled to its mark: bounds, not forecasts.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Slosh {
    /// The axis: length or width.
    pub along: Across,
    /// Cells between the baffles that count.
    pub cells: u8,
    /// The longest of them.
    pub cell: Length,
    /// The period of its first mode in a box as long and on average as deep.
    pub period: Time,
    /// What swings, at most.
    pub mass: Mass,
    /// What its swing may add to the force on the tank, at most: as much as it weighs in the acceleration along the axis.
    pub force: Force,
    /// How far the middle of the liquid may swing from where it rests, at most; never more than half of the longest cell.
    pub shift: Length,
    /// Whether the tank is a box, of which a part swings; of another shape all liquid is taken to.
    pub is_box: bool,
}

/// The liquid in a box that is shaken along its length: Housner's convective part, and the period of potential theory.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoxSlosh {
    /// What swings as a share of all liquid: `⅓ √(5/2) (l/h) tanh(√(5/2) h/l)`, l being half of the length.
    pub share: f64,
    /// The height of its force over the floor, the moment of the pressure on the floor counted in, as a share of the depth:
    /// `1 − (cosh k − 2)/(k sinh k)`, `k = √(5/2) h/l`.
    pub height: f64,
    /// Period of the first mode: `ω² = π g/L tanh(π h/L)` (Lamb, Hydrodynamics, from memory).
    pub period: Time,
}

impl BoxSlosh {
    /// Of a box of this length along which it is shaken, with liquid of this depth.
    ///
    /// ```
    /// use seamwright_core::mass::BoxSlosh;
    /// use seamwright_core::units::{Length, LengthUnit};
    ///
    /// let mm = |value| Length::new(value, LengthUnit::Millimetre);
    /// let half_full = BoxSlosh::new(mm(400.0), mm(200.0))?;
    /// assert!(half_full.share > 0.45 && half_full.share < 0.5);
    /// # Ok::<(), Box<dyn core::error::Error>>(())
    /// ```
    ///
    /// # Errors
    /// [`RangeError`] for a length or a depth below 0.1 mm or above 1 km.
    pub fn new(length: Length, depth: Length) -> Result<Self, RangeError> {
        let length = Figure::Place.within(length.si(), 1e-4, 1e3)?;
        let depth = Figure::Place.within(depth.si(), 1e-4, 1e3)?;
        Ok(Self::of(length, depth))
    }

    /// What may swing as a share of all liquid, modes above the first with it: a fifth more than `share`, at most all of it.
    #[must_use]
    pub fn bound(&self) -> f64 {
        libm::fmin(1.0, HIGHER * self.share)
    }

    fn of(length: f64, depth: f64) -> Self {
        let half = 0.5 * length;
        let root = libm::sqrt(2.5);
        // Past this the hyperbolic functions are as good as at it, and do not overflow.
        let k = libm::fmin(root * depth / half, 300.0);
        let share = root / 3.0 * (half / depth) * libm::tanh(k);
        let height = 1.0 - (libm::cosh(k) - 2.0) / (k * libm::sinh(k));
        let wave = core::f64::consts::PI / length;
        let square = GRAVITY * wave * libm::tanh(wave * depth);
        Self {
            share,
            height,
            period: Time::from_seconds(2.0 * core::f64::consts::PI / libm::sqrt(square)),
        }
    }
}

/// One axis along which a tank is shaken, and how its baffles part it.
struct Tray {
    along: Across,
    axis: Vector,
    /// In m/s².
    shaken: f64,
    width: f64,
    cells: Vec<f64, { MAX_BAFFLES + 1 }>,
}

impl Tray {
    fn longest(&self) -> f64 {
        self.cells.iter().copied().fold(0.0, libm::fmax)
    }

    /// `Σ W L³/12` over the cells: the second moment of the enclosing surface, which is the most that any surface within
    /// it has about its own middle; in m⁴.
    fn inertia(&self) -> f64 {
        let cubes: f64 = self.cells.iter().map(|cell| cell * cell * cell).sum();
        self.width * cubes / 12.0
    }

    /// The mass that swings at a depth and the mean height of its force over the floor, of a box.
    fn swinging(&self, density: f64, depth: f64) -> (f64, f64) {
        let (mut mass, mut moment) = (0.0, 0.0);
        for cell in &self.cells {
            let slosh = BoxSlosh::of(*cell, depth);
            let more = density * cell * self.width * depth * slosh.bound();
            mass += more;
            moment += more * slosh.height * depth;
        }
        (mass, if mass > 0.0 { moment / mass } else { 0.0 })
    }
}

/// The axes along which the job shakes.
fn trays(tank: &Tank) -> Vec<Tray, 2> {
    let inside = &tank.body().inside;
    let shaken = tank.sway().shaken;
    let (x, y) = (Vector::new(1.0, 0.0, 0.0), Vector::new(0.0, 1.0, 0.0));
    let ways = [
        (Across::Length, x, shaken.x, y),
        (Across::Width, y, shaken.y, x),
    ];
    let mut all = Vec::new();
    for (along, axis, share, side) in ways {
        if share > 0.0 {
            let (front, back) = inside.extent(side);
            // One for each of the two ways.
            let _ = all.push(Tray {
                along,
                axis,
                shaken: share * GRAVITY,
                width: back - front,
                cells: cells(tank, along, inside.extent(axis)),
            });
        }
    }
    all
}

/// The lengths between the baffles that count, along an axis.
fn cells(tank: &Tank, along: Across, (low, high): (f64, f64)) -> Vec<f64, { MAX_BAFFLES + 1 }> {
    let inside = &tank.body().inside;
    let mut at: Vec<f64, MAX_BAFFLES> = Vec::new();
    for baffle in tank.inner().baffles() {
        let metal = baffle.area() >= OPEN_MOST * baffle.uncut(inside).area();
        let place = baffle.at().si();
        if baffle.across() == along && !baffle.is_open() && metal && place > low && place < high {
            // As many as a tank may have.
            let _ = at.push(place);
        }
    }
    crate::geom::sort::insertion(&mut at, |a, b| a < b);
    let ends = at.iter().copied().chain([high]);
    let starts = [low].into_iter().chain(at.iter().copied());
    starts.zip(ends).map(|(from, to)| to - from).collect()
}

/// Whether a body is a box that stands on its floor: its surface is the enclosing rectangle at every level.
fn is_box(inside: &Solid) -> bool {
    let (x, y, z) = (
        Vector::new(1.0, 0.0, 0.0),
        Vector::new(0.0, 1.0, 0.0),
        Vector::new(0.0, 0.0, 1.0),
    );
    let long = |axis: Vector| {
        let (low, high) = inside.extent(axis);
        high - low
    };
    let volume = long(x) * long(y) * long(z);
    inside.volume().si() >= volume * (1.0 - SAME)
}

/// The load that sets in as the liquid swings, along each axis and at each depth.
pub(super) struct SloshEffect<'a> {
    tank: &'a Tank,
    density: f64,
    trays: Vec<Tray, 2>,
    is_box: bool,
}

impl<'a> SloshEffect<'a> {
    pub(super) fn new(tank: &'a Tank, density: f64) -> Self {
        Self {
            tank,
            density,
            trays: trays(tank),
            is_box: is_box(&tank.body().inside),
        }
    }

    /// The most that swinging along both axes at once may add to a figure, either way, at any fill. `figure` is linear in a
    /// load (N) and its moment about the origin (N·m).
    pub(super) fn most(&self, figure: impl Fn(Vector, Vector) -> f64) -> f64 {
        let up = Vector::new(0.0, 0.0, 1.0);
        let inside = &self.tank.body().inside;
        let (floor, roof) = inside.extent(up);
        let mut most = 0.0;
        for step in 1..=DEPTHS {
            let depth = (roof - floor) * f64::from(step) / f64::from(DEPTHS);
            let both = self.trays.iter().map(|tray| {
                let at = |height: f64, mass: f64, share: f64| {
                    let load = tray.axis * (mass * tray.shaken);
                    let point = inside.centroid() + up * (height - inside.centroid().z);
                    // What has moved along weighs down there: m g x is ρ a I.
                    let weighs = self.density * tray.shaken * tray.inertia() * share;
                    let moment = point.cross(load) - tray.axis.cross(up) * weighs;
                    libm::fabs(figure(load, moment))
                };
                if self.is_box {
                    let (mass, height) = tray.swinging(self.density, depth);
                    return at(floor + height, mass, 0.0);
                }
                let mass = self.density * inside.below(up, floor + depth).0;
                let ends = [floor, floor + depth];
                let each = ends.map(|end| libm::fmax(at(end, mass, 0.0), at(end, mass, 1.0)));
                each.into_iter().fold(0.0, libm::fmax)
            });
            most = libm::fmax(most, both.sum());
        }
        most
    }
}

impl Slosh {
    /// What swings along each axis that the job shakes, of a tank filled to its mark.
    pub(super) fn all(tank: &Tank, density: f64) -> Sloshes {
        let is_box = is_box(&tank.body().inside);
        let fill = tank.capacity().fill.si();
        let shaken = tank.sway().shaken;
        // What weight is left at the least, shaken down.
        let weight = GRAVITY * (1.0 - shaken.z);
        let mut all = Sloshes::new();
        for tray in trays(tank) {
            let long: f64 = tray.cells.iter().sum();
            let depth = if is_box {
                tank.capacity().fill_depth.si()
            } else {
                fill / (long * tray.width)
            };
            let cell = tray.longest();
            let mass = if is_box {
                tray.swinging(density, depth).0
            } else {
                density * fill
            };
            let rest = tray.shaken * tray.inertia() / (weight * fill);
            let shift = if weight > 0.0 { 2.0 * rest } else { cell };
            // One for each axis.
            let _ = all.push(Self {
                along: tray.along,
                cells: u8::try_from(tray.cells.len()).unwrap_or(u8::MAX),
                cell: Length::from_metres(cell),
                period: BoxSlosh::of(cell, depth).period,
                mass: Mass::from_kilograms(mass),
                force: Force::from_newtons(mass * tray.shaken),
                shift: Length::from_metres(libm::fmin(shift, 0.5 * cell)),
                is_box,
            });
        }
        all
    }
}
