//! What the surfaces at a hole's ends make of it, by hand from their geometry.

use quillbore_calc::RowInput;
use quillbore_calc::finding::{Kind, Level};
use quillbore_calc::head::Recess;
use quillbore_calc::input::{Ends, Exit, HoleEnd, Surface};

use super::shop::{job, tables, through};
use super::{close, codes, first, tube};

fn into(surface: Surface, tilt_deg: f64) -> RowInput {
    RowInput {
        end: HoleEnd::Into,
        exit: Some(Exit {
            surface,
            tilt_deg: Some(tilt_deg),
        }),
        tube: Some(tube(&tables(), 1.0, 200.0, 1)),
        ..through(1.1, 20.0)
    }
}

fn bore(radius_mm: f64, offset_mm: f64) -> Surface {
    Surface::Bore {
        radius_mm,
        offset_mm,
    }
}

/// Into a crossing hole of 4 mm: the axis is through first, the whole disc 2 - sqrt(4 - 0.25) later, and
/// from the axis 2 + sqrt(4 - 0.25) are free up to the other side.
#[test]
fn into_a_crossing_hole() {
    let tables = tables();
    let found = first(&job(vec![into(bore(2.0, 0.0), 0.0)]), &tables);
    let side = libm::sqrt(4.0 - 0.25);
    close(found.zones_mm.unwrap().exit, 2.0 - side, 1e-12);
    close(found.behind_mm.unwrap(), 2.0 + side, 1e-12);
    // 2.5 mm of overtravel and some 1.9 mm by which holes scatter ask for more than these 3.94 mm: the
    // overtravel gives way.
    let plan = found.depth_plan.unwrap();
    assert!(!plan.two_steps);
    close(
        plan.never_beyond_mm,
        20.0 + 2.0 + side - found.gap_mm.unwrap().p90,
        1e-12,
    );
    assert!(codes(&found, Level::Check).contains(&"backing-needed"));
    // What is typed counts before it.
    let mut typed = into(bore(2.0, 0.0), 0.0);
    typed.behind_mm = Some(9.0);
    assert_eq!(first(&job(vec![typed]), &tables).behind_mm, Some(9.0));
    let mut backed = into(bore(2.0, 0.0), 0.0);
    backed.backed = true;
    assert!(first(&job(vec![backed]), &tables).depth_plan.is_none());
}

/// A bore can't be drilled from: both ends are not open, whatever is typed for the end.
#[test]
fn a_bore_is_drilled_into_from_one_end() {
    let tables = tables();
    let mut row = into(bore(30.0, 0.0), 0.0);
    row.end = HoleEnd::Through;
    row.ends = Some(Ends::Both);
    let found = first(&job(vec![row.clone()]), &tables);
    assert_eq!(found.ends, Some(Ends::One));
    assert!(codes(&found, Level::Check).contains(&"far-end-closed"));
    row.exit = None;
    assert_eq!(first(&job(vec![row]), &tables).ends, Some(Ends::Both));
}

/// The far side of a round bar is as open as the near one, and a tool that leaves it at its side hangs over;
/// in a bore it grazes.
#[test]
fn a_bar_is_drilled_from_both_ends() {
    let tables = tables();
    let out_of = |radius_mm, offset_mm| {
        let exit = Surface::Cylinder {
            radius_mm,
            offset_mm,
        };
        let row = RowInput {
            end: HoleEnd::Through,
            ends: Some(Ends::Both),
            ..into(exit, 0.0)
        };
        first(&job(vec![row]), &tables)
    };
    let found = out_of(30.0, 0.0);
    assert_eq!(found.ends, Some(Ends::Both));
    assert!(!codes(&found, Level::Check).contains(&"far-end-closed"));
    let said = codes(&out_of(2.0, 1.8), Level::Check);
    assert!(said.contains(&"overhang") && !said.contains(&"exit-grazes"));
}

/// An exit at an angle of its own: entry zone none, exit zone d tan 30.
#[test]
fn a_slanted_exit() {
    let tables = tables();
    let found = first(&job(vec![into(Surface::Flat, 30.0)]), &tables);
    let zones = found.zones_mm.unwrap();
    close(zones.entry, 0.0, 1e-12);
    close(zones.exit, libm::tan(f64::to_radians(30.0)), 1e-12);
    close(
        found.target_depth_mm.unwrap(),
        8.0 + 20.0 + zones.exit / 2.0 + 2.5,
        1e-9,
    );
    assert_eq!((found.tilt_deg, found.behind_mm), (0.0, None));
}

#[test]
fn exits_that_are_missed_or_grazed() {
    let tables = tables();
    let said = |row: RowInput, level| codes(&first(&job(vec![row]), &tables), level);
    assert!(said(into(bore(2.0, 1.8), 0.0), Level::Check).contains(&"exit-grazes"));
    for offset in [2.0, 5.0] {
        let row = into(bore(2.0, offset), 0.0);
        assert!(said(row.clone(), Level::Stop).contains(&"exit-misses"));
        assert_eq!(first(&job(vec![row]), &tables).minutes, None);
    }
    assert!(said(into(Surface::Flat, 95.0), Level::Stop).contains(&"tilt-out-of-range"));
    // Of a blind hole nothing is left.
    let mut blind = into(bore(2.0, 5.0), 0.0);
    blind.end = HoleEnd::Blind;
    assert!(said(blind, Level::Stop).is_empty());
}

/// What is missed is told with its own radius and offset, of a bar, a ball and a bore alike.
#[test]
fn what_is_missed_is_told_in_figures() {
    let tables = tables();
    let told = |row: RowInput| {
        let findings = first(&job(vec![row]), &tables).findings;
        let mut kinds = findings.into_iter().map(|finding| finding.kind);
        kinds.find_map(|kind| match kind {
            Kind::AxisMisses {
                offset_mm,
                radius_mm,
            } => Some(("axis", offset_mm, radius_mm)),
            Kind::ToolMisses {
                offset_mm,
                radius_mm,
            } => Some(("tool", offset_mm, radius_mm)),
            Kind::ExitMisses {
                offset_mm,
                radius_mm,
            } => Some(("exit", offset_mm, radius_mm)),
            _ => None,
        })
    };
    let entered = |surface| {
        told(RowInput {
            surface,
            ..through(1.1, 3.0)
        })
    };
    let (radius_mm, offset_mm) = (5.0, -5.2);
    let cylinder = Surface::Cylinder {
        radius_mm,
        offset_mm,
    };
    assert_eq!(entered(cylinder), Some(("axis", -5.2, 5.0)));
    let ball = Surface::Ball {
        radius_mm,
        offset_mm: 7.0,
    };
    assert_eq!(entered(ball), Some(("tool", 7.0, 5.0)));
    assert_eq!(told(into(bore(2.0, 3.5), 0.0)), Some(("exit", 3.5, 2.0)));
    assert_eq!(entered(Surface::Flat), None);
}

#[test]
fn metal_beside_the_hole() {
    let tables = tables();
    let beside = |offset_mm| {
        let row = RowInput {
            surface: Surface::Edge {
                included_deg: 90.0,
                offset_mm,
            },
            tube: Some(tube(&tables, 1.0, 200.0, 1)),
            ..through(1.1, 20.0)
        };
        let found = first(&job(vec![row.clone()]), &tables);
        let upper = row.limits_mm.unwrap().upper;
        (found.findings, upper)
    };
    let says = |offset_mm| {
        let (findings, upper) = beside(offset_mm);
        let mut kinds = findings.into_iter().map(|finding| finding.kind);
        let wall = kinds.find_map(|kind| match kind {
            Kind::ThinSideWall { wall_mm } => Some(wall_mm),
            Kind::Overhang { by_mm } => Some(-by_mm),
            _ => None,
        });
        (wall, upper)
    };
    let (wall, upper) = says(0.7);
    close(wall.unwrap(), 0.7 - upper / 2.0, 1e-12);
    // The tool itself hangs over.
    close(says(0.3).0.unwrap(), 0.3 - 0.5, 1e-12);
    // The tool is in, its hole is not.
    close(says(0.52).0.unwrap(), 0.52 - upper / 2.0, 1e-12);
    assert_eq!(says(2.0).0, None);
}

#[test]
fn a_ball_s_offset_counts_before_the_angle() {
    let tables = tables();
    let ball = |offset_mm, tilt_deg| {
        let row = RowInput {
            surface: Surface::Ball {
                radius_mm: 10.0,
                offset_mm,
            },
            tilt_deg,
            ..through(1.1, 5.0)
        };
        first(&job(vec![row]), &tables)
    };
    let both = ball(5.0, 45.0);
    close(both.tilt_deg, 30.0, 1e-9);
    assert!(codes(&both, Level::Check).contains(&"angle-twice"));
    // sin 30 x 10 is 5: they say the same.
    assert!(!codes(&ball(5.0, 30.0), Level::Check).contains(&"angle-twice"));
    close(ball(0.0, 45.0).tilt_deg, 45.0, 1e-9);
}

/// An offset of 5 mm on a radius of 10 is 30 deg.
#[test]
fn an_angle_that_is_typed_and_offset_is_told() {
    let of = |surface, tilt_deg| {
        let row = RowInput {
            surface,
            tilt_deg,
            ..through(0.8, 6.0)
        };
        codes(&first(&job(vec![row]), &tables()), Level::Check)
    };
    let ball = |offset_mm| Surface::Ball {
        radius_mm: 10.0,
        offset_mm,
    };
    let bar = |offset_mm| Surface::Cylinder {
        radius_mm: 10.0,
        offset_mm,
    };
    let twice = |surface, tilt_deg| of(surface, tilt_deg).contains(&"angle-twice");
    assert!(twice(ball(5.0), 20.0) && twice(ball(5.0), 29.4));
    assert!(!twice(ball(5.0), 29.6) && !twice(ball(5.0), 0.0) && !twice(ball(0.0), 20.0));
    let counted_twice = |surface, tilt_deg| of(surface, tilt_deg).contains(&"angle-counted-twice");
    assert!(counted_twice(bar(5.0), 30.0) && counted_twice(bar(5.0), 29.1));
    assert!(!counted_twice(bar(5.0), 28.9) && !counted_twice(bar(5.0), 31.1));
    assert!(!counted_twice(bar(0.0), 30.0) && !counted_twice(bar(5.0), 0.0));
}

#[test]
fn an_exit_is_none_of_a_blind_hole() {
    let of = |end, exit: bool| {
        let row = RowInput {
            end,
            exit: exit.then_some(Exit {
                surface: Surface::Flat,
                tilt_deg: None,
            }),
            ..through(0.8, 20.0)
        };
        codes(&first(&job(vec![row]), &tables()), Level::Check).contains(&"exit-of-blind")
    };
    assert!(of(HoleEnd::Blind, true));
    assert!(!of(HoleEnd::Blind, false) && !of(HoleEnd::Through, true));
}

/// Limits up to 0.9 mm: a wider recess takes the hole, a narrower one doesn't.
#[test]
fn a_recess_that_the_hole_does_not_fit_into_stops() {
    let of = |width_mm| {
        let row = RowInput {
            recess: Some(Recess {
                depth_mm: 2.0,
                width_mm,
            }),
            ..through(0.8, 20.0)
        };
        codes(&first(&job(vec![row]), &tables()), Level::Stop).contains(&"recess-too-narrow")
    };
    let upper_mm = through(0.8, 20.0).limits_mm.unwrap().upper;
    assert!(of(upper_mm - 0.01) && of(0.3));
    assert!(!of(3.0));
}
