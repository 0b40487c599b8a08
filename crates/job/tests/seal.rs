//! The seal of issued papers' entries: two that differ never have the same bytes, a file carries it
//! through, and a change by hand shows.

#![expect(
    clippy::panic,
    clippy::unwrap_used,
    reason = "a helper that fails is a failed test"
)]

mod hands;

use std::collections::VecDeque;
use std::path::Path;
use std::sync::Arc;

use chrono::NaiveDate;
use hands::{field, issue, ring};
use proptest::prelude::*;
use quillbore_calc::RowId;
use quillbore_calc::input::Place;
use quillbore_job::answer::{Answer, How};
use quillbore_job::concern::{Concern, Facts};
use quillbore_job::file::{Hash, hash, read_job, write_job};
use quillbore_job::job::{FigureKey, Overrule};
use quillbore_job::read_field::read_field;
use quillbore_job::read_overrule::read_overrule;
use quillbore_job::row::put;
use quillbore_job::{
    Column, Entry, Field, Issued, IssuedLine, Job, Paper, Row, Seal, SealState, Unit,
};

/// One part, as the description of the seal says it.
fn part(name: &str, content: &[u8]) -> Vec<u8> {
    let mut bytes = u64::try_from(name.len()).unwrap().to_le_bytes().to_vec();
    bytes.extend(name.as_bytes());
    bytes.extend(u64::try_from(content.len()).unwrap().to_le_bytes());
    bytes.extend(content);
    bytes
}

#[test]
fn the_bytes_are_those_that_the_description_gives() {
    let typed = |text: &str| {
        let text = part("text", text.as_bytes());
        [text, part("unit", b"inch")].concat()
    };
    let mut job = Job {
        number: "26-0101".to_owned(),
        opened: NaiveDate::from_ymd_opt(2026, 1, 31),
        next_row: 8,
        next_slip: 2,
        ..Job::default()
    };
    let fields = Arc::make_mut(&mut job.fields);
    for (field, text) in [(Field::Quantity, "12"), (Field::Due, "soon")] {
        fields.insert(field, read_field(field, text, Unit::Inch));
    }
    let mut row = Row {
        id: RowId(7),
        ..Row::default()
    };
    for (column, text) in [(Column::Size, "0.5"), (Column::Mark, "\u{e4}")] {
        put(&mut row, column, text, Unit::Inch, job.angle_basis());
    }
    row.places = Arc::new(vec![Place {
        number: 3,
        point_mm: [1.0, -0.0, 2.5],
        axis: [0.0, 0.0, -1.0],
    }]);
    job.rows.push(Arc::new(row));
    job.overrules.push(Overrule {
        figure: FigureKey::Feed(RowId(7)),
        value: read_overrule(&FigureKey::Feed(RowId(7)), "9", Unit::Inch),
        reason: "old job".to_owned(),
    });
    job.answers.push(Answer {
        row: RowId(7),
        concern: Concern::Depth,
        facts: Facts {
            given: vec![0.5],
            by: 0.25,
        },
        how: How::Agreed,
        said: "Moss".to_owned(),
        by: String::new(),
        date: hands::day(2, 3),
    });
    let entry = Issued {
        number: "26-0101-Q1".to_owned(),
        paper: Paper::Quotation,
        date: hands::day(2, 1),
        valid_until: Some(hands::day(3, 1)),
        file: "26-0101-Q1.pdf".to_owned(),
        kept_by: Some("26-0100".to_owned()),
        hash: hash(b""),
        lines: vec![IssuedLine {
            job: "26-0101".to_owned(),
            part: String::new(),
            revision: "C".to_owned(),
            quantity: 258,
            each: "48.20".parse().ok(),
        }],
        currency: Some("EUR".to_owned()),
        rests_on: vec![("margin".to_owned(), 0.5)],
        pages: vec!["one".to_owned(), String::new()],
        replaces: vec!["26-0101-Q0".to_owned()],
        inputs: Some(Arc::new(job)),
        seal: None,
    };
    let empty = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855";
    let place = [
        [3, 0, 0, 0].as_slice(),
        &[0, 0, 0, 0, 0, 0, 0xf0, 0x3f],
        &[0, 0, 0, 0, 0, 0, 0, 0x80],
        &[0, 0, 0, 0, 0, 0, 0x04, 0x40],
        &[0; 16],
        &[0, 0, 0, 0, 0, 0, 0xf0, 0xbf],
    ];
    let line = [
        part("job", b"26-0101"),
        part("part", b""),
        part("revision", b"C"),
        part("quantity", &[2, 1, 0, 0]),
        part("each", b"48.20"),
    ];
    let rests_on = [
        part("name", b"margin"),
        part("value", &[0, 0, 0, 0, 0, 0, 0xe0, 0x3f]),
    ];
    let due = [part("key", b"due"), typed("soon")];
    let quantity = [part("key", b"quantity"), typed("12")];
    let mark = [part("key", b"mark"), typed("\u{e4}")];
    let size = [part("key", b"size"), typed("0.5")];
    let row = [
        part("id", &[7, 0, 0, 0]),
        part("cell", &mark.concat()),
        part("cell", &size.concat()),
        part("place", &place.concat()),
    ];
    let overrule = [
        part("figure", b"feed"),
        part("row", &[7, 0, 0, 0]),
        typed("9"),
        part("reason", b"old job"),
    ];
    let answer = [
        part("row", &[7, 0, 0, 0]),
        part("concern", b"depth"),
        part("given", &[0, 0, 0, 0, 0, 0, 0xe0, 0x3f]),
        part("by_mm", &[0, 0, 0, 0, 0, 0, 0xd0, 0x3f]),
        part("how", b"agreed"),
        part("said", b"Moss"),
        part("by", b""),
        part("date", b"2026-02-03"),
    ];
    let inputs = [
        part("number", b"26-0101"),
        part("opened", b"2026-01-31"),
        part("unit", b"mm"),
        part("field", &due.concat()),
        part("field", &quantity.concat()),
        part("next_row", &[8, 0, 0, 0]),
        part("row", &row.concat()),
        part("overrule", &overrule.concat()),
        part("answer", &answer.concat()),
        part("next_slip", &[2, 0, 0, 0]),
    ];
    let expected = [
        part("version", &[1, 0, 0, 0]),
        part("number", b"26-0101-Q1"),
        part("paper", b"quotation"),
        part("date", b"2026-02-01"),
        part("valid_until", b"2026-03-01"),
        part("file", b"26-0101-Q1.pdf"),
        part("kept_by", b"26-0100"),
        part("hash", empty.as_bytes()),
        part("line", &line.concat()),
        part("currency", b"EUR"),
        part("rests_on", &rests_on.concat()),
        part("page", b"one"),
        part("page", b""),
        part("replaces", b"26-0101-Q0"),
        part("inputs", &inputs.concat()),
    ];
    assert_eq!(entry.sealed_bytes(), expected.concat());
    let sealed = entry.clone().sealed();
    let seal = Seal {
        version: 1,
        hash: hash(&expected.concat()),
    };
    assert_eq!(sealed.seal, Some(seal));
    assert_eq!(sealed.sealed_bytes(), entry.sealed_bytes());
}

/// Parts as they come.
struct Parts(VecDeque<(String, Vec<u8>)>);

impl Parts {
    fn of(mut bytes: &[u8]) -> Self {
        let mut parts = VecDeque::new();
        let next = |bytes: &mut &[u8]| -> Vec<u8> {
            let (length, rest) = bytes.split_at(8);
            let length = u64::from_le_bytes(length.try_into().unwrap());
            let (content, rest) = rest.split_at(usize::try_from(length).unwrap());
            *bytes = rest;
            content.to_vec()
        };
        while !bytes.is_empty() {
            let name = String::from_utf8(next(&mut bytes)).unwrap();
            parts.push_back((name, next(&mut bytes)));
        }
        Self(parts)
    }

    fn maybe(&mut self, name: &str) -> Option<Vec<u8>> {
        let is_it = self.0.front().is_some_and(|(there, _)| there == name);
        is_it.then(|| self.0.pop_front().unwrap().1)
    }

    fn all(&mut self, name: &str) -> Vec<Vec<u8>> {
        std::iter::from_fn(|| self.maybe(name)).collect()
    }

    fn one(&mut self, name: &str) -> Vec<u8> {
        let next = self.0.front().map(|(there, _)| there.clone());
        let found = self.maybe(name);
        found.unwrap_or_else(|| panic!("{name} wanted, {next:?} there"))
    }

    fn text(&mut self, name: &str) -> String {
        String::from_utf8(self.one(name)).unwrap()
    }

    fn whole(&mut self, name: &str) -> u32 {
        u32::from_le_bytes(self.one(name).try_into().unwrap())
    }

    fn day(&mut self, name: &str) -> NaiveDate {
        self.text(name).parse().unwrap()
    }

    fn typed(&mut self) -> Option<(String, Unit)> {
        let text = String::from_utf8(self.maybe("text")?).unwrap();
        Some((text, self.unit()))
    }

    fn unit(&mut self) -> Unit {
        match self.text("unit").as_str() {
            "mm" => Unit::Mm,
            "inch" => Unit::Inch,
            other => panic!("{other}"),
        }
    }

    fn end(self) {
        assert_eq!(self.0, []);
    }
}

fn bits(bytes: &[u8]) -> f64 {
    f64::from_bits(u64::from_le_bytes(bytes.try_into().unwrap()))
}

/// The entry that some bytes are of, by the description alone. That there is one for every entry's
/// bytes, and that it is the entry, is why no two entries have the same.
fn entry_of(bytes: &[u8]) -> Issued {
    let mut parts = Parts::of(bytes);
    assert_eq!(parts.whole("version"), 1);
    let named = |key: String| *Paper::ALL.iter().find(|paper| paper.key() == key).unwrap();
    let line = |bytes: Vec<u8>| {
        let mut parts = Parts::of(&bytes);
        let line = IssuedLine {
            job: parts.text("job"),
            part: parts.text("part"),
            revision: parts.text("revision"),
            quantity: parts.whole("quantity"),
            each: parts
                .maybe("each")
                .map(|text| String::from_utf8(text).unwrap().parse().unwrap()),
        };
        parts.end();
        line
    };
    let rests_on = |bytes: Vec<u8>| {
        let mut parts = Parts::of(&bytes);
        let row = (parts.text("name"), bits(&parts.one("value")));
        parts.end();
        row
    };
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
    let entry = Issued {
        number: parts.text("number"),
        paper: named(parts.text("paper")),
        date: parts.day("date"),
        valid_until: parts
            .maybe("valid_until")
            .map(|day| text(day).parse().unwrap()),
        file: parts.text("file"),
        kept_by: parts.maybe("kept_by").map(text),
        hash: Hash::from_hex(&parts.text("hash")).unwrap(),
        lines: parts.all("line").into_iter().map(line).collect(),
        currency: parts.maybe("currency").map(text),
        rests_on: parts.all("rests_on").into_iter().map(rests_on).collect(),
        pages: parts.all("page").into_iter().map(text).collect(),
        replaces: parts.all("replaces").into_iter().map(text).collect(),
        inputs: parts
            .maybe("inputs")
            .map(|bytes| Arc::new(sheet_of(&bytes))),
        seal: None,
    };
    parts.end();
    entry
}

fn sheet_of(bytes: &[u8]) -> Job {
    let mut parts = Parts::of(bytes);
    let mut job = Job {
        number: parts.text("number"),
        opened: parts
            .maybe("opened")
            .map(|day| String::from_utf8(day).unwrap().parse().unwrap()),
        unit: parts.unit(),
        ..Job::default()
    };
    for bytes in parts.all("field") {
        let mut parts = Parts::of(&bytes);
        let key = parts.text("key");
        let field = *Field::ALL.iter().find(|field| field.key() == key).unwrap();
        let (text, unit) = parts.typed().unwrap();
        Arc::make_mut(&mut job.fields).insert(field, read_field(field, &text, unit));
        parts.end();
    }
    job.next_row = parts.whole("next_row");
    for bytes in parts.all("row") {
        let mut parts = Parts::of(&bytes);
        let mut row = Row {
            id: RowId(parts.whole("id")),
            ..Row::default()
        };
        for bytes in parts.all("cell") {
            let mut parts = Parts::of(&bytes);
            let key = parts.text("key");
            let column = *Column::ALL
                .iter()
                .find(|column| column.key() == key)
                .unwrap();
            let (text, unit) = parts.typed().unwrap();
            put(&mut row, column, &text, unit, job.angle_basis());
            parts.end();
        }
        let places = parts.all("place").into_iter().map(|bytes| {
            assert_eq!(bytes.len(), 52);
            let lengths: Vec<f64> = bytes[4..].chunks_exact(8).map(bits).collect();
            Place {
                number: u32::from_le_bytes(bytes[..4].try_into().unwrap()),
                point_mm: lengths[..3].try_into().unwrap(),
                axis: lengths[3..].try_into().unwrap(),
            }
        });
        row.places = Arc::new(places.collect());
        job.rows.push(Arc::new(row));
        parts.end();
    }
    for bytes in parts.all("overrule") {
        let mut parts = Parts::of(&bytes);
        let figure = match parts.text("figure").as_str() {
            "gap" => FigureKey::Gap(RowId(parts.whole("row"))),
            "feed" => FigureKey::Feed(RowId(parts.whole("row"))),
            "hole_minutes" => FigureKey::HoleMinutes(RowId(parts.whole("row"))),
            "wear" => FigureKey::Wear(RowId(parts.whole("row"))),
            "electrodes" => FigureKey::Electrodes(parts.text("tube")),
            "machine_hours" => FigureKey::MachineHours,
            "labor_hours" => FigureKey::LaborHours,
            "not_yet_known" => FigureKey::NotYetKnown,
            "unit_price" => FigureKey::UnitPrice(parts.whole("quantity")),
            other => panic!("{other}"),
        };
        let value = parts.typed().map_or(Entry::EMPTY, |(text, unit)| {
            read_overrule(&figure, &text, unit)
        });
        job.overrules.push(Overrule {
            figure,
            value,
            reason: parts.text("reason"),
        });
        parts.end();
    }
    for bytes in parts.all("answer") {
        let mut parts = Parts::of(&bytes);
        let row = RowId(parts.whole("row"));
        let concern = parts.text("concern");
        let given = parts.all("given").iter().map(|bytes| bits(bytes)).collect();
        let by = bits(&parts.one("by_mm"));
        let how = parts.text("how");
        job.answers.push(Answer {
            row,
            concern: *Concern::ALL.iter().find(|c| c.key() == concern).unwrap(),
            facts: Facts { given, by },
            how: *How::ALL.iter().find(|h| h.key() == how).unwrap(),
            said: parts.text("said"),
            by: parts.text("by"),
            date: parts.day("date"),
        });
        parts.end();
    }
    job.next_slip = parts.whole("next_slip");
    parts.end();
    job
}

/// What holds of every entry: its bytes are of it alone, and a file carries its seal through.
fn holds(entry: &Issued) {
    let sealed = entry.clone().sealed();
    assert_eq!(sealed.seal_state(), SealState::Sealed);
    let bytes = sealed.sealed_bytes();
    let again = Issued {
        seal: sealed.seal,
        ..entry_of(&bytes)
    };
    // That -0 is 0 and 48.20 is 48.2 is true of the numbers, not of the bytes.
    assert_eq!(again, sealed);
    assert_eq!(again.sealed_bytes(), bytes);
    let job = Job {
        issued: vec![Arc::new(sealed.clone())],
        ..Job::default()
    };
    let file = write_job(&job);
    let opened = read_job(file.as_bytes()).unwrap_or_else(|why| panic!("{why}: {file}"));
    assert_eq!(opened.issued, [Arc::new(sealed)]);
    assert_eq!(opened.issued[0].seal_state(), SealState::Sealed);
    assert_eq!(opened.issued[0].sealed_bytes(), bytes);
}

fn jobs_in(folder: &str) -> Vec<Job> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../..")
        .join(folder);
    let paths = std::fs::read_dir(&folder)
        .unwrap()
        .map(|file| file.unwrap().path());
    let mut paths: Vec<_> = paths.collect();
    paths.sort();
    let jobs: Vec<Job> = paths
        .iter()
        .map(|path| read_job(&std::fs::read(path).unwrap()).unwrap())
        .collect();
    assert!(!jobs.is_empty(), "{}", folder.display());
    jobs
}

#[test]
fn every_job_that_we_have_is_sealed_and_is_so_still_when_it_was_saved_and_opened() {
    for folder in [
        "demo-jobs",
        "tests/hard-jobs",
        "tests/old-jobs/format-1",
        "tests/old-jobs/format-2",
    ] {
        for job in jobs_in(folder) {
            let quoted = issue(&job, Paper::Quotation, &[(25, "48.20")]);
            holds(quoted.issued.last().unwrap());
            for entry in &job.issued {
                holds(entry);
            }
        }
    }
}

#[test]
fn what_was_issued_before_papers_were_sealed_opens_and_is_never_sealed() {
    let job = jobs_in("tests/old-jobs/format-1").into_iter();
    let job = job.max_by_key(|job| job.issued.len()).unwrap();
    assert_eq!(job.issued.len(), 7);
    let unsealed = |job: &Job| {
        let mut papers = job.issued.iter();
        papers.all(|paper| paper.seal_state() == SealState::Unsealed && paper.is_trusted())
    };
    assert!(unsealed(&job));
    let file = write_job(&field(&job, Field::Notes, "looked at"));
    assert!(!file.contains("seal:"));
    let saved = read_job(file.as_bytes()).unwrap();
    assert!(unsealed(&saved));
    let ours = field(&saved, Field::Notes, "ours");
    let merged = quillbore_job::merge::merge(&saved, &ours, &job).unwrap();
    assert!(unsealed(&merged.job));
}

fn opened_with(file: &str, from: &str, to: &str) -> SealState {
    assert!(file.contains(from), "{from} in {file}");
    let changed = file.replacen(from, to, 1);
    let job = read_job(changed.as_bytes()).unwrap_or_else(|why| panic!("{to}: {why}"));
    job.issued[0].seal_state()
}

#[test]
fn a_change_of_the_file_by_hand_shows_and_an_unknown_seal_is_told_as_such() {
    let job = issue(&ring(), Paper::Quotation, &[(25, "48.20")]);
    let file = write_job(&job);
    let seal = job.issued[0].seal.unwrap().hash.to_string();
    let line = format!("seal: (1, \"{seal}\")");
    assert!(file.contains(&line), "{file}");
    let papers = &file[file.find("issued: [").unwrap()..];
    let head = &file[..file.len() - papers.len()];
    let opened = |from: &str, to: &str| {
        let (mine, theirs) = (papers.to_owned(), papers.replacen(from, to, 1));
        assert_ne!(mine, theirs, "{from}");
        let file = format!("{head}{theirs}");
        read_job(file.as_bytes()).unwrap().issued[0].seal_state()
    };
    for (from, to) in [
        ("each: \"48.20\"", "each: \"42.80\""),
        ("each: \"48.20\"", "each: \"48.2\""),
        ("quantity: 25", "quantity: 52"),
        ("45.5", "45.500000000000007"),
        ("date: \"2026-03-02\"", "date: \"2026-03-03\""),
        ("valid_until: \"2026-04-01\",", ""),
        ("Quotation\\n26-0107", "Quotation\\n26-0108"),
        ("\"36\"", "\"63\""),
        ("\"36\", mm", "\"36\", inch"),
        ("next_row: 1", "next_row: 2"),
        ("paper: \"quotation\"", "paper: \"confirmation\""),
    ] {
        assert_eq!(opened(from, to), SealState::Broken, "{from} {to}");
    }
    assert_eq!(
        opened(
            &line,
            "seal: (2, \"{seal}\")".replace("{seal}", &seal).as_str()
        ),
        SealState::Unknown(2)
    );
    assert_eq!(opened(&format!("{line},"), ""), SealState::Unsealed);
    // What is beside the entry is no part of it.
    let beside = opened_with(&file, "Alder Finch Rotors", "Alder Finch");
    assert_eq!(beside, SealState::Sealed);
    assert_eq!(
        opened_with(&file, "(\n  format: 2", "(format: 2 "),
        SealState::Sealed
    );
}

#[test]
fn a_seal_that_is_no_hash_is_refused_with_a_sentence() {
    let job = issue(&ring(), Paper::Quotation, &[(25, "48.20")]);
    let seal = job.issued[0].seal.unwrap().hash.to_string();
    let file = write_job(&job).replace(&seal, "abc");
    let why = read_job(file.as_bytes()).unwrap_err().to_string();
    assert!(why.contains("not a hash of 64"), "{why}");
}

fn text() -> impl Strategy<Value = String> {
    let known = prop::sample::select(vec![
        "",
        "A",
        "36",
        "0.80 +-0.02",
        "3 H7",
        "14",
        "60 from surface",
        "thru",
        "R20",
        "yes",
        "12 kg",
        "1.2 Steel + 3",
        "from surface",
        "2027-01-12",
        "0,5 mm",
        "1/32",
        "a\r\nb",
        "\"quoted\" \\ ",
        " A ",
        "\u{feff}\u{e4}\u{1f600}",
    ]);
    prop_oneof![3 => known.prop_map(str::to_owned), 1 => any::<String>()]
}

fn unit() -> impl Strategy<Value = Unit> {
    prop_oneof![Just(Unit::Mm), Just(Unit::Inch)]
}

fn number() -> impl Strategy<Value = f64> {
    use prop::num::f64::{NEGATIVE, NORMAL, POSITIVE, SUBNORMAL, ZERO};
    NORMAL | SUBNORMAL | ZERO | POSITIVE | NEGATIVE
}

fn day() -> impl Strategy<Value = NaiveDate> {
    (0..3_000_000_i32).prop_filter_map("a day of four digits", |days| {
        NaiveDate::from_num_days_from_ce_opt(days).filter(|day| day.to_string().len() == 10)
    })
}

fn place() -> impl Strategy<Value = Place> {
    let axis = prop::sample::select(vec![
        [0.0, 0.0, -1.0],
        [-0.0, 0.0, 1.0],
        [0.6, -0.8, 0.0],
        [0.6000000000000001, 0.8, 0.0],
    ]);
    // No part is larger than a kilometer.
    let along = || number().prop_map(|number| number % 1e6);
    ([along(), along(), along()], axis).prop_map(|(point_mm, axis)| Place {
        number: 0,
        point_mm,
        axis,
    })
}

type Cells = Vec<(&'static Column, String, Unit)>;

fn row() -> impl Strategy<Value = (Cells, Vec<Place>)> {
    let cell = (
        prop::sample::select(Column::ALL.iter().collect::<Vec<_>>()),
        text(),
        unit(),
    );
    (
        prop::collection::vec(cell, 0..6),
        prop::collection::vec(place(), 0..3),
    )
}

fn figure() -> impl Strategy<Value = FigureKey> {
    let row = || (0..9_u32).prop_map(RowId);
    prop_oneof![
        row().prop_map(FigureKey::Gap),
        row().prop_map(FigureKey::Feed),
        row().prop_map(FigureKey::HoleMinutes),
        row().prop_map(FigureKey::Wear),
        text().prop_map(FigureKey::Electrodes),
        Just(FigureKey::MachineHours),
        Just(FigureKey::LaborHours),
        Just(FigureKey::NotYetKnown),
        any::<u32>().prop_map(FigureKey::UnitPrice),
    ]
}

fn answer() -> impl Strategy<Value = Answer> {
    let facts = (prop::collection::vec(number(), 0..3), number());
    let words = (text(), text(), day());
    let of = (
        0..9_u32,
        prop::sample::select(Concern::ALL.to_vec()),
        prop::sample::select(How::ALL.to_vec()),
    );
    (of, facts, words).prop_map(
        |((row, concern, how), (given, by_mm), (said, by, date))| Answer {
            row: RowId(row),
            concern,
            facts: Facts { given, by: by_mm },
            how,
            said: format!("x{said}"),
            by,
            date,
        },
    )
}

fn sheet() -> impl Strategy<Value = Job> {
    let field = (prop::sample::select(Field::ALL.to_vec()), text(), unit());
    let of = (text(), prop::option::of(day()), unit(), 0..9_u32);
    let typed = prop::collection::vec(field, 0..5);
    let rows = prop::collection::vec(row(), 0..4);
    let overrules = prop::collection::vec((figure(), text(), unit(), text()), 0..3);
    let answers = prop::collection::vec(answer(), 0..3);
    (of, typed, rows, overrules, answers).prop_map(
        |((number, opened, unit, next), typed, rows, overrules, answers)| {
            let mut job = Job {
                number,
                opened,
                unit,
                next_row: u32::try_from(rows.len()).unwrap() + next,
                next_slip: next,
                ..Job::default()
            };
            let fields = Arc::make_mut(&mut job.fields);
            for (field, text, unit) in typed {
                let entry = read_field(field, &text, unit);
                if !entry.is_empty() {
                    fields.insert(field, entry);
                }
            }
            for (id, (cells, places)) in (0..).zip(rows) {
                let mut row = Row {
                    id: RowId(id),
                    ..Row::default()
                };
                for (column, text, unit) in cells {
                    put(&mut row, *column, &text, unit, job.angle_basis());
                }
                let places = (0..)
                    .zip(places)
                    .map(|(number, place)| Place { number, ..place });
                row.places = Arc::new(places.collect());
                job.rows.push(Arc::new(row));
            }
            for (figure, text, unit, reason) in overrules {
                if job.overrules.iter().all(|there| there.figure != figure) {
                    job.overrules.push(Overrule {
                        value: read_overrule(&figure, &text, unit),
                        figure,
                        reason: format!("x{reason}"),
                    });
                }
            }
            for answer in answers {
                if job.answer(answer.row, answer.concern).is_none() {
                    job.answers.push(answer);
                }
            }
            job
        },
    )
}

fn line() -> impl Strategy<Value = IssuedLine> {
    let drawn = (any::<i64>(), 0..20_u32)
        .prop_map(|(digits, scale)| rust_decimal::Decimal::new(digits, scale));
    let known = prop::sample::select(vec!["-0.00", "0", "48.20", "79228162514264337593543950335"]);
    let each = prop_oneof![3 => drawn, 1 => known.prop_map(|text| text.parse().unwrap())];
    let texts = (text(), text(), text());
    (texts, any::<u32>(), prop::option::of(each)).prop_map(
        |((job, part, revision), quantity, each)| IssuedLine {
            job,
            part,
            revision,
            quantity,
            each,
        },
    )
}

fn entry() -> impl Strategy<Value = Issued> {
    let named = (
        text(),
        prop::sample::select(Paper::ALL.to_vec()),
        day(),
        prop::option::of(day()),
    );
    let kept = (text(), prop::option::of(text()), any::<[u8; 4]>());
    let said = (
        prop::collection::vec(line(), 0..3),
        prop::option::of(text()),
        prop::collection::vec((text(), number()), 0..3),
        prop::collection::vec(text(), 0..3),
        prop::collection::vec(text(), 0..3),
    );
    (named, kept, said, prop::option::of(sheet())).prop_map(
        |((number, paper, date, valid_until), (file, kept_by, pdf), said, inputs)| {
            let (lines, currency, rests_on, pages, replaces) = said;
            Issued {
                number,
                paper,
                date,
                valid_until,
                file,
                kept_by,
                hash: hash(&pdf),
                lines,
                currency,
                rests_on,
                pages,
                replaces,
                inputs: inputs.map(Arc::new),
                seal: None,
            }
        },
    )
}

proptest! {
    #[test]
    fn the_bytes_of_any_entry_are_its_own_and_a_file_carries_its_seal_through(entry in entry()) {
        holds(&entry);
    }

    /// An entry with a part of another one in place of its own is another entry.
    #[test]
    fn no_two_entries_that_differ_have_the_same_bytes(one in entry(), other in entry(), from in 0..13) {
        let mut mixed = one.clone();
        match from {
            0 => mixed.number = other.number,
            1 => mixed.paper = other.paper,
            2 => mixed.date = other.date,
            3 => mixed.valid_until = other.valid_until,
            4 => mixed.file = other.file,
            5 => mixed.kept_by = other.kept_by,
            6 => mixed.hash = other.hash,
            7 => mixed.lines = other.lines,
            8 => mixed.rests_on = other.rests_on,
            9 => mixed.pages = other.pages,
            10 => mixed.replaces = other.replaces,
            11 => mixed.currency = other.currency,
            _ => mixed.inputs = other.inputs,
        }
        let same = mixed.sealed_bytes() == one.sealed_bytes();
        if mixed != one {
            prop_assert!(!same);
            let broken = Issued { seal: one.sealed().seal, ..mixed };
            prop_assert_eq!(broken.seal_state(), SealState::Broken);
        }
    }
}

/// What is easily taken for the same, and isn't.
#[test]
fn what_looks_alike_is_told_apart() {
    let plain = issue(&ring(), Paper::Quotation, &[(25, "48.20")]);
    let plain = plain.issued[0].as_ref().clone();
    let with = |change: &dyn Fn(&mut Issued)| {
        let mut other = plain.clone();
        change(&mut other);
        other
    };
    let sheet = |change: &dyn Fn(&mut Job)| {
        let mut other = plain.clone();
        let inputs = other.inputs.as_mut().map(Arc::make_mut).unwrap();
        change(inputs);
        other
    };
    let texts = |texts: &[&str]| -> Vec<String> { texts.iter().map(|t| (*t).to_owned()).collect() };
    let all = [
        plain.clone(),
        with(&|entry| entry.kept_by = Some(String::new())),
        with(&|entry| entry.pages = texts(&["ab", "c"])),
        with(&|entry| entry.pages = texts(&["a", "bc"])),
        with(&|entry| entry.pages = texts(&["abc"])),
        with(&|entry| entry.pages = texts(&["abc", ""])),
        with(&|entry| {
            entry.pages = texts(&["ab"]);
            entry.replaces = texts(&["c"]);
        }),
        with(&|entry| {
            entry.pages = Vec::new();
            entry.replaces = texts(&["ab", "c"]);
        }),
        with(&|entry| entry.lines.clear()),
        with(&|entry| entry.lines[0].each = None),
        with(&|entry| entry.lines[0].each = "48.2".parse().ok()),
        with(&|entry| entry.currency = Some(String::new())),
        with(&|entry| entry.currency = Some("CHF".to_owned())),
        with(&|entry| entry.rests_on[0].1 = 0.0),
        with(&|entry| entry.rests_on[0].1 = -0.0),
        with(&|entry| entry.inputs = None),
        sheet(&|job| job.unit = Unit::Inch),
        sheet(&|job| job.next_row += 1),
        sheet(&|job| job.next_slip += 1),
        sheet(&|job| job.opened = NaiveDate::from_ymd_opt(2026, 1, 1)),
        sheet(&|job| *job = field(job, Field::Notes, "x")),
        sheet(&|job| *job = field(job, Field::Datums, "x")),
        sheet(&|job| {
            let rows = job.rows.clone();
            job.rows.extend(rows);
        }),
    ];
    for (at, one) in all.iter().enumerate() {
        for other in &all[at + 1..] {
            assert_ne!(
                one.sealed_bytes(),
                other.sealed_bytes(),
                "{one:?} {other:?}"
            );
        }
    }
}
