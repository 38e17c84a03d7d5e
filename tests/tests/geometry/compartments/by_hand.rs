//! Cases that are worked out by hand.

use seamwright_core::capacity::Lean;
use seamwright_core::compartment::DoorKind;
use seamwright_core::tank::{Plumbing, ReachError};
use seamwright_core::units::{Angle, AngleUnit};

use super::{level, tank};

/// A saddle of 600 by 300 mm over a tunnel of 160 by 140 mm, 900 mm long, sized inside; the pick-up in the left leg.
const SADDLE: &str = r#"
name = "Saddle over a pipe"
[shape]
kind = "profile"
sized = "inside"
width = "900 mm"
outline = [["0 mm","0 mm"],["220 mm","0 mm"],["220 mm","140 mm"],["380 mm","140 mm"],["380 mm","0 mm"],["600 mm","0 mm"],["600 mm","300 mm"],["0 mm","300 mm"]]
[stock]
alloy = "5754"
thickness = "2 mm"
[[fitting]]
name = "left draw"
face = "side 8"
at = ["450 mm","40 mm"]
bore = "15 mm"
outer = "25 mm"
[[fitting]]
name = "right draw"
face = "side 6"
at = ["450 mm","40 mm"]
bore = "15 mm"
outer = "25 mm"
[[fitting]]
name = "filler"
face = "side 7"
at = ["60 mm","450 mm"]
bore = "38 mm"
[fill]
headspace = "0 %"
"#;

fn near(got: f64, wanted: f64, within: f64) {
    assert!((got - wanted).abs() <= within, "{got} is not {wanted}");
}

/// The left leg keeps 0.22 · 0.9 · 0.025 m³ below the pick-up, the right one all of its 0.22 · 0.9 · 0.14 m³; the brim is
/// 0.9 (0.6 · 0.3 - 0.16 · 0.14) m³.
#[test]
fn a_saddle_draws_one_leg() {
    let job = format!("{SADDLE}pick_up = \"25 mm\"\npick_up_at = [\"110 mm\", \"450 mm\"]\n");
    let tank = tank(&job);
    let (kept, usable) = level(&tank, &Plumbing::default());
    let (below, leg) = (0.22 * 0.9 * 25.0, 0.22 * 0.9 * 140.0);
    let brim = 0.9 * (600.0 * 0.3 - 160.0 * 0.14);
    assert_eq!(kept.len(), 2);
    near(kept[0], below, 1e-9);
    near(kept[1], leg, 1e-9);
    near(usable, brim - below - leg, 1e-9);
    let reach = tank.reach(&Plumbing::default()).unwrap();
    assert_eq!((reach.drains_to(0), reach.drains_to(1)), (None, Some(0)));
    // All of the tank above the legs goes with the first that it drains into.
    let rooms = reach.compartments();
    near(rooms.compartment(1).unwrap().volume.si() * 1e3, leg, 1e-9);
    near(rooms.doubt(), 0.0, 1e-12);
    // The file carries what was found, so that a gauge shows it too.
    near(tank.capacity().usable.si() * 1e3, usable, 1e-9);
}

/// Through the right draw, of 15 mm bore 40 mm over the outside, which lies 2 mm under the inside: its rim is
/// 45.5 mm over the floor, and both legs drain to the left one's rim or the right one's.
#[test]
fn two_draws_and_a_balance_pipe() {
    let draws = Plumbing {
        draws: [1, 2].into_iter().collect(),
        ..Plumbing::default()
    };
    let tank = tank(SADDLE);
    let (kept, usable) = level(&tank, &draws);
    let below = 0.22 * 0.9 * 45.5;
    near(kept[0], below, 1e-9);
    near(kept[1], below, 1e-9);
    let brim = 0.9 * (600.0 * 0.3 - 160.0 * 0.14);
    near(usable, brim - 2.0 * below, 1e-9);
    // One draw, and a pipe through the same fittings: the right leg drains to the lower rim of the pipe, 30.5 mm, but is
    // drawn no lower than the left one.
    let piped = Plumbing {
        draws: [1].into_iter().collect(),
        pipes: [[1, 2]].into_iter().collect(),
    };
    let (kept, usable) = level(&tank, &piped);
    near(kept[1], below, 1e-9);
    near(usable, brim - 2.0 * below, 1e-9);
    let reach = tank.reach(&piped).unwrap();
    let mut openings = reach.compartments().ways(1);
    assert!(openings.any(|one| one.kind == DoorKind::Pipe(1)));
}

/// Rolled and pitched saddle: at a pitch of +10° the right side is high. The surface that stays in the right leg is a
/// plane through the tunnel's right upper edge where that is lowest, at its front and back alike: it falls to the left, so that
/// the leg keeps 0.9 (0.22 · 0.14 - 0.22² tan 10° / 2) m³.
#[test]
fn a_leg_that_leans() {
    let job = format!("{SADDLE}pick_up = \"25 mm\"\npick_up_at = [\"110 mm\", \"450 mm\"]\n");
    let tank = tank(&job);
    let reach = tank.reach(&Plumbing::default()).unwrap();
    let ten = Angle::new(10.0, AngleUnit::Degree);
    let mut kept = Vec::new();
    let lean = Lean::new(ten, Angle::default()).unwrap();
    reach.each_kept_leaning(lean, |one| kept.push(one.volume.si() * 1e3));
    let slope = 10_f64.to_radians().tan();
    near(
        kept[1],
        0.9 * (220.0 * 0.14 - 220.0 * 0.22 * slope / 2.0),
        1e-9,
    );
    // Turned round, the tunnel's left edge is the higher of the two: the leg holds up to it, a wedge from 140 mm and the
    // 160 mm of the tunnel's width higher.
    let lean = Lean::new(Angle::new(-10.0, AngleUnit::Degree), Angle::default()).unwrap();
    kept.clear();
    reach.each_kept_leaning(lean, |one| kept.push(one.volume.si() * 1e3));
    let (edge, wall) = (0.14 + 0.16 * slope, 0.14 + 0.38 * slope);
    let over_the_tunnel = 0.16 * 160.0 * slope / 2.0;
    near(
        kept[0] + kept[1] - 0.9 * 220.0 * 0.025,
        0.9 * (220.0 * 0.5 * (edge + wall) + over_the_tunnel) + 0.9 * 220.0 * (0.0),
        0.9 * 220.0 * 0.11 * slope + 1e-9,
    );
}

/// A box of 400 by 300 by 200 mm inside, parted in the middle by 2 mm with a round hole.
fn parted(hole: &str, fill: &str) -> String {
    format!(
        r#"
name = "Parted box"
[shape]
kind = "block"
sized = "inside"
length = "402 mm"
width = "300 mm"
height = "200 mm"
[stock]
alloy = "5754"
thickness = "2 mm"
[[baffle]]
across = "length"
at = "203 mm"
{hole}
[[fitting]]
name = "filler"
face = "top"
at = ["80 mm","100 mm"]
bore = "30 mm"
[fill]
headspace = "10 %"
{fill}
"#
    )
}

const HOLE: &str = "[[baffle.hole]]\nat = [\"152 mm\", \"62 mm\"]\ndiameter = \"40 mm\"";

/// The hole's lowest point stands 40 mm over the floor: behind the baffle 0.2 · 0.3 · 0.04 m³ stay, and the mark of 90 %
/// of the brim counts, with 0.2 · 0.3 · 0.01 m³ under the pick-up.
#[test]
fn a_hole_in_a_baffle_is_a_sill() {
    let fill = "pick_up = \"10 mm\"\npick_up_at = [\"80 mm\", \"100 mm\"]";
    let tank = tank(&parted(HOLE, fill));
    let (kept, usable) = level(&tank, &Plumbing::default());
    near(kept[0], 0.2 * 0.3 * 10.0, 1e-9);
    near(kept[1], 0.2 * 0.3 * 40.0, 1e-9);
    // The plate less its hole is metal: the hole is filled.
    let hole = std::f64::consts::PI * 0.02_f64.powi(2) * 2.0;
    let fill = 0.9 * (2.0 * 0.2 * 0.3 * 200.0 + hole);
    near(usable, fill - 0.6 - 2.4, 3e-3);
    near(
        tank.capacity().fill.si() * 1e3 - usable,
        0.2 * 0.3 * 50.0,
        1e-6,
    );
    // Leaning by 10° with the far side high: the hole's lowest rim is half of the sheet higher on that side.
    let lean = Lean::new(Angle::new(10.0, AngleUnit::Degree), Angle::default()).unwrap();
    let reach = tank.reach(&Plumbing::default()).unwrap();
    let mut kept = Vec::new();
    reach.each_kept_leaning(lean, |one| kept.push(one.volume.si() * 1e3));
    // From 40 mm at the plate's near surface, which is 2 mm before the far one, where the far compartment begins; the surface falls by
    // tan 10° for each metre to the right.
    let slope = 10_f64.to_radians().tan();
    let at_plate = 0.04;
    let reaches = at_plate / slope;
    let wedge = if reaches < 0.2 {
        0.3 * 0.5 * at_plate * reaches
    } else {
        0.3 * 0.2 * (at_plate - 0.5 * 0.2 * slope)
    };
    near(kept[1], wedge * 1e3, 1e-9);
}

/// A hole under the top lets air through, not the liquid: of the far half nothing reaches the pick-up, and above the hole's
/// highest point, 5 mm under the top, its air is shut in: 0.2 · 0.3 · 0.005 m³.
#[test]
fn a_hole_under_the_top_lets_air_through() {
    let hole = "[[baffle.hole]]\nat = [\"152 mm\", \"187 mm\"]\ndiameter = \"20 mm\"";
    let fill = "pick_up = \"10 mm\"\npick_up_at = [\"80 mm\", \"100 mm\"]";
    let tank = tank(&parted(hole, fill));
    let (kept, usable) = level(&tank, &Plumbing::default());
    let depth = tank.capacity().fill_depth.si() * 1e3;
    near(kept[1], 0.2 * 0.3 * depth.min(175.0), 1e-9);
    near(
        usable,
        tank.capacity().fill.si() * 1e3 - 0.6 - kept[1],
        1e-6,
    );
    let reach = tank.reach(&Plumbing::default()).unwrap();
    let shut = reach.shut_air(Lean::LEVEL).unwrap();
    near(shut.air.si() * 1e3, 0.2 * 0.3 * 5.0, 1e-9);
    assert_eq!(shut.compartment, 1);
    assert_eq!(reach.breathes(), Some(true));
}

/// Solid, it shuts half of the tank in, and the error says where: from 204 to 404 mm along x. A fitting of its own lets it
/// breathe, and then what it holds is not drawn.
#[test]
fn a_solid_baffle_is_refused_unless_both_sides_breathe() {
    let error = |job: &str| {
        let file = seamwright_tests::jobs::read(job);
        let built = seamwright_core::tank::Tank::build(&file.draft).unwrap();
        built.reach(&Plumbing::default()).err()
    };
    let solid = parted("", "pick_up_at = [\"80 mm\", \"100 mm\"]");
    let Some(ReachError::ShutIn { baffle, low, high }) = error(&solid) else {
        panic!("a shut compartment is let pass");
    };
    assert_eq!(baffle, Some(1));
    near(low[0].si(), 0.204, 1e-9);
    near(high[0].si(), 0.404, 1e-9);
    let vent = "[[fitting]]\nname = \"vent\"\nface = \"top\"\nat = [\"320 mm\",\"100 mm\"]\nbore = \"10 mm\"\n[fill]";
    let job = solid.replace("[fill]", vent);
    let tank = tank(&job);
    let (kept, usable) = level(&tank, &Plumbing::default());
    let depth = tank.capacity().fill_depth.si() * 1e3;
    near(kept[1], 0.2 * 0.3 * depth, 1e-9);
    near(usable, 0.2 * 0.3 * depth, 1e-6);
    let reach = tank.reach(&Plumbing::default()).unwrap();
    assert_eq!(reach.drains_to(1), None);
}

/// In the sheet of the baffle, beyond the wall, and under a sloping floor a pick-up draws nothing.
#[test]
fn a_pick_up_outside() {
    let error = |x: &str| {
        let job = parted(HOLE, &format!("pick_up_at = [\"{x}\", \"100 mm\"]"));
        let file = seamwright_tests::jobs::read(&job);
        let built = seamwright_core::tank::Tank::build(&file.draft).unwrap();
        built.reach(&Plumbing::default()).err()
    };
    for (x, by) in [("203 mm", 0.001), ("414 mm", 0.010), ("-3 mm", 0.005)] {
        let Some(ReachError::PickUp { error, .. }) = error(x) else {
            panic!("a pick-up at {x} is let pass");
        };
        near(error.by.si(), by, 1e-9);
    }
    assert!(error("80 mm").is_none());
}

/// Open by 30 mm below, a baffle holds nothing back; open by 20 mm above it is a weir of 180 mm; with its corners taken
/// off by 25 mm it drains to the floor, and its air gets out at the top.
#[test]
fn a_baffle_of_part_height_and_one_with_notched_corners() {
    let fill = "pick_up = \"10 mm\"\npick_up_at = [\"80 mm\", \"100 mm\"]";
    for (cut, keeps, air) in [
        ("gap_below = \"30 mm\"", 10.0, 170.0),
        ("gap_above = \"20 mm\"", 180.0, 0.0),
        ("corner_notch = \"25 mm\"", 10.0, 0.0),
    ] {
        let tank = tank(&parted(cut, fill));
        let (kept, _) = level(&tank, &Plumbing::default());
        let depth = tank.capacity().fill_depth.si() * 1e3;
        near(kept[1], 0.2 * 0.3 * depth.min(keeps), 1e-9);
        let reach = tank.reach(&Plumbing::default()).unwrap();
        let shut = reach.shut_air(Lean::LEVEL).unwrap();
        near(shut.air.si() * 1e3, 0.2 * 0.3 * air, 1e-9);
    }
}
