//! Jobs made at random, the same ones on every run.

use fastrand::Rng;
use seamwright_core::input::Axis;
use seamwright_core::input::Block;
use seamwright_core::input::Cut;
use seamwright_core::input::Drum;
use seamwright_core::input::Ends;
use seamwright_core::input::Face;
use seamwright_core::input::Joint;
use seamwright_core::input::Profile;
use seamwright_core::input::ProfilePoint;
use seamwright_core::input::Shape;
use seamwright_core::input::Sized;
use seamwright_core::input::Taper;
use seamwright_core::input::{
    Across, ArcDraft, BaffleDraft, Draft, FittingDraft, JointsDraft, Label, StockDraft, WallSet,
};
use seamwright_core::tables::{Alloy, Process};
use seamwright_core::tank::Tank;
use seamwright_core::units::{Current, Length, LengthUnit, Ratio, Speed, SpeedUnit, Voltage};

use crate::jobs;

/// Makes jobs from a seed. Sizes span a cup to a cistern; about one job in four has a fault, mostly a
/// cut that misses or swallows another, so that refusals are compared as well.
#[derive(Debug)]
pub struct Jobs {
    rng: Rng,
    made: u32,
    blocks: bool,
}

impl Jobs {
    /// The jobs of one seed, of every shape.
    #[must_use]
    pub fn new(seed: u64) -> Self {
        Self {
            rng: Rng::with_seed(seed),
            made: 0,
            blocks: false,
        }
    }

    /// The same, blocks welded at open corners only.
    #[must_use]
    pub fn blocks(seed: u64) -> Self {
        Self {
            blocks: true,
            ..Self::new(seed)
        }
    }

    fn span(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.rng.f64()
    }

    fn mm(&mut self, low: f64, high: f64) -> Length {
        Length::new(self.span(low, high), LengthUnit::Millimetre)
    }

    fn maybe<T>(&mut self, make: impl FnOnce(&mut Self) -> T) -> Option<T> {
        if self.rng.bool() {
            Some(make(self))
        } else {
            None
        }
    }

    fn one_of<T: Copy>(&mut self, all: &[T]) -> T {
        all[self.rng.usize(..all.len())]
    }

    fn cut(&mut self, size: [f64; 3]) -> Cut {
        let sides = [
            [Face::Left, Face::Right],
            [Face::Front, Face::Back],
            [Face::Bottom, Face::Top],
        ];
        let leg = |jobs: &mut Self, axis: usize| {
            let share = jobs.span(0.05, 0.6);
            Length::new(size[axis] * share, LengthUnit::Millimetre)
        };
        match self.rng.u8(..3) {
            0 => {
                let first = self.rng.usize(..3);
                let second = (first + 1 + self.rng.usize(..2)) % 3;
                // A leg along a face runs across the edge, along the axis of the other face.
                let legs = [leg(self, second), leg(self, first)];
                Cut::Edge {
                    faces: [self.one_of(&sides[first]), self.one_of(&sides[second])],
                    legs,
                }
            }
            1 => Cut::Corner {
                faces: [
                    self.one_of(&sides[0]),
                    self.one_of(&sides[1]),
                    self.one_of(&sides[2]),
                ],
                legs: [leg(self, 0), leg(self, 1), leg(self, 2)],
            },
            _ => {
                let mut normal = [0.0; 3];
                let mut through = [Length::default(); 3];
                for axis in 0..3 {
                    normal[axis] = self.span(-1.0, 1.0);
                    // Towards the side that the normal looks to, so that most planes slice something off.
                    let share = if normal[axis] > 0.0 {
                        self.span(0.6, 1.0)
                    } else {
                        self.span(0.0, 0.4)
                    };
                    through[axis] = Length::new(size[axis] * share, LengthUnit::Millimetre);
                }
                Cut::Plane { normal, through }
            }
        }
    }
}

impl Jobs {
    fn block(&mut self, size: [f64; 3]) -> Block {
        let [length, width, height] = size.map(|side| Length::new(side, LengthUnit::Millimetre));
        let mut cuts = heapless::Vec::new();
        for _ in 0..self.one_of(&[0, 1, 1, 2, 2, 3, 4, 8]) {
            // Eight is the most, so none is lost.
            let _ = cuts.push(self.cut(size));
        }
        Block {
            sized: self.sized(),
            length,
            width,
            height,
            cuts,
        }
    }

    fn sized(&mut self) -> Sized {
        self.one_of(&[Sized::Outside, Sized::Inside])
    }

    /// Points on a ring of varying radius: convex or not, some corners rounded.
    fn profile(&mut self, size: [f64; 3]) -> Profile {
        let count = self.one_of(&[3_u8, 4, 4, 5, 6, 8, 12]);
        let turn = self.one_of(&[1.0, -1.0]);
        let mut outline = heapless::Vec::new();
        for n in 0..count {
            let angle = turn * std::f64::consts::TAU * f64::from(n) / f64::from(count);
            let reach = self.span(0.6, 1.0);
            let mm = |value: f64| Length::new(value, LengthUnit::Millimetre);
            let round = self.rng.u8(..3) == 0;
            let radius = if round {
                self.span(0.02, 0.25) * size[2]
            } else {
                0.0
            };
            let _ = outline.push(ProfilePoint {
                x: mm(0.5 * size[0] * (1.0 + reach * angle.cos())),
                z: mm(0.5 * size[2] * (1.0 + reach * angle.sin())),
                radius: mm(radius),
            });
        }
        Profile {
            sized: self.sized(),
            outline,
            width: Length::new(size[1], LengthUnit::Millimetre),
        }
    }

    fn taper(&mut self, size: [f64; 3]) -> Taper {
        let side = |jobs: &mut Self, axis: usize, low: f64| {
            Length::new(size[axis] * jobs.span(low, 1.0), LengthUnit::Millimetre)
        };
        Taper {
            sized: Sized::Outside,
            base: [side(self, 0, 0.3), side(self, 1, 0.3)],
            top: [side(self, 0, 0.3), side(self, 1, 0.3)],
            height: side(self, 2, 0.9),
            shift: [side(self, 0, -0.3), side(self, 1, -0.3)],
        }
    }

    fn drum(&mut self, size: [f64; 3]) -> Drum {
        let diameter = Length::new(size[0], LengthUnit::Millimetre);
        let share = |share: f64| Length::from_metres(share * diameter.si());
        let ends = [
            Ends::Flat,
            Ends::Hemispherical,
            Ends::Ellipsoidal,
            Ends::Torispherical {
                crown: share(self.span(0.5, 1.2)),
                knuckle: share(self.span(0.02, 0.4)),
            },
        ];
        Drum {
            sized: self.sized(),
            diameter,
            length: Length::new(size[2], LengthUnit::Millimetre),
            axis: self.one_of(&Axis::ALL),
            ends: self.one_of(&ends),
        }
    }

    fn shape(&mut self, size: [f64; 3]) -> Shape {
        match self.rng.u8(..6) {
            0 => Shape::Profile(self.profile(size)),
            1 => Shape::Taper(self.taper(size)),
            2 => Shape::Drum(self.drum(size)),
            _ => Shape::Block(self.block(size)),
        }
    }

    /// Joints that mostly suit: flat ones at corners are refused, which is compared as well.
    fn joints(&mut self, shape: &Shape) -> JointsDraft {
        let mut joints = JointsDraft {
            default: self.maybe(|jobs| jobs.one_of(&Joint::ALL)),
            gap: self.maybe(|jobs| jobs.mm(0.0, 1.0)),
            lap: self.maybe(|jobs| jobs.mm(8.0, 40.0)),
            bend_radius: self.maybe(|jobs| jobs.mm(0.5, 8.0)),
            k_factor: self.maybe(|jobs| Ratio::from_share(jobs.span(0.3, 0.5))),
            ..JointsDraft::default()
        };
        let folds: &[[Face; 2]] = match shape {
            Shape::Block(_) | Shape::Taper(_) => &[
                [Face::Bottom, Face::Front],
                [Face::Bottom, Face::Back],
                [Face::Left, Face::Bottom],
                [Face::Right, Face::Bottom],
                [Face::Back, Face::Top],
            ],
            Shape::Profile(_) => &[
                [Face::Side(1), Face::Side(2)],
                [Face::Side(2), Face::Side(3)],
                [Face::Side(1), Face::Front],
            ],
            Shape::Drum(_) => &[],
        };
        if self.rng.bool() {
            for fold in folds {
                if self.rng.bool() {
                    let _ = joints.folds.push(*fold);
                }
            }
        }
        joints
    }

    fn fittings(&mut self, shape: &Shape, size: [f64; 3]) -> heapless::Vec<FittingDraft, 16> {
        let faces: &[Face] = match shape {
            Shape::Block(_) | Shape::Taper(_) => &[Face::Top, Face::Front, Face::Bottom],
            Shape::Profile(_) => &[Face::Front, Face::Side(1)],
            Shape::Drum(drum) => match drum.axis {
                Axis::Upright => &[Face::Shell, Face::Top],
                Axis::Lying => &[Face::Shell, Face::Right],
            },
        };
        let mut all = heapless::Vec::new();
        for n in 0..self.one_of(&[0_u8, 0, 1, 2]) {
            let name = format!("bung {n}");
            let _ = all.push(FittingDraft {
                name: Label::try_from(name.as_str()).unwrap_or_default(),
                face: self.one_of(faces),
                at: [
                    self.mm(0.1 * size[0], 0.9 * size[0]),
                    self.mm(0.1 * size[1], 0.9 * size[1]),
                ],
                bore: self.mm(0.0, 30.0),
                outer: self.maybe(|jobs| jobs.mm(30.0, 40.0)),
                stand_in: self.mm(0.0, 20.0),
            });
        }
        all
    }

    fn baffles(&mut self, size: [f64; 3]) -> heapless::Vec<BaffleDraft, 4> {
        let mut all = heapless::Vec::new();
        if self.rng.u8(..4) == 0 {
            let _ = all.push(BaffleDraft {
                across: self.one_of(&Across::ALL),
                at: self.mm(0.3 * size[0], 0.7 * size[0]),
                thickness: self.maybe(|jobs| jobs.mm(1.0, 3.0)),
                holes: heapless::Vec::new(),
                free: WallSet::NONE,
                spaced: None,
            });
        }
        all
    }
}

impl Iterator for Jobs {
    type Item = Draft;

    fn next(&mut self) -> Option<Draft> {
        self.made += 1;
        let largest = self.one_of(&[120.0, 400.0, 1_500.0]);
        let size = [0; 3].map(|_| self.span(0.25 * largest, largest));
        let shape = if self.blocks {
            Shape::Block(self.block(size))
        } else {
            self.shape(size)
        };
        let (joints, fittings, baffles) = if self.blocks {
            Default::default()
        } else {
            (
                self.joints(&shape),
                self.fittings(&shape, size),
                self.baffles(size),
            )
        };
        let mut faces = heapless::Vec::new();
        if self.rng.u8(..4) == 0 {
            let face = match &shape {
                Shape::Block(_) | Shape::Taper(_) => self.one_of(&Face::BOX),
                Shape::Profile(_) => Face::Side(1),
                Shape::Drum(_) => Face::Shell,
            };
            faces.push((face, self.mm(1.0, 6.0))).ok()?;
        }
        let stock = StockDraft {
            alloy: self.one_of(Alloy::ALL),
            temper: None,
            thickness: self.mm(0.8, 5.0),
            faces,
        };
        let mut draft = jobs::bare(&format!("random {}", self.made), shape, stock);
        draft.joints = joints;
        draft.fittings = fittings;
        draft.baffles = baffles;
        draft.fill.headspace = self.maybe(|jobs| Ratio::from_share(jobs.span(0.0, 0.2)));
        draft.fill.pick_up = self.maybe(|jobs| jobs.mm(0.0, 40.0));
        draft.arc = ArcDraft {
            process: self.maybe(|jobs| jobs.one_of(&Process::ALL)),
            current: self.maybe(|jobs| Current::from_amperes(jobs.span(20.0, 300.0))),
            voltage: self.maybe(|jobs| Voltage::from_volts(jobs.span(8.0, 25.0))),
            travel: self
                .maybe(|jobs| Speed::new(jobs.span(60.0, 600.0), SpeedUnit::MillimetrePerMinute)),
            efficiency: self.maybe(|jobs| Ratio::from_share(jobs.span(0.3, 0.9))),
        };
        draft.weld.stitch_max = self.maybe(|jobs| jobs.mm(40.0, 250.0));
        draft.weld.tack_pitch = self.maybe(|jobs| jobs.mm(30.0, 150.0));
        Some(draft)
    }
}

/// The tank of a draft, with those edges of its baffles left free that hand and torch do not reach; `None` where it makes
/// none.
#[must_use]
pub fn settled(mut draft: Draft) -> Option<Tank> {
    let tank = Tank::build(&draft).ok()?;
    let mut freed = 0;
    tank.free_out_of_reach(&mut draft, |_| freed += 1);
    if freed == 0 {
        return Some(tank);
    }
    Tank::build(&draft).ok()
}
