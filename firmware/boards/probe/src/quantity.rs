//! Printing quantities, fractions of an inch, sheet gauges.
//!
//! Not reading them: that ends in the standard library's own `f64::from_str`, whose bounds checks the
//! optimiser cannot remove. Text comes in on the laptop; its parser is fuzzed there.

use core::hint::black_box;

use seamwright_core::units::gauge::SheetGauge;
use seamwright_core::units::{
    Decimal, FeetInches, InchFraction, InchStep, Length, LengthUnit, Volume, VolumeUnit,
};

/// Reaches every printer once.
pub(crate) fn prove() {
    let length = black_box(Length::from_metres(0.32));
    let volume = black_box(Volume::from_cubic_metres(0.006));
    let places = black_box(3);
    black_box(
        length
            .display(black_box(LengthUnit::Millimetre), places)
            .text(),
    );
    black_box(volume.display(black_box(VolumeUnit::Litre), places).text());
    black_box(Decimal::with_figures(black_box(1.0), places).text());

    let step = black_box(InchStep::Sixteenth);
    if let Some(fraction) = InchFraction::nearest(length, step) {
        black_box((fraction.length(), fraction.text()));
    }
    if let Some(fraction) = FeetInches::nearest(length, step) {
        black_box(fraction.text());
    }
    black_box(black_box(SheetGauge::BrownSharpe).thickness(black_box(14)));
}
