//! What was agreed with a customer, through the office: what is issued stays as it was, whatever the
//! shop's sheet says later.
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

mod common;

use std::sync::Arc;

use common::{Clerk, day, inquiry, office_in_memory, with_a_name};
use quillbore_job::agreed::with_customer;
use quillbore_job::reorder;
use quillbore_job::results::results_now;
use quillbore_job::shop::sheet::{
    ShopColumn as Column, ShopEdit, ShopLine, ShopList as List, ShopRowAt as At, apply_shop,
};
use quillbore_job::{Field, Form, Paper, Unit};
use quillbore_office::Office;
use quillbore_office::issue::rests_on;
use quillbore_office::office::reprint::reprint;
use quillbore_office::print::{self, Sitting};
use quillbore_office::words::issue::not_issued;
use quillbore_paper::Sheet;

const CUSTOMER: &str = "Grove Pump Works";

fn cells(list: List, at: At, cells: &[(Column, &str)]) -> ShopEdit {
    let texts = cells.iter();
    let texts = texts.map(|(column, text)| (*column, (*text).to_owned()));
    ShopEdit::SetCells {
        list,
        rows: vec![(at, texts.collect())],
        unit: Unit::Mm,
    }
}

/// Does edits of the shop's sheet and saves it.
fn change_shop(office: &Office, edits: &[ShopEdit]) {
    let base = office.look_at_shop().expect("the sheet");
    let mut sheet = base.sheet.as_ref().clone();
    for edit in edits {
        sheet = apply_shop(&sheet, edit).expect("an edit");
    }
    office
        .save_shop(&base, &with_a_name(&sheet))
        .expect("it is saved");
}

/// Rates of the shop's own, and a customer with whom something was agreed.
fn own_shop(office: &Office) {
    let rates = [
        (Column::ValidFrom, "2026-01-01"),
        (Column::MachineHour, "70"),
        (Column::LaborHour, "55"),
        (Column::Minimum, "165"),
    ];
    let customer = [
        (Column::Name, CUSTOMER),
        (Column::Address, "9 Weir Street\nLower Grove"),
        (Column::Currency, "EUR"),
        (Column::ExchangeRate, "0.92"),
        (Column::ExchangeDay, "2026-11-20"),
        (Column::LaborHour, "50"),
        (Column::Payment, "45 days net"),
    ];
    change_shop(
        office,
        &[
            cells(List::Rates, At::New, &rates),
            ShopEdit::Samples {
                list: List::Rates,
                count: false,
            },
            cells(List::Customers, At::New, &customer),
        ],
    );
}

/// The inquiry of that customer, with what was agreed.
fn of_customer(office: &Arc<Office>) -> Clerk {
    let mut clerk = inquiry(office);
    clerk.field(Field::Customer, "");
    let edit = with_customer(&clerk.job, &office.shop(), CUSTOMER, Unit::Mm);
    clerk.edit(&edit.expect("it changes the sheet"));
    clerk.save().expect("saved");
    clerk
}

#[test]
fn a_quotation_stays_as_it_was_issued_whatever_the_shop_says_later() {
    let (office, _) = office_in_memory();
    own_shop(&office);
    let mut clerk = of_customer(&office);
    let issued = clerk.issue(Paper::Quotation);
    let text = issued.pages.join("\n");
    assert!(text.contains("EUR") && !text.contains("USD"), "{text}");
    assert!(text.contains("9 Weir Street, Lower Grove"), "{text}");
    assert!(text.contains("Payment: 45 days net"), "{text}");
    assert!(!text.contains("Sample rates"), "{text}");
    let opened = clerk.opened.clone().expect("opened");
    let before = reprint(&clerk.job, &opened, &issued.number, Form::default()).expect("the paper");
    let row = office.look_at_shop().expect("the sheet").sheet;
    let row = row.own(List::Customers)[0].id;
    change_shop(
        &office,
        &[
            ShopEdit::SetLine {
                line: ShopLine::Address,
                text: "1 Tallow Street".to_owned(),
                unit: Unit::Mm,
            },
            cells(
                List::Rates,
                At::New,
                &[
                    (Column::ValidFrom, "2026-02-01"),
                    (Column::MachineHour, "170"),
                    (Column::LaborHour, "155"),
                ],
            ),
            cells(
                List::Customers,
                At::Own(row),
                &[
                    (Column::Address, "elsewhere"),
                    (Column::ExchangeRate, "0.5"),
                    (Column::Payment, "at once"),
                ],
            ),
        ],
    );
    let again = Clerk::opening(&office, clerk.number());
    let opened = again.opened.clone().expect("opened");
    let after = reprint(&again.job, &opened, &issued.number, Form::default()).expect("the paper");
    assert_eq!(after, before);
    let entry = again
        .job
        .standing(Paper::Quotation)
        .next()
        .expect("it stands");
    assert_eq!(entry, &issued);
    assert!(entry.is_trusted());
    // The sheet of the job says what was agreed then, also for a price of today.
    assert_eq!(again.job.text(Field::ExchangeRate), "0.92");
    let shop = office.shop_as_taught(day());
    let results = results_now(&again.job, &shop.for_job(&again.job));
    let today = results.figures.price.expect("a price").breaks[0].each;
    assert_ne!(Some(today), issued.lines[0].each);
}

#[test]
fn a_paper_goes_out_in_the_customers_language_and_stays_in_it() {
    let (office, _) = office_in_memory();
    own_shop(&office);
    let row = office.look_at_shop().expect("the sheet").sheet;
    let row = row.own(List::Customers)[0].id;
    let language = |text: &str| cells(List::Customers, At::Own(row), &[(Column::Language, text)]);
    change_shop(&office, &[language("German")]);
    let mut clerk = of_customer(&office);
    assert_eq!(clerk.job.text(Field::Language), "German");
    // A draft says in it that it is one.
    let shop = office.shop_as_taught(day());
    let results = results_now(&clerk.job, &shop.for_job(&clerk.job));
    let sitting = Sitting {
        job: &clerk.job,
        results: &results,
    };
    let draft = |paper| {
        let (document, _) = print::draft(paper, sitting, &shop, day(), Sheet::A4);
        print::texts(&document).join("\n")
    };
    assert!(draft(Paper::Quotation).contains("VORSCHAU  Entwurf, nicht ausgestellt"));
    // What is in the way is for the office, and what stays in the shop is in its own language.
    let packing = draft(Paper::Packing);
    assert!(
        packing.contains("VORSCHAU  nicht ausgestellt: no delivery is on record"),
        "{packing}"
    );
    assert!(draft(Paper::Traveler).contains("PREVIEW  not released"));
    let issued = clerk.issue(Paper::Quotation);
    let text = issued.pages.join("\n");
    for needed in ["Angebot", "Zahlungsbedingungen: 45 days net", "Seite 1 von"] {
        assert!(text.contains(needed), "{needed} in\n{text}");
    }
    let opened = clerk.opened.clone().expect("opened");
    let (_, pdf) =
        reprint(&clerk.job, &opened, &issued.number, Form::default()).expect("the paper");
    let pdf = String::from_utf8_lossy(&pdf);
    assert!(pdf.contains("de-DE") && pdf.contains("Angebot 26-"));
    // Another agreement later leaves the job in the language that it was begun in.
    change_shop(&office, &[language("English")]);
    let again = Clerk::opening(&office, clerk.number());
    assert_eq!(again.job.text(Field::Language), "German");
}

#[test]
fn an_issued_paper_rests_on_the_exchange_rate_and_on_money_of_the_shops_own() {
    let (office, _) = office_in_memory();
    own_shop(&office);
    let mut clerk = of_customer(&office);
    let issued = clerk.issue(Paper::Quotation);
    let said = |name: &str| {
        let rows = issued.rests_on.iter();
        rows.clone().find(|row| row.0 == name).map(|row| row.1)
    };
    assert_eq!(said("exchange rate"), Some(0.92));
    assert_eq!(said("1 USD in EUR, of 2026-11-20"), Some(0.92));
    assert_eq!(said("labor per hour"), Some(50.0));
    assert_eq!(said("minimum charge"), Some(165.0));
    assert_eq!(said("Wren per hour"), Some(70.0));
    // A reorder at another rate says that this one changed, and nothing else did.
    clerk.field(Field::ExchangeRate, "0.95");
    let shop = office.shop_as_taught(day());
    let shop = shop.for_job(&clerk.job);
    let today = rests_on(&results_now(&clerk.job, &shop), &shop);
    let others = reorder::other_rates(&clerk.job, &today);
    let others: Vec<(&str, f64, f64)> = others
        .iter()
        .filter(|other| other.name != "1 USD in EUR, of 2026-11-20")
        .map(|other| (other.name.as_str(), other.was, other.is))
        .collect();
    assert_eq!(others, [("exchange rate", 0.92, 0.95)]);
}

#[test]
fn jobs_in_two_currencies_go_on_no_joint_quotation() {
    let (office, _) = office_in_memory();
    own_shop(&office);
    let first = of_customer(&office);
    let mut second = inquiry(&office);
    second.field(Field::Part, "GP-13");
    second.save().expect("saved");
    let mut wanted = first.to_issue(Paper::Quotation);
    wanted.others.push(second.seen());
    let not = office.issue(&wanted).expect_err("two currencies");
    let said = not_issued(&not);
    assert!(said.contains("quoted in EUR"), "{said}");
    assert!(said.contains("26-0102 in USD"), "{said}");
    for (field, text) in [
        (Field::Currency, "EUR"),
        (Field::ExchangeRate, "0.93"),
        (Field::ExchangeDay, "2026-11-24"),
    ] {
        second.field(field, text);
    }
    // Nor of another customer's.
    let customer = second.job.text(Field::Customer).to_owned();
    second.field(Field::Customer, "Pellworth Valve Works");
    second.save().expect("saved");
    wanted.others = vec![second.seen()];
    let not = office.issue(&wanted).expect_err("two customers");
    let said = not_issued(&not);
    assert!(
        said.contains("26-0102 for \u{201c}Pellworth Valve Works\u{201d}"),
        "{said}"
    );
    second.field(Field::Customer, &customer);
    second.save().expect("saved");
    wanted.others = vec![second.seen()];
    let now = office.issue(&wanted).expect("one currency");
    // Each job is priced by its own rate, as when it is looked at alone.
    let shop = office.shop_as_taught(day());
    let results = results_now(&second.job, &shop.for_job(&second.job));
    let alone = results.figures.price.expect("a price").breaks[0].each;
    let lines = now.issued.lines.iter();
    let mut of_second = lines.filter(|line| line.job == "26-0102");
    assert_eq!(of_second.next().and_then(|line| line.each), Some(alone));
}

#[test]
fn a_quotation_waits_for_rate_and_day_of_its_currency() {
    let (office, _) = office_in_memory();
    own_shop(&office);
    let mut clerk = of_customer(&office);
    clerk.field(Field::ExchangeDay, "");
    let said = clerk.refused(Paper::Quotation);
    assert!(said.contains("exchange rate"), "{said}");
    clerk.field(Field::ExchangeDay, "2026-11-20");
    clerk.issue(Paper::Quotation);
}

#[test]
fn sample_rates_stand_on_the_preview_and_on_what_is_issued() {
    let (office, _) = office_in_memory();
    let mut clerk = inquiry(&office);
    let shop = office.shop_as_taught(day());
    let results = results_now(&clerk.job, &shop);
    let sitting = Sitting {
        job: &clerk.job,
        results: &results,
    };
    let (preview, _) = print::draft(Paper::Quotation, sitting, &shop, day(), Sheet::A4);
    assert!(print::texts(&preview).join("\n").contains("Sample rates"));
    let issued = clerk.issue(Paper::Quotation);
    assert!(issued.pages.join("\n").contains("Sample rates"));
    own_shop(&office);
    let issued = clerk.issue(Paper::Quotation);
    assert!(!issued.pages.join("\n").contains("Sample rates"));
}

/// The form of numbers and days is the shop's of that day: what was issued stays to the byte, what is
/// printed later is in the new one.
#[test]
fn a_paper_that_was_issued_stays_in_the_form_that_it_was_issued_in() {
    let (office, _) = office_in_memory();
    own_shop(&office);
    let mut clerk = of_customer(&office);
    let issued = clerk.issue(Paper::Quotation);
    let price = issued.lines[0].each.expect("a price");
    let usual = Form::default();
    let text = issued.pages.join("\n");
    assert!(text.contains(&usual.day(day())), "{text}");
    assert!(text.contains(&usual.amount(price)), "{text}");
    let opened = clerk.opened.clone().expect("opened");
    let before = reprint(&clerk.job, &opened, &issued.number, usual).expect("the paper");
    let set = |line, text: &str| ShopEdit::SetLine {
        line,
        text: text.to_owned(),
        unit: Unit::Mm,
    };
    change_shop(
        &office,
        &[
            set(ShopLine::Numbers, "1.234,5"),
            set(ShopLine::Dates, "31.01.2026"),
        ],
    );
    let form = office.shop().form;
    assert_ne!(form, usual);
    let again = Clerk::opening(&office, clerk.number());
    let opened = again.opened.clone().expect("opened");
    let after = reprint(&again.job, &opened, &issued.number, form).expect("the paper");
    assert_eq!(after, before);
    let entry = again.job.standing(Paper::Quotation).next();
    let entry = entry.expect("it stands");
    assert_eq!(entry, &issued);
    assert!(entry.is_trusted());
    let shop = office.shop_as_taught(day());
    let results = results_now(&again.job, &shop.for_job(&again.job));
    let sitting = Sitting {
        job: &again.job,
        results: &results,
    };
    let (draft, unprintable) = print::draft(Paper::Quotation, sitting, &shop, day(), Sheet::A4);
    assert_eq!(unprintable, []);
    let text = print::texts(&draft).join("\n");
    assert!(text.contains(&form.day(day())), "{text}");
    assert!(text.contains(&form.amount(price)), "{text}");
    assert!(!text.contains(&usual.day(day())), "{text}");
}
