//! Jobs made at random, the same ones on every run.

use fastrand::Rng;
use seamwright_core::body::{Block, Cut, Face, Shape, Sized};
use seamwright_core::heat::arc::Process;
use seamwright_core::job::{ArcDraft, Draft, FillDraft, JointsDraft, Name, StockDraft, WeldDraft};
use seamwright_core::quantity::{Current, Length, LengthUnit, Ratio, Speed, SpeedUnit, Voltage};
use seamwright_core::stock::Alloy;

/// Makes jobs from a seed. Sizes span a cup to a cistern; about one job in four has a fault, mostly a
/// cut that misses or swallows another, so that refusals are compared as well.
#[derive(Debug)]
pub struct Jobs {
    rng: Rng,
    made: u32,
}

impl Jobs {
    /// The jobs of one seed.
    #[must_use]
    pub fn new(seed: u64) -> Self {
        Self {
            rng: Rng::with_seed(seed),
            made: 0,
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

impl Iterator for Jobs {
    type Item = Draft;

    fn next(&mut self) -> Option<Draft> {
        self.made += 1;
        let largest = self.one_of(&[120.0, 400.0, 1_500.0]);
        let size = [0; 3].map(|_| self.span(0.25 * largest, largest));
        let [length, width, height] = size.map(|side| Length::new(side, LengthUnit::Millimetre));
        let mut cuts = heapless::Vec::new();
        for _ in 0..self.one_of(&[0, 1, 1, 2, 2, 3, 4, 8]) {
            cuts.push(self.cut(size)).ok()?;
        }
        let mut faces = heapless::Vec::new();
        if self.rng.u8(..4) == 0 {
            let face = self.one_of(&Face::BOX);
            faces.push((face, self.mm(1.0, 6.0))).ok()?;
        }
        Some(Draft {
            name: Name::try_from(format!("random {}", self.made).as_str()).ok()?,
            shape: Shape::Block(Block {
                sized: self.one_of(&[Sized::Outside, Sized::Inside]),
                length,
                width,
                height,
                cuts,
            }),
            stock: StockDraft {
                alloy: self.one_of(Alloy::ALL),
                temper: None,
                thickness: self.mm(0.8, 5.0),
                faces,
            },
            joints: JointsDraft::default(),
            fittings: heapless::Vec::new(),
            baffles: heapless::Vec::new(),
            fill: FillDraft {
                headspace: self.maybe(|jobs| Ratio::from_share(jobs.span(0.0, 0.2))),
                pick_up: self.maybe(|jobs| jobs.mm(0.0, 40.0)),
                ..FillDraft::default()
            },
            arc: ArcDraft {
                process: self.maybe(|jobs| jobs.one_of(&Process::ALL)),
                current: self.maybe(|jobs| Current::from_amperes(jobs.span(20.0, 300.0))),
                voltage: self.maybe(|jobs| Voltage::from_volts(jobs.span(8.0, 25.0))),
                travel: self.maybe(|jobs| {
                    Speed::new(jobs.span(60.0, 600.0), SpeedUnit::MillimetrePerMinute)
                }),
                efficiency: self.maybe(|jobs| Ratio::from_share(jobs.span(0.3, 0.9))),
            },
            weld: WeldDraft {
                stitch_max: self.maybe(|jobs| jobs.mm(40.0, 250.0)),
                tack_pitch: self.maybe(|jobs| jobs.mm(30.0, 150.0)),
            },
        })
    }
}
