//! What is cut from sheet: bends, joints, panels, and the flat blank that each panel is cut to.
//!
//! Which deduction an edge gets is said in `edge`: a folded edge takes the setback of its [`Bend`]
//! ([`Bend::setback_on`]), a welded one what its joint leaves ([`Joint::fit`](crate::input::Joint::fit)).
//! From there:
//!
//! - `bend`: the bend itself, allowance, setback and deduction and the notch at its end.
//! - `joint`: how far short each panel falls at a corner of any angle, and which edge has which joint.
//! - `edge`: of one edge of one tank, the joint or the bend there and what it takes from each panel.
//! - `panel`: which faces are cut in one piece, and the marks of the pieces.
//! - [`unfold`]: flat parts joined by folds, laid out in a plane.
//! - `layout`: the blank of a panel, made of all these; `panels`: every panel of a tank with its mass.
//!
//! [`PanelPlan`] holds what they all ask for: the body, its sheet, its joints.

pub(crate) mod bend;
mod edge;
mod error;
pub(crate) mod joint;
pub(crate) mod layout;
pub(crate) mod panel;
mod panels;
mod plan;
pub mod unfold;

pub use bend::{
    Bend, BendError, BendFace, BendField, BendNotch, BendRule, K_FACTOR, MOST_SETBACK_TURN, relief,
    usual_k,
};
pub use error::BlankError;
pub use joint::{
    Allow, EdgeFit, FLAT_WITHIN, JOGGLE_RAMP, JointError, JointFit, Joints, Meeting, SHARPEST,
    SheetCorner,
};
pub use layout::{BendMark, Blank, CutBlank, MAX_CUT_FLANGES, MAX_FLANGES, MAX_PARTS, ReliefHole};
pub use panel::{Axes, Groups, Halves, Making, Panel, PanelMark};
pub use plan::{Allowance, PanelPlan};
