//! Temperature against time over a whole plan, as a picture: each stitch a bar while its arc burns, at its foot
//! the metal where it starts.

use maud::html;
use seamwright_core::capacity::round_step;
use seamwright_core::tank::Tank;
use seamwright_core::units::{Temperature, TemperatureUnit};
use seamwright_core::weld::WeldPlan;

/// Size of the picture in its own units, and the room about the curve: left, above, right, below.
const SIZE: [f64; 2] = [760.0, 320.0];
const ROOM: [f64; 4] = [56.0, 18.0, 16.0, 44.0];

/// Draws the plan of a tank, with the interpass limit as a line.
#[must_use]
pub fn draw(plan: &WeldPlan, tank: &Tank) -> String {
    let (ambient, limit) = (tank.job().welding().ambient, plan.interpass_max());
    let celsius = |temperature: Temperature| temperature.in_unit(TemperatureUnit::Celsius);
    let (low, high) = (celsius(ambient).min(0.0), celsius(limit) * 1.1);
    let whole = plan.totals().job().si().max(1.0) / 60.0;
    let [left, above, right, below] = ROOM;
    let x = |seconds: f64| left + (SIZE[0] - left - right) * seconds / 60.0 / whole;
    let y =
        |degrees: f64| SIZE[1] - below - (SIZE[1] - above - below) * (degrees - low) / (high - low);
    // Five to ten of each.
    let steps = |whole: f64| round_step(whole, 6).unwrap_or(whole);
    let (minutes, degrees) = (steps(whole), steps(high - low));
    let ticks = |step: f64, from: f64, to: f64| {
        let first = (from / step).ceil();
        (0..=40)
            .map(move |n| (first + f64::from(n)) * step)
            .take_while(move |value| *value <= to + 1e-9)
            .collect::<Vec<f64>>()
    };
    let bottom = y(low);
    let shown = |value: f64| format!("{value:.1}");
    html! {
        svg xmlns="http://www.w3.org/2000/svg" version="1.1" viewBox={ "0 0 " (SIZE[0]) " " (SIZE[1]) }
            font-family="Helvetica, Arial, sans-serif" font-size="13" {
            title { "Metal at the start of each stitch against time" }
            g stroke="#b8b8b8" stroke-width="0.7" {
                @for at in ticks(degrees, low, high) {
                    line x1=(shown(left)) x2=(shown(SIZE[0] - right)) y1=(shown(y(at))) y2=(shown(y(at))) {}
                }
            }
            g fill="#222" {
                @for at in ticks(degrees, low, high) {
                    text x=(shown(left - 8.0)) y=(shown(y(at) + 4.5)) text-anchor="end" { (format!("{at:.0}")) }
                }
                @for at in ticks(minutes, 0.0, whole) {
                    text x=(shown(x(at * 60.0))) y=(shown(bottom + 18.0)) text-anchor="middle" { (format!("{at:.0}")) }
                }
                text x=(shown(left)) y="12" { "°C at the start of each stitch" }
                text x=(shown(SIZE[0] - right)) y=(shown(SIZE[1] - 6.0)) text-anchor="end" { "minutes from the first arc" }
            }
            line x1=(shown(left)) x2=(shown(SIZE[0] - right)) y1=(shown(y(celsius(limit)))) y2=(shown(y(celsius(limit))))
                stroke="#b00020" stroke-width="1.6" stroke-dasharray="7 4" {}
            text x=(shown(SIZE[0] - right)) y=(shown(y(celsius(limit)) - 5.0)) text-anchor="end" fill="#b00020" {
                "interpass limit " (format!("{:.0} °C", celsius(limit)))
            }
            g fill="#5b7fa6" {
                @for stitch in plan.stitches(tank) {
                    @let from = x(stitch.start.si());
                    @let wide = (x(stitch.start.si() + stitch.arc.si()) - from).max(1.0);
                    @let top = y(celsius(stitch.start_temperature));
                    rect x=(shown(from)) y=(shown(top)) width=(shown(wide)) height=(shown((bottom - top).max(0.5))) {}
                }
            }
            line x1=(shown(left)) x2=(shown(SIZE[0] - right)) y1=(shown(bottom)) y2=(shown(bottom)) stroke="#222" stroke-width="1.2" {}
        }
    }
    .into_string()
}
