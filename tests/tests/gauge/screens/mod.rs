//! The gauge's screens: golden pictures, nothing clipped or overlapping, and redraw in few bytes.

mod art;
mod demo;
mod golden;
mod redraw;
mod thumb;
mod walk;
