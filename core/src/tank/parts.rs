//! What a tank consists of: its spaces, panels, blanks, seams, tacks and stitches, each computed when it is
//! asked for.

use super::welding::bright;
use super::{Job, Tank};
use crate::arc::Arc;
use crate::blank::{Blank, BlankError, Groups, Panel, PanelPlan};
use crate::body::{Body, Edge, Solid};
use crate::capacity::{Capacity, Lean, Pool, Space};
use crate::fitting::{Fitting, Inner};
use crate::input::Face;
use crate::input::limits::STITCH_MAX;
use crate::seam::{self, Division, Seam, Tacks};
use crate::tables::preheat::interpass_limit;
use crate::units::{Length, LengthUnit, Ratio, Temperature};

impl Tank {
    /// The fittings, in the order of the job.
    pub fn fittings(&self) -> impl Iterator<Item = Fitting<'_>> {
        let plan = self.plan();
        self.job
            .fittings
            .iter()
            .filter_map(move |draft| Fitting::place(&plan, draft).ok())
    }

    /// What stands within: baffles, and parts of fittings.
    #[must_use]
    pub const fn inner(&self) -> &Inner {
        &self.inner
    }

    /// The space that holds liquid: the inside less what stands in it.
    #[must_use]
    pub const fn space(&self) -> Space<'_> {
        Space::new(&self.body.inside, &self.inner)
    }

    /// The checked inputs.
    #[must_use]
    pub const fn job(&self) -> &Job {
        &self.job
    }

    /// Outside and inside of the sheet.
    #[must_use]
    pub const fn body(&self) -> &Body {
        &self.body
    }

    /// What the sheet encloses.
    #[must_use]
    pub const fn inside(&self) -> &Solid {
        &self.body.inside
    }

    /// What it holds when it stands level.
    ///
    /// ```
    /// # use seamwright_core::prelude::*;
    /// # let mm = |value| Length::new(value, LengthUnit::Millimetre);
    /// # let outside = Block::new(mm(320.0), mm(180.0), mm(160.0));
    /// # let draft = Draft::new("Header tank", outside, StockDraft::of(Alloy::A5754, mm(2.0)))?;
    /// # let tank = Tank::build(&draft)?;
    /// // 316 x 176 x 156 mm within.
    /// assert_eq!(tank.capacity().brim.display(VolumeUnit::Litre, 3).to_string(), "8.676 L");
    /// # Ok::<(), Box<dyn core::error::Error>>(())
    /// ```
    #[must_use]
    pub const fn capacity(&self) -> &Capacity {
        &self.capacity
    }

    /// The liquid in it, at a lean.
    ///
    /// ```
    /// # use seamwright_core::prelude::*;
    /// # let mm = |value| Length::new(value, LengthUnit::Millimetre);
    /// # let outside = Block::new(mm(320.0), mm(180.0), mm(160.0));
    /// # let draft = Draft::new("Header tank", outside, StockDraft::of(Alloy::A5754, mm(2.0)))?;
    /// # let tank = Tank::build(&draft)?;
    /// let level = tank.pool(Lean::LEVEL);
    /// // Half its depth of 156 mm is half of its 8.676 L.
    /// let half = level.at(mm(78.0))?;
    /// assert_eq!(half.volume.display(VolumeUnit::Litre, 3).to_string(), "4.338 L");
    /// assert!(level.at(mm(157.0)).is_err());
    /// # Ok::<(), Box<dyn core::error::Error>>(())
    /// ```
    #[must_use]
    pub fn pool(&self, lean: Lean) -> Pool<'_> {
        Pool::new(self.space(), lean)
    }

    /// What the panels and seams follow from.
    #[must_use]
    pub const fn plan(&self) -> PanelPlan<'_> {
        PanelPlan {
            body: &self.body,
            sheet: &self.job.sheet,
            joints: &self.job.joints,
            allowances: &[],
        }
    }

    /// The panels, in the order of their first faces, and the baffles after them.
    ///
    /// ```
    /// # use seamwright_core::prelude::*;
    /// # let mm = |value| Length::new(value, LengthUnit::Millimetre);
    /// # let outside = Block::new(mm(320.0), mm(180.0), mm(160.0));
    /// # let draft = Draft::new("Header tank", outside, StockDraft::of(Alloy::A5754, mm(2.0)))?;
    /// # let tank = Tank::build(&draft)?;
    /// // With open corners the inside face is the blank: 316 x 156 mm in front.
    /// let front = tank.panels().next().ok_or("no panel")?;
    /// assert_eq!(front.face(), Face::Front);
    /// assert!((front.blank_area.si() - 0.316 * 0.156).abs() < 1e-9);
    /// # Ok::<(), Box<dyn core::error::Error>>(())
    /// ```
    pub fn panels(&self) -> impl Iterator<Item = Panel> {
        let baffles = u8::try_from(self.inner.baffles().len()).unwrap_or(0);
        self.plan()
            .panels(self.job.alloy.density())
            .chain((0..baffles).filter_map(|place| self.baffle_panel(place)))
    }

    /// The blank of a panel, laid flat, written to `blank`; of a baffle with flanges the plate without them, which
    /// [`Tank::cut_blank`] has.
    ///
    /// ```
    /// # use seamwright_core::prelude::*;
    /// # let mm = |value| Length::new(value, LengthUnit::Millimetre);
    /// # let outside = Block::new(mm(320.0), mm(180.0), mm(160.0));
    /// # let draft = Draft::new("Header tank", outside, StockDraft::of(Alloy::A5754, mm(2.0)))?;
    /// # let tank = Tank::build(&draft)?;
    /// let front = tank.panels().next().ok_or("no panel")?;
    /// let mut blank = Blank::new();
    /// tank.blank(&front, &mut blank)?;
    /// let [wide, high] = blank.size();
    /// assert!((wide - 0.316).abs() < 1e-9 && (high - 0.156).abs() < 1e-9);
    /// # Ok::<(), Box<dyn core::error::Error>>(())
    /// ```
    ///
    /// # Errors
    /// None for a panel of this tank: [`Tank::build`] has looked at every one.
    pub fn blank(&self, panel: &Panel, blank: &mut Blank) -> Result<(), BlankError> {
        match panel.face() {
            Face::Baffle(number) => {
                let place = usize::from(number.saturating_sub(1));
                match self.inner.baffles().get(place) {
                    Some(baffle) => blank.lay_plate(number, baffle.plate()),
                    None => Ok(()),
                }
            }
            _ => self.plan().blank(panel, blank),
        }
    }

    /// The seams and folds: of the body, in the order of the edges of its outside, the line along which
    /// a wrapper is closed after them; then those of baffles and of fittings.
    pub fn seams(&self) -> impl Iterator<Item = Seam> {
        let groups = self.plan().groups();
        let within =
            (0..self.seams_within()).filter_map(move |place| self.seam_within(&groups, place));
        self.plan().seams().chain(within)
    }

    /// The seam at a place of the list and the way that it runs, for whoever goes through them one at a time and
    /// keeps the groups of this tank's panels.
    pub(crate) fn seam_at(&self, groups: &Groups, place: usize) -> Option<(Seam, Edge)> {
        let plan = self.plan();
        let own = seam::count(&plan, groups);
        if place < own {
            let edge = seam::edge_of(&plan, groups, place)?;
            return Some((plan.seam(groups, place, &edge), edge));
        }
        let (edge, _) = self.edge_within(place - own)?;
        Some((self.seam_within(groups, place - own)?, edge))
    }

    /// How many panels there are.
    #[must_use]
    pub fn panel_count(&self) -> usize {
        usize::from(self.plan().groups().count()) + self.inner.baffles().len()
    }

    /// How many seams and folds there are.
    #[must_use]
    pub fn seam_count(&self) -> usize {
        let plan = self.plan();
        seam::count(&plan, &plan.groups()) + self.seams_within()
    }

    /// The way that the seam at a place of the list runs.
    #[must_use]
    pub fn edge_of_seam(&self, place: usize) -> Option<Edge> {
        let plan = self.plan();
        let groups = plan.groups();
        let own = seam::count(&plan, &groups);
        if place < own {
            return seam::edge_of(&plan, &groups, place);
        }
        self.edge_within(place - own).map(|(edge, _)| edge)
    }

    /// The tacks of a seam; a fold has none.
    #[must_use]
    pub fn tacks(&self, seam: &Seam) -> Option<Tacks> {
        seam.joint?;
        // An edge that is held from outside is not tacked from inside.
        if self.plug_welds(seam).is_some() {
            return None;
        }
        Tacks::spaced(
            seam.length,
            self.job.tack_length(seam.thicker),
            self.job.tack_pitch(seam.thinner),
        )
    }

    /// The stitches of a seam; a fold has none.
    ///
    /// ```
    /// # use seamwright_core::prelude::*;
    /// # let mm = |value| Length::new(value, LengthUnit::Millimetre);
    /// # let outside = Block::new(mm(320.0), mm(180.0), mm(160.0));
    /// # let draft = Draft::new("Header tank", outside, StockDraft::of(Alloy::A5754, mm(2.0)))?;
    /// # let tank = Tank::build(&draft)?;
    /// let first = tank.seams().next().ok_or("no seam")?;
    /// let stitches = tank.division(&first).ok_or("a fold has none")?;
    /// // 160 mm of seam in stitches of at most 80 mm.
    /// assert_eq!((first.length, stitches.count), (mm(160.0), 2));
    /// # Ok::<(), Box<dyn core::error::Error>>(())
    /// ```
    #[must_use]
    pub fn division(&self, seam: &Seam) -> Option<Division> {
        self.divided(seam, self.job.stitch_max)
    }

    /// The stitches that a seam would have were `most` the longest, spaced ones apart; a fold has none.
    fn divided(&self, seam: &Seam, most: Length) -> Option<Division> {
        seam.joint?;
        let plugs = self.plugs_divided(seam);
        if plugs.is_some() {
            return plugs;
        }
        match seam.faces {
            [_, Face::Baffle(number)] => {
                let place = usize::from(number).checked_sub(1)?;
                match self.job.baffles().get(place)?.spaced {
                    Some([length, gap]) => Division::spaced(seam.length, length, gap, most),
                    None => Division::of(seam.length, most),
                }
            }
            _ => Division::of(seam.length, most),
        }
    }

    /// The least `stitch_max`, in whole millimetres, with which this tank would have at most so many stitches; `None` where
    /// no stitch may be as long.
    #[must_use]
    pub fn stitch_max_for(&self, most: u32) -> Option<Length> {
        let length = |mm: u32| Length::new(f64::from(mm), LengthUnit::Millimetre);
        let fits = |mm: u32| {
            let mut count = 0_u32;
            for seam in self.seams().filter(|seam| seam.welded) {
                match self.divided(&seam, length(mm)) {
                    Some(division) => count = count.saturating_add(division.count.into()),
                    None => return false,
                }
            }
            count <= most
        };
        // The longer the stitch may be, the fewer there are. Whole and some thousands, so the conversion is exact.
        let mut enough = STITCH_MAX.1.in_unit(LengthUnit::Millimetre) as u32;
        if !fits(enough) {
            return None;
        }
        let mut short = 0;
        while enough - short > 1 {
            let middle = u32::midpoint(short, enough);
            if fits(middle) {
                enough = middle;
            } else {
                short = middle;
            }
        }
        Some(length(enough))
    }

    /// How much of a seam is welded: all of it, or its stitches where they stand apart; of plug welds the length of a fillet with as much metal.
    /// Zero for a fold.
    #[must_use]
    pub fn weld_length(&self, seam: &Seam) -> Length {
        self.length_welded(seam, self.division(seam))
    }

    /// The same, with its stitches at hand.
    pub(crate) fn length_welded(&self, seam: &Seam, stitches: Option<Division>) -> Length {
        if let Some(filled) = self.plugs_filled(seam) {
            return filled;
        }
        match stitches {
            Some(stitches) if stitches.pitch > stitches.length => stitches.welded(),
            _ if seam.joint.is_none() => Length::default(),
            _ => seam.length,
        }
    }

    /// Settings of the arc.
    #[must_use]
    pub const fn arc(&self) -> &Arc {
        &self.job.arc
    }

    /// The warmest that the metal may be where a stitch starts: as the job says, or the limit of its alloy.
    #[must_use]
    pub fn interpass_max(&self) -> Temperature {
        let own = self.job.welding.interpass_max;
        own.unwrap_or_else(|| interpass_limit(self.job.alloy).value)
    }

    /// Emissivity of its outside: as the job says, or that of bright sheet.
    #[must_use]
    pub fn emissivity(&self) -> Ratio {
        let own = self.job.welding.emissivity;
        own.unwrap_or_else(|| bright(self.job.alloy).value)
    }
}
