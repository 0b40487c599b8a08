//! The map of the holes beside the sheet: what is pointed at here is marked there, and the other way.

use egui::accesskit::Role;
use egui::{Event, MouseWheelUnit, Pos2, TouchPhase, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;

use crate::hands::{Window, press, window_size};
use crate::still::demo;

/// The picture of the map, by what it is called.
fn map_place(harness: &Harness<'_, Window>, named: &str) -> egui::Rect {
    harness.get_by_role_and_label(Role::Image, named).rect()
}

fn hover(harness: &mut Harness<'_, Window>, at: Pos2) {
    harness.hover_at(at);
    harness.run();
}

fn wide(number: &str, folder: &std::path::Path) -> Harness<'static, Window> {
    let mut harness = demo(folder, number);
    harness.set_size(window_size(1920.0, 1080.0));
    harness.run();
    harness
}

#[test]
fn a_hole_on_the_map_and_its_row_point_at_each_other() {
    let folder = tempfile::tempdir().expect("a folder");
    // A plate with rows S and T.
    let mut harness = wide("26-0102", folder.path());
    let place = map_place(&harness, "52 holes");
    // Somewhere on the map there are holes of both rows; the pointer is moved over it in small steps.
    let mut seen = Vec::new();
    for step in 0..4_000_u16 {
        let (x, y) = (step % 80, step / 80);
        let at = place.min + vec2(f32::from(x) / 80.0, f32::from(y) / 50.0) * place.size();
        hover(&mut harness, at);
        let view = harness.state().app().view();
        if let Some(row) = view.map.hovered
            && !seen.iter().any(|(known, _)| *known == row)
        {
            seen.push((row, at));
        }
        if seen.len() == 2 {
            break;
        }
    }
    let [(one, at_one), (other, at_other)] = seen[..] else {
        panic!("holes of two rows: {seen:?}");
    };
    assert_ne!(one, other);
    for (row, at) in [(one, at_one), (other, at_other)] {
        hover(&mut harness, at);
        harness.drag_at(at);
        harness.drop_at(at);
        harness.run();
        let app = harness.state().app();
        let cursor = app.view().grid.cursor().row;
        assert_eq!(
            app.desk().job().rows[cursor].id,
            row,
            "pressing goes to its row"
        );
    }
}

#[test]
fn the_map_goes_nearer_by_the_wheel_and_whole_again() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = wide("26-0102", folder.path());
    let place = map_place(&harness, "52 holes");
    let zoom = |harness: &Harness<'_, Window>| harness.state().app().view().map.zoom();
    assert_eq!(zoom(&harness), 1.0);
    hover(&mut harness, place.center());
    harness.event(Event::MouseWheel {
        unit: MouseWheelUnit::Point,
        delta: vec2(0.0, 120.0),
        phase: TouchPhase::Move,
        source: egui::MouseWheelSource::Wheel,
        modifiers: egui::Modifiers::NONE,
    });
    harness.run();
    assert!(zoom(&harness) > 1.2, "{}", zoom(&harness));
    press(&mut harness, "whole");
    assert_eq!(zoom(&harness), 1.0);
    press(&mut harness, "nearer");
    assert_eq!(zoom(&harness), 2.0);
    // The sheet stands where it stood.
    assert_eq!(map_place(&harness, "52 holes"), place);
}

#[test]
fn in_a_narrower_window_the_map_takes_the_place_of_the_picture() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = demo(folder.path(), "26-0102");
    harness.set_size(window_size(1400.0, 900.0));
    harness.run();
    assert!(
        harness
            .query_by_role_and_label(Role::Image, "52 holes")
            .is_none()
    );
    press(&mut harness, "map");
    assert!(
        harness
            .query_by_role_and_label(Role::Image, "52 holes")
            .is_some()
    );
    press(&mut harness, "picture");
    assert!(
        harness
            .query_by_role_and_label(Role::Image, "52 holes")
            .is_none()
    );
}
