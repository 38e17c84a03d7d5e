//! What the tank's panels bear and what it weighs, as far as their pages tell.

use heapless::Vec;
use seamwright_core::body::{Face, MAX_FACES};
use seamwright_core::geom::Vector;
use seamwright_core::job::{
    BalanceError, Bearing, Cure, Form, MAX_BAFFLES, StrengthError, Tank, Trial,
};
use seamwright_core::proof::balance::{Balance, MountError};
use seamwright_core::quantity::{Length, Mass, Pressure};

/// Panels and baffles that a tank may have.
pub(super) const MOST_PANELS: usize = MAX_FACES + MAX_BAFFLES;

/// How a panel bears what the tank holds, as far as its page tells.
#[derive(Clone, Copy, Debug)]
pub struct Borne {
    /// What it was taken as.
    pub form: Form,
    /// Its sheet.
    pub thickness: Length,
    /// The highest pressure on it.
    pub pressure: Pressure,
    /// Yield strength beside a weld over the highest stress.
    pub reserve: f64,
    /// What would mend it; `None` where it has the reserve that is wanted.
    pub cure: Option<Cure>,
    /// It has an inside corner, at which this says nothing.
    pub inside_corner: bool,
    /// A dished end so thin that it may wrinkle.
    pub may_wrinkle: bool,
}

impl From<Bearing> for Borne {
    fn from(bearing: Bearing) -> Self {
        Self {
            form: bearing.form,
            thickness: bearing.thickness,
            pressure: bearing.pressure,
            reserve: bearing.reserve,
            cure: bearing.cure,
            inside_corner: bearing.inside_corner,
            may_wrinkle: bearing.may_wrinkle,
        }
    }
}

/// A panel and how it bears.
pub type Panel = (Face, Result<Borne, StrengthError>);

/// What a tank weighs and where.
#[derive(Clone, Copy, Debug)]
pub struct Weighed {
    /// All of it.
    pub mass: Mass,
    /// Its centre of gravity, in metres; `None` of no mass.
    pub centre: Option<Vector>,
}

/// The mounts of a full tank.
#[derive(Clone, Copy, Debug)]
pub struct Mounts {
    /// The one that bears most, counted from 1, and what, in newtons.
    pub heaviest: (u8, f64),
    /// One that must hold the tank down, and with how many newtons.
    pub lifts: Option<(u8, f64)>,
}

/// Masses of a tank.
#[derive(Clone, Copy, Debug)]
pub struct Masses {
    /// Empty, at the fill mark, at the brim.
    pub states: [Result<Weighed, BalanceError>; 3],
    /// Its mounts, where the job has any.
    pub mounts: Option<Result<Mounts, MountError>>,
}

// Out of line, as is what follows: each needs much stack, and only while it works.
#[inline(never)]
pub(super) fn bear(tank: &Tank) -> Vec<Panel, MOST_PANELS> {
    let mut panels: Vec<Panel, MOST_PANELS> = Vec::new();
    for (face, bearing) in tank.bearings(Trial::Use) {
        // More room than there are.
        let _ = panels.push((face, bearing.map(Borne::from)));
    }
    let reserve = |panel: &Panel| match &panel.1 {
        Ok(borne) => borne.reserve,
        Err(_) => f64::NEG_INFINITY,
    };
    panels.sort_unstable_by(|a, b| reserve(a).total_cmp(&reserve(b)));
    panels
}

#[inline(never)]
pub(super) fn weigh(tank: &Tank) -> Masses {
    let weighed = |balance: &Balance| Weighed {
        mass: balance.mass(),
        centre: balance.centre(),
    };
    let capacity = tank.capacity();
    let full = tank.laden_balance(capacity.brim);
    let states = [
        tank.empty_balance().map(|one| weighed(&one)),
        tank.laden_balance(capacity.fill).map(|one| weighed(&one)),
        full.as_ref().map(weighed).map_err(|error| *error),
    ];
    let mounts = match full {
        Ok(full) if !tank.mounts().is_empty() => Some(bear_on_mounts(tank, &full)),
        _ => None,
    };
    Masses { states, mounts }
}

fn bear_on_mounts(tank: &Tank, full: &Balance) -> Result<Mounts, MountError> {
    let loads = tank.mount_loads(full)?;
    let mut heaviest = (0, f64::NEG_INFINITY);
    let mut lifts: Option<(u8, f64)> = None;
    for (load, number) in loads.mounts.iter().zip(1_u8..) {
        if load.force > heaviest.1 {
            heaviest = (number, load.force);
        }
        if load.least < 0.0 && lifts.is_none_or(|(_, held)| -load.least > held) {
            lifts = Some((number, -load.least));
        }
    }
    Ok(Mounts { heaviest, lifts })
}
