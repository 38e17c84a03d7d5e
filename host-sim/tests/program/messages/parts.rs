//! Messages about joints, folds, fittings, baffles and the dip rod.

use super::{check, with_cut, with_table};
use crate::support::{NAME, SHAPE, STOCK};

#[test]
fn joints_and_folds() {
    check(
        "folds-close-a-ring",
        &with_table(
            "[joints]\nfolds = [\"bottom left\", \"bottom right\", \"top left\", \"top right\"]",
        ),
    );
    check(
        "butt-on-a-corner",
        &with_table("[joints.edges]\n\"front top\" = \"butt\""),
    );
    check(
        "butt-on-every-corner",
        &with_table("[joints]\ndefault = \"butt\""),
    );
    check(
        "edge-of-faces-that-do-not-meet",
        &with_table("[joints.edges]\n\"left right\" = \"closed corner\""),
    );
    check(
        "edge-of-no-face",
        &with_table("[joints.edges]\n\"front lid\" = \"closed corner\""),
    );
    // Their names in files written before these were the trade's.
    check(
        "joint-by-its-old-name",
        &with_table("[joints]\ndefault = \"half lap\""),
    );
    check(
        "edge-joint-by-its-old-name",
        &with_table("[joints.edges]\n\"front top\" = \"full lap\""),
    );
    check(
        "fold-of-no-edge",
        &with_table("[joints]\nfolds = [\"bottom front\", \"top bottom\"]"),
    );
    check(
        "fold-with-a-joint",
        &with_table(
            "[joints]\nfolds = [\"bottom front\"]\n\n[joints.edges]\n\"front bottom\" = \"closed corner\"",
        ),
    );
    check(
        "fold-of-two-sheets",
        &with_table("[stock.faces]\nbottom = \"3 mm\"\n\n[joints]\nfolds = [\"bottom front\"]"),
    );
}

#[test]
fn fittings_and_baffles() {
    let fitting = |face: &str, at: &str| {
        with_table(&format!(
            "[[fitting]]\nname = \"filler neck\"\nface = \"{face}\"\nat = {at}\nbore = \"38 mm\""
        ))
    };
    check(
        "fitting-over-the-edge",
        &fitting("top", "[\"10 mm\", \"60 mm\"]"),
    );
    check(
        "fitting-off-the-face",
        &fitting("top", "[\"400 mm\", \"60 mm\"]"),
    );
    check(
        "fitting-on-no-face",
        &fitting("cut 1", "[\"80 mm\", \"60 mm\"]"),
    );
    check(
        "fittings-on-each-other",
        &format!(
            "{}\n[[fitting]]\nname = \"vent\"\nface = \"top\"\nat = [\"100 mm\", \"60 mm\"]\nbore = \"8 mm\"\n",
            fitting("top", "[\"80 mm\", \"60 mm\"]")
        ),
    );
    check(
        "fitting-without-a-bore",
        &fitting("top", "[\"80 mm\", \"60 mm\"]").replacen("bore = \"38 mm\"\n", "", 1),
    );
    let baffle = |at: &str| with_table(&format!("[[baffle]]\nacross = \"length\"\nat = {at}"));
    check("baffle-outside", &baffle("\"400 mm\""));
    check("baffle-in-the-sheet", &baffle("\"1 mm\""));
    check(
        "baffle-hole-outside",
        &format!(
            "{}\n[[baffle.hole]]\nat = [\"170 mm\", \"40 mm\"]\ndiameter = \"30 mm\"\n",
            baffle("\"150 mm\"")
        ),
    );
    // The key that the problem tells of has the carets, not the head of its table.
    check(
        "fitting-of-nothing",
        &fitting("top", "[\"80 mm\", \"60 mm\"]").replacen("38 mm", "0 mm", 1),
    );
    check(
        "fitting-with-its-outer-over-the-edge",
        &format!(
            "{}\nouter = \"130 mm\"\n",
            fitting("top", "[\"80 mm\", \"60 mm\"]")
        ),
    );
    check(
        "fitting-at-too-far",
        &fitting("top", "[\"80 mm\", \"60 m\"]"),
    );
    check(
        "fitting-over-a-bend",
        &format!(
            "{}\n[joints]\nfolds = [\"top front\"]\nbend_radius = \"4 mm\"\n",
            fitting("top", "[\"80 mm\", \"23 mm\"]")
        ),
    );
    let hole = |at: &str, diameter: &str| {
        format!(
            "{}\n[[baffle.hole]]\nat = [\"60 mm\", \"40 mm\"]\ndiameter = \"20 mm\"\n\n[[baffle.hole]]\nat = {at}\ndiameter = {diameter}\n",
            baffle("\"150 mm\"")
        )
    };
    check(
        "baffle-second-hole-outside",
        &hole("[\"170 mm\", \"40 mm\"]", "\"30 mm\""),
    );
    check(
        "baffle-hole-of-nothing",
        &hole("[\"120 mm\", \"40 mm\"]", "\"0 mm\""),
    );
    let drum = |table: &str| {
        format!(
            "{NAME}\n[shape]\nkind = \"drum\"\naxis = \"lying\"\ndiameter = \"200 mm\"\nlength = \"300 mm\"\nends = \"ellipsoidal 2:1\"\n{STOCK}\n{table}\n"
        )
    };
    check(
        "baffle-along-a-drum",
        &drum("[[baffle]]\nacross = \"height\"\nat = \"100 mm\""),
    );
    check(
        "baffle-in-a-dished-end",
        &drum("[[baffle]]\nacross = \"length\"\nat = \"20 mm\""),
    );
    check(
        "fitting-off-the-centre-of-an-end",
        &drum(
            "[[fitting]]\nname = \"drain\"\nface = \"right\"\nat = [\"80 mm\", \"100 mm\"]\nbore = \"20 mm\"",
        ),
    );
    check(
        "rod-over-no-liquid",
        &with_table("[fill]\ndip_at = [\"400 mm\", \"90 mm\"]"),
    );
}

#[test]
fn a_fitting_beside_a_corner_of_its_face_is_off_it() {
    // Past two edges at once, and past the tip of a slant: beside the run of every edge that it is past.
    let cut = with_cut(
        "edge = \"top back\"\nlegs = [\"20 mm\", \"20 mm\"]\n\n[[shape.cut]]\ncorner = \"right front top\"\nlegs = [\"300 mm\", \"120 mm\", \"60 mm\"]",
    );
    let fitting = |at: &str| {
        format!("{cut}\n[[fitting]]\nname = \"vent\"\nface = \"top\"\nat = {at}\nbore = \"8 mm\"\n")
    };
    check(
        "fitting-beside-a-corner",
        &fitting("[\"360 mm\", \"190 mm\"]"),
    );
    check(
        "fitting-beside-a-slant",
        &fitting("[\"310 mm\", \"20 mm\"]"),
    );
}

#[test]
fn flanges_of_baffles() {
    let job = |keys: &str, more: &str| {
        let baffle = format!("[[baffle]]\nacross = \"length\"\nat = \"150 mm\"\n{keys}\n");
        with_table(&format!("{more}\n{baffle}"))
    };
    let baffle = |keys: &str| job(keys, "");
    check("flange-shorter-than-its-bend", &baffle("flange = \"3 mm\""));
    check(
        "flange-into-the-next-wall",
        &baffle("flange = \"160 mm\"\nflanged = [\"bottom\"]"),
    );
    check(
        "flange-on-a-baffle",
        &job(
            "flange = \"30 mm\"",
            "[[baffle]]\nacross = \"length\"\nat = \"130 mm\"",
        ),
    );
    check(
        "flange-on-a-fitting",
        &job(
            "flange = \"30 mm\"",
            "[[fitting]]\nname = \"drain\"\nface = \"bottom\"\nat = [\"120 mm\", \"90 mm\"]\nbore = \"20 mm\"",
        ),
    );
    check(
        "flange-without-length",
        &baffle("gap_above = \"152 mm\"\nflange = \"20 mm\"\nflanged = [\"front\", \"bottom\"]"),
    );
    check(
        "flange-beside-a-hole",
        &baffle(
            "flange = \"20 mm\"\nhole = [{ at = [\"90 mm\", \"12 mm\"], diameter = \"16 mm\" }]",
        ),
    );
    check(
        "flange-at-a-wall-not-met",
        &baffle("flange = \"20 mm\"\nflanged = [\"left\"]"),
    );
    check(
        "flange-over-no-gap",
        &baffle("flange = \"20 mm\"\nflanged = [\"gap_below\"]"),
    );
    check(
        "flange-over-plugs",
        &baffle("flange = \"20 mm\"\nplugs = [\"top\"]"),
    );
    check("flanged-without-flange", &baffle("flanged = [\"top\"]"));
    check(
        "flange-side-of-no-kind",
        &baffle("flange = \"20 mm\"\nflange_side = \"left\""),
    );
    check(
        "flanged-no-edge",
        &baffle("flange = \"20 mm\"\nflanged = \"top\""),
    );
    let drum = "name = \"Round\"\n[shape]\nkind = \"drum\"\naxis = \"lying\"\ndiameter = \"200 mm\"\nlength = \"400 mm\"\n\
                [stock]\nalloy = \"5754\"\nthickness = \"2 mm\"\n[[baffle]]\nacross = \"length\"\nat = \"200 mm\"\nflange = \"20 mm\"\n";
    check("flange-in-a-drum", drum);
    let wedge = format!(
        "{NAME}{SHAPE}\n[[shape.cut]]\nedge = \"top back\"\nlegs = [\"60 mm\", \"60 mm\"]\n{STOCK}\n[[baffle]]\nacross = \"width\"\nat = \"150 mm\"\nflange = \"20 mm\"\n"
    );
    check("flange-at-a-leaning-wall", &wedge);
}
