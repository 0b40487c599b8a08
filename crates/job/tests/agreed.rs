//! What was agreed with a customer, on the sheet of a job, and the shop as a job goes by it.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

use chrono::NaiveDate;
use quillbore_job::agreed::with_customer;
use quillbore_job::currency::currency_of;
use quillbore_job::history::Doing;
use quillbore_job::life::{self, Blocker};
use quillbore_job::reorder::{again, again_in};
use quillbore_job::results::{Beside, NoteKind, Results, Telling, results_now};
use quillbore_job::shop::sheet::{
    ShopColumn, ShopEdit, ShopList, ShopRowAt, ShopSheet, apply_shop,
};
use quillbore_job::shop::{Customer, Exchange};
use quillbore_job::to_input::to_input;
use quillbore_job::words::workings;
use quillbore_job::{
    CellAt, Column, Edit, Field, History, Job, Language, Paper, Shop, Unit, apply,
};

const FINCH: &str = "Alder Finch Rotors";
const LINNET: &str = "Linnet Instruments";

fn day(month: u32, day: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, month, day).expect("a day")
}

fn exchange(currency: &str, rate: &str, dated: NaiveDate) -> Exchange {
    Exchange {
        currency: currency.to_owned(),
        rate: Some(rate.parse().expect("a rate")),
        dated: Some(dated),
    }
}

/// The sample shop with two customers.
fn shop() -> Shop {
    let mut shop = Shop::embedded().expect("the shop").on(day(11, 25));
    shop.customers = vec![
        Customer {
            name: FINCH.to_owned(),
            contact: "Wilma Oakes".to_owned(),
            address: vec!["4 Mill Lane".to_owned(), "Oxbow".to_owned()],
            email: "w.oakes@finch.example".to_owned(),
            their_number: "V-2231".to_owned(),
            language: Some(Language::German),
            exchange: Some(exchange("EUR", "0.92", day(11, 20))),
            margin: Some(0.29),
            machine_hour: Some("64.125".parse().expect("an amount")),
            labor_hour: Some("50".parse().expect("an amount")),
            sampling: "first piece and every tenth".to_owned(),
            clauses: vec!["No subcontracting.".to_owned(), "Heat by lot.".to_owned()],
            payment: "45 days net".to_owned(),
            delivery: "their van, Thursdays".to_owned(),
            ..Customer::default()
        },
        Customer {
            name: LINNET.to_owned(),
            margin: Some(0.35),
            payment: "14 days".to_owned(),
            ..Customer::default()
        },
    ];
    shop
}

fn done(job: &Job, edit: &Edit) -> Job {
    apply(job, edit).expect("an edit that can be done").0
}

fn typed(job: &Job, field: Field, text: &str) -> Job {
    let edit = Edit::SetField {
        field,
        text: text.to_owned(),
        unit: Unit::Mm,
    };
    done(job, &edit)
}

fn with(job: &Job, fields: &[(Field, &str)]) -> Job {
    let all = fields.iter();
    all.fold(job.clone(), |job, (field, text)| typed(&job, *field, text))
}

fn customer(job: &Job, name: &str) -> Job {
    let edit = with_customer(job, &shop(), name, Unit::Mm).expect("an edit");
    done(job, &edit)
}

/// A job that has a price.
fn priced() -> Job {
    let mut job = with(
        &Job::default(),
        &[
            (Field::Material, "Stainless 316"),
            (Field::Machine, "Barrow"),
            (Field::Quantity, "25"),
        ],
    );
    for (column, text) in [
        (Column::Mark, "A"),
        (Column::Count, "4"),
        (Column::Size, "0.80 +-0.05"),
        (Column::Depth, "14"),
    ] {
        let edit = Edit::SetCells {
            at: CellAt { row: 0, column },
            rows: vec![vec![Some(text.to_owned())]],
            unit: Unit::Mm,
        };
        job = done(&job, &edit);
    }
    job
}

fn results(job: &Job, shop: &Shop) -> Results {
    results_now(job, &shop.for_job(job))
}

fn each(job: &Job, shop: &Shop) -> f64 {
    let results = results(job, shop);
    let price = results.figures.price.expect("a price");
    f64::try_from(price.breaks[0].each).expect("a number")
}

fn kinds(job: &Job, shop: &Shop) -> Vec<NoteKind> {
    let all = results(job, shop).notes.into_iter().map(|note| note.kind);
    let of_exchange = |kind: &NoteKind| {
        matches!(
            kind,
            NoteKind::ExchangeMissing
                | NoteKind::ExchangeOfOtherDay
                | NoteKind::ExchangeOdd
                | NoteKind::ExchangeNotNeeded
        )
    };
    all.filter(of_exchange).collect()
}

fn is_blocked(job: &Job, shop: &Shop) -> bool {
    let found = results(job, shop).found();
    [Paper::Quotation, Paper::Confirmation].iter().all(|paper| {
        let blockers = life::blockers(*paper, job, &found, None);
        blockers.contains(&Blocker::NoExchange)
    })
}

#[test]
fn what_was_agreed_fills_what_is_empty_in_one_step() {
    let before = priced();
    let mut history = History::new(before.clone(), true);
    let edit = with_customer(&before, &shop(), "alder finch rotors ", Unit::Mm).expect("an edit");
    let doing = Doing {
        gesture: None,
        before: (),
        after: (),
    };
    history.do_edit(&edit, doing).expect("it can be done");
    let job = history.now();
    for (field, text) in [
        (Field::Contact, "Wilma Oakes, w.oakes@finch.example"),
        (Field::CustomerAddress, "4 Mill Lane\nOxbow"),
        (Field::OurNumber, "V-2231"),
        (Field::Language, "German"),
        (Field::Inspection, "first piece and every tenth"),
        (Field::Margin, "29 %"),
        (Field::AgreedMachineHour, "64.1250"),
        (Field::AgreedLaborHour, "50"),
        (Field::Payment, "45 days net"),
        (Field::Delivery, "their van, Thursdays"),
        (Field::Clauses, "No subcontracting.\nHeat by lot."),
        (Field::Currency, "EUR"),
        (Field::ExchangeRate, "0.92"),
        (Field::ExchangeDay, "20 Nov 2026"),
    ] {
        assert_eq!(job.text(field), text, "{field:?}");
        assert!(job.field(field).why().is_none(), "{field:?}");
    }
    history.undo();
    assert_eq!(**history.now(), before);
}

#[test]
fn what_somebody_typed_stays_and_what_is_there_is_not_typed_again() {
    let job = with(
        &Job::default(),
        &[(Field::Margin, "33"), (Field::Payment, "cash")],
    );
    let job = customer(&job, FINCH);
    assert_eq!(job.text(Field::Margin), "33");
    assert_eq!(job.text(Field::Payment), "cash");
    assert_eq!(job.text(Field::Delivery), "their van, Thursdays");
    assert_eq!(with_customer(&job, &shop(), FINCH, Unit::Mm), None);
    // A customer whom nobody knows is only a name.
    let edit = with_customer(&Job::default(), &shop(), "Nobody yet", Unit::Mm);
    assert!(matches!(edit, Some(Edit::SetField { field, .. }) if field == Field::Customer));
}

#[test]
fn another_customer_leaves_nothing_behind_of_the_one_before() {
    let job = customer(&Job::default(), FINCH);
    // The same share in other words is still what was agreed; another one is not.
    let job = with(&job, &[(Field::Margin, "29"), (Field::Delivery, "by rail")]);
    let job = customer(&job, LINNET);
    assert_eq!(job.text(Field::Customer), LINNET);
    assert_eq!(job.text(Field::Margin), "35 %");
    assert_eq!(job.text(Field::Payment), "14 days");
    assert_eq!(job.text(Field::Delivery), "by rail");
    for field in [
        Field::Contact,
        Field::CustomerAddress,
        Field::OurNumber,
        Field::Language,
        Field::Inspection,
        Field::AgreedMachineHour,
        Field::AgreedLaborHour,
        Field::Clauses,
        Field::Currency,
        Field::ExchangeRate,
        Field::ExchangeDay,
    ] {
        assert_eq!(job.text(field), "", "{field:?}");
    }
    let job = customer(&job, "Nobody yet");
    assert_eq!(job.text(Field::Margin), "");
    assert_eq!(job.text(Field::Delivery), "by rail");
}

#[test]
fn what_was_agreed_otherwise_is_told_and_can_be_taken() {
    let mut shop = shop();
    let told = |job: &Job, shop: &Shop| -> Vec<Beside> {
        let notes = results(job, shop).notes.into_iter();
        let otherwise = notes.filter(|note| note.kind == NoteKind::AgreedOtherwise);
        otherwise.map(|note| note.beside).collect()
    };
    let job = customer(&priced(), FINCH);
    assert_eq!(told(&job, &shop), []);
    // Somebody typed another margin; the labor rate and the exchange rate are others by now.
    let job = typed(&job, Field::Margin, "33");
    shop.customers[0].labor_hour = Some("52".parse().expect("an amount"));
    shop.customers[0].exchange = Some(exchange("EUR", "0.94", day(11, 24)));
    let margin = Beside::Field(Field::Margin);
    let labor = Beside::Field(Field::AgreedLaborHour);
    let rate = Beside::Field(Field::ExchangeRate);
    assert_eq!(told(&job, &shop), [margin, labor, rate]);
    let by = shop.for_job(&job);
    let results = results_now(&job, &by);
    let telling = Telling::new(&job, &by);
    let note = results.notes.iter().find(|note| note.beside == rate);
    let offer = telling.offer(note.expect("a note")).expect("an offer");
    let taken = done(&job, &offer.edit);
    assert_eq!(taken.text(Field::ExchangeRate), "0.94");
    assert_eq!(taken.text(Field::ExchangeDay), "24 Nov 2026");
    assert_eq!(told(&taken, &shop), [margin, labor]);
    // An older rate of the shop's is no news.
    let newer = typed(&job, Field::ExchangeDay, "2026-11-25");
    assert_eq!(told(&newer, &shop), [margin, labor]);
}

#[test]
fn an_exchange_rate_goes_with_its_currency() {
    // A rate is never put beside another currency, nor a day beside another rate.
    let pounds = typed(&Job::default(), Field::Currency, "gbp");
    let job = customer(&pounds, FINCH);
    assert_eq!(job.text(Field::Currency), "gbp");
    assert_eq!(job.text(Field::ExchangeRate), "");
    let own_rate = with(
        &Job::default(),
        &[(Field::Currency, "eur"), (Field::ExchangeRate, "0.95")],
    );
    let job = customer(&own_rate, FINCH);
    assert_eq!(job.text(Field::Currency), "eur");
    assert_eq!(job.text(Field::ExchangeRate), "0.95");
    assert_eq!(job.text(Field::ExchangeDay), "");
    // A rate typed over the agreed one means nothing once the currency is gone.
    let job = typed(
        &customer(&Job::default(), FINCH),
        Field::ExchangeRate,
        "0.95",
    );
    let job = customer(&job, LINNET);
    assert_eq!(job.text(Field::ExchangeRate), "");
    assert_eq!(job.text(Field::ExchangeDay), "");
}

#[test]
fn hours_that_were_agreed_take_the_place_of_the_cards() {
    let (job, shop) = (priced(), shop());
    let agreed = with(
        &job,
        &[
            (Field::AgreedMachineHour, "200"),
            (Field::AgreedLaborHour, "150"),
        ],
    );
    let by = shop.for_job(&agreed);
    assert!(
        by.tables
            .machines
            .iter()
            .all(|row| row.rate_per_hour == 200.0)
    );
    assert_eq!(by.tables.rates.labor_per_hour, 150.0);
    assert!(each(&agreed, &shop) > 1.5 * each(&job, &shop));
    let figure = quillbore_calc::Figure::LotCost;
    assert_eq!(
        workings::goes_by(figure, &by),
        [
            "agreed rate: 200.00 USD per machine hour",
            "agreed rate: 150.00 USD per labor hour"
        ]
    );
    assert_eq!(workings::goes_by(figure, &shop), [""; 0]);
    // It may be asked of a shop that goes by a job already.
    assert_eq!(by.for_job(&agreed), by);
    assert_eq!(by.for_job(&job).as_ref(), &shop);
}

/// A job quoted in another currency, with a rate of five days ago.
fn quoted_in(job: &Job, currency: &str, rate: &str) -> Job {
    with(
        job,
        &[
            (Field::Currency, currency),
            (Field::ExchangeRate, rate),
            (Field::ExchangeDay, "2026-11-20"),
        ],
    )
}

#[test]
fn all_money_of_the_shop_is_put_into_the_currency_of_the_quotation() {
    let (job, mut shop) = (priced(), shop());
    shop.tables.rates.price_step = Some(0.5);
    shop.tables.rates.minimum_charge = 165.0;
    let yen = quoted_in(&job, "jpy", "150");
    let by = shop.for_job(&yen).into_owned();
    let rates = &by.tables.rates;
    assert_eq!(
        (
            rates.currency.as_str(),
            rates.minor_digits,
            rates.price_step
        ),
        ("JPY", 0, None)
    );
    assert_eq!(rates.minimum_charge, 24_750.0);
    assert_eq!(by.tables.tubes[0].price, shop.tables.tubes[0].price * 150.0);
    assert_eq!(
        workings::goes_by(quillbore_calc::Figure::UnitPrice(25), &by),
        ["1 USD = 150 JPY, of 20 Nov 2026"]
    );
    // A dinar has three digits and so half of one; the step stays.
    let dinar = quoted_in(&job, "KWD", "0.31");
    let by = shop.for_job(&dinar).into_owned();
    let rates = &by.tables.rates;
    assert_eq!((rates.minor_digits, rates.price_step), (3, Some(0.5)));
    assert!((rates.minimum_charge - 51.15).abs() < 1e-9);
    for (quoted, rate) in [(yen, 150.0), (dinar, 0.31)] {
        let of_own = results(&job, &shop).figures.price.expect("a price");
        let priced = results(&quoted, &shop).figures.price.expect("a price");
        let ratio = priced.expected_cost / of_own.expected_cost;
        assert!((ratio / rate - 1.0).abs() < 1e-9, "{ratio}");
        assert_eq!(kinds(&quoted, &shop), []);
        assert!(!is_blocked(&quoted, &shop));
    }
}

#[test]
fn a_thousand_cheap_pieces_are_not_rounded_away() {
    let mut shop = shop();
    shop.tables.rates.minimum_charge = 165.0;
    shop.tables.rates.price_step = None;
    let job = with(&priced(), &[(Field::Quantity, "1000")]);
    // The minimum charge over the quantity: 0.165 USD, in dollars 0.17, in dinars 0.052.
    let dear = quoted_in(&job, "KWD", "0.31");
    let price = results(&dear, &shop).figures.price.expect("a price");
    assert_eq!(price.breaks[0].each.scale(), 3);
    assert_eq!(
        price.breaks[0].lot,
        price.breaks[0].each * rust_decimal::Decimal::from(1000)
    );
    // A rate that makes nothing of the price is told, and nothing is quoted at it.
    let typo = quoted_in(&job, "JPY", "0.00001");
    assert_eq!(kinds(&typo, &shop), [NoteKind::ExchangeMissing]);
    assert!(is_blocked(&typo, &shop));
}

#[test]
fn what_the_shop_pays_is_exchanged_and_what_the_customer_says_is_not() {
    let shop = shop();
    let job = with(
        &quoted_in(&priced(), "JPY", "150"),
        &[
            (Field::FixtureCost, "100"),
            (Field::TestPieceCost, "20"),
            (Field::OutsideCost, "40"),
            (Field::OutsidePerPart, "2"),
            (Field::PartValue, "90000"),
            (Field::LiabilityCap, "50000"),
        ],
    );
    let input = results(&job, &shop).asked.input;
    let once: Vec<f64> = input.one_off.iter().map(|once| once.cost).collect();
    assert_eq!(once, [15_000.0, 3_000.0]);
    assert_eq!(
        (input.outside_work, input.outside_per_part),
        (6_000.0, 300.0)
    );
    assert_eq!(input.part_value, Some(90_000.0));
    assert_eq!(input.liability_cap, Some(50_000.0));
}

#[test]
fn what_is_missing_of_an_exchange_is_told_and_nothing_is_quoted_without() {
    let (job, shop) = (priced(), shop());
    let [currency, rate, dated] = [Field::Currency, Field::ExchangeRate, Field::ExchangeDay];
    for typed in [
        vec![(currency, "EUR")],
        vec![(currency, "EUR"), (rate, "0.92")],
        vec![(currency, "EUR"), (dated, "2026-11-20")],
        vec![(rate, "0.92")],
        vec![(dated, "2026-11-20")],
    ] {
        let incomplete = with(&job, &typed);
        assert_eq!(
            kinds(&incomplete, &shop),
            [NoteKind::ExchangeMissing],
            "{typed:?}"
        );
        assert!(is_blocked(&incomplete, &shop), "{typed:?}");
        // Until it is there prices are the shop's.
        let price = results(&incomplete, &shop).figures.price.expect("a price");
        assert_eq!(price.currency, "USD", "{typed:?}");
        assert_eq!(each(&incomplete, &shop), each(&job, &shop), "{typed:?}");
    }
    let own = quoted_in(&job, "USD", "0.92");
    assert_eq!(kinds(&own, &shop), [NoteKind::ExchangeNotNeeded]);
    assert!(!is_blocked(&own, &shop));
    assert_eq!(each(&own, &shop), each(&job, &shop));
    assert_eq!(kinds(&typed(&job, currency, "USD"), &shop), []);
}

#[test]
fn a_rate_of_long_ago_or_of_a_day_to_come_is_told() {
    let (job, shop) = (quoted_in(&priced(), "EUR", "0.92"), shop());
    for (dated, told) in [
        ("2026-08-27", false),
        ("2026-08-26", true),
        ("2025-03-01", true),
        ("2026-11-25", false),
        ("2026-11-26", true),
    ] {
        let job = typed(&job, Field::ExchangeDay, dated);
        let expected = [NoteKind::ExchangeOfOtherDay];
        let expected = if told { &expected[..] } else { &[] };
        assert_eq!(kinds(&job, &shop), expected, "{dated}");
        assert!(!is_blocked(&job, &shop), "{dated}");
    }
}

/// A comma before three digits parts decimals in one country and thousands in another; a rate far from 1 is
/// mistyped.
#[test]
fn a_rate_that_is_read_two_ways_or_that_no_currencies_have_is_told() {
    let (job, shop) = (priced(), shop());
    for (rate, told) in [
        ("0.92", false),
        ("0,921", false),
        ("1.105", false),
        ("17,250", true),
        ("1,000", true),
        ("16500", false),
        ("0.0000001", true),
        ("900000", true),
    ] {
        let kinds = kinds(&quoted_in(&job, "EUR", rate), &shop);
        let is_told =
            |kind: &NoteKind| matches!(kind, NoteKind::ExchangeOdd | NoteKind::ExchangeMissing);
        assert_eq!(kinds.iter().any(is_told), told, "{rate}");
    }
    assert!(is_blocked(&quoted_in(&job, "EUR", "900000"), &shop));
    assert!(!is_blocked(&quoted_in(&job, "EUR", "17,250"), &shop));
    let read = results(&quoted_in(&job, "EUR", "17,250"), &shop);
    let note = read
        .notes
        .iter()
        .find(|note| note.kind == NoteKind::ExchangeOdd);
    let text = Telling::new(&job, &shop)
        .text(note.expect("a note"))
        .into_owned();
    assert!(text.contains("is read as 17.250, not as 17250"), "{text}");
}

#[test]
fn a_reorder_keeps_what_was_agreed_and_asks_for_todays_rate() {
    let mut shop = shop();
    let old = customer(&priced(), FINCH);
    let new = again(&old, day(11, 25));
    for field in [
        Field::CustomerAddress,
        Field::OurNumber,
        Field::Language,
        Field::AgreedMachineHour,
        Field::Payment,
        Field::Clauses,
        Field::Currency,
    ] {
        assert_eq!(new.text(field), old.text(field), "{field:?}");
    }
    assert_eq!(new.text(Field::ExchangeRate), "");
    assert_eq!(new.text(Field::ExchangeDay), "");
    assert!(is_blocked(&new, &shop));
    // Where the shop has a rate by now, that is taken.
    shop.customers[0].exchange = Some(exchange("EUR", "0.87", day(11, 24)));
    let new = again_in(&shop, &old, day(11, 25));
    assert_eq!(new.text(Field::ExchangeRate), "0.87");
    assert_eq!(new.text(Field::ExchangeDay), "24 Nov 2026");
}

#[test]
fn what_something_costs_the_shop_is_in_its_own_currency_and_what_is_the_customers_in_theirs() {
    let job = typed(&Job::default(), Field::Quantity, "1");
    let edit = with_customer(&job, &shop(), FINCH, Unit::Mm).expect("an edit");
    let job = with(
        &done(&job, &edit),
        &[
            (Field::PartValue, "210"),
            (Field::FixtureCost, "90"),
            (Field::OutsideCost, "50"),
        ],
    );
    let shop = shop();
    let shop = shop.for_job(&job);
    for (field, currency) in [
        (Field::PartValue, Some("EUR")),
        (Field::LiabilityCap, Some("EUR")),
        (Field::FixtureCost, Some("USD")),
        (Field::TestPieceCost, Some("USD")),
        (Field::OutsidePerPart, Some("USD")),
        (Field::AgreedMachineHour, Some("USD")),
        (Field::Margin, None),
    ] {
        assert_eq!(currency_of(field, &job, &shop), currency, "{field:?}");
    }
    // At 0.92 EUR for one USD; the customer's own amount is the same in both.
    let input = to_input(&job, &shop).input;
    assert_eq!(input.part_value, Some(210.0));
    assert!((input.outside_work - 46.0).abs() < 1e-9);
    assert!((input.one_off[0].cost - 82.8).abs() < 1e-9);
}

/// A shop whose sheet has one customer with these cells.
fn shop_with(cells: &[(ShopColumn, &str)]) -> Shop {
    let mut all = vec![(ShopColumn::Name, "Quarry Valves".to_owned())];
    all.extend(
        cells
            .iter()
            .map(|(column, text)| (*column, (*text).to_owned())),
    );
    let edit = ShopEdit::SetCells {
        list: ShopList::Customers,
        rows: vec![(ShopRowAt::New, all)],
        unit: Unit::Mm,
    };
    let sheet = apply_shop(&ShopSheet::default(), &edit).expect("an edit");
    Shop::of_sheet(&sheet).expect("a shop").on(day(11, 28))
}

#[test]
fn an_agreement_that_is_not_whole_is_never_quoted_in_the_shops_own_currency() {
    let usual = [
        (ShopColumn::Currency, "EUR"),
        (ShopColumn::ExchangeRate, "0.92"),
        (ShopColumn::ExchangeDay, "2026-11-20"),
    ];
    let blocked = |cells: &[(ShopColumn, &str)]| {
        let shop = shop_with(cells);
        let told: Vec<String> = shop.not_used.iter().map(ToString::to_string).collect();
        assert_eq!(told.len(), 1, "{told:?}");
        let edit = with_customer(&Job::default(), &shop, "Quarry Valves", Unit::Mm);
        let job = done(&Job::default(), &edit.expect("an edit"));
        let shop = shop.for_job(&job);
        let results = results_now(&job, &shop);
        let found = results.found();
        let blockers = life::blockers(Paper::Quotation, &job, &found, None);
        assert!(
            blockers.contains(&Blocker::NoExchange) || blockers.contains(&Blocker::SheetUnread),
            "{blockers:?}"
        );
        assert!(!job.text(Field::Currency).is_empty());
        job
    };
    for (at, text) in [
        (0, "EURO"),
        (1, ""),
        (1, "0"),
        (1, "-2"),
        (1, "about one"),
        (2, ""),
        (2, "lately"),
    ] {
        let mut cells = usual;
        cells[at].1 = text;
        let job = blocked(&cells);
        let fields = [Field::Currency, Field::ExchangeRate, Field::ExchangeDay];
        assert_eq!(job.text(fields[at]), text, "{text}");
    }
}

#[test]
fn what_cannot_be_read_of_an_agreement_stands_on_the_sheet_and_takes_nothing_with_it() {
    let shop = shop_with(&[
        (ShopColumn::Address, "5 Quay"),
        (ShopColumn::Margin, "much"),
        (ShopColumn::MachineHour, "Barrow 80"),
    ]);
    assert_eq!(shop.not_used.len(), 2, "{:?}", shop.not_used);
    let edit = with_customer(&Job::default(), &shop, "quarry valves", Unit::Mm);
    let job = done(&Job::default(), &edit.expect("an edit"));
    assert_eq!(job.text(Field::CustomerAddress), "5 Quay");
    for (field, text) in [
        (Field::Margin, "much"),
        (Field::AgreedMachineHour, "Barrow 80"),
    ] {
        assert_eq!(job.text(field), text);
        assert!(job.field(field).why().is_some(), "{text}");
    }
}

#[test]
fn a_customers_language_goes_onto_the_sheet_and_one_that_is_none_holds_the_papers() {
    for (text, language) in [
        ("german", Language::German),
        ("Eng", Language::English),
        ("", Language::English),
    ] {
        let shop = shop_with(&[(ShopColumn::Language, text)]);
        assert!(shop.not_used.is_empty(), "{text}: {:?}", shop.not_used);
        let edit = with_customer(&Job::default(), &shop, "Quarry Valves", Unit::Mm);
        let job = done(&Job::default(), &edit.expect("an edit"));
        assert_eq!(job.language(), language, "{text}");
    }
    let shop = shop_with(&[(ShopColumn::Language, "Latin")]);
    let told: Vec<String> = shop.not_used.iter().map(ToString::to_string).collect();
    let usual = "\u{201c}latin\u{201d} is not one of the words here: type English or German.";
    assert!(told.len() == 1 && told[0].contains(usual), "{told:?}");
    let edit = with_customer(&Job::default(), &shop, "Quarry Valves", Unit::Mm);
    let job = done(&Job::default(), &edit.expect("an edit"));
    assert_eq!(job.text(Field::Language), "Latin");
    assert_eq!(job.field(Field::Language).why(), Some(usual));
    assert_eq!(job.language(), Language::English);
    let found = results(&job, &shop).found();
    let blockers = life::blockers(Paper::Quotation, &job, &found, None);
    assert!(blockers.contains(&Blocker::SheetUnread), "{blockers:?}");
    // What somebody typed is theirs.
    let shop = shop_with(&[(ShopColumn::Language, "German")]);
    let job = with(&Job::default(), &[(Field::Language, "English")]);
    let edit = with_customer(&job, &shop, "Quarry Valves", Unit::Mm);
    let job = done(&job, &edit.expect("an edit"));
    assert_eq!(job.language(), Language::English);
}
