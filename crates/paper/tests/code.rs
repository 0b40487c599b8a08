//! The code in the foot: what it says, how it is read back, where it stands.
#![expect(clippy::unwrap_used, reason = "helpers of tests may panic")]

mod common;

use proptest::prelude::*;
use quillbore_job::Paper;
use quillbore_paper::code::{self, CodeSays, DrawnCode};
use quillbore_paper::page::{Document, Item, Path, Step, mm};
use quillbore_paper::{Matter, PrintedOn, Sheet, Sides, traveler};

/// Job, paper, revision, sheet.
type Says = (&'static str, Option<Paper>, Option<u32>, Option<u32>);

#[test]
fn a_text_says_job_paper_and_sheet() {
    let check = |text: &str, expect: Option<Says>| {
        let expect = expect.map(|(job, paper, revision, sheet)| CodeSays {
            job: job.to_owned(),
            paper,
            revision,
            sheet,
        });
        assert_eq!(code::read(text), expect, "{text:?}");
    };
    let traveler = Some(Paper::Traveler);
    check(
        "26-0107-T1/2",
        Some(("26-0107", traveler, Some(1), Some(2))),
    );
    check(
        " 26-0107-t12/3\n",
        Some(("26-0107", traveler, Some(12), Some(3))),
    );
    check("26-0107-t/2", Some(("26-0107", traveler, None, Some(2))));
    check(
        "26-0107-Q4",
        Some(("26-0107", Some(Paper::Quotation), Some(4), None)),
    );
    check("26-0107", Some(("26-0107", None, None, None)));
    check("26-0107/2", Some(("26-0107", None, None, Some(2))));
    check("26-0107-x", Some(("26-0107-X", None, None, None)));
    check("26-0107-T+1", Some(("26-0107-T+1", None, None, None)));
    for text in [
        "",
        "   ",
        "alder finch",
        "alder 4-118",
        "ring",
        "26-0107-T1/0",
        "26-0107-T1/x",
        "-T1/2",
    ] {
        check(text, None);
    }
}

#[test]
fn a_paper_is_named_only_where_it_was_issued() {
    let number = |text: &str| code::read(text).and_then(|says| says.paper_number());
    assert_eq!(number("26-0107-f2/1").as_deref(), Some("26-0107-F2"));
    assert_eq!(number("26-0107-f/1"), None);
    assert_eq!(number("26-0107"), None);
}

proptest! {
    #[test]
    fn what_is_written_is_read(
        year in 0_u32..100,
        number in 0_u32..100_000,
        paper in prop::sample::select(Paper::ALL),
        revision in prop::option::of(1_u32..1000),
        sheet in 1_usize..10_000,
        lower: bool,
    ) {
        let job = format!("{year:02}-{number:04}");
        let end = revision.map_or_else(String::new, |revision| revision.to_string());
        let mut text = code::of(&format!("{job}-{}{end}", paper.letter()), sheet);
        prop_assert!(DrawnCode::new(&text).is_some());
        if lower {
            text = text.to_lowercase();
        }
        let says = CodeSays { job, paper: Some(paper), revision, sheet: u32::try_from(sheet).ok() };
        prop_assert_eq!(code::read(&text), Some(says));
    }

    #[test]
    fn any_text_is_answered(text: String) {
        if let Some(says) = code::read(&text) {
            prop_assert!(!says.job.is_empty());
        }
        let _ = DrawnCode::new(&text);
    }
}

/// The code's path: dark, and of hundreds of steps.
fn code_of(page: &[Item]) -> Option<&Path> {
    page.iter().find_map(|item| match item {
        Item::Path(path) if path.fill.is_none() && path.steps.len() > 200 => {
            let ink = path.stroke.map(|stroke| stroke.ink);
            (ink == Some(quillbore_paper::page::Ink::Text)).then_some(path)
        }
        _ => None,
    })
}

/// Left, top, right and bottom of a path's points; thick lines are level, they go half of that further up and down.
fn bounds(path: &Path) -> [f64; 4] {
    let mut bounds = [f64::MAX, f64::MAX, f64::MIN, f64::MIN];
    for step in &path.steps {
        let points = match step {
            Step::Move(x, y) | Step::Line(x, y) => vec![(*x, *y)],
            Step::Curve(a, b, c) => vec![*a, *b, *c],
            Step::Close => Vec::new(),
        };
        for (x, y) in points {
            bounds = [
                bounds[0].min(x),
                bounds[1].min(y),
                bounds[2].max(x),
                bounds[3].max(y),
            ];
        }
    }
    let thick = path.stroke.map_or(0.0, |stroke| stroke.width);
    if thick > 1.0 {
        bounds[1] -= thick / 2.0;
        bounds[3] += thick / 2.0;
    }
    bounds
}

/// Nothing but the code lies within the code's white edge, on the whole sheet.
fn assert_free(document: &Document, number: &str) {
    let height = document.sheet.size().1;
    for (index, page) in document.pages.iter().enumerate() {
        let drawn = DrawnCode::new(&code::of(number, index + 1)).unwrap();
        let path = code_of(&page.items);
        let [left, top, right, bottom] = bounds(path.unwrap());
        assert!((right - left - drawn.side()).abs() < 1e-6);
        assert!(drawn.quiet() >= mm(1.6) - 1e-6, "modules of 0.4 mm");
        assert!(
            bottom <= height - mm(5.0),
            "ends {} above the edge",
            height - bottom
        );
        let near = 1e-6 - drawn.quiet();
        let apart = |[l, t, r, b]: [f64; 4]| {
            r <= left + near || l >= right - near || b <= top + near || t >= bottom - near
        };
        for item in &page.items {
            let there = match item {
                Item::Text(run) => [run.x, run.y - run.style.size * 0.75, run.right(), run.y],
                Item::Line(line) => [
                    line.from.0.min(line.to.0),
                    line.from.1.min(line.to.1) - line.stroke.width / 2.0,
                    line.from.0.max(line.to.0),
                    line.from.1.max(line.to.1),
                ],
                Item::Begin(_) | Item::End => continue,
                Item::Path(other) if path.is_some_and(|path| path == other) => continue,
                Item::Path(path) => bounds(path),
                Item::Picture(picture) => {
                    let ((x, y), (width, height)) = (picture.at, picture.size);
                    [x, y, x + width, y + height]
                }
            };
            // The rule of the foot runs along the white edge.
            let on_edge = (there[3] - (top - drawn.quiet())).abs() < 0.3;
            assert!(apart(there) || on_edge, "sheet {}: {item:?}", index + 1);
        }
    }
}

#[test]
fn no_sheet_covers_its_code() {
    let long = "26-0107-RING-OF-THE-SECOND-HALF-1234-56789";
    for sheet in [Sheet::A4, Sheet::Letter] {
        for job in ["7", "26-0107", "26-0107-SECOND-RING", long] {
            let mut sample = common::ring();
            job.clone_into(&mut sample.job.number);
            let number = format!("{job}-T1");
            let numbers = [Some(number.as_str()), None].into_iter();
            let on = numbers.flat_map(|number| [Sides::One, Sides::Both].map(|on| (number, on)));
            for (number, sides) in on {
                let document = traveler(&Matter {
                    number,
                    preview: Some("parts not received"),
                    sheet: PrintedOn { sheet, sides },
                    ..sample.matter(sheet)
                });
                let number = number.map_or_else(|| format!("{job}-T"), str::to_owned);
                assert_free(&document, &number);
                let said = code::of(&number, 2);
                let beside = document.pages[1]
                    .items
                    .iter()
                    .any(|item| matches!(item, Item::Text(run) if run.text == said));
                assert!(beside, "{said}");
            }
        }
    }
}

#[test]
fn a_job_without_a_number_or_with_a_monster_of_one_has_no_code() {
    let mut sample = common::plate();
    for number in [String::new(), "26-".repeat(100)] {
        sample.job.number = number;
        for page in traveler(&sample.matter(Sheet::A4)).pages {
            assert_eq!(code_of(&page.items), None);
        }
    }
}
