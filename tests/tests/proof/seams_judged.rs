//! Every welded seam of any tank is judged, those of fittings and baffles too.

use seamwright_core::input::Face;
use seamwright_core::strength::Trial;
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
        for seam in tank.seams() {
            let tested = |pressure| tank.seam_bearing(&seam, Trial::Test(pressure));
            let within = seam.faces.map(|face| matches!(face, Face::Baffle(_)));
            if !seam.welded {
                assert!(tank.seam_bearing(&seam, Trial::Use).is_none());
                continue;
            }
            let used = tank.seam_bearing(&seam, Trial::Use);
            let used = used.unwrap_or_else(|| panic!("{} of {draft:?}", seam.mark));
            assert_eq!(
                tested(gentle).is_none(),
                within.contains(&true),
                "{}",
                seam.mark
            );
            let Ok(used) = used else { continue };
            assert!(
                used.reserve > 0.0 && used.reserve <= used.reserve_forces,
                "{used:?}"
            );
            if let (Some(Ok(low)), Some(Ok(high))) = (tested(gentle), tested(hard)) {
                assert!(high.reserve < low.reserve, "{} {low:?} {high:?}", seam.mark);
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
