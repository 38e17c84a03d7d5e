//! What a tank holds, level and leaning, and what it is cut from.
//!
//!     cargo run -p seamwright-core --example tank

use std::error::Error;

use seamwright_core::prelude::*;

fn main() -> Result<(), Box<dyn Error>> {
    // Quantities are read as a person writes them; an inch fraction would do as well.
    let header = Block::new(
        Length::parse("320 mm")?,
        Length::parse("180 mm")?,
        Length::parse("160 mm")?,
    )
    .with_cut(Cut::Edge {
        faces: [Face::Top, Face::Back],
        legs: [Length::parse("45 mm")?, Length::parse("60 mm")?],
    })?;
    let sheet = StockDraft::of(Alloy::A5754, Length::parse("2 mm")?);
    let tank = Tank::build(&Draft::new("Header tank of a heating loop", header, sheet)?)?;

    let litres = |volume: Volume| volume.display(VolumeUnit::Litre, 2);
    println!("{}", tank.job().name());
    println!("  to the brim     {}", litres(tank.capacity().brim));
    println!("  at the fill mark {}", litres(tank.capacity().fill));

    let lean = Lean::new(Angle::parse("5°")?, Angle::parse("-3°")?)?;
    let depth = Length::parse("80 mm")?;
    let level = tank.pool(lean).at(depth)?;
    println!(
        "  80 mm deep, 5° and -3° off level: {}",
        litres(level.volume)
    );

    for panel in tank.panels() {
        let mass = panel.mass.display(MassUnit::Kilogram, 3);
        println!("  panel {} ({}): {mass}", panel.mark, panel.face());
    }
    Ok(())
}
