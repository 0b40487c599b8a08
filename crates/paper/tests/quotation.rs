//! The quotation: what it offers, on which terms, and what it leaves out.

mod common;

use common::prose;
use quillbore_calc::finding::Level;
use quillbore_job::answer::How;
use quillbore_job::concern::{Concern, Customer, Told};
use quillbore_job::{Edit, Field, Language, Line, Paper, SlipKind, Unit, apply};
use quillbore_paper::words::customer::Words;
use quillbore_paper::{Remark, Sheet, quotation};

#[test]
fn it_says_who_what_how_much_and_until_when() {
    let sample = common::ring();
    for sheet in [Sheet::A4, Sheet::Letter] {
        let text = prose(&quotation(&[sample.matter(sheet)]));
        let mut at = 0;
        for needed in [
            "26-0107, draft",
            "7 Nov 2026",
            "Alder Finch Rotors",
            "RFQ 88-1402",
            "Scope",
            "0.80 \u{b1}0.05 0.750 0.850 14.00 through 30.0 60.0",
            "Price",
            "25 48.20 1,205.00 minimum charge",
            "100 41.75 4,175.00",
            "fixture 180.00",
            "Our minimum charge for one lot is 165.00 USD",
            "8 working days after order, parts and drawing are in",
            "30 days, until 7 Dec 2026",
            "recast layer",
            "worked at the customer's risk",
            "For a spoiled part our liability is limited to 1,000 USD per part.",
            "Removal of the wax beyond melting out.",
            "Prices are net, without freight and taxes.",
            "Acceptance",
        ] {
            let found = text[at..].find(needed);
            assert!(found.is_some(), "{needed} after\n{}", &text[..at]);
            at += found.unwrap_or_default();
        }
    }
}

#[test]
fn findings_for_the_customer_are_told_and_the_shops_own_are_not() {
    let mut sample = common::ring();
    let row = Some(sample.job.rows[1].id);
    sample.remarks.push(Remark {
        level: Level::Check,
        row,
        text: "Tight: measure the first piece.".to_owned(),
        customer: Customer::Told(Told::LimitsTight),
        floor: true,
    });
    let text = prose(&quotation(&[sample.matter(Sheet::A4)]));
    // The finding is told in words for the customer, not in the shop's own.
    assert!(
        text.contains("Hole B: the limits are as close as this process holds"),
        "{text}"
    );
    assert!(!text.contains("measure the first piece."), "{text}");
    assert!(!text.contains("far wall"), "{text}");
}

#[test]
fn nothing_is_priced_where_nothing_was_computed() {
    let mut sample = common::plate();
    sample.figures.price = None;
    let text = prose(&quotation(&[sample.matter(Sheet::Letter)]));
    assert!(text.contains("Not priced yet"), "{text}");
    assert!(text.contains("to be agreed"), "{text}");
}

#[test]
fn a_check_is_asked_until_it_is_answered_and_then_stated() {
    let mut sample = common::ring();
    let asks = "the clearance behind the exit is less than the electrode needs";
    let text = prose(&quotation(&[sample.matter(Sheet::A4)]));
    assert!(text.contains(&format!("Hole A: {asks}")), "{text}");
    let agreed = common::answer(&sample, 0, Concern::WallBehind, &[6.0], How::Agreed);
    let accepted = common::answer(&sample, 1, Concern::Limits, &[0.6, 0.65], How::Accepted);
    let step = common::answer(&sample, 0, Concern::Step, &[], How::Agreed);
    sample.answers = vec![agreed, step, accepted];
    let text = prose(&quotation(&[sample.matter(Sheet::A4)])).replace('\u{a0}', " ");
    assert!(!text.contains(asks), "{text}");
    for stated in [
        "Hole A: the wall 6.00 mm behind the exit may be marked by the electrode. Agreed by Wilma Oakes, 7 Nov 2026.",
        "a step of up to 0.12 mm may remain. Agreed by",
        "Hole B: 0.600 to 0.650 mm is closer than this process holds in every hole; it is offered as drawn.",
    ] {
        assert!(text.contains(stated), "{stated} in {text}");
    }
    // Why the shop takes it on stays in the shop.
    assert!(!text.contains("reamed afterwards"), "{text}");
    let plate = common::plate();
    let both = [sample.matter(Sheet::A4), plate.matter(Sheet::A4)];
    let text = prose(&quotation(&both));
    assert!(text.contains("4-118 rev C: Hole A: the wall"), "{text}");
}

#[test]
fn a_later_quotation_names_the_one_that_it_replaces() {
    let mut sample = common::ring();
    assert!(!prose(&quotation(&[sample.matter(Sheet::A4)])).contains("Replaces"));
    common::issue(&mut sample.job, Paper::Quotation);
    let text = prose(&quotation(&[sample.matter(Sheet::A4)]));
    let said = "Replaces 26-0107-Q1 of 7 Nov 2026: no longer valid.";
    assert!(text.contains(said), "{text}");
    common::issue(&mut sample.job, Paper::Quotation);
    let text = prose(&quotation(&[sample.matter(Sheet::A4)]));
    assert!(
        text.contains("Replaces 26-0107-Q2 of 7 Nov 2026:"),
        "{text}"
    );
    assert!(!text.contains("26-0107-Q1"), "{text}");
}

#[test]
fn a_quotation_offers_what_the_sheet_says_whatever_was_ordered() {
    let mut sample = common::ring();
    common::pin(
        &mut sample.job,
        SlipKind::Order,
        &[(Line::Revision, "E"), (Line::DrawingRevision, "9")],
    );
    let text = prose(&quotation(&[sample.matter(Sheet::A4)]));
    assert!(text.contains("4-118 rev C") && !text.contains("rev E") && !text.contains("rev 9"));
}

/// What a customer is told never speaks of what the shop's own people are to do.
#[test]
fn findings_reach_the_customer_in_the_customers_words() {
    let both = [Language::English, Language::German];
    for told in [
        Told::LimitsTight,
        Told::DepthBySteps,
        Told::DepthByStepsInLimits,
        Told::ConductivityCheck,
        Told::ConductivityTestPiece,
        Told::DoesNotConduct,
        Told::DeepTestPiece,
        Told::CoreTrapped,
        Told::NotGuaranteed,
        Told::ExitMayBeTight,
        Told::ProfileInReach,
    ] {
        for words in both.map(Words::of) {
            let said = (words.quotation.for_the_customer)(told);
            assert!(said.is_some(), "{told:?}");
        }
    }
}

/// The text for threads stands only where there is one.
#[test]
fn a_thread_is_spoken_of_where_there_is_one() {
    let says = |note: &str| {
        let mut sample = common::ring();
        let edit = Edit::SetField {
            field: Field::Notes,
            text: note.to_owned(),
            unit: Unit::Mm,
        };
        sample.job = apply(&sample.job, &edit).expect("an edit").0;
        let text = prose(&quotation(&[sample.matter(Sheet::A4)]));
        text.contains("the thread is not guaranteed")
    };
    assert!(!says("beside the flange"));
    assert!(says("M6 tap broken 12 deep"));
    assert!(says("below the 1/4 UNC thread"));
}
