//! The arc: its energy for each length of seam, by both conventions.

use crate::tables::Process;
use crate::units::{Current, Energy, Length, LineEnergy, Power, Ratio, Speed, Time, Voltage};

/// The conventional load voltage of a power source up to 600 A, `U₂ = 10 V + 0.04 V/A · I₂` for TIG and
/// `U₂ = 14 V + 0.05 V/A · I₂` for MIG, MAG and flux-cored wire: IEC 60974-1, 11.2 (from memory). A stand-in where the
/// arc voltage was not measured.
#[must_use]
pub fn conventional_voltage(process: Process, current: Current) -> Voltage {
    let (base, ohms) = if process.feeds_wire() {
        (14.0, 0.05)
    } else {
        (10.0, 0.04)
    };
    Voltage::from_volts(base + ohms * current.si())
}

/// Settings of the arc, all above zero.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Arc {
    /// The process.
    pub process: Process,
    /// Mean current.
    pub current: Current,
    /// Mean voltage across the arc.
    pub voltage: Voltage,
    /// Speed along the seam.
    pub travel: Speed,
    /// Share of the arc energy that counts as heat input.
    pub efficiency: Ratio,
}

impl Arc {
    /// Power of the arc: `U · I` of the mean values.
    #[must_use]
    pub fn power(&self) -> Power {
        Power::from_watts(self.voltage.si() * self.current.si())
    }

    /// Arc energy `E = U · I / v`: ISO/TR 18491:2015, method A. ASME IX QW-409.1(a) and AWS D1.1 call
    /// this figure itself the heat input (from memory).
    #[must_use]
    pub fn arc_energy(&self) -> LineEnergy {
        LineEnergy::from_joules_per_metre(self.power().si() / self.travel.si())
    }

    /// Heat input `Q = k · E`: EN 1011-1:2009, 8.7 and table 1.
    #[must_use]
    pub fn heat_input(&self) -> LineEnergy {
        LineEnergy::from_joules_per_metre(self.efficiency.si() * self.arc_energy().si())
    }

    /// How long the arc burns along `length`.
    #[must_use]
    pub fn time_along(&self, length: Length) -> Time {
        Time::from_seconds(length.si() / self.travel.si())
    }

    /// Heat input along `length`.
    #[must_use]
    pub fn heat_along(&self, length: Length) -> Energy {
        Energy::from_joules(self.heat_input().si() * length.si())
    }
}
