//! The job sheet of a tank: what hangs beside the work.

use seamwright_core::units::{Ratio, RatioUnit};

use super::marked;
use super::nest::{self, Plan};
use super::pieces::Piece;
use super::svg;
use crate::cut::Cut;
use crate::report::cited::Cited;
use crate::report::drawn::Drawn as Found;
use crate::report::model::{Block, Section, Table, left, said};
use crate::report::panels::{self, Drawn};
use crate::report::processed::Processed;
use crate::report::{
    Asked, Units, assumed, capacity, compartments, kit, leak, marking, notices, purge, render,
    seams, stages, stitches, tacks, verdict, wire,
};

/// The page of a tank with its pieces and, where sheets were named, how they lie on them.
pub(super) fn html(
    asked: &Asked<'_>,
    cut: &Cut<'_>,
    pieces: &[Piece],
    plan: Option<&Plan<'_>>,
) -> String {
    let (tank, units) = (asked.tank, Units::Metric);
    let dangers = tank.cautions();
    let liquid = Found::of(asked);
    let drawn: Vec<_> = pieces.iter().map(drawn).collect();
    let marked: Vec<_> = pieces
        .iter()
        .filter_map(|piece| {
            let drawing = marked::drawing(piece.pattern.as_ref()?, &piece.marked);
            Some((
                piece.panel.mark.to_string(),
                drawing,
                piece.marked.as_slice(),
            ))
        })
        .collect();
    let processed = Processed::of(asked);
    let stands = tank.mounts_envelope();
    let mut cited = Cited::default();
    let mut sections: Vec<Section> = verdict::section(asked, &processed).into_iter().collect();
    sections.extend([
        notices::dangers(tank, &dangers),
        notices::section(
            asked,
            liquid.as_ref(),
            &processed,
            stands.as_ref(),
            &dangers,
        ),
        capacity::section(tank, liquid.as_ref(), units),
    ]);
    sections.extend(
        liquid
            .as_ref()
            .map(|liquid| compartments::section(liquid, units)),
    );
    sections.extend([
        panels::section(asked, cut, &drawn, units),
        marking::section(&marked),
        seams::section(tank, units),
        stages::section(tank),
        tacks::section(tank, units),
        stitches::section(asked, &processed, units),
        kit::section(asked),
    ]);
    sections.extend(wire::section(&processed, units, &mut cited));
    sections.extend(purge::section(tank, &processed, units, &mut cited));
    sections.push(leak::section(tank, units));
    sections.extend(plan.map(on_sheet));
    sections.push(assumed::section(asked.assumed));
    sections.extend(cited.is_used().then(|| cited.section()));
    render::html::page(tank.job().name(), &sections)
}

fn drawn(piece: &Piece) -> Option<Drawn> {
    let pattern = piece.pattern.as_ref()?;
    let extents = pattern.extents();
    Some(Drawn {
        size: [extents.width(), extents.height()],
        svg: svg::pattern(pattern),
    })
}

fn on_sheet(plan: &Plan<'_>) -> Section {
    let share = Ratio::from_share(plan.share_used());
    let rows = plan.sheets.iter().map(|sheet| {
        let [width, length] = sheet.offcut;
        [
            format!("{} {}", sheet.stock.name, sheet.number),
            format!("{} pieces", sheet.placements.len()),
            format!("{:.0} %", 100.0 * sheet.used() / sheet.area()),
            format!("{width:.0} x {length:.0} mm"),
        ]
        .map(said)
    });
    let columns = ["sheet", "holds", "used", "largest offcut"].map(left);
    let mut section = Section::new("On the sheet");
    section.fact("used of all sheets", share.display(RatioUnit::Percent, 0));
    section.table(Table::new(columns, rows));
    let caption = "How the pieces lie".to_owned();
    section.add(Block::Picture(nest::draw(plan), caption));
    section
}
