//! Which filler for this job's sheet and service, and which seams could do without.

use super::{FillerService, FillerVerdict, MANY, judge, ranked};
use crate::seam::Seam;
use crate::tables::Filler;
use crate::tables::ranges::SeamKind;
use crate::tank::Tank;
use crate::units::range::OutOfRange;
use crate::units::{Length, LengthUnit, Temperature};

/// Thickest sheet whose edges are melted down without rod: flanged edges, Mathers, The Welding of Aluminium
/// and its Alloys (2002), table 6.1, after BS 3019; carried over to corners as common practice.
pub const FUSED_MOST: Length = Length::new(1.6, LengthUnit::Millimetre);

/// A sheet is listed to a tenth of a millimetre: 1.6 mm read from inches is 1.6 mm still.
const ROUNDING: f64 = 1e-9;

impl Tank {
    /// How warm the tank gets in service: what the job says of its use; where it says nothing, how warm its
    /// liquid gets.
    #[must_use]
    pub fn warmest(&self) -> Option<Temperature> {
        let liquid = self.job.temperatures.map(|[_, hottest]| hottest);
        self.job.service.temperature.or(liquid)
    }

    /// The job's service as the choice of filler asks for it.
    ///
    /// # Errors
    /// None for a checked job, whose temperatures lie within what fillers are judged for.
    pub fn filler_service(&self) -> Result<FillerService, OutOfRange> {
        let service = FillerService::new(self.warmest(), self.job.service.anodised)?;
        Ok(service.with_process(self.job.arc.process))
    }

    /// Every filler, and none, judged for the job's sheet and service, the best first.
    ///
    /// # Errors
    /// As [`filler_service`](Self::filler_service).
    pub fn fillers(&self) -> Result<[FillerVerdict; MANY], OutOfRange> {
        let alloy = self.job.alloy;
        Ok(ranked(alloy, alloy, &self.filler_service()?))
    }

    /// One filler, or the edges fused without any, judged for the job's sheet and service.
    ///
    /// ```
    /// # use seamwright_core::prelude::*;
    /// # let mm = |value| Length::new(value, LengthUnit::Millimetre);
    /// # let outside = Block::new(mm(320.0), mm(180.0), mm(160.0));
    /// # let draft = Draft::new("Header tank", outside, StockDraft::of(Alloy::A5754, mm(2.0)))?;
    /// # let tank = Tank::build(&draft)?;
    /// // Magnesium in the sheet and silicon in the rod make a brittle bead.
    /// assert!(tank.judged(Some(Filler::R4043))?.ruled_out());
    /// assert!(!tank.judged(Some(Filler::R5554))?.ruled_out());
    /// # Ok::<(), Box<dyn core::error::Error>>(())
    /// ```
    ///
    /// # Errors
    /// As [`filler_service`](Self::filler_service).
    pub fn judged(&self, filler: Option<Filler>) -> Result<FillerVerdict, OutOfRange> {
        let alloy = self.job.alloy;
        Ok(judge(alloy, alloy, filler, &self.filler_service()?))
    }

    /// Whether a seam is one that is often fused without rod: a corner of sheet no thicker than
    /// [`FUSED_MOST`], whose own edges fill it. Whether the alloy bears that is for
    /// [`judged`](Self::judged) without a filler to say.
    #[must_use]
    pub fn may_be_fused(&self, seam: &Seam) -> bool {
        let corner = seam.joint.map(SeamKind::of) == Some(SeamKind::Corner);
        corner
            && seam.dihedral.si() < core::f64::consts::PI
            && seam.thicker.si() <= FUSED_MOST.si() + ROUNDING
    }

    /// How many seams are such.
    #[must_use]
    pub fn seams_often_fused(&self) -> usize {
        self.seams().filter(|seam| self.may_be_fused(seam)).count()
    }
}
