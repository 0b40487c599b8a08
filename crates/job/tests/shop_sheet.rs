//! The shop as it is typed: edits, tables out of it, files, and what can't be used.

#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

#[path = "hands/shop_sheet.rs"]
mod typing;

use std::collections::BTreeSet;
use std::sync::{Arc, OnceLock};

use chrono::NaiveDate;
use proptest::prelude::*;
use proptest::sample::select;
use quillbore_job::Unit;
use quillbore_job::drawer::Thing;
use quillbore_job::form::{Dates, Form, Numbers};
use quillbore_job::shop::sheet::{
    ShopColumn as Column, ShopEdit, ShopFault, ShopKind, ShopLine, ShopList as List, ShopNote,
    ShopRowAt as At, ShopSheet, Still, apply_shop, merge_shop, merge_since, read_sheet, shown_rows,
    still_sample, write_sheet,
};
use quillbore_job::shop::{Shop, StandsIn};
use quillbore_job::shop_history::{Changing, ShopHistory};
use typing::{cells, day, done, line, shop};

/// An empty sheet is the samples, row by row.
#[test]
fn nothing_typed_is_the_samples() {
    let mut shop = shop(&ShopSheet::default());
    assert!(shop.has_sample_rates() && shop.not_used.is_empty());
    let sample = Shop::embedded().expect("samples");
    shop.name.clone_from(&sample.name);
    assert_eq!(shop.tables, sample.tables);
    assert_eq!(shop.calendar, sample.calendar);
    assert_eq!(shop.texts, sample.texts);
}

/// A new shop: one machine of which only name and rate are known, five diameters, three rates.
#[test]
fn a_shop_of_its_own_is_typed_in_a_few_cells() {
    let sheet = done(&[
        line(ShopLine::Name, "Tallow Street Fine Bores"),
        line(ShopLine::Currency, "eur"),
        cells(
            List::Rates,
            At::New,
            &[
                (Column::ValidFrom, "2026-11-01"),
                (Column::LaborHour, "45"),
                (Column::MachineHour, "60"),
            ],
        ),
        cells(
            List::Machines,
            At::New,
            &[(Column::Name, "Plover"), (Column::MachineHour, "58")],
        ),
        ShopEdit::Samples {
            list: List::Machines,
            count: false,
        },
        ShopEdit::SetCells {
            list: List::Electrodes,
            rows: ["0.3", "0.5", "0.8", "1", "1/16 in"]
                .map(|size| (At::New, vec![(Column::Outer, size.to_owned())]))
                .to_vec(),
            unit: Unit::Mm,
        },
        ShopEdit::Samples {
            list: List::Electrodes,
            count: false,
        },
    ]);
    let shop = shop(&sheet);
    // The card has one hour for all machines.
    let mut notes = shop.not_used.iter();
    assert!(notes.all(|note| matches!(note.fault, ShopFault::CardForAll { .. })));
    let names: Vec<&str> = shop
        .tables
        .machines
        .iter()
        .map(|row| row.name.as_str())
        .collect();
    assert_eq!(names, ["Plover"]);
    let machine = &shop.tables.machines[0];
    // The card says 60 for all machines, and the card in force wins.
    assert_eq!(machine.rate_per_hour, 60.0);
    assert!(!machine.changer && !machine.index_axis && machine.tilt_deg.is_none());
    let sizes: Vec<f64> = shop.tables.tubes.iter().map(|tube| tube.outer_mm).collect();
    assert_eq!(sizes, [0.3, 0.5, 0.8, 1.0, 1.5875]);
    assert_eq!(shop.tables.tubes[1].name, "brass 0.50 x 300");
    assert!(
        shop.tables
            .tubes
            .iter()
            .all(|tube| tube.bore_mm < tube.outer_mm / 2.0)
    );
    let rates = &shop.tables.rates;
    assert_eq!((rates.currency.as_str(), rates.minor_digits), ("EUR", 2));
    assert_eq!((rates.labor_per_hour, rates.margin), (45.0, 0.3));
    assert!(!shop.has_sample_rates());
    assert_eq!(
        still_sample(&sheet),
        [
            Still::Name,
            Still::Margin,
            Still::Running,
            Still::Guides,
            Still::ElectrodePrices(5),
            Still::Terms,
            Still::Exclusions,
        ]
    );
    // Own guides stand beside those of the samples until these are left out.
    let guide = |sheet: &ShopSheet, edit: &ShopEdit| apply_shop(sheet, edit).expect("an edit");
    let typed = guide(
        &sheet,
        &cells(List::Guides, At::New, &[(Column::ForElectrode, "0.5")]),
    );
    assert!(still_sample(&typed).contains(&Still::Guides));
    let out = ShopEdit::Samples {
        list: List::Guides,
        count: false,
    };
    assert!(!still_sample(&guide(&typed, &out)).contains(&Still::Guides));
}

/// What is counted of electrodes and guides is told apart where both have one name; pieces stand beside
/// the new ones.
#[test]
fn counts_and_pieces_reach_the_tables() {
    let (first, guide) = {
        let samples = &Shop::embedded().expect("samples").tables;
        (
            samples.tubes[0].name.clone(),
            samples.guides[0].name.clone(),
        )
    };
    let sheet = done(&[
        cells(
            List::Electrodes,
            At::Sample(first),
            &[
                (Column::Name, "fine"),
                (Column::InDrawer, "4"),
                (Column::Counted, "2026-11-20"),
                (Column::Stubs, "180; 2 x 3 in"),
            ],
        ),
        cells(
            List::Guides,
            At::Sample(guide),
            &[
                (Column::Name, "fine"),
                (Column::InDrawer, "1"),
                (Column::Counted, "2026-11-25"),
            ],
        ),
    ]);
    let shop = shop(&sheet);
    assert_eq!(shop.not_used, []);
    let tube = &shop.tables.tubes[0];
    // 3 in are 76.2 mm.
    assert_eq!((tube.name.as_str(), tube.stock), ("fine", Some(4)));
    assert_eq!(tube.stubs, [(1, 180.0), (2, 76.2)]);
    assert!(
        shop.tables.tubes[1..]
            .iter()
            .all(|tube| tube.stubs.is_empty())
    );
    let counted = |thing| {
        let day = shop.counted.get(&(thing, "fine".to_owned()));
        day.map(ToString::to_string)
    };
    assert_eq!(counted(Thing::Electrode).as_deref(), Some("2026-11-20"));
    assert_eq!(counted(Thing::Guide).as_deref(), Some("2026-11-25"));
}

/// A card goes on with what the one before it says; a day between them has the first.
#[test]
fn a_card_says_only_what_changes() {
    let sheet = done(&[
        cells(
            List::Rates,
            At::New,
            &[
                (Column::ValidFrom, "2026-01-01"),
                (Column::LaborHour, "45"),
                (Column::Margin, "25 %"),
            ],
        ),
        cells(
            List::Rates,
            At::New,
            &[(Column::ValidFrom, "2027-01-01"), (Column::LaborHour, "47")],
        ),
    ]);
    let shop = shop(&sheet);
    let on = |day: NaiveDate| &shop.rates_on(day).rates;
    let before = on(day("2026-12-31"));
    let after = on(day("2027-01-01"));
    assert_eq!((before.labor_per_hour, before.margin), (45.0, 0.25));
    assert_eq!((after.labor_per_hour, after.margin), (47.0, 0.25));
}

#[test]
fn a_sample_that_is_typed_over_keeps_the_rest_and_its_place() {
    let at = At::Sample("Steeple".to_owned());
    let sheet = done(&[cells(List::Machines, at, &[(Column::Stroke, "700")])]);
    let shop = shop(&sheet);
    let strokes: Vec<f64> = shop
        .tables
        .machines
        .iter()
        .map(|row| row.stroke_mm)
        .collect();
    assert_eq!(shop.tables.machines.len(), 3);
    assert!(strokes.contains(&700.0) && !strokes.contains(&850.0));
    let rows = shown_rows(&sheet, List::Machines, true);
    let names: Vec<&str> = rows.iter().map(|row| row.text(Column::Name)).collect();
    assert_eq!(names, ["Barrow", "Steeple", "Wren"]);
    // Emptied again it is the sample.
    let id = sheet.own(List::Machines)[0].id;
    let emptied = cells(List::Machines, At::Own(id), &[(Column::Stroke, "")]);
    let sheet = apply_shop(&sheet, &emptied).expect("emptied");
    assert!(sheet.own(List::Machines).is_empty());
}

#[test]
fn a_sample_that_is_deleted_is_gone_until_it_is_brought_back() {
    let sheet = done(&[ShopEdit::DeleteRows {
        list: List::Machines,
        rows: vec![At::Sample("Wren".to_owned())],
    }]);
    assert_eq!(shop(&sheet).tables.machines.len(), 2);
    let back = ShopEdit::Samples {
        list: List::Machines,
        count: true,
    };
    let sheet = apply_shop(&sheet, &back).expect("back");
    assert_eq!(shop(&sheet).tables.machines.len(), 3);
}

/// What can't be used is told with its place, and takes nothing else with it.
#[test]
fn one_bad_row_is_left_out_alone() {
    let sheet = done(&[
        cells(
            List::Electrodes,
            At::New,
            &[(Column::Outer, "0.5"), (Column::Bore, "0.6")],
        ),
        cells(List::Electrodes, At::New, &[(Column::Outer, "half")]),
        cells(
            List::Electrodes,
            At::New,
            &[(Column::Outer, "0.77"), (Column::Price, "1.2")],
        ),
        cells(List::Machines, At::New, &[(Column::Name, "barrow")]),
        cells(
            List::Machines,
            At::New,
            &[(Column::Name, "Plover"), (Column::HeldBack, "900")],
        ),
        cells(
            List::Rates,
            At::New,
            &[
                (Column::ValidFrom, "2026-11-01"),
                (Column::MachineHour, "Nobody 3; Wren 65"),
            ],
        ),
        cells(List::Materials, At::New, &[(Column::Name, "our bronze")]),
        cells(List::DaysOff, At::New, &[(Column::Day, "Easter")]),
        line(ShopLine::HoursPerDay, "30"),
    ]);
    let shop = shop(&sheet);
    let told: Vec<String> = shop.not_used.iter().map(ToString::to_string).collect();
    let about = |text: &str| told.iter().any(|note| note.contains(text));
    for text in [
        "the bore must be smaller",
        "half",
        "Plover: the length held back",
        "Nobody",
        "Material our bronze, family is missing",
        "Easter",
        "24 hours",
    ] {
        assert!(about(text), "{text} in {told:#?}");
    }
    assert!(shop.tables.tubes.iter().any(|tube| tube.outer_mm == 0.77));
    let rate = |name: &str| {
        let mut machines = shop.tables.machines.iter();
        machines
            .find(|row| row.name == name)
            .map(|row| row.rate_per_hour)
    };
    assert_eq!(rate("Wren"), Some(65.0));
    let is_missing = |fault: &ShopFault| *fault == ShopFault::Missing;
    assert!(shop.not_used.iter().any(|note| is_missing(&note.fault)));
}

#[test]
fn a_sheet_comes_back_from_its_file_to_the_letter() {
    let sheet = done(&[
        line(ShopLine::Name, "Tallow Street \"Fine\" Bores"),
        line(ShopLine::Address, "1 Tallow Street\nExampleton"),
        line(ShopLine::UsualTolerance, "0.002 in"),
        cells(
            List::Customers,
            At::New,
            &[
                (Column::Name, "Alder Finch Rotors"),
                (Column::Margin, "22 %"),
            ],
        ),
        cells(
            List::Customers,
            At::New,
            &[(Column::Name, "odd"), (Column::Margin, "much")],
        ),
        cells(
            List::StartValues,
            At::Sample("setup_min".to_owned()),
            &[(Column::Value, "20 to 50")],
        ),
        ShopEdit::DeleteRows {
            list: List::Guides,
            rows: vec![At::Sample("guide 0.10".to_owned())],
        },
        ShopEdit::Samples {
            list: List::Machines,
            count: false,
        },
        ShopEdit::SetUnit(Unit::Inch),
    ]);
    let text = write_sheet(&sheet);
    assert!(text.starts_with("(\n  format: 3,"), "{text}");
    let back = read_sheet(text.as_bytes()).expect("read");
    assert_eq!(back, sheet);
    assert_eq!(write_sheet(&back), text);
    let newer = text.replacen("format: 3", "format: 4", 1);
    assert!(read_sheet(newer.as_bytes()).is_err());
    let unknown = text.replacen("\"customers\"", "\"clients\"", 1);
    assert!(read_sheet(unknown.as_bytes()).is_err());
    for cut in (0..text.len())
        .step_by(7)
        .filter(|cut| text.is_char_boundary(*cut))
    {
        assert!(read_sheet(&text.as_bytes()[..cut]).is_err(), "{cut}");
    }
}

/// A file that gave numbers is the same shop as the sheet made of it.
#[test]
fn an_older_file_is_the_same_shop_as_a_sheet() {
    let old = r#"(
        format: 2,
        name: "Tallow Street Fine Bores",
        address: ["1 Tallow Street", "Exampleton"],
        usual_tolerance_mm: 0.04,
        without: ["Wren", "guide 0.10", "brass 0.10 x 150"],
        families: { Nickel: (feed_mm_min: (9.0, 31.0), wear: (0.6, 1.4), tube: Copper, pedigree: "ours") },
        materials: [
            (name: "our bronze", also: ["B12"], family: Copper, hazards: [CopperLead], density_g_cm3: 8.7),
            (name: "our 718", family: Nickel, density_g_cm3: 8.2, resistivity_uohm_cm: (120.0, 128.5),
             process: (feed_mm_min: (7.0, 22.0), wear: (0.5, 1.1), tube: Brass, pedigree: "test burns")),
        ],
        tubes: [(name: "brass 0.50 x 300", material: Brass, outer_mm: 0.5, bore_mm: 0.17, channels: 1,
                 length_mm: 300.0, price: 0.285, stock: 12)],
        guides: [(name: "guide 0.50", tube_mm: 0.5, life_holes: 350.0, price: 27.5, stock: 2)],
        machines: [(name: "Plover", part_mm: (400.0, 300.0, 200.0), mass_kg: 180.0, stroke_mm: 300.0,
            tube_mm: (0.3, 3.0), tube_length_mm: 400.0, held_back_mm: 90.0, stand_off_mm: 6.0,
            pressure_bar: 75.0, changer: true, index_axis: false, tilt_deg: (-15.0, 60.0),
            table_rapid_mm_min: 3000.0, head_rapid_mm_min: 2500.0, attended: 0.4, rate_per_hour: 61.0)],
        rates: [(valid_from: "2026-02-01", currency: "EUR", minor_digits: 2, labor_per_hour: 41.0,
            machines_per_hour: {"Plover": 63.0}, dielectric_per_hour: 1.7, power_per_hour: 0.8,
            margin: 0.285, minimum_charge: 140.0, price_step: 0.05, redo_share: 0.029, part_risk_share: 0.0057)],
        calendar: (work_days: [Mon, Tue, Wed, Thu], hours_per_day: 9.0, unattended_hours_per_day: 2.5,
                   days_off: ["2026-12-24"]),
        start: (setup_min: ((20.0, 55.0), "timed"), gap_mm: ([(0.1, (0.01, 0.03)), (1.0, (0.03, 0.09))], "measured")),
    )"#;
    let direct = Shop::with_file(old.as_bytes()).expect("a shop");
    let sheet = read_sheet(old.as_bytes()).expect("a sheet");
    let mut typed = shop(&sheet);
    // Older files say no day of a count: that is all there is to be told.
    let mut notes = typed.not_used.iter();
    assert!(notes.all(|note| note.fault == ShopFault::CountUndated));
    assert_eq!(typed.not_used.len(), 2);
    assert_eq!(typed.tables, direct.tables);
    assert_eq!(typed.calendar, direct.calendar);
    assert_eq!(
        (&typed.name, &typed.address),
        (&direct.name, &direct.address)
    );
    assert_eq!(typed.texts, direct.texts);
    assert_eq!(typed.usual_tolerance_mm, direct.usual_tolerance_mm);
    typed = Shop::with_file(write_sheet(&sheet).as_bytes()).expect("a shop");
    assert_eq!(typed.tables, direct.tables);
}

#[test]
fn what_was_changed_is_noted_and_undone_step_by_step() {
    let mut history = ShopHistory::new(ShopSheet::default());
    let who = Changing {
        day: day("2026-11-27"),
        by: "front desk",
    };
    let edit = cells(List::Machines, At::New, &[(Column::Name, "Plover")]);
    assert_eq!(history.do_edit(&edit, who), Ok(true));
    let before = Arc::clone(history.now());
    let id = before.own(List::Machines)[0].id;
    let rate = cells(List::Machines, At::Own(id), &[(Column::MachineHour, "61")]);
    assert_eq!(history.do_edit(&rate, who), Ok(true));
    assert_eq!(history.do_edit(&rate, who), Ok(false));
    assert_eq!(
        history.undo_label(),
        Some("machine Plover: machine hour 61")
    );
    assert!(history.undo(who));
    assert_eq!(history.now().rows, before.rows);
    assert!(history.redo(who));
    let told: Vec<&str> = {
        let changes = history.now().changes.iter();
        changes.map(|change| change.what.as_str()).collect()
    };
    assert_eq!(
        told,
        [
            "machine Plover: name Plover",
            "machine Plover: machine hour 61",
            "undo: machine Plover: machine hour 61",
            "machine Plover: machine hour 61",
        ]
    );
    // An identity that was given out once is never given out again.
    history.undo(who);
    history.undo(who);
    history.do_edit(&edit, who).expect("again");
    assert_ne!(history.now().own(List::Machines)[0].id, id);
}

/// Both desks' edits stand, or theirs is told and can be taken.
#[test]
fn two_desks_edits_stand_or_are_told() {
    let base = done(&[cells(List::Machines, At::New, &[(Column::Name, "Plover")])]);
    let id = base.own(List::Machines)[0].id;
    let own = |column, text| cells(List::Machines, At::Own(id), &[(column, text)]);
    let ours = apply_shop(&base, &own(Column::Stroke, "310")).expect("ours");
    let ours = apply_shop(&ours, &own(Column::Pressure, "80")).expect("ours");
    let ours = apply_shop(
        &ours,
        &cells(List::Guides, At::New, &[(Column::ForElectrode, "0.45")]),
    )
    .expect("ours");
    let theirs = apply_shop(&base, &own(Column::Pressure, "90")).expect("theirs");
    let theirs = apply_shop(&theirs, &own(Column::PartX, "410")).expect("theirs");
    let theirs = apply_shop(
        &theirs,
        &cells(List::Customers, At::New, &[(Column::Name, "Quarry")]),
    )
    .expect("theirs");
    let merged = merge_shop(&base, &ours, &theirs);
    let row = &merged.sheet.own(List::Machines)[0];
    let texts =
        [Column::Stroke, Column::Pressure, Column::PartX].map(|column| row.cell(column).text());
    assert_eq!(texts, ["310", "80", "410"]);
    let guide = merged.sheet.own(List::Guides)[0].id;
    let customer = merged.sheet.own(List::Customers)[0].id;
    assert_ne!(guide, customer);
    assert_eq!(merged.clashes.len(), 1);
    let take = merged.clashes[0].take_theirs().expect("an edit");
    let taken = apply_shop(&merged.sheet, &take).expect("theirs");
    assert_eq!(
        taken.own(List::Machines)[0].cell(Column::Pressure).text(),
        "90"
    );
}

/// While a row was being saved another desk began one of the same identity, and more was typed here: each
/// text stands in the row that it was typed in.
#[test]
fn what_is_typed_while_a_save_is_under_way_lands_in_its_own_row() {
    let base = ShopSheet::default();
    let begin = |sheet: &ShopSheet, name: &str| {
        let edit = cells(List::Machines, At::New, &[(Column::Name, name)]);
        apply_shop(sheet, &edit).expect("a row")
    };
    let (saved, theirs) = (begin(&base, "Plover"), begin(&base, "Dunlin"));
    let id = saved.own(List::Machines)[0].id;
    assert_eq!(theirs.own(List::Machines)[0].id, id);
    let on_shelf = merge_shop(&base, &saved, &theirs);
    // Since then its stroke was typed, and a third machine begun.
    let stroke = cells(List::Machines, At::Own(id), &[(Column::Stroke, "310")]);
    let now = begin(&apply_shop(&saved, &stroke).expect("typed"), "Knot");
    let merged = merge_since(&saved, &now, &on_shelf.sheet, &on_shelf.renumbered);
    assert_eq!(merged.clashes, []);
    let rows = merged.sheet.own(List::Machines).iter();
    let said = rows
        .clone()
        .map(|row| [Column::Name, Column::Stroke].map(|column| row.cell(column).text().to_owned()));
    let said: Vec<_> = said.collect();
    let machines = [["Dunlin", ""], ["Plover", "310"], ["Knot", ""]];
    assert_eq!(said, machines.map(|row| row.map(str::to_owned)));
    let mut ids: Vec<u32> = rows.map(|row| row.id).collect();
    // Whoever stands in a row of before finds it by these.
    let found = |old: u32| merged.renumbered.get(&old).copied().unwrap_or(old);
    assert_eq!(found(id), ids[1]);
    assert_eq!(found(now.own(List::Machines)[1].id), ids[2]);
    ids.sort_unstable();
    ids.dedup();
    assert_eq!(ids.len(), 3);
    assert!(merged.sheet.next_row > ids[2]);
}

/// Both began to type over the same sample: it is one row.
#[test]
fn a_sample_typed_over_at_two_desks_is_one_row() {
    let base = ShopSheet::default();
    let at = || At::Sample("Barrow".to_owned());
    let ours = apply_shop(
        &base,
        &cells(List::Machines, at(), &[(Column::Stroke, "310")]),
    )
    .expect("ours");
    let theirs = apply_shop(
        &base,
        &cells(List::Machines, at(), &[(Column::PartX, "410")]),
    )
    .expect("theirs");
    let merged = merge_shop(&base, &ours, &theirs);
    assert_eq!(merged.clashes, []);
    assert_eq!(merged.sheet.own(List::Machines).len(), 1);
    let machines = shop(&merged.sheet).tables.machines;
    let barrow = machines
        .iter()
        .find(|row| row.name == "Barrow")
        .expect("Barrow");
    assert_eq!((barrow.stroke_mm, barrow.part_mm[0]), (310.0, 410.0));
}

/// The form of numbers and days follows its two lines; a word that is no choice is told, and the usual
/// form stands.
#[test]
fn a_shop_writes_numbers_and_days_as_its_lines_say() {
    let usual = shop(&ShopSheet::default()).form;
    assert_eq!(usual, Form::default());
    assert_eq!(usual.money(1234.5, 2), "1,234.50");
    assert_eq!(usual.day(day("2026-01-31")), "31 Jan 2026");
    for numbers in Numbers::ALL {
        for dates in Dates::ALL {
            let sheet = done(&[
                line(ShopLine::Numbers, numbers.key()),
                line(ShopLine::Dates, &dates.key().to_uppercase()),
            ]);
            let (numbers, dates) = (*numbers, *dates);
            let typed = shop(&sheet);
            assert_eq!(
                (typed.form, typed.not_used),
                (Form { numbers, dates }, vec![])
            );
            let back = read_sheet(write_sheet(&sheet).as_bytes()).expect("a sheet");
            assert_eq!(shop(&back).form, Form { numbers, dates });
        }
    }
    // The beginning is enough where it begins one choice alone.
    let begun = done(&[line(ShopLine::Numbers, "1.2"), line(ShopLine::Dates, "jan")]);
    let begun = shop(&begun).form;
    assert_eq!(begun.day(day("2026-01-31")), "Jan 31, 2026");
    assert_eq!(begun.length_mm(1234.5, Unit::Mm), "1.234,50");
    for text in ["01/31/2026", "31/01/2026", "31"] {
        let told = shop(&done(&[line(ShopLine::Dates, text)]));
        assert_eq!(told.form, usual);
        let [note] = told.not_used.as_slice() else {
            panic!("{:?}", told.not_used)
        };
        assert_eq!(note.line, Some(ShopLine::Dates));
        assert!(note.to_string().contains("31 Jan 2026"), "{note}");
    }
}

/// Papers are printed on one side until the shop says otherwise.
#[test]
fn a_shop_says_on_how_many_sides_it_prints() {
    assert!(!shop(&ShopSheet::default()).on_both_sides);
    for (text, both) in [
        ("both sides", true),
        ("both", true),
        ("One Side", false),
        ("", false),
    ] {
        let sheet = done(&[line(ShopLine::Sides, text)]);
        let typed = shop(&sheet);
        assert_eq!((typed.on_both_sides, typed.not_used), (both, vec![]));
        let back = read_sheet(write_sheet(&sheet).as_bytes()).expect("a sheet");
        assert_eq!(shop(&back).on_both_sides, both);
    }
    let told = shop(&done(&[line(ShopLine::Sides, "three sides")]));
    assert!(!told.on_both_sides);
    let [note] = told.not_used.as_slice() else {
        panic!("{:?}", told.not_used)
    };
    assert_eq!(note.line, Some(ShopLine::Sides));
    assert!(note.to_string().contains("both sides"), "{note}");
}

const LISTS: [List; 9] = [
    List::Rates,
    List::Electrodes,
    List::Guides,
    List::Machines,
    List::Customers,
    List::Materials,
    List::Families,
    List::DaysOff,
    List::StartValues,
];

/// Texts that people type in the wrong place, and some that nobody does.
const ODD: [&str; 25] = [
    "fifty",
    "-95",
    "-0.001",
    "0",
    "1e300",
    "100",
    "-500",
    "99.9",
    "1,234.5",
    "12:30",
    "\u{0}",
    "a\tb",
    "\u{202e}x",
    "2026-07-01",
    "2026-02-30",
    "9999999999",
    "0.0000000000001",
    "all 1; Otter 1 x",
    "Barrow 3",
    "120%",
    "5 to 1",
    "0.1: 0; 0.2: 5",
    "1.4301",
    "carbon and alloy steel",
    "no",
];

/// A shop of its own with two rows in each list, the second one of which is never touched.
fn two_rows_each() -> ShopSheet {
    let new = |list, typed: &[(Column, &str)]| cells(list, At::New, typed);
    let over = |list, name: &str, typed: &[(Column, &str)]| {
        cells(list, At::Sample(name.to_owned()), typed)
    };
    let samples = ShopEdit::Samples {
        list: List::Machines,
        count: false,
    };
    let of = |list: List| shown_rows(&ShopSheet::default(), list, true);
    let named = |list, at: usize| of(list)[at].text(Column::Name).to_owned();
    done(&[
        line(ShopLine::Name, "Heron Bore"),
        line(ShopLine::Address, "2 Reed Bank; Sallow, Exampleshire"),
        line(ShopLine::Currency, "JPY"),
        new(List::Machines, &[(Column::Name, "Otter 1")]),
        new(
            List::Machines,
            &[(Column::Name, "Otter 2"), (Column::MachineHour, "71")],
        ),
        samples,
        new(
            List::Rates,
            &[
                (Column::ValidFrom, "2026-08-01"),
                (Column::LaborHour, "44"),
                (Column::Margin, "20"),
            ],
        ),
        new(
            List::Rates,
            &[
                (Column::ValidFrom, "2026-10-01"),
                (Column::MachineHour, "81; Otter 2 71"),
            ],
        ),
        new(
            List::Electrodes,
            &[(Column::Name, "reed 0.7"), (Column::Outer, "0.7")],
        ),
        new(
            List::Electrodes,
            &[(Column::Name, "reed 0.9"), (Column::Outer, "0.9")],
        ),
        new(
            List::Guides,
            &[(Column::Name, "collar 0.7"), (Column::ForElectrode, "0.7")],
        ),
        new(
            List::Guides,
            &[(Column::Name, "collar 0.9"), (Column::ForElectrode, "0.9")],
        ),
        new(
            List::Materials,
            &[
                (Column::Name, "Sallow 5"),
                (Column::Family, "carbon and alloy steel"),
            ],
        ),
        new(
            List::Materials,
            &[
                (Column::Name, "Sallow 7"),
                (Column::Family, "nickel alloys"),
            ],
        ),
        new(
            List::Customers,
            &[(Column::Name, "Weir"), (Column::Contact, "A. Teal")],
        ),
        new(
            List::Customers,
            &[(Column::Name, "Mill"), (Column::Contact, "B. Rail")],
        ),
        new(List::DaysOff, &[(Column::Day, "2026-12-24")]),
        new(List::DaysOff, &[(Column::Day, "2026-12-31")]),
        over(
            List::Families,
            &named(List::Families, 0),
            &[(Column::WearFrom, "0.2")],
        ),
        over(
            List::Families,
            &named(List::Families, 1),
            &[(Column::WearFrom, "0.21")],
        ),
        over(List::StartValues, "dressing_mm", &[(Column::Value, "0.7")]),
        over(List::StartValues, "overlap_mm", &[(Column::Value, "0.77")]),
    ])
}

/// What of the shop must stand, whatever is typed into the first row of a list; and of the first rows of the
/// other lists.
fn rows_that_stand(shop: &Shop) -> BTreeSet<String> {
    let tables = &shop.tables;
    let tubes = tables.tubes.iter().map(|tube| format!("{tube:?}"));
    let guides = tables.guides.iter().map(|guide| format!("{guide:?}"));
    let machines = tables.machines.iter().map(|machine| machine.name.clone());
    let materials = tables.materials.iter();
    let materials = materials.map(|one| format!("{} {:?}", one.name, one.wear));
    let customers = shop.customers.iter();
    let customers = customers.map(|one| format!("{} {}", one.name, one.contact));
    let off = shop.calendar.days_off.iter().map(ToString::to_string);
    let card = shop.rates_on(day("2026-10-01"));
    let card = format!(
        "{} {:?}",
        card.valid_from,
        card.machines_per_hour.get("Otter 2")
    );
    let earlier = format!("from {}", shop.rates_on(day("2026-08-01")).valid_from);
    let start = [
        format!("dressing {}", tables.start.dressing_mm),
        format!("overlap {}", tables.start.overlap_mm),
    ];
    let all = tubes.chain(guides).chain(machines).chain(materials);
    let all = all.chain(customers).chain(off).chain(start);
    all.chain([card, earlier]).collect()
}

/// What stands before anything else is typed.
static BEFORE: OnceLock<BTreeSet<String>> = OnceLock::new();

/// What one typed into one cell, and what is lost with it.
fn lost_by(sheet: &ShopSheet, edit: &ShopEdit) -> (Shop, BTreeSet<String>) {
    let before = BEFORE.get_or_init(|| rows_that_stand(&shop(&two_rows_each())));
    let after = shop(&apply_shop(sheet, edit).expect("an edit"));
    let stands = rows_that_stand(&after);
    let lost = before.difference(&stands).cloned().collect();
    (after, lost)
}

/// Whether a row that is lost may be: it is the first of its list, or hangs on a family that was typed over.
fn is_of(list: List, lost: &str) -> bool {
    match list {
        List::Rates => lost == "from 2026-08-01",
        List::Electrodes => lost.contains("\"reed 0.7\""),
        List::Guides => lost.contains("\"collar 0.7\""),
        List::Machines => lost == "Otter 1",
        List::Materials => lost.starts_with("Sallow 5"),
        List::Customers => lost.starts_with("Weir"),
        List::DaysOff => lost == "2026-12-24",
        List::StartValues => lost.starts_with("dressing"),
        List::Families => !lost.starts_with("Sallow 7") && lost.contains("Spread"),
    }
}

fn stands(list: List, column: Column, text: &str, sheet: &ShopSheet) {
    // What is worked out is typed nowhere.
    if column.kind() == ShopKind::Computed {
        return;
    }
    let at = At::Own(sheet.own(list)[0].id);
    let (shop, lost) = lost_by(sheet, &cells(list, at, &[(column, text)]));
    let case = format!("{list:?} {column:?} {text:?}: {:?}", shop.not_used);
    assert_eq!(shop.name, "Heron Bore", "{case}");
    assert_eq!(
        shop.address,
        ["2 Reed Bank", "Sallow, Exampleshire"],
        "{case}"
    );
    assert_eq!(shop.tables.rates.currency, "JPY", "{case}");
    assert_eq!(shop.tables.rates.minor_digits, 0, "{case}");
    let beside: Vec<_> = lost.iter().filter(|row| !is_of(list, row)).collect();
    assert!(beside.is_empty(), "{case}: {beside:?}");
    assert_eq!(shop.stands_in(), in_the_way(&shop, list, column), "{case}");
}

/// What a bad cell of the first card puts in the way of prices: the second one goes on with it, unless it
/// says that itself or the first one has no day.
fn in_the_way(shop: &Shop, list: List, column: Column) -> Vec<StandsIn> {
    let is_bad = |note: &ShopNote| !matches!(note.fault, ShopFault::NoSuchMachine(_));
    let card = match column {
        _ if list != List::Rates || !shop.not_used.iter().any(is_bad) => None,
        Column::ValidFrom => Some((None, Vec::new())),
        Column::MachineHour | Column::Note => None,
        other => Some((Some(day("2026-08-01")), vec![other.key()])),
    };
    let card = card.map(|(from, columns)| StandsIn::Card { from, columns });
    card.into_iter().collect()
}

#[test]
fn whatever_stands_in_one_cell_takes_nothing_else_with_it() {
    let sheet = two_rows_each();
    assert_eq!(shop(&sheet).not_used, []);
    for list in LISTS {
        for column in list.columns() {
            for text in ODD {
                stands(list, *column, text, &sheet);
            }
        }
    }
}

#[test]
fn whatever_stands_in_one_line_takes_no_row_with_it() {
    let sheet = two_rows_each();
    for &at in ShopLine::ALL {
        for text in ODD {
            let (shop, lost) = lost_by(&sheet, &line(at, text));
            let case = format!("{at:?} {text:?}: {:?}", shop.not_used);
            assert!(lost.is_empty(), "{case}: {lost:?}");
            let is_printed = matches!(
                at,
                ShopLine::Name
                    | ShopLine::Address
                    | ShopLine::Currency
                    | ShopLine::Contact
                    | ShopLine::Phone
                    | ShopLine::Email
                    | ShopLine::Registration
                    | ShopLine::Terms
                    | ShopLine::Exclusions
                    | ShopLine::Cautions
            );
            let unread = read_line_is_wrong(&shop, at);
            let in_the_way = !shop.stands_in().is_empty();
            assert_eq!(in_the_way, is_printed && unread, "{case}");
            if at != ShopLine::Name {
                assert_eq!(shop.name, "Heron Bore", "{case}");
            }
            if at != ShopLine::Currency {
                assert_eq!(shop.tables.rates.currency, "JPY", "{case}");
            }
        }
    }
}

fn read_line_is_wrong(shop: &Shop, at: ShopLine) -> bool {
    let mut notes = shop.not_used.iter();
    notes.any(|note| note.line == Some(at) && matches!(note.fault, ShopFault::Unread(_)))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_text_in_any_cell_takes_nothing_else_with_it(
        list in select(LISTS.to_vec()),
        column in 0..40_usize,
        text in "\\PC{0,12}|-?[0-9]{1,12}([.,][0-9]{1,4})?(e[0-9]{1,3})?%?|[0-9.]{1,5} to [0-9.]{1,5}",
    ) {
        let columns = list.columns();
        stands(list, columns[column % columns.len()], &text, &two_rows_each());
    }
}

/// A machine's own hour beside a card with one for all machines doesn't count, and that is told.
#[test]
fn a_machines_own_hour_that_a_card_overrules_is_told() {
    let new = |list, typed: &[(Column, &str)]| cells(list, At::New, typed);
    let machine = [(Column::Name, "Barrow"), (Column::MachineHour, "200")];
    let told = |hour: &str| {
        let card = [
            (Column::ValidFrom, "2026-01-05"),
            (Column::MachineHour, hour),
        ];
        let sheet = done(&[new(List::Machines, &machine), new(List::Rates, &card)]);
        let shop = shop(&sheet);
        let of_machine = |note: &&ShopNote| note.column == Some(Column::MachineHour);
        let notes = shop
            .not_used
            .iter()
            .filter(of_machine)
            .map(ToString::to_string);
        let notes: Vec<String> = notes.collect();
        let on = shop.on(day("2026-02-01"));
        let mut machines = on.tables.machines.iter();
        let barrow = machines.find(|machine| machine.name == "Barrow");
        (barrow.expect("the machine").rate_per_hour, notes)
    };
    let (hour, said) = told("70");
    assert_eq!(hour, 70.0);
    assert_eq!(
        said,
        [
            "Machine Barrow, machine hour: 200 doesn't count, since the rate card of 2026-01-05 says 70 \
             for all machines. Type \u{201c}70; Barrow 200\u{201d} on that card to have both."
        ]
    );
    for (said, counts) in [
        ("70; Barrow 200", 200.0),
        ("200", 200.0),
        ("Wren 70", 200.0),
    ] {
        assert_eq!(told(said), (counts, vec![]), "{said}");
    }
}
