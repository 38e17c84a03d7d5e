//! Softened lines: each pixel takes as much grey as the stroke covers of it.
//!
//! A target cannot be read back, so where strokes cross, the brighter must come last. All strokes of
//! a picture are therefore drawn together, in a few passes from dark to bright.

use embedded_graphics::Pixel;
use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::Point;
use embedded_graphics::pixelcolor::{Gray4, GrayColor};

use super::view::{PIXEL, Spot};

/// Greys of the passes: each draws what is above its lower and up to its upper bound. The faintest
/// fringe is left out; it would darken liquid behind it.
const PASSES: [(u8, u8); 3] = [(2, 5), (5, 10), (10, 15)];

/// A straight stroke.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stroke {
    pub(super) ends: [Spot; 2],
    /// Width across, in 256ths of a pixel.
    pub(super) width: i32,
    pub(super) grey: Gray4,
    /// Pixels on and off by turns; `None` for a whole line.
    pub(super) dash: Option<(i32, i32)>,
}

/// Draws strokes, the brighter over the darker.
pub(super) fn draw<D>(target: &mut D, strokes: &[Stroke]) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    draw_all(target, || strokes.iter().copied())
}

/// The same for strokes that are worked out anew for each pass: a round tank has too many to hold.
pub(super) fn draw_all<D, I>(target: &mut D, strokes: impl Fn() -> I) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
    I: Iterator<Item = Stroke>,
{
    for (above, most) in PASSES {
        for stroke in strokes() {
            let pixels = stroke.pixels();
            target.draw_iter(
                pixels.filter(|Pixel(_, grey)| grey.luma() > above && grey.luma() <= most),
            )?;
        }
    }
    Ok(())
}

impl Stroke {
    /// The pixels that it covers, with their greys.
    fn pixels(&self) -> impl Iterator<Item = Pixel<Gray4>> + use<> {
        let Self {
            ends: [from, to],
            grey,
            dash,
            ..
        } = *self;
        let steep = (to.y - from.y).abs() > (to.x - from.x).abs();
        // Along the axis that it follows most, from the lower end, and across it.
        let turned = |spot: Spot| {
            if steep {
                (spot.y, spot.x)
            } else {
                (spot.x, spot.y)
            }
        };
        let (a, b) = (turned(from), turned(to));
        let ((along, across), (end, end_across)) = if a.0 <= b.0 { (a, b) } else { (b, a) };
        let run = (end - along).max(1);
        let rise = end_across - across;
        let half = half_height(self.width, run, rise);
        (along.div_euclid(PIXEL)..=end.div_euclid(PIXEL))
            .enumerate()
            .filter(move |(step, _)| dash.is_none_or(|(on, off)| (*step as i32) % (on + off) < on))
            .flat_map(move |(_, column)| {
                let centre = (column * PIXEL + PIXEL / 2).clamp(along, end);
                let middle = across
                    + ((i64::from(centre - along) * i64::from(rise)) / i64::from(run)) as i32;
                let (top, bottom) = (middle - half, middle + half);
                (top.div_euclid(PIXEL)..=bottom.div_euclid(PIXEL)).map(move |row| {
                    let cover = bottom.min((row + 1) * PIXEL) - top.max(row * PIXEL);
                    let level = (i32::from(grey.luma()) * cover + PIXEL / 2) / PIXEL;
                    let point = if steep {
                        Point::new(row, column)
                    } else {
                        Point::new(column, row)
                    };
                    Pixel(point, Gray4::new(level as u8))
                })
            })
    }
}

/// Half of what a stroke of `width` covers straight across its main axis: more than half its width
/// where it slants.
fn half_height(width: i32, run: i32, rise: i32) -> i32 {
    let slope = f64::from(rise) / f64::from(run);
    libm::round(0.5 * f64::from(width) * libm::sqrt(1.0 + slope * slope)) as i32
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frame::Frame;

    /// All the grey of a picture, in full pixels.
    fn inked(frame: &Frame) -> f64 {
        let bytes = frame.rows().iter().flatten();
        bytes
            .map(|byte| f64::from(byte >> 4) + f64::from(byte & 15))
            .sum::<f64>()
            / 15.0
    }

    #[test]
    fn a_stroke_inks_its_own_area_whichever_way_it_runs() {
        let centre = 32 * PIXEL + PIXEL / 2;
        for (dx, dy) in [
            (25, 0),
            (25, 3),
            (25, 12),
            (25, 25),
            (9, 25),
            (0, 25),
            (-20, 11),
            (13, -24),
        ] {
            for width in [PIXEL * 7 / 4, 5 * PIXEL / 2] {
                let mut frame = Frame::new();
                let from = Spot {
                    x: centre,
                    y: centre,
                };
                let to = Spot {
                    x: centre + dx * PIXEL,
                    y: centre + dy * PIXEL,
                };
                let stroke = Stroke {
                    ends: [from, to],
                    width,
                    grey: Gray4::WHITE,
                    dash: None,
                };
                let Ok(()) = draw(&mut frame, &[stroke]);
                // Both ends reach half a pixel past, along the axis that the stroke follows most.
                let (x, y) = (f64::from(dx), f64::from(dy));
                let main = x.abs().max(y.abs());
                let area = x.hypot(y) * (main + 1.0) / main * f64::from(width) / f64::from(PIXEL);
                let off = inked(&frame) / area - 1.0;
                // Fringes under two fifteenths are left out, and greys are whole.
                assert!(off.abs() < 0.08, "{dx} {dy} {width}: {off}");
            }
        }
    }

    #[test]
    fn the_brighter_of_two_strokes_stays_on_top() {
        let stroke = |from: (i32, i32), to: (i32, i32), grey| {
            let spot = |(x, y): (i32, i32)| Spot {
                x: x * PIXEL + PIXEL / 2,
                y: y * PIXEL + PIXEL / 2,
            };
            Stroke {
                ends: [spot(from), spot(to)],
                width: PIXEL,
                grey: Gray4::new(grey),
                dash: None,
            }
        };
        for order in [[15, 6], [6, 15]] {
            let mut frame = Frame::new();
            let strokes = [
                stroke((10, 20), (30, 20), order[0]),
                stroke((20, 10), (20, 30), order[1]),
            ];
            let Ok(()) = draw(&mut frame, &strokes);
            assert_eq!(frame.level(20, 20), Some(15));
        }
    }
}
