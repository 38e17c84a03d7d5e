//! Seams and panels of what stands within the tank and is set into its walls.

use super::Tank;
use crate::blank::{Groups, Making, Panel, PanelMark};
use crate::body::Edge;
use crate::fitting::{Baffle, Fitting};
use crate::input::limits::MAX_FACES;
use crate::input::{Face, Joint};
use crate::seam::{Seam, SeamMark};
use crate::units::{Area, Length, Mass};

/// Whether a seam lies between two walls, and holds no baffle and no fitting.
pub(crate) fn of_walls(seam: &Seam) -> bool {
    let inner = |face: &Face| matches!(face, Face::Baffle(_) | Face::Fitting(_));
    !seam.faces.iter().any(inner)
}

impl Tank {
    /// How many seams hold baffles and fittings.
    pub(crate) fn seams_within(&self) -> usize {
        let baffles: usize = self.inner().baffles().iter().map(Baffle::seam_count).sum();
        baffles + self.job().fittings().len()
    }

    /// The way that such a seam runs: baffles first, then fittings. Its place among those of its baffle
    /// comes with it.
    pub(crate) fn edge_within(&self, place: usize) -> Option<(Edge, usize)> {
        let mut rest = place;
        for (baffle, number) in self.inner().baffles().iter().zip(1_u8..) {
            if rest < baffle.seam_count() {
                let edge = baffle.edge(&self.body().inside, number, rest)?;
                return Some((edge, rest));
            }
            rest -= baffle.seam_count();
        }
        let draft = self.job().fittings().get(rest)?;
        let fitting = Fitting::place(&self.plan(), draft).ok()?;
        Some((fitting.edge(u8::try_from(rest + 1).ok()?), 0))
    }

    /// Whether the job leaves the baffle counted `number` from 1 unwelded to a wall.
    pub(crate) fn is_free(&self, number: u8, wall: Face) -> bool {
        let baffle = usize::from(number).checked_sub(1);
        let draft = baffle.and_then(|place| self.job().baffles().get(place));
        draft.is_some_and(|draft| draft.free.has(wall))
    }

    /// The panel that a wall is, or is part of.
    pub(crate) fn panel_of_wall(&self, groups: &Groups, wall: Face) -> Option<u8> {
        let mut faces = self.body().outside.faces();
        groups.panel_of(faces.position(|view| view.face() == wall)?)
    }

    /// The seam at such an edge.
    pub(crate) fn seam_within(&self, groups: &Groups, place: usize) -> Option<Seam> {
        let (edge, own_place) = self.edge_within(place)?;
        let [wall, own] = edge.faces;
        let welded = match own {
            Face::Baffle(number) => !self.is_free(number, wall),
            _ => true,
        };
        let panel = self.panel_of_wall(groups, wall)?;
        let walls = self.job().thickness_of(wall).si();
        let mut joint = Joint::Tee;
        let (mark, sheet, number) = match own {
            Face::Baffle(number) => {
                let counted = number.saturating_sub(1);
                let baffle = self.inner().baffles().get(usize::from(counted))?;
                let mark = PanelMark::at(groups.count() + counted);
                // A folded or rounded panel meets a baffle along several of its faces.
                let number = self.number_within(groups, baffle, own_place, panel);
                if baffle.laps(own_place) {
                    joint = Joint::FlangedLap;
                }
                (mark, baffle.thickness().si(), number)
            }
            Face::Fitting(number) => (PanelMark::fitting(number), walls, 0),
            _ => return None,
        };
        Some(Seam {
            mark: SeamMark {
                panels: [PanelMark::at(panel), mark],
                number,
            },
            faces: edge.faces,
            ends: edge.ends,
            joint: welded.then_some(joint),
            length: edge.length(),
            dihedral: edge.dihedral,
            welded,
            thinner: Length::from_metres(libm::fmin(walls, sheet)),
            thicker: Length::from_metres(libm::fmax(walls, sheet)),
        })
    }

    /// Which of a baffle's seams with one panel this is, counted from 1; 0 for the only one.
    fn number_within(&self, groups: &Groups, baffle: &Baffle, place: usize, panel: u8) -> u8 {
        let alike = |at: usize| {
            let wall = baffle.wall(&self.body().inside, at);
            wall.and_then(|wall| self.panel_of_wall(groups, wall)) == Some(panel)
        };
        let count = |range: core::ops::Range<usize>| {
            u8::try_from(range.filter(|at| alike(*at)).count()).unwrap_or(u8::MAX)
        };
        if count(0..baffle.seam_count()) > 1 {
            count(0..place).saturating_add(1)
        } else {
            0
        }
    }

    /// The panel of a baffle, counted from 0.
    pub(crate) fn baffle_panel(&self, place: u8) -> Option<Panel> {
        let baffle = self.inner().baffles().get(usize::from(place))?;
        let mut faces = heapless::Vec::<Face, MAX_FACES>::new();
        let _ = faces.push(Face::Baffle(place + 1));
        let area = Area::from_square_metres(baffle.plate().area() + baffle.flange_area());
        let thickness = baffle.thickness();
        Some(Panel {
            mark: PanelMark::at(self.plan().groups().count() + place),
            faces,
            making: if baffle.is_flanged() {
                Making::Bent
            } else {
                Making::Flat
            },
            outside_area: Area::default(),
            blank_area: area,
            thickness,
            mass: Mass::from_kilograms(
                area.si() * thickness.si() * self.job().alloy().density().si(),
            ),
        })
    }
}
