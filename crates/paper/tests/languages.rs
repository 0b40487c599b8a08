//! Papers for a customer in the customer's language: nothing of another one is left on them, they have
//! all that the English ones have, and papers of the shop stay as they are.

#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of the tests stand outside the test functions"
)]

mod common;

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use quillbore_calc::finding::{About, Finding, Kind, Level};
use quillbore_job::concern::{Concern, Customer, Told};
use quillbore_job::file::read_job;
use quillbore_job::order::{Difference, FieldChange, HoleChange, Revised};
use quillbore_job::read_line::read_line;
use quillbore_job::{
    CellAt, Column, Edit, Field, FieldKind, Form, Job, Language, Line, Paper, Shop, SlipKind, Unit,
    apply,
};
use quillbore_paper::page::{Item, Role};
use quillbore_paper::pdf::{Meta, write};
use quillbore_paper::words::customer::Words;
use quillbore_paper::words::kinds::Kinds;
use quillbore_paper::{
    BlankForm, Document, Remark, Sheet, blank, document, is_in_customers_language,
};

/// Stands for whatever somebody typed.
const TYPED: &str = "Xq";

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

fn open(path: &Path) -> Job {
    let bytes = std::fs::read(path).unwrap_or_else(|why| panic!("{}: {why}", path.display()));
    read_job(&bytes).expect("a job")
}

/// Every demo job and every hard job by its name, and one with something in every place.
fn jobs() -> BTreeMap<String, Job> {
    let mut jobs = BTreeMap::new();
    for folder in ["demo-jobs", "tests/hard-jobs"] {
        for file in std::fs::read_dir(root().join(folder)).expect("a folder of jobs") {
            let path = file.expect("a file").path();
            if path.extension().is_some_and(|ext| ext == "ron") {
                jobs.insert(path.display().to_string(), open(&path));
            }
        }
    }
    assert!(jobs.len() > 12, "{}", jobs.len());
    let first = jobs.values().next().expect("a job");
    let full = full(first);
    jobs.insert("recorded".to_owned(), recorded(&full));
    jobs.insert("full".to_owned(), full);
    jobs
}

/// The job with something in every line that papers for a customer may print.
fn full(job: &Job) -> Job {
    let own = [Field::LaidAside, Field::Again, Field::Language];
    let mut job = job.clone();
    for &field in Field::ALL {
        if is_free(field.kind()) && job.text(field).is_empty() && !own.contains(&field) {
            job = with(&job, field, TYPED);
        }
    }
    for (field, text) in [
        (Field::FixtureCost, "1200"),
        (Field::TestPieceCost, "80"),
        (Field::LiabilityCap, "2500"),
        (Field::Spares, "2"),
        (Field::Thickness, "20"),
        (Field::DefaultTolerance, "+-0.1"),
        (Field::SizeX, "40"),
        (Field::Mass, "1.25 kg"),
    ] {
        job = with(&job, field, text);
    }
    job
}

/// The job with all that is recorded of inspections and non-conformances: of one piece and of several,
/// closed and open, with a row that has no mark, and with a plan of samples that was asked for.
fn recorded(job: &Job) -> Job {
    let mut job = with(job, Field::Inspection, "AQL 1.0");
    let no_mark = Edit::SetCells {
        at: CellAt {
            row: 1,
            column: Column::Mark,
        },
        rows: vec![vec![Some(String::new())]],
        unit: Unit::Mm,
    };
    let first = job.rows[0].mark.text().to_owned();
    job = done(&job, &no_mark);
    for (column, text) in [
        (Column::Characteristic, "7"),
        (Column::Zone, "B2"),
        (Column::Angle, "12"),
    ] {
        let at = CellAt { row: 0, column };
        let edit = Edit::SetCells {
            at,
            rows: vec![vec![Some(text.to_owned())]],
            unit: Unit::Mm,
        };
        job = done(&job, &edit);
    }
    let of_one = [
        (Line::Date, "2026-11-05"),
        (Line::Serials, "101"),
        (Line::HoleNumbers, "1-4"),
        (Line::Checked, "4"),
        (Line::NotGood, "1"),
        (Line::Pins, "0.39"),
        (Line::Position, TYPED),
        (Line::AngleFound, TYPED),
        (Line::Gauge, TYPED),
        (Line::CalibrationDue, "2027-03-31"),
        (Line::Temperature, "20"),
        (Line::By, TYPED),
        (Line::Note, TYPED),
    ];
    for mark in [first.as_str(), "row 2"] {
        let mut lines = of_one.to_vec();
        lines.push((Line::Mark, mark));
        common::pin(&mut job, SlipKind::Inspection, &lines);
    }
    let of_several = [
        (Line::Mark, first.as_str()),
        (Line::Serials, "101-103"),
        (Line::Pins, "0.38 to 0.40"),
    ];
    common::pin(&mut job, SlipKind::Inspection, &of_several);
    common::pin(&mut job, SlipKind::Inspection, &of_several[..1]);
    let trouble = [
        (Line::Date, "2026-11-06"),
        (Line::HolesNamed, first.as_str()),
        (Line::Serials, "101"),
        (Line::Count, "2"),
        (Line::What, TYPED),
        (Line::Redo, "2"),
        (Line::NotSent, "1"),
        (Line::SendBecause, TYPED),
        (Line::Decision, TYPED),
        (Line::DecidedBy, TYPED),
        (Line::Closed, "2026-11-07"),
    ];
    common::pin(&mut job, SlipKind::Nonconformance, &trouble);
    common::pin(&mut job, SlipKind::Nonconformance, &trouble[..8]);
    job
}

fn done(job: &Job, edit: &Edit) -> Job {
    apply(job, edit).map_or_else(|refused| panic!("{edit:?}: {refused}"), |(job, _)| job)
}

fn with(job: &Job, field: Field, text: &str) -> Job {
    let edit = Edit::SetField {
        field,
        text: text.to_owned(),
        unit: job.unit,
    };
    done(job, &edit)
}

fn in_language(job: &Job, language: Language) -> Job {
    with(job, Field::Language, language.key())
}

fn is_free(kind: FieldKind) -> bool {
    matches!(kind, FieldKind::Line | FieldKind::Lines)
}

/// The job with all that was typed freely put out of sight, so that no word of it hides one of ours.
fn masked(job: &Job) -> Job {
    let mut job = job.clone();
    for &field in Field::ALL {
        // A plan of samples is read; there is no word of anybody in it.
        let is_read = field == Field::Inspection && job.text(field).starts_with("AQL");
        if is_free(field.kind()) && !job.text(field).is_empty() && !is_read {
            job = with(&job, field, TYPED);
        }
    }
    for row in 0..job.rows.len() {
        for column in [Column::Surface, Column::Exit, Column::Recess, Column::Note] {
            if !job.rows[row].cell(column).text.is_empty() {
                let edit = Edit::SetCells {
                    at: CellAt { row, column },
                    rows: vec![vec![Some(TYPED.to_owned())]],
                    unit: Unit::Mm,
                };
                job = done(&job, &edit);
            }
        }
    }
    for slip in &mut job.slips {
        let lines = Arc::make_mut(&mut Arc::make_mut(slip).lines);
        for (line, entry) in lines.iter_mut() {
            if is_free(line.kind()) && *line != Line::Paper && !entry.is_empty() {
                *entry = read_line(*line, TYPED, Unit::Mm);
            }
        }
    }
    job
}

/// The sample shop without a word of its own.
fn shop() -> Shop {
    let mut shop = Shop::embedded().expect("the shop").clone();
    shop.name = TYPED.to_owned();
    shop.address = vec![TYPED.to_owned()];
    shop.texts.terms = vec![TYPED.to_owned()];
    shop.texts.exclusions = vec![TYPED.to_owned()];
    shop
}

fn printed(job: &Job, shop: &Shop, sheet: Sheet, paper: Paper) -> Document {
    common::printed(job, shop, sheet, |matter| document(paper, &[matter]))
}

/// Everything that is printed of a job and is in the customer's language, or is not: papers, and blank
/// forms, on as few and on as many pages as they need.
fn all_printed(job: &Job, shop: &Shop, sheet: Sheet, customers: bool) -> Vec<(String, Document)> {
    let is_meant = |paper: &Paper| is_in_customers_language(*paper) == customers;
    let papers = Paper::ALL.iter().copied().filter(is_meant);
    let papers = papers.map(|paper| (format!("{paper:?}"), printed(job, shop, sheet, paper)));
    let blanks = BlankForm::ALL.iter().copied();
    let blanks = blanks.filter(|form| is_meant(&form.paper()));
    let blanks = blanks.flat_map(|form| {
        [Some(1), None].map(|pages| {
            let set = common::printed(job, shop, sheet, |matter| blank(form, &matter, pages));
            (format!("blank {form:?}"), set)
        })
    });
    papers.chain(blanks).collect()
}

/// The words of a text that have letters alone, each as it stands.
fn words_of(text: &str) -> impl Iterator<Item = &str> {
    text.split(|ch: char| !ch.is_alphabetic())
        .filter(|word| word.chars().count() > 1)
}

/// The words of all texts in the source of a folder of words.
fn words_in_source(folder: &str) -> BTreeSet<String> {
    let folder = root().join("crates/paper/src/words").join(folder);
    let mut words = BTreeSet::new();
    for file in std::fs::read_dir(folder).expect("a folder of words") {
        let source = std::fs::read_to_string(file.expect("a file").path()).expect("a text");
        let lines = source.lines().map(str::trim);
        let code: Vec<&str> = lines.filter(|line| !line.starts_with("//")).collect();
        // Every second piece between quotation marks stands in them; none of ours has one inside.
        for text in code.join(" ").split('"').skip(1).step_by(2) {
            let plain = text.replace("\\u{a0}", " ").replace("\\n", " ");
            let mut rest = plain.as_str();
            // What stands in braces is no word.
            while let Some((before, after)) = rest.split_once('{') {
                words.extend(words_of(before).map(str::to_owned));
                rest = after.split_once('}').map_or("", |(_, after)| after);
            }
            words.extend(words_of(rest).map(str::to_owned));
        }
    }
    assert!(words.len() > 100, "{}", words.len());
    words
}

/// All words that a job and the shop's tables bring along.
fn typed(job: &Job, shop: &Shop) -> BTreeSet<String> {
    let mut texts = vec![job.number.clone()];
    texts.extend(Field::ALL.iter().map(|field| job.text(*field).to_owned()));
    for row in &job.rows {
        let cells = Column::ALL.iter().map(|column| row.cell(*column).text);
        texts.extend(cells.map(str::to_owned));
    }
    for slip in &job.slips {
        texts.extend(slip.lines.values().map(|line| line.text().to_owned()));
    }
    texts.extend(job.issued.iter().map(|issued| issued.number.clone()));
    texts.extend(shop.tables.materials.iter().map(|row| row.name.clone()));
    texts.extend(shop.tables.tubes.iter().map(|tube| tube.name.clone()));
    texts.extend(
        shop.tables
            .machines
            .iter()
            .map(|machine| machine.name.clone()),
    );
    texts.extend(
        job.answers
            .iter()
            .flat_map(|a| [a.said.clone(), a.by.clone()]),
    );
    // What has changed since it was quoted is told as it was typed then.
    texts.extend(
        job.issued
            .iter()
            .map(|issued| format!("{:?}", issued.inputs)),
    );
    texts.push(shop.tables.rates.currency.clone());
    let identity = &shop.identity;
    for text in [
        &identity.contact,
        &identity.phone,
        &identity.email,
        &identity.registration,
    ] {
        texts.push(text.clone());
    }
    texts
        .iter()
        .flat_map(|text| words_of(text).map(str::to_owned).collect::<Vec<_>>())
        .collect()
}

/// Signs of units and standards, which are the same in every language.
const SIGNS: [&str; 8] = ["mm", "in", "kg", "lb", "bar", "psi", "ISO", "II"];

#[test]
fn a_german_paper_says_nothing_in_english() {
    let (shop, german) = (shop(), words_in_source("german"));
    let english = words_in_source("english");
    let english: BTreeSet<&String> = english
        .difference(&german)
        .filter(|word| word.chars().count() > 3)
        .collect();
    assert!(english.len() > 200, "{}", english.len());
    for (name, job) in jobs() {
        let job = in_language(&masked(&job), Language::German);
        let typed = typed(&job, &shop);
        for sheet in [Sheet::A4, Sheet::Letter] {
            for (paper, document) in all_printed(&job, &shop, sheet, true) {
                let text = common::prose(&document);
                for word in words_of(&text) {
                    let is_known = typed.contains(word) || SIGNS.contains(&word);
                    assert!(
                        is_known || !english.contains(&word.to_owned()),
                        "{name}, {paper}: {word}"
                    );
                    // A word that was torn is none any more.
                    let is_known = is_known || german.contains(word);
                    assert!(is_known, "{name}, {paper}: {word} in\n{text}");
                }
            }
        }
    }
}

/// What a paper is made of, counted.
fn made_of(document: &Document) -> BTreeMap<&'static str, usize> {
    let mut counted = BTreeMap::new();
    let mut open: Vec<bool> = Vec::new();
    for item in document.pages.iter().flat_map(|page| &page.items) {
        let is_inside = !open.contains(&true);
        let what = match item {
            Item::Begin(role) => {
                open.push(*role == Role::Edge);
                match role {
                    Role::Heading { .. } => "headings",
                    Role::Paragraph => "fields and paragraphs",
                    Role::Entry => "entries",
                    Role::Table => "tables",
                    Role::Cell { .. } => "cells",
                    _ => continue,
                }
            }
            Item::End => {
                open.pop();
                continue;
            }
            Item::Path(_) => "squares",
            _ => continue,
        };
        if is_inside {
            *counted.entry(what).or_insert(0) += 1;
        }
    }
    counted
}

#[test]
fn both_languages_have_the_same_tables_squares_and_fields() {
    let shop = shop();
    for (name, job) in jobs() {
        for sheet in [Sheet::A4, Sheet::Letter] {
            let [english, german] = [Language::English, Language::German]
                .map(|language| all_printed(&in_language(&job, language), &shop, sheet, true));
            for ((paper, english), (_, german)) in english.iter().zip(&german) {
                let [mut one, mut other] = [english, german].map(made_of);
                if paper.starts_with("blank") {
                    // Lines without a name fill what the heads leave of the page.
                    for counted in [&mut one, &mut other] {
                        counted.remove("cells");
                    }
                }
                assert_eq!(one, other, "{name}, {paper} on {sheet:?}");
                let cut = |document: &Document| common::prose(document).matches('\u{2026}').count();
                assert_eq!(cut(english), cut(german), "{name}, {paper}");
                assert_eq!(
                    [english.language, german.language],
                    [Language::English, Language::German]
                );
            }
        }
    }
}

#[test]
fn papers_of_the_shop_stay_as_they_are() {
    let shop = shop();
    for (name, job) in jobs() {
        let [english, german] = [Language::English, Language::German]
            .map(|language| all_printed(&in_language(&job, language), &shop, Sheet::A4, false));
        assert!(english.len() > 2, "traveler and run record");
        for ((paper, english), (_, german)) in english.iter().zip(&german) {
            assert_eq!(english, german, "{name}, {paper}");
        }
    }
}

#[test]
fn numbers_and_days_are_written_as_in_german() {
    let mut sample = common::ring();
    sample.job = in_language(&sample.job, Language::German);
    for form in [Form::default(), Form::PLAIN] {
        sample.issuer.form = form;
        let matter = sample.matter(Sheet::A4);
        let text = common::prose(&document(Paper::Quotation, &[matter])).replace('\u{a0}', " ");
        for needed in [
            "25 48,20 1.205,00 Mindestbetrag",
            "07.11.2026",
            "30 Tage, bis 07.12.2026",
            // What the drawing says stays as it was typed.
            "0.80 \u{b1}0.05 0,750 0,850 14,00 durch 30,0 60,0",
        ] {
            assert!(text.contains(needed), "{needed} in\n{text}");
        }
    }
}

/// Slips name a row without a mark in the shop's words, whatever the paper calls it.
#[test]
fn what_was_measured_of_a_row_without_a_mark_stands_at_it_in_both_languages() {
    let shop = shop();
    let jobs = jobs();
    let job = &jobs["recorded"];
    for (language, row) in [(Language::English, "row 2"), (Language::German, "Zeile 2")] {
        let set = printed(
            &in_language(job, language),
            &shop,
            Sheet::A4,
            Paper::Inspection,
        );
        let text = common::prose(&set).replace('\u{a0}', " ");
        let wanted = format!("{row} 1-4: 0.39");
        assert!(text.contains(&wanted), "{wanted} in\n{text}");
    }
}

#[test]
fn a_language_that_is_none_stands_as_typed_and_papers_are_in_the_shops_own() {
    let sample = common::ring();
    let job = with(&sample.job, Field::Language, "Latin");
    assert_eq!(job.text(Field::Language), "Latin");
    assert!(job.field(Field::Language).why().is_some());
    assert_eq!(job.language(), Language::English);
    let begun = with(&sample.job, Field::Language, "ger");
    assert_eq!(begun.language(), Language::German);
}

#[test]
fn a_quotation_of_several_jobs_is_in_the_first_ones_language() {
    let english = common::ring();
    let mut german = common::ring();
    german.job = in_language(&german.job, Language::German);
    let both = [german.matter(Sheet::A4), english.matter(Sheet::A4)];
    let text = common::prose(&document(Paper::Quotation, &both));
    assert!(text.contains("Angebot") && !text.contains("Quotation"));
    assert!(
        !text.contains("Hole A") && !text.contains("1,205.00"),
        "{text}"
    );
    let other = [both[1], both[0]];
    let text = common::prose(&document(Paper::Quotation, &other));
    assert!(
        !text.contains("Angebot") && !text.contains("1.205,00"),
        "{text}"
    );
}

#[test]
fn a_pdf_says_which_language_it_is_in() {
    let mut sample = common::ring();
    let meta = Meta {
        title: "x".to_owned(),
        author: "y".to_owned(),
        date: common::day(),
    };
    for (language, is) in [(Language::English, "en"), (Language::German, "de-DE")] {
        sample.job = in_language(&sample.job, language);
        let document = document(Paper::Quotation, &[sample.matter(Sheet::A4)]);
        let bytes = write(&document, &meta).expect("a PDF");
        let pdf = lopdf::Document::load_mem(&bytes).expect("a PDF");
        let said = pdf.catalog().and_then(|catalog| catalog.get(b"Lang"));
        let said = said.and_then(lopdf::Object::as_str).expect("a language");
        assert_eq!(said, is.as_bytes(), "{language:?}");
    }
    let papers = &Words::of(Language::German).papers;
    assert_eq!(
        papers.title(Paper::Quotation, "26-0107", "4-118"),
        "Angebot 26-0107, 4-118"
    );
}

/// A finding that is told with its facts has them in the paper's language and form.
#[test]
fn a_limit_that_was_assumed_is_told_with_its_facts() {
    let mut sample = common::ring();
    let row = sample.job.rows[0].id;
    let kind = Kind::LowerAssumed {
        lower_mm: 0.75,
        upper_mm: 0.85,
    };
    let hole = sample.figures.holes.iter_mut().find(|hole| hole.row == row);
    let hole = Arc::make_mut(hole.expect("the row's figures"));
    hole.findings.push(Finding {
        level: Level::Note,
        about: About::Row(row),
        kind,
        remedy: None,
    });
    sample.remarks = vec![Remark {
        level: Level::Note,
        row: Some(row),
        text: "Only a maximum".to_owned(),
        customer: Customer::Told(Told::LowerAssumed),
        floor: false,
    }];
    sample.job = in_language(&sample.job, Language::German);
    let text = common::prose(&document(Paper::Quotation, &[sample.matter(Sheet::A4)]));
    let said =
        "H\u{f6}chstma\u{df} von 0,85 mm ist angegeben: Als Mindestma\u{df} ist 0,75 mm angenommen";
    assert!(text.contains(said), "{text}");
}

/// Every sentence that goes by a kind has words of its own in each language.
#[test]
fn every_kind_has_its_own_words() {
    let [english, german] = [Language::English, Language::German].map(Words::of);
    let asked = |words: &Words| -> Vec<&str> {
        let all = Concern::ALL.iter();
        all.map(|concern| (words.answers.please_confirm)(*concern))
            .collect()
    };
    let offered = |words: &Words| -> Vec<&str> {
        let kinds = [(true, false), (false, true), (true, true)];
        kinds
            .map(|(open, blind)| {
                let kinds = Kinds {
                    open,
                    blind,
                    all_by_pin: true,
                    some_by_pin: true,
                    proved: false,
                };
                (words.quotation.offered)(kinds)
            })
            .to_vec()
    };
    let names = |words: &Words| -> Vec<&str> {
        Paper::ALL
            .iter()
            .map(|paper| (words.papers.name)(*paper))
            .collect()
    };
    for of in [asked, offered, names] as [fn(&Words) -> Vec<&'static str>; 3] {
        let (one, other) = (of(english), of(german));
        assert!(one.iter().zip(&other).all(|(one, other)| one != other));
        let different: BTreeSet<&&str> = other.iter().collect();
        assert_eq!(different.len(), other.len());
    }
}

/// All that can differ in an order is told, and told in German.
#[test]
fn what_differs_in_an_order_is_told_in_german() {
    let day = common::day();
    let text = || TYPED.to_owned();
    let lines = [
        Field::Material,
        Field::Condition,
        Field::Hardness,
        Field::Coating,
        Field::Thickness,
        Field::DefaultTolerance,
        Field::LiabilityCap,
        Field::Exclusions,
    ];
    let columns = [
        Column::Count,
        Column::Size,
        Column::Depth,
        Column::End,
        Column::Angle,
        Column::Surface,
        Column::Exit,
        Column::Recess,
        Column::Wire,
        Column::LeastExit,
        Column::ToProfile,
        Column::Proved,
        Column::Behind,
        Column::Layers,
    ];
    let said = columns.map(|column| HoleChange::Said {
        mark: text(),
        column: column.key().to_owned(),
        was: String::new(),
        is: text(),
    });
    let holes = [HoleChange::New(text()), HoleChange::Gone(text())];
    let both = [Revised::Part, Revised::Drawing];
    let mut all = vec![
        Difference::NoQuotation,
        Difference::OtherPaper { named: text() },
        Difference::Replaced {
            named: text(),
            by: text(),
        },
        Difference::NotTrusted { named: text() },
        Difference::TooLate { until: day },
        Difference::NotPriced {
            ordered: 1,
            nearest: 2,
        },
        Difference::Quantity {
            ordered: 2,
            on_sheet: None,
        },
        Difference::Quantity {
            ordered: 2,
            on_sheet: Some(3),
        },
        Difference::Currency {
            ordered: text(),
            quoted: text(),
        },
        Difference::Due {
            ordered: day,
            on_sheet: day,
        },
        Difference::DueEarly {
            ordered: day,
            lead_days: 1,
            earliest: day,
        },
        Difference::Terms { named: text() },
        Difference::Holes {
            changed: said.into_iter().chain(holes).collect(),
        },
        Difference::Scope {
            changed: lines
                .map(|field| FieldChange {
                    field: field.key().to_owned(),
                    was: text(),
                    is: String::new(),
                })
                .to_vec(),
        },
    ];
    all.extend(both.map(|of| Difference::Revision {
        of,
        ordered: text(),
        quoted: Some(text()),
        on_sheet: Some(String::new()),
    }));
    all.extend(both.map(|of| Difference::RevisedSince {
        of,
        quoted: String::new(),
        on_sheet: text(),
    }));
    let german = words_in_source("german");
    let words = Words::of(Language::German);
    let form = (words.form)(Form::default());
    for difference in all {
        let said = (words.order.difference)(form, &difference);
        for word in words_of(&said) {
            assert!(word == TYPED || german.contains(word), "{word} in {said}");
        }
    }
}
