//! The kinds of gauges: what the small one leaves out is said here, and the list of pages says of each whether every
//! gauge has it or only the full one.

use core::fmt::Debug;

use seamwright_core::tank::{JobError, Tank};

use super::is_page::{IsPage, LeftOut};
use crate::work::{NoPlanner, Think, Thinker};

/// A kind of gauge: [`Small`] or [`Full`].
///
/// Everything that differs is a type, so that a board's program holds nothing of what its gauge leaves out, and both
/// kinds stand side by side on the laptop.
pub trait Kind: sealed::Sealed + Debug + 'static {
    /// A page that only the full gauge has: that page, or nothing.
    type IfFull<P: IsPage>: IsPage;

    /// What finds the order of a job's stitches where none was sent.
    type Planner: Think;

    /// Whether it finds such an order.
    const PLANS: bool = Self::Planner::ABLE;

    /// Makes a tank whose job was taken in: the small gauge has no room for round folds of a body that is no
    /// profile, and refuses a job that has them.
    ///
    /// # Errors
    /// [`JobError`] names the input at fault.
    fn make(tank: &mut Tank) -> Result<(), JobError>;
}

/// The gauge of a chip with 256 KiB of flash: it has only the pages that every gauge has, and shows no order but one
/// that was sent.
#[derive(Clone, Copy, Debug)]
pub enum Small {}

impl Kind for Small {
    type IfFull<P: IsPage> = LeftOut;
    type Planner = NoPlanner;

    fn make(tank: &mut Tank) -> Result<(), JobError> {
        tank.make_unfolded()
    }
}

/// The gauge with every page and a planner.
#[derive(Clone, Copy, Debug)]
pub enum Full {}

impl Kind for Full {
    type IfFull<P: IsPage> = P;
    type Planner = Thinker;

    fn make(tank: &mut Tank) -> Result<(), JobError> {
        tank.make()
    }
}

mod sealed {
    /// There are no other kinds.
    pub trait Sealed {}

    impl Sealed for super::Small {}
    impl Sealed for super::Full {}
}
