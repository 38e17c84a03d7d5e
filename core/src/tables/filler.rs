//! Filler rods and wires: what they are made of and how strong they are, each figure with its source.

use core::str::FromStr;

use super::{Family, Process, Source, Sourced};
use crate::units::{Pressure, PressureUnit, Ratio, Temperature, TemperatureUnit};

/// One row, in whole numbers of a small unit: see the methods.
struct Row {
    name: &'static str,
    family: Family,
    density: (u16, Source),
    /// Magnesium, silicon, manganese, nominal, hundredths of a per cent.
    parts: [u16; 3],
    parts_source: Source,
    /// Solidus and liquidus, °C.
    melting: Option<(u16, u16, Source)>,
    /// Ultimate strength of the weld metal, `MPa`.
    ultimate: (u16, Source),
    /// Shear strength in fillets, `MPa`.
    shear: Option<u16>,
}

macro_rules! fillers {
    ($($(#[$doc:meta])* $variant:ident: $name:literal, $family:ident, $density:literal $density_source:ident,
        $parts:tt $parts_source:ident, $melting:expr, $ultimate:literal $ultimate_source:ident, $shear:expr;)+) => {
        /// A filler rod or wire.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        #[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
        #[cfg_attr(feature = "defmt", derive(defmt::Format))]
        pub enum Filler { $($(#[$doc])* $variant),+ }

        impl Filler {
            /// Every filler.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];

            const fn row(self) -> &'static Row {
                match self {
                    $(Self::$variant => {
                        static ROW: Row = Row {
                            name: $name,
                            family: Family::$family,
                            density: ($density, Source::$density_source),
                            parts: $parts,
                            parts_source: Source::$parts_source,
                            melting: $melting,
                            ultimate: ($ultimate, Source::$ultimate_source),
                            shear: $shear,
                        };
                        &ROW
                    }),+
                }
            }
        }
    };
}

/// A melting range.
const fn melts(solidus: u16, liquidus: u16) -> Option<(u16, u16, Source)> {
    Some((solidus, liquidus, Source::DataSheets))
}

fillers! {
    /// 99 % aluminium.
    R1100: "1100", Aluminium, 2_710 AluminumAssociation, [0, 0, 0] AwsA5Point10, melts(643, 657),
        75 DesignManualMemory, Some(50);
    /// Aluminium with 5 % silicon.
    R4043: "4043", Aluminium, 2_690 AluminumAssociation, [0, 520, 0] AwsA5Point10, melts(573, 632),
        120 Din1732, Some(80);
    /// Aluminium with 12 % silicon.
    R4047: "4047", Aluminium, 2_660 AluminumAssociation, [0, 1_200, 0] AwsA5Point10, melts(577, 582),
        130 Din1732, None;
    /// Aluminium with 4.75 % magnesium and some manganese.
    R5183: "5183", Aluminium, 2_660 AluminumAssociation, [475, 0, 75] AwsA5Point10, melts(579, 638),
        275 Din1732, Some(145);
    /// Aluminium with 5 % magnesium.
    R5356: "5356", Aluminium, 2_640 AluminumAssociation, [500, 0, 12] AwsA5Point10, melts(571, 635),
        240 Din1732, Some(115);
    /// Aluminium with 2.7 % magnesium, for service above 65 °C.
    R5554: "5554", Aluminium, 2_690 AluminumAssociation, [270, 0, 75] AwsA5Point10, melts(602, 646),
        215 Din1732, Some(115);
    /// Aluminium with 5.1 % magnesium and some manganese.
    R5556: "5556", Aluminium, 2_660 AluminumAssociation, [510, 0, 75] AwsA5Point10, None,
        275 Din1732, Some(140);
    /// Stainless, for 304 and 304L.
    Er308L: "ER308L", Stainless, 7_900 En10088, [0, 48, 175] AwsA5Point9, None, 520 AwsA5Point9Strength, None;
    /// Stainless, for joints with carbon steel.
    Er309L: "ER309L", Stainless, 7_900 En10088, [0, 48, 175] AwsA5Point9, None, 520 AwsA5Point9Strength, None;
    /// Stainless with molybdenum, for 316 and 316L.
    Er316L: "ER316L", Stainless, 8_000 En10088, [0, 48, 175] AwsA5Point9, None, 490 AwsA5Point9Strength, None;
    /// Carbon steel with aluminium, titanium and zirconium against oxygen.
    Er70s2: "ER70S-2", Steel, 7_850 En1993Part1, [0, 55, 115] AwsA5Point18, None, 480 AwsA5Point18, None;
    /// Carbon steel with more silicon and manganese.
    Er70s6: "ER70S-6", Steel, 7_850 En1993Part1, [0, 98, 163] AwsA5Point18, None, 480 AwsA5Point18, None;
    // New ones go to the end, for programs that know a filler by its place.
    /// Wire with a core of rutile flux, for carbon steel.
    E71t1: "E71T-1", Steel, 7_850 En1993Part1, [0, 45, 88] AwsA5Point20, None, 490 AwsA5Point20, None;
    /// Stainless wire with a core of flux, for 304 and 304L.
    E308Lt1: "E308LT1", Stainless, 7_900 En10088, [0, 50, 150] AwsA5Point22, None, 520 AwsA5Point22, None;
    /// Stainless wire with a core of flux, for joints with carbon steel.
    E309Lt1: "E309LT1", Stainless, 7_900 En10088, [0, 50, 150] AwsA5Point22, None, 520 AwsA5Point22, None;
    /// Stainless wire with molybdenum and a core of flux, for 316 and 316L.
    E316Lt1: "E316LT1", Stainless, 8_000 En10088, [0, 50, 150] AwsA5Point22, None, 485 AwsA5Point22, None;
}

fn share((hundredths, source): (u16, Source)) -> Sourced<Ratio> {
    Sourced::new(Ratio::from_share(f64::from(hundredths) / 1e4), source)
}

fn megapascals((value, source): (u16, Source)) -> Sourced<Pressure> {
    Sourced::new(
        Pressure::new(f64::from(value), PressureUnit::Megapascal),
        source,
    )
}

impl Filler {
    /// Its classification.
    #[must_use]
    pub const fn name(self) -> &'static str {
        self.row().name
    }

    /// Its family.
    #[must_use]
    pub const fn family(self) -> Family {
        self.row().family
    }

    /// Density, in kg/m³; of a stainless or carbon steel rod, that of the sheet it is made for.
    #[must_use]
    pub fn density(self) -> Sourced<f64> {
        let (value, source) = self.row().density;
        Sourced::new(f64::from(value), source)
    }

    /// Magnesium, nominal or the middle of the range.
    #[must_use]
    pub fn magnesium(self) -> Sourced<Ratio> {
        let [magnesium, _, _] = self.row().parts;
        share((magnesium, self.row().parts_source))
    }

    /// Silicon, nominal or the middle of the range; none where it is an impurity.
    #[must_use]
    pub fn silicon(self) -> Sourced<Ratio> {
        let [_, silicon, _] = self.row().parts;
        share((silicon, self.row().parts_source))
    }

    /// Manganese, nominal or the middle of the range.
    #[must_use]
    pub fn manganese(self) -> Sourced<Ratio> {
        let [_, _, manganese] = self.row().parts;
        share((manganese, self.row().parts_source))
    }

    /// Where it begins to melt and where it is all liquid; `None` where no figure is known.
    #[must_use]
    pub fn melting(self) -> Option<Sourced<[Temperature; 2]>> {
        let (solidus, liquidus, source) = self.row().melting?;
        let at = |value| Temperature::new(f64::from(value), TemperatureUnit::Celsius);
        Some(Sourced::new([at(solidus), at(liquidus)], source))
    }

    /// Ultimate strength of the weld metal itself, the least.
    #[must_use]
    pub fn ultimate(self) -> Sourced<Pressure> {
        megapascals(self.row().ultimate)
    }

    /// Shear strength in a fillet; `None` where no figure is known. Provisional: for comparing fillers, not
    /// for the design of a joint.
    #[must_use]
    pub fn shear(self) -> Option<Sourced<Pressure>> {
        self.row()
            .shear
            .map(|value| megapascals((value, Source::FillerShear)))
    }

    /// Whether it is a wire with a core of flux; all others are solid, drawn as rods and as wires.
    #[must_use]
    pub const fn is_cored(self) -> bool {
        matches!(
            self,
            Self::E71t1 | Self::E308Lt1 | Self::E309Lt1 | Self::E316Lt1
        )
    }

    /// The solid filler whose weld metal is alike; itself for a solid one.
    #[must_use]
    pub const fn solid(self) -> Self {
        match self {
            Self::E71t1 => Self::Er70s6,
            Self::E308Lt1 => Self::Er308L,
            Self::E309Lt1 => Self::Er309L,
            Self::E316Lt1 => Self::Er316L,
            solid => solid,
        }
    }

    /// Whether it is made in the form that a process takes.
    #[must_use]
    pub const fn is_for(self, process: Process) -> bool {
        self.is_cored() == matches!(process, Process::FluxCored)
    }

    /// Whether it is of aluminium and silicon.
    #[must_use]
    pub const fn is_silicon(self) -> bool {
        matches!(self, Self::R4043 | Self::R4047)
    }

    /// Whether it is of aluminium and magnesium.
    #[must_use]
    pub const fn is_magnesium(self) -> bool {
        matches!(self, Self::R5183 | Self::R5356 | Self::R5554 | Self::R5556)
    }
}

named! {
    Filler,
    /// A word that names no filler of the table.
    NotAFiller: "no filler of the table has this name"
}

impl FromStr for Filler {
    type Err = NotAFiller;

    /// By its classification, for aluminium with or without `ER`.
    fn from_str(text: &str) -> Result<Self, NotAFiller> {
        let text = text.trim();
        let bare = text.strip_prefix("ER").unwrap_or(text);
        Self::called(text).or_else(|_| Self::called(bare))
    }
}
