//! The job's time and what it costs.

use seamwright_core::supply::AllUse;
use seamwright_core::supply::cost::{Amounts, Costs, ITEMS};
use seamwright_core::supply::time::{JobTime, Parts};
use seamwright_core::tank::Tank;
use seamwright_core::units::refuse::Refused;
use seamwright_core::units::{Energy, Time, TimeUnit};

use super::duty;
use super::kit::{Missing, chosen, uses};
use super::plan::facts;
use super::table::wrapped;
use crate::cut::Cut;
use crate::diagnostics::clean;
use crate::job_file::Extras;
use crate::welding;

/// Signs in a line.
const WIDE: usize = 100;
/// Of the mains' energy in the arc: common practice for an inverter, no source.
const MAINS: f64 = 0.8;

/// What the welder waits by the weld plan, for the metal to cool and for power source and torch; `None` where there is no plan.
fn waits(tank: &Tank, extras: &Extras) -> Option<Time> {
    let plan = welding::plan(tank, extras).ok()?;
    Some(Time::from_seconds(plan.sum.waits))
}

/// The job's time: the arc along seams and in tacks, a move to each start of it, the waits of the weld plan or the
/// rests of the duty cycle, and what the job says beside.
pub(super) fn time(tank: &Tank, extras: &Extras, all: &AllUse) -> Result<JobTime, Refused> {
    let moves = tank.job().welding().moving.si() * f64::from(all.starts);
    let rest = duty::run(tank, extras).map_or(0.0, |run| run.rest.si());
    Parts {
        arc: all.burning(),
        wait: waits(tank, extras).unwrap_or_default(),
        moves: Time::from_seconds(moves),
        rest: Time::from_seconds(rest),
        other: extras.supply.other_time.unwrap_or_default(),
    }
    .job()
}

pub(super) fn amounts(tank: &Tank, extras: &Extras, all: &AllUse, time: &JobTime) -> Amounts {
    let arc = tank.arc().power() * all.burning().si();
    Amounts {
        sheet: Cut::of(tank, extras).mass(),
        filler: all.filler.bought_mass,
        gas: all.gas.total(),
        labour: time.total,
        electricity: Energy::from_joules(arc / MAINS),
    }
}

/// Costs, the job's time and the currency; `None` without prices.
pub(super) fn costs(
    tank: &Tank,
    extras: &Extras,
) -> Result<Option<(Costs, JobTime, String)>, Missing> {
    let Some((currency, prices)) = &extras.supply.prices else {
        return Ok(None);
    };
    let chosen = chosen(tank, extras)?;
    let (_, all) = uses(tank, &chosen.kit)?;
    let time = time(tank, extras, &all)?;
    let costs = Costs::of(&amounts(tank, extras, &all, &time), prices)?;
    Ok(Some((costs, time, clean(currency).into_owned())))
}

pub(super) fn text(tank: &Tank, extras: &Extras) -> String {
    let (costs, time, currency) = match costs(tank, extras) {
        Ok(Some(known)) => known,
        Ok(None) => return String::new(),
        Err(missing) => return format!("  {}\n", wrapped(&missing.text(), WIDE, 4)),
    };
    let money = |value: f64| format!("{value:.2} {currency}");
    let mut rows: Vec<(&str, String)> = ITEMS
        .into_iter()
        .zip(costs.items)
        .map(|(name, item)| {
            (
                name,
                item.map_or_else(|| "no price given".to_owned(), money),
            )
        })
        .collect();
    let whole = if costs.is_whole() {
        ""
    } else {
        ", of what has a price"
    };
    rows.push(("in all", format!("{}{whole}", money(costs.total()))));
    let hours = |time: Time| time.display(TimeUnit::Hour, 2).to_string();
    let cooling = match waits(tank, extras) {
        Some(waits) => format!(
            "{} between arcs, of which the weld plan waits {} for the metal to cool or the duty cycle and the rest is moves to each start, or rests of the duty cycle where these are longer",
            hours(time.between),
            hours(waits)
        ),
        None => format!(
            "{} of moves or rests between arcs; waits for the metal to cool are not known and not counted",
            hours(time.between)
        ),
    };
    let line = format!(
        "Sheet is that of the blanks, offcuts not counted. Labour is {}: {} of arc, tacks with it; {cooling}; and {} of other_time. Of the mains' energy {:.0} % is taken to reach the arc (common practice, no source).",
        hours(time.total),
        hours(time.arc),
        hours(extras.supply.other_time.unwrap_or_default()),
        100.0 * MAINS
    );
    format!("{}  {}\n", facts(&rows), wrapped(&line, WIDE, 4))
}
