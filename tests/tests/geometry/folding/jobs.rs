//! Jobs made at random for folding: every shape, every joint, folds, rounded corners, sheets of two
//! thicknesses.

use fastrand::Rng;
use seamwright_core::input::{
    Axis, Block, Cut, Draft, Drum, Ends, Face, Joint, OwnJoint, Profile, ProfilePoint, Shape,
    Sized, StockDraft, Taper,
};
use seamwright_core::tables::Alloy;
use seamwright_core::units::{Length, LengthUnit, Ratio};

pub(super) struct Made {
    pub draft: Draft,
    pub shape: &'static str,
    pub joint: Joint,
}

pub(super) struct Jobs(Rng);

fn mm(value: f64) -> Length {
    Length::new(value, LengthUnit::Millimetre)
}

impl Jobs {
    pub(super) fn new(seed: u64) -> Self {
        Self(Rng::with_seed(seed))
    }

    fn span(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.0.f64()
    }

    fn size(&mut self) -> [f64; 3] {
        [0; 3].map(|_| self.span(150.0, 700.0))
    }

    fn profile(&mut self, points: &[(f64, f64)], width: f64, round: f64) -> Shape {
        let outline = points
            .iter()
            .map(|(x, z)| ProfilePoint {
                x: mm(*x),
                z: mm(*z),
                radius: mm(if self.0.f64() < round {
                    self.span(8.0, 30.0)
                } else {
                    0.0
                }),
            })
            .collect();
        Shape::Profile(Profile {
            sized: Sized::Outside,
            outline,
            width: mm(width),
        })
    }

    fn shape(&mut self, kind: &str) -> Shape {
        let [l, w, h] = self.size();
        let block = |cuts: heapless::Vec<Cut, 8>| {
            Shape::Block(Block {
                sized: Sized::Outside,
                length: mm(l),
                width: mm(w),
                height: mm(h),
                cuts,
            })
        };
        let round = if self.0.bool() { 0.7 } else { 0.0 };
        match kind {
            "box" => block(heapless::Vec::new()),
            "cut box" => {
                let mut cuts = heapless::Vec::new();
                let legs = [mm(self.span(0.2, 0.6) * l), mm(self.span(0.2, 0.6) * h)];
                let cut = if self.0.bool() {
                    Cut::Edge {
                        faces: [Face::Bottom, Face::Right],
                        legs,
                    }
                } else {
                    Cut::Corner {
                        faces: [Face::Left, Face::Front, Face::Top],
                        legs: [legs[0], mm(self.span(0.2, 0.6) * w), legs[1]],
                    }
                };
                let _ = cuts.push(cut);
                block(cuts)
            }
            "taper" => {
                let mut side = |low: f64| mm(self.span(low, 400.0));
                let base = [side(200.0), side(200.0)];
                let top = [side(200.0), side(200.0)];
                let height = side(150.0);
                Shape::Taper(Taper {
                    sized: Sized::Outside,
                    base,
                    top,
                    height,
                    shift: [mm(self.span(-40.0, 40.0)), mm(self.span(-40.0, 40.0))],
                })
            }
            "rectangle" => self.profile(&[(0.0, 0.0), (l, 0.0), (l, h), (0.0, h)], w, round),
            "polygon" => {
                let count = self.0.usize(3..8);
                let points: Vec<(f64, f64)> = (0..count)
                    .map(|n| {
                        let turn = std::f64::consts::TAU * n as f64 / count as f64;
                        let reach = self.span(0.92, 1.0);
                        (
                            0.5 * l * (1.0 + reach * turn.cos()),
                            0.5 * l * (1.0 + reach * turn.sin()),
                        )
                    })
                    .collect();
                self.profile(&points, w, 0.5 * round)
            }
            "step" => {
                let (x, z) = (self.span(0.35, 0.65) * l, self.span(0.35, 0.65) * h);
                let points = [(0.0, 0.0), (l, 0.0), (l, z), (x, z), (x, h), (0.0, h)];
                self.profile(&points, w, round)
            }
            "saddle" => {
                let (l, h) = (l.max(350.0), h.max(250.0));
                let (a, b, z) = (0.33 * l, 0.67 * l, self.span(0.3, 0.6) * h);
                let points = [
                    (0.0, 0.0),
                    (a, 0.0),
                    (a, z),
                    (b, z),
                    (b, 0.0),
                    (l, 0.0),
                    (l, h),
                    (0.0, h),
                ];
                self.profile(&points, w, round)
            }
            _ => Shape::Drum(Drum {
                sized: Sized::Outside,
                diameter: mm(l),
                length: mm(w),
                axis: if self.0.bool() {
                    Axis::Lying
                } else {
                    Axis::Upright
                },
                ends: Ends::Flat,
            }),
        }
    }

    fn edges(shape: &Shape) -> Vec<[Face; 2]> {
        use Face::{Back, Bottom, Front, Left, Right, Side, Top};
        match shape {
            Shape::Block(_) | Shape::Taper(_) => vec![
                [Front, Left],
                [Front, Right],
                [Front, Bottom],
                [Front, Top],
                [Back, Left],
                [Back, Right],
                [Back, Bottom],
                [Back, Top],
                [Left, Bottom],
                [Left, Top],
                [Right, Bottom],
                [Right, Top],
            ],
            Shape::Profile(profile) => {
                let count = u8::try_from(profile.outline.len()).unwrap_or(0);
                (1..=count)
                    .flat_map(|n| {
                        [
                            [Side(n), Side(n % count + 1)],
                            [Front, Side(n)],
                            [Back, Side(n)],
                        ]
                    })
                    .collect()
            }
            Shape::Drum(_) => Vec::new(),
        }
    }
}

pub(super) const SHAPES: [&str; 8] = [
    "box",
    "cut box",
    "taper",
    "rectangle",
    "polygon",
    "step",
    "saddle",
    "drum",
];
pub(super) const JOINTS: [Joint; 5] = [
    Joint::OpenCorner,
    Joint::HalfOpenCorner,
    Joint::ClosedCorner,
    Joint::Tee,
    Joint::FlangedLap,
];

impl Iterator for Jobs {
    type Item = Made;

    fn next(&mut self) -> Option<Made> {
        let kind = SHAPES[self.0.usize(..SHAPES.len())];
        let joint = JOINTS[self.0.usize(..JOINTS.len())];
        let shape = self.shape(kind);
        let thickness = self.span(1.0, 4.0);
        let mut stock = StockDraft::of(Alloy::A5754, mm(thickness));
        let edges = Self::edges(&shape);
        let mut folds = heapless::Vec::new();
        if self.0.u8(..3) > 0 {
            for edge in &edges {
                if folds.len() < 4 && self.0.u8(..4) == 0 {
                    let _ = folds.push(*edge);
                }
            }
        }
        if folds.is_empty() && self.0.u8(..4) == 0 {
            let face = match &shape {
                Shape::Profile(_) | Shape::Drum(_) => Face::Front,
                _ => Face::Top,
            };
            let _ = stock.faces.push((face, mm(self.span(1.0, 5.0))));
        }
        let mut draft = Draft::new("folded", shape, stock).ok()?;
        draft.joints.default = Some(joint);
        draft.joints.gap = Some(mm(if self.0.bool() {
            0.0
        } else {
            self.span(0.0, 1.0)
        }));
        draft.joints.lap = Some(mm(self.span(12.0, 30.0)));
        draft.joints.bend_radius = Some(mm(self.span(0.5, 6.0)));
        draft.joints.k_factor = Some(Ratio::from_share(self.span(0.3, 0.5)));
        draft.joints.folds = folds;
        for edge in &edges {
            if self.0.u8(..6) == 0 {
                let [a, b] = *edge;
                let own = OwnJoint {
                    faces: if self.0.bool() { [a, b] } else { [b, a] },
                    joint: JOINTS[self.0.usize(..JOINTS.len())],
                };
                let named = draft.joints.folds.iter().any(|fold| fold == edge);
                if !named {
                    let _ = draft.joints.own.push(own);
                }
            }
        }
        draft.weld.stitch_max = Some(mm(250.0));
        Some(Made {
            draft,
            shape: kind,
            joint,
        })
    }
}
