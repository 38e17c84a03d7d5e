//! How deep the stack has been, and a guard below it.
//!
//! The runtime fills the free RAM between the statics and the top with a known word before `main`.
//! The lowest word since changed is the deepest the stack has been. The memory protection unit makes
//! the last kilobyte above the statics untouchable, so that an overflow stops the gauge instead of
//! quietly changing a figure.
#![expect(
    unsafe_code,
    reason = "the stack is not Rust's to read, and the protection unit is set by raw writes"
)]

use core::ptr::{addr_of, with_exposed_provenance};

use cortex_m::peripheral::MPU;
use cortex_m_rt::STACK_PAINT_VALUE;

/// The guard's size: the fault handler itself needs some of it (see [`guard`]).
const GUARD_BYTES: usize = 1024;

unsafe extern "C" {
    /// From the linker script: where the statics end.
    static _stack_end: u32;
    /// From the linker script: where the stack starts, one past the last word of RAM.
    static _stack_start: u32;
}

/// The lowest address the stack may use.
fn floor() -> usize {
    // A region of the protection unit lies at a multiple of its size.
    bottom().next_multiple_of(GUARD_BYTES) + GUARD_BYTES
}

fn bottom() -> usize {
    addr_of!(_stack_end).addr()
}

fn top() -> usize {
    addr_of!(_stack_start).addr()
}

/// Bytes the stack may take.
pub(crate) fn room() -> usize {
    top() - floor()
}

/// The most bytes the stack has taken so far.
pub(crate) fn high_water() -> usize {
    let mut address = floor();
    while address < top() {
        // SAFETY: an aligned word of RAM between the guard and the top of the stack: readable, though
        // the compiler knows nothing of it, hence volatile.
        let word = unsafe { with_exposed_provenance::<u32>(address).read_volatile() };
        if word != STACK_PAINT_VALUE {
            break;
        }
        address += 4;
    }
    top() - address
}

/// Makes the guard untouchable. Call once, early in `main`.
///
/// A fault is taken with the protection off (HFNMIENA stays 0), so the handler can run on what is left
/// of the stack inside the guard.
pub(crate) fn guard(mpu: &mut MPU) {
    const ENABLE: u32 = 1 << 0;
    const DEFAULT_MAP: u32 = 1 << 2;
    const EXECUTE_NEVER: u32 = 1 << 28;
    const REGION_VALID: u32 = 1 << 4;
    // The size field holds log2(bytes) - 1; access bits left 0 allow none.
    const SIZE: u32 = (GUARD_BYTES.trailing_zeros() - 1) << 1;

    let Ok(base) = u32::try_from(floor() - GUARD_BYTES) else {
        return;
    };
    // SAFETY: region 0 covers only unused RAM between the statics and the stack's floor.
    unsafe { mpu.rbar.write(base | REGION_VALID) };
    // SAFETY: as above.
    unsafe { mpu.rasr.write(EXECUTE_NEVER | SIZE | ENABLE) };
    // SAFETY: everything outside the guard keeps the default memory map.
    unsafe { mpu.ctrl.write(ENABLE | DEFAULT_MAP) };
    cortex_m::asm::dsb();
    cortex_m::asm::isb();
}
