//! Where a line along an axis crosses a section.

use super::Section;

impl Section {
    /// Where the line on which coordinate `axis` (0 or 1) is `at` enters and leaves the section, as the
    /// other coordinate; `None` where it misses the section or is inside it in more than one stretch.
    #[must_use]
    pub fn crossings(&self, axis: usize, at: f64) -> Option<[f64; 2]> {
        // Two crossings nearer than this share of the section are one: a piece's end is the next one's
        // start.
        const SAME: f64 = 1e-9;
        let pick = |p: [f64; 2]| {
            if axis == 0 {
                (p[0], p[1])
            } else {
                (p[1], p[0])
            }
        };
        let same = SAME * self.perimeter();
        let mut found = [0.0; 2];
        let mut count = 0;
        let mut keep = |other: f64| {
            let known = found
                .iter()
                .take(count)
                .any(|seen: &f64| libm::fabs(seen - other) < same);
            if known {
                return;
            }
            if let Some(slot) = found.get_mut(count) {
                *slot = other;
            }
            count += 1;
        };
        for place in 0..self.len() {
            let [a, b] = self.straight(place).map(pick);
            if (a.0 <= at) != (b.0 <= at) {
                keep(a.1 + (b.1 - a.1) * (at - a.0) / (b.0 - a.0));
            }
            let Some(arc) = self.arc(place) else { continue };
            let centre = pick(arc.centre);
            let off = at - centre.0;
            let square = arc.radius * arc.radius - off * off;
            if square < 0.0 {
                continue;
            }
            let (from, towards) = (pick(arc.from), pick(arc.towards));
            for reach in [libm::sqrt(square), -libm::sqrt(square)] {
                let along = off * from.0 + reach * from.1;
                let across = off * towards.0 + reach * towards.1;
                let angle = libm::atan2(across, along);
                if angle >= 0.0 && angle <= arc.sweep {
                    keep(centre.1 + reach);
                }
            }
        }
        let [a, b] = found;
        (count == 2).then(|| [libm::fmin(a, b), libm::fmax(a, b)])
    }
}
