//! The board of the template at work: its display must show what the same gauge draws by itself, whatever a thumb and
//! a laptop do, and after the display had no power.

use std::cell::{Cell, RefCell};
use std::collections::VecDeque;
use std::convert::Infallible;
use std::rc::Rc;

use embedded_hal::digital::{self, InputPin, OutputPin};
use embedded_hal::spi::{self, SpiBus};
use seamwright_core::input::Draft;
use seamwright_core::tank::JobError;
use seamwright_core::wire::{Decoder, Reply, Request, encode};
use seamwright_firmware::buttons::{ActiveLow, Button, Event};
use seamwright_firmware::frame::{Frame, HEIGHT, ROW_BYTES};
use seamwright_firmware::gauge::Gauge;
use seamwright_firmware::page::{Full, Kind, Small};
use seamwright_runner::{Memory, Polled, Runner};
use seamwright_template::{Board, Chip, Display};
