//! How deep the stack has been.
//!
//! The runtime (cortex-m-rt, feature `paint-stack`) fills the stack's RAM with a known word before
//! `main`. The lowest word since changed is the deepest the stack has been.
#![expect(
    unsafe_code,
    reason = "the stack and the linker's symbols are not Rust's to see"
)]

use core::ptr::{addr_of, with_exposed_provenance};

use cortex_m_rt::STACK_PAINT_VALUE;

use crate::Stack;

unsafe extern "C" {
    /// From the linker script: the lowest word that the stack may use.
    static _stack_end: u32;
    /// From the linker script: where the stack starts, one past its first word.
    static _stack_start: u32;
}

/// The lowest address that the stack may use.
#[must_use]
pub fn bottom() -> usize {
    addr_of!(_stack_end).addr()
}

fn top() -> usize {
    addr_of!(_stack_start).addr()
}

/// The stack as it is if it may reach down to `floor`, which lies at or above [`bottom`]; what lies
/// between the two is not read.
#[must_use]
pub fn stack_above(floor: usize) -> Stack {
    let floor = floor.max(bottom()).next_multiple_of(size_of::<u32>());
    let mut address = floor;
    while address < top() {
        // SAFETY: an aligned word of the stack's RAM: readable, though the compiler knows nothing of it,
        // hence volatile.
        let word = unsafe { with_exposed_provenance::<u32>(address).read_volatile() };
        if word != STACK_PAINT_VALUE {
            break;
        }
        address += size_of::<u32>();
    }
    let bytes = |from: usize| u32::try_from(top().saturating_sub(from)).unwrap_or(u32::MAX);
    Stack {
        high_water: bytes(address),
        size: bytes(floor),
    }
}
