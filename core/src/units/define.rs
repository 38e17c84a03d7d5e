//! The one shape that every quantity shares: a newtype over an SI `f64` and a list of units.

/// Writes one quantity: its newtype, its unit enum, and the conversions between them.
///
/// A unit's size is a ratio of two exactly representable numbers and a zero of its own,
/// `si = (value - zero) * num / den`, so that 320 mm is the double nearest to 0.32 m and not a
/// product with a rounded 0.001, and 0 °F is 459.67 of its own degrees above absolute zero.
macro_rules! quantity {
    (
        $(#[$doc:meta])*
        $name:ident, $unit:ident, $si:ident, $what:literal,
        [$(
            $(#[$udoc:meta])*
            $variant:ident = $num:tt / $den:tt $(from $zero:literal)?, $symbol:literal, [$($alias:literal),*]
        );+ $(;)?]
        $(, fractions [$($fraction:ident),+], compound $big:ident = $count:literal $small:ident)?
    ) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
        #[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(transparent))]
        #[cfg_attr(feature = "defmt", derive(defmt::Format))]
        pub struct $name(f64);

        #[doc = concat!("The units in which ", $what, " is read and written.")]
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
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
                let (num, den, zero) = unit.ratio();
                Self((value - zero) * num / den)
            }

            /// The number of `unit` that this is.
            #[must_use]
            pub const fn in_unit(self, unit: $unit) -> f64 {
                let (num, den, zero) = unit.ratio();
                self.0 * den / num + zero
            }

            #[doc = concat!("Reads ", $what, " with its unit.")]
            ///
            /// # Errors
            ///
            /// Says what does not read and where: see [`ParseError`](crate::units::ParseError).
            pub fn parse(text: &str) -> Result<Self, $crate::units::ParseError> {
                $crate::units::parse(text)
            }

            #[doc = concat!("Reads ", $what, " and says in which unit it was written.")]
            ///
            /// Of a measure in two units ("3 ft 2 in") that is the smaller one.
            ///
            /// # Errors
            ///
            /// Says what does not read and where: see [`ParseError`](crate::units::ParseError).
            pub fn parse_with_unit(text: &str) -> Result<(Self, $unit), $crate::units::ParseError> {
                $crate::units::parse_with_unit(text)
            }

            /// Printed in `unit` to `places` decimals, with the symbol: see
            /// [`WithUnit`](crate::units::WithUnit).
            #[must_use]
            pub const fn display(self, unit: $unit, places: u8) -> $crate::units::WithUnit {
                $crate::units::WithUnit::new(self.number(unit, places), unit.symbol())
            }

            /// The same without the symbol, for a screen that draws the unit apart.
            #[must_use]
            pub const fn number(self, unit: $unit, places: u8) -> $crate::units::Decimal {
                $crate::units::Decimal::new(self.in_unit(unit), places)
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

            /// `(num, den, zero)` with `si = (value - zero) * num / den`.
            const fn ratio(self) -> (f64, f64, f64) {
                match self { $(Self::$variant => ($num, $den, 0.0 $(+ $zero)?)),+ }
            }
        }

        impl $crate::units::Quantity for $name {
            type Unit = $unit;
            const ABOUT: &'static $crate::units::About = &$crate::units::About {
                what: $what,
                symbols: &[$($symbol),+],
                fractions: !<[&str]>::is_empty(&[$($(stringify!($fraction)),+)?]),
            };
            fn of(value: f64, unit: $unit) -> Self { Self::new(value, unit) }
            fn from_si(value: f64) -> Self { Self(value) }
            fn si(self) -> f64 { self.0 }
            fn in_unit(self, unit: $unit) -> f64 { Self::in_unit(self, unit) }
        }

        impl $crate::units::Unit for $unit {
            const ALL: &'static [Self] = Self::ALL;
            const COMPOUNDS: &'static [(Self, Self, f64)] = &[$((Self::$big, Self::$small, $count))?];
            fn symbol(self) -> &'static str { Self::symbol(self) }
            fn aliases(self) -> &'static [&'static str] { Self::aliases(self) }
            fn takes_fractions(self) -> bool {
                $($(self == Self::$fraction ||)+)? false
            }
        }
    };
}
pub(crate) use quantity;
