//! What a person should know of a tank.

use super::notice::Notice;
use crate::blank::Meeting;
use crate::geom::Vector;
use crate::input::Face;
use crate::tables::minimum_radius;
use crate::tank::Tank;
use crate::units::Length;

impl Tank {
    /// Calls `show` for every notice of this tank.
    pub fn each_notice(&self, mut show: impl FnMut(Notice)) {
        for panel in self.panels() {
            let least = self.job.tack_length(panel.thickness);
            let mark = panel.mark;
            let walls = panel
                .faces
                .iter()
                .copied()
                .filter(|face| !matches!(face, Face::Baffle(_)));
            for face in walls {
                match self.body.inside.face(face) {
                    None => show(Notice::FaceLost { mark, face }),
                    Some(view) if view.outline().next().is_some() => {
                        let across = narrowest(view.normal(), view.outline());
                        if across < least {
                            show(Notice::SmallFace {
                                mark,
                                face,
                                across,
                                least,
                            });
                        }
                    }
                    // The round wall and the ends of a drum are never smaller than the drum.
                    Some(_) => {}
                }
            }
        }
        self.each_bend_notice(&mut show);
        self.each_fitting_notice(&mut show);
        for seam in self.seams().filter(|seam| seam.welded) {
            let least = self.job.tack_length(seam.thicker);
            if seam.length < least {
                show(Notice::SmallEdge {
                    mark: seam.mark,
                    length: seam.length,
                    least,
                });
            }
        }
        if let Some((of, target)) = self.job.target
            && !self.capacity.meets(of, target)
        {
            let holds = self.capacity.of(of);
            show(Notice::TargetMissed { of, target, holds });
        }
        show(Notice::VentBeforeWelding);
        show(Notice::ArcAndFume);
        show(Notice::UsedTank);
    }

    /// Bends tighter than their sheet takes.
    fn each_bend_notice(&self, show: &mut impl FnMut(Notice)) {
        // Wider than this many thicknesses, any sheet bends: common practice, no source.
        const WIDE: f64 = 4.0;
        let plan = self.plan();
        let mut unknown = false;
        for edge in self.body.outside.sharp_edges() {
            if self.job.joints.at(&edge) != Meeting::Folded {
                continue;
            }
            let Ok(bend) = plan.bend(&edge) else { continue };
            let least = self
                .job
                .temper
                .and_then(|temper| minimum_radius(self.job.alloy, temper, bend.thickness()));
            match least {
                Some(least) if bend.inside_radius() < least.radius => show(Notice::TightBend {
                    faces: edge.faces,
                    radius: bend.inside_radius(),
                    least: least.radius,
                }),
                Some(_) => {}
                None if bend.inside_radius().si() < WIDE * bend.thickness().si() && !unknown => {
                    // Once is enough: it says the same of every bend.
                    unknown = true;
                    show(Notice::BendUnknown {
                        faces: edge.faces,
                        radius: bend.inside_radius(),
                    });
                }
                None => {}
            }
        }
    }

    /// Holes nearer to the line along which a wall is closed on itself than they should be.
    pub(super) fn each_closing_notice(&self, show: &mut impl FnMut(Notice)) {
        for (fitting, number) in self.fittings().zip(1_u8..) {
            if let Some(close) = fitting.near_closing(&self.plan()) {
                show(Notice::HoleClose {
                    fitting: number,
                    face: fitting.face(),
                    to: close.to,
                    distance: close.distance,
                    least: close.least,
                });
            }
        }
    }

    /// Holes nearer to something than they should be.
    fn each_fitting_notice(&self, show: &mut impl FnMut(Notice)) {
        let plan = self.plan();
        for (fitting, number) in self.fittings().zip(1_u8..) {
            let before = (1_u8..)
                .zip(&self.job.fittings)
                .take(usize::from(number - 1));
            fitting.each_close(&plan, before, |close| {
                show(Notice::HoleClose {
                    fitting: number,
                    face: fitting.face(),
                    to: close.to,
                    distance: close.distance,
                    least: close.least,
                });
            });
        }
    }
}

/// The least distance between two parallel lines that hold a convex outline, one of them along a side.
fn narrowest(normal: Vector, outline: impl Iterator<Item = Vector> + Clone) -> Length {
    let mut least = f64::INFINITY;
    let first = outline.clone().next();
    let ahead = outline.clone().skip(1).chain(first);
    for (here, next) in outline.clone().zip(ahead) {
        let Some(inward) = normal.cross(next - here).unit() else {
            continue;
        };
        let reach = outline
            .clone()
            .map(|corner| inward.dot(corner - here))
            .fold(0.0, libm::fmax);
        least = libm::fmin(least, reach);
    }
    Length::from_metres(least)
}
