//! Blank forms: the heads and lines of the records that they are further pages of, and nothing that was
//! typed of the job's runs and inspections.

#![expect(
    clippy::unwrap_used,
    reason = "helpers of the tests stand outside the test functions"
)]

mod common;

use quillbore_job::slip::{SlipKind, kind, line};
use quillbore_job::{Edit, Field, Job, Language, Paper, Shop, Unit, apply};
use quillbore_paper::page::{Item, Role, TextRun, mm};
use quillbore_paper::typeset::flow::Body;
use quillbore_paper::{BlankForm, Document, Matter, Sheet, blank, document};

fn set(job: &Job, form: BlankForm, pages: Option<usize>, sheet: Sheet) -> Document {
    let shop = Shop::embedded().unwrap();
    common::printed(job, shop, sheet, |matter| blank(form, &matter, pages))
}

fn texts(document: &Document, page: usize) -> Vec<&TextRun> {
    let items = document.pages[page].items.iter();
    items
        .filter_map(|item| match item {
            Item::Text(run) => Some(run),
            _ => None,
        })
        .collect()
}

/// The heads of the tables on a page.
fn heads(document: &Document, page: usize) -> Vec<String> {
    let mut heads = Vec::new();
    let mut open: Vec<bool> = Vec::new();
    for item in &document.pages[page].items {
        match item {
            Item::Begin(role) => {
                if *role == Role::Head {
                    heads.push(String::new());
                }
                open.push(*role == Role::Head);
            }
            Item::End => {
                open.pop();
            }
            Item::Text(run) if open.contains(&true) => {
                let head = heads.last_mut().unwrap();
                head.push_str(&run.text);
                head.push(' ');
            }
            _ => {}
        }
    }
    heads
}

/// Where the lines to write on begin at the left edge, from the top.
fn lines(document: &Document, page: usize) -> Vec<f64> {
    let left = Body::of(document.sheet).left;
    let items = document.pages[page].items.iter();
    let mut lines: Vec<f64> = items
        .filter_map(|item| match item {
            Item::Line(line) if line.from.1 == line.to.1 && line.from.0 == left => {
                Some(line.from.1)
            }
            _ => None,
        })
        .collect();
    lines.sort_by(f64::total_cmp);
    lines
}

fn nines(lines: &[f64]) -> usize {
    let is_nine = |pair: &&[f64]| (pair[1] - pair[0] - mm(9.0)).abs() < 1e-6;
    lines.windows(2).filter(is_nine).count()
}

#[test]
fn a_blank_run_record_has_the_heads_of_the_travelers_page_and_nothing_typed() {
    let shop = Shop::embedded().unwrap();
    for (name, job) in common::all() {
        for sheet in [Sheet::A4, Sheet::Letter] {
            let page = set(&job, BlankForm::RunRecord, None, sheet);
            assert_eq!(page.pages.len(), 1, "{name}");
            let traveler = common::printed(&job, shop, sheet, |matter| {
                document(Paper::Traveler, &[matter])
            });
            let is_record = |page: &usize| {
                let texts = texts(&traveler, *page);
                texts.iter().any(|run| run.text == "Run record")
            };
            let record = (0..traveler.pages.len()).find(is_record).unwrap();
            let (own, theirs) = (heads(&page, 0), heads(&traveler, record));
            assert!(!own.is_empty());
            // A little of the page before may stand above them.
            assert!(
                theirs.windows(own.len()).any(|heads| heads == own),
                "{name}: {own:?} in {theirs:?}"
            );
            // Records of two lines of 9 mm each fill what the page has.
            let count = nines(&lines(&page, 0));
            let [high, room] = [mm(18.0), Body::of(sheet).bottom];
            let lowest = texts(&page, 0).into_iter().map(|run| run.y);
            let lowest = lowest.filter(|y| *y < room).fold(0.0, f64::max);
            assert!(
                count >= 20 && room - lowest < high,
                "{name}: {count} lines, {lowest}"
            );
            let said = common::prose(&page);
            for run in job.slips_of::<kind::Run>() {
                for typed in [
                    run.get(line::Pins),
                    run.get(line::Trouble),
                    run.get(line::By),
                ] {
                    assert!(typed.is_empty() || !said.contains(typed), "{name}: {typed}");
                }
            }
        }
    }
}

#[test]
fn so_many_pages_are_numbered_and_have_the_jobs_code() {
    let mut jobs = common::all();
    let job = jobs.remove("26-0101").unwrap();
    for form in BlankForm::ALL {
        let document = set(&job, *form, Some(3), Sheet::A4);
        assert_eq!(document.pages.len(), 3, "{form:?}");
        for page in 0..3 {
            let texts = texts(&document, page);
            let has = |text: &str| texts.iter().any(|run| run.text == text);
            assert!(has(&format!("page {} of 3", page + 1)), "{form:?}");
            let letter = form.paper().letter();
            // No revision: it is no sheet of a paper that was issued.
            assert!(has(&format!("26-0101-{letter}/{}", page + 1)), "{form:?}");
            assert!(
                nines(&lines(&document, page)) >= 10,
                "{form:?}, page {page}"
            );
            let preview = |run: &&TextRun| run.text.contains("PREVIEW");
            assert!(!texts.iter().any(preview), "{form:?}");
        }
    }
}

#[test]
fn a_blank_form_never_takes_the_number_of_an_issued_paper() {
    let sample = common::ring();
    let numbered = Matter {
        number: Some("26-0107-T1"),
        ..sample.matter(Sheet::A4)
    };
    let said = common::prose(&blank(BlankForm::RunRecord, &numbered, None));
    assert!(!said.contains("T1/1") && said.contains("-T/1"), "{said}");
}

#[test]
fn a_blank_inspection_has_a_line_for_each_piece_and_mark_and_no_result() {
    for (name, job) in common::all() {
        for sheet in [Sheet::A4, Sheet::Letter] {
            let page = set(&job, BlankForm::Inspection, None, sheet);
            let parts = quillbore_job::inspected::parts(&job);
            let pieces = (parts.count as usize).max(parts.serials.len()).max(1);
            let lines: usize = (0..page.pages.len())
                .map(|at| nines(&lines(&page, at)))
                .sum();
            assert!(
                lines >= pieces * job.rows.len(),
                "{name}: {lines} lines for {pieces} pieces"
            );
            let said = common::prose(&page);
            let runs = job.slips_of::<kind::Run>().map(|run| run.get(line::Pins));
            let inspections = job.slips_of::<kind::Inspection>();
            let inspections = inspections.map(|slip| slip.get(line::Pins));
            for typed in runs.chain(inspections) {
                assert!(typed.is_empty() || !said.contains(typed), "{name}: {typed}");
            }
            assert!(
                said.contains("NO-GO") && said.contains("Piece by piece"),
                "{name}"
            );
        }
    }
    assert!(
        common::hard("thirty-serials").slips(SlipKind::Run).count() > 0,
        "some job has records that could stand there"
    );
}

#[test]
fn pages_too_few_for_all_lines_say_how_many_lines_have_no_room() {
    let job = common::hard("thirty-serials");
    let all = set(&job, BlankForm::Inspection, None, Sheet::A4);
    let needed = all.pages.len();
    assert!(needed > 2, "{needed} pages");
    let one = set(&job, BlankForm::Inspection, Some(1), Sheet::A4);
    assert_eq!(one.pages.len(), 1);
    let said = common::prose(&one);
    let more = said.find("have no room here").unwrap();
    let count = said[..more].split_whitespace().rev();
    let count = count.filter_map(|word| word.parse::<usize>().ok()).next();
    let here = nines(&lines(&one, 0));
    assert_eq!(count, Some(30 * job.rows.len() - here), "{said}");
    assert!(!common::prose(&all).contains("no room here"));
    let more = set(&job, BlankForm::Inspection, Some(needed + 2), Sheet::A4);
    assert_eq!(more.pages.len(), needed + 2);
}

/// The further pages of a paper are in its language, and are called so.
#[test]
fn blank_pages_are_in_the_language_of_their_paper() {
    let mut sample = common::ring();
    for (language, inspection, line) in [
        (
            Language::English,
            "blank inspection record",
            "Hole inspection record",
        ),
        (
            Language::German,
            "leeres Pr\u{fc}fprotokoll",
            "Pr\u{fc}fprotokoll der Bohrungen",
        ),
    ] {
        let edit = Edit::SetField {
            field: Field::Language,
            text: language.key().to_owned(),
            unit: Unit::Mm,
        };
        sample.job = apply(&sample.job, &edit).unwrap().0;
        let set = |form: BlankForm| blank(form, &sample.matter(Sheet::A4), None);
        assert_eq!(BlankForm::Inspection.called(language), inspection);
        assert!(common::prose(&set(BlankForm::Inspection)).contains(line));
        assert_eq!(BlankForm::RunRecord.called(language), "blank run record");
        assert!(common::prose(&set(BlankForm::RunRecord)).contains("Run record"));
    }
}
