//! Tells what the fuller pages of a gauge take to be worked out on the emulated board.
//!
//! As with the planner, the chip's flash has no room for these beside the gauge's own program. A job comes over the
//! serial line as a `Compute` request; the answer is one line of text, in ticks of the core clock.
#![no_std]
#![no_main]

mod clock;
mod serial;

use core::fmt::Write;
use core::hint::black_box;

use cortex_m_rt::entry;
use seamwright_core::leak::BAROMETER;
use seamwright_core::leak::LeakRule;
use seamwright_core::strength::Trial;
use seamwright_core::tank::Tank;
use seamwright_core::units::Pressure;
use seamwright_core::wire::{Decoder, Request};
use seamwright_double as _;
use serial::Serial;
use static_cell::ConstStaticCell;

static TANK: ConstStaticCell<Tank> = ConstStaticCell::new(Tank::EMPTY);
static DECODER: ConstStaticCell<Decoder> = ConstStaticCell::new(Decoder::new());

#[entry]
fn main() -> ! {
    if let Some(mut parts) = cortex_m::Peripherals::take() {
        clock::start(&mut parts.SYST);
    }
    let (tank, decoder) = (TANK.take(), DECODER.take());
    let mut out = Serial::open();
    let _ = writeln!(out, "ready tank={}", size_of::<Tank>());
    loop {
        if !decoder.gather(Serial::receive()) {
            continue;
        }
        if take(tank, decoder) && tank.make().is_ok() {
            measure(tank, &mut out);
        } else {
            let _ = writeln!(out, "refused");
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

/// Ticks of a piece of work.
fn ticks(work: impl FnOnce()) -> u64 {
    let begun = clock::ticks();
    work();
    clock::ticks() - begun
}

/// Ticks of several pieces: of all, and of the longest.
fn each(work: impl Iterator) -> [u64; 2] {
    let (mut all, mut most) = (0, 0);
    let mut begun = clock::ticks();
    for one in work {
        let _ = black_box(one);
        let now = clock::ticks();
        all += now - begun;
        most = most.max(now - begun);
        begun = now;
    }
    [all, most]
}

#[inline(never)]
fn measure(tank: &Tank, out: &mut Serial) {
    let [strength, wall] = each(tank.bearings(Trial::Use));
    let [tested, _] = each(tank.bearings(Trial::Test(Pressure::default())));
    let trial = Trial::Test(Pressure::from_pascals(1_000.0));
    let joined = ticks(|| {
        let _ = black_box(tank.joined_walls(Trial::Use));
    });
    let together = tank.joined_walls(trial);
    let bearing = |seam| match &together {
        Ok(together) => tank.seam_bearing_by(&seam, together),
        Err(error) => Some(Err(*error)),
    };
    let [seams, seam] = each(tank.seams().map(bearing));
    let mass = ticks(|| {
        let capacity = tank.capacity();
        let _ = black_box(tank.empty_balance());
        let _ = black_box(tank.laden_balance(capacity.fill));
        if let Ok(full) = tank.laden_balance(capacity.brim) {
            let _ = black_box(tank.mount_loads(&full));
        }
    });
    let vessel = tank.vessel(None).ok();
    let plan = ticks(|| {
        if let Some(vessel) = &vessel {
            let _ = black_box(vessel.plan(LeakRule::default(), BAROMETER, None));
        }
    });
    let fillers = ticks(|| {
        let _ = black_box(tank.fillers());
    });
    let _ = writeln!(
        out,
        "pages: joined={joined} strength={strength} wall={wall} tested={tested} seams={seams} seam={seam} mass={mass} plan={plan} fillers={fillers}"
    );
}

#[panic_handler]
fn panic(_: &core::panic::PanicInfo<'_>) -> ! {
    let _ = writeln!(Serial, "panicked");
    loop {
        cortex_m::asm::nop();
    }
}
