//! The order of a job's stitches as it goes to a gauge.

use seamwright::job_file::Extras;
use seamwright::welding;
use seamwright_core::input::Draft;
use seamwright_core::tank::Tank;
use seamwright_core::wire::{Request, STEPS};

/// The requests that put a job's order beside it at a place of the shelf, none where there is no order.
///
/// # Errors
/// Where the job makes no tank.
pub fn requests(draft: &Draft, place: u8) -> Result<Vec<Request>, String> {
    let tank = Tank::build(draft).map_err(|error| error.to_string())?;
    let Ok(plan) = welding::plan(&tank, &Extras::default()) else {
        return Ok(Vec::new());
    };
    let parts = plan.steps().chunks(STEPS).zip((0..).step_by(STEPS));
    Ok(parts
        .map(|(steps, from)| Request::Order {
            place,
            from,
            steps: steps.iter().copied().collect(),
        })
        .collect())
}
