//! One sine term of a plate's deflection: `sin(k s) (a cosh z + b z sinh z)`, or its odd form
//! `sin(k s) (a sinh z + b z cosh z)`, z = k c; s runs along an edge, c away from the middle.

use core::f64::consts::PI;

/// The two functions of one term at z, each over the first one's value at the edge β:
/// `cosh z / cosh β` and `z sinh z / cosh β`, or odd `sinh z / sinh β` and `z cosh z / sinh β`.
///
/// Written with falling powers of e only, so that no long plate overflows.
pub(super) fn shape(odd: bool, beta: f64, z: f64) -> (f64, f64) {
    let far = libm::fabs(z);
    let sign = if odd { -1.0 } else { 1.0 };
    let scale = libm::exp(far - beta) / (1.0 + sign * libm::exp(-2.0 * beta));
    let back = libm::exp(-2.0 * far);
    let (cosh, sinh) = (scale * (1.0 + back), scale * (1.0 - back));
    if odd {
        (if z < 0.0 { -sinh } else { sinh }, z * cosh)
    } else {
        (cosh, far * sinh)
    }
}

/// `tanh β`, or `coth β` of the odd form; and `β / cosh² β`, or `−β / sinh² β`.
pub(super) fn at_edge(odd: bool, beta: f64) -> (f64, f64) {
    let fall = libm::exp(-2.0 * beta);
    let tanh = (1.0 - fall) / (1.0 + fall);
    let ratio = if odd { 1.0 / tanh } else { tanh };
    (ratio, beta * (1.0 - ratio * ratio))
}

/// A term: its wave number, half the plate's extent across it times that number, and its strengths.
#[derive(Clone, Copy)]
pub(super) struct Term {
    pub(super) k: f64,
    pub(super) beta: f64,
    pub(super) odd: bool,
    pub(super) a: f64,
    pub(super) b: f64,
}

impl Term {
    /// Deflection, and its second derivatives along the edge and across it, at (s, c).
    pub(super) fn at(&self, s: f64, c: f64) -> [f64; 3] {
        let (first, second) = shape(self.odd, self.beta, self.k * c);
        let sine = libm::sin(self.k * s);
        let w = self.a * first + self.b * second;
        let bent = w + 2.0 * self.b * first;
        let square = self.k * self.k * sine;
        [w * sine, -w * square, bent * square]
    }

    /// Whether this term and all after it are too small to matter at c.
    pub(super) fn fades(&self, c: f64) -> bool {
        self.beta - self.k * libm::fabs(c) > FADED
    }
}

/// e to the minus this is 1e-8.
const FADED: f64 = 18.0;

/// The wave number of term `number` along `length`.
pub(super) fn wave_number(number: u8, length: f64) -> f64 {
    f64::from(number) * PI / length
}

/// The sine coefficient of an even pressure of 1 (odd `number`), or of one that runs from −1 to 1
/// (even `number`).
pub(super) fn pressure(number: u8) -> f64 {
    let four = 4.0 / (f64::from(number) * PI);
    if number.is_multiple_of(2) {
        -four
    } else {
        four
    }
}
