//! Prisms below a plane at any lean.

use core::f64::consts::PI;

use super::super::Section;
use super::support::{Numbers, close, near, section};
use crate::geom::Vector;

const SQUARE: [[f64; 3]; 4] = [
    [0.0, 0.0, 0.0],
    [1.0, 0.0, 0.0],
    [1.0, 1.0, 0.0],
    [0.0, 1.0, 0.0],
];

/// The unit cube below x a + y b + z c = level: Σ (-1)ⁿ (level - sums of corners)₊³ / (6 a b c)
/// (volume of a simplex less those beyond each corner; inclusion and exclusion).
fn cube(up: Vector, level: f64) -> f64 {
    let mut sum = 0.0;
    for corner in 0..8_u32 {
        let sign = if corner.count_ones().is_multiple_of(2) {
            1.0
        } else {
            -1.0
        };
        let bit = |axis: u32| f64::from((corner >> axis) & 1);
        let rest = level - bit(0) * up.x - bit(1) * up.y - bit(2) * up.z;
        if rest > 0.0 {
            sum += sign * rest * rest * rest;
        }
    }
    sum / (6.0 * up.x * up.y * up.z)
}

#[test]
fn a_leaning_cube() {
    let square = section(&SQUARE);
    let mut numbers = Numbers(3);
    for _ in 0..500 {
        let up = Vector::new(
            numbers.between(0.1, 1.0),
            numbers.between(0.1, 1.0),
            numbers.between(0.1, 1.0),
        )
        .unit()
        .unwrap();
        let level = numbers.between(0.0, up.x + up.y + up.z);
        let wanted = cube(up, level);
        let (volume, _) = square.prism_below(1.0, up, level);
        near(volume, wanted, 1e-12);
        // The other way round along y the cube is the same, one width lower.
        let mirrored = Vector::new(up.x, -up.y, up.z);
        let (volume, _) = square.prism_below(1.0, mirrored, level - up.y);
        near(volume, wanted, 1e-12);
    }
}

/// An upright cylinder tilted: cut by a plane that meets neither end, it holds π r² times the height on
/// its axis, and the cut is π r² / cos θ. A wedge through the middle of its end, the hoof of Archimedes,
/// holds ⅔ r² h (Archimedes, The Method; CRC Standard Mathematical Tables, from memory).
#[test]
fn cylinder_and_hoof() {
    let circle = section(&super::support::CIRCLE);
    for tilt in [0.01_f64, 0.1, 0.3, 0.7] {
        let up = Vector::new(libm::sin(tilt), libm::cos(tilt), 0.0);
        let (volume, surface) = circle.prism_below(4.0, up, 2.0 * libm::cos(tilt));
        close(volume, 2.0 * PI, 1e-13);
        close(surface, PI / libm::cos(tilt), 1e-13);
        let (volume, surface) = circle.prism_below(4.0, up, 0.0);
        close(volume, 2.0 / 3.0 * libm::tan(tilt), 1e-12);
        close(surface, 0.5 * PI / libm::cos(tilt), 1e-12);
    }
    // Standing on its end, either way up.
    for sign in [1.0, -1.0] {
        let up = Vector::new(0.0, sign, 0.0);
        let floor = if sign > 0.0 { 0.0 } else { -4.0 };
        let (volume, surface) = circle.prism_below(4.0, up, floor + 1.5);
        close(volume, 1.5 * PI, 1e-14);
        close(surface, PI, 1e-14);
        near(circle.prism_below(4.0, up, floor - 0.1).0, 0.0, 0.0);
        close(circle.prism_below(4.0, up, floor + 4.1).0, 4.0 * PI, 1e-14);
        close(circle.prism_below(4.0, up, floor + 4.0).1, PI, 1e-14);
    }
}

/// The volume by slices across y, 10 000 of them, each an area below a level.
fn slices(shape: &Section, width: f64, up: Vector, level: f64) -> f64 {
    let across = libm::hypot(up.x, up.z);
    let dir = [up.x / across, up.z / across];
    let count = 10_000;
    let step = width / f64::from(count);
    (0..count)
        .map(|slice| {
            let y = (f64::from(slice) + 0.5) * step;
            shape.below(dir, (level - up.y * y) / across).area * step
        })
        .sum()
}

fn reach(shape: &Section, width: f64, up: Vector) -> (f64, f64) {
    let (low, high) = shape.extent([up.x, up.z]);
    let end = up.y * width;
    (low + end.min(0.0), high + end.max(0.0))
}

#[test]
fn random_prisms_against_slices() {
    let mut numbers = Numbers(5);
    for _ in 0..60 {
        let shape = numbers.outline();
        let width = numbers.between(0.2, 3.0);
        let up = numbers.direction();
        // Nearly on end the area falls from all to nothing within one slice.
        if libm::fabs(up.y) > 0.95 {
            continue;
        }
        let (low, high) = reach(&shape, width, up);
        let level = numbers.between(low, high);
        let (volume, _) = shape.prism_below(width, up, level);
        near(volume, slices(&shape, width, up, level), 1e-6);
    }
}

/// Up and down are each other's rest, and surface is the slope of volume.
#[test]
fn rest_and_slope() {
    let mut numbers = Numbers(13);
    for _ in 0..300 {
        let shape = numbers.outline();
        let width = numbers.between(0.2, 3.0);
        let up = numbers.direction();
        let (low, high) = reach(&shape, width, up);
        let level = numbers.between(low, high);
        let whole = shape.area() * width;
        let (volume, surface) = shape.prism_below(width, up, level);
        let (rest, beneath) = shape.prism_below(width, -up, -level);
        near(volume + rest, whole, 1e-13 * whole);
        near(surface, beneath, 1e-9);
        let step = 1e-6;
        let (over, _) = shape.prism_below(width, up, level + step);
        let (under, _) = shape.prism_below(width, up, level - step);
        near(
            (over - under) / (2.0 * step),
            surface,
            1e-4 * (1.0 + surface),
        );
        assert!(under <= volume && volume <= over);
        let (full, _) = shape.prism_below(width, up, high + 1e-9);
        close(full, whole, 1e-14);
        near(shape.prism_below(width, up, low - 1e-9).0, 0.0, 0.0);
    }
}

/// As the lean along y goes to nothing the volume and the surface go to those of the level prism, with
/// no jump and no loss of digits on the way; and as it goes to a stand on end likewise.
#[test]
fn continuous_in_the_lean() {
    let mut numbers = Numbers(17);
    for _ in 0..40 {
        let shape = numbers.outline();
        let (sine, cosine) = libm::sincos(numbers.between(-PI, PI));
        let (low, high) = shape.extent([cosine, sine]);
        let level = numbers.between(low + 0.1 * (high - low), high);
        let cut = shape.below([cosine, sine], level);
        for power in 1..17 {
            let lean = libm::pow(10.0, -f64::from(power));
            let across = libm::sqrt(1.0 - lean * lean);
            let up = Vector::new(across * cosine, lean, across * sine);
            // About the middle of the width, so that the first order vanishes.
            let (volume, surface) = shape.prism_below(0.5, up, across * level + 0.25 * lean);
            let bend = 3.0 * lean;
            near(volume, 0.5 * cut.area, 0.1 * lean * bend + 1e-15);
            near(surface, 0.5 * cut.chord, 4.0 * libm::sqrt(lean) + 1e-13);
            // On end, all but: full to the height of the plane on the centroid's line.
            let [u, w] = shape.centroid();
            let up = Vector::new(lean * cosine, across, lean * sine);
            if lean < 0.05 {
                let height = 0.25 * across + lean * (cosine * u + sine * w);
                let (volume, surface) = shape.prism_below(0.5, up, height);
                close(volume, 0.25 * shape.area(), 1e-13);
                close(surface, shape.area() / across, 1e-13);
            }
        }
    }
}

/// Volume never falls as the level climbs, in steps down to the last bits.
#[test]
fn monotone() {
    let mut numbers = Numbers(19);
    for _ in 0..20 {
        let shape = numbers.outline();
        let up = numbers.direction();
        let (low, high) = reach(&shape, 1.0, up);
        let mut last = 0.0;
        for step in 0..=2000 {
            let level = low + (high - low) * f64::from(step) / 2000.0;
            let (volume, surface) = shape.prism_below(1.0, up, level);
            assert!(volume >= last, "{volume} after {last}");
            assert!(surface >= -1e-12);
            last = volume;
        }
    }
}
