//! What is shown, and that it can be typed back.

use proptest::prelude::*;
use quillbore_calc::{Angle, Band, Length, Limits};
use quillbore_job::Unit::{self, Inch, Mm};
use quillbore_job::field::AngleBasis;
use quillbore_job::read_quantity as read;
use quillbore_job::show_quantity as show;
use rust_decimal::Decimal;

#[test]
fn lengths() {
    for (mm, unit, shown) in [
        (0.8, Mm, "0.80"),
        (14.0, Mm, "14.00"),
        (12.3456, Mm, "12.346"),
        (0.0155, Mm, "0.015"),
        (-12.5, Mm, "\u{2212}12.50"),
        (-0.0001, Mm, "0.00"),
        (0.0, Mm, "0.00"),
        (1250.5, Mm, "1\u{2009}250.50"),
        (123_456.0, Mm, "123\u{2009}456.00"),
        (0.8, Inch, "0.0315"),
        (25.4, Inch, "1.00"),
        (0.508, Inch, "0.02"),
        (f64::NAN, Mm, "?"),
        (f64::INFINITY, Inch, "?"),
    ] {
        assert_eq!(show::length_mm(mm, unit), shown, "{mm}");
    }
    assert_eq!(show::length_with_unit(0.8, Mm), "0.80 mm");
    assert_eq!(show::length_with_unit(0.8, Inch), "0.0315 in");
    assert_eq!(
        show::limits(Limits::new(0.78, 0.82), Mm),
        "0.78\u{2013}0.82"
    );
}

#[test]
fn sizes() {
    for (text, unit, shown) in [
        ("0.80 +-0.02", Mm, "0.80 \u{b1}0.02"),
        (".031 +.003/-0", Inch, "0.031 +0.003/0.000"),
        ("0.8 +0.05/-0.02", Mm, "0.80 +0.05/\u{2212}0.02"),
        ("0.82/0.78", Mm, "0.78\u{2013}0.82"),
        ("0.8 +-0.025", Mm, "0.800 \u{b1}0.025"),
        ("0.8-0.825", Mm, "0.800\u{2013}0.825"),
        ("0.82 MAX", Mm, "0.82 max"),
        ("3H7", Mm, "3.00 H7"),
        ("#60", Mm, "1.016"),
        ("#60", Inch, "0.04"),
    ] {
        let size = read::size(text, unit).unwrap();
        assert_eq!(show::size(&size, unit), shown, "{text}");
    }
    let class = read::size("3H7", Mm).unwrap();
    assert_eq!(show::size(&class, Inch), "0.1181\u{2013}0.1185");
}

#[test]
fn angles_times_shares_counts() {
    assert_eq!(show::angle_with_unit(60.0), "60\u{b0}");
    assert_eq!(show::angle_with_unit(12.25), "12.25\u{b0}");
    assert_eq!(show::angle(Angle::from_deg(-0.001).unwrap()), "0");
    for (minutes, shown) in [
        (0.7349, "0.73 min"),
        (4.331, "4.33 min"),
        (18.068, "18.1 min"),
        (153.2, "153 min"),
        (9.999, "10.0 min"),
        (12_345.6, "12\u{2009}346 min"),
    ] {
        assert_eq!(show::minutes_with_unit(minutes), shown);
    }
    for (hours, shown) in [
        (0.34, "0.3 h"),
        (4.33, "4.3 h"),
        (41.2, "41 h"),
        (9.96, "10 h"),
    ] {
        assert_eq!(show::hours_with_unit(hours), shown);
    }
    assert_eq!(show::percent(0.125), "12.5 %");
    assert_eq!(show::percent(0.3), "30 %");
    assert_eq!(show::count(1_250.0), "1\u{2009}250");
    assert_eq!(show::mass(12.5, Mm), "12.5 kg");
    assert_eq!(show::mass(12.700_586_36, Inch), "28 lb");
}

#[test]
fn numbers_to_significant_digits() {
    for (value, significant, shown) in [
        (1.2e-4, 3, "0.00012"),
        (1.234e-4, 3, "0.000123"),
        (12.345, 3, "12.3"),
        (153.2, 2, "153"),
        (9.96, 2, "10"),
        (0.0, 3, "0"),
        (-2.5, 3, "\u{2212}2.5"),
        (1e300, 3, &show::number(1e300, 1)),
        (f64::NAN, 3, "?"),
    ] {
        assert_eq!(show::number(value, significant), shown);
    }
}

#[test]
fn money() {
    assert_eq!(show::money(1205.0, 2), "1\u{2009}205.00");
    assert_eq!(show::money(48.2, 2), "48.20");
    assert_eq!(show::money(48.2, 0), "48");
    for (mantissa, scale, digits, shown) in [
        (120_500, 2, 2, "1\u{2009}205.00"),
        (482, 1, 2, "48.20"),
        (15_571_428, 6, 2, "15.57"),
        // Half away from zero, at the printed digit.
        (12_345, 3, 2, "12.35"),
        (-12_345, 3, 2, "\u{2212}12.35"),
        (125, 1, 0, "13"),
        (-4, 3, 2, "0.00"),
    ] {
        assert_eq!(
            show::money_exact(Decimal::new(mantissa, scale), digits),
            shown
        );
    }
}

fn either_unit() -> impl Strategy<Value = Unit> {
    prop_oneof![Just(Mm), Just(Inch)]
}

/// Half of the last shown digit, with room for the float's own.
fn half_digit(unit: Unit) -> f64 {
    match unit {
        Mm => 0.000_500_1,
        Inch => 0.000_050_01 * 25.4,
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_shown_length_is_read_as_what_is_shown(mm in -99_999.0..99_999.0_f64, unit in either_unit()) {
        let shown = show::length(Length::from_mm(mm).unwrap(), unit);
        let back = read::coordinate(&shown, unit).unwrap();
        prop_assert!((back.mm() - mm).abs() <= half_digit(unit), "{} {}", mm, shown);
        prop_assert_eq!(show::length(back, unit), shown);
    }

    #[test]
    fn with_its_unit_it_is_read_alike_in_either_job(mm in 0.01..99_999.0_f64, unit in either_unit()) {
        let shown = show::length_with_unit(mm, unit);
        prop_assert_eq!(read::length(&shown, Mm), read::length(&shown, Inch));
    }

    #[test]
    fn a_shown_size_is_read_as_what_is_shown(
        kind in 0..5_u8,
        nominal in 300_u32..9_999,
        low in 1_u32..99,
        high in 1_u32..99,
        unit in either_unit(),
    ) {
        let (nominal, low, high) = match unit {
            Mm => (f64::from(nominal) / 1e3, f64::from(low) / 1e3, f64::from(high) / 1e3),
            Inch => (f64::from(nominal) / 1e4, f64::from(low) / 1e4, f64::from(high) / 1e4),
        };
        let text = match kind {
            0 => format!("{nominal:.4} +-{low:.4}"),
            1 => format!("{nominal:.4} +{high:.4}/-{low:.4}"),
            2 => format!("{nominal:.4}-{:.4}", nominal + high),
            3 => format!("{nominal:.4} MAX"),
            _ => format!("{nominal:.4}"),
        };
        let size = read::size(&text, unit).unwrap();
        let shown = show::size(&size, unit);
        let back = read::size(&shown, unit);
        prop_assert_eq!(back.as_ref().map(|back| &back.given), Ok(&size.given), "{}", shown);
        // Typed with no more digits than are shown, so nothing is lost.
        prop_assert_eq!(back, Ok(size), "{} shown as {}", text, shown);
    }

    #[test]
    fn a_shown_angle_is_read_as_what_is_shown(deg in 0.0..89.9_f64) {
        let shown = show::angle_with_unit(deg);
        let back = read::tilt(&shown, AngleBasis::FromNormal).unwrap().from_normal.deg();
        prop_assert!((back - deg).abs() <= 0.005_001);
        prop_assert_eq!(show::angle_with_unit(back), shown);
    }

    #[test]
    fn shown_times_shares_and_amounts_are_read_as_what_is_shown(value in 0.01..99_999.0_f64) {
        let back = read::minutes(&show::minutes_with_unit(value)).unwrap();
        prop_assert_eq!(show::minutes_with_unit(back), show::minutes_with_unit(value));
        let back = read::hours(&show::hours_with_unit(value + 0.1)).unwrap();
        prop_assert_eq!(show::hours_with_unit(back), show::hours_with_unit(value + 0.1));
        // Below 99.95 %: what is shown as 100 % is no share that can be typed.
        let share = value / 100_100.0;
        let back = read::share(&show::percent(share)).unwrap();
        prop_assert_eq!(show::percent(back), show::percent(share));
        let back = read::money(&show::money(value, 2)).unwrap();
        prop_assert_eq!(show::money_exact(back, 2), show::money(value, 2));
        let count = show::count(value + 1.0);
        prop_assert_eq!(show::count(f64::from(read::whole(&count, 0).unwrap())), count);
    }
}

/// The likely hours say how many decimals all three have.
#[test]
fn hours_that_stand_together_have_the_same_decimals() {
    let shown = |p10, p50, p90| show::hours_band(Band { p10, p50, p90 });
    assert_eq!(shown(2.34, 3.5, 12.0), ["2.3", "3.5", "12.0"]);
    assert_eq!(shown(8.4, 12.3, 1017.0), ["8", "12", "1\u{2009}017"]);
    // 9.96 is shown as ten, which has no decimals, and 9.94 is below it.
    assert_eq!(shown(6.0, 9.96, 14.2), ["6", "10", "14"]);
    assert_eq!(shown(6.0, 9.94, 14.2), ["6.0", "9.9", "14.2"]);
    assert_eq!(shown(0.0, 0.0, 0.0), ["0.0", "0.0", "0.0"]);
    for (hours, alone) in [
        (9.6, "9.6"),
        (9.94, "9.9"),
        (9.96, "10"),
        (10.4, "10"),
        (0.04, "0.0"),
    ] {
        assert_eq!(show::hours(hours), alone);
    }
    for (minutes, alone) in [
        (9.996, "10.0"),
        (99.6, "99.6"),
        (99.96, "100"),
        (4.331, "4.33"),
    ] {
        assert_eq!(show::minutes(minutes), alone);
    }
}

#[test]
fn lengths_that_stand_together_have_the_same_decimals() {
    assert_eq!(show::lengths_mm(&[0.7, 1.125], Mm), ["0.700", "1.125"]);
    assert_eq!(show::lengths_mm(&[0.7, 1.1], Mm), ["0.70", "1.10"]);
    assert_eq!(show::lengths_mm(&[0.7, 2.54], Inch), ["0.0276", "0.1000"]);
    assert_eq!(show::lengths_mm(&[f64::NAN, 0.7], Mm), ["?", "0.70"]);
    assert_eq!(show::lengths_mm(&[], Mm), [""; 0]);
}

/// A float that was typed as a half is a half: 2.675 is none in binary, nor is 48.205.
#[test]
fn amounts_are_rounded_half_away_from_zero_as_prices_are() {
    for (amount, digits, shown) in [
        (2.675, 2, "2.68"),
        (48.205, 2, "48.21"),
        (-2.675, 2, "\u{2212}2.68"),
        (1234.5, 0, "1\u{2009}235"),
        (2.5, 0, "3"),
        (-0.001, 2, "0.00"),
        (f64::INFINITY, 2, "?"),
        (f64::NAN, 0, "?"),
    ] {
        assert_eq!(show::money(amount, digits), shown, "{amount}");
    }
    // More than a decimal can have.
    assert!(show::money(1e30, 2).starts_with("1\u{2009}000\u{2009}000"));
}
