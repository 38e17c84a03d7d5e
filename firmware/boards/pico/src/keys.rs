//! The five buttons, read by an interrupt once a millisecond: a plan's pieces are longer than a quick tap's samples
//! may be apart.

use core::cell::RefCell;

use critical_section::Mutex;
use rp2040_hal::{
    Timer,
    gpio::{
        FunctionSio, Pin, PullUp, SioInput,
        bank0::{Gpio10, Gpio11, Gpio12, Gpio13, Gpio14},
    },
};
use seamwright_firmware::buttons::{ActiveLow, Keys as _};
use seamwright_runner::Sampled;

type Input<I> = Pin<I, FunctionSio<SioInput>, PullUp>;

/// Up, down, left, right and select.
type Pins = ActiveLow<Input<Gpio10>, Input<Gpio11>, Input<Gpio12>, Input<Gpio13>, Input<Gpio14>>;

/// What the buttons say.
pub(crate) static THUMB: Sampled = Sampled::new();

static LINES: Mutex<RefCell<Option<(Pins, Timer)>>> = Mutex::new(RefCell::new(None));

/// Hands the pins to the interrupt, and the clock that the main loop goes by.
pub(crate) fn open(pins: Pins, timer: Timer) {
    critical_section::with(|cs| LINES.borrow_ref_mut(cs).replace((pins, timer)));
}

/// For the interrupt.
pub(crate) fn tick() {
    let read = critical_section::with(|cs| {
        let mut lines = LINES.borrow_ref_mut(cs);
        let (pins, timer) = lines.as_mut()?;
        // The debouncer's clock may wrap.
        let now = (timer.get_counter().ticks() / 1_000) as u32;
        pins.read().ok().map(|reading| (now, reading))
    });
    if let Some((now, reading)) = read {
        THUMB.sample(now, reading);
    }
}
