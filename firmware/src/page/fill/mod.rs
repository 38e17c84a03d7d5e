//! How much is in the tank at a depth, however it leans.

mod filling;

use core::fmt::Write;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::{Point, Size};
use embedded_graphics::pixelcolor::Gray4;
use embedded_graphics::primitives::Rectangle;
use seamwright_core::capacity::Pool;
use seamwright_core::tank::Tank;
use seamwright_core::units::{Decimal, Length, Volume};

use super::parts::{FIGURE_TOP, RIGHT, beside, figure, foot, title};
use crate::amount::{Amount, Units};
use crate::buttons::Step;
use crate::figures::HEIGHT;
use crate::ink;
use crate::page::{IsPage, Turn};
use crate::pen::Pen;
use crate::picture::{Look, Style, View, edges, liquid};
use crate::text::Letters;
use crate::work::Work;
use filling::{Changing, Filling};

/// Width of the column that shows the marks, with its ticks.
const COLUMN: u32 = 8;
/// Length of a tick, in pixels.
const TICK: u32 = 3;

/// The page of a depth and a lean.
#[derive(Debug)]
pub struct FillPage {
    filling: Filling,
}

impl IsPage for FillPage {
    const NAME: &'static str = "fill";
    const NEW: Self = Self {
        filling: Filling::NEW,
    };

    fn start(&mut self, tank: &Tank) {
        self.filling = Filling::at_fill_mark(tank.capacity());
    }

    #[inline(never)]
    fn draw<D>(&self, pen: &mut Pen<'_, D>, work: &Work<'_>) -> Result<(), D::Error>
    where
        D: DrawTarget<Color = Gray4>,
    {
        let units = work.units();
        let filling = &self.filling;
        let pool = work.tank().pool(filling.lean());
        // The depth is kept within the brim, so there is a level for it.
        let volume = pool
            .at(filling.depth())
            .map_or(Volume::default(), |level| level.volume);
        let amount = Amount::volume(volume, units);

        title(pen, &heading(filling, work.tank(), volume, &pool))?;
        picture(pen, filling, work, &amount, &pool)?;
        column(pen, filling, work.tank(), &pool)?;
        figure(pen, amount.figure())?;
        settings(pen, filling, units)
    }

    fn step(&mut self, step: Step, work: &mut Work<'_>) {
        self.filling.change(step, work.tank(), work.units());
    }

    /// The next thing to change.
    fn select(&mut self, _: &mut Work<'_>) -> Turn {
        self.filling.next();
        Turn::Stay
    }
}

/// The mark at which the level stands, and the share of the brim.
fn heading(
    filling: &Filling,
    tank: &Tank,
    volume: Volume,
    pool: &Pool<'_>,
) -> heapless::String<24> {
    let name = filling.mark(tank).unwrap_or("Fill");
    let share = 100.0 * volume.si() / pool.brim().si();
    let mut heading = heapless::String::new();
    let _ = write!(heading, "{name} {} %", Decimal::new(share, 0));
    heading
}

fn picture<D>(
    pen: &mut Pen<'_, D>,
    filling: &Filling,
    work: &Work<'_>,
    amount: &Amount,
    pool: &Pool<'_>,
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let body = work.tank().body();
    let look = Look {
        lean: filling.lean(),
        quarters: work.quarters(),
    };
    let area = beside(&amount.figure(), RIGHT - COLUMN as i32 - 3);
    let Some(view) = View::fit(&body.outside, look, area) else {
        return Ok(());
    };
    pen.claim(view.extent());
    let level = pool.height_of(filling.depth());
    liquid(pen.target(), &body.inside, &view, pool.up(), level)?;
    edges(pen.target(), &body.outside, &view, Style::Ground, None)
}

/// A column as high as the tank is deep: the level, with ticks at the fill mark and the pick-up; the
/// brim is its top.
fn column<D>(
    pen: &mut Pen<'_, D>,
    filling: &Filling,
    tank: &Tank,
    pool: &Pool<'_>,
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let (top, height) = (FIGURE_TOP, HEIGHT);
    let left = RIGHT - COLUMN as i32;
    pen.claim(Rectangle::new(
        Point::new(left, top),
        Size::new(COLUMN, height),
    ));
    let full = pool.full_depth().si();
    let rows = |depth: Length| libm::round(depth.si() / full * f64::from(height)) as u32;

    let bar = |from: u32, to: u32| {
        let x = left + TICK as i32;
        let y = top + (height - to) as i32;
        Rectangle::new(Point::new(x, y), Size::new(COLUMN - TICK, to - from))
    };
    let level = rows(filling.depth()).min(height);
    pen.fill(bar(level, height), ink::LIQUID)?;
    pen.fill(bar(0, level), ink::PLAIN)?;

    let tick = |depth: Length| {
        let y = top + (height - rows(depth).min(height)) as i32;
        Rectangle::new(
            Point::new(left, y.min(top + height as i32 - 1)),
            Size::new(TICK - 1, 1),
        )
    };
    let capacity = tank.capacity();
    pen.fill(tick(pool.full_depth()), ink::BRIGHT)?;
    if filling.is_level() {
        pen.fill(tick(capacity.fill_depth), ink::BRIGHT)?;
        if capacity.pick_up.si() > 0.0 {
            pen.fill(tick(capacity.pick_up), ink::BRIGHT)?;
        }
    }
    Ok(())
}

/// Depth, pitch and roll, the one that is being changed on a bright bar.
fn settings<D>(pen: &mut Pen<'_, D>, filling: &Filling, units: Units) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let lean = filling.lean();
    let half = RIGHT / 2;
    let values = [
        (
            Changing::Depth,
            "deep",
            Amount::length(filling.depth(), units),
            foot(0),
        ),
        (
            Changing::Pitch,
            "pitch",
            Amount::angle(lean.pitch()),
            foot(1),
        ),
        (
            Changing::Roll,
            "roll",
            Amount::angle(lean.roll()),
            foot(1) + Point::new(half, 0),
        ),
    ];
    for (changing, name, amount, at) in values {
        let mut text = heapless::String::<48>::new();
        let _ = write!(text, "{name} {}", amount.text());
        let width = Letters::Small.width(&text) + 2;
        if changing == filling.changing() {
            pen.chosen(at, width, &text, Letters::Small)?;
        } else {
            pen.text(at + Point::new(1, 0), &text, Letters::Small, ink::PLAIN)?;
        }
    }
    Ok(())
}
