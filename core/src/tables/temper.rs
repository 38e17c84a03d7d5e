//! Temper designations.

use core::str::FromStr;

macro_rules! tempers {
    ($first:ident: $first_name:literal, $($variant:ident: $name:literal),+ $(,)?) => {
        /// How a sheet was worked or heat-treated; designations of EN 515 and ANSI H35.1.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        #[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
        #[cfg_attr(feature = "defmt", derive(defmt::Format))]
        #[expect(missing_docs, reason = "each is the designation itself")]
        // From 1, so that no temper at all is zero: see `Tank::EMPTY`.
        pub enum Temper { $first = 1, $($variant),+ }

        impl Temper {
            /// Every temper.
            pub const ALL: &'static [Self] = &[Self::$first, $(Self::$variant),+];

            /// The designation.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self { Self::$first => $first_name, $(Self::$variant => $name),+ }
            }
        }
    };
}

tempers! {
    F: "F", O: "O", H111: "H111", H112: "H112", H116: "H116", H321: "H321",
    H12: "H12", H14: "H14", H16: "H16", H18: "H18",
    H22: "H22", H24: "H24", H26: "H26", H28: "H28",
    H32: "H32", H34: "H34", H36: "H36", H38: "H38",
    T4: "T4", T5: "T5", T6: "T6", T651: "T651",
    Annealed: "annealed",
}

named! {
    Temper,
    /// A word that is no temper.
    NotATemper: "no temper of the table has this designation"
}

impl FromStr for Temper {
    type Err = NotATemper;

    fn from_str(text: &str) -> Result<Self, NotATemper> {
        Self::called(text.trim())
    }
}
