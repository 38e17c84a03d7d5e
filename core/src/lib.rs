//! Calculations for one-off welded sheet-metal liquid tanks, for any machine.
//!
//! Data flows one way, and the modules stand in this order, the lowest first; none uses one below it in the list:
//!
//! - [`units`]: quantities in and out; a value, its limit, and the error when it is past that. A bare number crosses a
//!   public boundary only where its doc says what it is.
//! - [`geom`]: vectors, planes, roots, order.
//! - [`tables`]: alloys, tempers, filler rods, liquids, settings, bend radii: data, each figure with its source.
//! - [`input`]: what a job may say, as plain data; how many of each there may be; the name of each.
//! - [`body`]: the tank as a solid, outside and inside of the sheet; faces, edges, dihedral angles.
//! - [`blank`]: bends, joints, panels, and the flat blank that each panel is cut to.
//! - [`fitting`]: what is set into the walls and stands across the inside.
//! - [`compartment`]: the inside as baffles and the body's own legs part it; ways for liquid and air.
//! - [`capacity`]: volume to the brim, to the fill mark, usable; at a depth and a lean.
//! - [`seam`]: what joins the panels; lengths, tacks, stitches.
//! - [`arc`]: the arc's energy and true power, its settings, how long it may burn.
//! - [`tank`]: the checked inputs of one tank and the body made from them. Start here.
//! - [`build`]: in which order it goes together, and from where each seam is reached.
//! - [`heat`]: the tank as a conducting shell; the moving source.
//! - [`weld`]: the order of tacks and stitches, and the waits between.
//! - [`filler`]: which rod for which sheets, and why.
//! - [`supply`]: rod and wire, gas, time, cost, shrinkage.
//! - [`gmaw`]: arcs that are fed with wire: gas, transfer, stick-out, feed.
//! - [`purge`]: argon behind the seams of stainless steel.
//! - [`marking`]: what is marked on each panel from one corner, and the order of its bends.
//! - [`strength`]: whether walls, baffles and seams bear the load.
//! - [`leak`]: the leak test, planned and read.
//! - [`mass`]: what the tank weighs, where that hangs, what the mounts bear.
//! - [`advice`]: what a person should know of a result, from a note to a caution.
//! - `wire` (feature `serde`): jobs and results as messages.
//! - [`prelude`]: what a program that plans a tank nearly always needs.
//!
//! A tank from its sizes to its weld plan and its leak test:
//!
//! ```
//! use seamwright_core::prelude::*;
//!
//! let mm = |value| Length::new(value, LengthUnit::Millimetre);
//! let header = Block::new(mm(320.0), mm(180.0), mm(160.0))
//!     .with_cut(Cut::Edge { faces: [Face::Top, Face::Back], legs: [mm(45.0), mm(60.0)] })?;
//! let tank = Tank::build(&Draft::new("Header tank", header, StockDraft::of(Alloy::A5754, mm(2.0)))?)?;
//! let lean = Lean::new(Angle::parse("5°")?, Angle::parse("-3°")?)?;
//! let level = tank.pool(lean).at(mm(80.0))?;
//! assert_eq!(level.volume.display(VolumeUnit::Litre, 2).to_string(), "3.45 L");
//! let stitches: u16 = tank.seams().filter_map(|seam| tank.division(&seam)).map(|cut| cut.count).sum();
//! let heat_input = tank.arc().heat_input();
//! let mut planner = Planner::new();
//! let plan = tank.weld_plan(&mut planner)?;
//! assert_eq!(plan.count(), usize::from(stitches));
//! let waits: Vec<_> = plan.stitches(&tank).map(|stitch| stitch.wait).collect();
//! let test = tank.leak_plan(LeakRule::default())?;
//! assert!(heat_input.si() > 0.0 && !waits.is_empty() && test.pressure.si() > 0.0);
//! # Ok::<(), Box<dyn core::error::Error>>(())
//! ```
//!
//! The programs in `examples` go on from there; one of them runs without an operating system in 64 KiB of RAM.
//!
//! # Rules
//!
//! SI inside, `f64` and `libm` everywhere, so that a laptop and a microcontroller without a
//! floating-point unit give the same bits. No allocation, no unsafe code. Constructors check and return
//! typed errors; nothing is clamped in silence. The calculations hold no reachable panic: a program that
//! links them with a panic handler which cannot be linked proves it. Reading text
//! ([`units::parse()`]) is outside that proof, since the standard library's number reader is.
//!
//! # What this crate does not do
//!
//! No files, no clock, no printing beyond `Display`, no plan object that holds everything: a stage is
//! computed when it is asked for, so that it fits a machine with 64 KiB of RAM.
#![no_std]
// A value that is not a number must fail every check, so checks ask whether the good case holds and
// negate that; the lint would turn them into checks that let it through.
#![allow(clippy::neg_cmp_op_on_partial_ord)]

pub mod advice;
pub mod arc;
pub mod blank;
pub mod body;
pub mod build;
pub mod capacity;
pub mod compartment;
pub mod filler;
pub mod fitting;
pub mod geom;
pub mod gmaw;
pub mod heat;
pub mod input;
pub mod leak;
pub mod marking;
pub mod mass;
pub mod prelude;
pub mod purge;
pub mod seam;
pub mod strength;
pub mod supply;
pub mod tables;
pub mod tank;
pub mod units;
pub mod weld;
#[cfg(feature = "serde")]
pub mod wire;

/// The example of the README, kept true by running it.
#[cfg(doctest)]
#[doc = include_str!("../README.md")]
struct Readme;
