//! A tank laid out on a bench: its sheets in cells and its stitches, a part at a time.

use super::{Bench, PlanError, Point, Run, Turn, tenths};
use crate::blank::{Groups, PanelMark};
use crate::body::{Edge, Path};
use crate::geom::Vector;
use crate::heat::shell::{Building, Fineness, Ware};
use crate::input::Face;
use crate::seam::Seam;
use crate::tank::Tank;
use crate::tank::within::of_walls;
use crate::units::Length;

/// How far a tank is laid out.
#[derive(Clone, Copy, Debug)]
pub struct LayingOut {
    part: Part,
    /// Height of the highest seam of the walls so far, and its middle stitch.
    highest: (f64, u16),
}

/// What is done next.
#[derive(Clone, Copy, Debug)]
enum Part {
    /// The cells.
    Mesh(Building),
    /// The stitches of the seam at this place.
    Seam {
        place: usize,
        count: usize,
        groups: Groups,
    },
}

impl LayingOut {
    /// With nothing done yet, as fine as is asked.
    #[must_use]
    pub const fn new(fineness: &Fineness) -> Self {
        Self {
            part: Part::Mesh(Building::new(fineness)),
            highest: (f64::NEG_INFINITY, 0),
        }
    }
}

impl Tank {
    /// Lays the tank out on a bench: its sheets in cells, as fine as is asked or as
    /// there is room for, and its stitches.
    ///
    /// # Errors
    /// [`PlanError`] where the bench has no room for it.
    pub fn lay_out<const C: usize, const L: usize>(
        &self,
        fineness: &Fineness,
        bench: &mut Bench<C, L>,
    ) -> Result<(), PlanError> {
        let mut laying = LayingOut::new(fineness);
        while !self.lay_out_on(&mut laying, bench)? {}
        Ok(())
    }

    /// Does one part of what [`Tank::lay_out`] does, some hundredths of the whole, and tells whether that was the
    /// last. Tank and bench must be the same from the first part to the last.
    ///
    /// # Errors
    /// As for [`Tank::lay_out`].
    #[inline(never)]
    pub fn lay_out_on<const C: usize, const L: usize>(
        &self,
        laying: &mut LayingOut,
        bench: &mut Bench<C, L>,
    ) -> Result<bool, PlanError> {
        match &mut laying.part {
            Part::Mesh(building) => {
                if self.mesh_on(building, bench)? {
                    bench.runs.clear();
                    bench.points.clear();
                    laying.part = Part::Seam {
                        place: 0,
                        count: self.seam_count(),
                        groups: self.plan().groups(),
                    };
                }
                Ok(false)
            }
            Part::Seam {
                place,
                count,
                groups,
            } => {
                let Ok(next) = u8::try_from(*place) else {
                    return Err(PlanError::TooMany);
                };
                if place >= count {
                    centre(laying.highest, bench);
                    return Ok(true);
                }
                *place += 1;
                if let Some((seam, edge)) = self.seam_at(groups, usize::from(next)) {
                    self.lay_seam((next, &seam, &edge), &mut laying.highest, bench)?;
                }
                Ok(false)
            }
        }
    }

    fn mesh_on<const C: usize, const L: usize>(
        &self,
        building: &mut Building,
        bench: &mut Bench<C, L>,
    ) -> Result<bool, PlanError> {
        let ware = Ware {
            body: self.body(),
            sheet: self.job().sheet(),
            baffles: self.inner().baffles(),
            material: self.material(),
            ambient: self.job().welding().ambient.si(),
        };
        bench
            .mesh
            .go_on(building, &ware, &mut bench.shell)
            .map_err(|_| PlanError::Mesh)
    }

    fn lay_seam<const C: usize, const L: usize>(
        &self,
        (place, seam, edge): (u8, &Seam, &Edge),
        highest: &mut (f64, u16),
        bench: &mut Bench<C, L>,
    ) -> Result<(), PlanError> {
        let Some(division) = self.division(seam) else {
            return Ok(());
        };
        let centre = self.body().outside.centroid();
        let first = u16::try_from(bench.runs.len()).unwrap_or(u16::MAX);
        self.add_runs((place, seam), edge, (division.count, centre), bench)?;
        if of_walls(seam) {
            let [a, b] = edge.ends;
            let height = 0.5 * (a.z + b.z);
            if height > highest.0 {
                *highest = (height, first + division.count / 2);
            }
        }
        Ok(())
    }
    /// The stitches of one seam.
    fn add_runs<const C: usize, const L: usize>(
        &self,
        (place, seam): (u8, &Seam),
        edge: &Edge,
        (count, centre): (u16, Vector),
        bench: &mut Bench<C, L>,
    ) -> Result<(), PlanError> {
        let whole = edge.length().si();
        let round = matches!(edge.path, Path::Round(_));
        let turn = if seam
            .faces
            .iter()
            .any(|face| matches!(face, Face::Baffle(_)))
        {
            Turn::Within
        } else {
            Turn::Body
        };
        let first = u16::try_from(bench.points.len()).unwrap_or(u16::MAX);
        for n in 0..=count {
            let at = whole * f64::from(n) / f64::from(count);
            let cells = bench
                .mesh
                .cells_at(edge, at, &bench.shell)
                .ok_or(PlanError::Mesh)?;
            let corner = !round && (n == 0 || n == count);
            bench
                .points
                .push(Point { cells, corner })
                .map_err(|_| PlanError::TooMany)?;
        }
        let small = |value: u16| u8::try_from(value).map_err(|_| PlanError::TooMany);
        for n in 0..count {
            let middle = whole * (f64::from(n) + 0.5) / f64::from(count);
            let run = Run {
                seam: place,
                number: small(n)?,
                of: small(count)?,
                length: (whole / f64::from(count)) as f32,
                turn,
                panels: seam.mark.panels.map(PanelMark::place),
                point: first + n,
                middle: tenths(edge.at(Length::from_metres(middle)) - centre),
            };
            bench.runs.push(run).map_err(|_| PlanError::TooMany)?;
        }
        Ok(())
    }
}

/// Moves the middles of the stitches about the middle of the welds, so that the whole pulls to no side, and has the
/// job end at the highest of them.
fn centre<const C: usize, const L: usize>(highest: (f64, u16), bench: &mut Bench<C, L>) {
    let mut mean = [0_i32; 3];
    for run in &bench.runs {
        for (sum, value) in mean.iter_mut().zip(run.middle) {
            *sum += i32::from(value);
        }
    }
    let count = i32::try_from(bench.runs.len()).unwrap_or(1).max(1);
    for run in &mut bench.runs {
        for (value, sum) in run.middle.iter_mut().zip(mean) {
            *value = value.saturating_sub(i16::try_from(sum / count).unwrap_or(0));
        }
    }
    if let Some(run) = bench.runs.get_mut(usize::from(highest.1))
        && highest.0.is_finite()
    {
        run.turn = Turn::Closing;
    }
}
