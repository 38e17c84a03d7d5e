//! The command line.

mod leak;
#[cfg(test)]
mod terms;

use std::io::{self, IsTerminal, Write};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use clap::{Parser, Subcommand, ValueEnum};
use seamwright_core::advice::Advice;
use seamwright_core::capacity::Lean;
use seamwright_core::input::Measure;
use seamwright_core::tank::{Assumed, Tank};
use seamwright_core::units::range::{Limit, OutOfRange, Value};
use seamwright_core::units::{Angle, Length, LengthUnit, Quantity, parse};
use seamwright_core::weld::WeldPlan;

use crate::failure::Failure;
use crate::job_file::JobFile;
use crate::report::model::Section;
use crate::report::pours::{self, Poured};
use crate::report::{self, Asked, Known, Units, dip, render};
use crate::sheet::files::Marking;
use crate::sheet::nest::Stock;
use crate::sheet::pdf::{Paper, Print};
use crate::{bench, link, readings, sheet, shots, solve, welding};

/// Plans one-off welded sheet-metal liquid tanks.
#[derive(Debug, Parser)]
#[command(name = "seamwright", version, about, max_term_width = 100)]
struct Cli {
    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Everything computed: capacity, panels, seams, stitches, heat
    Plan {
        /// The job file, or - for standard input
        job: String,
        /// Print one JSON object in SI units instead of a report
        #[arg(long)]
        json: bool,
        /// Try so many other orders of welding as well, and tell what the best of them takes
        #[arg(long, value_name = "ORDERS", value_parser = clap::value_parser!(u32).range(1..=100_000))]
        search: Option<u32>,
        /// The units of the report
        #[arg(long, value_enum, default_value_t)]
        units: Units,
    },
    /// The volume at a depth and a lean
    Fill {
        /// The job file, or - for standard input
        job: String,
        /// Depth of the liquid above the lowest inside point, such as "80 mm" or "3 1/4 in"
        #[arg(long)]
        depth: String,
        /// Above zero lifts the right end, such as "5°"
        #[arg(long, allow_hyphen_values = true)]
        pitch: Option<String>,
        /// Above zero lifts the back, such as "-2.5 deg"
        #[arg(long, allow_hyphen_values = true)]
        roll: Option<String>,
        /// Print one JSON object in SI units instead of a sentence
        #[arg(long)]
        json: bool,
        /// The units of the sentence
        #[arg(long, value_enum, default_value_t)]
        units: Units,
    },
    /// The bench gauge, live in this terminal
    Bench {
        /// The job files to put on its shelf
        #[arg(required = true)]
        jobs: Vec<String>,
    },
    /// Every screen of the gauge as a PNG file
    Shots {
        /// The job file, or - for standard input
        job: String,
        /// The folder to write into; made if it is not there
        #[arg(long)]
        out: PathBuf,
        /// Picture points for each pixel of the display, each way
        #[arg(long, default_value_t = shots::SCALE, value_parser = clap::value_parser!(u32).range(1..=i64::from(shots::MAX_SCALE)))]
        scale: u32,
    },
    /// The dip chart: what is in the tank for a reading of its rod
    Dip {
        /// The job file, or - for standard input
        job: String,
        /// Above zero lifts the right end, such as "5°"
        #[arg(long, allow_hyphen_values = true)]
        pitch: Option<String>,
        /// Above zero lifts the back, such as "-2.5 deg"
        #[arg(long, allow_hyphen_values = true)]
        roll: Option<String>,
        /// A mark each so many millimetres, such as "10 mm"
        #[arg(long, conflicts_with = "volume")]
        every: Option<String>,
        /// A mark each round volume, such as "0.5 L"
        #[arg(long)]
        volume: Option<String>,
        /// All that was poured in so far and what the rod reads then, as "2 L at 31 mm": sets the chart
        /// right; two or more
        #[arg(long, value_name = "POUR")]
        pour: Vec<String>,
        /// Print one JSON object in SI units instead of a table
        #[arg(long)]
        json: bool,
        /// The units of the table
        #[arg(long, value_enum, default_value_t)]
        units: Units,
    },
    /// The one dimension that meets a capacity
    Solve {
        /// The job file, or - for standard input
        job: String,
        /// What may change: length, width, height, diameter, or "cut 1 leg 2"
        #[arg(long = "for", value_name = "DIMENSION")]
        dimension: String,
        /// Usable capacity to meet, such as "6.5 L"
        #[arg(long, group = "wanted")]
        usable: Option<String>,
        /// Capacity to the fill mark to meet
        #[arg(long, group = "wanted")]
        fill: Option<String>,
        /// Capacity to the brim to meet
        #[arg(long, group = "wanted")]
        brim: Option<String>,
        /// Print one JSON object in SI units instead of a sentence
        #[arg(long)]
        json: bool,
        /// The units of the sentence
        #[arg(long, value_enum, default_value_t)]
        units: Units,
    },
    /// The job sheet, and true-size patterns of every panel: DXF, SVG and PDF
    Sheet {
        /// The job file, or - for standard input
        job: String,
        /// The folder to write into; made if it is not there
        #[arg(long)]
        out: PathBuf,
        /// The paper that the patterns are printed on
        #[arg(long, value_enum, default_value_t)]
        paper: PaperSize,
        /// A sheet to cut from, as "2 mm: 1000 mm x 2000 mm"; may be given several times
        #[arg(long, value_name = "SHEET")]
        stock: Vec<String>,
        /// All that was poured in so far and what the rod reads then, as "2 L at 31 mm": sets the marks of
        /// the dipstick right; two or more
        #[arg(long, value_name = "POUR")]
        pour: Vec<String>,
    },
    /// How the tank is tested for leaks, and what the readings of a test come to
    Leak(leak::Arguments),
    /// Jobs to a gauge on a cable
    #[command(subcommand)]
    Link(Link),
}

#[derive(Debug, Subcommand)]
enum Link {
    /// Puts a job on the gauge's shelf
    Send {
        /// The job file, or - for standard input
        job: String,
        /// The serial port, such as /dev/ttyUSB0, or unix:PATH for a socket
        #[arg(long)]
        port: String,
    },
}

/// Runs the command line and says how it ended: 0 done, 2 bad input, 1 anything else.
#[must_use]
pub fn main() -> ExitCode {
    let cli = match Cli::try_parse() {
        Ok(cli) => cli,
        Err(error) => {
            // Help and version are printed by clap to standard output, mistakes to standard error.
            let code = if error.use_stderr() { 2 } else { 0 };
            let _ = error.print();
            return ExitCode::from(code);
        }
    };
    match run(&cli.command) {
        Ok(code) => code,
        Err(failure) => {
            let text = failure.render(coloured(&io::stderr()));
            let _ = io::stderr().write_all(text.as_bytes());
            ExitCode::from(failure.exit_code())
        }
    }
}

/// Whether a stream may have colours: a terminal whose user did not say no.
fn coloured(stream: &impl IsTerminal) -> bool {
    stream.is_terminal() && std::env::var_os("NO_COLOR").is_none_or(|value| value.is_empty())
}

fn run(command: &Command) -> Result<ExitCode, Failure> {
    match command {
        Command::Plan {
            job,
            json,
            search,
            units,
        } => plan(job, *json, *search, *units)?,
        Command::Fill {
            job,
            depth,
            pitch,
            roll,
            json,
            units,
        } => {
            fill(job, depth, pitch.as_deref(), roll.as_deref(), *json, *units)?;
        }
        Command::Bench { jobs } => return bench(jobs),
        Command::Shots { job, out, scale } => write_shots(job, out, *scale)?,
        Command::Dip {
            job,
            pitch,
            roll,
            every,
            volume,
            pour,
            json,
            units,
        } => {
            let lean = lean(pitch.as_deref(), roll.as_deref())?;
            let step = dip::Step {
                every: every
                    .as_deref()
                    .map(|text| option("--every", text))
                    .transpose()?,
                volume: volume
                    .as_deref()
                    .map(|text| option("--volume", text))
                    .transpose()?,
            };
            let tank = computed(job)?;
            let chart = dip::chart(&tank, lean, step)?;
            let poured = poured(&tank, lean, pour)?;
            let chart = match &poured {
                Some(poured) => poured.corrected(&tank, step, &chart),
                None => chart,
            };
            let mut sections = vec![dip::section(&tank, &chart, *units)];
            sections.extend(poured.map(|poured| poured.section(*units)));
            answer(&sections, *json)?;
        }
        Command::Solve {
            job,
            dimension,
            usable,
            fill,
            brim,
            json,
            units,
        } => {
            let wanted = [
                (Measure::Usable, "--usable", usable),
                (Measure::Fill, "--fill", fill),
                (Measure::Brim, "--brim", brim),
            ]
            .into_iter()
            .find_map(|(measure, name, text)| Some((measure, name, text.as_deref()?)));
            let Some((measure, name, text)) = wanted else {
                return Err(Failure::input(
                    "there is no capacity to meet".to_owned(),
                    "add --usable \"6.5 L\", or --fill or --brim, with your own figure".to_owned(),
                ));
            };
            let target = option(name, text)?;
            let file = JobFile::open(job)?;
            let found = solve::solve(&file, dimension, measure, target)?;
            answer(&[solve::section(&found, *units)], *json)?;
        }
        Command::Sheet {
            job,
            out,
            paper,
            stock,
            pour,
        } => write_sheet(job, out, *paper, stock, pour)?,
        Command::Leak(arguments) => leak::leak(arguments)?,
        Command::Link(Link::Send { job, port }) => send(job, port)?,
    }
    Ok(ExitCode::SUCCESS)
}

/// Writes to standard output. A reader that has had enough is no fault: the rest is not wanted.
fn print(text: &str) -> Result<(), Failure> {
    let mut out = io::stdout().lock();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Err(error) if error.kind() != io::ErrorKind::BrokenPipe => Err(Failure::other(
            format!("writing the answer failed: {error}"),
            "is the disk full?",
        )),
        _ => Ok(()),
    }
}

/// Prints what a command answers: as a report, or as one JSON object.
fn answer(sections: &[Section], json: bool) -> Result<(), Failure> {
    if !json {
        return print(&render::text::report(sections));
    }
    let text = serde_json::to_string_pretty(&render::json::object(sections))
        .map_err(|error| Failure::other(format!("writing JSON failed: {error}"), ""))?;
    print(&format!("{text}\n"))
}

/// A job file with all that was computed of it.
struct Whole {
    file: JobFile,
    tank: Tank,
    assumed: Vec<Assumed>,
    welding: Known,
}

impl Whole {
    fn open(job: &str) -> Result<Self, Failure> {
        let file = JobFile::open(job)?;
        let mut assumed = Vec::new();
        let tank = file.tank(|one| assumed.push(one))?;
        let welding = welding::plan(&tank, &file.extras);
        Ok(Self {
            file,
            tank,
            assumed,
            welding,
        })
    }

    fn asked(&self, search: Option<u32>) -> Asked<'_> {
        Asked {
            tank: &self.tank,
            assumed: &self.assumed,
            extras: &self.file.extras,
            left_free: &self.file.left_free,
            welding: &self.welding,
            search,
        }
    }
}

fn computed(job: &str) -> Result<Tank, Failure> {
    JobFile::open(job)?.tank(|_| ())
}

fn plan(job: &str, json: bool, search: Option<u32>, units: Units) -> Result<(), Failure> {
    let whole = Whole::open(job)?;
    answer(&report::plan::sections(&whole.asked(search), units), json)
}

fn fill(
    job: &str,
    depth: &str,
    pitch: Option<&str>,
    roll: Option<&str>,
    json: bool,
    units: Units,
) -> Result<(), Failure> {
    let written = depth;
    let depth = option::<Length>("--depth", written)?;
    let lean = lean(pitch, roll)?;
    let tank = computed(job)?;
    let level = tank
        .pool(lean)
        .at(depth)
        .map_err(|error| match error.limit {
            Limit::AtMost(Value::Length(full)) => Failure::input(
                format!("--depth \"{written}\" is past the brim"),
                format!(
                    "standing so, the tank is full at {} ({}): give less",
                    full.display(LengthUnit::Millimetre, 2),
                    full.display(LengthUnit::Inch, 3)
                ),
            ),
            _ => past("--depth")(error),
        })?;
    answer(&[report::fill::section(&tank, lean, &level, units)], json)
}

fn past(name: &'static str) -> impl Fn(OutOfRange) -> Failure {
    move |error| {
        Failure::input(
            format!("{name} is out of range: {}", error.value),
            format!("it must be {}", error.limit),
        )
    }
}

/// The lean that two options give.
fn lean(pitch: Option<&str>, roll: Option<&str>) -> Result<Lean, Failure> {
    let angle =
        |name, text: Option<&str>| text.map_or(Ok(Angle::default()), |text| option(name, text));
    let (pitch, roll) = (angle("--pitch", pitch)?, angle("--roll", roll)?);
    // Each angle alone first, so that the message names the one at fault.
    Lean::new(pitch, Angle::default()).map_err(past("--pitch"))?;
    Lean::new(pitch, roll).map_err(past("--roll"))
}

/// The value of an option as a quantity.
fn option<Q: Quantity>(name: &str, text: &str) -> Result<Q, Failure> {
    parse(text).map_err(|error| {
        let units = Q::ABOUT.symbols.join(", ");
        Failure::input(
            format!("{name} \"{text}\" is not {}: {error}", Q::ABOUT.what),
            format!(
                "write a number and its unit in quotes; the units of {} are {units}",
                Q::ABOUT.what
            ),
        )
    })
}

fn write_shots(job: &str, out: &Path, scale: u32) -> Result<(), Failure> {
    let file = JobFile::open(job)?;
    // A job that cannot be computed is the user's to mend before there is anything to see.
    file.tank(|_| ())?;
    let failed = |what: &Path, error: io::Error| {
        Failure::other(
            format!("{} cannot be written: {error}", what.display()),
            "name another folder with --out",
        )
    };
    std::fs::create_dir_all(out).map_err(|error| failed(out, error))?;
    file.for_a_gauge()?;
    for shot in shots::every_screen(&file.draft) {
        let path = out.join(format!("{}.png", shot.name));
        shots::write_whole(&path, |file| shots::png(&shot.frame, scale, file))
            .map_err(|error| failed(&path, error))?;
        print(&format!("{}\n", path.display()))?;
    }
    Ok(())
}

/// A sheet to cut from: `"2 mm: 1000 mm x 2000 mm"`.
fn stock_sheet(text: &str) -> Result<Stock, Failure> {
    let parts = || {
        let (thickness, size) = text.split_once(':')?;
        let (width, length) = size.split_once(" x ")?;
        let mm = |text: &str| {
            let length = parse::<Length>(text.trim()).ok()?;
            Some(length.in_unit(LengthUnit::Millimetre))
        };
        Some((mm(thickness)?, mm(width)?, mm(length)?, size.trim()))
    };
    let Some((thickness, width, length, name)) = parts() else {
        return Err(Failure::input(
            format!("--stock \"{text}\" is no sheet"),
            "write thickness, width and length, as \"2 mm: 1000 mm x 2000 mm\"",
        ));
    };
    Ok(Stock {
        name: name.to_owned(),
        width,
        length,
        thickness,
        count: MOST_SHEETS,
    })
}

/// What a printer leaves blank at the edge, and what neighbouring pages share, in mm.
const PRINT_MARGIN: f64 = 10.0;
const PRINT_OVERLAP: f64 = 12.0;

/// Sheets of one size that may be taken.
const MOST_SHEETS: usize = 50;

/// Paper for patterns.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
enum PaperSize {
    /// 210 mm by 297 mm
    #[default]
    A4,
    /// 8.5 in by 11 in
    Letter,
}

fn write_sheet(
    job: &str,
    out: &Path,
    paper: PaperSize,
    stock: &[String],
    pours: &[String],
) -> Result<(), Failure> {
    let stock = stock
        .iter()
        .map(|text| stock_sheet(text))
        .collect::<Result<Vec<Stock>, Failure>>()?;
    let whole = Whole::open(job)?;
    let paper = match paper {
        PaperSize::A4 => Paper::A4,
        PaperSize::Letter => Paper::Letter,
    };
    let printing = Print::build(paper, PRINT_MARGIN, PRINT_OVERLAP)
        .map_err(|fault| Failure::other(fault.to_string(), ""))?;
    let poured = poured(&whole.tank, Lean::LEVEL, pours)?;
    let marking = Marking::of(&whole.file, poured.as_ref());
    let asked = whole.asked(None);
    for path in sheet::files::write(&asked, &stock, &printing, &marking, out)? {
        print(&format!("{}\n", path.display()))?;
    }
    Ok(())
}

/// The pours that were given, and what they say; `None` of none.
fn poured(tank: &Tank, lean: Lean, pours: &[String]) -> Result<Option<Poured>, Failure> {
    if pours.is_empty() {
        return Ok(None);
    }
    let pours = pours
        .iter()
        .map(|text| readings::pour(text))
        .collect::<Result<Vec<_>, Failure>>()?;
    pours::set_right(tank, lean, pours).map(Some)
}

fn bench(jobs: &[String]) -> Result<ExitCode, Failure> {
    let mut drafts = Vec::new();
    for job in jobs {
        let file = JobFile::open(job)?;
        file.for_a_gauge()?;
        drafts.push((job.clone(), file.draft));
    }
    bench::command(drafts, coloured(&io::stdout()))
}

fn send(job: &str, port: &str) -> Result<(), Failure> {
    let file = JobFile::open(job)?;
    file.for_a_gauge()?;
    let tank = file.tank(|_| ())?;
    let plan = welding::plan(&tank, &file.extras);
    let order = plan.as_ref().map_or(&[][..], WeldPlan::steps);
    // Told before anything is sent: the gauge itself says no more than that it has no order.
    if let Some(notice) = tank.order_not_on_gauge() {
        print(&format!("Mind: {}.\n", Advice::OfWork(notice).about(&tank)))?;
    }
    let mut draft = file.draft.clone();
    if let Ok(plan) = &plan
        && plan.interpass_max() < tank.interpass_max()
    {
        // So that the gauge waits as the order does, and finds the same order if it plans one itself.
        draft.weld.interpass_max = Some(plan.interpass_max());
    }
    let kept = link::command(&draft, order, port)?;
    let mut said = format!("{kept}\n");
    if let Err(error) = plan {
        said.push_str(&format!(
            "It went without an order of its stitches: {error}.\n"
        ));
    }
    print(&said)
}
