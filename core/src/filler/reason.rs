//! Why a mark is what it is.

use core::fmt;

use crate::tables::Source;

macro_rules! reasons {
    ($($variant:ident: $source:ident, $text:literal;)+) => {
        /// Why a mark is what it is; [`text`](Self::text) says it in words.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        #[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
        #[cfg_attr(feature = "defmt", derive(defmt::Format))]
        #[expect(missing_docs, reason = "each is described by its own text")]
        #[repr(u8)]
        pub enum FillerReason { $($variant),+ }

        impl FillerReason {
            /// Every reason.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];

            /// The reason in words.
            #[must_use]
            pub const fn text(self) -> &'static str {
                match self { $(Self::$variant => $text),+ }
            }

            /// What it rests on.
            #[must_use]
            pub const fn source(self) -> Source {
                match self { $(Self::$variant => Source::$source),+ }
            }
        }
    };
}

reasons! {
    NotAsked: Practice, "not asked for";
    NotFused: Practice, "aluminium and steel are not welded to each other by fusion";
    OtherMetal: Practice, "a filler of another family of metals";
    OtherForm: Practice, "not made in the form that the process takes";
    WireIsElectrode: Practice, "the wire is itself the electrode: there is no arc without it";

    WeldMetalClear: MathersCracking, "the bead has silicon or magnesium enough to freeze without cracks";
    WeldMetalNear: MathersCracking, "the bead lies near the range that cracks: melt little of the sheet";
    WeldMetalCracks: MathersCracking, "the bead lies in the range that cracks as it freezes";
    WeldMetalPlain: Practice, "the bead has little that cracks, and nothing that fills a crack";
    MagnesiumOnHeatTreated: Mathers, "on an Al-Mg-Si sheet silicon filler cracks less";
    SiliconOnMagnesium: Mathers, "with more than 2.5 % magnesium in the sheet, silicon makes a brittle bead";
    SiliconOnTheLine: Mathers, "with 2 to 2.5 % magnesium in the sheet, silicon filler only where strength and stretch are secondary";
    PureOnAlloyed: MathersCracking, "a pure filler takes magnesium and silicon from this sheet into the range that cracks";
    HeatTreatedUnfilled: Mathers, "Al-Mg-Si sheet fused without filler cracks";
    HotShortUnfilled: TradeArticles, "this sheet fused without filler is hot-short: it cracks";
    PlainUnfilled: Practice, "edges fused without filler: craters need care";

    AsStrong: Din1732, "the bead is as strong as the welded sheet beside it";
    Weaker: Din1732, "the bead by itself is weaker than the welded sheet beside it";
    MuchWeaker: Din1732, "the bead by itself is much weaker than the welded sheet beside it";
    SteelStrong: AwsA5Point9Strength, "the bead is as strong as the sheet";
    SteelWeaker: AwsA5Point9Strength, "the bead may be a little weaker than the sheet";
    FusedStrength: Practice, "the bead is the sheet itself, as cast, and no thicker";

    Stretches: Mathers, "the bead stretches well";
    StretchesLess: Mathers, "others stretch further";
    SiliconStretch: Mathers, "a bead with silicon stretches less";
    MuchSilicon: Practice, "a bead with 12 % silicon stretches little";

    Matched: Mathers, "made like the sheet, so neither corrodes the other";
    Unmatched: Mathers, "another make than the sheet: in salt water a matched filler lasts longer";
    SiliconOnAlMg: Mathers, "silicon filler on Al-Mg sheet corrodes first";

    Cool: Corrosion1959, "not above 65 °C, where magnesium does no harm";
    WarmSafe: Corrosion1959, "no more than 3 % magnesium, so fit for service above 65 °C";
    WarmFiller: Corrosion1959, "above 65 °C a filler with more than 3 % magnesium grows prone to stress corrosion";
    WarmSheet: Corrosion1959, "above 65 °C the sheet itself grows prone to stress corrosion: choose another alloy";
    WarmSheetBorder: Corrosion1959, "above 65 °C this sheet is a border case: it may have more than 3 % magnesium";

    ColourMatches: Mathers, "anodises like the sheet";
    ColourNear: Mathers, "anodises to a somewhat other shade";
    ColourGrey: TradeArticles, "silicon anodises dark grey to black";

    MadeForIt: AwsA5Point9, "made for this sheet";
    MadeForBoth: SchaefflerDeLong, "made for stainless steel on carbon steel";
    StainlessUnfilled: SchaefflerDeLong, "fused edges hold where the sheet leaves some ferrite; a filler makes sure of it";
    Hardens: SchaefflerDeLong, "mixed with carbon steel the bead turns hard and cracks";
    SteelOnStainless: SchaefflerDeLong, "carbon steel filler takes up chromium, turns hard and cracks, and rusts";
    Overalloyed: Practice, "holds, but is made for joints with stainless steel";
    Deoxidised: AwsA5Point18, "takes the oxygen out of the pool";
    NotDeoxidised: Practice, "nothing takes the oxygen out of the pool: pores";
    LessMolybdenum: AwsA5Point9, "has less molybdenum than the sheet, so pits first";
    OneSideMolybdenum: AwsA5Point9, "has less molybdenum than one of the sheets";
    Rusts: Practice, "rusts as the carbon steel beside it does: coat it";
    OtherSteels: Practice, "no rule of aluminium applies to it";
}

impl fmt::Display for FillerReason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.text())
    }
}
