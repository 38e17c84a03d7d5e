//! A picture of a plan.

use maud::{Markup, html};

use super::super::layer::Layer;
use super::super::svg::{colour, mm, outline};
use super::super::words::CAPITAL;
use super::{Placement, Plan, Sheet};

/// Width of the picture on paper, mm.
const PAPER: f64 = 180.0;

/// The sheets of `plan` one under another, each with its pieces and what is left. One unit of the
/// drawing is one millimetre of metal; it is shown 180 mm wide.
pub fn draw(plan: &Plan<'_>) -> String {
    let length = plan.sheets.iter().map(|sheet| sheet.stock.length);
    let longest = length.fold(1.0, f64::max);
    // Type of the same size on paper whatever the sheet.
    let letter = longest / PAPER * 2.6;
    let head = 3.0 * letter;
    let room = letter;
    let mut top = 0.0;
    let mut sheets = Vec::new();
    for sheet in &plan.sheets {
        sheets.push(one(sheet, top + head, letter));
        top += head + sheet.stock.width + room;
    }
    let (width, height) = (longest + 2.0 * room, top.max(1.0));
    let shown = PAPER / width;
    let drawing = html! {
        svg xmlns="http://www.w3.org/2000/svg" version="1.1"
            width={ (mm(PAPER)) "mm" } height={ (mm(height * shown)) "mm" }
            viewBox={ (mm(-room)) " 0 " (mm(width)) " " (mm(height)) }
            font-family="Helvetica, Arial, sans-serif" {
            title { "Pieces on sheets" }
            @for sheet in &sheets { (sheet) }
        }
    };
    drawing.into_string()
}

fn one(sheet: &Sheet<'_>, top: f64, letter: f64) -> Markup {
    let stock = sheet.stock;
    let share = 100.0 * sheet.used() / sheet.area();
    let [long, wide] = sheet.offcut;
    let name = format!(
        "{} no. {}: {} x {} x {} mm, {share:.0} % used, largest offcut {long:.0} x {wide:.0} mm",
        stock.name,
        sheet.number,
        mm(stock.length),
        mm(stock.width),
        mm(stock.thickness),
    );
    html! {
        g {
            text x="0" y=(mm(top - letter)) font-size=(mm(letter / CAPITAL)) { (name) }
            rect x="0" y=(mm(top)) width=(mm(stock.length)) height=(mm(stock.width))
                fill="#f4f4f1" stroke="#333" stroke-width=(mm(letter / 8.0)) {}
            @for placed in &sheet.placements {
                (piece(placed, top + stock.width, letter))
            }
        }
    }
}

/// A piece where it lies; `foot` is the sheet's lower edge in the drawing.
fn piece(placed: &Placement<'_>, foot: f64, letter: f64) -> Markup {
    let extents = placed.pattern.extents_with_holes();
    let [x, y] = placed.at;
    // Drawn positions are (x, -y); turned, the piece's right points up.
    let turn = if placed.turned {
        [
            0.0,
            -1.0,
            1.0,
            0.0,
            x + extents.high[1],
            foot - y + extents.low[0],
        ]
    } else {
        [
            1.0,
            0.0,
            0.0,
            1.0,
            x - extents.low[0],
            foot - y + extents.low[1],
        ]
    };
    let turn = turn.map(mm).join(" ");
    let [width, height] = placed.size();
    let middle = [x + width / 2.0, foot - y - height / 2.0];
    let size = letter.min(width.min(height) / 2.0);
    html! {
        g transform={ "matrix(" (turn) ")" } stroke=(colour(Layer::Cut))
            stroke-width=(mm(letter / 10.0)) {
            path d=(outline(placed.pattern)) fill="#cfe0ea" {}
            @for hole in placed.pattern.holes() {
                circle cx=(mm(hole.at[0])) cy=(mm(-hole.at[1])) r=(mm(hole.diameter / 2.0))
                    fill="#f4f4f1" {}
            }
        }
        text x=(mm(middle[0])) y=(mm(middle[1] + size / 2.0)) text-anchor="middle"
            font-size=(mm(size / CAPITAL)) { (placed.pattern.mark()) }
    }
}
