//! The laptop side of Seamwright.
