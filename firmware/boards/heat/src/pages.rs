//! What the fuller pages of a gauge take to be worked out.

use core::fmt::Write;
use core::hint::black_box;

use seamwright_core::job::{BAROMETER, Tank, Trial};
use seamwright_core::proof::leak::Rule;

use crate::clock;
use crate::serial::Serial;

/// Ticks of a piece of work.
fn ticks(work: impl FnOnce()) -> u64 {
    let begun = clock::ticks();
    work();
    clock::ticks() - begun
}

/// Out of line: what it needs of the stack is gone before the tank is laid out.
#[inline(never)]
pub(crate) fn measure(tank: &Tank, out: &mut Serial) {
    let strength = ticks(|| {
        for one in tank.bearings(Trial::Use) {
            let _ = black_box(one);
        }
    });
    let mut vessel = None;
    let walls = ticks(|| vessel = tank.vessel(None).ok());
    let plan = ticks(|| {
        if let Some(vessel) = &vessel {
            let _ = black_box(vessel.plan(Rule::default(), BAROMETER, None));
        }
    });
    let fillers = ticks(|| {
        let _ = black_box(tank.fillers());
    });
    let _ = writeln!(
        out,
        "pages: strength={strength} walls={walls} plan={plan} fillers={fillers}"
    );
}
