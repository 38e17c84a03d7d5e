//! What the calculation finds wrong with a job, shown at the key that is to blame.

mod baffle;
mod block;

use std::ops::Range;

use seamwright_core::body::{ShapeError, SheetPlan};
use seamwright_core::fitting::{FaceBox, PlaceError, RoomError};
use seamwright_core::input::limits::STITCH_MAX;
use seamwright_core::input::{Draft, Face, Field, Shape};
use seamwright_core::tank::{JobError, Problem as Cause, ReachError, Tank};
use seamwright_core::units::range::{Limit, OutOfRange, Value};
use seamwright_core::units::{Length, LengthUnit};

use super::Spans;
use super::reader::called;
use crate::diagnostics::Problem;

/// A job as its file gives it, for messages about it.
pub(in crate::job_file) struct Given<'f> {
    pub(in crate::job_file) text: &'f str,
    pub(in crate::job_file) spans: &'f Spans,
    pub(in crate::job_file) draft: &'f Draft,
}

impl Given<'_> {
    /// The way out where a job would need more stitches than this.
    fn longer_stitches(&self, most: u16) -> String {
        let mut longest = self.draft.clone();
        longest.weld.stitch_max = Some(STITCH_MAX.1);
        let tank = Tank::build(&longest).ok();
        let enough = tank.and_then(|tank| tank.stitch_max_for(most.into()));
        let Some(enough) = enough else {
            return "allow longer stitches: a larger stitch_max under [weld]".to_owned();
        };
        let enough = enough.display(LengthUnit::Millimetre, 0);
        format!(
            "allow longer stitches: a stitch_max of {enough} or more under [weld]; each then puts more heat in"
        )
    }

    /// The message for an error.
    pub(in crate::job_file) fn explain(&self, error: &JobError) -> Problem {
        let at = |what: String| Problem::new(self.place(&path(error.field)), what);
        match error.problem {
            Cause::OutOfRange(past) => self.out_of_range(error.field, past),
            Cause::Shape(ShapeError::Block(block)) => self.block(block),
            Cause::Shape(error) => {
                let kind = self.draft.shape.kind();
                let name = if kind == "profile" { "outline" } else { kind };
                at(format!("the {name} makes no tank"))
                    .label("because of this")
                    .help(error.to_string())
            }
            Cause::Joint {
                faces: [a, b],
                error,
            } => at(format!("the edge between {a} and {b} cannot be joined so"))
                .label("because of this")
                .help(error.to_string()),
            Cause::Blank(error) => at("a panel does not come out of flat sheet".into())
                .label("because of this")
                .help(error.to_string()),
            Cause::NoSuchEdge([a, b]) => at(format!("{a} and {b} share no edge"))
                .label("no edge of this body")
                .help(
                    "name two faces that meet; `seamwright plan` lists the seams with their faces",
                ),
            Cause::EdgeTaken([a, b]) => at(format!(
                "the edge between {a} and {b} has its joint already"
            ))
            .label("named twice, or a rounded corner, which is one sheet")
            .help("take this one out"),
            Cause::FoldBesideRound([a, b]) => {
                at(format!("the edge between {a} and {b} cannot be folded"))
                    .label("past the rounded corners of the outline no bend runs")
                    .help("weld it, or draw the corners of the outline sharp and fold them")
            }
            Cause::NoRoomForFold => at(error.problem.to_string()).label("because of this"),
            Cause::FoldOfTwoSheets([a, b]) => {
                at(format!("the edge between {a} and {b} cannot be folded"))
                    .label("its two faces are of different thickness")
                    .help("weld it, or give both faces one thickness under [stock.faces]")
            }
            Cause::Place(place) => self.misplaced(error.field, &place),
            Cause::OverNoLiquid => at("the dip rod stands over no liquid".into())
                .label("outside the plan of the space within")
                .help(
                    "measure from the left front outside corner of the tank: along x, then along y",
                ),
            Cause::Unnamed => at("`name` is empty".into())
                .label("no letters in it")
                .help("say what the tank is: a record without a name cannot be found again"),
            Cause::NotAtBaffle(face) => at(format!("the baffle does not meet the {face}"))
                .label("no edge of it is there")
                .help("name a wall that the baffle stands against; without this key all its edges are welded that hand and torch reach"),
            Cause::NoSuchFace(face) => {
                let problem = at(format!(
                    "the {} has no face `{face}`",
                    self.draft.shape.kind()
                ));
                match &self.draft.shape {
                    Shape::Block(block) => problem
                        .label(match block.cuts.len() {
                            0 => "it has no cuts".to_owned(),
                            1 => "it has one cut".to_owned(),
                            many => format!("it has {many} cuts"),
                        })
                        .help("take this line out, or count the [[shape.cut]] tables from the top"),
                    Shape::Profile(profile) => problem
                        .label(format!("its sides are 1 to {}", profile.outline.len()))
                        .help("its faces are front, back, and side 1, side 2 … in the order of the outline"),
                    Shape::Taper(_) => problem
                        .label("no face of a taper")
                        .help("its faces are front, back, left, right, bottom and top"),
                    Shape::Drum(drum) => problem
                        .label("no face of a drum")
                        .help(format!(
                            "its faces are shell, {} and {}",
                            drum.axis.heads()[0],
                            drum.axis.heads()[1]
                        )),
                }
            }
            Cause::NoStartingValue => {
                let key = error.field.to_string();
                let name = key.rsplit('.').next().unwrap_or(&key).to_owned();
                Problem::new(
                    self.place("stock.thickness"),
                    format!("`{key}` must be given for a sheet like this"),
                )
                .label(format!(
                    "{}; published starting values end at 0.5 mm and at 10 mm",
                    short(self.draft.stock.thickness)
                ))
                .help(format!(
                    "add {name} under [arc], with a figure that you have tried"
                ))
            }
            Cause::TooManyStitches { needed, most } => {
                let (span, told) = self.key_or_shape("weld.stitch_max");
                Problem::new(
                    span,
                    format!("the job needs too many stitches; it may have {most}"),
                )
                .label(format!("at least {needed} {told}"))
                .help(self.longer_stitches(most))
            }
            Cause::TooManyTacks => {
                let (span, told) = self.key_or_shape("weld.tack_pitch");
                Problem::new(span, "a seam needs too many tacks; it may have 9999")
                    .label(format!("more than 9999 {told}"))
                    .help("set the tacks further apart: a larger tack_pitch under [weld]")
            }
            Cause::TooManyMarks { needed, most } => {
                let key = path(error.field);
                let name = key.rsplit('.').next().unwrap_or(&key).to_owned();
                let (span, told) = self.key_or_shape(&key);
                Problem::new(
                    span,
                    format!("the dip chart has too many marks; it may have {most}"),
                )
                .label(format!("{needed} marks {told}"))
                .help(format!("take a wider step: a larger {name} under [fill]"))
            }
        }
    }

    /// The message for compartments that are shut in, or that a pick-up does not reach.
    pub(in crate::job_file) fn unreached(&self, error: &ReachError) -> Problem {
        let fitting = |number: u8| {
            ["fill.draws", "fill.balance"]
                .iter()
                .find_map(|list| self.spans.exact(&format!("{list}.{number}")))
                .unwrap_or_else(|| self.place(&format!("fitting.{number}")))
        };
        match error {
            ReachError::TooMany(error) => {
                Problem::new(self.place("shape"), "the inside is in too many pieces")
                    .label("because of this")
                    .help(error.to_string())
            }
            ReachError::ShutIn { baffle, low, high } => {
                let key = baffle.map_or_else(|| "shape".to_owned(), |n| format!("baffle.{n}"));
                let axes = ["x", "y", "z"].iter().zip(low.iter().zip(high));
                let place: Vec<String> = axes
                    .map(|(axis, (low, high))| {
                        format!("{axis} {} to {}", short(*low), short(*high))
                    })
                    .collect();
                let which = baffle.map_or_else(
                    || "a compartment".to_owned(),
                    |number| format!("the compartment behind baffle {number}"),
                );
                Problem::new(self.place(&key), format!("{which} is shut all round"))
                    .label(format!("no way for air: {}", place.join(", ")))
                    .help("air that is shut in heats while it is welded round and can burst the seam: add a [[baffle.hole]] here, or give that compartment a [[fitting]] with a bore of its own")
            }
            ReachError::PickUp {
                at: [_, _, z],
                error,
            } => {
                let key = ["fill.pick_up_at", "fill.pick_up"]
                    .iter()
                    .find_map(|key| self.spans.exact(key))
                    .unwrap_or_else(|| self.place("fill"));
                let problem = Problem::new(key, "the pick-up draws nothing there")
                    .label(format!(
                        "{} outside the space that holds liquid",
                        short(error.by)
                    ))
                    .help(format!(
                        "it stands at z {}: move pick_up_at over liquid and off the baffles, or raise pick_up over the floor there",
                        short(*z)
                    ));
                match self.spans.exact("fill.pick_up") {
                    Some(span) => problem.related(span, "at this height".to_owned()),
                    None => problem,
                }
            }
            ReachError::Fitting {
                fitting: number,
                error,
            } => Problem::new(
                fitting(*number),
                format!("nothing runs through fitting {number} here"),
            )
            .label(format!(
                "its inner end is {} outside the space that holds liquid",
                short(error.by)
            ))
            .help("shorten its stand_in, or move it off the baffle or the wall that it runs into"),
            ReachError::NoPassage { fitting: number } => {
                Problem::new(fitting(*number), format!("fitting {number} has no passage"))
                    .label("nothing runs through it")
                    .help("give it a bore, or name another")
            }
        }
    }

    fn out_of_range(&self, field: Field, past: OutOfRange) -> Problem {
        let path = path(field);
        let span = self.place(&path);
        let inches = written_in_inches(self.text.get(span.clone()).unwrap_or_default());
        let show = |value: Value| shown(value, inches);
        let called = called(&path);
        let value = show(past.value);
        if let (Field::PickUp, Limit::Below(mark)) = (field, past.limit) {
            return Problem::new(span, "the pick-up stands above the fill mark")
                .label(format!("{value}, and the fill mark is {} deep", show(mark)))
                .help(format!(
                    "lower the pick-up below {}, or keep less headspace",
                    show(mark)
                ));
        }
        let (how, limit) = match past.limit {
            Limit::AtLeast(least) => ("small", format!("at least {}", show(least))),
            Limit::Above(least) => ("small", format!("more than {}", show(least))),
            Limit::AtMost(most) => ("large", format!("at most {}", show(most))),
            Limit::Below(most) => ("large", format!("less than {}", show(most))),
        };
        Problem::new(span, format!("{called} is too {how}"))
            .label(format!("{value}; it must be {limit}"))
            .help(format!(
                "write {limit}; is the unit the one that you meant?"
            ))
    }

    /// What is set into a wall, or stands across the inside, and does not fit there.
    fn misplaced(&self, field: Field, error: &PlaceError) -> Problem {
        let path = path(field);
        // `fitting.2.at`: the table is what does not fit, the key says where it went wrong.
        let table: Vec<&str> = path.splitn(3, '.').take(2).collect();
        let table = table.join(".");
        let problem = Problem::new(
            self.place(&path),
            format!("{} does not fit there", called(&table)),
        )
        .label(match error {
            PlaceError::OffFace { face, by } => format!("{} past what the {face} has", short(*by)),
            PlaceError::OffCentre { by, .. } => format!("{} off the centre", short(*by)),
            PlaceError::NoOuter => "no bore, and no outer diameter".to_owned(),
            PlaceError::Overlap { other } => format!("runs into fitting {other}"),
            PlaceError::Outside { .. } => "not between the sheets".to_owned(),
            PlaceError::Parted => "the inside is in several pieces here".to_owned(),
            PlaceError::NotAcrossDrum => match field {
                Field::BaffleAt(_) => "in an end of the drum".to_owned(),
                _ => "along the axis of the drum".to_owned(),
            },
            PlaceError::OffBaffle { by } => match field {
                Field::BaffleHoleAt(_, hole) => {
                    format!("hole {hole} is {} past the edge", short(*by))
                }
                _ => format!("a hole is {} past the edge", short(*by)),
            },
            PlaceError::Room(RoomError::Cut { .. }) => return self.cut(field, error),
            PlaceError::Room(RoomError::OnSeam { face, by }) => {
                format!("{} over the seam that closes the {face}", short(*by))
            }
            PlaceError::Room(RoomError::Through { wall, most }) => {
                format!("into the {wall}; at most {} there", short(*most))
            }
            PlaceError::Room(RoomError::IntoBaffle { baffle }) => format!("into baffle {baffle}"),
            PlaceError::Room(RoomError::IntoTube { other }) => format!("into fitting {other}"),
            PlaceError::Room(RoomError::OnFlange { other, by }) => {
                format!("{} over the flange to the {other}", short(*by))
            }
        })
        .help(match (self.face_box(field), error) {
            (Some(tells), PlaceError::Room(error)) => format!("{error}; {tells}"),
            (Some(tells), error) => format!("{error}; {tells}"),
            (None, PlaceError::Room(error)) => error.to_string(),
            (None, error) => error.to_string(),
        });
        let other = match error {
            PlaceError::OffFace { .. } => self
                .spans
                .exact(&format!("{table}.outer"))
                .or_else(|| self.spans.exact(&format!("{table}.bore")))
                .map(|span| (span, "the size of the hole".to_owned())),
            PlaceError::Room(RoomError::IntoBaffle { baffle }) => self
                .spans
                .exact(&format!("baffle.{baffle}.at"))
                .map(|span| (span, format!("baffle {baffle}"))),
            PlaceError::Overlap { other } | PlaceError::Room(RoomError::IntoTube { other }) => self
                .spans
                .exact(&format!("fitting.{other}.at"))
                .map(|span| (span, format!("fitting {other}"))),
            PlaceError::Outside { .. } => self
                .spans
                .exact(&format!("{table}.across"))
                .map(|span| (span, "across this size".to_owned())),
            PlaceError::OffBaffle { .. } => path
                .rsplit_once('.')
                .and_then(|(hole, _)| self.spans.exact(&format!("{hole}.diameter")))
                .map(|span| (span, "its size".to_owned())),
            _ => None,
        };
        match other {
            Some((span, label)) => problem.related(span, label),
            None => problem,
        }
    }

    /// Where places on a fitting's face are counted, for a fitting whose place is at fault.
    fn face_box(&self, field: Field) -> Option<String> {
        let Field::FittingAt(number) = field else {
            return None;
        };
        let place = usize::from(number).checked_sub(1)?;
        let face = self.draft.fittings.get(place)?.face;
        let mut sheet = SheetPlan::uniform(self.draft.stock.thickness);
        for (face, own) in &self.draft.stock.faces {
            sheet.set(*face, *own).ok()?;
        }
        let body = self.draft.shape.body(&sheet).ok()?;
        let FaceBox {
            size: [wide, high],
            ways: [right, up],
        } = FaceBox::of(&body.outside, face)?;
        Some(if face == Face::Shell {
            format!(
                "on the shell `at` counts {} along {right}, then {} {up}",
                short(wide),
                short(high)
            )
        } else {
            format!(
                "seen from outside the {face} lies in a box of {} × {}, and `at` counts from its lower left corner to the right along {right}, then up along {up}",
                short(wide),
                short(high)
            )
        })
    }

    /// Where a path stands, or what is nearest around it; the end of the file if nothing is.
    fn place(&self, path: &str) -> Range<usize> {
        let end = self.text.trim_end().len();
        self.spans.find(path).unwrap_or(end..end)
    }

    /// A key that may have been left to its default; the shape is then what made it too fine.
    fn key_or_shape(&self, path: &str) -> (Range<usize>, String) {
        match self.spans.exact(path) {
            Some(span) => (span, "at this figure".to_owned()),
            None => {
                let name = path.rsplit('.').next().unwrap_or(path);
                (
                    self.place("shape"),
                    format!("for a tank of this size, with {name} left to its default"),
                )
            }
        }
    }
}

/// The path under which the span of a field is kept.
fn path(field: Field) -> String {
    match field {
        Field::Cut(n) => format!("shape.cut.{n}"),
        Field::CutLeg(n, leg) => format!("shape.cut.{n}.legs.{leg}"),
        Field::CutThrough(n, axis) => format!("shape.cut.{n}.through.{axis}"),
        Field::Point(n) => format!("shape.outline.{n}"),
        Field::Base(n) => format!("shape.base.{n}"),
        Field::TopSize(n) => format!("shape.top.{n}"),
        Field::Shift(n) => format!("shape.shift.{n}"),
        Field::OwnJoint(n) => format!("joints.edges.{n}"),
        Field::Fold(n) => format!("joints.folds.{n}"),
        Field::Fitting(n) => format!("fitting.{n}"),
        Field::FittingFace(n) => format!("fitting.{n}.face"),
        Field::FittingAt(n) => format!("fitting.{n}.at"),
        Field::FittingBore(n) => format!("fitting.{n}.bore"),
        Field::FittingOuter(n) => format!("fitting.{n}.outer"),
        Field::FittingStandIn(n) => format!("fitting.{n}.stand_in"),
        Field::Baffle(n) => format!("baffle.{n}"),
        Field::BaffleAcross(n) => format!("baffle.{n}.across"),
        Field::BaffleAt(n) => format!("baffle.{n}.at"),
        Field::BaffleThickness(n) => format!("baffle.{n}.thickness"),
        Field::BaffleHoleAt(n, hole) => format!("baffle.{n}.hole.{hole}.at"),
        Field::BaffleHoleDiameter(n, hole) => format!("baffle.{n}.hole.{hole}.diameter"),
        Field::BaffleFree(n, wall) => format!("baffle.{n}.free.{wall}"),
        Field::BaffleWeldLength(n) => format!("baffle.{n}.weld_length"),
        Field::BaffleWeldGap(n) => format!("baffle.{n}.weld_gap"),
        field => field.to_string(),
    }
}

/// Whether a length is written in inches or feet in the file.
fn written_in_inches(text: &str) -> bool {
    Length::parse(text.trim_matches('"')).is_ok() && !text.trim_matches('"').ends_with('m')
}

/// A value as core shows it, and in inches beside that for someone who thinks in them.
fn shown(value: Value, inches: bool) -> String {
    match value {
        Value::Length(length) if inches => {
            format!(
                "{} ({})",
                short(length),
                length.display(LengthUnit::Inch, 3)
            )
        }
        Value::Length(length) => short(length),
        value => value.to_string(),
    }
}

/// A length in millimetres, to a hundredth at most: 2 mm, 0.3 mm, 3.18 mm.
fn short(length: Length) -> String {
    let number = length.in_unit(LengthUnit::Millimetre);
    let near = |places: u8| {
        let steps = number * 10_f64.powi(i32::from(places));
        (steps - steps.round()).abs() < 1e-6
    };
    let places = (0..2).find(|places| near(*places)).unwrap_or(2);
    length.display(LengthUnit::Millimetre, places).to_string()
}
