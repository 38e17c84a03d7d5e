//! A box with one cut, its capacity at a lean, and a first order of its stitches, on a chip with 64 KiB of RAM and no
//! floating-point unit. No allocator, no operating system; the text goes to the debugger.
//!
//! The tank and the planner are too large for such a chip's stack, so each has a place of its own and is made there.
#![no_std]
#![no_main]

use core::fmt;
use core::panic::PanicInfo;

use cortex_m_rt::entry;
use cortex_m_semihosting::{debug, hprintln};
use seamwright_core::prelude::*;
use seamwright_core::weld::Progress;
use static_cell::ConstStaticCell;

static TANK: ConstStaticCell<Tank> = ConstStaticCell::new(Tank::EMPTY);
/// With room for 128 stitches: the tank has 40, and what is saved is the stack's.
static PLANNER: ConstStaticCell<Planner<128>> = ConstStaticCell::new(Planner::with_room());

#[entry]
fn main() -> ! {
    let status = match run() {
        Ok(()) => debug::EXIT_SUCCESS,
        Err(Failed) => debug::EXIT_FAILURE,
    };
    loop {
        debug::exit(status);
    }
}

/// What went wrong has been told.
#[derive(Debug)]
struct Failed;

impl<E: fmt::Display> From<E> for Failed {
    fn from(error: E) -> Self {
        hprintln!("{}", error);
        Self
    }
}

fn run() -> Result<(), Failed> {
    let (tank, planner) = (TANK.take(), PLANNER.take());
    take(tank)?;
    tank.make()?;

    let degrees = |value| Angle::new(value, AngleUnit::Degree);
    let lean = Lean::new(degrees(5.0), degrees(-3.0))?;
    let level = tank
        .pool(lean)
        .at(Length::new(80.0, LengthUnit::Millimetre))?;
    let litres = |volume: Volume| volume.display(VolumeUnit::Litre, 2);
    hprintln!("brim {}", litres(tank.capacity().brim));
    hprintln!("80 mm deep, leaning {}", litres(level.volume));

    // A step at a time: between two of them a gauge looks at its buttons.
    planner.begin(&PlanOptions::GAUGE);
    while planner.is_busy() && planner.progress() != Progress::Looked {
        planner.advance(tank);
    }
    let plan = planner.outcome()?;
    let job = plan.totals().job().display(TimeUnit::Minute, 1);
    hprintln!("{} stitches in {}", plan.count(), job);
    for stitch in plan.stitches(tank).take(3) {
        hprintln!("{} seam {}", stitch.order, stitch.seam);
    }
    Ok(())
}

/// Out of line: the draft, some 3 KiB, is gone from the stack before the body is made.
#[inline(never)]
fn take(tank: &mut Tank) -> Result<(), Failed> {
    let mm = |value| Length::new(value, LengthUnit::Millimetre);
    let header = Block::new(mm(320.0), mm(180.0), mm(160.0)).with_cut(Cut::Edge {
        faces: [Face::Top, Face::Back],
        legs: [mm(45.0), mm(60.0)],
    })?;
    let sheet = StockDraft::of(Alloy::A5754, mm(2.0));
    let draft = Draft::new("Header tank", header, sheet)?;
    Ok(tank.take(&draft)?)
}

#[panic_handler]
fn panic(info: &PanicInfo<'_>) -> ! {
    hprintln!("{}", info);
    loop {
        debug::exit(debug::EXIT_FAILURE);
    }
}
