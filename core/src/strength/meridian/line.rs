//! The meridian of a drum as a chain of points.

use heapless::Vec;

use crate::body::turned::Head;

/// Points at the most.
pub(super) const POINTS: usize = 192;
/// Length of a frustum beside a rim, over √(R t), over which a shell's bending fades.
const FINE: f64 = 0.12;
/// Over so many √(R t) from where the curve changes they stay that fine.
const REACH: f64 = 5.0;
/// What each next one is longer by, farther off.
const GROWS: f64 = 1.12;
/// The shell is followed for so many √(R t), where it is as long; what its rim does has fallen to e⁻⁹ there.
const SHELL: f64 = 7.0;
/// Frusta in a knuckle at the least, and from the middle to the rim of a flat end.
const KNUCKLE: f64 = 12.0;
const FLAT: f64 = 40.0;

/// The middle of the sheet along a meridian, from the end's middle to where the shell no longer knows of it.
#[derive(Clone, Debug)]
pub(crate) struct Meridian {
    /// Radius, and height over the rim, in metres.
    pub(super) points: Vec<[f64; 2], POINTS>,
    /// The point at which the end meets the shell.
    pub(super) rim: usize,
    /// Sheet of the end and of the shell.
    pub(super) sheets: [f64; 2],
}

/// A drum whose meridian is wanted, in metres: radius of the middle of the shell's sheet, half the shell's length, the
/// sheet of the end and of the shell.
#[derive(Clone, Copy, Debug)]
pub(crate) struct RoundTank {
    pub(crate) head: Head,
    pub(crate) radius: f64,
    pub(crate) half_length: f64,
    pub(crate) sheets: [f64; 2],
}

/// Walks along a curve and notes points: from the rim inward, so that they come out the wrong way round.
struct Walk {
    points: Vec<[f64; 2], POINTS>,
    fits: bool,
}

impl Walk {
    fn note(&mut self, point: [f64; 2]) {
        self.fits &= self.points.push(point).is_ok();
    }

    /// Along `at(0 ..= length)` with steps of `fine` over `reach`, then growing; `at` runs by a length that need not be
    /// that of the curve, `rate` being how long the curve is for each metre of it.
    fn along(
        &mut self,
        length: f64,
        fine: f64,
        reach: f64,
        at: impl Fn(f64) -> [f64; 2],
        rate: impl Fn(f64) -> f64,
    ) {
        let (mut place, mut gone, mut step) = (0.0, 0.0, fine);
        while place < length {
            if gone > reach {
                step *= GROWS;
            }
            let next = place + step / rate(place);
            // No last piece much shorter than the others.
            place = if next > length - 0.6 * step / rate(place) {
                length
            } else {
                next
            };
            gone += step;
            self.note(at(place));
            if !self.fits {
                return;
            }
        }
    }
}

impl Meridian {
    /// `None` where its points are too many: of a shell far thinner than any that is welded by hand.
    pub(crate) fn new(tank: &RoundTank) -> Option<Self> {
        let RoundTank {
            head,
            radius,
            half_length,
            sheets,
        } = *tank;
        let [end, shell] = sheets;
        let wave = libm::sqrt(radius * shell);
        let end_wave = libm::sqrt(radius * end);
        let fine = FINE * end_wave;
        let mut walk = Walk {
            points: Vec::new(),
            fits: true,
        };
        walk.note([radius, 0.0]);
        let even = |_: f64| 1.0;
        match head {
            Head::Flat => {
                walk.along(radius, radius / FLAT, radius, |s| [radius - s, 0.0], even);
            }
            Head::Dome { depth } => {
                let point = |turn: f64| {
                    let (sine, cosine) = libm::sincos(turn);
                    [radius * cosine, depth * sine]
                };
                let rate = |turn: f64| {
                    let (sine, cosine) = libm::sincos(turn);
                    libm::hypot(radius * sine, depth * cosine)
                };
                let quarter = core::f64::consts::FRAC_PI_2;
                walk.along(quarter, fine, REACH * end_wave, point, rate);
            }
            Head::Torispherical { crown, knuckle } => {
                // From the axis to the middle of the knuckle, and the angle at which it meets the crown.
                let out = radius - knuckle;
                let meet = libm::acos(libm::fmin(out / (crown - knuckle), 1.0));
                let tight = libm::fmin(fine, meet * knuckle / KNUCKLE);
                let bend = |s: f64| {
                    let (sine, cosine) = libm::sincos(s / knuckle);
                    [out + knuckle * cosine, knuckle * sine]
                };
                walk.along(meet * knuckle, tight, f64::INFINITY, bend, even);
                let [_, height] = bend(meet * knuckle);
                let centre = height - crown * libm::sin(meet);
                let dome = |s: f64| {
                    let (sine, cosine) = libm::sincos(meet + s / crown);
                    [crown * cosine, centre + crown * sine]
                };
                let left = crown * (core::f64::consts::FRAC_PI_2 - meet);
                let far = REACH * libm::sqrt(crown * end);
                let fine = FINE * libm::sqrt(crown * end);
                walk.along(left, fine, far, dome, even);
            }
        }
        let mut points = walk.points;
        if let Some(middle) = points.last_mut() {
            // On the axis, whatever rounding made of it.
            let [radius, _] = middle;
            *radius = 0.0;
        }
        points.reverse();
        let rim = points.len().checked_sub(1)?;
        let mut walk = Walk {
            points,
            fits: walk.fits,
        };
        let length = libm::fmin(half_length, SHELL * wave);
        walk.along(length, FINE * wave, REACH * wave, |s| [radius, -s], even);
        walk.fits.then_some(Self {
            points: walk.points,
            rim,
            sheets,
        })
    }
}
