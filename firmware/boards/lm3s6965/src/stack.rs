//! A guard at the end of the stack.
//!
//! The stack lies below the statics (see memory.x), so one that grows too deep cannot change a figure:
//! it leaves RAM, which faults on the real part but, for want of a bus fault, not on the emulator. The
//! memory protection unit makes the last kilobyte untouchable, so that it stops the gauge on both,
//! unless a single frame is large enough to step over it.
#![expect(unsafe_code, reason = "the protection unit is set by raw writes")]

use cortex_m::peripheral::MPU;
use seamwright_runner::{Stack, paint};

/// The guard's size: the fault handler runs on what is left of it (see [`guard`]).
const GUARD_BYTES: usize = 1024;

/// The lowest address that the stack may use.
fn floor() -> usize {
    // A region of the protection unit lies at a multiple of its size; so does the start of RAM.
    paint::bottom().next_multiple_of(GUARD_BYTES) + GUARD_BYTES
}

/// The stack above the guard.
pub(crate) fn measure() -> Stack {
    paint::stack_above(floor())
}

/// Makes the guard untouchable. Call once, early in `main`.
///
/// A fault is taken with the protection off (HFNMIENA stays 0), so the handler can run on what is left
/// of the stack inside the guard. Registers: ARMv7-M Architecture Reference Manual, B3.5 (from memory).
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
    // SAFETY: region 0 covers only the last of the stack's own RAM, which nothing has used yet.
    unsafe { mpu.rbar.write(base | REGION_VALID) };
    // SAFETY: as above.
    unsafe { mpu.rasr.write(EXECUTE_NEVER | SIZE | ENABLE) };
    // SAFETY: everything outside the guard keeps the default memory map.
    unsafe { mpu.ctrl.write(ENABLE | DEFAULT_MAP) };
    cortex_m::asm::dsb();
    cortex_m::asm::isb();
}
