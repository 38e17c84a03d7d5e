//! Plates with a free top edge: against tables that were made apart from this project, and against a numerical
//! solution of the plate's energy on a grid, whose free edge is free by itself.

#![expect(clippy::cast_precision_loss, reason = "small grid numbers")]

use seamwright_core::strength::panel::{Bound, Metal, open_top};
use seamwright_core::strength::plate::{OpenTop, Rise};
use seamwright_core::units::Pressure;
use seamwright_core::units::input::{Input, OPEN_RATIO};
use seamwright_tests::Outcome;
use seamwright_tests::amounts::mm;
use seamwright_tests::checks::{geometry, input};
use seamwright_tests::near::{Tolerance, near};

const LIQUID: Rise = Rise {
    base: 1.0,
    top: 0.0,
};
const EVEN: Rise = Rise {
    base: 1.0,
    top: 1.0,
};

/// `plate-open-top-…` of `data/geometry/checks.json`: Ritz's way with polynomials, for ν = 0.3. Its own note puts
/// the moment along the sides within 1 %.
#[test]
fn the_tables() -> Outcome {
    for id in [
        "plate-open-top-0.5-CFCC",
        "plate-open-top-0.5-SFSS",
        "plate-open-top-1-CFCC",
        "plate-open-top-1.5-CFCC",
        "plate-open-top-1.5-SFSS",
        "plate-open-top-2-CFCC",
    ] {
        let check = geometry(id);
        let width = input(&check, "width_over_height")?;
        let plate = OpenTop::new(width, 1.0).unwrap();
        let want = |key: &str| check["expected"][key].as_f64();
        let held = check["inputs"]["bc_base_top_sides"] == "CFCC";
        let got = if held {
            plate.clamped(LIQUID, 0.3)
        } else {
            plate.supported(LIQUID, 0.3)
        };
        let w = want("wmax_D_q0h4").unwrap();
        near(id, got.deflection, w, Tolerance::relative(2e-4))?;
        if held {
            let (base, side) = (want("base_M").unwrap(), want("side_edge_M_min").unwrap());
            let most = base.abs().max(side.abs());
            // Where the side rules the table itself is 1 % off at the most.
            near(id, got.moment, most, Tolerance::relative(5e-3))?;
        }
    }
    Ok(())
}

/// A wide one is near a shelf from its base: `w = q h⁴/30`, `M = q h²/6` under a liquid (any table of beams).
#[test]
fn a_shelf() -> Outcome {
    let wide = OpenTop::new(5.0, 1.0).unwrap().clamped(LIQUID, 0.3);
    // The sides still hold it a little, and a plate's middle rolls over less than it sags.
    near("w", wide.deflection, 1.0 / 30.0, Tolerance::relative(0.1))?;
    near("M", wide.moment, 1.0 / 6.0, Tolerance::relative(0.05))?;
    assert!(wide.deflection < 1.0 / 30.0 && wide.moment < 1.0 / 6.0);
    Ok(())
}

/// Timoshenko and Woinowsky-Krieger, table 41 (from memory), ν = 0.3: an even pressure, three edges free to turn
/// and the fourth free: height over width, and in the middle of the free edge w D/(q a⁴) and M/(q a²). Its last
/// line is a plate without end.
#[test]
fn an_even_pressure_by_timoshenko() -> Outcome {
    for (ratio, w, moment) in [
        (0.5, 0.007_10, 0.060),
        (1.0, 0.012_86, 0.112),
        (1.5, 0.014_62, 0.128),
        (2.0, 0.015_07, 0.132),
        (3.0, 0.015_20, 0.133),
        (5.0, 0.015_22, 0.133),
    ] {
        let got = OpenTop::new(1.0, ratio).unwrap().supported(EVEN, 0.3);
        let what = format!("{ratio}");
        near(&what, got.deflection, w, Tolerance::relative(1.5e-3))?;
        near(&what, got.moment, moment, Tolerance::relative(0.01))?;
    }
    Ok(())
}

struct Solved {
    w: f64,
    base: f64,
    side: f64,
    within: f64,
}

/// Half the energy `(w_xx + w_yy)² − 2 (1 − ν) (w_xx w_yy − w_xy²)` summed over a grid of squares, made least:
/// bending at the nodes, twist in the squares. Beyond base and sides the plate is mirrored, beyond the free edge
/// stands one more row of nodes that the energy alone puts in place. For a height of 1 and D = 1.
fn solve(width: f64, fine: usize, fixed: bool, nu: f64, load: Rise) -> Solved {
    let ny = fine;
    let nx = (width * fine as f64).round() as usize;
    let h = 1.0 / fine as f64;
    // Columns 1 to nx − 1, rows 1 to ny + 1.
    let wide = nx - 1;
    let count = wide * (ny + 1);
    let spot = |x: i64, y: i64| -> Option<(usize, f64)> {
        let mirrored = if fixed { 1.0 } else { -1.0 };
        let (mut x, mut y, mut sign) = (x, y, 1.0);
        let n = i64::try_from(nx).unwrap();
        if x < 0 {
            (x, sign) = (-x, sign * mirrored);
        }
        if x > n {
            (x, sign) = (2 * n - x, sign * mirrored);
        }
        if y < 0 {
            (y, sign) = (-y, sign * mirrored);
        }
        if x == 0 || x == n || y == 0 {
            return None;
        }
        let (x, y) = (usize::try_from(x).unwrap(), usize::try_from(y).unwrap());
        Some(((y - 1) * wide + x - 1, sign))
    };
    let band = 2 * wide + 2;
    let mut rows = vec![vec![0.0; 2 * band + 1]; count];
    let mut w = vec![0.0; count];
    let mut square = |one: &[(i64, i64, f64)], other: &[(i64, i64, f64)], times: f64| {
        for (x, y, a) in one {
            for (u, v, b) in other {
                if let (Some((i, s)), Some((j, t))) = (spot(*x, *y), spot(*u, *v)) {
                    rows[i][j + band - i] += times * a * b * s * t;
                }
            }
        }
    };
    let (nx_, ny_) = (i64::try_from(nx).unwrap(), i64::try_from(ny).unwrap());
    let q = 1.0 / (h * h);
    for y in 0..=ny_ {
        for x in 0..=nx_ {
            let part = |at: i64, end: i64| if at == 0 || at == end { 0.5 } else { 1.0 };
            let area = h * h * part(x, nx_) * part(y, ny_);
            let xx = [(x - 1, y, q), (x, y, -2.0 * q), (x + 1, y, q)];
            let yy = [(x, y - 1, q), (x, y, -2.0 * q), (x, y + 1, q)];
            square(&xx, &xx, area);
            square(&yy, &yy, area);
            square(&xx, &yy, nu * area);
            square(&yy, &xx, nu * area);
            if x < nx_ && y < ny_ {
                let xy = [(x, y, q), (x + 1, y, -q), (x, y + 1, -q), (x + 1, y + 1, q)];
                square(&xy, &xy, 2.0 * (1.0 - nu) * h * h);
            }
            if let Some((at, _)) = spot(x, y) {
                let up = y as f64 * h;
                w[at] += area * (load.base + (load.top - load.base) * up);
            }
        }
    }
    // Gauss in the band; an energy has no pivot that vanishes.
    for k in 0..count {
        let lead = rows[k].clone();
        for r in k + 1..(k + band + 1).min(count) {
            let factor = rows[r][k + band - r] / lead[band];
            if factor != 0.0 {
                for c in k..(k + band + 1).min(count) {
                    rows[r][c + band - r] -= factor * lead[c + band - k];
                }
                w[r] -= factor * w[k];
            }
        }
    }
    for k in (0..count).rev() {
        let later: f64 = (k + 1..(k + band + 1).min(count))
            .map(|c| rows[k][c + band - k] * w[c])
            .sum();
        w[k] = (w[k] - later) / rows[k][band];
    }
    let at = |x: i64, y: i64| spot(x, y).map_or(0.0, |(at, sign)| sign * w[at]);
    let mut got = Solved {
        w: 0.0,
        base: 0.0,
        side: 0.0,
        within: 0.0,
    };
    for y in 0..=ny_ {
        for x in 0..=nx_ {
            let here = at(x, y);
            let xx = q * (at(x - 1, y) - 2.0 * here + at(x + 1, y));
            let yy = q * (at(x, y - 1) - 2.0 * here + at(x, y + 1));
            // Within a sheet's grid of a free corner or beyond the rim the twist is that of the square below.
            let top = (y + 1).min(ny_);
            let low = (y - 1).max(0);
            let (left, right) = ((x - 1).max(0), (x + 1).min(nx_));
            let cell = ((top - low) * (right - left)) as f64;
            let xy = q * (at(right, top) - at(left, top) - at(right, low) + at(left, low)) / cell;
            let (mx, my, mxy) = (xx + nu * yy, yy + nu * xx, (1.0 - nu) * xy);
            let most = 0.5 * (mx + my).abs() + (0.5 * (mx - my)).hypot(mxy);
            got.w = got.w.max(here);
            got.within = got.within.max(most);
            if y == 0 {
                got.base = got.base.max(my.abs());
            }
            if x == 0 && y < ny_ {
                got.side = got.side.max(mx.abs());
            }
        }
    }
    got
}

/// The series against the grid, for other widths, loads and ratios of Poisson than the tables have. Errors of the
/// grid fall to a quarter with half the spacing, but at the corners.
#[test]
fn the_grid() -> Outcome {
    for (width, nu) in [(0.5, 0.3), (1.0, 0.33), (2.0, 0.3), (3.0, 0.28)] {
        let plate = OpenTop::new(width, 1.0).unwrap();
        for load in [LIQUID, EVEN] {
            for fixed in [true, false] {
                let got = if fixed {
                    plate.clamped(load, nu)
                } else {
                    plate.supported(load, nu)
                };
                let fine = if width > 1.5 { 10 } else { 16 };
                let [rough, near_] =
                    [fine, 2 * fine].map(|fine| solve(width, fine, fixed, nu, load));
                let last = |of: fn(&Solved) -> f64| of(&near_) + (of(&near_) - of(&rough)) / 3.0;
                let what = format!("{width} {load:?} fixed {fixed}");
                near(
                    &what,
                    got.deflection,
                    last(|s| s.w),
                    Tolerance::relative(0.01),
                )?;
                if fixed {
                    let most = last(|s| s.base).max(last(|s| s.side));
                    let share = got.moment / most;
                    assert!((0.985..1.10).contains(&share), "{what}: {share}");
                    assert!(last(|s| s.within) <= 1.02 * got.moment, "{what}");
                } else {
                    let share = got.moment / last(|s| s.within);
                    assert!((0.985..1.02).contains(&share), "{what}: {share}");
                }
            }
        }
    }
    Ok(())
}

/// An open dip tank 600 mm wide and high in 3 mm steel, full of water: by the table of the square plate.
#[test]
fn a_wall_of_an_open_tank() -> Outcome {
    let (h, t, e, nu) = (0.6, 3.0_f64, 210e9, 0.3);
    let metal = Metal::new(Pressure::from_pascals(e), nu, Pressure::from_pascals(200e6))?;
    let q = 1_000.0 * 9.806_65 * h;
    let [base, none] = [q, 0.0].map(Pressure::from_pascals);
    let got = open_top(mm(600.0), mm(600.0), mm(t), metal, base, none)?;
    let check = geometry("plate-open-top-1-CFCC");
    let want = |key: &str| check["expected"][key].as_f64().unwrap();
    let t = t * 1e-3;
    let d = e * t * t * t / (12.0 * (1.0 - nu * nu));
    let stress = 6.0 * want("base_M").abs() * q * h * h / (t * t);
    near(
        "s",
        got.stress_clamped.si(),
        stress,
        Tolerance::relative(2e-3),
    )?;
    let bulge = want("wmax_D_q0h4") * q * h.powi(4) / d;
    near(
        "w",
        got.bulge_clamped.si(),
        bulge,
        Tolerance::relative(2e-3),
    )?;
    assert!(got.bulge_supported > got.bulge_clamped && got.bulges);
    assert_eq!(got.ruling, Bound::Clamped);
    near(
        "reserve",
        got.reserve,
        200e6 / stress,
        Tolerance::relative(2e-3),
    )?;
    // Past what the series holds for it is refused, not guessed.
    let (least, most) = OPEN_RATIO;
    for ratio in [0.99 * least, 1.01 * most] {
        let wide = mm(600.0 * ratio);
        let refused = open_top(wide, mm(600.0), mm(3.0), metal, base, none);
        assert_eq!(refused.unwrap_err().input, Input::Spread);
    }
    assert!(OpenTop::new(f64::NAN, 1.0).is_none() && OpenTop::new(1.0, 0.0).is_none());
    Ok(())
}
