//! From a draft to seams, liquid, stitches and heat.

use core::hint::black_box;

use seamwright_core::arc::conventional_voltage;
use seamwright_core::blank::{Blank, CutBlank};
use seamwright_core::capacity::{Capacity, Lean};
use seamwright_core::input::{
    ArcDraft, Axis, Block, Draft, Drum, Ends, Face, FillDraft, JointsDraft, Measure, Name, Profile,
    ProfilePoint, Shape, Sized, StockDraft, Taper, UseDraft, WeldDraft,
};
use seamwright_core::tables::Alloy;
use seamwright_core::tank::Tank;
use seamwright_core::units::{Angle, Length, Ratio, Volume};

/// Reaches every calculation over a whole tank.
pub(crate) fn prove() {
    for shape in [block(), profile(), taper(), drum()] {
        let draft = black_box(draft(shape));
        crate::liquid::search(&draft);
        let built = Tank::build_noting(&draft, |assumed| {
            black_box(assumed);
        });
        match built {
            Ok(tank) => whole(black_box(&tank)),
            Err(error) => {
                black_box(error);
            }
        }
    }
}

fn length() -> Length {
    black_box(Length::from_metres(0.3))
}

fn block() -> Shape {
    Shape::Block(Block {
        sized: Sized::Outside,
        length: length(),
        width: length(),
        height: length(),
        cuts: heapless::Vec::new(),
    })
}

fn profile() -> Shape {
    let point = ProfilePoint {
        x: length(),
        z: length(),
        radius: length(),
    };
    Shape::Profile(Profile {
        sized: Sized::Outside,
        outline: [point; 4].into_iter().collect(),
        width: length(),
    })
}

fn taper() -> Shape {
    Shape::Taper(Taper {
        sized: Sized::Outside,
        base: [length(); 2],
        top: [length(); 2],
        height: length(),
        shift: [length(); 2],
    })
}

fn drum() -> Shape {
    Shape::Drum(Drum {
        sized: Sized::Outside,
        diameter: length(),
        length: length(),
        axis: black_box(Axis::Lying),
        ends: black_box(Ends::Torispherical {
            crown: length(),
            knuckle: length(),
        }),
    })
}

/// Any draft: what stands here is hidden from the optimiser by its caller.
fn draft(shape: Shape) -> Draft {
    let length = Length::from_metres(0.3);
    Draft {
        name: Name::new(),
        shape,
        stock: StockDraft {
            alloy: Alloy::A5052,
            temper: None,
            thickness: length,
            faces: heapless::Vec::new(),
        },
        joints: JointsDraft::default(),
        fittings: heapless::Vec::new(),
        baffles: heapless::Vec::new(),
        fill: FillDraft::default(),
        arc: ArcDraft::default(),
        weld: WeldDraft::default(),
        service: UseDraft::default(),
    }
}

fn whole(tank: &Tank) {
    bodies(tank);
    liquid(tank);
    welds(tank);
    tank.each_notice(|notice| {
        black_box((notice.code(), notice.severity()));
    });
    black_box(tank.totals());
    crate::supplies::prove(tank);
    crate::heat::prove(tank);
    crate::work::prove(tank);
    crate::liquid::prove(tank);
    crate::weld::prove(tank);
    crate::strength::prove(tank);
    crate::leak::prove(tank);
    crate::balance::prove(tank);
    crate::calibrate::prove(tank);
}

fn bodies(tank: &Tank) {
    for solid in [&tank.body().outside, &tank.body().inside] {
        black_box((solid.volume(), solid.centroid(), solid.vertices()));
        for face in solid.faces() {
            black_box((face.face(), face.normal(), face.area()));
            for corner in face.outline() {
                black_box(corner);
            }
        }
        for edge in solid.edges() {
            black_box((
                edge,
                edge.length(),
                edge.at(black_box(Length::from_metres(0.1))),
            ));
        }
        black_box(solid.face(black_box(Face::Cut(3))));
    }
    let mut blank = Blank::new();
    for panel in tank.panels() {
        black_box(panel.mark.letter());
        if tank.blank(&panel, &mut blank).is_ok() {
            for node in blank.outline() {
                black_box(node);
            }
            for bend in blank.bends() {
                black_box(bend);
            }
            black_box(blank.place(
                tank.body(),
                panel.face(),
                black_box(tank.inside().centroid()),
            ));
        }
        black_box(panel);
    }
    for place in 0..64 {
        if let Some(edge) = tank.edge_of_seam(black_box(place)) {
            black_box(edge.at(length()));
        }
    }
}

fn liquid(tank: &Tank) {
    let angle = || black_box(Angle::from_radians(0.1));
    if let Ok(lean) = Lean::new(angle(), angle()) {
        let pool = tank.pool(lean);
        black_box((pool.full_depth(), pool.brim(), pool.up()));
        let _ = black_box(pool.at(black_box(Length::from_metres(0.1))));
        let _ = black_box(pool.depth_for(black_box(Volume::from_cubic_metres(0.004))));
    }
    for level in tank.dip() {
        black_box(level);
    }
    black_box(tank.dip_mark(black_box(3)));
    let headspace = black_box(Ratio::from_share(0.05));
    let capacity = Capacity::level(
        tank.inside(),
        headspace,
        black_box(Some(Length::from_metres(0.1))),
        black_box(Length::from_metres(0.01)),
    );
    if let Ok(capacity) = black_box(capacity) {
        black_box(capacity.of(black_box(Measure::Usable)));
    }
}

/// Order of the tacks, and blanks cut larger for shrinkage.
fn tacked(tank: &Tank) {
    let mut tacking = seamwright_core::weld::Tacking::new();
    let mut order = tank.tack_order(&mut tacking);
    black_box(order.pull_seam_by_seam());
    for tack in order.by_ref() {
        black_box(tack);
    }
    black_box((order.pull(), tank.closing_panel()));
    for seam in tank.seams() {
        black_box(tank.shrinkage(&seam).is_some());
    }
    let larger = tank.larger(black_box(seamwright_core::supply::Draw::ByRule));
    let mut blank = CutBlank::new();
    for panel in tank.panels_larger(black_box(&larger)) {
        if tank.cut_blank(&larger, &panel, &mut blank).is_ok() {
            black_box(blank.area());
        }
    }
    black_box(tank.mass_larger(&larger));
}

fn welds(tank: &Tank) {
    tacked(tank);
    for seam in tank.seams() {
        black_box(seam);
        if let Some(tacks) = tank.tacks(&seam) {
            for centre in tacks.centres() {
                black_box(centre);
            }
        }
        if let Some(division) = tank.division(&seam) {
            for run in division.runs() {
                black_box(run);
            }
        }
    }
    let arc = tank.arc();
    let length = black_box(Length::from_metres(1.0));
    black_box((
        arc.power(),
        arc.arc_energy(),
        arc.heat_input(),
        arc.time_along(length),
        arc.heat_along(length),
    ));
    black_box(conventional_voltage(arc.process, arc.current));
}
