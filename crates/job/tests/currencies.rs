//! A shop that changes its currency changes no amount that was quoted, ordered or typed before.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

mod hands;

use hands::{field, issue_in, line, pin, ring};
use quillbore_job::amounts_in::with_currencies;
use quillbore_job::currency::currency_of;
use quillbore_job::life::{self, Blocker};
use quillbore_job::order::{self, Difference, Topic};
use quillbore_job::reorder::{again, last_price};
use quillbore_job::results::foot::{foot, text};
use quillbore_job::results::{NoteKind, Results, Telling, results_quick};
use quillbore_job::shop::sheet::{ShopEdit, ShopLine, ShopSheet, apply_shop};
use quillbore_job::slip::kind;
use quillbore_job::{Edit, Field, Job, Line, Paper, Shop, SlipKind, Unit, apply};

/// A shop of this currency.
fn shop(currency: &str) -> Shop {
    let mut sheet = ShopSheet::default();
    for (line, text) in [
        (ShopLine::Name, "Heron Bore"),
        (ShopLine::Address, "2 Reed Bank"),
        (ShopLine::Currency, currency),
    ] {
        let typed = ShopEdit::SetLine {
            line,
            text: text.to_owned(),
            unit: Unit::Mm,
        };
        sheet = apply_shop(&sheet, &typed).expect("an edit");
    }
    Shop::of_sheet(&sheet).expect("a shop")
}

/// An edit as a desk does it, with the currencies of the amounts that it brings.
fn desk(job: &Job, shop: &Shop, edit: Edit) -> Job {
    let edit = with_currencies(job, shop, &edit).unwrap_or(edit);
    apply(job, &edit).expect("the edit is done").0
}

fn typed(job: &Job, shop: &Shop, field: Field, text: &str) -> Job {
    let edit = Edit::SetField {
        field,
        text: text.to_owned(),
        unit: Unit::Mm,
    };
    desk(job, shop, edit)
}

fn ordered(job: &Job, shop: &Shop, each: &str) -> Job {
    let lines = [(Line::Quantity, "25"), (Line::Each, each)];
    let edit = Edit::AddSlip {
        kind: SlipKind::Order,
        lines: lines.map(|(line, text)| (line, text.to_owned())).to_vec(),
        unit: Unit::Mm,
    };
    desk(job, shop, edit)
}

fn results(job: &Job, shop: &Shop) -> Results {
    results_quick(job, &shop.for_job(job))
}

fn has(job: &Job, shop: &Shop, kind: &NoteKind) -> bool {
    let results = results(job, shop);
    results.notes.iter().any(|note| note.kind == *kind)
}

fn in_the_way(job: &Job, shop: &Shop, paper: Paper) -> Vec<Blocker> {
    life::blockers(paper, job, &results(job, shop).found(), None)
}

fn pays_in(job: &Job) -> Option<&str> {
    let order = job.slips_of::<kind::Order>().next_back()?;
    order.get(quillbore_job::slip::line::Currency)
}

#[test]
fn an_amount_is_typed_with_the_currency_that_it_is_in() {
    let eur = shop("EUR");
    let job = ring();
    // What is no amount brings none.
    let plain = typed(&job, &eur, Field::Notes, "look out");
    assert_eq!(plain.text(Field::AmountsIn), "");
    let job = typed(&job, &eur, Field::OutsideCost, "180");
    assert_eq!(job.text(Field::AmountsIn), "EUR");
    assert!(!has(&job, &eur, &NoteKind::AmountsInOtherCurrency));
    // The shop changes its currency: the amount would count as francs.
    let chf = shop("CHF");
    assert!(has(&job, &chf, &NoteKind::AmountsInOtherCurrency));
    let in_way = in_the_way(&job, &chf, Paper::Quotation);
    assert!(in_way.contains(&Blocker::AmountsCurrency), "{in_way:?}");
    // Another one typed then says nothing of the first.
    let more = typed(&job, &chf, Field::FixtureCost, "90");
    assert_eq!(more.text(Field::AmountsIn), "EUR");
    let settled = typed(&more, &chf, Field::AmountsIn, "CHF");
    assert!(!has(&settled, &chf, &NoteKind::AmountsInOtherCurrency));
    // Without any amount the next one is of today.
    let none = typed(&job, &chf, Field::OutsideCost, "");
    assert!(!has(&none, &chf, &NoteKind::AmountsInOtherCurrency));
    let anew = typed(&none, &chf, Field::OutsideCost, "200");
    assert_eq!(anew.text(Field::AmountsIn), "CHF");
}

#[test]
fn the_offer_of_the_note_settles_it() {
    let (eur, chf) = (shop("EUR"), shop("CHF"));
    let job = typed(&ring(), &eur, Field::AgreedLaborHour, "55");
    let notes = results(&job, &chf).notes;
    let note = notes
        .iter()
        .find(|note| note.kind == NoteKind::AmountsInOtherCurrency)
        .expect("a note");
    let offer = Telling::new(&job, &chf).offer(note).expect("an offer");
    let settled = apply(&job, &offer.edit).expect("done").0;
    assert_eq!(settled.text(Field::AmountsIn), "CHF");
    assert!(!has(&settled, &chf, &NoteKind::AmountsInOtherCurrency));
    // What is the customer's stays in the currency of the quotation, whatever the shop's is.
    let cap = typed(&ring(), &eur, Field::LiabilityCap, "900");
    assert!(has(&cap, &chf, &NoteKind::AmountsInOtherCurrency));
    let quoted = field(&cap, Field::Currency, "EUR");
    assert!(!has(&quoted, &chf, &NoteKind::AmountsInOtherCurrency));
}

#[test]
fn an_order_pays_in_the_currency_of_its_quotation_whatever_the_shop_says_later() {
    let (eur, chf) = (shop("EUR"), shop("CHF"));
    let quoted = issue_in(&ring(), Paper::Quotation, &[(25, "161.00")], Some("EUR"));
    for now in [&eur, &chf] {
        let job = ordered(&quoted, now, "161.00");
        assert_eq!(pays_in(&job), Some("EUR"));
        let order = job.slips_of::<kind::Order>().next().expect("an order");
        let differs = order::differences(&job, order);
        let prices = differs.iter().filter(|one| one.topic() == Topic::Price);
        assert_eq!(prices.count(), 0, "{differs:?}");
    }
    let job = ordered(&quoted, &chf, "161.00");
    assert!(has(&job, &chf, &NoteKind::OrderInOtherCurrency));
    assert!(!has(&job, &eur, &NoteKind::OrderInOtherCurrency));
    let in_way = in_the_way(&job, &chf, Paper::Confirmation);
    assert!(in_way.contains(&Blocker::OrderCurrency), "{in_way:?}");
    // The sheet reckons in euros again, with a rate and its day.
    let mut again = job.clone();
    for (name, text) in [
        (Field::Currency, "EUR"),
        (Field::ExchangeRate, "1.05"),
        (Field::ExchangeDay, "2026-03-01"),
    ] {
        again = typed(&again, &chf, name, text);
    }
    let in_way = in_the_way(&again, &chf, Paper::Confirmation);
    assert!(!in_way.contains(&Blocker::OrderCurrency), "{in_way:?}");
}

#[test]
fn an_order_in_another_currency_than_its_quotation_has_to_be_accepted() {
    let eur = shop("EUR");
    let quoted = issue_in(&ring(), Paper::Quotation, &[(25, "161.00")], Some("EUR"));
    let job = ordered(&quoted, &eur, "161.00");
    let slip = job.slips(SlipKind::Order).next().expect("an order").id;
    let job = line(&job, slip, Line::Currency, "USD");
    let order = job.slips_of::<kind::Order>().next().expect("an order");
    let differs = order::differences(&job, order);
    let expected = Difference::Currency {
        ordered: "USD".to_owned(),
        quoted: "EUR".to_owned(),
    };
    assert!(differs.contains(&expected), "{differs:?}");
    assert_eq!(order::quoted_price(&job, order), None);
}

#[test]
fn a_last_price_says_its_currency_and_is_not_kept_in_another() {
    let (eur, chf) = (shop("EUR"), shop("CHF"));
    let quoted = issue_in(&ring(), Paper::Quotation, &[(25, "161.00")], Some("EUR"));
    let new = again(&quoted, hands::day(11, 28));
    let last = last_price(&quoted, 25).expect("a price");
    assert_eq!(last.currency.as_deref(), Some("EUR"));
    assert_eq!(last.other_currency(&new, &eur), None);
    assert_eq!(last.other_currency(&new, &chf), Some("EUR"));
    // Ordered at the same price: in its currency, not in that of today.
    let edits = quillbore_job::order_text::order_edits(
        "PO 9; 25; same",
        &quoted,
        hands::day(11, 28),
        quillbore_job::form::Form::PLAIN,
    );
    let mut job = new;
    for edit in edits.expect("an order") {
        job = desk(&job, &chf, edit);
    }
    assert_eq!(pays_in(&job), Some("EUR"));
    assert!(has(&job, &chf, &NoteKind::OrderInOtherCurrency));
}

#[test]
fn an_order_without_a_quotation_is_noted_in_the_currency_of_its_day() {
    let (eur, chf) = (shop("EUR"), shop("CHF"));
    let job = ordered(&ring(), &eur, "48");
    assert_eq!(pays_in(&job), Some("EUR"));
    assert!(has(&job, &chf, &NoteKind::OrderInOtherCurrency));
    // One that says no price has no currency either.
    let silent = pin(&ring(), SlipKind::Order, &[(Line::Number, "PO 1")]);
    let edit = Edit::SetField {
        field: Field::Notes,
        text: "call".to_owned(),
        unit: Unit::Mm,
    };
    assert_eq!(with_currencies(&silent, &chf, &edit), None);
}

/// What stands in the foot, at a field and beside a picture is in the currency that it was ordered or typed in.
#[test]
fn the_foot_and_the_labels_say_the_currency_of_then() {
    let (eur, chf) = (shop("EUR"), shop("CHF"));
    let job = typed(&ring(), &eur, Field::PartValue, "900");
    let job = typed(&job, &eur, Field::Material, "Nickel alloy 718");
    let job = typed(&job, &eur, Field::Machine, "Barrow");
    let job = ordered(&job, &eur, "48");
    let quoting = chf.for_job(&job);
    let said = foot(&job, &results(&job, &chf), &quoting, None).said;
    assert!(text(&said).contains("48.00 EUR"), "{}", text(&said));
    assert_eq!(currency_of(Field::PartValue, &job, &chf), Some("EUR"));
    // What is typed next is in the shop's own.
    assert_eq!(currency_of(Field::FixtureCost, &job, &chf), Some("CHF"));
    let quoted = typed(&job, &chf, Field::Currency, "GBP");
    // What was typed before is no amount of the quotation's currency; what is typed next is, also while its
    // rate is missing.
    let label = |field| currency_of(field, &quoted, &chf);
    assert_eq!(label(Field::PartValue), Some("EUR"));
    assert_eq!(label(Field::LiabilityCap), Some("GBP"));
}

/// An order whose currency nobody noted, or that somebody emptied, pays in that of its quotation.
#[test]
fn an_order_without_a_currency_is_not_relabeled() {
    let (eur, chf) = (shop("EUR"), shop("CHF"));
    let quoted = issue_in(&ring(), Paper::Quotation, &[(25, "161.00")], Some("EUR"));
    let lines = [(Line::Quantity, "25"), (Line::Each, "161.00")];
    let job = pin(&quoted, SlipKind::Order, &lines);
    assert_eq!(pays_in(&job), None);
    assert!(has(&job, &chf, &NoteKind::OrderInOtherCurrency));
    assert!(!has(&job, &eur, &NoteKind::OrderInOtherCurrency));
    let in_way = in_the_way(&job, &chf, Paper::Confirmation);
    assert!(in_way.contains(&Blocker::OrderCurrency), "{in_way:?}");
    // The next edit notes what it was, not what it would be today.
    let next = typed(&job, &chf, Field::Notes, "call");
    assert_eq!(pays_in(&next), Some("EUR"));
}

/// The cap that a confirmation prints, and the amounts under a second quotation, are held after the order, too.
#[test]
fn amounts_of_another_currency_are_in_the_way_after_the_order() {
    let (eur, chf) = (shop("EUR"), shop("CHF"));
    let job = typed(&ring(), &eur, Field::LiabilityCap, "600");
    let quoted = issue_in(&job, Paper::Quotation, &[(25, "161.00")], Some("EUR"));
    let job = ordered(&quoted, &eur, "161.00");
    for paper in [Paper::Quotation, Paper::Confirmation] {
        assert!(in_the_way(&job, &chf, paper).contains(&Blocker::AmountsCurrency));
        assert!(!in_the_way(&job, &eur, paper).contains(&Blocker::AmountsCurrency));
    }
    assert!(!in_the_way(&job, &chf, Paper::Packing).contains(&Blocker::AmountsCurrency));
}

/// A rate of exchange is one of the shop's currency: of another one it says nothing.
#[test]
fn a_rate_of_exchange_is_of_the_shops_currency() {
    let (usd, chf) = (shop("USD"), shop("CHF"));
    let mut job = ring();
    for (name, text) in [
        (Field::Currency, "EUR"),
        (Field::ExchangeRate, "0.9"),
        (Field::ExchangeDay, "2026-03-01"),
    ] {
        job = typed(&job, &usd, name, text);
    }
    assert_eq!(job.text(Field::AmountsIn), "USD");
    assert!(in_the_way(&job, &chf, Paper::Quotation).contains(&Blocker::AmountsCurrency));
    assert!(!in_the_way(&job, &usd, Paper::Quotation).contains(&Blocker::AmountsCurrency));
}

/// A quotation that goes into another currency after part value and cap were typed doesn't make them amounts
/// of that one in silence: they are held until somebody says so, or types them anew.
#[test]
fn part_value_and_cap_stay_in_the_currency_that_they_were_typed_for() {
    let usd = shop("USD");
    let held = |job: &Job| has(job, &usd, &NoteKind::AmountsInOtherCurrency);
    let in_eur = |job: &Job| {
        let job = typed(job, &usd, Field::Currency, "EUR");
        let job = typed(&job, &usd, Field::ExchangeRate, "0.9");
        typed(&job, &usd, Field::ExchangeDay, "2026-11-20")
    };
    let typed_first = typed(&ring(), &usd, Field::PartValue, "80");
    assert_eq!(typed_first.text(Field::ValuesIn), "USD");
    assert!(!held(&typed_first));
    let changed = in_eur(&typed_first);
    let label =
        |job: &Job| currency_of(Field::PartValue, job, &usd.for_job(job)).map(str::to_owned);
    assert_eq!(
        (held(&changed), label(&changed).as_deref()),
        (true, Some("USD"))
    );
    assert!(in_the_way(&changed, &usd, Paper::Quotation).contains(&Blocker::AmountsCurrency));
    // Typed anew it is of the quotation; so it is once somebody says so.
    let anew = typed(&changed, &usd, Field::PartValue, "72");
    assert_eq!((held(&anew), label(&anew).as_deref()), (false, Some("EUR")));
    let said = typed(&changed, &usd, Field::ValuesIn, "EUR");
    assert_eq!((held(&said), label(&said).as_deref()), (false, Some("EUR")));
    // A job of before any was noted: what it reckoned in until now is noted with the change.
    let older = field(&ring(), Field::PartValue, "80");
    assert_eq!(older.text(Field::ValuesIn), "");
    assert!(held(&in_eur(&older)));
    // With a cap beside it, one of the two is still of before.
    let with_cap = typed(&typed_first, &usd, Field::LiabilityCap, "600");
    let one = typed(&in_eur(&with_cap), &usd, Field::PartValue, "72");
    assert!(held(&one));
    // The other way round nothing is to be asked.
    let after = typed(&in_eur(&ring()), &usd, Field::PartValue, "80");
    assert_eq!(
        (held(&after), label(&after).as_deref()),
        (false, Some("EUR"))
    );
}
