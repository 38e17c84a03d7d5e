//! How much of its power the arc gives to the metal.

use crate::tables::Process;
use crate::units::Ratio;

/// The share of its power that a TIG arc gives to the metal where the job does not say: measured, not the
/// standard's factor. About 0.4 of an AC arc on aluminium (0.21 to 0.48: Christensen, Davies and Gjermundsen,
/// Brit. Weld. J. 12 (1965), p. 54, from memory; what published settings need to melt their beads agrees), 0.67
/// of a DC arc (`DuPont` and Marder, Weld. J. 1995).
#[must_use]
pub const fn usual_uptake(process: Process) -> Ratio {
    match process {
        Process::TigAc => Ratio::from_share(0.4),
        Process::TigDc => Ratio::from_share(0.67),
    }
}

/// The least and the greatest that is likely of that share.
#[must_use]
pub const fn uptake_band(process: Process) -> [Ratio; 2] {
    match process {
        Process::TigAc => [Ratio::from_share(0.3), Ratio::from_share(0.6)],
        Process::TigDc => [Ratio::from_share(0.6), Ratio::from_share(0.8)],
    }
}
