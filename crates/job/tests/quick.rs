//! A price by telephone: what is said at once of five texts, and the job that they make.
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

mod hands;
#[path = "hands/quick.rs"]
mod quick_hands;

use hands::field;
use proptest::prelude::*;
use quick_hands::{answer, made, quick, range, range_of, shop, stops};
use quillbore_calc::finding::Kind;
use quillbore_job::history::{Doing, History};
use quillbore_job::quick::{Assumed, LeadsTo, Minimum, Quick, QuickAnswer, QuickField, Says};
use quillbore_job::results::results_quick;
use quillbore_job::words;
use quillbore_job::{Column, EditRefused, Field, Job, Shop, Unit, apply};
use rust_decimal::Decimal;

fn said_on(quick: &Quick, base: &Job, shop: &Shop) -> String {
    let told = quick.answer(base, shop).told(quick, base, shop);
    told.into_iter().map(|piece| piece.text).collect()
}

fn said(texts: [&str; 5]) -> String {
    said_on(&quick(texts), &Job::default(), shop())
}

fn decimal(text: &str) -> Decimal {
    text.parse().expect("an amount")
}

fn inches() -> Job {
    Job {
        unit: Unit::Inch,
        ..Job::default()
    }
}

#[test]
fn a_range_is_said_with_what_it_takes_for_granted() {
    // Cooling holes in a ring: 36 holes of 0.8 mm, 14 mm deep, in 25 parts.
    let texts = ["718", "0.8", "14", "36", "25"];
    let range = range(texts);
    let ends = |[from, to]: [Decimal; 2]| format!("{from} to {to}");
    let said = said(texts);
    assert_eq!(range.quantity, 25);
    assert!(
        said.starts_with(&format!("About {} USD each, ", ends(range.each))),
        "{said}"
    );
    assert!(
        said.ends_with(
            " machine hours. Assumed: through, no wall behind, one setup, \u{b1}0.05 mm."
        ),
        "{said}"
    );
}

#[test]
fn the_range_is_the_spread_of_the_cost_with_the_margin_in_two_digits_outward() {
    for (texts, parts) in [
        (["718", "0.8", "14", "36", "25"], 25.0),
        (["Ti-6Al-4V", "1.0 +-0.05", "20", "4", "10"], 10.0),
        (["D2", "3", "100", "12", "3"], 3.0),
    ] {
        let typed = quick(texts);
        let job = made(&typed, &Job::default(), shop());
        let figures = results_quick(&job, shop()).figures;
        let (price, lot) = figures.price.zip(figures.lot).expect("a price");
        let range = range(texts);
        assert_eq!(range.minimum, Minimum::Exceeded);
        assert_eq!(
            range.hours,
            [lot.machine_hours.p10, lot.machine_hours.p90],
            "{texts:?}"
        );
        // A margin of 30 % on the price: cost over 0.7.
        let ends = [price.lot_cost.p10, price.lot_cost.p90].map(|cost| cost / 0.7);
        for (said, lot) in [(range.lot, ends), (range.each, ends.map(|lot| lot / parts))] {
            let [from, to] = said.map(|amount| f64::try_from(amount).expect("a number"));
            for (amount, exact) in [(from, lot[0]), (to, lot[1])] {
                let two_digits = format!("{amount:.1e}").parse::<f64>();
                assert_eq!(two_digits, Ok(amount), "{texts:?}");
                // A step in the second digit is a tenth of the first one's worth at most; the price of
                // one part is rounded to cents before.
                assert!((amount - exact).abs() <= exact / 10.0 + 0.005 * parts);
            }
            assert!(from <= lot[0] + 0.005 * parts && lot[1] <= to + 0.005 * parts);
        }
    }
}

#[test]
fn from_the_second_field_on_an_answer_is_given() {
    assert_eq!(
        answer(["718", "", "", "", ""]).says,
        Says::Missing(vec![QuickField::Size])
    );
    assert_eq!(
        said(["", "0.8", "14", "36", "25"]),
        "Type the material for a price."
    );
    assert_eq!(
        said(["", " ", "", "", ""]),
        "Type the material and the size for a price."
    );
    let two = answer(["718", "0.8", "", "", ""]);
    assert!(range_of(&two).is_some());
    assert_eq!(
        two.assumed[..4],
        [
            Assumed::Depth(8.0),
            Assumed::OneHole,
            Assumed::OnePart,
            Assumed::Through
        ]
    );
    let said = said(["718", "0.8", "", "", ""]);
    assert!(
        said.ends_with(" Assumed: 8.00 mm deep (10 diameters), 1 hole, 1 part, through."),
        "{said}"
    );
}

#[test]
fn what_is_assumed_is_priced_as_if_it_were_typed() {
    for (open, typed) in [
        (["718", "0.8", "", "", ""], ["718", "0.8", "8", "1", "1"]),
        (
            ["D2", "1.5 +-0.05", "", "6", "10"],
            ["D2", "1.5 +-0.05", "15", "6", "10"],
        ),
        // The upper limit of a maximum and of a pair of limits is the diameter.
        (
            ["D2", "0.9-1.0", "", "6", "10"],
            ["D2", "0.9-1.0", "10", "6", "10"],
        ),
        (
            ["D2", "1.0 max", "thru", "6", "10"],
            ["D2", "1.0 max", "10 thru", "6", "10"],
        ),
    ] {
        assert_eq!(range(open), range(typed), "{open:?}");
    }
    let inch = quick(["718", "1/32", "", "", ""]).answer(&inches(), shop());
    // 10 / 32 in = 7.9375 mm.
    assert_eq!(inch.assumed[0], Assumed::Depth(7.9375));
}

#[test]
fn a_depth_that_the_sheet_gives_is_not_assumed() {
    let wall = field(&Job::default(), Field::Thickness, "12");
    let typed = quick(["718", "0.8", "thru", "4", "10"]);
    let by_wall = typed.answer(&wall, shop());
    assert_eq!(
        range_of(&by_wall),
        Some(range(["718", "0.8", "12 thru", "4", "10"]))
    );
    let is_depth = |assumed: &Assumed| matches!(assumed, Assumed::Depth(_) | Assumed::Through);
    assert!(!by_wall.assumed.iter().any(is_depth));
    let without = typed.answer(&Job::default(), shop());
    assert_eq!(without.assumed[0], Assumed::Depth(8.0));
    assert!(!without.assumed.contains(&Assumed::Through));
}

#[test]
fn every_text_is_read_as_the_sheet_reads_it() {
    let price = range(["718", "1/32 in", "10", "36x", "25 pcs"]);
    let inch = quick(["718", "1/32", "10 mm", "36", "25"]).answer(&inches(), shop());
    assert_eq!(range_of(&inch), Some(price));
    assert_eq!(
        range(["718", "#60", "10", "36", "25"]),
        range(["718", ".040 in", "10", "36", "25"])
    );
    assert_eq!(
        range(["718", "3/64\"", "10", "36", "25"]),
        range(["718", "1.190625", "10", "36", "25"])
    );
}

#[test]
fn a_text_that_is_not_read_is_told_by_its_field_and_nothing_is_guessed() {
    let texts = ["718", "1/32", "", "", ""];
    assert_eq!(
        said(texts),
        "Size \u{201c}1/32\u{201d}: 1/32 has no unit, and numbers without a unit are millimeters here: type \
         1/32 in, or the decimal in mm."
    );
    for (at, field) in QuickField::ALL.iter().enumerate().skip(1) {
        let mut texts = ["718", "0.8", "14", "36", "25"];
        texts[at] = "banana";
        let Says::Unread(unread) = answer(texts).says else {
            panic!("{texts:?}");
        };
        assert_eq!(unread.len(), 1);
        assert_eq!(unread[0].0, *field);
        assert!(said(texts).contains("\u{201c}banana\u{201d}: "));
    }
    // Where several are not read, each is told.
    let said = said(["718", "big", "deep", "many", "few"]);
    for word in ["Size", "Depth", "Holes in one part", "Parts"] {
        assert!(said.contains(&format!("{word} \u{201c}")), "{said}");
    }
    // Something that stands on the sheet already is not passed over.
    let typed = quick(["718", "0.8", "14", "36", "25"]);
    for (on_sheet, text) in [
        (Field::Margin, "a third"),
        (Field::DefaultTolerance, "tight"),
        (Field::Machine, "Old Mule"),
    ] {
        let base = field(&Job::default(), on_sheet, text);
        assert_eq!(typed.answer(&base, shop()).says, Says::SheetUnread);
    }
    let long = "8".repeat(100_001);
    let answer = answer(["718", &long, "14", "36", "25"]);
    assert!(matches!(
        answer.says,
        Says::Refused(EditRefused::TextTooLong { .. })
    ));
}

#[test]
fn what_can_not_be_drilled_is_said_plainly() {
    // 100 mm on a tube of 0.25 is 400 diameters: no feed is known beyond 200.
    let deep = ["718", "0.3", "100", "1", "1"];
    assert!(matches!(
        stops(deep)[..],
        [Kind::DepthUnknown { most: 200.0, .. }]
    ));
    assert!(
        said(deep)
            .starts_with("Can't be quoted: 202 diameters deep, and no feed is known beyond 200")
    );
    // The limits that nobody gave are named first where it is they that can't be held.
    let wide = ["718", "6.0", "", "1", "1"];
    assert!(matches!(stops(wide)[..], [Kind::NoTube { .. }]));
    assert!(
        said(wide).contains(" Assumed: \u{b1}0.05 mm, 60.00 mm deep (10 diameters)"),
        "{}",
        said(wide)
    );
    let close = ["718", "0.8 +-0.005", "10", "36", "25"];
    assert!(matches!(
        stops(close)[..],
        [Kind::LimitsTooClose { .. }, ..]
    ));
    // 3 mm over 300 mm can be done, from both ends.
    let both = answer(["718", "3.0", "300", "1", "1"]);
    assert!(range_of(&both).is_some());
    assert!(both.assumed.contains(&Assumed::BothEnds));
    assert!(!both.assumed.contains(&Assumed::OneSetup));
    assert!(matches!(both.checks[..], [Kind::EndsMayMiss { .. }]));
    assert_eq!(both.checks_told(&Job::default(), shop()).len(), 1);
    // 0.15 mm through 2 mm, one hole in one part: the smallest tube's own machine.
    let thin = answer(["718", "0.15", "2", "1", "1"]);
    assert!(range_of(&thin).is_some());
    assert!(thin.assumed.contains(&Assumed::Machine("Wren".to_owned())));
}

/// The shop with another minimum charge.
fn with_minimum(charge: f64) -> Shop {
    let mut shop = shop().clone();
    shop.tables.rates.minimum_charge = charge;
    shop
}

#[test]
fn the_minimum_charge_is_said_where_it_matters() {
    let base = Job::default();
    let shop = with_minimum(5_000.0);
    let small = quick(["718", "0.8", "14", "4", "7"]);
    let all = range_of(&small.answer(&base, &shop)).expect("a range");
    // 5,000 over 7 is 714.2857: rounded up, so that the lot is not below the charge.
    assert_eq!(all.minimum, Minimum::Decides);
    assert_eq!(all.each, [decimal("714.29"); 2]);
    assert_eq!(all.lot, [decimal("5000.03"); 2]);
    let said = said_on(&small, &base, &shop);
    assert!(said.starts_with("Minimum 5,000 USD for 7. "), "{said}");
    // From the minimum up, in between.
    let one = ["718", "0.8", "", "", ""];
    let begins = range(one);
    assert_eq!(begins.minimum, Minimum::Begins);
    assert_eq!(
        (begins.each[0], begins.lot[0]),
        (decimal("165.00"), decimal("165.00"))
    );
    let said = said_on(&quick(one), &base, self::shop());
    assert!(
        said.starts_with(&format!(
            "From the minimum of 165 USD up to about {} for 1. ",
            begins.lot[1]
        )),
        "{said}"
    );
    // Two digits of an amount just above the minimum never lie below it.
    let exact = results_quick(
        &made(&quick(["718", "0.8", "14", "4", "7"]), &base, self::shop()),
        self::shop(),
    );
    let low = exact.figures.price.expect("a price").lot_cost.p10 / 0.7;
    let near = with_minimum(low - 1.0);
    let beside = range_of(&small.answer(&base, &near)).expect("a range");
    assert_eq!(beside.minimum, Minimum::Begins);
    assert!(f64::try_from(beside.lot[0]).expect("a number") >= low - 1.0);
}

#[test]
fn a_material_goes_by_what_is_said_of_it() {
    let with = |material| answer([material, "1.0", "20", "4", "10"]);
    let named = with("Titanium Ti-6Al-4V");
    assert_eq!(with("Ti-6Al-4V"), named);
    let first = |answer: &QuickAnswer| answer.assumed[0].clone();
    // A part of one name alone is taken for it, and said; the sheet's own line does the same.
    assert_eq!(
        first(&with("6061 alum")),
        Assumed::Material("Aluminum 6061".to_owned())
    );
    let typed = quick(["6061 alum", "1.0", "20", "4", "10"]);
    let job = made(&typed, &Job::default(), shop());
    assert_eq!(job.text(Field::Material), "Aluminum 6061");
    // A family: the range holds each of it, and the sheet asks which.
    for text in [
        "titanium",
        "tungsten carbide",
        "stainless steel",
        "Stainless",
        "nickel",
        "tool steel",
        "inconel",
        "aluminium",
        "steel",
    ] {
        let any = with(text);
        assert!(range_of(&any).is_some(), "{text}");
        let Assumed::AnyMaterial(number) = first(&any) else {
            panic!("{text}: {:?}", any.assumed);
        };
        assert!((2..=12).contains(&number), "{text}: {number}");
        let typed = quick([text, "1.0", "20", "4", "10"]);
        let job = made(&typed, &Job::default(), shop());
        assert_eq!(job.text(Field::Material), text);
    }
    // Titanium burns slower than nickel-titanium, which "titan" may mean, too.
    for (text, rows) in [
        ("titanium", ["Titanium grade 2", "Ti-6Al-4V"]),
        ("titan", ["Nickel-titanium", "Ti-6Al-4V"]),
        ("iron", ["Iron-nickel 36", "Iron-nickel-cobalt 29-17"]),
    ] {
        let all = range_of(&with(text)).expect("a range");
        for row in rows {
            let one = range_of(&with(row)).expect("a range");
            assert!(
                all.each[0] <= one.each[0] && one.each[1] <= all.each[1],
                "{text}, {row}"
            );
            assert!(all.hours[0] <= one.hours[0] && one.hours[1] <= all.hours[1]);
        }
    }
    // "alu" begins aluminum, though tantalum has it, too.
    assert_eq!(first(&with("alu")), Assumed::AnyMaterial(3));
    assert_eq!(with("unobtainium").says, Says::UnknownMaterial);
    assert!(
        said(["unobtainium", "1.0", "", "", ""]).contains("is not in the shop's list of materials")
    );
    assert!(matches!(with("a").says, Says::ManyMaterials(number) if number > 12));
    assert!(said(["a", "1.0", "", "", ""]).contains("type more of the name"));
}

#[test]
fn every_assumption_leads_to_where_one_says_otherwise() {
    let typed = quick(["718", "0.8", "14", "36", "25"]);
    let base = Job::default();
    let before = typed.answer(&base, shop());
    let told = before.all_assumed(&base, shop());
    assert_eq!(told.len(), before.assumed.len());
    assert!(told.iter().all(|piece| piece.leads_to.is_some()));
    // What was said on the sheet beforehand is assumed no more.
    for (assumed, says) in [
        (Assumed::Condition, vec![(Field::Condition, "aged")]),
        (
            Assumed::Fits,
            vec![
                (Field::SizeX, "100"),
                (Field::SizeY, "100"),
                (Field::SizeZ, "20"),
                (Field::Mass, "2"),
            ],
        ),
        (Assumed::WithoutPartValue, vec![(Field::PartValue, "400")]),
        (
            Assumed::Machine("Barrow".to_owned()),
            vec![(Field::Machine, "Steeple")],
        ),
        (
            Assumed::Tolerance(0.05),
            vec![(Field::DefaultTolerance, "+-0.04")],
        ),
    ] {
        assert!(before.assumed.contains(&assumed), "{assumed:?}");
        let told = says.iter();
        let base = told.fold(Job::default(), |job, (on_sheet, text)| {
            field(&job, *on_sheet, text)
        });
        let after = typed.answer(&base, shop());
        assert!(!after.assumed.contains(&assumed), "{assumed:?}");
        assert_eq!(after.assumed.len(), before.assumed.len() - 1);
    }
    // A machine that was typed is the one that is priced.
    let on = field(&base, Field::Machine, "Steeple");
    assert!(
        range_of(&typed.answer(&on, shop())).expect("a range").each[1]
            > range(["718", "0.8", "14", "36", "25"]).each[1]
    );
    let own = "(format: 1, rates: [(valid_from: \"2026-01-01\", currency: \"USD\", minor_digits: 2, \
               labor_per_hour: 48.0, machines_per_hour: {}, dielectric_per_hour: 1.8, \
               power_per_hour: 0.9, margin: 0.30, minimum_charge: 150.0, redo_share: 0.03, \
               part_risk_share: 0.005, pedigree: \"our own\")])";
    let own = Shop::with_file(own.as_bytes()).expect("a shop");
    assert!(before.assumed.contains(&Assumed::SampleRates));
    let after = typed.answer(&base, &own);
    assert!(range_of(&after).is_some() && !after.assumed.contains(&Assumed::SampleRates));
}

#[test]
fn the_job_is_made_in_one_step_with_every_text_as_it_stands() {
    let typed = quick(["718", "0.8 +-0.05", "14 deep", "36x", "25 pcs"]);
    let mut history = History::new(Job::default(), true);
    let edit = typed.edit(history.now(), shop()).expect("an edit");
    let doing = Doing {
        before: (),
        after: (),
        gesture: None,
    };
    let label = words::quick::MADE.to_owned();
    history.do_named(&edit, label, doing).expect("it is done");
    let job = Job::clone(history.now());
    assert_eq!(job.text(Field::Material), "718");
    assert_eq!(job.text(Field::Quantity), "25 pcs");
    assert_eq!(job.text(Field::Machine), "Barrow");
    assert_eq!(job.rows.len(), 1);
    for (column, text) in [
        (Column::Count, "36x"),
        (Column::Size, "0.8 +-0.05"),
        (Column::Depth, "14 deep"),
        (Column::End, ""),
        (Column::Behind, ""),
    ] {
        assert_eq!(job.rows[0].cell(column).text, text);
    }
    assert!(!Quick::is_offered(&job));
    assert_eq!(typed.edit(&job, shop()), None);
    assert_eq!(typed.answer(&job, shop()).says, Says::Nothing);
    assert_eq!(history.undo_label(), Some("make the quick price a job"));
    history.undo();
    assert!(Quick::is_offered(history.now()) && history.now().fields.is_empty());
    assert_eq!(history.undo(), None);
    // What can't be read arrives, too, with its reason.
    let unread = quick(["unobtainium", "banana", "deep", "many", "few"]);
    let job = made(&unread, &Job::default(), shop());
    assert_eq!(job.text(Field::Material), "unobtainium");
    assert!(job.field(Field::Quantity).why().is_some());
    assert!(job.rows[0].size.why().is_some() && job.rows[0].count.why().is_some());
    // What was not typed stays empty: nothing on the sheet was said by nobody.
    let two = made(&quick(["718", "0.8", "", "", ""]), &Job::default(), shop());
    assert!(two.rows[0].depth.is_empty() && two.rows[0].count.is_empty());
    assert!(two.field(Field::Quantity).is_empty());
    // In the job's unit.
    let inch = made(&quick(["718", "1/32", ".5", "", ""]), &inches(), shop());
    assert_eq!(inch.rows[0].size.unit(), Some(Unit::Inch));
    assert_eq!(
        quick(["", " ", "", "", ""]).edit(&Job::default(), shop()),
        None
    );
    let parts = made(&quick(["", "", "", "", "25"]), &Job::default(), shop());
    assert!(parts.rows.is_empty());
}

#[test]
fn a_quick_price_is_offered_on_an_empty_sheet_alone() {
    let empty = Job::default();
    assert!(Quick::is_offered(&empty));
    assert!(Quick::is_offered(&field(
        &empty,
        Field::Customer,
        "Alder Finch Rotors"
    )));
    for on_sheet in [Field::Material, Field::Quantity] {
        assert!(!Quick::is_offered(&field(&empty, on_sheet, "25")));
    }
    assert!(!Quick::is_offered(&hands::cells(&empty, 0, &["A"])));
}

#[test]
fn the_fields_stand_in_the_order_of_typing() {
    use QuickField::{Depth, Holes, Material, Parts, Size};
    assert_eq!(QuickField::ALL, [Material, Size, Depth, Holes, Parts]);
    let mut typed = Quick::default();
    for field in QuickField::ALL {
        typed.text_mut(*field).push_str(field.key());
        assert_eq!(typed.text(*field), field.key());
    }
    assert_eq!(Depth.goes_to(), LeadsTo::Column(Column::Depth));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    #[test]
    fn no_text_is_lost_and_none_does_harm(texts in proptest::array::uniform5("\\PC{0,12}")) {
        let typed = quick(texts.each_ref().map(String::as_str));
        let base = Job::default();
        let first = typed.answer(&base, shop());
        prop_assert_eq!(&first, &typed.answer(&base, shop()));
        prop_assert!(!first.told(&typed, &base, shop()).is_empty());
        let Some(edit) = typed.edit(&base, shop()) else {
            prop_assert!(QuickField::ALL.iter().all(|field| typed.is_blank(*field)));
            return Ok(());
        };
        let (job, _) = apply(&base, &edit).unwrap();
        for field in QuickField::ALL.iter().skip(1).filter(|field| !typed.is_blank(**field)) {
            let there = match field.goes_to() {
                LeadsTo::Field(on_sheet) => job.text(on_sheet),
                LeadsTo::Column(column) => job.rows[0].cell(column).text,
                LeadsTo::Rates => "",
            };
            prop_assert_eq!(there, typed.text(*field));
        }
    }
}
