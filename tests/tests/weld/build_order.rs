//! In which order tanks go together: stages that follow the metal, and seams inside that are open to a hand when their turn
//! comes. Whether a place is open is told here by flooding a grid of small cubes, which shares nothing with the core but the
//! planes of the walls.

use std::collections::VecDeque;

use seamwright_core::blank::{Making, PanelMark};
use seamwright_core::build::{BuildOrder, BuildWork, WeldAccess};
use seamwright_core::geom::Vector;
use seamwright_core::input::{Across, Face};
use seamwright_core::seam::Seam;
use seamwright_core::tank::Tank;
use seamwright_core::units::Length;
use seamwright_core::weld::Planner;
use seamwright_tests::jobs;
use seamwright_tests::random_jobs::{Jobs, settled};

/// Cubes along each axis.
const CUBES: usize = 36;

/// The number of the stage, from 1, in which a panel is put on last; 0 where it stands from the walls on.
fn put_on(order: &BuildOrder, panel: PanelMark) -> u8 {
    let stages = order.stages().iter().zip(1_u8..);
    let mut closing = stages.filter(|(stage, _)| stage.work == BuildWork::Closing);
    let found = closing.find(|(stage, _)| stage.panels.has(panel));
    found.map_or(0, |(_, number)| number)
}

/// The number of the stage in which a baffle is set in.
fn set_in(order: &BuildOrder, panel: PanelMark) -> u8 {
    let stages = order.stages().iter().zip(1_u8..);
    let mut baffles = stages.filter(|(stage, _)| stage.work == BuildWork::Baffles);
    let found = baffles.find(|(stage, _)| stage.panels.has(panel));
    found.map(|(_, number)| number).unwrap()
}

/// The inside of a tank with plane walls and no inside corners, in cubes.
struct Grid<'a> {
    tank: &'a Tank,
    low: [f64; 3],
    step: [f64; 3],
}

impl<'a> Grid<'a> {
    fn of(tank: &'a Tank) -> Self {
        let axes = [(1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)];
        let extents = axes.map(|(x, y, z)| tank.inside().extent(Vector::new(x, y, z)));
        Self {
            tank,
            low: extents.map(|(low, _)| low),
            step: extents.map(|(low, high)| (high - low) / CUBES as f64),
        }
    }

    fn middle(&self, cube: [usize; 3]) -> Vector {
        let at = |axis: usize| self.low[axis] + (cube[axis] as f64 + 0.5) * self.step[axis];
        Vector::new(at(0), at(1), at(2))
    }

    /// Whether the middle of a cube lies within all walls but those that are off.
    fn is_within(&self, cube: [usize; 3], off: &[Face]) -> bool {
        let point = self.middle(cube);
        self.tank
            .inside()
            .faces()
            .filter(|view| !off.contains(&view.face()))
            .all(|view| view.plane().distance(point) < 0.0)
    }

    /// Whether a baffle of these stands between the middles of two cubes.
    fn parted(&self, a: [usize; 3], b: [usize; 3], standing: &[u8]) -> bool {
        let (a, b) = (self.middle(a), self.middle(b));
        standing.iter().any(|number| {
            let baffle = &self.tank.inner().baffles()[usize::from(number - 1)];
            let along = |point: Vector| match baffle.across() {
                Across::Length => point.x,
                Across::Width => point.y,
                Across::Height => point.z,
            };
            let at = baffle.at().si();
            (along(a) < at) != (along(b) < at)
        })
    }

    /// Whether one gets from a cube to the outside through a wall that is off.
    fn gets_out(&self, from: [usize; 3], off: &[Face], standing: &[u8]) -> bool {
        if !self.is_within(from, off) {
            return false;
        }
        let mut seen = vec![false; CUBES.pow(3)];
        let place = |[x, y, z]: [usize; 3]| (x * CUBES + y) * CUBES + z;
        let mut next = VecDeque::from([from]);
        seen[place(from)] = true;
        while let Some(cube) = next.pop_front() {
            for axis in 0..3 {
                for ahead in [false, true] {
                    let mut other = cube;
                    let stepped = if ahead {
                        Some(cube[axis] + 1).filter(|at| *at < CUBES)
                    } else {
                        cube[axis].checked_sub(1)
                    };
                    let Some(at) = stepped else {
                        // The box about the inside ends at a wall: out where that one is off.
                        let mut normal = [0.0; 3];
                        normal[axis] = if ahead { 1.0 } else { -1.0 };
                        let out = Vector::new(normal[0], normal[1], normal[2]);
                        let reach = 1.5 * self.step[axis];
                        let point = self.middle(cube) + out * reach;
                        let past = self
                            .tank
                            .inside()
                            .faces()
                            .filter(|view| view.plane().distance(point) >= 0.0);
                        let past: Vec<Face> = past.map(|view| view.face()).collect();
                        if !past.is_empty() && past.iter().all(|face| off.contains(face)) {
                            return true;
                        }
                        continue;
                    };
                    other[axis] = at;
                    if seen[place(other)] || self.parted(cube, other, standing) {
                        continue;
                    }
                    if !self.is_within(other, &[]) && self.is_within(other, off) {
                        return true;
                    }
                    if self.is_within(other, off) {
                        seen[place(other)] = true;
                        next.push_back(other);
                    }
                }
            }
        }
        false
    }
}

/// The faces of the panels that are off before the end of a stage.
fn off_at(tank: &Tank, order: &BuildOrder, stage: u8) -> Vec<Face> {
    let panels = tank.panels();
    panels
        .filter(|panel| put_on(order, panel.mark) > stage)
        .flat_map(|panel| panel.faces.iter().copied().collect::<Vec<_>>())
        .collect()
}

/// The baffles that stand in a stage.
fn standing_at(tank: &Tank, order: &BuildOrder, stage: u8) -> Vec<u8> {
    let panels = tank.panels();
    panels
        .filter_map(|panel| match panel.face() {
            Face::Baffle(number) => Some((number, set_in(order, panel.mark))),
            _ => None,
        })
        .filter(|(_, set)| *set <= stage)
        .map(|(number, _)| number)
        .collect()
}

/// Whether either side of the middle of a baffle's edge is open in a stage.
fn is_open(tank: &Tank, order: &BuildOrder, seam: &Seam, place: usize, stage: u8) -> bool {
    let grid = Grid::of(tank);
    let off = off_at(tank, order, stage);
    let standing = standing_at(tank, order, stage);
    let edge = tank.edge_of_seam(place).unwrap();
    let middle = edge.at(Length::from_metres(0.5 * seam.length.si()));
    let [_, Face::Baffle(number)] = seam.faces else {
        panic!("not a baffle's: {seam:?}");
    };
    let baffle = &tank.inner().baffles()[usize::from(number - 1)];
    let axis = match baffle.across() {
        Across::Length => 0,
        Across::Width => 1,
        Across::Height => 2,
    };
    let at = [middle.x, middle.y, middle.z];
    let cube = |n: usize| {
        let place = ((at[n] - grid.low[n]) / grid.step[n]).floor();
        place.clamp(0.0, CUBES as f64 - 1.0) as usize
    };
    // On each side of the plate the cubes about the place: walls lean, so the nearest may lie outside.
    let about = |n: usize| cube(n).saturating_sub(2)..=(cube(n) + 2).min(CUBES - 1);
    [false, true].into_iter().any(|far| {
        let cubes =
            about(0).flat_map(|x| about(1).flat_map(move |y| about(2).map(move |z| [x, y, z])));
        let mut beside = cubes.filter(|cube| {
            let middle = grid.middle(*cube);
            let on = [middle.x, middle.y, middle.z][axis] > baffle.at().si();
            on == far && grid.is_within(*cube, &[])
        });
        beside
            .next()
            .is_some_and(|cube| grid.gets_out(cube, &off, &standing))
    })
}

fn plane_walls(tank: &Tank) -> bool {
    let faces = tank.inside().faces();
    let profile = faces
        .clone()
        .any(|view| matches!(view.face(), Face::Side(_)));
    tank.inside().turned().is_none() && !profile
}

/// Tanks with baffles, as they are planned.
fn with_baffles(seed: u64, most: usize) -> Vec<Tank> {
    Jobs::new(seed)
        .filter(|draft| !draft.baffles.is_empty())
        .filter_map(settled)
        .take(most)
        .collect()
}

#[test]
fn every_seam_inside_is_open_when_its_turn_comes() {
    let mut looked = 0;
    for tank in with_baffles(71, 120)
        .iter()
        .filter(|tank| plane_walls(tank))
    {
        let order = tank.build_order();
        for ((seam, stages), place) in tank.seams().zip(order.seams()).zip(0..) {
            assert!(!stages.is_unreached(), "{seam:?}");
            if let Some(WeldAccess::Inside(_)) = stages.from {
                // In a stage of closing, the panel that goes on is on.
                let open = is_open(tank, &order, &seam, place, stages.welded);
                let plates = tank.job().baffles();
                assert!(
                    open,
                    "{seam:?} {:?} {plates:?} {order:?}",
                    tank.job().shape()
                );
                looked += 1;
            }
        }
    }
    assert!(looked > 100, "{looked}");
}

/// What is told as out of reach is not merely far away: behind a wall that is on, the flood does not come out either.
#[test]
fn what_lies_behind_the_lid_is_out_of_reach() {
    let text = "name = \"Two cells\"\n[shape]\nkind = \"block\"\nlength = \"1.6 m\"\nwidth = \"300 mm\"\n\
        height = \"300 mm\"\n[stock]\nalloy = \"5083\"\nthickness = \"3 mm\"\n\
        [[baffle]]\nacross = \"length\"\nat = \"800 mm\"\n[[baffle.hole]]\nat = [\"150 mm\", \"150 mm\"]\n\
        diameter = \"60 mm\"\n";
    let tank = jobs::tank(text);
    let free: Vec<Seam> = tank
        .seams()
        .filter(|seam| !seam.welded && matches!(seam.faces, [_, Face::Baffle(_)]))
        .collect();
    assert_eq!(free.len(), 1);
    assert_eq!(free[0].faces[0], Face::Top);
    let order = tank.build_order();
    let place = tank.seams().position(|seam| seam == free[0]).unwrap();
    let last = u8::try_from(order.stages().len()).unwrap();
    assert!(!is_open(&tank, &order, &free[0], place, last));
}

/// Beyond this baffle a hand finds no room but through the right: which edges of it are reached from the open end depends on
/// where its flanges point, and the seam runs on that side of its plate.
#[test]
fn a_flange_is_welded_from_the_side_to_which_it_points() {
    let job = |side: &str| {
        jobs::tank(&format!(
            "name = \"Narrow end\"\n[shape]\nkind = \"block\"\nlength = \"640 mm\"\nwidth = \"360 mm\"\n\
             height = \"300 mm\"\n[stock]\nalloy = \"5754\"\nthickness = \"3 mm\"\n\
             [[baffle]]\nacross = \"length\"\nat = \"590 mm\"\nflange = \"18 mm\"\nflange_side = \"{side}\"\n\
             hole = [{{ at = [\"180 mm\", \"260 mm\"], diameter = \"30 mm\" }}]\n"
        ))
    };
    for (side, sense) in [("low", -1.0), ("high", 1.0)] {
        let tank = job(side);
        let edges = tank.seams().zip(0..).filter_map(|(seam, place)| {
            let its = matches!(seam.faces, [_, Face::Baffle(_)]);
            its.then(|| tank.edge_of_seam(place))?
        });
        // 18 mm from the outer face of 3 mm of sheet.
        let offs: Vec<f64> = edges
            .flat_map(|edge| edge.ends)
            .map(|end| end.x - 0.590)
            .collect();
        assert_eq!(offs.len(), 8);
        assert!(
            offs.iter().all(|off| (off - sense * 0.0165).abs() < 1e-12),
            "{offs:?}"
        );
        let order = tank.build_order();
        // It is bent in the brake before it is set in.
        let baffle = tank.panels().last().unwrap();
        assert_eq!(baffle.making, Making::Bent);
        let work = |of: BuildWork| {
            order
                .stages()
                .iter()
                .position(|stage| stage.work == of && stage.panels.has(baffle.mark))
        };
        assert!(work(BuildWork::Forming).unwrap() < work(BuildWork::Baffles).unwrap());
        let closing = order
            .stages()
            .iter()
            .find(|stage| stage.work == BuildWork::Closing);
        let open = closing.and_then(|stage| stage.panels.marks().next());
        let right = tank
            .panels()
            .find(|panel| panel.face() == Face::Right)
            .unwrap()
            .mark;
        let unreached = tank.seams().filter(|seam| !seam.welded).count();
        if sense > 0.0 {
            assert_eq!((open, unreached), (Some(right), 0));
        } else {
            assert_ne!(open, Some(right));
            assert_eq!(unreached, 1);
        }
    }
}

/// Welding goes through the stages once, each stitch in the stage of its seam and none where an edge is free.
#[test]
fn stitches_go_through_the_stages() {
    let mut planner = Box::new(Planner::new());
    let mut planned = 0;
    for tank in with_baffles(72, 60) {
        let order = tank.build_order();
        let Ok(plan) = tank.weld_plan(&mut planner) else {
            continue;
        };
        planned += 1;
        let stitches: Vec<_> = plan.stitches(&tank).collect();
        assert!(stitches.is_sorted_by_key(|stitch| stitch.stage));
        let wanted: usize = tank
            .seams()
            .filter_map(|seam| tank.division(&seam))
            .map(|division| usize::from(division.count))
            .sum();
        assert_eq!(stitches.len(), wanted);
        for stitch in stitches {
            let stages = order.of_seam(stitch.seam_place).unwrap();
            assert_eq!(stitch.stage, stages.welded);
        }
    }
    assert!(planned > 30, "{planned}");
}

/// A drum: its long seam first, the baffle through an open end, then the ends. By hand, as any shop has it.
#[test]
fn a_drum_goes_together_from_its_wall() {
    let text = "name = \"Drum\"\n[shape]\nkind = \"drum\"\naxis = \"lying\"\ndiameter = \"400 mm\"\n\
        length = \"700 mm\"\nends = \"flat\"\n[stock]\nalloy = \"304\"\nthickness = \"2 mm\"\n\
        [[baffle]]\nacross = \"length\"\nat = \"350 mm\"\n[[baffle.hole]]\nat = [\"200 mm\", \"200 mm\"]\n\
        diameter = \"120 mm\"\n[[fitting]]\nname = \"inlet\"\nface = \"shell\"\nat = [\"150 mm\", \"600 mm\"]\n\
        bore = \"38 mm\"\n[[fitting]]\nname = \"outlet\"\nface = \"left\"\nat = [\"200 mm\", \"200 mm\"]\n\
        bore = \"25 mm\"\n";
    let tank = jobs::tank(text);
    let order = tank.build_order();
    let work: Vec<BuildWork> = order.stages().iter().map(|stage| stage.work).collect();
    assert_eq!(
        work,
        [
            BuildWork::FlatFittings,
            BuildWork::Forming,
            BuildWork::LongSeams,
            BuildWork::FormedFittings,
            BuildWork::Baffles,
            BuildWork::Closing,
            BuildWork::OutsideSeams,
        ]
    );
    let mut planner = Box::new(Planner::new());
    let plan = tank.weld_plan(&mut planner).unwrap();
    let seams: Vec<String> = plan
        .stitches(&tank)
        .map(|stitch| stitch.seam.to_string())
        .collect();
    let long = tank
        .seams()
        .find(|seam| seam.faces == [Face::Shell; 2])
        .unwrap()
        .mark
        .to_string();
    let last_long = seams.iter().rposition(|seam| *seam == long).unwrap();
    let first_end = tank
        .seams()
        .filter(|seam| seam.faces.contains(&Face::Left) || seam.faces.contains(&Face::Right))
        .filter(|seam| seam.faces.contains(&Face::Shell))
        .filter_map(|seam| seams.iter().position(|one| *one == seam.mark.to_string()))
        .min()
        .unwrap();
    assert!(last_long < first_end);
}

/// Three bulkheads in a long drum: each is set in while one side of it is open, so the middle one is not the last. By hand.
#[test]
fn the_middle_bulkhead_is_not_the_last() {
    let mut text =
        "name = \"Long drum\"\n[shape]\nkind = \"drum\"\naxis = \"lying\"\ndiameter = \"400 mm\"\n\
        length = \"900 mm\"\nends = \"flat\"\n[stock]\nalloy = \"304\"\nthickness = \"2 mm\"\n"
            .to_owned();
    for at in [225, 450, 675] {
        text.push_str(&format!(
            "[[baffle]]\nacross = \"length\"\nat = \"{at} mm\"\n[[baffle.hole]]\nat = [\"200 mm\", \"200 mm\"]\ndiameter = \"100 mm\"\n"
        ));
    }
    let tank = jobs::tank(&text);
    let order = tank.build_order();
    assert!(order.seams().iter().all(|seam| !seam.is_unreached()));
    let marks: Vec<PanelMark> = tank
        .panels()
        .filter(|panel| matches!(panel.face(), Face::Baffle(_)))
        .map(|panel| panel.mark)
        .collect();
    let stages: Vec<u8> = marks.iter().map(|mark| set_in(&order, *mark)).collect();
    assert!(stages[1] < stages[0].max(stages[2]), "{stages:?}");
}
