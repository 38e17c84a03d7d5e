//! Plans the stitches of a job on the emulated chip, with the cells that a gauge has room for, and tells what that
//! takes and what comes out.
//!
//! The small gauge's program leaves no room in its chip's flash for this; here it stands alone, on QEMU's MPS2 board
//! with the same Cortex-M3, to show what the planner costs there, and that it finds the laptop's plan to the bit. A job
//! comes over the serial line as a `Compute` request; the answer is lines of text.
#![no_std]
#![no_main]

mod clock;
mod serial;

use core::fmt::Write;

use cortex_m_rt::entry;
use seamwright_core::tank::Tank;
use seamwright_core::weld::{PlanError, PlanOptions, Progress, WeldStep};
use seamwright_core::wire::{Decoder, Request};
use seamwright_double as _;
use serial::Serial;
use static_cell::ConstStaticCell;

static TANK: ConstStaticCell<Tank> = ConstStaticCell::new(Tank::EMPTY);
/// The planner that a gauge has room for.
type Planner = seamwright_core::weld::Planner<{ WeldStep::MOST }>;

static PLANNER: ConstStaticCell<Planner> = ConstStaticCell::new(Planner::with_room());
static DECODER: ConstStaticCell<Decoder> = ConstStaticCell::new(Decoder::new());

#[entry]
fn main() -> ! {
    if let Some(mut parts) = cortex_m::Peripherals::take() {
        clock::start(&mut parts.SYST);
    }
    let (tank, planner, decoder) = (TANK.take(), PLANNER.take(), DECODER.take());
    let mut out = Serial::open();
    let _ = writeln!(
        out,
        "ready tank={} planner={}",
        size_of::<Tank>(),
        size_of::<Planner>()
    );
    loop {
        if !decoder.gather(Serial::receive()) {
            continue;
        }
        if !take(tank, decoder) {
            let _ = writeln!(out, "refused");
            continue;
        }
        if tank.make().is_err() {
            let _ = writeln!(out, "refused");
            continue;
        }
        if let Err(error) = plan(tank, planner, &mut out) {
            let _ = writeln!(out, "no plan: {error}");
        }
    }
}

/// Out of line: the draft is gone from the stack before the tank is made.
#[inline(never)]
fn take(tank: &mut Tank, decoder: &mut Decoder) -> bool {
    match decoder.read::<Request>() {
        Ok(Request::Compute(draft)) => tank.take(&draft).is_ok(),
        _ => false,
    }
}

/// Plans as a gauge does, a little at a time, as far as the first of the ways to weigh.
#[inline(never)]
fn plan(tank: &Tank, planner: &mut Planner, out: &mut Serial) -> Result<(), PlanError> {
    planner.begin(&PlanOptions::GAUGE);
    let look = follow(tank, planner, Progress::Looked)?;
    let _ = writeln!(
        out,
        "first look: stitches={} ticks={} of_it_laying_out={}",
        planner.plan().count(),
        look.all(),
        look.laying_out
    );
    let way = follow(tank, planner, Progress::Tried(1))?;
    let [cells, links] = planner.cells_and_links();
    let _ = writeln!(
        out,
        "laid out: cells={cells} links={links} stitches={} ticks={} step_ticks={}",
        planner.plan().count(),
        way.laying_out,
        way.welding / u64::from(way.steps.max(1))
    );
    for stitch in planner.plan().stitches(tank) {
        let wait = stitch.wait.beside_move().si();
        let start = stitch.start_temperature.si();
        let _ = write!(out, "stitch {}", stitch.seam_place);
        for figure in [
            stitch.from.si(),
            stitch.to.si(),
            stitch.start.si(),
            wait,
            start,
        ] {
            let _ = write!(out, " {:016x}", figure.to_bits());
        }
        let _ = writeln!(out);
    }
    let totals = planner.plan().totals();
    let _ = writeln!(
        out,
        "planned: ticks={} job={:016x} pull={:016x}",
        way.welding,
        totals.job().si().to_bits(),
        totals.pull().si().to_bits()
    );
    planner.stop();
    Ok(())
}

/// What it took to come to the next order, in ticks of the clock.
struct Took {
    laying_out: u64,
    welding: u64,
    /// Into how many steps the welding went.
    steps: u32,
}

impl Took {
    const fn all(&self) -> u64 {
        self.laying_out + self.welding
    }
}

/// Goes on to the order that `wanted` tells of.
fn follow(tank: &Tank, planner: &mut Planner, wanted: Progress) -> Result<Took, PlanError> {
    let begun = clock::ticks();
    let mut laid = begun;
    let mut steps = 0;
    while planner.progress() != wanted {
        planner.outcome()?;
        let laying_out = planner.is_laying_out();
        planner.advance(tank);
        if laying_out {
            laid = clock::ticks();
        } else {
            steps += 1;
        }
    }
    Ok(Took {
        laying_out: laid - begun,
        welding: clock::ticks() - laid,
        steps,
    })
}

#[panic_handler]
fn panic(_: &core::panic::PanicInfo<'_>) -> ! {
    let _ = writeln!(Serial, "panicked");
    loop {
        cortex_m::asm::nop();
    }
}
