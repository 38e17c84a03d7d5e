//! What the seams bear of what the walls hand them.
//!
//! Assumed of the beads, where the job says nothing of them: a corner is filled straight from outer edge
//! to outer edge, a fillet has a leg as long as the thinner sheet is thick (half of that where a panel
//! covers half of the other's edge), a butt is fused all through; a fitting and a baffle are held by one fillet.
//!
//! Stress that gathers about a stiff fitting is not looked at, as in the rules for still loads: see
//! [`FATIGUE_CAUTION`](crate::strength::weld::FATIGUE_CAUTION) where a tank shakes.

use super::super::error::StrengthError;
use super::super::panel::FlatPanel;
use super::super::plate::{Bending, Ramp, Sides, clamped, supported};
use super::super::weld::{Along, EDGE_SHARE, SeamStrength, WeakestSeam, Weld, seam, weakest_seam};
use super::bearing::{Trial, WallForm};
use super::joined::JoinedWalls;
use super::judge::Judge;
use crate::body::FlatForm;
use crate::filler::{FillerService, best};
use crate::input::{Face, Joint};
use crate::seam::{Seam, SeamMark};
use crate::tank::Tank;
use crate::units::{Length, Pressure};

/// The weld that a joint is taken to have.
fn weld_of(joint: Joint, seam: &Seam) -> Weld {
    let thin = seam.thinner.si();
    match joint {
        Joint::OpenCorner => Weld::Corner {
            // From the inside edges, which touch, to the middle of the line between the two outer edges.
            throat: Length::from_metres(thin * libm::fabs(libm::sin(0.5 * seam.dihedral.si()))),
        },
        Joint::HalfOpenCorner => Weld::Fillet {
            leg: Length::from_metres(0.5 * thin),
        },
        Joint::Butt => Weld::Butt {
            thickness: seam.thinner,
            fused: 1.0,
        },
        Joint::ClosedCorner | Joint::Tee | Joint::JoggleLap | Joint::FlangedLap => {
            Weld::Fillet { leg: seam.thinner }
        }
    }
}

/// What a plate hands to its edge.
struct Edge {
    plate: (Sides, Ramp),
    moment: Bending,
}

impl Edge {
    fn of(panel: &FlatPanel) -> Self {
        let plate = (panel.shape.sides, panel.ramp);
        Self {
            plate,
            moment: clamped(plate.0, plate.1),
        }
    }

    fn reaction(&self) -> f64 {
        let (sides, ramp) = self.plate;
        EDGE_SHARE * ramp.most() * sides.short()
    }
}

impl Judge<'_> {
    fn edge(&self, face: Face) -> Option<Result<Edge, StrengthError>> {
        if let Face::Baffle(number) = face {
            let place = usize::from(number.checked_sub(1)?);
            let baffle = self.tank.inner.baffles().get(place)?;
            return Some(
                self.baffle_panel(place, baffle)
                    .map(|panel| Edge::of(&panel)),
            );
        }
        let view = self.tank.body.outside.face(face)?;
        Some(self.worst_part(&view).map(|panel| Edge::of(&panel)))
    }

    /// What a seam of a drum bears.
    fn on_drum(&self, seam: &Seam) -> Option<Result<Along, StrengthError>> {
        let drum = self.placed_drum()?;
        let thickness = self.tank.job.thickness_of(Face::Shell);
        let hoop = match self.hoop(&drum) {
            Ok(hoop) => hoop,
            Err(error) => return Some(Err(error)),
        };
        let [a, b] = seam.faces;
        if a == b {
            return Some(Ok(Along::wall(hoop.round, thickness)));
        }
        let end = if a == Face::Shell { b } else { a };
        if let Face::Baffle(number) = end {
            return self.round_baffle(number);
        }
        let mut load = Along::wall(hoop.along, thickness);
        let view = self.tank.body.outside.face(end)?;
        if view.is_flat() {
            let radius = drum.radius().si();
            match self.most(&drum, end) {
                // A disc with its edge held from turning: Timoshenko and Woinowsky-Krieger, article 16.
                Ok(pressure) => load.moment = 0.125 * pressure.si() * radius * radius,
                Err(error) => return Some(Err(error)),
            }
        }
        Some(Ok(load))
    }

    /// What holds a baffle in a drum: the disc's own reaction and moment, and what it takes to keep the wall from
    /// growing under the pressure within. That is `2 p/β` for each metre, `β⁴ = 3 (1 − ν²)/(R t)²`, with a little over
    /// for a wall that is pulled along as well (Timoshenko and Woinowsky-Krieger, article 115).
    fn round_baffle(&self, number: u8) -> Option<Result<Along, StrengthError>> {
        let drum = self.placed_drum()?;
        let place = usize::from(number.checked_sub(1)?);
        let baffle = self.tank.inner.baffles().get(place)?;
        if self.has_free_edge(place, baffle) {
            return Some(Err(StrengthError::FreeEdge));
        }
        let FlatForm::Disc { centre, radius } = baffle.uncut(&self.tank.body.inside) else {
            return None;
        };
        let both = self.disc_panel(baffle, centre, radius).and_then(|disc| {
            let pressure = self.most(&drum, Face::Shell)?;
            Ok((disc, pressure.si()))
        });
        Some(both.map(|(disc, pressure)| {
            let slim = drum.radius().si() * self.tank.job.thickness_of(Face::Shell).si();
            let nu = self.poisson();
            let wave = libm::sqrt(slim) / libm::pow(3.0 * (1.0 - nu * nu), 0.25);
            Along {
                pull: 2.0 * pressure * wave,
                across: disc.reaction(),
                moment: disc.clamped().moment,
            }
        }))
    }

    /// What the seam round a fitting bears: the pressure on its whole hole, `p r/2` for each metre, its passage shut
    /// by a cap or a plug; and what the wall bears where it is worst, as if the fitting sat there.
    fn on_fitting(&self, wall: Face, number: u8) -> Option<Result<Along, StrengthError>> {
        let place = usize::from(number.checked_sub(1)?);
        let fitting = self.tank.fittings().nth(place)?;
        let radius = 0.5 * fitting.hole().si();
        let thickness = fitting.sheet.si();
        let pushed = |pressure: f64| Along {
            across: 0.5 * pressure * radius,
            ..Along::default()
        };
        if self.placed_drum().is_some() {
            return Some(self.round(wall)?.map(|bearing| {
                let [held, free] = bearing.stress;
                let worst = libm::fmax(held.si(), free.si());
                let mut load = pushed(bearing.pressure.si());
                if matches!(bearing.form, WallForm::Disc) {
                    load.moment = worst * thickness * thickness / 6.0;
                } else {
                    load.pull = worst * thickness;
                }
                load
            }));
        }
        Some(self.edge(wall)?.map(|edge| {
            let (sides, ramp) = edge.plate;
            let free = supported(sides, ramp, self.poisson()).moment;
            let mut load = pushed(ramp.most());
            load.moment = libm::fmax(free, edge.moment.moment);
            load
        }))
    }

    /// Whether a seam holds a baffle that is taken as strips.
    fn is_of_strips(&self, seam: &Seam) -> bool {
        let [_, Face::Baffle(number)] = seam.faces else {
            return false;
        };
        let place = usize::from(number).saturating_sub(1);
        let baffle = self.tank.inner.baffles().get(place);
        baffle.is_some_and(|baffle| self.has_free_edge(place, baffle))
    }

    fn on_plates(&self, seam: &Seam) -> Option<Result<Along, StrengthError>> {
        let [a, b] = seam.faces;
        if let Face::Baffle(number) = b
            && let Some(place) = usize::from(number).checked_sub(1)
            && let Some(baffle) = self.tank.inner.baffles().get(place)
            && self.has_free_edge(place, baffle)
        {
            let wall = self.edge(a)?;
            // It holds the wall on both of its sides.
            let both = wall.and_then(|wall| {
                let strips = self.strips(place, baffle)?;
                Ok(strips.along(2.0 * wall.reaction(), wall.moment.moment))
            });
            return Some(both);
        }
        let (one, other) = match (self.edge(a)?, self.edge(b)?) {
            (Ok(one), Ok(other)) => (one, other),
            (Err(error), _) | (_, Err(error)) => return Some(Err(error)),
        };
        if a == b {
            // Through the middle of a face, which bends it as it may bend the sheet.
            let (sides, ramp) = one.plate;
            let free = supported(sides, ramp, self.poisson()).moment;
            return Some(Ok(Along {
                pull: one.reaction(),
                across: one.reaction(),
                moment: libm::fmax(free, one.moment.moment),
            }));
        }
        let mut load = Along::corner([one.plate, other.plate], [&one.moment, &other.moment]);
        if matches!(b, Face::Baffle(_)) {
            // It holds the wall on both of its sides.
            load.pull = 2.0 * one.reaction();
            load.across = other.reaction();
        }
        let shares = self.joined.map(|joined| &joined.shares);
        if let Some(moment) = shares.and_then(|shares| shares.moment([a, b])) {
            load.moment = moment;
        }
        Some(Ok(load))
    }
}

/// Whether a seam is looked at: in a test a baffle is pressed on both of its sides.
fn is_judged(seam: &Seam, trial: Trial) -> bool {
    let baffle = |face: &Face| matches!(face, Face::Baffle(_));
    seam.joint.is_some() && !(matches!(trial, Trial::Test(_)) && seam.faces.iter().any(baffle))
}

impl Tank {
    /// The weld of a seam, and how many metres' load a metre of it bears.
    fn borne(&self, joint: Joint, seam: &Seam) -> (Weld, f64) {
        if let Some(plugs) = self.plug_welds(seam) {
            // The baffle's own edge is fused across each hole.
            let weld = Weld::Butt {
                thickness: seam.thinner,
                fused: 1.0,
            };
            let room = if plugs.count > 1 {
                plugs.pitch
            } else {
                seam.length
            };
            return (weld, room.si() / plugs.diameter.si());
        }
        let stitches = self.division(seam);
        (
            weld_of(joint, seam),
            stitches.map_or(1.0, |stitches| stitches.gathered()),
        )
    }

    /// How a seam bears what it is tried with; `None` of a fold, and of a baffle's in a test, which presses on both
    /// sides of it.
    ///
    /// The weld metal counts with the ultimate strength of the filler that suits the job best, and no more
    /// than that of the sheet beside it.
    #[must_use]
    pub fn seam_bearing(
        &self,
        seam_of: &Seam,
        trial: Trial,
    ) -> Option<Result<SeamStrength, StrengthError>> {
        if !is_judged(seam_of, trial) {
            return None;
        }
        match self.joined_walls(trial) {
            Ok(joined) => self.seam_bearing_by(seam_of, &joined),
            Err(error) => Some(Err(error)),
        }
    }

    /// [`seam_bearing`](Self::seam_bearing) by what the walls bear together.
    #[must_use]
    pub fn seam_bearing_by(
        &self,
        seam_of: &Seam,
        joined: &JoinedWalls,
    ) -> Option<Result<SeamStrength, StrengthError>> {
        let joint = seam_of.joint?;
        if !is_judged(seam_of, joined.trial()) {
            return None;
        }
        let judge = match Judge::by(self, joined) {
            Ok(judge) => judge,
            Err(error) => return Some(Err(error)),
        };
        let load = match seam_of.faces {
            [wall, Face::Fitting(number)] => judge.on_fitting(wall, number)?,
            _ if judge.placed_drum().is_some() => judge.on_drum(seam_of)?,
            _ => judge.on_plates(seam_of)?,
        };
        Some(load.and_then(|load| {
            let filler = judge.filler(seam_of.thinner)?;
            let (weld, by) = self.borne(joint, seam_of);
            let strength = seam(weld, load.gathered(by), filler)?;
            if judge.is_of_strips(seam_of) && !strength.is_enough() {
                // It bears more than strips say.
                return Err(StrengthError::FreeEdge);
            }
            Ok(strength)
        }))
    }
}

impl Tank {
    /// The seam with the least reserve in a trial; `None` where no seam can be judged.
    #[must_use]
    pub fn weakest_seam(&self, trial: Trial) -> Option<WeakestSeam<Seam>> {
        let joined = self.joined_walls(trial).ok()?;
        let judged = |seam: Seam| Some((seam, self.seam_bearing_by(&seam, &joined)?.ok()?));
        weakest_seam(self.seams().filter_map(judged))
    }
}

/// Nearer than this share a seam's pressure is found.
const FOUND: f64 = 1e-3;
/// Trials at the most: each comes several times nearer.
const TRIALS: u8 = 8;

/// What the weakest seam under a test's pressure says of the pressure that seams take.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum SeamsTake {
    /// All bear the pressure that was tried.
    That,
    /// No more than this.
    Only(Pressure),
    /// Less, but how much less is to be tried with this: a sheet that stretches eases its seams the more the harder it is
    /// pressed, so that half the pressure leaves more than half of what a seam bears.
    Try(Pressure),
}

impl SeamsTake {
    /// By the least reserve of any seam under a pressure, in so many trials, this one counted.
    #[must_use]
    pub fn by(pressure: Pressure, reserve: f64, trials: u8) -> Self {
        let less = pressure.si() * reserve;
        if reserve >= 1.0 && trials <= 1 {
            Self::That
        } else if reserve >= 1.0 {
            Self::Only(pressure)
        } else if reserve >= 1.0 - FOUND {
            Self::Only(Pressure::from_pascals(less * (1.0 - FOUND)))
        } else if trials < TRIALS {
            Self::Try(Pressure::from_pascals(less))
        } else {
            // Past all trials: what even the stiffest seam bears in a straight line from here.
            Self::Only(Pressure::from_pascals(less * reserve))
        }
    }
}

impl Tank {
    /// The seam that takes less than a pressure in a test, and how much it takes; `None` where all take as much, and where
    /// no seam can be judged.
    #[must_use]
    pub fn seam_taking_less(&self, than: Pressure) -> Option<(SeamMark, Pressure)> {
        let mut pressure = than;
        for trials in 1..=TRIALS {
            let weakest = self.weakest_seam(Trial::Test(pressure))?;
            match SeamsTake::by(pressure, weakest.strength.reserve, trials) {
                SeamsTake::That => break,
                SeamsTake::Only(takes) => return Some((weakest.seam.mark, takes)),
                SeamsTake::Try(less) => pressure = less,
            }
        }
        None
    }
}

impl Judge<'_> {
    /// The strength that the weld metal counts with.
    fn filler(&self, thickness: Length) -> Result<Pressure, StrengthError> {
        let job = &self.tank.job;
        let sheet = self.strength(thickness)?.ultimate;
        let service = FillerService::new(job.service.temperature, job.service.anodised).ok();
        let filler = service
            .map(|service| service.with_process(job.arc.process))
            .and_then(|service| best(job.alloy, job.alloy, &service))
            .and_then(|verdict| verdict.filler);
        let metal = filler.map(|filler| self.when_hot(filler.ultimate().value));
        Ok(match metal {
            Some(metal) if metal < sheet => metal,
            _ => sheet,
        })
    }
}
