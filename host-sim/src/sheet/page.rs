//! The job sheet of a tank: what hangs beside the work.

use seamwright_core::advice::caution::Caution as Danger;
use seamwright_core::advice::notice::Severity;
use seamwright_core::capacity::Outcome;
use seamwright_core::leak::BAROMETER;
use seamwright_core::leak::Rule;
use seamwright_core::seam::joint_name;
use seamwright_core::tank::Tank;
use seamwright_core::units::{
    AngleUnit, LengthUnit, MassUnit, RatioUnit, TemperatureUnit, Volume, VolumeUnit,
};
use seamwright_core::weld::Turn;

use super::job_page::{JobPage, Piece as Part, Section, Weight};
use super::nest::{self, Plan};
use super::pieces::Piece;
use super::svg;
use crate::cut::Cut;
use crate::job_file::Extras;
use crate::report::{self, Asked, notices, shrinkage, tacks};
use crate::welding::{self, plot};

fn litres(volume: Volume) -> String {
    format!(
        "{} ({})",
        volume.display(VolumeUnit::Litre, 3),
        volume.display(VolumeUnit::UsGallon, 2)
    )
}

fn fact(name: &str, value: String) -> (String, String) {
    (name.to_owned(), value)
}

fn strings<const N: usize>(all: [&str; N]) -> Vec<String> {
    all.iter().map(ToString::to_string).collect()
}

/// The page of a tank with its pieces and, where sheets were named, how they lie on them.
pub(super) fn job_page(
    asked: &Asked<'_>,
    cut: &Cut<'_>,
    pieces: &[Piece],
    plan: Option<&Plan<'_>>,
) -> JobPage {
    let Asked {
        tank,
        assumed,
        extras,
        ..
    } = *asked;
    let mut sections = vec![
        Section {
            heading: "Cautions".to_owned(),
            pieces: dangers(tank),
        },
        Section {
            heading: "Mind".to_owned(),
            pieces: cautions(tank, extras),
        },
        Section {
            heading: "What it holds".to_owned(),
            pieces: holds(tank),
        },
        Section {
            heading: "Panels".to_owned(),
            pieces: panels(asked, cut, pieces),
        },
        Section {
            heading: "Seams".to_owned(),
            pieces: vec![seams(tank)],
        },
    ];
    sections.push(Section {
        heading: "Tack in this order".to_owned(),
        pieces: tacking(tank),
    });
    sections.push(Section {
        heading: "Order of the stitches".to_owned(),
        pieces: order(tank, extras),
    });
    sections.push(Section {
        heading: "Leak test".to_owned(),
        pieces: vec![leak_test(tank)],
    });
    if let Some(plan) = plan {
        sections.push(Section {
            heading: "On the sheet".to_owned(),
            pieces: on_sheet(plan),
        });
    }
    sections.push(Section {
        heading: "Taken as given".to_owned(),
        pieces: vec![Part::Table {
            head: strings(["input", "value", "from"]),
            rows: assumed
                .iter()
                .map(|one| {
                    vec![
                        one.field().to_string(),
                        one.to_string(),
                        one.source().to_owned(),
                    ]
                })
                .collect(),
        }],
    });
    JobPage {
        title: tank.job().name().to_owned(),
        sections,
    }
}

/// What may hurt someone, in whole, before anything else is said.
fn dangers(tank: &Tank) -> Vec<Part> {
    report::cautions::of(tank)
        .into_iter()
        .map(|caution| Part::Sourced {
            weight: match caution {
                Danger::LocalCode
                | Danger::FuelUs
                | Danger::FuelEu
                | Danger::FuelUk
                | Danger::DrinkingWater => Weight::Caution,
                _ => Weight::Danger,
            },
            text: caution.whole().to_owned(),
            source: caution.source().to_owned(),
        })
        .collect()
}

fn leak_test(tank: &Tank) -> Part {
    match report::leak::plan(tank, Rule::default(), None, BAROMETER) {
        Ok(test) => Part::Table {
            head: strings(["", "by the tank's own head"]),
            rows: report::leak::facts(tank, &test, report::Units::Metric)
                .into_iter()
                .map(|(name, value)| vec![name.to_owned(), value])
                .collect(),
        },
        Err(error) => Part::Caution {
            weight: Weight::Caution,
            text: format!("no test is proposed: {error}"),
        },
    }
}

fn cautions(tank: &Tank, extras: &Extras) -> Vec<Part> {
    let part = |told: notices::Told| Part::Caution {
        weight: match told.severity {
            Severity::Info => Weight::Advice,
            Severity::Caution => Weight::Caution,
            Severity::Warning => Weight::Danger,
        },
        text: told.text,
    };
    let mut all: Vec<Part> = notices::beside(tank, extras, &report::cautions::of(tank))
        .into_iter()
        .map(part)
        .collect();
    if let Some(liquid) = tank.job().liquid() {
        all.push(Part::Caution {
            weight: Weight::Caution,
            text: liquid.caution().to_owned(),
        });
    }
    all
}

fn holds(tank: &Tank) -> Vec<Part> {
    let capacity = tank.capacity();
    let mut facts = vec![
        fact("to the brim", litres(capacity.brim)),
        fact(
            "to the fill mark",
            format!(
                "{}, {} deep",
                litres(capacity.fill),
                capacity.fill_depth.display(LengthUnit::Millimetre, 1)
            ),
        ),
        fact("usable, standing level", litres(capacity.usable)),
    ];
    if let Some(worst) = tank.worst_usable() {
        let lean = worst.least.lean;
        facts.push(fact(
            "usable at the worst lean",
            format!(
                "{} at pitch {}, roll {}",
                litres(worst.least.usable),
                lean.pitch().display(AngleUnit::Degree, 1),
                lean.roll().display(AngleUnit::Degree, 1)
            ),
        ));
    }
    facts.extend(growth(tank));
    let rows = (0..tank.dip_count())
        .filter_map(|place| tank.dip_mark(place))
        .map(|(mark, _)| {
            vec![
                mark.reading.display(LengthUnit::Millimetre, 1).to_string(),
                mark.volume.display(VolumeUnit::Litre, 3).to_string(),
            ]
        })
        .collect();
    let reading = if tank.job().dip_at().is_some() {
        "rod reads"
    } else {
        "depth"
    };
    vec![
        Part::Facts(facts),
        Part::Table {
            head: strings([reading, "holds"]),
            rows,
        },
    ]
}

/// What the liquid does when it warms.
fn growth(tank: &Tank) -> Option<(String, String)> {
    let [_, hottest] = tank.job().temperatures()?;
    let at = hottest.display(TemperatureUnit::Celsius, 0);
    let told = match tank.expansion()? {
        Ok(expansion) => match expansion.outcome {
            Outcome::Fits(room) => format!(
                "grows to {} at {at}; {} stay free",
                litres(expansion.hot),
                litres(room)
            ),
            Outcome::Spills(spilt) => format!(
                "grows to {} at {at}; {} run over: a shut tank that is full bursts",
                litres(expansion.hot),
                litres(spilt)
            ),
        },
        Err(error) => error.to_string(),
    };
    Some(fact("when it warms", told))
}

fn panels(asked: &Asked<'_>, cut: &Cut<'_>, pieces: &[Piece]) -> Vec<Part> {
    let mm = |value: f64| format!("{value:.1} mm");
    let mut parts = vec![Part::Table {
        head: strings(["mark", "faces", "made", "sheet", "blank", "mass"]),
        rows: pieces
            .iter()
            .map(|piece| {
                let panel = &piece.panel;
                let faces: Vec<String> = panel.faces.iter().map(ToString::to_string).collect();
                let blank = piece.pattern.as_ref().map_or_else(
                    || "buy it, or have it spun".to_owned(),
                    |pattern| {
                        let extents = pattern.extents();
                        format!("{} x {}", mm(extents.width()), mm(extents.height()))
                    },
                );
                vec![
                    panel.mark.to_string(),
                    faces.join(", "),
                    panel.making.name().to_owned(),
                    panel
                        .thickness
                        .display(LengthUnit::Millimetre, 2)
                        .to_string(),
                    blank,
                    panel.mass.display(MassUnit::Kilogram, 3).to_string(),
                ]
            })
            .collect(),
    }];
    parts.push(Part::Text(format!(
        "All blanks together {}. Marks are on the outside. Two panels meet where their edges carry the same \
         seam mark, tick to tick: the ticks stand a third of the way along, so they meet one way round only.",
        cut.mass().display(MassUnit::Kilogram, 3)
    )));
    parts.extend(
        shrinkage::allowed(asked.tank, asked.extras, report::Units::Metric).map(|text| {
            Part::Caution {
                weight: Weight::Caution,
                text,
            }
        }),
    );
    for piece in pieces {
        if let Some(pattern) = &piece.pattern {
            parts.push(Part::Figure {
                svg: svg::pattern(pattern),
                caption: format!("Panel {}, not to scale here", piece.panel.mark),
            });
        }
    }
    parts
}

fn seams(tank: &Tank) -> Part {
    Part::Table {
        head: strings([
            "seam", "between", "joint", "length", "angle", "tacks", "stitches",
        ]),
        rows: tank
            .seams()
            .map(|seam| {
                let [a, b] = seam.faces;
                let tacks = tank.tacks(&seam).map_or_else(String::new, |tacks| {
                    format!(
                        "{} at {}",
                        tacks.count,
                        tacks.pitch.display(LengthUnit::Millimetre, 0)
                    )
                });
                let stitches = tank.division(&seam).map_or_else(String::new, |division| {
                    format!(
                        "{} of {}",
                        division.count,
                        division.length.display(LengthUnit::Millimetre, 0)
                    )
                });
                vec![
                    seam.mark.to_string(),
                    format!("{a} - {b}"),
                    joint_name(seam.joint).to_owned(),
                    seam.length.display(LengthUnit::Millimetre, 1).to_string(),
                    seam.dihedral.display(AngleUnit::Degree, 1).to_string(),
                    tacks,
                    stitches,
                ]
            })
            .collect(),
    }
}

fn on_sheet(plan: &Plan<'_>) -> Vec<Part> {
    let share = seamwright_core::units::Ratio::from_share(plan.share_used());
    let mut rows = Vec::new();
    for sheet in &plan.sheets {
        let [width, length] = sheet.offcut;
        rows.push(vec![
            format!("{} {}", sheet.stock.name, sheet.number),
            format!("{} pieces", sheet.placements.len()),
            format!("{:.0} %", 100.0 * sheet.used() / sheet.area()),
            format!("{width:.0} x {length:.0} mm"),
        ]);
    }
    vec![
        Part::Facts(vec![fact(
            "used of all sheets",
            share.display(RatioUnit::Percent, 0).to_string(),
        )]),
        Part::Table {
            head: strings(["sheet", "holds", "used", "largest offcut"]),
            rows,
        },
        Part::Figure {
            svg: nest::draw(plan),
            caption: "How the pieces lie".to_owned(),
        },
    ]
}

/// The order of tacking: a table for baffles, walls and the panel that closes the tank, each read down.
fn tacking(tank: &Tank) -> Vec<Part> {
    let order = tacks::of(tank);
    let mut parts = vec![Part::Text(tacks::advice(&order))];
    for turn in [Turn::Within, Turn::Body, Turn::Closing] {
        let rows = tacks::rows(&order, turn, |at| {
            at.display(LengthUnit::Millimetre, 0).to_string()
        });
        if rows.is_empty() {
            continue;
        }
        parts.push(Part::Text(format!("{}:", tacks::turn_name(tank, turn))));
        parts.push(Part::Table {
            head: ["no.", "seam", "at"]
                .repeat(tacks::ABREAST)
                .into_iter()
                .map(str::to_owned)
                .collect(),
            rows: rows.into_iter().map(Vec::from).collect(),
        });
    }
    parts
}

/// The weld plan: its plot and its table.
fn order(tank: &Tank, extras: &Extras) -> Vec<Part> {
    let plan = match welding::plan(tank, extras) {
        Ok(plan) => plan,
        Err(error) => return vec![Part::Text(error.to_string())],
    };
    let minutes = |seconds: f64| format!("{:.0} min", seconds / 60.0);
    let ambient = tank.job().welding().ambient;
    vec![
        Part::Facts(vec![
            fact("Job", minutes(plan.sum.job)),
            fact("Of it waits", minutes(plan.sum.waits)),
            fact("Seam by seam it would be", minutes(plan.plain.job)),
        ]),
        Part::Figure {
            svg: plot::draw(&plan, ambient, tank.interpass_max()),
            caption: "Each bar is a stitch while its arc burns; its height is the metal where it starts."
                .to_owned(),
        },
        Part::Table {
            head: strings(["no.", "seam", "from", "to", "wait first", "metal at start"]),
            rows: plan
                .stitches
                .iter()
                .map(|stitch| {
                    let [from, to] = stitch
                        .run
                        .map(|at| at.display(LengthUnit::Millimetre, 0).to_string());
                    let wait = if stitch.wait > 0.0 {
                        format!("{:.0} s", stitch.wait)
                    } else {
                        "-".to_owned()
                    };
                    let warm = stitch
                        .start_temperature
                        .display(TemperatureUnit::Celsius, 0)
                        .to_string();
                    vec![
                        stitch.order.to_string(),
                        stitch.seam.clone(),
                        from,
                        to,
                        wait,
                        warm,
                    ]
                })
                .collect(),
        },
        Part::Text(
            "The waits come from the heat of the tank's own sheets as it is computed. Feel or measure the metal, and wait longer where it is hotter than this says."
                .to_owned(),
        ),
    ]
}
