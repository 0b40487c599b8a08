//! The quotation: what it offers, on which terms, and what it leaves out.

mod common;

use common::prose;
use quillbore_calc::finding::Level;
use quillbore_paper::{Remark, Sheet, quotation};

#[test]
fn it_says_who_what_how_much_and_until_when() {
    let sample = common::ring();
    for sheet in [Sheet::A4, Sheet::Letter] {
        let text = prose(&quotation(&[sample.matter(sheet)]));
        let mut at = 0;
        for needed in [
            "26-0107, draft",
            "Nov 7, 2026",
            "Alder Finch Rotors",
            "RFQ 88-1402",
            "Scope",
            "0.80 +-0.05 0.750 0.850 14.00 through 30.0 60.0",
            "Price",
            "25 48.20 1,205.00 minimum charge",
            "100 41.75 4,175.00",
            "fixture 180.00",
            "Our minimum charge for one lot is 165.00 USD",
            "8 working days after order, parts and drawing are in",
            "30 days, until Dec 7, 2026",
            "recast layer",
            "the thread is not guaranteed",
            "worked at the customer's risk",
            "For a spoiled part we answer up to 1,000 USD per part.",
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
        code: "limits-tight",
        row,
        text: "Tight: measure the first piece.".to_owned(),
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
