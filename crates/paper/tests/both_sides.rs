//! Papers printed on both sides of their sheets: the back has its binding margin at the right, and
//! nothing else differs.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

mod common;

use quillbore_job::{Paper, Shop};
use quillbore_paper::page::{Face, Item, Page, TextRun, mm};
use quillbore_paper::pdf::{self, Meta};
use quillbore_paper::typeset::flow::Body;
use quillbore_paper::{BlankForm, Document, Matter, PrintedOn, Sheet, Sides, blank, document};

fn runs(page: &Page) -> Vec<&TextRun> {
    let items = page.items.iter();
    items
        .filter_map(|item| match item {
            Item::Text(run) => Some(run),
            _ => None,
        })
        .collect()
}

/// All papers and forms of all jobs, on fronts alone and on both sides.
fn each(mut look: impl FnMut(&str, Sheet, &Document, &Document)) {
    let shop = Shop::embedded().expect("the shop");
    for (name, job) in common::all() {
        for sheet in [Sheet::A4, Sheet::Letter] {
            common::printed(&job, shop, sheet, |matter| {
                let matter = Matter {
                    preview: Some("not released"),
                    ..matter
                };
                let both = Matter {
                    sheet: PrintedOn {
                        sheet,
                        sides: Sides::Both,
                    },
                    ..matter
                };
                for paper in Paper::ALL {
                    let made = [matter, both].map(|matter| document(*paper, &[matter]));
                    let said = format!("{name}, {paper:?} on {sheet:?}");
                    look(&said, sheet, &made[0], &made[1]);
                }
                for form in BlankForm::ALL {
                    let made = [matter, both].map(|matter| blank(*form, &matter, Some(2)));
                    let said = format!("{name}, blank {form:?} on {sheet:?}");
                    look(&said, sheet, &made[0], &made[1]);
                }
            });
        }
    }
}

#[test]
fn backs_keep_the_binding_edge_at_the_right_and_fronts_are_as_before() {
    let mut backs = 0;
    each(|said, sheet, one, both| {
        assert_eq!(one.pages.len(), both.pages.len(), "{said}");
        let front = Body::of(sheet);
        let (width, _) = sheet.size();
        let (left, right) = (mm(10.0), width - mm(20.0));
        assert!((right - left - front.width()).abs() < 1e-9);
        for (at, (as_front, page)) in one.pages.iter().zip(&both.pages).enumerate() {
            if at % 2 == 0 {
                assert_eq!(as_front, page, "{said}, page {}", at + 1);
                continue;
            }
            backs += 1;
            for run in runs(page) {
                let is_within = run.x >= left - 0.01 && run.right() <= right + 0.01;
                assert!(is_within, "{said}, page {}: {run:?}", at + 1);
            }
            let moved: Vec<(&str, f64, f64)> = runs(page)
                .iter()
                .map(|run| (run.text.as_str(), run.y, run.x + mm(10.0)))
                .collect();
            let there = runs(as_front);
            assert_eq!(moved.len(), there.len(), "{said}, page {}", at + 1);
            for ((text, y, x), run) in moved.into_iter().zip(there) {
                let is_same = text == run.text && y == run.y && (x - run.x).abs() < 1e-6;
                assert!(is_same, "{said}, page {}: {run:?}", at + 1);
            }
        }
    });
    assert!(backs > 50, "only {backs} backs");
}

/// No text of a front leaves its body either, so that what is moved had its place.
#[test]
fn fronts_keep_the_binding_edge_at_the_left() {
    each(|said, sheet, one, _| {
        let body = Body::of(sheet);
        assert!((body.left - mm(20.0)).abs() < 1e-9);
        for (at, page) in one.pages.iter().enumerate() {
            for run in runs(page) {
                let is_within = run.x >= body.left - 0.01 && run.right() <= body.right + 0.01;
                assert!(is_within, "{said}, page {}: {run:?}", at + 1);
                let upper = run.y - Face::cap_height(run.style.face, run.style.size);
                assert!(upper >= mm(5.0), "{said}, page {}: {run:?}", at + 1);
            }
        }
    });
}

#[test]
fn a_paper_on_one_side_has_the_bytes_that_it_had_without_the_choice() {
    let sample = common::ring();
    let meta = Meta {
        title: "Traveler".to_owned(),
        author: "Heron Bore".to_owned(),
        date: common::day(),
    };
    let bytes = |matter: Matter<'_>| {
        let made = document(Paper::Traveler, &[matter]);
        pdf::write(&made, &meta).expect("a PDF")
    };
    let on = |sides| PrintedOn {
        sheet: Sheet::A4,
        sides,
    };
    let plain = bytes(sample.matter(Sheet::A4));
    let one = bytes(Matter {
        sheet: on(Sides::One),
        ..sample.matter(Sheet::A4)
    });
    let both = bytes(Matter {
        sheet: on(Sides::Both),
        ..sample.matter(Sheet::A4)
    });
    assert!(plain == one && one != both);
}
