//! The files that `seamwright sheet` writes.

use std::io;
use std::path::{Path, PathBuf};

use seamwright_core::capacity::{Dip, Lean};
use seamwright_core::tank::Tank;
use seamwright_core::units::{LengthUnit, VolumeUnit};

use super::nest::{Item, Rules, Stock};
use super::pattern::{Fault, Pattern};
use super::pdf::{Mark, Print};
use super::pieces::{Piece, pieces};
use super::{dxf, nest, page, pdf, svg};
use crate::cut::Cut;
use crate::failure::Failure;
use crate::job_file::JobFile;
use crate::report::Asked;
use crate::report::dip::{self, Step};
use crate::report::pours::Poured;
use crate::shots::write_whole;
use crate::welding::plot;

/// Between two pieces on a sheet, and from a piece to the sheet's edge, in mm: room for a saw or a torch;
/// common practice, no source.
const GAP: f64 = 5.0;
const MARGIN: f64 = 10.0;

/// What the marks of the dipstick rest on, and how they are labelled.
#[derive(Clone, Copy, Debug)]
pub struct Marking<'a> {
    /// Pours that set them right.
    pub poured: Option<&'a Poured>,
    /// The unit of their labels.
    pub unit: VolumeUnit,
}

impl<'a> Marking<'a> {
    /// Labelled as the job file speaks: in its own unit where that is one of the United States or an imperial one,
    /// and else in litres.
    #[must_use]
    pub fn of(file: &JobFile, poured: Option<&'a Poured>) -> Self {
        let own = file.volume_unit().filter(|unit| {
            let symbol = unit.symbol();
            symbol.starts_with("US ") || symbol.starts_with("imp ")
        });
        Self {
            poured,
            unit: own.unwrap_or(VolumeUnit::Litre),
        }
    }
}

/// Writes every file of a tank into a folder, which is made if it is not there, and tells their paths.
///
/// # Errors
/// What could not be written, or a piece past what a file can hold.
pub fn write(
    asked: &Asked<'_>,
    stock: &[Stock],
    print: &Print,
    stick: &Marking<'_>,
    out: &Path,
) -> Result<Vec<PathBuf>, Failure> {
    let failed = |what: &Path, error: io::Error| {
        Failure::other(
            format!("{} cannot be written: {error}", what.display()),
            "name another folder with --out",
        )
    };
    let tank = asked.tank;
    let cut = Cut::of(tank, asked.extras);
    let pieces = pieces(&cut).map_err(|fault: Fault| {
        Failure::input(
            format!("a panel makes no pattern: {fault}"),
            "the tank is past what cut files can hold: make it larger or simpler".to_owned(),
        )
    })?;
    std::fs::create_dir_all(out).map_err(|error| failed(out, error))?;
    let mut written = Vec::new();
    let keep = |name: &str, bytes: &[u8], written: &mut Vec<PathBuf>| {
        let path = out.join(name);
        write_whole(&path, |file| io::Write::write_all(file, bytes))
            .map_err(|error| failed(&path, error))?;
        written.push(path);
        Ok::<(), Failure>(())
    };
    for piece in &pieces {
        let Piece {
            pattern: Some(pattern),
            panel,
            ..
        } = piece
        else {
            continue;
        };
        for (ending, bytes) in [
            (
                "dxf",
                dxf::pattern(pattern).map_err(|error| failed(out, error))?,
            ),
            ("svg", svg::pattern(pattern).into_bytes()),
        ] {
            let name = format!("panel-{}.{ending}", panel.mark);
            keep(&name, &bytes, &mut written)?;
        }
    }
    let patterns: Vec<Pattern> = pieces
        .iter()
        .filter_map(|piece| piece.pattern.clone())
        .collect();
    let name = tank.job().name();
    if !patterns.is_empty() {
        let paper = pdf::patterns(name, &patterns, print).map_err(|fault| {
            Failure::input(
                format!("the patterns do not go on paper: {fault}"),
                "cut from the DXF or SVG files instead, or split the tank".to_owned(),
            )
        })?;
        keep("patterns.pdf", &paper, &mut written)?;
    }
    if let Some(stick) = dipstick(tank, print, stick)? {
        keep("dipstick.pdf", &stick, &mut written)?;
    }
    let plan = nested(&pieces, stock)?;
    if let Some(plan) = &plan {
        keep("nest.svg", nest::draw(plan).as_bytes(), &mut written)?;
    }
    if let Ok(plan) = asked.welding {
        let picture = plot::draw(plan, tank);
        let file = format!("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n{picture}\n");
        keep("heat.svg", file.as_bytes(), &mut written)?;
    }
    let page = page::html(asked, &cut, &pieces, plan.as_ref());
    keep("job.html", page.as_bytes(), &mut written)?;
    Ok(written)
}

/// The strip for the dip rod, set right by pours where there are some; `None` where the chart has no mark.
fn dipstick(
    tank: &Tank,
    print: &Print,
    &Marking { poured, unit }: &Marking<'_>,
) -> Result<Option<Vec<u8>>, Failure> {
    let step = Step::default();
    let chart = dip::chart(tank, Lean::LEVEL, step)?;
    let (chart, rests) = match poured {
        Some(poured) => (poured.corrected(tank, step, &chart), poured.note()),
        None => (
            chart,
            "by the drawing alone, not by pours: check it with known volumes".to_owned(),
        ),
    };
    // As many places as all of them need, the brim's own left out: it is seldom round.
    let whole = |dip: &Dip, places: u8| {
        let steps = 10_f64.powi(i32::from(places));
        let amount = dip.volume.in_unit(unit);
        ((amount * steps).round() / steps - amount).abs() < 1e-6
    };
    let below = chart.marks.split_last().map_or(&[][..], |(_, below)| below);
    let round = |places: &u8| below.iter().all(|dip| whole(dip, *places));
    let places = (0..3).find(round).unwrap_or(3);
    let marks: Vec<Mark> = chart
        .marks
        .iter()
        .map(|dip| {
            let places = if whole(dip, places) { places } else { 3 };
            Mark {
                at: dip.reading.in_unit(LengthUnit::Millimetre),
                label: dip.volume.display(unit, places).to_string(),
                aside: dip.reading.display(LengthUnit::Millimetre, 1).to_string(),
            }
        })
        .collect();
    if marks.is_empty() {
        return Ok(None);
    }
    let stands = if chart.at.is_some() {
        "Rod where the job puts it, tank level"
    } else {
        "Rod on the lowest inside point, tank level"
    };
    pdf::strip(
        tank.job().name(),
        &format!("{stands}; {rests}."),
        &marks,
        print,
    )
    .map(Some)
    .map_err(|fault| {
        Failure::input(
            format!("the dipstick does not go on paper: {fault}"),
            "mark the rod by the dip chart instead".to_owned(),
        )
    })
}

/// The pieces laid on the sheets that the user names; `None` where none is named.
fn nested<'a>(pieces: &'a [Piece], stock: &'a [Stock]) -> Result<Option<nest::Plan<'a>>, Failure> {
    if stock.is_empty() {
        return Ok(None);
    }
    let items: Vec<Item<'_>> = pieces
        .iter()
        .filter_map(|piece| {
            Some(Item {
                pattern: piece.pattern.as_ref()?,
                thickness: piece.thickness,
                count: 1,
            })
        })
        .collect();
    let rules = Rules {
        gap: GAP,
        margin: MARGIN,
        turning: true,
    };
    nest::plan(&items, stock, &rules)
        .map(Some)
        .map_err(|fault| {
            Failure::input(
                format!("the pieces do not go on the sheets named: {fault}"),
                "name more or larger sheets with --stock, of the panels' own thickness".to_owned(),
            )
        })
}
