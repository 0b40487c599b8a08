//! Flush and push of a row: the pure functions asked for what the row, its tube and its machine say.

use quillbore_calc::finding::{Kind, Level};
use quillbore_calc::flush::{Path, Water};
use quillbore_calc::input::{Exit, HoleEnd, Surface};
use quillbore_calc::tables::Tube;

use super::shop::{job, tables, through};
use super::{close, codes, first, tube};

#[test]
fn a_row_s_flush_is_that_of_its_tube_at_its_depth() {
    let tables = tables();
    let mut row = through(1.1, 60.0);
    row.tube = Some(tube(&tables, 1.0, 400.0, 1));
    let mut input = job(vec![row]);
    let found = first(&input, &tables);
    let flush = found.flush.unwrap();
    let machine = input.machine.unwrap().of(&tables.machines).unwrap();
    let made: &Tube = found.tube.unwrap().of(&tables.tubes).unwrap();
    let path = Path {
        tube_length_mm: made.length_mm,
        bore_mm: made.bore_mm,
        channels: 1,
        tube_mm: 1.0,
        hole_mm: 1.0 + 2.0 * found.gap_mm.unwrap().p50(),
    };
    let water = Water::at(20.0).unwrap();
    let at = |depth, bar| path.at_depth(depth, bar, &water).unwrap();
    assert_eq!(flush.pressure_bar, machine.pressure_bar);
    assert_eq!(flush.face, at(0.0, machine.pressure_bar));
    assert_eq!(flush.bottom, at(60.0, machine.pressure_bar));
    assert_eq!((flush.depth_mm, flush.weak_from_mm), (60.0, None));
    // Metal of the work without the core, and of the tube, by the feed at the bottom:
    // f (pi/4) ((D^2 - b^2) + w (d^2 - b^2)) over the flow.
    let feed =
        found.feed_mm_min.unwrap() / (1.0 + libm::pow(60.0 / found.steps.halved_mm.unwrap(), 1.5));
    let square = |mm: f64| mm * mm;
    let metal = square(path.hole_mm) - square(made.bore_mm)
        + found.wear_ratio.unwrap() * (1.0 - square(made.bore_mm));
    let share = feed * std::f64::consts::FRAC_PI_4 * metal / (flush.bottom.ml_min * 1000.0);
    close(flush.debris_share.unwrap(), share, 1e-12);
    // p pi/4 D^2 of the largest hole.
    let upper = found.limits_mm.unwrap().upper;
    let push = machine.pressure_bar * 0.1 * std::f64::consts::FRAC_PI_4 * upper * upper;
    close(found.push_n.unwrap(), push, 1e-12);
    // The job's own pressure goes before the machine's.
    input.pressure_bar = Some(20.0);
    let lower = first(&input, &tables);
    assert_eq!(lower.flush.unwrap().bottom, at(60.0, 20.0));
    close(
        lower.push_n.unwrap() / found.push_n.unwrap(),
        20.0 / machine.pressure_bar,
        1e-12,
    );
}

/// From both ends the water has half as far to come up.
#[test]
fn the_flush_is_told_at_the_deeper_end() {
    let tables = tables();
    let mut row = through(1.1, 60.0);
    row.tube = Some(tube(&tables, 1.0, 400.0, 1));
    row.ends = Some(quillbore_calc::input::Ends::Both);
    let flush = first(&job(vec![row]), &tables).flush.unwrap();
    close(flush.depth_mm, 30.5, 1e-12);
}

#[test]
fn a_wide_bore_takes_what_the_pump_gives() {
    let mut tables = tables();
    let mut row = through(1.1, 5.0);
    row.tube = Some(tube(&tables, 1.0, 400.0, 1));
    let input = job(vec![row]);
    let free = first(&input, &tables).flush.unwrap().face.ml_min;
    tables.start.pump_l_min = free / 4.0 / 1000.0;
    let held = first(&input, &tables).flush.unwrap();
    close(held.face.ml_min, free / 4.0, 1e-9);
}

#[test]
fn a_weak_flush_is_told_with_the_depth_it_begins_at() {
    let mut tables = tables();
    let mut row = through(1.1, 100.0);
    row.tube = Some(tube(&tables, 1.0, 400.0, 1));
    let input = job(vec![row]);
    let speeds = first(&input, &tables).flush.unwrap();
    tables.start.least_gap_m_s = f64::midpoint(speeds.face.gap_m_s, speeds.bottom.gap_m_s);
    let found = first(&input, &tables);
    let from = found.flush.unwrap().weak_from_mm.unwrap();
    assert!(0.0 < from && from < 100.0);
    let told = found
        .findings
        .iter()
        .find_map(|finding| match finding.kind {
            Kind::FlushWeak { from_mm, .. } => Some((finding.level, from_mm)),
            _ => None,
        });
    assert_eq!(told, Some((Level::Check, from)));
    tables.start.least_gap_m_s = speeds.bottom.gap_m_s * 0.999;
    assert!(!codes(&first(&input, &tables), Level::Check).contains(&"flush-weak"));
}

/// 12 mm at 70 bar: 7 N/mm2 on 113.1 mm2.
#[test]
fn a_closed_cavity_pushes_on_its_plug() {
    let tables = tables();
    let mut row = through(1.1, 20.0);
    row.end = HoleEnd::Into;
    row.backed = true;
    row.exit = Some(Exit {
        surface: Surface::Bore {
            radius_mm: 6.0,
            offset_mm: 0.0,
        },
        tilt_deg: Some(0.0),
    });
    let mut input = job(vec![row]);
    input.pressure_bar = Some(70.0);
    let told = |input: &_| {
        let findings = first(input, &tables).findings;
        let mut told = findings.iter().filter_map(|finding| match finding.kind {
            Kind::PlugPushed { push_n, cavity_mm } => Some((finding.level, push_n, cavity_mm)),
            _ => None,
        });
        told.next()
    };
    let (level, push_n, cavity_mm) = told(&input).unwrap();
    close(push_n, 791.7, 0.05);
    assert_eq!((level, cavity_mm), (Level::Check, 12.0));
    input.pressure_bar = Some(5.0);
    assert_eq!(told(&input).unwrap().0, Level::Note);
    input.rows[0].backed = false;
    assert_eq!(told(&input), None);
}
