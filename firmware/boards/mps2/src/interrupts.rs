//! Every interrupt comes here: with so few a table of their own is not worth its `unsafe`.
#![expect(unsafe_code, reason = "the handler is unsafe by its signature")]

use cortex_m_rt::exception;

use crate::{
    front, link_port,
    registers::{UART0_RECEIVED, UART1_RECEIVED},
    stop,
};

#[exception]
unsafe fn DefaultHandler(number: i16) {
    match number {
        UART0_RECEIVED => link_port::take_in(),
        UART1_RECEIVED => front::take_in(),
        _ => stop::unasked(number),
    }
}
