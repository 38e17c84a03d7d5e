//! How a tank is welded, as its plan asks.

use super::Manner;
use crate::heat::shell::Material;
use crate::tank::Tank;
use crate::units::Ratio;

impl Tank {
    /// What its shell is made of, for its heat.
    #[must_use]
    pub fn material(&self) -> Material {
        let alloy = self.job.alloy;
        Material {
            conductivity: alloy.conductivity(self.job.temper).value,
            capacity: alloy.density() * alloy.metal().heat_capacity().value,
            emissivity: self.emissivity().si(),
        }
    }

    /// How it is welded, as the bench asks.
    #[must_use]
    pub fn manner(&self) -> Manner {
        self.manner_with(self.job.welding.uptake)
    }

    /// The same with another share of the arc's power taken up.
    #[must_use]
    pub fn manner_with(&self, uptake: Ratio) -> Manner {
        let welding = &self.job.welding;
        Manner {
            power: self.job.arc.power() * uptake.si(),
            travel: self.job.arc.travel.si(),
            limit: self.interpass_max().si() - welding.ambient.si(),
            moving: welding.moving.si(),
            back_step: welding.back_step,
            duty: None,
        }
    }
}
