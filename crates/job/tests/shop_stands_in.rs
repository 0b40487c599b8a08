//! What papers of a shop would print of a sample, and rate cards that can't be used as they are typed.

#[path = "hands/shop_sheet.rs"]
mod typing;

use quillbore_job::life::Blocker;
use quillbore_job::shop::sheet::{
    ShopColumn as Column, ShopEdit, ShopLine, ShopList as List, ShopRowAt as At, ShopSheet,
    apply_shop,
};
use quillbore_job::shop::{NotSaid, ShopSays, StandsIn};
use quillbore_job::words;
use typing::{cells, day, done, line, shop};

/// The first start of a shop with one machine of its own, one word where a rate should be: the other cells
/// of the card stand, and no price leaves the house.
#[test]
fn a_cell_of_a_card_that_cant_be_read_takes_no_other_with_it_and_is_in_the_way() {
    for (column, text) in [
        (Column::LaborHour, "fifty"),
        (Column::LaborHour, "-61"),
        (Column::MachineHour, "-95"),
        (Column::MachineHour, "1e300"),
        (Column::MachineHour, "eighty"),
        (Column::Minimum, "two hundred"),
        (Column::Margin, "-500"),
        (Column::Margin, "100"),
        (Column::PriceStep, "0.001"),
    ] {
        let mut typed = vec![
            (Column::ValidFrom, "2026-11-01"),
            (Column::LaborHour, "51"),
            (Column::MachineHour, "61"),
            (Column::Redo, "7"),
        ];
        typed.retain(|(known, _)| *known != column);
        typed.push((column, text));
        let shop = shop(&of_one_card(&typed));
        let [note] = shop.not_used.as_slice() else {
            panic!("{text}: {:?}", shop.not_used)
        };
        assert_eq!(note.row.map(|row| row.0), Some(List::Rates), "{text}");
        assert_eq!(note.column, Some(column), "{text}");
        let in_the_way = StandsIn::Card {
            from: Some(day("2026-11-01")),
            columns: vec![column.key()],
        };
        assert_eq!(shop.stands_in(), [in_the_way], "{text}");
        let rates = &shop.tables.rates;
        assert_eq!(rates.redo_share, 0.07, "{text}");
        assert_eq!(rates.labor_per_hour == 51.0, column != Column::LaborHour);
        let machine = &shop.tables.machines[0];
        assert_eq!(machine.rate_per_hour == 61.0, column != Column::MachineHour);
        let is_hour = matches!(column, Column::LaborHour | Column::MachineHour);
        assert_eq!(shop.has_sample_rates(), is_hour, "{text}");
    }
}

/// A shop with a name, one machine and one card.
fn of_one_card(typed: &[(Column, &str)]) -> ShopSheet {
    let machines = ShopEdit::Samples {
        list: List::Machines,
        count: false,
    };
    done(&[
        line(ShopLine::Name, "Heron Bore"),
        line(ShopLine::Address, "2 Reed Bank"),
        line(ShopLine::Currency, "CHF"),
        cells(List::Machines, At::New, &[(Column::Name, "Otter 1")]),
        machines,
        cells(List::Rates, At::New, typed),
    ])
}

/// A card is in the way as long as it would be in force: not before its day, not after a later one that says
/// that itself; a later one that doesn't say it goes on with it.
#[test]
fn a_bad_card_is_in_the_way_on_its_days_alone() {
    let first = [(Column::ValidFrom, "2026-08-01"), (Column::Margin, "20")];
    let bad = [
        (Column::ValidFrom, "2026-10-01"),
        (Column::Margin, "0,x"),
        (Column::LaborHour, "60"),
    ];
    let silent = [(Column::ValidFrom, "2026-11-01"), (Column::LaborHour, "61")];
    let says = [(Column::ValidFrom, "2026-12-01"), (Column::Margin, "25")];
    let mut sheet = of_one_card(&first);
    for typed in [&bad[..], &silent, &says] {
        sheet = apply_shop(&sheet, &cells(List::Rates, At::New, typed)).expect("an edit");
    }
    let shop = shop(&sheet);
    for (on, from) in [
        ("2026-07-01", None),
        ("2026-09-30", None),
        ("2026-10-01", Some("2026-10-01")),
        ("2026-10-31", Some("2026-10-01")),
        ("2026-11-01", Some("2026-10-01")),
        ("2026-12-01", None),
    ] {
        let card = from.map(|from| StandsIn::Card {
            from: Some(day(from)),
            columns: vec!["margin"],
        });
        let in_the_way: Vec<StandsIn> = card.into_iter().collect();
        assert_eq!(shop.on(day(on)).stands_in(), in_the_way, "{on}");
    }
    // Of two cards of one day nobody knows which one is meant.
    let twice = [(Column::ValidFrom, "2026-12-01"), (Column::Margin, "35")];
    let sheet = apply_shop(&sheet, &cells(List::Rates, At::New, &twice)).expect("an edit");
    let card = StandsIn::Card {
        from: Some(day("2026-12-01")),
        columns: Vec::new(),
    };
    let shop = self::shop(&sheet);
    assert_eq!(shop.on(day("2026-12-02")).stands_in(), [card]);
    assert_eq!(shop.on(day("2026-09-30")).stands_in(), []);
}

/// What papers print under the prices is the shop's own or said to be a sample's; nothing is put in its
/// place without a word.
#[test]
fn a_shop_that_never_said_its_name_is_in_the_way() {
    let not_typed = |says| StandsIn::Said(says, NotSaid::NotTyped);
    assert_eq!(
        shop(&ShopSheet::default()).stands_in(),
        [
            not_typed(ShopSays::Name),
            not_typed(ShopSays::Address),
            not_typed(ShopSays::Currency),
        ]
    );
    let name_alone = done(&[line(ShopLine::Name, "Heron Bore")]);
    assert_eq!(shop(&name_alone).stands_in().len(), 2);
    let emptied = apply_shop(&of_one_card(&[]), &line(ShopLine::Currency, ""));
    let emptied = shop(&emptied.expect("an edit"));
    assert_eq!(emptied.stands_in(), [not_typed(ShopSays::Currency)]);
    let blocker = Blocker::StandsIn(not_typed(ShopSays::Currency));
    assert_eq!(
        words::life::blocker(&blocker),
        "the shop's currency was never typed, and a sample's would be printed: type it on the shop's page (F7)"
    );
}

#[test]
fn a_name_that_cant_be_read_is_told_and_stands_in_the_way() {
    let name = "x".repeat(5_000);
    let lines = [
        line(ShopLine::Name, &name),
        line(ShopLine::Address, "2 Reed Bank"),
        line(ShopLine::Currency, "CHF"),
    ];
    let stands_in = shop(&done(&lines)).stands_in();
    let unread = StandsIn::Said(ShopSays::Name, NotSaid::Unread);
    assert_eq!(stands_in, std::slice::from_ref(&unread));
    assert_eq!(
        words::life::blocker(&Blocker::StandsIn(unread)),
        "the shop's name can't be read, and a sample would stand in its place: correct it on the shop's page (F7)"
    );
}

/// A card that was dropped is none that is in force, whatever day a sample card has.
#[test]
fn a_card_of_a_samples_day_that_cant_be_used_is_in_the_way() {
    let from = (Column::ValidFrom, "2026-07-01");
    let twice = [from, (Column::LaborHour, "61")];
    let mut sheet = of_one_card(&[from, (Column::MachineHour, "80")]);
    sheet = apply_shop(&sheet, &cells(List::Rates, At::New, &twice)).expect("an edit");
    assert_eq!(shop(&sheet).stands_in().len(), 1);
    let sample = cells(
        List::Rates,
        At::Sample("2026-07-01".to_owned()),
        &[(Column::LaborHour, "fifty")],
    );
    let sheet = apply_shop(&of_one_card(&[]), &sample).expect("an edit");
    let shop = shop(&sheet).on(day("2026-11-28"));
    assert!(
        shop.stands_in()
            .iter()
            .any(|of| matches!(of, StandsIn::Card { .. })),
        "{:?}",
        shop.stands_in()
    );
}

/// The rate of a machine that is misspelt would leave that machine at an older rate.
#[test]
fn a_rate_of_no_machine_is_in_the_way() {
    let card = |rates| {
        of_one_card(&[
            (Column::ValidFrom, "2026-10-01"),
            (Column::MachineHour, rates),
        ])
    };
    assert_eq!(shop(&card("Otter 1 81")).stands_in(), []);
    let in_the_way = StandsIn::Card {
        from: Some(day("2026-10-01")),
        columns: vec![Column::MachineHour.key()],
    };
    let misspelt = shop(&card("Oter 1 81"));
    assert_eq!(misspelt.stands_in(), std::slice::from_ref(&in_the_way));
    let said = words::life::blocker(&Blocker::StandsIn(in_the_way));
    assert!(said.contains("2026-10-01"), "{said}");
}

/// A cell that goes on from an older card is told with the card that it stands in.
#[test]
fn the_card_is_named_in_which_the_cell_stands() {
    let bad = [(Column::ValidFrom, "2026-08-01"), (Column::Margin, "x")];
    let later = [(Column::ValidFrom, "2026-10-01"), (Column::LaborHour, "61")];
    let sheet = apply_shop(&of_one_card(&bad), &cells(List::Rates, At::New, &later));
    let in_the_way = StandsIn::Card {
        from: Some(day("2026-08-01")),
        columns: vec!["margin"],
    };
    let shop = shop(&sheet.expect("an edit")).on(day("2026-11-28"));
    assert_eq!(shop.stands_in(), [in_the_way]);
}

/// A sample card that is given another day goes on from the shop's own card before that day.
#[test]
fn a_card_that_stood_for_a_sample_goes_on_from_the_card_before_it() {
    let own = [
        (Column::ValidFrom, "2026-02-01"),
        (Column::DielectricHour, "7"),
    ];
    let redated = cells(
        List::Rates,
        At::Sample("2026-01-01".to_owned()),
        &[(Column::ValidFrom, "2026-10-01")],
    );
    let sheet = apply_shop(&of_one_card(&own), &redated).expect("an edit");
    let shop = shop(&sheet);
    let rates = &shop.rates_on(day("2026-11-28")).rates;
    assert_eq!(rates.dielectric_per_hour, 7.0);
}

/// A card says only what changes: of the machines' rates, too.
#[test]
fn the_rate_of_one_machine_leaves_those_of_the_others() {
    let machine = cells(List::Machines, At::New, &[(Column::Name, "Otter 2")]);
    let card = |from: &str, rates: &str| {
        let typed = [(Column::ValidFrom, from), (Column::MachineHour, rates)];
        cells(List::Rates, At::New, &typed)
    };
    let mut sheet = apply_shop(&of_one_card(&[]), &machine).expect("an edit");
    for edit in [
        card("2026-02-01", "100; Otter 2 90"),
        card("2026-06-01", "otter 2 300"),
        card("2026-08-01", "Otter 1 120"),
        card("2026-10-01", "70; Otter 1 75"),
    ] {
        sheet = apply_shop(&sheet, &edit).expect("an edit");
    }
    let shop = shop(&sheet);
    for (on, rates) in [
        ("2026-03-01", [100.0, 90.0]),
        ("2026-07-01", [100.0, 300.0]),
        ("2026-09-01", [120.0, 300.0]),
        ("2026-11-01", [75.0, 70.0]),
    ] {
        let card = shop.rates_on(day(on));
        let of = |name: &str| card.machines_per_hour.get(name).copied();
        assert_eq!([of("Otter 1"), of("Otter 2")], rates.map(Some), "{on}");
    }
}

/// What can't be read of a count takes only itself: the electrode is there all the same.
#[test]
fn a_count_that_cant_be_read_leaves_the_electrode() {
    for (column, text) in [
        (Column::InDrawer, "2O"),
        (Column::InDrawer, "-5"),
        (Column::Counted, "soon"),
        (Column::Stubs, "100 x 3, 50 of"),
    ] {
        let reed = [
            (Column::Name, "reed 0.7"),
            (Column::Outer, "0.7"),
            (column, text),
        ];
        let sheet = apply_shop(&of_one_card(&[]), &cells(List::Electrodes, At::New, &reed));
        let shop = shop(&sheet.expect("an edit"));
        let told: Vec<_> = shop.not_used.iter().map(|note| note.column).collect();
        assert_eq!(told, [Some(column)], "{text}");
        let tube = shop
            .tables
            .tubes
            .iter()
            .find(|tube| tube.name == "reed 0.7");
        assert!(tube.is_some_and(|tube| tube.stock.is_none() || column != Column::InDrawer));
    }
}

/// A row of the shop's own that can't be used leaves its name to nobody: a sample of that name has other
/// figures.
#[test]
fn no_sample_stands_in_for_a_row_of_its_own() {
    for (list, name, column) in [
        (List::Machines, "Barrow", Column::Stroke),
        (List::Machines, "bARROW", Column::MachineHour),
        (List::Electrodes, "Brass 0.30 x 300", Column::Price),
    ] {
        let typed = cells(list, At::New, &[(Column::Name, name), (column, "soon")]);
        let shop = shop(&done(&[typed]));
        let same = |known: &str| known.eq_ignore_ascii_case(name);
        assert!(
            !shop.tables.machines.iter().any(|row| same(&row.name)),
            "{name}"
        );
        assert!(
            !shop.tables.tubes.iter().any(|row| same(&row.name)),
            "{name}"
        );
        assert_eq!(shop.not_used.len(), 1, "{name}: {:?}", shop.not_used);
    }
}

/// What a machine's row says its hour costs counts before what the sample cards say of a machine that bears
/// its name; a card of the shop's own that names it counts before both.
#[test]
fn a_machines_own_hour_counts_before_a_samples() {
    let machine = cells(
        List::Machines,
        At::New,
        &[(Column::Name, "Barrow"), (Column::MachineHour, "101")],
    );
    let card = |hours| {
        let typed = [
            (Column::ValidFrom, "2026-11-01"),
            (Column::LaborHour, "51"),
            (Column::MachineHour, hours),
        ];
        cells(List::Rates, At::New, &typed)
    };
    let barrow = |shop: &quillbore_job::Shop| {
        let mut machines = shop.tables.machines.iter();
        machines
            .find(|row| row.name == "Barrow")
            .map(|row| row.rate_per_hour)
    };
    assert_eq!(
        barrow(&shop(&done(std::slice::from_ref(&machine)))),
        Some(101.0)
    );
    let other = [machine.clone(), card("Steeple 99")];
    assert_eq!(barrow(&shop(&done(&other))), Some(101.0));
    let named = [machine, card("Barrow 111")];
    assert_eq!(barrow(&shop(&done(&named))), Some(111.0));
}

/// A card that has a rate of a machine which can't be used is none the worse for it.
#[test]
fn a_machine_that_cant_be_used_says_nothing_against_the_card_that_names_it() {
    let machine = [(Column::Name, "Heron"), (Column::Stroke, "long")];
    let card = [
        (Column::ValidFrom, "2026-11-01"),
        (Column::LaborHour, "51"),
        (Column::MachineHour, "Heron 99; Steeple 88"),
    ];
    let shop = shop(&done(&[
        line(ShopLine::Name, "Heron Bore"),
        line(ShopLine::Address, "2 Reed Bank"),
        line(ShopLine::Currency, "CHF"),
        cells(List::Machines, At::New, &machine),
        cells(List::Rates, At::New, &card),
    ]));
    let [note] = shop.not_used.as_slice() else {
        panic!("{:?}", shop.not_used)
    };
    assert_eq!(note.column, Some(Column::Stroke));
    assert_eq!(shop.stands_in(), []);
    let mut machines = shop.tables.machines.iter();
    let steeple = machines
        .find(|row| row.name == "Steeple")
        .expect("a sample");
    assert_eq!(steeple.rate_per_hour, 88.0);
}
