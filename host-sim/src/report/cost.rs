//! The job's time and what it costs.

use seamwright_core::purge::Purge;
use seamwright_core::supply::cost::{Costs, ITEMS};
use seamwright_core::supply::time::JobTime;
use seamwright_core::supply::{Bill, BillDraft, MAINS_IN_ARC};
use seamwright_core::units::{Time, TimeUnit};
use serde_json::json;

use super::Asked;
use super::kit::{Missing, Taken};
use super::model::{Data, Section, said};
use super::processed::Processed;
use crate::cut::Cut;
use crate::diagnostics::clean;

/// The bill of a job; its prices count where there are any.
pub(super) fn bill(
    asked: &Asked<'_>,
    processed: &Processed,
    taken: &Taken,
) -> Result<Bill, Missing> {
    let purge = processed.purge.as_ref();
    let supply = &asked.extras.supply;
    let cut = Cut::of(asked.tank, asked.extras);
    let bill = asked.tank.bill(&BillDraft {
        used: &taken.all,
        equipment: &asked.extras.equipment,
        plan: asked.welding.as_ref().ok(),
        larger: cut.larger(),
        other: supply.other_time.unwrap_or_default(),
        purge: purge.map(Purge::gas).unwrap_or_default(),
        purging: purge.map(|purge| purge.time).unwrap_or_default(),
        prices: supply.prices.as_ref().map(|(_, prices)| *prices),
    })?;
    Ok(bill)
}

pub(super) fn section(asked: &Asked<'_>, bill: Result<Bill, Missing>) -> Section {
    let mut section = Section::new("Cost");
    match bill {
        Ok(bill) => {
            amounts(&mut section, asked, &bill);
            let prices = asked.extras.supply.prices.as_ref();
            if let (Some(costs), Some((currency, _))) = (&bill.costs, prices) {
                items(&mut section, costs, &clean(currency));
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
    let plan = asked.welding.as_ref().ok();
    let cooling = match plan.map(|plan| plan.totals().waits()) {
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
        100.0 * MAINS_IN_ARC.si()
    )
}
