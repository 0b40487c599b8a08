//! Whatever the table: every line is told, and every cell stands in the job or in the report.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

use proptest::prelude::*;
use quillbore_intake::{Foreign, Holds, IntakeError, Known, Taken};
use quillbore_job::read_quantity::coordinate;
use quillbore_job::report::{LineOutcome, Report};
use quillbore_job::{Column, Edit, Job, Row, RowsAt, Unit, apply};

/// Heads of five languages, and others that nobody knows.
fn heads() -> impl Strategy<Value = Vec<&'static str>> {
    let all = vec![
        "hole",
        "Pos.",
        "Bohrung",
        "qty",
        "Anzahl",
        "dia",
        "Ø (mm)",
        "Diamètre",
        "tol",
        "Tol µm",
        "min",
        "max",
        "oberes Abmaß",
        "Tol -",
        "Tiefe",
        "depth",
        "Profondità",
        "end",
        "durchgehend",
        "note",
        "Bemerkung",
        "x",
        "y",
        "z",
        "i",
        "j",
        "k",
        "finish",
        "shade",
        "dia (in)",
        "x (mm)",
        "D",
        "T",
        "Nr.",
        "Winkel",
        "Description",
    ];
    prop::sample::subsequence(all, 2..9).prop_shuffle()
}

fn a_cell() -> impl Strategy<Value = String> {
    let odd = prop::sample::select(vec![
        "0.80 +-0.02",
        "4x Ø0.80 ±0.02 THRU",
        "12x Ø0,8 ↧14",
        "Ø0.8 x 14",
        "2x Ø1 blind 30°",
        "thru",
        "Durch",
        "Sackloch",
        "Sackloch, Grund egal",
        "nicht durchgehend",
        "1",
        "12 blind",
        "14 tief",
        "passante",
        "ja",
        "no",
        "x",
        "4 Stk",
        "36 holes",
        "60°",
        "30 Grad",
        "±0.02",
        "+0.05",
        "-0.02",
        "H7",
        "H12",
        "A",
        "#60",
        "see view C",
        "Ra 1.6",
        "\"",
        "-",
        "---",
        "1/32\"",
        "5 µm",
        "mm",
        "Summe",
        "Total 69",
        "Seite A:",
        "alle Maße in mm",
    ]);
    prop_oneof![
        3 => Just(String::new()),
        1 => Just(" ".to_owned()),
        3 => "[0-9]{1,2}(\\.[0-9]{1,2})?",
        1 => "-?[0-9]{1,2},[0-9]",
        2 => "[a-c ]{1,3}",
        5 => odd.prop_map(str::to_owned),
    ]
}

fn lines() -> impl Strategy<Value = Vec<Vec<String>>> {
    let row = prop::collection::vec(a_cell(), 1..9);
    prop::collection::vec(row, 1..9)
}

/// Lines above a head, and a line below it or further down.
fn around() -> impl Strategy<Value = (Vec<Vec<String>>, Option<Vec<String>>)> {
    let cells = |cells: &[&str]| {
        cells
            .iter()
            .map(|cell| (*cell).to_owned())
            .collect::<Vec<_>>()
    };
    let titles = vec![
        cells(&["Hole table", "4-118"]),
        cells(&["Kunde:", "Alder Finch", "", "12.03.2026"]),
        cells(&["", ""]),
        cells(&["Dimensions in inches"]),
        cells(&["Part", "Rev", "Quantity"]),
    ];
    let further = vec![
        cells(&["", "", "mm", "mm"]),
        cells(&["---", "---", "---"]),
        cells(&["Summe", "69"]),
        cells(&["Total", "", "", "4"]),
        cells(&["all holes free of burrs"]),
    ];
    let titles = prop::sample::subsequence(titles, 0..4);
    (titles, prop::option::of(prop::sample::select(further)))
}

/// A table from the clipboard, or from a file whose cells are parted by one of some signs.
fn table(lines: &[Vec<String>], parted: Option<char>) -> Option<(Foreign, Vec<Vec<String>>)> {
    let Some(separator) = parted else {
        let places = [
            Some(Column::Mark),
            Some(Column::Count),
            None,
            Some(Column::Size),
        ];
        return Some((Foreign::of_rows(lines, &places).ok()?, lines.to_vec()));
    };
    let bare = |cell: &str| cell.replace(['"', ';', '|', '\t'], "");
    let lines: Vec<Vec<String>> = lines
        .iter()
        .map(|line| line.iter().map(|cell| bare(cell)).collect())
        .collect();
    let joined = |line: &Vec<String>| line.join(&separator.to_string());
    let text: Vec<String> = lines.iter().map(joined).collect();
    let text = format!("sep={separator}\n{}", text.join("\n"));
    let mut all = vec![vec![format!("sep={separator}")]];
    all.extend(lines);
    Some((Foreign::of_file(text.as_bytes(), "holes.csv").ok()?, all))
}

fn there() -> Job {
    let cells = |cells: &[&str]| cells.iter().map(|cell| (*cell).to_owned()).collect();
    let rows: Vec<Vec<String>> = vec![
        cells(&["A", "4", "0.8", "12"]),
        cells(&["B", "2", "0.9", "14"]),
    ];
    let places: Vec<Option<Column>> = Column::ALL.iter().copied().map(Some).collect();
    let table = Foreign::of_rows(&rows, &places).expect("a table");
    let taken = table
        .take(&Job::default(), RowsAt::Append, Unit::Mm)
        .expect("understood");
    apply(&Job::default(), &taken.edit).expect("an edit").0
}

fn kept(taken: &Taken) -> Option<&Report> {
    match &taken.edit {
        Edit::SetRows { report, .. } => report.as_deref(),
        _ => None,
    }
}

fn filled(cells: &[String]) -> bool {
    cells.iter().any(|cell| !cell.trim().is_empty())
}

/// All that stands in a job's table and in a report, in small letters.
fn written(job: &Job, report: &Report) -> String {
    let texts = |row: &Row| -> String {
        let columns = Column::ALL.iter();
        columns
            .map(|column| row.cell(*column).text.to_owned() + "\n")
            .collect()
    };
    let mut written: String = job.rows.iter().map(|row| texts(row)).collect();
    let lines = report.lines.iter().map(|line| &line.says);
    written.extend(
        report
            .whole
            .iter()
            .chain(lines)
            .map(|said| said.clone() + "\n"),
    );
    written.to_lowercase()
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 2_000,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn every_line_is_told_and_every_cell_is_found(
        heads in prop::option::weighted(0.7, heads()),
        (titles, further) in around(),
        mut lines in lines(),
        parted in prop::option::of(prop::sample::select(vec![';', '|', '\t'])),
        answers in prop::collection::vec(0..40_usize, 12),
        at in 0..4_usize,
    ) {
        if let Some(heads) = &heads {
            if let Some(further) = further {
                let at = answers.first().copied().unwrap_or(0) % (lines.len() + 1);
                lines.insert(at, further);
            }
            lines.insert(0, heads.iter().map(|head| (*head).to_owned()).collect());
            lines.splice(0..0, titles);
        }
        let Some((mut table, lines)) = table(&lines, parted) else {
            return Ok(());
        };
        if answers.contains(&7) {
            let head = |head: &str| head.to_lowercase();
            let known = heads.iter().flatten().map(|word| (head(word), Holds::LeftOut));
            table.remember(&Known::of(known.take(1)));
        }
        for (question, answer) in table.questions().into_iter().zip(&answers) {
            let choices = table.choices();
            let holds = choices[answer % choices.len()];
            table.say(question.column, holds).expect("a choice");
        }
        for question in table.questions() {
            table.say(question.column, Holds::LeftOut).expect("always possible");
        }
        // A file without sizes is taken where somebody says what it is.
        if table.take(&Job::default(), RowsAt::Append, Unit::Mm) == Err(IntakeError::NoSizes) {
            let columns = table.columns();
            let first = columns.iter().find_map(|column| Some((column.about.column, column.holds?)));
            let (first, holds) = first.expect("a column");
            table.say(first, holds).expect("what it holds already");
        }
        let there = there();
        let at = match at {
            0 => RowsAt::Append,
            1 => RowsAt::Replace,
            row => RowsAt::Over { row: row - 2 },
        };
        let summary = table.summary(Unit::Mm);
        let taken = table.take(&there, at, Unit::Mm).expect("understood");
        let after = apply(&there, &taken.edit).expect("an edit").0;
        let report = &taken.report;

        // Each line once, in the text's order, but for the head, which is told of the whole.
        let numbers: Vec<usize> = report.lines.iter().map(|line| line.number as usize).collect();
        prop_assert!(numbers.windows(2).all(|pair| pair[0] < pair[1]), "{:?}", numbers);
        let head = table.head_lines().first().copied();
        for (number, cells) in (1..).zip(&lines) {
            let told = numbers.contains(&number);
            if Some(number) == head {
                prop_assert!(!told && report.whole[0].contains("head"), "{:?}", report);
            } else if filled(cells) {
                prop_assert!(told, "line {} in {:?}", number, report);
            } else {
                prop_assert!(!told || !table.is_headed());
            }
        }

        // What the job keeps of it.
        let short = report.in_short();
        let ended: usize = LineOutcome::ALL.iter().map(|outcome| short.count(*outcome)).sum();
        prop_assert_eq!(ended, numbers.len());
        prop_assert_eq!(kept(&taken).is_some_and(|kept| *kept != short), false);
        prop_assert_eq!(after.reports.len(), usize::from(kept(&taken).is_some()));
        if !report.lines.iter().all(|line| line.outcome == LineOutcome::Taken) {
            prop_assert!(kept(&taken).is_some());
        }

        // As many rows and holes as were said.
        let rows = match at {
            RowsAt::Append => there.rows.len() + taken.rows,
            RowsAt::Replace => taken.rows,
            RowsAt::Over { row } => there.rows.len().max(row + taken.rows),
        };
        prop_assert_eq!(after.rows.len(), rows);
        if at == RowsAt::Replace {
            let holes: u64 = after.rows.iter().map(|row| u64::from(row.holes())).sum();
            prop_assert!(summary.rows >= taken.rows);
            prop_assert_eq!(summary.holes - (summary.rows - taken.rows) as u64, holes);
        }

        // Every cell stands in the table, in words, or is a coordinate of a place.
        let written = written(&after, report);
        let any_place = after.rows.iter().any(|row| !row.places.is_empty());
        for (index, cells) in lines.iter().enumerate() {
            for cell in cells {
                let cell = cell.trim();
                let is_coordinate = |unit| coordinate(cell, unit).is_ok();
                let as_place =
                    any_place && [Unit::Mm, Unit::Inch].into_iter().any(is_coordinate);
                // The unit of a line whose lengths are in that of the table.
                let as_unit = cell.eq_ignore_ascii_case("mm")
                    && written.contains("were read in millimeters");
                prop_assert!(
                    as_place || as_unit || written.contains(&cell.to_lowercase()),
                    "{:?} of line {} in {:?}",
                    cell,
                    index + 1,
                    written
                );
            }
        }
    }
}
