//! The papers that follow an order: what each says, and what it must never say.

mod common;

use common::prose;
use quillbore_calc::finding::Level;
use quillbore_job::answer::How;
use quillbore_job::concern::{Concern, Customer};
use quillbore_job::{Issued, IssuedLine, Line, Paper, SlipKind};
use quillbore_paper::page::{Item, MOST_PAGES};
use quillbore_paper::{Matter, Remark, Sheet, document};

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
            "20 Nov 2026",
            "14 days",
            "The order answers no valid quotation of ours.",
            "Accepted: the owner, since the lot is small.",
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
fn the_inspection_record_says_of_each_piece_only_what_was_measured_of_it() {
    says(
        Paper::Inspection,
        &[
            "GO in NO-GO in",
            "Piece by piece",
            // The range of two pieces stands once, as such; the size of one piece at that piece.
            "Measured over several pieces",
            "S2 0.79 to 0.80 101-102",
            "102 S1 1.21 to 1.23 8 of 8",
            "103 S1 non-conformance 1: entry edge chipped",
            "Checked as far as noted above. What is not noted above was not checked.",
            "1: S1 of 103; entry edge chipped; decision: use as it is; not closed.",
        ],
    );
    let sample = common::delivered();
    let text = prose(&document(Paper::Inspection, &[sample.matter(Sheet::A4)]));
    for once in ["1.21 to 1.23", "0.79 to 0.80", "non-conformance 1:"] {
        assert_eq!(text.matches(once).count(), 1, "{once} in {text}");
    }
    assert!(text.contains("101, 104 (2 pieces)."), "{text}");
    assert!(
        !text.contains("Every hole"),
        "nobody wrote that down: {text}"
    );
}

/// A record has lines of the pieces of which something is on record, and names all others: no page of blanks that
/// could be filled after it was signed.
#[test]
fn a_record_has_lines_of_what_was_measured_and_names_the_other_pieces() {
    use quillbore_job::{Line, SlipKind};
    let mut sample = common::plate();
    let lines = [(Line::Count, "30"), (Line::Serials, "SN071-SN100")];
    common::pin(&mut sample.job, SlipKind::Received, &lines);
    let says = |sample: &common::Sample| {
        let record = document(Paper::Inspection, &[sample.matter(Sheet::A4)]);
        (record.pages.len(), prose(&record))
    };
    let (pages, text) = says(&sample);
    assert_eq!(pages, 1);
    assert!(
        text.contains("Not measured piece by piece: SN071 \u{2013} SN100 (30 pieces)."),
        "{text}"
    );
    for serial in ["SN074", "SN099"] {
        let lines = [
            (Line::Mark, "S1"),
            (Line::Serials, serial),
            (Line::Pins, "0.8"),
        ];
        common::pin(&mut sample.job, SlipKind::Inspection, &lines);
    }
    let (pages, text) = says(&sample);
    assert_eq!(pages, 1);
    for needed in [
        "SN074 S1 0.8",
        "SN074 S2 not measured",
        "SN074 S3 not measured",
        "SN099 S1 0.8",
        "SN071 \u{2013} SN073, SN075 \u{2013} SN098, SN100 (28 pieces).",
    ] {
        assert!(text.contains(needed), "{needed} in {text}");
    }
    // Parts without a serial number count too, and what doesn't come out even is told.
    let mut sample = common::plate();
    let lines = [(Line::Count, "4"), (Line::Serials, "71, 72")];
    common::pin(&mut sample.job, SlipKind::Received, &lines);
    let (_, text) = says(&sample);
    for needed in [
        "4 parts are counted, 2 serial numbers are named",
        "71 \u{2013} 72, no serial, 1 \u{2013} no serial, 2 (4 pieces)",
    ] {
        assert!(text.contains(needed), "{needed} in {text}");
    }
}

#[test]
fn all_checked_is_said_only_where_it_is_true() {
    use quillbore_job::{Line, SlipKind};
    let mut sample = common::delivered();
    let says =
        |sample: &common::Sample, paper| prose(&document(paper, &[sample.matter(Sheet::A4)]));
    let certificate = says(&sample, Paper::Certificate);
    assert!(certificate.contains("inspection record none was issued"));
    assert!(
        certificate.contains("S1: size of every hole checked on 1 of 3 parts"),
        "{certificate}"
    );
    assert!(certificate.contains("S3: no check of every hole is on record"));
    assert!(!certificate.contains("Every hole of these parts was checked"));
    for mark in ["S1", "S2", "S3"] {
        let lines = [
            (Line::Mark, mark),
            (Line::Serials, "101-104"),
            (Line::Checked, "32"),
            (Line::NotGood, "0"),
        ];
        common::pin(&mut sample.job, SlipKind::Inspection, &lines);
    }
    let certificate = says(&sample, Paper::Certificate);
    assert!(
        certificate.contains("Every hole of these parts was checked."),
        "{certificate}"
    );
    assert!(certificate.contains("S3: size of every hole checked on 3 of 3 parts"));
    let record = says(&sample, Paper::Inspection);
    assert!(record.contains("Every hole of the parts above was checked, as noted above."));
}

/// A line for each of ten thousand pieces and a thousand rows would take gigabytes.
#[test]
fn an_inspection_record_of_very_many_lines_is_given_up() {
    let mut sample = common::delivered();
    let lines = [(Line::Count, "10000"), (Line::Serials, "1-10000")];
    common::pin(&mut sample.job, SlipKind::Received, &lines);
    let first = sample.job.rows[0].clone();
    sample.job.rows.extend((100..1_100).map(|id| {
        std::sync::Arc::new(quillbore_job::Row {
            id: quillbore_calc::RowId(id),
            ..quillbore_job::Row::clone(&first)
        })
    }));
    for piece in 1..=100 {
        let piece = piece.to_string();
        let lines = [
            (Line::Mark, "S1"),
            (Line::Serials, &piece),
            (Line::Pins, "0.8"),
        ];
        common::pin(&mut sample.job, SlipKind::Inspection, &lines);
    }
    let document = document(Paper::Inspection, &[sample.matter(Sheet::A4)]);
    assert!(document.is_cut);
    assert!(document.pages.len() <= MOST_PAGES);
}

#[test]
fn the_certificate_names_the_inspection_record_by_number() {
    let mut sample = common::delivered();
    common::issue(&mut sample.job, Paper::Inspection);
    let text = prose(&document(Paper::Certificate, &[sample.matter(Sheet::A4)]));
    assert!(
        text.contains("inspection record 26-0112-H1 of 7 Nov 2026"),
        "{text}"
    );
    assert!(
        text.contains("is in inspection record 26-0112-H1"),
        "{text}"
    );
}

#[test]
fn blind_holes_do_not_stand_open() {
    let mut sample = common::plate();
    for row in &mut sample.job.rows {
        let row = std::sync::Arc::make_mut(row);
        let blind = quillbore_calc::input::HoleEnd::Blind;
        row.end = quillbore_job::Entry::read("blind", quillbore_job::Unit::Mm, blind);
    }
    for paper in [
        Paper::Traveler,
        Paper::Inspection,
        Paper::Certificate,
        Paper::Quotation,
    ] {
        let text = prose(&document(paper, &[sample.matter(Sheet::A4)]));
        for wrong in [
            "prove it open",
            "prove open",
            "checked open",
            "through from both sides",
            "not through",
        ] {
            assert!(!text.contains(wrong), "{paper:?} says {wrong}: {text}");
        }
    }
}

#[test]
fn the_certificate_names_deviations_and_what_it_does_not_cover() {
    says(
        Paper::Certificate,
        &[
            "1: S1 of 103; entry edge chipped; decision: use as it is; not closed.",
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
        &["6 Nov 2026", "101-103", "still to come", "gloves"],
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
            let each = sample.issuer.form.amount(at.each);
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
    let matter = Matter {
        number: Some("26-0108-Q3"),
        valid_until: chrono::NaiveDate::from_ymd_opt(2026, 12, 24),
        ..sample.matter(Sheet::A4)
    };
    let text = prose(&document(Paper::Quotation, &[matter]));
    for needed in ["26-0108-Q3", "26-0108-Q3/1", "24 Dec 2026"] {
        assert!(text.contains(needed), "{needed}");
    }
    assert!(!text.contains("draft"), "{text}");
}

#[test]
fn papers_follow_the_order_and_not_the_sheet() {
    let mut sample = common::ring();
    common::pin(
        &mut sample.job,
        SlipKind::Order,
        &[
            (Line::Number, "PO 7"),
            (Line::Quantity, "40"),
            (Line::Each, "48.2"),
            (Line::Revision, "E"),
            (Line::DrawingRevision, "9"),
            (Line::Due, "2026-12-24"),
        ],
    );
    for paper in Paper::ALL {
        if *paper == Paper::Quotation {
            continue;
        }
        let text = prose(&document(*paper, &[sample.matter(Sheet::A4)]));
        assert!(text.contains("4-118 rev E"), "{paper:?}: {text}");
        assert!(!text.contains("4-118 rev C"), "{paper:?}: {text}");
    }
    let drawn = prose(&document(Paper::Certificate, &[sample.matter(Sheet::A4)]));
    assert!(drawn.contains("AF-4-118-2 rev 9"), "{drawn}");
    let traveler = prose(&document(Paper::Traveler, &[sample.matter(Sheet::A4)]));
    for told in ["due 24 Dec 2026", "quantity 40", "rev E"] {
        assert!(traveler.contains(told), "{told} in {traveler}");
    }
    assert!(traveler.contains("count, of 40 and 1 spare"), "{traveler}");
}

#[test]
fn a_call_off_is_told_as_a_part_of_its_order() {
    let mut sample = common::ring();
    for (kind, lines) in [
        (
            SlipKind::Order,
            &[(Line::Number, "PO 7"), (Line::Quantity, "40")][..],
        ),
        (
            SlipKind::Release,
            &[
                (Line::Number, "call 1"),
                (Line::Quantity, "15"),
                (Line::Due, "2026-12-01"),
            ],
        ),
        (
            SlipKind::Release,
            &[(Line::Number, "call 2"), (Line::Quantity, "25")],
        ),
    ] {
        common::pin(&mut sample.job, kind, lines);
    }
    let text = prose(&document(Paper::Traveler, &[sample.matter(Sheet::A4)]));
    for told in ["call 1", "15 of 40", "1 Dec 2026"] {
        assert!(text.contains(told), "{told} in {text}");
    }
    assert!(!text.contains("call 2"), "{text}");
}

#[test]
fn no_price_is_printed_that_the_order_does_not_have() {
    let mut sample = common::ring();
    common::issue(&mut sample.job, Paper::Quotation);
    let line = IssuedLine {
        job: sample.job.number.clone(),
        part: "4-118".to_owned(),
        revision: "C".to_owned(),
        quantity: 25,
        each: "48.20".parse().ok(),
    };
    let quotation = Issued {
        lines: vec![line],
        ..sample.job.issued[0].as_ref().clone()
    };
    let quotation = quotation.sealed();
    sample.job.issued[0] = quotation.clone().into();
    let lines = [(Line::Number, "PO 7"), (Line::Quantity, "25")];
    common::pin(&mut sample.job, SlipKind::Order, &lines);
    let matter = Matter {
        quotation: Some(&quotation),
        ..sample.matter(Sheet::A4)
    };
    let text = prose(&document(Paper::Confirmation, &[matter]));
    assert!(!text.contains("48.20") && !text.contains("1,205"), "{text}");
    assert!(text.contains("26-0107-Q1"), "{text}");
}

#[test]
fn what_is_charged_once_is_confirmed_as_it_was_quoted() {
    let mut sample = common::ring();
    let lines = [(Line::Number, "PO 7"), (Line::Quantity, "25")];
    common::pin(&mut sample.job, SlipKind::Order, &lines);
    let amount = "1109.20".parse().expect("an amount");
    let price = sample.figures.price.as_mut().expect("a price");
    price.one_off = vec![("fixture".to_owned(), amount)];
    for paper in [Paper::Quotation, Paper::Confirmation] {
        let text = prose(&document(paper, &[sample.matter(Sheet::A4)]));
        assert!(text.contains("Charged once"), "{text}");
        assert!(text.contains("fixture 1,109.20"), "{text}");
    }
    let price = sample.figures.price.as_mut().expect("a price");
    price.one_off.clear();
    let text = prose(&document(Paper::Confirmation, &[sample.matter(Sheet::A4)]));
    assert!(!text.contains("Charged once"), "{text}");
}

#[test]
fn the_floor_sees_in_the_stop_box_what_stops_what_was_agreed_and_what_was_accepted() {
    let mut sample = common::ring();
    sample.remarks.push(Remark {
        level: Level::Stop,
        row: Some(sample.job.rows[1].id),
        text: "There is no guide for it.".to_owned(),
        customer: Customer::Shop,
        floor: true,
    });
    let open = prose(&document(Paper::Traveler, &[sample.matter(Sheet::A4)]));
    assert!(
        open.contains("No answer yet, mark A: Only 6.00 mm free"),
        "{open}"
    );
    let waived = common::answer(&sample, 0, Concern::WallBehind, &[6.0], How::Agreed);
    let limits = common::answer(&sample, 1, Concern::Limits, &[0.6, 0.65], How::Accepted);
    sample.answers = vec![waived, limits];
    let order = [
        (Line::Revision, "E"),
        (Line::Terms, "90 days"),
        (
            Line::Accepted,
            "Ms. Oakes by phone: only the title block changed",
        ),
    ];
    common::pin(&mut sample.job, SlipKind::Order, &order);
    let text = prose(&document(Paper::Traveler, &[sample.matter(Sheet::A4)]));
    let from = text.find("STOP").expect("the box");
    let stop = text[from..text.find("drawing").expect("the box ends")].replace('\u{a0}', " ");
    for told in [
        "Stop, mark B: There is no guide for it.",
        "Hole A: the wall 6.00 mm behind the exit may be marked, but not drilled into. Agreed by Wilma Oakes (Pell, 7 Nov 2026).",
        "Hole B: 0.600 to 0.650 mm may not be held in every hole: measure, and record each hole outside. Accepted by the shop: they are reamed afterwards",
        "Order: The order is for part revision E; planned: C. Accepted: Ms. Oakes by phone: only the title block changed.",
    ] {
        assert!(stop.contains(told), "{told} in {stop}");
    }
    assert!(
        !stop.contains("90 days"),
        "terms are no matter of the floor"
    );
    let text = prose(&document(Paper::Certificate, &[sample.matter(Sheet::A4)]));
    assert!(text.contains("part revision E; planned: C."), "{text}");
}
