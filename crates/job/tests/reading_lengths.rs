//! Lengths, depths and angles from text.

use quillbore_job::Unit::{self, Inch, Mm};
use quillbore_job::field::AngleBasis::{FromNormal, FromSurface};
use quillbore_job::read_quantity::{self as read, Misread};

#[track_caller]
fn length(text: &str, unit: Unit, expect_mm: f64) {
    let length = read::length(text, unit);
    assert_eq!(
        length.map(quillbore_calc::Length::mm),
        Ok(expect_mm),
        "{text} in {unit:?}"
    );
}

/// The sentence must say both what is wrong and what to type.
#[track_caller]
fn refused<T: std::fmt::Debug>(text: &str, result: Result<T, Misread>, says: &str) {
    let why = result.map_or_else(|why| why.to_string(), |value| format!("{value:?}"));
    assert!(why.contains(says), "{text}: {why}");
    assert!(!why.contains('\n') && why.len() < 300, "{text}: {why}");
}

#[test]
fn lengths_as_typed() {
    for (text, unit, mm) in [
        ("0.8", Mm, 0.8),
        ("0,8", Mm, 0.8),
        ("0,5 mm", Inch, 0.5),
        ("0.5mm", Inch, 0.5),
        (".020", Inch, 0.508),
        (".02 in", Mm, 0.508),
        (".02 in.", Mm, 0.508),
        (".02\"", Mm, 0.508),
        (".02\u{2033}", Mm, 0.508),
        (".02 inch", Mm, 0.508),
        ("20 thou", Mm, 0.508),
        ("20 mil", Mm, 0.508),
        ("20mils", Mm, 0.508),
        ("1/32", Inch, 0.79375),
        ("1/32 in", Mm, 0.79375),
        ("1/32\"", Mm, 0.79375),
        ("1-1/2", Inch, 38.1),
        ("1 1/2\"", Mm, 38.1),
        ("1\u{bd} in", Mm, 38.1),
        ("1\u{a0}1/2 in", Mm, 38.1),
        ("1/2 mm", Mm, 0.5),
        ("800 um", Mm, 0.8),
        ("800 \u{b5}m", Inch, 0.8),
        ("800 \u{3bc}m", Inch, 0.8),
        ("2.5 cm", Inch, 25.0),
        ("2 ft", Inch, 609.6),
        ("1,250.5", Mm, 1250.5),
        ("1.250,5", Mm, 1250.5),
        ("1\u{2009}250.5", Mm, 1250.5),
        ("1\u{202f}250,5 mm", Inch, 1250.5),
        ("+0.8", Mm, 0.8),
        ("  0.8  ", Mm, 0.8),
        ("0.8 MM", Mm, 0.8),
        ("\u{ff10}\u{ff0e}\u{ff18}", Mm, 0.8),
        ("5.", Mm, 5.0),
        // One rounding only: 0.1 and 0.3 have no exact float, the nearest is taken.
        ("0.1", Mm, 0.1),
        ("0.3", Mm, 0.3),
        ("1/3 in", Mm, 25.4 / 3.0),
    ] {
        length(text, unit, mm);
    }
}

#[test]
fn lengths_that_are_none() {
    for (text, unit, says) in [
        ("abc", Mm, "is not a length: type 0.8 mm"),
        ("", Mm, "A length is missing: type"),
        ("mm", Mm, "is not a length"),
        ("nan", Mm, "is not a length"),
        ("inf", Mm, "is not a length"),
        ("1e3", Mm, "\u{201c}e3\u{201d} is left over after a length"),
        ("0.8 x 14", Mm, "\u{201c}x 14\u{201d} is left over"),
        ("0.8 m", Mm, "\u{201c}m\u{201d} is left over"),
        ("0", Mm, "can't be zero"),
        ("0.000", Inch, "can't be zero"),
        ("-0.8", Mm, "can't be below zero"),
        ("\u{2212}0.8", Mm, "can't be below zero"),
        ("1/32", Mm, "type 1/32 in, or the decimal in mm"),
        ("1 1/2", Mm, "type 1 1/2 in"),
        ("1/0", Inch, "zero below the line"),
        ("1,25.5", Mm, "don't group it"),
        ("1.2.3", Mm, "don't group it"),
        ("1000000", Mm, "can't be larger than 1 km"),
        (
            "0.1234567890123456789012345",
            Mm,
            "more digits than can be meant",
        ),
        (
            "99999999999999999999999999999999999999999999",
            Mm,
            "more digits",
        ),
        ("#60", Mm, "is a drill size, which is a diameter"),
        ("F", Mm, "is a drill size"),
    ] {
        refused(text, read::length(text, unit), says);
    }
    let long = "1".repeat(201);
    refused(
        &long,
        read::length(&long, Mm),
        "longer than the 200 characters",
    );
}

#[test]
fn coordinates_have_any_sign() {
    for (text, mm) in [
        ("-12.5", -12.5),
        ("\u{2212}12,5", -12.5),
        ("0", 0.0),
        ("+3", 3.0),
        ("-0", 0.0),
    ] {
        let read = read::coordinate(text, Mm).unwrap().mm();
        assert_eq!(read.to_bits(), f64::to_bits(mm), "{text}");
    }
    assert_eq!(read::length_or_zero("0", Mm).unwrap().mm(), 0.0);
    refused("-1", read::length_or_zero("-1", Mm), "below zero");
}

#[test]
fn depths() {
    for (text, unit, mm) in [
        ("14", Mm, 14.0),
        (".55", Inch, 13.97),
        ("14 deep", Mm, 14.0),
        ("14 DP", Mm, 14.0),
        ("14 mm deep", Inch, 14.0),
        ("depth 14", Mm, 14.0),
        ("(14)", Mm, 14.0),
        ("\u{21a7} 14", Mm, 14.0),
        ("\u{21a7}.5", Inch, 12.7),
        ("12-1/2", Inch, 317.5),
    ] {
        let depth = read::depth(text, unit).unwrap();
        assert_eq!(depth.aim.unwrap().mm(), mm, "{text}");
        assert_eq!(depth.nominal, depth.aim, "{text}");
        assert_eq!((depth.through, depth.limits), (false, None), "{text}");
    }
    for (text, says) in [
        ("-14", "can't be below zero"),
        ("-12 +-0.2", "can't be below zero"),
        ("deep", "A depth is missing"),
        ("0", "can't be zero"),
        ("0 thru", "can't be zero"),
        ("0 +-0.2", "can't be zero"),
        ("12 +-12", "takes the lower limit to zero or below"),
        ("12 +-0", "two limits are the same"),
        ("12 +0.2", "is one deviation only"),
        (
            "12 +0.2/0.1",
            "The deviation 0.1 has no sign: type +0.1 or -0.1",
        ),
        ("12 -0.2", "too far apart for two limits"),
        (
            "12.4 MAX",
            "12.4 alone gives the depth one limit only: type both limits",
        ),
        ("MIN 12", "12 alone gives the depth one limit only"),
        ("12 MAX 12.4 MAX", "is left over"),
        ("12 thru 13 walls", "is left over"),
        ("through the wall", "is not a depth"),
        ("#60", "is a drill size"),
        ("1e9", "is left over"),
        ("99999999", "can't be larger than 1 km"),
        ("12 +-99999999", "can't be larger than 1 km"),
    ] {
        refused(text, read::depth(text, Mm), says);
    }
}

#[test]
fn depths_with_limits() {
    // Text, unit, nominal, lower and upper limit, what is aimed at, through.
    type Row = (&'static str, Unit, Option<f64>, [f64; 2], f64, bool);
    let rows: [Row; 15] = [
        ("12 +-0.2", Mm, Some(12.0), [11.8, 12.2], 12.0, false),
        (
            "12 \u{b1} 0,2 deep",
            Mm,
            Some(12.0),
            [11.8, 12.2],
            12.0,
            false,
        ),
        ("12 deep +-0.2", Mm, Some(12.0), [11.8, 12.2], 12.0, false),
        ("12 +.1/-0", Mm, Some(12.0), [12.0, 12.1], 12.05, false),
        ("12 +0,1 -0,3", Mm, Some(12.0), [11.7, 12.1], 11.9, false),
        ("12 0/-0.2", Mm, Some(12.0), [11.8, 12.0], 11.9, false),
        ("12.0-12.4", Mm, None, [12.0, 12.4], 12.2, false),
        ("12,4/12,0", Mm, None, [12.0, 12.4], 12.2, false),
        (
            "12.0 to 12.4 mm deep",
            Inch,
            None,
            [12.0, 12.4],
            12.2,
            false,
        ),
        ("12.0..12.4", Mm, None, [12.0, 12.4], 12.2, false),
        ("12.0 MIN 12.4 MAX", Mm, None, [12.0, 12.4], 12.2, false),
        (
            ".5 +.01/-0",
            Inch,
            Some(12.7),
            [12.7, 12.954],
            12.827,
            false,
        ),
        (".5 in +-0.2 mm", Mm, Some(12.7), [12.5, 12.9], 12.7, false),
        ("12 +-0.2 thru", Mm, Some(12.0), [11.8, 12.2], 12.0, true),
        ("THRU 12.0-12.4", Mm, None, [12.0, 12.4], 12.2, true),
    ];
    for (text, unit, nominal, limits, aim, through) in rows {
        let depth = read::depth(text, unit).unwrap();
        let mm = quillbore_calc::Length::mm;
        assert_eq!(depth.nominal.map(mm), nominal, "{text}");
        assert_eq!(
            depth
                .limits
                .map(|limits| [limits.lower, limits.upper].map(mm)),
            Some(limits),
            "{text}"
        );
        assert_eq!(depth.aim.map(mm), Some(aim), "{text}");
        assert_eq!(depth.through, through, "{text}");
    }
}

#[test]
fn depths_that_go_through() {
    for text in ["THRU", "thru", "Through", "thru all", "THRU ALL.", " thro "] {
        let depth = read::depth(text, Mm).unwrap();
        assert!(depth.through, "{text}");
        assert_eq!((depth.nominal, depth.limits, depth.aim), (None, None, None));
    }
    for text in ["14 thru", "THRU 14", "14 deep through", "14 THRU ALL"] {
        let depth = read::depth(text, Mm).unwrap();
        let aim = depth.aim.map(quillbore_calc::Length::mm);
        assert_eq!((depth.through, aim), (true, Some(14.0)), "{text}");
    }
}

#[test]
fn angles_and_what_they_are_measured_from() {
    for (text, basis, from_normal, said) in [
        ("30", FromNormal, 30.0, FromNormal),
        ("30", FromSurface, 60.0, FromSurface),
        ("30\u{b0}", FromNormal, 30.0, FromNormal),
        ("30 deg", FromNormal, 30.0, FromNormal),
        ("30\u{b0}15'", FromNormal, 30.25, FromNormal),
        ("30\u{b0}15\u{2032}", FromNormal, 30.25, FromNormal),
        ("30\u{ba} 15' 36\"", FromNormal, 30.26, FromNormal),
        ("30 deg 15 min", FromNormal, 30.25, FromNormal),
        ("30 from surface", FromNormal, 60.0, FromSurface),
        ("30\u{b0} to the surface", FromNormal, 60.0, FromSurface),
        ("60 from normal", FromSurface, 60.0, FromNormal),
        ("60 off normal", FromSurface, 60.0, FromNormal),
        ("0", FromNormal, 0.0, FromNormal),
        ("90", FromSurface, 0.0, FromSurface),
        ("normal", FromSurface, 0.0, FromNormal),
        ("square to the surface", FromSurface, 0.0, FromNormal),
        ("22,5", FromNormal, 22.5, FromNormal),
        ("89.9", FromNormal, 89.9, FromNormal),
        // Exact: 90 - 89.9 is not 0.1 in floats.
        ("89.9", FromSurface, 0.1, FromSurface),
    ] {
        let read = read::tilt(text, basis).unwrap_or_else(|why| panic!("{text}: {why}"));
        assert_eq!(
            (read.from_normal.deg(), read.basis),
            (from_normal, said),
            "{text}"
        );
    }
    for (text, basis, says) in [
        ("90", FromNormal, "between 0 and less than 90"),
        ("0", FromSurface, "between more than 0 and 90"),
        ("91 from surface", FromNormal, "between more than 0 and 90"),
        ("-5", FromNormal, "between 0 and less than 90"),
        ("1/99999999999999999999", FromSurface, "between more than 0"),
        ("30\u{b0}60'", FromNormal, "stop at 59"),
        ("thirty", FromNormal, "is not an angle at the entry"),
        ("30 rad", FromNormal, "left over"),
        ("", FromNormal, "missing"),
    ] {
        refused(text, read::tilt(text, basis), says);
    }
}

#[test]
fn plain_angles_and_vectors() {
    assert_eq!(read::turn("-12.5").unwrap().deg(), -12.5);
    assert_eq!(read::turn("370").unwrap().deg(), 370.0);
    assert_eq!(read::turn("10\u{b0}30'").unwrap().deg(), 10.5);
    refused("4000", read::turn("4000"), "can't be larger");
    assert_eq!(read::vector_part("-0,5"), Ok(-0.5));
    assert_eq!(read::vector_part("\u{2212}1"), Ok(-1.0));
    refused("x", read::vector_part("x"), "component of a direction");
}

/// Above one a fraction of millimeters is a quotient; below one it is an inch size in all likelihood,
/// and nobody should guess; in inches it is what it was.
#[test]
fn depths_with_another_unit_beside_them() {
    let found = |text: &str| {
        read::depth(text, Mm).map(|depth| {
            depth
                .limits
                .map(|limits| [limits.lower.mm(), limits.upper.mm()])
        })
    };
    assert_eq!(found("12 +0/+200 \u{b5}m"), Ok(Some([12.0, 12.2])));
    assert_eq!(found("10 mm / .394\""), Ok(None));
    assert!(
        found("500 \u{b1}50 \u{b5}m").is_err(),
        "500 mm or 500 micrometers"
    );
}

#[test]
fn quotients_of_millimeters() {
    let mm = |text: &str, unit| read::length(text, unit).map(quillbore_calc::Length::mm);
    for (text, expect) in [("25/2", 12.5), ("7/4", 1.75), ("40/10", 4.0)] {
        let found = mm(text, Mm).map_err(|why| why.to_string());
        assert_eq!(found, Ok(expect), "{text}");
    }
    for text in ["1/32", "3/4", "1 1/4", "1-1/4"] {
        let why = mm(text, Mm).expect_err(text);
        assert!(
            matches!(why, Misread::FractionWithoutUnit { .. }),
            "{text}: {why}"
        );
    }
    let inches = mm("5/4", Inch).map_err(|why| why.to_string());
    assert_eq!(inches, Ok(31.75));
}
