//! What the tests of a section share.

use super::std::vec::Vec;

use super::super::{Section, SectionCorner};

/// A section from x, z and radius of each corner.
pub(super) fn section(outline: &[[f64; 3]]) -> Section {
    Section::new(&corners(outline)).unwrap()
}

pub(super) fn corners(outline: &[[f64; 3]]) -> Vec<SectionCorner> {
    let corner = |&[u, w, radius]: &[f64; 3]| SectionCorner { at: [u, w], radius };
    outline.iter().map(corner).collect()
}

/// The same with each corner moved and sized by `factor`.
pub(super) fn scaled(outline: &[[f64; 3]], factor: f64) -> Section {
    let all: Vec<[f64; 3]> = outline
        .iter()
        .map(|corner| corner.map(|value| value * factor))
        .collect();
    section(&all)
}

#[track_caller]
pub(super) fn near(found: f64, wanted: f64, tolerance: f64) {
    assert!(
        libm::fabs(found - wanted) <= tolerance,
        "{found} instead of {wanted}: off by {:e}, more than {tolerance:e}",
        found - wanted
    );
}

/// Relative.
#[track_caller]
pub(super) fn close(found: f64, wanted: f64, tolerance: f64) {
    near(found, wanted, tolerance * libm::fabs(wanted));
}

/// A square of 2 × 2 about the origin with corners of radius 1: a circle.
pub(super) const CIRCLE: [[f64; 3]; 4] = [
    [-1.0, -1.0, 1.0],
    [1.0, -1.0, 1.0],
    [1.0, 1.0, 1.0],
    [-1.0, 1.0, 1.0],
];

/// Numbers between 0 and 1, the same in every run (a linear congruence; Knuth's MMIX constants, from
/// memory).
pub(super) struct Numbers(pub(super) u64);

impl Numbers {
    pub(super) fn next(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        f64::from((self.0 >> 33) as u32) / f64::from(1_u32 << 31)
    }

    pub(super) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.next()
    }

    /// A star-shaped outline about the origin: corners at growing angles, so that it never crosses
    /// itself; some rounded as far as fits.
    pub(super) fn outline(&mut self) -> Section {
        loop {
            let count = 3 + (self.next() * 9.9) as usize;
            let mut all: Vec<SectionCorner> = (0..count)
                .map(|place| {
                    let share = (place as f64 + self.between(0.1, 0.9)) / count as f64;
                    let (sine, cosine) = libm::sincos(share * core::f64::consts::TAU);
                    let reach = self.between(0.2, 1.0);
                    let rounded = self.next() < 0.6;
                    SectionCorner {
                        at: [0.3 + reach * cosine, -0.2 + reach * sine],
                        radius: if rounded { self.between(0.0, 0.3) } else { 0.0 },
                    }
                })
                .collect();
            for _ in 0..8 {
                if let Ok(section) = Section::new(&all) {
                    return section;
                }
                for corner in &mut all {
                    corner.radius *= 0.4;
                }
            }
        }
    }
}

impl Numbers {
    /// A direction of unit length, one in three of them nearly along the prism or nearly across it.
    pub(super) fn direction(&mut self) -> crate::geom::Vector {
        let (sine, cosine) = libm::sincos(self.between(-3.0, 3.0));
        let mut along = self.between(-1.0, 1.0);
        let kind = self.next();
        if kind < 0.2 {
            along *= libm::pow(10.0, -self.between(0.0, 12.0));
        } else if kind < 0.3 {
            along = libm::copysign(1.0 - libm::pow(10.0, -self.between(1.0, 8.0)), along);
        }
        let across = libm::sqrt((1.0 - along) * (1.0 + along));
        crate::geom::Vector::new(across * cosine, along, across * sine)
    }
}
