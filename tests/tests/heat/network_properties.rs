//! What must hold for the thermal network of any tank.

use seamwright_core::heat::Melting;
use seamwright_core::heat::shell::{Fineness, Material, Mesh, Shell, ShellInput};
use seamwright_core::tables::Family;
use seamwright_core::tank::Tank;
use seamwright_tests::random_jobs::Jobs;

const METALS: [Material; 2] = [
    Material {
        conductivity: 138.0,
        capacity: 2_680.0 * 880.0,
        emissivity: 0.1,
        melting: Melting::of(Family::Aluminium, 922.15, 880.0),
    },
    Material {
        conductivity: 15.0,
        capacity: 7_900.0 * 500.0,
        emissivity: 0.3,
        melting: Melting::of(Family::Stainless, 1_723.15, 500.0),
    },
];

/// Divides a tank, heats it here and there and lets it rest; says what does not hold.
fn holds<const C: usize, const L: usize>(
    tank: &Tank,
    rng: &mut fastrand::Rng,
) -> Result<(), String> {
    let material = METALS[rng.usize(..2)];
    let ware = ShellInput {
        body: tank.body(),
        sheet: tank.job().sheet(),
        baffles: tank.inner().baffles(),
        joined: &[],
        material,
        ambient: 263.15 + 50.0 * rng.f64(),
    };
    let mut shell = Box::new(Shell::<C, L>::new());
    let mut mesh = Mesh::default();
    let rim = 0.004 + 0.03 * rng.f64();
    mesh.build(&ware, &Fineness::with_rim(rim), &mut shell)
        .map_err(|error| error.to_string())?;

    // The metal there is: every sheet's area, once. A fitting's hole is not taken out.
    let outside: f64 = ware
        .body
        .outside
        .faces()
        .map(|view| view.area().si() * ware.sheet.of(view.face()).si())
        .sum();
    let without = ware.baffles.is_empty();
    let share = shell.capacity() / (outside * material.capacity);
    if without && (share - 1.0).abs() > 1e-4 || share < 1.0 - 1e-4 {
        return Err(format!("holds {share} of its heat capacity"));
    }

    let mut fed = 0.0;
    for _ in 0..8 {
        let Some(edge) = tank.edge_of_seam(rng.usize(..tank.seam_count())) else {
            return Err("a seam without an edge".into());
        };
        let (from, to) = (rng.f64(), rng.f64());
        let count = rng.u32(1..12);
        for n in 0..count {
            let share = from + (to - from) * (f64::from(n) + 0.5) / f64::from(count);
            let at = share * edge.length().si();
            let spot = mesh.spot(&edge, at, &shell).ok_or("a seam without cells")?;
            let heat = 2_000.0 * rng.f64();
            fed += heat;
            shell.pass(Some((spot, heat)));
            let warmth = shell.warmth_at(spot);
            if !(warmth.is_finite() && warmth > -1.0) {
                return Err(format!("{warmth} K beside the arc"));
            }
        }
        for _ in 0..rng.u32(..60) {
            shell.pass(None);
        }
    }
    let kept = shell.energy() + shell.lost();
    if (shell.heated() / fed - 1.0).abs() > 1e-12 {
        return Err(format!("{} J of {fed} J fed", shell.heated()));
    }
    // Each exchange of heat rounds to a part of a kelvin on both sides: of 300 tanks half are off by less than 1.5e-6, and
    // most those that are warmed by a kelvin or two all through, by 7e-5.
    if (kept / fed - 1.0).abs() > 1e-4 {
        return Err(format!("{kept} J of {fed} J are there or lost"));
    }
    if !(shell.lost() > 0.0 && shell.energy() > 0.0) {
        return Err("nothing lost, or all".into());
    }
    // Left alone it only cools, and nothing is below the surroundings.
    let before = shell.warmest();
    for _ in 0..20 {
        shell.pass(None);
    }
    if shell.warmest() > before {
        return Err(format!("{} K from {before} K", shell.warmest()));
    }
    let coldest = (0..shell.cells())
        .map(|cell| shell.warmth(cell as u16))
        .fold(0.0, f64::min);
    if coldest < -1e-9 {
        return Err(format!("{coldest} K"));
    }
    Ok(())
}

#[test]
fn heat_is_there_or_lost() {
    let mut rng = fastrand::Rng::with_seed(11);
    let mut kinds = std::collections::BTreeMap::<&str, u32>::new();
    let tanks = Jobs::new(5).filter_map(|draft| Tank::build(&draft).ok().map(|tank| (draft, tank)));
    for (draft, tank) in tanks.take(150) {
        use seamwright_core::input::Shape;
        let kind = match draft.shape {
            Shape::Block(_) => "block",
            Shape::Profile(_) => "profile",
            Shape::Taper(_) => "taper",
            Shape::Drum(_) => "drum",
        };
        *kinds.entry(kind).or_default() += 1;
        let name = tank.job().name().to_owned();
        holds::<2_000, 6_000>(&tank, &mut rng)
            .unwrap_or_else(|error| panic!("{name}, {kind}, host: {error}"));
        holds::<224, 520>(&tank, &mut rng)
            .unwrap_or_else(|error| panic!("{name}, {kind}, device: {error}"));
    }
    // All shapes came up.
    assert!(
        kinds.len() == 4 && kinds.values().all(|count| *count > 5),
        "{kinds:?}"
    );
}
