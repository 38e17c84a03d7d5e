//! The classifications of each filler by EN ISO and AWS, for one process.
//!
//! All are from memory. Rods for TIG, wires for MIG and MAG and cored wires have standards of their own, and marks of
//! strength and toughness differ from maker to maker: what stands here is the chemistry, by which a filler is ordered.

use super::{Filler, Process};

/// A filler by its standards.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Classified {
    /// The standard of EN ISO, and the symbol in it.
    pub en_iso: [&'static str; 2],
    /// The specification of AWS, and the classification in it.
    pub aws: [&'static str; 2],
}

const ALUMINIUM: [&str; 2] = ["EN ISO 18273", "AWS A5.10"];
const STAINLESS: [&str; 2] = ["EN ISO 14343-A", "AWS A5.9"];
const CORED_STAINLESS: [&str; 2] = ["EN ISO 17633-A", "AWS A5.22"];

/// Symbols in EN ISO and AWS under their standards.
const fn under(
    [en_iso, aws]: [&'static str; 2],
    symbol: &'static str,
    class: &'static str,
) -> Classified {
    Classified {
        en_iso: [en_iso, symbol],
        aws: [aws, class],
    }
}

impl Filler {
    /// Its classifications, in the form that a process takes (from memory).
    #[must_use]
    pub const fn classified(self, process: Process) -> Classified {
        let rod = !process.feeds_wire();
        let steel = if rod {
            ["EN ISO 636-A", "AWS A5.18"]
        } else {
            ["EN ISO 14341-A", "AWS A5.18"]
        };
        match self {
            Self::R1100 => under(ALUMINIUM, "S Al 1100 (Al99,0Cu)", "ER1100"),
            Self::R4043 => under(ALUMINIUM, "S Al 4043 (AlSi5)", "ER4043"),
            Self::R4047 => under(ALUMINIUM, "S Al 4047 (AlSi12)", "ER4047"),
            Self::R5183 => under(ALUMINIUM, "S Al 5183 (AlMg4,5Mn0,7(A))", "ER5183"),
            Self::R5356 => under(ALUMINIUM, "S Al 5356 (AlMg5Cr(A))", "ER5356"),
            Self::R5554 => under(ALUMINIUM, "S Al 5554 (AlMg2,7Mn)", "ER5554"),
            Self::R5556 => under(ALUMINIUM, "S Al 5556 (AlMg5Mn1Ti)", "ER5556"),
            Self::Er308L => under(
                STAINLESS,
                if rod { "W 19 9 L" } else { "G 19 9 L" },
                "ER308L",
            ),
            Self::Er309L => under(
                STAINLESS,
                if rod { "W 23 12 L" } else { "G 23 12 L" },
                "ER309L",
            ),
            Self::Er316L => under(
                STAINLESS,
                if rod { "W 19 12 3 L" } else { "G 19 12 3 L" },
                "ER316L",
            ),
            Self::Er70s2 => under(steel, if rod { "W2Ti" } else { "G2Ti" }, "ER70S-2"),
            Self::Er70s6 => under(steel, if rod { "W3Si1" } else { "G3Si1" }, "ER70S-6"),
            Self::E71t1 => under(["EN ISO 17632-A", "AWS A5.20"], "T 46 2 P", "E71T-1"),
            Self::E308Lt1 => under(CORED_STAINLESS, "T 19 9 L P", "E308LT1"),
            Self::E309Lt1 => under(CORED_STAINLESS, "T 23 12 L P", "E309LT1"),
            Self::E316Lt1 => under(CORED_STAINLESS, "T 19 12 3 L P", "E316LT1"),
        }
    }
}
