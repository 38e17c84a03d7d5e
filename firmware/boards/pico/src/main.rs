//! Seamwright's bench gauge on a Raspberry Pi Pico (RP2040) with a 128 x 64 SSD1306 display.
//!
//! Built and linked, but never tried on hardware. Its main loop is the one that the tests drive on the
//! emulated board.
//!
//! Wiring: display on I2C0, SDA GP4 (pin 6), SCL GP5 (pin 7), address 0x3C. Buttons to ground: up GP10
//! (pin 14), down GP11 (15), left GP12 (16), right GP13 (17), select GP14 (19). Link on UART0: GP0
//! (pin 1) out, GP1 (pin 2) in, 115,200 baud, 3.3 V. Log over the debug probe (RTT).
#![no_std]
#![no_main]

mod display;
mod keys;
mod link_port;
mod pico;
mod stop;

use core::cell::Cell;

use cortex_m::peripheral::syst::SystClkSource;
use cortex_m_rt::exception;
use defmt_rtt as _;
use rp2040_hal::{
    Clock as _, Sio, Timer, Watchdog,
    clocks::init_clocks_and_plls,
    fugit::RateExtU32 as _,
    gpio::{FunctionI2C, FunctionUart, Pins, PullNone, PullUp},
    i2c::I2C,
    pac,
};
use seamwright_firmware::{buttons::ActiveLow, page::Full};
use seamwright_runner::{Memory, Runner};
use static_cell::ConstStaticCell;

use crate::{display::Display, pico::Pico};

/// The crystal on a Pico.
const CRYSTAL_HZ: u32 = 12_000_000;

/// What the chip's own loader runs first, to set the flash memory up.
#[expect(
    unsafe_code,
    reason = "the loader looks for it in a section of its own"
)]
#[unsafe(link_section = ".boot2")]
#[used]
static BOOT2: [u8; 256] = rp2040_boot2::BOOT_LOADER_W25Q080;

static MEMORY: ConstStaticCell<Memory<Full>> = ConstStaticCell::new(Memory::new());

#[rp2040_hal::entry]
fn main() -> ! {
    // Both are taken here alone, first thing after start-up.
    let (Some(mut chip), Some(mut core)) =
        (pac::Peripherals::take(), cortex_m::Peripherals::take())
    else {
        stop::stop("the chip's parts were taken twice");
    };
    let mut watchdog = Watchdog::new(chip.WATCHDOG);
    let clocks = init_clocks_and_plls(
        CRYSTAL_HZ,
        chip.XOSC,
        chip.CLOCKS,
        chip.PLL_SYS,
        chip.PLL_USB,
        &mut chip.RESETS,
        &mut watchdog,
    );
    let Ok(clocks) = clocks else {
        stop::stop("the clocks do not start")
    };
    let timer = Timer::new(chip.TIMER, &mut chip.RESETS, &clocks);
    let pins = Pins::new(
        chip.IO_BANK0,
        chip.PADS_BANK0,
        Sio::new(chip.SIO).gpio_bank0,
        &mut chip.RESETS,
    );

    let bus = I2C::i2c0(
        chip.I2C0,
        pins.gpio4.reconfigure::<FunctionI2C, PullUp>(),
        pins.gpio5.reconfigure::<FunctionI2C, PullUp>(),
        400.kHz(),
        &mut chip.RESETS,
        &clocks.system_clock,
    );
    let sent = Cell::new(0);
    let mut display = Display::open(bus, &sent);

    keys::open(
        ActiveLow {
            up: pins.gpio10.into_pull_up_input(),
            down: pins.gpio11.into_pull_up_input(),
            left: pins.gpio12.into_pull_up_input(),
            right: pins.gpio13.into_pull_up_input(),
            select: pins.gpio14.into_pull_up_input(),
        },
        timer,
    );

    let line = (
        pins.gpio0.reconfigure::<FunctionUart, PullNone>(),
        pins.gpio1.reconfigure::<FunctionUart, PullUp>(),
    );
    let peripheral_hz = clocks.peripheral_clock.freq();
    let Some(writer) = link_port::open(chip.UART0, line, &mut chip.RESETS, peripheral_hz) else {
        stop::stop("the link cannot run at its rate");
    };

    // Looks at the buttons and wakes the loop below once a millisecond.
    core.SYST.set_clock_source(SystClkSource::Core);
    core.SYST
        .set_reload(clocks.system_clock.freq().to_Hz() / 1_000 - 1);
    core.SYST.clear_current();
    core.SYST.enable_interrupt();
    core.SYST.enable_counter();

    let memory = MEMORY.take();
    memory.name("Raspberry Pi Pico");
    let mut runner = Runner::start(memory, Pico::new(timer, writer), &mut display);
    let mut thumb = &keys::THUMB;
    loop {
        if !runner.step(&mut thumb, &mut display) {
            cortex_m::asm::wfi();
        }
    }
}

#[exception]
fn SysTick() {
    keys::tick();
}
