//! A plate with its top edge free: the side of a tank that is open, or a baffle that stops short of the top.
//!
//! Base and both sides are held down, and either free to turn or held from turning. Lévy's series in sines
//! across the width, with the four functions of height that meet the base and the free top (Timoshenko and
//! Woinowsky-Krieger, articles 36 and 41); where the sides are held from turning, the moments along them that
//! bring them back to level, as in article 48, in quarter waves up the height: each of those bears no force at
//! the top, and the series frees it of their moment.

use super::Bending;
use super::peak;
use super::wave::{Term, at_edge, wave_number};
use crate::units::input::OPEN_RATIO;

/// Sine terms across the width, and of the moments up the sides.
const TERMS: usize = 24;
/// Looks up the side for its largest moment.
const LOOKS: u8 = 60;
/// Looks across half the width and up the height for the largest moment within.
const GRID: [u8; 2] = [12, 16];
/// The residue of the side's slope, over the one that the load gives it, at which the moments have settled.
const SETTLED: f64 = 1e-9;

/// Sine coefficients of the moments along both sides.
type Moments = [f64; TERMS];

/// A plate whose top edge is free, in metres.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct OpenTop {
    width: f64,
    height: f64,
}

/// A pressure that changes in a straight line up the plate, in pascals.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Rise {
    /// At the base.
    pub base: f64,
    /// At the free edge: zero of a liquid up to it.
    pub top: f64,
}

/// One sine term across the width: `sin(k x) Y(y)`, Y being the load's straight line and
/// `e^(−z) (a + b z) + e^(z − H) (c + d z)`, z = k y, H at the top.
#[derive(Clone, Copy)]
struct Lift {
    k: f64,
    /// Of the load, at the base and what a height of 1 adds.
    line: [f64; 2],
    top: f64,
    /// a, b, c, d.
    by: [f64; 4],
}

/// The function of z with these four, and its first three derivatives.
fn shape([a, b, c, d]: [f64; 4], top: f64, z: f64) -> [f64; 4] {
    let (fall, rise) = (libm::exp(-z), libm::exp(z - top));
    let grown = c + d * z;
    [
        fall * (a + b * z) + rise * grown,
        fall * (b - a - b * z) + rise * (grown + d),
        fall * (a + b * z - 2.0 * b) + rise * (grown + 2.0 * d),
        fall * (3.0 * b - a - b * z) + rise * (grown + 3.0 * d),
    ]
}

/// What a term has too much of at the free edge: moment and force, signs left off.
fn at_rim(of: [f64; 4], nu: f64) -> [f64; 2] {
    let [w, first, second, third] = of;
    [second - nu * w, third - (2.0 - nu) * first]
}

impl Lift {
    /// Y, Y′ and Y″.
    fn at(&self, y: f64) -> [f64; 3] {
        let [w, first, second, _] = shape(self.by, self.top, self.k * y);
        let [p, q] = self.line;
        let k = self.k;
        [w + p + q * y, k * first + q, k * k * second]
    }
}

/// A plate with a width of 1.
#[derive(Clone, Copy)]
struct Unit {
    height: f64,
    nu: f64,
    fixed: bool,
    /// The pressure at the base, and what a height of 1 adds.
    load: [f64; 2],
}

/// The term numbers 1, 3, 5 …, each with the sign of its sine a quarter wave on.
fn odd() -> impl Iterator<Item = (u8, f64)> {
    (0u8..).map(|step| {
        let sign = if step.is_multiple_of(2) { 1.0 } else { -1.0 };
        (step.saturating_mul(2).saturating_add(1), sign)
    })
}

impl Unit {
    /// Waves up a side: each with its sign at the top.
    fn sides(&self) -> impl Iterator<Item = (f64, f64)> {
        let quarter = wave_number(1, 2.0 * self.height);
        odd().map(move |(number, sign)| (quarter * f64::from(number), sign))
    }

    /// The term for k, the load counted so many times, that at the free edge has the moment `rim` and at the base
    /// the slope `slope`, which only a base that is held from turning is given.
    fn lift(&self, k: f64, times: f64, rim: f64, slope: f64) -> Lift {
        let nu = self.nu;
        let top = k * self.height;
        let share = times * 4.0 / (k * k * k * k * k);
        let line = self.load.map(|part| part * share);
        // What meets the base and dies away above it.
        let low = if self.fixed {
            let [p, q] = line;
            [-p, -p + (slope - q) / k, 0.0, 0.0]
        } else {
            let [p, _] = line;
            [-p, -0.5 * p, 0.0, 0.0]
        };
        // Two that ask nothing of the base.
        let small = libm::exp(-top);
        let [one, two] = if self.fixed {
            [[-small, -2.0 * small, 1.0, 0.0], [0.0, -small, 0.0, 1.0]]
        } else {
            [[-small, 0.0, 1.0, 0.0], [0.0, small, 0.0, 1.0]]
        };
        let flat = Lift {
            k,
            line,
            top,
            by: low,
        };
        let [m, v] = at_rim(shape(low, top, top), nu);
        let [p, q] = line;
        let want = [
            rim / (k * k) + nu * (p + q * self.height) - m,
            (2.0 - nu) * q / k - v,
        ];
        let [m1, v1] = at_rim(shape(one, top, top), nu);
        let [m2, v2] = at_rim(shape(two, top, top), nu);
        let by = 1.0 / (m1 * v2 - m2 * v1);
        let (s, t) = (
            by * (want[0] * v2 - want[1] * m2),
            by * (want[1] * m1 - want[0] * v1),
        );
        let mut all = flat;
        for ((sum, one), two) in all.by.iter_mut().zip(one).zip(two) {
            *sum += s * one + t * two;
        }
        all
    }

    /// The term for k under the load, counted so many times, and moments along the sides.
    fn term(&self, k: f64, times: f64, moments: &Moments) -> Lift {
        let (mut rim, mut slope) = (0.0, 0.0);
        for (moment, (g, sign)) in moments.iter().zip(self.sides()) {
            let sum = k * k + g * g;
            // The sine coefficient across the width of what this wave lifts.
            let share = moment * 4.0 * k / (sum * sum);
            rim += share * sign * (g * g + self.nu * k * k);
            slope -= share * g;
        }
        self.lift(k, times, rim, slope)
    }

    /// The slopes of a side, in its waves, under the load counted so many times and moments along it.
    fn slopes(&self, times: f64, moments: &Moments) -> Moments {
        let mut slopes = [0.0; TERMS];
        for (slope, (moment, part)) in slopes.iter_mut().zip(moments.iter().zip(self.own())) {
            *slope = moment * part;
        }
        let [p, q] = self.load.map(|part| times * part);
        for (number, _) in odd().take(TERMS) {
            let k = wave_number(number, 1.0);
            let lift = self.term(k, times, moments);
            let ([_, rim, _], [_, _, base]) = (lift.at(self.height), lift.at(0.0));
            for (slope, (g, sign)) in slopes.iter_mut().zip(self.sides()) {
                let sum = k * k + g * g;
                // ∫ Y sin(g y) dy, by parts.
                let load = 4.0 / k * (p / g + q * sign / (g * g));
                let waves = load + sign * (g * g + self.nu * k * k) * rim - g * base;
                *slope += k * waves / (sum * sum);
            }
        }
        slopes
    }

    /// What each wave of moment turns the side by itself, were the top kept level.
    fn own(&self) -> impl Iterator<Item = f64> {
        let half = 0.5 * self.height;
        self.sides().map(move |(g, _)| {
            let (edge, rest) = at_edge(false, 0.5 * g);
            half * (edge + rest) / (2.0 * g)
        })
    }

    /// The moments along the sides that keep them level: by conjugate gradients, since by Betti's rule one wave
    /// turns another as much as that one turns it.
    fn moments(&self) -> Moments {
        let mut moments = [0.0; TERMS];
        let mut left = self.slopes(1.0, &moments).map(|slope| -slope);
        let mut way = [0.0; TERMS];
        let (mut last, mut first) = (1.0, 0.0);
        for round in 0..TERMS {
            let eased = |(left, own): (&f64, f64)| left * left / own;
            let size: f64 = left.iter().zip(self.own()).map(eased).sum();
            if round == 0 {
                first = size;
            }
            if !(size > SETTLED * SETTLED * first) {
                break;
            }
            let keep = if round == 0 { 0.0 } else { size / last };
            for (way, (left, own)) in way.iter_mut().zip(left.iter().zip(self.own())) {
                *way = left / own + keep * *way;
            }
            let turned = self.slopes(0.0, &way);
            let work: f64 = way.iter().zip(&turned).map(|(a, b)| a * b).sum();
            let step = size / work;
            for (moment, way) in moments.iter_mut().zip(&way) {
                *moment += step * way;
            }
            for (left, turned) in left.iter_mut().zip(&turned) {
                *left -= step * turned;
            }
            last = size;
        }
        moments
    }

    /// Deflection on the line up the middle.
    fn deflection(&self, moments: &Moments, lifts: &[Lift; TERMS], y: f64) -> f64 {
        let mut sum = 0.0;
        for (lift, (_, sign)) in lifts.iter().zip(odd()) {
            let [w, ..] = lift.at(y);
            sum += sign * w;
        }
        for (moment, (g, _)) in moments.iter().zip(self.sides()) {
            let beta = 0.5 * g;
            let (edge, _) = at_edge(false, beta);
            let low = 0.5 * moment / (g * g);
            let term = Term {
                k: g,
                beta,
                odd: false,
                a: low * beta * edge,
                b: -low,
            };
            let [w, ..] = term.at(y, 0.0);
            sum += w;
        }
        sum
    }

    /// The largest principal moment within, twisting included; of a plate whose edges are free to turn.
    fn within(&self, lifts: &[Lift; TERMS]) -> f64 {
        let [across, up] = GRID;
        let mut most = 0.0;
        for step in 0..=up {
            let y = self.height * f64::from(step) / f64::from(up);
            for step in 0..=across {
                let x = 0.5 * f64::from(step) / f64::from(across);
                let (mut xx, mut yy, mut xy) = (0.0, 0.0, 0.0);
                for lift in lifts {
                    let [w, first, second] = lift.at(y);
                    let (sin, cos) = libm::sincos(lift.k * x);
                    xx -= lift.k * lift.k * sin * w;
                    yy += sin * second;
                    xy += lift.k * cos * first;
                }
                let half = 0.5 * (1.0 + self.nu) * libm::fabs(xx + yy);
                let twist = (1.0 - self.nu) * libm::hypot(0.5 * (xx - yy), xy);
                most = libm::fmax(most, half + twist);
            }
        }
        most
    }

    fn bending(&self) -> Bending {
        let moments = if self.fixed {
            self.moments()
        } else {
            [0.0; TERMS]
        };
        let mut lifts = [self.lift(1.0, 0.0, 0.0, 0.0); TERMS];
        for (lift, (number, _)) in lifts.iter_mut().zip(odd()) {
            *lift = self.term(wave_number(number, 1.0), 1.0, &moments);
        }
        let mut sag = |y: f64| self.deflection(&moments, &lifts, y);
        let rim = libm::fabs(sag(self.height));
        let deflection = libm::fmax(rim, peak::along(&mut sag, 0.0, self.height));
        let moment = if self.fixed {
            let mut base = |x: f64| {
                let one = |lift: &Lift| lift.at(0.0)[2] * libm::sin(lift.k * x);
                lifts.iter().map(one).sum::<f64>()
            };
            let mut most = peak::along(&mut base, 0.0, 1.0);
            for look in 1..LOOKS {
                let y = self.height * f64::from(look) / f64::from(LOOKS);
                let waves = moments.iter().zip(self.sides());
                let side: f64 = waves.map(|(m, (g, _))| m * libm::sin(g * y)).sum();
                most = libm::fmax(most, libm::fabs(side));
            }
            most
        } else {
            self.within(&lifts)
        };
        Bending { moment, deflection }
    }
}

impl OpenTop {
    /// From its width and height in metres, or `None` unless both are finite and above zero and the one over the
    /// other lies within [`OPEN_RATIO`].
    #[must_use]
    pub fn new(width: f64, height: f64) -> Option<Self> {
        let (least, most) = OPEN_RATIO;
        let ratio = width / height;
        let sound = width > 0.0 && height > 0.0 && width.is_finite() && height.is_finite();
        (sound && (least..=most).contains(&ratio)).then_some(Self { width, height })
    }

    /// Largest moment and deflection with base and sides free to turn, for Poisson's ratio `poisson`.
    ///
    /// The largest principal moment: wide and open, a plate is twisted more than it is bent. Looked for at points
    /// a sixteenth of the height apart: up to 0.5 % below it.
    #[must_use]
    pub fn supported(self, load: Rise, poisson: f64) -> Bending {
        self.bent(load, poisson, false)
    }

    /// Largest moment, which stands at the base or a side, and deflection with base and sides held from turning.
    ///
    /// Near the free corners, where the moment along a side falls to nothing, the series runs up to 6 % past it;
    /// of a plate wider than high under a liquid the base rules there.
    #[must_use]
    pub fn clamped(self, load: Rise, poisson: f64) -> Bending {
        self.bent(load, poisson, true)
    }

    /// Its width, in metres.
    #[must_use]
    pub const fn width(self) -> f64 {
        self.width
    }

    /// Its height, in metres.
    #[must_use]
    pub const fn height(self) -> f64 {
        self.height
    }

    fn bent(self, load: Rise, nu: f64, fixed: bool) -> Bending {
        let height = self.height / self.width;
        let unit = Unit {
            height,
            nu,
            fixed,
            load: [load.base, (load.top - load.base) / height],
        };
        let square = self.width * self.width;
        let Bending { moment, deflection } = unit.bending();
        Bending {
            moment: moment * square,
            deflection: deflection * square * square,
        }
    }
}
