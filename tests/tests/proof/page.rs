//! This program's part of the page of checks.

use seamwright_tests::Outcome;
use seamwright_tests::published::page::{Subject, hold};

use super::{bent_plates, discs, leak, strength, strips};

#[test]
fn the_page_of_checks() -> Outcome {
    hold("proof", &SUBJECTS)
}

const SUBJECTS: [Subject; 4] = [
    Subject {
        title: "Plates",
        about: "Bending of rectangles, discs and strips, by Roark's β = σ t²/(q b²) and α = w E t³/(q b⁴), by \
                Timoshenko's M/(q a²) and w D/(q a⁴), with w the bulge, q the pressure, b the short side, D the \
                stiffness.",
        checks: &[
            bent_plates::supported_plates_under_even_pressure,
            bent_plates::supported_plates_in_roark,
            bent_plates::poissons_ratio_counts,
            bent_plates::clamped_plates_under_even_pressure,
            bent_plates::clamped_plates_in_roark,
            bent_plates::plates_under_a_rising_pressure,
            bent_plates::rising_pressure_in_timoshenko,
            bent_plates::long_plates_run_on_smoothly,
            bent_plates::a_triangle_bends_less_than_its_rectangle,
            strength::discs,
            discs::an_even_pressure,
            discs::the_part_that_changes,
            strips::a_strip_bears_no_more_than_the_plate,
        ],
    },
    Subject {
        title: "Plates that stretch",
        about: "Bulge and stress where it is more than half of the thickness: taken on the high side.",
        checks: &[
            bent_plates::stretching_plates,
            bent_plates::stretching_squares_in_roark,
            strength::worked_panel,
        ],
    },
    Subject {
        title: "Round walls, seams and masses",
        about: "Cylinders and dished ends by the formulas of codes, the throat of a fillet, the weight of sheet.",
        checks: &[
            strength::round_walls,
            strength::a_fillet_across_its_throat,
            strength::mass_of_sheet,
            strength::head_of_water,
        ],
    },
    Subject {
        title: "Leak tests",
        about: "Pressures of the rules, energy that is stored, leak rates from readings, and the limits of cautions. \
                Rules of your own place go first.",
        checks: &[
            leak::pressures_of_the_rules,
            leak::heads_of_water,
            leak::force_on_a_panel,
            leak::stored_energy_of_pcc2,
            leak::stored_energy_of_the_worked_examples,
            leak::decay_of_40_cfr_1065_644,
            leak::decay_made_good_for_temperature_and_barometer,
            leak::units_of_a_leak_rate,
            leak::warming_of_the_air,
            leak::time_to_see_a_leak,
            leak::ozone_limit_of_the_caution,
        ],
    },
];
