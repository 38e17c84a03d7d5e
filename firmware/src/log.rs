//! What the gauge tells of itself through defmt; nothing without that feature.

use seamwright_core::tank::JobError;
use seamwright_core::wire::Fault;

use crate::gauge::Screen;
use crate::pen::Faults;

/// Another screen was turned to.
pub(crate) fn turned_to(screen: Screen) {
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
pub(crate) fn faults(faults: Faults) {
    #[cfg(feature = "defmt")]
    if faults != Faults::default() {
        defmt::error!("screen laid out badly: {}", faults);
    }
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
