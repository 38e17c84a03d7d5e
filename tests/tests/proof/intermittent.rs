//! Intermittent welds: what they bear and take, against the same edges welded through.

use seamwright_core::prelude::*;
use seamwright_core::seam::Division;
use seamwright_core::strength::{StrengthError, Trial};
use seamwright_core::tank::Tank;
use seamwright_tests::jobs;

/// A wheel-wash tray's tank, 504 by 404 by 304 mm outside in 2 mm, with one baffle half way.
fn tray(edges: &str) -> Tank {
    jobs::tank(&format!(
        "name = \"Wheel wash\"\n[shape]\nkind = \"block\"\nlength = \"504 mm\"\nwidth = \"404 mm\"\nheight = \"304 mm\"\n\
         [stock]\nalloy = \"5754\"\nthickness = \"2 mm\"\n[weld]\nreach = \"1 m\"\nopening = \"90 mm\"\n\
         [[baffle]]\nacross = \"length\"\nat = \"252 mm\"\n{edges}\
         [[baffle.hole]]\nat = [\"200 mm\", \"150 mm\"]\ndiameter = \"60 mm\"\n"
    ))
}

fn of_baffle(tank: &Tank) -> impl Iterator<Item = Seam> {
    tank.seams()
        .filter(|seam| matches!(seam.faces, [_, Face::Baffle(1)]))
}

/// A weld of a length at a pitch counts as its length over its pitch of one welded through: Blodgett, Design of Welded
/// Structures, section 7.4, table of intermittent welds (from memory): 2 in at 4 in is 50 %, 3 in at 4 in is 75 %, 4 in at 6 in 67 %.
#[test]
fn per_cent_of_a_continuous_weld() {
    let inch = |value: f64| Length::from_metres(0.0254 * value);
    for (length, pitch, wanted) in [(2.0, 4.0, 50.0), (3.0, 4.0, 75.0), (4.0, 6.0, 67.0)] {
        let seam = inch(length + 10.0 * pitch);
        let welds = Division::spaced(seam, inch(length), inch(pitch - length), inch(6.0)).unwrap();
        assert_eq!(welds.count, 11);
        let share = 100.0 / welds.gathered();
        assert!((share - wanted).abs() < 0.5, "{length} at {pitch}: {share}");
    }
    let through = Division::of(inch(30.0), inch(6.0)).unwrap();
    assert!((through.gathered() - 1.0).abs() < 1e-15);
}

/// By hand: 400 mm in welds of 40 mm with gaps of 60 mm at most has four gaps of 90 mm pitch, five welds; 300 mm has three
/// gaps of 86.7 mm pitch, four welds.
#[test]
fn what_is_not_welded_neither_bears_nor_takes_rod() {
    let through = tray("");
    let spaced = tray("weld_length = \"40 mm\"\nweld_gap = \"60 mm\"\n");
    let mut lengths = Vec::new();
    for (whole, part) in of_baffle(&through).zip(of_baffle(&spaced)) {
        let bear = |tank: &Tank, seam| tank.seam_bearing(seam, Trial::Use).unwrap().unwrap();
        let (most, least) = (bear(&through, &whole), bear(&spaced, &part));
        let (welds, pitch) = match whole.length.si() {
            length if (length - 0.400).abs() < 1e-9 => (5.0, 0.090),
            length if (length - 0.300).abs() < 1e-9 => (4.0, 0.26 / 3.0),
            length => panic!("{length}"),
        };
        let ratio = pitch / 0.040;
        for (name, ratio_of) in [
            ("forces", least.forces.si() / most.forces.si()),
            ("all", least.with_moment.si() / most.with_moment.si()),
            ("reserve", most.reserve / least.reserve),
        ] {
            assert!(
                (ratio_of - ratio).abs() < 1e-9 * ratio,
                "{name} {ratio_of} {ratio}"
            );
        }
        let welded = spaced.weld_length(&part).si();
        assert!((welded - welds * 0.040).abs() < 1e-12, "{welded}");
        assert_eq!(through.weld_length(&whole), whole.length);
        let bead = |tank: &Tank, seam| tank.bead(seam).unwrap().unwrap().volume().si();
        let share = bead(&spaced, &part) / bead(&through, &whole);
        assert!((share - welded / whole.length.si()).abs() < 1e-9, "{share}");
        let arc = |tank: &Tank, seam| tank.seam_time(seam).unwrap().arc.si();
        let share = arc(&spaced, &part) / arc(&through, &whole);
        assert!((share - welded / whole.length.si()).abs() < 1e-9, "{share}");
        lengths.push(whole.length.si() - welded);
    }
    assert_eq!(lengths.len(), 4);
    let bare: f64 = lengths.iter().sum();
    let less = through.totals().arc.si() - spaced.totals().arc.si();
    assert!((less - spaced.arc().time_along(Length::from_metres(bare)).si()).abs() < 1e-9);
    // What the rod of all seams comes to, too.
    let ends = through.totals().heat.si() / spaced.totals().heat.si();
    assert!(ends > 1.05, "{ends}");
}

/// An edge that is held by nothing: no figures, neither for the plate nor for the seams that are left.
#[test]
fn a_free_edge_is_not_judged() {
    let free = tray("free = [\"top\"]\n");
    for seam in of_baffle(&free).filter(|seam| seam.welded) {
        let told = free.seam_bearing(&seam, Trial::Use).unwrap();
        assert!(matches!(told, Err(StrengthError::FreeEdge)), "{told:?}");
    }
    let told = free.bearing(Face::Baffle(1), Trial::Use);
    assert!(
        matches!(told, Some(Err(StrengthError::FreeEdge))),
        "{told:?}"
    );
}

/// One weld holds it, for better or worse; none does not.
#[test]
fn what_nothing_holds_is_loose() {
    let loose = |edges| tray(edges).loose_baffles().collect::<Vec<u8>>();
    assert!(loose("").is_empty());
    assert!(loose("free = [\"top\", \"bottom\", \"front\"]\n").is_empty());
    assert_eq!(
        loose("free = [\"top\", \"bottom\", \"front\", \"back\"]\n"),
        [1]
    );
}
