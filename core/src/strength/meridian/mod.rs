//! Elastic stress where a drum's round wall meets its end, and in the end: thin shell with bending.
//!
//! Under an even pressure a drum bends along its meridian only: in the knuckle of a dished end, at the rim of a flat one.
//! The meridian, from the middle of the end to the middle of the shell, is parted into frusta of cones, each with its pull
//! and its bending along and round (Grafton and Strome, *AIAA Journal* 1 (1963), 2342; Zienkiewicz, *The Finite Element
//! Method*, on axisymmetric shells), and the balance of all rings between them is solved. What is found is the stress while
//! all is elastic, at either surface. A code's formula for a dished end is another figure: it lets a knuckle yield when
//! it is first pressed.

mod frustum;
mod line;
mod rings;
#[cfg(test)]
mod tests;

pub(crate) use line::{Meridian, RoundTank};
