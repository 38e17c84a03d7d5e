//! How walls, baffles and seams bear what the tank holds.

use std::fmt::Write as _;

use seamwright_core::input::Face;
use seamwright_core::strength::panel::Spacing;
use seamwright_core::strength::weld::{CAUTION, FATIGUE_CAUTION};
use seamwright_core::strength::{
    Bearing, RESERVE, SHAKEN_DOWN, StrengthError, TEST_RESERVE, Trial, WallForm,
};
use seamwright_core::tank::Tank;
use seamwright_core::units::Pressure;
use serde_json::json;

use super::model::{Cell, Row, Section, Table, left, right, said, word};
use super::{Units, welds};

/// A reserve past this is shown as more than this.
const AMPLE: f64 = 100.0;

pub(super) fn section(tank: &Tank, units: Units) -> Section {
    let mut section = Section::new("Strength").at(&["proof"]);
    section.flush(load(tank, units));
    section.flush(metal(tank, units));
    section.flush(CAUTION);
    if !tank.mounts().is_empty() || tank.job().service().is_shaken() {
        section.flush(FATIGUE_CAUTION);
    }
    let walls: Vec<_> = tank.bearings(Trial::Use).collect();
    table(&mut section, &walls, units);
    let judged: Vec<Bearing> = walls.into_iter().filter_map(|(_, one)| one.ok()).collect();
    if judged.iter().any(|one| one.form == WallForm::Strips) {
        section.flush(
            "strips: a baffle with a free edge or with flanges, as strips between the two opposite walls that hold it, \
             whose ends turn freely; it bears more than that",
        );
    }
    let any = |form: WallForm| judged.iter().any(|one| one.form == form);
    if any(WallForm::Dish) {
        section.flush(
            "a dished end: its stress is that of a code's formula, which lets the knuckle yield a little when it is first pressed",
        );
    }
    together(&mut section, &judged);
    short_stretches(&mut section, &judged, units);
    verdict(&mut section, tank, &judged, units);
    welds::add(&mut section, tank);
    section.put("reserve_wanted", RESERVE);
    if let Some(strength) = tank.as_welded() {
        section.put("yield_as_welded_pa", strength.yield_strength.si());
        section.put("yield_source", strength.source.to_string());
    }
    if let Ok(heated) = tank.heated() {
        section.put("hot_share", heated.strength.si());
        section.put("hot_modulus_share", heated.modulus.si());
    }
    section.put("caution", CAUTION);
    section
}

/// How the stress of flat walls was found.
fn together(section: &mut Section, judged: &[Bearing]) {
    let plates = || judged.iter().filter(|one| one.form == WallForm::Plate);
    if plates().any(|one| one.joined.is_some()) {
        section.flush(
            "flat walls: a seam hands what bends the wall on its one side to the wall on the other, and the stress is the highest \
             that comes of that; of baffles, a pair for edges held from turning and free to turn",
        );
        section.flush(
            "a wall that bulges past a quarter of its sheet stretches too, which is counted up to a bulge of 16 sheets by bending \
             alone; its seams are taken as free to \
             pull inward, for what meets it there gives way",
        );
    }
    if plates().any(|one| one.at_most) {
        section.flush(
            "a wall that is no rectangle is taken as one that encloses it, so that the stress of all flat walls is at most what is \
             told",
        );
    }
    if plates().any(|one| one.joined.is_none()) {
        section.flush(
            "the tank has too many walls between its baffles, or one too long, to take them together: what a stiff or hard pressed \
             neighbour hands on is not computed, and each wall is told by itself",
        );
    }
}

/// What is higher for a short way only.
fn short_stretches(section: &mut Section, judged: &[Bearing], units: Units) {
    let told: Vec<String> = judged
        .iter()
        .filter_map(|bearing| {
            let peak = bearing.elastic?;
            let stress = units.stress(peak.stress);
            Some(format!("{} {stress} {}", bearing.face, peak.place.name()))
        })
        .collect();
    if !told.is_empty() {
        section.flush(format!(
            "for a short way, while all is elastic: {}. It may reach {SHAKEN_DOWN} times the yield strength; a hole is taken as open, \
             though what is welded into it stiffens it",
            told.join(", ")
        ));
    }
    let wide: Vec<String> = judged
        .iter()
        .filter(|bearing| bearing.wide_hole)
        .map(|bearing| bearing.face.to_string())
        .collect();
    if !wide.is_empty() {
        section.flush(format!(
            "a hole over 0.3 of the wall's short side changes how it bends, which is not computed: {}",
            wide.join(", ")
        ));
    }
    if judged.iter().any(|one| one.form == WallForm::Cylinder) {
        section.flush("the stress at holes in a round wall, and at baffles in it, is not computed");
    }
}

/// What the walls are tried with, in words.
fn load(tank: &Tank, units: Units) -> String {
    let job = tank.job();
    let liquid = match (job.liquid(), tank.liquid_density()) {
        (Some(liquid), Ok(density)) => format!("{liquid} of {}", units.density(density)),
        (Some(liquid), Err(_)) => liquid.to_string(),
        (None, _) => "water, because the job names no liquid,".to_owned(),
    };
    let mut text = format!("full of {liquid} to the brim");
    if job.is_leant() {
        text.push_str(", at the worst of the job's leans");
    }
    if job.service().is_shaken() {
        text.push_str(", shaken as the job says");
    }
    let over = job.service().pressure;
    if over.si() > 0.0 {
        let _ = write!(text, ", under {} held by the cap", units.pressure(over));
    }
    if !job.baffles().is_empty() {
        text.push_str(
            "; a baffle as if one side of it were empty, which is more than one with large holes meets",
        );
    }
    text
}

fn metal(tank: &Tank, units: Units) -> String {
    let Some(strength) = tank.as_welded() else {
        return StrengthError::Unknown.to_string();
    };
    let hot = match tank.heated() {
        Ok(heated) => match heated.source {
            Some(source) => format!(
                ", of which it keeps {:.0} % at the hottest of its service ({source}; creep of years is not looked at)",
                100.0 * heated.strength.si()
            ),
            None => String::new(),
        },
        Err(error) => format!("; {error}"),
    };
    format!(
        "yield beside the weld {} ({}){hot}, {RESERVE} of it wanted in reserve; bulges in pairs are for edges held from turning and \
         free to turn",
        units.stress(strength.yield_strength),
        strength.source
    )
}

pub(super) fn reserve(value: f64) -> String {
    if value > AMPLE {
        format!("> {AMPLE:.0}")
    } else {
        format!("{value:.2}")
    }
}

fn pair(of: [String; 2]) -> String {
    let [held, free] = of;
    if held == free {
        held
    } else {
        format!("{held} to {free}")
    }
}

/// The walls and baffles; below them those that cannot be judged.
fn table(section: &mut Section, walls: &[(Face, Result<Bearing, StrengthError>)], units: Units) {
    let columns = [
        left("face"),
        left("taken as"),
        right("sheet"),
        right("pressure"),
        right("stress"),
        right("bulge"),
        right("reserve"),
    ];
    let rows = walls.iter().map(|(face, bearing)| match bearing {
        Ok(bearing) => wall(bearing, units),
        Err(error) => {
            let told = Cell::default().data("face", face.to_string());
            vec![told.data("refused", error.to_string())]
        }
    });
    section.table(Table::new(columns, rows).keyed("panels"));
    for (face, bearing) in walls {
        if let Err(error) = bearing {
            section.unbroken(format!("{face}: {error}"));
        }
    }
}

fn wall(bearing: &Bearing, units: Units) -> Row {
    let [held, free] = bearing.stress.map(Pressure::si);
    let shown = match bearing.joined {
        Some(stress) => units.stress(stress),
        None => pair(bearing.stress_range().map(|stress| units.stress(stress))),
    };
    let stress = said(shown)
        .maybe("stress_pa", bearing.joined.map(Pressure::si))
        .data("stress_at_most", bearing.at_most)
        .data("stress_edges_held_pa", held)
        .data("stress_edges_free_pa", free)
        .maybe("elastic_pa", bearing.elastic.map(|peak| peak.stress.si()))
        .maybe(
            "elastic_place",
            bearing.elastic.map(|peak| peak.place.name()),
        )
        .data("wide_hole", bearing.wide_hole);
    let bulge = match (bearing.joined_bulge, bearing.bulge) {
        (Some(bulge), _) => said(units.fine(bulge)).data("bulge_m", bulge.si()),
        (None, Some(pair_of)) => said(pair(pair_of.map(|one| units.fine(one)))),
        (None, None) => Cell::default(),
    };
    let [held_bulge, free_bulge] = match bearing.bulge {
        Some(bulge) => bulge.map(|one| Some(one.si())),
        None => [None; 2],
    };
    let bulge = bulge
        .maybe("bulge_edges_held_m", held_bulge)
        .maybe("bulge_edges_free_m", free_bulge);
    let [stretched_held, stretched_free] = match bearing.bulge_held {
        Some(bulge) => bulge.map(|one| Some(one.si())),
        None => [None; 2],
    };
    let mend = bearing.cure.map(|cure| {
        let apart = match cure.spacing {
            Some(Spacing::AtMost(apart)) => Some(apart.si()),
            _ => None,
        };
        let mend = Cell::default().data("thickness_m", cure.thickness.si());
        mend.maybe("baffles_apart_m", apart).data
    });
    vec![
        word("face", bearing.face),
        word("taken_as", bearing.form.name()).data("inside_corner", bearing.inside_corner),
        Cell::of("thickness_m", bearing.thickness, units, Units::thickness),
        Cell::of("pressure_pa", bearing.pressure, units, Units::pressure),
        stress,
        bulge
            .maybe("stretched_bulge_edges_held_m", stretched_held)
            .maybe("stretched_bulge_edges_free_m", stretched_free),
        said(reserve(bearing.reserve))
            .data("reserve", bearing.reserve)
            .maybe("takes_pa", bearing.takes.map(Pressure::si))
            .maybe("mend", mend),
    ]
}

/// The weakest, and what would mend it; what else there is to say of single faces.
fn verdict(section: &mut Section, tank: &Tank, judged: &[Bearing], units: Units) {
    match tank.weakest(Trial::Use) {
        Ok(weakest) => {
            let (face, left) = (weakest.face.to_string(), weakest.reserve);
            let verdict = if weakest.is_enough(Trial::Use) {
                "enough"
            } else {
                "too little"
            };
            section.flush(format!(
                "weakest: {face}, reserve {}, {verdict}",
                reserve(left)
            ));
            section.put("weakest", json!({ "face": face, "reserve": left }));
        }
        Err(error) => section.put("weakest", json!({ "refused": error.to_string() })),
    }
    if let Ok((face, pressure)) = tank.weakest_wall() {
        section.flush(format!(
            "in a test the {face} takes the least: {} everywhere, with {TEST_RESERVE} in reserve",
            units.pressure(pressure)
        ));
    }
    let stretched: Vec<String> = judged
        .iter()
        .filter(|bearing| bearing.joined_bulge.is_none())
        .filter_map(|bearing| {
            let [_, free] = bearing.stretched_bulge()?;
            Some(format!("{} {}", bearing.face, units.fine(free)))
        })
        .collect();
    if !stretched.is_empty() {
        section.flush(format!(
            "past half its thickness a sheet stretches too, and between seams that cannot pull inward it bulges \
             no more than: {}",
            stretched.join(", ")
        ));
    }
    for bearing in judged {
        if let Some(told) = mending(bearing, units) {
            section.flush(told);
        }
        if bearing.inside_corner {
            section.flush(format!(
                "{}: it has an inside corner, at which the stress has no end in theory: round it well, or \
                 strengthen it",
                bearing.face
            ));
        }
        if bearing.may_wrinkle {
            section.flush(format!(
                "{}: so thin a dished end may wrinkle at its knuckle before it yields",
                bearing.face
            ));
        }
    }
}

fn mending(bearing: &Bearing, units: Units) -> Option<String> {
    let cure = bearing.cure?;
    let spacing = match cure.spacing {
        Some(Spacing::AtMost(apart)) => {
            let what = if matches!(bearing.face, Face::Baffle(_)) {
                "stiffeners"
            } else {
                "baffles or stiffeners"
            };
            let seams = if bearing.joined.is_some() {
                "; then plan anew, for at its seams it bears what walls hand it that are not parted"
            } else {
                ""
            };
            format!(
                ", or by itself {what} at most {} apart{seams}",
                units.length(apart)
            )
        }
        _ => String::new(),
    };
    Some(format!(
        "{}: {} sheet would give it {RESERVE}{spacing}",
        bearing.face,
        units.thickness_up(cure.thickness)
    ))
}
