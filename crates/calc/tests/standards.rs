//! Figures of published standards, each with its source.
#![expect(
    clippy::unwrap_used,
    reason = "helpers of tests stop the test as tests do"
)]

use quillbore_calc::standards::drills::{Drill, fraction_ratio_mm};
use quillbore_calc::standards::fits::{deviations_um, limits};
use quillbore_calc::standards::threads::{COARSE, FINE, UNC, UNF, named};
use quillbore_calc::{Length, Limits};

fn mm(value: f64) -> Length {
    Length::from_mm(value).unwrap()
}

/// Callouts and their limits: ISO 286-1:2010 and 286-2:2010, computed from two tables that
/// reproduce them; 3 to 6 and 6 to 10 H7 also printed directly as +12/0 and +15/0.
#[test]
fn iso_286_callouts() {
    for (nominal, class, lower, upper) in [
        (1.0, "H7", 1.000, 1.010),
        (0.5, "H8", 0.500, 0.514),
        (3.0, "H7", 3.000, 3.010),
        (3.001, "H7", 3.001, 3.013),
        (6.0, "H7", 6.000, 6.012),
        (6.001, "H7", 6.001, 6.016),
        (6.0, "H11", 6.000, 6.075),
        (2.0, "G7", 2.002, 2.012),
        (4.0, "F8", 4.010, 4.028),
        (5.0, "D10", 5.030, 5.078),
        (10.0, "H6", 10.000, 10.009),
        (12.0, "H9", 12.000, 12.043),
        (18.0, "H11", 18.000, 18.110),
        (1.0, "JS9", 0.9875, 1.0125),
        (8.0, "E9", 8.025, 8.061),
        (10.0, "H14", 10.000, 10.360),
    ] {
        let Limits {
            lower: low,
            upper: high,
        } = limits(mm(nominal), class).unwrap();
        assert!(
            (low.mm() - lower).abs() < 1e-9,
            "{nominal} {class}: {low:?}"
        );
        assert!(
            (high.mm() - upper).abs() < 1e-9,
            "{nominal} {class}: {high:?}"
        );
    }
}

/// The widths IT5 to IT14 as printed by two tables that reproduce ISO 286-1:2010 [um].
const WIDTHS: [(f64, [f64; 10]); 4] = [
    (
        2.0,
        [4.0, 6.0, 10.0, 14.0, 25.0, 40.0, 60.0, 100.0, 140.0, 250.0],
    ),
    (
        5.0,
        [5.0, 8.0, 12.0, 18.0, 30.0, 48.0, 75.0, 120.0, 180.0, 300.0],
    ),
    (
        8.0,
        [6.0, 9.0, 15.0, 22.0, 36.0, 58.0, 90.0, 150.0, 220.0, 360.0],
    ),
    (
        14.0,
        [
            8.0, 11.0, 18.0, 27.0, 43.0, 70.0, 110.0, 180.0, 270.0, 430.0,
        ],
    ),
];

#[test]
fn iso_286_widths() {
    for (size, widths) in WIDTHS {
        for (grade, width) in (5..).zip(widths) {
            let Limits {
                lower: low,
                upper: high,
            } = deviations_um(mm(size), &format!("H{grade}")).unwrap();
            assert_eq!((low, high), (0.0, width), "IT{grade} at {size}");
        }
    }
}

/// The standard's formula i = 0.45 cbrt(D) + 0.001 D does not reproduce its table: 8.67, 34.7 and
/// 86.7 um for IT7, IT10 and IT12 up to 3 mm; 143.7 (6 to 10) and 173.2 (10 to 18) for IT12. Looking
/// the table up is not the same as computing it.
#[test]
fn the_formula_would_be_wrong() {
    let unit = |low: f64, high: f64| {
        let size = (low * high).sqrt();
        0.45 * size.cbrt() + 0.001 * size
    };
    // The first range is taken from 1 mm, as the printed unit 0.5422 shows.
    assert!((unit(1.0, 3.0) - 0.5422).abs() < 0.00005);
    for (size, low, high, grade, multiplier, printed) in [
        (2.0, 1.0, 3.0, "H7", 16.0, 8.67),
        (2.0, 1.0, 3.0, "H10", 64.0, 34.7),
        (2.0, 1.0, 3.0, "H12", 160.0, 86.7),
        (8.0, 6.0, 10.0, "H12", 160.0, 143.7),
        (14.0, 10.0, 18.0, "H12", 160.0, 173.2),
    ] {
        let computed = multiplier * unit(low, high);
        let Limits {
            upper: looked_up, ..
        } = deviations_um(mm(size), grade).unwrap();
        assert!(
            (computed - printed).abs() < 0.06,
            "{grade} at {size}: {computed}"
        );
        assert!((computed - looked_up).abs() > 1.0, "{grade} at {size}");
        assert!(
            (computed / looked_up - 1.0).abs() < 0.16,
            "{grade} at {size}"
        );
    }
}

#[test]
fn iso_286_outside_the_table() {
    for (nominal, class) in [
        (18.001, "H7"),
        (0.0, "H7"),
        (-1.0, "H7"),
        (5.0, "H4"),
        (5.0, "H15"),
        (5.0, "K7"),
        (5.0, "h7"),
        (5.0, "H"),
        (5.0, "7"),
        (5.0, "H07"),
        (5.0, "H+7"),
        (5.0, "H7x"),
        (5.0, ""),
        (5.0, "JS"),
        (5.0, "H99999999999999999999999"),
        // Memory of a note to the standard's table: not used up to 1 mm.
        (1.0, "H14"),
    ] {
        assert_eq!(limits(mm(nominal), class), None, "{nominal} {class}");
    }
}

/// Entries of two lists of inch drills that agree, one after ASME B94.11M-1993; #97 and #81 of a
/// public-domain chart.
#[test]
fn drill_sizes() {
    for (drill, inch) in [
        (Drill::Number(97), 0.0059),
        (Drill::Number(81), 0.0130),
        (Drill::Number(80), 0.0135),
        (Drill::Number(60), 0.0400),
        (Drill::Number(56), 0.0465),
        (Drill::Number(53), 0.0595),
        (Drill::Number(52), 0.0635),
        (Drill::Number(30), 0.1285),
        (Drill::Number(7), 0.2010),
        (Drill::Number(1), 0.2280),
        (Drill::Letter('A'), 0.2340),
        (Drill::Letter('E'), 0.2500),
        (Drill::Letter('Q'), 0.3320),
        (Drill::Letter('Z'), 0.4130),
    ] {
        let length = drill.length().unwrap();
        assert!((length.inch() - inch).abs() < 1e-12, "{drill:?}");
    }
    for (drill, printed_mm) in [
        (Drill::Number(80), 0.3429),
        (Drill::Number(60), 1.016),
        (Drill::Number(7), 5.1054),
    ] {
        assert_eq!(drill.length().unwrap().mm(), printed_mm);
    }
}

/// Every size is above the one before: 97 up to 1, then A to Z; nothing beyond.
#[test]
fn drills_rise_without_a_gap() {
    let numbers = (1..=97).rev().map(Drill::Number);
    let letters = ('A'..='Z').map(Drill::Letter);
    let sizes: Vec<u16> = numbers
        .chain(letters)
        .map(|drill| drill.ten_thousandths().unwrap())
        .collect();
    assert_eq!(sizes.len(), 97 + 26);
    assert!(sizes.is_sorted_by(|a, b| a < b));
    for outside in [
        Drill::Number(0),
        Drill::Number(98),
        Drill::Letter('a'),
        Drill::Letter('['),
        Drill::Letter('@'),
        Drill::Letter('\u{c4}'),
    ] {
        assert_eq!(outside.ratio_mm(), None, "{outside:?}");
    }
}

/// Surprises of the tables: 1/4 in is E, not Q as one page prints; #1 is smaller than A; the number
/// nearest 1/16 in is #52.
#[test]
fn drill_surprises() {
    let quarter = fraction_ratio_mm(16);
    let quarter = Length::from_ratio_mm(quarter.0, quarter.1).unwrap();
    assert_eq!(quarter.mm(), 6.35);
    assert_eq!(Drill::Letter('E').length().unwrap(), quarter);
    assert!(Drill::Letter('Q').length().unwrap() > quarter);
    assert!(Drill::Number(1).ten_thousandths() < Drill::Letter('A').ten_thousandths());
    let nearest = (1..=97)
        .map(Drill::Number)
        .min_by_key(|drill| (i32::from(drill.ten_thousandths().unwrap()) - 625).abs());
    assert_eq!(nearest, Some(Drill::Number(52)));
}

/// Fractions are exact: 3/64 in is 1.190625 mm, 1 in is 25.4 mm.
#[test]
fn fractions_are_exact() {
    for (sixty_fourths, millimeters) in [
        (1, 0.396875),
        (3, 1.190625),
        (5, 1.984375),
        (32, 12.7),
        (64, 25.4),
    ] {
        let (numerator, denominator) = fraction_ratio_mm(sixty_fourths);
        let length = Length::from_ratio_mm(numerator, denominator).unwrap();
        assert_eq!(length.mm(), millimeters);
    }
}

/// Minor diameters D1 of metric threads as printed: coarse by a table of ISO 724 pitches with the
/// formula of ISO 68-1, fine by an ISO 724 fine table.
#[test]
fn metric_minor_diameters() {
    for (designation, printed) in [
        ("M1.6", 1.221),
        ("M2", 1.567),
        ("M2.5", 2.013),
        ("M3", 2.459),
        ("M4", 3.242),
        ("M5", 4.134),
        ("M6", 4.917),
        ("M8", 6.647),
        ("M10", 8.376),
        ("M12", 10.106),
        ("M8x1", 6.917),
        ("M8x0.75", 7.188),
        ("M10x1.25", 8.647),
        ("M10x1", 8.917),
        ("M10x0.75", 9.188),
        ("M12x1.5", 10.376),
        ("M12x1.25", 10.647),
        ("M12x1", 10.917),
    ] {
        let minor = named(designation).unwrap().minor_mm();
        assert!((minor - printed).abs() < 0.001, "{designation}: {minor}");
    }
}

/// Smallest minor diameters of class 2B, which are the basic ones: a published class 2B table [in],
/// its last digit as tolerance.
#[test]
fn unified_minor_diameters_by_inch() {
    for (designation, printed, digit) in [
        ("#0-80", 0.0465, 0.0001),
        ("#1-64", 0.0561, 0.0001),
        ("#1-72", 0.0580, 0.0001),
        ("#2-56", 0.0667, 0.0001),
        ("#2-64", 0.0691, 0.0001),
        ("#3-48", 0.0764, 0.0001),
        ("#3-56", 0.0797, 0.0001),
        ("#4-40", 0.0849, 0.0001),
        ("#4-48", 0.0894, 0.0001),
        ("#5-40", 0.0979, 0.0001),
        ("#5-44", 0.1004, 0.0001),
        ("#6-32", 0.104, 0.001),
        ("#6-40", 0.111, 0.001),
        ("#8-32", 0.130, 0.001),
        ("#8-36", 0.134, 0.001),
        ("#10-24", 0.145, 0.001),
        ("#10-32", 0.156, 0.001),
        ("#12-24", 0.171, 0.001),
        ("#12-28", 0.177, 0.001),
    ] {
        let minor = named(designation).unwrap().minor_mm() / 25.4;
        assert!((minor - printed).abs() < digit, "{designation}: {minor}");
    }
}

/// Minor diameters of unified fine threads in a tap catalog's ANSI B1.1 table [mm], which agree with
/// the formula within 0.0015 mm.
#[test]
fn unified_minor_diameters_by_millimeter() {
    for (designation, printed) in [
        ("#0-80", 1.181),
        ("#1-72", 1.473),
        ("#2-64", 1.755),
        ("#3-56", 2.024),
        ("#4-48", 2.271),
        ("#5-44", 2.550),
        ("#6-40", 2.817),
        ("#8-36", 3.401),
        ("#10-32", 3.967),
        ("#12-28", 4.503),
        ("1/4-28", 5.367),
        ("5/16-24", 6.792),
        ("3/8-24", 8.379),
        ("7/16-20", 9.738),
        ("1/2-20", 11.326),
    ] {
        let minor = named(designation).unwrap().minor_mm();
        assert!((minor - printed).abs() < 0.0015, "{designation}: {minor}");
    }
}

/// A chart's "minor diameter" of #0-80 (0.0447 in) is the external root, not D1.
#[test]
fn the_external_root_is_not_the_minor_diameter() {
    let minor = named("#0-80").unwrap().minor_mm() / 25.4;
    assert!((minor - 0.0447).abs() > 0.001);
}

#[test]
fn designations_are_found_once() {
    let all: Vec<_> = COARSE.iter().chain(&FINE).chain(&UNC).chain(&UNF).collect();
    for thread in &all {
        let alike = all
            .iter()
            .filter(|other| other.designation == thread.designation);
        assert_eq!(alike.count(), 1, "{}", thread.designation);
        assert_eq!(named(thread.designation).as_ref(), Some(*thread));
        assert!(thread.minor_mm() > 0.5 * thread.major_mm);
    }
    assert_eq!(named("M5x9"), None);
}

/// Plans as published: charts of the code letters, and cells of the table of single normal plans (Birolini,
/// Reliability Engineering, 2007, table 7.1 after IEC 60410, for F, J and N at 0.65 %).
#[test]
fn lots_are_sampled_as_the_published_plans_have_it() {
    use quillbore_calc::standards::sampling::{InspectionLevel, plan};
    let of = |lot, level, limit| {
        let found = plan(lot, level, limit).unwrap();
        (
            found.letter,
            found.plan,
            found.sample,
            found.accept,
            found.all,
        )
    };
    let normal = InspectionLevel::General(2);
    for (lot, limit, by_table) in [
        (100, 1.0, ('F', 'E', 13, 0, false)),
        // A script that is passed around has 1 here, and 0 all along other rows.
        (300, 0.25, ('H', 'H', 50, 0, false)),
        (300, 4.0, ('H', 'H', 50, 5, false)),
        (300, 1.0, ('H', 'H', 50, 1, false)),
        (50, 2.5, ('D', 'C', 5, 0, false)),
        // Thirteen of eight are all of them.
        (8, 1.0, ('A', 'E', 8, 0, true)),
        (150, 0.65, ('F', 'F', 20, 0, false)),
        (1_000, 0.65, ('J', 'J', 80, 1, false)),
        (100_000, 0.65, ('N', 'N', 500, 7, false)),
    ] {
        assert_eq!(of(lot, normal, limit), by_table, "{lot} at {limit}");
    }
    let letters = |lot| {
        let levels = (1..=4).map(InspectionLevel::Special);
        let levels = levels.chain((1..=3).map(InspectionLevel::General));
        levels
            .map(|level| plan(lot, level, 4.0).unwrap().letter)
            .collect::<String>()
    };
    for (lot, by_chart) in [
        (2, "AAAAAAB"),
        (25, "AABBBCD"),
        (26, "ABBCCDE"),
        (501, "CCEFGJK"),
    ] {
        assert_eq!(letters(lot), by_chart, "{lot}");
    }
    // What the table doesn't have is not made up: no such limit, no such level, nothing above row A.
    assert_eq!(plan(100, normal, 1.2), None);
    assert_eq!(plan(100, InspectionLevel::General(4), 1.0), None);
    assert_eq!(plan(0, normal, 1.0), None);
    assert_eq!(plan(8, normal, 10.0), None);
}
