//! Whatever is typed: no panic, the text stays, and the sentence is one.

use proptest::prelude::*;
use quillbore_calc::Limits;
use quillbore_job::field::AngleBasis;
use quillbore_job::read_field::read_field;
use quillbore_job::row::put;
use quillbore_job::{Column, Field, Row, Unit};

/// Signs and words that the readers know, thrown together.
fn near_miss() -> impl Strategy<Value = String> {
    let piece = prop::sample::select(vec![
        "0",
        "1",
        "9",
        "12",
        "36",
        "0.8",
        ".031",
        "1/32",
        "1/0",
        "1,250",
        ".",
        ",",
        "/",
        "-",
        "+",
        "\u{b1}",
        "+-",
        "+/-",
        "#",
        "#60",
        "No.",
        "F",
        "mm",
        "in",
        "\"",
        "'",
        "\u{2033}",
        "thou",
        "MAX",
        "min",
        "H7",
        "h7",
        "JS9",
        "to",
        "..",
        "\u{d8}",
        "\u{2300}",
        "dia",
        "x",
        "\u{d7}",
        "deg",
        "\u{b0}",
        "from",
        "surface",
        "normal",
        "R20",
        "ball",
        "offset",
        "through",
        "thru",
        "deep",
        "e-4",
        "uohm",
        "\u{b5}\u{3a9}",
        "cm",
        "%",
        "$",
        "kg",
        "lb",
        "(",
        ")",
        " ",
        "\u{2009}",
        "\u{a0}",
        "\u{2212}",
        "\u{bd}",
        "\u{ff11}",
        ";",
        "99999999999999999999",
        "e400",
        "\u{200b}",
        "\u{130}",
        "\u{df}",
    ]);
    prop::collection::vec(piece, 0..12).prop_map(|pieces| pieces.concat())
}

fn check(text: &str) -> Result<(), TestCaseError> {
    for unit in [Unit::Mm, Unit::Inch] {
        for basis in [AngleBasis::FromNormal, AngleBasis::FromSurface] {
            let mut row = Row::default();
            for column in Column::ALL {
                put(&mut row, *column, text, unit, basis);
                check_look(text, row.cell(*column).text, row.cell(*column).why)?;
            }
            check_limits(&row)?;
        }
        for field in Field::ALL {
            let entry = read_field(*field, text, unit);
            check_look(text, entry.text(), entry.why())?;
        }
    }
    Ok(())
}

fn check_look(typed: &str, kept: &str, why: Option<&str>) -> Result<(), TestCaseError> {
    if typed.trim().is_empty() {
        prop_assert_eq!(kept, "");
    } else {
        prop_assert_eq!(kept, typed);
    }
    if let Some(why) = why {
        prop_assert!(
            why.len() > 10 && why.ends_with('.') && !why.ends_with(".."),
            "{}",
            why
        );
        prop_assert!(why.chars().count() < 400, "{}", why);
    }
    Ok(())
}

/// Whatever is read makes sense.
fn check_limits(row: &Row) -> Result<(), TestCaseError> {
    if let Some(size) = row.size.value() {
        prop_assert!(0.0 <= size.lower.mm() && size.lower.mm() <= size.upper.mm());
        prop_assert!(0.0 < size.upper.mm());
    }
    if let Some(depth) = row.depth.value() {
        let Limits { lower, upper } = depth
            .limits
            .unwrap_or(Limits::new(depth.aim, depth.aim).map(Option::unwrap_or_default));
        let aim = depth.aim.unwrap_or_default();
        prop_assert!(depth.through || 0.0 < aim.mm());
        prop_assert!(lower <= aim && aim <= upper);
    }
    if let Some(tilt) = row.angle.value() {
        prop_assert!((0.0..90.0).contains(&tilt.from_normal.deg()));
    }
    if let Some(count) = row.count.value() {
        prop_assert!(*count >= 1);
    }
    for layer in row.layers.value().into_iter().flatten() {
        prop_assert!(0.0 < layer.thickness.mm());
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_characters(text in any::<String>()) {
        check(&text)?;
    }

    #[test]
    fn nearly_a_quantity(text in near_miss()) {
        check(&text)?;
    }

    #[test]
    fn whole_and_decimal_part_in_either_notation(whole in 0_u32..100_000, part in 0_u32..10_000) {
        let expect: f64 = format!("{whole}.{part:04}").parse().unwrap();
        prop_assume!(expect > 0.0);
        for text in [format!("{whole}.{part:04}"), format!("{whole},{part:04} mm")] {
            let length = quillbore_job::read_quantity::length(&text, Unit::Mm);
            prop_assert_eq!(length.map(quillbore_calc::Length::mm), Ok(expect), "{}", text);
        }
    }

    #[test]
    fn limits_are_exact(nominal in 100_u32..20_000, off in 1_u32..99) {
        let thousandths = |value: u32| f64::from(value) / 1000.0;
        let text = format!("{}.{:03} +-0.0{off:02}", nominal / 1000, nominal % 1000);
        let size = quillbore_job::read_quantity::size(&text, Unit::Mm).unwrap();
        prop_assert_eq!(size.lower.mm(), thousandths(nominal - off), "{}", text);
        prop_assert_eq!(size.upper.mm(), thousandths(nominal + off), "{}", text);
    }
}
