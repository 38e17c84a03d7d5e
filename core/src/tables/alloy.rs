//! Sheet alloys: the family and the density of each. What else is known of them is in
//! [`metal`](super::metal).

use crate::units::Density;
use core::str::FromStr;

use super::Source;

/// How a metal behaves under the arc, as far as rules of thumb go by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Family {
    /// Aluminium and its alloys.
    Aluminium,
    /// Austenitic stainless steel.
    Stainless,
    /// Low-carbon steel.
    Steel,
}

/// One row of the table of alloys.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Row {
    /// The name it is ordered by.
    pub name: &'static str,
    /// Its family.
    pub family: Family,
    /// In kg/m³ at 20 °C.
    pub density: f64,
    /// Where the density is from.
    pub source: Source,
}

macro_rules! alloys {
    ($($(#[$doc:meta])* $variant:ident: $name:literal, $family:ident, $density:literal, $source:ident;)+) => {
        /// A sheet alloy.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        #[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
        #[cfg_attr(feature = "defmt", derive(defmt::Format))]
        pub enum Alloy { $($(#[$doc])* $variant),+ }

        impl Alloy {
            /// Every alloy.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];

            /// Its row of the table.
            #[must_use]
            pub const fn row(self) -> Row {
                match self {
                    $(Self::$variant => Row {
                        name: $name, family: Family::$family, density: $density, source: Source::$source,
                    }),+
                }
            }
        }
    };
}

alloys! {
    /// 99.5 % aluminium.
    A1050: "1050", Aluminium, 2_705.0, DataSheets;
    /// 99.0 % aluminium.
    A1100: "1100", Aluminium, 2_710.0, AluminumAssociation;
    /// Al-Mn.
    A3003: "3003", Aluminium, 2_730.0, AluminumAssociation;
    /// Al-Mn, with less copper than 3003.
    A3103: "3103", Aluminium, 2_730.0, DataSheets;
    /// Al-Mg, 0.8 % Mg.
    A5005: "5005", Aluminium, 2_700.0, AluminumAssociation;
    /// Al-Mg, 2.5 % Mg.
    A5052: "5052", Aluminium, 2_680.0, AluminumAssociation;
    /// Al-Mg, 4.4 % Mg.
    A5083: "5083", Aluminium, 2_660.0, AluminumAssociation;
    /// Al-Mg, 4 % Mg.
    A5086: "5086", Aluminium, 2_660.0, AluminumAssociation;
    /// Al-Mg, 2.7 % Mg, for service above 65 °C.
    A5454: "5454", Aluminium, 2_690.0, AluminumAssociation;
    /// Al-Mg, 3.1 % Mg.
    A5754: "5754", Aluminium, 2_670.0, DataSheets;
    /// Al-Mg-Si.
    A6061: "6061", Aluminium, 2_700.0, AluminumAssociation;
    /// Al-Mg-Si, for extrusions.
    A6063: "6063", Aluminium, 2_700.0, AluminumAssociation;
    /// Al-Mg-Si, stronger.
    A6082: "6082", Aluminium, 2_700.0, DataSheets;
    /// 1.4301.
    S304: "304", Stainless, 7_900.0, En10088;
    /// 1.4307.
    S304L: "304L", Stainless, 7_900.0, En10088;
    /// 1.4401.
    S316: "316", Stainless, 8_000.0, En10088;
    /// 1.4404.
    S316L: "316L", Stainless, 8_000.0, En10088;
    /// Low-carbon sheet and plate whose grade is not told: the weakest of S235, A36 and DC01.
    LowCarbonSteel: "low-carbon steel", Steel, 7_850.0, En1993Part1;
    // On the wire an alloy is its place in this list: new ones go to its end.
    /// Hot-rolled structural steel, 1.0038.
    S235: "S235JR", Steel, 7_850.0, En1993Part1;
    /// Hot-rolled structural steel, 1.0044.
    S275: "S275JR", Steel, 7_850.0, En1993Part1;
    /// Hot-rolled structural steel, 1.0577.
    S355: "S355J2", Steel, 7_850.0, En1993Part1;
    /// Cold-rolled sheet for forming, 1.0330.
    Dc01: "DC01", Steel, 7_850.0, En1993Part1;
    /// Hot-rolled sheet for forming, 1.0332.
    Dd11: "DD11", Steel, 7_850.0, En1993Part1;
}

impl Alloy {
    /// The name it is ordered by.
    #[must_use]
    pub const fn name(self) -> &'static str {
        self.row().name
    }

    /// Its family.
    #[must_use]
    pub const fn family(self) -> Family {
        self.row().family
    }

    /// Its density.
    #[must_use]
    pub const fn density(self) -> Density {
        Density::from_kilograms_per_cubic_metre(self.row().density)
    }
}

named! {
    Alloy,
    /// A word that names no alloy of the table.
    NotAnAlloy: "no alloy of the table has this name"
}

impl FromStr for Alloy {
    type Err = NotAnAlloy;

    /// By its name, with or without `EN AW-`, by its number in EN 10027-2, or by a short or common name of a steel.
    fn from_str(text: &str) -> Result<Self, NotAnAlloy> {
        let text = text.trim();
        let bare = text.strip_prefix("EN AW-").unwrap_or(text);
        Ok(match bare {
            "A36" | "steel" | "mild steel" => Self::LowCarbonSteel,
            "S235" | "1.0038" => Self::S235,
            "S275" | "1.0044" => Self::S275,
            "S355" | "1.0577" => Self::S355,
            "1.0330" => Self::Dc01,
            "1.0332" => Self::Dd11,
            "1.4301" => Self::S304,
            "1.4307" => Self::S304L,
            "1.4401" => Self::S316,
            "1.4404" => Self::S316L,
            name => return Self::called(name),
        })
    }
}
