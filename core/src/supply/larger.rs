//! How much each seam draws in, and blanks that are cut larger for it.

use heapless::Vec;

use super::shrinkage;
use super::shrinkage::{Estimate, ShrinkingSheet};
use crate::blank::{Allowance, BlankError, CutBlank, Making, Panel, PanelPlan};
use crate::body::MAX_EDGES;
use crate::input::{Face, Joint};
use crate::seam::Seam;
use crate::tank::Tank;
use crate::tank::within::of_walls;
use crate::units::range::RangeError;
use crate::units::{Length, LineEnergy, Mass};

/// Edges that may be cut larger: all of the outside, and the line along which a wrapper is closed.
pub const MAX_LARGER: usize = MAX_EDGES + 1;

/// The estimates of one seam.
#[derive(Clone, Debug, PartialEq)]
pub struct Shrinkage {
    /// Across it, by the rule for its joint; of a corner there is none.
    pub across: Option<Estimate>,
    /// The most across it that any metal can draw in.
    pub most: Option<Estimate>,
    /// Along it.
    pub along: Option<Estimate>,
}

/// By how much a seam is taken to draw in across itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Draw {
    /// The middle of what the rule for its joint gives, but no more than any metal can draw in with this heat
    /// ([`Shrinkage::most`]); nothing where there is no rule.
    ByRule,
    /// This much, whatever the joint: measured on a trial piece.
    By(Length),
}

/// The edges of a tank at which blanks are cut larger.
pub type Larger = Vec<Allowance, MAX_LARGER>;

impl Tank {
    /// How much a seam draws in, as rules of thumb have it: which pulls more, rather than by how much. `None` for a
    /// fold.
    ///
    /// The heat is the share of the arc's energy that the metal takes up.
    #[must_use]
    pub fn shrinkage(&self, seam: &Seam) -> Option<Shrinkage> {
        let joint = seam.joint?;
        let alloy = self.job.alloy();
        let sheet = ShrinkingSheet {
            family: alloy.family(),
            thickness: seam.thinner,
        };
        let section = self.bead(seam)?.ok().map(|bead| bead.section());
        let across: Option<Result<Estimate, RangeError>> = match joint {
            Joint::Butt => {
                section.map(|area| shrinkage::butt(sheet, area, self.job.joints.allow().gap))
            }
            Joint::Tee => Some(shrinkage::tee(sheet, seam.thinner)),
            Joint::JoggleLap | Joint::FlangedLap => Some(shrinkage::lap(sheet, seam.thinner)),
            Joint::OpenCorner | Joint::HalfOpenCorner | Joint::ClosedCorner => None,
        };
        let metal = alloy.metal();
        let capacity = metal.heat_capacity().value * alloy.density().si();
        let arc = self.arc();
        let heat = arc.arc_energy().si() * self.job.welding.uptake.si();
        let heat = LineEnergy::from_joules_per_metre(heat);
        Some(Shrinkage {
            across: across.and_then(Result::ok),
            most: shrinkage::free(heat, metal.expansion().value, capacity, seam.thinner).ok(),
            along: shrinkage::along(sheet, arc.current, seam.length).ok(),
        })
    }

    /// By how much each side of a seam's edge is cut larger, so that what the seam draws in is there: half of that.
    /// `None` for a fold, where there is no rule, and for seams of baffles and fittings, which lie within a wall and
    /// at no edge of it.
    #[must_use]
    pub fn allowance(&self, seam: &Seam, draw: Draw) -> Option<Allowance> {
        if !seam.welded || !of_walls(seam) {
            return None;
        }
        let whole = match draw {
            Draw::By(length) => length.si(),
            Draw::ByRule => {
                let Shrinkage { across, most, .. } = self.shrinkage(seam)?;
                let middle = |of: Estimate| 0.5 * of.range.iter().map(|end| end.si()).sum::<f64>();
                let free = most.map_or(f64::INFINITY, middle);
                libm::fmin(middle(across?), free)
            }
        };
        Some(Allowance {
            faces: seam.faces,
            each: Length::from_metres(0.5 * whole),
        })
    }

    /// The welded seams at which nothing is added: corners without a rule, and seams of baffles and fittings.
    pub fn seams_without_allowance(&self, draw: Draw) -> impl Iterator<Item = Seam> {
        let welded = self.seams().filter(|seam| seam.welded);
        welded.filter(move |seam| self.allowance(seam, draw).is_none())
    }

    /// By how much blanks are cut larger at all seams.
    #[must_use]
    pub fn larger(&self, draw: Draw) -> Larger {
        // As many as the body may have seams.
        self.seams()
            .filter_map(|seam| self.allowance(&seam, draw))
            .take(MAX_LARGER)
            .collect()
    }

    /// What the panels follow from when some edges are cut larger.
    #[must_use]
    pub const fn plan_larger<'a>(&'a self, larger: &'a [Allowance]) -> PanelPlan<'a> {
        PanelPlan {
            allowances: larger,
            ..self.plan()
        }
    }

    /// [`Tank::panels`] as they are cut, with some edges larger: their areas and masses are those of blanks with
    /// notched flanges. Baffles stay as they are; they have their flanges either way.
    pub fn panels_larger<'a>(
        &'a self,
        larger: &'a [Allowance],
    ) -> impl Iterator<Item = Panel> + 'a {
        let walls = usize::from(self.plan().groups().count());
        let density = self.job.alloy().density();
        let plan = self.plan_larger(larger);
        let notched = move |mut panel: Panel| {
            // A wall cut plainly has the area that it has to its last bit.
            const PLAIN: f64 = 1e-12;
            let mut blank = CutBlank::new();
            let flat = matches!(panel.making, Making::Flat | Making::Bent);
            let laid = flat && plan.cut_blank(&panel, &mut blank).is_ok() && !blank.is_empty();
            let area = blank.area();
            if laid && libm::fabs(area.si() - panel.blank_area.si()) > PLAIN {
                panel.blank_area = area;
                panel.mass = Mass::from_kilograms(area.si() * panel.thickness.si() * density.si());
            }
            panel
        };
        plan.panels(density)
            .map(notched)
            .chain(self.panels().skip(walls))
    }

    /// [`Tank::blank`] as it is cut, its flanges notched and some edges larger.
    ///
    /// # Errors
    /// [`BlankError`] where a blank runs into itself that does not without, or a flange finds no room
    /// ([`Tank::check_flanges`] says which, and how long it may be).
    pub fn cut_blank(
        &self,
        larger: &[Allowance],
        panel: &Panel,
        blank: &mut CutBlank,
    ) -> Result<(), BlankError> {
        match panel.face() {
            Face::Baffle(number) => {
                let place = usize::from(number.saturating_sub(1));
                match self.inner().baffles().get(place) {
                    Some(baffle) if baffle.is_flanged() => self.flanged_blank(number, blank),
                    Some(baffle) => blank.lay_plate(number, baffle.plate()),
                    None => Ok(()),
                }
            }
            _ => self.plan_larger(larger).cut_blank(panel, blank),
        }
    }

    /// All blanks together, some edges cut larger.
    #[must_use]
    pub fn mass_larger(&self, larger: &[Allowance]) -> Mass {
        let masses = self.panels_larger(larger).map(|panel| panel.mass.si());
        Mass::from_kilograms(masses.sum())
    }
}
