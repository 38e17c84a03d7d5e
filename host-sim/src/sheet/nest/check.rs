//! What a plan refuses to start from.

use super::{Fault, Item, LONGEST, MOST, Rules, Stock, THICKEST, WIDEST};

pub(super) fn check(items: &[Item<'_>], stock: &[Stock], rules: &Rules) -> Result<(), Fault> {
    within("gap, mm", rules.gap, [0.0, WIDEST])?;
    within("edge margin, mm", rules.margin, [0.0, WIDEST])?;
    let mut pieces = 0_usize;
    for item in items {
        let of = |what: &str| format!("piece \"{}\", {what}", item.pattern.mark());
        within(&of("thickness, mm"), item.thickness, [0.01, THICKEST])?;
        pieces = pieces.saturating_add(item.count);
    }
    within("pieces", pieces as f64, [0.0, MOST as f64])?;
    for kind in stock {
        let of = |what: &str| format!("stock \"{}\", {what}", kind.name);
        within(&of("width, mm"), kind.width, [1.0, LONGEST])?;
        within(&of("length, mm"), kind.length, [1.0, LONGEST])?;
        within(&of("thickness, mm"), kind.thickness, [0.01, THICKEST])?;
        within(&of("count"), kind.count as f64, [0.0, MOST as f64])?;
    }
    Ok(())
}

fn within(field: &str, value: f64, limits: [f64; 2]) -> Result<(), Fault> {
    if (limits[0]..=limits[1]).contains(&value) {
        return Ok(());
    }
    Err(Fault::Setting {
        field: field.to_owned(),
        value,
        limits,
    })
}
