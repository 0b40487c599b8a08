//! The price of last time: by the papers of the job before, else by its order.

mod hands;

use hands::{day, done, field, issue, line, pin, ring};
use quillbore_job::job::FigureKey;
use quillbore_job::reorder::{LastFrom, LastPrice, again, last_price};
use quillbore_job::{Edit, Field, Form, Job, Line, Paper, SlipKind, Unit};

fn ordered(job: &Job, number: &str, quantity: &str, each: &str) -> Job {
    let lines = [
        (Line::Date, "2026-03-02"),
        (Line::Number, number),
        (Line::Quantity, quantity),
        (Line::Each, each),
    ];
    pin(job, SlipKind::Order, &lines)
}

/// Quantity, price each and origin of the last price.
fn last(job: &Job, quantity: u32) -> Option<(u32, String, String)> {
    let last = last_price(job, quantity)?;
    Some((
        last.quantity,
        last.each.to_string(),
        last.origin(Form::PLAIN),
    ))
}

fn price(quantity: u32, each: &str, origin: &str) -> Option<(u32, String, String)> {
    Some((quantity, each.to_owned(), origin.to_owned()))
}

#[test]
fn without_a_paper_the_order_says_the_last_price() {
    let by_order = ordered(&ring(), "PO 7", "12", "86.00");
    let origin = "by the order PO 7, 2026-03-02";
    assert_eq!(last(&by_order, 30), price(12, "86", origin));
    // An order without a quantity is for the sheet's.
    let silent = line(&by_order, 0, Line::Quantity, "");
    assert_eq!(last(&silent, 30), price(25, "86", origin));
    let unnamed = line(&by_order, 0, Line::Number, "");
    assert_eq!(
        last(&unnamed, 30),
        price(12, "86", "by the order, 2026-03-02")
    );
    let undated = line(&by_order, 0, Line::Date, "in spring");
    assert_eq!(last(&undated, 30), price(12, "86", "by the order PO 7"));
    let quoted = issue(&by_order, Paper::Quotation, &[(25, "48.20")]);
    assert_eq!(
        last(&quoted, 30),
        price(25, "48.20", "26-0107-Q1, 2026-03-02")
    );
}

#[test]
fn of_several_orders_the_nearest_counts_and_of_those_the_newest() {
    let job = ordered(&ring(), "PO 7", "12", "86.00");
    let job = ordered(&job, "PO 8", "100", "61.50");
    let job = ordered(&job, "PO 9", "12", "84.00");
    let each = |quantity| last(&job, quantity).map(|(_, each, _)| each);
    assert_eq!(each(10).as_deref(), Some("84"));
    assert_eq!(each(90).as_deref(), Some("61.5"));
}

#[test]
fn an_order_without_a_price_or_free_of_charge_says_none() {
    for each in ["", "same", "0", "0.00"] {
        assert_eq!(
            last(&ordered(&ring(), "PO 7", "12", each), 12),
            None,
            "{each}"
        );
    }
    let nothing = field(&ordered(&ring(), "PO 7", "", "86.00"), Field::Quantity, "");
    assert_eq!(last(&nothing, 12), None, "of how many nobody said");
    let priced = ordered(&ring(), "PO 7", "12", "86.00");
    let redone = ordered(&priced, "PO 7b", "12", "0");
    assert_eq!(
        last(&redone, 12).map(|(_, each, _)| each).as_deref(),
        Some("86")
    );
}

#[test]
fn a_kept_price_says_whose_order_it_is_from_and_is_read_as_it_was() {
    // 1.255 alone could be 1255, too.
    for (each, text) in [("86.00", "86"), ("1.2550", "1.2550")] {
        let old = ordered(&ring(), "PO 7", "12", each);
        let last = last_price(&old, 12).expect("a price");
        let new = done(
            &again(&old, day(5, 4)),
            &last.keep(12, Unit::Mm, Form::PLAIN),
        );
        let kept = new.overrule(&FigureKey::UnitPrice(12)).expect("the price");
        assert_eq!(kept.value.text(), text);
        assert!(kept.value.value().is_some(), "{text} is read");
        assert_eq!(kept.reason, "kept from the order PO 7");
    }
    let last = LastPrice {
        from: LastFrom::Order(String::new()),
        date: None,
        quantity: 12,
        each: "86".parse().expect("a number"),
        currency: None,
    };
    let Edit::Overrule { reason, .. } = last.keep(12, Unit::Mm, Form::PLAIN) else {
        unreachable!("a price is kept by overruling it");
    };
    assert_eq!(reason, "kept from the order");
}
