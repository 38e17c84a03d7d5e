//! Cross-crate checks.
