//! The shop in the window: the first start, the page, what another desk saved meanwhile.

use eframe::egui::{self, Event, Key};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use quillbore_job::shop::sheet::{ShopColumn, ShopList};
use quillbore_office::start::Standing;

use crate::hands::{Window, desk_of, office, press, window_with};

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
}
