//! Drums: the round wall, dished and flat ends.

use super::super::elastic::{ElasticPeak, SHAKEN_DOWN};
use super::super::error::StrengthError;
use super::super::load::Load;
use super::super::meridian::{Meridian, RoundTank};
use super::super::wall::{Dish, Hoop, THIN_DISH, cylinder, disc, dish};
use super::bearing::{Bearing, Cure, TEST_RESERVE, Trial, WallForm};
use super::joined::Rims;
use super::judge::Judge;
use crate::body::turned::{Head, Turned};
use crate::geom::Vector;
use crate::input::{Axis, Ends, Face, Shape};
use crate::units::range::RangeError;
use crate::units::{Length, Pressure};

/// Crown radius of an ellipsoid half as deep as its radius, as a share of its diameter (ASME VIII-1,
/// UG-37, from memory).
const ELLIPSOID_CROWN: f64 = 0.9;
/// How often the thickness that mends a wall is set right.
const ROUNDS: u8 = 20;
/// The same where the elastic stress rules, which is found anew each time.
const ELASTIC_ROUNDS: u8 = 6;
/// What is put on a sheet so found, for what is left of the error.
const MORE: f64 = 1.002;
/// A drum's round inside with where it starts and along which axis it lies.
#[derive(Clone, Copy)]
pub(super) struct PlacedDrum<'a> {
    turned: &'a Turned,
    start: Vector,
    axis: Axis,
}

impl PlacedDrum<'_> {
    /// The inside radius.
    pub(super) fn radius(&self) -> Length {
        Length::from_metres(self.turned.radius())
    }

    /// The elastic stress of a face under 1 Pa everywhere.
    fn elastic_of(&self, face: Face, rims: &Rims) -> ElasticPeak {
        let [[first, beside_first], [second, beside_second]] = *rims;
        match self.end(face) {
            Some(0) => first,
            Some(_) => second,
            None if beside_first.stress > beside_second.stress => beside_first,
            None => beside_second,
        }
    }

    /// Which end a face is.
    fn end(&self, face: Face) -> Option<usize> {
        self.axis.heads().iter().position(|head| *head == face)
    }
}

/// A round wall of one kind, for any thickness.
#[derive(Clone, Copy)]
enum Wall {
    Cylinder,
    Dish(Dish),
    Disc,
}

impl<'a> Judge<'a> {
    pub(super) fn placed_drum(&self) -> Option<PlacedDrum<'a>> {
        let (turned, start, axis) = self.tank.body.inside.turned()?;
        Some(PlacedDrum {
            turned,
            start,
            axis,
        })
    }

    /// The highest pressure on a face of a drum, of all loads.
    pub(super) fn most(
        &self,
        drum: &PlacedDrum<'_>,
        face: Face,
    ) -> Result<Pressure, StrengthError> {
        let over = self.over();
        if matches!(self.trial, Trial::Test(_)) {
            return Ok(over);
        }
        let along = drum.axis.along();
        let inside = &self.tank.body.inside;
        let mut most = 0.0;
        let mut failed: Option<RangeError> = None;
        self.sway.each(|felt| {
            let Some(down) = felt.unit() else { return };
            // The point of the inside that is highest against what is felt.
            let (brim, deepest) = inside.extent(down);
            match Load::liquid(self.density, felt, over, &[down * brim]) {
                Ok(load) => {
                    let aside = down - along * along.dot(down);
                    let out = aside.unit().unwrap_or(Vector::ZERO) * drum.turned.radius();
                    let rim = |place: f64| load.at(drum.start + along * place + out).si();
                    let here = match drum.end(face) {
                        Some(end) if drum.turned.head_depth(end) > 0.0 => {
                            load.at(down * deepest).si()
                        }
                        Some(0) => rim(0.0),
                        Some(_) => rim(drum.turned.length()),
                        None => libm::fmax(rim(0.0), rim(drum.turned.length())),
                    };
                    most = libm::fmax(most, here);
                }
                Err(error) => failed = Some(error),
            }
        });
        match failed {
            Some(error) => Err(error.into()),
            None => Ok(Pressure::from_pascals(most)),
        }
    }

    /// The stress in the wall of a drum.
    pub(super) fn hoop(&self, drum: &PlacedDrum<'_>) -> Result<Hoop, StrengthError> {
        let pressure = self.most(drum, Face::Shell)?;
        let thickness = self.tank.job.thickness_of(Face::Shell);
        Ok(cylinder(drum.radius(), thickness, pressure)?)
    }

    fn wall_of(&self, drum: &PlacedDrum<'_>, face: Face) -> Option<Wall> {
        if face == Face::Shell {
            return Some(Wall::Cylinder);
        }
        let head = drum.turned.heads().get(drum.end(face)?).copied()?;
        let Shape::Drum(described) = &self.tank.job.shape else {
            return None;
        };
        Some(match (described.ends, head) {
            (Ends::Hemispherical, _) => Wall::Dish(Dish::Hemisphere),
            (Ends::Ellipsoidal, _) => Wall::Dish(Dish::TwoToOne),
            (_, Head::Torispherical { crown, knuckle }) => Wall::Dish(Dish::Torisphere {
                crown: Length::from_metres(crown),
                knuckle: Length::from_metres(knuckle),
            }),
            _ => Wall::Disc,
        })
    }

    /// The two stresses of a wall in pascals, and what it bulges.
    fn stresses(
        &self,
        wall: Wall,
        radius: Length,
        thickness: Length,
        pressure: Pressure,
    ) -> Result<([Pressure; 2], Option<[Length; 2]>), StrengthError> {
        Ok(match wall {
            Wall::Cylinder => {
                let hoop = cylinder(radius, thickness, pressure)?;
                // The radius grows by the strain round it, what runs along left out.
                let grows = radius.si() * hoop.round.si() / self.modulus().si();
                ([hoop.round; 2], Some([Length::from_metres(grows); 2]))
            }
            Wall::Dish(form) => {
                // A torisphere's crown may be as wide as the outside; its stress does not hang on this.
                let across = match form {
                    Dish::Torisphere { .. } => Length::from_metres(
                        radius.si() + self.tank.job.thickness_of(Face::Shell).si(),
                    ),
                    _ => radius,
                };
                ([dish(form, across, thickness, pressure)?; 2], None)
            }
            Wall::Disc => {
                let disc = disc(radius, thickness, self.modulus(), self.poisson(), pressure)?;
                (
                    [disc.stress_clamped, disc.stress_supported],
                    Some([disc.bulge_clamped, disc.bulge_supported]),
                )
            }
        })
    }

    /// The elastic stress of both ends, each with that of the shell beside it, under 1 Pa, for the job's sheets but for one face.
    pub(super) fn rims(&self, changed: Option<(Face, Length)>) -> Option<Rims> {
        let drum = self.placed_drum()?;
        let sheet = |face: Face| match changed {
            Some((other, sheet)) if other == face => sheet.si(),
            _ => self.tank.job.thickness_of(face).si(),
        };
        let [first, second] = drum.axis.heads();
        let shell = sheet(Face::Shell);
        let peaks = |end: usize, face: Face| {
            let thick = sheet(face);
            let over = 0.5 * thick;
            let head = match drum.turned.heads().get(end).copied()? {
                Head::Flat => Head::Flat,
                Head::Dome { depth } => Head::Dome {
                    depth: depth + over,
                },
                Head::Torispherical { crown, knuckle } => Head::Torispherical {
                    crown: crown + over,
                    knuckle: knuckle + over,
                },
            };
            let meridian = Meridian::new(&RoundTank {
                head,
                radius: drum.turned.radius() + 0.5 * shell,
                half_length: 0.5 * drum.turned.length(),
                sheets: [thick, shell],
            })?;
            Some(meridian.peaks(self.modulus().si(), self.poisson(), 1.0))
        };
        let one = peaks(0, first)?;
        let heads = drum.turned.heads();
        let alike =
            heads.first() == heads.get(1) && sheet(first).to_bits() == sheet(second).to_bits();
        let other = if alike { one } else { peaks(1, second)? };
        Some([one, other])
    }

    /// The elastic stress of a face of a drum.
    fn elastic(
        &self,
        drum: &PlacedDrum<'_>,
        face: Face,
        rims: &Rims,
    ) -> Result<ElasticPeak, StrengthError> {
        let own = self.most(drum, face)?.si();
        let times = |peak: ElasticPeak, pressure: f64| ElasticPeak {
            stress: Pressure::from_pascals(pressure * peak.stress.si()),
            ..peak
        };
        let [[first, beside_first], [second, beside_second]] = *rims;
        Ok(match drum.end(face) {
            Some(0) => times(first, own),
            Some(_) => times(second, own),
            None => {
                let [one, other] = drum.axis.heads();
                let at =
                    |end: Face| Ok::<_, StrengthError>(libm::fmax(own, self.most(drum, end)?.si()));
                let one = times(beside_first, at(one)?);
                let other = times(beside_second, at(other)?);
                if one.stress > other.stress {
                    one
                } else {
                    other
                }
            }
        })
    }

    pub(super) fn round(&self, face: Face) -> Option<Result<Bearing, StrengthError>> {
        let drum = self.placed_drum()?;
        let wall = self.wall_of(&drum, face)?;
        Some(self.judged(&drum, face, wall))
    }

    fn judged(
        &self,
        drum: &PlacedDrum<'_>,
        face: Face,
        wall: Wall,
    ) -> Result<Bearing, StrengthError> {
        let thickness = self.tank.job.thickness_of(face);
        let radius = drum.radius();
        let pressure = self.most(drum, face)?;
        let strength = self.strength(thickness)?.yield_strength.si();
        let (stress, bulge) = self.stresses(wall, radius, thickness, pressure)?;
        let highest = |[a, b]: [Pressure; 2]| libm::fmax(a.si(), b.si());
        // All of these stresses go with the pressure.
        let bar = Pressure::from_pascals(1e5);
        let (of_a_bar, _) = self.stresses(wall, radius, thickness, bar)?;
        let wanted = self.trial.wanted();
        let yields = Pressure::from_pascals(strength);
        let rims = self.joined.and_then(|joined| joined.rims);
        let elastic = match &rims {
            Some(rims) => Some(self.elastic(drum, face, rims)?),
            None => None,
        };
        let mut takes = 1e5 * strength / (TEST_RESERVE * highest(of_a_bar));
        let mut reserve = strength / highest(stress);
        if let (Some(peak), Some(rims)) = (elastic, &rims) {
            let even = drum.elastic_of(face, rims).stress.si();
            takes = libm::fmin(takes, SHAKEN_DOWN * strength / even);
            reserve = libm::fmin(reserve, peak.reserve(yields, wanted));
        }
        let cure = if reserve >= wanted {
            None
        } else {
            let power = if matches!(wall, Wall::Disc) { 0.5 } else { 1.0 };
            let mut needed = thickness.si();
            for _ in 0..ROUNDS {
                let (stress, _) =
                    self.stresses(wall, radius, Length::from_metres(needed), pressure)?;
                needed *= libm::pow(wanted * highest(stress) / strength, power);
            }
            if elastic.is_some_and(|peak| peak.reserve(yields, wanted) < wanted) {
                needed = libm::fmax(needed, self.mended_rim(drum, face, thickness)?);
            }
            Some(Cure {
                thickness: Length::from_metres(needed),
                spacing: None,
            })
        };
        let crown = match wall {
            Wall::Dish(Dish::Torisphere { crown, .. }) => Some(crown.si()),
            Wall::Dish(Dish::TwoToOne) => Some(2.0 * ELLIPSOID_CROWN * radius.si()),
            _ => None,
        };
        Ok(Bearing {
            face,
            form: match wall {
                Wall::Cylinder => WallForm::Cylinder,
                Wall::Dish(_) => WallForm::Dish,
                Wall::Disc => WallForm::Disc,
            },
            thickness,
            pressure,
            joined: None,
            joined_bulge: None,
            at_most: false,
            stress,
            bulge,
            bulge_held: None,
            elastic,
            wide_hole: false,
            reserve,
            takes: Some(Pressure::from_pascals(takes)),
            inside_corner: false,
            may_wrinkle: crown.is_some_and(|crown| thickness.si() < THIN_DISH * crown),
            cure,
        })
    }

    /// The sheet of a face at which its elastic stress is as high as it may be, all others as they are.
    fn mended_rim(
        &self,
        drum: &PlacedDrum<'_>,
        face: Face,
        sheet: Length,
    ) -> Result<f64, StrengthError> {
        let mut thickness = sheet.si();
        for _ in 0..ELASTIC_ROUNDS {
            let now = Length::from_metres(thickness);
            let rims = self.rims(Some((face, now))).ok_or(StrengthError::Unknown)?;
            let peak = self.elastic(drum, face, &rims)?;
            let may = SHAKEN_DOWN * self.strength(now)?.yield_strength.si();
            thickness *= libm::sqrt(peak.stress.si() / may);
        }
        Ok(MORE * thickness)
    }
}
