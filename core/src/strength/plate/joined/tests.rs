use super::{Edge, Joint, Net, Place, Slab};
use crate::strength::plate::{Ramp, Sides, clamped, supported};

fn slab(short: f64, long: f64, ramp: Ramp, stiffness: f64) -> Slab {
    Slab::new(Sides::new(short, long).unwrap(), ramp, stiffness)
}

/// A box of three pairs of walls, each pair alike, under a pressure of 1 everywhere. Pair 0 stands across x, with sides y
/// and z, and so on; the low wall of a pair comes first.
fn boxed(sides: [f64; 3], stiffness: [f64; 3]) -> Net {
    let mut net = Net::new();
    for pair in 0..3 {
        let (a, b) = (sides[(pair + 1) % 3], sides[(pair + 2) % 3]);
        for _ in 0..2 {
            let wall = slab(a.min(b), a.max(b), Ramp::even(1.0), stiffness[pair]);
            net.add(wall).unwrap();
        }
    }
    // The edge of a wall of `pair` that lies against the low or the high wall of `toward`.
    let edge = |pair: usize, toward: usize, high: bool| {
        let (a, b) = ((pair + 1) % 3, (pair + 2) % 3);
        let short = if sides[a] <= sides[b] { a } else { b };
        match (toward == short, high) {
            (true, false) => Edge::LongLow,
            (true, true) => Edge::LongHigh,
            (false, false) => Edge::ShortLow,
            (false, true) => Edge::ShortHigh,
        }
    };
    let place = |pair: usize, high, toward, there| {
        Some(Place {
            slab: 2 * pair + usize::from(high),
            edge: edge(pair, toward, there),
            back: false,
        })
    };
    for (one, other) in [(0, 1), (0, 2), (1, 2)] {
        for [high_one, high_other] in [[false, false], [false, true], [true, false], [true, true]] {
            let ends = [
                place(one, high_one, other, high_other),
                place(other, high_other, one, high_one),
            ];
            net.join(Joint { ends }).unwrap();
        }
    }
    net.solve();
    net
}

fn near(got: f64, want: f64, share: f64) {
    assert!((got - want).abs() < share * want.abs(), "{got} {want}");
}

/// No edge of a cube turns, so that each wall is one whose edges are held: Timoshenko and Woinowsky-Krieger, table 35.
#[test]
fn walls_of_a_cube_are_held() {
    let net = boxed([1.0; 3], [1.0; 3]);
    let alone = clamped(Sides::new(1.0, 1.0).unwrap(), Ramp::even(1.0));
    for wall in 0..6 {
        for edge in Edge::ALL {
            near(net.edge_moment(wall, edge), alone.moment, 0.002);
            near(net.edge_moment(wall, edge), 0.0513, 0.005);
        }
        let [moment, deflection] = net.within(wall, 0.3);
        near(moment, 0.0231, 0.02);
        near(deflection, 0.00126, 0.01);
    }
}

/// Between walls that are a great deal stiffer, and not pressed harder, an edge is held.
#[test]
fn stiff_neighbours_hold() {
    for ratio in [1.5, 2.0, 3.0, 4.0, 6.0, 8.0] {
        let net = boxed([1.0, 1.0, ratio], [1.0, 1.0, 1e9]);
        let alone = clamped(Sides::new(1.0, ratio).unwrap(), Ramp::even(1.0));
        near(net.edge_moment(0, Edge::LongLow), alone.moment, 0.015);
        let [_, deflection] = net.within(0, 0.3);
        near(deflection, alone.deflection, 0.04);
    }
}

/// A long box is a frame: `p (a² − a b + b²)/12` at its corners, by slopes and deflections; with walls of other stiffness
/// `p (a³/D_a + b³/D_b)/(12 (a/D_a + b/D_b))`, which is that with both alike.
#[test]
fn a_long_box_is_a_frame() {
    for (b, stiff) in [
        (1.0, 1.0),
        (0.7, 1.0),
        (0.4, 1.0),
        (0.2, 1.0),
        (0.6, 8.0),
        (0.6, 0.125),
    ] {
        let net = boxed([1.0, b, 6.0], [stiff, 1.0, 1.0]);
        // Walls across x span b, and are `stiff`; those across y span 1.
        let want = (b * b * b / stiff + 1.0) / (12.0 * (b / stiff + 1.0));
        near(net.edge_moment(0, Edge::LongLow), want, 0.012);
        near(net.edge_moment(2, Edge::LongLow), want, 0.012);
        let long = supported(Sides::new(1.0, 6.0).unwrap(), Ramp::even(1.0), 0.3);
        let [moment, _] = net.within(2, 0.3);
        near(moment, long.moment - want, 0.02);
    }
}

/// A wall that nothing presses is bent by its neighbours: the moment of the seam is the same in both.
#[test]
fn a_seam_has_one_moment() {
    let net = boxed([1.0, 0.8, 1.3], [1.0, 3.0, 0.4]);
    assert_eq!(net.pairs().count(), 12);
    for [one, other] in net.pairs() {
        let [a, b] = [one, other].map(|end| net.edge_moment(end.slab, end.edge));
        near(a, b, 1e-9);
    }
}
