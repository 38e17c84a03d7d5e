//! What the gauge tells of itself through defmt; nothing without that feature.
//!
//! It knows nothing of what it is told but how it is written, so that every other part can use it.

use seamwright_core::tank::JobError;
use seamwright_core::wire::Fault;

/// What may stand in a line of the log.
#[cfg(feature = "defmt")]
pub(crate) use defmt::Format as Told;

/// What may stand in a line of the log: anything, since none is written.
#[cfg(not(feature = "defmt"))]
pub(crate) trait Told {}

#[cfg(not(feature = "defmt"))]
impl<T> Told for T {}

/// Another screen was turned to.
pub(crate) fn turned_to(screen: impl Told) {
    #[cfg(feature = "defmt")]
    defmt::info!("screen {}", screen);
    #[cfg(not(feature = "defmt"))]
    let _ = screen;
}

/// A job could not be computed.
pub(crate) fn trouble(error: &JobError) {
    #[cfg(feature = "defmt")]
    defmt::warn!("job refused: {}", error);
    #[cfg(not(feature = "defmt"))]
    let _ = error;
}

/// Pieces of a screen ran into one another: a defect, since the tests allow none.
pub(crate) fn faults(faults: impl Told) {
    #[cfg(feature = "defmt")]
    defmt::error!("screen laid out badly: {}", faults);
    #[cfg(not(feature = "defmt"))]
    let _ = faults;
}

/// The link brought something that could not be read.
pub(crate) fn unread(fault: Fault) {
    #[cfg(feature = "defmt")]
    defmt::warn!("link: unread, {}", fault);
    #[cfg(not(feature = "defmt"))]
    let _ = fault;
}
