//! Where a figure is from: each source written once, and named beside every figure that rests on it.

use core::fmt;

macro_rules! sources {
    ($($variant:ident: $text:literal),+ $(,)?) => {
        /// What a figure of the tables rests on; [`text`](Self::text) says it in words.
        ///
        /// "(from memory)" marks what was written down from memory of the work named.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        #[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
        #[cfg_attr(feature = "defmt", derive(defmt::Format))]
        #[expect(missing_docs, reason = "each is described by its own text")]
        #[repr(u8)]
        pub enum Source { $($variant),+ }

        impl Source {
            /// Every source.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];

            /// The source in words.
            #[must_use]
            pub const fn text(self) -> &'static str {
                match self { $(Self::$variant => $text),+ }
            }
        }
    };
}

sources! {
    AluminumAssociation: "Aluminum Association, Aluminum Standards and Data, typical properties (from memory)",
    AluminumAssociationReprint: "Aluminum Association typical properties, as alloy data sheets reprint them",
    DataSheets: "EN AW data sheets after Aluminum Association typical values (from memory)",
    DataSheetsLow: "EN AW data sheets, low end of the range that they print (from memory)",
    Listing5754: "a listing of EN AW-5754 properties",
    AsmVolume2: "ASM Handbook, vol. 2, properties of wrought aluminium (from memory)",
    AsmVolume1: "ASM Handbook, vol. 1, properties of steels (from memory)",
    DesignManual: "Aluminum Design Manual, table 3.3-1M, least of sheet and plate",
    DesignManualModulus: "Aluminum Design Manual, table 3.3-1M, modulus in compression",
    DesignManualMemory: "Aluminum Design Manual, table 3.3-1, least of sheet and plate (from memory)",
    En485: "EN 485-2, least, as a listing of the alloy prints it",
    En485Memory: "EN 485-2, least (from memory)",
    En573: "EN 573-3 (from memory)",
    En573Read: "EN 573-3, as a listing of the alloy prints it",
    En1993Part1: "EN 1993-1-1, 3.2.6 (from memory)",
    En1993Part2: "EN 1993-1-2, 3.4.1, at 20 °C (from memory)",
    En10028Steel: "EN 10028-2, least of P235GH, as a share of 20 °C (from memory)",
    En10028Stainless: "EN 10028-7, least of 1.4307 and 1.4404, as a share of 20 °C (from memory)",
    En1999Fire: "EN 1999-1-2, table 1b, lower limit of all alloys after two hours, and table 2 (from memory)",
    En1999: "EN 1999-1-1, 3.2.5 (from memory)",
    En1999Softened: "EN 1999-1-1, tables 3.2, heat-affected zone (from memory)",
    En1999Tig: "EN 1999-1-1, tables 3.2, heat-affected zone, with the note for TIG (from memory)",
    En1999Width: "EN 1999-1-1, 6.1.6.3, as an engineering article reprints it; over 60 °C and 6 mm (from memory)",
    AwsD1Point2: "AWS D1.2 and Aluminum Design Manual, least across a groove weld (from memory)",
    AnnealedSheet: "taken as the annealed sheet: EN 485-2 (from memory)",
    En10088: "EN 10088-1 (from memory)",
    En10088Part2: "EN 10088-2, least (from memory)",
    AstmA240: "ASTM A240, least (from memory)",
    AstmA36: "ASTM A36, least (from memory)",
    En10025: "EN 10025-2, S235, least (from memory)",
    En10025Sheet: "EN 10025-2, least of sheet up to 16 mm (from memory)",
    En10111: "EN 10111, DD11, least of yield; ultimate taken as DC01's (from memory)",
    En10130: "EN 10130, DC01, least (from memory)",
    En10025Table2: "EN 10025-2:2004, table 2, most in the ladle up to 16 mm (read), table 6 (from memory)",
    SheetCarbon: "most in the ladle: EN 10130, DC01, or EN 10111, DD11 (from memory)",
    AnnealedParent: "taken as the annealed parent: its own standard, least (from memory)",
    EmissivityTable: "an instrument maker's table of total emissivities",
    EmissivityTableLow: "an instrument maker's table of total emissivities, low end of 0.20 to 0.31",
    Incropera: "Incropera and DeWitt, table A.11 (from memory)",
    AwsA5Point10: "AWS A5.10, also ISO 18273 (from memory)",
    AwsA5Point9: "AWS A5.9 (from memory)",
    AwsA5Point18: "AWS A5.18, least as welded (from memory)",
    AwsA5Point20: "AWS A5.20, E71T-1, middle of its limits, least as welded (from memory)",
    AwsA5Point22: "AWS A5.22, middle of its limits, least as welded (from memory)",
    AwsA5Point9Strength: "AWS A5.9, annex, least as welded (from memory)",
    Din1732: "DIN 1732-3, least of the weld metal (from memory)",
    FillerShear: "Aluminum Design Manual, shear strength of fillers in fillets, provisional (from memory)",
    Mathers: "G. Mathers, The Welding of Aluminium and its Alloys (2002), pp. 48-50",
    MathersCracking: "G. Mathers, The Welding of Aluminium and its Alloys (2002), table 2.4; ranges (from memory)",
    Corrosion1959: "Dix and others, Corrosion 15 (1959), no. 2; Mathers (2002), p. 49",
    TradeArticles: "trade articles on filler choice",
    En1011Part4: "EN 1011-4, as a maker of consumables reprints it (attribution from memory)",
    AwsD1Point2Preheat: "AWS D1.2, as a guide to preheat reprints it",
    Navsea: "NAVSEA S9074-AR-GIB-010/278, table V",
    En1011Part3: "EN 1011-3, provisional (from memory)",
    AwsD1Point1: "AWS D1.1, table of least preheat, as a guide to preheat reprints it",
    SchaefflerDeLong: "Schaeffler and WRC-1992 diagrams, target 3 to 10 FN (from memory)",
    Practice: "common practice, no source",
}

impl fmt::Display for Source {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.text())
    }
}

/// A figure and what it rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Sourced<T> {
    /// The figure.
    pub value: T,
    /// What it rests on.
    pub source: Source,
}

impl<T> Sourced<T> {
    /// A figure and its source.
    #[must_use]
    pub const fn new(value: T, source: Source) -> Self {
        Self { value, source }
    }
}
