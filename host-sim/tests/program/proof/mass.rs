//! Mass, centre and mounts.

use std::f64::consts::PI;

use super::{G, near, number, plan, steel};
use serde_json::Value;

fn point(value: &Value) -> [f64; 3] {
    let list = value.as_array().unwrap();
    [0, 1, 2].map(|axis| number(&list[axis]))
}

/// A closed box by hand: sheet is outside less inside, at 7850 kg/m³ (EN 1993-1-1); water at 1000.
#[test]
fn a_box() {
    let plan = plan(&steel(
        500.0,
        300.0,
        200.0,
        4.0,
        "[fill]\nheadspace = \"25 %\"\n",
    ));
    let mass = &plan["mass"];
    let inside = 0.492 * 0.292 * 0.192;
    let empty = 7_850.0 * (0.5 * 0.3 * 0.2 - inside);
    near("empty", number(&mass["empty_kg"]), empty, 1e-9);
    near("full", number(&mass["full_kg"]), empty + 1e3 * inside, 1e-9);
    near(
        "fill",
        number(&mass["fill_kg"]),
        empty + 750.0 * inside,
        1e-9,
    );
    let [x, y, z] = point(&mass["fill_centre_m"]);
    let want = (empty * 0.1 + 750.0 * inside * (0.004 + 0.375 * 0.192)) / (empty + 750.0 * inside);
    near("x", x, 0.25, 1e-9);
    near("y", y, 0.15, 1e-9);
    near("z", z, want, 1e-9);
    assert_eq!(mass["mounts"].as_array().unwrap().len(), 0);
}

/// A wedge: the liquid of a block with a sloped side, by the centroids of a rectangle and a triangle.
#[test]
fn a_wedge() {
    let cut = "[[shape.cut]]\nedge = \"bottom front\"\nlegs = [\"100 mm\", \"100 mm\"]\n";
    let job = format!(
        "name = \"T\"\n[shape]\nkind = \"block\"\nsized = \"inside\"\nlength = \"400 mm\"\nwidth = \"300 mm\"\nheight = \"200 mm\"\n{cut}\
         [stock]\nalloy = \"304L\"\nthickness = \"2 mm\"\n[fill]\nheadspace = \"50 %\"\n"
    );
    let plan = plan(&job);
    // Half of 0.055 m² of section; the slope takes 0.005 m² off the lower 100 mm.
    let area: f64 = 0.5 * (0.3 * 0.2 - 0.5 * 0.1 * 0.1);
    let depth = (area + 0.005) / 0.3;
    assert!(depth > 0.1);
    let middle = |whole: f64, at: f64, off: f64, of: f64| (whole * at - off * of) / area;
    let whole = 0.3 * depth;
    let y = middle(whole, 0.15, 0.005, 0.1 / 3.0) + 0.002;
    let z = middle(whole, 0.5 * depth, 0.005, 0.1 / 3.0) + 0.002;
    let mass = &plan["mass"];
    let (empty, fill) = (number(&mass["empty_kg"]), number(&mass["fill_kg"]));
    let liquid = fill - empty;
    near("liquid", liquid, 1e3 * 0.4 * area, 1e-6);
    let ([_, y0, z0], [_, y1, z1]) = (
        point(&mass["empty_centre_m"]),
        point(&mass["fill_centre_m"]),
    );
    near("y", y1, (empty * y0 + liquid * y) / fill, 1e-6);
    near("z", z1, (empty * z0 + liquid * z) / fill, 1e-6);
}

/// A lying drum half full: the half disc hangs 4 r / (3 π) under its axis.
#[test]
fn half_a_drum() {
    let job = "name = \"T\"\n[shape]\nkind = \"drum\"\nsized = \"inside\"\ndiameter = \"400 mm\"\nlength = \"700 mm\"\n\
               axis = \"lying\"\n[stock]\nalloy = \"304L\"\nthickness = \"2 mm\"\n[fill]\nheadspace = \"50 %\"\n";
    let plan = plan(job);
    let mass = &plan["mass"];
    let (empty, fill) = (number(&mass["empty_kg"]), number(&mass["fill_kg"]));
    let liquid = 1e3 * 0.5 * PI * 0.04 * 0.7;
    near("liquid", fill - empty, liquid, 1e-6);
    let [_, y, z] = point(&mass["fill_centre_m"]);
    let axis = 0.202;
    near("y", y, axis, 1e-9);
    let want = (empty * axis + liquid * (axis - 4.0 * 0.2 / (3.0 * PI))) / fill;
    near("z", z, want, 1e-5);
}

/// A rounded profile, summed in layers: its width at a height is that of the box less two corners.
#[test]
fn a_rounded_profile() {
    let job = "name = \"T\"\n[shape]\nkind = \"profile\"\nsized = \"inside\"\nwidth = \"180 mm\"\noutline = [[\"0 mm\", \"0 mm\", \"r 60 mm\"], \
               [\"320 mm\", \"0 mm\"], [\"320 mm\", \"180 mm\"], [\"0 mm\", \"180 mm\"]]\n[stock]\nalloy = \"304L\"\n\
               thickness = \"2 mm\"\n[fill]\nheadspace = \"60 %\"\n";
    let plan = plan(job);
    let mass = &plan["mass"];
    let depth = number(&plan["capacity"]["fill_depth_m"]);
    let (mut area, mut x, mut z) = (0.0, 0.0, 0.0);
    let steps = 200_000;
    for n in 0..steps {
        let high = depth * (f64::from(n) + 0.5) / f64::from(steps);
        let r = 0.06_f64;
        let left = if high < r {
            r - (r * r - (r - high).powi(2)).sqrt()
        } else {
            0.0
        };
        let (wide, dz) = (0.32 - left, depth / f64::from(steps));
        area += wide * dz;
        x += wide * dz * 0.5 * (left + 0.32);
        z += wide * dz * high;
    }
    let (empty, fill) = (number(&mass["empty_kg"]), number(&mass["fill_kg"]));
    let liquid = fill - empty;
    near("liquid", liquid, 1e3 * 0.18 * area, 1e-5);
    let ([x0, _, z0], [x1, _, z1]) = (
        point(&mass["empty_centre_m"]),
        point(&mass["fill_centre_m"]),
    );
    near(
        "x",
        x1,
        (empty * x0 + liquid * (0.002 + x / area)) / fill,
        1e-4,
    );
    near(
        "z",
        z1,
        (empty * z0 + liquid * (0.002 + z / area)) / fill,
        1e-4,
    );
}

/// Three mounts by the lever rule: each bears the share that the centre has in barycentric coordinates of
/// the triangle (statics).
#[test]
fn three_mounts() {
    let at = [[20.0, 30.0], [450.0, 60.0], [200.0, 280.0]];
    let mounts: String = at
        .iter()
        .map(|[x, y]| format!("[[use.mount]]\nat = [\"{x} mm\", \"{y} mm\", \"0 mm\"]\n"))
        .collect();
    let plan = plan(&steel(
        500.0,
        300.0,
        200.0,
        4.0,
        &format!("[use]\nacceleration = [0, 0, 1]\n{mounts}"),
    ));
    let mass = &plan["mass"];
    let weight = number(&mass["full_kg"]) * G;
    let (px, py) = (250.0, 150.0);
    let area = |[[ax, ay], [bx, by], [cx, cy]]: [[f64; 2]; 3]| {
        (bx - ax) * (cy - ay) - (cx - ax) * (by - ay)
    };
    let whole = area(at);
    for n in 0..3 {
        let mut part = at;
        part[n] = [px, py];
        let share = area(part) / whole;
        let got = |key: &str| number(&mass["mounts"][n][key]);
        near("still", got("still_n"), share * weight, 1e-9);
        // 1 g up and down besides: from nothing to twice as much.
        near("most", got("most_n"), 2.0 * share * weight, 1e-9);
        assert!(got("least_n").abs() < 1e-6 * weight);
    }
}

#[test]
fn mounts_that_bear_nothing() {
    let mount = |x: f64| format!("[[use.mount]]\nat = [\"{x} mm\", \"150 mm\", \"0 mm\"]\n");
    let plan = plan(&steel(
        500.0,
        300.0,
        200.0,
        4.0,
        &(mount(50.0) + &mount(450.0)),
    ));
    let told = plan["mass"]["mounts_refused"].as_str().unwrap();
    assert!(told.contains("on one line"), "{told}");
}

/// A tank on four feet that is braked and thrown to the side, by statics of a rigid block full or empty: the table has the
/// least and the most with when they are, and a tank that tips is told.
#[test]
fn four_feet_that_tip() {
    let feet: String = [[0, 0], [200, 0], [0, 200], [200, 200]]
        .iter()
        .map(|[x, y]| format!("[[use.mount]]\nat = [\"{x} mm\", \"{y} mm\", \"0 mm\"]\n"))
        .collect();
    let job = |share: f64| {
        steel(
            200.0,
            200.0,
            600.0,
            2.0,
            &format!("[use]\nacceleration = [{share}, 0, 0]\n{feet}"),
        )
    };
    let codes = |plan: &Value| -> Vec<String> {
        let notices = plan["notices"].as_array().unwrap();
        let code = |one: &Value| one["code"].as_str().unwrap().to_owned();
        notices.iter().map(code).collect()
    };
    // Full, its centre 300 mm up over a half of its width of 100 mm.
    let shaken = plan(&job(0.5));
    let mass = &shaken["mass"];
    let weight = number(&mass["full_kg"]) * G;
    let most = 0.25 * weight * (1.0 + 0.5 * 300.0 / 100.0);
    for mount in mass["mounts"].as_array().unwrap() {
        near("still", number(&mount["still_n"]), 0.25 * weight, 1e-9);
        // Liquid with room to run is no lighter than this at the most, nor is it at the least.
        assert!(number(&mount["most_n"]) >= most * (1.0 - 1e-9));
        let least = 0.25 * weight * (1.0 - 0.5 * 300.0 / 100.0);
        assert!(number(&mount["least_n"]) <= least * (1.0 - 1e-9));
        let along = number(&mount["least_at"]["acceleration_g"][0]);
        near("shaken", along.abs(), 0.5, 1e-9);
        assert!(number(&mount["slosh_n"]) > 0.0);
    }
    let holds = number(&mass["tipping"]["holds_n_m"]);
    assert!(
        holds <= weight * (0.1 - 0.5 * 0.3) * (1.0 - 1e-9),
        "{holds}"
    );
    assert_eq!(mass["slosh"][0]["along"], "length");
    let told = codes(&shaken);
    let place = |code: &str| told.iter().position(|one| one == code);
    assert!(place("mount-lifts") < place("tank-tips") && place("mount-lifts").is_some());
    // At a hundredth of g it stands.
    let told = codes(&plan(&job(0.01)));
    assert!(
        !told
            .iter()
            .any(|one| one == "tank-tips" || one == "mount-lifts")
    );
}

/// Water of 15 °C in a tank that is 85 °C warm in service, 2 % kept free: it grows by 3.148 % (999.10 and 968.61 kg/m³,
/// IAPWS, from memory), the steel by three times 16e-6 for each kelvin (EN 10088-1, from memory). The job tells the
/// temperature of the service alone.
#[test]
fn warm_by_its_service() {
    let job = |fill: &str, service: &str| {
        format!(
            "name = \"T\"\n[shape]\nkind = \"block\"\nsized = \"inside\"\nlength = \"500 mm\"\nwidth = \"400 mm\"\n\
             height = \"300 mm\"\n[stock]\nalloy = \"304L\"\nthickness = \"2 mm\"\n[fill]\nheadspace = \"2 %\"\n\
             liquid = \"water\"\n{fill}[use]\n{service}"
        )
    };
    let hot = "temperature = \"85 °C\"\n";
    let warm = plan(&job("", hot));
    let brim = 0.5 * 0.4 * 0.3;
    let spilt = brim * (0.98 * 999.10 / 968.61 - (1.0 + 3.0 * 16e-6 * 70.0));
    let growth = &warm["capacity"]["growth"];
    near("hottest", number(&growth["hottest_c"]), 85.0, 1e-9);
    near("runs over", number(&growth["runs_over_m3"]), spilt, 5e-3);
    let notices = |plan: &Value| plan["notices"].to_string();
    assert!(notices(&warm).contains("runs-over-when-warm"));
    // The hotter of the two counts, and where it is no warmer than the filling nothing is said.
    let both = plan(&job("hottest = \"40 °C\"\n", hot));
    assert_eq!(both["capacity"]["growth"], *growth);
    let cold = plan(&job("", "temperature = \"5 °C\"\n"));
    assert!(cold["capacity"].get("growth").is_none());
    // Past what is known of water that is told.
    let steam = plan(&job("", "temperature = \"180 °C\"\n"));
    assert!(notices(&steam).contains("growth-unknown"));
}
