//! In which order a tank is welded, how long to wait before each stitch, and why.
//!
//!     cargo run -p seamwright-core --example weld_plan

use std::error::Error;

use seamwright_core::prelude::*;

fn main() -> Result<(), Box<dyn Error>> {
    let mm = |value| Length::new(value, LengthUnit::Millimetre);
    let header = Block::new(mm(320.0), mm(180.0), mm(160.0)).with_cut(Cut::Edge {
        faces: [Face::Top, Face::Back],
        legs: [mm(45.0), mm(60.0)],
    })?;
    let sheet = StockDraft::of(Alloy::A5754, mm(2.0));
    let tank = Tank::build(&Draft::new("Header tank of a heating loop", header, sheet)?)?;
    let per_mm = LineEnergyUnit::KilojoulePerMillimetre;
    println!("heat input {}", tank.arc().heat_input().display(per_mm, 3));

    let mut planner = Planner::new();
    let plan = tank.weld_plan(&mut planner)?;
    let seconds = |time: Time| time.display(TimeUnit::Second, 0);
    for stitch in plan.stitches(&tank) {
        let [from, to] = [stitch.from, stitch.to].map(|at| at.display(LengthUnit::Millimetre, 0));
        let warm = stitch.start_temperature;
        let warm = warm.display(TemperatureUnit::Celsius, 0);
        print!("{:2}  seam {}  {from} to {to}", stitch.order, stitch.seam);
        println!("  start at {warm}, arc {}", seconds(stitch.arc));
        for part in stitch.wait.parts_beside_move() {
            let lasts = seconds(part.lasts);
            match part.cause {
                WaitCause::WarmMetal(place) => {
                    let found = place.temperature.display(TemperatureUnit::Celsius, 0);
                    println!("      wait {lasts}: the metal there is still {found}");
                }
                WaitCause::Rest(rated) => println!("      wait {lasts}: {} rests", rated.name()),
                WaitCause::Move => {}
            }
        }
    }
    println!(
        "{} in all",
        plan.totals().job().display(TimeUnit::Minute, 1)
    );
    if let Some(plain) = plan.seam_by_seam() {
        println!("{} seam by seam", plain.job().display(TimeUnit::Minute, 1));
    }
    Ok(())
}
