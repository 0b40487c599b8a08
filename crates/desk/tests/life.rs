//! Issued papers stay as issued, two desks lose nothing, and a bad disk is told in a sentence.
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

use std::fs;
use std::path::Path;

use chrono::NaiveDate;
use quillbore_desk::desk::Desk;
use quillbore_desk::grid::CellAt;
use quillbore_job::shelf::Held;
use quillbore_job::{Column, Edit, Field, Line, Paper, Shop, SlipKind, Unit, shelf};
use quillbore_paper::Sheet;

fn day() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 11, 25).expect("a day")
}

fn desk_of(shop: Shop, folder: &Path, name: &str) -> Desk {
    let mut desk = Desk::at_once(shop, day(), folder.to_owned());
    name.clone_into(&mut desk.name);
    desk
}

fn desk(folder: &Path, name: &str) -> Desk {
    desk_of(Shop::embedded().expect("the shop").clone(), folder, name)
}

fn edit(desk: &mut Desk, edit: &Edit) {
    desk.edit(edit, CellAt::default(), CellAt::default());
    assert_eq!(desk.notice, "");
}

fn field(desk: &mut Desk, field: Field, text: &str) {
    let set = Edit::SetField {
        field,
        text: text.to_owned(),
        unit: Unit::Mm,
    };
    edit(desk, &set);
}

fn quoted(folder: &Path) -> Desk {
    let mut desk = desk(folder, "front office");
    for (name, text) in [
        (Field::Customer, "Grove Pump Works"),
        (Field::Material, "Stainless 316"),
        (Field::Machine, "Wren"),
        (Field::Quantity, "12"),
        (Field::ValidDays, "30"),
    ] {
        field(&mut desk, name, text);
    }
    let cells = ["A", "6", "0.8 +-0.05", "12"].map(|text| Some(text.to_owned()));
    let set = Edit::SetCells {
        at: quillbore_job::CellAt {
            row: 0,
            column: Column::Mark,
        },
        rows: vec![cells.to_vec()],
        unit: Unit::Mm,
    };
    edit(&mut desk, &set);
    let issued = desk.issue(Paper::Quotation, Sheet::A4, &[]);
    assert!(issued.is_some(), "{}", desk.notice);
    desk
}

#[test]
fn nothing_is_issued_with_characters_that_cannot_be_printed() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut desk = quoted(folder.path());
    field(&mut desk, Field::Customer, "\u{6771}\u{96f2}");
    assert!(desk.issue(Paper::Quotation, Sheet::A4, &[]).is_none());
    for told in ["Not issued.", "\u{201c}customer\u{201d}", "U+6771"] {
        assert!(desk.notice.contains(told), "{}", desk.notice);
    }
    assert_eq!(desk.job().issued.len(), 1, "only what was issued before");
    // A field that the paper doesn't print may hold anything.
    desk.notice.clear();
    field(&mut desk, Field::Customer, "Grove Pump Works");
    field(&mut desk, Field::Notes, "\u{6771}");
    assert!(
        desk.issue(Paper::Quotation, Sheet::A4, &[]).is_some(),
        "{}",
        desk.notice
    );
}

/// Another rate card, another start value and another asset than the embedded shop's.
fn dearer() -> Shop {
    let mut shop = Shop::embedded().expect("the shop").clone();
    shop.tables.rates.labor_per_hour *= 3.0;
    shop.tables.rates.margin = 0.6;
    shop.tables.start.dressing_mm *= 2.0;
    for material in &mut shop.tables.materials {
        material.density_g_cm3 *= 1.1;
    }
    for tube in &mut shop.tables.tubes {
        tube.price *= 2.0;
    }
    shop
}

#[test]
fn no_change_of_the_shop_changes_an_issued_paper_by_a_byte() {
    let folder = tempfile::tempdir().expect("a folder");
    let first = quoted(folder.path());
    let job = folder.path().join("26-0101.ron");
    let pdf = folder.path().join("26-0101.files/26-0101-Q1.pdf");
    let before = fs::read(&pdf).expect("the paper");
    let issued = first.job().issued.clone();
    let today = first.results().figures.price.clone().expect("a price");
    drop(first);
    let mut later = desk_of(dearer(), folder.path(), "a year later");
    later.open(&job);
    let dear = later.results().figures.price.clone().expect("a price");
    assert!(
        dear.breaks[0].each > today.breaks[0].each,
        "the shop is dearer"
    );
    field(&mut later, Field::Notes, "looked at again");
    assert!(later.save(), "{}", later.notice);
    assert_eq!(later.job().issued, issued);
    assert_eq!(issued[0].lines[0].each, Some(today.breaks[0].each));
    assert_eq!(later.reprint("26-0101-Q1"), Some(pdf.clone()));
    assert_eq!(fs::read(&pdf).expect("the paper"), before);
    // A second quotation is another paper; the first one stays.
    let second = later.issue(Paper::Quotation, Sheet::A4, &[]);
    let second = second.expect("a second quotation");
    assert_eq!(second.number, "26-0101-Q2");
    assert_ne!(second.lines[0].each, issued[0].lines[0].each);
    assert_ne!(second.rests_on, issued[0].rests_on);
    assert_eq!(fs::read(&pdf).expect("the paper"), before);
}

#[test]
fn a_paper_that_somebody_changed_is_noticed_and_what_was_issued_cannot_be_undone() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut desk = quoted(folder.path());
    assert_eq!(desk.history.undo_label(), None);
    let pdf = folder.path().join("26-0101.files/26-0101-Q1.pdf");
    let mut bytes = fs::read(&pdf).expect("the paper");
    bytes.push(b'\n');
    fs::write(&pdf, bytes).expect("changed");
    assert_eq!(desk.reprint("26-0101-Q1"), None);
    assert!(
        desk.notice.contains("somebody changed it"),
        "{}",
        desk.notice
    );
    fs::remove_file(&pdf).expect("taken away");
    assert_eq!(desk.reprint("26-0101-Q1"), None);
    assert!(desk.notice.contains("can't be read"), "{}", desk.notice);
}

#[test]
fn a_foreign_file_with_a_papers_name_is_not_overwritten() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut desk = quoted(folder.path());
    let pdf = folder.path().join("26-0101.files/26-0101-Q2.pdf");
    fs::write(&pdf, "a letter").expect("written");
    assert!(desk.issue(Paper::Quotation, Sheet::A4, &[]).is_none());
    assert!(
        desk.notice.contains("nothing was issued"),
        "{}",
        desk.notice
    );
    assert_eq!(fs::read(&pdf).expect("the letter"), b"a letter");
    assert_eq!(desk.job().issued.len(), 1);
}

#[test]
fn two_desks_on_one_job_hear_of_each_other_and_put_their_work_together() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut ours = quoted(folder.path());
    let job = folder.path().join("26-0101.ron");
    let mut theirs = desk(folder.path(), "the other desk");
    theirs.open(&job);
    assert_eq!(theirs.held_elsewhere(), Some("front office"));
    field(&mut theirs, Field::Due, "2026-12-18");
    assert!(theirs.save(), "{}", theirs.notice);
    field(&mut ours, Field::Notes, "wax in the bores");
    assert!(!ours.save() && ours.changed_elsewhere, "{}", ours.notice);
    assert_eq!(ours.job().text(Field::Notes), "wax in the bores");
    assert!(ours.merge(CellAt::default()), "{}", ours.notice);
    assert_eq!(
        ours.notice,
        "Saved, merged with the other desk's work; the two nowhere met."
    );
    assert_eq!(ours.undo(), None, "their work is on disk and stays there");
    let mut again = desk(folder.path(), "a third");
    again.open(&job);
    assert_eq!(again.job().text(Field::Notes), "wax in the bores");
    assert_eq!(again.job().text(Field::Due), "2026-12-18");
    drop(ours);
    assert!(matches!(shelf::hold(&job, "free"), Held::Here(_)));
}

/// The disk refuses a merge, twice; what stands there is never saved over by a job without it.
#[test]
fn a_merge_that_is_not_saved_is_undone_with_the_file_that_it_rests_on() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut ours = quoted(folder.path());
    let job = folder.path().join("26-0101.ron");
    let mut theirs = desk(folder.path(), "the other desk");
    theirs.open(&job);
    field(&mut theirs, Field::Notes, "theirs");
    assert!(theirs.save(), "{}", theirs.notice);
    field(&mut ours, Field::Notes, "ours");
    assert!(!ours.save() && ours.changed_elsewhere);
    let (before, opened) = (ours.job().clone(), ours.file.clone());

    // A folder where the version before should go.
    let previous = folder.path().join("26-0101.files/previous.ron");
    fs::remove_file(&previous).expect("taken away");
    fs::create_dir(&previous).expect("a folder");
    let at = CellAt { row: 0, col: 2 };
    assert!(!ours.merge(at));
    for told in [
        "but not saved",
        "theirs was \u{201c}theirs\u{201d}",
        "Keeping the version before",
    ] {
        assert!(ours.notice.contains(told), "{}", ours.notice);
    }
    let once = ours.job().clone();
    fs::remove_dir(&previous).expect("taken away");
    field(&mut theirs, Field::Due, "2026-12-18");
    assert!(theirs.save(), "{}", theirs.notice);
    assert!(!ours.save() && ours.changed_elsewhere, "{}", ours.notice);
    fs::remove_file(&previous).expect("taken away");
    fs::create_dir(&previous).expect("a folder");
    assert!(!ours.merge(at));
    let twice = ours.job().clone();
    assert_eq!(twice.text(Field::Due), "2026-12-18");
    assert_eq!(twice.text(Field::Notes), "ours");
    fs::remove_dir(&previous).expect("taken away");

    let there = fs::read(&job).expect("theirs");
    for state in [once, before.clone()] {
        assert_eq!(ours.undo(), Some(at));
        assert_eq!(ours.job(), &state);
        assert!(!ours.save() && ours.changed_elsewhere, "{}", ours.notice);
        assert_eq!(
            fs::read(&job).expect("theirs"),
            there,
            "nothing was overwritten"
        );
    }
    assert_eq!(ours.file, opened);
    assert_eq!((ours.redo(), ours.redo()), (Some(at), Some(at)));
    assert_eq!(ours.job(), &twice);
    assert!(ours.save(), "{}", ours.notice);
    assert_eq!(ours.undo(), None);

    // As our own file, without their work, our state is nobody's loss.
    field(&mut theirs, Field::Due, "2026-12-19");
    assert!(!theirs.save());
    fs::remove_file(&previous).expect("taken away");
    fs::create_dir(&previous).expect("a folder");
    assert!(!theirs.merge(at));
    assert_eq!(theirs.undo(), Some(at));
    assert!(
        theirs.save_as(&folder.path().join("26-0102.ron")),
        "{}",
        theirs.notice
    );
    assert_eq!(theirs.redo(), None, "that merge was with another file");
}

#[test]
fn a_shelf_that_vanished_and_a_file_renamed_by_hand_are_told() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut desk = quoted(folder.path());
    field(&mut desk, Field::Notes, "typed while the share went away");
    let gone = folder.path().join("gone");
    fs::rename(folder.path().join("26-0101.ron"), &gone).expect("renamed");
    assert!(!desk.save());
    assert!(desk.notice.contains("gone"), "{}", desk.notice);
    assert!(desk.history.is_dirty(), "the work is still on the desk");
    let renamed = folder.path().join("26-0500.ron");
    fs::rename(gone, &renamed).expect("renamed");
    let mut other = self::desk(folder.path(), "another");
    other.open(&renamed);
    assert!(
        other.notice.contains("26-0500") && other.notice.contains("26-0101"),
        "{}",
        other.notice
    );
}

#[test]
fn an_open_non_conformance_stops_a_reorder_until_someone_says_why_not() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut desk = quoted(folder.path());
    let pin = |kind, lines: &[(Line, &str)]| Edit::AddSlip {
        kind,
        lines: lines
            .iter()
            .map(|(line, text)| (*line, (*text).to_owned()))
            .collect(),
        unit: Unit::Mm,
    };
    edit(
        &mut desk,
        &pin(SlipKind::Nonconformance, &[(Line::What, "oval exits")]),
    );
    assert!(desk.save(), "{}", desk.notice);
    let again = quillbore_job::reorder::again(desk.job(), day());
    let mut next = self::desk(folder.path(), "front office");
    next.put(again);
    edit(
        &mut next,
        &pin(
            SlipKind::Order,
            &[
                (Line::Quantity, "12"),
                (Line::Each, "400"),
                (Line::Accepted, "Pell: more than today's price"),
            ],
        ),
    );
    assert!(next.issue(Paper::Confirmation, Sheet::A4, &[]).is_none());
    assert!(next.notice.contains("non-conformance"), "{}", next.notice);
    let go_on = Edit::SetLine {
        slip: 0,
        line: Line::GoOn,
        text: "the customer reams them".to_owned(),
        unit: Unit::Mm,
    };
    edit(&mut next, &go_on);
    let issued = next.issue(Paper::Confirmation, Sheet::A4, &[]);
    assert!(issued.is_some(), "{}", next.notice);
}

/// Pins a slip with these lines.
fn pin(desk: &mut Desk, kind: SlipKind, lines: &[(Line, &str)]) {
    let lines = lines.iter().map(|(line, text)| (*line, (*text).to_owned()));
    let slip = Edit::AddSlip {
        kind,
        lines: lines.collect(),
        unit: Unit::Mm,
    };
    edit(desk, &slip);
}

fn type_on(desk: &mut Desk, slip: u32, line: Line, text: &str) {
    let set = Edit::SetLine {
        slip,
        line,
        text: text.to_owned(),
        unit: Unit::Mm,
    };
    edit(desk, &set);
}

#[test]
fn a_second_quotation_replaces_the_first_on_paper_and_in_the_job() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut desk = quoted(folder.path());
    let second = desk.issue(Paper::Quotation, Sheet::A4, &[]);
    let second = second.expect("a second quotation");
    assert_eq!(second.replaces, ["26-0101-Q1"]);
    let text = second.pages.join("\n");
    assert!(
        text.contains("Replaces 26-0101-Q1 of Nov 25, 2026"),
        "{text}"
    );
    let standing: Vec<&str> = desk
        .job()
        .standing(Paper::Quotation)
        .map(|issued| issued.number.as_str())
        .collect();
    assert_eq!(standing, ["26-0101-Q2"]);
    let mut again = self::desk(folder.path(), "another");
    again.open(&folder.path().join("26-0101.ron"));
    assert_eq!(
        again.job().issued,
        desk.job().issued,
        "the file says so too"
    );
}

#[test]
fn what_leaves_with_an_open_non_conformance_is_asked_about() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut desk = quoted(folder.path());
    let each = desk.job().issued[0].lines[0].each.expect("a price");
    let each = each.to_string();
    pin(
        &mut desk,
        SlipKind::Order,
        &[(Line::Quantity, "12"), (Line::Each, &each)],
    );
    pin(
        &mut desk,
        SlipKind::Run,
        &[(Line::Mark, "A"), (Line::Good, "12")],
    );
    pin(
        &mut desk,
        SlipKind::Nonconformance,
        &[(Line::What, "oval exits")],
    );
    pin(&mut desk, SlipKind::Delivery, &[(Line::Count, "12")]);
    let papers = [Paper::Packing, Paper::Label, Paper::Certificate];
    for paper in papers {
        assert!(desk.issue(paper, Sheet::A4, &[]).is_none(), "{paper:?}");
        assert!(
            desk.notice.contains("non-conformance is open"),
            "{}",
            desk.notice
        );
        desk.notice.clear();
    }
    type_on(
        &mut desk,
        2,
        Line::SendBecause,
        "Ms. Orly by phone: they ream them",
    );
    for paper in papers {
        let issued = desk.issue(paper, Sheet::A4, &[]);
        let issued = issued.expect("somebody said why");
        let told = issued.pages.join("\n").contains("they ream them");
        assert_eq!(told, paper == Paper::Certificate, "{paper:?}");
        desk.notice.clear();
    }
}

#[test]
fn a_paper_that_follows_an_order_bears_the_orders_revision_and_parts() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut desk = quoted(folder.path());
    pin(
        &mut desk,
        SlipKind::Order,
        &[
            (Line::Quantity, "10"),
            (Line::Each, "0"),
            (Line::Revision, "D"),
            (Line::Accepted, "Pell: made again at our charge"),
        ],
    );
    let issued = desk.issue(Paper::Confirmation, Sheet::A4, &[]);
    let issued = issued.expect("all of it was accepted");
    let line = &issued.lines[0];
    assert_eq!((line.revision.as_str(), line.quantity), ("D", 10));
    assert_eq!(line.each, Some("0".parse().expect("an amount")));
    let text = issued.pages.join("\n");
    for told in ["rev D", "Accepted: Pell: made again at our charge."] {
        assert!(text.contains(told), "{told} in {text}");
    }
    pin(&mut desk, SlipKind::Received, &[(Line::Count, "10")]);
    let issued = desk.issue(Paper::Traveler, Sheet::A4, &[]);
    let issued = issued.expect("order and parts are here");
    let line = &issued.lines[0];
    assert_eq!((line.revision.as_str(), line.quantity), ("D", 10));
}
