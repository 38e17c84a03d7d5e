//! Sums over a whole tank.

use super::Tank;
use crate::geom::Vector;
use crate::units::{Area, Energy, Length, Mass, Time};

/// Sums over the whole job.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Totals {
    /// Welded seams together.
    pub seam: Length,
    /// Tacks.
    pub tacks: u32,
    /// Stitches.
    pub stitches: u32,
    /// Time with the arc burning along seams, gaps and tacks not counted.
    pub arc: Time,
    /// Heat input along all seams, gaps not counted.
    pub heat: Energy,
    /// All blanks together.
    pub mass: Mass,
}

impl Tank {
    /// All of its sheet on the outside, in one.
    ///
    /// ```
    /// use seamwright_core::prelude::*;
    ///
    /// let mm = |value| Length::new(value, LengthUnit::Millimetre);
    /// let outside = Block::new(mm(300.0), mm(200.0), mm(100.0));
    /// let tank = Tank::build(&Draft::new("Header tank", outside, StockDraft::of(Alloy::A5754, mm(2.0)))?)?;
    /// // 2 (6 + 3 + 2) dm².
    /// assert!((tank.sheet_area().si() - 0.22).abs() < 1e-9);
    /// assert!((tank.over_all()[0].si() - 0.3).abs() < 1e-9);
    /// # Ok::<(), Box<dyn core::error::Error>>(())
    /// ```
    #[must_use]
    pub fn sheet_area(&self) -> Area {
        let areas = self.panels().map(|panel| panel.outside_area.si());
        Area::from_square_metres(areas.sum())
    }

    /// The box about its outside: along x, y and z.
    #[must_use]
    pub fn over_all(&self) -> [Length; 3] {
        let outside = &self.body.outside;
        [
            Vector::new(1.0, 0.0, 0.0),
            Vector::new(0.0, 1.0, 0.0),
            Vector::new(0.0, 0.0, 1.0),
        ]
        .map(|axis| {
            let (low, high) = outside.extent(axis);
            Length::from_metres(high - low)
        })
    }

    /// Sums over the whole job.
    ///
    /// ```
    /// # use seamwright_core::prelude::*;
    /// # let mm = |value| Length::new(value, LengthUnit::Millimetre);
    /// # let outside = Block::new(mm(320.0), mm(180.0), mm(160.0));
    /// # let draft = Draft::new("Header tank", outside, StockDraft::of(Alloy::A5754, mm(2.0)))?;
    /// # let tank = Tank::build(&draft)?;
    /// // Four edges each way.
    /// let seams = tank.totals().seam;
    /// assert!((seams.si() - 4.0 * (0.320 + 0.180 + 0.160)).abs() < 1e-9);
    /// # Ok::<(), Box<dyn core::error::Error>>(())
    /// ```
    #[must_use]
    pub fn totals(&self) -> Totals {
        let mut totals = Totals::default();
        let mut bead = 0.0;
        for seam in self.seams().filter(|seam| seam.welded) {
            totals.seam = Length::from_metres(totals.seam.si() + seam.length.si());
            totals.tacks += self.tacks(&seam).map_or(0, |tacks| u32::from(tacks.count));
            let stitches = self.division(&seam);
            totals.stitches += stitches.map_or(0, |stitches| u32::from(stitches.count));
            bead += self.length_welded(&seam, stitches).si();
        }
        let bead = Length::from_metres(bead);
        totals.arc = self.arc().time_along(bead);
        totals.heat = self.arc().heat_along(bead);
        totals.mass = Mass::from_kilograms(self.panels().map(|panel| panel.mass.si()).sum());
        totals
    }
}
