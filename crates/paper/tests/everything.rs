//! Whatever is typed is found on paper: every field, every column, every line of every slip, by the
//! lists themselves, so that one that is added and printed nowhere fails here.
//!
//! Each is given one value and then another, all else alike; a paper must show the one and then the
//! other. What is meant for no paper stands in a list, with the reason.

#![expect(
    clippy::panic,
    reason = "helpers of the tests stand outside the test functions"
)]

mod common;

use std::collections::BTreeMap;
use std::sync::Arc;

use quillbore_job::read_cell::CellKind;
use quillbore_job::read_line::read_line;
use quillbore_job::{
    CellAt, Column, Edit, Field, FieldKind, Form, Job, Line, Paper, Shop, SlipKind, Unit, apply,
};
use quillbore_paper::{Sheet, document, shown};
use rust_decimal::Decimal;

/// Fields that no paper prints, and why.
const FIELDS_NOT_PRINTED: &[(Field, &str)] = &[
    (Field::LaidAside, "a job that is set aside has no papers"),
    (Field::Language, "what papers are written in"),
    (Field::Margin, "the shop's own affair; the price is printed"),
    (
        Field::AgreedMachineHour,
        "the shop's own affair; the price is printed",
    ),
    (
        Field::AgreedLaborHour,
        "the shop's own affair; the price is printed",
    ),
    (
        Field::ExchangeRate,
        "how the price came about; the price is printed",
    ),
    (
        Field::ExchangeDay,
        "how the price came about; the price is printed",
    ),
    (
        Field::AmountsIn,
        "how the price came about; the price is printed",
    ),
    (
        Field::ValuesIn,
        "how the price came about; the price is printed",
    ),
    (Field::FixtureCost, "a cost; its price is printed"),
    (Field::TestPieceCost, "a cost; its price is printed"),
    (Field::OutsideCost, "a cost; it is in the price"),
    (Field::OutsidePerPart, "a cost; it is in the price"),
    (Field::FollowUp, "the office's own reminder"),
];

/// Lines of slips that no paper prints, and why.
const LINES_NOT_PRINTED: &[(SlipKind, Line, &str)] = &[
    (
        SlipKind::Call,
        Line::Said,
        "the office's own note of a call",
    ),
    (SlipKind::Call, Line::CallAgain, "the office's own reminder"),
    (SlipKind::Call, Line::By, "the office's own note of a call"),
    (
        SlipKind::Reply,
        Line::Date,
        "how a quotation ended is the office's",
    ),
    (
        SlipKind::Reply,
        Line::Paper,
        "how a quotation ended is the office's",
    ),
    (
        SlipKind::Reply,
        Line::Outcome,
        "how a quotation ended is the office's",
    ),
    (
        SlipKind::Reply,
        Line::Why,
        "how a quotation ended is the office's",
    ),
    (
        SlipKind::Withdrawal,
        Line::StandsAgain,
        "a paper that stands again is not told as withdrawn",
    ),
    (
        SlipKind::Nonconformance,
        Line::Credit,
        "money between the offices",
    ),
];

fn done(job: &Job, edit: &Edit) -> Job {
    apply(job, edit).map_or_else(|refused| panic!("{edit:?}: {refused}"), |(job, _)| job)
}

fn with_field(job: &Job, field: Field, text: &str) -> Job {
    let edit = Edit::SetField {
        field,
        text: text.to_owned(),
        unit: Unit::Mm,
    };
    done(job, &edit)
}

fn with_cell(job: &Job, row: usize, column: Column, text: &str) -> Job {
    let edit = Edit::SetCells {
        at: CellAt { row, column },
        rows: vec![vec![Some(text.to_owned())]],
        unit: Unit::Mm,
    };
    done(job, &edit)
}

fn with_line(job: &Job, slip: u32, line: Line, text: &str) -> Job {
    let edit = Edit::SetLine {
        slip,
        line,
        text: text.to_owned(),
        unit: Unit::Mm,
    };
    done(job, &edit)
}

/// The job with another text in a line of a slip, as a file may hold it: a withdrawal keeps the
/// paper that it names.
fn holding(job: &Job, slip: u32, line: Line, text: &str) -> Job {
    if line != Line::Paper {
        return with_line(job, slip, line, text);
    }
    let mut job = job.clone();
    for there in job.slips.iter_mut().filter(|there| there.id == slip) {
        let lines = Arc::make_mut(&mut Arc::make_mut(there).lines);
        lines.insert(line, read_line(line, text, Unit::Mm));
    }
    job
}

/// Two values of a kind, told apart by nothing else.
fn values(kind: FieldKind, name: &str) -> [String; 2] {
    let pair = |one: &str, other: &str| [one.to_owned(), other.to_owned()];
    // Short enough that no column cuts it.
    let name: String = name.chars().take(5).collect();
    match kind {
        FieldKind::Line => [format!("{name} alfa"), format!("{name} bravo")],
        FieldKind::Lines => [
            format!("{name} alfa\nand {name} charlie"),
            format!("{name} bravo\nand {name} delta"),
        ],
        FieldKind::Length | FieldKind::LengthOrNone => pair("41.5", "43.5"),
        FieldKind::Mass => pair("3.7 kg", "4.9 kg"),
        FieldKind::Pressure => pair("37.3 bar", "49.3 bar"),
        FieldKind::RestsOn => pair("37 x 41", "43 x 47"),
        FieldKind::Count | FieldKind::CountOrNone => pair("17", "19"),
        FieldKind::Counts => pair("23, 29", "31, 37"),
        FieldKind::Money => pair("1234.50", "1432.50"),
        FieldKind::Percent => pair("33 %", "37 %"),
        FieldKind::Date => pair("2026-03-05", "2026-04-07"),
        FieldKind::Resistivity => pair("120 uohm cm", "130 uohm cm"),
        FieldKind::Tolerance => pair("+-0.11", "+-0.13"),
        FieldKind::Material => pair("Stainless 316", "Stainless 304"),
        FieldKind::Machine => pair("Barrow", "Wren"),
        FieldKind::AngleBasis => pair("from the normal", "from the surface"),
        FieldKind::YesNo => pair("yes", "no"),
        FieldKind::PartAxis => pair("z", "x"),
        FieldKind::Minutes | FieldKind::MinutesOrNone => pair("53", "59"),
        FieldKind::Currency => pair("EUR", "JPY"),
        FieldKind::Number => pair("0.92", "0.97"),
        FieldKind::OneOf(words) => pair(words[0], words[1]),
    }
}

fn cell_values(column: Column) -> [String; 2] {
    let [one, other] = match column.kind() {
        CellKind::Mark => ["QX", "QY"],
        CellKind::Holes => ["17", "19"],
        CellKind::Size => ["1.23 +-0.11", "1.27 +-0.11"],
        CellKind::Depth => ["8.2", "8.6"],
        CellKind::HoleEnd => ["through", "into"],
        CellKind::Angle => ["21", "23"],
        CellKind::Surface => ["cylinder R21", "cylinder R23"],
        CellKind::Exit => ["cylinder R41", "cylinder R47"],
        CellKind::Recess => ["d53 x 2", "d59 x 2"],
        CellKind::Broken => ["M9 tap", "M10 tap"],
        CellKind::Proof => ["light", "air"],
        CellKind::Length | CellKind::Distance => ["4.4", "4.8"],
        CellKind::YesNo => ["yes", "no"],
        CellKind::Layers => ["3 Nickel alloy 625 + 5", "3 Copper C110 + 5"],
        CellKind::Ends => ["one end", "both ends"],
        CellKind::Tube => ["brass 1.00 x 400", "brass 1.10 x 400"],
        CellKind::Every => ["7", "9"],
        CellKind::Note => ["note alfa", "note bravo"],
    };
    [one.to_owned(), other.to_owned()]
}

/// The sentences that yes, no and the like come out as.
fn in_words(column: Column, value: &str) -> Option<&'static str> {
    Some(match (column, value) {
        (Column::Proved, "light") => "Each hole proved open by: light.",
        (Column::Proved, "air") => "Each hole proved open by: airflow.",
        (Column::Backed, "yes") => "Backing behind the exit.",
        (Column::Backed, "no") => "No backing behind the exit.",
        (Column::CoreTrapped, "yes") => "A loose core could be trapped",
        (Column::CoreTrapped, "no") => "No core can be trapped",
        (Column::Ends, "one end") => "Drill from the entry only.",
        (Column::Ends, "both ends") => "Drill half from the entry",
        (Column::Layers, "3 Nickel alloy 625 + 5") => "3.00 mm Nickel alloy 625",
        (Column::Layers, _) => "3.00 mm Copper C110",
        (Column::DressEvery, "7") => "before every 7 holes",
        (Column::DressEvery, "9") => "before every 9 holes",
        _ => return None,
    })
}

/// A job with everything but slips; the table's row is one whose every cell can be typed.
fn sheet() -> Job {
    let mut job = Job {
        number: "26-0999".to_owned(),
        ..Job::default()
    };
    for &field in Field::ALL {
        let [value, _] = values(field.kind(), field.key());
        // The whole job would be set aside by it.
        if field != Field::LaidAside {
            job = with_field(&job, field, &value);
        }
    }
    for &column in Column::ALL {
        // What can't stand together with the others is typed when its turn comes.
        if !matches!(
            column,
            Column::Layers | Column::Tube | Column::Ends | Column::Broken
        ) {
            let [value, _] = cell_values(column);
            job = with_cell(&job, 0, column, &value);
        }
    }
    job
}

/// The same with slips of every kind, two of each, all lines filled; of two the second is closed,
/// where there is something to close, or taken back.
fn whole_life() -> Job {
    let mut job = sheet();
    for paper in [
        Paper::Quotation,
        Paper::Quotation,
        Paper::Traveler,
        Paper::Traveler,
    ] {
        common::issue(&mut job, paper);
    }
    for &kind in SlipKind::ALL {
        for second in [false, true] {
            let lines: Vec<(Line, String)> = kind
                .lines()
                .iter()
                .filter(|line| line.is_typed())
                .filter(|line| {
                    second || !matches!(line, Line::Closed | Line::Freed | Line::StandsAgain)
                })
                .map(|line| (*line, line_values(kind, *line)[0].clone()))
                .collect();
            let unit = Unit::Mm;
            job = done(&job, &Edit::AddSlip { kind, lines, unit });
        }
    }
    job
}

fn line_values(kind: SlipKind, line: Line) -> [String; 2] {
    let pair = |one: &str, other: &str| [one.to_owned(), other.to_owned()];
    match (kind, line) {
        (SlipKind::Withdrawal, Line::Paper) => pair("26-0999-T1", "26-0999-T2"),
        (SlipKind::Order, Line::Paper) => pair("26-0999-Q9", "26-0999-Q2"),
        // The sheet reckons in another one.
        (SlipKind::Order, Line::Currency) => pair("CHF", "JPY"),
        _ => values(line.kind(), line.key()),
    }
}

/// Everything that all papers of a job say.
fn said(job: &Job, shop: &Shop) -> String {
    common::printed(job, shop, Sheet::A4, |matter| {
        let papers = Paper::ALL.iter();
        let texts: Vec<String> = papers
            .map(|paper| common::prose(&document(*paper, &[matter])))
            .collect();
        texts.join("\n")
    })
}

/// How often a text stands in another, as words of its own.
fn times(text: &str, in_text: &str) -> usize {
    let word = |ch: Option<char>| ch.is_some_and(|ch| ch.is_alphanumeric() || ch == '.');
    in_text
        .match_indices(text)
        .filter(|(at, _)| {
            let before = in_text[..*at].chars().next_back();
            let mut after = in_text[at + text.len()..].chars();
            let next = after.next();
            // A full stop ends a sentence, unless a figure goes on behind it.
            let ends = next == Some('.') && !after.next().is_some_and(|ch| ch.is_ascii_digit());
            !word(before) && (ends || !word(next))
        })
        .count()
}

/// What a value may look like on paper.
fn looks(value: &str) -> Vec<String> {
    let mut looks = vec![value.to_owned(), shown::plus_minus(value)];
    let form = Form::default();
    if let Ok(amount) = value.parse::<Decimal>() {
        looks.push(form.amount(amount));
    }
    if let Ok(number) = value.parse::<f64>() {
        looks.extend((0..4).map(|decimals| form.fixed(number, decimals)));
    }
    if let Ok(date) = value.parse::<chrono::NaiveDate>() {
        looks.push(form.day(date));
    }
    looks
}

/// Whether papers that differ by one value show the one here and the other there.
fn shows(values: &[String; 2], texts: [&str; 2]) -> bool {
    let told = |here: usize| {
        let there = 1 - here;
        let parts: Vec<&str> = values[here].split(['\n', ',']).map(str::trim).collect();
        parts.into_iter().all(|part| {
            let more = |look: &String| times(look, texts[here]) > times(look, texts[there]);
            looks(part).iter().any(more)
        })
    };
    told(0) && told(1)
}

#[test]
fn every_field_is_found_on_a_paper() {
    let shop = Shop::embedded().expect("the shop");
    let mut lost = Vec::new();
    let bases = [sheet(), whole_life()];
    for &field in Field::ALL {
        let pair = values(field.kind(), field.key());
        let found = bases.iter().any(|job| {
            let texts = pair
                .clone()
                .map(|value| said(&with_field(job, field, &value), shop));
            shows(&pair, [&texts[0], &texts[1]])
        });
        let excused = FIELDS_NOT_PRINTED.iter().any(|(known, _)| *known == field);
        if found == excused {
            lost.push((
                field,
                if found {
                    "is printed"
                } else {
                    "is printed nowhere"
                },
            ));
        }
    }
    assert!(lost.is_empty(), "{lost:?}");
}

#[test]
fn every_column_is_found_on_a_paper() {
    let shop = Shop::embedded().expect("the shop");
    let job = sheet();
    for &column in Column::ALL {
        let values = cell_values(column);
        let texts = values
            .clone()
            .map(|value| said(&with_cell(&job, 0, column, &value), shop));
        let values = values.map(|value| {
            let words = in_words(column, &value);
            words.map_or(value, str::to_owned)
        });
        assert!(
            shows(&values, [&texts[0], &texts[1]]),
            "{column:?} is printed nowhere: {texts:?}"
        );
    }
}

#[test]
fn every_line_of_every_slip_is_found_on_a_paper() {
    let shop = Shop::embedded().expect("the shop");
    let job = whole_life();
    let mut lost = Vec::new();
    let mut slips: BTreeMap<SlipKind, Vec<u32>> = BTreeMap::new();
    for slip in &job.slips {
        slips.entry(slip.kind).or_default().push(slip.id);
    }
    for &kind in SlipKind::ALL {
        for &line in kind.lines().iter().filter(|line| line.is_typed()) {
            let values = line_values(kind, line);
            let found = slips[&kind].iter().any(|slip| {
                let with = |value: &String| said(&holding(&job, *slip, line, value), shop);
                let texts = [with(&values[0]), with(&values[1])];
                let words = match line {
                    Line::Blanket => ["called off in parts".to_owned(), String::new()],
                    _ => values.clone(),
                };
                match &words {
                    [word, none] if none.is_empty() => {
                        times(word, &texts[0]) > times(word, &texts[1])
                    }
                    words => shows(words, [&texts[0], &texts[1]]),
                }
            });
            let excused = LINES_NOT_PRINTED
                .iter()
                .any(|(of, known, _)| (*of, *known) == (kind, line));
            if found == excused {
                lost.push((
                    kind,
                    line,
                    if found {
                        "is printed"
                    } else {
                        "is printed nowhere"
                    },
                ));
            }
        }
    }
    assert!(lost.is_empty(), "{lost:?}");
}
