//! This program's part of the page of checks.

use seamwright_tests::Outcome;
use seamwright_tests::published::page::{Subject, hold};

use super::{consumables, filler, gmaw, ranges, shrinkage, stock, wire};

#[test]
fn the_page_of_checks() -> Outcome {
    hold("supply", &SUBJECTS)
}

const SUBJECTS: [Subject; 4] = [
    Subject {
        title: "Metals",
        about: "Conductivity, density, expansion, strength and emissivity of sheet and filler.",
        checks: &[
            stock::a_row_in_full,
            stock::conductivities,
            stock::conductivities_by_the_electrical_ones,
            stock::diffusivities,
            stock::densities_by_the_parts,
            stock::strengths_of_the_sheet,
            stock::welded_6061,
            stock::emissivities,
            wire::softened_beside_the_seam,
        ],
    },
    Subject {
        title: "Fillers",
        about: "Which rod a book has as the best by a criterion, and what weld metal is made of. *Here* are all rods \
                that have the best mark.",
        checks: &[
            filler::best_by_criterion,
            filler::warm_service,
            filler::dilution,
        ],
    },
    Subject {
        title: "Settings",
        about: "Currents, speeds, nozzles, rods and tungstens by the sheet, and the feed of wire. Ours are ranges over \
                several sources, so that what one prints has to lie within.",
        checks: &[
            ranges::currents_of_the_published_tables,
            ranges::nozzles_flows_and_rods,
            ranges::electrodes,
            gmaw::aluminium_melts_as_a_wire_maker_prints,
            gmaw::steel_melts_by_two_relations,
            gmaw::where_spray_begins,
        ],
    },
    Subject {
        title: "Beads, rod, wire, gas and shrinkage",
        about: "What a seam takes and how far it draws in.",
        checks: &[
            consumables::fillets_of_eight_and_six,
            consumables::mass_of_a_metre_of_rod,
            consumables::rod_for_a_fillet,
            wire::wire_from_a_spool,
            consumables::gas_of_a_stitched_job,
            consumables::contents_of_cylinders,
            shrinkage::shrinkage,
            shrinkage::free_contraction_and_notes,
        ],
    },
];
