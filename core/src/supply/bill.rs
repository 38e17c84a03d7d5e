//! The whole job's time, what it takes, and what that costs where prices are known.

use super::cost::{Amounts, Costs, Prices};
use super::kit::AllUse;
use super::time::{JobTime, Parts};
use crate::arc::Equipment;
use crate::arc::duty::ArcAndRest;
use crate::blank::Allowance;
use crate::tank::Tank;
use crate::units::range::RangeError;
use crate::units::{Energy, Ratio, Time, Volume};
use crate::weld::WeldPlan;

/// Of the mains' energy in the arc: common practice for an inverter, no source.
pub const MAINS_IN_ARC: Ratio = Ratio::from_share(0.8);

/// What a bill is made out from, beside the tank.
#[derive(Clone, Copy, Debug)]
pub struct BillDraft<'a> {
    /// What all seams use up.
    pub used: &'a AllUse,
    /// Ratings of power source and torch.
    pub equipment: &'a Equipment,
    /// The weld plan, whose waits count; without one only rests do.
    pub plan: Option<&'a WeldPlan>,
    /// Edges at which blanks are cut larger.
    pub larger: &'a [Allowance],
    /// Setting up, cleaning, fitting.
    pub other: Time,
    /// Gas that purges the tank.
    pub purge: Volume,
    /// How long that takes before the first arc.
    pub purging: Time,
    /// Prices; nothing is priced without.
    pub prices: Option<Prices>,
}

/// What a job takes, and what that costs where prices are known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bill {
    /// Its time: the arc along seams and in tacks, a move to each start of it, the waits of the weld plan or the rests
    /// of the duty cycle, and what is said beside.
    pub time: JobTime,
    /// What it takes. The sheet is that of the blanks, offcuts not counted.
    pub amounts: Amounts,
    /// What that costs.
    pub costs: Option<Costs>,
}

impl Tank {
    /// How long the arc burns in the whole job, tacks with it.
    #[must_use]
    pub fn arc_time(&self) -> Time {
        let times = self.seams().filter_map(|seam| self.seam_time(&seam));
        Time::from_seconds(times.map(|time| time.burning().si()).sum())
    }

    /// From the first arc to the end of the last: of a weld plan, with its moves and waits; without one, the arc alone.
    #[must_use]
    pub fn welding_time(&self, plan: Option<&WeldPlan>) -> Time {
        plan.map_or_else(|| self.arc_time(), |plan| plan.totals().job())
    }

    /// Arc and rest of the whole job with power source and torch; `None` where nothing of them has a rating, or the
    /// arc's current is past one.
    #[must_use]
    pub fn arc_and_rest(&self, equipment: &Equipment) -> Option<ArcAndRest> {
        let arc = self.arc();
        let allowed = equipment.allowed(arc.process, arc.current).ok()??;
        ArcAndRest::of(allowed, self.arc_time()).ok()
    }

    /// What the whole job takes and costs.
    ///
    /// # Errors
    /// [`RangeError`] for a part of the time outside 0 to 1000 h, or an amount or a price past its limits: see
    /// [`Costs::of`].
    pub fn bill(&self, draft: &BillDraft<'_>) -> Result<Bill, RangeError> {
        let used = draft.used;
        let moves = self.job.welding.moving.si() * f64::from(used.starts);
        let time = Parts {
            arc: used.burning(),
            wait: draft
                .plan
                .map(|plan| plan.totals().waits())
                .unwrap_or_default(),
            moves: Time::from_seconds(moves),
            rest: self
                .arc_and_rest(draft.equipment)
                .map(|run| run.rest)
                .unwrap_or_default(),
            other: Time::from_seconds(draft.other.si() + draft.purging.si()),
        }
        .job()?;
        let in_arc = self.arc().power().si() * used.burning().si();
        let amounts = Amounts {
            sheet: self.mass_larger(draft.larger),
            filler: used.filler.bought_mass,
            gas: Volume::from_cubic_metres(used.gas.total().si() + draft.purge.si()),
            labour: time.total,
            electricity: Energy::from_joules(in_arc / MAINS_IN_ARC.si()),
        };
        let costs = draft.prices.map(|prices| Costs::of(&amounts, &prices));
        Ok(Bill {
            time,
            amounts,
            costs: costs.transpose()?,
        })
    }
}

#[cfg(test)]
mod tests {
    extern crate std;

    use super::*;
    use crate::input::{Block, Draft, StockDraft};
    use crate::supply::KitDraft;
    use crate::tables::Alloy;
    use crate::units::{Length, LengthUnit};

    /// By hand, without a plan and without ratings: labour is the arc, a move to each start of it, what is said beside
    /// and ten minutes of purging; the mains give a quarter more than the arc takes.
    #[test]
    fn a_bill_by_hand() {
        let mm = |value| Length::new(value, LengthUnit::Millimetre);
        let outside = Block::new(mm(320.0), mm(180.0), mm(160.0));
        let stock = StockDraft::of(Alloy::A5754, mm(2.0));
        let tank = Tank::build(&Draft::new("Header tank", outside, stock).unwrap()).unwrap();
        let chosen = tank.kit(&KitDraft::default()).unwrap();
        let used = tank.supply_in_all(&chosen.kit).unwrap();
        assert_eq!(tank.arc_time(), used.burning());
        let equipment = Equipment::default();
        assert_eq!(tank.arc_and_rest(&equipment), None);
        let prices = Prices {
            labour: Some(36.0),
            ..Prices::default()
        };
        let bill = tank.bill(&BillDraft {
            used: &used,
            equipment: &equipment,
            plan: None,
            larger: &[],
            other: Time::from_seconds(3_600.0),
            purge: Volume::from_cubic_metres(0.25),
            purging: Time::from_seconds(600.0),
            prices: Some(prices),
        });
        let bill = bill.unwrap();
        let gas = used.gas.total().si() + 0.25;
        assert!((bill.amounts.gas.si() / gas - 1.0).abs() < 1e-12);
        let (arc, moving) = (used.burning().si(), tank.job().welding().moving.si());
        let labour = arc + moving * f64::from(used.starts) + 3_600.0 + 600.0;
        assert!((bill.time.total.si() - labour).abs() < 1e-6);
        let mains = 1.25 * tank.arc().power().si() * arc;
        assert!((bill.amounts.electricity.si() / mains - 1.0).abs() < 1e-12);
        assert_eq!(bill.amounts.sheet, tank.totals().mass);
        // 36 an hour are one in 100 s.
        let costs = bill.costs.unwrap();
        assert!((costs.total() - labour / 100.0).abs() < 1e-9 && !costs.is_whole());
    }
}
