//! An order typed in one line, for a job that is done again: what it comes to, what stays as it was,
//! and what is told before any job is made.

#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of tests fail by panic"
)]

mod hands;

use hands::{day, done, field, issue, pin, ring};
use quillbore_job::order_text::{OrderRefused, order_edits};
use quillbore_job::reorder::again;
use quillbore_job::slip::{kind, line};
use quillbore_job::{Edit, Field, Form, Job, Line, Paper, SlipKind};

fn edits(order: &str, old: &Job) -> Vec<Edit> {
    order_edits(order, old, day(5, 4), Form::PLAIN).expect("an order that can be read")
}

/// The lines of the order's slip, without its day.
fn lines(order: &str, old: &Job) -> Vec<(Line, String)> {
    let edits = edits(order, old);
    let Some(Edit::AddSlip { kind, lines, .. }) = edits.first() else {
        panic!("{edits:?}");
    };
    assert_eq!(*kind, SlipKind::Order);
    assert_eq!(lines[0], (Line::Date, "2026-05-04".to_owned()));
    lines[1..].to_vec()
}

fn wanted(lines: &[(Line, &str)]) -> Vec<(Line, String)> {
    let owned = lines.iter().map(|(line, text)| (*line, (*text).to_owned()));
    owned.collect()
}

fn told(order: &str, old: &Job) -> String {
    let why =
        order_edits(order, old, day(5, 4), Form::PLAIN).expect_err("an order that can't be read");
    why.to_string()
}

/// A job whose order paid 86.00 each for 12.
fn delivered() -> Job {
    let lines = [
        (Line::Number, "PO 7"),
        (Line::Quantity, "12"),
        (Line::Each, "86.00"),
    ];
    pin(&ring(), SlipKind::Order, &lines)
}

#[test]
fn it_becomes_a_slip_and_the_sheets_quantity_and_reference() {
    let old = field(&ring(), Field::Revision, "");
    let typed = lines(" PO 4711 ; 50;; D", &old);
    let slip = [
        (Line::Number, "PO 4711"),
        (Line::Quantity, "50"),
        (Line::Revision, "D"),
    ];
    assert_eq!(typed, wanted(&slip));
    let edits = edits(" PO 4711 ; 50; 48,20; D", &old);
    let job = edits
        .iter()
        .fold(again(&old, day(5, 4)), |job, edit| done(&job, edit));
    assert_eq!(job.count(Field::Quantity), Some(50));
    assert_eq!(job.text(Field::CustomerReference), "PO 4711");
    let order = job.slips_of::<kind::Order>().next().expect("the order");
    assert_eq!(
        order.get(line::Each),
        Some("48.20".parse().expect("a number"))
    );
    assert_eq!(order.get(line::Revision), "D");
    // What is typed behind the four goes nowhere else, so it is the slip's note.
    let more = lines("PO 4711; 50; 48.20; D; rush; call first;", &old);
    assert_eq!(more[4], (Line::Note, "rush; call first".to_owned()));
    // A number alone leaves the sheet's quantity as it is; nothing is no order.
    assert_eq!(lines("PO 4711", &old), wanted(&[(Line::Number, "PO 4711")]));
    assert_eq!(
        order_edits("PO 4711", &old, day(5, 4), Form::PLAIN).map(|edits| edits.len()),
        Ok(2)
    );
    assert_eq!(
        order_edits("  ", &old, day(5, 4), Form::PLAIN),
        Ok(Vec::new())
    );
}

#[test]
fn same_and_as_before_are_the_last_price_and_the_last_revision() {
    let old = delivered();
    let slip = [
        (Line::Number, "PO 8"),
        (Line::Quantity, "20"),
        (Line::Each, "86"),
        (Line::Revision, "C"),
    ];
    for order in [
        "PO 8; 20; same; same",
        "PO 8; 20; As before; SAME",
        "PO 8; 20; 86; C",
    ] {
        assert_eq!(lines(order, &old), wanted(&slip), "{order}");
    }
    // What the order doesn't say is not put in its mouth.
    assert_eq!(lines("PO 8; 20", &old), wanted(&slip[..2]));
    assert_eq!(lines("PO 8; 20; same", &old), wanted(&slip[..3]));
    let revised = [slip[0], slip[1], slip[3]];
    assert_eq!(lines("PO 8; 20; ; as before", &old), wanted(&revised));
    // The revision that was ordered last, where it isn't the sheet's; the price at that quantity.
    let old = issue(&old, Paper::Quotation, &[(25, "48.20"), (50, "41.00")]);
    let old = pin(&old, SlipKind::Order, &[(Line::Revision, "E")]);
    let slip = [
        (Line::Number, "PO 9"),
        (Line::Quantity, "60"),
        (Line::Each, "41.00"),
        (Line::Revision, "E"),
    ];
    assert_eq!(lines("PO 9; 60; same; same", &old), wanted(&slip));
    // Without a revision there is none to take over.
    let old = field(&delivered(), Field::Revision, "");
    let slip = [(Line::Number, "PO 9"), (Line::Each, "86")];
    assert_eq!(lines("PO 9; ; same; same", &old), wanted(&slip));
    // A price that could be read as thousands is taken over as it is.
    let odd = pin(&ring(), SlipKind::Order, &[(Line::Each, "1.2550")]);
    let typed = lines("PO 9; 12; same", &odd);
    assert_eq!(typed[2], (Line::Each, "1.2550".to_owned()));
}

#[test]
fn what_cannot_be_read_is_told_before_a_job_is_made() {
    let old = delivered();
    for (order, says) in [
        (
            "PO 8; 20; as agreed",
            "Price each of the order: \u{201c}as agreed\u{201d} is not an amount of money: type a \
             number such as 86.00. No job was made.",
        ),
        (
            "PO 8; 20; 86.00 EUR; C",
            "Price each of the order: An amount is typed without its currency: leave out EUR. No job was \
             made.",
        ),
        (
            "PO 8; 20; 1.250",
            "Price each of the order: 1.250 could be 1250 or 1.25: type the one that is meant. No job \
             was made.",
        ),
        (
            "PO 8; twenty; 86.00",
            "Quantity of the order: \u{201c}twenty\u{201d} is not a whole number: type a number such as \
             25. No job was made.",
        ),
        (
            "PO 8; same",
            "Quantity of the order: \u{201c}same\u{201d} is not a whole number: type a number such as \
             25. No job was made.",
        ),
        (
            "PO 8; 86.50; 20",
            "Quantity of the order: 86.50 is not whole: type a number such as 25. No job was made.",
        ),
    ] {
        assert_eq!(told(order, &old), says);
    }
    let long = format!("PO 8; 20; 86; {}", "x".repeat(401));
    assert!(told(&long, &old).starts_with("Part rev of the order: This is longer than"));
    let word = "as before".to_owned();
    assert_eq!(
        order_edits("PO 8; 20; as before", &ring(), day(5, 4), Form::PLAIN),
        Err(OrderRefused::NoLastPrice { word })
    );
    assert_eq!(
        told("PO 8; 20; same; C", &ring()),
        "Price each of the order: the previous job has no price that \u{201c}same\u{201d} could mean, so \
         type it as a number such as 86.00. No job was made."
    );
}
