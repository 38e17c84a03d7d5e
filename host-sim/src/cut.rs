//! The blanks as they are cut: a tank's own, or larger by what the job allows for shrinkage.

use seamwright_core::blank::{Allowance, BlankError, CutBlank, EdgeFit, Panel};
use seamwright_core::body::Edge;
use seamwright_core::input::Face;
use seamwright_core::supply::Larger;
use seamwright_core::tank::Tank;
use seamwright_core::units::Mass;

use crate::job_file::Extras;

/// A tank with the edges at which its blanks are cut larger; without an allowance there are none, and every figure is
/// the tank's own.
#[derive(Clone, Debug)]
pub struct Cut<'a> {
    tank: &'a Tank,
    larger: Larger,
}

impl<'a> Cut<'a> {
    /// As the job says.
    #[must_use]
    pub fn of(tank: &'a Tank, extras: &Extras) -> Self {
        let larger = extras.shrink.map(|draw| tank.larger(draw));
        Self {
            tank,
            larger: larger.unwrap_or_default(),
        }
    }

    /// The tank.
    #[must_use]
    pub const fn tank(&self) -> &'a Tank {
        self.tank
    }

    /// The edges at which its blanks are cut larger.
    #[must_use]
    pub fn larger(&self) -> &[Allowance] {
        &self.larger
    }

    /// Its panels, in the order of the tank's.
    pub fn panels(&self) -> impl Iterator<Item = Panel> + '_ {
        self.tank.panels_larger(&self.larger)
    }

    /// The blank of a panel, written to `blank`.
    ///
    /// # Errors
    /// [`BlankError`] where a blank runs into itself that does not without an allowance; see [`Cut::check`].
    pub fn blank(&self, panel: &Panel, blank: &mut CutBlank) -> Result<(), BlankError> {
        self.tank.cut_blank(&self.larger, panel, blank)
    }

    /// What is left of a panel at an edge.
    #[must_use]
    pub fn edge_fit(&self, face: Face, edge: &Edge) -> EdgeFit {
        self.tank.plan_larger(&self.larger).edge_fit(face, edge)
    }

    /// All blanks together.
    #[must_use]
    pub fn mass(&self) -> Mass {
        self.tank.mass_larger(&self.larger)
    }

    /// Whether every blank can be cut so.
    ///
    /// # Errors
    /// The first that cannot, by its mark, and why.
    pub fn check(&self) -> Result<(), (String, BlankError)> {
        let mut blank = CutBlank::new();
        self.panels().try_for_each(|panel| {
            self.blank(&panel, &mut blank)
                .map_err(|error| (panel.mark.to_string(), error))
        })
    }
}
