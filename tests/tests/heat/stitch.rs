//! One stitch in a wide sheet, and a sheet that has evened out, against closed forms. Rows are of
//! `data/welding/checks.json`: an instantaneous finite line source by superposition (Carslaw and Jaeger, Conduction of
//! Heat in Solids), held there to a quadrature and a spectral solution; and the balance of energy.

use seamwright_core::body::{Block, Face, Shape, Sheet, Sized};
use seamwright_core::heat::network::{Fineness, Material, Mesh, Shell, Ware};
use seamwright_core::quantity::Length;
use seamwright_tests::Outcome;
use seamwright_tests::amounts::mm;
use seamwright_tests::checks::{expect, input, welding};
use seamwright_tests::near::{Tolerance, near};
use serde_json::Value;

type Cells = Shell<2_000, 6_000>;

/// A cube of the row's sheet, divided, and what stands in the middle of one of its edges: two sheets that meet there
/// are one wide sheet to the heat.
struct Cube {
    shell: Box<Cells>,
    mesh: Mesh,
    edge: seamwright_core::body::Edge,
}

fn cube(side: Length, thickness: Length, material: Material) -> Cube {
    let sheet = Sheet::uniform(thickness);
    let body = Shape::Block(Block {
        sized: Sized::Outside,
        length: side,
        width: side,
        height: side,
        cuts: [].into(),
    })
    .body(&sheet)
    .unwrap();
    let ware = Ware {
        body: &body,
        sheet: &sheet,
        baffles: &[],
        material,
        ambient: 293.15,
    };
    let mut shell = Box::new(Cells::new());
    let mut mesh = Mesh::default();
    let fineness = Fineness {
        longest: 0.02,
        ..Fineness::with_rim(0.012)
    };
    mesh.build(&ware, &fineness, &mut shell).unwrap();
    let edge = body.outside.edge_between([Face::Front, Face::Left]);
    let edge = edge
        .or_else(|| body.outside.edge_between([Face::Left, Face::Front]))
        .unwrap();
    Cube { shell, mesh, edge }
}

impl Cube {
    /// Lays a stitch about the middle of the edge at once, as nearly as steps allow; half of the time that takes, in s.
    fn stitch(&mut self, length: f64, heat: f64) -> f64 {
        const PARTS: u32 = 25;
        let middle = 0.5 * self.edge.length().si();
        for part in 0..PARTS {
            let share = (f64::from(part) + 0.5) / f64::from(PARTS) - 0.5;
            let spot = self.spot(middle + share * length);
            let heat = heat / f64::from(PARTS);
            self.shell.pass(Some((spot, heat)));
        }
        0.5 * f64::from(PARTS) * self.shell.step_length()
    }

    fn spot(&self, at: f64) -> seamwright_core::heat::network::Spot {
        self.mesh.spot(&self.edge, at, &self.shell).unwrap()
    }

    /// How warm the middle of the edge is, made good for what the air has taken: the rows lose nothing.
    fn middle(&self) -> f64 {
        let spot = self.spot(0.5 * self.edge.length().si());
        self.shell.warmth_at(spot) * self.shell.heated() / self.shell.energy()
    }
}

/// What the rows of a stitch have in common.
fn stitched(row: &Value, material: Material) -> Result<(Cube, f64), String> {
    let of = |key| input(row, key);
    let mut cube = cube(mm(300.0), mm(of("d_mm")?), material);
    let late = cube.stitch(of("L_mm")? * 1e-3, of("Q_J_mm")? * of("L_mm")?);
    Ok((cube, late))
}

fn material(row: &Value) -> Result<Material, String> {
    Ok(Material {
        conductivity: input(row, "k")?,
        capacity: input(row, "rho")? * input(row, "c")?,
        // As little as may be: the rows lose nothing.
        emissivity: 0.01,
    })
}

#[test]
fn the_middle_of_a_stitch() -> Outcome {
    for id in ["T5.stitch.10", "T5.stitch.20", "T5.stitch.30"] {
        let row = welding(id);
        let (mut cube, late) = stitched(&row, material(&row)?)?;
        let mut time = late;
        while time < input(&row, "t_s")? {
            cube.shell.pass(None);
            time += cube.shell.step_length();
        }
        println!("{id} {} {}", cube.middle(), row["expected"]["dT_mid_K"]);
    }
    Ok(())
}
