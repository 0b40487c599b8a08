//! A row under sampled lot factors.

use quillbore_calc::hole::{Context, Draw, FeedWear};
use quillbore_calc::input::{Ends, HoleEnd};
use quillbore_calc::quantity::Pace;
use quillbore_calc::{Figure, RowInput};

use super::shop::*;
use super::{close, first, overruled};

/// At the median a draw is what the row's figures say.
#[test]
fn median_is_the_figures() {
    let mut tables = tables();
    tables.start.deepest_diameters = 1e9;
    let rows = [
        through(0.8, 20.0),
        RowInput {
            end: HoleEnd::Blind,
            tilt_deg: 20.0,
            ..through(1.2, 40.0)
        },
        RowInput {
            ends: Some(Ends::One),
            ..through(1.1, 250.0)
        },
        RowInput {
            ends: Some(Ends::Both),
            layers: layers(&[(CARBIDE, 50.0), (STEEL, 350.0)]),
            ..through(1.1, 400.0)
        },
    ];
    for row in rows {
        let input = job(vec![row]);
        let figures = first(&input, &tables);
        let drill = Context::new(&input, &tables).drill(&input.rows[0]).unwrap();
        let hole = drill.at(&Draw::MEDIAN);
        let parts = figures.minutes_in.unwrap();
        close(hole.sparking_min, parts.sparking(), 1e-9);
        close(hole.other_min, parts.sum() - parts.sparking(), 1e-9);
        close(
            hole.sparking_min + hole.other_min,
            figures.minutes.unwrap().p50,
            1e-9,
        );
        close(hole.wear_mm, figures.wear_mm.unwrap(), 1e-9);
        assert_eq!(Some(hole.electrodes_per_hole), figures.electrodes_per_hole);
        // From the guide there is the stand-off more.
        close(hole.target_mm + 8.0, figures.target_depth_mm.unwrap(), 1e-9);
        let stages = hole.stages.iter().flatten().count();
        assert_eq!(
            stages,
            if figures.ends == Some(Ends::Both) {
                2
            } else {
                1
            }
        );
    }
}

#[test]
fn each_factor_does_its_own() {
    let mut tables = tables();
    tables.start.deepest_diameters = 1e9;
    let input = job(vec![RowInput {
        ends: Some(Ends::One),
        ..through(1.1, 250.0)
    }]);
    let drill = Context::new(&input, &tables).drill(&input.rows[0]).unwrap();
    let median = drill.at(&Draw::MEDIAN);
    let at = |feed, wear, pace| drill.at(&Draw { feed, wear, pace });
    let slow = at(0.5, 1.0, Pace::Median);
    close(slow.sparking_min, 2.0 * median.sparking_min, 1e-9);
    assert_eq!(slow.other_min, median.other_min);
    // Touch-off of sqrt(5 x 15) s is as wide as its own band, ln 3 / 2.5631; changes of sqrt(2 x 3) min
    // as handling is at least, 0.4031. Ways down and up take what they take.
    let clumsy = at(1.0, 1.0, Pace::Off(1.0));
    let changes = f64::from(median.electrodes_per_hole - 1);
    let touch = 75.0_f64.sqrt() / 60.0;
    let more = (1.0 + changes) * touch * libm::expm1(libm::log(3.0) / 2.563_103_131_089_201)
        + changes * 6.0_f64.sqrt() * libm::expm1((0.35_f64 * 0.35 + 0.2 * 0.2).sqrt());
    close(clumsy.other_min - median.other_min, more, 1e-9);
    assert_eq!(clumsy.sparking_min, median.sparking_min);
    let mut before = at(1.0, 0.05, Pace::Median);
    assert_eq!(before.electrodes_per_hole, 1);
    for step in 1..60 {
        let hole = at(1.0, 0.05 * f64::from(step), Pace::Median);
        assert!(hole.electrodes_per_hole >= before.electrodes_per_hole);
        assert_eq!(hole.sparking_min, median.sparking_min);
        before = hole;
    }
    assert!(before.electrodes_per_hole > 3);
}

/// However heavy the wear, a draw ends and asks no more of an electrode than there is.
#[test]
fn heavy_wear_ends() {
    let mut tables = tables();
    tables.start.deepest_diameters = 1e9;
    let input = job(vec![RowInput {
        ends: Some(Ends::One),
        ..through(1.1, 330.0)
    }]);
    let drill = Context::new(&input, &tables).drill(&input.rows[0]).unwrap();
    for wear in [10.0, 1e3, 1e6, 1e9] {
        let hole = drill.at(&Draw {
            wear,
            ..Draw::MEDIAN
        });
        let stage = hole.stages[0].unwrap();
        assert!(hole.electrodes_per_hole <= 99);
        assert!(hole.other_min.is_finite());
        assert!(stage.target_mm + stage.wear_mm <= 350.0 + 1e-9);
    }
}

/// An overruled time is spread over sparking and the rest as they were.
#[test]
fn overruled_minutes_are_drawn_alike() {
    let tables = tables();
    let row = through(0.8, 20.0);
    let plain = job(vec![row.clone()]);
    let computed = Context::new(&plain, &tables)
        .drill(&row)
        .unwrap()
        .at(&Draw::MEDIAN);
    let input = overruled(&row, Figure::HoleMinutes(row.id), 3.0);
    let stands = Context::new(&input, &tables)
        .drill(&row)
        .unwrap()
        .at(&Draw::MEDIAN);
    close(stands.sparking_min + stands.other_min, 3.0, 1e-12);
    close(
        stands.sparking_min / stands.other_min,
        computed.sparking_min / computed.other_min,
        1e-9,
    );
}

/// 6 mm of carbide take 1.3416 min and 12 mm of tube, 34 mm of steel 1.4839 min and 23.556 mm; deviations
/// of the bands ln 5, ln (35/15), ln 4 and ln 3 over 2 x 1.28155. Weighted: 0.4718 and 0.4665.
#[test]
fn layers_weigh_by_their_minutes_and_by_what_they_wear() {
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
    let row = RowInput {
        layers: layers(&[(CARBIDE, 6.0), (STEEL, 34.0)]),
        ..through(0.8, 40.0)
    };
    let input = job(vec![row]);
    let drill = Context::new(&input, &tables).drill(&input.rows[0]).unwrap();
    let FeedWear { feed, wear } = drill.sigmas();
    close(feed, 0.4718, 0.0001);
    close(wear, 0.4665, 0.0001);
}
