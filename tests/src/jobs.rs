//! The example jobs, jobs written as text, and drafts with all that may be left out left out.

// A helper that cannot go on stops its test at once.
#![allow(clippy::expect_used, clippy::panic)]

use std::path::PathBuf;

use seamwright::diagnostics::Source;
use seamwright::job_file::JobFile;
use seamwright_core::input::{
    ArcDraft, Draft, FillDraft, JointsDraft, Shape, StockDraft, UseDraft, WeldDraft,
};
use seamwright_core::tank::Tank;

/// The examples, by the names of their files.
pub const EXAMPLES: [&str; 3] = ["header-tank", "log-splitter-reservoir", "rinse-tank"];

/// A job of more stitches than a gauge's order may have, held so cool that some of them wait.
pub const MANY_STITCHES: &str = r#"
name = "Rainwater tank behind a workshop"
[shape]
kind = "block"
length = "1600 mm"
width = "900 mm"
height = "800 mm"
[[shape.cut]]
edge = "top front"
legs = ["150 mm", "200 mm"]
[stock]
alloy = "S235"
thickness = "3 mm"
[[baffle]]
across = "length"
at = "800 mm"
[[baffle.hole]]
at = ["450 mm", "400 mm"]
diameter = "420 mm"
[[fitting]]
name = "hatch"
face = "top"
at = ["400 mm", "375 mm"]
bore = "400 mm"
outer = "410 mm"
[fill]
liquid = "water"
[weld]
stitch_max = "30 mm"
interpass_max = "60 °C"
"#;

/// The path of an example's job file.
#[must_use]
pub fn path(name: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(format!("../host-sim/examples/{name}.toml"))
}

/// An example's job.
///
/// # Panics
/// Where there is no such example, or it does not read.
#[must_use]
pub fn example(name: &str) -> JobFile {
    JobFile::open(&path(name).display().to_string()).unwrap_or_else(|failure| panic!("{failure}"))
}

/// The tank of an example.
///
/// # Panics
/// As for [`example`].
#[must_use]
pub fn example_tank(name: &str) -> Tank {
    built(&example(name))
}

/// The job of a text.
///
/// # Panics
/// Where it does not read.
#[must_use]
pub fn read(text: &str) -> JobFile {
    let source = Source {
        name: "tank.toml".into(),
        text: text.into(),
    };
    JobFile::read(source).unwrap_or_else(|failure| panic!("{failure}"))
}

/// The tank of a text.
///
/// # Panics
/// Where the text does not read, or makes no tank.
#[must_use]
pub fn tank(text: &str) -> Tank {
    built(&read(text))
}

fn built(job: &JobFile) -> Tank {
    job.tank(|_| ())
        .unwrap_or_else(|failure| panic!("{failure}"))
}

/// A job of a shape in a sheet, all else left out.
///
/// # Panics
/// Where the name is too long.
#[must_use]
pub fn bare(name: &str, shape: Shape, stock: StockDraft) -> Draft {
    Draft {
        name: name.try_into().expect("a short name"),
        shape,
        stock,
        joints: JointsDraft::default(),
        fittings: heapless::Vec::new(),
        baffles: heapless::Vec::new(),
        fill: FillDraft::default(),
        arc: ArcDraft::default(),
        weld: WeldDraft::default(),
        service: UseDraft::default(),
    }
}
