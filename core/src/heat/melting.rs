//! What becomes of metal that is heated past its solid state: it melts, taking heat without warming, and boils.
//!
//! A line of heat in a sheet has no highest temperature, metal has: a weld pool is no hotter than it boils, and stays far
//! below where the arc is short. Whatever goes with a power of temperature, as what a pool radiates, must be reckoned
//! with the temperature that metal has, or it takes more heat than there is.

use crate::tables::Family;

/// How a metal melts and boils.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Melting {
    /// Where it is all liquid, in K.
    pub liquidus: f64,
    /// Heat of fusion over heat capacity, in K: how much further it would warm with the heat that melts it.
    pub fusion: f64,
    /// Where it boils, in K.
    pub boiling: f64,
}

/// Boiling point of the metal that an alloy is made of, in K: aluminium 2519 °C, iron 2861 °C (CRC Handbook of
/// Chemistry and Physics, from memory). Magnesium, zinc and manganese leave sooner, so that this is an upper bound.
const fn boiling(family: Family) -> f64 {
    match family {
        Family::Aluminium => 2_792.0,
        Family::Stainless | Family::Steel => 3_134.0,
    }
}

/// Heat of fusion, in J/kg: of aluminium 10.71 kJ/mol, 397 kJ/kg, of its alloys some 390 (from memory); of stainless
/// steel 260 to 290 and of low-carbon steel 247 to 272 kJ/kg, of which the middles (ASM Handbook, vol. 1, from memory).
const fn fusion(family: Family) -> f64 {
    match family {
        Family::Aluminium => 390e3,
        Family::Stainless => 275e3,
        Family::Steel => 260e3,
    }
}

impl Melting {
    /// That of an alloy of this family which is liquid at `liquidus` kelvin and has a heat capacity of so many J/(kg K).
    #[must_use]
    pub const fn of(family: Family, liquidus: f64, heat_capacity: f64) -> Self {
        Self {
            liquidus,
            fusion: fusion(family) / heat_capacity,
            boiling: boiling(family),
        }
    }
}
