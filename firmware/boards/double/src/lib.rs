//! Sum, difference and product of doubles for a chip without a floating-point unit but with the multiplications of a
//! Cortex-M3: what `a + b`, `a - b` and `a * b` call there.
//!
//! The compiler brings functions of its own under the same names, which give way to these. They are as IEEE 754 has
//! them: rounded to nearest, ties to even, subnormals, infinities and signed zeros kept; what is no number is the one
//! quiet NaN without payload. `heat/src/doubles.rs` compares them with whole numbers, case by case, on the emulated
//! chip, and tells what they take.
//!
//! A board says `use seamwright_double as _;`.
#![no_std]
#![expect(
    unsafe_code,
    reason = "the compiler cannot check assembly; it keeps to the procedure call standard, and no other memory than its stack"
)]

core::arch::global_asm!(include_str!("add.s"), options(raw));
core::arch::global_asm!(include_str!("multiply.s"), options(raw));
