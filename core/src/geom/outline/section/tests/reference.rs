//! Profiles against the shared reference set.

use super::super::Section;
use super::cases::{CASES, FILL_TOLERANCE, SHEET, WIDTH};
use super::support::{close, near, scaled};
use crate::geom::Vector;

fn inside(section: &Section) -> Section {
    let sheets = [SHEET / 1000.0; super::super::MAX_CORNERS];
    section.inward(&sheets[..section.len()]).unwrap()
}

#[test]
fn outlines_and_volumes() {
    for case in CASES {
        let outside = scaled(case.outline, 1e-3);
        let [area, length] = case.outside;
        close(outside.area() * 1e6, area, 5e-8);
        close(outside.perimeter() * 1e3, length, 5e-8);
        let volume = inside(&outside).area() * (WIDTH - 2.0 * SHEET) * 1e6;
        close(volume, case.inside, FILL_TOLERANCE);
        // Outward again is the outline that it came from.
        let inner = inside(&outside);
        let back = inner.inward(&[-SHEET / 1000.0; 12][..inner.len()]).unwrap();
        for place in 0..back.len() {
            for axis in 0..2 {
                near(back.at(place)[axis], outside.at(place)[axis], 1e-15);
            }
            near(back.radius(place), outside.radius(place), 1e-16);
        }
    }
    assert_eq!(CASES.len(), 8);
}

#[test]
fn fills() {
    for case in CASES {
        let inner = inside(&scaled(case.outline, 1e-3));
        let width = (WIDTH - 2.0 * SHEET) / 1000.0;
        for [pitch, depth, wanted] in case.fills {
            let (sine, cosine) = libm::sincos(pitch.to_radians());
            let up = Vector::new(sine, 0.0, cosine);
            let (low, _) = inner.extent([sine, cosine]);
            let (volume, surface) = inner.prism_below(width, up, low + depth / 1000.0);
            let found = volume * 1e9;
            assert!(
                libm::fabs(found - wanted) <= FILL_TOLERANCE * wanted,
                "{} at {pitch}° and {depth} mm: {found} instead of {wanted}",
                case.name
            );
            let cut = inner.below([sine, cosine], low + depth / 1000.0);
            close(volume, cut.area * width, 1e-14);
            close(surface, cut.chord * width, 1e-13);
        }
    }
}
