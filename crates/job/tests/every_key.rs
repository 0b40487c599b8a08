//! A job in which every name of the newest format stands; it is what old jobs are kept as.
//!
//! With `QUILLBORE_WRITE_KEYS` set it is written to `tests/old-jobs`, as long as no release has
//! written the format.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

use std::path::PathBuf;
use std::sync::Arc;

use quillbore_calc::input::Place;
use quillbore_calc::{Limits, RowId};
use quillbore_job::answer::{Answer, How};
use quillbore_job::concern::{Concern, Facts};
use quillbore_job::file::{FORMAT, hash, read_job, write_job};
use quillbore_job::job::FigureKey;
use quillbore_job::read_cell::CellKind;
use quillbore_job::read_line::read_line;
use quillbore_job::report::{FileStamp, LineOutcome, Report, ReportLine, Source};
use quillbore_job::{
    CellAt, Column, Edit, Field, FieldKind, Issued, IssuedLine, Job, Paper, SealState, Slip,
    SlipKind, Unit, apply,
};

/// Text that is read as what a line of this kind holds.
fn sample(kind: FieldKind) -> &'static str {
    match kind {
        FieldKind::Line => "as on the drawing",
        FieldKind::Lines => "one thing\nand another",
        FieldKind::Length | FieldKind::LengthOrNone => "12.5",
        FieldKind::Mass => "2 kg",
        FieldKind::Pressure => "70 bar",
        FieldKind::RestsOn => "60 x 40",
        FieldKind::Count => "5",
        FieldKind::Counts => "10, 25",
        FieldKind::Money => "12.50",
        FieldKind::Percent => "25 %",
        FieldKind::Date => "2026-11-25",
        FieldKind::Resistivity => "120 uohm cm",
        FieldKind::Tolerance => "+-0.05",
        FieldKind::Material => "Stainless 316",
        FieldKind::Machine => "Wren",
        FieldKind::AngleBasis => "from the normal",
        FieldKind::YesNo => "yes",
        FieldKind::PartAxis => "z",
        FieldKind::CountOrNone => "0",
        FieldKind::Minutes | FieldKind::MinutesOrNone => "2.5",
        FieldKind::Currency => "EUR",
        FieldKind::Number => "0.92",
        FieldKind::OneOf(words) => words.first().copied().unwrap_or_default(),
    }
}

const fn cell(column: Column) -> &'static str {
    match column.kind() {
        CellKind::Mark => "A",
        CellKind::Holes => "2",
        CellKind::Size => "0.80 +-0.05",
        CellKind::Depth => "12 +-0.2",
        CellKind::HoleEnd => "through",
        CellKind::Angle => "30",
        CellKind::Surface => "flat",
        CellKind::Exit => "flat",
        CellKind::Broken => "M6 tap",
        CellKind::Recess => "d12 x 8",
        CellKind::Proof => "light",
        CellKind::Length | CellKind::Distance => "5",
        CellKind::YesNo => "yes",
        CellKind::Layers => "1.2 Nickel alloy 625 + 10.8",
        CellKind::Ends => "one",
        CellKind::Tube => "brass 0.70 x 400",
        CellKind::Every => "3",
        CellKind::Note => "as on the drawing",
    }
}

fn figures(row: RowId) -> Vec<(FigureKey, &'static str)> {
    let electrodes = FigureKey::Electrodes("brass 0.70 x 400".to_owned());
    vec![
        (FigureKey::Gap(row), "0.04"),
        (FigureKey::Feed(row), "18"),
        (FigureKey::HoleMinutes(row), "1.5"),
        (FigureKey::Wear(row), "8"),
        (electrodes, "9"),
        (FigureKey::MachineHours, "41"),
        (FigureKey::LaborHours, "15"),
        (FigureKey::NotYetKnown, "12 %"),
        (FigureKey::UnitPrice(5), "48.20"),
    ]
}

fn edits(row: RowId, unit: Unit) -> Vec<Edit> {
    let text = str::to_owned;
    let date = "2026-11-25".parse().expect("a day");
    let fields = Field::ALL.iter().map(|field| Edit::SetField {
        field: *field,
        text: text(sample(field.kind())),
        unit,
    });
    let cells = Column::ALL.iter().map(|column| Edit::SetCells {
        at: CellAt {
            row: 0,
            column: *column,
        },
        rows: vec![vec![Some(text(cell(*column)))]],
        unit,
    });
    let places = Edit::SetPlaces {
        row,
        places: vec![Place {
            number: 1,
            point_mm: [1.5, -2.0, 0.0],
            axis: [0.6, 0.0, -0.8],
        }],
    };
    let overrules = figures(row)
        .into_iter()
        .map(|(figure, value)| Edit::Overrule {
            figure,
            text: text(value),
            reason: text("as last time"),
            unit: Unit::Mm,
        });
    let answers = Concern::ALL.iter().enumerate().map(|(at, concern)| {
        Edit::Answer(Answer {
            row,
            concern: *concern,
            facts: Facts {
                given: vec![0.75, 0.85],
                by: 0.1,
            },
            how: How::ALL[at % How::ALL.len()],
            said: text("Ms. Orly, by phone"),
            by: text("Pell"),
            date,
        })
    });
    fields
        .chain(cells)
        .chain([places])
        .chain(overrules)
        .chain(answers)
        .collect()
}

/// A slip of each kind with every line that it can have, those too that nobody types.
fn slips(unit: Unit) -> impl Iterator<Item = Slip> {
    (0..).zip(SlipKind::ALL).map(move |(id, kind)| {
        let lines = kind.lines().iter();
        let lines = lines.map(|line| (*line, read_line(*line, sample(line.kind()), unit)));
        Slip {
            id,
            kind: *kind,
            lines: Arc::new(lines.collect()),
        }
    })
}

/// A sheet of a workbook, by all that is kept of it.
fn from_file() -> Source {
    Source::named("holes.xlsx")
        .on_sheet("Holes")
        .stamped(FileStamp {
            bytes: 48_213,
            day: "2026-11-20".parse().ok(),
            hash: hash(b"holes"),
        })
}

/// A report of a pasted table and one of a file, with a line of every kind.
fn reports() -> Vec<Arc<Report>> {
    let lines = LineOutcome::ALL.iter().zip(1..);
    let lines = lines.map(|(outcome, number)| ReportLine {
        number,
        outcome: *outcome,
        says: "depth \u{201c}as deep as it goes\u{201d}: type 12.5".to_owned(),
    });
    let of_file = Report {
        from: from_file(),
        whole: vec!["The cells are parted by semicolons.".to_owned()],
        taken: 38,
        lines: lines.collect(),
        outline: vec![vec![[0, 0], [20_000, 0], [20_000, -12_500]]],
    };
    let pasted = Report {
        from: Source::Pasted,
        ..of_file.clone()
    };
    vec![Arc::new(of_file), Arc::new(pasted)]
}

/// The job, in millimeters but for one line.
fn every_key() -> Job {
    let mut job = Job {
        number: "26-0107".to_owned(),
        opened: "2026-11-25".parse().ok(),
        ..Job::default()
    };
    for edit in edits(RowId(0), Unit::Mm)
        .into_iter()
        .chain([Edit::SetField {
            field: Field::SizeX,
            text: "3 1/2".to_owned(),
            unit: Unit::Inch,
        }])
    {
        job = apply(&job, &edit).expect("an edit").0;
    }
    let inputs = Arc::new(job.inputs());
    job.slips = slips(Unit::Mm).map(Arc::new).collect();
    job.next_slip = 20;
    job.reports = reports();
    for (at, paper) in Paper::ALL.iter().enumerate() {
        job.issued.push(Arc::new(
            Issued {
                number: format!("26-0107-{}1", paper.letter()),
                paper: *paper,
                date: "2026-11-25".parse().expect("a day"),
                valid_until: "2026-12-25".parse().ok(),
                file: format!("26-0107-{}1.pdf", paper.letter()),
                kept_by: (at == 0).then(|| "26-0106".to_owned()),
                hash: hash(paper.key().as_bytes()),
                lines: vec![IssuedLine {
                    job: "26-0107".to_owned(),
                    part: "GP-12".to_owned(),
                    revision: "C".to_owned(),
                    quantity: 5,
                    each: "48.20".parse().ok(),
                }],
                rests_on: vec![("labor per hour".to_owned(), 50.0)],
                pages: vec!["Page 1".to_owned()],
                currency: Some("EUR".to_owned()),
                replaces: vec!["26-0107-Q0".to_owned()],
                inputs: (at == 0).then(|| Arc::clone(&inputs)),
                seal: None,
            }
            .sealed(),
        ));
    }
    job
}

fn folder() -> PathBuf {
    let old_jobs = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../tests/old-jobs");
    old_jobs.join(format!("format-{FORMAT}"))
}

#[test]
fn it_comes_back_as_it_was_and_every_text_in_it_is_read() {
    let job = every_key();
    let text = write_job(&job);
    assert_eq!(read_job(text.as_bytes()).as_ref(), Ok(&job));
    let unread: Vec<&str> = job
        .fields
        .values()
        .filter_map(|entry| entry.why())
        .collect();
    assert_eq!(unread, [""; 0]);
    let row = &job.rows[0];
    for column in Column::ALL {
        assert_eq!(row.cell(*column).why, None, "{column:?}");
        assert!(!row.cell(*column).text.is_empty(), "{column:?}");
    }
    assert!(job.slips.iter().all(|slip| !slip.is_unread()));
    assert!(
        job.overrules
            .iter()
            .all(|overrule| overrule.value.why().is_none())
    );
    assert_eq!(job.fields.len(), Field::ALL.len());
    assert_eq!(job.slips.len(), SlipKind::ALL.len());
}

/// The list of the format's names, each of which stands in the job.
#[test]
fn every_name_of_the_format_stands_in_it() {
    let list = folder().with_file_name(format!("keys-of-format-{FORMAT}.txt"));
    let list = std::fs::read_to_string(list).expect("the list");
    let text = write_job(&every_key());
    for key in list.lines().skip(1) {
        let word = key.rsplit([' ', '.']).next().unwrap_or_default();
        assert!(text.contains(word), "{key}: add it to this test");
    }
    if std::env::var_os("QUILLBORE_WRITE_KEYS").is_some() && list.starts_with("open") {
        std::fs::create_dir_all(folder()).expect("the folder");
        std::fs::write(folder().join("every_key.ron"), text).expect("written");
    }
}

/// The job that stands in `tests/old-jobs` opens; once the format is closed, so it does for ever.
#[test]
fn the_kept_one_opens() {
    let bytes = std::fs::read(folder().join("every_key.ron")).expect("the kept job");
    let job = read_job(&bytes).expect("a job");
    assert!(job.fields.len() > 50 && job.rows.len() == 1 && job.slips.len() >= 10);
    assert!(job.answers.len() >= 5 && job.issued.len() >= 8 && job.overrules.len() >= 9);
    let mut papers = job.issued.iter();
    assert!(papers.all(|paper| paper.seal_state() == SealState::Sealed));
    assert_eq!(job.rows[0].dress_every.value(), Some(&3));
    assert_eq!(job.reports.len(), 2);
    assert_eq!(job.reports[0].from, from_file());
    assert_eq!(job.reports[0].lines.len(), LineOutcome::ALL.len());
    let depth = job.rows[0].depth.value().and_then(|depth| depth.limits);
    let limits = depth.map(|limits| limits.map(quillbore_calc::Length::mm));
    assert_eq!(limits, Some(Limits::new(11.8, 12.2)));
    let spent = job.field(Field::OutsidePerPart).value();
    assert!(spent.and_then(quillbore_job::Value::money).is_some());
}
