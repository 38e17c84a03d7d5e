//! Requests and replies over the board's link.

use std::io::Write as _;

use seamwright_core::wire::{Decoder, Reply, Request, encode};

use super::{Board, Failure, LOOK, failure::During as _};

impl Board {
    /// Asks the gauge and waits for its answer. The display shows what the request changed before the
    /// answer comes.
    ///
    /// # Errors
    /// When the request is too long for the link, or no whole answer comes in time; tells what the
    /// board last said. A refusal is an answer, not an error.
    pub fn ask(&mut self, request: &Request) -> Result<Reply, Failure> {
        let frame = encode(request).during("packing a request")?;
        self.link.write_all(&frame).during("sending a request")?;
        let mut decoder = Decoder::new();
        let reply = self.wait("an answer over the link", |board| {
            while let Some(byte) = board.link.next(LOOK) {
                if let Some(reply) = decoder.push(byte) {
                    return Some(reply);
                }
            }
            None
        })?;
        reply.map_err(|fault| {
            let failure = Failure::new(format!("the board's answer cannot be read: {fault}"));
            self.explain(failure)
        })
    }
}
