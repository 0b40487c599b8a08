//! Cost and price against published problems and closed forms.

use quillbore_calc::cost::{Keep, hour_rate};
use quillbore_calc::price::{Terms, margin, markup, money, price, price_set, round_price};

/// Agrees within one unit of the printed value's last digit.
#[track_caller]
fn prints(computed: f64, printed: f64, last_digit: f64) {
    assert!(
        (computed - printed).abs() <= last_digit,
        "{computed} does not print as {printed}"
    );
}

#[test]
fn machine_hour_rates() {
    // Classic cost-accounting problem (educational page of 2010): machine 10,000, scrap 900, 10 years
    // of 4,380 h, repairs 18,000 over its life, 15 units/h at 0.05; a month 75 + 16 + 160 + 9 + 8.33
    // over 365 h. Correct sum of its terms 2.104; a second posting prints 2.27 by adding wrongly.
    let keep = Keep {
        price: 10_000.0,
        scrap: 900.0,
        repairs: 18_000.0,
        life_hours: 43_800.0,
        used_per_hour: 0.75,
        fixed_per_month: 268.33,
        hours_per_month: 365.0,
    };
    prints(hour_rate(&keep).unwrap(), 2.104, 0.001);
    // A second problem, terms 1.80, 0.90, 0.30, 0.95; correct total 3.95 where the page prints 4.95.
    let second = Keep {
        price: 18_000.0,
        scrap: 0.0,
        repairs: 0.0,
        life_hours: 10_000.0,
        used_per_hour: 5.0 * 0.19,
        fixed_per_month: 150.0 + 50.0,
        hours_per_month: 166.0,
    };
    prints(hour_rate(&second).unwrap(), 3.95, 0.01);
    let idle = Keep {
        hours_per_month: 0.0,
        ..keep
    };
    assert_eq!(hour_rate(&idle), None);
    let lifeless = Keep {
        life_hours: 0.0,
        ..keep
    };
    assert_eq!(hour_rate(&lifeless), None);
}

#[test]
fn margin_and_markup_are_each_other_s_inverse() {
    // margin = m / (1 + m), closed form: 25 % and 20 %, 50 % and 33.33 %, 100 % and 50 %.
    for (of_cost, of_price) in [(0.25, 0.20), (0.50, 0.3333), (1.00, 0.50)] {
        prints(margin(of_cost).unwrap(), of_price, 0.0001);
        prints(markup(margin(of_cost).unwrap()).unwrap(), of_cost, 1e-12);
    }
    assert_eq!(markup(1.0), None);
    assert_eq!(margin(-1.0), None);
}

#[test]
fn price_breaks_round_once_and_then_extend() {
    // Closed form: setup 120, run 8.50, margin 30 %; unit prices before rounding by hand:
    // 183.5714, 97.8571, 46.4286, 29.2857, 19.0000, 15.5714, 13.8571.
    let terms = Terms {
        margin: 0.3,
        minimum_charge: 0.0,
        minor_digits: 2,
        price_step: None,
    };
    let rows = [
        (1, "183.57", "183.57"),
        (2, "97.86", "195.72"),
        (5, "46.43", "232.15"),
        (10, "29.29", "292.90"),
        (25, "19.00", "475.00"),
        (50, "15.57", "778.50"),
        (100, "13.86", "1386.00"),
    ];
    for (quantity, each, lot) in rows {
        let priced = price(120.0 + 8.5 * f64::from(quantity), quantity, &terms).unwrap();
        assert_eq!(
            (priced.each.to_string(), priced.lot.to_string()),
            (each.to_owned(), lot.to_owned())
        );
        assert!(!priced.minimum);
    }
    // 100 at a margin of 30 %: 142.857.
    assert_eq!(price(100.0, 1, &terms).unwrap().each.to_string(), "142.86");
}

#[test]
fn the_lot_never_falls_below_the_minimum_charge() {
    let terms = |minor_digits| Terms {
        margin: 0.2,
        minimum_charge: 100.0,
        minor_digits,
        price_step: None,
    };
    let three = price(40.0, 3, &terms(2)).unwrap();
    assert_eq!(three.each.to_string(), "33.34");
    assert!(three.minimum && three.lot >= 100.into());
    // 80.00 / 0.8 is the minimum itself, but three rounded thirds of it are not.
    let rounded = price(80.0, 3, &terms(2)).unwrap();
    assert_eq!(
        (rounded.each.to_string().as_str(), rounded.minimum),
        ("33.34", true)
    );
    let above = price(81.0, 3, &terms(2)).unwrap();
    assert_eq!(
        (above.each.to_string().as_str(), above.minimum),
        ("33.75", false)
    );
}

/// Worked by hand: half a step away from zero, and below 20 steps a tenth of the step, down to the
/// currency's smallest unit.
#[test]
fn prices_go_by_the_shops_step() {
    let stepped = |step, amount| {
        let terms = Terms {
            margin: 0.0,
            minimum_charge: 0.0,
            minor_digits: 2,
            price_step: Some(step),
        };
        round_price(amount, &terms).unwrap().to_string()
    };
    for (step, amount, text) in [
        (0.5, 67.36, "67.50"),
        (0.5, 67.25, "67.50"),
        (0.5, 67.24, "67.00"),
        (1.0, 147.36, "147.00"),
        (1.0, 14.74, "14.70"),
        (1.0, 0.324, "0.32"),
        (10.0, 150.0, "150.00"),
        (10.0, 147.36, "147.00"),
        (0.05, 3.24, "3.25"),
        (0.05, 0.324, "0.32"),
        (0.25, 5.13, "5.25"),
        // A tenth of a quarter is no whole number of cents.
        (0.25, 4.13, "4.13"),
        (5.0, 0.0, "0.00"),
        (0.01, 12.345, "12.35"),
        // No whole number of cents: counts as none.
        (0.015, 12.345, "12.35"),
    ] {
        assert_eq!(stepped(step, amount), text, "{amount} by {step}");
    }
}

/// A dearer cost is never a lower price, whatever the step; and a step moves no price by more than a
/// fortieth of it or half a smallest unit.
#[test]
fn steps_keep_prices_in_order() {
    for step in [0.01, 0.05, 0.25, 0.5, 1.0, 2.5, 10.0, 250.0] {
        let terms = Terms {
            margin: 0.0,
            minimum_charge: 0.0,
            minor_digits: 2,
            price_step: Some(step),
        };
        let mut before = 0.0;
        for index in 0..20_000 {
            let amount = 0.001 * libm::pow(1.001, f64::from(index));
            let rounded = f64::try_from(round_price(amount, &terms).unwrap()).unwrap();
            assert!(rounded >= before, "{amount} by {step}");
            let moved = (rounded - amount).abs();
            assert!(
                moved <= (amount / 40.0).max(0.005) + 1e-9,
                "{amount} by {step}"
            );
            before = rounded;
        }
    }
}

/// 150 over 7 is 21.43: by halves, rounded up, 21.50 and 150.50 for the lot.
#[test]
fn the_minimum_charge_goes_up_to_the_step() {
    let terms = Terms {
        margin: 0.0,
        minimum_charge: 150.0,
        minor_digits: 2,
        price_step: Some(0.5),
    };
    let priced = price(40.0, 7, &terms).unwrap();
    assert_eq!(
        (priced.each.to_string(), priced.lot.to_string()),
        ("21.50".into(), "150.50".into())
    );
    assert!(priced.minimum);
    // 160 over 7 is 22.86.
    let above = price(160.0, 7, &terms).unwrap();
    assert_eq!(
        (above.each.to_string().as_str(), above.minimum),
        ("23.00", false)
    );
}

#[test]
fn minor_units_are_the_currency_s_own() {
    // ISO 4217 list one, published 2026-01-01: JPY 0, EUR 2, BHD 3, CLF 4.
    for (digits, text) in [(0, "13"), (2, "12.50"), (3, "12.500"), (4, "12.5000")] {
        assert_eq!(money(12.5, digits).unwrap().to_string(), text);
    }
    let terms = Terms {
        margin: 0.0,
        minimum_charge: 0.0,
        minor_digits: 0,
        price_step: None,
    };
    assert_eq!(price(2500.0, 1000, &terms).unwrap().lot.to_string(), "3000");
}

#[test]
fn half_goes_away_from_zero_as_typed() {
    for (amount, text) in [
        (2.675, "2.68"),
        (1.005, "1.01"),
        (-2.675, "-2.68"),
        (0.004_999, "0.00"),
        (1e15, "1000000000000000.00"),
    ] {
        assert_eq!(money(amount, 2).unwrap().to_string(), text);
    }
    for impossible in [f64::NAN, f64::INFINITY, 1e40] {
        assert_eq!(money(impossible, 2), None);
    }
}

#[test]
fn what_cannot_be_priced_has_no_price() {
    let terms = |margin| Terms {
        margin,
        minimum_charge: 50.0,
        minor_digits: 2,
        price_step: None,
    };
    assert_eq!(price(100.0, 0, &terms(0.2)), None);
    for impossible in [1.0, 1.5, -0.1, f64::NAN] {
        assert_eq!(price(100.0, 1, &terms(impossible)), None);
    }
    assert_eq!(price(f64::NAN, 1, &terms(0.2)), None);
    assert_eq!(price_set(f64::INFINITY, 1, 2), None);
}

/// A unit price of 19.005 is 19.01, and 25 of it 475.25; no minimum charge stands above a price set.
#[test]
fn a_price_set_is_rounded_and_extended() {
    let priced = price_set(19.005, 25, 2).unwrap();
    assert_eq!(
        (priced.each.to_string(), priced.lot.to_string()),
        ("19.01".to_owned(), "475.25".to_owned())
    );
    assert!(!priced.minimum);
}
