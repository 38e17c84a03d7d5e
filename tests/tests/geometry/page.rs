//! This program's part of the page of checks.

use seamwright_tests::Outcome;
use seamwright_tests::published::page::{Subject, hold};

use super::quantity::checks as units;
use super::{bends, bodies, capacity, drums, joints, published};

#[test]
fn the_page_of_checks() -> Outcome {
    hold("geometry", &SUBJECTS)
}

const SUBJECTS: [Subject; 6] = [
    Subject {
        title: "Units, constants and sheet gauges",
        about: "What a unit is in SI units, constants of physics, and how thick a gauge is.",
        checks: &[
            units::every_gathered_figure_agrees,
            units::exact_definitions_hold_to_a_unit_in_the_last_place,
            units::pounds_force,
            units::constants_of_physics,
            units::gauges_round_to_the_printed_table,
        ],
    },
    Subject {
        title: "Bodies",
        about: "Volumes, areas, edges and angles of blocks, profiles, tapers and drums. The reference tanks stand in \
                `tests/data/geometry/geometry.json`.",
        checks: &[
            published::the_handbook_wedge,
            published::the_octahedron_within_a_cube,
            published::a_taper_is_a_prismatoid,
            published::the_hip_of_a_hopper,
            bodies::every_reference_tank_comes_out,
        ],
    },
    Subject {
        title: "Drums and their ends",
        about: "What a drum holds at a depth, lying or upright, and the forms of its ends.",
        checks: &[
            drums::jones_worked_examples,
            drums::dished_ends,
            drums::a_quarter_deep,
            drums::depth_for_a_share,
        ],
    },
    Subject {
        title: "Contents of a leaning tank",
        about: "Volumes below a level, what an outlet leaves behind, and what a stick reads.",
        checks: &[
            published::a_leaning_box_to_its_filler_and_outlets,
            capacity::what_can_be_drawn_from_a_leaning_box,
            capacity::sticks_at_both_ends_of_a_leaning_box,
        ],
    },
    Subject {
        title: "Liquids and their growth",
        about: "Densities, and how contents and tank grow as they get warmer.",
        checks: &[
            capacity::petroleum_by_the_1980_tables,
            capacity::the_bands_of_the_tables_meet,
            capacity::the_temperature_that_fills_the_headspace,
            capacity::expansion_of_the_sheet,
            capacity::water,
            capacity::glycol_mixtures,
        ],
    },
    Subject {
        title: "Bends and joints",
        about: "What a bend takes of the sheet, how tight it may be, and what a joint takes off the blank.",
        checks: &[
            bends::allowance_setback_and_deduction,
            bends::handbook_rules_for_a_right_angle,
            bends::din_6935_compensation,
            bends::a_channel_from_the_mechanics_handbook,
            bends::empirical_allowance_for_each_degree,
            bends::least_radii_of_the_aluminum_association,
            joints::the_corner_table,
        ],
    },
];
