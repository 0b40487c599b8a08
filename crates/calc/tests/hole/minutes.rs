//! Minutes, wear and depths of a row, recomputed apart.

use quillbore_calc::entry::AtEnds;
use quillbore_calc::input::{HoleEnd, Surface};
use quillbore_calc::{Figure, Limits, RowId, RowInput};

use super::shop::*;
use super::{close, figures, first, overruled, tube};

/// Closed form worked by hand: d 0.7, s 80, m 1.5, f0 20 -> 0.735, 4.331 and 18.068 min of full
/// metal at 14, 60 and 140 mm.
#[test]
fn printed_minutes_in_full_metal() {
    let mut tables = tables();
    tables.start.depth_s = spread(80.0, 80.0);
    for (depth, printed) in [(14.0, 0.735), (60.0, 4.331), (140.0, 18.068)] {
        let row = RowInput {
            tube: Some(tube(&tables, 0.7, 914.4, 1)),
            ends: Some(quillbore_calc::input::Ends::One),
            ..through(0.8, depth)
        };
        let mut input = overruled(&row, Figure::Feed(row.id), 20.0);
        input.machine = Some(LONG);
        let found = first(&input, &tables);
        close(found.minutes_in.unwrap().full_metal, printed, 0.0005);
        assert_eq!(found.feed_mm_min, Some(20.0));
    }
}

/// A 1.5 mm wall at 60 degrees from the normal, d 0.8, zone feed one half: as long as 7.157 mm of
/// full metal. Worked by hand.
#[test]
fn thin_steep_wall() {
    let mut tables = tables();
    tables.start.depth_s = spread(1e9, 1e9);
    let row = RowInput {
        tilt_deg: 60.0,
        tube: Some(tube(&tables, 0.8, 200.0, 1)),
        ..through(0.9, 3.0)
    };
    let found = first(&job(vec![row]), &tables);
    let parts = found.minutes_in.unwrap();
    let metal = (parts.entry + parts.full_metal + parts.exit) * found.feed_mm_min.unwrap();
    close(metal, 7.157, 0.0005);
    let AtEnds { entry, exit } = found.zones_mm.unwrap();
    close(entry, 1.3856, 0.00005);
    assert_eq!(entry, exit);
}

/// Minutes by small steps along the way of the tool's disc, each at the feed of where it is.
fn by_steps(
    [lead, depth, lag]: [f64; 3],
    zones: [f64; 2],
    feed: impl Fn(f64) -> f64,
    halved: f64,
) -> f64 {
    let steps = 400_000;
    let travel = lead + depth + lag;
    let width = travel / f64::from(steps);
    (0..steps)
        .map(|step| {
            let along = (f64::from(step) + 0.5) * width;
            let z = (along - lead).clamp(0.0, depth);
            let ratio = z / halved;
            let here = feed(z) / (1.0 + ratio * ratio.sqrt());
            let partly = along < zones[0] || along > travel - zones[1];
            width / if partly { 0.5 * here } else { here }
        })
        .sum()
}

/// Tilted, layered, with both zones: the whole sparking time by steps.
#[test]
fn tilted_and_layered_by_steps() {
    let tables = tables();
    let row = RowInput {
        tilt_deg: 50.0,
        layers: layers(&[(CARBIDE, 6.0), (STEEL, 34.0)]),
        tube: Some(tube(&tables, 0.8, 400.0, 1)),
        ..through(0.9, 40.0)
    };
    let found = first(&job(vec![row]), &tables);
    let parts = found.minutes_in.unwrap();
    let half = 0.4 * libm::tan(f64::to_radians(50.0));
    let feed = |z| {
        if z < 6.0 {
            f64::sqrt(2.0 * 10.0)
        } else {
            f64::sqrt(15.0 * 35.0)
        }
    };
    let halved = 0.8 * f64::sqrt(60.0 * 100.0);
    let expected = by_steps([half, 40.0, half], [2.0 * half; 2], feed, halved);
    close(
        parts.entry + parts.full_metal + parts.exit,
        expected,
        expected * 1e-4,
    );
    close(found.feed_mm_min.unwrap(), f64::sqrt(20.0), 1e-9);
}

/// Through a whole round bar: the tool's travel is the longest chord, not the depth and half the
/// zones.
#[test]
fn through_a_round_bar() {
    let tables = tables();
    let row = RowInput {
        surface: Surface::Cylinder {
            radius_mm: 3.0,
            offset_mm: 1.0,
        },
        tube: Some(tube(&tables, 1.0, 200.0, 1)),
        ..through(1.1, 2.0 * f64::sqrt(8.0))
    };
    let found = first(&job(vec![row]), &tables);
    let height = |e: f64| f64::sqrt(9.0 - e * e);
    let [lead, zone] = [height(0.5) - height(1.0), height(0.5) - height(1.5)];
    let AtEnds { entry, exit } = found.zones_mm.unwrap();
    close(entry, zone, 1e-9);
    close(exit, zone, 1e-9);
    let parts = found.minutes_in.unwrap();
    let depth = 2.0 * height(1.0);
    let feed = |_| f64::sqrt(15.0 * 35.0);
    let halved = f64::sqrt(60.0 * 100.0);
    let expected = by_steps([lead, depth, lead], [zone; 2], feed, halved);
    close(
        parts.entry + parts.full_metal + parts.exit,
        expected,
        expected * 1e-4,
    );
    // sin t = e / R.
    close(found.tilt_deg, f64::to_degrees(libm::asin(1.0 / 3.0)), 1e-9);
}

/// Touch-off, overtravel and retract are figures of their own.
#[test]
fn the_other_parts() {
    let tables = tables();
    let found = figures(&RowInput {
        tube: Some(tube(&tables, 1.0, 200.0, 1)),
        ..through(1.1, 30.0)
    });
    let parts = found.minutes_in.unwrap();
    close(parts.touch_off, f64::sqrt(5.0 * 15.0) / 60.0, 1e-12);
    let ratio = 30.0 / f64::sqrt(6000.0);
    let last = f64::sqrt(15.0 * 35.0) / (1.0 + ratio * f64::sqrt(ratio));
    assert_eq!(found.overtravel_mm, Some(2.5));
    // In the open the tube goes three times as fast.
    close(parts.overtravel, 2.5 / (3.0 * last), 1e-9);
    close(parts.retract, 32.5 / 1000.0, 1e-12);
    assert_eq!((parts.entry, parts.exit, parts.changes), (0.0, 0.0, 0.0));
    close(parts.sum(), found.minutes.unwrap().p50, 1e-12);
}

/// Wear by length: rho of a 1 mm tube, rising to sqrt(1.5) at 100 diameters; its P90 with what shop,
/// machine, material, size, depth and lot may be off, and the hole's own scatter.
#[test]
fn wear_of_one_hole() {
    let tables = tables();
    let found = figures(&RowInput {
        tube: Some(tube(&tables, 1.0, 200.0, 1)),
        ends: Some(quillbore_calc::input::Ends::One),
        ..through(1.1, 40.0)
    });
    let k = f64::sqrt(1.5);
    let rising = 1.0 + (k - 1.0) * 0.4;
    let ratio = f64::sqrt(0.4 * 1.2) * rising;
    close(found.wear_ratio.unwrap(), ratio, 1e-9);
    close(found.wear_mm.unwrap(), 40.0 * ratio, 1e-9);
    let z90 = 1.281_551_565_544_6;
    let by_depth = 0.15 * libm::log(40.0 / 20.0);
    let sigmas = [0.35, 0.15, 0.30, 0.20, 0.10, 0.15, 0.27, by_depth, 0.15];
    let sigma = f64::sqrt(sigmas.iter().map(|s| s * s).sum());
    close(
        found.wear_high_mm.unwrap(),
        40.0 * ratio * libm::exp(z90 * sigma),
        1e-9,
    );
}

/// A table's own band counts where it is wider than what lots are off.
#[test]
fn a_wide_band_of_the_table_stays_wide() {
    let mut tables = tables();
    let mut input = job(vec![RowInput {
        tube: Some(tube(&tables, 1.0, 200.0, 1)),
        ..through(1.1, 20.0)
    }]);
    tables.materials[STEEL.at()].wear = spread(0.1, 10.0);
    let high = |tables: &quillbore_calc::Tables, input: &quillbore_calc::JobInput| {
        let found = first(input, tables);
        libm::log(found.wear_high_mm.unwrap() / found.wear_mm.unwrap()) / 1.281_551_565_544_6
    };
    let band = spread(0.1, 10.0).sigma();
    assert!(high(&tables, &input) > band);
    // What somebody typed is off by the lot and the hole alone.
    input.overrules.push(quillbore_calc::input::Overrule {
        figure: Figure::Wear(input.rows[0].id),
        value: 9.0,
    });
    close(high(&tables, &input), f64::hypot(0.27, 0.15), 1e-9);
}

/// Effort of a close tolerance.
#[test]
fn close_limits_slow_the_feed() {
    let tables = tables();
    let with = |half: f64| {
        figures(&RowInput {
            tube: Some(tube(&tables, 0.7, 200.0, 1)),
            limits_mm: Some(Limits::new(0.8 - half, 0.8 + half)),
            ..through(0.8, 10.0)
        })
        .feed_mm_min
        .unwrap()
    };
    // By the width: 1 from 0.1 mm, 0.8 at 0.05, 0.5 at 0.02 («memory» of common practice).
    close(with(0.05) / with(0.2), 1.0, 1e-9);
    close(with(0.025) / with(0.2), 0.8, 1e-9);
    close(with(0.0375) / with(0.2), 0.9, 1e-9);
    close(with(0.01) / with(0.2), 0.5, 1e-9);
    // A maximum alone asks for no effort.
    let max = figures(&RowInput {
        tube: Some(tube(&tables, 0.2, 200.0, 1)),
        limits_mm: Some(Limits::new(0.0, 0.3)),
        ..through(0.3, 10.0)
    });
    close(max.feed_mm_min.unwrap(), f64::sqrt(15.0 * 35.0) * 0.4, 1e-9);
}

/// Several channels: feed 0.8, wear 1.2 of one (common practice, no source).
#[test]
fn several_channels() {
    let tables = tables();
    let with = |channels| {
        figures(&RowInput {
            tube: Some(tube(&tables, 1.0, 400.0, channels)),
            ..through(1.1, 40.0)
        })
    };
    let (one, several) = (with(1), with(4));
    close(
        several.feed_mm_min.unwrap() / one.feed_mm_min.unwrap(),
        0.8,
        1e-12,
    );
    close(several.wear_mm.unwrap() / one.wear_mm.unwrap(), 1.2, 1e-12);
}

/// Target depth from the guide, and the depth that the machine is set to: stand-off, depth, half
/// the exit zone and overtravel; the wear in place of the stand-off.
#[test]
fn depths() {
    let tables = tables();
    let row = RowInput {
        tilt_deg: 30.0,
        tube: Some(tube(&tables, 1.0, 200.0, 1)),
        ..through(1.1, 20.0)
    };
    let found = figures(&row);
    let half_zone = 0.5 * libm::tan(f64::to_radians(30.0));
    close(
        found.target_depth_mm.unwrap(),
        8.0 + 20.0 + half_zone + 2.5,
        1e-9,
    );
    // From where the edge of a square end touches the slope, half a zone above the axis.
    close(found.touch_mm.entry, half_zone, 1e-12);
    let set_to = half_zone + 20.0 + half_zone + 2.5 + found.wear_mm.unwrap();
    close(found.machine_depth_mm.unwrap(), set_to, 1e-9);
    close(
        found.mouth_mm.unwrap(),
        1.1 / libm::cos(f64::to_radians(30.0)),
        1e-9,
    );
    let blind = figures(&RowInput {
        end: HoleEnd::Blind,
        ..row
    });
    close(blind.target_depth_mm.unwrap(), 28.0, 1e-9);
    let plan = blind.depth_plan.unwrap();
    close(plan.never_beyond_mm, half_zone + 20.2, 1e-9);
    assert_eq!(blind.overtravel_mm, None);
    assert_eq!(blind.zones_mm.unwrap().exit, 0.0);
    // In two steps: one touch-off and one retract more.
    let [blind, through] = [blind.minutes_in.unwrap(), found.minutes_in.unwrap()];
    close(blind.touch_off, 2.0 * through.touch_off, 1e-12);
    close(blind.retract, 2.0 * 20.0 / 1000.0, 1e-12);
}

/// The room behind the exit holds the overtravel, less what holes scatter in depth.
#[test]
fn overtravel_is_held_to_the_room() {
    let row = |behind_mm, backed| RowInput {
        behind_mm,
        backed,
        tube: Some(tube(&tables(), 1.0, 200.0, 1)),
        ..through(1.1, 20.0)
    };
    let held = figures(&row(Some(1.0), false));
    // 1.2816 x 20 rho / (1 + rho) x 0.15 / 5 in two steps.
    let wear = held.wear_mm.unwrap();
    let scatter = 1.281_551_565_5 * 20.0 * wear / (20.0 + wear) * 0.15 / 5.0;
    close(held.overtravel_mm.unwrap(), 1.0 - scatter, 1e-9);
    assert_eq!(figures(&row(Some(1.0), true)).overtravel_mm, Some(2.5));
    assert_eq!(figures(&row(Some(50.0), false)).overtravel_mm, Some(2.5));
    assert_eq!(figures(&row(None, false)).overtravel_mm, Some(2.5));
}

/// One hole's P10 and P90 against the exact distribution of its minutes, run through on a grid of
/// equal shares of feed, scatter and handling. The lognormal of the whole is an approximation: it
/// must be within 3 percent.
#[test]
fn band_of_one_hole() {
    for depth in [10.0, 45.0] {
        let tables = tables();
        let found = figures(&RowInput {
            tube: Some(tube(&tables, 1.0, 914.4, 1)),
            ends: Some(quillbore_calc::input::Ends::One),
            ..through(1.1, depth)
        });
        let parts = found.minutes_in.unwrap();
        assert_eq!(parts.changes, 0.0);
        let deviates: Vec<f64> = (0..40)
            .map(|step| quillbore_calc::spread::normal_at((f64::from(step) + 0.5) / 40.0))
            .collect();
        // 0.3804 up to the lot, and the slope on depth.
        let by_depth = 0.15 * libm::log(depth / 20.0);
        let burn_sigma = f64::sqrt(0.380_4 + by_depth * by_depth);
        let touch_sigma = spread(5.0, 15.0).sigma();
        let mut all = Vec::new();
        for burn_z in &deviates {
            for hole_z in &deviates {
                let sparking = parts.sparking() * libm::exp(burn_sigma * burn_z + 0.15 * hole_z);
                for handling_z in &deviates {
                    let touch_off = parts.touch_off * libm::exp(touch_sigma * handling_z);
                    all.push(sparking + touch_off + parts.retract);
                }
            }
        }
        all.sort_by(f64::total_cmp);
        let at = |share: f64| all[(share * all.len() as f64) as usize];
        let band = found.minutes.unwrap();
        for (p, exact) in [
            (band.p10, at(0.1)),
            (band.p50, at(0.5)),
            (band.p90, at(0.9)),
        ] {
            assert!(
                (p / exact - 1.0).abs() < 0.03,
                "{depth}: {p} against {exact}"
            );
        }
    }
}

#[test]
fn places_count_before_the_typed_number() {
    let place = |number| quillbore_calc::input::Place {
        number,
        point_mm: [0.0; 3],
        axis: [0.0, 0.0, -1.0],
    };
    let row = RowInput {
        id: RowId(3),
        count: 9,
        places: vec![place(1), place(2)],
        ..through(0.8, 5.0)
    };
    let found = figures(&row);
    assert_eq!((found.row, found.places), (RowId(3), 2));
}

/// P10 and P90 of a hole that takes several electrodes: changes by the spread of handling and by what heavy
/// and light wear make of them. Worked from the closed form of one material: with wear ratio rho the
/// electrodes get to z(n) = U (1 - (rho/(1+rho))^n), and the last has to reach 2.5 mm past the exit; each
/// further one takes a change and a touch-off, and goes down and up again at 1000 mm/min.
#[test]
fn band_of_a_hole_of_several_electrodes() {
    let mut tables = tables();
    tables.start.wear_at_100_diameters = spread(1.0, 1.0);
    tables.start.depth_s = spread(80.0, 80.0);
    let depth = 190.0;
    let row = RowInput {
        tube: Some(tube(&tables, 1.0, 400.0, 1)),
        ends: Some(quillbore_calc::input::Ends::One),
        ..through(1.1, depth)
    };
    let input = overruled(&row, Figure::Wear(row.id), 1.25 * depth);
    let found = first(&input, &tables);
    let parts = found.minutes_in.unwrap();
    let (usable, touch, change) = (300.0, 75.0_f64.sqrt() / 60.0, 6.0_f64.sqrt());
    let changes = |factor: f64| {
        let ratio = 1.25 * factor;
        let (mut reached, mut minutes) = (0.0, 0.0);
        while depth + 2.5 + (depth - reached) * ratio > usable {
            reached = (usable + ratio * reached) / (1.0 + ratio);
            minutes += change + touch + 2.0 * reached / 1000.0;
        }
        minutes
    };
    close(parts.changes, changes(1.0), 1e-9);
    let z90 = 1.281_551_565_544_6;
    // Typed wear is off by the lot and the hole.
    let high = libm::exp(z90 * f64::hypot(0.27, 0.15));
    let by_wear = (changes(high) - changes(1.0 / high)) / (2.0 * z90) / changes(1.0);
    assert!(by_wear > 0.1, "{by_wear}");
    // ln (3 / 2) over 2.5631 is less than what handling is off by at least, 0.4031.
    let of_changes = f64::hypot(f64::hypot(0.35, 0.20), by_wear);
    let burn = f64::hypot(tables.start.deviations.process(1.0, depth), 0.15);
    let (p10, p90) = quillbore_calc::spread::sum_of_parts(&[
        (parts.sparking(), burn),
        (touch, spread(5.0, 15.0).sigma()),
        (changes(1.0), of_changes),
        (0.1925, 0.0),
    ]);
    let band = found.minutes.unwrap();
    close(band.p10, p10, 1e-9);
    close(band.p90, p90, 1e-9);
}
