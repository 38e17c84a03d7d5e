//! Power source and torch: what each is rated for, and what both together let the arc do.

use super::duty::{Allowed, DutyError, RatingPlate, TORCH_AC_SHARE, allowed_by_all};
use crate::tables::Process;
use crate::units::Current;

/// What has a rating.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[repr(u8)]
pub enum RatedPart {
    /// The power source.
    // From 1, so that a static without one is all zeros and takes no flash.
    PowerSource = 1,
    /// The torch.
    Torch,
}

impl RatedPart {
    /// What it is called.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::PowerSource => "power source",
            Self::Torch => "torch",
        }
    }
}

/// Ratings of a torch: of one for TIG on direct and on alternating current, of one for wire by its process, for what it
/// carries hangs on the gas (IEC 60974-7, from memory).
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TorchRatings {
    /// On direct current.
    pub dc: Option<RatingPlate>,
    /// On alternating current.
    pub ac: Option<RatingPlate>,
    /// With solid wire in inert gas.
    pub mig: Option<RatingPlate>,
    /// With solid wire in active gas.
    pub mag: Option<RatingPlate>,
    /// With flux-cored wire.
    pub flux_cored: Option<RatingPlate>,
}

/// A part of the equipment and the ratings of it that count.
#[derive(Clone, Debug, PartialEq)]
pub struct RatedPlate {
    /// The part.
    pub part: RatedPart,
    /// Its ratings.
    pub plate: RatingPlate,
    /// Whether these are ratings on direct current, taken down to [`TORCH_AC_SHARE`] for alternating current.
    pub reduced_for_ac: bool,
}

/// What a tank is welded with, as far as its ratings go. By default nothing is rated.
///
/// ```
/// use seamwright_core::arc::Equipment;
/// use seamwright_core::arc::duty::{Rating, RatingPlate};
/// use seamwright_core::tables::Process;
/// use seamwright_core::units::{Current, Ratio};
///
/// let plate = |amperes, share| {
///     let current = Current::from_amperes(amperes);
///     RatingPlate::of(&[Rating { current, duty: Ratio::from_share(share) }])
/// };
/// let mut equipment = Equipment { power_source: Some(plate(200.0, 0.35)?), ..Equipment::default() };
/// equipment.torch.dc = Some(plate(150.0, 0.6)?);
/// // The torch names no rating on alternating current, so that 70 % of 150 A count there: 60 % at 105 A.
/// let allowed = equipment.allowed(Process::TigAc, Current::from_amperes(105.0))?;
/// assert_eq!(allowed.map(|allowed| allowed.duty), Some(Ratio::from_share(0.6)));
/// assert!(equipment.allowed(Process::TigAc, Current::from_amperes(110.0)).is_err());
/// # Ok::<(), seamwright_core::arc::duty::DutyError>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Equipment {
    /// Ratings of the power source.
    pub power_source: Option<RatingPlate>,
    /// Ratings of the torch.
    pub torch: TorchRatings,
}

impl TorchRatings {
    /// The ratings that count for a process: on alternating current the torch's own, or else those on direct current
    /// taken down to [`TORCH_AC_SHARE`]; with wire those of the process alone.
    #[must_use]
    pub fn on(&self, process: Process) -> Option<RatedPlate> {
        let rated = |plate: RatingPlate, reduced_for_ac| RatedPlate {
            part: RatedPart::Torch,
            plate,
            reduced_for_ac,
        };
        let own = match process {
            Process::TigAc => &self.ac,
            Process::TigDc => &self.dc,
            Process::Mig => &self.mig,
            Process::Mag => &self.mag,
            Process::FluxCored => &self.flux_cored,
        };
        match (own, process, &self.dc) {
            (Some(plate), ..) => Some(rated(plate.clone(), false)),
            (None, Process::TigAc, Some(plate)) => {
                let reduced = plate.clone().reduced(TORCH_AC_SHARE).ok()?;
                Some(rated(reduced, true))
            }
            _ => None,
        }
    }
}

impl Equipment {
    /// The parts that have ratings for a process, the power source first.
    pub fn rated(&self, process: Process) -> impl Iterator<Item = RatedPlate> {
        let source = self.power_source.clone().map(|plate| RatedPlate {
            part: RatedPart::PowerSource,
            plate,
            reduced_for_ac: false,
        });
        source.into_iter().chain(self.torch.on(process))
    }

    /// The share of ten minutes for which all parts let a current flow; `None` where nothing has a rating for the
    /// process.
    ///
    /// # Errors
    /// [`DutyError`] of the first part whose ratings the current is past.
    pub fn allowed(
        &self,
        process: Process,
        current: Current,
    ) -> Result<Option<Allowed>, DutyError> {
        let torch = self.torch.on(process);
        let torch = torch.as_ref().map(|torch| &torch.plate);
        match (self.power_source.as_ref(), torch) {
            (Some(source), Some(torch)) => allowed_by_all(&[source, torch], current).map(Some),
            (Some(one), None) | (None, Some(one)) => one.allowed(current).map(Some),
            (None, None) => Ok(None),
        }
    }
}
