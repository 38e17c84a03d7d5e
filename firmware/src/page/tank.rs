//! The tank: its picture, its size over the sheet, and what it is made of.

use core::fmt::Write;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::{Point, Size};
use embedded_graphics::pixelcolor::Gray4;
use embedded_graphics::primitives::Rectangle;
use seamwright_core::body::Solid;
use seamwright_core::capacity::Lean;
use seamwright_core::geom::Vector;
use seamwright_core::tank::Tank;
use seamwright_core::units::Length;

use super::parts::{BODY_TOP, BOTTOM, RIGHT, title};
use crate::amount::{Amount, Units};
use crate::buttons::Step;
use crate::ink;
use crate::page::IsPage;
use crate::pen::Pen;
use crate::picture::{Look, Style, View, edges};
use crate::text::Letters;
use crate::work::Work;

/// A line of the column beside the picture.
type Line = heapless::String<48>;

/// The page of the tank itself. The side from which it is seen holds for every page.
#[derive(Debug)]
pub struct TankPage;

impl IsPage for TankPage {
    const NAME: &'static str = "tank";
    const NEW: Self = Self;

    fn start(&mut self, _: &Tank) {}

    #[inline(never)]
    fn draw<D>(&self, pen: &mut Pen<'_, D>, work: &Work<'_>) -> Result<(), D::Error>
    where
        D: DrawTarget<Color = Gray4>,
    {
        let units = work.units();
        // The side that is seen most broadly. The unit is that of the thickness, in the column.
        let side = match work.quarters() % 4 {
            0 => "Tank from front",
            1 => "Tank from right",
            2 => "Tank from back",
            _ => "Tank from left",
        };
        title(pen, side)?;
        let outside = &work.tank().body().outside;
        let lines = column(work, units);
        let widest = lines.iter().map(|line| Letters::Small.width(line)).max();
        let left = RIGHT - widest.unwrap_or(0) as i32;

        let room = Size::new(
            u32::try_from(left - 3).unwrap_or(0),
            (BOTTOM - BODY_TOP) as u32,
        );
        let look = Look {
            lean: Lean::LEVEL,
            quarters: work.quarters(),
        };
        if let Some(view) = View::fit(outside, look, Rectangle::new(Point::new(0, BODY_TOP), room))
        {
            pen.claim(view.extent());
            edges(pen.target(), outside, &view, Style::Bold, None)?;
        }
        let greys = [
            ink::BRIGHT,
            ink::BRIGHT,
            ink::BRIGHT,
            ink::PLAIN,
            ink::PLAIN,
        ];
        for ((line, grey), y) in lines
            .iter()
            .zip(greys)
            .zip((BODY_TOP + 1..).step_by(Letters::Small.height() as usize))
        {
            pen.text(Point::new(left, y), line, Letters::Small, grey)?;
        }
        Ok(())
    }

    /// Walks round the tank.
    fn step(&mut self, step: Step, work: &mut Work<'_>) {
        work.walk_round(if step.up { 1 } else { 3 });
    }
}

/// Length, width and height over the sheet, the sheet, and its metal.
fn column(work: &Work<'_>, units: Units) -> [Line; 5] {
    let solid = &work.tank().body().outside;
    let job = work.tank().job();
    let size = |name: &str, axis: Vector| {
        let mut line = Line::new();
        let _ = write!(
            line,
            "{name} {}",
            Amount::column_length(span(solid, axis), units).text()
        );
        line
    };
    let mut sheet = Line::new();
    let _ = write!(
        sheet,
        "t {}",
        Amount::thickness(job.thickness(), units).text()
    );
    let mut metal = Line::new();
    let _ = write!(metal, "{}", job.alloy());
    if let Some(temper) = job.temper() {
        let _ = write!(metal, "-{temper}");
    }
    [
        size("L", Vector::new(1.0, 0.0, 0.0)),
        size("W", Vector::new(0.0, 1.0, 0.0)),
        size("H", Vector::new(0.0, 0.0, 1.0)),
        sheet,
        metal,
    ]
}

/// How far the body reaches along an axis.
fn span(solid: &Solid, axis: Vector) -> Length {
    let (low, high) = solid.extent(axis);
    Length::from_metres(high - low)
}
