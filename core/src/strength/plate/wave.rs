//! The sine terms of a plate's deflection: `sin(k s) (a cosh z + b z sinh z)`, or the odd form
//! `sin(k s) (a sinh z + b z cosh z)`, z = k c; s runs along an edge, c away from the middle.

use core::f64::consts::PI;

/// The terms of one series at a point, one after another. Sines and powers of e are made each from the one before: with
/// doubles in software a sine or a power takes thousands of instructions.
#[derive(Clone, Copy)]
pub(super) struct Waves {
    next: Wave,
    /// From a number to the next.
    step: f64,
    /// The wave number of 1, half the extent across, and |c|.
    unit: f64,
    half: f64,
    far: f64,
    /// The sine before, and twice the cosine of what the angle grows by.
    before: f64,
    twice: f64,
    /// What `near`, `fall` and `back` are multiplied by.
    by: [f64; 3],
}

/// One term at a point.
#[derive(Clone, Copy)]
pub(super) struct Wave {
    number: f64,
    pub(super) k: f64,
    /// z at the edge.
    pub(super) beta: f64,
    /// z without its sign, and whether that is less than zero.
    far: f64,
    below: bool,
    sine: f64,
    /// `e^(|z| − β)`, `e^(−2 β)`, `e^(−2 |z|)`: falling powers only, so that no long plate overflows.
    near: f64,
    fall: f64,
    back: f64,
}

impl Waves {
    /// Terms `first`, `first + step`, … along `length` of a plate that is `across` wide, at (s, c).
    pub(super) fn at([first, step]: [u8; 2], [length, across]: [f64; 2], [s, c]: [f64; 2]) -> Self {
        let unit = PI / length;
        let [first, step] = [first, step].map(f64::from);
        let (half, far) = (0.5 * across, libm::fabs(c));
        let (angle, turn) = (first * unit * s, step * unit * s);
        let powers = |number: f64| {
            let k = number * unit;
            [
                libm::exp(k * (far - half)),
                libm::exp(-2.0 * k * half),
                libm::exp(-2.0 * k * far),
            ]
        };
        let [near, fall, back] = powers(first);
        let by = if first.to_bits() == step.to_bits() {
            [near, fall, back]
        } else {
            powers(step)
        };
        Self {
            next: Wave {
                number: first,
                k: first * unit,
                beta: first * unit * half,
                far: first * unit * far,
                below: c < 0.0,
                sine: libm::sin(angle),
                near,
                fall,
                back,
            },
            step,
            unit,
            half,
            far,
            before: libm::sin(angle - turn),
            twice: 2.0 * libm::cos(turn),
            by,
        }
    }

    /// The same where only what stands at the edges is asked for.
    pub(super) fn along(numbers: [u8; 2], length: f64, across: f64) -> Self {
        Self::at(numbers, [length, across], [0.0; 2])
    }
}

impl Iterator for Waves {
    type Item = Wave;

    fn next(&mut self) -> Option<Wave> {
        let wave = self.next;
        let number = wave.number + self.step;
        let [near, fall, back] = self.by;
        let k = number * self.unit;
        self.next = Wave {
            number,
            k,
            beta: k * self.half,
            far: k * self.far,
            below: wave.below,
            sine: self.twice * wave.sine - self.before,
            near: wave.near * near,
            fall: wave.fall * fall,
            back: wave.back * back,
        };
        self.before = wave.sine;
        Some(wave)
    }
}

impl Wave {
    /// A term of which only what stands at the edges is asked for, by [`first_fall`] of the same two sides.
    pub(super) fn along(number: u8, length: f64, across: f64, first_fall: f64) -> Self {
        let k = wave_number(number, length);
        Self {
            number: f64::from(number),
            k,
            beta: 0.5 * k * across,
            far: 0.0,
            below: false,
            sine: 0.0,
            near: 0.0,
            fall: power(first_fall, number),
            back: 1.0,
        }
    }

    /// `tanh β`, or `coth β` of the odd form; and `β / cosh² β`, or `−β / sinh² β`.
    pub(super) fn at_edge(&self, odd: bool) -> (f64, f64) {
        let tanh = (1.0 - self.fall) / (1.0 + self.fall);
        let ratio = if odd { 1.0 / tanh } else { tanh };
        (ratio, self.beta * (1.0 - ratio * ratio))
    }

    /// The two functions over the first one's value at the edge: `cosh z / cosh β` and `z sinh z / cosh β`, or odd
    /// `sinh z / sinh β` and `z cosh z / sinh β`.
    fn shape(&self, odd: bool) -> (f64, f64) {
        let sign = if odd { -1.0 } else { 1.0 };
        let scale = self.near / (1.0 + sign * self.fall);
        let (cosh, sinh) = (scale * (1.0 + self.back), scale * (1.0 - self.back));
        match (odd, self.below) {
            (true, true) => (-sinh, -self.far * cosh),
            (true, false) => (sinh, self.far * cosh),
            (false, _) => (cosh, self.far * sinh),
        }
    }

    /// Deflection, and its second derivatives along the edge and across it, for the strengths a and b.
    pub(super) fn bent(&self, odd: bool, a: f64, b: f64) -> [f64; 3] {
        let (first, second) = self.shape(odd);
        let w = a * first + b * second;
        let bent = w + 2.0 * b * first;
        let square = self.k * self.k * self.sine;
        [w * self.sine, -w * square, bent * square]
    }

    /// The same of a moment along both edges, of this size along the high one and alike or (odd) opposite along the low one:
    /// Timoshenko and Woinowsky-Krieger, article 41.
    pub(super) fn bent_at_edges(&self, odd: bool, moment: f64) -> [f64; 3] {
        let (edge, _) = self.at_edge(odd);
        let half = 0.5 * moment / (self.k * self.k);
        self.bent(odd, half * self.beta * edge, -half)
    }

    /// Whether this term and all after it are too small to matter at the point.
    pub(super) fn fades(&self) -> bool {
        self.beta - self.far > FADED
    }
}

/// e to the minus this is 1e-8.
const FADED: f64 = 18.0;

/// `e^(−2 β)` of the first term along `length` of a plate that is `across` wide.
pub(super) fn first_fall(length: f64, across: f64) -> f64 {
    libm::exp(-PI * across / length)
}

/// A power by squares.
fn power(of: f64, mut times: u8) -> f64 {
    let (mut square, mut product) = (of, 1.0);
    while times > 0 {
        if times % 2 == 1 {
            product *= square;
        }
        square *= square;
        times /= 2;
    }
    product
}

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

/// The sum of sine terms 1, 2, … at a share of the way along.
pub(super) fn sines(terms: &[f64], share: f64) -> f64 {
    summed(terms, PI * share, PI * share)
}

/// The sum of sine terms `first`, `first + 2`, …
pub(super) fn every_other(terms: &[f64], first: u8, share: f64) -> f64 {
    summed(terms, f64::from(first) * PI * share, 2.0 * PI * share)
}

fn summed(terms: &[f64], angle: f64, turn: f64) -> f64 {
    let twice = 2.0 * libm::cos(turn);
    let (mut before, mut sine) = (libm::sin(angle - turn), libm::sin(angle));
    let mut sum = 0.0;
    for term in terms {
        sum += term * sine;
        (before, sine) = (sine, twice * sine - before);
    }
    sum
}
