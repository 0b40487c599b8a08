//! Rows of the shop's lists typed cell by cell: what is typed lands in the row that it was begun in,
//! whatever rows come and go above it.

use std::path::Path;

use egui::{Event, Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use quillbore_job::Unit;
use quillbore_job::shop::sheet::{
    ShopColumn as Column, ShopEdit, ShopList as List, ShopRowAt as At, apply_shop,
};
use quillbore_office::start::Standing;

use crate::hands::{Window, desk_of, office, window_with};

fn shop_page(folder: &Path) -> Harness<'static, Window> {
    let office = office(folder);
    let mut harness = window_with(desk_of(&office), office, Standing::Ready);
    harness.key_press(Key::F7);
    harness.run();
    harness
}

/// Goes to the empty row below the last of a list.
fn below(harness: &mut Harness<'_, Window>, list: List, row: &str, column: &str) {
    let page = &mut harness.state_mut().app_mut().shop;
    let sheet = page.history.now().clone();
    let shown = quillbore_job::shop::sheet::shown_rows(&sheet, list, true);
    harness
        .get_by_label(&format!("{row} {} {column}", shown.len() + 1))
        .click();
    harness.run();
}

fn typed(harness: &mut Harness<'_, Window>, text: &str, key: Key) {
    if !text.is_empty() {
        harness.event(Event::Text(text.to_owned()));
        harness.run();
    }
    harness.key_press(key);
    harness.run();
}

/// What was typed in each row of a list.
fn rows(harness: &Harness<'_, Window>, list: List, columns: &[Column]) -> Vec<Vec<String>> {
    let sheet = harness.state().app().shop.history.now().clone();
    let texts = |row: &std::sync::Arc<quillbore_job::shop::sheet::ShopRow>| {
        let cells = columns.iter();
        cells.map(|c| row.cell(*c).text().to_owned()).collect()
    };
    sheet.own(list).iter().map(texts).collect()
}

/// The samples above vanish with its first cell.
#[test]
fn the_first_card_of_a_shop_is_typed_from_cell_to_cell() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = shop_page(folder.path());
    below(&mut harness, List::Rates, "rate card", "valid from");
    let card = [
        "2027-01-01",
        "88",
        "61",
        "30",
        "150",
        "75",
        "0.5",
        "4",
        "2",
        "3",
        "1",
        "the new lease",
    ];
    assert_eq!(card.len(), List::Rates.columns().len());
    for text in card {
        typed(&mut harness, text, Key::Tab);
    }
    let all = |harness: &Harness<'_, Window>| rows(harness, List::Rates, List::Rates.columns());
    assert_eq!(all(&harness), [card.map(str::to_owned)]);
    // Tab from the end of the row went on to the one below, where the next card is begun.
    for text in ["2027-07-01", "", "64"] {
        typed(&mut harness, text, Key::Tab);
    }
    let next = ["2027-07-01", "", "64", "", "", "", "", "", "", "", "", ""];
    assert_eq!(
        all(&harness),
        [card.map(str::to_owned), next.map(str::to_owned)]
    );
    // Taken back and done again it is the same row that one is in.
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run();
    harness.key_press_modifiers(Modifiers::COMMAND | Modifiers::SHIFT, Key::Z);
    harness.run();
    typed(&mut harness, "28", Key::Tab);
    assert_eq!(all(&harness)[1][3], "28");
}

/// The first cell is left by Enter, by an arrow or backward, too.
#[test]
fn a_card_that_was_just_begun_is_found_again_by_every_key() {
    let columns = [Column::ValidFrom, Column::MachineHour, Column::LaborHour];
    for (leave, back) in [
        (Key::Enter, Key::ArrowUp),
        (Key::ArrowDown, Key::ArrowUp),
        (Key::Tab, Key::ArrowLeft),
    ] {
        let folder = tempfile::tempdir().expect("a folder");
        let mut harness = shop_page(folder.path());
        below(&mut harness, List::Rates, "rate card", "valid from");
        typed(&mut harness, "2027-01-01", leave);
        typed(&mut harness, "", back);
        typed(&mut harness, "", Key::ArrowRight);
        typed(&mut harness, "88", Key::Tab);
        let all = rows(&harness, List::Rates, &columns);
        assert_eq!(
            all,
            [["2027-01-01", "88", ""].map(str::to_owned)],
            "{leave:?}"
        );
    }
}

/// A card without a day counts from today on: that stands in it at once, and is told.
#[test]
fn a_card_begun_without_a_day_shows_and_tells_the_day_from_which_it_counts() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = shop_page(folder.path());
    below(&mut harness, List::Rates, "rate card", "labor hour");
    typed(&mut harness, "61", Key::Tab);
    let notice = |harness: &Harness<'_, Window>| harness.state().app().shop.notice.clone();
    let said = notice(&harness);
    assert!(said.contains("counts from today, 25 Nov 2026"), "{said}");
    typed(&mut harness, "30", Key::Tab);
    let columns = [Column::ValidFrom, Column::LaborHour, Column::Margin];
    let card = ["25 Nov 2026", "61", "30"].map(str::to_owned);
    assert_eq!(rows(&harness, List::Rates, &columns), [card]);
    harness.get_by_label("rate card 1 valid from");
    assert!(!notice(&harness).contains("counts from"), "told once");
    // Its day is typed over like any other cell.
    harness.get_by_label("rate card 1 valid from").click();
    harness.run();
    typed(&mut harness, "2027-01-01", Key::Tab);
    let card = ["2027-01-01", "61", "30"].map(str::to_owned);
    assert_eq!(rows(&harness, List::Rates, &columns), [card]);
}

/// A shop's first machine leaves the sample machines out.
#[test]
fn the_first_machine_is_typed_from_cell_to_cell() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = shop_page(folder.path());
    below(&mut harness, List::Machines, "machine", "name");
    for text in ["Plover", "71", "0.2", "3"] {
        typed(&mut harness, text, Key::Tab);
    }
    let columns = &List::Machines.columns()[..4];
    let machine = ["Plover", "71", "0.2", "3"].map(str::to_owned);
    assert_eq!(rows(&harness, List::Machines, columns), [machine]);
}

/// Both desks began a row with the same identity: ours gets another, and what is typed goes on in it.
#[test]
fn a_row_begun_at_two_desks_at_once_is_two_rows_and_each_is_typed_on() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = shop_page(folder.path());
    below(&mut harness, List::Machines, "machine", "name");
    harness.event(Event::Text("Plover".to_owned()));
    harness.run();
    let other = office(folder.path());
    let base = other.look_at_shop().expect("the sheet");
    let theirs = ShopEdit::SetCells {
        list: List::Machines,
        rows: vec![(At::New, vec![(Column::Name, "Dunlin".to_owned())])],
        unit: Unit::Mm,
    };
    let sheet = apply_shop(&base.sheet, &theirs).expect("an edit");
    other.save_shop(&base, &sheet).expect("saved");
    for text in ["", "71", "0.2"] {
        typed(&mut harness, text, Key::Tab);
    }
    let columns = &List::Machines.columns()[..3];
    let both = [["Dunlin", "", ""], ["Plover", "71", "0.2"]];
    let both = both.map(|row| row.map(str::to_owned));
    assert_eq!(rows(&harness, List::Machines, columns), both);
}

/// Above the row that one is in the samples of a long list come and go.
#[test]
fn a_cursor_stays_in_its_row_while_samples_are_shown_and_left_out() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = shop_page(folder.path());
    harness.get_by_label("electrode 1 name").click();
    harness.run();
    typed(&mut harness, "thin", Key::Tab);
    for text in ["0.4", "12"] {
        typed(&mut harness, text, Key::Tab);
    }
    let row = |harness: &Harness<'_, Window>| {
        harness.state().app().shop.grids[&List::Electrodes]
            .cursor()
            .row
    };
    assert_eq!(row(&harness), 0);
    harness.get_by_label("show the samples: electrodes").click();
    harness.run();
    assert!(row(&harness) > 10, "the samples stand above it");
    harness
        .get_by_label("leave out the samples: electrodes")
        .click();
    harness.run();
    assert_eq!(row(&harness), 0);
}
