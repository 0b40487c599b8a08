//! What the program puts into cells and lines is read as the same in every form of numbers and days:
//! days, prices and agreements are written as the shop writes them, lengths are not. What it says of a
//! job follows the form.

#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

mod hands;

use std::path::Path;

use chrono::NaiveDate;
use hands::{cells, field, issue, pin, ring};
use quillbore_calc::finding::Kind;
use quillbore_job::agreed::with_customer;
use quillbore_job::file::read_job;
use quillbore_job::form::{Dates, Numbers};
use quillbore_job::order_text::order_edits;
use quillbore_job::prefilled::{new_slip, release_of};
use quillbore_job::results::foot::{foot, text};
use quillbore_job::results::promise::promise;
use quillbore_job::results::{NoteKind, Telling, results_now};
use quillbore_job::run_lines::runs_of_marks;
use quillbore_job::shop::sheet::{
    ShopColumn as Column, ShopEdit, ShopLine, ShopList as List, ShopRowAt, ShopSheet, apply_shop,
};
use quillbore_job::{
    CellAt, Edit, Field, Form, Job, Line, Paper, Shop, SlipKind, Unit, apply, reorder,
};

fn shop() -> Shop {
    Shop::embedded().expect("the shop").clone()
}

fn forms() -> impl Iterator<Item = Form> {
    let numbers = Numbers::ALL.iter().copied();
    numbers.flat_map(|numbers| {
        let dates = Dates::ALL.iter().copied();
        dates.map(move |dates| Form { numbers, dates })
    })
}

fn in_form(shop: &Shop, form: Form) -> Shop {
    let mut shop = shop.clone();
    shop.form = form;
    shop
}

fn demo_jobs() -> Vec<Job> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../demo-jobs");
    let files = std::fs::read_dir(folder).expect("the demo jobs");
    let jobs = files.map(|file| {
        let bytes = std::fs::read(file.expect("a file").path()).expect("it is read");
        read_job(&bytes).expect("a job")
    });
    jobs.collect()
}

/// The edits behind everything that the notes of a job offer.
fn offered(job: &Job, shop: &Shop) -> Vec<Edit> {
    let results = results_now(job, shop);
    let telling = Telling::new(job, shop);
    let notes = results.notes.iter();
    let offers = notes.filter_map(|note| telling.offer(note));
    offers.map(|offer| offer.edit.clone()).collect()
}

/// A wall of two layers, whose sum is offered as the depth: a number with thousands.
fn layered() -> Job {
    let job = ring();
    let edit = Edit::SetCells {
        at: CellAt {
            row: 0,
            column: quillbore_job::Column::Layers,
        },
        rows: vec![vec![Some("700 Nickel alloy 718 + 534.5".to_owned())]],
        unit: Unit::Mm,
    };
    let (job, _) = apply(&job, &edit).expect("the edit is done");
    field(&job, Field::Material, "Nickel alloy 718")
}

#[test]
fn what_notes_offer_is_the_same_in_every_form() {
    let mut jobs = demo_jobs();
    jobs.extend([layered(), ordered()]);
    let shop = shop();
    let mut edits = 0;
    for job in jobs {
        let plain = offered(&job, &in_form(&shop, Form::PLAIN));
        edits += plain.len();
        for form in forms() {
            assert_eq!(offered(&job, &in_form(&shop, form)), plain, "{form:?}");
        }
    }
    assert!(edits >= 3, "{edits}");
}

#[test]
fn a_depth_that_is_offered_is_read_as_the_sum_of_the_layers() {
    let german = Form {
        numbers: Numbers::PointComma,
        dates: Dates::Points,
    };
    let (job, shop) = (layered(), in_form(&shop(), german));
    let results = results_now(&job, &shop);
    let telling = Telling::new(&job, &shop);
    let is_asked = |kind: &NoteKind| matches!(kind, NoteKind::Found(Kind::LayersDisagree { .. }));
    let note = results.notes.iter().find(|note| is_asked(&note.kind));
    let note = note.expect("depth and layers disagree");
    assert_eq!(
        telling.text(note),
        "The depth is 14,00 mm but the layers add up to 1.234,50 mm."
    );
    let offer = telling.offer(note).expect("an offer");
    let (done, _) = apply(&job, &offer.edit).expect("it is done");
    let depth = done.rows[0].depth.value().expect("it is read");
    assert_eq!(depth.aim.map(quillbore_calc::Length::mm), Some(1234.5));
    assert_eq!(done.rows[0].depth.text(), "1234.50");
}

/// An order that differs in price and day from the quotation and the sheet.
fn ordered() -> Job {
    let job = issue(&ring(), Paper::Quotation, &[(25, "1286.50")]);
    let job = field(&job, Field::Due, "2026-12-18");
    pin(
        &job,
        SlipKind::Order,
        &[
            (Line::Number, "PO 7"),
            (Line::Date, "2026-03-05"),
            (Line::Quantity, "25"),
            (Line::Each, "1250.55"),
            (Line::Due, "2026-11-30"),
        ],
    )
}

#[test]
fn an_order_that_differs_is_told_in_the_shops_form_and_put_on_the_sheet_as_a_plain_day() {
    for (numbers, dates, told) in [
        (
            Numbers::CommaPoint,
            Dates::DayFirst,
            [
                "The order pays 1,250.55 each, 1,286.50 was quoted.",
                "The order is due on 30 Nov 2026, the sheet says 18 Dec 2026.",
            ],
        ),
        (
            Numbers::PointComma,
            Dates::Points,
            [
                "The order pays 1.250,55 each, 1.286,50 was quoted.",
                "The order is due on 30.11.2026, the sheet says 18.12.2026.",
            ],
        ),
    ] {
        let (job, shop) = (ordered(), in_form(&shop(), Form { numbers, dates }));
        let results = results_now(&job, &shop);
        let telling = Telling::new(&job, &shop);
        for sentence in told {
            let says = |text: &str| text.starts_with(sentence);
            let mut notes = results.notes.iter();
            let note = notes.find(|note| says(&telling.text(note)));
            assert!(note.is_some(), "{sentence}");
        }
        let edits = offered(&job, &shop);
        let due = edits.iter().find_map(|edit| match edit {
            Edit::SetField {
                field: Field::Due,
                text,
                ..
            } => Some(text.as_str()),
            _ => None,
        });
        assert_eq!(due, Some("2026-11-30"));
        // The price of last time is kept as a number that is read as it is.
        let last = reorder::last_price(&job, 25).expect("a price");
        assert_eq!(last.text(shop.form), shop.form.typed("1286.50"));
        let day = shop.form.day(hands::day(3, 2));
        assert_eq!(last.origin(shop.form), format!("26-0107-Q1, {day}"));
    }
}

/// What was agreed with a customer fills the sheet with the same texts whatever the form is.
/// A shop of this form with a customer of whom figures and a day are agreed, typed in another one.
fn with_agreement(form: Form) -> Shop {
    let row = [
        (Column::Name, "Grove Pump Works"),
        (Column::Currency, "EUR"),
        (Column::ExchangeRate, "1234.567"),
        (Column::ExchangeDay, "2026-11-20"),
        (Column::Margin, "12.5"),
        (Column::MachineHour, "1250.50"),
        (Column::LaborHour, "64.1250"),
    ];
    let row = row.map(|(column, text)| (column, text.to_owned()));
    let set = |line, text: &str| ShopEdit::SetLine {
        line,
        text: text.to_owned(),
        unit: Unit::Mm,
    };
    let edits = [
        ShopEdit::SetCells {
            list: List::Customers,
            rows: vec![(ShopRowAt::New, row.to_vec())],
            unit: Unit::Mm,
        },
        set(ShopLine::Numbers, form.numbers.key()),
        set(ShopLine::Dates, form.dates.key()),
    ];
    let sheet = edits.iter().fold(ShopSheet::default(), |sheet, edit| {
        apply_shop(&sheet, edit).expect("an edit")
    });
    let shop = Shop::of_sheet(&sheet).expect("a shop");
    assert_eq!((shop.form, &shop.not_used), (form, &vec![]));
    shop
}

/// What was agreed stands on a sheet as the shop writes it, and is the same agreement in every form.
#[test]
fn what_was_agreed_is_written_in_the_shops_form_and_the_same_in_all() {
    const FIELDS: [Field; 6] = [
        Field::Currency,
        Field::ExchangeRate,
        Field::ExchangeDay,
        Field::Margin,
        Field::AgreedMachineHour,
        Field::AgreedLaborHour,
    ];
    let name = "Grove Pump Works";
    let taken = |form: Form| {
        let edit = with_customer(&Job::default(), &with_agreement(form), name, Unit::Mm);
        let (job, _) = apply(&Job::default(), &edit.expect("it fills lines")).expect("done");
        job
    };
    let told = |job: &Job, form: Form| {
        let shop = with_agreement(form);
        let notes = results_now(job, &shop.for_job(job)).notes.into_iter();
        let kinds = notes.map(|note| note.kind);
        let kinds = kinds.filter(|kind| *kind == NoteKind::AgreedOtherwise);
        kinds.count()
    };
    let plain = taken(Form::PLAIN);
    for form in forms() {
        let job = taken(form);
        for field in FIELDS {
            let value = job.field(field).value();
            assert!(value.is_some(), "{form:?}: {}", job.text(field));
            assert_eq!(value, plain.field(field).value(), "{form:?} {field:?}");
        }
        // Nothing is taken once more, nor told as another agreement, where it stands in another form.
        let again = |job: &Job, form| with_customer(job, &with_agreement(form), name, Unit::Mm);
        assert_eq!(again(&job, Form::PLAIN), None, "{form:?}");
        assert_eq!(again(&plain, form), None, "{form:?}");
        assert_eq!((told(&job, Form::PLAIN), told(&plain, form)), (0, 0));
    }
    let german = Form {
        numbers: Numbers::PointComma,
        dates: Dates::Points,
    };
    let job = taken(german);
    let texts = FIELDS.map(|field| job.text(field));
    let wanted = [
        "EUR",
        "1234,567",
        "20.11.2026",
        "12,5 %",
        "1250,5",
        "64,1250",
    ];
    assert_eq!(texts, wanted);
}

/// Days and prices that the program puts into slips are the shop's, and read as what they are.
#[test]
fn slips_begin_with_days_and_prices_in_the_shops_form() {
    let today: NaiveDate = "2026-11-23".parse().expect("a day");
    let job = issue(&ring(), Paper::Quotation, &[(25, "1048.25")]);
    let edits = |form: Form| {
        let mut edits = vec![
            new_slip(&job, SlipKind::Received, today, form, "Moss"),
            release_of(&job, 5, today, form),
        ];
        edits.extend(runs_of_marks(&job, today, form, "Moss", |_| None));
        edits.extend(order_edits("PO 4711; 25; same", &job, today, form).expect("an order"));
        edits
    };
    let typed = |form: Form| {
        let edits = edits(form);
        let job = edits.iter().fold(job.clone(), |job, edit| {
            apply(&job, edit).expect("it is done").0
        });
        let new = job.slips.iter();
        let lines = new.flat_map(|slip| slip.lines.iter().map(|(line, entry)| (*line, entry)));
        let lines = lines.filter(|(line, _)| matches!(line, Line::Date | Line::Each));
        let lines =
            lines.map(|(line, entry)| (line, entry.text().to_owned(), entry.value().cloned()));
        lines.collect::<Vec<_>>()
    };
    let plain = typed(Form::PLAIN);
    assert!(plain.len() > 4, "{plain:?}");
    for form in forms() {
        let in_form = typed(form);
        assert_eq!(in_form.len(), plain.len());
        for ((line, text, value), (_, _, plain)) in in_form.iter().zip(&plain) {
            assert_eq!(value, plain, "{text}");
            let shown = match line {
                Line::Date => form.day(today),
                _ => form.typed("1048.25"),
            };
            assert_eq!(*text, shown, "{form:?}");
        }
    }
}

/// The foot and what may be promised, in one form and another.
#[test]
fn sentences_follow_the_shops_form() {
    let job = cells(
        &Job::default(),
        0,
        &["A", "400", "0.80 +-0.05", "14", "through"],
    );
    let fields = [
        (Field::Material, "Nickel alloy 718"),
        (Field::Machine, "Barrow"),
        (Field::Quantity, "1000"),
    ];
    let job = fields
        .into_iter()
        .fold(job, |job, (name, text)| field(&job, name, text));
    let said = |form: Form| {
        let shop = in_form(&shop(), form);
        let results = results_now(&job, &shop);
        let promise = promise(&job, &results, &shop, 0.0, hands::day(3, 2));
        text(&foot(&job, &results, &shop, promise.as_ref()).said)
    };
    let plain = said(Form::PLAIN);
    let digits = |said: &str| -> String { said.chars().filter(char::is_ascii_digit).collect() };
    let mut all = Vec::new();
    for form in forms() {
        let said = said(form);
        assert_eq!(digits(&said), digits(&plain), "{said}");
        all.push(said);
    }
    all.sort();
    all.dedup();
    assert_eq!(all.len(), Numbers::ALL.len(), "{all:#?}");
    assert!(all.iter().any(|said| said.contains(" for 1.000. ")));
    assert!(all.iter().any(|said| said.contains(" for 1,000. ")));
}
