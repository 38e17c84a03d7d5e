//! Placeholder while the skeleton lands.
#![no_std]
