//! What a tank's seams use up, its fillers, and how long the arc may burn.

use core::hint::black_box;

use seamwright_core::arc::duty::{ArcAndRest, Rating, RatingPlate, allowed_by_all};
use seamwright_core::supply::Kit;
use seamwright_core::supply::filler::{Rod, RodDraft};
use seamwright_core::supply::gas::{Shield, usual_post_flow};
use seamwright_core::tank::Tank;
use seamwright_core::units::flow::Flow;
use seamwright_core::units::{Current, Length, Ratio, Time};

/// Reaches all of it for one tank.
pub(crate) fn prove(tank: &Tank) {
    if let Some(kit) = kit(tank) {
        for one in tank.supplies(&kit) {
            let _ = black_box(one);
        }
        let _ = black_box(tank.supply_in_all(&kit));
    }
    let _ = black_box(tank.fillers());
    let _ = black_box(tank.judged(black_box(None)));
    for seam in tank.seams() {
        black_box(tank.may_be_fused(&seam));
    }
    duty(tank);
}

fn kit(tank: &Tank) -> Option<Kit> {
    let rod = Rod::new(&black_box(RodDraft {
        diameter: Length::from_metres(0.0024),
        length: Length::from_metres(1.0),
        stub: Length::from_metres(0.05),
        density: 2_640.0,
        deposition: Ratio::from_share(0.95),
    }));
    let flow = black_box(Flow::from_litres_per_minute(8.0));
    let shield = Shield::new(
        flow,
        black_box(Time::from_seconds(0.5)),
        usual_post_flow(tank.arc().current),
    );
    Some(Kit {
        rod: rod.ok()?,
        feed: black_box(None),
        waste: black_box(Ratio::from_share(0.1)),
        shield: shield.ok()?,
    })
}

fn duty(tank: &Tank) {
    let rating = |amperes, share| {
        black_box(Rating {
            current: Current::from_amperes(amperes),
            duty: Ratio::from_share(share),
        })
    };
    let ratings = [rating(150.0, 0.6), rating(200.0, 0.35)];
    if let Ok(plate) = RatingPlate::new(&ratings, black_box(Current::from_amperes(200.0))) {
        crate::weld::prove_share([Some(&plate), None], tank);
    }
    if let Ok(plate) = RatingPlate::new(&ratings, black_box(Current::from_amperes(200.0)))
        && let Ok(allowed) = allowed_by_all(&[&plate], tank.arc().current)
    {
        let _ = black_box(ArcAndRest::of(
            allowed,
            black_box(Time::from_seconds(900.0)),
        ));
    }
}
