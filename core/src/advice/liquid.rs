//! What a person should know of a tank's liquid: what does not reach the pick-up, what does not go in, what runs over.

use core::fmt;

use super::notice::Severity;
use crate::capacity::{ExpansionError, Lean, Outcome};
use crate::tank::{Reach, ShutAir, Tank};
use crate::units::{AngleUnit, RatioUnit, Temperature, TemperatureUnit, Volume, VolumeUnit};

/// Liquid held back is news from this share of the fill: common practice, no source.
const LEAST_SHARE: f64 = 0.005;

/// One thing to know of the liquid.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum LiquidNotice {
    /// It grows by more than the tank has room for.
    RunsOver {
        /// What runs over.
        spilt: Volume,
        /// How warm it is then.
        hottest: Temperature,
    },
    /// It gets so warm that nothing is known of its growth.
    GrowthUnknown(ExpansionError),
    /// No passage opens above the fill mark.
    NoBreath,
    /// Air that stays shut in keeps the level tank from being filled to its mark.
    FillShort(ShutAir),
    /// The same of the tank as it leans in use.
    FillShortLeaning(ShutAir),
    /// Baffles or legs hold liquid back from the pick-up.
    HeldBack {
        /// How much of what lies above the pick-up's level.
        volume: Volume,
        /// Of what fill.
        fill: Volume,
    },
    /// The tank is parted, and the job does not say where the pick-up is.
    PickUpUntold {
        /// The compartment that it is taken to be in, counted from 1.
        compartment: u8,
    },
}

impl LiquidNotice {
    /// A stable code for programs.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::RunsOver { .. } => "runs-over-when-warm",
            Self::GrowthUnknown(_) => "growth-unknown",
            Self::NoBreath => "no-opening-above-fill",
            Self::FillShort(_) => "air-shut-in",
            Self::FillShortLeaning(_) => "air-shut-in-leaning",
            Self::HeldBack { .. } => "liquid-held-back",
            Self::PickUpUntold { .. } => "pick-up-untold",
        }
    }

    /// How much it matters.
    #[must_use]
    pub const fn severity(&self) -> Severity {
        match self {
            Self::RunsOver { .. } | Self::NoBreath => Severity::Warning,
            Self::GrowthUnknown(_)
            | Self::FillShort(_)
            | Self::FillShortLeaning(_)
            | Self::HeldBack { .. }
            | Self::PickUpUntold { .. } => Severity::Caution,
        }
    }
}

fn lean(lean: Lean, f: &mut fmt::Formatter<'_>) -> fmt::Result {
    write!(
        f,
        "pitch {}, roll {}",
        lean.pitch().display(AngleUnit::Degree, 1),
        lean.roll().display(AngleUnit::Degree, 1)
    )
}

impl fmt::Display for LiquidNotice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let litres = |volume: Volume| volume.display(VolumeUnit::Litre, 2);
        match self {
            Self::RunsOver { spilt, hottest } => write!(
                f,
                "filled to its mark and warmed to {}, {} more than the tank holds run over; a tank that is shut then bursts: keep more headspace",
                hottest.display(TemperatureUnit::Celsius, 0),
                litres(*spilt)
            ),
            Self::GrowthUnknown(error) => write!(
                f,
                "how far its liquid grows as it warms is not known: {error}; keep headspace for it"
            ),
            Self::NoBreath => f.write_str(
                "no fitting with a bore opens above the fill mark: it cannot be filled to there, and drawn from while shut it is sucked in; put a filler or a vent at the top",
            ),
            Self::FillShort(shut) => write!(
                f,
                "standing level it takes no more than {}: {} of air stay shut in, most of it in compartment {}; vent that at its highest point",
                litres(shut.takes),
                litres(shut.air),
                shut.compartment + 1
            ),
            Self::FillShortLeaning(shut) => {
                f.write_str("filled while it leans by ")?;
                lean(shut.lean, f)?;
                write!(
                    f,
                    ", it takes no more than {}: {} of air stay shut in under the high corner, most of it in compartment {}; fill it level, or vent there too",
                    litres(shut.takes),
                    litres(shut.air),
                    shut.compartment + 1
                )
            }
            Self::HeldBack { volume, fill } => write!(
                f,
                "{} above the level of the pick-up ({} of the fill) do not reach it: baffles or legs of the body hold them back; a second pick-up, a balance pipe or a limber hole at the floor brings them in",
                litres(*volume),
                crate::units::Ratio::from_share(volume.si() / fill.si()).display(RatioUnit::Percent, 1)
            ),
            Self::PickUpUntold { compartment } => write!(
                f,
                "the inside is parted and the job does not say where the pick-up is: it is taken to be in compartment {compartment}; say so with pick_up_at or draws under [fill]"
            ),
        }
    }
}

impl Tank {
    /// Calls `show` for every notice of the liquid of this tank, parted as `reach` says, what hurts someone first.
    pub fn each_liquid_notice(&self, reach: &Reach<'_>, mut show: impl FnMut(LiquidNotice)) {
        match self.expansion() {
            Some(Ok(expansion)) => {
                if let Outcome::Spills(spilt) = expansion.outcome
                    && let Some([_, hottest]) = self.job.temperatures()
                {
                    show(LiquidNotice::RunsOver { spilt, hottest });
                }
            }
            Some(Err(error)) => show(LiquidNotice::GrowthUnknown(error)),
            None => {}
        }
        if reach.breathes() == Some(false) {
            show(LiquidNotice::NoBreath);
        }
        let fill = self.capacity.fill;
        let short = |shut: &ShutAir| shut.takes < fill;
        let level = reach.shut_air(Lean::LEVEL).filter(short);
        if let Some(shut) = level {
            show(LiquidNotice::FillShort(shut));
        }
        if let Some(shut) = reach.worst_shut_air().filter(short)
            && level.is_none_or(|level| shut.air > level.air)
        {
            show(LiquidNotice::FillShortLeaning(shut));
        }
        let mut pooled = 0.0;
        reach.each_kept_level(|kept| pooled += kept.pooled.si());
        if pooled > LEAST_SHARE * fill.si() {
            let volume = Volume::from_cubic_metres(pooled);
            show(LiquidNotice::HeldBack { volume, fill });
        }
        if !reach.is_place_told()
            && reach.compartments().count() > 1
            && let Some(room) = reach.drawn_from().first()
            && let Ok(compartment) = u8::try_from(room + 1)
        {
            show(LiquidNotice::PickUpUntold { compartment });
        }
    }
}
