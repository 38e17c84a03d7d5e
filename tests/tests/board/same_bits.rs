//! The emulated microcontroller and this machine compute the same bits.
//!
//! The board has no floating-point unit and another instruction set; if one operation, one library
//! function or one order of terms differed, some job of these would show it. Every figure of every job
//! is compared by its bits, as it comes over the link.

use seamwright_core::capacity::Lean;
use seamwright_core::tank::Tank;
use seamwright_core::units::{Angle, AngleUnit, Length, Ratio};
use seamwright_core::wire::{BATCH, Reply, Request, SeamReport, encode, summary};
use seamwright_tests::board::{Board, Failure};
use seamwright_tests::random_jobs::Jobs;

const JOBS: usize = 500;

/// Leans (degrees of pitch and roll) and share of the full depth at which each tank is filled.
const LEVELS: [(f64, f64, f64); 3] = [(0.0, 0.0, 0.63), (14.0, -9.0, 0.4), (-90.0, 33.0, 0.5)];

/// Compares by the encoded bytes: equal bytes are equal bits, and unlike `==` that tells 0 from −0 and
/// does not stumble over what is not a number.
fn compare(what: &str, job: usize, board: &Reply, host: &Reply) -> Result<(), Failure> {
    let same = encode(board).ok() == encode(host).ok();
    if same {
        Ok(())
    } else {
        Err(Failure::new(format!(
            "job {job}, {what}:\nboard {board:?}\nhost  {host:?}"
        )))
    }
}

fn check(board: &mut Board, job: usize, tank: &Tank) -> Result<u32, Failure> {
    let mut figures = 0;
    let panels: Vec<_> = tank.panels().collect();
    for (batch, expected) in panels.chunks(BATCH).enumerate() {
        let from = u8::try_from(batch * BATCH).map_err(|_| Failure::new("too many panels"))?;
        let reply = board.ask(&Request::Panels { from })?;
        compare(
            "panels",
            job,
            &reply,
            &Reply::Panels(expected.iter().cloned().collect()),
        )?;
        figures += 4 * expected.len() as u32;
    }
    let seams: Vec<_> = tank
        .seams()
        .map(|seam| SeamReport::of(tank, seam))
        .collect();
    for (batch, expected) in seams.chunks(BATCH).enumerate() {
        let from = u8::try_from(batch * BATCH).map_err(|_| Failure::new("too many seams"))?;
        let reply = board.ask(&Request::Seams { from })?;
        compare(
            "seams",
            job,
            &reply,
            &Reply::Seams(expected.iter().copied().collect()),
        )?;
        figures += 14 * expected.len() as u32;
    }
    for (pitch, roll, share) in LEVELS {
        let [pitch, roll] = [pitch, roll].map(|angle| Angle::new(angle, AngleUnit::Degree));
        let share = Ratio::from_share(share);
        let reply = board.ask(&Request::Level { pitch, roll, share })?;
        let pool =
            tank.pool(Lean::new(pitch, roll).map_err(|error| Failure::new(error.to_string()))?);
        let depth = Length::from_metres(pool.full_depth().si() * share.si());
        compare("level", job, &reply, &Reply::Level(pool.at(depth).ok()))?;
        figures += 3;
    }
    Ok(figures)
}

#[test]
fn five_hundred_jobs_come_out_bit_for_bit() -> Result<(), Failure> {
    let mut board = Board::start()?;
    let (mut computed, mut refused, mut figures) = (0, 0, 0);
    for (job, draft) in Jobs::new(20_261_125).enumerate() {
        if computed == JOBS {
            break;
        }
        let reply = board.ask(&Request::Compute(draft.clone()))?;
        // As the small gauge makes it: without a look at what the laptop has looked at, and without folds.
        let mut tank = Box::new(Tank::EMPTY);
        match tank.take(&draft).and_then(|()| tank.make_unfolded()) {
            Ok(()) => {
                compare("summary", job, &reply, &Reply::Computed(summary(&tank)))?;
                figures += 20 + check(&mut board, job, &tank)?;
                computed += 1;
            }
            Err(error) => {
                compare("refusal", job, &reply, &Reply::Refused(error))?;
                refused += 1;
            }
        }
    }
    println!(
        "{computed} jobs computed and {refused} refused alike; {figures} figures, all bits the same"
    );
    assert!(
        computed == JOBS && refused > 20,
        "the jobs are too alike: {computed} computed, {refused} refused"
    );
    Ok(())
}
