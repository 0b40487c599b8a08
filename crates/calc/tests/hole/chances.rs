//! What is not known of a row, what breaks and what is dressed, as the lot's draw is given it.

use quillbore_calc::hole::{Context, Draw, Drill, FeedWear};
use quillbore_calc::input::{Ends, HoleEnd};
use quillbore_calc::{Figure, JobInput, RowInput, Tables};

use super::shop::*;
use super::{close, overruled, tube};

fn drill(tables: &Tables, row: RowInput) -> Drill {
    let input: JobInput = job(vec![row]);
    Context::new(&input, tables).drill(&input.rows[0]).unwrap()
}

/// P10 to P90 is 2.5631 deviations wide.
const P10_TO_P90: f64 = 2.563_103_131_089_2;

/// With no deviation from lot to lot the tables' own bands are left: the material's, and that of the depth
/// law or of the rise of wear by how much it counts. 50 diameters, 40 mm with a tube of 0.8 mm: the law's share is
/// (50 / 77.46)^1.5 / 2.5 = 0.2074, and minutes go with s as -1.5 x 0.2074 / 1.2074; wear goes with the rise
/// k = 1.2247 as 0.5 k / (1 + 0.5 (k - 1)).
#[test]
fn bands_of_the_tables_add_by_how_much_they_count() {
    let mut tables = tables();
    let off = &mut tables.start.deviations;
    for deviation in [
        &mut off.shop,
        &mut off.machine,
        &mut off.family,
        &mut off.grade,
        &mut off.electrode,
        &mut off.size_class,
        &mut off.by_diameter,
        &mut off.by_depth,
        &mut off.lot,
    ] {
        *deviation = 0.0;
    }
    let mut row = through(0.9, 40.0);
    row.tube = Some(tube(&tables, 0.8, 400.0, 1));
    row.ends = Some(Ends::One);
    let FeedWear { feed, wear } = drill(&tables, row).sigmas();
    let halved = 0.8 * 6000.0_f64.sqrt();
    let share = libm::pow(40.0 / halved, 1.5) / 2.5;
    close(share, 0.2074, 0.0001);
    let law = 1.5 * share / (1.0 + share) * libm::log(100.0 / 60.0) / P10_TO_P90;
    close(
        feed,
        f64::hypot(libm::log(35.0 / 15.0) / P10_TO_P90, law),
        1e-9,
    );
    let k = 1.5_f64.sqrt();
    let rise = 0.5 * k / (1.0 + 0.5 * (k - 1.0)) * libm::log(1.5) / P10_TO_P90;
    close(wear, f64::hypot(libm::log(3.0) / P10_TO_P90, rise), 1e-9);
}

/// Tubes broken for each end: the middle of 0.2 to 1 %, up to 0.3 mm of 1 to 3 %, and of 2 to 6 % deeper than
/// 30 diameters from one end.
#[test]
fn thin_tubes_break_more_often() {
    let tables = tables();
    let breakage = |outer_mm, depth_mm, ends| {
        let mut row = through(outer_mm + 0.1, depth_mm);
        row.tube = Some(tube(&tables, outer_mm, 400.0, 1));
        row.ends = Some(ends);
        drill(&tables, row).breakage().chance
    };
    close(breakage(0.35, 20.0, Ends::One), 2e-5_f64.sqrt(), 1e-12);
    close(breakage(0.3, 9.0, Ends::One), 3e-4_f64.sqrt(), 1e-12);
    close(breakage(0.3, 9.1, Ends::One), 12e-4_f64.sqrt(), 1e-12);
    // From both ends each is half as deep, and half a millimeter of overlap.
    close(breakage(0.3, 16.9, Ends::Both), 3e-4_f64.sqrt(), 1e-12);
    close(breakage(0.3, 17.1, Ends::Both), 12e-4_f64.sqrt(), 1e-12);
}

/// Before every blind hole, before no other; or before every so many as the row asks for.
#[test]
fn dressing_as_asked() {
    let tables = tables();
    let dressed = |end, every| {
        let mut row = through(0.8, 20.0);
        row.end = end;
        row.dress_every = every;
        drill(&tables, row).dress_share()
    };
    assert_eq!(dressed(HoleEnd::Blind, None), 1.0);
    assert_eq!(dressed(HoleEnd::Through, None), 0.0);
    assert_eq!(dressed(HoleEnd::Into, None), 0.0);
    assert_eq!(dressed(HoleEnd::Through, Some(4)), 0.25);
    assert_eq!(dressed(HoleEnd::Blind, Some(2)), 0.5);
    assert_eq!(dressed(HoleEnd::Blind, Some(0)), 0.0);
}

/// What of the layers lies beyond the depth takes no minutes and so counts for nothing; a thickness below
/// nothing is nothing. 6 mm of carbide and 34 of steel weigh 0.4718 and 0.4665, see `draws.rs`.
#[test]
fn layers_count_as_far_as_they_are_drilled() {
    let mut tables = tables();
    let start = &mut tables.start;
    let off = &mut start.deviations;
    for deviation in [
        &mut off.shop,
        &mut off.machine,
        &mut off.family,
        &mut off.grade,
        &mut off.electrode,
        &mut off.size_class,
        &mut off.by_diameter,
        &mut off.by_depth,
        &mut off.lot,
    ] {
        *deviation = 0.0;
    }
    start.depth_s = spread(80.0, 80.0);
    start.wear_at_100_diameters = spread(1.2, 1.2);
    for of in [
        layers(&[(CARBIDE, 6.0), (STEEL, 134.0)]),
        layers(&[(CARBIDE, 6.0), (STEEL, 34.0), (CARBIDE, 20.0)]),
        layers(&[(CARBIDE, 2.0), (STEEL, 34.0), (CARBIDE, 4.0), (STEEL, 5.0)]),
        layers(&[(STEEL, -3.0), (CARBIDE, 6.0), (STEEL, 34.0), (CARBIDE, 1.0)]),
    ] {
        let row = RowInput {
            layers: of.clone(),
            ..through(0.8, 40.0)
        };
        let FeedWear { feed, wear } = drill(&tables, row).sigmas();
        close(feed, 0.4718, 0.0001);
        close(wear, 0.4665, 0.0001);
    }
    // A layer without thickness has nothing to weigh, and nothing is not known of it.
    tables.start.depth_s = spread(60.0, 100.0);
    let mut row = through(1.1, 50.0);
    row.tube = Some(tube(&tables, 1.0, 400.0, 1));
    row.ends = Some(Ends::One);
    row.layers = layers(&[(STEEL, 0.0)]);
    let share = libm::pow(50.0 / 6000.0_f64.sqrt(), 1.5) / 2.5;
    let law = 1.5 * share / (1.0 + share) * libm::log(100.0 / 60.0) / P10_TO_P90;
    close(drill(&tables, row).sigmas().feed, law, 1e-9);
}

/// Minutes typed where no feed is known: what touch-off, drawing out and changes leave of them goes with the
/// feed. A tube of 100 mm usable with a wear ratio of 0.6928 gets to 100 / 1.6928 mm, a second one does the
/// rest of 70.
#[test]
fn typed_minutes_without_a_feed_are_split() {
    let mut tables = tables();
    tables.start.feed_by_diameter = vec![(3.0, 0.35), (6.0, 0.12)];
    tables.start.wear_at_100_diameters = spread(1.0, 1.0);
    let mut row = through(1.1, 70.0);
    row.tube = Some(tube(&tables, 1.0, 200.0, 1));
    row.ends = Some(Ends::One);
    let input = overruled(&row, Figure::HoleMinutes(row.id), 30.0);
    let drill = Context::new(&input, &tables).drill(&row).unwrap();
    let hole = drill.at(&Draw::MEDIAN);
    assert_eq!(hole.electrodes_per_hole, 2);
    let touch = 75.0_f64.sqrt() / 60.0;
    let reached = 100.0 / (1.0 + 0.48_f64.sqrt());
    let change = 6.0_f64.sqrt() + touch + 2.0 * reached / 1000.0;
    let other = touch + 72.5 / 1000.0 + change;
    close(hole.other_min, other, 1e-9);
    close(hole.sparking_min, 30.0 - other, 1e-9);
    close(hole.minutes(), 30.0, 1e-9);
}
