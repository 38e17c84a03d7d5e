//! What the loop asks of a board, besides its display and its buttons.

/// A board's clocks, link and stack.
pub trait Machine {
    /// Milliseconds since start-up.
    fn milliseconds(&self) -> u64;

    /// Ticks of the board's fastest clock, to measure work with; wraps. The board says what a tick is.
    fn ticks(&self) -> u32;

    /// How the stack is doing.
    fn stack(&self) -> Stack;

    /// The next byte that the link has brought, if there is one.
    fn receive(&mut self) -> Option<u8>;

    /// Sends an answer over the link.
    fn send(&mut self, bytes: &[u8]);

    /// Bytes that the link has lost since start-up.
    fn link_lost(&self) -> u32;
}

/// The stack, in bytes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Stack {
    /// The most that has been used.
    pub high_water: u32,
    /// What there is.
    pub size: u32,
}
