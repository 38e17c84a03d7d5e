//! What the seams of a tank use up: rod or wire, gas and arc time, by seam and in all.
//!
//! A seam's bead covers its tacks, so their rod is part of the bead's. Their arc time is their length at the
//! speed of the seam, on top of the seam's own; every stitch and every tack is a start of the arc, with its
//! pre- and post-flow.

use super::Bead;
use super::filler::{Rod, RodUse};
use super::gas::{Gas, Shield};
use super::section::{BeadError, BeadForm};
use crate::blank::SheetCorner;
use crate::input::limits::ROD_WASTE;
use crate::input::{Face, Joint};
use crate::seam::Seam;
use crate::tank::Tank;
use crate::units::range::RangeError;
use crate::units::{Figure, Length, Ratio, Speed, Time};

/// Rod that goes to trial pieces and spoilt ends, on top of what the seams take: common practice, no source.
pub const WASTE: Ratio = Ratio::from_share(0.1);

/// What is welded with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kit {
    /// The rod or wire.
    pub rod: Rod,
    /// How fast a wire is fed while the arc burns, whatever the beads want; `None` of a rod, and where it is not known.
    pub feed: Option<Speed>,
    /// Rod on top of what the seams take, as a share of it: 0 to 100 %.
    pub waste: Ratio,
    /// The gas.
    pub shield: Shield,
}

/// The times of one seam's arc.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeamTime {
    /// Along the seam, where it is welded.
    pub arc: Time,
    /// In its tacks.
    pub tacks: Time,
    /// Starts of the arc: stitches and tacks.
    pub starts: u32,
}

impl SeamTime {
    /// Seam and tacks.
    #[must_use]
    pub fn burning(&self) -> Time {
        Time::from_seconds(self.arc.si() + self.tacks.si())
    }
}

/// What one seam uses up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeamUse {
    /// The seam.
    pub seam: Seam,
    /// Its bead, or why its joint has none that can be reckoned.
    pub bead: Result<Bead, BeadError>,
    /// Rod melted for it, none without a bead; wire fed while its arc burns.
    pub melted: Length,
    /// Times of the arc.
    pub time: SeamTime,
    /// Gas.
    pub gas: Gas,
}

/// What all seams use up.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct AllUse {
    /// Rod that the beads take.
    pub melted: Length,
    /// Filler with the waste on top, in rods to have at hand.
    pub filler: RodUse,
    /// Gas.
    pub gas: Gas,
    /// Arc along seams.
    pub arc: Time,
    /// Arc in tacks.
    pub tacks: Time,
    /// Starts of the arc.
    pub starts: u32,
    /// Seams whose bead cannot be reckoned, so that their rod is missing here.
    pub without_bead: u32,
}

impl AllUse {
    /// Seams and tacks.
    #[must_use]
    pub fn burning(&self) -> Time {
        Time::from_seconds(self.arc.si() + self.tacks.si())
    }
}

impl Tank {
    /// The bead that a welded seam wants, filled as is usual: [`BeadForm::usual`]. `None` for a fold.
    #[must_use]
    pub fn bead(&self, seam: &Seam) -> Option<Result<Bead, BeadError>> {
        self.bead_along(seam, self.weld_length(seam))
    }

    /// The same along so much of it.
    pub(crate) fn bead_along(
        &self,
        seam: &Seam,
        length: Length,
    ) -> Option<Result<Bead, BeadError>> {
        // At the free edge of a baffle's flange is a plain fillet, and no groove beside a bend.
        let joint = match (seam.joint?, seam.faces) {
            (Joint::FlangedLap, [_, Face::Baffle(_)]) => Joint::Tee,
            (joint, _) => joint,
        };
        let sheets = self.sheets_at(seam);
        let corner = SheetCorner {
            dihedral: seam.dihedral,
            sheets,
        };
        let allow = self.job.joints.allow();
        Some(Bead::of_joint(
            joint,
            corner,
            allow,
            &BeadForm::usual(sheets),
            length,
        ))
    }

    /// The sheets of a seam: of the panel that runs through first.
    fn sheets_at(&self, seam: &Seam) -> [Length; 2] {
        let [first, _] = seam.faces;
        let through = self.job.thickness_of(first);
        if through == seam.thicker {
            [seam.thicker, seam.thinner]
        } else {
            [seam.thinner, seam.thicker]
        }
    }

    /// Arc times and starts of a seam; `None` for a fold.
    #[must_use]
    pub fn seam_time(&self, seam: &Seam) -> Option<SeamTime> {
        seam.joint?;
        let (count, length) = self.tacks(seam).map_or((0, 0.0), |tacks| {
            (u32::from(tacks.count), tacks.length.si())
        });
        let stitches = self
            .division(seam)
            .map_or(0, |division| u32::from(division.count));
        let tacked = Length::from_metres(f64::from(count) * length);
        Some(SeamTime {
            arc: self.arc().time_along(self.weld_length(seam)),
            tacks: self.arc().time_along(tacked),
            starts: stitches.saturating_add(count),
        })
    }

    /// What each welded seam uses up, in the order of [`Tank::seams`].
    ///
    /// # Errors
    /// Each item may be an error: [`RangeError`] for an arc time past 100 h.
    pub fn supplies(&self, kit: &Kit) -> impl Iterator<Item = Result<SeamUse, RangeError>> {
        let Kit {
            rod, shield, feed, ..
        } = *kit;
        self.seams().filter_map(move |seam| {
            let bead = self.bead(&seam)?;
            let time = self.seam_time(&seam)?;
            let melted = match (feed, &bead) {
                (Some(feed), _) => Length::from_metres(feed.si() * time.burning().si()),
                (None, Ok(bead)) => rod.melted(bead),
                (None, Err(_)) => Length::default(),
            };
            Some(shield.used(time.burning(), time.starts).map(|gas| SeamUse {
                seam,
                bead,
                melted,
                time,
                gas,
            }))
        })
    }

    /// What all seams together use up.
    ///
    /// # Errors
    /// [`RangeError`] for an arc time past 100 h, a waste outside 0 to 100 %, or more than 10 km of rod.
    pub fn supply_in_all(&self, kit: &Kit) -> Result<AllUse, RangeError> {
        let waste = Figure::Waste.within(kit.waste.si(), ROD_WASTE.0.si(), ROD_WASTE.1.si())?;
        let mut all = AllUse::default();
        let (mut melted, mut arc, mut tacks) = (0.0, 0.0, 0.0);
        for one in self.supplies(kit) {
            let one = one?;
            melted += one.melted.si();
            arc += one.time.arc.si();
            tacks += one.time.tacks.si();
            all.starts = all.starts.saturating_add(one.time.starts);
            all.gas = all.gas.and(&one.gas);
            all.without_bead = all
                .without_bead
                .saturating_add(u32::from(one.bead.is_err()));
        }
        all.melted = Length::from_metres(melted);
        all.arc = Time::from_seconds(arc);
        all.tacks = Time::from_seconds(tacks);
        all.filler = kit
            .rod
            .bought(Length::from_metres(melted * (1.0 + waste)))?;
        Ok(all)
    }
}
