//! The order of tacking as the report, JSON and the job sheet give it.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;

use crate::support::{EXAMPLES, NAME, SHAPE, STOCK, example, good, run, told};
use serde_json::Value;

const BAFFLE: &str = "\n[[baffle]]\nacross = \"length\"\nat = \"160 mm\"\n[[baffle.hole]]\nat = [\"90 mm\", \"40 mm\"]\ndiameter = \"30 mm\"\n";

/// `(order, seam, millimetres)` of each tack.
type Tacks = Vec<(u64, String, f64)>;

fn in_json(plan: &Value) -> Tacks {
    let all = plan["tacks"].as_array().unwrap().iter();
    let mut tacks: Tacks = all
        .map(|one| {
            let seam = one["seam"].as_str().unwrap().to_owned();
            (
                one["order"].as_u64().unwrap(),
                seam,
                one["at_m"].as_f64().unwrap() * 1e3,
            )
        })
        .collect();
    tacks.sort_by_key(|(order, ..)| *order);
    tacks
}

/// The tacks in rows of `no. seam at` side by side, whatever else stands about them.
fn in_rows(rows: impl Iterator<Item = Vec<String>>) -> Tacks {
    let mut tacks = Tacks::new();
    for row in rows {
        for cells in row.chunks(3) {
            let [order, seam, at] = cells else { continue };
            let (Ok(order), Some(at)) = (order.parse(), at.strip_suffix(" mm")) else {
                continue;
            };
            tacks.push((order, seam.clone(), at.parse().unwrap()));
        }
    }
    tacks.sort_by_key(|(order, ..)| *order);
    tacks
}

fn alike(a: &Tacks, b: &Tacks) {
    assert_eq!(a.len(), b.len());
    for ((order, seam, at), (own_order, own_seam, own_at)) in a.iter().zip(b) {
        assert_eq!((order, seam), (own_order, own_seam));
        assert!(
            (at - own_at).abs() <= 0.5 + 1e-9,
            "{order} {seam}: {at} {own_at}"
        );
    }
}

#[test]
fn every_tack_of_the_json_has_its_place() {
    for name in EXAMPLES {
        let path = example(name);
        let plan = good(&["plan", path.to_str().unwrap(), "--json"]);
        let plan: Value = serde_json::from_str(&plan).unwrap();
        let tacks = in_json(&plan);
        let orders: Vec<u64> = tacks.iter().map(|(order, ..)| *order).collect();
        let count = plan["totals"]["tack_count"].as_u64().unwrap();
        assert_eq!(orders, (1..=count).collect::<Vec<u64>>(), "{name}");
        // The list itself stays seam by seam, each from its start.
        let listed: Vec<(&str, f64)> = plan["tacks"]
            .as_array()
            .unwrap()
            .iter()
            .map(|one| (one["seam"].as_str().unwrap(), one["at_m"].as_f64().unwrap()))
            .collect();
        let mut seen = BTreeSet::new();
        for pair in listed.windows(2) {
            let ((seam, at), (next, next_at)) = (pair[0], pair[1]);
            assert!(seam != next || at < next_at, "{name}");
            assert!(seam == next || seen.insert(seam), "{name}");
        }
        let sums = &plan["tacking"];
        let [own, plain] = ["pull", "pull_seam_by_seam"].map(|key| sums[key].as_f64().unwrap());
        assert!(own < 0.4 * plain, "{name}: {own} {plain}");
        // The panel that closes comes last: none of its seams before any other.
        let closing = sums["closing_panel"].as_str().unwrap();
        let closes: Vec<bool> = tacks
            .iter()
            .map(|(_, seam, _)| seam.contains(closing))
            .collect();
        assert!(closes.is_sorted() && closes[closes.len() - 1], "{name}");
    }
}

#[test]
fn the_report_tables_the_same_order() {
    let folder = tempfile::tempdir().unwrap();
    fs::write(
        folder.path().join("tank.toml"),
        format!("{NAME}{SHAPE}{STOCK}{BAFFLE}"),
    )
    .unwrap();
    let out = |arguments: &[&str]| {
        let output = run(folder.path(), arguments);
        assert!(output.status.success(), "{}", told(&output));
        String::from_utf8(output.stdout).unwrap()
    };
    let text = out(&["plan", "tank.toml"]);
    let section = text.split("\nTack in this order\n").nth(1).unwrap();
    let section = section.split("\n\n").next().unwrap();
    let parts = [
        "Stage 1, walls up and tacked",
        "Stage 2, baffles in",
        "Stage 3, closing the tank",
    ];
    let places = parts.map(|part| section.find(part).unwrap());
    assert!(places.is_sorted());
    let rows = section.lines().map(|line| {
        let words: Vec<&str> = line.split_whitespace().collect();
        words
            .chunks(4)
            .filter(|cells| cells.len() == 4)
            .flat_map(|cells| {
                [
                    cells[0].to_owned(),
                    cells[1].to_owned(),
                    cells[2..].join(" "),
                ]
            })
            .collect()
    });
    let plan: Value = serde_json::from_str(&out(&["plan", "tank.toml", "--json"])).unwrap();
    let wanted = in_json(&plan);
    alike(&in_rows(rows), &wanted);
    // All of the baffle's own when the walls are up and before any of what closes the tank.
    let closing = plan["tacking"]["closing_panel"].as_str().unwrap();
    let place = |seen: &dyn Fn(&str) -> bool| {
        wanted
            .iter()
            .zip(0..)
            .filter(|((_, seam, _), _)| seen(seam))
            .map(|(_, at)| at)
            .collect::<Vec<usize>>()
    };
    let baffle = place(&|seam| seam.contains('G'));
    let closes = place(&|seam| seam.contains(closing) && !seam.contains('G'));
    assert!(baffle[0] > 0 && !closes.is_empty());
    assert!(baffle.iter().max() < closes.iter().min());
    // Both ends of a seam before what lies between.
    let mut lengths: BTreeMap<&str, [f64; 2]> = BTreeMap::new();
    for (_, seam, at) in &wanted {
        let [least, most] = lengths.entry(seam).or_insert([f64::MAX, f64::MIN]);
        (*least, *most) = (least.min(*at), most.max(*at));
    }
    let mut made: BTreeMap<&str, Vec<f64>> = BTreeMap::new();
    for (order, seam, at) in &wanted {
        let own = made.entry(seam).or_default();
        let ends = lengths[seam.as_str()];
        assert!(
            ends.contains(at) || ends.iter().all(|end| own.contains(end)),
            "{order}"
        );
        own.push(*at);
    }

    out(&["sheet", "tank.toml", "--out", "out"]);
    let page = fs::read_to_string(folder.path().join("out/job.html")).unwrap();
    let section = page.split("<h2>Tack in this order</h2>").nth(1).unwrap();
    let section = section.split("<h2>").next().unwrap();
    let rows = section.split("<tr>").map(|row| {
        row.split("</td>")
            .filter_map(|cell| cell.rsplit('>').next())
            .map(str::to_owned)
            .collect()
    });
    alike(&in_rows(rows), &wanted);
    assert!(section.contains("common practice, no source"));
}
