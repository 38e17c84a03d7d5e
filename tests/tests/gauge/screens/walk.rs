//! Many jobs, good and bad, walked through at random: no screen may clip, overlap or go outside.

use seamwright_core::input::limits::MAX_CUTS;
use seamwright_core::input::{Across, BaffleDraft, Cut, Draft, Face, Shape, WallSet};
use seamwright_core::tables::{Alloy, Liquid};
use seamwright_core::units::{
    Current, Pressure, Ratio, Speed, SpeedUnit, Temperature, TemperatureUnit, Voltage, Volume,
    VolumeUnit,
};
use seamwright_firmware::amount::Units;
use seamwright_firmware::buttons::{Button, Event};
use seamwright_firmware::gauge::{Gauge, Screen};
use seamwright_firmware::page::Page;

use super::demo::{mm, tank};
use super::thumb::{press, shown};

/// Numbers that look random and are the same in every run (xorshift).
pub(crate) struct Dice(u64);

impl Dice {
    pub(crate) const fn new(seed: u64) -> Self {
        Self(seed | 1)
    }

    pub(crate) fn roll(&mut self, sides: u64) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) % sides
    }

    /// From `low` to `high`, both above zero, small and large alike.
    fn between(&mut self, low: f64, high: f64) -> f64 {
        let share = self.roll(1 << 30) as f64 / f64::from(1 << 30);
        low * (high / low).powf(share)
    }

    fn chance(&mut self, one_in: u64) -> bool {
        self.roll(one_in) == 0
    }

    fn face(&mut self) -> Face {
        Face::BOX[self.roll(6) as usize]
    }

    pub(crate) fn event(&mut self) -> Event {
        let button = Button::ALL[self.roll(5) as usize];
        match self.roll(12) {
            0 => Event::Hold,
            1..4 => Event::Repeat(if self.chance(2) {
                Button::Up
            } else {
                Button::Down
            }),
            _ => Event::Press(button),
        }
    }
}

/// A job that may be anything a user could send, sound or not.
pub(crate) fn any_job(dice: &mut Dice) -> Draft {
    let names = [
        "T",
        "Header tank, heating loop of a canal boat",
        "Grüße: Öltank ½ · 5 µm²",
        "汽油箱 ﷽ tank",
        "aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa",
    ];
    let name = if dice.chance(40) {
        ""
    } else {
        names[dice.roll(names.len() as u64) as usize]
    };
    let size = [0; 3].map(|_| dice.between(20.0, 19_999.0));
    let least = size.into_iter().fold(f64::INFINITY, f64::min);
    let most = size.into_iter().fold(0.0, f64::max);
    let mut job = tank(name, size, 1.0, &[]);
    let thickest = (least / 2.5).min(20.0);
    job.stock.thickness = mm(if dice.chance(12) {
        least
    } else {
        dice.between(0.3_f64.min(thickest), thickest)
    });
    job.stock.alloy = Alloy::ALL[dice.roll(Alloy::ALL.len() as u64) as usize];
    let cuts = if dice.chance(8) {
        MAX_CUTS as u64
    } else {
        dice.roll(3)
    };
    for _ in 0..cuts {
        let leg = |dice: &mut Dice| mm(dice.between(least / 20.0, least / 1.5));
        let cut = match dice.roll(3) {
            0 => Cut::Edge {
                faces: [dice.face(), dice.face()],
                legs: [leg(dice), leg(dice)],
            },
            1 => Cut::Corner {
                faces: [dice.face(), dice.face(), dice.face()],
                legs: [leg(dice), leg(dice), leg(dice)],
            },
            _ => Cut::Plane {
                normal: [0; 3].map(|_| dice.roll(9) as f64 - 4.0),
                through: [mm(size[0] / 2.0), mm(size[1] / 2.0), mm(size[2] * 0.9)],
            },
        };
        let Shape::Block(block) = &mut job.shape else {
            panic!("the tank is a block");
        };
        block.cuts.push(cut).expect("no more cuts than fit");
    }
    let maybe = |dice: &mut Dice, low, high| (!dice.chance(3)).then(|| dice.between(low, high));
    job.arc.current = maybe(dice, 1.0, 600.0).map(Current::from_amperes);
    job.arc.voltage = maybe(dice, 5.0, 60.0).map(Voltage::from_volts);
    job.arc.travel =
        maybe(dice, 5.0, 5_000.0).map(|v| Speed::new(v, SpeedUnit::MillimetrePerMinute));
    job.arc.efficiency = maybe(dice, 0.05, 1.0).map(Ratio::from_share);
    job.fill.pick_up = maybe(dice, 0.1, least / 2.0).map(mm);
    job.fill.headspace = maybe(dice, 0.01, 0.5).map(Ratio::from_share);
    job.fill.target = maybe(dice, 0.1, 1e7).map(|v| Volume::new(v, VolumeUnit::Litre));
    job.fill.dip_step = maybe(dice, least / 100.0, least).map(mm);
    job.weld.stitch_max = maybe(dice, most / 20.0, 20_000.0).map(mm);
    job.weld.tack_pitch = maybe(dice, 10.0, 10_000.0).map(mm);
    job.fill.liquid =
        (!dice.chance(3)).then(|| Liquid::ALL[dice.roll(Liquid::ALL.len() as u64) as usize]);
    job.service.pressure = dice
        .chance(6)
        .then(|| Pressure::from_pascals(dice.between(1.0, 5e4)));
    job.service.temperature = dice
        .chance(3)
        .then(|| Temperature::new(dice.between(1.0, 200.0), TemperatureUnit::Celsius));
    if dice.chance(4) {
        job.service.acceleration = Some([0; 3].map(|_| Ratio::from_share(dice.between(0.01, 3.0))));
    }
    if dice.chance(2) {
        for _ in 0..=dice.roll(4) {
            let at = size.map(|side| mm(dice.between(1.0, side)));
            // One past the most finds no room.
            let _ = job.service.mounts.push(at);
        }
    }
    if dice.chance(5) {
        job.baffles
            .push(BaffleDraft {
                across: Across::Length,
                at: mm(size[0] / 2.0),
                thickness: None,
                holes: heapless::Vec::new(),
                free: WallSet::NONE,
                spaced: None,
            })
            .expect("the first");
    }
    job
}

/// Every page of every job, in both units, at both ends of whatever up and down change.
#[test]
fn no_page_of_any_job_clips_or_overlaps() {
    let mut dice = Dice::new(20_261);
    let (mut opened, mut refused) = (0, 0);
    for _ in 0..2_000 {
        let mut gauge = Gauge::new();
        gauge.set_units(if dice.chance(2) {
            Units::Inch
        } else {
            Units::Metric
        });
        gauge.keep(&any_job(&mut dice)).expect("room on the shelf");
        shown(&gauge);
        press(&mut gauge, &[Button::Select]);
        if gauge.screen() == Screen::Trouble {
            refused += 1;
            read_through(&mut gauge);
            continue;
        }
        opened += 1;
        for &page in Page::ALL {
            assert_eq!(gauge.screen(), Screen::Page(page));
            settle(&mut gauge);
            if page == Page::Notices {
                read_through(&mut gauge);
            }
            for button in [Button::Up, Button::Down] {
                for _ in 0..10 {
                    shown(&gauge);
                    gauge.handle(Event::Repeat(button));
                    gauge.handle(Event::Press(button));
                }
                if page == Page::Fill {
                    press(&mut gauge, &[Button::Select]);
                }
            }
            if matches!(
                page,
                Page::SetUp | Page::Filler | Page::Mass | Page::Strength
            ) {
                for _ in 0..8 {
                    press(&mut gauge, &[Button::Select]);
                    shown(&gauge);
                }
            }
            if page == Page::Leak {
                lead(&mut gauge, &mut dice);
            }
            press(&mut gauge, &[Button::Right]);
        }
    }
    // Neither kind is rare, or this would prove little.
    assert!(
        opened > 300 && refused > 300,
        "{opened} opened, {refused} refused"
    );
}

/// Until the page is worked out.
fn settle(gauge: &mut Gauge) {
    while gauge.is_working() {
        shown(gauge);
        assert!(gauge.tick(0));
    }
}

/// Through a leak test at random, but on more often than not, so that it comes to an end.
fn lead(gauge: &mut Gauge, dice: &mut Dice) {
    let mut clock = dice.roll(u64::MAX);
    for _ in 0..60 {
        gauge.handle(match dice.roll(8) {
            0 => Event::Press(Button::Up),
            1 => Event::Repeat(Button::Down),
            2 | 3 => Event::Press(Button::Down),
            _ => Event::Press(Button::Select),
        });
        clock = clock.wrapping_add(dice.roll(200_000));
        gauge.tick(clock);
        shown(gauge);
    }
}

/// Reads on until nothing new comes.
fn read_through(gauge: &mut Gauge) {
    for _ in 0..200 {
        let before = shown(gauge);
        gauge.handle(Event::Press(Button::Down));
        if shown(gauge) == before {
            return;
        }
    }
    panic!(
        "no end of reading on {:?}",
        gauge.names().collect::<Vec<_>>()
    );
}

/// A full shelf and a restless thumb.
#[test]
fn no_order_of_buttons_breaks_a_screen() {
    for seed in 1..40 {
        let mut dice = Dice::new(seed * 7_919);
        let mut gauge = Gauge::new();
        for place in 0..6 {
            let mut job = any_job(&mut dice);
            job.name.push(char::from(b'a' + place)).unwrap_or_default();
            // A name may be full already, and then one job takes another's place.
            gauge.keep(&job).expect("room on the shelf");
        }
        for _ in 0..300 {
            gauge.handle(dice.event());
            gauge.tick(dice.roll(u64::MAX));
            shown(&gauge);
        }
    }
}
