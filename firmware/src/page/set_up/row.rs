//! One setting for one kind of seam: the published range, and the job's own value.

use core::fmt::Write;

use heapless::Vec;
use seamwright_core::tables::ranges;
use seamwright_core::tables::ranges::{Range, RangeFit, RangeSource, SeamKind, Sources, wire};
use seamwright_core::tank::Tank;
use seamwright_core::units::flow::Flow;
use seamwright_core::units::{Current, Length, Speed};

use crate::amount::{Amount, Units};

/// Kinds of seams that settings tell apart, with all thicknesses that occur; more than any tank has.
const MOST_KINDS: usize = 24;
/// A value this share off an end of a range lies at it: sizes bought in inches are a hair off the millimetres of a
/// table.
const SLACK: f64 = 0.01;

/// A setting.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Setting {
    Current,
    Tungsten,
    Nozzle,
    Rod,
    Gas,
    Travel,
}

impl Setting {
    const ALL: [Self; 6] = [
        Self::Current,
        Self::Tungsten,
        Self::Nozzle,
        Self::Rod,
        Self::Gas,
        Self::Travel,
    ];

    /// Those of a wire, of whose own the gauge is told nothing.
    const OF_WIRE: [Self; 3] = [Self::Current, Self::Gas, Self::Travel];

    /// Those of a tank's process.
    fn of(tank: &Tank) -> &'static [Self] {
        if tank.arc().process.feeds_wire() {
            &Self::OF_WIRE
        } else {
            &Self::ALL
        }
    }

    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::Current => "Current",
            Self::Tungsten => "Tungsten",
            Self::Nozzle => "Gas nozzle",
            Self::Rod => "Filler rod",
            Self::Gas => "Gas flow",
            Self::Travel => "Travel",
        }
    }
}

/// Seams that settings do not tell apart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Kind {
    pub(super) seam: SeamKind,
    /// The thinner sheet, which burns through first.
    pub(super) thickness: Length,
}

pub(super) const fn kind_name(seam: SeamKind) -> &'static str {
    match seam {
        SeamKind::Butt => "butt",
        SeamKind::Corner => "corner",
        SeamKind::Fillet => "fillet",
    }
}

/// A source in as few letters as tell it.
pub(super) const fn short(source: RangeSource) -> &'static str {
    match source {
        RangeSource::Nimi => "NIMI",
        RangeSource::MathersButt
        | RangeSource::MathersFillet
        | RangeSource::MathersNozzle
        | RangeSource::MathersElectrode => "Mathers",
        RangeSource::GasHandbook => "gas maker",
        RangeSource::NationalHandbook => "China",
        RangeSource::Aws => "AWS A5.12",
        RangeSource::Practice => "practice",
        RangeSource::Beyond => "past table",
        RangeSource::WireMaker => "wire maker",
        RangeSource::SourceMaker | RangeSource::OtherSourceMaker => "maker",
        RangeSource::Textbook => "textbook",
        RangeSource::WorkshopRule => "rule",
        RangeSource::Memory => "memory",
    }
}

/// One setting for one kind of seam: the published range, and the job's own value.
#[derive(Clone, Debug)]
pub(super) struct Row {
    pub(super) setting: Setting,
    pub(super) kind: Kind,
    /// In SI.
    pub(super) range: Option<[f64; 2]>,
    pub(super) sources: Sources,
    /// In SI.
    pub(super) own: Option<f64>,
}

pub(super) fn kinds(tank: &Tank) -> Vec<Kind, MOST_KINDS> {
    let mut all: Vec<Kind, MOST_KINDS> = Vec::new();
    for seam in tank.seams() {
        let Some(joint) = seam.joint else {
            continue;
        };
        let kind = Kind {
            seam: SeamKind::of(joint),
            thickness: seam.thinner,
        };
        if !all.contains(&kind) {
            // More room than there are.
            let _ = all.push(kind);
        }
    }
    all
}

/// How many rows there are.
pub(super) fn count(tank: &Tank) -> usize {
    kinds(tank).len() * Setting::of(tank).len()
}

pub(super) fn row(tank: &Tank, place: usize) -> Option<Row> {
    let settings = Setting::of(tank);
    let kind = *kinds(tank).get(place / settings.len())?;
    let setting = *settings.get(place % settings.len())?;
    let (arc, family, t) = (tank.arc(), tank.job().alloy().family(), kind.thickness);
    fn si<T>(range: Option<Range<T>>, of: impl Fn(&T) -> f64) -> Option<([f64; 2], Sources)> {
        let range = range?;
        Some(([of(&range.least), of(&range.most)], range.sources))
    }
    let (process, seam) = (arc.process, kind.seam);
    let wired = process.feeds_wire();
    let (found, own) = match setting {
        Setting::Current if wired => (
            si(wire::current(process, family, t, seam), |i| i.si()),
            Some(arc.current.si()),
        ),
        Setting::Travel if wired => (
            si(wire::travel(process, family, t, seam), |v| v.si()),
            Some(arc.travel.si()),
        ),
        Setting::Gas if wired => (
            si(wire::gas(process, family, t, seam), |flow| flow.si()),
            None,
        ),
        Setting::Current => (
            si(ranges::current(family, t, kind.seam), |i| i.si()),
            Some(arc.current.si()),
        ),
        Setting::Tungsten => (si(ranges::tungsten(family, t), |d| d.si()), None),
        Setting::Nozzle => (si(ranges::nozzle(family, t), |d| d.si()), None),
        Setting::Rod => (si(ranges::rod(family, t, kind.seam), |d| d.si()), None),
        Setting::Gas => (si(ranges::gas(family, t), |flow| flow.si()), None),
        Setting::Travel => (
            si(ranges::travel(family, t, kind.seam), |v| v.si()),
            Some(arc.travel.si()),
        ),
    };
    Some(Row {
        setting,
        kind,
        range: found.map(|(range, _)| range),
        sources: found.map_or(Sources::default(), |(_, sources)| sources),
        own,
    })
}

impl Row {
    pub(super) fn fit(&self) -> Option<RangeFit> {
        let ([least, most], own) = (self.range?, self.own?);
        let near = |end: f64| libm::fabs(own - end) <= SLACK * libm::fabs(own);
        Some(if near(least) || near(most) {
            RangeFit::Within
        } else if own < least {
            RangeFit::Below
        } else if own > most {
            RangeFit::Above
        } else {
            RangeFit::Within
        })
    }

    pub(super) fn amount(&self, value: f64, units: Units) -> Amount {
        match self.setting {
            Setting::Current => Amount::current(Current::from_amperes(value)),
            Setting::Tungsten | Setting::Nozzle | Setting::Rod => {
                Amount::thickness(Length::from_metres(value), units)
            }
            Setting::Gas => Amount::flow(Flow::from_si(value), units),
            Setting::Travel => Amount::speed(Speed::from_metres_per_second(value), units),
        }
    }

    /// The range as one.
    pub(super) fn span(&self, units: Units) -> Option<Amount> {
        let [least, most] = self.range?.map(|end| self.amount(end, units));
        Some(Amount::span(&least, &most))
    }

    /// All its sources, in full.
    pub(super) fn told(&self) -> heapless::String<600> {
        let mut text = heapless::String::new();
        for (source, place) in self.sources.iter().zip(0..) {
            // The longest four of them have 400 bytes.
            let _ = write!(
                text,
                "{}{}",
                if place > 0 { "; " } else { "" },
                source.name()
            );
        }
        let _ = text.push('.');
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use seamwright_core::input::{Block, Draft, StockDraft};
    use seamwright_core::tables::{Alloy, Process};
    use seamwright_core::units::LengthUnit;

    fn names(process: Process) -> std::vec::Vec<&'static str> {
        let mm = |value| Length::new(value, LengthUnit::Millimetre);
        let outside = Block::new(mm(420.0), mm(300.0), mm(260.0));
        let stock = StockDraft::of(Alloy::S235, mm(1.6));
        let mut draft = Draft::new("Ash bin", outside, stock).unwrap();
        draft.arc.process = Some(process);
        let tank = Tank::build(&draft).unwrap();
        let rows = (0..count(&tank)).filter_map(|place| row(&tank, place));
        rows.map(|row| row.setting.name()).collect()
    }

    /// A wire is its own electrode: no tungsten and no rod, and of the wire itself the gauge is told nothing.
    #[test]
    fn settings_of_the_process() {
        assert_eq!(names(Process::Mag), ["Current", "Gas flow", "Travel"]);
        assert_eq!(names(Process::TigDc).len(), Setting::ALL.len());
        assert_eq!(names(Process::FluxCored), names(Process::Mig));
    }
}
