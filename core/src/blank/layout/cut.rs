//! Blanks as they are cut: flanges notched, slit and mitred so that they fold up.

use heapless::Vec;

use super::super::error::BlankError;
use super::super::panel::{Axes, Panel};
use super::super::plan::PanelPlan;
use super::super::unfold::FoldLink;
use super::arena::Arena;
use super::flanged::{Fault, Flange, flanged, has_flange};
use super::make::{halves, u8_of};
use super::part::Part;
use super::rim::MOST_NODES;
use super::{BendMark, CutBlank, MAX_CUT_FLANGES, MAX_PARTS, Piece};
use crate::geom::outline::{Node, Point};
use crate::input::Face;

/// Nodes of all parts of a panel together, as it is cut.
const ALL_NODES: usize = 250;

impl PanelPlan<'_> {
    /// The blank of a panel as it is cut, laid flat as it is seen from outside, written to `blank`: as
    /// [`PanelPlan::blank`], its flanges cut to fit at their ends. A dished end has none.
    ///
    /// # Errors
    /// [`BlankError`] names the edges at fault; `blank` is then of no use.
    pub fn cut_blank(&self, panel: &Panel, blank: &mut CutBlank) -> Result<(), BlankError> {
        self.cut(panel, blank).map_err(|fault| match fault {
            Fault::Blank(error) => error,
            Fault::Long([face, _]) => BlankError::Narrow { face },
        })
    }

    /// The edge whose flange finds no room, if there is one.
    ///
    /// # Errors
    /// A blank that cannot be made for another reason.
    pub(crate) fn long_flange(
        &self,
        panel: &Panel,
        blank: &mut CutBlank,
    ) -> Result<Option<[Face; 2]>, BlankError> {
        match self.cut(panel, blank) {
            Ok(()) => Ok(None),
            Err(Fault::Long(faces)) => Ok(Some(faces)),
            Err(Fault::Blank(error)) => Err(error),
        }
    }

    fn cut(&self, panel: &Panel, blank: &mut CutBlank) -> Result<(), Fault> {
        if self.simple(panel, blank)? {
            return Ok(());
        }
        let groups = self.groups();
        let mut arena = Arena::<ALL_NODES>::default();
        let mut all: Vec<(u8, Flange), MAX_CUT_FLANGES> = Vec::new();
        for (view, place) in self.body.outside.faces().zip(0_u8..) {
            if groups.panel_of(usize::from(place)) != Some(u8_of(panel)) {
                continue;
            }
            let face = view.face();
            let full = BlankError::TooComplex { face };
            let axes = Axes::of_face(&view);
            for half in halves(&groups, place) {
                let mut made = Part::<MOST_NODES>::default();
                let mut flanges: Vec<Flange, MAX_CUT_FLANGES> = Vec::new();
                flanged(self, &view, &axes, *half, &mut made, &mut flanges)?;
                let own = u8::try_from(arena.parts.len()).map_err(|_| full)?;
                arena.add(face, &made).ok_or(full)?;
                let piece = Piece { face, half: *half };
                blank.pieces.push(piece).map_err(|_| full)?;
                for flange in flanges {
                    all.push((own, flange)).map_err(|_| full)?;
                }
            }
        }
        let mut links: Vec<FoldLink, MAX_PARTS> = Vec::new();
        self.link(&arena, blank, &mut links)?;
        let mut parts: Vec<&[Node], MAX_PARTS> = Vec::new();
        for entry in &arena.parts {
            let nodes = arena.nodes_of(entry);
            if nodes.len() < 3 {
                if arena.parts.len() == 1 {
                    return Ok(());
                }
                return Err(Fault::Blank(BlankError::Narrow { face: entry.face }));
            }
            let full = BlankError::TooComplex { face: entry.face };
            parts.push(nodes).map_err(|_| full)?;
        }
        blank.lay(&parts, &links, panel.face())?;
        for entry in arena.parts.iter().zip(0_usize..) {
            self.finish_part(&arena, entry, blank);
        }
        for (part, flange) in all {
            let Some(placing) = blank.flat.placings().get(usize::from(part)).copied() else {
                continue;
            };
            let face = blank
                .pieces
                .get(usize::from(part))
                .map_or(panel.face(), |piece| piece.face);
            let bend = flange.tab.bend;
            let mark = BendMark {
                ends: flange
                    .ends
                    .map(|[x, y]| blank.down(placing.point(Point::new(x, y)))),
                faces: [face, flange.wall],
                turn: bend.turn(),
                towards: flange.tab.towards,
                radius: bend.inside_radius(),
                allowance: bend.allowance(),
            };
            let full = BlankError::TooComplex { face };
            blank.flanges.push(mark).map_err(|_| full)?;
        }
        Ok(())
    }

    /// Whether a panel ends in a flange anywhere.
    #[must_use]
    pub fn is_flanged(&self, panel: &Panel) -> bool {
        let mut faces = self.body.outside.faces();
        faces.any(|view| panel.faces.contains(&view.face()) && has_flange(self, &view))
    }
}
