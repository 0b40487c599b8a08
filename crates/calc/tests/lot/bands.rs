//! P10 and P90 of hours and electrodes. Expectations from the formula of their parts, put together here
//! from the figures of single rows.

use quillbore_calc::Band;
use quillbore_calc::assemble::{figures_now, quick};
use quillbore_calc::figure::Figure;
use quillbore_calc::hole::{Context, Draw};
use quillbore_calc::input::{JobInput, Overrule};
use quillbore_calc::spread::sum_of_parts;

use crate::rows::{job, placed, row};
use crate::shop::tables;

fn near(found: f64, expected: f64, within: f64) {
    assert!(
        (found - expected).abs() <= within,
        "{found}, expected {expected}"
    );
}

/// Two rows of one tube whose feed and wear are off by unlike amounts: those of the second were typed.
fn unlike(quantity: u32) -> JobInput {
    let rows = vec![row(1, 30, 1.0, 20.0), row(2, 10, 1.0, 35.0)];
    let mut input = job(quantity, rows);
    let [_, typed] = [0, 1].map(|at| input.rows[at].id);
    input.overrules = vec![
        Overrule {
            figure: Figure::Feed(typed),
            value: 9.0,
        },
        Overrule {
            figure: Figure::Wear(typed),
            value: 21.0,
        },
    ];
    input
}

/// Before anything is drawn: minutes that go with the feed are off by the mean of their rows'
/// deviations, weighted by those minutes; all others as handling is.
#[test]
fn hours_before_the_draw_are_off_by_their_parts() {
    let (tables, input) = (tables(), unlike(50));
    let figures = quick(&input, &tables);
    let lot = figures.lot.unwrap();
    assert_eq!(lot.electrodes.len(), 1, "one tube");
    let context = Context::new(&input, &tables);
    let (mut sparking, mut spread) = (0.0, 0.0);
    for row in &input.rows {
        let drill = context.drill(row).unwrap();
        let minutes = f64::from(row.count) * 50.0 * drill.at(&Draw::MEDIAN).sparking_min;
        sparking += minutes;
        spread += minutes * drill.sigmas().feed;
    }
    let handling = tables.start.deviations.handling();
    let attended = tables.machines[0].attended;
    for (band, minutes, share) in [
        (lot.machine_hours, lot.machine.sum(), 1.0),
        (lot.labor_hours, lot.labor.sum(), attended),
    ] {
        let (p10, p90) = sum_of_parts(&[
            (share * sparking / 60.0, spread / sparking),
            ((minutes - share * sparking) / 60.0, handling),
        ]);
        near(band.p10, p10, 1e-9 * p10);
        near(band.p90, p90, 1e-9 * p90);
    }
}

/// Before anything is drawn: electrodes are off as the wear of their rows, weighted by what they wear.
#[test]
fn electrodes_before_the_draw_are_off_as_their_rows_wear() {
    let (tables, input) = (tables(), unlike(2000));
    let figures = quick(&input, &tables);
    let electrodes = &figures.lot.unwrap().electrodes;
    let context = Context::new(&input, &tables);
    let (mut worn, mut spread) = (0.0, 0.0);
    for row in &input.rows {
        let drill = context.drill(row).unwrap();
        let length = f64::from(row.count) * drill.at(&Draw::MEDIAN).wear_mm;
        worn += length;
        spread += length * drill.sigmas().wear;
    }
    let needed = f64::from(electrodes[0].needed);
    let (p10, p90) = sum_of_parts(&[(needed, spread / worn)]);
    // Whole ones of some thousands.
    assert!(needed > 1000.0, "{needed}");
    near(electrodes[0].band.p10, p10, 0.5);
    near(electrodes[0].band.p90, p90, 0.5);
}

/// Travel is not drawn: it moves P10 and P90 of the hours by itself, those of labor by the share that
/// somebody stands by; a table whose speed is not known takes no time.
#[test]
fn travel_moves_the_whole_band_of_hours() {
    let axes = [[0.0, 0.0, -1.0]; 9];
    let mut places = placed(1, &axes);
    for (at, place) in (0_u8..).zip(&mut places.places) {
        place.point_mm = [f64::from(at) * 25.0, f64::from(at % 3) * 20.0, 0.0];
    }
    let input = job(40, vec![places]);
    let at = |mm_min: f64| {
        let mut tables = tables();
        tables.machines[0].table_rapid_mm_min = mm_min;
        figures_now(&input, &tables)
    };
    let (slow, known) = (at(50.0), at(1e12));
    let travel = slow.setups[0].travel_mm.unwrap() * 40.0 / 50.0 / 60.0;
    assert!(travel > 1.0, "{travel} h");
    let attended = tables().machines[0].attended;
    let (slow, none) = (slow.lot.unwrap(), known.lot.unwrap());
    for (with, without, hours) in [
        (slow.machine_hours, none.machine_hours, travel),
        (slow.labor_hours, none.labor_hours, travel * attended),
    ] {
        near(with.p10 - without.p10, hours, 1e-6);
        near(with.p50 - without.p50, hours, 1e-6);
        near(with.p90 - without.p90, hours, 1e-6);
    }
    let still = at(0.0).lot.unwrap();
    near(still.machine_hours.p10, none.machine_hours.p10, 1e-6);
    near(still.labor_hours.p90, none.labor_hours.p90, 1e-6);
}

/// Rows that have no holes yet spark no minutes and wear nothing: hours are those of handling alone, no
/// electrode is taken, and the cost is off as far as hours cost.
#[test]
fn a_lot_without_holes_has_the_hours_of_its_handling() {
    let tables = tables();
    let figures = quick(&job(10, vec![row(1, 0, 1.0, 20.0)]), &tables);
    let lot = figures.lot.unwrap();
    let handling = tables.start.deviations.handling();
    let hours = lot.machine.sum() / 60.0;
    assert!(hours > 0.0, "{hours}");
    let (p10, p90) = sum_of_parts(&[(hours, handling)]);
    near(lot.machine_hours.p10, p10, 1e-9 * p10);
    near(lot.machine_hours.p90, p90, 1e-9 * p90);
    let taken: Vec<_> = lot.electrodes.iter().map(|of| of.band).collect();
    assert_eq!(taken, [Band::default()]);
    // An hour of the machine is 60 and of labor 45, each with 5 % for what is done again, and 3 of
    // dielectric and 2 of power; what the lot costs beside them is certain.
    let of_hours = hours * (60.0 * 1.05 + 5.0) + lot.labor_hours.p50 * 45.0 * 1.05;
    let cost = figures.price.unwrap().lot_cost;
    let (p10, p90) = sum_of_parts(&[(of_hours, handling), (cost.p50 - of_hours, 0.0)]);
    near(cost.p10, p10, 1e-9 * p10);
    near(cost.p90, p90, 1e-9 * p90);
}
