//! What a plate of a net bears away from its edges.

use super::super::Field;
use super::super::clamp::load_slope;
use super::super::levy::{field, numbered};
use super::super::peak;
use super::super::peak::Spot;
use super::super::wave::Waves;
use super::net::Net;
use super::slab::{Edge, Slab};

impl Net {
    /// The highest moment of a plate away from its edges, in N·m/m, and its largest deflection times its stiffness, in N·m².
    pub(crate) fn within(&self, slab: usize, poisson: f64) -> [f64; 2] {
        let Some(slab) = self.slab(slab) else {
            return [0.0; 2];
        };
        let mut value = |spot: Spot| {
            let Field { w, across, along } = slab.at(spot, poisson);
            [w, across, along]
        };
        let [w, across, along] = peak::over(&mut value, slab.sides.ratio());
        [libm::fmax(across, along), w]
    }
}

impl Net {
    /// The deflection in the middle of a plate, times its stiffness, in N·m².
    pub(crate) fn middle(&self, slab: usize) -> f64 {
        self.slab(slab)
            .map_or(0.0, |slab| slab.at(Spot::MIDDLE, 0.0).w)
    }

    /// The volume that a plate sweeps, in m³.
    pub(crate) fn swept(&self, slab: usize) -> f64 {
        self.slab(slab).map_or(0.0, Slab::swept)
    }

    /// The two moments of a plate at a point, told from its middle along its short and its long side, in N·m/m.
    pub(crate) fn moments_at(
        &self,
        slab: usize,
        [across, along]: [f64; 2],
        poisson: f64,
    ) -> [f64; 2] {
        let Some(slab) = self.slab(slab) else {
            return [0.0; 2];
        };
        let short = slab.sides.short();
        let spot = Spot {
            x: 0.5 + across / short,
            y: along / short,
        };
        let field = slab.at(spot, poisson);
        [field.across, field.along]
    }
}

/// Terms each way of the volume swept under an even pressure: the first left out adds 1e-5 of it.
const SWEEPS: u8 = 5;

impl Slab {
    /// The volume that it sweeps, in m³: that of a supported plate under the mean of its pressure (Navier; Timoshenko and
    /// Woinowsky-Krieger, article 28), and what the moments along its edges add, which by Betti's rule is their work on the
    /// slopes of that plate.
    fn swept(&self) -> f64 {
        let (a, b) = (self.sides.short(), self.sides.long());
        let odd = || (0..SWEEPS).map(|place| f64::from(2 * place + 1));
        let mut sum = 0.0;
        for m in odd() {
            for n in odd() {
                let wave = m * m / (a * a) + n * n / (b * b);
                sum += 1.0 / (m * m * n * n * wave * wave);
            }
        }
        let fourth = {
            let square = core::f64::consts::PI * core::f64::consts::PI;
            square * square
        };
        let mut volume = 64.0 * self.ramp.mean * a * b * sum / (fourth * fourth);
        for edge in Edge::ALL {
            let (length, across) = if edge.is_long() { (b, a) } else { (a, b) };
            let waves = Waves::along([1, 2], length, across);
            let odd = numbered(1).zip(self.of(edge).iter().step_by(2));
            for (wave, (number, moment)) in waves.zip(odd) {
                volume += 0.5 * length * moment * load_slope(number, false, &wave);
            }
        }
        volume / self.stiffness
    }

    /// Deflection times the stiffness, and the moments, at a point told in short sides.
    fn at(&self, spot: Spot, poisson: f64) -> Field {
        let (short, long) = (self.sides.short(), self.sides.long());
        let mut sum = Field::default();
        for (part, strength) in self.ramp.parts() {
            if strength != 0.0 {
                let unit = field(part, self.sides.ratio(), poisson, spot);
                let square = short * short;
                sum.w += strength * square * square * unit.w;
                sum.across += strength * square * unit.across;
                sum.along += strength * square * unit.along;
            }
        }
        let (x, y) = (short * spot.x, short * spot.y);
        let pairs = [
            (
                [Edge::LongLow, Edge::LongHigh],
                long,
                short,
                y + 0.5 * long,
                x - 0.5 * short,
            ),
            ([Edge::ShortLow, Edge::ShortHigh], short, long, x, y),
        ];
        for (place_of, (edges, length, across, s, c)) in pairs.into_iter().enumerate() {
            let [low, high] = edges.map(|edge| self.of(edge));
            let waves = Waves::at([1, 1], [length, across], [s, c]);
            for (wave, (low, high)) in waves.zip(low.iter().zip(high)) {
                if wave.fades() {
                    break;
                }
                for (odd, moment) in [(false, 0.5 * (low + high)), (true, 0.5 * (high - low))] {
                    let [w, ss, cc] = wave.bent_at_edges(odd, moment);
                    let (along_edge, off_edge) = (-(ss + poisson * cc), -(cc + poisson * ss));
                    sum.w += w;
                    if place_of == 0 {
                        sum.across += off_edge;
                        sum.along += along_edge;
                    } else {
                        sum.across += along_edge;
                        sum.along += off_edge;
                    }
                }
            }
        }
        sum
    }
}
