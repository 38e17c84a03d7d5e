//! The job's time and what it costs.

use seamwright_core::supply::AllUse;
use seamwright_core::supply::cost::{Amounts, Costs, ITEMS};
use seamwright_core::supply::time::{JobTime, Parts};
use seamwright_core::units::refuse::Refused;
use seamwright_core::units::{Energy, Time, TimeUnit};
use serde_json::json;

use super::Asked;
use super::duty;
use super::kit::{Missing, Taken};
use super::model::{Data, Section, said};
use crate::cut::Cut;
use crate::diagnostics::clean;

/// Of the mains' energy in the arc: common practice for an inverter, no source.
const MAINS: f64 = 0.8;

/// What a job takes, and what that costs where prices are known.
pub(super) struct Bill {
    time: JobTime,
    amounts: Amounts,
    costs: Option<(Costs, String)>,
}

/// What the welder waits by the weld plan, for the metal to cool and for power source and torch; `None` where there is no plan.
fn waits(asked: &Asked<'_>) -> Option<Time> {
    let plan = asked.welding.as_ref().ok()?;
    Some(plan.totals().waits())
}

/// The job's time: the arc along seams and in tacks, a move to each start of it, the waits of the weld plan or the
/// rests of the duty cycle, and what the job says beside.
fn time(asked: &Asked<'_>, all: &AllUse) -> Result<JobTime, Refused> {
    let (tank, extras) = (asked.tank, asked.extras);
    let moves = tank.job().welding().moving.si() * f64::from(all.starts);
    let rest = duty::run(tank, extras).map_or(0.0, |run| run.rest.si());
    Parts {
        arc: all.burning(),
        wait: waits(asked).unwrap_or_default(),
        moves: Time::from_seconds(moves),
        rest: Time::from_seconds(rest),
        other: extras.supply.other_time.unwrap_or_default(),
    }
    .job()
}

pub(super) fn bill(asked: &Asked<'_>, taken: &Taken) -> Result<Bill, Missing> {
    let (tank, extras, all) = (asked.tank, asked.extras, &taken.all);
    let time = time(asked, all)?;
    let arc = tank.arc().power() * all.burning().si();
    let amounts = Amounts {
        sheet: Cut::of(tank, extras).mass(),
        filler: all.filler.bought_mass,
        gas: all.gas.total(),
        labour: time.total,
        electricity: Energy::from_joules(arc / MAINS),
    };
    let costs = match &extras.supply.prices {
        Some((currency, prices)) => {
            let costs = Costs::of(&amounts, prices)?;
            Some((costs, clean(currency).into_owned()))
        }
        None => None,
    };
    Ok(Bill {
        time,
        amounts,
        costs,
    })
}

pub(super) fn section(asked: &Asked<'_>, bill: Result<Bill, Missing>) -> Section {
    let mut section = Section::new("Cost");
    match bill {
        Ok(bill) => {
            amounts(&mut section, asked, &bill);
            if let Some((costs, currency)) = &bill.costs {
                items(&mut section, costs, currency);
                section.line(explained(asked, &bill.time));
            }
        }
        Err(missing) if asked.extras.supply.prices.is_some() => section.line(missing.text()),
        Err(_) => {}
    }
    section
}

fn amounts(section: &mut Section, asked: &Asked<'_>, Bill { time, amounts, .. }: &Bill) {
    let other = asked.extras.supply.other_time.unwrap_or_default();
    section.put(
        "amounts",
        json!({
            "sheet_kg": amounts.sheet.si(),
            "filler_kg": amounts.filler.si(),
            "gas_m3": amounts.gas.si(),
            "labour_s": amounts.labour.si(),
            "labour_arc_s": time.arc.si(),
            "labour_between_arcs_s": time.between.si(),
            "labour_other_s": other.si(),
            "electricity_j": amounts.electricity.si(),
        }),
    );
}

fn items(section: &mut Section, costs: &Costs, currency: &str) {
    let money = |value: f64| format!("{value:.2} {currency}");
    let mut known = Data::new();
    for (name, item) in ITEMS.into_iter().zip(costs.items) {
        if let Some(item) = item {
            known.insert(name.to_owned(), json!(item));
        }
        let told = item.map_or_else(|| "no price given".to_owned(), money);
        section.fact(name, told);
    }
    let whole = if costs.is_whole() {
        ""
    } else {
        ", of what has a price"
    };
    let total = said(format!("{}{whole}", money(costs.total())))
        .data("currency", currency)
        .data("items", known)
        .data("total", costs.total())
        .data("whole", costs.is_whole());
    section.fact("in all", total.under("cost"));
}

/// What is counted in the sums and what is not.
fn explained(asked: &Asked<'_>, time: &JobTime) -> String {
    let hours = |time: Time| time.display(TimeUnit::Hour, 2).to_string();
    let cooling = match waits(asked) {
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
    format!(
        "Sheet is that of the blanks, offcuts not counted. Labour is {}: {} of arc, tacks with it; {cooling}; and {} of other_time. Of the mains' energy {:.0} % is taken to reach the arc (common practice, no source).",
        hours(time.total),
        hours(time.arc),
        hours(asked.extras.supply.other_time.unwrap_or_default()),
        100.0 * MAINS
    )
}
