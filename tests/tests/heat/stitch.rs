//! One stitch in a wide sheet, and a sheet that has evened out, against closed forms. Rows are of
//! `data/welding/checks.json`: an instantaneous finite line source by superposition (Carslaw and Jaeger, Conduction of
//! Heat in Solids), held there to a quadrature and a spectral solution; and the balance of energy.

use seamwright_core::body::{Edge, SheetPlan};
use seamwright_core::heat::Melting;
use seamwright_core::heat::shell::{Fineness, Material, Mesh, Shell, ShellInput, Spot};
use seamwright_core::input::{Block, Face, Shape, Sized};
use seamwright_core::tables::Family;
use seamwright_core::units::Length;
use seamwright_tests::Outcome;
use seamwright_tests::amounts::mm;
use seamwright_tests::checks::{expect, expect_near, input, number, welding};
use seamwright_tests::near::{Tolerance, near};
use serde_json::Value;

/// 5052's; these tests melt nothing.
const COLD: Melting = Melting::of(Family::Aluminium, 922.15, 880.0);

type Cells = Shell<2_000, 6_000>;

/// The shell is held to a tenth of the rise (`network_reference`); where nothing but one stitch is on a wide sheet it
/// comes this near.
const NEAR: Tolerance = Tolerance::relative(0.03);

/// A cube of the row's sheet, divided, and what stands in the middle of one of its edges: two sheets that meet there
/// are one wide sheet to the heat.
struct Cube {
    shell: Box<Cells>,
    mesh: Mesh,
    edge: Edge,
    /// Since the middle of the stitch, in s.
    time: f64,
}

impl Cube {
    /// With steps of at most `longest` seconds.
    fn new(side: Length, thickness: Length, material: Material, longest: f64) -> Self {
        let sheet = SheetPlan::uniform(thickness);
        let body = Shape::Block(Block {
            sized: Sized::Outside,
            length: side,
            width: side,
            height: side,
            cuts: [].into(),
        })
        .body(&sheet)
        .unwrap();
        let ware = ShellInput {
            body: &body,
            sheet: &sheet,
            baffles: &[],
            joined: &[],
            material,
            ambient: 293.15,
        };
        let mut shell = Box::new(Cells::new());
        let mut mesh = Mesh::default();
        let fineness = Fineness {
            longest,
            ..Fineness::with_rim(0.012)
        };
        mesh.build(&ware, &fineness, &mut shell).unwrap();
        let edge = body.outside.edge_between([Face::Front, Face::Left]);
        let edge = edge
            .or_else(|| body.outside.edge_between([Face::Left, Face::Front]))
            .unwrap();
        Self {
            shell,
            mesh,
            edge,
            time: 0.0,
        }
    }

    /// A stitch as a row has it, on a cube whose other edges are too far to matter.
    fn stitched(row: &Value, material: Material) -> Result<Self, String> {
        let of = |key| input(row, key);
        let mut cube = Self::new(mm(300.0), mm(of("d_mm")?), material, 0.02);
        cube.stitch(of("L_mm")? * 1e-3, of("Q_J_mm")? * of("L_mm")?);
        Ok(cube)
    }

    /// Lays a stitch about the middle of the edge at once, as nearly as steps allow: time counts from half-way through.
    fn stitch(&mut self, length: f64, heat: f64) {
        const PARTS: u32 = 25;
        let middle = 0.5 * self.edge.length().si();
        for part in 0..PARTS {
            let share = (f64::from(part) + 0.5) / f64::from(PARTS) - 0.5;
            let spot = self.spot(middle + share * length);
            let heat = heat / f64::from(PARTS);
            self.shell.pass(Some((spot, heat)));
        }
        self.time = 0.5 * f64::from(PARTS) * self.shell.step_length();
    }

    /// Waits until something is so; the time then, in s.
    fn wait(&mut self, until: impl Fn(&Self, f64) -> bool) -> f64 {
        while !until(self, self.time) {
            self.shell.pass(None);
            self.time += self.shell.step_length();
        }
        self.time
    }

    fn spot(&self, at: f64) -> Spot {
        self.mesh.spot(&self.edge, at, &self.shell).unwrap()
    }

    /// How warm the middle of the edge is, made good for what the air has taken: the rows lose nothing.
    fn middle(&self) -> f64 {
        let spot = self.spot(0.5 * self.edge.length().si());
        self.shell.warmth_at(spot) * self.shell.heated() / self.shell.energy()
    }
}

fn material(row: &Value) -> Result<Material, String> {
    Ok(Material {
        conductivity: input(row, "k")?,
        capacity: input(row, "rho")? * input(row, "c")?,
        // As little as may be: the rows lose nothing.
        emissivity: 0.01,
        melting: COLD,
    })
}

/// Rows `T5.stitch.…`: so many seconds after a stitch was laid, and when its middle has cooled to 40 K. The shell's cells
/// are 16 mm wide and the stitch is 50 mm long.
#[test]
pub(super) fn the_middle_of_a_stitch() -> Outcome {
    for id in ["T5.stitch.10", "T5.stitch.20", "T5.stitch.30"] {
        let row = welding(id);
        let mut cube = Cube::stitched(&row, material(&row)?)?;
        cube.wait(|_, time| time >= input(&row, "t_s").unwrap());
        expect_near(&row, "dT_mid_K", cube.middle(), NEAR)?;
    }
    let (row, like) = (welding("T5.stitch.t40"), welding("T5.stitch.30"));
    let mut cube = Cube::stitched(&row, material(&like)?)?;
    let target = input(&row, "dT_target_K")?;
    let time = cube.wait(|cube, _| cube.middle() <= target);
    expect_near(&row, "t_s", time, NEAR)?;
    Ok(())
}

/// Row `T5.sheet.mean`: what is left of a stitch when its sheet has evened out. Six squares of 200 mm have the area of
/// the row's sheet.
#[test]
pub(super) fn a_sheet_that_has_evened_out() -> Outcome {
    let row = welding("T5.sheet.mean");
    let [length, width, thickness] = [0, 1, 2].map(|n| number(&row["inputs"]["sheet_mm"][n]));
    let side = (length * width / 6.0).sqrt();
    let material = Material {
        conductivity: 138.0,
        capacity: input(&row, "rho")? * input(&row, "c")?,
        emissivity: 0.01,
        melting: COLD,
    };
    let mut cube = Cube::new(mm(side), mm(thickness), material, 2.0);
    cube.stitch(0.05, input(&row, "E_J")?);
    cube.wait(|_, time| time >= 1_200.0);
    let shell = &cube.shell;
    expect(
        &row,
        "dT_K",
        (shell.energy() + shell.lost()) / shell.capacity(),
    )?;
    // By then it is nearly as warm everywhere.
    let expected = number(&row["expected"]["dT_K"]);
    near("edge", cube.middle(), expected, Tolerance::relative(0.01))?;
    Ok(())
}
