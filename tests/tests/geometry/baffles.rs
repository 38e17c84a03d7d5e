//! Baffles as they are cut: what is left of the plate, where its seams run, what stays open, and what is
//! refused. The figures follow from the sizes of the jobs.

use std::f64::consts::PI;

use seamwright_core::fitting::{
    Baffle, BaffleCut, CutFault, Notch, Opening, PlaceError, RoomError,
};
use seamwright_core::input::{Face, Field};
use seamwright_core::tank::{JobError, Problem, Tank};
use seamwright_tests::Outcome;
use seamwright_tests::amounts::mm;
use seamwright_tests::jobs;
use seamwright_tests::near::{Tolerance, near};

/// 400 x 300 x 200 mm inside, with one baffle across its length.
const BOX: &str = "name = \"box\"\n[shape]\nkind = \"block\"\nsized = \"inside\"\nlength = \"400 mm\"\n\
width = \"300 mm\"\nheight = \"200 mm\"\n[stock]\nalloy = \"5754\"\nthickness = \"2 mm\"\n\
[[baffle]]\nacross = \"length\"\nat = \"202 mm\"\n";
/// A saddle over a tunnel, with one baffle across its width.
const SADDLE: &str = "name = \"saddle\"\n[shape]\nkind = \"profile\"\nwidth = \"900 mm\"\nsized = \"inside\"\n\
outline = [[\"0 mm\", \"0 mm\"], [\"220 mm\", \"0 mm\"], [\"220 mm\", \"140 mm\"], [\"380 mm\", \"140 mm\"], \
[\"380 mm\", \"0 mm\"], [\"600 mm\", \"0 mm\"], [\"600 mm\", \"300 mm\"], [\"0 mm\", \"300 mm\"]]\n\
[stock]\nalloy = \"mild steel\"\nthickness = \"3 mm\"\n[weld]\nstitch_max = \"200 mm\"\n[[baffle]]\nacross = \"width\"\nat = \"300 mm\"\n";
const DRUM: &str = "name = \"drum\"\n[shape]\nkind = \"drum\"\naxis = \"lying\"\nsized = \"inside\"\n\
diameter = \"400 mm\"\nlength = \"600 mm\"\nends = \"flat\"\n[stock]\nalloy = \"304\"\nthickness = \"2 mm\"\n\
[[baffle]]\nacross = \"length\"\nat = \"300 mm\"\n";

fn built(text: &str, cut: BaffleCut) -> Result<Tank, JobError> {
    Tank::build_cut(&jobs::read(text).draft, &[cut], |_| ())
}

fn baffle(tank: &Tank) -> &Baffle {
    tank.inner().baffles().first().unwrap()
}

/// Length of the seams that hold it, wall by wall.
fn seams(tank: &Tank) -> Vec<(Face, f64)> {
    let own = tank.seams().filter(|seam| seam.faces[1] == Face::Baffle(1));
    own.map(|seam| (seam.faces[0], seam.length.si())).collect()
}

fn on(tank: &Tank, wall: Face) -> f64 {
    let all = seams(tank).into_iter().filter(|(face, _)| *face == wall);
    all.map(|(_, length)| length).sum()
}

const TIGHT: Tolerance = Tolerance::relative(1e-9);

#[test]
fn clear_all_round_and_open_below_and_above() -> Outcome {
    let whole = built(BOX, BaffleCut::default()).unwrap();
    near("whole", baffle(&whole).area(), 0.300 * 0.200, TIGHT)?;
    let clear = built(
        BOX,
        BaffleCut {
            clearance: mm(1.5),
            ..BaffleCut::default()
        },
    )
    .unwrap();
    near("clear", baffle(&clear).area(), 0.297 * 0.197, TIGHT)?;
    assert_eq!(seams(&clear).len(), 4);
    let cut = BaffleCut {
        gap_below: mm(30.0),
        gap_above: mm(50.0),
        ..BaffleCut::default()
    };
    let open = built(BOX, cut).unwrap();
    near("open", baffle(&open).area(), 0.300 * 0.120, TIGHT)?;
    // No seam where there is no plate.
    let mut walls = seams(&open);
    walls.sort_by_key(|(face, _)| *face);
    assert_eq!(
        walls.iter().map(|(face, _)| *face).collect::<Vec<_>>(),
        [Face::Front, Face::Back]
    );
    near("front", on(&open, Face::Front), 0.120, TIGHT)?;
    // What the sheet takes is the plate's, and so is its mass.
    for (tank, area) in [(&whole, 0.060), (&clear, 0.297 * 0.197), (&open, 0.036)] {
        near(
            "brim",
            tank.capacity().brim.si(),
            0.4 * 0.3 * 0.2 - 0.002 * area,
            TIGHT,
        )?;
        let panel = tank.panels().last().ok_or("no panel")?;
        let density = tank.job().alloy().density().si();
        near("mass", panel.mass.si(), 0.002 * area * density, TIGHT)?;
    }
    Ok(())
}

#[test]
fn corners_and_notches() -> Outcome {
    let mut cut = BaffleCut {
        corner_notch: mm(20.0),
        ..BaffleCut::default()
    };
    let tank = built(BOX, cut.clone()).unwrap();
    near(
        "corners",
        baffle(&tank).area(),
        0.060 - 4.0 * 0.5 * 0.020 * 0.020,
        TIGHT,
    )?;
    near("bottom", on(&tank, Face::Bottom), 0.260, TIGHT)?;
    let openings = baffle(&tank).openings(tank.inside());
    assert_eq!(openings.len(), 4);
    for opening in &openings {
        let Opening::Rim(corners) = opening else {
            panic!("{opening:?}")
        };
        assert_eq!(corners.len(), 3, "{corners:?}");
    }
    cut.corner_notch = mm(0.0);
    // 40 mm wide and 15 mm deep, in the middle of the bottom; across the length the plane is y and z.
    let notch = Notch {
        at: [mm(152.0), mm(2.0)],
        width: mm(40.0),
        depth: mm(15.0),
    };
    cut.notches.push(notch).unwrap();
    let tank = built(BOX, cut).unwrap();
    near("notch", baffle(&tank).area(), 0.060 - 0.040 * 0.015, TIGHT)?;
    // It parts the seam, and not the line that is scribed.
    let bottom: Vec<_> = seams(&tank)
        .into_iter()
        .filter(|(face, _)| *face == Face::Bottom)
        .collect();
    assert_eq!(bottom.len(), 2);
    for (_, length) in bottom {
        near("half", length, 0.130, TIGHT)?;
    }
    let lines = baffle(&tank).stands_on(tank.inside());
    assert_eq!(lines.len(), 4);
    for line in &lines {
        let [a, b] = line.ends;
        let long = match line.wall {
            Face::Front | Face::Back => 0.200,
            _ => 0.300,
        };
        near("line", (b - a).length(), long, TIGHT)?;
        near("plane", a.x, 0.202, TIGHT)?;
    }
    let openings = baffle(&tank).openings(tank.inside());
    let [Opening::Rim(corners)] = openings.as_slice() else {
        panic!("{openings:?}")
    };
    assert_eq!(corners.len(), 4);
    let low = corners
        .iter()
        .map(|corner| corner[1])
        .fold(f64::INFINITY, f64::min);
    near("sill", low, 0.002, TIGHT)?;
    Ok(())
}

/// A hole on a concave plate, and what of one leg is left open.
#[test]
fn concave_plates() -> Outcome {
    let hole = |at: [f64; 2], diameter: f64| {
        format!(
            "{SADDLE}[[baffle.hole]]\nat = [\"{} mm\", \"{} mm\"]\ndiameter = \"{diameter} mm\"\n",
            at[0], at[1]
        )
    };
    // Outside corner at 3 mm: the legs run from 3 to 223 and from 383 to 603, the bridge from 143 up.
    for (at, diameter, fits) in [
        ([113.0, 33.0], 40.0, true),
        ([493.0, 33.0], 40.0, true),
        ([303.0, 223.0], 90.0, true),
        ([303.0, 70.0], 40.0, false),
        ([303.0, 160.0], 40.0, false),
        ([213.0, 70.0], 40.0, false),
        // Beside the inside corner at (223, 143): 15 mm each way is 21.2 mm off it.
        ([208.0, 158.0], 42.0, true),
        ([208.0, 158.0], 43.0, false),
    ] {
        let found = built(&hole(at, diameter), BaffleCut::default());
        assert_eq!(found.is_ok(), fits, "{at:?} {diameter}: {:?}", found.err());
    }
    let plate = 0.6 * 0.3 - 0.16 * 0.14;
    let tank = built(SADDLE, BaffleCut::default()).unwrap();
    near("saddle", baffle(&tank).area(), plate, TIGHT)?;
    let above = BaffleCut {
        gap_above: mm(40.0),
        ..BaffleCut::default()
    };
    near(
        "above",
        baffle(&built(SADDLE, above).unwrap()).area(),
        plate - 0.6 * 0.04,
        TIGHT,
    )?;
    // Open above the tunnel, two legs would be left; and the sheet over the tunnel holds it up to there.
    let parted = BaffleCut {
        gap_above: mm(170.0),
        ..BaffleCut::default()
    };
    assert_eq!(fault(SADDLE, parted), CutFault::Parted);
    Ok(())
}

#[test]
fn round_plates() -> Outcome {
    let (r, h) = (0.2_f64, 0.05);
    // The circular segment: r² acos(1 − h/r) − (r − h) √(2 r h − h²).
    let lost = r * r * (1.0 - h / r).acos() - (r - h) * (2.0 * r * h - h * h).sqrt();
    let below = BaffleCut {
        gap_below: mm(50.0),
        ..BaffleCut::default()
    };
    let tank = built(DRUM, below).unwrap();
    near("segment", baffle(&tank).area(), PI * r * r - lost, TIGHT)?;
    let arc = 2.0 * r * (PI - (1.0 - h / r).acos());
    near("arc", on(&tank, Face::Shell), arc, TIGHT)?;
    let clear = BaffleCut {
        clearance: mm(2.0),
        ..BaffleCut::default()
    };
    let tank = built(DRUM, clear).unwrap();
    near("clear", baffle(&tank).area(), PI * 0.198 * 0.198, TIGHT)?;
    let openings = baffle(&tank).openings(tank.inside());
    let [Opening::Slit(slit)] = openings.as_slice() else {
        panic!("{openings:?}")
    };
    near("slit", slit.si(), 0.002, Tolerance::relative(1e-6))?;
    Ok(())
}

fn fault(text: &str, cut: BaffleCut) -> CutFault {
    match built(text, cut) {
        Err(JobError {
            field: Field::Baffle(1),
            problem: Problem::Place(PlaceError::Room(RoomError::Cut { fault, .. })),
        }) => fault,
        other => panic!("{other:?}"),
    }
}

#[test]
fn what_does_not_fit() {
    let cut = BaffleCut::default;
    assert_eq!(
        fault(
            BOX,
            BaffleCut {
                clearance: mm(100.0),
                ..cut()
            }
        ),
        CutFault::Clearance
    );
    assert_eq!(
        fault(
            BOX,
            BaffleCut {
                gap_below: mm(120.0),
                gap_above: mm(80.0),
                ..cut()
            }
        ),
        CutFault::Gaps
    );
    assert_eq!(
        fault(
            BOX,
            BaffleCut {
                corner_notch: mm(100.0),
                ..cut()
            }
        ),
        CutFault::Corner
    );
    assert_eq!(
        fault(
            DRUM,
            BaffleCut {
                corner_notch: mm(10.0),
                ..cut()
            }
        ),
        CutFault::Round
    );
    let level = BOX.replace(
        "across = \"length\"\nat = \"202 mm\"",
        "across = \"height\"\nat = \"100 mm\"",
    );
    assert_eq!(
        fault(
            &level,
            BaffleCut {
                gap_below: mm(10.0),
                ..cut()
            }
        ),
        CutFault::Level
    );
    let bent = format!(
        "{BOX}[joints]\nfolds = [\"bottom front\", \"bottom back\"]\nbend_radius = \"30 mm\"\n"
    );
    assert_eq!(
        fault(
            &bent,
            BaffleCut {
                corner_notch: mm(20.0),
                ..cut()
            }
        ),
        CutFault::Bend
    );
    for (at, width, depth, expected) in [
        ([152.0, 2.0], 400.0, 10.0, CutFault::Wide(1)),
        ([20.0, 2.0], 40.0, 10.0, CutFault::Wide(1)),
        ([152.0, 2.0], 40.0, 200.0, CutFault::Deep(1)),
    ] {
        let mut one = cut();
        let notch = Notch {
            at: [mm(at[0]), mm(at[1])],
            width: mm(width),
            depth: mm(depth),
        };
        one.notches.push(notch).unwrap();
        assert_eq!(fault(BOX, one), expected);
    }
}

/// An edge that is left loose is cut 3 mm short of its wall, or by the clearance where that is more; the others are not.
#[test]
fn a_loose_edge_has_play() -> Outcome {
    let free = |text: &str, walls: &str| {
        text.replace("[[baffle]]\n", &format!("[[baffle]]\nfree = [{walls}]\n"))
    };
    let loose = built(&free(BOX, "\"top\", \"front\""), BaffleCut::default()).unwrap();
    near("two loose", baffle(&loose).area(), 0.297 * 0.197, TIGHT)?;
    near("bottom", on(&loose, Face::Bottom), 0.297, TIGHT)?;
    let clear = |mm_clear: f64| BaffleCut {
        clearance: mm(mm_clear),
        ..BaffleCut::default()
    };
    for (clearance, area) in [(1.0, 0.298 * 0.196), (5.0, 0.290 * 0.190)] {
        let cut = built(&free(BOX, "\"top\""), clear(clearance)).unwrap();
        near("clear too", baffle(&cut).area(), area, TIGHT)?;
    }
    // What the sheet takes of the room follows.
    let whole = built(BOX, BaffleCut::default()).unwrap();
    let more = loose.capacity().brim.si() - whole.capacity().brim.si();
    near(
        "room",
        more,
        (0.300 * 0.200 - 0.297 * 0.197) * 0.002,
        Tolerance::relative(1e-6),
    )?;
    let drum = built(&free(DRUM, "\"shell\""), BaffleCut::default()).unwrap();
    near("disc", baffle(&drum).area(), PI * 0.197 * 0.197, TIGHT)?;
    Ok(())
}

/// Beside a rounded corner the wall's own arc moves off with the loose edge: nowhere is the plate nearer to that wall than
/// its play, nor nearer to any wall than nothing.
#[test]
fn a_loose_edge_beside_a_bend() -> Outcome {
    let text = "name = \"trough\"\n[shape]\nkind = \"profile\"\nsized = \"inside\"\nwidth = \"300 mm\"\noutline = \
[[\"0 mm\", \"0 mm\", \"r 30 mm\"], [\"400 mm\", \"0 mm\", \"r 30 mm\"], [\"400 mm\", \"200 mm\", \"r 30 mm\"], [\"0 mm\", \"200 mm\", \"r 30 mm\"]]\n\
[stock]\nalloy = \"5754\"\nthickness = \"2 mm\"\n[[baffle]]\nacross = \"width\"\nat = \"150 mm\"\nfree = [\"side 3\"]\n";
    let tank = built(text, BaffleCut::default()).unwrap();
    let tight = built(
        &text.replace("free = [\"side 3\"]\n", ""),
        BaffleCut::default(),
    )
    .unwrap();
    let (plate, whole) = (baffle(&tank).plate(), baffle(&tight).plate());
    near(
        "area",
        plate.area(),
        0.400 * 0.197 - (4.0 - PI) * 0.030 * 0.030,
        TIGHT,
    )?;
    for step in 0..=400 {
        let x = 0.002 + 0.001 * f64::from(step);
        // The highest point of the plate there.
        let (mut low, mut high) = (0.102, 0.3);
        for _ in 0..60 {
            let half = 0.5 * (low + high);
            *(if plate.inside([x, half]) >= 0.0 {
                &mut low
            } else {
                &mut high
            }) = half;
        }
        assert!(whole.inside([x, low + 0.003]) > -1e-9, "{step}");
    }
    Ok(())
}
