//! Every text fits its place: at every width and size of the window no word of ours is cut, no text
//! runs out of what is drawn of it, and none lies on another.

use egui::epaint::{ClippedShape, TextShape};
use egui::{Rect, Shape};
use egui_kittest::Harness;
use quillbore_job::words::english;
use quillbore_job::{Field, Unit};

use crate::hands::{Window, desk_of, office, window_size, window_with};
use crate::still::demo;

/// A text that was drawn, with what is seen of it.
#[derive(Debug)]
struct Drawn {
    text: String,
    /// What of it stands on this line.
    row: String,
    at: Rect,
    clip: Rect,
    elided: bool,
}

fn drawn(harness: &Harness<'_, Window>) -> Vec<Drawn> {
    let mut all = Vec::new();
    for ClippedShape {
        clip_rect, shape, ..
    } in &harness.output().shapes
    {
        texts(shape, *clip_rect, &mut all);
    }
    all
}

fn texts(shape: &Shape, clip: Rect, all: &mut Vec<Drawn>) {
    match shape {
        Shape::Vec(shapes) => shapes.iter().for_each(|shape| texts(shape, clip, all)),
        Shape::Text(TextShape { pos, galley, .. }) => {
            for row in &galley.rows {
                // Where a row begins and ends, without the place of what stands before it.
                let glyphs = &row.row.glyphs;
                let ends = glyphs.first().zip(glyphs.last());
                let ends = ends.map(|(first, last)| (first.pos.x, last.pos.x + last.advance_width));
                let (left, right) = ends.unwrap_or_default();
                let x = row.pos.x + pos.x;
                let at = row.rect().translate(pos.to_vec2());
                let at = at.with_min_x(x + left).with_max_x(x + right);
                if !row.row.text().trim().is_empty() && clip.intersects(at) {
                    all.push(Drawn {
                        text: galley.text().to_owned(),
                        row: row.row.text(),
                        at,
                        clip,
                        elided: galley.elided,
                    });
                }
            }
        }
        _ => {}
    }
}

/// The widths and heights, in points, of windows of these sizes at 100, 150 and 200 %.
fn sizes() -> impl Iterator<Item = (f32, f32)> {
    let windows = [(1024.0, 768.0), (1280.0, 760.0), (1920.0, 1080.0)];
    windows
        .into_iter()
        .flat_map(|(width, height)| [1.0, 1.5, 2.0].map(|zoom| (width / zoom, height / zoom)))
}

fn at_size(harness: &mut Harness<'_, Window>, width: f32, height: f32) -> Vec<Drawn> {
    harness.set_size(window_size(width, height));
    harness.run();
    drawn(harness)
}

/// The words that we put on the sheet: none of them is ever cut.
fn own_words() -> Vec<String> {
    let units = ["", " mm", " kg"];
    let fields = Field::ALL.iter().map(|field| english::field(*field));
    let fields = fields.flat_map(|name| units.map(|unit| format!("{name}{unit}")));
    let columns = quillbore_job::Column::ALL.iter();
    let columns = columns.flat_map(|column| {
        let head = english::column(*column).head;
        let unit = english::column_unit(*column, Unit::Mm);
        let (first, second) = head.rsplit_once(' ').unwrap_or((head, ""));
        [
            first.to_owned(),
            format!("{second} {unit}").trim().to_owned(),
        ]
    });
    fields.chain(columns).collect()
}

#[test]
fn no_word_of_ours_is_cut_at_any_width() {
    let folder = tempfile::tempdir().expect("a folder");
    let words = own_words();
    for number in ["26-0101", "25-0388"] {
        let mut harness = demo(folder.path(), number);
        for (width, height) in sizes() {
            let cut = at_size(&mut harness, width, height.max(2_000.0));
            let cut = cut.into_iter().filter(|text| text.elided);
            let ours: Vec<String> = cut
                .map(|text| text.text)
                .filter(|text| words.contains(text))
                .collect();
            assert!(ours.is_empty(), "{number} at {width}: {ours:?}");
        }
    }
}

#[test]
fn no_text_runs_out_of_its_place() {
    let folder = tempfile::tempdir().expect("a folder");
    for number in ["26-0101", "25-0388", "26-0106"] {
        let mut harness = demo(folder.path(), number);
        for (width, height) in sizes() {
            for text in at_size(&mut harness, width, height) {
                // A very narrow window shows a part of the sheet, which is scrolled across.
                let on_sheet = text.at.top() > 64.0 && text.at.bottom() < height - 48.0;
                let across = width < 1024.0 && on_sheet;
                let fits = text.at.left() >= text.clip.left() - 0.6
                    && text.at.right() <= text.clip.right() + 0.6;
                assert!(fits || across, "{number} at {width}: {text:?}");
                assert!(
                    text.at.right() <= width + 17.0 || across,
                    "{number} at {width}: {text:?}"
                );
            }
        }
    }
}

#[test]
fn no_text_lies_on_another() {
    let folder = tempfile::tempdir().expect("a folder");
    for number in ["26-0101", "25-0388", "26-0106"] {
        let mut harness = demo(folder.path(), number);
        for (width, height) in sizes() {
            let all = at_size(&mut harness, width, height);
            let seen = |text: &Drawn| text.at.intersect(text.clip);
            for (index, one) in all.iter().enumerate() {
                for other in &all[index + 1..] {
                    let both = seen(one).intersect(seen(other));
                    let lies = both.width() > 2.0 && both.height() > 4.0;
                    // What fades where it is too long is drawn a second time over itself.
                    let again = other.text == "\u{2026}";
                    assert!(!lies || again, "{number} at {width}: {one:?} {other:?}");
                }
            }
        }
    }
}

#[test]
fn an_empty_sheet_fits_too() {
    let folder = tempfile::tempdir().expect("a folder");
    let office = office(folder.path());
    let standing = quillbore_office::start::Standing::Ready;
    let mut harness = window_with(desk_of(&office), office, standing);
    let words = own_words();
    for (width, height) in sizes() {
        for text in at_size(&mut harness, width, height) {
            assert!(!text.elided || !words.contains(&text.text), "{text:?}");
        }
    }
}

/// What lies over the sheet fits as well: the words of a preview, the help, the commands, what was learned.
#[test]
fn what_lies_over_the_sheet_fits_too() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = demo(folder.path(), "26-0101");
    for (held, key) in [
        (egui::Modifiers::COMMAND, egui::Key::P),
        (egui::Modifiers::NONE, egui::Key::F1),
        (egui::Modifiers::COMMAND, egui::Key::K),
        (egui::Modifiers::COMMAND, egui::Key::Comma),
        (egui::Modifiers::NONE, egui::Key::F8),
        (egui::Modifiers::NONE, egui::Key::F7),
        (egui::Modifiers::NONE, egui::Key::F5),
    ] {
        harness.key_press_modifiers(held, key);
        harness.run();
        for (width, height) in sizes() {
            for text in at_size(&mut harness, width, height) {
                // A word that is broken over several lines has too little room.
                let mut words = text.row.split_whitespace();
                let whole = |word: &str| text.text.split_whitespace().any(|other| other == word);
                let is_whole = text.elided || words.all(whole);
                assert!(is_whole, "{key:?} at {width}: {text:?}");
                // A page of paper is cut where it is seen through the window; our own words are not.
                let is_on_page = key == egui::Key::P;
                // A table that is wider than its place is scrolled in it.
                let right = text.at.right().min(text.clip.right()) <= width + 17.0;
                assert!(
                    right || is_on_page || width < 1024.0,
                    "{key:?} at {width}: {text:?}"
                );
            }
        }
        harness.key_press(egui::Key::Escape);
        harness.run();
    }
}
