//! What must hold for the dip chart of any tank, on random ones of every shape, with their fittings and
//! baffles.

use proptest::prelude::*;
use seamwright_core::capacity::{Dip, DipError, Lean, Stick, round_step};
use seamwright_core::geom::Vector;
use seamwright_core::input::{Across, BaffleDraft, Block, Draft, FillDraft, Shape, Sized, WallSet};
use seamwright_core::tank::Tank;
use seamwright_core::units::{Length, Volume};
use seamwright_tests::amounts::lean;
use seamwright_tests::random_jobs::Jobs;

/// The first tank of a seed that its job, filled so, makes.
fn tank(seed: u64, fill: impl Fn(&Tank) -> FillDraft) -> Tank {
    Jobs::new(seed)
        .find_map(|mut draft| {
            let plain = Tank::build(&draft).ok()?;
            let asked = fill(&plain);
            draft.fill.dip_step = asked.dip_step;
            draft.fill.dip_volume = asked.dip_volume;
            draft.fill.dip_at = asked.dip_at;
            Tank::build(&draft).ok()
        })
        .unwrap()
}

/// A place on the plan of a tank, by shares of what its inside spans.
fn place(tank: &Tank, [right, ahead]: [f64; 2]) -> [Length; 2] {
    let at = |axis, share: f64| {
        let (low, high) = tank.body().inside.extent(axis);
        Length::from_metres(low + share * (high - low))
    };
    [
        at(Vector::new(1.0, 0.0, 0.0), right),
        at(Vector::new(0.0, 1.0, 0.0), ahead),
    ]
}

fn full_depth(tank: &Tank) -> f64 {
    tank.pool(Lean::LEVEL).full_depth().si()
}

fn own_chart(tank: &Tank) -> Vec<(Dip, Length)> {
    (0..tank.dip_count())
        .map(|number| tank.dip_mark(number).unwrap())
        .collect()
}

/// Both figures of every mark are above those of the mark before; of the volumes where nothing stands
/// within. What does is counted square, even where its edge reaches into a slanting wall, which is past
/// what there is of liquid beside the last of a peak: see the property below for what holds of it.
fn rises(tank: &Tank, marks: &[Dip]) -> bool {
    let bare = tank.inner().displaced() == 0.0;
    marks
        .windows(2)
        .all(|pair| pair[0].reading < pair[1].reading && (!bare || pair[0].volume < pair[1].volume))
}

/// Whether a figure is a whole number of steps, to the rounding of a product.
fn is_multiple(value: f64, step: f64) -> bool {
    (value - (value / step).round() * step).abs() <= 1e-14 * value.abs()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1_000, ..ProptestConfig::default() })]

    /// By depth: from empty to the brim, every step between a whole one, and each mark what a fill to
    /// that depth holds.
    #[test]
    fn a_chart_by_depth_runs_from_empty_to_the_brim(seed in any::<u64>(), power in -6.5..-0.5_f64) {
        let tank = tank(seed, |tank| FillDraft {
            dip_step: Some(Length::from_metres(power.exp() * full_depth(tank))),
            ..FillDraft::default()
        });
        let step = tank.job().dip_step().si();
        let marks = own_chart(&tank);
        let dips: Vec<Dip> = marks.iter().map(|(dip, _)| *dip).collect();
        prop_assert!(rises(&tank, &dips), "{:?}", dips);
        let (first, last) = (dips[0], dips[dips.len() - 1]);
        let pool = tank.pool(Lean::LEVEL);
        prop_assert!(first.reading.si() == 0.0 && first.volume.si() <= 1e-15 * pool.brim().si(), "{:?}", first);
        prop_assert_eq!(last.reading, pool.full_depth());
        prop_assert!((last.volume.si() - pool.brim().si()).abs() <= 1e-15 * pool.brim().si());
        for (dip, depth) in &marks[..marks.len() - 1] {
            prop_assert!(is_multiple(dip.reading.si(), step), "{:?} of {}", dip, step);
            prop_assert_eq!(dip.reading, *depth);
            prop_assert_eq!(dip.volume, pool.at(*depth).unwrap().volume);
        }
        // No step is longer than the one asked for, and none but the last shorter.
        for pair in dips.windows(2) {
            let gap = pair[1].reading.si() - pair[0].reading.si();
            prop_assert!(gap <= step * (1.0 + 1e-9), "{} of {}", gap, step);
        }
    }

    /// By volume: whole multiples from nothing up to the last below the brim, each where a fill holds it.
    #[test]
    fn a_chart_by_volume_has_whole_multiples(seed in any::<u64>(), count in 3_u16..60) {
        let tank = tank(seed, |tank| FillDraft {
            dip_volume: round_step(tank.pool(Lean::LEVEL).brim().si(), count).map(Volume::from_cubic_metres),
            ..FillDraft::default()
        });
        let step = tank.job().dip_volume().unwrap().si();
        let dips: Vec<Dip> = own_chart(&tank).iter().map(|(dip, _)| *dip).collect();
        prop_assert!(rises(&tank, &dips), "{:?}", dips);
        let pool = tank.pool(Lean::LEVEL);
        let brim = pool.brim().si();
        prop_assert_eq!((dips[0].reading.si(), dips[0].volume.si()), (0.0, 0.0));
        for (number, dip) in (0_u16..).zip(&dips) {
            let wanted = f64::from(number) * step;
            prop_assert!((dip.volume.si() - wanted).abs() <= 1e-14 * brim, "{:?}, not {}", dip, wanted);
            let held = pool.at(dip.reading).unwrap().volume.si();
            // What lies below a round fold is a difference of sums, which cancels to some 1e-10 of the brim.
            let folds = tank.job().joints().folds();
            let within = if folds.is_empty() { 1e-13 } else { 1e-9 };
            prop_assert!((held - wanted).abs() <= within * brim, "{} holds {}, not {}", dip.reading.si(), held, wanted);
        }
        let left = brim - dips[dips.len() - 1].volume.si();
        prop_assert!(left >= -1e-12 * brim && left < step, "{} of {} left", left, step);
    }

    /// A rod, level and leaning: its marks rise from where it is first wet to where it leaves the liquid,
    /// and each is what a fill to the depth of that point of the rod holds, the depth by the geometry of
    /// the lean: up is (sin p, cos p sin r, cos p cos r).
    #[test]
    fn a_leaning_rod_tells_what_a_fill_to_its_wet_point_holds(
        seed in any::<u64>(),
        at in prop::array::uniform2(0.15..0.85_f64),
        level in any::<bool>(),
        near in prop::option::of(0.0001..0.1_f64),
        pitch in -40.0..40.0_f64,
        roll in -40.0..40.0_f64,
        count in 3_u16..40,
    ) {
        let tank = tank(seed, |tank| FillDraft { dip_at: Some(place(tank, at)), ..FillDraft::default() });
        // Level, nearly so, or well off it.
        let flat = if level { 0.0 } else { near.unwrap_or(1.0) };
        let (pitch, roll) = (flat * pitch, flat * roll);
        let rod = match tank.dip_rod(lean(pitch, roll)).unwrap() {
            Ok(rod) => rod,
            Err(error) => {
                // The only way that a rod so near upright says nothing: its tip above the brim.
                prop_assert!(!level && error == DipError::NeverWet, "{error}");
                return Ok(());
            }
        };
        let (p, r) = (pitch.to_radians(), roll.to_radians());
        let up = Vector::new(p.sin(), p.cos() * r.sin(), p.cos() * r.cos());
        let inside = &tank.body().inside;
        let (low, high) = inside.extent(up);
        let [x, y] = tank.job().dip_at().unwrap();
        let stick = Stick::upright(inside, x, y).unwrap();
        let depth = |reading: f64| up.dot(stick.tip() + Vector::new(0.0, 0.0, reading)) - low;
        let pool = tank.pool(lean(pitch, roll));
        let (brim, full) = (pool.brim().si(), high - low);
        let holds = |dip: &Dip| {
            let depth = depth(dip.reading.si()).clamp(0.0, full);
            let held = pool.at(Length::from_metres(depth)).unwrap().volume.si();
            (held - dip.volume.si()).abs() <= 1e-9 * brim
        };
        let (first, last) = (rod.first(), rod.last());
        // It ends at the brim, or where it leaves the tank below that.
        let top = depth(stick.top_reading().si());
        if top >= full * (1.0 - 1e-12) {
            prop_assert!((last.volume.si() - brim).abs() <= 1e-9 * brim, "{last:?} of {brim}");
        } else {
            prop_assert!((last.reading.si() - stick.top_reading().si()).abs() <= 1e-9 * full);
            prop_assert!(last.volume.si() <= brim);
        }
        prop_assert!(first.reading.si() >= -1e-9 * full);
        // Its tip touches the bottom there: where that is the lowest of all, it is wet from the first drop.
        let dry = depth(0.0);
        // In a pointed corner volume goes with the cube of the depth: a hundredth of it holds a millionth.
        prop_assert!((first.volume.si() <= 1e-9 * brim) == (dry <= 0.0) || dry.abs() <= 1e-2 * full);

        let length = last.reading.si() - first.reading.si();
        let step = round_step(length, count).unwrap();
        let marks: Vec<Dip> = rod.every(Length::from_metres(step)).unwrap().collect();
        prop_assert_eq!((marks[0], marks[marks.len() - 1]), (first, last));
        prop_assert!(rises(&tank, &marks), "{:?}", marks);
        prop_assert!(marks.iter().all(&holds), "{:?}", marks);
        for pair in marks.windows(2) {
            prop_assert!(pair[1].reading.si() - pair[0].reading.si() <= step * (1.0 + 1e-6));
        }
        let between = &marks[1..marks.len() - 1];
        prop_assert!(between.iter().all(|dip| is_multiple(dip.reading.si(), step)), "{:?}", between);

        let step = round_step(last.volume.si() - first.volume.si(), count).unwrap();
        let marks: Vec<Dip> = rod.every_volume(Volume::from_cubic_metres(step)).unwrap().collect();
        prop_assert_eq!((marks[0], marks[marks.len() - 1]), (first, last));
        prop_assert!(rises(&tank, &marks), "{:?}", marks);
        prop_assert!(marks.iter().all(holds), "{:?}", marks);
        let between = &marks[1..marks.len() - 1];
        prop_assert!(between.iter().all(|dip| is_multiple(dip.volume.si(), step)), "{:?}", between);
    }

    /// In a box, a level baffle without holes keeps as much liquid out as it is thick, and takes that as
    /// the liquid climbs through it: at no lean does the volume fall as the depth grows.
    #[test]
    fn the_volume_never_falls_past_a_level_baffle(
        size in prop::array::uniform3(0.1..0.5_f64),
        at in 0.2..0.8_f64,
        thickness in 0.001..0.006_f64,
        level in any::<bool>(),
        power in -9.0..0.0_f64,
        turn in 0.0..360.0_f64,
    ) {
        let [length, width, height] = size.map(Length::from_metres);
        let mut draft: Draft = Jobs::blocks(1).find(|draft| Tank::build(draft).is_ok()).unwrap();
        draft.shape = Shape::Block(Block { sized: Sized::Outside, length, width, height, cuts: heapless::Vec::new() });
        draft.stock.faces.clear();
        draft.baffles.push(BaffleDraft {
            across: Across::Height,
            at: Length::from_metres(at * height.si()),
            thickness: Some(Length::from_metres(thickness)),
            holes: heapless::Vec::new(),
            free: WallSet::NONE,
            spaced: None,
        }).unwrap();
        draft.fill = FillDraft::default();
        let tank = Tank::build(&draft).unwrap();
        // From a hundredth of a degree to thirty.
        let tilt = if level { 0.0 } else { 30.0 * power.exp() };
        let (sin, cos) = turn.to_radians().sin_cos();
        let pool = tank.pool(lean(tilt * sin, tilt * cos));
        let full = pool.full_depth().si();
        let held: Vec<f64> = (0..=500)
            .map(|part| pool.at(Length::from_metres(full * f64::from(part) / 500.0)).unwrap().volume.si())
            .collect();
        let hair = 1e-12 * pool.brim().si();
        prop_assert!(held.windows(2).all(|pair| pair[1] >= pair[0] - hair), "{:?}", held);
        // All of it is taken off the box: by the product of the sides within the sheet.
        let t = draft.stock.thickness.si();
        let [l, w, h] = size.map(|side| side - 2.0 * t);
        let wanted = l * w * (h - thickness);
        prop_assert!((pool.brim().si() - wanted).abs() <= 1e-12 * wanted, "{} not {}", pool.brim().si(), wanted);
    }
}
