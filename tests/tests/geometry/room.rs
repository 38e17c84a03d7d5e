//! What stands in and what is cut out has room, or is refused: closing seams, far walls, baffles, other
//! tubes, flanges. The lengths expected follow from the sizes of the jobs alone.

use seamwright_core::fitting::{PlaceError, RoomError};
use seamwright_core::input::{Face, Field};
use seamwright_core::tank::{Problem, Tank};
use seamwright_core::units::Length;
use seamwright_tests::amounts::mm;
use seamwright_tests::jobs;

/// 200 x 100 x 100 mm inside, of 2 mm sheet.
const BOX: &str = "name = \"box\"\n[shape]\nkind = \"block\"\nsized = \"inside\"\nlength = \"200 mm\"\n\
width = \"100 mm\"\nheight = \"100 mm\"\n[stock]\nalloy = \"5754\"\nthickness = \"2 mm\"\n";
/// A drum of 200 mm inside, 400 mm long, with flat ends.
const DRUM: &str = "name = \"drum\"\n[shape]\nkind = \"drum\"\naxis = \"lying\"\nsized = \"inside\"\n\
diameter = \"200 mm\"\nlength = \"400 mm\"\nends = \"flat\"\n[stock]\nalloy = \"304\"\nthickness = \"2 mm\"\n";

fn tube(face: &str, at: [f64; 2], stand_in: f64) -> String {
    format!(
        "[[fitting]]\nname = \"tube\"\nface = \"{face}\"\nat = [\"{} mm\", \"{} mm\"]\nbore = \"10 mm\"\n\
         outer = \"16 mm\"\nstand_in = \"{stand_in} mm\"\n",
        at[0], at[1]
    )
}

/// What is found wrong with a job's places, and at which key.
fn refused(text: &str) -> Option<(Field, RoomError)> {
    match Tank::build(&jobs::read(text).draft) {
        Ok(_) => None,
        Err(error) => match error.problem {
            Problem::Place(PlaceError::Room(room)) => Some((error.field, room)),
            other => panic!("{other}"),
        },
    }
}

#[test]
fn a_tube_ends_within_the_tank() {
    for (face, at, room, far) in [
        ("top", [100.0, 50.0], 100.0, Face::Bottom),
        ("left", [50.0, 50.0], 200.0, Face::Right),
        ("front", [60.0, 50.0], 100.0, Face::Back),
    ] {
        let with = |length: f64| format!("{BOX}{}", tube(face, at, length));
        assert_eq!(refused(&with(room)), None, "{face}");
        for length in [room + 0.01, 2.1 * room, 5_000.0] {
            let Some((field, RoomError::Through { wall, most })) = refused(&with(length)) else {
                panic!("{face}: {length} mm is taken");
            };
            assert_eq!((field, wall), (Field::FittingStandIn(1), far), "{face}");
            assert!((most.si() - 1e-3 * room).abs() < 1e-8, "{face}: {most:?}");
        }
    }
    // Across a drum, off its middle by 40 mm: a chord of 2 √(100² − 40²), less what the tube's own rim of 8 mm
    // takes, which is nearest the wall at 48 mm off: √(100² − 48²) below the middle, and √(100² − 40²) above.
    let girth = 204.0 * core::f64::consts::PI;
    let with = |length: f64| format!("{DRUM}{}", tube("shell", [200.0, 0.25 * girth], length));
    let most = 100.0 + (100.0_f64.powi(2) - 8.0_f64.powi(2)).sqrt();
    assert_eq!(refused(&with(most - 0.1)), None);
    let Some((_, RoomError::Through { wall, most: told })) = refused(&with(most + 0.1)) else {
        panic!("through the shell");
    };
    assert_eq!(wall, Face::Shell);
    assert!((told.si() - 1e-3 * most).abs() < 1e-6, "{told:?}");
}

#[test]
fn a_tube_stays_clear_of_baffles_and_tubes() {
    let baffle = "[[baffle]]\nacross = \"length\"\nat = \"102 mm\"\n";
    let hole = |diameter: f64| {
        format!(
            "{baffle}[[baffle.hole]]\nat = [\"52 mm\", \"52 mm\"]\ndiameter = \"{diameter} mm\"\n"
        )
    };
    let into = |baffle: u8| Some((Field::FittingStandIn(1), RoomError::IntoBaffle { baffle }));
    let along = tube("left", [50.0, 52.0], 150.0);
    assert_eq!(refused(&format!("{BOX}{along}{baffle}")), into(1));
    assert_eq!(refused(&format!("{BOX}{along}{}", hole(15.0))), into(1));
    // 16 mm of tube through a hole of 20, both about the middle of the side; and short of the sheet.
    let along = tube("left", [52.0, 52.0], 150.0);
    assert_eq!(refused(&format!("{BOX}{along}{}", hole(20.0))), None);
    let short = tube("left", [52.0, 52.0], 98.9);
    assert_eq!(refused(&format!("{BOX}{short}{baffle}")), None);
    // Down beside it: 8 mm of tube and 1 mm of sheet.
    for (at, meets) in [(92.5, false), (93.5, true), (102.0, true), (111.5, false)] {
        let down = tube("top", [at, 52.0], 60.0);
        let found = refused(&format!("{BOX}{down}{baffle}"));
        assert_eq!(found.is_some(), meets, "{at}: {found:?}");
    }
    // One along, one down, whose skins are 0.5 mm apart or into each other.
    for (at, meets) in [(68.5, false), (67.5, true)] {
        let two = format!(
            "{}{}",
            tube("left", [52.0, 52.0], 150.0),
            tube("top", [60.0, at], 90.0)
        );
        let found = refused(&format!("{BOX}{two}"));
        let expected =
            meets.then_some((Field::FittingStandIn(2), RoomError::IntoTube { other: 1 }));
        assert_eq!(found, expected, "{at}");
    }
}

#[test]
fn a_hole_stays_off_a_closing_seam() {
    let girth = 204.0 * core::f64::consts::PI;
    for (at, over) in [
        (0.0, Some(8.0)),
        (5.0, Some(8.0 - 102.0 * (5.0_f64 / 102.0).sin())),
        (girth - 5.0, Some(8.0 - 102.0 * (5.0_f64 / 102.0).sin())),
        (8.5, None),
        (0.5 * girth, None),
    ] {
        let found = refused(&format!("{DRUM}{}", tube("shell", [200.0, at], 0.0)));
        let by = found.map(|(field, error)| match (field, error) {
            (
                Field::FittingAt(1),
                RoomError::OnSeam {
                    face: Face::Shell,
                    by,
                },
            ) => by,
            other => panic!("{other:?}"),
        });
        assert_eq!(by.is_some(), over.is_some(), "{at}");
        if let (Some(by), Some(over)) = (by, over) {
            assert!((by.si() - 1e-3 * over).abs() < 1e-9, "{at}: {by:?}");
        }
    }
    // A wrapper rounded all the way is closed along the middle of its longest side.
    let wrapper = "name = \"w\"\n[shape]\nkind = \"profile\"\nwidth = \"300 mm\"\noutline = [[\"0 mm\", \"0 mm\", \
        \"r 20 mm\"], [\"400 mm\", \"0 mm\", \"r 20 mm\"], [\"400 mm\", \"200 mm\", \"r 20 mm\"], [\"0 mm\", \
        \"200 mm\", \"r 20 mm\"]]\n[stock]\nalloy = \"304\"\nthickness = \"2 mm\"\n";
    for (at, meets) in [(200.0, true), (193.0, true), (191.0, false), (300.0, false)] {
        let found = refused(&format!("{wrapper}{}", tube("side 1", [at, 150.0], 0.0)));
        assert_eq!(found.is_some(), meets, "{at}: {found:?}");
    }
}

#[test]
fn a_hole_stays_off_a_flange() {
    // The top runs through; the front's flange lies under it, 30 mm from the outside of the front.
    let joints = "[joints]\nlap = \"30 mm\"\nbend_radius = \"2 mm\"\n[joints.edges]\n\"top front\" = \"flanged lap\"\n";
    for (at, over) in [(30.0, Some(8.0)), (37.0, Some(1.0)), (38.1, None)] {
        let found = refused(&format!("{BOX}{}{joints}", tube("top", [100.0, at], 0.0)));
        let by = found.map(|(field, error)| match (field, error) {
            (
                Field::FittingAt(1),
                RoomError::OnFlange {
                    other: Face::Front,
                    by,
                },
            ) => by,
            other => panic!("{other:?}"),
        });
        let expected = over.map(|by: f64| mm(by));
        let near = |a: Option<Length>, b: Option<Length>| match (a, b) {
            (Some(a), Some(b)) => (a.si() - b.si()).abs() < 1e-9,
            (a, b) => a == b,
        };
        assert!(near(by, expected), "{at}: {by:?}");
    }
}
