//! What bending alone overstates of a plate that bulges and whose edges may pull inward.
//!
//! A plate that bulges stretches in its middle, even where nothing holds its edges in its own plane: the middle is pulled,
//! the edges are pressed together, and both stiffen it. The walls of a welded tank are such plates, for at a corner the
//! pull of one wall meets the soft side of the other. The tables are von Kármán's equations (Timoshenko and
//! Woinowsky-Krieger, *Theory of Plates and Shells*, article 100; the energy of article 101 with many terms instead of
//! one) under an even pressure, no force along or across the edges, ν = 0.33, solved by `tests/data/strength/von_karman.py`,
//! rounded up. A long plate first bulges a little more than by bending alone: its pressed edges give way.

use super::Sides;

/// What is left of the figures of bending alone, as shares of them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Eased {
    /// Of the bulge in the middle.
    pub(crate) bulge: f64,
    /// Of the highest stress away from the edges, the pull in the middle of the sheet with it.
    pub(crate) inside: f64,
    /// Of the highest stress at the edges, likewise.
    pub(crate) edge: f64,
    /// Of the volume that it sweeps.
    pub(crate) swept: f64,
}

/// Sides, long over short, of the rows.
const RATIOS: [f64; 8] = [1.0, 1.25, 1.5, 2.0, 2.5, 3.0, 4.0, 6.0];
/// Bulges by bending alone, in thicknesses, of the columns; up to [`FLAT`] nothing is eased.
const BULGES: [f64; 6] = [0.5, 1.0, 2.0, 4.0, 8.0, 16.0];
/// Past so many sheets of bulge by bending alone nothing is told as eased: there nothing was computed.
pub(crate) const EASED_TO: f64 = 16.0;
/// As flat as this a plate only bends.
const FLAT: f64 = 0.25;

/// Thousandths of what bending alone gives, for each of [`BULGES`].
#[derive(Clone, Copy)]
struct Row {
    bulge: [u16; 6],
    inside: [u16; 6],
    edge: [u16; 6],
    swept: [u16; 6],
}

/// Edges free to turn. What seems to stand at an edge is that of the slopes there, taken as that of the swept volume.
const FREE: [Row; 8] = [
    Row {
        bulge: [960, 879, 732, 559, 404, 284],
        inside: [1010, 939, 866, 782, 710, 655],
        edge: [966, 897, 769, 614, 468, 347],
        swept: [966, 897, 769, 614, 468, 347],
    },
    Row {
        bulge: [964, 890, 748, 575, 418, 294],
        inside: [1005, 948, 882, 803, 731, 675],
        edge: [970, 907, 785, 630, 481, 357],
        swept: [970, 907, 785, 630, 481, 357],
    },
    Row {
        bulge: [972, 910, 781, 612, 450, 319],
        inside: [997, 955, 903, 834, 764, 708],
        edge: [977, 926, 816, 665, 511, 379],
        swept: [977, 926, 816, 665, 511, 379],
    },
    Row {
        bulge: [986, 949, 857, 706, 538, 388],
        inside: [989, 951, 852, 795, 745, 700],
        edge: [989, 960, 882, 747, 586, 438],
        swept: [989, 960, 882, 747, 586, 438],
    },
    Row {
        bulge: [994, 975, 919, 799, 632, 467],
        inside: [997, 982, 928, 806, 735, 704],
        edge: [995, 979, 928, 819, 662, 503],
        swept: [995, 979, 928, 819, 662, 503],
    },
    Row {
        bulge: [998, 991, 962, 875, 722, 547],
        inside: [1004, 1001, 978, 893, 738, 709],
        edge: [997, 988, 955, 872, 729, 565],
        swept: [997, 988, 955, 872, 729, 565],
    },
    Row {
        bulge: [1002, 1004, 1004, 975, 870, 700],
        inside: [1005, 1010, 1017, 995, 895, 725],
        edge: [999, 994, 978, 931, 827, 673],
        swept: [999, 994, 978, 931, 827, 673],
    },
    Row {
        bulge: [1001, 1003, 1011, 1029, 1021, 925],
        inside: [1001, 1004, 1014, 1038, 1039, 951],
        edge: [999, 997, 988, 966, 919, 819],
        swept: [999, 997, 988, 966, 919, 819],
    },
];

/// Edges held from turning.
const HELD: [Row; 8] = [
    Row {
        bulge: [965, 891, 751, 581, 427, 307],
        inside: [1018, 953, 790, 581, 483, 394],
        edge: [992, 960, 889, 784, 664, 567],
        swept: [973, 917, 807, 667, 530, 411],
    },
    Row {
        bulge: [969, 902, 770, 602, 446, 323],
        inside: [1011, 951, 799, 598, 514, 436],
        edge: [991, 956, 876, 760, 636, 544],
        swept: [978, 928, 826, 688, 548, 426],
    },
    Row {
        bulge: [977, 924, 810, 651, 492, 360],
        inside: [1001, 950, 821, 639, 511, 438],
        edge: [994, 964, 890, 776, 651, 549],
        swept: [985, 947, 862, 732, 588, 457],
    },
    Row {
        bulge: [991, 967, 900, 774, 613, 459],
        inside: [991, 966, 897, 765, 595, 475],
        edge: [999, 986, 944, 856, 738, 618],
        swept: [994, 976, 925, 820, 677, 532],
    },
    Row {
        bulge: [1000, 995, 970, 887, 738, 569],
        inside: [1010, 1013, 994, 908, 751, 573],
        edge: [1003, 1003, 992, 940, 837, 710],
        swept: [997, 988, 958, 882, 754, 605],
    },
    Row {
        bulge: [1003, 1008, 1010, 968, 846, 676],
        inside: [1012, 1024, 1034, 997, 873, 695],
        edge: [1004, 1010, 1018, 998, 918, 794],
        swept: [998, 992, 972, 920, 813, 669],
    },
    Row {
        bulge: [1003, 1008, 1025, 1038, 988, 850],
        inside: [1006, 1014, 1036, 1061, 1020, 883],
        edge: [1002, 1005, 1018, 1036, 1012, 920],
        swept: [999, 995, 982, 954, 890, 773],
    },
    Row {
        bulge: [1000, 1001, 1004, 1024, 1056, 1030],
        inside: [1006, 1012, 1021, 1032, 1072, 1061],
        edge: [1002, 1004, 1009, 1017, 1045, 1039],
        swept: [999, 997, 989, 973, 943, 887],
    },
];

/// `w D/(p a⁴)` in the middle by bending alone, in millionths: edges free to turn, and held (tables 8 and 35 of the same
/// book, for its ratios).
const MIDDLE: [[f64; 8]; 2] = [
    [
        4_062.0, 6_027.0, 7_724.0, 10_129.0, 11_496.0, 12_233.0, 12_819.0, 13_009.0,
    ],
    [
        1_265.0, 1_822.0, 2_197.0, 2_533.0, 2_612.0, 2_617.0, 2_607.0, 2_604.0,
    ],
];

impl Eased {
    /// Nothing is.
    pub(crate) const NONE: Self = Self {
        bulge: 1.0,
        inside: 1.0,
        edge: 1.0,
        swept: 1.0,
    };

    /// Of a plate whose edges are free to turn (`held` is 0), held (1) or something between, for its bulge by bending
    /// alone in thicknesses. Past [`EASED_TO`] nothing is.
    pub(crate) fn of(sides: Sides, held: f64, bulge: f64) -> Self {
        if !(bulge > FLAT && bulge <= EASED_TO) {
            return Self::NONE;
        }
        let at = place(&RATIOS, sides.ratio());
        let free = Self::between(&FREE, at, bulge);
        let fixed = Self::between(&HELD, at, bulge);
        let held = libm::fmax(0.0, libm::fmin(1.0, held));
        let mix = |pick: fn(&Self) -> f64| pick(&free) + held * (pick(&fixed) - pick(&free));
        Self {
            bulge: mix(|one| one.bulge),
            inside: mix(|one| one.inside),
            edge: mix(|one| one.edge),
            swept: mix(|one| one.swept),
        }
    }

    fn between(rows: &[Row; 8], at: (usize, f64), bulge: f64) -> Self {
        let (low, share) = at;
        let (Some(one), Some(other)) = (rows.get(low), rows.get(low + 1)) else {
            return Self::NONE;
        };
        let of = |pick: fn(&Row) -> &[u16; 6]| {
            let [a, b] = [one, other].map(|row| along(pick(row), bulge));
            a + share * (b - a)
        };
        Self {
            bulge: of(|row| &row.bulge),
            inside: of(|row| &row.inside),
            edge: of(|row| &row.edge),
            swept: of(|row| &row.swept),
        }
    }
}

/// How far a plate's edges are held from turning, 0 to 1, by its deflection in the middle under an even pressure, both by
/// bending alone: `w D/(p a⁴)`.
pub(crate) fn hold(sides: Sides, middle: f64) -> f64 {
    let (low, share) = place(&RATIOS, sides.ratio());
    let [free, held] = MIDDLE.map(|all| {
        let at = |place: usize| all.get(place).copied().unwrap_or(0.0);
        1e-6 * (at(low) + share * (at(low + 1) - at(low)))
    });
    libm::fmax(0.0, libm::fmin(1.0, (free - middle) / (free - held)))
}

/// Between which two of a row of growing values one lies, and how far; the first or the last two where it lies past them,
/// at their end.
fn place<const N: usize>(all: &[f64; N], value: f64) -> (usize, f64) {
    let pairs = all.iter().zip(all.iter().skip(1)).enumerate();
    let mut found = (0, 0.0);
    for (place, (low, high)) in pairs {
        if value > *low {
            found = (place, libm::fmin(1.0, (value - low) / (high - low)));
        }
    }
    found
}

/// A row at a bulge: straight in its logarithm between the columns.
fn along(row: &[u16; 6], bulge: f64) -> f64 {
    let at = |place: usize| {
        row.get(place)
            .copied()
            .map_or(1.0, |share| 1e-3 * f64::from(share))
    };
    let [first, ..] = BULGES;
    if bulge < first {
        return 1.0 + (at(0) - 1.0) * (bulge - FLAT) / (first - FLAT);
    }
    let (low, _) = place(&BULGES, bulge);
    let [one, other] = [low, low + 1].map(|place| BULGES.get(place).copied().unwrap_or(first));
    let share = libm::fmin(1.0, libm::log2(bulge / one) / libm::log2(other / one));
    at(low) + share * (at(low + 1) - at(low))
}
