//! Every welded seam of any tank is judged, those of fittings and baffles too.

use seamwright_core::input::Face;
use seamwright_core::seam::Seam;
use seamwright_core::strength::{JoinedWalls, StrengthError, Trial};
use seamwright_core::tank::Tank;
use seamwright_core::units::Pressure;
use seamwright_tests::random_jobs::Jobs;

/// In use each is judged, and none of a tank with a known strength is refused; under more pressure than before none has
/// more in reserve. In a test only a baffle's is left out, which is pressed on both sides.
#[test]
fn none_is_left_out() {
    let (mut fittings, mut across_drums, mut tanks) = (0, 0, 0);
    for draft in Jobs::new(7).take(1_200) {
        let Ok(tank) = Tank::build(&draft) else {
            continue;
        };
        let [gentle, hard] = [2e3, 9e3].map(Pressure::from_pascals);
        tanks += 1;
        let joined = |trial| tank.joined_walls(trial);
        let (in_use, low, high) = (
            joined(Trial::Use),
            joined(Trial::Test(gentle)),
            joined(Trial::Test(hard)),
        );
        let by = |seam: &Seam, walls: &Result<JoinedWalls, StrengthError>| match walls {
            Ok(walls) => tank.seam_bearing_by(seam, walls),
            Err(error) => tank.seam_bearing(seam, Trial::Use).map(|_| Err(*error)),
        };
        for seam in tank.seams() {
            let within = seam.faces.map(|face| matches!(face, Face::Baffle(_)));
            if !seam.welded {
                assert!(by(&seam, &in_use).is_none());
                continue;
            }
            let used = by(&seam, &in_use);
            let used = used.unwrap_or_else(|| panic!("{} of {draft:?}", seam.mark));
            assert_eq!(
                by(&seam, &low).is_none(),
                within.contains(&true),
                "{}",
                seam.mark
            );
            let Ok(used) = used else { continue };
            assert!(
                used.reserve > 0.0 && used.reserve <= used.reserve_forces,
                "{used:?}"
            );
            if let (Some(Ok(soft)), Some(Ok(firm))) = (by(&seam, &low), by(&seam, &high)) {
                assert!(
                    firm.reserve < soft.reserve,
                    "{} {soft:?} {firm:?}",
                    seam.mark
                );
            }
            fittings += u32::from(matches!(seam.faces[1], Face::Fitting(_)));
            across_drums += u32::from(within[1] && seam.faces[0] == Face::Shell);
        }
    }
    assert!(
        tanks > 350 && fittings > 120 && across_drums > 1,
        "{tanks} {fittings} {across_drums}"
    );
}
