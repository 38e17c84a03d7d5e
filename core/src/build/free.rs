//! Edges of baffles that nothing reaches, and leaving them free.

use crate::fitting::EdgeRemedies;
use crate::input::{Draft, Face};
use crate::seam::Seam;
use crate::tank::Tank;

/// The edge of a baffle at a wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct BaffleEdge {
    /// The baffle, counted from 1.
    pub baffle: u8,
    /// The wall.
    pub wall: Face,
}

impl Tank {
    /// The edges of baffles that are to be welded and that hand and torch do not reach, whatever is put on last.
    pub fn out_of_reach(&self) -> impl Iterator<Item = BaffleEdge> {
        let order = self.build_order();
        let seams = self.seams().zip(0_usize..);
        seams.filter_map(move |(seam, place)| {
            let unreached = order.of_seam(place)?.is_unreached();
            match seam.faces {
                [wall, Face::Baffle(baffle)] if unreached => Some(BaffleEdge { baffle, wall }),
                _ => None,
            }
        })
    }

    /// Leaves those edges of a draft's baffles free that this tank, made from it, has out of reach, and shows each.
    pub fn free_out_of_reach(&self, draft: &mut Draft, mut freed: impl FnMut(BaffleEdge)) {
        for edge in self.out_of_reach() {
            let place = usize::from(edge.baffle).checked_sub(1);
            let baffle = place.and_then(|place| draft.baffles.get_mut(place));
            if let Some(baffle) = baffle.filter(|baffle| !baffle.free.has(edge.wall)) {
                baffle.free.add(edge.wall);
                freed(edge);
            }
        }
    }

    /// The baffles that no weld holds, each edge being left free or out of reach: counted from 1.
    pub fn loose_baffles(&self) -> impl Iterator<Item = u8> {
        let order = self.build_order();
        (1_u8..)
            .zip(self.job().baffles())
            .map(|(number, _)| number)
            .filter(move |number| {
                let mut seams = self.seams().zip(0_usize..);
                !seams.any(|(seam, place)| {
                    let its = matches!(seam.faces, [_, Face::Baffle(of)] if of == *number);
                    let unreached = order
                        .of_seam(place)
                        .is_some_and(|stages| stages.is_unreached());
                    its && seam.welded && !unreached
                })
            })
    }

    /// The seam of a baffle at a wall: the first, where a rounded wall has several.
    pub fn seam_of(&self, edge: BaffleEdge) -> Option<Seam> {
        let faces = [edge.wall, Face::Baffle(edge.baffle)];
        self.seams().find(|seam| seam.faces == faces)
    }

    /// How the edge of a baffle may be held where no torch reaches it; `None` where the baffle has none there.
    #[must_use]
    pub fn remedies(&self, edge: BaffleEdge) -> Option<EdgeRemedies> {
        let seam = self.seam_of(edge)?;
        let wall = self.job().thickness_of(edge.wall);
        let pitch = self.job().tack_pitch(seam.thinner);
        Some(EdgeRemedies::of(seam.length, wall, pitch))
    }
}
