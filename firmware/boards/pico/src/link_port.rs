//! The link to a laptop: UART0, 115,200 baud, 8N1.
//!
//! Bytes in are taken by an interrupt, so that none is missed while a plan is computed. When the queue
//! is full they stay in the hardware's, which reports if it overflows in turn.
#![expect(
    unsafe_code,
    reason = "unmasking an interrupt can break a critical section made by masking"
)]

use core::{
    cell::RefCell,
    sync::atomic::{AtomicBool, AtomicU32, Ordering},
};

use critical_section::Mutex;
use rp2040_hal::{
    fugit::{HertzU32, RateExtU32 as _},
    gpio::{
        FunctionUart, Pin, PullNone, PullUp,
        bank0::{Gpio0, Gpio1},
    },
    pac::{self, NVIC, RESETS, UART0, interrupt},
    uart::{DataBits, Reader, StopBits, UartConfig, UartPeripheral, Writer},
};
use seamwright_runner::Ring;

/// Out on GP0, in on GP1.
type Pins = (
    Pin<Gpio0, FunctionUart, PullNone>,
    Pin<Gpio1, FunctionUart, PullUp>,
);

/// Bytes that the hardware queues.
const FIFO: usize = 32;

static RECEIVED: Ring<1024> = Ring::new();
/// Whether the interrupt has turned itself off because the queue is full.
static PAUSED: AtomicBool = AtomicBool::new(false);
static LINE_ERRORS: AtomicU32 = AtomicU32::new(0);
static READER: Mutex<RefCell<Option<Reader<UART0, Pins>>>> = Mutex::new(RefCell::new(None));

/// The sending half.
pub(crate) type Out = Writer<UART0, Pins>;

/// Sets the port up and starts listening; `None` when `clock` cannot make the rate.
pub(crate) fn open(uart: UART0, pins: Pins, resets: &mut RESETS, clock: HertzU32) -> Option<Out> {
    let config = UartConfig::new(115_200.Hz(), DataBits::Eight, None, StopBits::One);
    let port = UartPeripheral::new(uart, pins, resets)
        .enable(config, clock)
        .ok()?;
    let (mut reader, writer) = port.split();
    reader.enable_rx_interrupt();
    critical_section::with(|cs| READER.borrow_ref_mut(cs).replace(reader));
    // SAFETY: no critical section is held by masking this interrupt.
    unsafe { NVIC::unmask(pac::Interrupt::UART0_IRQ) };
    Some(writer)
}

/// The next byte that came in.
pub(crate) fn receive() -> Option<u8> {
    let byte = RECEIVED.pop()?;
    if PAUSED.load(Ordering::Relaxed) && RECEIVED.room() >= FIFO {
        // The queue was full; now there is room. The port tells of bytes as they come, not of those
        // that lie there, so they are fetched here.
        fetch();
    }
    Some(byte)
}

/// Queues what the port holds. Listens on if there was room for it, or else leaves it until there is.
fn fetch() {
    critical_section::with(|cs| {
        let mut reader = READER.borrow_ref_mut(cs);
        let Some(reader) = reader.as_mut() else {
            return;
        };
        let full = RECEIVED.room() < FIFO;
        PAUSED.store(full, Ordering::Relaxed);
        if full {
            reader.disable_rx_interrupt();
            return;
        }
        reader.enable_rx_interrupt();
        let mut bytes = [0; FIFO];
        let (good, bad) = match reader.read_raw(&mut bytes) {
            Ok(count) => (count, false),
            Err(nb::Error::WouldBlock) => (0, false),
            // What came before the damaged byte is good.
            Err(nb::Error::Other(error)) => (error.discarded.len(), true),
        };
        bytes
            .iter()
            .take(good)
            .for_each(|&byte| RECEIVED.push(byte));
        if bad {
            // In a critical section: the core has no atomic addition.
            LINE_ERRORS.store(
                LINE_ERRORS.load(Ordering::Relaxed).wrapping_add(1),
                Ordering::Relaxed,
            );
        }
    });
}

/// Times that bytes were lost on the way in: damaged on the line, or overrun in the hardware's queue.
pub(crate) fn lost() -> u32 {
    RECEIVED
        .lost()
        .saturating_add(LINE_ERRORS.load(Ordering::Relaxed))
}

#[interrupt]
fn UART0_IRQ() {
    fetch();
}
