//! Plug welds that hold an edge of a baffle from outside: where their holes are, what they take and bear.

use std::f64::consts::PI;

use seamwright_core::blank::CutBlank;
use seamwright_core::build::{BuildWork, WeldAccess};
use seamwright_core::marking::HoleUse;
use seamwright_core::prelude::*;
use seamwright_core::strength::Trial;
use seamwright_core::tank::Tank;
use seamwright_tests::jobs;

/// The ballast tank of a work boat, 1,400 by 280 by 260 mm outside in 2 mm: nobody reaches the last edge of its baffle.
fn ballast(edges: &str) -> String {
    format!(
        "name = \"Ballast\"\n[shape]\nkind = \"block\"\nlength = \"1400 mm\"\nwidth = \"280 mm\"\nheight = \"260 mm\"\n\
         [stock]\nalloy = \"5754\"\nthickness = \"2 mm\"\n[[fitting]]\nname = \"filler\"\nface = \"top\"\n\
         at = [\"200 mm\", \"140 mm\"]\nbore = \"40 mm\"\n[[baffle]]\nacross = \"length\"\nat = \"700 mm\"\n{edges}\
         [[baffle.hole]]\nat = [\"140 mm\", \"130 mm\"]\ndiameter = \"60 mm\"\n"
    )
}

fn at_top(tank: &Tank) -> (usize, Seam) {
    let faces = [Face::Top, Face::Baffle(1)];
    let mut all = (0..).zip(tank.seams());
    all.find(|(_, seam)| seam.faces == faces).unwrap()
}

/// Plugs by ANSI/AISC 360-16, J2.3b (from memory): a hole of the sheet and 8 mm, here 10 mm; centres 4 diameters apart or
/// more. By hand, along 276 mm: holes of 10 mm, the first and the last 15 mm in, tack pitch 70 mm at most: five, 61.5 mm apart.
#[test]
fn their_holes_are_in_the_wall() {
    let tank = jobs::tank(&ballast("plugs = [\"top\"]\n"));
    let (_, seam) = at_top(&tank);
    let welds = tank.plug_welds(&seam).unwrap();
    assert_eq!(welds.count, 5);
    let holes: Vec<_> = tank.plug_holes().collect();
    assert_eq!(holes.len(), 5);
    let mut widths: Vec<f64> = holes.iter().map(|hole| hole.centre.y).collect();
    widths.sort_by(f64::total_cmp);
    for (n, y) in (0_u8..).zip(&widths) {
        assert!(
            (y - (0.002 + 0.015 + f64::from(n) * 0.0615)).abs() < 1e-9,
            "{y}"
        );
    }
    for hole in &holes {
        assert!((hole.centre.x - 0.700).abs() < 1e-12 && (hole.centre.z - 0.258).abs() < 1e-12);
        assert!((hole.diameter.si() - 0.010).abs() < 1e-12);
    }
    // On the top's blank and on no other.
    let mut blank = CutBlank::new();
    for panel in tank.panels() {
        tank.cut_blank(&[], &panel, &mut blank).unwrap();
        let marker = tank.marker(&[], &panel, &blank);
        let plugs: Vec<[f64; 2]> = marker
            .holes()
            .filter(|hole| hole.what == HoleUse::Plug(1))
            .map(|hole| hole.at)
            .collect();
        let wanted = if panel.face() == Face::Top { 5 } else { 0 };
        assert_eq!(plugs.len(), wanted, "{}", panel.mark);
        for pair in plugs.windows(2) {
            let apart = (pair[0][0] - pair[1][0]).hypot(pair[0][1] - pair[1][1]);
            assert!((apart - 0.0615).abs() < 1e-9, "{apart}");
        }
    }
}

/// Welded last and from outside, with nothing out of reach, where the same edge without plugs is.
#[test]
fn nothing_is_out_of_reach() {
    let tank = jobs::tank(&ballast("plugs = [\"top\"]\n"));
    assert_eq!(tank.out_of_reach().count(), 0);
    assert!(tank.loose_baffles().next().is_none());
    let order = tank.build_order();
    let (place, seam) = at_top(&tank);
    let stages = order.of_seam(place).unwrap();
    assert_eq!(stages.from, Some(WeldAccess::Outside));
    let stage = order.stages().get(usize::from(stages.welded) - 1).unwrap();
    assert_eq!(stage.work, BuildWork::OutsideSeams);
    assert!(tank.tacks(&seam).is_none());
    let plain = jobs::read(&ballast(""));
    assert_eq!(plain.left_free.len(), 1);
}

/// Rod: five holes of 10 mm through 2 mm, to the last bit. Strength: by the pitch. Stitches: five, each within the seam and clear of the next.
#[test]
fn what_they_take_and_bear() {
    let tank = jobs::tank(&ballast("plugs = [\"top\"]\n"));
    let (_, seam) = at_top(&tank);
    let volume = tank.bead(&seam).unwrap().unwrap().volume().si();
    let holes = 5.0 * 0.25 * PI * 0.010 * 0.010 * 0.002;
    assert!(
        (volume - holes).abs() < 1e-12 * holes.sqrt(),
        "{volume} {holes}"
    );
    let rate = tank.bead(&seam).unwrap().unwrap().section().si() * tank.arc().travel.si();
    let arc = tank.seam_time(&seam).unwrap().arc.si();
    assert!((arc - holes / rate).abs() < 1e-9 * arc, "{arc}");
    let stitches: Vec<[f64; 2]> = tank
        .division(&seam)
        .unwrap()
        .runs()
        .map(|run| run.map(Length::si))
        .collect();
    assert_eq!(stitches.len(), 5);
    assert!(stitches[0][0] > 0.0 && stitches[4][1] < seam.length.si());
    assert!(stitches.windows(2).all(|pair| pair[0][1] < pair[1][0]));

    // With a pitch of 50 mm at most, there are six, 49.2 mm apart: the same edge, loaded the same, bears so much more.
    let nearer = ballast("plugs = [\"top\"]\n")
        .replace("[[fitting]]", "[weld]\ntack_pitch = \"50 mm\"\n[[fitting]]");
    let nearer = jobs::tank(&nearer);
    let bearing = |tank: &Tank| {
        tank.seam_bearing(&at_top(tank).1, Trial::Use)
            .unwrap()
            .unwrap()
    };
    let (far, near) = (bearing(&tank), bearing(&nearer));
    for ratio in [
        far.forces.si() / near.forces.si(),
        near.reserve / far.reserve,
        near.reserve_forces / far.reserve_forces,
    ] {
        assert!((ratio - 61.5 / 49.2).abs() < 1e-9, "{ratio}");
    }
}

/// What cannot be: a wall that it does not meet, an edge named twice, a drum's wall, a fitting in the way.
#[test]
fn what_cannot_be_plugged() {
    let told = |text: &str| {
        let job = jobs::read(text);
        job.tank(|_| ()).unwrap_err().to_string()
    };
    let left = told(&ballast("plugs = [\"left\"]\n"));
    assert!(left.contains("it does not meet the left"), "{left}");
    let twice = told(&ballast("plugs = [\"top\"]\nfree = [\"top\"]\n"));
    assert!(twice.contains("or is left free of it"), "{twice}");
    let near =
        ballast("plugs = [\"top\"]\n").replace("\"200 mm\", \"140 mm\"", "\"725 mm\", \"140 mm\"");
    let near = told(&near);
    assert!(near.contains("at the hole of fitting 1"), "{near}");
    let drum = "name = \"drum\"\n[shape]\nkind = \"drum\"\naxis = \"lying\"\ndiameter = \"400 mm\"\nlength = \"600 mm\"\nends = \"flat\"\n\
                [stock]\nalloy = \"304\"\nthickness = \"2 mm\"\n[[baffle]]\nacross = \"length\"\nat = \"300 mm\"\nplugs = [\"shell\"]\n\
                [[baffle.hole]]\nat = [\"200 mm\", \"200 mm\"]\ndiameter = \"60 mm\"\n";
    let drum = told(drum);
    assert!(drum.contains("no straight edge at the shell"), "{drum}");
}
