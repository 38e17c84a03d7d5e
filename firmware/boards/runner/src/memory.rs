//! Everything large, in one place.

use seamwright_firmware::{frame::Frame, gauge::Gauge, glass::Shown, link::Link, page::Kind};

/// The gauge with its jobs, the picture, what the display shows of it, and the link.
///
/// A board says which kind of gauge it has room for, and gives it a static place: on the stack it would leave too
/// little for computing a tank.
#[derive(Debug)]
pub struct Memory<K: Kind> {
    pub(crate) gauge: Gauge<K>,
    pub(crate) frame: Frame,
    pub(crate) shown: Shown,
    pub(crate) link: Link,
}

impl<K: Kind> Memory<K> {
    /// An empty gauge and a dark picture. All zeros in the small gauge, so that it takes no flash; the full
    /// one's planner is not, and its first contents are copied from flash.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            gauge: Gauge::new(),
            frame: Frame::new(),
            shown: Shown::new(),
            link: Link::unnamed(),
        }
    }

    /// Gives the name that the link tells.
    pub const fn name(&mut self, board: &'static str) {
        self.link.name(board);
    }
}

impl<K: Kind> Default for Memory<K> {
    fn default() -> Self {
        Self::new()
    }
}
