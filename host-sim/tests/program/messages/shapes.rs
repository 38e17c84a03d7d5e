//! Messages about bodies: cuts, sheets, outlines and what belongs to another kind of body.

use super::{check, replaced, with_cut, with_shape, with_table};
use crate::support::{NAME, SHAPE, STOCK};

#[test]
fn cuts_that_do_not_read() {
    check(
        "cut-two-ways",
        &with_cut("edge = \"top back\"\nlegs = [\"20 mm\", \"20 mm\"]\nnormal = [0, 1, 1]"),
    );
    check("cut-no-way", &with_cut("legs = [\"20 mm\", \"20 mm\"]"));
    check(
        "cut-mixed",
        &with_cut(
            "edge = \"top back\"\nlegs = [\"20 mm\", \"20 mm\"]\nthrough = [\"0 mm\", \"0 mm\", \"0 mm\"]",
        ),
    );
    check(
        "cut-one-leg",
        &with_cut("edge = \"top back\"\nlegs = [\"20 mm\"]"),
    );
    check(
        "cut-three-legs-for-an-edge",
        &with_cut("edge = \"top back\"\nlegs = [\"20 mm\", \"20 mm\", \"20 mm\"]"),
    );
    check(
        "cut-two-legs-for-a-corner",
        &with_cut("corner = \"right back top\"\nlegs = [\"20 mm\", \"20 mm\"]"),
    );
    check("cut-no-legs", &with_cut("edge = \"top back\""));
    check("cut-no-point", &with_cut("normal = [0, 1, 1]"));
    check(
        "cut-legs-as-text",
        &with_cut("edge = \"top back\"\nlegs = \"20 mm\""),
    );
    check(
        "cut-normal-with-units",
        &with_cut(
            "normal = [\"0 mm\", \"1 mm\", \"1 mm\"]\nthrough = [\"0 mm\", \"140 mm\", \"160 mm\"]",
        ),
    );
    check(
        "cut-normal-not-finite",
        &with_cut("normal = [0, inf, 1]\nthrough = [\"0 mm\", \"140 mm\", \"160 mm\"]"),
    );
    check(
        "cut-face-unknown",
        &with_cut("edge = \"top rear\"\nlegs = [\"20 mm\", \"20 mm\"]"),
    );
    check(
        "cut-face-near",
        &with_cut("edge = \"top bakc\"\nlegs = [\"20 mm\", \"20 mm\"]"),
    );
    check(
        "cut-one-face",
        &with_cut("edge = \"top\"\nlegs = [\"20 mm\", \"20 mm\"]"),
    );
    let nine = "\n[[shape.cut]]\nedge = \"top back\"\nlegs = [\"1 mm\", \"1 mm\"]\n".repeat(9);
    check("nine-cuts", &with_shape(&nine));
}

#[test]
fn cuts_that_make_no_tank() {
    check(
        "cut-no-edge",
        &with_cut("edge = \"left right\"\nlegs = [\"20 mm\", \"20 mm\"]"),
    );
    check(
        "cut-no-corner",
        &with_cut("corner = \"left right top\"\nlegs = [\"20 mm\", \"20 mm\", \"20 mm\"]"),
    );
    check(
        "cut-no-direction",
        &with_cut("normal = [0, 0, 0]\nthrough = [\"0 mm\", \"140 mm\", \"160 mm\"]"),
    );
    check(
        "cut-removes-nothing",
        &with_cut("normal = [0, 0, 1]\nthrough = [\"0 mm\", \"0 mm\", \"200 mm\"]"),
    );
    check(
        "cut-removes-nothing-more",
        &with_cut(
            "edge = \"top back\"\nlegs = [\"60 mm\", \"60 mm\"]\n\n[[shape.cut]]\nedge = \"top back\"\nlegs = [\"40 mm\", \"40 mm\"]",
        ),
    );
    check(
        "cut-removes-all",
        &with_cut("normal = [0, 0, -1]\nthrough = [\"0 mm\", \"0 mm\", \"200 mm\"]"),
    );
    check(
        "cut-removes-all-by-legs",
        &with_cut("edge = \"top back\"\nlegs = [\"2 m\", \"2 m\"]"),
    );
    check(
        "cut-swallowed",
        &with_cut(
            "edge = \"top back\"\nlegs = [\"20 mm\", \"20 mm\"]\n\n[[shape.cut]]\nedge = \"top back\"\nlegs = [\"60 mm\", \"60 mm\"]",
        ),
    );
    check(
        "cut-sheet-fills",
        &with_cut("normal = [0, 0, 1]\nthrough = [\"0 mm\", \"0 mm\", \"3 mm\"]"),
    );
}

#[test]
fn faces_and_sheets() {
    check("face-unknown", &with_table("[stock.faces]\nlid = \"3 mm\""));
    check(
        "face-of-no-cut",
        &with_table("[stock.faces]\n\"cut 1\" = \"3 mm\""),
    );
    check(
        "face-ninth-cut",
        &with_table("[stock.faces]\n\"cut 9\" = \"3 mm\""),
    );
    check("face-unknown-of-a-cut-block", &{
        with_cut("edge = \"top back\"\nlegs = [\"20 mm\", \"20 mm\"]")
            + "\n[stock.faces]\nlid = \"3 mm\"\n"
    });
    let outline = with_outline(&corners(&[[0, 0], [300, 0], [0, 200]]));
    check(
        "face-unknown-of-a-profile",
        &format!("{outline}\n[stock.faces]\nlid = \"3 mm\"\n"),
    );
    check(
        "face-unknown-of-a-drum",
        &format!(
            "{NAME}\n[shape]\nkind = \"drum\"\naxis = \"upright\"\ndiameter = \"200 mm\"\nlength = \"300 mm\"\nends = \"flat\"\n{STOCK}\n[[fitting]]\nname = \"vent\"\nface = \"side\"\nat = [\"80 mm\", \"60 mm\"]\nbore = \"8 mm\"\n"
        ),
    );
    check("sheet-eats-inside", &replaced("\"160 mm\"", "\"4 mm\""));
    check(
        "face-sheet-too-thick",
        &with_table("[stock.faces]\nbottom = \"26 mm\""),
    );
}

/// A profile of these points, every one in a line of its own.
fn with_outline(points: &str) -> String {
    format!(
        "{NAME}\n[shape]\nkind = \"profile\"\nwidth = \"180 mm\"\noutline = [\n{points}]\n{STOCK}"
    )
}

/// Points with no radius, in millimetres.
fn corners(points: &[[i32; 2]]) -> String {
    points
        .iter()
        .map(|[x, z]| format!("    [\"{x} mm\", \"{z} mm\"],\n"))
        .collect()
}

#[test]
fn outlines_that_make_no_tank() {
    check(
        "outline-crosses-itself",
        &with_outline(&corners(&[[0, 0], [300, 200], [300, 0], [0, 200]])),
    );
    check(
        "outline-on-one-line",
        &with_outline(&corners(&[[0, 0], [150, 0], [300, 0], [300, 200]])),
    );
    check(
        "outline-thirteen-points",
        &with_outline(&corners(
            &[0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11].map(|n| [n * 30, n * n * 3]),
        ))
        .replacen(
            "outline = [\n",
            "outline = [\n    [\"0 mm\", \"400 mm\"],\n",
            1,
        ),
    );
    check(
        "outline-two-points",
        &with_outline(&corners(&[[0, 0], [300, 200]])),
    );
    let rounded = |radius: &str| {
        with_outline(&format!(
            "    [\"0 mm\", \"0 mm\"],\n    [\"300 mm\", \"0 mm\", {radius}],\n{}",
            corners(&[[300, 200], [0, 200]])
        ))
    };
    check("outline-radius-too-large", &rounded("\"r 250 mm\""));
    check("outline-radius-in-the-sheet", &rounded("\"r 1 mm\""));
    check("outline-radius-without-r", &rounded("\"25 mm\""));
    check("outline-bare-radius", &rounded("25"));
    check(
        "outline-bare-number",
        &with_outline(
            "    [0, \"0 mm\"],\n    [\"300 mm\", \"0 mm\"],\n    [\"0 mm\", \"200 mm\"],\n",
        ),
    );
    check(
        "outline-point-of-one",
        &with_outline(
            "    [\"0 mm\"],\n    [\"300 mm\", \"0 mm\"],\n    [\"0 mm\", \"200 mm\"],\n",
        ),
    );
}

#[test]
fn keys_of_another_kind_of_body() {
    check("key-of-another-kind", &with_shape("diameter = \"200 mm\""));
    check(
        "drum-with-a-width",
        &format!(
            "{NAME}{}\n{STOCK}",
            SHAPE.replacen("\"block\"", "\"drum\"", 1)
        ),
    );
    check(
        "crown-of-flat-ends",
        &format!(
            "{NAME}\n[shape]\nkind = \"drum\"\naxis = \"upright\"\ndiameter = \"200 mm\"\nlength = \"300 mm\"\nends = \"flat\"\ncrown = \"200 mm\"\n{STOCK}"
        ),
    );
    check(
        "crown-without-ends",
        &format!(
            "{NAME}\n[shape]\nkind = \"drum\"\naxis = \"upright\"\ndiameter = \"200 mm\"\nlength = \"300 mm\"\ncrown = \"200 mm\"\n{STOCK}"
        ),
    );
}

#[test]
fn a_wall_that_thinner_sheets_close_over() {
    let job = "name = \"Shallow cut\"\n\n[shape]\nkind = \"block\"\nsized = \"inside\"\nlength = \"116 mm\"\nwidth = \"32 mm\"\n\
               height = \"73 mm\"\n\n[[shape.cut]]\nedge = \"front left\"\nlegs = [\"41.5 mm\", \"1.9 mm\"]\n\n\
               [stock]\nalloy = \"6063\"\nthickness = \"0.9 mm\"\n\n[stock.faces]\nfront = \"4.6 mm\"\n";
    check("a_wall_closed_over", job);
}
