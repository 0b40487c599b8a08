//! What is shown, and that it can be typed back.

use proptest::prelude::*;
use quillbore_calc::{Angle, Band, Length, Limits};
use quillbore_job::Form;
use quillbore_job::Unit::{self, Inch, Mm};
use quillbore_job::field::AngleBasis;
use quillbore_job::form::{Dates, Numbers};
use quillbore_job::read_quantity as read;
use quillbore_job::read_quantity::Misread;
use rust_decimal::Decimal;

/// Thousands with a space between, which is a sign of no decimals.
const SPACED: Form = Form {
    numbers: Numbers::SpacePoint,
    dates: Dates::DayFirst,
};

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
        (1250.5, Mm, "1\u{a0}250.50"),
        (123_456.0, Mm, "123\u{a0}456.00"),
        (0.8, Inch, "0.0315"),
        (25.4, Inch, "1.00"),
        (0.508, Inch, "0.02"),
        (f64::NAN, Mm, "?"),
        (f64::INFINITY, Inch, "?"),
    ] {
        assert_eq!(SPACED.length_mm(mm, unit), shown, "{mm}");
    }
    assert_eq!(SPACED.length_with_unit(0.8, Mm), "0.80 mm");
    assert_eq!(SPACED.length_with_unit(0.8, Inch), "0.0315 in");
    assert_eq!(
        SPACED.limits(Limits::new(0.78, 0.82), Mm),
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
        assert_eq!(SPACED.size(&size, unit), shown, "{text}");
    }
    let class = read::size("3H7", Mm).unwrap();
    assert_eq!(SPACED.size(&class, Inch), "0.1181\u{2013}0.1185");
}

#[test]
fn angles_times_shares_counts() {
    assert_eq!(SPACED.angle_with_unit(60.0), "60\u{b0}");
    assert_eq!(SPACED.angle_with_unit(12.25), "12.25\u{b0}");
    assert_eq!(SPACED.angle(Angle::from_deg(-0.001).unwrap()), "0");
    for (minutes, shown) in [
        (0.7349, "0.73 min"),
        (4.331, "4.33 min"),
        (18.068, "18.1 min"),
        (153.2, "153 min"),
        (9.999, "10.0 min"),
        (12_345.6, "12\u{a0}346 min"),
    ] {
        assert_eq!(SPACED.minutes_with_unit(minutes), shown);
    }
    for (hours, shown) in [
        (0.34, "0.3 h"),
        (4.33, "4.3 h"),
        (41.2, "41 h"),
        (9.96, "10 h"),
    ] {
        assert_eq!(SPACED.hours_with_unit(hours), shown);
    }
    assert_eq!(SPACED.percent(0.125), "12.5 %");
    assert_eq!(SPACED.percent(0.3), "30 %");
    assert_eq!(SPACED.count(1_250.0), "1\u{a0}250");
    assert_eq!(SPACED.mass(12.5, Mm), "12.5 kg");
    assert_eq!(SPACED.mass(12.700_586_36, Inch), "28 lb");
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
        (1e300, 3, &SPACED.number(1e300, 1)),
        (f64::NAN, 3, "?"),
    ] {
        assert_eq!(SPACED.number(value, significant), shown);
    }
}

#[test]
fn money() {
    assert_eq!(SPACED.money(1205.0, 2), "1\u{a0}205.00");
    assert_eq!(SPACED.money(48.2, 2), "48.20");
    assert_eq!(SPACED.money(48.2, 0), "48");
    for (mantissa, scale, digits, shown) in [
        (120_500, 2, 2, "1\u{a0}205.00"),
        (482, 1, 2, "48.20"),
        (15_571_428, 6, 2, "15.57"),
        // Half away from zero, at the printed digit.
        (12_345, 3, 2, "12.35"),
        (-12_345, 3, 2, "\u{2212}12.35"),
        (125, 1, 0, "13"),
        (-4, 3, 2, "0.00"),
    ] {
        assert_eq!(
            SPACED.money_exact(Decimal::new(mantissa, scale), digits),
            shown
        );
    }
}

fn any_form() -> impl Strategy<Value = Form> {
    let (numbers, dates) = (Numbers::ALL, Dates::ALL);
    (0..numbers.len(), 0..dates.len()).prop_map(|(number, date)| Form {
        numbers: numbers[number],
        dates: dates[date],
    })
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
    fn a_shown_length_is_read_as_what_is_shown(mm in -99_999.0..99_999.0_f64, unit in either_unit(), form in any_form()) {
        let shown = form.length(Length::from_mm(mm).unwrap(), unit);
        let back = read::coordinate(&shown, unit).unwrap();
        prop_assert!((back.mm() - mm).abs() <= half_digit(unit), "{} {}", mm, shown);
        prop_assert_eq!(form.length(back, unit), shown);
    }

    #[test]
    fn with_its_unit_it_is_read_alike_in_either_job(mm in 0.01..99_999.0_f64, unit in either_unit(), form in any_form()) {
        let shown = form.length_with_unit(mm, unit);
        prop_assert_eq!(read::length(&shown, Mm), read::length(&shown, Inch));
    }

    #[test]
    fn a_shown_size_is_read_as_what_is_shown(
        kind in 0..5_u8,
        nominal in 300_u32..9_999,
        low in 1_u32..99,
        high in 1_u32..99,
        unit in either_unit(),
        form in any_form(),
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
        let shown = form.size(&size, unit);
        let back = read::size(&shown, unit);
        prop_assert_eq!(back.as_ref().map(|back| &back.given), Ok(&size.given), "{}", shown);
        // Typed with no more digits than are shown, so nothing is lost.
        prop_assert_eq!(back, Ok(size), "{} shown as {}", text, shown);
    }

    #[test]
    fn a_shown_angle_is_read_as_what_is_shown(deg in 0.0..89.9_f64, form in any_form()) {
        let shown = form.angle_with_unit(deg);
        let back = read::tilt(&shown, AngleBasis::FromNormal).unwrap().from_normal.deg();
        prop_assert!((back - deg).abs() <= 0.005_001);
        prop_assert_eq!(form.angle_with_unit(back), shown);
    }

    #[test]
    fn shown_times_shares_and_amounts_are_read_as_what_is_shown(value in 0.01..99_999.0_f64, form in any_form()) {
        let back = read::minutes(&form.minutes_with_unit(value)).unwrap();
        prop_assert_eq!(form.minutes_with_unit(back), form.minutes_with_unit(value));
        let back = read::hours(&form.hours_with_unit(value + 0.1)).unwrap();
        prop_assert_eq!(form.hours_with_unit(back), form.hours_with_unit(value + 0.1));
        // Below 99.95 %: what is shown as 100 % is no share that can be typed.
        let share = value / 100_100.0;
        let back = read::share(&form.percent(share)).unwrap();
        prop_assert_eq!(form.percent(back), form.percent(share));
    }

    #[test]
    fn a_shown_amount_is_read_as_what_is_shown_or_refused_with_two_readings(
        value in 0.0..9_999_999.0_f64,
        digits in 0..=3_u32,
        form in any_form(),
    ) {
        let shown = form.money(value, digits);
        match read::money(&shown) {
            Ok(back) => prop_assert_eq!(form.money_exact(back, digits), shown),
            Err(Misread::TwoReadings { .. }) => {}
            Err(other) => prop_assert!(false, "{} {:?}", shown, other),
        }
        let amount = Decimal::try_from(value).unwrap().round_dp(digits);
        match read::money(&form.amount(amount)) {
            Ok(back) => prop_assert_eq!(back, amount),
            Err(Misread::TwoReadings { .. }) => {}
            Err(other) => prop_assert!(false, "{} {:?}", amount, other),
        }
    }

    #[test]
    fn a_shown_count_is_read_as_what_is_shown_or_refused_with_two_readings(
        count in 0..=999_999_u32,
        form in any_form(),
    ) {
        let shown = form.count(f64::from(count));
        for read in [read::whole(&shown, 0), read::days(&shown, 0), read::dress_every(&shown)] {
            match read {
                Ok(back) => prop_assert_eq!(back, count, "{}", shown),
                Err(Misread::TwoReadings { .. }) => {}
                Err(other) => prop_assert!(false, "{} {:?}", shown, other),
            }
        }
        match read::quantities(&shown) {
            Ok(back) => prop_assert_eq!(back, [count], "{}", shown),
            Err(Misread::TwoReadings { .. } | Misread::Zero { .. }) => {}
            Err(other) => prop_assert!(false, "{} {:?}", shown, other),
        }
    }

    #[test]
    fn a_shown_number_is_read_as_what_is_shown(
        value in 0.000_1..899_999.0_f64,
        significant in 1..=6_usize,
        decimals in 0..=6_usize,
        form in any_form(),
    ) {
        let back = read::plain_number(&form.exact(value)).unwrap();
        // Read exactly until one division, which rounds once more.
        prop_assert!((back - value).abs() <= 2.0 * f64::EPSILON * value, "{} {}", back, value);
        let shown = form.number(value, significant);
        let back = read::plain_number(&shown).unwrap();
        prop_assert_eq!(form.number(back, significant), shown);
        let shown = form.fixed(value, decimals);
        if shown.contains(|c: char| ('1'..='9').contains(&c)) {
            let back = read::plain_number(&shown).unwrap();
            prop_assert_eq!(form.fixed(back, decimals), shown);
        }
        let shown = form.length_by_rule(value, Mm);
        if shown != "0" {
            let back = read::length(&shown, Mm).unwrap().mm();
            prop_assert!((back - value).abs() <= 0.5, "{} {}", value, shown);
        }
    }

    #[test]
    fn a_shown_mass_is_read_as_what_is_shown(kg in 0.01..99_999.0_f64, unit in either_unit(), form in any_form()) {
        let shown = form.mass(kg, unit);
        let back = read::mass_kg(&shown, Mm).unwrap();
        prop_assert_eq!(form.mass(back, unit), shown);
    }
}

/// The likely hours say how many decimals all three have.
#[test]
fn hours_that_stand_together_have_the_same_decimals() {
    let shown = |p10, p50, p90| SPACED.hours_band(Band { p10, p50, p90 });
    assert_eq!(shown(2.34, 3.5, 12.0), ["2.3", "3.5", "12.0"]);
    assert_eq!(shown(8.4, 12.3, 1017.0), ["8", "12", "1\u{a0}017"]);
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
        assert_eq!(SPACED.hours(hours), alone);
    }
    for (minutes, alone) in [
        (9.996, "10.0"),
        (99.6, "99.6"),
        (99.96, "100"),
        (4.331, "4.33"),
    ] {
        assert_eq!(SPACED.minutes(minutes), alone);
    }
}

#[test]
fn lengths_that_stand_together_have_the_same_decimals() {
    assert_eq!(SPACED.lengths_mm(&[0.7, 1.125], Mm), ["0.700", "1.125"]);
    assert_eq!(SPACED.lengths_mm(&[0.7, 1.1], Mm), ["0.70", "1.10"]);
    assert_eq!(SPACED.lengths_mm(&[0.7, 2.54], Inch), ["0.0276", "0.1000"]);
    assert_eq!(SPACED.lengths_mm(&[f64::NAN, 0.7], Mm), ["?", "0.70"]);
    assert_eq!(SPACED.lengths_mm(&[], Mm), [""; 0]);
}

/// A float that was typed as a half is a half: 2.675 is none in binary, nor is 48.205.
#[test]
fn amounts_are_rounded_half_away_from_zero_as_prices_are() {
    for (amount, digits, shown) in [
        (2.675, 2, "2.68"),
        (48.205, 2, "48.21"),
        (-2.675, 2, "\u{2212}2.68"),
        (1234.5, 0, "1\u{a0}235"),
        (2.5, 0, "3"),
        (-0.001, 2, "0.00"),
        (f64::INFINITY, 2, "?"),
        (f64::NAN, 0, "?"),
    ] {
        assert_eq!(SPACED.money(amount, digits), shown, "{amount}");
    }
    // More than a decimal can have.
    assert!(SPACED.money(1e30, 2).starts_with("1\u{a0}000\u{a0}000"));
}

/// Each form of numbers: a length, a length off a rule, an amount, a whole amount, a count.
#[test]
fn every_form_has_its_signs() {
    let space = "\u{a0}";
    for (numbers, shown) in [
        (
            "1,234.5",
            ["1,234.50", "1234", "1,234.50", "1,234", "12,345"],
        ),
        (
            "1.234,5",
            ["1.234,50", "1234", "1.234,50", "1.234", "12.345"],
        ),
        (
            "1'234.5",
            ["1'234.50", "1'234", "1'234.50", "1'234", "12'345"],
        ),
        ("1234.5", ["1234.50", "1234", "1234.50", "1234", "12345"]),
        ("1234,5", ["1234,50", "1234", "1234,50", "1234", "12345"]),
        (
            "1 234.5",
            [
                &format!("1{space}234.50"),
                &format!("1{space}234"),
                &format!("1{space}234.50"),
                &format!("1{space}234"),
                &format!("12{space}345"),
            ],
        ),
        (
            "1 234,5",
            [
                &format!("1{space}234,50"),
                &format!("1{space}234"),
                &format!("1{space}234,50"),
                &format!("1{space}234"),
                &format!("12{space}345"),
            ],
        ),
    ] {
        let form = Form {
            numbers: Numbers::of_key(numbers).unwrap(),
            ..Form::default()
        };
        let is = [
            form.length_mm(1234.5, Mm),
            form.length_by_rule(1234.4, Mm),
            form.money(1234.5, 2),
            form.money(1234.4, 0),
            form.count(12_345.0),
        ];
        assert_eq!(is, shown, "{numbers}");
        // The name of a form is a number that is written so.
        let name = form.exact(1234.5).replace('\u{a0}', " ");
        assert_eq!(name, numbers);
    }
}

#[test]
fn figures_beside_each_other_are_told_apart() {
    use quillbore_job::form::one_by_one;
    let of = |figures: [&str; 3]| one_by_one(&figures.map(str::to_owned));
    assert_eq!(of(["38", "41", "52"]), "38, 41, 52");
    assert_eq!(of(["3,8", "4,1", "5,2"]), "3,8; 4,1; 5,2");
    assert_eq!(of(["980", "1,041", "1,520"]), "980; 1,041; 1,520");
}

/// What is shown of a day in any form is read as that day.
#[test]
fn a_shown_day_is_read_as_that_day() {
    let first = chrono::NaiveDate::from_ymd_opt(1999, 1, 1).unwrap();
    for dates in Dates::ALL {
        let form = Form {
            dates: *dates,
            ..Form::default()
        };
        for day in first.iter_days().take(366 * 12) {
            assert_eq!(read::date(&form.day(day)), Ok(day), "{}", form.day(day));
        }
    }
}

/// What a shop or a paper of another form shows is no other number here: a mark between thousands is
/// read for what it is.
#[test]
fn an_apostrophe_groups_only_where_three_digits_follow() {
    assert_eq!(read::length("1'234.5", Mm).unwrap().mm(), 1234.5);
    assert_eq!(read::money("1\u{2019}234.50"), Ok(Decimal::new(123_450, 2)));
    assert_eq!(read::whole("12'345", 0), Ok(12_345));
    for text in ["1'23", "1'2345", "1'"] {
        assert!(read::money(text).is_err(), "{text}");
        assert!(read::length(text, Mm).is_err(), "{text}");
    }
    let angle = read::tilt("30\u{b0}15'30\"", AngleBasis::FromNormal).unwrap();
    assert!((angle.from_normal.deg() - 30.258_333).abs() < 1e-5);
}

#[test]
fn a_form_is_known_by_another_example_of_it() {
    for (text, form) in [
        ("1'234.50", Some(Numbers::ApostrophePoint)),
        ("12\u{2019}345.6", Some(Numbers::ApostrophePoint)),
        ("1.234,50", Some(Numbers::PointComma)),
        ("12 345,60", Some(Numbers::SpaceComma)),
        ("1 234.5", Some(Numbers::SpacePoint)),
        ("9,999.99", Some(Numbers::CommaPoint)),
        ("1234.50", Some(Numbers::Point)),
        ("0,91", Some(Numbers::Comma)),
        ("1,234", None),
        ("1,23.4", None),
        ("1234", None),
        ("", None),
        ("1'234", None),
    ] {
        assert_eq!(Numbers::like(text), form, "{text}");
    }
    for (text, form) in [
        ("23.11.2026", Some(Dates::Points)),
        ("2026-11-23", Some(Dates::YearFirst)),
        ("3 Feb 2027", Some(Dates::DayFirst)),
        ("Feb 3, 2027", Some(Dates::MonthFirst)),
        ("1/2/2026", None),
        ("31.02.2026", None),
        ("", None),
    ] {
        assert_eq!(Dates::like(text), form, "{text}");
    }
}
