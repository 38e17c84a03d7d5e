//! Prints what the boards weigh and what the emulated one takes for its work.
//!
//! `tests/all.sh` runs it last. By itself: with `SEAMWRIGHT_LM3S6965_ELF`, `SEAMWRIGHT_MPS2_ELF`, `SEAMWRIGHT_HEAT_ELF`
//! and `SEAMWRIGHT_PICO_ELF` set, `cargo run -p seamwright-tests --example board_measures`.
//!
//! Times are instructions on the emulator's clock, one a nanosecond: counts, not cycles, so real silicon
//! takes longer (flash wait states, loads, divisions). They vary by a few hundred with the interrupts
//! that fall into them, and by more with the compiler.

use std::path::Path;

use seamwright_core::input::Draft;
use seamwright_core::units::{Length, LengthUnit};
use seamwright_core::wire::{Reply, Request, Status};
use seamwright_firmware::buttons::Button;
use seamwright_firmware::page::Page;
use seamwright_tests::board::{
    Board, Failure, HEAT_INSTRUCTIONS_PER_TICK, HeatBoard, HeatPlan, INSTRUCTIONS_PER_TICK, Line,
    TAP_MS, full_instructions, lm3s6965_elf, mps2_elf, pico_elf, sections,
};
use seamwright_tests::jobs::{self, EXAMPLES};
use seamwright_tests::orders;

/// The heaviest of what a job may be: a wrapper of twelve rounded corners in one blank, with a baffle and
/// fittings; and a drum whose ends are summed stretch by stretch.
const HEAVY: [(&str, &str); 2] = [
    (
        "twelve rounded corners",
        r#"name = "Twelve corners"
[shape]
kind = "profile"
width = "200 mm"
outline = [
  ["60 mm", "0 mm", "r 12 mm"], ["240 mm", "0 mm", "r 12 mm"], ["240 mm", "50 mm", "r 12 mm"],
  ["300 mm", "50 mm", "r 12 mm"], ["300 mm", "190 mm", "r 12 mm"], ["240 mm", "190 mm", "r 12 mm"],
  ["240 mm", "240 mm", "r 12 mm"], ["60 mm", "240 mm", "r 12 mm"], ["60 mm", "190 mm", "r 12 mm"],
  ["0 mm", "190 mm", "r 12 mm"], ["0 mm", "50 mm", "r 12 mm"], ["60 mm", "50 mm", "r 12 mm"],
]
[stock]
alloy = "5754"
thickness = "2 mm"
[weld]
stitch_max = "150 mm"
[[fitting]]
name = "filler"
face = "side 7"
at = ["90 mm", "50 mm"]
bore = "40 mm"
stand_in = "8 mm"
[[baffle]]
across = "width"
at = "100 mm"
"#,
    ),
    (
        "torispherical drum",
        r#"name = "Wash water drum"
[shape]
kind = "drum"
axis = "lying"
diameter = "400 mm"
length = "600 mm"
ends = "torispherical"
crown = "400 mm"
knuckle = "40 mm"
[stock]
alloy = "304"
thickness = "2 mm"
[fill]
dip_at = ["300 mm", "200 mm"]
"#,
    ),
];

fn main() -> Result<(), Failure> {
    weigh("LM3S6965 board, emulated", &lm3s6965_elf()?)?;
    weigh("RP2040 board, full, built only", &pico_elf()?)?;
    weigh("MPS2 board, full, emulated", &mps2_elf()?)?;

    let mut board = Board::start()?;
    let first = board.wait_for_line(0, "the first picture", |line| {
        line.message.starts_with("first")
    })?;
    println!("\nLM3S6965 board at work                      instructions    bytes sent   windows");
    row(
        "clock's start to first picture",
        instructions(&first, "ticks")?,
        Some((figure(&first, "bytes")?, 1)),
    );
    for example in EXAMPLES {
        plan(&mut board, example)?;
    }
    pages(&mut board)?;
    stack(&mut board)?;
    for (name, text) in HEAVY {
        println!();
        let mut board = Board::start()?;
        compute_and_keep(&mut board, name, jobs::read(text).draft)?;
        pages(&mut board)?;
        stack(&mut board)?;
    }
    full()?;
    heat()
}

/// The most that a first plan may take, in instructions: two seconds at 50 MHz.
const LONGEST_FIRST_PLAN: u64 = 100_000_000;

/// What planning takes within the full gauge: until the first plan stands on its page, turned to by quick taps; the
/// longest single piece of it, which is how long a button may have to wait; and the first way by which it is refined.
fn full() -> Result<(), Failure> {
    println!(
        "\nfull gauge on the MPS2 board, instructions  first plan  longest piece      a way  longest piece    stack"
    );
    for example in EXAMPLES {
        let mut board = Board::start_full()?;
        let reply = board.ask(&Request::Keep(draft(example)))?;
        if !matches!(reply, Reply::Kept { .. }) {
            return Err(Failure::new(format!("{example}: {reply:?}")));
        }
        let turns = Page::ALL.iter().take_while(|page| **page != Page::Order);
        let buttons = [Button::Select]
            .into_iter()
            .chain(turns.map(|_| Button::Right));
        let mark = board.log.mark();
        let mut count = 0;
        for button in buttons {
            board.thumb(&[(&[button], TAP_MS), (&[], TAP_MS)])?;
            count += 1;
        }
        let presses = board.presses(mark, count)?;
        let (Some(opened), Some(turned)) = (presses.first(), presses.last()) else {
            return Err(Failure::new("no press"));
        };
        let thought = |line: &Line| line.message.starts_with("thought");
        let looked = board.wait_for_line(mark, "the first plan", thought)?;
        // A first plan that was there before its page is not told: what is told first is the first way then, which takes
        // longer than any first plan may.
        let since = |line: &Line| Ok::<_, Failure>(figure(line, "at")? - figure(turned, "at")?);
        let early = full_instructions(since(&looked)?) > LONGEST_FIRST_PLAN;
        let (shown, refined) = if early {
            (turned, looked.clone())
        } else {
            let refined =
                board.wait_for_line(mark, "a way", |line| thought(line) && *line != looked)?;
            (&looked, refined)
        };
        let first = figure(shown, "at")? - figure(opened, "at")?;
        // Once more through all pages, for the stack.
        for _ in Page::ALL {
            board.press(Button::Left)?;
        }
        for _ in Page::ALL {
            board.press(Button::Right)?;
        }
        let status = status(&mut board)?;
        println!(
            "  {example:<40}{:>12}{:>15}{:>11}{:>15}{:>9}",
            full_instructions(first),
            full_instructions(figure(&looked, "longest")?),
            full_instructions(figure(&refined, "thinking")?),
            full_instructions(figure(&refined, "longest")?),
            status.stack_high_water,
        );
    }
    Ok(())
}

/// What the planner takes on the LM3S6965, alone on it: the examples, and the header tank with ever shorter
/// stitches, up to the most that a job may have.
fn heat() -> Result<(), Failure> {
    println!(
        "\nplanning stitches on the chip        cells links stitches   first look      lay out     step     whole plan"
    );
    let mut board = HeatBoard::start()?;
    for example in EXAMPLES {
        planned(&mut board, example, draft(example))?;
    }
    for stitch in [40.0, 20.0, 11.5] {
        let mut draft = draft("header-tank");
        draft.weld.stitch_max = Some(Length::new(stitch, LengthUnit::Millimetre));
        planned(
            &mut board,
            &format!("header-tank, stitches of {stitch} mm"),
            draft,
        )?;
    }
    worked_out()
}

/// What the fuller pages take on the same chip.
fn worked_out() -> Result<(), Failure> {
    println!(
        "\nworking pages out on the chip          strength   a wall at most    leak test   a seam at most      its plan         mass      fillers"
    );
    let mut board = HeatBoard::start_pages()?;
    for example in EXAMPLES {
        let pages = board.pages(draft(example))?;
        let of = |name: &str| instructions_of(&pages, name);
        println!(
            "  {example:<34} {:>10} {:>16} {:>12} {:>16} {:>13} {:>12} {:>12}",
            of("strength"),
            of("wall"),
            of("tested") + of("seams"),
            of("seam"),
            of("plan"),
            of("mass"),
            of("fillers"),
        );
    }
    Ok(())
}

fn instructions_of(plan: &HeatPlan, name: &str) -> u64 {
    let ticks: u64 = plan
        .figure(name)
        .and_then(|ticks| ticks.parse().ok())
        .unwrap_or(0);
    ticks * HEAT_INSTRUCTIONS_PER_TICK
}

fn planned(board: &mut HeatBoard, name: &str, draft: Draft) -> Result<(), Failure> {
    let plan = board.plan(draft)?;
    let figure = |name: &str| plan.figure(name).unwrap_or("-").to_owned();
    let instructions = |name: &str| instructions_of(&plan, name);
    println!(
        "  {name:<34} {:>5} {:>5} {:>8} {:>12} {:>12} {:>8} {:>14}",
        figure("laid out cells"),
        figure("laid out links"),
        figure("laid out stitches"),
        instructions("first look ticks"),
        instructions("laid out ticks"),
        instructions("laid out step_ticks"),
        instructions("planned ticks"),
    );
    Ok(())
}

fn draft(example: &str) -> Draft {
    jobs::example(example).draft
}

fn stack(board: &mut Board) -> Result<(), Failure> {
    let status = status(board)?;
    println!(
        "  stack: at most {} of {} bytes used",
        status.stack_high_water, status.stack_size
    );
    Ok(())
}

/// Flash and RAM by section.
fn weigh(name: &str, elf: &Path) -> Result<(), Failure> {
    println!("\n{name:<32} flash       RAM (bytes)");
    let sections = sections(elf)?;
    for section in &sections {
        println!(
            "  {:<26}{:>9} {:>9}",
            section.name, section.flash, section.ram
        );
    }
    let (flash, ram) = sections.iter().fold((0, 0), |(flash, ram), section| {
        (flash + section.flash, ram + section.ram)
    });
    println!("  {:<26}{flash:>9} {ram:>9}", "together");
    Ok(())
}

/// One full plan, and the job put on the shelf.
fn plan(board: &mut Board, example: &str) -> Result<(), Failure> {
    let draft = draft(example);
    compute_and_keep(board, example, draft)
}

fn compute_and_keep(board: &mut Board, example: &str, draft: Draft) -> Result<(), Failure> {
    let reply = board.ask(&Request::Compute(draft.clone()))?;
    if !matches!(reply, Reply::Computed(_)) {
        return Err(Failure::new(format!("{example}: {reply:?}")));
    }
    let ticks = u64::from(status(board)?.last_compute_ticks);
    row(
        &format!("full plan, {example}"),
        ticks * INSTRUCTIONS_PER_TICK,
        None,
    );
    let orders = orders::requests(&draft, 0).map_err(Failure::new)?;
    let reply = board.ask(&Request::Keep(draft))?;
    let Reply::Kept { place: kept } = reply else {
        return Err(Failure::new(format!("{example}: {reply:?}")));
    };
    for mut request in orders {
        if let Request::Order { place, .. } = &mut request {
            *place = kept;
        }
        board.ask(&request)?;
    }
    Ok(())
}

/// Opens the last job and turns its pages, with a change on each.
fn pages(board: &mut Board) -> Result<(), Failure> {
    press(board, Button::Select, "press to pixels: open a job")?;
    let mut last = String::new();
    for _ in 0..12 {
        press(board, Button::Down, "press to pixels: down on it")?;
        let shown = format!("{:?}", board.screen()?);
        press(board, Button::Right, "press to pixels: next page")?;
        let next = format!("{:?}", board.screen()?);
        if next == shown || next == last {
            break;
        }
        last = next;
    }
    Ok(())
}

fn press(board: &mut Board, button: Button, what: &str) -> Result<(), Failure> {
    let mark = board.log.mark();
    board.press(button)?;
    let is_press = |line: &Line| line.message.starts_with("Press");
    let line = board.wait_for_line(mark, "the press", is_press)?;
    let mut total = 0;
    for part in ["handle", "draw", "send"] {
        total += instructions(&line, part)?;
    }
    row(
        what,
        total,
        Some((figure(&line, "bytes")?, figure(&line, "windows")?)),
    );
    Ok(())
}

fn row(what: &str, instructions: u64, sent: Option<(u64, u64)>) {
    match sent {
        Some((bytes, windows)) => {
            println!("  {what:<40}{instructions:>14}{bytes:>14}{windows:>10}");
        }
        None => println!("  {what:<40}{instructions:>14}"),
    }
}

fn instructions(line: &Line, name: &str) -> Result<u64, Failure> {
    Ok(figure(line, name)? * INSTRUCTIONS_PER_TICK)
}

fn figure(line: &Line, name: &str) -> Result<u64, Failure> {
    let missing = || Failure::new(format!("no figure {name} in the log line: {line}"));
    line.figure(name).ok_or_else(missing)
}

fn status(board: &mut Board) -> Result<Status, Failure> {
    match board.ask(&Request::Status)? {
        Reply::Status(status) => Ok(status),
        other => Err(Failure::new(format!("no status but {other:?}"))),
    }
}
