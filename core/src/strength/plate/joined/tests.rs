extern crate std;
use super::{Edge, Joint, Net, Place, Slab};
use crate::strength::plate::{Ramp, Sides, clamped, supported};

fn slab(short: f64, long: f64, ramp: Ramp, stiffness: f64) -> Slab {
    Slab::new(Sides::new(short, long).unwrap(), ramp, stiffness)
}

/// A box of three pairs of walls, each pair alike, under the same pressure everywhere: which edge of one pair meets which
/// of another hangs on which side is shorter.
fn boxed(sides: [f64; 3], stiffness: [f64; 3]) -> Net {
    let mut net = Net::new();
    // Pair 0 stands across x, with sides y and z.
    for pair in 0..3 {
        let (a, b) = (sides[(pair + 1) % 3], sides[(pair + 2) % 3]);
        for _ in 0..2 {
            net.add(slab(a.min(b), a.max(b), Ramp::even(1.0), stiffness[pair]))
                .unwrap();
        }
    }
    // The edge of wall `pair` that lies against the high or low wall of `toward`.
    let edge = |pair: usize, toward: usize, high: bool| {
        let (a, b) = ((pair + 1) % 3, (pair + 2) % 3);
        let (short, _) = if sides[a] <= sides[b] { (a, b) } else { (b, a) };
        match (toward == short, high) {
            (true, false) => Edge::LongLow,
            (true, true) => Edge::LongHigh,
            (false, false) => Edge::ShortLow,
            (false, true) => Edge::ShortHigh,
        }
    };
    for one in 0..3 {
        for other in one + 1..3 {
            for high_one in [false, true] {
                for high_other in [false, true] {
                    let place = |pair: usize, high, toward, there| Place {
                        slab: 2 * pair + usize::from(high),
                        edge: edge(pair, toward, there),
                        back: false,
                    };
                    net.join(Joint {
                        ends: [
                            Some(place(one, high_one, other, high_other)),
                            Some(place(other, high_other, one, high_one)),
                        ],
                    })
                    .unwrap();
                }
            }
        }
    }
    net.solve();
    net
}

#[test]
fn trial() {
    // Of a cube no edge turns: each wall is a clamped one.
    let net = boxed([1.0; 3], [1.0; 3]);
    let alone = clamped(Sides::new(1.0, 1.0).unwrap(), Ramp::even(1.0));
    std::eprintln!("cube {} {}", net.edge_moment(0, Edge::LongLow), alone.moment);
    std::eprintln!("in {:?} {:?}", net.within(0, 0.3), alone.deflection);
    for ratio in [1.5, 2.0, 3.0, 4.0, 6.0, 8.0] {
        // Walls across x stand between rigid ones.
        let net = boxed([1.0, 1.0, ratio], [1.0, 1.0, 1e9]);
        let alone = clamped(Sides::new(1.0, ratio).unwrap(), Ramp::even(1.0));
        std::eprintln!(
            "{ratio} {} {} {} | {:?} {}",
            net.edge_moment(0, Edge::LongLow),
            net.edge_moment(0, Edge::ShortLow),
            alone.moment,
            net.within(0, 0.3),
            alone.deflection
        );
    }
    // A frame: a long box of sides a and b, p (a² − a b + b²) / 12.
    for b in [1.0, 0.7, 0.4, 0.2] {
        let net = boxed([1.0, b, 6.0], [1.0; 3]);
        let want = (1.0 - b + b * b) / 12.0;
        std::eprintln!("frame {b} {} {} {want}", net.edge_moment(0, Edge::LongLow), net.edge_moment(2, Edge::LongLow));
        std::eprintln!("   {:?} {:?}", net.within(2, 0.3), supported(Sides::new(1.0, 6.0).unwrap(), Ramp::even(1.0), 0.3).moment - want);
    }
}
