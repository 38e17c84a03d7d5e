//! What may slosh: against a code's printed formulas, potential theory, and statics of what it adds.

use seamwright_core::input::{Across, BaffleDraft, Block, Draft, HoleDraft, Sized, StockDraft};
use seamwright_core::mass::{BoxSlosh, Slosh};
use seamwright_core::tables::Alloy;
use seamwright_core::tank::Tank;
use seamwright_core::units::Ratio;
use seamwright_core::units::constant::GRAVITY;
use seamwright_tests::Outcome;
use seamwright_tests::amounts::mm;
use seamwright_tests::near::{Tolerance, between, near};

/// Lengths by depths that are looked at.
const SLENDER: [f64; 7] = [0.1, 0.2, 0.35, 0.5, 0.8, 1.2, 2.0];

fn of(depth_by_length: f64) -> Outcome<BoxSlosh> {
    Ok(BoxSlosh::new(mm(1000.0), mm(1000.0 * depth_by_length))?)
}

/// ACI 350.3-06, equations 9-2, 9-8 and 9-13 (from memory), which print Housner's results with rounded figures:
/// `W_c/W = 0.264 (L/H) tanh(3.16 H/L)`, `h'_c/H = 1 − (cosh(3.16 H/L) − 2.01)/(3.16 H/L sinh(3.16 H/L))`,
/// `ω = λ/√L`, `λ = √(3.16 g tanh(3.16 H/L))`.
#[test]
fn as_a_code_prints_it() -> Outcome {
    for r in SLENDER {
        let got = of(r)?;
        let x = 3.16 * r;
        near(
            "share",
            got.share,
            0.264 / r * x.tanh(),
            Tolerance::relative(5e-3),
        )?;
        let height = 1.0 - (x.cosh() - 2.01) / (x * x.sinh());
        near(
            "height",
            got.height,
            height,
            Tolerance {
                relative: 1.2e-2,
                absolute: 0.0,
            },
        )?;
        let period = 2.0 * std::f64::consts::PI / (3.16 * GRAVITY * x.tanh()).sqrt();
        near("period", got.period.si(), period, Tolerance::relative(7e-3))?;
    }
    Ok(())
}

/// A mode's share by potential theory: `8 tanh(nπr)/(n³π³r)`, n odd (Graham and Rodriguez 1952, NASA SP-106, from memory).
fn mode(r: f64, n: f64) -> f64 {
    let wave = n * std::f64::consts::PI;
    8.0 * (wave * r).tanh() / (wave.powi(3) * r)
}

/// The first mode never swings more than is told, and is at most a twentieth less; all modes together swing a fifth more
/// at most, of deep liquid 3 %, as the documents say.
#[test]
fn no_less_than_potential_theory() -> Outcome {
    for r in SLENDER {
        let got = of(r)?.share;
        between("first mode", got, mode(r, 1.0), 0.0, 0.05)?;
        let all: f64 = (0..200_i32).map(|n| mode(r, f64::from(2 * n + 1))).sum();
        between(
            "all modes",
            all,
            got,
            0.0,
            if r > 0.6 { 0.031 } else { 0.2 },
        )?;
    }
    Ok(())
}

/// What rests and what swings come to the moment of the leaning liquid: Housner's impulsive part (`m₀ = m tanh(√3/2 L/h) /
/// (√3/2 L/h)`, its moment `m h (4 − m₀/m)/8`, from memory) and the convective one against hydrostatics, `m (h/2 + L²/(12 h))`
/// for each m/s² of a small acceleration.
#[test]
fn moments_come_to_those_at_rest() -> Outcome {
    for r in SLENDER {
        let got = of(r)?;
        let x = 0.75_f64.sqrt() / r;
        let rests = (4.0 - x.tanh() / x) / 8.0;
        let want = 0.5 + 1.0 / (12.0 * r * r);
        near(
            "moment",
            rests + got.share * got.height,
            want,
            Tolerance::relative(0.06),
        )?;
    }
    Ok(())
}

/// Put on at once, the force on the tank by 20 modes of potential theory, followed in time: it passes the force at rest by
/// no more than the first mode's whole swing and what the others have.
#[test]
fn a_sudden_push_followed_in_time() -> Outcome {
    let (length, r) = (0.5_f64, 0.4);
    let modes: Vec<(f64, f64)> = (0..20_i32)
        .map(|n| {
            let n = f64::from(2 * n + 1);
            let wave = n * std::f64::consts::PI / length;
            let square = GRAVITY * wave * (wave * r * length).tanh();
            (mode(r, n), square.sqrt())
        })
        .collect();
    let still: f64 = 1.0 - modes.iter().map(|(share, _)| share).sum::<f64>();
    let most = (0..20_000)
        .map(|step| {
            let time = f64::from(step) * 1e-3;
            let swings = modes
                .iter()
                .map(|(share, omega)| share * (1.0 - (omega * time).cos()));
            still + swings.sum::<f64>()
        })
        .fold(0.0, f64::max);
    let told = BoxSlosh::new(mm(1e3 * length), mm(1e3 * length * r))?;
    // Past the 1 of the force at rest: never more than is told.
    between("swing", most - 1.0, told.bound(), -0.3, 0.0)?;
    Ok(())
}

/// A box of 800 mm by 400 mm by 300 mm inside, filled to 80 %, shaken along its length at half of g.
fn shaken(baffles: &[f64]) -> Outcome<Tank> {
    let mut outside = Block::new(mm(800.0), mm(400.0), mm(300.0));
    outside.sized = Sized::Inside;
    let mut draft = Draft::new("Tray", outside, StockDraft::of(Alloy::S304L, mm(2.0)))
        .map_err(|error| format!("{error:?}"))?;
    for at in baffles {
        let mut baffle = BaffleDraft {
            across: Across::Length,
            at: mm(2.0 + at),
            thickness: Some(mm(1.0)),
            holes: heapless::Vec::new(),
            free: seamwright_core::input::WallSet::NONE,
            spaced: None,
        };
        let hole = HoleDraft {
            at: [mm(202.0), mm(152.0)],
            diameter: mm(80.0),
        };
        baffle.holes.push(hole).map_err(|_| "holes")?;
        draft.baffles.push(baffle).map_err(|_| "baffles")?;
    }
    for [x, y] in [[0.0, 0.0], [804.0, 0.0], [402.0, 404.0]] {
        draft
            .service
            .mounts
            .push([mm(x), mm(y), mm(0.0)])
            .map_err(|_| "mounts")?;
    }
    draft.fill.headspace = Some(Ratio::from_share(0.2));
    draft.service.acceleration = Some([0.5, 0.0, 0.0].map(Ratio::from_share));
    Ok(Tank::build(&draft).map_err(|error| format!("{error:?}"))?)
}

fn slosh(tank: &Tank) -> Outcome<Slosh> {
    let envelope = tank.mounts_envelope().ok_or("mounts")??;
    assert_eq!(envelope.sloshes.len(), 1);
    Ok(envelope.sloshes[0])
}

/// By hand from the printed formulas: what swings of the water, how far, and that each baffle makes all of it less.
#[test]
fn baffles_make_it_less() -> Outcome {
    let whole = slosh(&shaken(&[])?)?;
    let water = 1000.0 * 0.8 * 0.4 * 0.24;
    let x: f64 = 3.16 * 0.24 / 0.8;
    // A fifth for the modes above the first.
    let mass = 1.2 * water * 0.264 * (0.8 / 0.24) * x.tanh();
    near("mass", whole.mass.si(), mass, Tolerance::relative(5e-3))?;
    near(
        "force",
        whole.force.si(),
        mass * 0.5 * GRAVITY,
        Tolerance::relative(5e-3),
    )?;
    // At rest the middle has moved by L² (a/g)/(12 h); it swings twice as far.
    let shift = 2.0 * 0.64 * 0.5 / (12.0 * 0.24);
    near("shift", whole.shift.si(), shift, Tolerance::relative(1e-3))?;
    assert!(whole.is_box && whole.cells == 1);

    let parted = slosh(&shaken(&[300.0])?)?;
    assert_eq!(parted.cells, 2);
    near("cell", parted.cell.si(), 0.5, Tolerance::relative(1e-9))?;
    // Each cell for itself.
    let cell = |l: f64| 1000.0 * l * 0.4 * 0.24 * 0.264 * (l / 0.24) * (3.16 * 0.24 / l).tanh();
    let mass = 1.2 * (cell(0.3) + cell(0.5));
    near("mass", parted.mass.si(), mass, Tolerance::relative(1e-2))?;
    let thrice = slosh(&shaken(&[200.0, 400.0, 600.0])?)?;
    for (less, more) in [(parted, whole), (thrice, parted)] {
        assert!(less.mass < more.mass && less.force < more.force);
        assert!(less.shift < more.shift && less.period < more.period);
    }
    Ok(())
}

/// What it adds on three mounts under the floor: the most of 1.2 m₁ a at Housner's height over the mounts, at any depth, by
/// moments about y alone (the third stands in the middle and feels none of it).
#[test]
fn three_mounts_by_moments() -> Outcome {
    let envelope = shaken(&[])?.mounts_envelope().ok_or("mounts")??;
    let most = (1..=300)
        .map(|step| {
            let depth = f64::from(step) * 1e-3;
            let x = 3.16 * depth / 0.8;
            let mass = 1000.0 * 0.8 * 0.4 * depth * 0.264 * (0.8 / depth) * x.tanh();
            let height = depth * (1.0 - (x.cosh() - 2.01) / (x * x.sinh()));
            1.2 * mass * 0.5 * GRAVITY * (0.002 + height) / 0.804
        })
        .fold(0.0, f64::max);
    let slosh = |place: usize| envelope.mounts[place].slosh.si();
    near("first", slosh(0), most, Tolerance::relative(1e-2))?;
    near("second", slosh(1), most, Tolerance::relative(1e-2))?;
    near("third", slosh(2), 0.0, Tolerance::absolute(1e-6 * most))?;
    Ok(())
}
