//! Issued papers stay as issued, two desks lose nothing, and a bad disk is told in a sentence.
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

mod common;

use std::fs;

use common::{Clerk, day, inquiry, key, office, office_of, pdf, quoted, shop};
use quillbore_job::results::{Telling, results_now};
use quillbore_job::{Field, Form, Line, Paper, SealState, Shop, SlipKind};
use quillbore_office::office::Wanted;
use quillbore_office::office::reprint::reprint;
use quillbore_office::shelf::Held;

fn price(clerk: &Clerk) -> rust_decimal::Decimal {
    let results = results_now(&clerk.job, &clerk.office.shop_on(day()));
    results.figures.price.expect("a price").breaks[0].each
}

fn reprinted(clerk: &Clerk, number: &str) -> Result<Vec<u8>, String> {
    let opened = clerk.opened.as_ref().expect("it stands on the shelf");
    let stored = reprint(&clerk.job, opened, number, Form::default());
    stored
        .map(|(_, bytes)| bytes)
        .map_err(|failure| failure.to_string())
}

#[test]
fn nothing_is_issued_with_characters_that_cannot_be_printed() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut clerk = quoted(&office(folder.path()));
    clerk.field(Field::Customer, "\u{6771}\u{96f2}");
    let said = clerk.refused(Paper::Quotation);
    for told in ["Not issued.", "\u{201c}customer\u{201d}", "U+6771"] {
        assert!(said.contains(told), "{said}");
    }
    assert_eq!(clerk.job.issued.len(), 1, "only what was issued before");
    // A field that the paper doesn't print may hold anything.
    clerk.field(Field::Customer, "Grove Pump Works");
    clerk.field(Field::Notes, "\u{6771}");
    clerk.issue(Paper::Quotation);
}

/// Another rate card, another start value and another asset than the embedded shop's.
fn dearer() -> Shop {
    let mut shop = shop();
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
    let first = quoted(&office(folder.path()));
    let pdf = pdf(folder.path(), "26-0101-Q1");
    let before = fs::read(&pdf).expect("the paper");
    let (issued, today) = (first.job.issued.clone(), price(&first));
    let mut later = Clerk::opening(&office_of(folder.path(), dearer()), "26-0101");
    assert!(price(&later) > today, "the shop is dearer");
    later.field(Field::Notes, "looked at again");
    later.save().expect("saved");
    assert_eq!(later.job.issued, issued);
    assert_eq!(issued[0].lines[0].each, Some(today));
    assert_eq!(reprinted(&later, "26-0101-Q1"), Ok(before.clone()));
    // A second quotation is another paper; the first one stays.
    let second = later.issue(Paper::Quotation);
    assert_eq!(second.number, "26-0101-Q2");
    assert_ne!(second.lines[0].each, issued[0].lines[0].each);
    assert_ne!(second.rests_on, issued[0].rests_on);
    assert_eq!(fs::read(&pdf).expect("the paper"), before);
}

#[test]
fn a_paper_that_somebody_changed_is_noticed() {
    let folder = tempfile::tempdir().expect("a folder");
    let clerk = quoted(&office(folder.path()));
    let pdf = pdf(folder.path(), "26-0101-Q1");
    let mut bytes = fs::read(&pdf).expect("the paper");
    bytes.push(b'\n');
    fs::write(&pdf, bytes).expect("changed");
    let said = reprinted(&clerk, "26-0101-Q1").expect_err("it was changed");
    assert!(said.contains("somebody changed it"), "{said}");
    fs::remove_file(&pdf).expect("taken away");
    let said = reprinted(&clerk, "26-0101-Q1").expect_err("it is gone");
    assert!(said.contains("can't be read"), "{said}");
}

#[test]
fn names_in_a_job_never_lead_out_of_its_folder() {
    let folder = tempfile::tempdir().expect("a folder");
    let root = folder.path().join("shelf");
    fs::create_dir(&root).expect("a folder");
    let clerk = quoted(&office(&root));
    fs::write(folder.path().join("secret.pdf"), "outside").expect("written");
    // As a stranger's job file may say.
    for (file, kept_by) in [
        ("../../secret.pdf", None),
        ("/etc/hostname", None),
        ("26-0101-Q1.pdf", Some("../..")),
        ("secret.pdf", Some("..")),
        ("previous.ron", None),
    ] {
        let mut job = clerk.job.as_ref().clone();
        let entry = std::sync::Arc::make_mut(&mut job.issued[0]);
        entry.file = file.to_owned();
        entry.kept_by = kept_by.map(str::to_owned);
        // Whoever edits a file can compute its seal.
        *entry = entry.clone().sealed();
        let opened = clerk.opened.as_ref().expect("it stands on the shelf");
        let said = reprint(&job, opened, "26-0101-Q1", Form::default())
            .expect_err("refused")
            .to_string();
        assert!(
            said.contains("name") || said.contains("changed"),
            "{file}: {said}"
        );
    }
    // Nor does the number that a job gives itself.
    let mut job = clerk.job.as_ref().clone();
    job.number = "../../26-0101".to_owned();
    let mut stranger = Clerk::with(&clerk.office, job);
    stranger.opened.clone_from(&clerk.opened);
    let said = stranger.refused(Paper::Quotation);
    assert!(said.contains("../../26-0101"), "{said}");
    let names: Vec<_> = fs::read_dir(folder.path()).expect("the folder").collect();
    assert_eq!(names.len(), 2, "the shelf and the secret alone");
}

#[test]
fn two_desks_on_one_job_hear_of_each_other_and_put_their_work_together() {
    let folder = tempfile::tempdir().expect("a folder");
    let office = office(folder.path());
    let mut ours = quoted(&office);
    let held = office.shelf.hold(&key("26-0101"), "front office");
    assert!(matches!(held, Held::Here(_)), "{held:?}");
    let wanted = Wanted::Key(key("26-0101"));
    let on_desk = office
        .open(&wanted, "the other desk", &[])
        .expect("it opens");
    assert!(matches!(&on_desk.held, Held::Elsewhere(name) if name == "front office"));
    let mut theirs = Clerk::opening(&office, "26-0101");
    theirs.field(Field::Due, "2026-12-18");
    theirs.save().expect("saved");
    ours.field(Field::Notes, "wax in the bores");
    let error = ours.save().expect_err("they saved meanwhile");
    assert!(error.is_changed(), "{error}");
    let opened = ours.opened.clone().expect("it stands on the shelf");
    let merged = office.merge(&ours.job, &opened).expect("both");
    assert_eq!(merged.clashes, []);
    merged.saved.expect("saved");
    let again = Clerk::opening(&office, "26-0101");
    assert_eq!(again.job.text(Field::Notes), "wax in the bores");
    assert_eq!(again.job.text(Field::Due), "2026-12-18");
    drop(held);
    let free = office.shelf.hold(&key("26-0101"), "free");
    assert!(matches!(free, Held::Here(_)));
}

#[test]
fn a_job_that_is_gone_and_a_file_renamed_by_hand_are_told() {
    let folder = tempfile::tempdir().expect("a folder");
    let office = office(folder.path());
    let mut clerk = quoted(&office);
    clerk.field(Field::Notes, "typed while it went away");
    let renamed = folder.path().join("26-0500.ron");
    fs::rename(folder.path().join("26-0101.ron"), &renamed).expect("renamed");
    let said = clerk.save().expect_err("it is gone").to_string();
    assert!(said.contains("gone"), "{said}");
    let wanted = Wanted::Path(renamed);
    let told = office
        .open(&wanted, "another", &[])
        .expect("it opens")
        .told
        .join(" ");
    assert!(
        told.contains("26-0500") && told.contains("26-0101"),
        "{told}"
    );
}

#[test]
fn a_shelf_that_vanished_gets_nothing_written() {
    let folder = tempfile::tempdir().expect("a folder");
    let root = folder.path().join("mount");
    fs::create_dir(&root).expect("a folder");
    let office = office(&root);
    let mut clerk = quoted(&office);
    let mut new = inquiry(&office);
    // The share is no longer mounted: an empty folder stands in its place.
    fs::rename(&root, folder.path().join("away")).expect("unmounted");
    fs::create_dir(&root).expect("the mount point");
    clerk.field(Field::Notes, "typed meanwhile");
    let saved = [clerk.save(), new.save()];
    for saved in saved {
        let said = saved.expect_err("it vanished").to_string();
        assert!(said.contains("not there"), "{said}");
    }
    assert!(clerk.refused(Paper::Quotation).contains("not there"));
    assert_eq!(fs::read_dir(&root).expect("the mount point").count(), 0);
    fs::remove_dir(&root).expect("the mount point");
    fs::rename(folder.path().join("away"), &root).expect("mounted again");
    clerk.save().expect("saved");
}

#[test]
fn an_open_non_conformance_stops_a_reorder_until_someone_says_why_not() {
    let folder = tempfile::tempdir().expect("a folder");
    let office = office(folder.path());
    let mut clerk = quoted(&office);
    clerk.pin(SlipKind::Nonconformance, &[(Line::What, "oval exits")]);
    clerk.save().expect("saved");
    let again = quillbore_job::reorder::again(&clerk.job, day());
    let mut next = Clerk::with(&office, again);
    next.pin(
        SlipKind::Order,
        &[
            (Line::Quantity, "12"),
            (Line::Each, "400"),
            (Line::Accepted, "Pell: more than today's price"),
        ],
    );
    let said = next.refused(Paper::Confirmation);
    assert!(said.contains("non-conformance"), "{said}");
    next.type_on(0, Line::GoOn, "the customer reams them");
    next.issue(Paper::Confirmation);
}

#[test]
fn a_second_quotation_replaces_the_first_on_paper_and_in_the_job() {
    let folder = tempfile::tempdir().expect("a folder");
    let office = office(folder.path());
    let mut clerk = quoted(&office);
    let second = clerk.issue(Paper::Quotation);
    assert_eq!(second.replaces, ["26-0101-Q1"]);
    let text = second.pages.join("\n");
    assert!(
        text.contains("Replaces 26-0101-Q1 of 25 Nov 2026"),
        "{text}"
    );
    let standing = clerk.job.standing(Paper::Quotation);
    let standing: Vec<&str> = standing.map(|issued| issued.number.as_str()).collect();
    assert_eq!(standing, ["26-0101-Q2"]);
    let again = Clerk::opening(&office, "26-0101");
    assert_eq!(again.job.issued, clerk.job.issued, "the file says so too");
}

#[test]
fn what_leaves_with_an_open_non_conformance_is_asked_about() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut clerk = quoted(&office(folder.path()));
    let each = clerk.job.issued[0].lines[0]
        .each
        .expect("a price")
        .to_string();
    clerk.pin(
        SlipKind::Order,
        &[(Line::Quantity, "12"), (Line::Each, &each)],
    );
    clerk.pin(SlipKind::Run, &[(Line::Mark, "A"), (Line::Good, "12")]);
    clerk.pin(SlipKind::Nonconformance, &[(Line::What, "oval exits")]);
    clerk.pin(SlipKind::Delivery, &[(Line::Count, "12")]);
    let papers = [Paper::Packing, Paper::Label, Paper::Certificate];
    for paper in papers {
        let said = clerk.refused(paper);
        assert!(said.contains("non-conformance is open"), "{said}");
    }
    clerk.type_on(2, Line::SendBecause, "Ms. Orly by phone: they ream them");
    for paper in papers {
        let issued = clerk.issue(paper);
        let told = issued.pages.join("\n").contains("they ream them");
        assert_eq!(told, paper == Paper::Certificate, "{paper:?}");
    }
}

#[test]
fn a_paper_that_follows_an_order_bears_the_orders_revision_and_parts() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut clerk = quoted(&office(folder.path()));
    clerk.pin(
        SlipKind::Order,
        &[
            (Line::Quantity, "10"),
            (Line::Each, "0"),
            (Line::Revision, "D"),
            (Line::Accepted, "Pell: made again at our charge"),
        ],
    );
    let issued = clerk.issue(Paper::Confirmation);
    let line = &issued.lines[0];
    assert_eq!((line.revision.as_str(), line.quantity), ("D", 10));
    assert_eq!(line.each, Some("0".parse().expect("an amount")));
    let text = issued.pages.join("\n");
    for told in ["rev D", "Accepted: Pell: made again at our charge."] {
        assert!(text.contains(told), "{told} in {text}");
    }
    clerk.pin(SlipKind::Received, &[(Line::Count, "10")]);
    let issued = clerk.issue(Paper::Traveler);
    let line = &issued.lines[0];
    assert_eq!((line.revision.as_str(), line.quantity), ("D", 10));
}

#[test]
fn an_entry_that_somebody_changed_in_the_file_is_told_at_opening_and_not_reprinted() {
    let folder = tempfile::tempdir().expect("a folder");
    let office = office(folder.path());
    let first = quoted(&office);
    let entry = &first.job.issued[0];
    assert_eq!(entry.seal_state(), SealState::Sealed);
    let each = entry.lines[0].each.expect("a price").to_string();
    let path = folder.path().join("26-0101.ron");
    let text = fs::read_to_string(&path).expect("the job");
    let cheap = text.replace(&format!("each: \"{each}\""), "each: \"0.01\"");
    assert_ne!(cheap, text);
    fs::write(&path, cheap).expect("changed by hand");
    let told = |clerk: &Clerk| {
        let shop = clerk.office.shop_on(day());
        let results = results_now(&clerk.job, &shop);
        let telling = Telling::new(&clerk.job, &shop);
        let mut notes = results.notes.iter();
        notes
            .any(|note| note.code() == "entry-changed" && telling.text(note).contains("26-0101-Q1"))
    };
    let mut later = Clerk::opening(&office, "26-0101");
    assert!(told(&later));
    let said = reprinted(&later, "26-0101-Q1").expect_err("it was changed");
    assert!(
        said.contains("26-0101-Q1 doesn't match its seal") && said.contains("backup"),
        "{said}"
    );
    // Saving doesn't seal it, and the job is worked on.
    later.field(Field::Notes, "looked at again");
    later.save().expect("saved");
    let mut again = Clerk::opening(&office, "26-0101");
    assert!(told(&again));
    let second = again.issue(Paper::Quotation);
    assert_eq!(second.seal_state(), SealState::Sealed);
    assert!(reprinted(&again, "26-0101-Q2").is_ok());
}
