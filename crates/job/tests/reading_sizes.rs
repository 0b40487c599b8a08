//! Hole sizes with their limits from text.

use quillbore_calc::Limits;
use quillbore_job::Unit::{self, Inch, Mm};
use quillbore_job::quantity::LimitsGiven::{
    self, FitClass, Max, None as NoLimits, Pair, PlusMinus, Unequal,
};
use quillbore_job::read_quantity as read;

/// Nominal (0 for none), lower and upper limit in mm, compared to the last bit.
#[track_caller]
fn size(text: &str, unit: Unit, [nominal, lower, upper]: [f64; 3], given: &LimitsGiven) {
    let found = read::size(text, unit).map(|size| {
        let nominal = size.nominal.map_or(0.0, quillbore_calc::Length::mm);
        ([nominal, size.lower.mm(), size.upper.mm()], size.given)
    });
    let expect = ([nominal, lower, upper], given.clone());
    assert_eq!(found, Ok(expect), "{text} in {unit:?}");
}

#[track_caller]
fn refused(text: &str, unit: Unit, says: &str) {
    let why = read::size(text, unit).map_or_else(|why| why.to_string(), |size| format!("{size:?}"));
    assert!(why.contains(says), "{text} in {unit:?}: {why}");
}

#[test]
fn plus_minus() {
    for text in [
        "0.80 +-0.02",
        "0.80+-0.02",
        "0.80 +/-0.02",
        "0.80 +/- 0.02",
        "0.80 \u{b1}0.02",
        "\u{d8}0.80 \u{b1} 0.02",
        "\u{2300} 0,80 \u{b1} 0,02",
        "\u{f8}0.8\u{b1}0.02 mm",
        "dia 0.80 +-0.02",
        "DIA. 0.80 \u{b1}0.02",
        "0.80 \u{b1}0.02 dia",
        "0.80 mm \u{b1} 0.02 mm",
        "0.80 mm \u{b1} 20 um",
        "drill 0.80 +-0.02",
    ] {
        size(text, Mm, [0.8, 0.78, 0.82], &PlusMinus);
    }
    size(".031 +-.001", Inch, [0.7874, 0.762, 0.8128], &PlusMinus);
    size(".031 in +-.001", Mm, [0.7874, 0.762, 0.8128], &PlusMinus);
    size("31 thou +-1", Mm, [0.7874, 0.762, 0.8128], &PlusMinus);
}

#[test]
fn a_unit_behind_a_tolerance_is_that_of_the_tolerance() {
    for text in [
        "0.80 0/+20\u{b5}m",
        "0.80 +20/0 \u{b5}m",
        "0.8 +0/+20 \u{b5}m",
    ] {
        size(text, Mm, [0.8, 0.8, 0.82], &Unequal);
    }
    size("1.5 \u{b1}15\u{b5}m", Mm, [1.5, 1.485, 1.515], &PlusMinus);
    size("20 \u{b1}15\u{b5}m", Mm, [20.0, 19.985, 20.015], &PlusMinus);
    size("0.5 mm +30/-0 um", Mm, [0.5, 0.5, 0.53], &Unequal);
    size(
        ".031 \u{b1}1 thou",
        Inch,
        [0.7874, 0.762, 0.8128],
        &PlusMinus,
    );
    // What is far too large for a size in the context's unit is in the tolerance's.
    size("800 \u{b1}20 \u{b5}m", Mm, [0.8, 0.78, 0.82], &PlusMinus);
    size("31 \u{b1}1 thou", Inch, [0.7874, 0.762, 0.8128], &PlusMinus);
    size("31 \u{b1}1 thou", Mm, [0.7874, 0.762, 0.8128], &PlusMinus);
    size(
        ".031 \u{b1}.001 in",
        Mm,
        [0.7874, 0.762, 0.8128],
        &PlusMinus,
    );
    for (text, unit, says) in [
        ("50 \u{b1}10 \u{b5}m", Mm, "50 could be 50 mm or 50 \u{b5}m"),
        ("0.8 \u{b1}1 thou", Mm, "0.8 could be 0.8 mm or 0.8 in"),
        ("0.8 \u{b1}.001 in", Mm, "0.8 could be 0.8 mm or 0.8 in"),
        (
            "800 \u{b5}m \u{b1}0.02",
            Mm,
            "0.02 could be 0.02 mm or 0.02 \u{b5}m",
        ),
        (
            "0.80 \u{b1}2%",
            Mm,
            "\u{201c}%\u{201d} is left over after a tolerance",
        ),
        (
            ".031 \u{b1}.02 mm",
            Inch,
            ".031 could be .031 in or .031 mm",
        ),
    ] {
        refused(text, unit, says);
    }
}

#[test]
fn one_size_in_two_units_is_no_pair() {
    for text in [
        "0.8mm/.0315in",
        "0.8 mm (.0315\")",
        "0.8 (.0315)",
        "0.80 [.0315]",
        "0.8 mm [.0315]",
    ] {
        size(text, Mm, [0.8, 0.8, 0.8], &NoLimits);
        size(text, Inch, [0.8, 0.8, 0.8], &NoLimits);
    }
    size(".0315 [0.80]", Mm, [0.8001, 0.8001, 0.8001], &NoLimits);
    size(
        "1/32\" (0.794 mm)",
        Mm,
        [0.79375, 0.79375, 0.79375],
        &NoLimits,
    );
    refused("0.8 mm / .033 in", Mm, "are not the same length");
    size("0.78 mm/0.82 mm", Mm, [0.0, 0.78, 0.82], &Pair);
}

#[test]
fn a_day_is_no_size() {
    refused("2026-02-01", Mm, "is a date");
    size("2.0-2.6", Mm, [0.0, 2.0, 2.6], &Pair);
}

#[test]
fn unequal() {
    for text in [
        "0.8 +0.05 -0.02",
        "0.8 +0.05/-0.02",
        "0.8 -0.02/+0.05",
        "0.8 -0.02 +0.05",
        "0.8 (+0.05/-0.02)",
        "0,8 +0,05 -0,02",
        "0,8 +0,05/\u{2212}0,02",
        "\u{d8}0.8 +.05, -.02",
    ] {
        size(text, Mm, [0.8, 0.78, 0.85], &Unequal);
    }
    // 0.031 + 0.003 in = 0.8636 mm.
    size(".031 +.003/-0", Inch, [0.7874, 0.7874, 0.8636], &Unequal);
    size(".031 +.003/-.000", Inch, [0.7874, 0.7874, 0.8636], &Unequal);
    size(".031 +.003/-0 in", Mm, [0.7874, 0.7874, 0.8636], &Unequal);
    size("0.8 +0.03/0", Mm, [0.8, 0.8, 0.83], &Unequal);
    size("0.8 0/-0.02", Mm, [0.8, 0.78, 0.8], &Unequal);
    size("0.8 +0.05/+0.02", Mm, [0.8, 0.82, 0.85], &Unequal);
    size("0.8 -0.02/-0.05", Mm, [0.8, 0.75, 0.78], &Unequal);
}

#[test]
fn pairs() {
    for text in [
        "0.78-0.82",
        "0.78 - 0.82",
        "0.78\u{2013}0.82",
        "0.78/0.82",
        "0.82/0.78",
        "0.82-0.78",
        "0.78 to 0.82",
        "0.78 TO 0.82",
        "0.78..0.82",
        "0.78\u{2026}0.82",
        "0,78-0,82",
        "0.78 0.82",
        "\u{d8}0.78-\u{d8}0.82",
        "0.78 MIN 0.82 MAX",
        "0.82 max / 0.78 min",
        "MAX 0.82 MIN 0.78",
        "\u{d8}0.78 MIN / \u{d8}0.82 MAX",
    ] {
        size(text, Mm, [0.0, 0.78, 0.82], &Pair);
    }
    for text in [
        ".028/.031",
        ".028 - .031",
        ".028-.031 in",
        ".028 in to .031 in",
    ] {
        size(text, Inch, [0.0, 0.7112, 0.7874], &Pair);
    }
    size("1/32-3/64", Inch, [0.0, 0.79375, 1.190625], &Pair);
}

#[test]
fn maximum() {
    for text in [
        "0.82 MAX",
        "0.82 max.",
        "MAX 0.82",
        "max. 0.82",
        "\u{2264}0.82",
        "<= 0.82",
        "\u{d8}0.82 MAX",
    ] {
        size(text, Mm, [0.0, 0.0, 0.82], &Max);
    }
    size("MAX .032", Inch, [0.0, 0.0, 0.8128], &Max);
}

#[test]
fn alone() {
    for text in [
        "0.8",
        "\u{d8}0.8",
        "0.8 basic",
        "[0.8]",
        "(0.8)",
        "0.8 BSC",
        "dia .8",
        "0.8 ref",
    ] {
        size(text, Mm, [0.8, 0.8, 0.8], &NoLimits);
    }
    size("dia 1/32", Inch, [0.79375, 0.79375, 0.79375], &NoLimits);
    size("1/32 in", Mm, [0.79375, 0.79375, 0.79375], &NoLimits);
}

/// ISO 286-1:2010 and ISO 286-2:2010, limits in mm from tables that reproduce them.
#[test]
fn classes_of_fit() {
    for (text, [nominal, lower, upper], class) in [
        ("3 H7", [3.0, 3.0, 3.010], "H7"),
        ("3H7", [3.0, 3.0, 3.010], "H7"),
        ("\u{d8}3H7", [3.0, 3.0, 3.010], "H7"),
        ("\u{2300}3 H 7", [3.0, 3.0, 3.010], "H7"),
        ("1 H7", [1.0, 1.0, 1.010], "H7"),
        ("0.5 H8", [0.5, 0.5, 0.514], "H8"),
        ("6 H7", [6.0, 6.0, 6.012], "H7"),
        ("6 H11", [6.0, 6.0, 6.075], "H11"),
        ("2 G7", [2.0, 2.002, 2.012], "G7"),
        ("4 F8", [4.0, 4.010, 4.028], "F8"),
        ("5 D10", [5.0, 5.030, 5.078], "D10"),
        ("10 H6", [10.0, 10.0, 10.009], "H6"),
        ("12 H9", [12.0, 12.0, 12.043], "H9"),
        ("18 H11", [18.0, 18.0, 18.110], "H11"),
        ("1 JS9", [1.0, 0.9875, 1.0125], "JS9"),
        ("8 E9", [8.0, 8.025, 8.061], "E9"),
        ("8E9", [8.0, 8.025, 8.061], "E9"),
    ] {
        size(
            text,
            Mm,
            [nominal, lower, upper],
            &FitClass(class.to_owned()),
        );
    }
    size(
        "3 mm H7",
        Inch,
        [3.0, 3.0, 3.010],
        &FitClass("H7".to_owned()),
    );
    refused("3 h7", Mm, "type H7 for a hole");
    refused("20 H7", Mm, "not in the table");
    refused("3 Z7", Mm, "not in the table");
    refused("3 H7", Inch, "type it with its unit, such as 3 mm H7");
}

/// Numbers 80 to 1 and letters: two published lists that agree, one after ASME B94.11M-1993.
#[test]
fn drill_sizes() {
    for (text, mm) in [
        ("#80", 0.3429),
        ("#60", 1.016),
        ("# 60", 1.016),
        ("No. 60", 1.016),
        ("no 60", 1.016),
        ("No.60", 1.016),
        ("number 60", 1.016),
        ("NR. 60", 1.016),
        ("#60 drill", 1.016),
        ("drill #60", 1.016),
        ("#7", 5.1054),
        ("#56", 1.1811),
        ("#1", 5.7912),
        ("A", 5.9436),
        ("E", 6.35),
        ("letter E", 6.35),
        ("e", 6.35),
        ("E drill", 6.35),
        ("drill F", 6.5278),
        ("dia F", 6.5278),
        ("Z", 10.4902),
        ("#60 (.040)", 1.016),
    ] {
        size(text, Inch, [mm, mm, mm], &NoLimits);
    }
    // A drill is its own size in either unit.
    size("#60", Mm, [1.016, 1.016, 1.016], &NoLimits);
    // #60 is .040 in: .039 to .042.
    size("#60 +.002/-.001", Inch, [1.016, 0.9906, 1.0668], &Unequal);
    size("#60 +-0.05 mm", Mm, [1.016, 0.966, 1.066], &PlusMinus);
    refused("#60 +-0.05", Mm, "give the tolerance its unit");
    refused("#98", Mm, "There is no drill 98");
    refused("#0", Mm, "There is no drill 0");
    assert_eq!(
        read::size("E", Mm).unwrap().upper,
        read::size("1/4 in", Mm).unwrap().upper
    );
}

#[test]
fn sizes_that_are_none() {
    for (text, unit, says) in [
        ("abc", Mm, "is not a hole size: type 0.80 \u{b1}0.02"),
        ("0.78 MIN", Mm, "type both limits"),
        (">= 0.78", Mm, "type both limits"),
        ("0.8 +0.05", Mm, "one deviation only"),
        ("0.8 +0.05/0.02", Mm, "type +0.02 or -0.02"),
        ("0.8 -0.02", Mm, "too far apart"),
        ("0.8 0.02", Mm, "too far apart"),
        ("0.8-0.8", Mm, "The two limits are the same"),
        ("0.8 +-0", Mm, "The two limits are the same"),
        (
            "0.8 +-0.0000000000000000001",
            Mm,
            "The two limits are the same",
        ),
        ("0.8 +-0.8", Mm, "lower limit to zero or below"),
        ("0.8 +0.1/-0.9", Mm, "lower limit to zero or below"),
        ("0", Mm, "can't be zero"),
        ("0 MAX", Mm, "can't be zero"),
        ("-0.8", Mm, "is not a hole size"),
        ("1/32", Mm, "type 1/32 in"),
        ("10/11", Mm, "could be 10-11 or 0.9091"),
        ("0.8 mm +-.001 in +-3", Mm, "left over"),
        (".031 in +0.05 mm/-3", Mm, "two different units"),
        ("0.8 THRU", Mm, "\u{201c}THRU\u{201d} is left over"),
        ("36x 0.8", Mm, "left over"),
        ("0.8 +-", Mm, "A tolerance is missing"),
        ("0.8 MAX 0.7", Mm, "left over"),
        ("#60 (.041)", Mm, "stand side by side"),
        ("#60 (.041)", Inch, "stand side by side"),
    ] {
        refused(text, unit, says);
    }
}

#[test]
fn tolerances_of_a_title_block() {
    for (text, unit, lower, upper) in [
        ("+-0.05", Mm, -0.05, 0.05),
        ("\u{b1}0,05", Mm, -0.05, 0.05),
        ("0.05", Mm, -0.05, 0.05),
        ("+.003/-0", Inch, 0.0, 0.0762),
        ("+0.05 -0.02", Mm, -0.02, 0.05),
        ("-0.02/+0.05", Mm, -0.02, 0.05),
        ("+-5 thou", Mm, -0.127, 0.127),
    ] {
        let read = read::tolerance(text, unit).unwrap_or_else(|why| panic!("{text}: {why}"));
        assert_eq!(
            read.map(quillbore_calc::Length::mm),
            Limits { lower, upper },
            "{text}"
        );
    }
    for (text, says) in [
        ("+0.05", "one deviation only"),
        ("-0.05", "one deviation only"),
        ("0", "can't be zero"),
        ("H7", "is not a tolerance"),
        ("", "missing"),
    ] {
        let why = read::tolerance(text, Mm).expect_err(text).to_string();
        assert!(why.contains(says), "{text}: {why}");
    }
}
