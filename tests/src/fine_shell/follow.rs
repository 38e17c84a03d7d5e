//! The thermal network along stitches whose times are given.

use seamwright_core::heat::shell::{Fineness, Material, Mesh, NEVER, Shell, ShellInput};
use seamwright_core::input::Face;
use seamwright_core::tank::Tank;

use super::{Warmth, Weld};

/// What the network makes of stitches.
#[derive(Clone, Debug)]
pub struct Followed {
    /// The metal along each before its arc.
    pub warmth: Vec<Warmth>,
    /// How many cells and links it has, and its step in s.
    pub cells: usize,
    /// As `cells`.
    pub links: usize,
    /// As `cells`.
    pub step: f64,
    /// Heat put in, kept and lost, in J.
    pub balance: super::Balance,
}

/// Follows the heat of stitches through a network of its own.
///
/// # Panics
/// Where the network has no room for the tank.
#[must_use]
pub fn follow<const C: usize, const L: usize>(
    tank: &Tank,
    fineness: &Fineness,
    welds: &[Weld],
) -> Followed {
    let job = tank.job();
    let ambient = job.welding().ambient.si();
    let order = tank.build_order();
    let walls = tank.body().outside.edges().count();
    let mut joined = Vec::new();
    for (place, seam) in tank.seams().enumerate() {
        let within = seam
            .faces
            .iter()
            .any(|face| matches!(face, Face::Baffle(_) | Face::Fitting(_)));
        if place >= walls && !within {
            continue;
        }
        let free = !seam.welded && matches!(seam.faces, [_, Face::Baffle(_)]);
        let stages = order.of_seam(place);
        joined.push(if free {
            NEVER
        } else {
            stages.map_or(0, |stages| stages.joined)
        });
    }
    let mut shell = Box::new(Shell::<C, L>::new());
    let mut mesh = Mesh::default();
    let ware = ShellInput {
        body: tank.body(),
        sheet: job.sheet(),
        baffles: tank.inner().baffles(),
        material: Material::of(job.alloy(), job.temper(), tank.emissivity().si()),
        ambient,
        joined: &joined,
    };
    mesh.build(&ware, fineness, &mut shell).expect("a mesh");
    let step = shell.step_length();
    let mut passed = 0.0;
    let mut warmth = Vec::new();
    for weld in welds {
        let edge = tank.edge_of_seam(weld.seam).expect("an edge");
        let spot = |at: f64, shell: &Shell<C, L>| mesh.spot(&edge, at, shell).expect("a spot");
        while passed + 0.5 * step < weld.start {
            shell.pass(None);
            passed += step;
        }
        shell.stand_at(weld.stage);
        let most = (0..=20)
            .map(|n| {
                let at = weld.from + (weld.to - weld.from) * f64::from(n) / 20.0;
                shell.warmth_at(spot(at, &shell))
            })
            .fold(0.0, f64::max);
        warmth.push(Warmth {
            start: shell.warmth_at(spot(weld.from, &shell)),
            most,
        });
        let mut burnt = 0.0;
        while burnt < weld.burns {
            let last = passed + 1.5 * step >= weld.start + weld.burns;
            let bit = if last { weld.burns - burnt } else { step };
            let share = (burnt + 0.5 * bit) / weld.burns;
            let at = weld.from + share * (weld.to - weld.from);
            let arc = (spot(at, &shell), weld.power * bit);
            shell.pass(Some(arc));
            passed += step;
            burnt = if last { weld.burns } else { burnt + bit };
        }
    }
    Followed {
        warmth,
        cells: shell.cells(),
        links: shell.links(),
        step,
        balance: super::Balance {
            put_in: shell.heated(),
            kept: shell.energy(),
            lost: shell.lost(),
        },
    }
}
