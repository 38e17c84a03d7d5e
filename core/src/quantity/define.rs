//! The one shape that every quantity shares: a newtype over an SI `f64` and a list of units.

/// Writes one quantity: its newtype, its unit enum, and the conversions between them.
///
/// A unit's size is a ratio of two exactly representable numbers, `si = value * num / den + offset`,
/// so that 320 mm is the double nearest to 0.32 m and not a product with a rounded 0.001.
macro_rules! quantity {
    (
        $(#[$doc:meta])*
        $name:ident, $unit:ident, $si:ident, $what:literal,
        [$( $(#[$udoc:meta])* $variant:ident = $num:literal / $den:literal $(+ $off:literal)?, $symbol:literal, [$($alias:literal),*] );+ $(;)?]
    ) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
        #[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(transparent))]
        #[cfg_attr(feature = "defmt", derive(defmt::Format))]
        pub struct $name(f64);

        #[doc = concat!("The units in which ", $what, " is read and written.")]
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        #[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
        #[cfg_attr(feature = "defmt", derive(defmt::Format))]
        pub enum $unit { $( $(#[$udoc])* $variant ),+ }

        impl $name {
            #[doc = concat!("What this quantity is called in a message: \"", $what, "\".")]
            pub const WHAT: &'static str = $what;

            #[doc = concat!("From a plain number in the SI unit of ", $what, ".")]
            #[must_use]
            pub const fn $si(value: f64) -> Self { Self(value) }

            #[doc = concat!("The plain number in the SI unit of ", $what, ".")]
            #[must_use]
            pub const fn si(self) -> f64 { self.0 }

            /// From a number of `unit`.
            #[must_use]
            pub const fn new(value: f64, unit: $unit) -> Self {
                let (num, den, offset) = unit.ratio();
                Self(value * num / den + offset)
            }

            /// The number of `unit` that this is.
            #[must_use]
            pub const fn in_unit(self, unit: $unit) -> f64 {
                let (num, den, offset) = unit.ratio();
                (self.0 - offset) * den / num
            }
        }

        impl $unit {
            /// Every unit, the usual one first.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];

            /// The symbol it is written with.
            #[must_use]
            pub const fn symbol(self) -> &'static str {
                match self { $(Self::$variant => $symbol),+ }
            }

            /// Other spellings under which it is read.
            #[must_use]
            pub const fn aliases(self) -> &'static [&'static str] {
                match self { $(Self::$variant => &[$($alias),*]),+ }
            }

            /// `(num, den, offset)` with `si = value * num / den + offset`.
            const fn ratio(self) -> (f64, f64, f64) {
                match self { $(Self::$variant => ($num as f64, $den as f64, 0.0 $(+ $off)?)),+ }
            }
        }
    };
}
pub(crate) use quantity;
