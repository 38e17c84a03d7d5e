//! Settings that are published for the seams of a tank, and a welder's own against them.

use super::Tank;
use crate::seam::Seam;
use crate::tables::ranges::{self, Range, RangeFit, SeamKind, wire};
use crate::units::flow::Flow;
use crate::units::{Current, Length, Quantity, Speed, Voltage};

/// Seams that settings do not tell apart.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct SeamGroup {
    /// Their kind.
    pub kind: SeamKind,
    /// The thinner sheet, which burns through first.
    pub thickness: Length,
}

/// What a welder has at hand, beside the arc of the job.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct OwnSettings {
    /// Diameter of the tungsten electrode.
    pub tungsten: Option<Length>,
    /// Bore of the gas nozzle.
    pub nozzle: Option<Length>,
    /// Diameter of the rod.
    pub rod: Option<Length>,
    /// Flow of gas.
    pub gas: Option<Flow>,
    /// Diameter of the wire.
    pub wire: Option<Length>,
}

/// One setting: its published range, and the welder's own.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Suggestion<T> {
    /// The range, with its sources; `None` where nothing is published.
    pub range: Option<Range<T>>,
    /// The welder's own.
    pub own: Option<T>,
    /// Where that lies, an end of the range taken as met within 1 %: sizes bought in inches are a hair off the
    /// millimetres of a table.
    pub fit: Option<RangeFit>,
}

/// What is published for a group of seams.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeamSettings {
    /// Current.
    pub current: Suggestion<Current>,
    /// Travel speed.
    pub travel: Suggestion<Speed>,
    /// Gas.
    pub gas: Suggestion<Flow>,
    /// What goes with the process.
    pub electrode: ElectrodeSettings,
}

/// What is published of the electrode and what goes with it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ElectrodeSettings {
    /// A tungsten with a rod beside it.
    Tungsten(TungstenSettings),
    /// A wire.
    Wire(WireSettings),
}

/// What is published for a wire.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WireSettings {
    /// Voltage.
    pub voltage: Suggestion<Voltage>,
    /// Its diameter.
    pub diameter: Suggestion<Length>,
}

/// What is published for a tungsten and its rod.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TungstenSettings {
    /// Tungsten electrode, by the sheet.
    pub by_sheet: Suggestion<Length>,
    /// Tungsten electrode, by the job's own current.
    pub by_current: Suggestion<Length>,
    /// Gas nozzle.
    pub nozzle: Suggestion<Length>,
    /// Rod.
    pub rod: Suggestion<Length>,
}

/// How near an own value comes to an end of a range that it is taken to meet: common practice, no source.
const NEAR: f64 = 0.01;

impl<T: Copy + PartialOrd> Suggestion<T> {
    fn new(range: Option<Range<T>>, own: Option<T>, si: impl Fn(T) -> f64) -> Self {
        let fit = range.zip(own).and_then(|(range, own)| {
            let slack = NEAR * libm::fabs(si(own));
            let near = |end: T| libm::fabs(si(own) - si(end)) <= slack;
            if near(range.least) || near(range.most) {
                return Some(RangeFit::Within);
            }
            range.fit(own)
        });
        Self { range, own, fit }
    }

    fn of(range: Option<Range<T>>, own: Option<T>) -> Self
    where
        T: Quantity,
    {
        Self::new(range, own, T::si)
    }
}

/// `None` of a fold.
fn group_of(seam: &Seam) -> Option<SeamGroup> {
    Some(SeamGroup {
        kind: SeamKind::of(seam.joint?),
        thickness: seam.thinner,
    })
}

impl Tank {
    /// The kinds of seams that settings tell apart, in the order of their first seams.
    ///
    /// ```
    /// use seamwright_core::prelude::*;
    /// use seamwright_core::tank::{ElectrodeSettings, OwnSettings};
    ///
    /// let mm = |value| Length::new(value, LengthUnit::Millimetre);
    /// let box_of = Block::new(mm(320.0), mm(180.0), mm(160.0));
    /// let tank = Tank::build(&Draft::new("Header tank", box_of, StockDraft::of(Alloy::A5754, mm(2.0)))?)?;
    /// let corners = tank.seam_groups().next().ok_or("no seams")?;
    /// assert_eq!(tank.seams_in(corners).count(), 12);
    /// // NIMI has 16 to 32 tenths of a millimetre for the rod about this sheet.
    /// let ElectrodeSettings::Tungsten(tungsten) = tank.seam_settings(corners, &OwnSettings::default()).electrode else {
    ///     return Err("TIG is usual".into());
    /// };
    /// assert!(tungsten.rod.range.is_some_and(|range| range.least >= mm(1.6) && range.most <= mm(3.2)));
    /// # Ok::<(), Box<dyn core::error::Error>>(())
    /// ```
    pub fn seam_groups(&self) -> impl Iterator<Item = SeamGroup> {
        self.seams().enumerate().filter_map(|(place, seam)| {
            let group = group_of(&seam)?;
            let mut before = self.seams().take(place);
            let is_new = !before.any(|seam| group_of(&seam) == Some(group));
            is_new.then_some(group)
        })
    }

    /// The seams of a group.
    pub fn seams_in(&self, group: SeamGroup) -> impl Iterator<Item = Seam> {
        self.seams()
            .filter(move |seam| group_of(seam) == Some(group))
    }

    /// What is published for a group of seams of this tank's metal, with the arc of its job and what the welder has at
    /// hand against it. A qualified procedure comes before any of it.
    #[must_use]
    pub fn seam_settings(&self, group: SeamGroup, own: &OwnSettings) -> SeamSettings {
        let (arc, family) = (self.arc(), self.job.alloy.family());
        let SeamGroup { kind, thickness } = group;
        let process = arc.process;
        if process.feeds_wire() {
            return SeamSettings {
                current: Suggestion::of(
                    wire::current(process, family, thickness, kind),
                    Some(arc.current),
                ),
                travel: Suggestion::of(
                    wire::travel(process, family, thickness, kind),
                    Some(arc.travel),
                ),
                gas: Suggestion::new(
                    wire::gas(process, family, thickness, kind),
                    own.gas,
                    Flow::si,
                ),
                electrode: ElectrodeSettings::Wire(WireSettings {
                    voltage: Suggestion::of(
                        wire::voltage(process, family, thickness, kind),
                        Some(arc.voltage),
                    ),
                    diameter: Suggestion::of(
                        wire::diameter(process, family, thickness, kind),
                        own.wire,
                    ),
                }),
            };
        }
        let by_current = ranges::electrode(process, arc.current);
        SeamSettings {
            current: Suggestion::of(ranges::current(family, thickness, kind), Some(arc.current)),
            travel: Suggestion::of(ranges::travel(family, thickness, kind), Some(arc.travel)),
            gas: Suggestion::new(ranges::gas(family, thickness), own.gas, Flow::si),
            electrode: ElectrodeSettings::Tungsten(TungstenSettings {
                by_sheet: Suggestion::of(ranges::tungsten(family, thickness), own.tungsten),
                by_current: Suggestion::of(by_current, own.tungsten),
                nozzle: Suggestion::of(ranges::nozzle(family, thickness), own.nozzle),
                rod: Suggestion::of(ranges::rod(family, thickness, kind), own.rod),
            }),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tables::Family;
    use crate::units::LengthUnit;

    #[test]
    fn a_size_in_inches_lies_at_the_millimetres_it_is_called() {
        // 3/32 in is 2.381 mm, sold as 2.4 mm.
        let mm = |value| Length::new(value, LengthUnit::Millimetre);
        let range = ranges::rod(Family::Aluminium, mm(2.0), SeamKind::Corner).unwrap();
        let range = Range {
            least: mm(2.4),
            most: mm(2.4),
            ..range
        };
        let fit = |own| Suggestion::of(Some(range), Some(own)).fit;
        assert_eq!(fit(mm(3.0 / 32.0 * 25.4)), Some(RangeFit::Within));
        assert_eq!(fit(mm(1.6)), Some(RangeFit::Below));
        assert_eq!(fit(mm(3.2)), Some(RangeFit::Above));
        assert_eq!(Suggestion::of(Some(range), None).fit, None);
    }
}
