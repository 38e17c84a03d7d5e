//! Values that the job left to their defaults, and where those come from.

use core::fmt;

use crate::arc::settings::Start;
use crate::input::{Field, Joint};
use crate::tables::{BendMinimum, Process, Sourced};
use crate::units::{
    Current, CurrentUnit, Length, LengthUnit, Ratio, RatioUnit, Speed, SpeedUnit, Temperature,
    TemperatureUnit, Time, TimeUnit, Voltage, VoltageUnit,
};

/// The inside radius of bends that a job leaves out, and what set it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BendStart {
    /// The radius.
    pub radius: Length,
    /// The row of the table that set it; `None` where one thickness is as much or there is no row.
    pub by_table: Option<BendMinimum>,
}

/// A default that was taken. Its `Display` is the value.
#[derive(Clone, Copy, Debug, PartialEq)]
#[expect(
    missing_docs,
    reason = "each is the input that its name spells, with the value taken"
)]
pub enum Assumed {
    Joint,
    BendRadius(BendStart),
    BendRule,
    Lap(Length),
    FillTemperature(Temperature),
    Headspace(Ratio),
    Process(Process),
    Current(Start<Current>),
    Voltage(Voltage),
    Travel(Start<Speed>),
    Efficiency(Ratio),
    StitchMax(Length),
    TackPitch(Length),
    Ambient(Temperature),
    InterpassMax(Sourced<Temperature>),
    Emissivity(Sourced<Ratio>),
    Moving(Time),
    Uptake(Ratio),
    Opening(Length),
    Reach(Length),
}

impl Assumed {
    /// The input that was left out.
    #[must_use]
    pub const fn field(&self) -> Field {
        match self {
            Self::Joint => Field::JointsDefault,
            Self::BendRadius(_) => Field::BendRadius,
            Self::BendRule => Field::KFactor,
            Self::Lap(_) => Field::Lap,
            Self::FillTemperature(_) => Field::FillTemperature,
            Self::Headspace(_) => Field::Headspace,
            Self::Process(_) => Field::Process,
            Self::Current(_) => Field::Current,
            Self::Voltage(_) => Field::Voltage,
            Self::Travel(_) => Field::Travel,
            Self::Efficiency(_) => Field::Efficiency,
            Self::StitchMax(_) => Field::StitchMax,
            Self::TackPitch(_) => Field::TackPitch,
            Self::Ambient(_) => Field::Ambient,
            Self::InterpassMax(_) => Field::InterpassMax,
            Self::Emissivity(_) => Field::Emissivity,
            Self::Moving(_) => Field::Moving,
            // The one input stands for both where it is given.
            Self::Uptake(_) => Field::Efficiency,
            Self::Opening(_) => Field::Opening,
            Self::Reach(_) => Field::Reach,
        }
    }

    /// Where the value is from.
    #[must_use]
    pub const fn source(&self) -> &'static str {
        match self {
            Self::Joint => "the joint with square-cut edges; common practice, no source",
            Self::BendRadius(start) => match start.by_table {
                Some(least) => least.source.text(),
                None => "one thickness; common practice, no source",
            },
            Self::BendRule => "DIN 6935, k = 0.65 + 0.5 lg(r/s), at most 1 (from memory)",
            Self::Lap(_) => "six thicknesses; common practice, no source",
            Self::FillTemperature(_) => {
                "15 °C, the reference of petroleum measurement (ISO 5024, from memory)"
            }
            Self::Headspace(_) => {
                "49 CFR 393.67(c)(12): filled to 95 % at most (from memory); a coolant header wants more"
            }
            Self::Process(_) => {
                "common practice, no source: TIG, on AC for aluminium and DC for steels"
            }
            Self::Current(start) => start.source.text(),
            Self::Voltage(_) => {
                "conventional load voltage, 10 V + 0.04 I for TIG and 14 V + 0.05 I for wire, IEC 60974-1, 11.2 (from memory); measure your own"
            }
            Self::Travel(start) => start.source.text(),
            Self::Efficiency(_) => "EN 1011-1:2009, table 1: 0.6 for TIG, 0.8 for wire",
            Self::StitchMax(_) => {
                "common practice, no source: 75 to 100 mm on thin aluminium, 25 to 50 mm on steels"
            }
            Self::TackPitch(_) => {
                "35 thicknesses: G. Mathers, The Welding of Aluminium and its Alloys (2002), p. 88"
            }
            Self::Ambient(_) => "a room; common practice, no source",
            Self::InterpassMax(limit) => limit.source.text(),
            Self::Emissivity(bright) => bright.source.text(),
            Self::Moving(_) => "common practice, no source",
            Self::Opening(_) => {
                "common practice, no source: room for a gloved hand with a torch; an arm is some 120 mm thick at most (EN 547-3, from memory)"
            }
            Self::Reach(_) => {
                "common practice, no source: how far a torch is held with its seam in sight; give your own"
            }
            Self::Uptake(_) => {
                "measured, for the metal's own heat: 0.4 of AC on aluminium (Christensen et al., 1965, from memory), 0.67 of DC, 0.84 of an arc from solid wire (DuPont and Marder, 1995); of flux-cored wire 0.8 (EN 1011-1, no measurement read)"
            }
        }
    }
}

impl Assumed {
    /// The thicknesses of the table's rows that the value is from; `None` where no table stands behind it.
    #[must_use]
    pub const fn rows(&self) -> Option<[Length; 2]> {
        match self {
            Self::Current(start) => Some(start.source.rows()),
            Self::Travel(start) => Some(start.source.rows()),
            Self::BendRadius(start) => match start.by_table {
                Some(least) => Some([least.column; 2]),
                None => None,
            },
            _ => None,
        }
    }
}

impl fmt::Display for Assumed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Joint => f.write_str(Joint::default().name()),
            Self::BendRadius(v) => v.radius.display(LengthUnit::Millimetre, 1).fmt(f),
            Self::Lap(v) => v.display(LengthUnit::Millimetre, 1).fmt(f),
            Self::BendRule => f.write_str("DIN 6935"),
            Self::FillTemperature(v) => v.display(TemperatureUnit::Celsius, 0).fmt(f),
            Self::Headspace(v) => v.display(RatioUnit::Percent, 0).fmt(f),
            Self::Process(v) => f.write_str(v.name()),
            Self::Current(v) => v.value.display(CurrentUnit::Ampere, 0).fmt(f),
            Self::Voltage(v) => v.display(VoltageUnit::Volt, 1).fmt(f),
            Self::Travel(v) => v.value.display(SpeedUnit::MillimetrePerMinute, 0).fmt(f),
            Self::Efficiency(v) => v.display(RatioUnit::Percent, 0).fmt(f),
            Self::Ambient(v) => v.display(TemperatureUnit::Celsius, 0).fmt(f),
            Self::InterpassMax(v) => v.value.display(TemperatureUnit::Celsius, 0).fmt(f),
            Self::Emissivity(v) => v.value.display(RatioUnit::Percent, 0).fmt(f),
            Self::Moving(v) => v.display(TimeUnit::Second, 0).fmt(f),
            Self::Uptake(v) => v.display(RatioUnit::Percent, 0).fmt(f),
            Self::StitchMax(v) | Self::TackPitch(v) | Self::Opening(v) | Self::Reach(v) => {
                v.display(LengthUnit::Millimetre, 0).fmt(f)
            }
        }
    }
}
