//! How much of its power the arc gives to the metal.

use crate::tables::Process;
use crate::units::Ratio;

/// The share of its power that an arc gives to the metal where the job does not say: measured, not the
/// standard's factor. About 0.4 of a TIG arc on AC on aluminium (0.21 to 0.48: Christensen, Davies and Gjermundsen,
/// Brit. Weld. J. 12 (1965), p. 54, from memory; what published settings need to melt their beads agrees), 0.67
/// of one on DC, 0.84 of an arc from a solid wire (`DuPont` and Marder, Weld. J. 1995; some 0.85 in short circuits:
/// Pépe and others, Sci. Technol. Weld. Join. 16 (2011), p. 412). Of flux-cored wire no measurement was read: the
/// factor of EN 1011-1 stands in.
#[must_use]
pub const fn usual_uptake(process: Process) -> Ratio {
    match process {
        Process::TigAc => Ratio::from_share(0.4),
        Process::TigDc => Ratio::from_share(0.67),
        Process::Mig | Process::Mag => Ratio::from_share(0.84),
        Process::FluxCored => Ratio::from_share(0.8),
    }
}

/// The least and the greatest that is likely of that share. From a solid wire: from the factor of EN 1011-1 to somewhat
/// more than was measured in grooves (Pépe and others); from flux-cored wire common practice, no source.
#[must_use]
pub const fn uptake_band(process: Process) -> [Ratio; 2] {
    match process {
        Process::TigAc => [Ratio::from_share(0.3), Ratio::from_share(0.6)],
        Process::TigDc => [Ratio::from_share(0.6), Ratio::from_share(0.8)],
        Process::Mig | Process::Mag => [Ratio::from_share(0.8), Ratio::from_share(0.88)],
        Process::FluxCored => [Ratio::from_share(0.7), Ratio::from_share(0.85)],
    }
}
