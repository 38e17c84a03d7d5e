//! How far the heat of a tank's own arc reaches over its sheet, once the arc has run for a while.

use super::moving::adams::Regime;
use super::moving::{Moving, MovingSource, Rosenthal, WeldedPlate};
use crate::arc::uptake_band;
use crate::fitting::Baffle;
use crate::tank::Tank;
use crate::units::range::RangeError;
use crate::units::{Angle, AngleUnit, Length, Power, Ratio, Temperature};

/// The field about the arc over the main sheet of a tank, which is cold before: at the first stitch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeamField {
    source: MovingSource,
    moving: Moving,
    regime: Regime,
    field: Rosenthal,
    /// Where the metal begins to melt.
    solidus: Temperature,
}

impl SeamField {
    /// The power that the metal takes up.
    #[must_use]
    pub const fn power(&self) -> Power {
        Power::from_watts(self.source.power)
    }

    /// Whether the sheet counts as thin or as thick where it begins to melt.
    #[must_use]
    pub const fn regime(&self) -> Regime {
        self.regime
    }

    /// The relative thickness `τ` where the sheet begins to melt: see [`Moving::relative_thickness`].
    ///
    /// # Errors
    /// As that.
    pub fn relative_thickness(&self) -> Result<Ratio, RangeError> {
        let tau = self.moving.relative_thickness(self.solidus)?;
        Ok(Ratio::from_share(tau))
    }

    /// The width of the band that begins to melt: a check of the settings, no bead's size.
    ///
    /// # Errors
    /// As [`Rosenthal::width_above`].
    pub fn molten_width(&self) -> Result<Length, RangeError> {
        self.field.width_above(self.solidus)
    }

    /// How far from the line of the seam the sheet gets as hot as this; `None` where it gets so hot nowhere, or
    /// everywhere.
    #[must_use]
    pub fn reach(&self, temperature: Temperature) -> Option<Length> {
        let width = self.field.width_above(temperature).ok()?;
        Some(Length::from_metres(0.5 * width.si()))
    }
}

/// How many thicknesses of the sheet the band that begins to melt may be wide at most.
///
/// Of published set-ups the widest, were the least likely share of the arc's heat taken up, is 12.0 thicknesses: 100 A at
/// 300 mm/min on 1.2 mm of 5052 (G. Mathers, The Welding of Aluminium and its Alloys (2002), table 6.2; its speed is
/// that of 0.8 mm). 125 A at 250 mm/min on a corner of 1.5 mm of 304 come to 10.5 (national welding handbook (China),
/// vol. 1, 2nd ed., p. 150). Where nobody has published that it can be welded, it is not planned as if it could.
const WIDEST_BAND: f64 = 12.5;

/// An arc that melts a wider band than the sheet carries: the pool falls through.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct BurnThrough {
    /// Thickness of the sheet.
    pub sheet: Length,
    /// The width of the band that begins to melt.
    pub band: Length,
    /// What it should be at most: some thicknesses of the sheet.
    pub limit: Length,
    /// The share of the arc's power at which it is so wide.
    pub uptake: Ratio,
    /// Whether it is too wide even at the least share that is likely. Never so of a sheet that is thinner than the main
    /// one: beside a thicker sheet, to which the welder leans the arc, it carries more than between two of its own kind.
    pub certain: bool,
}

impl Tank {
    /// Whether this tank's arc burns through its main sheet, or else through the thinnest of its walls and baffles: `None`
    /// where the band that begins to melt is no wider than those of published set-ups.
    #[must_use]
    pub fn burn_through(&self) -> Option<BurnThrough> {
        let own = self.job().welding().uptake;
        let [least, _] = uptake_band(self.arc().process);
        let least = if own < least { own } else { least };
        let (main, thinnest) = (self.job().thickness(), self.thinnest_sheet());
        [
            (main, least, true),
            (main, own, false),
            (thinnest, own, false),
        ]
        .into_iter()
        .find_map(|(sheet, uptake, certain)| {
            let limit = Length::from_metres(WIDEST_BAND * sheet.si());
            // An arc too weak for any band, or metal past the field's limits, melts nothing too wide.
            let field = self.field_over(sheet, uptake).ok()?;
            let band = field.molten_width().ok()?;
            (band > limit).then_some(BurnThrough {
                sheet,
                band,
                limit,
                uptake,
                certain,
            })
        })
    }

    /// The thinnest of its main sheet, its walls and its baffles.
    fn thinnest_sheet(&self) -> Length {
        let walls = self.body().outside.faces();
        let walls = walls.map(|view| self.job().thickness_of(view.face()));
        let baffles = self.inner().baffles().iter().map(Baffle::thickness);
        walls
            .chain(baffles)
            .fold(self.job().thickness(), |a, b| if b < a { b } else { a })
    }

    /// The field about the arc of this tank over its main sheet, where the metal takes up a share of the arc's power:
    /// in thin sheet that of a seam between two, in thick metal that of a seam on one face.
    ///
    /// # Errors
    /// [`RangeError`] for a power, a sheet or a temperature past the limits of the field.
    pub fn field_about_seam(&self, uptake: Ratio) -> Result<SeamField, RangeError> {
        self.field_over(self.job().thickness(), uptake)
    }

    /// [`Tank::field_about_seam`] over a sheet of another thickness.
    fn field_over(&self, sheet: Length, uptake: Ratio) -> Result<SeamField, RangeError> {
        let job = self.job();
        let alloy = job.alloy();
        let plate = WeldedPlate {
            thickness: sheet,
            conductivity: alloy.conductivity(job.temper()).value,
            heat_capacity: alloy.density().si() * alloy.metal().heat_capacity().value,
            start: job.welding().ambient,
        };
        let source = MovingSource {
            power: self.arc().power().si() * uptake.si(),
            travel: self.arc().travel,
        };
        let moving = Moving::new(source, plate)?;
        let solidus = alloy.metal().solidus().value;
        let regime = moving.regime(solidus)?;
        let field = if regime.is_thin() {
            moving.thin(2)?
        } else {
            // A seam on one face of metal that fills half of all about it.
            moving.thick(Angle::new(180.0, AngleUnit::Degree))?
        };
        Ok(SeamField {
            source,
            moving,
            regime,
            field,
            solidus,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::{Block, Draft, Face, StockDraft};
    use crate::tables::Alloy;
    use crate::units::{Current, LengthUnit, Speed, TemperatureUnit};

    /// The set-ups that the limit stands on are not told as burning through, and half the travel is: by [`WIDEST_BAND`]'s
    /// own sources. The share that a welder names counts where it is less than any that is likely.
    #[test]
    fn set_ups_that_are_published_do_not_burn_through() {
        let mm = |value| Length::new(value, LengthUnit::Millimetre);
        let told = |alloy, thickness, amperes, per_minute: f64, uptake: Option<f64>| {
            let outside = Block::new(mm(300.0), mm(200.0), mm(150.0));
            let mut draft =
                Draft::new("Drip tray", outside, StockDraft::of(alloy, mm(thickness))).unwrap();
            draft.arc.current = Some(Current::from_amperes(amperes));
            draft.arc.travel = Some(Speed::from_metres_per_second(per_minute / 60e3));
            draft.arc.efficiency = uptake.map(Ratio::from_share);
            Tank::build(&draft).unwrap().burn_through()
        };
        let mathers = |per_minute| told(Alloy::A5052, 1.2, 100.0, per_minute, None);
        assert!(!mathers(300.0).unwrap().certain);
        assert!(mathers(150.0).unwrap().certain);
        let corner = |per_minute| told(Alloy::S304, 1.5, 125.0, per_minute, None);
        assert_eq!(corner(250.0), None);
        let burnt = corner(125.0).unwrap();
        assert!(burnt.certain && burnt.band > burnt.limit);
        assert!((burnt.limit.si() - 12.5 * 1.5e-3).abs() < 1e-12);
        assert_eq!(told(Alloy::S304, 1.5, 125.0, 125.0, Some(0.2)), None);
        // A thin wall in a thick tank may burn through where the main sheet does not.
        let outside = Block::new(mm(300.0), mm(200.0), mm(150.0));
        let stock = StockDraft::of(Alloy::S304, mm(3.0));
        let mut draft = Draft::new("Drip tray", outside, stock).unwrap();
        draft.arc.current = Some(Current::from_amperes(125.0));
        draft.arc.travel = Some(Speed::from_metres_per_second(125.0 / 60e3));
        assert_eq!(Tank::build(&draft).unwrap().burn_through(), None);
        draft.stock.faces.push((Face::Top, mm(1.0))).unwrap();
        let thin = Tank::build(&draft).unwrap().burn_through().unwrap();
        assert!(!thin.certain && thin.sheet == mm(1.0) && thin.band > thin.limit);
    }

    /// Less heat melts a narrower band, which ends where the sheet begins to melt; cooler metal lies further out. Thin
    /// stainless sheet is thin to an arc, 25 mm of it thick: τ goes with the thickness.
    #[test]
    fn bands_about_a_seam() {
        let mm = |value| Length::new(value, LengthUnit::Millimetre);
        let tank = |thickness| {
            let outside = Block::new(mm(620.0), mm(480.0), mm(360.0));
            let stock = StockDraft::of(Alloy::S304L, mm(thickness));
            let mut draft = Draft::new("Rinse tank", outside, stock).unwrap();
            draft.arc.current = Some(Current::from_amperes(90.0));
            draft.arc.travel = Some(Speed::from_metres_per_second(0.004));
            Tank::build(&draft).unwrap()
        };
        let thin = tank(1.5);
        let [low, high] = [0.5, 0.7].map(|share| {
            let uptake = Ratio::from_share(share);
            thin.field_about_seam(uptake).unwrap()
        });
        assert!((low.power().si() / high.power().si() - 5.0 / 7.0).abs() < 1e-12);
        let (narrow, wide) = (low.molten_width().unwrap(), high.molten_width().unwrap());
        assert!(narrow < wide);
        let at = |degrees| Temperature::new(degrees, TemperatureUnit::Celsius);
        let half = low.reach(low.solidus).unwrap();
        assert!((2.0 * half.si() / narrow.si() - 1.0).abs() < 1e-12);
        assert!(low.reach(at(400.0)).unwrap() < low.reach(at(200.0)).unwrap());
        assert_eq!(low.reach(at(-100.0)), None);
        assert_eq!(low.regime(), Regime::Thin);
        let thick = tank(25.0).field_about_seam(Ratio::from_share(0.5)).unwrap();
        assert_eq!(thick.regime(), Regime::Thick);
        let tau = |field: &SeamField| field.relative_thickness().unwrap().si();
        assert!((tau(&thick) / tau(&low) - 25.0 / 1.5).abs() < 1e-9);
    }
}
