//! Customers' files in the window: read, shown before they land, compared, landed as one edit.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use egui::Key;
use egui_kittest::kittest::Queryable as _;
use quillbore_desk::incoming::{Lands, Reckoned, Shown};
use quillbore_desk::view::Waiting;
use quillbore_job::Unit;

use crate::hands::{Window, do_word, paste, press, type_on, window};

type Harness = egui_kittest::Harness<'static, Window>;

const TAKE_FROM: &str = "take holes from the file";

fn corpus(path: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
        .join("../../tests")
        .join(path)
}

/// Has a file read by its path.
fn take_from(harness: &mut Harness, path: &Path) {
    do_word(harness, "holes from a file");
    type_on(harness, TAKE_FROM, &path.display().to_string());
    harness.run();
}

fn waiting(harness: &Harness) -> &Waiting {
    let view = harness.state().app().view();
    view.waiting.as_ref().expect("a file is shown")
}

fn reckoned(harness: &Harness) -> &Reckoned {
    let file = match waiting(harness) {
        Waiting::Drawn(choosing) => Some(&choosing.file),
        Waiting::Column(pasting, _) => pasting.file.as_ref(),
        _ => None,
    };
    file.expect("a file")
        .reckoned
        .as_ref()
        .expect("it was looked at")
}

fn enter(harness: &mut Harness, key: Key) {
    harness.key_press(key);
    harness.run();
}

fn sizes(harness: &Harness) -> Vec<(String, u32)> {
    let rows = harness.state().job().rows.iter();
    rows.map(|row| (row.size.text().to_owned(), row.holes()))
        .collect()
}

fn notice(harness: &Harness) -> &str {
    &harness.state().app().desk().notice
}

#[test]
fn of_two_hundred_holes_the_thirty_small_ones_are_taken_and_priced() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    let before = harness.state().job().clone();
    take_from(&mut harness, &corpus("step-corpus/manifold-a.step"));
    let Waiting::Drawn(choosing) = waiting(&harness) else {
        panic!("a solid is shown");
    };
    assert_eq!(
        (choosing.drawn.taken(), choosing.drawn.kinds().count()),
        (200, 4)
    );
    type_on(&mut harness, "sizes to take", "0.5-1.2");
    assert!(harness.query_by_label("take 30 holes in 1 row").is_some());
    let weighed = reckoned(&harness).weighed.expect("reckoned");
    assert_eq!(weighed.before, None);
    let each = weighed.after.expect("a price").each;
    // Nothing of the job has changed yet.
    assert_eq!(harness.state().job().rows, before.rows);
    enter(&mut harness, Key::Enter);
    assert_eq!(sizes(&harness), [("0.8".to_owned(), 30)]);
    let desk = harness.state().app().desk();
    let price = desk.results().figures.price.as_ref().expect("a price");
    assert_eq!(
        price.breaks[0].each, each,
        "the price is the one that was shown"
    );
    let report = desk.job().reports.last().expect("a report");
    let file = report.from.file().expect("of a file");
    assert_eq!(file.name, "manifold-a.step");
    assert_eq!(file.stamp.map(|stamp| stamp.bytes), Some(339_081));
    assert!(
        report
            .whole
            .iter()
            .any(|line| line.contains("80 holes of 3.3 mm"))
    );
    // The file goes into the job's folder.
    assert!(
        folder
            .path()
            .join("26-0101.files/manifold-a.step")
            .is_file(),
        "{}",
        notice(&harness)
    );
    // One step takes all of it back.
    do_word(&mut harness, "undo");
    assert_eq!(harness.state().job().rows, before.rows);
}

#[test]
fn the_next_revision_is_compared_and_what_is_the_same_stays() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    take_from(&mut harness, &corpus("step-corpus/manifold-a.step"));
    type_on(&mut harness, "sizes to take", "0.5-1.2");
    enter(&mut harness, Key::Enter);
    let row = harness.state().job().rows[0].id;
    take_from(&mut harness, &corpus("step-corpus/manifold-b.step"));
    assert!(
        harness
            .query_by_label("The holes that are there came from manifold-a.step.")
            .is_some()
    );
    type_on(&mut harness, "sizes to take", "0.5-1.2");
    // By hand: of thirty holes two moved, four are 0.9 now.
    let said: Vec<String> = {
        let comparison = reckoned(&harness).comparison.as_ref().expect("compared");
        comparison
            .lines
            .iter()
            .map(|line| line.says.clone())
            .collect()
    };
    assert_eq!(
        said,
        [
            "A: 30 holes before, 26 now; 2 locations new, 6 gone",
            "B: 4 holes of 0.9, 13.8564 deep"
        ]
    );
    let weighed = reckoned(&harness).weighed.expect("reckoned");
    let [before, after] = [weighed.before, weighed.after].map(|weight| weight.expect("a price"));
    assert_ne!(before, after);
    enter(&mut harness, Key::Enter);
    assert_eq!(
        sizes(&harness),
        [("0.8".to_owned(), 26), ("0.9".to_owned(), 4)]
    );
    assert_eq!(harness.state().job().rows[0].id, row);
    // The same file again: nothing changed.
    take_from(&mut harness, &corpus("step-corpus/manifold-b.step"));
    let same = "The same file as before: these holes came from manifold-b.step, and nothing in it changed.";
    assert!(harness.query_by_label(same).is_some());
    type_on(&mut harness, "sizes to take", "0.5-1.2");
    let comparison = reckoned(&harness).comparison.as_ref().expect("compared");
    assert_eq!((comparison.same, comparison.lines.len()), (2, 0));
    enter(&mut harness, Key::Escape);
    assert_eq!(notice(&harness), "Nothing was taken from the file.");
}

#[test]
fn a_kind_is_chosen_by_its_line_and_by_keys() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    take_from(&mut harness, &corpus("step-corpus/manifold-a.step"));
    press(&mut harness, "none");
    // The first kind is marked: Space takes it, the arrow goes on.
    enter(&mut harness, Key::Space);
    enter(&mut harness, Key::ArrowDown);
    enter(&mut harness, Key::Space);
    assert!(harness.query_by_label("take 110 holes in 2 rows").is_some());
    let kind = "3.3, 9 deep: 80 of 80 holes taken";
    press(&mut harness, kind);
    assert!(harness.query_by_label("take 30 holes in 1 row").is_some());
    enter(&mut harness, Key::Enter);
    assert_eq!(sizes(&harness), [("0.8".to_owned(), 30)]);
}

#[test]
fn a_drawing_without_a_unit_asks_for_it_with_what_it_shows() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("cover.dxf");
    let circle = |x: f64| format!("0\nCIRCLE\n8\n0\n10\n{x}\n20\n1.0\n40\n0.01575\n");
    let circles: String = (0..4).map(|n| circle(f64::from(n) * 0.5 + 0.5)).collect();
    fs::write(
        &file,
        format!("0\nSECTION\n2\nENTITIES\n{circles}0\nENDSEC\n0\nEOF\n"),
    )
    .expect("written");
    let mut harness = window(folder.path());
    take_from(&mut harness, &file);
    enter(&mut harness, Key::Enter);
    assert!(
        matches!(waiting(&harness), Waiting::Drawn(_)),
        "it doesn't land unasked"
    );
    assert!(
        harness
            .query_by_label_contains("The file doesn't say its unit")
            .is_some()
    );
    press(&mut harness, "inches");
    enter(&mut harness, Key::Enter);
    assert_eq!(sizes(&harness), [("0.0315".to_owned(), 4)]);
    assert_eq!(harness.state().job().unit, Unit::Inch);
}

#[test]
fn numbers_without_a_unit_are_shown_as_what_they_look_like_and_can_be_said_otherwise() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("holes.csv");
    fs::write(&file, "mark,qty,size,depth\nA,4,.0315,.55\nB,2,.047,.3\n").expect("written");
    let mut harness = window(folder.path());
    take_from(&mut harness, &file);
    let unit = |harness: &Harness| match waiting(harness) {
        Waiting::Column(pasting, _) => pasting.unit,
        _ => Unit::Mm,
    };
    assert_eq!(unit(&harness), Unit::Inch);
    press(&mut harness, "millimeters");
    assert_eq!(unit(&harness), Unit::Mm);
    press(&mut harness, "inches");
    enter(&mut harness, Key::Enter);
    let job = harness.state().job();
    assert_eq!(job.unit, Unit::Inch);
    let size = job.rows[0].size.value().expect("a size");
    // By hand: 0.0315 in is 0.80010 mm.
    assert!((size.upper.mm() - 0.8001).abs() < 1e-9, "{size:?}");
}

#[test]
fn what_a_file_makes_of_the_job_is_reckoned_anew_when_the_job_goes_on() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    take_from(&mut harness, &corpus("step-corpus/manifold-a.step"));
    type_on(&mut harness, "sizes to take", "0.5-1.2");
    let before = reckoned(&harness).clone();
    assert!(before.weighed.is_some());
    // The quantity is taken back under the panel.
    press(&mut harness, "undo");
    let after = reckoned(&harness);
    assert_ne!(after.of, before.of);
    assert_ne!(after.weighed, before.weighed);
}

#[test]
fn a_workbook_shows_its_sheets_and_lands_below_or_in_place() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(&mut harness, "P\t2\t0.5\t3\r\n");
    let file = corpus("workbook-corpus/several.xlsx");
    take_from(&mut harness, &file);
    let Waiting::Column(pasting, _) = waiting(&harness) else {
        panic!("a table is shown");
    };
    let sheets: Vec<String> = pasting
        .table
        .sheets()
        .iter()
        .map(|sheet| sheet.name.to_owned())
        .collect();
    assert!(sheets.len() > 1, "{sheets:?}");
    assert_eq!(
        pasting.file.as_ref().map(|file| file.lands),
        Some(Lands::Below)
    );
    let rows = pasting.clone().summary().rows;
    assert!(rows > 0);
    press(&mut harness, "in their place");
    press(&mut harness, "keep the file with the job");
    enter(&mut harness, Key::Enter);
    assert_eq!(harness.state().job().rows.len(), rows);
    assert!(!folder.path().join("26-0101.files").exists());
    do_word(&mut harness, "undo");
    assert_eq!(sizes(&harness), [("0.5".to_owned(), 2)]);
}

#[test]
fn callouts_of_a_pdf_are_offered_beside_their_page_and_none_is_taken_unasked() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    take_from(&mut harness, &corpus("pdf-corpus/lab-metric.pdf"));
    let Waiting::Pages(offering) = waiting(&harness) else {
        panic!("pages are shown");
    };
    assert_eq!(offering.taken(), 0);
    assert!(
        matches!(offering.shown, Shown::Ready(_)),
        "{:?}",
        offering.shown
    );
    enter(&mut harness, Key::Enter);
    assert!(
        matches!(waiting(&harness), Waiting::Pages(_)),
        "nothing lands unasked"
    );
    press(
        &mut harness,
        "callout 4X \u{2300}0.80 \u{b1}0.02 THRU, page 1, upper left",
    );
    enter(&mut harness, Key::ArrowDown);
    enter(&mut harness, Key::Space);
    enter(&mut harness, Key::Enter);
    assert_eq!(
        sizes(&harness),
        [
            ("\u{2300}0.80 \u{b1}0.02".to_owned(), 4),
            ("\u{2300}0.80".to_owned(), 4)
        ]
    );
    let report = harness.state().job().reports.last().expect("a report");
    assert!(
        report
            .whole
            .iter()
            .any(|line| line.contains("page 1, upper left"))
    );
}

#[test]
fn a_frame_around_holes_takes_those_in_it_and_a_press_takes_one_away() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    take_from(&mut harness, &corpus("step-corpus/manifold-a.step"));
    let picture = harness.get_by_label("picture of the file: 200 of 200 holes taken");
    let frame = picture.rect();
    // The plate is 200 by 140, seen with 14 points around it; the leaning holes stand right of x 148, below y 44.
    let scale = ((frame.width() - 28.0) / 200.0).min((frame.height() - 28.0) / 140.0);
    let at = |x: f32, y: f32| frame.center() + egui::vec2((x - 100.0) * scale, (70.0 - y) * scale);
    harness.drag_at(at(146.0, 48.0));
    harness.run();
    harness.hover_at(at(170.0, 30.0));
    harness.run();
    harness.drop_at(at(196.0, 4.0));
    harness.run();
    assert!(harness.query_by_label("take 30 holes in 1 row").is_some());
    let one = at(150.0, 12.0);
    harness.drag_at(one);
    harness.run();
    harness.drop_at(one);
    harness.run();
    assert!(harness.query_by_label("take 29 holes in 1 row").is_some());
}

/// A file that somebody lets fall on the window.
#[derive(Debug)]
struct Fallen(PathBuf);

impl egui::DroppedFile for Fallen {
    fn path(&self) -> &Path {
        &self.0
    }

    fn bytes(&self) -> Result<Vec<u8>, String> {
        fs::read(&self.0).map_err(|error| error.to_string())
    }
}

#[test]
fn files_dropped_together_are_read_one_after_the_other_and_none_is_lost() {
    let folder = tempfile::tempdir().expect("a folder");
    let mail = folder.path().join("mail.txt");
    fs::write(&mail, "").expect("written");
    let photo = folder.path().join("part.jpg");
    fs::write(&photo, b"no picture, but who looks").expect("written");
    let mut harness = window(folder.path());
    let dropped = [corpus("step-corpus/manifold-a.step"), mail, photo];
    let dropped = dropped.map(|path| Arc::new(Fallen(path)) as egui::DroppedFileHandle);
    harness.input_mut().dropped_files.extend(dropped);
    harness.run();
    let kept = folder.path().join("26-0101.files");
    assert!(kept.join("part.jpg").is_file(), "{}", notice(&harness));
    press(&mut harness, "only attach the file");
    assert!(
        kept.join("manifold-a.step").is_file(),
        "{}",
        notice(&harness)
    );
    assert!(harness.state().job().rows.is_empty());
    // The mail was waiting: it has no table, and is attached all the same.
    harness.run();
    assert!(kept.join("mail.txt").is_file(), "{}", notice(&harness));
    assert!(harness.state().app().view().waiting.is_none());
}

#[test]
fn a_file_without_holes_is_told_and_changes_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("empty.step");
    fs::write(&file, "ISO-10303-21;\nHEADER;\nENDSEC;\nDATA;\n").expect("written");
    let mut harness = window(folder.path());
    let before = harness.state().job().clone();
    take_from(&mut harness, &file);
    assert!(harness.state().app().view().waiting.is_none());
    assert!(
        notice(&harness).contains("empty.step"),
        "{}",
        notice(&harness)
    );
    assert_eq!(*harness.state().job(), before);
}
