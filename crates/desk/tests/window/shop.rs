//! The shop in the window: the first start, the page, what another desk saved meanwhile.

use eframe::egui::{self, Event, Key};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use quillbore_job::shop::sheet::{ShopColumn, ShopLine, ShopList};
use quillbore_office::start::Standing;

use quillbore_job::Field;

use crate::hands::{Window, desk_of, do_word, office, paste, press, type_on, window_with};

fn first_start(folder: &std::path::Path) -> Harness<'static, Window> {
    let office = office(folder);
    window_with(desk_of(&office), office, Standing::New)
}

/// Types where the keyboard is, and goes on by Enter.
fn enter(harness: &mut Harness<'_, Window>, label: &str, text: &str) {
    let line = harness.get_by_role_and_label(egui::accesskit::Role::TextInput, label);
    assert!(line.is_focused(), "{label} has no keyboard");
    if !text.is_empty() {
        harness.event(Event::Text(text.to_owned()));
        harness.run();
    }
    harness.key_press(Key::Enter);
    harness.run();
}

#[test]
fn a_first_start_is_typed_from_line_to_line() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = first_start(folder.path());
    for (label, text) in [
        ("name", "Tallow Street Fine Bores"),
        ("address", "1 Tallow Street; Exampleton"),
        ("currency", "EUR"),
        ("mm or in", ""),
        ("paper size", ""),
        ("machine, per hour", "62"),
        ("labor, per hour", "44"),
        ("margin on price, %", "25"),
        ("minimum charge per lot", "120"),
        ("a machine: its name", "Plover"),
        ("electrode from", ""),
        ("electrode to", "3"),
        (
            "electrode diameters in the drawer, such as 0.3 0.5 0.8",
            "0.3 0.5 0.8 1 1.2",
        ),
    ] {
        enter(&mut harness, label, text);
    }
    press(&mut harness, "start quoting");
    let shop = &harness.state().app().desk().shop;
    assert_eq!(shop.name, "Tallow Street Fine Bores");
    assert_eq!(shop.tables.rates.currency, "EUR");
    assert_eq!(shop.tables.tubes.len(), 5);
    assert_eq!(shop.tables.machines.len(), 1);
    assert!(!shop.has_sample_rates());
    let on_shelf = std::fs::read_to_string(folder.path().join("shop.ron")).expect("saved");
    assert!(on_shelf.contains("Tallow Street Fine Bores"), "{on_shelf}");
    let sheet = harness.state().app().shop.history.now().clone();
    assert_eq!(
        sheet.own(ShopList::Machines)[0]
            .cell(ShopColumn::Name)
            .text(),
        "Plover"
    );
    // There is no other machine to choose: the first holes bring it along.
    paste(&mut harness, "A\t6\t0.8 +-0.05\t12\r\n");
    let desk = harness.state().app().desk();
    assert_eq!(desk.job().text(Field::Machine), "Plover");
    let said = "Machine: Plover, the shop's only one.";
    assert!(desk.notice.ends_with(said), "{}", desk.notice);
    harness.key_press_modifiers(egui::Modifiers::COMMAND, Key::Z);
    harness.run();
    let desk = harness.state().app().desk();
    assert_eq!(desk.job().text(Field::Machine), "");
    assert!(desk.job().rows.is_empty());
}

/// Two customers, of whom one is agreed on in another currency.
const CUSTOMERS: &str = "name,contact,address,margin,currency,exchange rate,rate of day\r\n\
    Alder Finch Rotors,Jo Finch,2 Mill Lane,30,EUR,0.92,2026-08-01\r\n\
    Heron Valves,Sam Reed,5 Quay,,,,\r\n";

/// Puts a text on a line and presses one of the words beside it.
fn with_file(harness: &mut Harness<'_, Window>, path: &std::path::Path, word: &str) {
    type_on(
        harness,
        "CSV file of customers",
        &path.display().to_string(),
    );
    press(harness, word);
    harness.run();
}

#[test]
fn customers_come_from_a_table_and_a_job_takes_on_what_was_agreed() {
    let folder = tempfile::tempdir().expect("a folder");
    let tables = tempfile::tempdir().expect("a folder");
    let mut harness = first_start(folder.path());
    press(&mut harness, "all of the shop");
    let from = tables.path().join("customers.csv");
    std::fs::write(&from, CUSTOMERS).expect("written");
    with_file(&mut harness, &from, "take in: customers");
    let notice = harness.state().app().shop.notice.clone();
    assert!(notice.contains("2 new"), "{notice}");

    // What is written comes in again as the same, and no file is written over.
    let to = tables.path().join("again.csv");
    with_file(&mut harness, &to, "write: customers");
    assert!(to.is_file());
    press(&mut harness, "write: customers");
    let notice = harness.state().app().shop.notice.clone();
    assert!(notice.contains("there already"), "{notice}");
    press(&mut harness, "take in: customers");
    let notice = harness.state().app().shop.notice.clone();
    assert!(notice.contains("2 the same"), "{notice}");

    harness.key_press(Key::F7);
    harness.run();
    // Typed in another case, and left by Tab to the line that comes with it.
    let line = harness.get_by_role_and_label(egui::accesskit::Role::TextInput, "customer");
    line.focus();
    harness.run();
    harness.event(Event::Text("finch".to_owned()));
    harness.run();
    assert!(
        harness.query_by_label("Alder Finch Rotors").is_some(),
        "the list"
    );
    harness.event(Event::Text(" rotors".to_owned()));
    harness.run();
    harness.key_press(Key::Home);
    harness.run();
    harness.event(Event::Text("alder ".to_owned()));
    harness.run();
    for _ in 0..2 {
        harness.key_press(Key::Tab);
        harness.run();
    }
    let desk = harness.state().app().desk();
    assert_eq!(desk.job().text(Field::Customer), "Alder Finch Rotors");
    let desk = harness.state().app().desk();
    assert_eq!(desk.job().text(Field::CustomerAddress), "2 Mill Lane");
    assert_eq!(desk.job().text(Field::Contact), "Jo Finch");
    assert_eq!(desk.shop.tables.rates.currency, "EUR");
    assert!(
        desk.notice.contains("As agreed with the customer: "),
        "{}",
        desk.notice
    );
    harness.key_press_modifiers(egui::Modifiers::COMMAND, Key::Z);
    harness.run();
    let desk = harness.state().app().desk();
    assert_eq!(desk.job().text(Field::Customer), "");
    assert_eq!(desk.shop.tables.rates.currency, "USD");
}

/// Numbers and days are written in another form by a press in the list of its line, or by the keys:
/// window, notices and preview follow at once.
#[test]
fn the_form_of_numbers_and_days_is_chosen_and_window_and_preview_follow() {
    use egui::accesskit::Role;
    use quillbore_paper::page::Item;

    let folder = tempfile::tempdir().expect("a folder");
    let office = office(folder.path());
    let mut harness = window_with(desk_of(&office), office, Standing::Ready);
    paste(&mut harness, "A\t6\t0.8 +-0.05\t12\r\n");
    for (label, text) in [
        ("material", "Stainless 316"),
        ("machine", "Wren"),
        ("quantity", "400"),
    ] {
        type_on(&mut harness, label, text);
    }
    let told = |harness: &Harness<'_, Window>, text: &str| {
        harness.query_all_by_label_contains(text).count()
    };
    let form = |harness: &Harness<'_, Window>| harness.state().app().desk().shop.form;
    let price = |harness: &Harness<'_, Window>| {
        let figures = &harness.state().app().desk().results().figures;
        let price = figures.price.clone().expect("a price");
        price.breaks[0].lot
    };
    let lot = price(&harness);
    let usual = form(&harness);
    assert!(lot > 1000.into(), "thousands");
    assert!(told(&harness, &usual.amount(lot)) > 0);

    do_word(&mut harness, "preview quotation");
    let printed = |harness: &Harness<'_, Window>, text: &str| {
        let pages = harness.state().app().view().pages.as_ref();
        let pages = pages.expect("a preview").document.pages.iter();
        let mut items = pages.flat_map(|page| &page.items);
        items.any(|item| matches!(item, Item::Text(run) if run.text.contains(text)))
    };
    assert!(printed(&harness, &usual.amount(lot)));
    assert!(printed(&harness, &usual.day(crate::hands::day())));

    harness.key_press(Key::F7);
    harness.run();
    let line = |harness: &Harness<'_, Window>, label: &str| {
        harness
            .get_by_role_and_label(Role::TextInput, label)
            .focus();
    };
    line(&harness, "numbers written as");
    harness.run();
    assert!(told(&harness, "1'234.5") > 0, "the list");
    // The keys go to the third choice, and Enter takes it.
    for key in [Key::ArrowDown, Key::ArrowDown, Key::ArrowDown, Key::Enter] {
        harness.key_press(key);
        harness.run();
    }
    assert_eq!(form(&harness).numbers.key(), "1.234,5");
    assert_eq!(form(&harness).dates, usual.dates);
    // A press in the list takes a choice, too.
    line(&harness, "dates written as");
    harness.run();
    let choice = |harness: &Harness<'_, Window>| {
        let mut all = harness.query_all_by_role_and_label(Role::Link, "31.01.2026");
        all.next().map(|choice| choice.click()).is_some()
    };
    assert!(choice(&harness), "the list");
    harness.run();
    assert_eq!(form(&harness).dates.key(), "31.01.2026");
    assert!(!choice(&harness), "the list is gone");
    // What can't be is told and changes nothing.
    type_on(&mut harness, "dates written as", "01/31/2026");
    assert_eq!(form(&harness).dates, usual.dates);
    assert!(told(&harness, "is not one of the words here") > 0);
    // Enter went on to the sides that are printed, the last line: left as it is, no line hears the keys.
    harness.key_press(Key::Enter);
    harness.run();
    harness.key_press_modifiers(egui::Modifiers::COMMAND, Key::Z);
    harness.run();
    assert_eq!(form(&harness).dates.key(), "31.01.2026");

    harness.key_press(Key::F7);
    harness.run();
    let other = form(&harness);
    assert_ne!(other, usual);
    assert!(printed(&harness, &other.amount(lot)), "the preview");
    assert!(printed(&harness, &other.day(crate::hands::day())));
    assert!(!printed(&harness, &usual.day(crate::hands::day())));
    harness.key_press(Key::Escape);
    harness.run();
    assert_eq!(price(&harness), lot, "no figure is another one");
    assert!(told(&harness, &other.amount(lot)) > 0, "the foot");
    assert_eq!(told(&harness, &usual.amount(lot)), 0);
}

/// A line that chooses among words is left by Tab, Shift+Tab and Enter to the line before or after it:
/// what is typed next is never lost.
#[test]
fn lines_that_choose_among_words_are_typed_one_after_the_other_by_keys() {
    use egui::Modifiers;
    use egui::accesskit::Role;

    let folder = tempfile::tempdir().expect("a folder");
    let office = office(folder.path());
    let mut harness = window_with(desk_of(&office), office, Standing::Ready);
    harness.key_press(Key::F7);
    harness.run();
    harness
        .get_by_role_and_label(Role::TextInput, "paper size")
        .focus();
    harness.run();
    let typed = |harness: &mut Harness<'_, Window>, text: &str, leave: (Modifiers, Key)| {
        harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
        harness.run();
        harness.event(Event::Text(text.to_owned()));
        harness.run();
        harness.key_press_modifiers(leave.0, leave.1);
        harness.run();
    };
    let stands = |harness: &Harness<'_, Window>, line: ShopLine| {
        let sheet = harness.state().app().shop.history.now().clone();
        sheet.line(line).text().to_owned()
    };
    let tab = (Modifiers::NONE, Key::Tab);
    let back = (Modifiers::SHIFT, Key::Tab);
    let enter = (Modifiers::NONE, Key::Enter);
    for (text, leave) in [
        ("letter", tab),
        ("0.05", tab),
        ("1.234,5", tab),
        ("31.01.2026", tab),
        ("both", back),
    ] {
        typed(&mut harness, text, leave);
    }
    assert_eq!(stands(&harness, ShopLine::PaperSize), "letter");
    assert_eq!(stands(&harness, ShopLine::UsualTolerance), "0.05");
    assert_eq!(stands(&harness, ShopLine::Numbers), "1.234,5");
    assert_eq!(stands(&harness, ShopLine::Dates), "31.01.2026");
    assert_eq!(stands(&harness, ShopLine::Sides), "both");
    harness.key_press_modifiers(back.0, back.1);
    harness.run();
    // Shift+Tab went back to the numbers, and Enter goes on to the days.
    typed(&mut harness, "1 234,5", enter);
    assert_eq!(stands(&harness, ShopLine::Numbers), "1 234,5");
    typed(&mut harness, "2026-01-31", back);
    assert_eq!(stands(&harness, ShopLine::Dates), "2026-01-31");
    typed(&mut harness, "1'234.5", back);
    typed(&mut harness, "0.1", enter);
    assert_eq!(stands(&harness, ShopLine::Numbers), "1'234.5");
    assert_eq!(stands(&harness, ShopLine::UsualTolerance), "0.1");
    let line = harness.get_by_role_and_label(Role::TextInput, "numbers written as");
    assert!(line.is_focused(), "Enter goes to the next line");
    // The list lies under the pointer: a key leaves the line all the same.
    let below = line.rect().center_bottom() + egui::vec2(0.0, 20.0);
    harness.hover_at(below);
    harness.run();
    typed(&mut harness, "1234,5", tab);
    assert_eq!(stands(&harness, ShopLine::Numbers), "1234,5");
    typed(&mut harness, "Jan 31, 2026", enter);
    assert_eq!(stands(&harness, ShopLine::Dates), "Jan 31, 2026");
}
