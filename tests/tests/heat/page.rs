//! This program's part of the page of checks.

use seamwright_tests::Outcome;
use seamwright_tests::published::page::{Subject, hold};

use super::{arc, bessel, input, losses, moving_source, preheat, stitch};

#[test]
fn the_page_of_checks() -> Outcome {
    hold("heat", &SUBJECTS)
}

const SUBJECTS: [Subject; 4] = [
    Subject {
        title: "The arc",
        about: "Heat input by both conventions, power of waves, load voltages, duty cycles, and what of an arc's power \
                the metal takes up.",
        checks: &[
            input::heat_input_by_both_conventions,
            input::the_factors_of_the_processes,
            input::uptake_of_a_direct_current_arc,
            input::uptake_of_an_arc_from_wire,
            input::starting_settings_lie_within_published_ranges,
            arc::square_alternating_current,
            arc::arc_energy_from_power_and_speed,
            arc::load_voltages,
            arc::load_voltages_of_wire,
            arc::duty_by_the_square_law,
        ],
    },
    Subject {
        title: "The moving source",
        about: "Rosenthal's fields, the Bessel functions in them, and the melt.",
        checks: &[
            bessel::k0_of_the_tables,
            bessel::k0_and_k1_to_the_last_figures,
            moving_source::thin_plate_at_places,
            moving_source::thick_plate_at_places,
            moving_source::peaks_beside_the_seam,
            moving_source::the_melt_in_thin_stainless,
            moving_source::the_melt_in_aluminium,
            moving_source::relative_thickness,
            moving_source::a_fast_arc_comes_to_the_published_limits,
        ],
    },
    Subject {
        title: "Losses to the air and one stitch",
        about: "Still air, radiation, and the shell of cells that follows a tank's heat, on one stitch.",
        checks: &[
            losses::a_fire_screen,
            losses::churchill_and_chu_to_the_last_digit,
            losses::a_plate_of_two_feet,
            losses::a_plate_in_a_room,
            losses::by_radiation_alone,
            losses::by_a_film_that_does_not_change,
            losses::by_both,
            losses::air_of_another_table,
            stitch::the_middle_of_a_stitch,
            stitch::a_sheet_that_has_evened_out,
        ],
    },
    Subject {
        title: "Preheat and between runs",
        about: "How warm the metal may and should be, and for how long.",
        checks: &[preheat::preheat],
    },
];
