//! A body that turns about an axis: a round wall between two ends. Lengths are metres.

mod error;
mod gauss;
mod head;
mod moment;

pub use error::TurnedError;
pub use head::Head;

use core::f64::consts::{FRAC_PI_2, PI};

use crate::units::Length;

/// Stretches into which one end is divided at most: at the joint of crown and knuckle, where the level
/// meets the profile, and at both ends.
const MOST_CUTS: usize = 12;

/// A round wall between two ends. Along its axis it is measured from the plane in which the first end
/// begins; the ends reach beyond.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turned {
    radius: f64,
    length: f64,
    heads: [Head; 2],
}

/// `∫ (π/2 + asin u + u √(1−u²)) du`, from where a disc begins to be wet; linear once it is whole.
fn filled(u: f64) -> f64 {
    if u <= -1.0 {
        0.0
    } else if u >= 1.0 {
        PI * u
    } else {
        let root = libm::sqrt(1.0 - u * u);
        FRAC_PI_2 * u + u * libm::asin(u) + root - root * root * root / 3.0
    }
}

/// Area below the line at `u` radii above the centre, for a disc of radius 1: the circular segment.
fn segment(u: f64) -> f64 {
    if u <= -1.0 {
        0.0
    } else if u >= 1.0 {
        PI
    } else {
        FRAC_PI_2 + libm::asin(u) + u * libm::sqrt(1.0 - u * u)
    }
}

impl Turned {
    /// From radius and length of the wall, both above zero, and the two ends.
    ///
    /// # Errors
    /// [`TurnedError`] names the size at fault.
    pub fn new(radius: f64, length: f64, heads: [Head; 2]) -> Result<Self, TurnedError> {
        let size = |value: f64| {
            if value > 0.0 && value.is_finite() {
                Ok(())
            } else {
                Err(TurnedError::Size {
                    value: Length::from_metres(value),
                })
            }
        };
        size(radius)?;
        size(length)?;
        for head in heads {
            match head {
                Head::Flat => {}
                Head::Dome { depth } => size(depth)?,
                Head::Torispherical { crown, knuckle } => {
                    // A crown written as the radius may be it but for rounding.
                    if !(crown >= radius * (1.0 - 1e-12) && crown.is_finite()) {
                        return Err(TurnedError::Crown {
                            crown: Length::from_metres(crown),
                            least: Length::from_metres(radius),
                        });
                    }
                    if !(knuckle > 0.0 && knuckle <= radius && knuckle < crown) {
                        return Err(TurnedError::Knuckle {
                            knuckle: Length::from_metres(knuckle),
                            most: Length::from_metres(radius),
                        });
                    }
                }
            }
        }
        Ok(Self {
            radius,
            length,
            heads,
        })
    }

    /// Radius of the wall.
    #[must_use]
    pub const fn radius(&self) -> f64 {
        self.radius
    }

    /// Length of the wall.
    #[must_use]
    pub const fn length(&self) -> f64 {
        self.length
    }

    /// The two ends.
    #[must_use]
    pub const fn heads(&self) -> [Head; 2] {
        self.heads
    }

    fn head(&self, place: usize) -> Head {
        self.heads.get(place).copied().unwrap_or(Head::Flat)
    }

    /// How deep an end is, the first being 0.
    #[must_use]
    pub fn head_depth(&self, place: usize) -> f64 {
        self.head(place).depth(self.radius)
    }

    /// Radius of an end at `out` from where it begins.
    #[must_use]
    pub fn head_radius_at(&self, place: usize, out: f64) -> f64 {
        self.head(place).radius_at(self.radius, out)
    }

    /// Radius at a place along the axis, from the plane in which the first end begins; `None` past an end.
    #[must_use]
    pub fn radius_at(&self, place: f64) -> Option<f64> {
        let [first, second] = self.heads;
        let (head, out) = if place < 0.0 {
            (first, -place)
        } else {
            (second, place - self.length)
        };
        if out <= 0.0 {
            return Some(self.radius);
        }
        (out <= head.depth(self.radius)).then(|| head.radius_at(self.radius, out))
    }

    /// Surface of an end, in m².
    #[must_use]
    pub fn head_area(&self, place: usize) -> f64 {
        self.head(place).area(self.radius)
    }

    /// Surface of the wall, in m².
    #[must_use]
    pub fn shell_area(&self) -> f64 {
        2.0 * PI * self.radius * self.length
    }

    /// Its volume, in m³.
    #[must_use]
    pub fn volume(&self) -> f64 {
        let heads: f64 = self
            .heads
            .iter()
            .map(|head| head.within(self.radius, head.depth(self.radius)).0)
            .sum();
        PI * self.radius * self.radius * self.length + heads
    }

    /// Where its centre of volume lies along the axis.
    #[must_use]
    pub fn centroid_along(&self) -> f64 {
        let [first, second] = self.heads;
        let of = |head: Head| head.within(self.radius, head.depth(self.radius));
        let wall = PI * self.radius * self.radius * self.length;
        let ((v0, m0), (v1, m1)) = (of(first), of(second));
        let moment = 0.5 * wall * self.length - m0 + m1 + v1 * self.length;
        moment / (wall + v0 + v1)
    }

    /// The lowest and the highest that it reaches along a unit direction that has `along` on the axis
    /// and `across`, at least zero, square to it; from the centre of the plane in which the first end
    /// begins.
    #[must_use]
    pub fn extent(&self, along: f64, across: f64) -> (f64, f64) {
        let [first, second] = self.heads;
        let reach = |sense: f64| {
            let near = first.reach(self.radius, -sense * along, across);
            let far = second.reach(self.radius, sense * along, across);
            libm::fmax(near, far + sense * along * self.length)
        };
        (-reach(-1.0), reach(1.0))
    }

    /// The point that reaches furthest along such a direction: its place along the axis, and how far out
    /// from it.
    #[must_use]
    pub fn furthest(&self, along: f64, across: f64) -> (f64, f64) {
        let [first, second] = self.heads;
        let (head, out) = if along >= 0.0 {
            (second, along)
        } else {
            (first, -along)
        };
        let (beyond, radius) = match head {
            Head::Flat => (0.0, self.radius),
            Head::Dome { depth } => {
                let reach = libm::hypot(out * depth, across * self.radius);
                if reach > 0.0 {
                    (
                        out * depth * depth / reach,
                        across * self.radius * self.radius / reach,
                    )
                } else {
                    (0.0, self.radius)
                }
            }
            Head::Torispherical { .. } => match head.tori(self.radius) {
                Some(tori) if across * (tori.crown - tori.knuckle) <= tori.ring => {
                    (out * tori.crown - tori.behind, across * tori.crown)
                }
                Some(tori) => (out * tori.knuckle, tori.ring + across * tori.knuckle),
                None => (0.0, self.radius),
            },
        };
        if along >= 0.0 {
            (self.length + beyond, radius)
        } else {
            (-beyond, radius)
        }
    }

    /// The volume (m³) of the part below a plane, and the area (m²) that the plane cuts. The plane's unit
    /// normal, which points up, has `along` on the axis and `across`, at least zero, square to it;
    /// `level` is measured along it from the centre of the plane in which the first end begins.
    ///
    /// The wall is closed: with u the plane's height over the axis in radii, the segment `π/2 + asin u +
    /// u √(1−u²)` integrates to elementary functions. An end is summed by 24-point Gauss-Legendre over
    /// each stretch between the places where the plane meets its profile: at most some 150 segments for
    /// each end, to about 1e-12 of its volume.
    #[must_use]
    pub fn below(&self, along: f64, across: f64, level: f64) -> (f64, f64) {
        let (wall, mut surface) = self.wall_below(along, across, level);
        let mut volume = wall;
        let [first, second] = self.heads;
        // Lying level, two equal ends hold the same.
        if along == 0.0 && first == second {
            let (more, open) = self.head_below(first, 0.0, across, level);
            return (volume + 2.0 * more, surface + 2.0 * open);
        }
        for (place, head) in self.heads.into_iter().enumerate() {
            // Seen from its own plane, outward.
            let (out, from) = if place == 0 {
                (-along, level)
            } else {
                (along, level - along * self.length)
            };
            let (more, open) = self.head_below(head, out, across, from);
            volume += more;
            surface += open;
        }
        (volume, surface)
    }

    fn wall_below(&self, along: f64, across: f64, level: f64) -> (f64, f64) {
        let (radius, length) = (self.radius, self.length);
        let disc = PI * radius * radius;
        // Standing upright the plane cuts a whole disc.
        if across * radius <= 1e-12 * libm::fabs(along) * length {
            let place = level / along;
            let wet = libm::fmin(libm::fmax(place, 0.0), length);
            let cut = (0.0..=length).contains(&place);
            let volume = if along > 0.0 { wet } else { length - wet };
            return (disc * volume, if cut { disc } else { 0.0 });
        }
        let u0 = level / (across * radius);
        let slope = along / (across * radius);
        let u1 = u0 - slope * length;
        // The two ends of a wall that hardly leans differ by too little to be taken apart: there
        // Simpson's rule is as good as exact.
        if libm::fabs(u0 - u1) < 1e-5 {
            let middle = 0.5 * (u0 + u1);
            let area = (segment(u0) + 4.0 * segment(middle) + segment(u1)) / 6.0;
            let half = libm::sqrt(libm::fmax(0.0, 1.0 - middle * middle));
            return (
                radius * radius * area * length,
                2.0 * radius * half * length / across,
            );
        }
        let volume = radius * radius * (filled(u0) - filled(u1)) / slope;
        let surface = radius * (segment(u0) - segment(u1)) / (slope * across);
        (volume, surface)
    }

    fn head_below(&self, head: Head, out: f64, across: f64, level: f64) -> (f64, f64) {
        let radius = self.radius;
        let depth = head.depth(radius);
        if depth <= 0.0 {
            return (0.0, 0.0);
        }
        let whole = || head.within(radius, depth).0;
        if level >= head.reach(radius, out, across) && level >= across * radius {
            return (whole(), 0.0);
        }
        if level <= -head.reach(radius, -out, across) && level <= -across * radius {
            return (0.0, 0.0);
        }
        if across * radius <= 1e-12 * libm::fabs(out) * depth {
            let place = level / out;
            let wet = libm::fmin(libm::fmax(place, 0.0), depth);
            let (volume, _) = head.within(radius, wet);
            let r = head.radius_at(radius, wet);
            let cut = (0.0..=depth).contains(&place);
            let volume = if out > 0.0 { volume } else { whole() - volume };
            return (volume, if cut { PI * r * r } else { 0.0 });
        }
        let (w0, slope) = (level / across, -out / across);
        let mut cuts: heapless::Vec<f64, MOST_CUTS> = heapless::Vec::new();
        let _ = cuts.push(0.0);
        head.meets(radius, w0, slope, |at| {
            if at > 0.0 && at < depth {
                let _ = cuts.push(at);
            }
        });
        let _ = cuts.push(depth);
        crate::geom::sort::insertion(&mut cuts, |a, b| a < b);
        let tori = head.tori(radius);
        let (mut volume, mut surface) = (0.0, 0.0);
        for (from, to) in cuts.iter().zip(cuts.iter().skip(1)) {
            // A stretch that the plane passes clear of is dry, or whole and closed.
            let middle = 0.5 * (from + to);
            let (w, r) = (w0 + slope * middle, head.radius_at(radius, middle));
            if w <= -r {
                continue;
            }
            if w >= r {
                volume += head.within(radius, *to).0 - head.within(radius, *from).0;
                continue;
            }
            gauss::each(*from, *to, |at, weight| {
                let r = match &tori {
                    Some(tori) => tori.radius_at(at),
                    None => head.radius_at(radius, at),
                };
                let w = w0 + slope * at;
                if !(r > 0.0) {
                    return;
                }
                let u = w / r;
                volume += weight * r * r * segment(u);
                if u > -1.0 && u < 1.0 {
                    surface += weight * 2.0 * r * libm::sqrt(1.0 - u * u) / across;
                }
            });
        }
        (volume, surface)
    }
}
