//! What papers say of whom they go to, of what was agreed, and of the shop that they come from; and
//! what they never say.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

mod common;

use common::prose;
use quillbore_job::shop::Identity;
use quillbore_job::{Edit, Field, Job, Paper, Shop, SlipKind, Unit, apply};
use quillbore_paper::{Sheet, document, quotation};

/// The papers that leave the house.
const OUTWARD: [Paper; 5] = [
    Paper::Quotation,
    Paper::Confirmation,
    Paper::Certificate,
    Paper::Packing,
    Paper::Label,
];

fn typed(job: &mut Job, fields: &[(Field, &str)]) {
    for (field, text) in fields {
        let edit = Edit::SetField {
            field: *field,
            text: (*text).to_owned(),
            unit: Unit::Mm,
        };
        *job = apply(job, &edit).expect("an edit that can be done").0;
    }
}

/// The ring with all that was agreed with its customer.
fn agreed() -> common::Sample {
    let mut sample = common::ring();
    typed(
        &mut sample.job,
        &[
            (Field::Contact, "Wilma Oakes"),
            (Field::CustomerAddress, "4 Mill Lane\nOxbow"),
            (Field::OurNumber, "V-2231"),
            (Field::Payment, "45 days net"),
            (Field::Delivery, "their van, Thursdays"),
            (Field::Clauses, "No subcontracting.\nHeat by lot."),
        ],
    );
    sample.issuer.identity = Identity {
        contact: "Ada Fennel".to_owned(),
        phone: "+1 555 0117".to_owned(),
        email: "office@shop.example".to_owned(),
        registration: "Tax no. 44-1020".to_owned(),
    };
    common::pin(&mut sample.job, SlipKind::Order, &[]);
    sample
}

#[test]
fn what_leaves_the_house_says_whom_it_goes_to() {
    let sample = agreed();
    for sheet in [Sheet::A4, Sheet::Letter] {
        for paper in OUTWARD {
            let text = prose(&document(paper, &[sample.matter(sheet)]));
            assert!(text.contains("Alder Finch Rotors"), "{paper:?} {text}");
            assert!(text.contains("4 Mill Lane, Oxbow"), "{paper:?} {text}");
            if paper == Paper::Label {
                continue;
            }
            for said in [
                "Wilma Oakes",
                "our number at Alder Finch Rotors",
                "V-2231",
                "Ada Fennel, +1 555 0117, office@shop.example",
                "Tax no. 44-1020",
            ] {
                assert!(text.contains(said), "{said}: {paper:?} {text}");
            }
        }
        // The floor needs none of it.
        let text = prose(&document(Paper::Traveler, &[sample.matter(sheet)]));
        assert!(!text.contains("4 Mill Lane"), "{text}");
    }
}

#[test]
fn what_was_agreed_stands_before_the_shops_own_terms() {
    let sample = agreed();
    for paper in [Paper::Quotation, Paper::Confirmation] {
        let text = prose(&document(paper, &[sample.matter(Sheet::A4)]));
        let mut at = 0;
        for said in [
            "Agreed terms",
            "Payment: 45 days net",
            "Delivery: their van, Thursdays",
            "No subcontracting.",
            "Heat by lot.",
            "these hold",
            "Terms",
        ] {
            let found = text[at..].find(said);
            assert!(found.is_some(), "{said} after\n{}", &text[..at]);
            at += found.unwrap_or_default();
        }
    }
    let nothing = common::ring();
    let text = prose(&quotation(&[nothing.matter(Sheet::A4)]));
    assert!(!text.contains("Agreed terms"), "{text}");
}

#[test]
fn several_jobs_say_what_was_agreed_once_or_each_its_own() {
    let (one, mut other) = (agreed(), agreed());
    let count = |text: &str| text.matches("45 days net").count();
    let both = quotation(&[one.matter(Sheet::A4), other.matter(Sheet::A4)]);
    assert_eq!(count(&prose(&both)), 1);
    typed(
        &mut other.job,
        &[(Field::Payment, "14 days"), (Field::Part, "4-119")],
    );
    let both = quotation(&[one.matter(Sheet::A4), other.matter(Sheet::A4)]);
    let text = prose(&both);
    assert!(
        text.contains("4-119") && text.contains(": Payment: 14 days"),
        "{text}"
    );
    assert_eq!(count(&text), 1);
}

#[test]
fn no_paper_says_the_exchange_rate_or_what_was_agreed_of_hours() {
    let shop = Shop::embedded().expect("the shop").on(common::day());
    let mut job = common::ring().job;
    typed(
        &mut job,
        &[
            (Field::Material, "Stainless 316"),
            (Field::Machine, "Barrow"),
            (Field::Currency, "EUR"),
            (Field::ExchangeRate, "731.947"),
            (Field::ExchangeDay, "2026-10-13"),
            (Field::AgreedMachineHour, "6437.21"),
            (Field::AgreedLaborHour, "5183.47"),
            (Field::LiabilityCap, "1000"),
        ],
    );
    for kind in SlipKind::ALL {
        common::pin(&mut job, *kind, &[]);
    }
    let by = shop.for_job(&job);
    for paper in Paper::ALL {
        let text = common::printed(&job, &by, Sheet::A4, |matter| {
            prose(&document(*paper, &[matter]))
        });
        // The rate, its day, the hours in both currencies: none is like any size or coordinate.
        for secret in [
            "731.947",
            "731.95",
            "2026-10-13",
            "13 Oct",
            "Oct 13",
            "6437.21",
            "6,437.21",
            "5183.47",
            "5,183.47",
            "4,711,69",
            "3,794,02",
        ] {
            assert!(!text.contains(secret), "{secret} on {paper:?}");
        }
        // All of its money is in the one currency.
        assert!(!text.contains("USD"), "{paper:?}");
        if *paper == Paper::Quotation {
            assert!(text.contains("1,000 EUR per part"), "{text}");
        }
    }
}

#[test]
fn a_quotation_at_sample_rates_says_so_at_its_head_and_at_its_prices() {
    let mut sample = common::ring();
    for number in [None, Some("26-0107-Q1")] {
        for (is_sample, times) in [(true, 2), (false, 0)] {
            sample.issuer.sample_rates = is_sample;
            let mut matter = sample.matter(Sheet::Letter);
            matter.number = number;
            let text = prose(&quotation(&[matter]));
            assert_eq!(text.matches("Sample rates").count(), times, "{text}");
        }
    }
}
