//! How fast a wire melts: the feed that goes with a current.
//!
//! The tip melts by the arc and by the current that heats what sticks out of the contact tip: `v = α I + β L I²`, the form
//! of A. Lesnewich (Weld. J. 37, 1958) and E. Halmøy (1979). For wire of another diameter the heat goes to another section:
//! `α` falls with the square of the diameter, `β` with its fourth power (own derivation).

use heapless::Vec;

use crate::tables::{Family, Process};
use crate::units::{Current, Length, LengthUnit, Speed};

/// Who says how fast a wire melts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum MeltingSource {
    /// The constants that texts on pulsed MIG print for 1.2 mm wire.
    Lesnewich,
    /// A maker's table of aluminium wire.
    WireMaker,
    /// A rule of the workshop.
    WorkshopRule,
}

impl MeltingSource {
    /// The source in words.
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Self::Lesnewich => {
                "a I + b L I\u{b2}, Lesnewich (1958), with the constants of texts on pulsed MIG for 1.2 mm wire (from memory), carried to other diameters"
            }
            Self::WireMaker => {
                "a line fitted here to a maker of aluminium wire's table, within a fifth of each of its rows"
            }
            Self::WorkshopRule => {
                "a workshop's rule that makers' manuals reprint: so many inches a minute for each ampere, by diameter"
            }
        }
    }
}

/// A feed, and who says so.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MeltingFeed {
    /// The feed.
    pub feed: Speed,
    /// Who says so.
    pub source: MeltingSource,
}

/// The wire that the constants hold for, in mm.
const FOR: f64 = 1.2;

/// Inches a minute for each ampere on steel, by diameters in mm, as makers' manuals reprint the rule (read): 0.024 in,
/// 0.030 in, 0.035 in and 0.045 in.
const RULE: [(f64, f64); 4] = [(0.61, 3.5), (0.76, 2.0), (0.89, 1.6), (1.14, 1.0)];
/// A wire this much off the ends of the rule is still of it, as a share.
const NEAR: f64 = 0.07;

/// The feeds that are published for a wire at a current, with so much of it beyond the contact tip; none for wire with a
/// core, of which no relation was read. Those of carbon steel stand in for stainless steel, which melts faster by its
/// higher resistance.
#[must_use]
pub fn melting_feeds(
    process: Process,
    family: Family,
    diameter: Length,
    current: Current,
    stick_out: Length,
) -> Vec<MeltingFeed, 2> {
    let mut all = Vec::new();
    if process == Process::FluxCored || !process.feeds_wire() {
        return all;
    }
    let d = diameter.in_unit(LengthUnit::Millimetre);
    let (i, l) = (current.si(), stick_out.in_unit(LengthUnit::Millimetre));
    let wider = (FOR / d) * (FOR / d);
    // In mm/(A s) and 1/(A² s), for 1.2 mm.
    let (alpha, beta) = match family {
        Family::Aluminium => (0.75, 0.0),
        Family::Stainless | Family::Steel => (0.3, 5e-5),
    };
    let mut say = |millimetres: f64, source| {
        // Two at most, in room for two.
        let _ = all.push(MeltingFeed {
            feed: Speed::from_metres_per_second(1e-3 * millimetres),
            source,
        });
    };
    say(
        alpha * wider * i + beta * wider * wider * l * i * i,
        MeltingSource::Lesnewich,
    );
    match family {
        Family::Aluminium => say(0.95 * wider * i, MeltingSource::WireMaker),
        Family::Stainless | Family::Steel => {
            if let Some(inches) = by_rule(d) {
                say(inches * 25.4 / 60.0 * i, MeltingSource::WorkshopRule);
            }
        }
    }
    all
}

/// Inches a minute for each ampere; between diameters a power of the diameter.
fn by_rule(d: f64) -> Option<f64> {
    let pairs = RULE.iter().zip(RULE.iter().skip(1));
    for ((d0, v0), (d1, v1)) in pairs {
        if d >= *d0 && d <= *d1 {
            let along = libm::log(d / d0) / libm::log(d1 / d0);
            return Some(v0 * libm::pow(v1 / v0, along));
        }
    }
    RULE.iter()
        .find(|(at, _)| libm::fabs(d / at - 1.0) <= NEAR)
        .map(|(at, v)| v * (at / d) * (at / d))
}
