//! How a tank is tested for leaks, at which pressure, and what set that pressure.
//!
//!     cargo run -p seamwright-core --example leak_test
//!
//! A test under pressure can kill. What is printed is arithmetic: the cautions come first, and local codes and licensed
//! practice go before both.

use std::error::Error;

use seamwright_core::advice::caution::for_leak_test;
use seamwright_core::prelude::*;

fn main() -> Result<(), Box<dyn Error>> {
    let mm = |value| Length::new(value, LengthUnit::Millimetre);
    let header = Block::new(mm(320.0), mm(180.0), mm(160.0));
    let sheet = StockDraft::of(Alloy::A5754, mm(2.0));
    let tank = Tank::build(&Draft::new("Header tank of a heating loop", header, sheet)?)?;

    let (weakest, takes) = tank.weakest_wall()?;
    let test = tank.leak_plan(LeakRule::default())?;
    for caution in for_leak_test(test.method) {
        println!("! {}", caution.whole());
    }
    let kilopascals = |pressure: Pressure| pressure.display(PressureUnit::Kilopascal, 2);
    println!("pressure      {}", kilopascals(test.pressure));
    println!("relief valve  {}", kilopascals(test.relief));
    println!("weakest wall  {weakest}, takes {}", kilopascals(takes));
    println!("hold for      {}", test.hold.display(TimeUnit::Minute, 0));
    Ok(())
}
