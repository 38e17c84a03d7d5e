//! What a job says of its process beyond the arc, found once for all that tell of it.

use seamwright_core::advice::Advice;
use seamwright_core::advice::process::{ProcessNotice, ProcessWork};
use seamwright_core::gmaw::WireArc;
use seamwright_core::purge::Purge;
use seamwright_core::supply::KitError;

use super::Asked;

/// The wire's arc and the purge of a job.
pub(crate) struct Processed {
    /// The wire's arc, or why nothing can be told of it; `None` where the process feeds no wire.
    pub(crate) wire: Option<Result<WireArc, KitError>>,
    /// The purge, where the job plans one.
    pub(crate) purge: Option<Purge>,
}

impl Processed {
    pub(crate) fn of(asked: &Asked<'_>) -> Self {
        let (tank, extras) = (asked.tank, asked.extras);
        let purge = extras.purge.and_then(|draft| {
            let reach = Box::new(tank.reach(&extras.plumbing).ok()?);
            let welding = tank.welding_time(asked.welding.as_ref().ok());
            tank.purge(&reach, &draft, welding).ok()
        });
        Self {
            wire: tank.wire_arc(&extras.wire_arc, &extras.supply.kit),
            purge,
        }
    }

    /// What notices are made of.
    pub(crate) fn work(&self, asked: &Asked<'_>) -> ProcessWork<'_> {
        ProcessWork {
            wire: self.wire.as_ref().and_then(|wire| wire.as_ref().ok()),
            coated: asked.extras.coated,
            purge: self.purge.as_ref(),
        }
    }

    /// Why the job must not be welded so, by its process.
    pub(crate) fn against(&self, asked: &Asked<'_>) -> Vec<Advice> {
        let mut all = Vec::new();
        let work = self.work(asked);
        asked.tank.each_process_notice(&work, |notice| {
            if ProcessNotice::forbids(&notice) {
                all.push(Advice::OfProcess(notice));
            }
        });
        all
    }
}
