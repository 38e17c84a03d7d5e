//! The reference by finite elements for whole tanks, held against published and closed answers before anything is held
//! against it. Figures of Timoshenko and Woinowsky-Krieger, "Theory of Plates and Shells", and of the others are from
//! memory.

use seamwright_core::geom::Vector;
use seamwright_core::input::Face;
use seamwright_tests::Outcome;
use seamwright_tests::jobs::tank;
use seamwright_tests::near::{Tolerance, near};
use seamwright_tests::plate_shell::tank::{Load, bear, shell};
use seamwright_tests::plate_shell::{Elastic, Found, Movement, PlateShell, Sheet};

const METAL: Elastic = Elastic {
    modulus: 7e10,
    poisson: 0.3,
};
const THICK: f64 = 0.004;

/// Bending stiffness.
fn stiffness(thickness: f64) -> f64 {
    METAL.modulus * thickness.powi(3) / (12.0 * (1.0 - METAL.poisson * METAL.poisson))
}

fn plate(corners: &[[f64; 2]], width: f64) -> PlateShell {
    let sheet = Sheet {
        face: Face::Top,
        part: 1,
        thickness: THICK,
        normal: Vector::new(0.0, 0.0, 1.0),
        outline: corners
            .iter()
            .map(|[x, y]| Vector::new(*x, *y, 0.0))
            .collect(),
        beside: vec![Face::Front; corners.len()],
        holes: Vec::new(),
        pressed: true,
    };
    PlateShell::new(vec![sheet], METAL, width)
}

/// A plate under 1 kPa, its edges held and free to turn or not.
fn pressed(shell: &PlateShell, clamped: bool) -> Found {
    let mut held = vec![[false; 6]; shell.nodes()];
    for node in shell.rims(|_| true) {
        held[node] = [true, true, true, clamped, clamped, true];
    }
    let moved = shell.moved(&shell.pressed(|_| 1000.0), &held);
    shell.found(&moved, 0.0).swap_remove(0)
}

/// Tables 35 (all edges built in) and 8 (all free to turn): deflection in q a⁴/D, moments in q a².
#[test]
fn rectangles() -> Outcome {
    let built_in = [
        (1.0, 0.001_265, 0.0513, 0.0229),
        (2.0, 0.00254, 0.0829, 0.0412),
    ];
    let free = [(1.0, 0.00406, 0.0479), (2.0, 0.01013, 0.1017)];
    let square = |long: f64| [[0.0, 0.0], [long, 0.0], [long, 1.0], [0.0, 1.0]];
    let rigid = stiffness(THICK);
    // The built-in square's edge moment to more places (from memory): with half the width less than a third of the error.
    let off = [8.0, 16.0, 32.0].map(|pieces| {
        let found = pressed(&plate(&square(1.0), 1.0 / pieces), true);
        found.edges[0].moment / 1000.0 - 0.051_334
    });
    assert!(
        off[1].abs() < off[0].abs() / 3.0 && off[2].abs() < off[1].abs() / 3.0,
        "{off:?}"
    );
    for (long, deflection, edge, middle) in built_in {
        let found = pressed(&plate(&square(long), 1.0 / 24.0), true);
        let most = found
            .edges
            .iter()
            .map(|edge| edge.moment)
            .fold(0.0, f64::max);
        near(
            "w",
            found.deflection * rigid / 1000.0,
            deflection,
            Tolerance::relative(0.006),
        )?;
        near("edge", most / 1000.0, edge, Tolerance::relative(0.005))?;
        near(
            "middle",
            found.moment / 1000.0,
            middle,
            Tolerance::relative(0.01),
        )?;
        // The stress at the edge is that of the moment across it and ν times it along it.
        let bent = 6.0 * most / (THICK * THICK);
        let want = bent * (1.0 - METAL.poisson + METAL.poisson * METAL.poisson).sqrt();
        near("stress", found.stress, want, Tolerance::relative(0.005))?;
    }
    for (long, deflection, middle) in free {
        let found = pressed(&plate(&square(long), 1.0 / 24.0), false);
        near(
            "w",
            found.deflection * rigid / 1000.0,
            deflection,
            Tolerance::relative(0.003),
        )?;
        near(
            "middle",
            found.moment / 1000.0,
            middle,
            Tolerance::relative(0.004),
        )?;
    }
    Ok(())
}

/// L. Morley, "Skew Plates and Structures" (1963): a rhombus with corners of 30°, edges free to turn, deflects by
/// 0.000408 q L⁴/D at its middle. The moments at the wide corners have no end, so that elements come near it slowly:
/// from above, as Batoz, Bathe and Ho found.
#[test]
fn a_skew_plate() -> Outcome {
    let (x, y) = (0.75_f64.sqrt(), 0.5);
    let rhombus = [[0.0, 0.0], [1.0, 0.0], [1.0 + x, y], [x, y]];
    let at = |pieces: f64| {
        let found = pressed(&plate(&rhombus, 1.0 / pieces), false);
        found.deflection * stiffness(THICK) / 1000.0
    };
    let (coarse, fine) = (at(24.0), at(48.0));
    near("w", fine, 0.000_408, Tolerance::relative(0.03))?;
    assert!(
        (fine - 0.000_408).abs() < (coarse - 0.000_408).abs(),
        "{coarse} {fine}"
    );
    Ok(())
}

/// Even strain and even curvature on triangles of many forms: no force at any node within, and the moments and stresses
/// are those of the field (the patch test; B. Irons and A. Razzaque, 1972).
#[test]
fn patches() -> Outcome {
    let outline = [
        [0.0, 0.0],
        [0.31, -0.04],
        [0.36, 0.22],
        [0.13, 0.33],
        [-0.05, 0.2],
    ];
    let shell = plate(&outline, 0.05);
    let rim = shell.rims(|_| true);
    assert!(shell.nodes() > rim.len() + 10);
    let (xx, yy, xy) = (0.3, -0.2, 0.15);
    let bent = |[x, y, _]: [f64; 3]| {
        let w = 0.5 * xx * x * x + 0.5 * yy * y * y + xy * x * y;
        [0.0, 0.0, w, yy * y + xy * x, -(xx * x + xy * y), 0.0]
    };
    let stretched = |[x, y, _]: [f64; 3]| {
        let (u, v) = (1e-3 * (xx * x + 0.4 * y), 1e-3 * (yy * y + 0.1 * x));
        [u, v, 0.0, 0.0, 0.0, 0.5e-3 * (0.1 - 0.4)]
    };
    let fields: [&dyn Fn([f64; 3]) -> Movement; 2] = [&bent, &stretched];
    for field in fields {
        let moved: Vec<Movement> = shell.places().iter().map(|at| field(*at)).collect();
        let forces = shell.forces(&moved);
        // Forces in N, moments in N m.
        for kind in [0..3, 3..6] {
            let size = |node: usize| {
                let own = &forces[node][kind.clone()];
                own.iter().fold(0.0, |most: f64, part| most.max(part.abs()))
            };
            let most = rim.iter().map(|node| size(*node)).fold(0.0, f64::max);
            let within = (0..shell.nodes()).filter(|node| rim.binary_search(node).is_err());
            for node in within {
                assert!(
                    size(node) <= 1e-9 * most.max(1.0),
                    "{node}: {} of {most}",
                    size(node)
                );
            }
        }
        let found = &shell.found(&moved, 0.0)[0];
        near(
            "even",
            found.stress,
            found.inside,
            Tolerance::relative(1e-9),
        )?;
    }
    let moved: Vec<Movement> = shell.places().iter().map(|at| bent(*at)).collect();
    let rigid = stiffness(THICK);
    let (mx, my) = (-rigid * (xx + 0.3 * yy), -rigid * (yy + 0.3 * xx));
    let mxy = -rigid * 0.7 * xy;
    let stress = 6.0 / (THICK * THICK) * (mx * mx - mx * my + my * my + 3.0 * mxy * mxy).sqrt();
    near(
        "bent",
        shell.found(&moved, 0.0)[0].stress,
        stress,
        Tolerance::relative(1e-9),
    )?;
    let moved: Vec<Movement> = shell.places().iter().map(|at| stretched(*at)).collect();
    let whole = METAL.modulus / 0.91 * 1e-3;
    let (sx, sy) = (whole * (xx + 0.3 * yy), whole * (yy + 0.3 * xx));
    let shear = whole * 0.35 * 0.5;
    let stress = (sx * sx - sx * sy + sy * sy + 3.0 * shear * shear).sqrt();
    near(
        "stretched",
        shell.found(&moved, 0.0)[0].stress,
        stress,
        Tolerance::relative(1e-9),
    )?;
    Ok(())
}

/// Bending in the plane of a sheet, on few triangles: rectangles of any shape hold the energy E I κ²/2 of a beam to
/// rounding, which is what the membrane is called optimal for (Felippa 2003). Triangles of even strain would hold half as
/// much again and more.
#[test]
fn bending_in_the_plane() -> Outcome {
    for high in [0.02, 0.1, 0.5] {
        let long = 0.1;
        let outline = [[0.0, 0.0], [long, 0.0], [long, high], [0.0, high]];
        let shell = plate(&outline, 1.0);
        assert_eq!(shell.nodes(), 9);
        let bent = |[x, y, _]: &[f64; 3]| {
            let (x, y) = (x - 0.5 * long, y - 0.5 * high);
            [
                -x * y,
                0.5 * (x * x + METAL.poisson * y * y),
                0.0,
                0.0,
                0.0,
                x,
            ]
        };
        let moved: Vec<Movement> = shell.places().iter().map(bent).collect();
        let forces = shell.forces(&moved);
        let parts = moved.iter().flatten().zip(forces.iter().flatten());
        let energy: f64 = parts.map(|(by, force)| 0.5 * by * force).sum();
        let want = 0.5 * METAL.modulus * THICK * high.powi(3) / 12.0 * long;
        near("energy", energy, want, Tolerance::relative(1e-9))?;
    }
    Ok(())
}

fn cube(thickness: &str) -> String {
    format!(
        "name = \"Cube\"\n[shape]\nkind = \"block\"\nlength = \"400 mm\"\nwidth = \"400 mm\"\nheight = \"400 mm\"\n\
         [stock]\nalloy = \"S235\"\nthickness = \"{thickness}\"\n"
    )
}

/// The edges of a closed cube under even pressure do not turn, by symmetry: each wall bends as table 35 has it.
#[test]
fn a_cube() -> Outcome {
    let cube = tank(&cube("1 mm"));
    let shell = shell(&cube, 1800.0);
    let side: f64 = 0.399;
    let metal = cube.job().alloy().metal();
    let (modulus, poisson) = (metal.modulus().value, metal.poisson().value);
    let rigid = modulus * 1e-9 / (12.0 * (1.0 - poisson * poisson));
    let found = bear(&cube, &shell, Load::Even, 0.0);
    assert_eq!(found.len(), 6);
    for wall in found {
        for edge in &wall.edges {
            near(
                "edge",
                edge.moment,
                51.3 * side.powi(2),
                Tolerance::relative(0.01),
            )?;
        }
        let want = 1.265 * side.powi(4) / rigid;
        near("w", wall.deflection, want, Tolerance::relative(0.01))?;
    }
    Ok(())
}

/// A tank moved and turned as a whole asks for no force.
#[test]
fn as_one_piece() {
    let cube = tank(&cube("3 mm"));
    let shell = shell(&cube, 300.0);
    let turn = Vector::new(0.3, -0.2, 0.5);
    let moved: Vec<Movement> = shell
        .places()
        .iter()
        .map(|[x, y, z]| {
            let by = turn.cross(Vector::new(*x, *y, *z)) + Vector::new(0.1, 0.2, -0.4);
            [by.x, by.y, by.z, turn.x, turn.y, turn.z]
        })
        .collect();
    let forces = shell.forces(&moved);
    // One node moved alone by as much.
    let mut alone = vec![[0.0; 6]; shell.nodes()];
    alone[0][0] = 0.1;
    let most = shell.forces(&alone)[0][0].abs();
    for force in forces.iter().flatten() {
        assert!(force.abs() < 1e-10 * most, "{force} of {most}");
    }
}

/// Half way along a long box its walls are a closed frame: by the theorem of three moments (Timoshenko, "Strength of
/// Materials", part I) the corners' moment is p/12 (a³/I + b³/J)/(a/I + b/J), with walls alike
/// p (a² − ab + b²)/12.
#[test]
fn a_long_box() -> Outcome {
    for side_wall in [2.0_f64, 3.0] {
        let text = format!(
            "name = \"Long\"\n[shape]\nkind = \"block\"\nlength = \"2000 mm\"\nwidth = \"200 mm\"\nheight = \"300 mm\"\n\
             [stock]\nalloy = \"S235\"\nthickness = \"2 mm\"\n[stock.faces]\nfront = \"{side_wall} mm\"\nback = \"{side_wall} mm\"\n"
        );
        let long = tank(&text);
        let shell = shell(&long, 6000.0);
        let found = bear(&long, &shell, Load::Even, 0.0);
        let (a, b) = (0.298_f64, 0.2 - 1e-3 * side_wall);
        let (over, under) = (side_wall.powi(-3), 8.0_f64.powi(-1));
        let corner =
            1000.0 / 12.0 * (a.powi(3) * over + b.powi(3) * under) / (a * over + b * under);
        let place = |face: Face| shell.sheets().iter().position(|sheet| sheet.face == face);
        let front = &found[place(Face::Front).ok_or("no front")?];
        let mut seen = 0;
        for edge in &front.edges {
            if matches!(edge.beside, Face::Top | Face::Bottom) {
                let half_way = edge.moments[edge.moments.len() / 2];
                near("corner", half_way, corner, Tolerance::relative(0.015))?;
                seen += 1;
            }
        }
        assert_eq!(seen, 2);
    }
    Ok(())
}
