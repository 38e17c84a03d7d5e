//! What several pages, and the screens that are no pages, are made of.

mod known;
mod layout;
mod panels_of;
mod prose;
mod reading;
mod row;
mod seam;
mod tank_view;
mod timer;
mod working;

pub(crate) use known::Known;
pub(crate) use layout::{
    BODY_TOP, BOTTOM, FIGURE_TOP, FOOT, RAIL, RIGHT, beside, figure, foot, how_far, marks, title,
};
pub(crate) use panels_of::{count, faces};
pub(crate) use prose::Prose;
pub(crate) use reading::{Reading, along};
pub(crate) use row::{LIST_TOP, row};
pub(crate) use seam::{choose, chosen, heading};
pub(crate) use tank_view::{filled, view};
pub(crate) use timer::timer;
pub(crate) use working::working;
