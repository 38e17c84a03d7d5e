//! Plans the stitches of a job on the emulated board, with the cells that a gauge has room for, and tells what that
//! takes and what comes out.
//!
//! The gauge's own program leaves no room in the chip's flash for this; here it stands alone, to show that the
//! planner fits the chip's RAM, what it costs there, and that it finds the laptop's plan to the bit. A job comes
//! over the serial line as a `Compute` request; the answer is lines of text.
#![no_std]
#![no_main]

mod clock;
mod serial;

use core::fmt::Write;

use cortex_m_rt::entry;
use seamwright_core::tank::Tank;
use seamwright_core::weld::{
    Bench, DEVICE_CELLS, DEVICE_FINE, DEVICE_LINKS, FIRST_LOOK, PlanError, Planned, WAYS,
};
use seamwright_core::wire::{Decoder, Request};
use serial::Serial;
use static_cell::ConstStaticCell;

type Table = Bench<DEVICE_CELLS, DEVICE_LINKS>;

static TANK: ConstStaticCell<Tank> = ConstStaticCell::new(Tank::EMPTY);
static TABLE: ConstStaticCell<Table> = ConstStaticCell::new(Table::new());
static DECODER: ConstStaticCell<Decoder> = ConstStaticCell::new(Decoder::new());

/// Steps that the cost of one is taken over.
const STEPS: u32 = 32;

#[entry]
fn main() -> ! {
    if let Some(mut parts) = cortex_m::Peripherals::take() {
        clock::start(&mut parts.SYST);
    }
    let (tank, table, decoder) = (TANK.take(), TABLE.take(), DECODER.take());
    let mut out = Serial;
    let _ = writeln!(
        out,
        "ready tank={} table={}",
        size_of::<Tank>(),
        size_of::<Table>()
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
        if let Err(error) = plan(tank, table, &mut out) {
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

#[inline(never)]
fn plan(tank: &Tank, table: &mut Table, out: &mut Serial) -> Result<(), PlanError> {
    look_first(tank, table, out)?;
    let begun = clock::ticks();
    tank.lay_out(&DEVICE_FINE, table)?;
    let laid = clock::ticks();
    for _ in 0..STEPS {
        table.shell.pass(None);
    }
    let stepped = clock::ticks();
    let _ = writeln!(
        out,
        "laid out: cells={} links={} stitches={} ticks={} step_ticks={}",
        table.shell.cells(),
        table.shell.links(),
        table.runs.len(),
        laid - begun,
        (stepped - laid) / u64::from(STEPS)
    );
    let manner = tank.manner();
    let seams = |seam: u8| tank.edge_of_seam(usize::from(seam));
    let [way, ..] = WAYS;
    let begun = clock::ticks();
    let mut line = Serial;
    let see = |one: Planned| {
        let _ = writeln!(
            line,
            "stitch {} {} {:08x} {:08x} {:08x}",
            one.run,
            u8::from(one.reversed),
            one.start.to_bits(),
            one.wait.to_bits(),
            one.warmth.to_bits()
        );
    };
    let sum = table.plan_by(&way, &manner, &seams, see, || true)?;
    let _ = writeln!(
        out,
        "planned: ticks={} job={:016x} pull={:016x}",
        clock::ticks() - begun,
        sum.job.to_bits(),
        sum.pull.to_bits()
    );
    Ok(())
}

/// The coarse plan that a gauge shows while it works on the fine one.
fn look_first(tank: &Tank, table: &mut Table, out: &mut Serial) -> Result<(), PlanError> {
    let begun = clock::ticks();
    tank.lay_out(&FIRST_LOOK, table)?;
    let laid = clock::ticks();
    let mut count = 0_u16;
    table.look_first(&tank.manner(), |_| count += 1, || true)?;
    let _ = writeln!(
        out,
        "first look: cells={} stitches={count} ticks={} of_it_laying_out={}",
        table.shell.cells(),
        clock::ticks() - begun,
        laid - begun,
    );
    Ok(())
}

#[panic_handler]
fn panic(_: &core::panic::PanicInfo<'_>) -> ! {
    let _ = writeln!(Serial, "panicked");
    loop {
        cortex_m::asm::nop();
    }
}
