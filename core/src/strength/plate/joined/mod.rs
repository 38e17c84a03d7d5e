//! Rectangular plates that share the moments of their edges, as the walls of a welded tank do.
//!
//! Two walls that meet at a seam keep the angle between them: one turns by as much as the other, and the moment
//! along the seam is the same in both. A plate that is thin, wide or pressed hard so hands a moment to its
//! neighbour. The moments along all seams are found together: each is a sum of sines along its seam, each plate a
//! supported one with moments along its edges (Timoshenko and Woinowsky-Krieger, *Theory of Plates and Shells*,
//! articles 30, 31 and 41 to 44), and every seam's two slopes must cancel. This is the force method of
//! frames, Maxwell's and Mohr's, with plates for beams.
//!
//! Left out: seams that give way in the plane of a wall, which stretching makes; they are as stiff as a wall's own
//! plane, a thousand times stiffer than its bending.

mod inside;
mod net;
mod slab;
#[cfg(test)]
mod tests;

pub(crate) use net::{Joint, MOST, Net, Place};
pub(crate) use slab::{Edge, MOST_RATIO, Slab};
