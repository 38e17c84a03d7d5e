//! Settings to start from where the job names none: published points, and straight lines between them.
//!
//! Beyond the published thicknesses a current goes on in proportion to the sheet and a travel speed
//! stays what it was, down to 0.5 mm and up to 10 mm; the source then says so. Past those there is no
//! starting value and the job must name its own.

use crate::tables::{Family, Process};
use crate::units::{Current, CurrentUnit, Length, LengthUnit, Speed, SpeedUnit};

/// A starting value, and where it is from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Start<T> {
    /// The value.
    pub value: T,
    /// The rows of a table that it is from.
    pub source: StartSource,
}

/// A table of starting values.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum StartTable {
    /// Currents for aluminium: the middles of a gas maker's ranges for fillets.
    AluminiumCurrent,
    /// Currents for stainless steel.
    StainlessCurrent,
    /// Currents for carbon steel.
    SteelCurrent,
    /// Travel speeds for aluminium.
    AluminiumTravel,
    /// Travel speeds for stainless steel.
    StainlessTravel,
    /// Travel speeds for carbon steel.
    SteelTravel,
    /// Currents for wire on aluminium.
    AluminiumWireCurrent,
    /// Currents for solid wire on stainless steel.
    StainlessWireCurrent,
    /// Currents for solid wire on carbon steel.
    SteelWireCurrent,
    /// Currents for flux-cored wire.
    FluxCoredCurrent,
    /// Travel speeds for wire on aluminium.
    AluminiumWireTravel,
    /// Travel speeds for solid wire on stainless steel.
    StainlessWireTravel,
    /// Travel speeds for solid wire on carbon steel.
    SteelWireTravel,
    /// Travel speeds for flux-cored wire.
    FluxCoredTravel,
}

/// The rows of a table that a starting value is from.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum StartSource {
    /// On the straight line between two rows, whose thicknesses these are.
    Between(StartTable, [Length; 2]),
    /// Carried on from the nearest row, whose thickness this is: a current in proportion to the sheet, a speed as it
    /// is.
    CarriedFrom(StartTable, Length),
}

impl StartSource {
    /// The table.
    #[must_use]
    pub const fn table(self) -> StartTable {
        match self {
            Self::Between(table, _) | Self::CarriedFrom(table, _) => table,
        }
    }

    /// The thicknesses of the rows: two that the sheet lies between, or twice the one that it is carried on from.
    #[must_use]
    pub const fn rows(self) -> [Length; 2] {
        match self {
            Self::Between(_, rows) => rows,
            Self::CarriedFrom(_, row) => [row; 2],
        }
    }

    /// The source in words.
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Self::Between(table, _) => table.text(),
            Self::CarriedFrom(table, _) if table.is_current() => {
                "common practice, no source: in proportion to the sheet from the nearest published thickness"
            }
            Self::CarriedFrom(..) => {
                "common practice, no source: the speed of the nearest published thickness"
            }
        }
    }
}

impl StartTable {
    const fn is_current(self) -> bool {
        matches!(
            self,
            Self::AluminiumCurrent
                | Self::StainlessCurrent
                | Self::SteelCurrent
                | Self::AluminiumWireCurrent
                | Self::StainlessWireCurrent
                | Self::SteelWireCurrent
                | Self::FluxCoredCurrent
        )
    }

    /// The source of the table in words.
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Self::AluminiumCurrent => {
                "middle of a gas maker's handbook range for AC fillets on aluminium at this thickness"
            }
            Self::StainlessCurrent => {
                "middle of a gas maker's handbook range for DC on stainless steel at this thickness"
            }
            Self::SteelCurrent => {
                "middle of a gas maker's handbook range for DC on carbon steel at this thickness"
            }
            Self::AluminiumTravel => {
                "G. Mathers, The Welding of Aluminium and its Alloys (2002), fig. 6.8, fillets"
            }
            Self::StainlessTravel => {
                "national welding handbook (China), vol. 1, 2nd ed., p. 150, corner joints on stainless steel"
            }
            Self::SteelTravel => "common practice, no source: middle of 200 to 300 mm/min",
            Self::AluminiumWireCurrent | Self::AluminiumWireTravel => {
                "a maker of aluminium wire's table for MIG fillets at this thickness"
            }
            Self::StainlessWireCurrent | Self::StainlessWireTravel => {
                "tables for short circuits on stainless steel, provisional (from memory)"
            }
            Self::SteelWireCurrent | Self::SteelWireTravel => {
                "middle of a maker of power sources' range for MAG butts in short circuits at this thickness"
            }
            Self::FluxCoredCurrent | Self::FluxCoredTravel => {
                "a maker of power sources' table for flux-cored fillets with a leg as long as the sheet is thick"
            }
        }
    }

    /// Its rows, `(thickness in mm, value)` in ascending order; currents in amperes, speeds in mm/min.
    const fn points(self) -> &'static [(f64, f64)] {
        match self {
            Self::AluminiumCurrent => &[(1.6, 70.0), (3.2, 135.0), (4.8, 212.5), (6.0, 277.5)],
            Self::StainlessCurrent => &[(1.6, 60.0), (3.2, 95.0), (4.8, 132.5)],
            Self::SteelCurrent => &[(1.6, 60.0), (3.2, 105.0), (4.8, 155.0)],
            Self::AluminiumTravel => &[(1.6, 190.0), (2.0, 200.0), (3.2, 230.0), (4.8, 280.0)],
            Self::StainlessTravel => &[(1.5, 250.0), (3.2, 250.0), (4.8, 200.0)],
            Self::SteelTravel => &[(1.6, 250.0), (3.2, 250.0)],
            Self::AluminiumWireCurrent => &[(2.0, 100.0), (3.0, 140.0), (4.0, 165.0), (6.0, 220.0)],
            Self::StainlessWireCurrent => &[(1.2, 60.0), (1.6, 80.0), (3.2, 130.0), (4.8, 160.0)],
            Self::SteelWireCurrent => &[(1.0, 52.5), (1.6, 105.0), (3.2, 130.0), (4.0, 160.0)],
            Self::FluxCoredCurrent => &[(4.0, 250.0), (5.0, 270.0), (6.0, 270.0)],
            Self::AluminiumWireTravel => &[(2.0, 1_040.0), (3.0, 780.0), (4.0, 575.0)],
            Self::StainlessWireTravel => &[(1.2, 450.0), (4.8, 450.0)],
            Self::SteelWireTravel => &[(1.0, 475.0), (1.6, 500.0), (3.2, 275.0), (4.0, 325.0)],
            Self::FluxCoredTravel => &[(4.0, 500.0), (5.0, 500.0), (6.0, 450.0)],
        }
    }

    /// The value at a thickness in millimetres, and the rows that it is from.
    fn at(self, t: f64) -> Option<Start<f64>> {
        let row = |t| Length::new(t, LengthUnit::Millimetre);
        let points = self.points();
        let mut pairs = points.iter().zip(points.iter().skip(1));
        let between = pairs.find(|((t0, _), (t1, _))| t >= t0 - ROUNDING && t <= t1 + ROUNDING);
        if let Some(((t0, v0), (t1, v1))) = between {
            return Some(Start {
                value: v0 + (v1 - v0) * (t - t0) / (t1 - t0),
                source: StartSource::Between(self, [row(*t0), row(*t1)]),
            });
        }
        let (first, last) = (points.first()?, points.last()?);
        let (at, value) = if t < first.0 { *first } else { *last };
        Some(Start {
            value: if self.is_current() {
                value * t / at
            } else {
                value
            },
            source: StartSource::CarriedFrom(self, row(at)),
        })
    }
}

impl StartTable {
    /// Currents and travel speeds for a process on a family of metals.
    const fn of(process: Process, family: Family) -> [Self; 2] {
        match (process, family) {
            (Process::TigAc | Process::TigDc, Family::Aluminium) => {
                [Self::AluminiumCurrent, Self::AluminiumTravel]
            }
            (Process::TigAc | Process::TigDc, Family::Stainless) => {
                [Self::StainlessCurrent, Self::StainlessTravel]
            }
            (Process::TigAc | Process::TigDc, Family::Steel) => {
                [Self::SteelCurrent, Self::SteelTravel]
            }
            // Not to be welded with flux-cored wire at all, which a verdict says.
            (_, Family::Aluminium) => [Self::AluminiumWireCurrent, Self::AluminiumWireTravel],
            (Process::FluxCored, _) => [Self::FluxCoredCurrent, Self::FluxCoredTravel],
            (_, Family::Stainless) => [Self::StainlessWireCurrent, Self::StainlessWireTravel],
            (_, Family::Steel) => [Self::SteelWireCurrent, Self::SteelWireTravel],
        }
    }
}

/// Thinnest and thickest sheet for which there is a starting value, in mm.
const REACH: (f64, f64) = (0.5, 10.0);

/// A current for a process on a family of metals at a sheet thickness; `None` past 0.5 to 10 mm.
#[must_use]
pub fn current(process: Process, family: Family, thickness: Length) -> Option<Start<Current>> {
    let [table, _] = StartTable::of(process, family);
    let Start { value, source } = table.at(reached(thickness)?)?;
    Some(Start {
        value: Current::new(value, CurrentUnit::Ampere),
        source,
    })
}

/// A travel speed for a process on a family of metals at a sheet thickness; `None` past 0.5 to 10 mm.
#[must_use]
pub fn travel(process: Process, family: Family, thickness: Length) -> Option<Start<Speed>> {
    let [_, table] = StartTable::of(process, family);
    let Start { value, source } = table.at(reached(thickness)?)?;
    Some(Start {
        value: Speed::new(value, SpeedUnit::MillimetrePerMinute),
        source,
    })
}

/// A sheet is listed to a tenth of a millimetre: 1.6 mm read from inches is 1.6 mm still.
const ROUNDING: f64 = 1e-6;

/// The thickness in millimetres, where there is a starting value for it at all.
fn reached(thickness: Length) -> Option<f64> {
    let t = thickness.in_unit(LengthUnit::Millimetre);
    let (least, most) = REACH;
    (t >= least - ROUNDING && t <= most + ROUNDING).then_some(t)
}
