//! The reference by finite elements for deflections of several thicknesses, held against closed forms and other solutions
//! before anything is held against it. Figures of Timoshenko, Levy and Roark are from memory; rows named `vk-` of
//! `data/geometry/checks.json` are Ritz solutions of von Kármán's equations, run apart from this project.

use seamwright_core::geom::Vector;
use seamwright_core::input::Face;
use seamwright_tests::Outcome;
use seamwright_tests::checks::{geometry, numbers};
use seamwright_tests::near::{Tolerance, near};
use seamwright_tests::plate_shell::large::{Large, work};
use seamwright_tests::plate_shell::single::{Edges, InPlane, Pressed, Single};
use seamwright_tests::plate_shell::{Deflections, Elastic, Movement, PlateShell, Sheet};

const METAL: Elastic = Elastic {
    modulus: 7e10,
    poisson: 0.316,
};
const THICK: f64 = 0.001;

const fn edges(turn: bool, in_plane: InPlane) -> Edges {
    Edges { turn, in_plane }
}

fn pressed(ratio: f64, pieces: f64, of: Edges, pressures: &[f64]) -> Vec<Pressed> {
    Single::new(ratio, pieces, METAL, of).pressed(pressures)
}

/// Bulge, stretching and whole stress in the middle, and what is at the middle of the long edge, of Ritz solutions; the
/// triangles are within 1 % of them in bulge and 2 % in stress (3 % of what is stretched) at 28 across.
#[test]
fn ritz() -> Outcome {
    let held = edges(false, InPlane::Fixed);
    let cases = [
        (
            "vk-SQ_SS_held,_tangential_free,_nu_.316",
            1.0,
            edges(true, InPlane::Slides),
        ),
        ("vk-SQ_SS_u=v=0,_nu_.316", 1.0, edges(true, InPlane::Fixed)),
        (
            "vk-2:1_SS_held,_tang_free,_nu_.316",
            2.0,
            edges(true, InPlane::Slides),
        ),
        ("vk-SQ_clamped_u=v=0,_nu_.316", 1.0, held),
        ("vk-2_clamped_u=v=0,_nu_.316", 2.0, held),
    ];
    for (name, ratio, of) in cases {
        let row = geometry(name);
        let want = |key: &str| numbers(&row["expected"][key]);
        let places = [1, 3, 5, 10];
        let all = numbers(&row["inputs"]["qstar"]);
        let got = pressed(ratio, 28.0, of, &places.map(|n: usize| all[n]));
        for (n, got) in places.into_iter().zip(got) {
            let what = |which: &str| format!("{name} {} {which}", all[n]);
            let tight = Tolerance::relative(0.01);
            near(&what("bulge"), got.bulge, want("w_over_t")[n], tight)?;
            let loose = Tolerance::relative(0.02);
            let [_, bent, stretched] = got.middle;
            let whole = want("sigma_total_centre")[n];
            near(&what("middle"), bent + stretched, whole, loose)?;
            let membrane = want("sigma_mem_centre_b2_Et2")[n];
            // Under small loads nearly nothing, so that it is measured by the whole as well.
            let allowed = Tolerance {
                relative: 0.03,
                absolute: 0.01 * whole,
            };
            near(&what("stretched"), stretched, membrane, allowed)?;
            let [_, bent, stretched] = got.edge;
            if of.turn {
                let membrane = want("sigma_membrane_long_edge")[n];
                near(&what("edge"), stretched, membrane, loose)?;
            } else {
                let whole = want("sigma_total_long_edge")[n];
                near(&what("edge"), stretched - bent, whole, loose)?;
            }
        }
    }
    Ok(())
}

/// S. Levy, NACA TR 737 and TN 847, as Roark's table of plates with large deflections has them: w/t of squares (from
/// memory, to two places). And edges that may draw in as they like: Ritz, run apart from this project, ν 0.316.
#[test]
fn squares() -> Outcome {
    let pressures = [12.5, 25.0, 50.0, 100.0, 150.0, 250.0];
    let rows = [
        (
            edges(true, InPlane::Slides),
            [0.43, 0.65, 0.93, 1.26, 1.47, 1.77],
            0.025,
        ),
        (
            edges(false, InPlane::Fixed),
            [0.165, 0.32, 0.59, 0.95, 1.19, 1.54],
            0.035,
        ),
        (
            edges(true, InPlane::Free),
            [0.522, 0.946, 1.553, 2.345, 2.911, 3.764],
            0.015,
        ),
    ];
    for (of, bulges, allowed) in rows {
        let got = pressed(1.0, 24.0, of, &pressures);
        for (got, bulge) in got.into_iter().zip(bulges) {
            let what = format!("{} at {}", of.in_plane.word(), got.pressure);
            near(&what, got.bulge, bulge, Tolerance::relative(allowed))?;
        }
    }
    Ok(())
}

/// A long strip between two edges that do not draw in: Timoshenko and Woinowsky-Krieger, articles 2 and 3 (cylindrical
/// bending). With the pull S for each metre, k² = S/D and x from the middle, D w'''' − S w'' = q has
/// w' = q/S (c sinh kx − x), where c is 1/(k cosh ka) at edges that turn and a/sinh ka at edges that do not; and the strip
/// is as much longer as it bows, S (1 − ν²) a/(E t) = ∫ w'²/2. For a given S that gives q.
struct Strip {
    pressure: f64,
    bulge: f64,
    pull: f64,
    /// Moments at the middle and at the edge.
    moments: [f64; 2],
}

fn strip(long: f64, turn: bool, ka: f64) -> Strip {
    let a = 0.5 * long;
    let plane = METAL.modulus / (1.0 - METAL.poisson * METAL.poisson);
    let rigid = plane * THICK.powi(3) / 12.0;
    let k = ka / a;
    let pull = rigid * k * k;
    let c = if turn {
        1.0 / (k * ka.cosh())
    } else {
        a / ka.sinh()
    };
    // For a pressure of 1.
    let slope = |x: f64| (c * (k * x).sinh() - x) / pull;
    let count = 2000;
    let step = a / f64::from(count);
    let simpson = |of: &dyn Fn(f64) -> f64| -> f64 {
        let weight = |n: i32| {
            f64::from(if n == 0 || n == count {
                1
            } else {
                2 + 2 * (n % 2)
            })
        };
        let sum: f64 = (0..=count)
            .map(|n| weight(n) * of(f64::from(n) * step))
            .sum();
        sum * step / 3.0
    };
    let longer = 0.5 * simpson(&|x| slope(x).powi(2));
    let pressure = (pull * a / (plane * THICK) / longer).sqrt();
    let moment = |x: f64| -rigid * pressure * (c * k * (k * x).cosh() - 1.0) / pull;
    Strip {
        pressure,
        bulge: -pressure * simpson(&slope),
        pull,
        moments: [moment(0.0), moment(a)],
    }
}

/// A strip in triangles, bent along x alone; whether its ends turn and draw in.
fn shell(long: f64, width: f64, turn: bool, draws: bool) -> (PlateShell, Vec<[bool; 6]>) {
    let across = 0.1 * long;
    let outline = [[0.0, 0.0], [long, 0.0], [long, across], [0.0, across]];
    let sheet = Sheet {
        face: Face::Top,
        part: 1,
        thickness: THICK,
        normal: Vector::new(0.0, 0.0, 1.0),
        outline: outline.map(|[x, y]| Vector::new(x, y, 0.0)).to_vec(),
        beside: vec![Face::Front; 4],
        holes: Vec::new(),
        pressed: true,
    };
    let shell = PlateShell::new(vec![sheet], METAL, width);
    let held = shell.places().iter().map(|[x, _, _]| {
        let low = *x < 1e-9;
        let end = low || *x > long - 1e-9;
        [low || end && !draws, true, end, true, end && !turn, false]
    });
    let held = held.collect();
    (shell, held)
}

#[test]
fn strips() -> Outcome {
    let long = 0.2;
    for turn in [true, false] {
        for ka in [1.0, 3.0, 8.0] {
            let want = strip(long, turn, ka);
            let (shell, held) = shell(long, long / 80.0, turn, false);
            let large = Large::new(&shell, held);
            let from = vec![[0.0; 6]; shell.nodes()];
            let rest = large.rest(&from, &shell.pressed(|_| want.pressure));
            assert!(rest.steady);
            let what = |which: &str| format!("{which} at ka {ka}, turning {turn}");
            let most = rest.moved.iter().map(|by| by[2]).fold(0.0, f64::max);
            near(&what("bulge"), most, want.bulge, Tolerance::relative(0.005))?;
            let kind = Deflections::Large;
            let middle = shell.within(0, [0.5 * long, 0.05 * long], &rest.moved, kind);
            let pull = want.pull / THICK;
            near(
                &what("pull"),
                middle.membrane[0],
                pull,
                Tolerance::relative(0.005),
            )?;
            let bent = want.moments.map(|moment| 6.0 * moment / (THICK * THICK));
            let loose = Tolerance::relative(0.02);
            near(&what("middle"), middle.bending[0], bent[0], loose)?;
            if !turn {
                let edge = shell.within(0, [0.0, 0.05 * long], &rest.moved, kind);
                near(&what("edge"), edge.bending[0], bent[1], loose)?;
            }
        }
    }
    Ok(())
}

/// A strip whose ends draw in bends as a beam does, however far (moderate turns): 5 q l⁴/(384 D), no pull, ends drawn
/// together by ∫ w'²/2 each, of the whole 17 q² l⁷/(40320 D²) (integral of the beam's slope, done by hand).
#[test]
fn a_strip_that_draws_in() -> Outcome {
    let long: f64 = 0.2;
    let (shell, held) = shell(long, long / 80.0, true, true);
    let large = Large::new(&shell, held);
    let rigid = METAL.modulus * THICK.powi(3) / 12.0 / (1.0 - METAL.poisson * METAL.poisson);
    let want = 10.0 * THICK;
    let pressure = want * 384.0 * rigid / (5.0 * long.powi(4));
    let from = vec![[0.0; 6]; shell.nodes()];
    let rest = large.rest(&from, &shell.pressed(|_| pressure));
    let most = rest.moved.iter().map(|by| by[2]).fold(0.0, f64::max);
    near("bulge", most, want, Tolerance::relative(0.003))?;
    let drawn = rest.moved.iter().map(|by| -by[0]).fold(0.0, f64::max);
    let short = 17.0 / 40_320.0 * pressure.powi(2) * long.powi(7) / rigid.powi(2);
    near("drawn", drawn, short, Tolerance::relative(0.005))?;
    let middle = shell.within(
        0,
        [0.5 * long, 0.05 * long],
        &rest.moved,
        Deflections::Large,
    );
    assert!(
        middle.membrane[0].abs() < 0.01 * middle.bending[0],
        "{middle:?}"
    );
    Ok(())
}

/// Half the width moves no bulge and no highest stress by 2 %, for edges of every kind under what would bow a linear plate
/// by four thicknesses; and of a small load all is as the linear elements have it.
#[test]
fn meshes_and_small_loads() -> Outcome {
    let all = [
        edges(true, InPlane::Fixed),
        edges(false, InPlane::Fixed),
        edges(false, InPlane::Free),
    ];
    for of in all {
        let what = |which: &str| format!("{which} {of:?}");
        let fine = Single::new(1.5, 32.0, METAL, of);
        let coarse = Single::new(1.5, 16.0, METAL, of);
        let far = [fine.pressure_at(4.0)];
        let (one, other) = (coarse.pressed(&far)[0], fine.pressed(&far)[0]);
        let tight = Tolerance::relative(0.02);
        near(&what("bulge"), one.bulge, other.bulge, tight)?;
        near(&what("stress"), one.stress, other.stress, tight)?;
        near(&what("inside"), one.inside, other.inside, tight)?;
        let small = 1e-3;
        let near_nothing = coarse.pressed(&[coarse.pressure_at(small)])[0];
        near(
            &what("small"),
            near_nothing.bulge,
            small,
            Tolerance::relative(1e-5),
        )?;
        let (each, linear) = coarse.linear();
        let unit = METAL.modulus * (THICK / 0.2_f64).powi(2);
        let stress = linear.stress / unit * small / each;
        near(
            &what("stress"),
            near_nothing.stress,
            stress,
            Tolerance::relative(0.002),
        )?;
    }
    Ok(())
}

/// Forces are the energy's slope: along any small movement they do what the energy grows by. Two sheets at a right angle,
/// so that what bends one stretches the other.
#[test]
fn forces_and_energy() -> Outcome {
    let sheet = |normal: Vector, outline: [[f64; 3]; 4]| Sheet {
        face: Face::Top,
        part: 1,
        thickness: THICK,
        normal,
        outline: outline.map(|[x, y, z]| Vector::new(x, y, z)).to_vec(),
        beside: vec![Face::Front; 4],
        holes: Vec::new(),
        pressed: true,
    };
    let flat = [
        [0.0, 0.0, 0.0],
        [0.1, 0.0, 0.0],
        [0.1, 0.08, 0.0],
        [0.0, 0.08, 0.0],
    ];
    let upright = [
        [0.0, 0.0, 0.0],
        [0.0, 0.08, 0.0],
        [0.0, 0.08, 0.06],
        [0.0, 0.0, 0.06],
    ];
    let sheets = vec![
        sheet(Vector::new(0.0, 0.0, 1.0), flat),
        sheet(Vector::new(1.0, 0.0, 0.0), upright),
    ];
    let shell = PlateShell::new(sheets, METAL, 0.02);
    let large = Large::new(&shell, vec![[false; 6]; shell.nodes()]);
    let mut random = fastrand::Rng::with_seed(4);
    let mut movements = |size: f64| -> Vec<Movement> {
        let all = 0..shell.nodes();
        all.map(|_| core::array::from_fn(|_| size * (random.f64() - 0.5)))
            .collect()
    };
    let (at, way) = (movements(1e-3), movements(1e-3));
    let further = |share: f64| -> f64 {
        let both = at.iter().zip(&way);
        let there: Vec<Movement> = both
            .map(|(a, b)| core::array::from_fn(|k| a[k] + share * b[k]))
            .collect();
        large.energy(&there)
    };
    let step = 1e-4;
    let grows = (further(step) - further(-step)) / (2.0 * step);
    near(
        "work",
        work(&large.forces(&at), &way),
        grows,
        Tolerance::relative(1e-6),
    )?;
    Ok(())
}
