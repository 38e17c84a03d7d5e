//! The rows of the steels.

use super::strength::Bar::Least;
use super::strength::Condition::Any;
use super::strength::Rods::Every;
use super::strength::{Row, WeldedRow};
use super::{Figure, Metal, Share, Source};
use Source::{
    AnnealedParent, AsmVolume1, AstmA36, AstmA240, En1993Part1, En1993Part2, En10025, En10025Sheet,
    En10088, En10088Part2, En10111, En10130, Incropera,
};

/// The row that the others write over.
const LIKE_304: Metal = Metal {
    heat_capacity: Figure(500, En10088),
    conductivity: Figure(15, En10088),
    conductivities: &[],
    solidus: Figure(1_400, AsmVolume1),
    liquidus: Figure(1_450, AsmVolume1),
    expansion: Figure(160, En10088),
    modulus: Figure(2_000, En10088),
    poisson: Figure(30, En1993Part1),
    bright: Figure(22, Incropera),
    magnesium: Share(0, 0, 0, En10088),
    silicon: Share(0, 100, 0, En10088),
    heat_treatable: false,
    strengths: &[Row(&[], 515, 205, Least, AstmA240)],
    welded: &[WeldedRow(Any, Every, 515, 205, AnnealedParent)],
};

pub(super) static S304: Metal = LIKE_304;

pub(super) static S304L: Metal = Metal {
    strengths: &[
        Row(&[], 485, 170, Least, AstmA240),
        Row(&[], 500, 200, Least, En10088Part2),
    ],
    welded: &[WeldedRow(Any, Every, 485, 170, AnnealedParent)],
    ..LIKE_304
};

pub(super) static S316: Metal = Metal {
    solidus: Figure(1_375, AsmVolume1),
    liquidus: Figure(1_400, AsmVolume1),
    ..LIKE_304
};

pub(super) static S316L: Metal = Metal {
    solidus: Figure(1_375, AsmVolume1),
    liquidus: Figure(1_400, AsmVolume1),
    strengths: &[
        Row(&[], 485, 170, Least, AstmA240),
        Row(&[], 530, 240, Least, En10088Part2),
    ],
    welded: &[WeldedRow(Any, Every, 485, 170, AnnealedParent)],
    ..LIKE_304
};

/// The row that the other carbon steels write over.
const CARBON: Metal = Metal {
    heat_capacity: Figure(440, En1993Part2),
    conductivity: Figure(53, En1993Part2),
    solidus: Figure(1_490, AsmVolume1),
    liquidus: Figure(1_530, AsmVolume1),
    expansion: Figure(120, En1993Part1),
    modulus: Figure(2_100, En1993Part1),
    bright: Figure(66, Source::EmissivityTable),
    magnesium: Share(0, 0, 0, En10025),
    // What an unnamed low-carbon steel has of silicon: A36 plate, up to 0.40 %.
    silicon: Share(0, 40, 0, AstmA36),
    // One name covers all three: the weakest holds.
    strengths: &[
        Row(&[], 360, 235, Least, En10025),
        Row(&[], 400, 250, Least, AstmA36),
        Row(&[], 270, 140, Least, En10130),
    ],
    welded: &[WeldedRow(Any, Every, 270, 140, AnnealedParent)],
    ..LIKE_304
};

pub(super) static LOW_CARBON: Metal = CARBON;

pub(super) static S235: Metal = Metal {
    silicon: Share(0, 0, 0, En10025),
    strengths: &[Row(&[], 360, 235, Least, En10025)],
    welded: &[WeldedRow(Any, Every, 360, 235, AnnealedParent)],
    ..CARBON
};

pub(super) static S275: Metal = Metal {
    silicon: Share(0, 0, 0, En10025),
    strengths: &[Row(&[], 410, 275, Least, En10025Sheet)],
    welded: &[WeldedRow(Any, Every, 410, 275, AnnealedParent)],
    ..CARBON
};

pub(super) static S355: Metal = Metal {
    silicon: Share(0, 55, 0, En10025Sheet),
    strengths: &[Row(&[], 470, 355, Least, En10025Sheet)],
    welded: &[WeldedRow(Any, Every, 470, 355, AnnealedParent)],
    ..CARBON
};

pub(super) static DC01: Metal = Metal {
    silicon: Share(0, 0, 0, En10130),
    strengths: &[Row(&[], 270, 140, Least, En10130)],
    welded: &[WeldedRow(Any, Every, 270, 140, AnnealedParent)],
    ..CARBON
};

/// EN 10111 promises no least of strength but of yield.
pub(super) static DD11: Metal = Metal {
    silicon: Share(0, 0, 0, En10111),
    strengths: &[Row(&[], 270, 170, Least, En10111)],
    welded: &[WeldedRow(Any, Every, 270, 170, AnnealedParent)],
    ..CARBON
};
