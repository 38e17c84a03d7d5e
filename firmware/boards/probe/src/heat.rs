//! The arc's heat in sheet without end, published settings, shrinkage, duty, waves, supplies and cost.

use core::hint::black_box;

use seamwright_core::arc::power::{ArcLevel, Cycle};
use seamwright_core::arc::settings;
use seamwright_core::heat::moving::{Moving, MovingSource, Rosenthal, WeldedPlate};
use seamwright_core::supply::cylinder::Cylinder;
use seamwright_core::supply::shrinkage;
use seamwright_core::supply::shrinkage::ShrinkingSheet;
use seamwright_core::tables::preheat;
use seamwright_core::tables::ranges;
use seamwright_core::tables::ranges::{SeamKind, wire};
use seamwright_core::tank::Tank;
use seamwright_core::units::{
    Angle, Area, Current, Length, Pressure, Ratio, Speed, Temperature, Voltage, Volume,
};

/// Reaches all of it for one tank.
pub(crate) fn prove(tank: &Tank) {
    sheet(tank);
    tables(tank);
    shrinkage(tank);
    waves();
    if let Ok(cylinder) = Cylinder::new(black_box(Volume::from_cubic_metres(0.02))) {
        let high = black_box(Pressure::from_pascals(2e7));
        let _ = black_box(cylinder.contents(high, hot()));
    }
}

fn hot() -> Temperature {
    black_box(Temperature::from_kelvins(700.0))
}

fn current() -> Current {
    black_box(Current::from_amperes(100.0))
}

fn near() -> Length {
    black_box(Length::from_metres(0.01))
}

fn sheet(tank: &Tank) {
    let job = tank.job();
    let alloy = job.alloy();
    let plate = black_box(WeldedPlate {
        thickness: job.thickness(),
        conductivity: alloy.conductivity(job.temper()).value,
        heat_capacity: alloy.density().si() * alloy.metal().heat_capacity().value,
        start: job.welding().ambient,
    });
    let source = black_box(MovingSource {
        power: tank.arc().power().si(),
        travel: Speed::from_metres_per_second(0.004),
    });
    let Ok(moving) = Moving::new(source, plate) else {
        return;
    };
    let melting = alloy.metal().solidus().value;
    let _ = black_box((moving.regime(melting), moving.line_energy()));
    let thin = moving.thin(black_box(2));
    let thick = moving.thick(black_box(Angle::from_radians(3.1)));
    for field in [thin, thick].into_iter().flatten() {
        about(&field);
    }
}

fn about(field: &Rosenthal) {
    let _ = black_box(field.at(near(), near()));
    let _ = black_box(field.peak(near()));
    let _ = black_box(field.width_above(hot()));
}

fn tables(tank: &Tank) {
    let (alloy, arc) = (tank.job().alloy(), tank.arc());
    let family = alloy.family();
    let t = black_box(tank.job().thickness());
    let process = black_box(arc.process);
    black_box((
        settings::current(process, family, t),
        settings::travel(process, family, t),
    ));
    for seam in tank.seams() {
        let Some(joint) = seam.joint else { continue };
        let kind = SeamKind::of(joint);
        if let Some(range) = ranges::current(family, t, kind) {
            black_box(range.fit(arc.current));
            for source in range.sources.iter() {
                black_box(source.name());
            }
        }
        black_box((
            ranges::travel(family, t, kind),
            ranges::rod(family, t, kind),
        ));
        black_box((
            wire::current(process, family, t, kind),
            wire::travel(process, family, t, kind),
            wire::voltage(process, family, t, kind),
            wire::diameter(process, family, t, kind),
            wire::gas(process, family, t, kind),
        ));
    }
    black_box((
        ranges::tungsten(family, t),
        ranges::electrode(arc.process, arc.current),
    ));
    black_box((ranges::nozzle(family, t), ranges::gas(family, t)));
    black_box((
        preheat::interpass_limit(alloy),
        preheat::least_temperature(alloy),
    ));
    black_box((
        preheat::preheat_limit(alloy),
        preheat::hold_limit(alloy),
        preheat::avoid(alloy),
    ));
}

fn shrinkage(tank: &Tank) {
    let family = black_box(tank.job().alloy().family());
    let sheet = ShrinkingSheet {
        family,
        thickness: black_box(tank.job().thickness()),
    };
    let bead = black_box(Area::from_square_metres(5e-6));
    let gap = black_box(Length::from_metres(0.001));
    let _ = black_box(shrinkage::butt(sheet, bead, gap));
    let _ = black_box((shrinkage::tee(sheet, gap), shrinkage::lap(sheet, gap)));
    let _ = black_box(shrinkage::along(sheet, current(), near()));
    let heat = tank.arc().arc_energy();
    let _ = black_box(shrinkage::free(
        heat,
        black_box(2.4e-5),
        black_box(2.4e6),
        gap,
    ));
}

fn waves() {
    let level = || {
        black_box(ArcLevel {
            voltage: Voltage::from_volts(14.0),
            current: Current::from_amperes(100.0),
        })
    };
    let share = black_box(Ratio::from_share(0.7));
    if let Ok(cycle) = Cycle::square(share, level(), level()) {
        black_box((cycle.power(), cycle.mean_current()));
        black_box((
            cycle.rms_current(),
            cycle.rms_voltage(),
            cycle.effective_voltage(),
        ));
    }
}
