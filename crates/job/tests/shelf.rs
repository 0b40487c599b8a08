//! The shelf: scanned, cached, searched, compared and held.
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

use std::fs;
use std::path::Path;
use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_calc::tables::Family;
use quillbore_job::file::{FORMAT, RealDisk, write_job};
use quillbore_job::shelf::{
    Held, Index, Scan, ShelfLine, Stamp, Summary, Wanted, free_number, hold, read_cache,
    save_under_next_number, scan, similar, write_cache,
};
use quillbore_job::{CellAt, Column, Edit, Field, Job, Unit, apply};

fn day() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 11, 25).expect("a day")
}

fn job(number: &str, fields: &[(Field, &str)]) -> Job {
    let mut job = Job {
        number: number.to_owned(),
        ..Job::default()
    };
    for (field, text) in fields {
        let edit = Edit::SetField {
            field: *field,
            text: (*text).to_owned(),
            unit: Unit::Mm,
        };
        job = apply(&job, &edit).expect("an edit").0;
    }
    job
}

fn with_hole(job: &Job, size: &str, depth: &str) -> Job {
    let texts = ["A", "36", size, depth].map(|text| Some(text.to_owned()));
    let edit = Edit::SetCells {
        at: CellAt {
            row: 0,
            column: Column::Mark,
        },
        rows: vec![texts.to_vec()],
        unit: Unit::Mm,
    };
    apply(job, &edit).expect("an edit").0
}

fn put(shelf: &Path, job: &Job) {
    fs::write(shelf.join(format!("{}.ron", job.number)), write_job(job)).expect("a job's file");
}

fn all(shelf: &Path, known: &[Arc<ShelfLine>]) -> Scan {
    scan(shelf, known, |_| true).expect("a shelf")
}

fn line(job: &Job) -> Arc<ShelfLine> {
    Arc::new(ShelfLine {
        file: format!("{}.ron", job.number),
        number: job.number.clone(),
        stamp: Stamp::default(),
        says: Ok(Summary::of(job)),
    })
}

#[test]
fn only_what_changed_is_read_again_and_what_cannot_be_read_stays_listed() {
    let folder = tempfile::tempdir().expect("a folder");
    put(
        folder.path(),
        &job("26-0101", &[(Field::Customer, "Alder")]),
    );
    put(
        folder.path(),
        &job("26-0102", &[(Field::Customer, "Finch")]),
    );
    fs::write(folder.path().join("26-0103.ron"), "no job").expect("written");
    fs::write(folder.path().join("letter.txt"), "not ours").expect("written");
    fs::create_dir(folder.path().join("26-0104.ron")).expect("a folder with a job's name");
    let first = all(folder.path(), &[]);
    assert_eq!((first.lines.len(), first.read), (3, 3));
    let broken = first.lines.iter().find(|line| line.number == "26-0103");
    assert!(broken.is_some_and(|line| line.says.is_err()));
    let kept = read_cache(&write_cache(&first.lines));
    assert_eq!(kept.len(), 3);
    put(
        folder.path(),
        &job("26-0102", &[(Field::Customer, "Finch & Daughters")]),
    );
    let second = all(folder.path(), &kept);
    assert_eq!((second.lines.len(), second.read), (3, 1));
    let index = Index::new(second.lines);
    assert_eq!(index.find("daughters").len(), 1);
    assert!(scan(&folder.path().join("gone"), &[], |_| true).is_err());
    assert_eq!(read_cache(b"{\"version\":1"), []);
    // What a program of another format couldn't read, this one perhaps can.
    let other = String::from_utf8(write_cache(&kept)).expect("text");
    let other = other.replacen(&format!("\"format\":{FORMAT}"), "\"format\":1", 1);
    assert_eq!(read_cache(other.as_bytes()), []);
}

#[test]
fn a_scan_stops_where_nobody_listens_any_more() {
    let folder = tempfile::tempdir().expect("a folder");
    put(folder.path(), &job("26-0101", &[]));
    let scan = scan(folder.path(), &[], |_| false).expect("a shelf");
    assert_eq!(scan.read, 0);
}

/// Every query against the plain way of looking: all words in the lower-case text.
#[test]
fn a_search_finds_what_a_plain_look_through_every_text_finds() {
    let customers = [
        "Alder Finch Rotors",
        "Dunmoor Hydraulics",
        "Moss & S\u{f6}hne",
        "x",
    ];
    let parts = ["4-118", "SP-510", "11.8/4", ""];
    let lines: Vec<Arc<ShelfLine>> = (0..200)
        .map(|at| {
            line(&job(
                &format!("26-{at:04}"),
                &[
                    (Field::Customer, customers[at % 4]),
                    (Field::Part, parts[at / 4 % 4]),
                    (Field::Notes, if at % 7 == 0 { "call\nMoss" } else { "" }),
                ],
            ))
        })
        .collect();
    let index = Index::new(lines);
    for typed in [
        "",
        "a",
        "4",
        "-",
        "26",
        "0-",
        "118",
        "alder",
        "ALDER 4-118",
        "moss",
        "s\u{f6}hne",
        "\u{f6}",
        "11.8/4 dun",
        "&",
        "rotors hydraulics",
        "0117",
        "call moss",
        "zz",
        "  x  ",
    ] {
        let words = typed.to_lowercase();
        let plain: Vec<u32> = (0_u32..)
            .zip(&index.lines)
            .filter(|(_, line)| {
                let says = line.says.as_ref().expect("a summary");
                let text = [
                    &line.number,
                    &says.part,
                    &says.customer,
                    &says.state,
                    &says.notes,
                ]
                .map(|text| text.to_lowercase());
                let has = |word| text.iter().any(|text: &String| text.contains(word));
                words.split_whitespace().all(has)
            })
            .map(|(at, _)| at)
            .collect();
        assert_eq!(index.find(typed), plain, "{typed:?}");
    }
    assert_eq!(index.lines[0].number, "26-0199", "the newest first");
    let found = index.by_number("26-0042").map(|line| line.number.as_str());
    assert_eq!(found, Some("26-0042"));
    assert!(index.by_number("26-9999").is_none());
}

#[test]
fn numbers_go_on_above_every_file_and_folder_of_the_year() {
    let folder = tempfile::tempdir().expect("a folder");
    let free = || free_number(folder.path(), day()).expect("a number");
    assert_eq!(free(), "26-0101");
    put(folder.path(), &job("25-0999", &[]));
    fs::create_dir(folder.path().join("26-0117.files")).expect("a folder");
    assert_eq!(free(), "26-0118");
    let taken = save_under_next_number(&RealDisk, folder.path(), &Job::default(), day());
    let (path, job, _) = taken.expect("a number");
    assert_eq!(job.number, "26-0118");
    assert_eq!(job.opened, Some(day()));
    assert!(path.ends_with("26-0118.ron") && path.is_file());
    assert_eq!(free(), "26-0119");
    assert!(free_number(&folder.path().join("gone"), day()).is_err());
}

#[test]
fn jobs_most_like_one_come_first_and_unlike_ones_not_at_all() {
    let nickel = "Nickel alloy 718";
    let steel = "Alloy steel 4340";
    let made = |number, material, quantity, size, depth| {
        let fields = [(Field::Material, material), (Field::Quantity, quantity)];
        line(&with_hole(&job(number, &fields), size, depth))
    };
    let index = Index::new(vec![
        made("26-0101", nickel, "25", "0.8", "14"),
        made("26-0102", nickel, "25", "0.8", "14"),
        made("26-0103", steel, "25", "0.8", "14"),
        made("26-0104", nickel, "25", "1.6", "28"),
        made("26-0105", nickel, "400", "0.8", "14"),
        made("26-0106", nickel, "25", "8", "14"),
    ]);
    let family_of = |name: &str| match name {
        n if n == nickel => Some((0, Family::Nickel)),
        n if n == steel => Some((1, Family::Steel)),
        _ => None,
    };
    let wanted = Wanted {
        number: "26-0102",
        family: Some(Family::Nickel),
        material: Some(0),
        size_mm: Some(0.8),
        depth_mm: Some(14.0),
        quantity: Some(25),
    };
    let found: Vec<String> = similar(&index, &wanted, &family_of, 9)
        .into_iter()
        .map(|alike| alike.number)
        .collect();
    assert_eq!(found, ["26-0101", "26-0104", "26-0105", "26-0103"]);
    let nothing = Wanted {
        size_mm: None,
        ..wanted
    };
    assert!(similar(&index, &nothing, &family_of, 9).is_empty());
}

#[test]
fn a_job_is_held_by_one_desk_and_the_other_hears_its_name() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("26-0101.ron");
    let first = hold(&path, "front office");
    assert!(matches!(first, Held::Here(_)));
    let second = hold(&path, "the shop's other desk");
    assert!(matches!(&second, Held::Elsewhere(name) if name == "front office"));
    drop(first);
    assert!(matches!(hold(&path, "again"), Held::Here(_)));
}
