//! Whether a tank stays on its mounts while its liquid runs.

use core::fmt;

use super::notice::Severity;
use crate::mass::{BalanceError, LoadCase, MountsEnvelope, Tipping};
use crate::units::{Force, ForceUnit, TorqueUnit};

/// One thing to know of how the tank stands.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum StandNotice {
    /// The tank lifts off mounts, or pulls at them, at some fill, lean and acceleration of the job.
    MountLifts {
        /// The one that must hold most, counted from 1.
        mount: u8,
        /// With what.
        force: Force,
        /// When.
        at: LoadCase,
        /// How many others must hold it as well.
        others: u8,
        /// Whether they stand on a floor, rather than hang on a wall.
        on_floor: bool,
    },
    /// Its mounts cannot bear it, or what they bear is not known.
    NotJudged(BalanceError),
    /// Standing loose it tips over the line through two mounts.
    TankTips(Tipping),
    /// It stays on its mounts at rest, and sloshing may lift it off one for a moment.
    SloshLifts {
        /// The mount, counted from 1.
        mount: u8,
        /// What it must hold at most.
        force: Force,
    },
    /// It stands at rest, and sloshing may tip it.
    SloshTips(Tipping),
}

impl StandNotice {
    /// A stable code for programs.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::MountLifts { .. } => "mount-lifts",
            Self::NotJudged(_) => "mounts-not-judged",
            Self::TankTips(_) => "tank-tips",
            Self::SloshLifts { .. } => "slosh-may-lift",
            Self::SloshTips(_) => "slosh-may-tip",
        }
    }

    /// How much it matters.
    #[must_use]
    pub const fn severity(&self) -> Severity {
        match self {
            Self::MountLifts { .. } | Self::NotJudged(_) | Self::TankTips(_) => Severity::Warning,
            Self::SloshLifts { .. } | Self::SloshTips(_) => Severity::Caution,
        }
    }
}

impl fmt::Display for StandNotice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let newtons = |force: Force| force.display(ForceUnit::Newton, 0);
        match self {
            Self::MountLifts {
                mount,
                force,
                at,
                others,
                on_floor,
            } => {
                let how = if *on_floor { "lifts off" } else { "pulls at" };
                write!(
                    f,
                    "the tank {how} mount {mount}, which must hold it with {}, {at}",
                    newtons(*force)
                )?;
                match others {
                    0 => {}
                    1 => f.write_str("; another one must hold it as well")?,
                    more => write!(f, "; {more} others must hold it as well")?,
                }
                f.write_str(": bolt it for that, or move the mounts")
            }
            Self::NotJudged(error) => write!(f, "what its mounts bear is not known: {error}"),
            Self::TankTips(tipping) => {
                let [first, second] = tipping.over;
                write!(
                    f,
                    "standing loose, the tank tips over the line through mounts {first} and {second}, {}; {} are missing to keep it down: bolt it down, or set the mounts farther apart",
                    tipping.at,
                    missing(tipping.holds.si())
                )
            }
            Self::SloshLifts { mount, force } => write!(
                f,
                "where the acceleration sets in at once, sloshing may lift the tank off mount {mount} for a moment, which must then hold up to {} (a bound): bolt it for that",
                newtons(*force)
            ),
            Self::SloshTips(tipping) => {
                let [first, second] = tipping.over;
                write!(
                    f,
                    "where the acceleration sets in at once, sloshing may tip the tank over the line through mounts {first} and {second}, where up to {} may be missing (a bound): bolt it down",
                    missing(tipping.holds.si() - tipping.slosh.si())
                )
            }
        }
    }
}

/// A moment that is missing, in words.
fn missing(holds: f64) -> impl fmt::Display {
    crate::units::Torque::from_newton_metres(-holds).display(TorqueUnit::NewtonMetre, 1)
}

impl MountsEnvelope {
    /// Calls `show` for all that is to be known of how a tank stands on these mounts, the worst first.
    pub fn each_notice(&self, mut show: impl FnMut(StandNotice)) {
        let numbered = || (1_u8..).zip(&self.mounts);
        let lifted = numbered().filter(|(_, one)| one.least.force.si() < -self.nothing());
        let count = lifted.clone().count();
        let worst =
            lifted.min_by(|(_, a), (_, b)| a.least.force.si().total_cmp(&b.least.force.si()));
        if let Some((mount, one)) = worst {
            show(StandNotice::MountLifts {
                mount,
                force: Force::from_newtons(-one.least.force.si()),
                at: one.least.at,
                others: u8::try_from(count.saturating_sub(1)).unwrap_or(u8::MAX),
                on_floor: self.is_on_floor(),
            });
        }
        let tips = self.tipping.filter(Tipping::tips);
        if let Some(tipping) = tips {
            show(StandNotice::TankTips(tipping));
        }
        if worst.is_none() {
            let left = |one: &crate::mass::MountEnvelope| one.least.force.si() - one.slosh.si();
            let least = numbered().min_by(|(_, a), (_, b)| left(a).total_cmp(&left(b)));
            if let Some((mount, one)) = least
                && left(one) < -self.nothing()
            {
                show(StandNotice::SloshLifts {
                    mount,
                    force: Force::from_newtons(-left(one)),
                });
            }
        }
        if tips.is_none()
            && let Some(tipping) = self.tipping
            && tipping.holds.si() < tipping.slosh.si()
        {
            show(StandNotice::SloshTips(tipping));
        }
    }

    /// Pull that is rounding: a millionth of the largest force.
    fn nothing(&self) -> f64 {
        let forces = self.mounts.iter().map(|one| one.any_way.force.si());
        1e-6 * forces.fold(0.0, libm::fmax)
    }
}

#[cfg(test)]
mod tests {
    extern crate std;
    use std::string::ToString;
    use std::vec::Vec;

    use super::*;
    use crate::input::{Block, Draft, StockDraft};
    use crate::tables::Alloy;
    use crate::tank::Tank;
    use crate::units::{Length, LengthUnit, Ratio};

    /// A box of 200 mm by 200 mm, 600 mm high, on feet under its corners: empty or full it tips at a third of g, by statics.
    fn told(along_x: f64) -> Vec<StandNotice> {
        let mm = |value| Length::new(value, LengthUnit::Millimetre);
        let block = Block::new(mm(200.0), mm(200.0), mm(600.0));
        let mut draft = Draft::new("Column", block, StockDraft::of(Alloy::A5754, mm(2.0))).unwrap();
        for (x, y) in [(0.0, 0.0), (200.0, 0.0), (0.0, 200.0), (200.0, 200.0)] {
            let at = [mm(x), mm(y), mm(0.0)];
            draft.service.mounts.push(at).unwrap();
        }
        let shaken = [along_x, 0.0, 0.0].map(Ratio::from_share);
        draft.service.acceleration = Some(shaken);
        let tank = Tank::build(&draft).unwrap();
        let mut all = Vec::new();
        let envelope = tank.mounts_envelope().unwrap().unwrap();
        envelope.each_notice(|notice| all.push(notice));
        all
    }

    #[test]
    fn lifts_tips_and_sloshes() {
        let codes = |along_x| -> Vec<_> {
            let all = told(along_x);
            all.iter().map(StandNotice::code).collect()
        };
        assert_eq!(codes(0.0), [""; 0]);
        assert_eq!(codes(0.01), [""; 0]);
        assert_eq!(codes(0.29), ["slosh-may-lift", "slosh-may-tip"]);
        assert_eq!(codes(0.5), ["mount-lifts", "tank-tips"]);
        let all = told(0.5);
        let StandNotice::MountLifts { others, at, .. } = all[0] else {
            panic!("{all:?}")
        };
        // The two feet of one side lift as the other two do when it is shaken the other way.
        assert_eq!(others, 3);
        assert!((at.acceleration[0].si().abs() - 0.5).abs() < 1e-9);
        assert!(
            all[0].to_string().contains(" L in it, shaken "),
            "{}",
            all[0]
        );
        assert!(all.iter().all(|one| one.severity() == Severity::Warning));
    }
}
