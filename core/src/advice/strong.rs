//! Whether walls and seams are strong enough for what the tank holds.

use core::fmt;

use crate::input::Face;
use crate::seam::{Seam, SeamMark};
use crate::strength::weld::weakest_seam;
use crate::strength::{Bearing, JoinedWalls, RESERVE, StrengthError};
use crate::tank::Tank;
use crate::units::{Length, LengthUnit};

/// One thing to know of the strength: all of them forbid.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum StrengthNotice {
    /// Walls or baffles have less reserve in use than is wanted.
    WallTooWeak {
        /// The weakest.
        face: Face,
        /// Its reserve.
        reserve: f64,
        /// The sheet that would give it what is wanted.
        sheet: Option<Length>,
        /// How many others are too weak.
        others: u8,
    },
    /// A seam has less reserve in use than is wanted.
    SeamTooWeak {
        /// The weakest.
        seam: SeamMark,
        /// Its reserve, 1 of which is enough.
        reserve: f64,
    },
    /// Whether its walls bear what it holds cannot be judged.
    NotJudged(StrengthError),
}

impl StrengthNotice {
    /// A stable code for programs.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::WallTooWeak { .. } => "wall-too-weak",
            Self::SeamTooWeak { .. } => "seam-too-weak",
            Self::NotJudged(_) => "strength-not-judged",
        }
    }

    pub(super) fn write(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::WallTooWeak {
                face,
                reserve,
                sheet,
                others,
            } => write_weak(*face, *reserve, (*sheet, *others), f),
            Self::SeamTooWeak { seam, reserve } => write!(
                f,
                "NO: seam {seam} bears {reserve:.2} of what is wanted of it in use: weld it from both sides or with a larger throat, or take thicker sheet"
            ),
            Self::NotJudged(error) => {
                write!(
                    f,
                    "NO: whether its walls bear what it holds cannot be judged: {error}"
                )
            }
        }
    }
}

/// A wall has too little reserve.
fn write_weak(
    face: Face,
    reserve: f64,
    (sheet, others): (Option<Length>, u8),
    f: &mut fmt::Formatter<'_>,
) -> fmt::Result {
    write!(
        f,
        "NO: the {face} is too weak for what it holds: a reserve of {reserve:.2} against yield, and {RESERVE} wanted"
    )?;
    if let Some(sheet) = sheet {
        // Rounded up, so that it is never too thin.
        let tenths = libm::ceil(1e4 * sheet.si() - 1e-9);
        let up = Length::from_metres(1e-4 * tenths);
        write!(
            f,
            "; {} sheet would do",
            up.display(LengthUnit::Millimetre, 1)
        )?;
    }
    match others {
        0 => Ok(()),
        1 => f.write_str("; another one is too weak as well"),
        more => write!(f, "; {more} others are too weak as well"),
    }
}

impl Tank {
    /// Walls and seams that are too weak for what the tank holds.
    pub(super) fn each_strength_notice(
        &self,
        bears: Result<&JoinedWalls, StrengthError>,
        mut show: impl FnMut(StrengthNotice),
    ) {
        let joined = match bears {
            Ok(joined) => joined,
            Err(error) => return show(StrengthNotice::NotJudged(error)),
        };
        let mut weakest: Option<Bearing> = None;
        let mut weak = 0_u8;
        let baffles = u8::try_from(self.inner.baffles().len()).unwrap_or(0);
        let walls = self.body().outside.faces().map(|view| view.face());
        for face in walls.chain((1..=baffles).map(Face::Baffle)) {
            let Some(Ok(bearing)) = self.bearing_by(face, joined) else {
                continue;
            };
            if bearing.is_enough(joined.trial()) {
                continue;
            }
            weak = weak.saturating_add(1);
            if weakest.is_none_or(|old| bearing.reserve < old.reserve) {
                weakest = Some(bearing);
            }
        }
        if let Some(bearing) = weakest {
            show(StrengthNotice::WallTooWeak {
                face: bearing.face,
                reserve: bearing.reserve,
                sheet: bearing.cure.map(|cure| cure.thickness),
                others: weak.saturating_sub(1),
            });
        }
        let judged = |seam: Seam| Some((seam, self.seam_bearing_by(&seam, joined)?.ok()?));
        if let Some(weakest) = weakest_seam(self.seams().filter_map(judged))
            && !weakest.strength.is_enough()
        {
            show(StrengthNotice::SeamTooWeak {
                seam: weakest.seam.mark,
                reserve: weakest.strength.reserve,
            });
        }
    }
}

#[cfg(test)]
mod tests {
    extern crate std;
    use std::vec::Vec;

    use super::*;
    use crate::input::{Block, Draft, StockDraft};
    use crate::strength::Trial;
    use crate::tables::Alloy;
    use crate::units::{Pressure, PressureUnit, Temperature, TemperatureUnit};

    fn tank(bar: f64, celsius: f64) -> Tank {
        let mm = |value| Length::new(value, LengthUnit::Millimetre);
        let block = Block::new(mm(320.0), mm(180.0), mm(160.0));
        let stock = StockDraft::of(Alloy::A5754, mm(2.0));
        let mut draft = Draft::new("Header tank", block, stock).unwrap();
        draft.service.pressure = Some(Pressure::new(bar, PressureUnit::Bar));
        draft.service.temperature = Some(Temperature::new(celsius, TemperatureUnit::Celsius));
        Tank::build(&draft).unwrap()
    }

    fn told(tank: &Tank) -> Vec<StrengthNotice> {
        let joined = tank.joined_walls(Trial::Use);
        let mut all = Vec::new();
        let bears = joined.as_ref().map_err(|error| *error);
        tank.each_strength_notice(bears, |notice| all.push(notice));
        all
    }

    /// Nothing of a tank that is strong enough; of one under 3 bar its weakest wall, which is `Tank::weakest`, with a sheet
    /// that does, and its seams; of one too hot that it is not judged.
    #[test]
    fn what_is_too_weak_is_told() {
        assert_eq!(told(&tank(0.0, 60.0)), []);
        let weak = tank(3.0, 60.0);
        let all = told(&weak);
        let codes: Vec<_> = all.iter().map(StrengthNotice::code).collect();
        assert_eq!(codes, ["wall-too-weak", "seam-too-weak"]);
        let weakest = weak.weakest(Trial::Use).unwrap();
        let StrengthNotice::WallTooWeak {
            face,
            reserve,
            sheet,
            others,
        } = all[0]
        else {
            panic!("{all:?}")
        };
        assert_eq!((face, reserve), (weakest.face, weakest.reserve));
        assert!(sheet.unwrap() > weakest.thickness && others == 5);
        let codes: Vec<_> = told(&tank(0.0, 400.0))
            .iter()
            .map(StrengthNotice::code)
            .collect();
        assert_eq!(codes, ["strength-not-judged"]);
    }
}
