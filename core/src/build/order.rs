//! The stages of a tank, and each seam's place among them.

use heapless::Vec;

use super::reach::{Mouths, bit};
use super::sequence::Sequence;
use super::stage::{BuildStage, BuildWork, MAX_STAGES, PanelSet, SeamStages, WeldAccess};
use crate::blank::{Groups, Making, PanelMark};
use crate::input::Face;
use crate::input::limits::MAX_BAFFLES;
use crate::seam::{MAX_SEAMS, Seam};
use crate::tank::Tank;

/// In which order a tank goes together; about 1 KiB.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BuildOrder {
    stages: Vec<BuildStage, MAX_STAGES>,
    seams: Vec<SeamStages, MAX_SEAMS>,
    closers: PanelSet,
}

/// What the stages follow from.
struct Sorting<'a> {
    tank: &'a Tank,
    groups: Groups,
    sequence: Sequence,
    closers: PanelSet,
}

impl BuildOrder {
    /// With no stage: a place to write to.
    pub const NONE: Self = Self {
        stages: Vec::new(),
        seams: Vec::new(),
        closers: PanelSet::NONE,
    };

    /// The stages, the first first.
    #[must_use]
    pub fn stages(&self) -> &[BuildStage] {
        &self.stages
    }

    /// Each seam's place among them, in the order of [`Tank::seams`].
    #[must_use]
    pub fn seams(&self) -> &[SeamStages] {
        &self.seams
    }

    /// The place of the seam at a place in the list of seams.
    #[must_use]
    pub fn of_seam(&self, place: usize) -> Option<SeamStages> {
        self.seams.get(place).copied()
    }

    /// The panels that close the tank.
    #[must_use]
    pub const fn closers(&self) -> PanelSet {
        self.closers
    }

    /// The number, from 1, of the first stage of a kind from `from` on that a panel has part in; 0 where there is none.
    fn number(&self, work: BuildWork, panel: Option<PanelMark>) -> u8 {
        let stages = self.stages.iter().zip(1_u8..);
        let mut found = stages.filter(|(stage, _)| {
            stage.work == work && panel.is_none_or(|panel| stage.panels.has(panel))
        });
        found.next().map_or(0, |(_, number)| number)
    }

    fn push(&mut self, work: BuildWork, panels: PanelSet) {
        if !panels.is_empty() {
            // There are at most one of each kind, four of baffles and two that close.
            let _ = self.stages.push(BuildStage { work, panels });
        }
    }
}

impl Tank {
    /// In which order the tank goes together: its stages, and for each seam when and from which side it is welded.
    ///
    /// ```
    /// # use seamwright_core::prelude::*;
    /// # use seamwright_core::build::{BuildWork, WeldAccess};
    /// # use seamwright_core::input::{Across, BaffleDraft};
    /// # let mm = |value| Length::new(value, LengthUnit::Millimetre);
    /// # let outside = Block::new(mm(1_400.0), mm(280.0), mm(260.0));
    /// let mut draft = Draft::new("Header tank", outside, StockDraft::of(Alloy::A5754, mm(2.0)))?;
    /// let baffle = BaffleDraft::new(Across::Length, mm(700.0));
    /// draft.baffles.push(baffle).map_err(|_| "no room")?;
    /// let tank = Tank::build(&draft)?;
    /// let order = tank.build_order();
    /// let work: Vec<_> = order.stages().iter().map(|stage| stage.work).collect();
    /// assert_eq!(work, [BuildWork::Walls, BuildWork::Baffles, BuildWork::Closing, BuildWork::OutsideSeams]);
    /// // Three edges of the baffle are welded while the top is off; nobody reaches the fourth.
    /// let unreached = order.seams().iter().filter(|seam| seam.is_unreached()).count();
    /// assert_eq!(unreached, 1);
    /// # Ok::<(), Box<dyn core::error::Error>>(())
    /// ```
    #[must_use]
    pub fn build_order(&self) -> BuildOrder {
        let mut order = BuildOrder::NONE;
        self.write_build_order(&mut order);
        order
    }

    /// The same, written where it is to stay.
    #[inline(never)]
    pub(crate) fn write_build_order(&self, order: &mut BuildOrder) {
        let groups = self.plan().groups();
        let sequence = Sequence::of(self, &groups);
        let closers = sequence.closers();
        let making = Sorting {
            tank: self,
            groups,
            sequence,
            closers,
        };
        *order = BuildOrder::NONE;
        order.closers = closers;
        making.stages(order);
        making.seams(order);
    }

    /// The panel that is put on last of all; `None` where the tank is a single panel.
    #[must_use]
    pub fn closing_panel(&self) -> Option<PanelMark> {
        Sequence::of(self, &self.plan().groups())
            .last
            .last()
            .copied()
    }
}

impl Sorting<'_> {
    #[inline(never)]
    fn stages(&self, order: &mut BuildOrder) {
        let tank = self.tank;
        let (mut flat, mut formed) = (PanelSet::NONE, PanelSet::NONE);
        for (fitting, number) in tank.fittings().zip(1_u8..) {
            let set = if is_formed(tank, fitting.face()) {
                &mut formed
            } else {
                &mut flat
            };
            set.add(PanelMark::fitting(number));
        }
        order.push(BuildWork::FlatFittings, flat);
        let (mut shaped, mut long, mut walls) = (PanelSet::NONE, PanelSet::NONE, PanelSet::NONE);
        for panel in tank.plan().panels(tank.job().alloy().density()) {
            if panel.making != Making::Flat {
                shaped.add(panel.mark);
            }
            if !self.closers.has(panel.mark) {
                walls.add(panel.mark);
            }
        }
        let mark = |number: u8| PanelMark::at(self.groups.count() + number.saturating_sub(1));
        for (baffle, number) in tank.inner().baffles().iter().zip(1_u8..) {
            if baffle.is_flanged() {
                shaped.add(mark(number));
            }
        }
        for seam in tank.seams().filter(is_long) {
            long.add(seam.mark.panels[0]);
        }
        order.push(BuildWork::Forming, shaped);
        order.push(BuildWork::LongSeams, long);
        order.push(BuildWork::FormedFittings, formed);
        if walls.marks().nth(1).is_some() {
            order.push(BuildWork::Walls, walls);
        }
        let mut all = PanelSet::NONE;
        for number in &self.sequence.baffles {
            all.add(mark(*number));
            if !self.sequence.together {
                order.push(BuildWork::Baffles, all);
                all = PanelSet::NONE;
            }
        }
        order.push(BuildWork::Baffles, all);
        if self.closes_in_turn() {
            for closer in &self.sequence.last {
                let mut one = PanelSet::NONE;
                one.add(*closer);
                order.push(BuildWork::Closing, one);
            }
        } else {
            order.push(BuildWork::Closing, self.closers);
        }
        if tank.seams().any(|seam| is_outside(&seam)) {
            let work = BuildWork::OutsideSeams;
            let panels = PanelSet::NONE;
            let _ = order.stages.push(BuildStage { work, panels });
        }
    }

    /// Whether the panels that close the tank go on one after another, as they do where something is welded in between.
    fn closes_in_turn(&self) -> bool {
        let mut found = false;
        if self.sequence.last.len() > 1 {
            let last = self.sequence.last.last();
            super::sequence::each_edge(self.tank, &self.groups, |_, _, panel| {
                found |= self.closers.has(panel) && last != Some(&panel);
            });
        }
        found
    }

    #[inline(never)]
    fn seams(&self, order: &mut BuildOrder) {
        let all = (1..)
            .take(MAX_BAFFLES)
            .fold(0, |set, number| set | bit(number));
        let open = Mouths::of(self.tank, &self.groups, self.closers);
        let tank = self.tank;
        let groups = &self.groups;
        for place in 0..tank.seam_count() {
            let found = tank.seam_at(groups, place);
            let stages = found.map(|(seam, edge)| match seam.faces {
                [wall, Face::Baffle(number)] if tank.is_plugged(number, wall) => {
                    self.of_plugs(order, &seam)
                }
                [wall, Face::Baffle(number)] if !tank.is_free(number, wall) => {
                    let panel = seam.mark.panels[0];
                    let closes = self.closers.has(panel);
                    let (joined, set) = if closes {
                        (order.number(BuildWork::Closing, Some(panel)), all)
                    } else {
                        let own = seam.mark.panels[1];
                        let joined = order.number(BuildWork::Baffles, Some(own));
                        (joined, self.set_by(number))
                    };
                    let then = closes.then(|| Mouths::of(tank, groups, self.off_after(panel)));
                    let open = then.as_ref().unwrap_or(&open);
                    let through = open.to(tank, &edge, number, set);
                    let within = through.is_some_and(|face| open.is_deep(tank, &edge, face));
                    SeamStages {
                        within,
                        joined,
                        welded: if through.is_some() { joined } else { 0 },
                        from: Some(through.map_or(WeldAccess::Nowhere, WeldAccess::Inside)),
                    }
                }
                _ => self.of_wall(order, &seam),
            });
            let none = SeamStages {
                joined: 0,
                welded: 0,
                from: None,
                within: false,
            };
            // As many as there may be seams.
            let _ = order.seams.push(stages.unwrap_or(none));
        }
    }

    /// The panels that are still off when one of the last is on.
    fn off_after(&self, panel: PanelMark) -> PanelSet {
        let mut off = self.closers;
        if !self.closes_in_turn() {
            return PanelSet::NONE;
        }
        for closer in &self.sequence.last {
            off = off.without(*closer);
            if *closer == panel {
                break;
            }
        }
        off
    }

    /// The baffles that stand when one is welded, itself among them.
    fn set_by(&self, number: u8) -> u8 {
        let order = &self.sequence.baffles;
        let place = order.iter().position(|one| *one == number);
        let stand = match place {
            Some(place) if !self.sequence.together => place + 1,
            _ => order.len(),
        };
        order
            .iter()
            .take(stand)
            .fold(0, |set, number| set | bit(*number))
    }

    /// The place of an edge that is welded through the wall from outside: as soon as both stand, but not before the walls are
    /// welded where it is held by one that closes the tank.
    fn of_plugs(&self, order: &BuildOrder, seam: &Seam) -> SeamStages {
        let [wall, own] = seam.mark.panels;
        let outside = order.number(BuildWork::OutsideSeams, None);
        let (joined, welded) = if self.closers.has(wall) {
            (order.number(BuildWork::Closing, Some(wall)), outside)
        } else {
            let set = order.number(BuildWork::Baffles, Some(own));
            (set, set)
        };
        SeamStages {
            joined,
            welded: if welded > 0 { welded } else { joined },
            from: Some(WeldAccess::Outside),
            within: false,
        }
    }

    /// The place of a seam between walls, round a fitting, or of an edge that is not welded.
    fn of_wall(&self, order: &BuildOrder, seam: &Seam) -> SeamStages {
        let [one, other] = seam.mark.panels;
        if !seam.welded {
            return SeamStages {
                joined: 0,
                welded: 0,
                from: None,
                within: false,
            };
        }
        let flat = order.number(BuildWork::FlatFittings, Some(other));
        if flat > 0 {
            return SeamStages {
                joined: flat,
                welded: flat,
                from: Some(WeldAccess::BothSides),
                within: false,
            };
        }
        let formed = order.number(BuildWork::FormedFittings, Some(other));
        if formed > 0 {
            return SeamStages {
                joined: formed,
                welded: formed,
                from: Some(WeldAccess::BothSides),
                within: false,
            };
        }
        if is_long(seam) {
            let long = order.number(BuildWork::LongSeams, None);
            return SeamStages {
                joined: long,
                welded: long,
                from: Some(WeldAccess::BothSides),
                within: false,
            };
        }
        let closing = [one, other]
            .map(|panel| order.number(BuildWork::Closing, Some(panel)))
            .into_iter()
            .max();
        let joined = match closing.unwrap_or(0) {
            0 => order.number(BuildWork::Walls, None),
            closing => closing,
        };
        SeamStages {
            joined,
            welded: order.number(BuildWork::OutsideSeams, None),
            from: Some(WeldAccess::Outside),
            within: false,
        }
    }
}

/// Whether a seam closes a panel on itself.
fn is_long(seam: &Seam) -> bool {
    let [a, b] = seam.mark.panels;
    seam.welded && a == b
}

/// Whether a seam is one of two walls, welded when both stand.
fn is_outside(seam: &Seam) -> bool {
    crate::tank::within::of_walls(seam) && seam.welded && !is_long(seam)
}

/// Whether a wall must be rolled or dished before anything is set into it.
fn is_formed(tank: &Tank, face: Face) -> bool {
    let view = tank.body().outside.face(face);
    view.is_some_and(|view| face == Face::Shell || !view.is_flat())
}
