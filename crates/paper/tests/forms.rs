//! Papers in every form of numbers and days: what they say is the same, and each sign can be printed.

mod common;

use common::{prose, ring};
use quillbore_job::form::{Dates, Numbers};
use quillbore_job::{Field, Form, Paper};
use quillbore_paper::matter::unprintable;
use quillbore_paper::page::Face;
use quillbore_paper::{Sheet, document};

fn forms() -> impl Iterator<Item = Form> {
    let numbers = Numbers::ALL.iter().copied();
    numbers.flat_map(|numbers| {
        let dates = Dates::ALL.iter().copied();
        dates.map(move |dates| Form { numbers, dates })
    })
}

#[test]
fn prices_days_and_lengths_stand_in_the_form_of_the_shop() {
    let mut sample = ring();
    for (numbers, lot) in [
        ("1,234.5", "25 48.20 1,205.00 minimum charge"),
        ("1.234,5", "25 48,20 1.205,00 minimum charge"),
        ("1 234.5", "25 48.20 1 205.00 minimum charge"),
        ("1'234.5", "25 48.20 1'205.00 minimum charge"),
        ("1234,5", "25 48,20 1205,00 minimum charge"),
    ] {
        for (dates, day, until) in [
            ("31 Jan 2026", "7 Nov 2026", "30 days, until 7 Dec 2026"),
            ("Jan 31, 2026", "Nov 7, 2026", "30 days, until Dec 7, 2026"),
            ("2026-01-31", "2026-11-07", "30 days, until 2026-12-07"),
            ("31.01.2026", "07.11.2026", "30 days, until 07.12.2026"),
        ] {
            sample.issuer.form = Form {
                numbers: Numbers::of_key(numbers).expect("a form"),
                dates: Dates::of_key(dates).expect("a form"),
            };
            let matter = sample.matter(Sheet::A4);
            let text = prose(&document(Paper::Quotation, &[matter])).replace('\u{a0}', " ");
            let limits = match numbers {
                "1.234,5" | "1234,5" => "0,750 0,850 14,00 through 30,0 60,0",
                _ => "0.750 0.850 14.00 through 30.0 60.0",
            };
            // What was typed stays as it was typed.
            let size = format!("0.80 \u{b1}0.05 {limits}");
            for needed in [lot, day, until, size.as_str()] {
                assert!(text.contains(needed), "{needed} in\n{text}");
            }
            let floor = prose(&document(Paper::Traveler, &[matter]));
            assert!(
                floor.contains(limits.split(' ').next().expect("a limit")),
                "{floor}"
            );
        }
    }
    assert_eq!(sample.job.text(Field::Quantity), "25");
}

/// The digits of every paper are the same whatever stands between them, and every sign has its glyph.
#[test]
fn forms_change_signs_and_days_alone() {
    let mut sample = ring();
    for face in Face::ALL {
        for numbers in Numbers::ALL {
            let signs = numbers.group().into_iter().chain([numbers.point()]);
            for sign in signs {
                assert!(face.covers(sign), "{sign:?} in {face:?}");
            }
        }
    }
    let digits = |text: &str| -> String { text.chars().filter(char::is_ascii_digit).collect() };
    for paper in Paper::ALL {
        let mut first: Option<String> = None;
        for form in forms() {
            sample.issuer.form = form;
            let matters = [sample.matter(Sheet::Letter)];
            let made = document(*paper, &matters);
            assert_eq!(unprintable::of(&made, &matters), [], "{form:?}");
            if form.dates == Dates::DayFirst {
                let digits = digits(&prose(&made));
                let first = first.get_or_insert_with(|| digits.clone());
                assert_eq!(&digits, first, "{paper:?} {form:?}");
            }
        }
    }
}
