//! The full gauge on an emulated Arm chip: every page as on this machine, a first plan within two seconds, plans
//! refined while it is idle, and a thumb that is heard all the while.

use seamwright_core::input::Draft;
use seamwright_core::weld::Progress;
use seamwright_core::weld::WAYS;
use seamwright_core::wire::{Reply, Request};
use seamwright_firmware::buttons::{Button, Event};
use seamwright_firmware::gauge::{Gauge, Screen};
use seamwright_firmware::page::{Full, Page};
use seamwright_firmware::work::Origin;
use seamwright_tests::board::{
    Board, FULL_SHIFT, Failure, Line, Machine, Pair, Setup, TAP_MS, full_instructions, mps2_elf,
};
use seamwright_tests::jobs;

/// Two seconds of a chip at 50 MHz that takes a cycle for each instruction.
const TWO_SECONDS: u64 = 100_000_000;

/// The most instructions from a press (debounced) to the gauge acting on it while it plans, and of one piece of its
/// thoughts: a tenth of a second at 50 MHz.
const HEARD_WITHIN: u64 = 5_000_000;

/// Instructions in a millisecond of the board's time.
const A_MILLISECOND: u64 = 1_000_000 >> FULL_SHIFT;

/// With one stitch a side, so that all ways are soon tried.
const SMALL: &str = r#"name = "Small box"
[shape]
kind = "block"
length = "120 mm"
width = "80 mm"
height = "60 mm"
[stock]
alloy = "5754"
thickness = "2 mm"
[weld]
stitch_max = "120 mm"
"#;

fn small() -> Draft {
    jobs::read(SMALL).draft
}

/// A board whose time leaps over its sleep, for thumbs that move in its own time.
fn leaping() -> Result<Board, Failure> {
    Board::start_with(&Setup {
        machine: Machine::Mps2,
        elf: mps2_elf()?,
        shift: FULL_SHIFT,
        sleep: false,
    })
}

/// Taps, as short as a quick thumb makes them.
fn taps(buttons: &[Button]) -> Vec<(&[Button], u8)> {
    let open: &[Button] = &[];
    buttons
        .chunks(1)
        .flat_map(|button| [(button, TAP_MS), (open, TAP_MS)])
        .collect()
}

/// Nothing pressed for about so many milliseconds.
fn rest(milliseconds: usize) -> Vec<(&'static [Button], u8)> {
    let open: &[Button] = &[];
    vec![(open, 250); milliseconds / 250]
}

/// From the list to the order page of its first job.
fn to_order() -> Vec<Button> {
    let turns = Page::ALL.iter().take_while(|page| **page != Page::Order);
    let mut buttons = vec![Button::Select];
    buttons.extend(turns.map(|_| Button::Right));
    buttons
}

fn is_thought(line: &Line) -> bool {
    line.message.starts_with("thought")
}

fn figure(line: &Line, name: &str) -> Result<u64, Failure> {
    let missing = || Failure::new(format!("no figure {name} in the log line: {line}"));
    line.figure(name).ok_or_else(missing)
}

/// Ticks of a counter of 32 bits.
fn between(first: &Line, last: &Line) -> Result<u64, Failure> {
    let [first, last] = [figure(first, "at")?, figure(last, "at")?];
    Ok(u64::from((last as u32).wrapping_sub(first as u32)))
}

/// How far the twin's planner is.
fn progress(gauge: &Gauge) -> Progress {
    match gauge.work().map(|work| work.order().origin()) {
        Some(Origin::Own(progress)) => progress,
        _ => Progress::Idle,
    }
}

/// What opening a job and turning to the order page brought.
struct Opened {
    /// The press that opened it.
    select: Line,
    /// The press that turned to the order page.
    turned: Line,
    /// The first plan on the glass, unless it was found before the page was turned to.
    looked: Option<Line>,
    /// Where the log stands after that.
    mark: usize,
}

/// Opens the first job and turns to the order page with a quick thumb, and waits for the first plan.
fn open_order(pair: &mut Pair) -> Result<Opened, Failure> {
    let buttons = to_order();
    let mark = pair.board.log.mark();
    pair.board.thumb(&taps(&buttons))?;
    let lines = pair.board.presses(mark, buttons.len())?;
    for button in buttons {
        pair.gauge.handle(Event::Press(button));
    }
    let looking = pair.expected();
    while progress(&pair.gauge) != Progress::Looked {
        assert!(pair.gauge.has_thoughts(), "no plan");
        pair.gauge.think();
    }
    let none = || Failure::new("no press");
    let select = lines.first().cloned().ok_or_else(none)?;
    let turned = lines.last().cloned().ok_or_else(none)?;
    if pair.board.screen()?.expect(&looking).is_err() {
        // What else there is to see must be the plan.
        let mark = pair.board.log.mark();
        pair.compare()?;
        return Ok(Opened {
            select,
            turned,
            looked: None,
            mark,
        });
    }
    let looked = pair
        .board
        .wait_for_line(mark, "the first plan", is_thought)?;
    pair.compare_at(figure(&looked, "shown")?)?;
    let lines = pair.board.log.lines();
    let mark = lines.iter().position(|line| *line == looked);
    Ok(Opened {
        select,
        turned,
        mark: mark.map_or(lines.len(), |place| place + 1),
        looked: Some(looked),
    })
}

/// From the order page, with no more to think about: every page there is, each button on it.
fn walk(pair: &mut Pair) -> Result<(), Failure> {
    for _ in Page::ALL {
        pair.press(Button::Left)?;
    }
    for page in Page::ALL {
        assert_eq!(pair.gauge.screen(), Screen::Page(*page));
        // On the order page never back to the whole, for that would have the planner go on.
        let buttons: &[Button] = match page {
            Page::Order => &[Button::Down, Button::Down, Button::Up],
            _ => &[
                Button::Down,
                Button::Select,
                Button::Down,
                Button::Select,
                Button::Up,
            ],
        };
        for button in buttons {
            pair.press(*button)?;
        }
        pair.press(Button::Right)?;
    }
    pair.back()
}

/// Every page while the planner stands still after its first look, a stitch of the order being shown; and how long
/// that look took.
fn first_plan_and_pages(name: &str) -> Result<(), Failure> {
    let mut pair = Pair::full()?;
    pair.keep(&jobs::example(name).draft)?;
    let opened = open_order(&mut pair)?;
    // A plan that was there before its page is not told in the log: it took no longer than turning to the page.
    let shown = opened.looked.as_ref().unwrap_or(&opened.turned);
    let took = full_instructions(between(&opened.select, shown)?);
    println!(
        "{name}: first plan on the glass {took} instructions after the press that opened the job"
    );
    let longest = match &opened.looked {
        Some(looked) => full_instructions(figure(looked, "longest")?),
        None => 0,
    };
    println!("{name}: longest piece {longest}");
    pair.press(Button::Down)?;
    walk(&mut pair)?;
    assert!(took <= TWO_SECONDS, "{name}: {took} instructions");
    assert!(longest <= HEARD_WITHIN, "{name}: {longest} instructions");
    Ok(())
}

#[test]
fn header_tank_has_a_plan_in_two_seconds_and_every_page_is_the_same() -> Result<(), Failure> {
    first_plan_and_pages("header-tank")
}

#[test]
fn log_splitter_reservoir_has_a_plan_in_two_seconds_and_every_page_is_the_same()
-> Result<(), Failure> {
    first_plan_and_pages("log-splitter-reservoir")
}

#[test]
fn rinse_tank_has_a_plan_in_two_seconds_and_every_page_is_the_same() -> Result<(), Failure> {
    first_plan_and_pages("rinse-tank")
}

/// From the first look to the last word, each picture as the twin has it; then every page.
#[test]
fn an_idle_gauge_refines_its_plan_to_the_last_word() -> Result<(), Failure> {
    let mut pair = Pair::full()?;
    pair.keep(&small())?;
    let mut mark = open_order(&mut pair)?.mark;
    let mut spent = 0;
    for way in 1..=WAYS.len() {
        while !pair.gauge.think() {
            assert!(pair.gauge.has_thoughts(), "no way {way}");
        }
        assert_eq!(Progress::Tried(way as u8), progress(&pair.gauge));
        let what = format!("way {way}");
        let line = pair.board.wait_for_line(mark, &what, is_thought)?;
        pair.compare_at(figure(&line, "shown")?)?;
        spent += full_instructions(figure(&line, "thinking")?);
        let lines = pair.board.log.lines();
        let place = lines.iter().skip(mark).position(|one| *one == line);
        mark += place.unwrap_or_default() + 1;
    }
    assert!(!pair.gauge.has_thoughts());
    println!(
        "all {} ways of a small box: {spent} instructions",
        WAYS.len()
    );
    pair.compare()?;
    pair.press(Button::Down)?;
    walk(&mut pair)?;
    let more = pair
        .board
        .log
        .lines()
        .into_iter()
        .skip(mark)
        .find(is_thought);
    assert_eq!(more, None, "it thought on after the last word");
    Ok(())
}

/// Quick taps all through the first look, the laying out and the first way: each is heard, in turn and soon.
#[test]
fn a_press_while_it_plans_is_heard_and_acted_on() -> Result<(), Failure> {
    const TURNS: usize = 40;
    let mut pair = Pair::full()?;
    pair.keep(&jobs::example("log-splitter-reservoir").draft)?;
    let mut buttons = to_order();
    for _ in 0..TURNS / 2 {
        buttons.extend([Button::Right, Button::Left]);
    }
    let mark = pair.board.log.mark();
    pair.board.thumb(&taps(&buttons))?;
    let lines = pair.board.presses(mark, buttons.len())?;
    let heard: Vec<_> = lines
        .iter()
        .map(|line| line.message.split(':').next())
        .collect();
    let done: Vec<_> = buttons
        .iter()
        .map(|button| format!("Press({button:?})"))
        .collect();
    let done: Vec<_> = done.iter().map(|press| Some(press.as_str())).collect();
    assert_eq!(heard, done);
    let mut latest = 0;
    for line in &lines {
        latest = latest.max(figure(line, "late")? * A_MILLISECOND);
    }
    // All through the look and the laying out, into the first way.
    let [Some(first), Some(last)] = [lines.first(), lines.last()] else {
        return Err(Failure::new("no press"));
    };
    let span = full_instructions(between(first, last)?);
    assert!(span > 2 * TWO_SECONDS, "{span}");
    println!(
        "{} presses in {span} instructions heard, {latest} instructions late at most",
        lines.len()
    );
    assert!(latest <= HEARD_WITHIN, "{latest} instructions late");
    // All were acted on: an even number of turns leads back to the order page.
    for button in buttons {
        pair.gauge.handle(Event::Press(button));
    }
    while progress(&pair.gauge) != Progress::Looked {
        pair.gauge.think();
    }
    pair.compare()
}

/// A stitch of the order on the glass for longer than a way takes: nothing is thought meanwhile, and all after.
#[test]
fn an_order_that_is_being_welded_stays_and_is_refined_afterwards() -> Result<(), Failure> {
    let draft = small();
    let mut undisturbed = Pair::full()?;
    undisturbed.keep(&draft)?;
    let mark = open_order(&mut undisturbed)?.mark;
    let way = undisturbed.board.wait_for_line(mark, "a way", is_thought)?;
    let whole = full_instructions(figure(&way, "thinking")?);
    // Of laying the tank out finely, too.
    let longest = full_instructions(figure(&way, "longest")?);
    assert!(longest <= HEARD_WITHIN, "{longest} instructions");

    let mut pair = Pair::of(leaping()?, Gauge::<Full>::new())?;
    pair.keep(&draft)?;
    let mark = open_order(&mut pair)?.mark;
    let stopped = (2 * whole / A_MILLISECOND) as usize;
    let mut moves = taps(&[Button::Down, Button::Down]);
    moves.extend(rest(stopped));
    moves.extend(taps(&[Button::Down]));
    pair.board.thumb(&moves)?;
    let down = pair.board.presses(mark, 3)?;
    for _ in 0..3 {
        pair.gauge.handle(Event::Press(Button::Down));
    }
    // The twin has not thought, either.
    pair.compare()?;
    let [first, _, last] = down.as_slice() else {
        return Err(Failure::new(format!("not three presses: {down:?}")));
    };
    let meanwhile = full_instructions(between(first, last)?);
    assert!(meanwhile > whole, "{meanwhile} of {whole}");
    let lines = pair.board.log.lines();
    assert_eq!(lines.iter().skip(mark).find(|line| is_thought(line)), None);

    pair.board.thumb(&taps(&[Button::Select]))?;
    pair.gauge.handle(Event::Press(Button::Select));
    while !pair.gauge.think() {}
    let resumed = pair.board.wait_for_line(mark, "a way", is_thought)?;
    pair.compare_at(figure(&resumed, "shown")?)?;
    // In both parts together as much as in one.
    let parts = full_instructions(figure(&resumed, "thinking")?);
    println!(
        "a way of a small box: {whole} instructions, longest piece {longest}; laid aside for {meanwhile} of them: {parts}"
    );
    assert!(parts.abs_diff(whole) < whole / 50, "{parts} of {whole}");
    Ok(())
}

/// With the laptop's order there is nothing to find out; without it there is again.
#[test]
fn an_order_that_was_sent_is_used_as_it_is() -> Result<(), Failure> {
    let draft = small();
    let mut pair = Pair::of(leaping()?, Gauge::<Full>::new())?;
    pair.keep(&draft)?;
    pair.send_order(&draft)?;
    let buttons = to_order();
    let mark = pair.board.log.mark();
    let mut moves = taps(&buttons);
    // Longer than a first look and a way, were they taken: a way of this job is 1.7 thousand million instructions.
    moves.extend(rest((3_000_000_000 / A_MILLISECOND) as usize));
    moves.extend(taps(&[Button::Down, Button::Down]));
    pair.board.thumb(&moves)?;
    pair.board.presses(mark, buttons.len() + 2)?;
    for button in buttons.into_iter().chain([Button::Down, Button::Down]) {
        pair.gauge.handle(Event::Press(button));
    }
    pair.compare()?;
    let lines = pair.board.log.lines();
    assert_eq!(lines.iter().skip(mark).find(|line| is_thought(line)), None);
    assert!(!pair.gauge.has_thoughts());

    // The same job once more brings no order along.
    let reply = pair.board.ask(&Request::Keep(draft))?;
    assert_eq!(reply, Reply::Kept { place: 0 });
    let turns: Vec<_> = to_order().into_iter().skip(1).collect();
    pair.board.thumb(&taps(&turns))?;
    pair.board
        .wait_for_line(mark, "a plan of its own", is_thought)?;
    Ok(())
}
