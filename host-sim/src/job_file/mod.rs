//! Job files: TOML in, a [`Draft`] out, with every problem of the file shown where it stands.
//!
//! `host-sim/docs/job-file.md` is the written specification; [`schema`] is the list of keys that both
//! it and the reader follow.

mod baffle_edges;
mod baffle_flanges;
mod called;
mod explain;
pub mod extras;
mod faces;
mod fixtures;
mod joints;
mod nearest;
mod plumbing;
mod reader;
pub mod schema;
mod shape;
mod spans;
mod syntax;
mod unread;
mod words;

use seamwright_core::advice::process::CoatedSheet;
use seamwright_core::blank::BlankError;
use seamwright_core::build::BaffleEdge;
use seamwright_core::fitting::BaffleCut;
use seamwright_core::input::limits::{MAX_MOUNTS, MAX_NAME};
use seamwright_core::input::{
    ArcDraft, Draft, Face, FillDraft, Name, StockDraft, UseDraft, WeldDraft,
};
use seamwright_core::tank::{Assumed, JobError, ReachError, Tank};
use seamwright_core::units::{Length, Ratio, VolumeUnit};
use toml::de::{DeTable, DeValue};

use crate::cut::Cut;
use crate::diagnostics::{Problem, Report, Source};
use crate::failure::Failure;
pub use extras::Extras;
use reader::{Reader, Section, no_such_word};
use schema::{ARC, FILL, JOINTS, MOUNT, SHAPE, STOCK, TOP, USE, WELD};
pub use spans::Spans;
use words::YesNo;

/// A job file that reads.
#[derive(Clone, Debug)]
pub struct JobFile {
    /// Its text, for messages that point into it.
    pub source: Source,
    /// What it says.
    pub draft: Draft,
    /// What it says beyond the tank: equipment, wave, supplies and prices.
    pub extras: Extras,
    /// Edges of baffles that the draft leaves free because hand and torch do not reach them.
    pub left_free: Vec<BaffleEdge>,
    spans: Spans,
}

impl JobFile {
    /// Reads the file at `path`, or standard input if it is `-`.
    ///
    /// # Errors
    /// What is wrong with the path or the text, every problem of it.
    pub fn open(path: &str) -> Result<Self, Failure> {
        Self::read(crate::input::read(path)?)
    }

    /// Reads a text.
    ///
    /// # Errors
    /// Every problem of it.
    pub fn read(source: Source) -> Result<Self, Failure> {
        let tree = match DeTable::parse(&source.text) {
            Ok(tree) => tree,
            Err(error) => {
                let problem = syntax::explain(&error, &source.text);
                return Err(Report::new(source, vec![problem]).into());
            }
        };
        let mut reader = Reader::new(&source.text);
        let top = reader.top(&tree, &TOP);
        let (draft, extras) = said(&mut reader, &top);
        let Reader {
            problems, spans, ..
        } = reader;
        match draft {
            Some(mut draft) if problems.is_empty() => Ok(Self {
                left_free: leave_free(&mut draft, &extras),
                source,
                draft,
                extras,
                spans,
            }),
            _ => Err(Report::new(source, problems).into()),
        }
        .map(Self::reckoned)
    }

    /// The file with what of its fill reaches the pick-ups in its draft, where that is not all that lies above them: a gauge
    /// has no room to find it.
    fn reckoned(mut self) -> Self {
        let built = Tank::build_cut(&self.draft, &self.extras.baffles, |_| ());
        let found = built.ok().and_then(|tank| {
            let reach = tank.reach(&self.extras.plumbing).ok()?;
            let usable = reach.usable();
            (usable != tank.capacity().usable).then_some(usable)
        });
        self.draft.fill.reaches = found;
        self
    }

    /// The unit that it gives its volumes in, by the first of `fill.dip_volume` and `fill.target` that it has.
    #[must_use]
    pub fn volume_unit(&self) -> Option<VolumeUnit> {
        let span = ["fill.dip_volume", "fill.target"]
            .iter()
            .find_map(|path| self.spans.exact(path))?;
        let text = self.source.text.get(span)?;
        let text = text.trim_matches(['"', '\'']);
        // The file reads, so that what follows the number is a unit.
        let name = text.trim_start_matches(|sign: char| !sign.is_alphabetic());
        let same = |known: &str| known.split_whitespace().eq(name.split_whitespace());
        VolumeUnit::ALL
            .iter()
            .copied()
            .find(|unit| same(unit.symbol()) || unit.aliases().iter().any(|alias| same(alias)))
    }

    /// Whether a gauge can hold this job: one whose baffles are cut it would plan with whole ones.
    ///
    /// # Errors
    /// Which baffle, shown where its table starts.
    pub fn for_a_gauge(&self) -> Result<(), Failure> {
        let cut = self.extras.baffles.iter().position(|cut| !cut.is_none());
        let Some(place) = cut else { return Ok(()) };
        let number = place + 1;
        let span = self.spans.exact(&format!("baffle.{number}"));
        let problem = Problem::new(
            span.unwrap_or_default(),
            format!("a gauge has no room for how baffle {number} is cut"),
        )
        .label("its clearance, gaps or notches")
        .help("work from the plan and the job sheet, which have them; a gauge would show a whole baffle");
        Err(Report::new(self.source.clone(), vec![problem]).into())
    }

    /// Computes the tank, calling `assumed` for every value that the file leaves to its default.
    ///
    /// # Errors
    /// What makes the job impossible, shown at the key that is to blame.
    pub fn tank(&self, assumed: impl FnMut(Assumed)) -> Result<Tank, Failure> {
        let tank = Tank::build_cut(&self.draft, &self.extras.baffles, assumed)
            .map_err(|error| self.explain(&error))?;
        tank.check_flanges().map_err(|error| self.explain(&error))?;
        tank.reach(&self.extras.plumbing)
            .map_err(|error| self.explain_reach(&error))?;
        Cut::of(&tank, &self.extras)
            .check()
            .map_err(|(panel, error)| self.explain_allowance(&panel, &error))?;
        Ok(tank)
    }

    /// A blank that cannot be cut larger, shown at the key that asks for it.
    fn explain_allowance(&self, panel: &str, error: &BlankError) -> Failure {
        let span = ["weld.shrink_by", "weld.shrink_allowance"]
            .iter()
            .find_map(|path| self.spans.exact(path))
            .unwrap_or_default();
        let problem = Problem::new(
            span,
            format!("panel {panel} cannot be cut larger for shrinkage: {error}"),
        )
        .label("asked for here")
        .help("give less, or take the allowance out and trim by hand");
        Report::new(self.source.clone(), vec![problem]).into()
    }

    fn explain(&self, error: &JobError) -> Failure {
        Report::new(self.source.clone(), vec![self.given().explain(error)]).into()
    }

    fn explain_reach(&self, error: &ReachError) -> Failure {
        Report::new(self.source.clone(), vec![self.given().unreached(error)]).into()
    }

    fn given(&self) -> explain::Given<'_> {
        explain::Given {
            text: &self.source.text,
            spans: &self.spans,
            draft: &self.draft,
        }
    }
}

/// Leaves those edges of baffles free that hand and torch do not reach, and tells which. A draft that makes no tank stays
/// as it is.
fn leave_free(draft: &mut Draft, extras: &Extras) -> Vec<BaffleEdge> {
    if draft.baffles.is_empty() {
        return Vec::new();
    }
    let Ok(tank) = Tank::build_cut(draft, &extras.baffles, |_| ()) else {
        return Vec::new();
    };
    let mut free = Vec::new();
    tank.free_out_of_reach(draft, |edge| free.push(edge));
    free
}

/// All that the file says: the tank, and what goes beyond it.
fn said<'t>(reader: &mut Reader<'t>, top: &Section<'t>) -> (Option<Draft>, Extras) {
    let arc = reader.section(top, "arc", &ARC);
    let weld = reader.section(top, "weld", &WELD);
    let fill = reader.section(top, "fill", &FILL);
    let sections = [arc.as_ref(), weld.as_ref(), fill.as_ref()];
    let mut coated = None;
    let (draft, baffles) = draft(reader, top, sections, &mut coated).unzip();
    let mut extras = extras::read(reader, top, [arc.as_ref(), weld.as_ref()]);
    extras.coated = coated;
    extras.baffles = baffles.unwrap_or_default();
    if let (Some(draft), Some(fill)) = (&draft, &fill) {
        extras.plumbing = plumbing::read(reader, fill, &draft.fittings);
    }
    (draft, extras)
}

fn draft<'t>(
    reader: &mut Reader<'t>,
    top: &Section<'t>,
    [arc_section, weld_section, fill_section]: [Option<&Section<'t>>; 3],
    coated: &mut Option<CoatedSheet>,
) -> Option<(Draft, Vec<BaffleCut>)> {
    let name = name(reader, top);
    let shape = reader
        .section(top, "shape", &SHAPE)
        .and_then(|section| shape::read(reader, &section));
    if let Some(shape) = &shape {
        reader.faces.retain(|face| shape.has(*face));
    }
    let stock = reader.section(top, "stock", &STOCK).and_then(|section| {
        *coated = extras::coated(reader, &section);
        stock(reader, &section)
    });
    let joints = reader
        .section(top, "joints", &JOINTS)
        .map(|section| joints::read(reader, &section));
    let fittings = fixtures::fittings(reader, top);
    let baffles = fixtures::baffles(reader, top);
    let fill = fill_section.map(|section| fill(reader, section));
    let arc = arc_section.map(|section| arc(reader, section));
    let weld = weld_section.map(|section| WeldDraft {
        stitch_max: reader.quantity(section, "stitch_max"),
        tack_pitch: reader.quantity(section, "tack_pitch"),
        interpass_max: reader.quantity(section, "interpass_max"),
        ambient: reader.quantity(section, "ambient"),
        emissivity: reader
            .number(section, "emissivity", "0.1")
            .map(Ratio::from_share),
        moving: reader.quantity(section, "move"),
        back_step: reader.word::<YesNo>(section, "back_step").map(bool::from),
        opening: reader.quantity(section, "opening"),
        reach: reader.quantity(section, "reach"),
    });
    let service = reader
        .section(top, "use", &USE)
        .map(|section| service(reader, &section));
    // A table that is there but wrong has left its problems with the reader, so a default here is never used.
    let (baffles, cuts) = baffles?;
    let draft = Draft {
        name: name?,
        shape: shape?,
        stock: stock?,
        joints: joints.unwrap_or_default(),
        fittings: fittings?,
        baffles,
        fill: fill.unwrap_or_default(),
        arc: arc.unwrap_or_default(),
        weld: weld.unwrap_or_default(),
        service: service.unwrap_or_default(),
    };
    Some((draft, cuts))
}

fn service<'t>(reader: &mut Reader<'t>, section: &Section<'t>) -> UseDraft {
    let mounts = fixtures::tables(reader, section, "mount", &MOUNT, MAX_MOUNTS);
    UseDraft {
        temperature: reader.quantity(section, "temperature"),
        pressure: reader.quantity(section, "pressure"),
        acceleration: reader
            .numbers(section, "acceleration", "acceleration = [1, 0.5, 2]")
            .map(|all| all.map(Ratio::from_share)),
        anodised: reader.word::<YesNo>(section, "anodised").map(bool::from),
        mounts: mounts
            .iter()
            .filter_map(|mount| {
                reader.quantities(mount, "at", "at = [\"20 mm\", \"20 mm\", \"0 mm\"]")
            })
            .collect(),
    }
}

fn name<'t>(reader: &mut Reader<'t>, top: &Section<'t>) -> Option<Name> {
    let (text, span) = reader.text(top, "name", "Header tank")?;
    let text = text.trim();
    if let Some(control) = text.chars().find(|sign| sign.is_control()) {
        let problem = Problem::new(span, "`name` holds a sign that cannot be shown")
            .label(match control {
                '\t' => "a tab in it".to_owned(),
                '\n' | '\r' => "a line break in it".to_owned(),
                other => format!("U+{:04X} in it", u32::from(other)),
            })
            .help("write the name on one line, with letters, figures and spaces");
        reader.problem(problem);
        return None;
    }
    let name = Name::try_from(text).ok();
    if name.is_none() {
        let problem = Problem::new(span, "`name` is too long")
            .label(format!("{} bytes; at most {MAX_NAME}", text.len()))
            .help("shorten it: the gauge keeps plain letters as one byte each, accented ones as two or more");
        reader.problem(problem);
    }
    name
}

fn stock<'t>(reader: &mut Reader<'t>, section: &Section<'t>) -> Option<StockDraft> {
    let alloy = reader.word(section, "alloy");
    let temper = reader.word(section, "temper");
    let thickness = reader.quantity(section, "thickness");
    let faces = face_thicknesses(reader, section);
    Some(StockDraft {
        alloy: alloy?,
        temper,
        thickness: thickness?,
        faces: faces?,
    })
}

/// `[stock.faces]`: its keys are faces.
fn face_thicknesses<'t, const N: usize>(
    reader: &mut Reader<'t>,
    section: &Section<'t>,
) -> Option<heapless::Vec<(Face, Length), N>> {
    let mut faces = heapless::Vec::new();
    let Some(value) = reader.value(section, "faces") else {
        return Some(faces);
    };
    let DeValue::Table(table) = value.get_ref() else {
        let problem = Problem::new(value.span(), "`stock.faces` must be a table")
            .label("not a table")
            .help("head it with [stock.faces] and write, for example, bottom = \"3 mm\"");
        reader.problem(problem);
        return None;
    };
    for (key, value) in table {
        let word = key.get_ref().as_ref();
        let path = format!("stock.faces.{word}");
        let Ok(face) = word.parse::<Face>() else {
            let all: Vec<String> = reader.faces.iter().map(Face::to_string).collect();
            let problem = no_such_word(
                key.span(),
                "stock.faces",
                word,
                all.iter().map(String::as_str),
            )
            .help("a cut or a side is named in quotes: \"cut 1\" = \"3 mm\"");
            reader.problem(problem);
            continue;
        };
        reader
            .spans
            .put(format!("stock.faces.{face}"), value.span());
        if let Some(thickness) = reader.quantity_of(value, &path) {
            // The key is a face, so there are at most as many as the body may have.
            faces.push((face, thickness)).ok()?;
        }
    }
    Some(faces)
}

fn fill<'t>(reader: &mut Reader<'t>, section: &Section<'t>) -> FillDraft {
    if let (Some(span), false) = (section.place("target_of"), section.has("target")) {
        let problem = Problem::new(
            span,
            "`fill.target_of` says what a target is of, and there is no target",
        )
        .label("of nothing")
        .help("add target = \"6.5 L\", with your own figure, or take this out");
        reader.problem(problem);
    }
    FillDraft {
        headspace: reader.quantity(section, "headspace"),
        target: reader.quantity(section, "target"),
        target_of: reader.word(section, "target_of"),
        pick_up: reader.quantity(section, "pick_up"),
        pick_up_at: place(reader, section, "pick_up_at"),
        neck: reader.quantity(section, "neck"),
        pitch: reader.quantity(section, "pitch"),
        roll: reader.quantity(section, "roll"),
        dip_step: reader.quantity(section, "dip_step"),
        dip_volume: reader.quantity(section, "dip_volume"),
        dip_at: place(reader, section, "dip_at"),
        fill_temperature: reader.quantity(section, "fill_temperature"),
        hottest: reader.quantity(section, "hottest"),
        liquid: reader.word(section, "liquid"),
        // Found once the whole file is read.
        reaches: None,
    }
}

/// A place on the plan.
fn place<'t>(reader: &mut Reader<'t>, section: &Section<'t>, name: &str) -> Option<[Length; 2]> {
    section.has(name).then_some(())?;
    reader.quantities(section, name, &format!("{name} = [\"40 mm\", \"90 mm\"]"))
}

fn arc<'t>(reader: &mut Reader<'t>, section: &Section<'t>) -> ArcDraft {
    ArcDraft {
        process: reader.word(section, "process"),
        current: reader.quantity(section, "current"),
        voltage: reader.quantity(section, "voltage"),
        travel: reader.quantity(section, "travel"),
        efficiency: reader.quantity(section, "efficiency"),
    }
}
