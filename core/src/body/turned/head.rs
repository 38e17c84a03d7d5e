//! The ends of a drum.

use core::f64::consts::PI;

/// The form of one end. Lengths are metres.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Head {
    /// A flat disc.
    Flat,
    /// Half an ellipsoid of revolution; half a sphere where it is as deep as the wall's radius.
    Dome {
        /// From the plane in which it begins to its pole.
        depth: f64,
    },
    /// A spherical crown that runs through a rounded knuckle into the wall.
    Torispherical {
        /// Radius of the crown.
        crown: f64,
        /// Radius of the knuckle.
        knuckle: f64,
    },
}

/// The crown and the knuckle of a torispherical end, worked out. From the plane in which the end
/// begins, with crown radius f and knuckle radius k: the crown's centre lies `dz = √((f−k)² − (R−k)²)`
/// behind it, the end is `f − dz` deep, and the two meet `depth − f (1 − dz/(f−k))` out (D. Jones,
/// "Computing fluid tank volumes"; DIN 28011 draws the same).
#[derive(Clone, Copy, Debug)]
pub(super) struct Tori {
    pub(super) crown: f64,
    pub(super) knuckle: f64,
    /// Radius of the knuckle's centre circle.
    pub(super) ring: f64,
    /// How far the crown's centre lies behind the plane.
    pub(super) behind: f64,
    /// How far out crown and knuckle meet.
    pub(super) meet: f64,
    pub(super) depth: f64,
}

impl Tori {
    pub(super) fn new(radius: f64, crown: f64, knuckle: f64) -> Self {
        let ring = radius - knuckle;
        let reach = crown - knuckle;
        let behind = libm::sqrt(libm::fmax(0.0, reach * reach - ring * ring));
        let depth = crown - behind;
        Self {
            crown,
            knuckle,
            ring,
            behind,
            meet: depth - crown * (1.0 - behind / reach),
            depth,
        }
    }

    /// Radius at `out` from the plane in which the end begins.
    pub(super) fn radius_at(&self, out: f64) -> f64 {
        let root = |square: f64| libm::sqrt(libm::fmax(0.0, square));
        if out <= self.meet {
            self.ring + root(self.knuckle * self.knuckle - out * out)
        } else {
            let from = out + self.behind;
            root(self.crown * self.crown - from * from)
        }
    }

    /// Volume and first moment about the plane of the part within `out` of it.
    fn within(&self, out: f64) -> (f64, f64) {
        let (k, x) = (self.knuckle, self.ring);
        let t = libm::fmin(out, self.meet);
        let square = libm::fmax(0.0, k * k - t * t);
        let root = libm::sqrt(square);
        let mut volume =
            x * x * t + x * (t * root + k * k * libm::asin(libm::fmin(1.0, t / k))) + k * k * t
                - t * t * t / 3.0;
        let mut moment = 0.5 * (x * x + k * k) * t * t
            + 2.0 * x / 3.0 * (k * k * k - square * root)
            - 0.25 * t * t * t * t;
        if out > self.meet {
            let f = self.crown;
            let sum = |y: f64| {
                let y2 = y * y;
                (
                    f * f * y - y2 * y / 3.0,
                    0.5 * f * f * y2 - 0.25 * y2 * y2 - self.behind * (f * f * y - y2 * y / 3.0),
                )
            };
            let (low, high) = (sum(self.meet + self.behind), sum(out + self.behind));
            volume += high.0 - low.0;
            moment += high.1 - low.1;
        }
        (PI * volume, PI * moment)
    }
}

impl Head {
    pub(super) fn tori(self, radius: f64) -> Option<Tori> {
        match self {
            Self::Torispherical { crown, knuckle } => Some(Tori::new(radius, crown, knuckle)),
            Self::Flat | Self::Dome { .. } => None,
        }
    }

    pub(super) fn depth(self, radius: f64) -> f64 {
        match self {
            Self::Flat => 0.0,
            Self::Dome { depth } => depth,
            Self::Torispherical { .. } => self.tori(radius).map_or(0.0, |tori| tori.depth),
        }
    }

    /// Radius at `out` from the plane in which the end begins, up to its depth.
    pub(super) fn radius_at(self, radius: f64, out: f64) -> f64 {
        match self {
            Self::Flat => radius,
            Self::Dome { depth } => {
                let share = out / depth;
                radius * libm::sqrt(libm::fmax(0.0, 1.0 - share * share))
            }
            Self::Torispherical { .. } => {
                self.tori(radius).map_or(radius, |tori| tori.radius_at(out))
            }
        }
    }

    /// Volume and first moment about the plane in which the end begins, of the part within `out` of it.
    pub(super) fn within(self, radius: f64, out: f64) -> (f64, f64) {
        match self {
            Self::Flat => (0.0, 0.0),
            Self::Dome { depth } => {
                let share = out / depth;
                let disc = PI * radius * radius;
                (
                    disc * out * (1.0 - share * share / 3.0),
                    disc * out * out * (0.5 - 0.25 * share * share),
                )
            }
            Self::Torispherical { .. } => self
                .tori(radius)
                .map_or((0.0, 0.0), |tori| tori.within(out)),
        }
    }

    /// Its surface. Half an ellipsoid of revolution: CRC Standard Mathematical Tables (from memory); a
    /// zone of a sphere `2πfh`, the knuckle by Pappus.
    pub(super) fn area(self, radius: f64) -> f64 {
        let disc = PI * radius * radius;
        match self {
            Self::Flat => disc,
            Self::Dome { depth } => {
                let ratio = depth / radius;
                // Nearer to a sphere than this, and the two forms below lose digits.
                if libm::fabs(ratio - 1.0) < 1e-6 {
                    return 2.0 * PI * radius * (radius + 2.0 * depth) / 3.0;
                }
                if ratio < 1.0 {
                    let e = libm::sqrt(1.0 - ratio * ratio);
                    disc * (1.0 + (1.0 - e * e) / e * libm::atanh(e))
                } else {
                    let e = libm::sqrt(1.0 - 1.0 / (ratio * ratio));
                    disc * (1.0 + ratio / e * libm::asin(e))
                }
            }
            Self::Torispherical { .. } => self.tori(radius).map_or(0.0, |tori| {
                let angle = libm::asin(libm::fmin(1.0, tori.meet / tori.knuckle));
                let zone = 2.0 * PI * tori.crown * (tori.depth - tori.meet);
                zone + 2.0 * PI * tori.knuckle * (tori.ring * angle + tori.meet)
            }),
        }
    }

    /// How far it reaches, from the centre of the plane in which it begins, in a direction that has
    /// `out` along its own axis outward and `across` (at least zero) square to it; unit together.
    pub(super) fn reach(self, radius: f64, out: f64, across: f64) -> f64 {
        if out <= 0.0 {
            return across * radius;
        }
        match self {
            Self::Flat => across * radius,
            Self::Dome { depth } => libm::hypot(out * depth, across * radius),
            Self::Torispherical { .. } => self.tori(radius).map_or(across * radius, |tori| {
                // Steeper than where the two meet, the knuckle reaches furthest.
                if across * (tori.crown - tori.knuckle) <= tori.ring {
                    tori.crown - out * tori.behind
                } else {
                    across * tori.ring + tori.knuckle
                }
            }),
        }
    }

    /// Where the line `r = w0 + slope · out` meets the end's profile, for `out` from 0 to its depth.
    pub(super) fn meets(self, radius: f64, w0: f64, slope: f64, mut see: impl FnMut(f64)) {
        // |w|² = r²: a quadratic on each piece; roots that belong to its other half do no harm, since a
        // stretch may be divided anywhere.
        let mut roots = |a: f64, b: f64, c: f64| {
            let square = b * b - a * c;
            if square >= 0.0 && a != 0.0 {
                let root = libm::sqrt(square);
                let far = -(b + libm::copysign(root, b));
                see(far / a);
                if far != 0.0 {
                    see(c / far);
                }
            }
        };
        match self {
            Self::Flat => {}
            Self::Dome { depth } => {
                let flat = radius / depth;
                roots(
                    slope * slope + flat * flat,
                    w0 * slope,
                    w0 * w0 - radius * radius,
                );
            }
            Self::Torispherical { .. } => {
                let Some(tori) = self.tori(radius) else {
                    return;
                };
                roots(
                    slope * slope + 1.0,
                    w0 * slope + tori.behind,
                    w0 * w0 + tori.behind * tori.behind - tori.crown * tori.crown,
                );
                for sense in [1.0, -1.0] {
                    let from = sense * w0 - tori.ring;
                    roots(
                        slope * slope + 1.0,
                        sense * slope * from,
                        from * from - tori.knuckle * tori.knuckle,
                    );
                }
                see(tori.meet);
            }
        }
    }
}
