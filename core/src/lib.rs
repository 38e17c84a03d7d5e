//! Calculations for one-off welded sheet-metal liquid tanks, for any machine.
//!
//! Data flows one way, and the modules stand in this order; none uses one below it in the list
//! (`stock` and [`panel`] carry names that later stages share):
//!
//! - [`quantity`]: units in and out. A bare number crosses a public boundary only where its doc says
//!   what it is.
//! - [`geom`], [`bound`]: vectors and planes; a value, its limit, and the error when it is past that.
//! - [`stock`]: alloys, tempers and filler rods, each figure with its source.
//! - [`body`]: the tank as a solid, outside and inside of the sheet; faces, edges, dihedral angles.
//! - [`fold`], [`flat`]: bends, and parts joined by bends laid out in one plane.
//! - [`joint`]: how two panels meet, and what each gives up for it.
//! - [`fixture`]: what is set into the walls and stands across the inside.
//! - [`capacity`]: volume to the brim, to the fill mark, usable; at a depth and a lean.
//! - [`panel`]: what is cut in one piece, and its blank.
//! - [`seam`]: what joins them; lengths and tacks.
//! - [`filler`]: which rod for which sheets, and why.
//! - [`heat`]: the arc, its settings and its duty; the sheet about it; preheat; the tank as a conducting
//!   shell.
//! - [`stitch`]: seams cut into equal runs, and the order of runs and of tacks.
//! - [`supply`]: rod, gas, time and cost.
//! - [`proof`]: whether the tank bears its load and is tight: strength, leak test; its mass and where it hangs.
//! - [`caution`]: what may hurt someone, by the result it belongs to.
//! - [`notice`]: what a person should know of a result.
//! - [`job`]: the checked inputs of one tank, and the stages above run over them. Start here.
//! - `wire` (feature `serde`): jobs and results as messages.
//!
//! ```
//! use seamwright_core::body::{Block, Cut, Face, Shape, Sized};
//! use seamwright_core::capacity::Lean;
//! use seamwright_core::job::*;
//! use seamwright_core::quantity::{Length, VolumeUnit};
//! use seamwright_core::stock::Alloy;
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
//! # Ok::<(), seamwright_core::quantity::ParseError>(())
//! ```
//!
//! # Rules
//!
//! SI inside, `f64` and `libm` everywhere, so that a laptop and a microcontroller without a
//! floating-point unit give the same bits. No allocation, no unsafe code. Constructors check and return
//! typed errors; nothing is clamped in silence. The calculations hold no reachable panic: a program that
//! links them with a panic handler which cannot be linked proves it. Reading text
//! ([`quantity::parse()`]) is outside that proof, since the standard library's number reader is.
//!
//! # What this crate does not do
//!
//! No files, no clock, no printing beyond `Display`, no plan object that holds everything: a stage is
//! computed when it is asked for, so that it fits a machine with 64 KiB of RAM.
#![no_std]
// A value that is not a number must fail every check, so checks ask whether the good case holds and
// negate that; the lint would turn them into checks that let it through.
#![allow(clippy::neg_cmp_op_on_partial_ord)]

pub mod body;
pub mod bound;
pub mod capacity;
pub mod caution;
pub mod filler;
pub mod fixture;
pub mod flat;
pub mod fold;
pub mod geom;
pub mod heat;
pub mod job;
pub mod joint;
pub mod notice;
pub mod panel;
pub mod proof;
pub mod quantity;
pub mod seam;
#[doc(hidden)]
pub mod sort;
mod split;
pub mod stitch;
pub mod stock;
pub mod supply;
#[cfg(feature = "serde")]
pub mod wire;
