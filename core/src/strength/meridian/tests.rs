extern crate std;
use super::{Meridian, RoundTank};
use crate::body::turned::Head;

const STEEL: (f64, f64) = (200e9, 0.3);

fn peaks(head: Head, radius: f64, half_length: f64, sheets: [f64; 2], pressure: f64) -> [f64; 2] {
    let tank = RoundTank { head, radius, half_length, sheets };
    let meridian = Meridian::new(&tank).unwrap();
    std::eprintln!("points {} rim {}", meridian.points.len(), meridian.rim);
    meridian.peaks(STEEL.0, STEEL.1, pressure).map(|peak| peak.stress.si())
}

#[test]
fn trial() {
    let d08 = peaks(Head::Torispherical { crown: 0.401, knuckle: 0.041 }, 0.201, 0.3, [0.002; 2], 4e5);
    std::eprintln!("d08 {d08:?} 165e6?");
    let d08 = peaks(Head::Torispherical { crown: 0.4, knuckle: 0.04 }, 0.2, 0.3, [0.002; 2], 4e5);
    std::eprintln!("d08 {d08:?} 165e6?");
    let hemi = peaks(Head::Dome { depth: 0.2 }, 0.2, 0.3, [0.002; 2], 1e5);
    std::eprintln!("hemi {hemi:?} hoop {} ", 1e5 * 0.2 / 0.002);
    let elli = peaks(Head::Dome { depth: 0.1 }, 0.2, 0.3, [0.002; 2], 1e5);
    std::eprintln!("elli {elli:?}");
    let rigid = peaks(Head::Flat, 0.2, 0.3, [0.2, 0.002], 1e5);
    // Timoshenko: clamped edge of a closed cylinder
    let (r, t, nu) = (0.2, 0.002, 0.3_f64);
    let beta2 = (3.0 * (1.0 - nu * nu)).sqrt() / (r * t);
    let m = 1e5 * (1.0 - nu / 2.0) / (2.0 * beta2);
    let along = 1e5 * r / (2.0 * t) + 6.0 * m / (t * t);
    let round = nu * along;
    std::eprintln!("rigid {rigid:?} {}", (along * along - along * round + round * round).sqrt());
    let thin = peaks(Head::Flat, 0.2, 0.3, [0.002, 0.05], 1e3);
    std::eprintln!("disc {thin:?} clamped {}", 6.0 * 1e3 * r * r / 8.0 / (t * t) * (1.0 - nu + nu * nu).sqrt());
    let both = peaks(Head::Flat, 0.2, 0.3, [0.002, 0.002], 1e3);
    std::eprintln!("flat {both:?} free centre {}", 6.0 * 1e3 * r * r * 3.3 / 16.0 / (t * t));
}
