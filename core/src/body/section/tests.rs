//! Closed forms, and outlines that are refused.
