//! The words of the cautions. Short, whole and source stand in functions of their own, so that a machine
//! that shows only one of them carries only that.

use super::Caution;

/// What every whole caution ends with.
macro_rules! defer {
    () => {
        "Local codes and licensed practice go first."
    };
}

/// A text that ends with it.
macro_rules! whole {
    ($text:literal) => {
        concat!($text, " ", defer!())
    };
}

#[cfg(test)]
pub(super) const DEFER: &str = defer!();

impl Caution {
    /// A stable code for programs.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::PressureTest => "pressure-test",
            Self::WaterTest => "water-test",
            Self::UsedTank => "used-tank",
            Self::VentFirst => "vent-first",
            Self::Argon => "argon",
            Self::CoatedMetal => "coated-metal",
            Self::ChlorinatedSolvent => "chlorinated-solvent",
            Self::ArcRays => "arc-rays",
            Self::OzoneFume => "ozone-fume",
            Self::StainlessFume => "stainless-fume",
            Self::HotAluminium => "hot-aluminium",
            Self::CausticWash => "caustic-wash",
            Self::Implants => "implants",
            Self::DrinkingWater => "drinking-water",
            Self::FuelUs => "fuel-us",
            Self::FuelEu => "fuel-eu",
            Self::FuelUk => "fuel-uk",
            Self::LocalCode => "local-code",
        }
    }

    /// For a display: at most 60 characters of ASCII.
    #[must_use]
    pub const fn short(self) -> &'static str {
        match self {
            Self::PressureTest => "Air bursts: regulator, relief valve, nobody near the seams",
            Self::WaterTest => "Water is heavy: carry it well; vent the top when draining",
            Self::UsedTank => "Never weld a used fuel or oil tank: it can explode",
            Self::VentFirst => "Vent every hollow before you heat it",
            Self::Argon => "Argon stifles unseen: never put your head in the tank",
            Self::CoatedMetal => "Strip zinc, cadmium, lead and paint first: poison fume",
            Self::ChlorinatedSolvent => "No chlorinated cleaner near the arc: it makes phosgene",
            Self::ArcRays => "Arc burns eyes and skin in seconds: cover both",
            Self::OzoneFume => "Draw off fume and ozone; keep your head out of the plume",
            Self::StainlessFume => "Stainless fume holds Cr(VI): extract it at the arc",
            Self::HotAluminium => "Hot aluminium looks cold: test before you touch",
            Self::CausticWash => "No caustic on aluminium: it makes hydrogen",
            Self::Implants => "Pacemaker or implant? Ask the clinic before you weld",
            Self::DrinkingWater => "Drinking water: only materials approved for it",
            Self::FuelUs => "US boat fuel tank: 33 CFR 183, 46 CFR 58.50 and 119",
            Self::FuelEu => "EU boat fuel tank: 2013/53/EU and EN ISO 21487",
            Self::FuelUk => "UK boat fuel tank: SI 2017/737 and BS EN ISO 21487",
            Self::LocalCode => "Ask which local code holds before you build",
        }
    }

    /// For the job sheet.
    #[must_use]
    pub const fn whole(self) -> &'static str {
        match self {
            Self::PressureTest => whole!(
                "A pressure test is dangerous work: air gives its energy back at once when a seam or a plug lets go, water does not. Use water where you can. With air: a regulator, a relief valve and a gauge that fit the low pressure, plugs that cannot fly, a slow rise, nobody in front of panels or plugs, and the pressure off before anything is tightened or struck. Never exceed what the weakest panel takes."
            ),
            Self::WaterTest => whole!(
                "A litre of water weighs a kilogram: the bench must carry the full tank. Let the air out as it fills, and open the top before it drains, or the panels are drawn in. Stand clear of a full tank: flat sides push with great force even at a small head. Dry it well afterwards."
            ),
            Self::UsedTank => whole!(
                "Never weld, cut or grind a tank that has held fuel, oil or any liquid whose vapour burns, unless it was cleaned, made safe and tested by someone trained and licensed for it. An empty tank is not a safe one: a spoonful left in a seam is enough to kill. Build a new tank instead."
            ),
            Self::VentFirst => whole!(
                "Air or moisture shut in a tank, a double wall, a box of baffles or a tube bursts it when it is heated. Open every hollow before the first arc, and leave it open to the last."
            ),
            Self::Argon => whole!(
                "Argon cannot be seen or smelt and is heavier than air: in tanks, pits and closed rooms it takes the place of what you breathe, and you fall without a warning. Never enter a purged tank or put your head into it, air the shop, shut the gas off when you leave, and do not go in after someone who fell."
            ),
            Self::CoatedMetal => whole!(
                "Fume of zinc, cadmium, lead, chromate primer and paint poisons. Strip coatings well back from the seam by a way that makes no dust to breathe; do not weld cadmium or lead at all without extraction and breathing gear that fit them."
            ),
            Self::ChlorinatedSolvent => whole!(
                "Rays and heat of an arc turn vapour of chlorinated cleaners (trichloroethylene, perchloroethylene, some brake cleaners) to phosgene, which kills hours later. Keep them out of the shop in which you weld. Let any other solvent dry off completely, and keep its vapour from the arc."
            ),
            Self::ArcRays => whole!(
                "On aluminium the arc passes the daily limit of ultraviolet for bare skin and eyes in 3 to 33 seconds at half a metre. Wear a helmet with the shade for the current, cover all skin, and screen others from the arc and from bright sheet that throws it back."
            ),
            Self::OzoneFume => whole!(
                "The arc makes ozone, most of it on aluminium (the United Kingdom allows 0.2 ppm over 15 minutes), and all welding fume is counted as a cause of cancer. Draw it off at the arc, keep your head out of it, and use breathing gear where air does not move. Prefer tungsten without thorium: its grinding dust is radioactive."
            ),
            Self::StainlessFume => whole!(
                "Fume of stainless steel holds chromium(VI) and nickel, which cause cancer and asthma; many countries set limits for them. Extract at the arc, and use breathing gear that fits."
            ),
            Self::HotAluminium => whole!(
                "Aluminium does not glow before it melts and looks the same hot and cold. Mark hot work, test it with a crayon or a thermometer, and handle it with gloves."
            ),
            Self::CausticWash => whole!(
                "Caustic soda and other strong alkalis eat aluminium and make hydrogen, which explodes; washes meant for steel tanks often hold them. Use a cleaner whose maker names aluminium, and air the tank well before any arc."
            ),
            Self::Implants => whole!(
                "Welding current and the high frequency that starts a TIG arc can upset pacemakers, defibrillators and other implants. Whoever has one asks the clinic that fitted it first, and stays away until it agrees. Keep cables together, off the body, and the set at a distance; instruments and computers suffer too."
            ),
            Self::DrinkingWater => whole!(
                "A tank for drinking water may only be made of metals, fillers, sealants and hoses that are approved for it where it is used. Clean off all oil, flux and oxide, rinse, disinfect, and have the water tested."
            ),
            Self::FuelUs => whole!(
                "Fuel tanks of boats in the United States: petrol under 33 CFR 183 subpart J, which sets tests, labels and installation; diesel tanks of inspected vessels under 46 CFR 58.50 and 119, which also set alloy and thickness. Vehicles have 49 CFR 393.67. A tank built here has passed none of these."
            ),
            Self::FuelEu => whole!(
                "Fuel tanks of small craft in the European Union: Directive 2013/53/EU, for which EN ISO 21487 sets material, thickness, tests and marking; installation has standards of its own. Vehicles need type approval. A tank built here has passed none of these."
            ),
            Self::FuelUk => whole!(
                "Fuel tanks of small craft in the United Kingdom: the Recreational Craft Regulations 2017, with BS EN ISO 21487; many inland waters ask for a safety scheme's certificate too. Vehicles need approval. A tank built here has passed none of these."
            ),
            Self::LocalCode => whole!(
                "Codes for tanks of fuel, heating oil, pressure, drinking water, boats, vehicles and aircraft differ from place to place, and some of this work is kept for licensed people. Ask the authority and the insurer before you build; nothing printed here is an approval."
            ),
        }
    }

    /// Where it is from.
    #[must_use]
    pub const fn source(self) -> &'static str {
        match self {
            Self::PressureTest => "HSE GS4; ASME PCC-2 article 501",
            Self::WaterTest => "common practice, no source",
            Self::UsedTank => {
                "HSE INDG314; ANSI/AWS F4.1; FAA AC 43.13-1B 4-112; NFPA 326 (from memory)"
            }
            Self::VentFirst => {
                "California Title 8 section 5166; 29 CFR 1910.252(a)(3) (from memory)"
            }
            Self::Argon => "HSE, Asphyxiation hazards in welding and allied processes",
            Self::CoatedMetal => "29 CFR 1910.252(c) (from memory)",
            Self::ChlorinatedSolvent => "29 CFR 1910.252(c)(11) (from memory)",
            Self::ArcRays => "Nakashima and others (2016), ultraviolet of TIG on aluminium",
            Self::OzoneFume => "HSE OC 668/17; IARC Monograph 118 (from memory)",
            Self::StainlessFume => "29 CFR 1910.1026 and IARC Monograph 118 (from memory)",
            Self::HotAluminium => "common practice, no source",
            Self::CausticWash => "common chemistry, no source; a wash for steel: FAA AC 43.13-1B",
            Self::Implants => "TWI, heart pacemakers and welding",
            Self::DrinkingWater => {
                "NSF/ANSI/CAN 61; Regulation 31 and Directive 2020/2184 (from memory)"
            }
            Self::FuelUs => "33 CFR 183 subpart J; 46 CFR 58.50, 119.435; 49 CFR 393.67",
            Self::FuelEu => "Directive 2013/53/EU (from memory); ISO 21487",
            Self::FuelUk => "SI 2017/737 (from memory); ISO 21487",
            Self::LocalCode => "common practice, no source",
        }
    }
}
