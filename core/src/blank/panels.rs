//! The panels of a tank, one after the other.

use heapless::Vec;

use super::layout;
use super::panel::{Groups, Making, Panel, PanelMark};
use super::plan::PanelPlan;
use crate::input::Face;
use crate::units::{Area, Density, Length, Mass};

impl<'a> PanelPlan<'a> {
    /// The panels, in sheet of that density.
    pub fn panels(self, density: Density) -> impl Iterator<Item = Panel> + use<'a> {
        let groups = self.groups();
        (0..groups.count()).map(move |place| self.panel(&groups, place, density.si()))
    }

    fn panel(&self, groups: &Groups, place: u8, density: f64) -> Panel {
        let outside = &self.body.outside;
        let mut panel = Panel {
            mark: PanelMark::at(place),
            faces: Vec::new(),
            making: Making::Flat,
            outside_area: Area::default(),
            blank_area: Area::default(),
            thickness: Length::default(),
            mass: Mass::default(),
        };
        let mut area = 0.0;
        for (view, at) in outside.faces().zip(0_usize..) {
            if groups.panel_of(at) != Some(place) {
                continue;
            }
            let face = view.face();
            // A body has at most as many faces as a panel may have.
            let _ = panel.faces.push(face);
            area += view.area().si();
            panel.thickness = self.sheet.of(face);
            panel.making = match (face, view.is_flat()) {
                (Face::Shell, _) => Making::Rolled,
                (_, false) => Making::Dished,
                (_, true) => Making::Flat,
            };
        }
        panel.outside_area = Area::from_square_metres(area);
        if panel.making == Making::Flat && groups.is_bent(self, place) {
            panel.making = Making::Bent;
        }
        // A blank that cannot be made is refused when the tank is built; here it counts as nothing.
        let blank = layout::area(self, groups, &panel).unwrap_or(0.0);
        panel.blank_area = Area::from_square_metres(blank);
        panel.mass = Mass::from_kilograms(blank * panel.thickness.si() * density);
        panel
    }
}
