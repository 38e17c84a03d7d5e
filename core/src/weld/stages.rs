//! The stages of the job: what must be welded, and tacked, before what.

/// When a seam may be tacked and welded. Stages follow one another: nothing of a later one is begun before all of the
/// earlier is done.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum WeldStage {
    /// Before the tank is closed about it: the seams of a baffle.
    Within,
    /// In the body of the job.
    Body,
    /// Last of all. Of the stitches the one that closes the tank, so that the air within has a way out until then; of
    /// the tacks those of the panel that closes it.
    Closing,
}
