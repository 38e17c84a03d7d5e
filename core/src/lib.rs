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
//! - [`capacity`]: volume to the brim, to the fill mark, usable; at a depth and a lean.
//! - [`seam`]: what joins the panels; lengths, tacks, stitches.
//! - [`arc`]: the arc's energy and true power, its settings, how long it may burn.
//! - [`tank`]: the checked inputs of one tank and the body made from them. Start here.
//! - [`heat`]: the tank as a conducting shell; the moving source.
//! - [`weld`]: the order of tacks and stitches, and the waits between.
//! - [`filler`]: which rod for which sheets, and why.
//! - [`supply`]: rod, gas, time, cost, shrinkage.
//! - [`strength`]: whether walls, baffles and seams bear the load.
//! - [`leak`]: the leak test, planned and read.
//! - [`mass`]: what the tank weighs, where that hangs, what the mounts bear.
//! - [`advice`]: what a person should know of a result, from a note to a caution.
//! - `wire` (feature `serde`): jobs and results as messages.
//!
//! ```
//! use seamwright_core::input::{Block, Cut, Face, Shape, Sized};
//! use seamwright_core::capacity::Lean;
//! use seamwright_core::input::*;
//! use seamwright_core::units::{Length, VolumeUnit};
//! use seamwright_core::tables::Alloy;
//! use seamwright_core::tank::Tank;
//!
//! let mm = |text| Length::parse(text);
//! let draft = Draft {
//!     name: Name::try_from("Header tank").unwrap(),
//!     shape: Shape::Block(Block {
//!         sized: Sized::Outside,
//!         length: mm("320 mm")?,
//!         width: mm("180 mm")?,
//!         height: mm("160 mm")?,
//!         cuts: [Cut::Edge { faces: [Face::Top, Face::Back], legs: [mm("45 mm")?, mm("60 mm")?] }].into(),
//!     }),
//!     stock: StockDraft { alloy: Alloy::A5754, temper: None, thickness: mm("2 mm")?, faces: [].into() },
//!     joints: JointsDraft::default(),
//!     fittings: [].into(),
//!     baffles: [].into(),
//!     fill: FillDraft::default(),
//!     arc: ArcDraft::default(),
//!     weld: WeldDraft::default(),
//!     service: UseDraft::default(),
//! };
//! let tank = Tank::build(&draft).unwrap();
//! let level = tank.pool(Lean::LEVEL).at(mm("100 mm")?).unwrap();
//! assert_eq!(level.volume.display(VolumeUnit::Litre, 2).to_string(), "5.56 L");
//! # Ok::<(), seamwright_core::units::ParseError>(())
//! ```
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
pub mod capacity;
pub mod filler;
pub mod fitting;
pub mod geom;
pub mod heat;
pub mod input;
pub mod leak;
pub mod mass;
pub mod seam;
pub mod strength;
pub mod supply;
pub mod tables;
pub mod tank;
pub mod units;
pub mod weld;
#[cfg(feature = "serde")]
pub mod wire;
