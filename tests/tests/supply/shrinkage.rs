//! Shrinkage against published figures; the source stands beside each check. Rows named `T6.…` are of
//! `data/welding/checks.json`.

use seamwright_core::supply::shrinkage;
use seamwright_core::supply::shrinkage::{ShrinkageNote, ShrinkingSheet};
use seamwright_core::tables::Family;
use seamwright_core::units::{
    Area, AreaUnit, Figure, Length, LengthUnit, LineEnergy, LineEnergyUnit,
};
use seamwright_tests::Outcome;
use seamwright_tests::amounts::{amps, mm};
use seamwright_tests::checks::{expect, input, welding};
use seamwright_tests::near::{Tolerance, near};
use seamwright_tests::published::{computed, from_memory};

const EXACT: Tolerance = Tolerance::relative(1e-12);

fn steel(t: f64) -> ShrinkingSheet {
    ShrinkingSheet {
        family: Family::Steel,
        thickness: mm(t),
    }
}

/// Spraragen and Ettinger (1950), AWS Welding Handbook (from memory).
#[test]
pub(super) fn shrinkage() -> Outcome {
    let in_mm = |l: Length| l.in_unit(LengthUnit::Millimetre);
    let check = welding("T6.trans.SE");
    let [a, t, g] = ["Aw_mm2", "t_mm", "d_mm"].map(|key| input(&check, key).unwrap());
    let area = Area::new(a, AreaUnit::SquareMillimetre);
    let butt = shrinkage::butt(steel(t), area, mm(g))?;
    expect(&check, "S_mm_0.18", in_mm(butt.range[0]))?;
    expect(&check, "S_mm_0.20", in_mm(butt.range[1]))?;
    assert!(butt.notes.is_empty(), "{butt:?}");

    let check = welding("T6.long.AWS");
    let [i, l, t] = ["I_A", "L_mm", "t_mm"].map(|key| input(&check, key).unwrap());
    let along = shrinkage::along(steel(t), amps(i), mm(l))?;
    expect(&check, "dL_mm", in_mm(along.range[0]))?;
    // King's own form in inches: 0.12 I L / (100 000 t).
    let inches = 0.12 * i * (l / 25.4) / (100_000.0 * t / 25.4);
    near(
        "King",
        along.range[0].in_unit(LengthUnit::Inch),
        inches,
        Tolerance::relative(2e-3),
    )?;

    // Section 6: 1.02 z/t and 1.52 z/t millimetres.
    let handbook = from_memory("Spraragen and Ettinger (1950), AWS Welding Handbook");
    let tee = in_mm(shrinkage::tee(steel(6.0), mm(4.0))?.range[0]);
    handbook.near("Shrinkage of a tee, leg 4 mm on 6 mm, mm", tee, 0.68, EXACT)?;
    let lap = in_mm(shrinkage::lap(steel(6.0), mm(3.0))?.range[0]);
    handbook.near("Shrinkage of a lap, leg 3 mm on 6 mm, mm", lap, 0.76, EXACT)?;
    Ok(())
}

/// Section 6 of references-welding.md, computed apart: 166 J/mm on 3.2 mm of 5052 draws in at most 0.52 mm.
#[test]
pub(super) fn free_contraction_and_notes() -> Outcome {
    let heat = LineEnergy::new(166.0, LineEnergyUnit::JoulePerMillimetre);
    let free = shrinkage::free(heat, 23.8e-6, 2_680.0 * 880.0, mm(3.2))?;
    let got = free.range[0].in_unit(LengthUnit::Millimetre);
    computed("α Q/(ρ c t), computed apart").near(
        "Free contraction of 166 J/mm on 3.2 mm of 5052, mm",
        got,
        0.52,
        Tolerance::absolute(0.005),
    )?;
    let thin = ShrinkingSheet {
        family: Family::Aluminium,
        thickness: mm(2.0),
    };
    let tee = shrinkage::tee(thin, mm(2.0))?;
    assert_eq!(
        tee.notes[..],
        [
            ShrinkageNote::MadeForSteel,
            ShrinkageNote::ThinSheet,
            ShrinkageNote::LargeLeg
        ]
    );
    assert!(shrinkage::tee(steel(6.0), mm(4.5))?.notes.is_empty());
    assert_eq!(
        shrinkage::tee(steel(6.0), mm(0.0)).unwrap_err().figure,
        Figure::Leg
    );
    Ok(())
}
