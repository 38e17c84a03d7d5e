//! Baffles with flanges, folded up between the walls of their tanks: nothing overlaps, each flange lies along its wall at
//! the clearance that the job states, and its free edge is where the seam runs.

use std::f64::consts::PI;

use fastrand::Rng;
use seamwright_core::blank::{CutBlank, Panel};
use seamwright_core::fitting::{BaffleCut, CutFault, FlangeCut, Notch, PlaceError, RoomError};
use seamwright_core::geom::Vector;
use seamwright_core::input::{
    Across, BaffleDraft, Block, Draft, Face, HoleDraft, Joint, Profile, ProfilePoint, Shape, Sized,
    StockDraft, WallSet,
};
use seamwright_core::tables::Alloy;
use seamwright_core::tank::{JobError, Problem, Tank};
use seamwright_tests::amounts::mm;

use super::flat::{Flat, Folded, Frame, P2, holds};
use super::{Part, TOUCH, clear, folded};

const NEAR: f64 = 1e-9;

/// The three axes of a baffle: across it, and those of its plane.
fn axes(across: Across) -> [Vector; 3] {
    let [x, y, z] =
        [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]].map(|[x, y, z]| Vector::new(x, y, z));
    match across {
        Across::Length => [x, y, z],
        Across::Width => [y, x, z],
        Across::Height => [z, x, y],
    }
}

/// The first baffle folded up, from a place of its plate that no bend takes.
fn fold(tank: &Tank, panel: &Panel, blank: &CutBlank) -> Result<(Flat, Folded), String> {
    let baffle = tank.inner().baffles().first().ok_or("no baffle")?;
    let flat = Flat::of(blank, panel.thickness.si());
    let [axis, right, up] = axes(baffle.across());
    let place = |[x, y]: P2| blank.place(tank.body(), Face::Baffle(1), Vector::new(x, y, 0.0));
    let (low, high) = (tank.inside().extent(right), tank.inside().extent(up));
    let tried = (0..400).map(|n| {
        let share = |n: i32| (f64::from(n) + 0.5) / 20.0;
        [
            low.0 + (low.1 - low.0) * share(n % 20),
            high.0 + (high.1 - high.0) * share(n / 20),
        ]
    });
    let (p, on) = tried
        .filter_map(|p| Some((p, place(p)?)))
        .find(|(p, on)| {
            let clear = baffle.plate().inside(*p) > 0.02;
            clear && holds(&flat.outline, *on)
        })
        .ok_or("no place on the plate")?;
    let out = right.cross(up);
    let frame = Frame {
        origin: axis * baffle.at().si()
            + right * (p[0] - on[0])
            + up * (p[1] - on[1])
            + out * (0.5 * panel.thickness.si()),
        right,
        up,
    };
    let folded = flat.fold(on, frame)?;
    Ok((flat, folded))
}

fn area(ring: &[P2]) -> f64 {
    let next = ring.iter().cycle().skip(1);
    let twice: f64 = ring
        .iter()
        .zip(next)
        .map(|(a, b)| a[0] * b[1] - b[0] * a[1])
        .sum();
    0.5 * twice.abs()
}

/// Looks at the first baffle of a tank; tells how many flanges it has.
fn check(tank: &Tank, clearance: f64, rounded: bool) -> Result<usize, String> {
    let mut parts = folded(tank)?;
    let panel = tank
        .panels()
        .find(|panel| panel.face() == Face::Baffle(1))
        .ok_or("no panel")?;
    let mut blank = CutBlank::new();
    tank.cut_blank(&[], &panel, &mut blank)
        .map_err(|e| e.to_string())?;
    let (flat, folded) = fold(tank, &panel, &blank)?;
    let sheet = panel.thickness.si();
    let mass = blank.area().si() * sheet * tank.job().alloy().density().si();
    if (panel.mass.si() - mass).abs() > 1e-9
        || (panel.blank_area.si() - blank.area().si()).abs() > 1e-12
    {
        return Err(format!("{} and {mass} kg", panel.mass.si()));
    }
    // What its pieces and its bends take is what the tank holds less.
    let pieces: f64 = folded
        .pieces
        .iter()
        .map(|(ring, _)| area(ring) * sheet)
        .sum();
    let bends: f64 = (flat.bends.iter())
        .map(|bend| {
            let [a, b] = bend.ends;
            let outer = bend.radius + sheet;
            let ring = 0.5 * bend.turn * (outer * outer - bend.radius * bend.radius);
            ring * (a[0] - b[0]).hypot(a[1] - b[1])
        })
        .sum();
    let (metal, taken) = (pieces + bends, tank.inner().displaced());
    if (metal - taken).abs() > if rounded { 1e-4 } else { NEAR } * taken {
        return Err(format!("metal {metal}, taken {taken}"));
    }
    // Every flange lies along a wall, or over the opening.
    for bend in blank.bends() {
        let [_, wall] = bend.faces;
        if matches!(wall, Face::Baffle(_)) {
            continue;
        }
        let plane = tank.inside().face(wall).ok_or("no wall")?.plane();
        let lies = folded.pieces.iter().any(|(ring, frame)| {
            let sense = frame.out().dot(plane.normal);
            // Bent towards someone who looks at the plate, its outer face is the other one of the flat.
            let outer = if sense > 0.0 {
                Vector::ZERO
            } else {
                frame.out() * -sheet
            };
            (sense.abs() - 1.0).abs() < 1e-7
                && ring
                    .iter()
                    .all(|p| (plane.distance(frame.at(*p) + outer) + clearance).abs() < 1e-8)
        });
        if !lies {
            return Err(format!("no flange lies {clearance} off the {wall}"));
        }
    }
    let corners: Vec<Vector> = (folded.pieces.iter())
        .flat_map(|(ring, frame)| {
            ring.iter().flat_map(|p| {
                let at = frame.at(*p);
                [at, at - frame.out() * sheet]
            })
        })
        .collect();
    for (seam, place) in tank.seams().zip(0..) {
        if seam.joint != Some(Joint::FlangedLap) || seam.faces[1] != Face::Baffle(1) {
            continue;
        }
        let edge = tank.edge_of_seam(place).ok_or("no edge")?;
        for end in edge.ends {
            let off = corners.iter().map(|at| (*at - end).length());
            let off = off.fold(f64::INFINITY, f64::min);
            if off > 1e-7 {
                return Err(format!(
                    "the seam with the {} ends {off} off the flange",
                    seam.faces[0]
                ));
            }
        }
    }
    let count = flat.bends.len();
    parts.push(Part {
        mark: panel.mark.to_string(),
        panel,
        folded,
    });
    clear(&parts, TOUCH[0])?;
    Ok(count)
}

/// A draft of a body in aluminium sheet, with a baffle.
fn draft(shape: Shape, [thickness, radius]: [f64; 2], baffle: BaffleDraft) -> Draft {
    let mut draft = Draft::new("box", shape, StockDraft::of(Alloy::A5754, mm(thickness))).unwrap();
    draft.joints.bend_radius = Some(mm(radius));
    draft.baffles.push(baffle).unwrap();
    draft
}

/// 400 x 300 x 200 mm inside.
fn block() -> Shape {
    Shape::Block(Block {
        sized: Sized::Inside,
        length: mm(400.0),
        width: mm(300.0),
        height: mm(200.0),
        cuts: heapless::Vec::new(),
    })
}

/// A saddle, sharp or rounded, its sides square to each other.
fn saddle(radius: f64) -> Shape {
    let points = [
        (0.0, 0.0),
        (220.0, 0.0),
        (220.0, 140.0),
        (380.0, 140.0),
        (380.0, 0.0),
        (600.0, 0.0),
        (600.0, 300.0),
        (0.0, 300.0),
    ];
    let points = points.map(|(x, z)| ProfilePoint {
        x: mm(x),
        z: mm(z),
        radius: mm(radius),
    });
    Shape::Profile(Profile {
        sized: Sized::Inside,
        outline: points.into_iter().collect(),
        width: mm(500.0),
    })
}

#[test]
fn sixty_flanged_baffles_fold_up() {
    let mut rng = Rng::with_seed(12);
    let mut faults = Vec::new();
    let (mut kept, mut flanges, mut refused) = (0, 0, Vec::new());
    let mut shapes = [0; 2];
    while kept < 60 {
        let thickness = [1.5, 2.0, 3.0][rng.usize(..3)];
        let radius = thickness * [0.5, 1.0, 2.0, 4.0][rng.usize(..4)];
        let shape = rng.usize(..2);
        let across = if shape == 0 {
            [Across::Length, Across::Width, Across::Height][rng.usize(..3)]
        } else {
            Across::Width
        };
        let at = match across {
            Across::Length => rng.u32(120..280),
            Across::Width => rng.u32(100..200),
            Across::Height => rng.u32(80..120),
        };
        let baffle = BaffleDraft::new(across, mm(f64::from(at)));
        let round = [0.0, 25.0][rng.usize(..2)];
        let body = if shape == 0 { block() } else { saddle(round) };
        let mut draft = draft(body, [thickness, radius], baffle);
        let mut rounded = shape == 1 && round > 0.0;
        if shape == 0 {
            draft.joints.default = Some(
                [
                    Joint::OpenCorner,
                    Joint::HalfOpenCorner,
                    Joint::ClosedCorner,
                ][rng.usize(..3)],
            );
            let sides = [[Face::Front, Face::Back], [Face::Left, Face::Right]];
            if let Some(sides) = sides.get(rng.usize(..3)) {
                rounded = true;
                for side in sides {
                    draft.joints.folds.push([Face::Bottom, *side]).unwrap();
                }
            }
        }
        let clearance = [0.0, 0.3, 1.0, 2.0][rng.usize(..4)];
        let mut cut = BaffleCut {
            clearance: mm(clearance),
            ..BaffleCut::default()
        };
        let mut flange = FlangeCut {
            width: mm(15.0 + f64::from(rng.u8(0..30))),
            high: rng.bool(),
            walls: WallSet::NONE,
            below: false,
            above: false,
        };
        if across != Across::Height && rng.bool() && shape == 0 {
            cut.gap_below = mm(25.0);
            flange.below = rng.bool();
        }
        if rng.u8(..4) == 0 && shape == 0 {
            cut.corner_notch = mm(f64::from(rng.u8(15..40)));
        }
        if rng.u8(..3) == 0 && shape == 0 && across == Across::Length {
            let notch = Notch {
                at: [mm(150.0), mm(200.0)],
                width: mm(40.0),
                depth: mm(20.0),
            };
            cut.notches.push(notch).unwrap();
        }
        if flange.below || rng.u8(..3) == 0 {
            let some = match (shape, across) {
                (0, Across::Length) => [Face::Top, Face::Front],
                (0, Across::Width) => [Face::Top, Face::Left],
                (0, _) => [Face::Left, Face::Back],
                _ => [Face::Side(1), Face::Side(7)],
            };
            flange.walls = WallSet::from_iter(some);
        }
        cut.flange = Some(flange);
        let said = format!(
            "{:?} at {at}, {thickness} thick, folds {:?}, shape {shape}, round {round}, radius {radius}, {cut:?}",
            across, draft.joints.folds
        );
        let tank = match Tank::build_cut(&draft, &[cut], |_| ()) {
            Ok(tank) => tank,
            Err(error) => {
                refused.push(format!("{error}\n{said}"));
                assert!(refused.len() < 200, "{refused:#?}");
                continue;
            }
        };
        kept += 1;
        shapes[shape] += 1;
        match check(&tank, clearance * 1e-3, rounded) {
            Ok(count) => flanges += count,
            Err(what) => faults.push(format!("{what}\n{said}")),
        }
    }
    let told = refused
        .iter()
        .map(|said| said.lines().next().unwrap_or_default());
    let told: std::collections::BTreeSet<_> = told.collect();
    println!(
        "{kept} baffles, {shapes:?}, {flanges} flanges, {} refused: {told:#?}",
        refused.len()
    );
    assert!(
        faults.is_empty(),
        "{} of {kept}: {}",
        faults.len(),
        faults.join("\n\n")
    );
    assert!(shapes.iter().all(|count| *count > 15) && flanges > 120);
}

/// By hand: 298 x 198 mm to the rim, flanges of 20 mm on all four sides, bent round 3 mm. DIN 6935 (worked out from
/// memory): `k = 0.65 + 0.5 lg(r/s)`, the allowance of a right angle `½π (r + ½ k s)`.
#[test]
fn a_flanged_plate_by_hand() {
    let baffle = BaffleDraft::new(Across::Length, mm(202.0));
    let flange = FlangeCut {
        width: mm(20.0),
        high: true,
        walls: WallSet::NONE,
        below: false,
        above: false,
    };
    let cut = BaffleCut {
        clearance: mm(1.0),
        flange: Some(flange),
        ..BaffleCut::default()
    };
    let draft = draft(block(), [2.0, 3.0], baffle);
    let tank = Tank::build_cut(&draft, &[cut], |_| ()).unwrap();
    let k = 0.65 + 0.5 * 1.5_f64.log10();
    let allowance = 0.5 * PI * (3.0 + 0.5 * k * 2.0);
    let out = 20.0 - 10.0 + allowance;
    let lengths = [288.0, 288.0, 188.0, 188.0];
    let area = 298.0 * 198.0 - 4.0 * 25.0 + lengths.iter().map(|l| l * out).sum::<f64>();
    let panel = tank.panels().last().unwrap();
    let close = |got: f64, want: f64, within: f64| {
        assert!((got - want).abs() < within, "{got} is not {want}");
    };
    close(panel.blank_area.si(), area * 1e-6, 1e-11);
    let mut blank = CutBlank::new();
    tank.cut_blank(&[], &panel, &mut blank).unwrap();
    for (got, rim) in blank.size().into_iter().zip([298.0, 198.0]) {
        close(got, (rim + 2.0 * out) * 1e-3, 1e-11);
    }
    // Plate and flanges 2 mm thick, the bends a quarter of a ring.
    let flat = 298.0 * 198.0 - 4.0 * 25.0 - lengths.iter().map(|l| 5.0 * l).sum::<f64>();
    let rest: f64 = lengths
        .iter()
        .map(|l| l * (15.0 * 2.0 + 0.25 * PI * (25.0 - 9.0)))
        .sum();
    close(tank.inner().displaced(), (2.0 * flat + rest) * 1e-9, 1e-15);
    let all: Vec<_> = tank
        .seams()
        .filter(|seam| seam.faces[1] == Face::Baffle(1))
        .collect();
    for (seam, length) in all.iter().zip([188.0, 288.0, 188.0, 288.0]) {
        assert_eq!(seam.joint, Some(Joint::FlangedLap));
        assert!(
            lengths
                .iter()
                .any(|l| (seam.length.si() * 1e3 - l).abs() < 1e-9),
            "{length}"
        );
    }
    assert_eq!(all.len(), 4);
    // The lowest 2 mm above the clearance hold the flange on the bottom, and no more of plate and bend than their width.
    let below = tank.inner().below(Vector::new(0.0, 0.0, 1.0), 5e-3);
    let least = (288.0 * 15.0 * 2.0) * 1e-9;
    assert!(
        below > least && below < least + 288.0 * 5.0 * 2.0 * 1e-9,
        "{below}"
    );
}

/// What is refused, with the limit that follows from the sizes of the box.
#[test]
fn flanges_that_do_not_fit() {
    let flange = || FlangeCut {
        width: mm(20.0),
        high: true,
        walls: WallSet::NONE,
        below: false,
        above: false,
    };
    let fault = |flange: FlangeCut, baffle: BaffleDraft| {
        let cut = BaffleCut {
            flange: Some(flange),
            ..BaffleCut::default()
        };
        match Tank::build_cut(&draft(block(), [2.0, 3.0], baffle), &[cut], |_| ()) {
            Err(JobError {
                problem: Problem::Place(PlaceError::Room(RoomError::Cut { fault, limit })),
                ..
            }) => (fault, limit.si() * 1e3),
            other => panic!("{:?}", other.map(|_| "built")),
        }
    };
    let plain = || BaffleDraft::new(Across::Length, mm(202.0));
    let near = |(fault, limit): (CutFault, f64), wanted: CutFault, want: f64| {
        assert!(
            fault == wanted && (limit - want).abs() < 1e-3,
            "{fault:?} {limit}"
        );
    };
    // The bend takes its inside radius and the sheet.
    let width = mm(4.9);
    near(
        fault(FlangeCut { width, ..flange() }, plain()),
        CutFault::FlangeShort,
        5.0,
    );
    // From the low face of the sheet at 201 mm to the inside of the right at 402 mm.
    let width = mm(250.0);
    let bottom = WallSet::from_iter([Face::Bottom]);
    let long = FlangeCut {
        width,
        walls: bottom,
        ..flange()
    };
    near(
        fault(long, plain()),
        CutFault::FlangeLong(Face::Bottom),
        201.0,
    );
    let mut holed = plain();
    let hole = HoleDraft {
        at: [mm(150.0), mm(20.0)],
        diameter: mm(30.0),
    };
    holed.holes.push(hole).unwrap();
    // 20 - 2 - 15 mm from the wall, 5 mm are the bend's.
    near(fault(flange(), holed), CutFault::FlangeHole(1), 2.0);
    let walls = WallSet::from_iter([Face::Left]);
    near(
        fault(FlangeCut { walls, ..flange() }, plain()),
        CutFault::FlangeNowhere(Face::Left),
        0.0,
    );
    let below = true;
    near(
        fault(FlangeCut { below, ..flange() }, plain()),
        CutFault::FlangeNoGap(false),
        0.0,
    );
}
