//! One type for whatever a person should know, from a note to a danger.

use core::fmt;

use super::caution::Caution;
use super::liquid::LiquidNotice;
use super::notice::{Notice, Severity};
use super::process::ProcessNotice;
use super::stand::StandNotice;
use super::work::{Work, WorkNotice};
use crate::tank::Tank;

/// One thing that a person should know of a tank.
///
/// What it is of is told by the kinds, of which a small machine may use one alone: `Notice` needs neither the tables
/// of fillers and ratings nor the words of the cautions.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Advice {
    /// What may hurt someone.
    Danger(Caution),
    /// What the tank itself calls for.
    OfTank(Notice),
    /// What its liquid calls for.
    OfLiquid(LiquidNotice),
    /// What its mounts call for.
    OfStand(StandNotice),
    /// What the weld plan, the equipment and the rod at hand call for.
    OfWork(WorkNotice),
    /// What the process, its gas and wire, a coating and argon behind the seams call for.
    OfProcess(ProcessNotice),
}

impl Advice {
    /// A stable code for programs.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Danger(caution) => caution.code(),
            Self::OfTank(notice) => notice.code(),
            Self::OfLiquid(notice) => notice.code(),
            Self::OfStand(notice) => notice.code(),
            Self::OfWork(notice) => notice.code(),
            Self::OfProcess(notice) => notice.code(),
        }
    }

    /// How much it matters.
    #[must_use]
    pub const fn severity(&self) -> Severity {
        match self {
            Self::Danger(caution) => caution.severity(),
            Self::OfTank(notice) => notice.severity(),
            Self::OfLiquid(notice) => notice.severity(),
            Self::OfStand(notice) => notice.severity(),
            Self::OfWork(notice) => notice.severity(),
            Self::OfProcess(notice) => notice.severity(),
        }
    }

    /// Where it comes from; `None` of what follows from the job's own figures.
    #[must_use]
    pub const fn source(&self) -> Option<&'static str> {
        match self {
            Self::Danger(caution) => Some(caution.source()),
            Self::OfTank(_)
            | Self::OfLiquid(_)
            | Self::OfStand(_)
            | Self::OfWork(_)
            | Self::OfProcess(_) => None,
        }
    }

    /// Whether these cautions, shown beside it, tell the same in whole, so that it need not be shown as well.
    #[must_use]
    pub fn is_told_by(&self, cautions: &[Caution]) -> bool {
        let same = match self {
            Self::OfTank(notice) => notice.told_by(),
            Self::Danger(_)
            | Self::OfLiquid(_)
            | Self::OfStand(_)
            | Self::OfWork(_)
            | Self::OfProcess(_) => &[],
        };
        !same.is_empty() && same.iter().all(|one| cautions.contains(one))
    }

    /// It in whole sentences, about the tank that it is of.
    #[must_use]
    pub const fn about<'a>(&'a self, tank: &'a Tank) -> impl fmt::Display + 'a {
        Words { advice: self, tank }
    }
}

/// The sentences of an advice.
struct Words<'a> {
    advice: &'a Advice,
    tank: &'a Tank,
}

impl fmt::Display for Words<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.advice {
            Advice::Danger(caution) => f.write_str(caution.whole()),
            Advice::OfTank(notice) => notice.fmt(f),
            Advice::OfLiquid(notice) => notice.fmt(f),
            Advice::OfStand(notice) => notice.fmt(f),
            Advice::OfWork(notice) => notice.write(self.tank, f),
            Advice::OfProcess(notice) => notice.write(self.tank, f),
        }
    }
}

impl Tank {
    /// Calls `show` for everything that a person should know before this tank is made: first what may hurt someone,
    /// then what its liquid, its mounts and the tank itself call for, then what the work on it does.
    ///
    /// Some of what a tank calls for is told by the cautions in whole ([`Advice::is_told_by`]).
    pub fn each_advice(&self, work: &Work<'_>, mut show: impl FnMut(Advice)) {
        for caution in self.cautions() {
            show(Advice::Danger(caution));
        }
        if let Some(reach) = work.reach {
            self.each_liquid_notice(reach, |notice| show(Advice::OfLiquid(notice)));
        }
        match work.stands {
            Some(Ok(stands)) => stands.each_notice(|notice| show(Advice::OfStand(notice))),
            Some(Err(error)) => show(Advice::OfStand(StandNotice::NotJudged(error))),
            None => {}
        }
        self.each_notice(|notice| show(Advice::OfTank(notice)));
        self.each_closing_notice(&mut |notice| show(Advice::OfTank(notice)));
        self.each_process_notice(&work.process, |notice| show(Advice::OfProcess(notice)));
        self.each_work_notice(work, |notice| show(Advice::OfWork(notice)));
    }
}

#[cfg(test)]
mod tests {
    extern crate std;

    use std::string::ToString;
    use std::vec::Vec;

    use super::super::process::ProcessWork;
    use super::*;
    use crate::arc::Equipment;
    use crate::input::{Block, Draft, StockDraft};
    use crate::tables::Alloy;
    use crate::units::{Length, LengthUnit};

    #[test]
    fn dangers_come_first_and_what_they_tell_is_told() {
        let mm = |value| Length::new(value, LengthUnit::Millimetre);
        let block = Block::new(mm(320.0), mm(180.0), mm(160.0));
        let stock = StockDraft::of(Alloy::A5754, mm(2.0));
        let tank = Tank::build(&Draft::new("Header tank", block, stock).unwrap()).unwrap();
        let equipment = Equipment::default();
        let work = Work {
            equipment: &equipment,
            filler: None,
            plan: None,
            left_free: &[],
            reach: None,
            process: ProcessWork::default(),
            bears: None,
            stands: None,
        };
        let mut all = Vec::new();
        tank.each_advice(&work, |advice| all.push(advice));
        let cautions = tank.cautions();
        let (dangers, rest) = all.split_at(cautions.len());
        assert!(dangers.iter().all(|one| one.source().is_some()));
        // A plain box: three notices that every tank has, all told by cautions, and the way out for air, which is not.
        let left: Vec<_> = rest
            .iter()
            .filter(|one| !one.is_told_by(&cautions))
            .collect();
        assert_eq!(rest.len(), 4);
        assert_eq!(left.len(), 1);
        assert_eq!(left[0].code(), "air-needs-a-way-out");
        let said = left[0].about(&tank).to_string();
        assert!(said.contains("names no fitting"), "{said}");
        // Without the cautions beside it a notice is told by nothing.
        assert!(rest.iter().all(|one| !one.is_told_by(&[])));
    }
}
