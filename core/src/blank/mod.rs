//! What is cut from sheet: bends, joints, panels, and the flat blank that each panel is made of.

pub mod flat;
pub(crate) mod fold;
pub(crate) mod joint;
pub(crate) mod panel;

pub use fold::{
    Bend, BendError, BendField, K_FACTOR, MOST_SETBACK_TURN, Relief, Rule, relief, rolled_length,
    usual_k,
};
pub use joint::{
    Allow, Corner, EdgeFit, FLAT_WITHIN, Fit, JOGGLE_RAMP, JointError, Joints, Meeting, SHARPEST,
};
pub use panel::blank::{BendMark, MAX_FLANGES, MAX_PARTS};
pub use panel::{
    Allowance, Axes, Blank, BlankError, Groups, Halves, Making, Panel, PanelMark, Plan,
};
