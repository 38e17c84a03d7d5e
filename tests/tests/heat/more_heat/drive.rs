//! Tanks of any kind, and arcs driven over their edges.

use proptest::prelude::*;
use seamwright_core::body::{Body, Edge, SheetPlan};
use seamwright_core::heat::shell::{Fineness, Material, Mesh, Shell, ShellInput, Spot};
use seamwright_core::input::Shape;
use seamwright_core::tables::Alloy;
use seamwright_core::units::{Length, LengthUnit};
use seamwright_tests::random_jobs::Jobs;

/// As many cells as a gauge and the laptop's plans have.
pub(super) type Cells = Shell<224, 520>;

/// Temperature of the air, in K.
pub(super) const AMBIENT: f64 = 293.15;

/// A tank: its shape, its sheet in mm and its metal.
#[derive(Clone, Debug)]
pub(super) struct Vessel {
    pub(super) shape: Shape,
    pub(super) sheet: f64,
    pub(super) alloy: Alloy,
}

/// A stitch along the edge of this number: from and to as shares of it, at most 60 mm long.
#[derive(Clone, Debug)]
pub(super) struct Stitch {
    pub(super) edge: usize,
    pub(super) from: f64,
    pub(super) to: f64,
    /// Waited after it, in s.
    pub(super) wait: f64,
}

/// Longest stitch, in m.
const REACH: f64 = 0.06;

/// An arc: heat to the metal in W, and travel in m/s.
#[derive(Clone, Copy, Debug)]
pub(super) struct Arc {
    pub(super) power: f64,
    pub(super) travel: f64,
}

/// Boxes, cut boxes, tapers, drums and profiles of 0.8 to 6 mm in aluminium, stainless and carbon steel.
pub(super) fn vessels() -> impl Strategy<Value = Vessel> {
    let alloys = [
        Alloy::A1050,
        Alloy::A5052,
        Alloy::A5083,
        Alloy::A6061,
        Alloy::S304,
        Alloy::S316L,
        Alloy::LowCarbonSteel,
    ];
    (
        any::<u64>(),
        0.8..6.0_f64,
        prop::sample::select(alloys.to_vec()),
    )
        .prop_filter_map("no body", |(seed, sheet, alloy)| {
            let made = Jobs::new(seed).take(20).map(|draft| draft.shape);
            let vessel = |shape| Vessel {
                shape,
                sheet,
                alloy,
            };
            made.map(vessel).find(|one| one.body().is_some())
        })
}

/// Some stitches one after another.
pub(super) fn stitches(waits: std::ops::Range<f64>) -> impl Strategy<Value = Vec<Stitch>> {
    let one = (any::<usize>(), 0.0..1.0_f64, 0.0..1.0_f64, waits);
    let one = one.prop_map(|(edge, from, to, wait)| Stitch {
        edge,
        from,
        to,
        wait,
    });
    prop::collection::vec(one, 1..5)
}

impl Vessel {
    /// Its body, where such a sheet can be bent or cut to it, on a scale from a cup to a barrel.
    pub(super) fn body(&self) -> Option<(Body, SheetPlan)> {
        let sheet = SheetPlan::uniform(Length::new(self.sheet, LengthUnit::Millimetre));
        let body = self.shape.body(&sheet).ok()?;
        let area: f64 = body.outside.faces().map(|view| view.area().si()).sum();
        (0.03..3.0).contains(&area).then_some((body, sheet))
    }

    /// A power that makes a bead of twice the sheet's width or so, in W: what other powers are multiples of.
    /// Q. Wells, Welding Journal 31 (1952): `8 λ (T_m − T₀) d (0.2 + v w / 4a)` (from memory).
    pub(super) fn usual_power(&self, travel: f64) -> f64 {
        let material = material(self.alloy);
        let rise = self.alloy.metal().solidus().value.si() - AMBIENT;
        let (sheet, wide) = (1e-3 * self.sheet, 2e-3 * self.sheet);
        let speed = 0.2 + travel * wide / (4.0 * material.diffusivity());
        8.0 * material.conductivity * rise * sheet * speed
    }
}

/// The metal as a plan has it.
pub(super) fn material(alloy: Alloy) -> Material {
    Material::of(alloy, None, alloy.metal().emissivity_bright().value)
}

/// A tank with its cells.
pub(super) struct Bench {
    pub(super) shell: Box<Cells>,
    mesh: Mesh,
    edges: Vec<Edge>,
    pub(super) fed: f64,
}

impl Bench {
    /// With steps of at most `longest` seconds, and the outside as bright as `emissivity`.
    pub(super) fn new(vessel: &Vessel, longest: f64) -> Self {
        let (body, sheet) = vessel.body().unwrap();
        let ware = ShellInput {
            body: &body,
            sheet: &sheet,
            baffles: &[],
            joined: &[],
            material: material(vessel.alloy),
            ambient: AMBIENT,
        };
        let mut shell = Box::new(Cells::new());
        let mut mesh = Mesh::default();
        let fineness = Fineness {
            longest,
            ..Fineness::with_rim(0.008)
        };
        mesh.build(&ware, &fineness, &mut shell).unwrap();
        let edges = body.outside.edges();
        Self {
            edges: edges.collect(),
            shell,
            mesh,
            fed: 0.0,
        }
    }

    fn spot(&self, stitch: &Stitch, along: f64) -> Spot {
        let edge = &self.edges[stitch.edge % self.edges.len()];
        let (from, to) = self.ends(stitch);
        let at = from + along.copysign(to - from);
        self.mesh.spot(edge, at, &self.shell).unwrap()
    }

    /// Where it begins and ends along its edge, in m.
    fn ends(&self, stitch: &Stitch) -> (f64, f64) {
        let edge = &self.edges[stitch.edge % self.edges.len()];
        let whole = edge.length().si();
        let from = stitch.from * whole;
        // At least a tenth of the longest, unless the edge is shorter.
        let run = (stitch.to * whole - from).clamp(-REACH, REACH);
        let least = 0.1 * REACH.min(whole);
        let run = run.abs().max(least).copysign(run);
        if (0.0..=whole).contains(&(from + run)) {
            (from, from + run)
        } else {
            (from, from - run)
        }
    }

    /// Lays a stitch; `each` is called after each step of time.
    pub(super) fn weld(&mut self, stitch: &Stitch, arc: &Arc, mut each: impl FnMut(&Cells)) {
        let (from, to) = self.ends(stitch);
        let lasts = (to - from).abs() / arc.travel;
        let step = self.shell.step_length();
        let mut burnt = 0.0;
        while burnt < lasts {
            let bit = step.min(lasts - burnt);
            let spot = self.spot(stitch, arc.travel * (burnt + 0.5 * bit));
            let heat = arc.power * bit;
            self.fed += heat;
            self.shell.pass(Some((spot, heat)));
            each(&self.shell);
            burnt += bit;
        }
    }

    /// Waits.
    pub(super) fn wait(&mut self, seconds: f64, mut each: impl FnMut(&Cells)) {
        for _ in 0..(seconds / self.shell.step_length()).round() as u32 {
            self.shell.pass(None);
            each(&self.shell);
        }
    }

    /// How warm the cells are.
    pub(super) fn cells(&self) -> Vec<f64> {
        let count = self.shell.cells() as u16;
        (0..count).map(|cell| self.shell.warmth(cell)).collect()
    }

    /// How warm the metal is as a plan reads it, at three places of each edge.
    pub(super) fn places(&self) -> Vec<f64> {
        let at = |edge: &Edge, share: f64| {
            let spot = self
                .mesh
                .spot(edge, share * edge.length().si(), &self.shell);
            self.shell.warmth_at(spot.unwrap())
        };
        let shares = [0.05, 0.37, 0.82];
        let edges = self.edges.iter();
        edges
            .flat_map(|edge| shares.map(|share| at(edge, share)))
            .collect()
    }
}
