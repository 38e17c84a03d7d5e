//! Closed forms: circle, obround, L, ellipse-free arcs of every kind.

use super::std::vec::Vec;
use core::f64::consts::PI;

use super::super::Section;
use super::support::{CIRCLE, Numbers, close, corners, near, section};

#[test]
fn circle() {
    let circle = section(&CIRCLE);
    close(circle.area(), PI, 1e-14);
    close(circle.perimeter(), 2.0 * PI, 1e-14);
    let [u, w] = circle.centroid();
    near(u, 0.0, 1e-15);
    near(w, 0.0, 1e-15);
    for place in 0..4 {
        assert!(circle.straight_length(place) < 1e-15);
        close(circle.interior_angle(place), 0.5 * PI, 1e-15);
        close(circle.tangent_length(place), 1.0, 1e-15);
        let arc = circle.arc(place).unwrap();
        close(arc.sweep, 0.5 * PI, 1e-15);
        near(arc.centre[0], 0.0, 1e-15);
        near(arc.centre[1], 0.0, 1e-15);
    }
}

/// Circular segment: R² acos(1 - h/R) - (R - h)√(2Rh - h²), chord 2√(2Rh - h²), first moment about
/// the centre -⅔ (2Rh - h²)^(3/2) (CRC Standard Mathematical Tables, from memory).
#[test]
fn circular_segments_at_any_angle() {
    let circle = section(&CIRCLE);
    for turn in 0..40 {
        let (sine, cosine) = libm::sincos(0.157 * f64::from(turn));
        for step in 1..40 {
            let h = 0.05 * f64::from(step);
            let root = libm::sqrt(h * (2.0 - h));
            let cut = circle.below([cosine, sine], h - 1.0);
            let area = libm::acos(1.0 - h) - (1.0 - h) * root;
            near(cut.area, area, 3e-15);
            near(cut.chord, 2.0 * root, 2e-15);
            near(cut.moment, -2.0 / 3.0 * root * root * root, 3e-15);
        }
    }
}

/// Thin layers keep their digits: the same segment as the series (4/3) h √(2h) (1 - 3h/20 - 3h²/224),
/// less h³/384, whose next term is h⁴/1500 (expansion of the closed form).
#[test]
fn thin_circular_segments() {
    let circle = section(&CIRCLE);
    for power in 2..12 {
        let h = libm::pow(10.0, -f64::from(power));
        let area = 4.0 / 3.0
            * h
            * libm::sqrt(2.0 * h)
            * (1.0 - 0.15 * h - 3.0 / 224.0 * h * h - h * h * h / 384.0);
        // The level itself, 1 - h, is known only to half a unit in its last place.
        let tolerance = 4.0 * f64::EPSILON / h + h * h * h * h / 1000.0;
        close(circle.below([0.0, 1.0], h - 1.0).area, area, tolerance);
        close(circle.below([1.0, 0.0], h - 1.0).area, area, tolerance);
    }
}

/// Share of a circle below a depth of its diameter: 0.25 D holds 19.5501 %, and the depths that hold
/// 1, 5, 20, 25 and 30 % (tables of partly filled horizontal cylinders; checks hcyl-quarter and
/// hcyl-inv of the shared set).
#[test]
fn shares_of_a_circle() {
    let circle = section(&CIRCLE);
    let share = |depth: f64| circle.below([0.0, 1.0], 2.0 * depth - 1.0).area / PI;
    close(share(0.25), 0.195_501_109_477_885_38, 1e-14);
    for (wanted, depth) in [
        (0.01, 0.032_833_503_301_663_04),
        (0.05, 0.097_308_181_739_939_96),
        (0.20, 0.254_069_083_618_144_8),
        (0.25, 0.298_013_623_350_241_4),
        (0.30, 0.340_154_245_104_727_64),
    ] {
        near(share(depth), wanted, 1e-8);
    }
}

/// Obround, flats level: segment of the round ends and a rectangle between (references-geometry
/// section 2).
#[test]
fn obround() {
    let (radius, width) = (0.08, 0.36);
    let shape = section(&[
        [0.0, 0.0, radius],
        [width, 0.0, radius],
        [width, 2.0 * radius, radius],
        [0.0, 2.0 * radius, radius],
    ]);
    close(
        shape.area(),
        PI * radius * radius + (width - 2.0 * radius) * 2.0 * radius,
        1e-14,
    );
    for step in 1..20 {
        let h = 0.1 * f64::from(step) * radius;
        let root = libm::sqrt(h * (2.0 * radius - h));
        let segment = radius * radius * libm::acos(1.0 - h / radius) - (radius - h) * root;
        let cut = shape.below([0.0, 1.0], h);
        close(cut.area, segment + (width - 2.0 * radius) * h, 1e-13);
        close(cut.chord, 2.0 * root + width - 2.0 * radius, 1e-13);
    }
    let whole = shape.below([0.0, 1.0], 0.2);
    close(whole.area, shape.area(), 1e-14);
    near(whole.chord, 0.0, 1e-16);
}

/// An inside corner rounded: a square less a quarter circle's complement, r² (1 - π/4), is added there
/// and taken at the outside corners.
#[test]
fn rounded_inside_corner() {
    let shape = section(&[
        [0.0, 0.0, 0.1],
        [3.0, 0.0, 0.0],
        [3.0, 1.0, 0.0],
        [1.0, 1.0, 0.5],
        [1.0, 2.0, 0.0],
        [0.0, 2.0, 0.0],
    ]);
    let spandrel = 1.0 - 0.25 * PI;
    close(shape.area(), 4.0 + 0.25 * spandrel - 0.01 * spandrel, 1e-14);
    close(
        shape.perimeter(),
        10.0 - 0.5 * 2.0 * spandrel - 0.1 * 2.0 * spandrel,
        1e-14,
    );
    let arc = shape.arc(3).unwrap();
    assert!(!arc.left);
    near(arc.centre[0], 1.5, 1e-15);
    near(arc.centre[1], 1.5, 1e-15);
    near(arc.from[1], -1.0, 1e-15);
    near(arc.towards[0], -1.0, 1e-15);
    close(shape.interior_angle(3), 1.5 * PI, 1e-15);
    // Above 1.5 only the upright remains, one wide; at 1 + d the fillet reaches 1.5 - √(0.25 - (0.5 - d)²).
    let cut = shape.below([0.0, 1.0], 1.2);
    near(cut.chord, 1.5 - libm::sqrt(0.25 - 0.09), 1e-14);
    let cut = shape.below([0.0, -1.0], -1.5);
    near(cut.area, 0.5, 1e-14);
}

/// A level along a side counts what lies just below it.
#[test]
fn level_along_a_side() {
    let saddle = section(&[
        [0.0, 0.0, 0.0],
        [1.0, 0.0, 0.0],
        [1.0, 0.5, 0.0],
        [2.0, 0.5, 0.0],
        [2.0, 0.0, 0.0],
        [3.0, 0.0, 0.0],
        [3.0, 2.0, 0.0],
        [0.0, 2.0, 0.0],
    ]);
    for (level, area, chord) in [
        (-0.1, 0.0, 0.0),
        (0.0, 0.0, 0.0),
        (0.25, 0.5, 2.0),
        (0.5, 1.0, 2.0),
        (1.0, 2.5, 3.0),
        (2.0, 5.5, 3.0),
        (2.1, 5.5, 0.0),
    ] {
        let cut = saddle.below([0.0, 1.0], level);
        near(cut.area, area, 1e-15);
        near(cut.chord, chord, 1e-15);
    }
    // Through corners, along a diagonal: u + w = 1 leaves two triangles' worth.
    let half = core::f64::consts::FRAC_1_SQRT_2;
    let cut = saddle.below([half, half], half);
    near(cut.area, 0.5, 1e-15);
    near(cut.chord, 2.0 * half, 1e-15);
}

/// The maker's numbers come back whichever way round he drew.
#[test]
fn numbers_of_a_clockwise_outline() {
    let drawn = [
        [0.0, 0.0, 0.0],
        [0.0, 2.0, 0.1],
        [3.0, 2.0, 0.2],
        [4.0, 0.0, 0.0],
    ];
    let shape = section(&drawn);
    assert!(shape.reversed());
    for (number, corner) in (1_u8..).zip(drawn) {
        let place = shape.corner_place(number).unwrap();
        assert_eq!(shape.corner_number(place), number);
        assert_eq!(
            shape.at(place).map(f64::to_bits),
            [corner[0], corner[1]].map(f64::to_bits)
        );
        let side = shape.side_place(number).unwrap();
        assert_eq!(shape.side_number(side), number);
        // Side n joins the maker's corners n and n + 1.
        let next = number % 4 + 1;
        let mut ends = [shape.corner_number(side), shape.corner_number(side + 1)];
        ends.sort_unstable();
        let mut wanted = [number, next];
        wanted.sort_unstable();
        assert_eq!(ends, wanted);
    }
    let [_, slope] = shape.normal(shape.side_place(3).unwrap());
    assert!(slope > 0.0);
    assert_eq!(shape.corner_place(5), None);
    let mut back: Vec<_> = corners(&drawn);
    back.reverse();
    let other = Section::new(&back).unwrap();
    assert!(!other.reversed());
    assert_eq!(other.corners(), shape.corners());
}

/// Outlines with their arcs cut into 2000 chords, summed by the shoelace formula after clipping: an
/// independent road to area, moment and chord.
#[test]
fn random_outlines_against_many_sides() {
    let mut numbers = Numbers(7);
    for _ in 0..60 {
        let shape = numbers.outline();
        let polygon = many_sided(&shape, 2000);
        for _ in 0..6 {
            let (sine, cosine) = libm::sincos(numbers.between(-PI, PI));
            let dir = [cosine, sine];
            let (low, high) = shape.extent(dir);
            let (poly_low, poly_high) = polygon.iter().fold((f64::MAX, f64::MIN), |(l, h), p| {
                let s = dir[0] * p[0] + dir[1] * p[1];
                (l.min(s), h.max(s))
            });
            near(low, poly_low, 1e-6);
            near(high, poly_high, 1e-6);
            let level = numbers.between(low, high);
            let [area, moment, chord] = clipped(&polygon, dir, level);
            let cut = shape.below(dir, level);
            near(cut.area, area, 1e-6);
            near(cut.moment, moment, 1e-6);
            // Where the level grazes an arc the chord is sensitive.
            near(cut.chord, chord, 2e-3);
        }
    }
}

/// The area below a level is the integral of the chord, and the moment that of level times chord.
#[test]
fn chord_is_the_slope_of_the_area() {
    let mut numbers = Numbers(11);
    for _ in 0..200 {
        let shape = numbers.outline();
        let (sine, cosine) = libm::sincos(numbers.between(-PI, PI));
        let (low, high) = shape.extent([cosine, sine]);
        let level = numbers.between(low, high);
        let step = 1e-7;
        let [under, at, over] =
            [level - step, level, level + step].map(|l| shape.below([cosine, sine], l));
        let slope = (over.area - under.area) / (2.0 * step);
        // A corner or a grazed arc between the two levels bends the slope.
        let bend = libm::fabs(over.chord - under.chord);
        near(slope, at.chord, bend + 1e-7);
        near(
            (over.moment - under.moment) / (2.0 * step),
            level * at.chord,
            2.0 * bend + 1e-6,
        );
    }
}

fn many_sided(shape: &Section, parts: u32) -> Vec<[f64; 2]> {
    let mut points = Vec::new();
    for place in 0..shape.len() {
        match shape.arc(place) {
            None => points.push(shape.at(place)),
            Some(arc) => points.extend(
                (0..=parts).map(|part| arc.at(arc.sweep * f64::from(part) / f64::from(parts))),
            ),
        }
    }
    points
}

/// Area, moment and cut of a polygon below a level, by Sutherland and Hodgman's clipping.
fn clipped(polygon: &[[f64; 2]], dir: [f64; 2], level: f64) -> [f64; 3] {
    let height = |p: [f64; 2]| dir[0] * p[0] + dir[1] * p[1] - level;
    let mut kept: Vec<[f64; 2]> = Vec::new();
    let mut crossings: Vec<f64> = Vec::new();
    for (place, here) in polygon.iter().enumerate() {
        let next = polygon[(place + 1) % polygon.len()];
        let (a, b) = (height(*here), height(next));
        if a <= 0.0 {
            kept.push(*here);
        }
        if (a <= 0.0) != (b <= 0.0) {
            let t = a / (a - b);
            let point = [
                here[0] + t * (next[0] - here[0]),
                here[1] + t * (next[1] - here[1]),
            ];
            kept.push(point);
            crossings.push(dir[1] * point[0] - dir[0] * point[1]);
        }
    }
    crossings.sort_by(f64::total_cmp);
    let chord = crossings.chunks(2).map(|pair| pair[1] - pair[0]).sum();
    let (mut area, mut moment) = (0.0, 0.0);
    for (place, a) in kept.iter().enumerate() {
        let b = kept[(place + 1) % kept.len()];
        let twice = a[0] * b[1] - a[1] * b[0];
        area += 0.5 * twice;
        moment += twice * (height(*a) + height(b) + 2.0 * level) / 6.0;
    }
    [area, moment, chord]
}
