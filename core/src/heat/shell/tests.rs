//! Checks against closed forms.

extern crate std;

use core::f64::consts::PI;

use super::super::loss::Facing;
use super::super::melting::Melting;
use super::films::Films;
use super::whole::parts;
use super::{Fineness, Material, Mesh, Shell, ShellInput};
use crate::body::{Body, SheetPlan};
use crate::input::{Block, Face, Shape, Sized};
use crate::tables::Family;
use crate::units::{Length, LengthUnit};

fn mm(value: f64) -> Length {
    Length::new(value, LengthUnit::Millimetre)
}

fn bar(size: [f64; 3], sheet: f64) -> (Body, SheetPlan) {
    let [length, width, height] = size.map(mm);
    let shape = Shape::Block(Block {
        sized: Sized::Outside,
        length,
        width,
        height,
        cuts: [].into(),
    });
    let sheet = SheetPlan::uniform(mm(sheet));
    (shape.body(&sheet).unwrap(), sheet)
}

/// 5052: references as in `stock`.
const ALUMINIUM: Material = Material {
    conductivity: 138.0,
    capacity: 2_680.0 * 880.0,
    emissivity: 0.1,
    melting: Melting::of(Family::Aluminium, 922.15, 880.0),
};
/// 304.
const STAINLESS: Material = Material {
    conductivity: 15.0,
    capacity: 7_900.0 * 500.0,
    emissivity: 0.3,
    melting: Melting::of(Family::Stainless, 1_723.15, 500.0),
};

type Big = Shell<2_000, 6_000>;

fn made(body: &(Body, SheetPlan), material: Material, rim: f64) -> (Mesh, std::boxed::Box<Big>) {
    let mut shell = std::boxed::Box::new(Big::new());
    let mut mesh = Mesh::default();
    let ware = ShellInput {
        body: &body.0,
        sheet: &body.1,
        baffles: &[],
        joined: &[],
        material,
        ambient: 293.15,
    };
    mesh.build(&ware, &Fineness::with_rim(rim), &mut shell)
        .unwrap();
    (mesh, shell)
}

fn without_radiation(shell: &mut Big) {
    shell.emissivity = 0.0;
    shell.hot.shine = 0.0;
    shell.set_losses();
}

#[test]
fn the_shell_has_the_heat_capacity_of_its_sheet() {
    let body = bar([320.0, 180.0, 160.0], 2.0);
    let (_, shell) = made(&body, ALUMINIUM, 0.02);
    let area = 2.0 * (0.32 * 0.18 + 0.32 * 0.16 + 0.18 * 0.16);
    let whole = area * 0.002 * ALUMINIUM.capacity;
    assert!((shell.capacity() / whole - 1.0).abs() < 1e-12);
}

#[test]
fn what_goes_in_is_there_or_lost() {
    let body = bar([320.0, 180.0, 160.0], 2.0);
    for material in [ALUMINIUM, STAINLESS] {
        let (mesh, mut shell) = made(&body, material, 0.02);
        let edge = body
            .0
            .outside
            .edge_between([Face::Top, Face::Front])
            .unwrap();
        for n in 0..2_000 {
            let at = 0.32 * f64::from(n % 100) / 100.0;
            let arc = (n < 200).then(|| (mesh.spot(&edge, at, &shell).unwrap(), 700.0));
            shell.pass(arc);
        }
        assert!((shell.heated() - 140_000.0).abs() < 1e-6);
        let kept = shell.energy() + shell.lost();
        // Each exchange of heat rounds to a part of a kelvin on both sides.
        let off = kept / shell.heated() - 1.0;
        assert!(off.abs() < 1e-5, "{off}");
        assert!(shell.lost() > 0.1 * shell.heated());
    }
}

/// Without the counter of lost heat: what has left is the sum over all steps of what leaves by the temperatures before and
/// after each, to the second order in a step, and the rest is there.
#[test]
fn what_goes_in_is_there_or_has_left() {
    let body = bar([320.0, 180.0, 160.0], 2.0);
    for material in [ALUMINIUM, STAINLESS] {
        let (mesh, mut shell) = made(&body, material, 0.012);
        let edge = body
            .0
            .outside
            .edge_between([Face::Top, Face::Front])
            .unwrap();
        let step = shell.step_length();
        let (mut left, mut before) = (0.0, 0.0);
        for n in 0..3_000 {
            let at = 0.32 * f64::from(n % 100) / 100.0;
            let arc = (n < 300).then(|| (mesh.spot(&edge, at, &shell).unwrap(), 200.0 * step));
            shell.pass(arc);
            let leaving = shell.leaving();
            let now = leaving.air + leaving.radiation + leaving.glow;
            left += 0.5 * step * (before + now);
            before = now;
        }
        let fed = 300.0 * 200.0 * step;
        let off = (shell.energy() + left) / fed - 1.0;
        assert!(off.abs() < 0.01, "{off}");
        assert!(left > 0.1 * fed);
        assert!((shell.lost() / left - 1.0).abs() < 0.01);
    }
}

/// Far more heat at once than the cells about a place can take at the highest temperature there is.
#[test]
fn heat_for_which_there_is_no_room_waits() {
    let body = bar([320.0, 180.0, 160.0], 2.0);
    let (mesh, mut shell) = made(&body, STAINLESS, 0.012);
    let edge = body
        .0
        .outside
        .edge_between([Face::Top, Face::Front])
        .unwrap();
    let spot = mesh.spot(&edge, 0.15, &shell).unwrap();
    shell.pass(Some((spot, 2e6)));
    assert!(shell.waiting > 1e5);
    for _ in 0..400 {
        let off = (shell.energy() + shell.lost()) / 2e6 - 1.0;
        assert!(off.abs() < 1e-5, "{off}");
        shell.pass(None);
    }
    assert!(shell.waiting < 1e5);
    shell.rest();
    assert!(shell.energy() == 0.0 && shell.warmest() == 0.0);
}

/// A warm shell of one temperature cools as a lump does: `e^(−h A t / C)` where the film is known.
#[test]
fn an_even_shell_cools_as_a_lump() {
    let body = bar([200.0, 200.0, 200.0], 3.0);
    let (_, mut shell) = made(&body, ALUMINIUM, 0.04);
    without_radiation(&mut shell);
    for sheet in &mut shell.sheets {
        sheet.side = Facing::Known(12.0);
        sheet.films = Films::of(sheet.side, 293.15);
    }
    shell.warmth.fill(parts(80.0));
    for _ in 0..300 {
        shell.pass(None);
    }
    let time = 300.0 * shell.step_length();
    let wanted = 80.0 * (-12.0 * time / (0.003 * ALUMINIUM.capacity)).exp();
    assert!((shell.warmest() / wanted - 1.0).abs() < 1e-4);
    assert!(wanted < 70.0);
}

/// Heat set free at once along one edge of a wide tank spreads as from a plane in a bar: `ΔT = Q'/(d ρ c)
/// e^(−x²/4at) / √(4πat)` with Q' the heat for each metre of edge (H. Carslaw and J. Jaeger, Conduction of Heat
/// in Solids, 2nd ed., §10.3, from memory). It is given to the cells alone, not as a bead: this is what the grid
/// itself makes of it.
#[test]
fn a_line_of_heat_spreads_as_in_a_sheet() {
    let body = bar([700.0, 500.0, 500.0], 2.0);
    for (material, time) in [(ALUMINIUM, 40.0), (STAINLESS, 250.0)] {
        let (mesh, mut shell) = made(&body, material, 0.012);
        without_radiation(&mut shell);
        for sheet in &mut shell.sheets {
            sheet.side = Facing::Still;
        }
        let edge = body
            .0
            .outside
            .edge_between([Face::Top, Face::Front])
            .unwrap();
        let heat = 10_000.0;
        for n in 0..100 {
            let at = 0.7 * (f64::from(n) + 0.5) / 100.0;
            let spot = mesh.spot(&edge, at, &shell).unwrap();
            shell.heat(spot, heat / 100.0);
        }
        let steps = libm::round(time / shell.step_length());
        for _ in 0..steps as u32 {
            shell.pass(None);
        }
        let time = steps * shell.step_length();
        let wanted = heat
            / 0.7
            / 0.002
            / material.capacity
            / (4.0 * PI * material.diffusivity() * time).sqrt();
        let spot = mesh.spot(&edge, 0.35, &shell).unwrap();
        let found = shell.warmth_at(spot);
        assert!((found / wanted - 1.0).abs() < 0.03, "{found} for {wanted}");
    }
}

/// Heat fed into one end of a long tank that is a fin all round: `T = q / √(h d λ) …` along x from the end,
/// `T = T₀ e^(−m x)`, `m = √(h/(λ d))`, of which the heat fed for each metre of girth is `λ d m T₀`
/// (Incropera and `DeWitt`, §3.6, from memory).
#[test]
fn a_long_tank_is_a_fin() {
    let body = bar([2_000.0, 100.0, 100.0], 2.0);
    let (mesh, mut shell) = made(&body, ALUMINIUM, 0.02);
    without_radiation(&mut shell);
    let film = 20.0;
    for sheet in &mut shell.sheets {
        sheet.side = Facing::Known(film);
        sheet.films = Films::of(sheet.side, 293.15);
    }
    let rates = 100.0;
    let ends: std::vec::Vec<_> = [Face::Top, Face::Bottom, Face::Front, Face::Back]
        .into_iter()
        .map(|face| body.0.outside.edge_between([Face::Left, face]).unwrap())
        .collect();
    for n in 0..6_000_usize {
        let edge = &ends[n % 4];
        let spot = mesh.spot(edge, 0.05, &shell).unwrap();
        shell.pass(Some((spot, rates * shell.step_length())));
    }
    let m = (film / (ALUMINIUM.conductivity * 0.002)).sqrt();
    let far = |x: f64| {
        let edge = body
            .0
            .outside
            .edge_between([Face::Top, Face::Front])
            .unwrap();
        shell.warmth_at(mesh.spot(&edge, x, &shell).unwrap())
    };
    // Slope of the logarithm by least squares over half a metre: a cell knows only its mean.
    let (mut sums, mut count) = ([0.0; 4], 0.0);
    for n in 0..=200 {
        let x = 0.15 + 0.5 * f64::from(n) / 200.0;
        let y = libm::log(far(x));
        for (sum, value) in sums.iter_mut().zip([x, y, x * x, x * y]) {
            *sum += value;
        }
        count += 1.0;
    }
    let [x, y, xx, xy] = sums;
    let found = -(count * xy - x * y) / (count * xx - x * x);
    assert!((found / m - 1.0).abs() < 0.02, "{found} for {m}");
}

/// What the smaller machine has to find room for: with its stitches a planner then takes 48 KB of 64.
#[test]
fn the_device_has_room() {
    assert!(size_of::<Shell<224, 520>>() < 17 * 1024);
}
