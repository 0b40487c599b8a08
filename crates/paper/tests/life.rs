//! The papers that follow an order: what each says, and what it must never say.

mod common;

use common::prose;
use quillbore_job::Paper;
use quillbore_paper::page::Item;
use quillbore_paper::{Sheet, document};

fn says(paper: Paper, wanted: &[&str]) {
    let sample = common::delivered();
    for sheet in [Sheet::A4, Sheet::Letter] {
        let document = document(paper, &[sample.matter(sheet)]);
        let text = prose(&document);
        let of = document.pages.len();
        let every = [
            format!("page {of} of {of}"),
            format!("{}-{}/1", sample.job.number, paper.letter()),
            "Cinder Lane Small Hole Works".to_owned(),
        ];
        let wanted = wanted.iter().map(|text| (*text).to_owned());
        for needed in wanted.chain(every) {
            assert!(text.contains(&needed), "{paper:?}: {needed} in {text}");
        }
        assert!(document.missing().is_empty(), "{:?}", document.missing());
        let (width, height) = sheet.size();
        for item in document.pages.iter().flat_map(|page| &page.items) {
            if let Item::Text(run) = item {
                let inside = run.x >= 0.0 && run.right() <= width && run.y <= height;
                assert!(inside, "{paper:?}: {run:?}");
            }
        }
    }
}

#[test]
fn the_confirmation_says_what_was_ordered_and_what_differs() {
    says(
        Paper::Confirmation,
        &[
            "BT-7781",
            "512.50",
            "2,050.00",
            "call 1",
            "Nov 20, 2026",
            "14 days",
            "Accepted by the owner, since the lot is small.",
            "No quotation of this job stands",
            "recast layer",
        ],
    );
}

#[test]
fn the_receiving_slip_says_what_came_and_how() {
    says(
        Paper::Receiving,
        &[
            "101-104",
            "H4471",
            "scratch on 104",
            "scratch-104.jpg",
            "still missing",
        ],
    );
}

#[test]
fn the_inspection_record_has_a_block_for_every_serial() {
    says(
        Paper::Inspection,
        &["Serial 101", "Serial 104", "1.21 to 1.23", "Pin goes not"],
    );
    let sample = common::delivered();
    let text = prose(&document(Paper::Inspection, &[sample.matter(Sheet::A4)]));
    assert_eq!(
        text.matches("1.21 to 1.23").count(),
        1,
        "only for its piece"
    );
}

#[test]
fn the_certificate_names_deviations_and_what_it_does_not_cover() {
    says(
        Paper::Certificate,
        &[
            "S1 of 103; entry edge chipped; decision: use as it is",
            "101-103",
            "H4471",
            "as supplied by the customer",
            "electrical discharge machining",
        ],
    );
    let sample = common::plate();
    let text = prose(&document(Paper::Certificate, &[sample.matter(Sheet::A4)]));
    assert!(text.contains("No deviation is on record."));
}

#[test]
fn packing_list_label_and_inspection_record_have_no_prices() {
    says(
        Paper::Packing,
        &["Nov 6, 2026", "101-103", "still to come", "gloves"],
    );
    says(Paper::Label, &["parts in this delivery", "BT-7781"]);
    let sample = common::delivered();
    for paper in [
        Paper::Packing,
        Paper::Label,
        Paper::Inspection,
        Paper::Receiving,
    ] {
        let text = prose(&document(paper, &[sample.matter(Sheet::A4)]));
        for price in ["512", "2,050", "USD"] {
            assert!(!text.contains(price), "{paper:?} says {price}");
        }
    }
}

#[test]
fn a_quotation_of_two_jobs_has_the_lines_of_both_and_one_set_of_terms() {
    let (ring, plate) = (common::ring(), common::plate());
    let both = [ring.matter(Sheet::A4), plate.matter(Sheet::A4)];
    let text = prose(&document(Paper::Quotation, &both));
    for sample in [&ring, &plate] {
        let part = sample.job.text(quillbore_job::Field::Part);
        assert!(text.contains(part), "{part}");
        for at in &sample.figures.price.as_ref().expect("a price").breaks {
            let each = quillbore_paper::shown::money(&at.each.to_string());
            assert!(text.contains(&each), "{each}");
        }
    }
    assert_eq!(text.matches("Prices are net, without freight").count(), {
        // Once among the terms, once in the foot of each page.
        1 + document(Paper::Quotation, &both).pages.len()
    });
    assert!(document(Paper::Quotation, &[]).pages.is_empty());
}

#[test]
fn an_issued_paper_bears_its_number_and_is_no_preview() {
    let sample = common::delivered();
    let matter = quillbore_paper::Matter {
        number: Some("26-0108-Q3"),
        valid_until: chrono::NaiveDate::from_ymd_opt(2026, 12, 24),
        ..sample.matter(Sheet::A4)
    };
    let text = prose(&document(Paper::Quotation, &[matter]));
    for needed in ["26-0108-Q3", "26-0108-Q3/1", "Dec 24, 2026"] {
        assert!(text.contains(needed), "{needed}");
    }
    assert!(!text.contains("draft"), "{text}");
}
