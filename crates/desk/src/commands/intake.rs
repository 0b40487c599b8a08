//! `quillbore intake`: a job from a hole table, and what was taken, guessed and refused.

use std::path::PathBuf;

use chrono::NaiveDate;
use quillbore_intake::{Outcome, Report, take_file};
use quillbore_job::results::results_now;
use quillbore_job::{Edit, Field, Job, Unit, apply};

use super::Ended;
use super::failure::Failure;
use super::words::Words;
use crate::files;

/// What was asked.
#[derive(Clone, Debug, PartialEq)]
pub struct Intake {
    holes: PathBuf,
    out: PathBuf,
    unit: Unit,
    fields: Vec<(Field, String)>,
    shop: Option<PathBuf>,
    day: NaiveDate,
}

pub(super) fn read(mut words: Words<'_>, today: NaiveDate) -> Result<Intake, Failure> {
    let (mut holes, mut out, mut shop, mut day) = (None, None, None, today);
    let mut unit = Unit::Mm;
    let mut fields = Vec::new();
    while let Some(word) = words.take() {
        let mut field = |field| -> Result<(), Failure> {
            fields.push((field, words.value(&word)?));
            Ok(())
        };
        match word.as_str() {
            "--material" => field(Field::Material)?,
            "--quantity" => field(Field::Quantity)?,
            "--thickness" => field(Field::Thickness)?,
            "--customer" => field(Field::Customer)?,
            "--part" => field(Field::Part)?,
            "--holes" => holes = Some(words.path("--holes")?),
            "--out" => out = Some(words.path("--out")?),
            "--shop" => shop = Some(words.path("--shop")?),
            "--shelf" => {
                words.path("--shelf")?;
            }
            "--date" => day = words.date("--date")?,
            "--unit" => {
                unit = match words.value("--unit")?.as_str() {
                    "mm" => Unit::Mm,
                    "inch" => Unit::Inch,
                    other => {
                        return Err(Failure::new(
                            format!("\u{201c}{other}\u{201d} is no unit"),
                            "--unit mm or --unit inch",
                        ));
                    }
                }
            }
            _ => return Err(Failure::unknown(&word)),
        }
    }
    let missing = |what: &str| Failure::new(format!("{what} is missing"), "see quillbore --help");
    for (field, option) in [
        (Field::Material, "--material"),
        (Field::Quantity, "--quantity"),
    ] {
        if !fields.iter().any(|(given, _)| *given == field) {
            return Err(missing(option));
        }
    }
    Ok(Intake {
        holes: holes.ok_or_else(|| missing("--holes"))?,
        out: out.ok_or_else(|| missing("--out"))?,
        unit,
        fields,
        shop,
        day,
    })
}

pub(super) fn run(asked: &Intake, out: &mut impl std::io::Write) -> Result<Ended, Failure> {
    let shop = files::shop_on(asked.shop.as_deref(), asked.day)?;
    let bytes = files::read_capped(&asked.holes)?;
    let mut job = Job {
        number: asked
            .out
            .file_stem()
            .map_or_else(String::new, |stem| stem.to_string_lossy().into_owned()),
        opened: Some(asked.day),
        ..Job::default()
    };
    let mut edits = vec![Edit::SetUnit(asked.unit)];
    edits.extend(asked.fields.iter().map(|(field, text)| Edit::SetField {
        field: *field,
        text: text.clone(),
        unit: asked.unit,
    }));
    for edit in &edits {
        job = done(&job, edit)?;
    }
    let taken = take_file(&job, &bytes, asked.unit)
        .map_err(|error| Failure::new(error.to_string(), error.hint()).at(&asked.holes))?;
    job = done(&job, &taken.edit)?;
    files::save_new(&asked.out, &job)?;
    let results = results_now(&job, &shop);
    let mut lines = report_lines(&taken.report, taken.rows);
    for note in &results.notes {
        lines.push(format!(
            "{}: {}",
            quillbore_job::words::english::level(note.level),
            note.text
        ));
    }
    lines.push(asked.out.display().to_string());
    for line in lines {
        writeln!(out, "{line}").map_err(|error| Failure::output(&error))?;
    }
    Ok(if results.stopped() {
        Ended::DoneWithStop
    } else {
        Ended::Done
    })
}

fn done(job: &Job, edit: &Edit) -> Result<Job, Failure> {
    let (job, _) =
        apply(job, edit).map_err(|refused| Failure::new(refused.to_string(), refused.hint()))?;
    Ok(job)
}

fn report_lines(report: &Report, rows: usize) -> Vec<String> {
    let mut lines = report.whole.clone();
    for line in &report.lines {
        let outcome = match line.outcome {
            Outcome::Taken => "taken",
            Outcome::Guessed => "look",
            Outcome::Unread => "unread",
        };
        let says = line.says.strip_prefix(outcome).unwrap_or(&line.says);
        let says = says.trim_start_matches([',', ' ']);
        lines.push(match says {
            "" => format!("line {}: {outcome}", line.number),
            says => format!("line {}: {outcome}: {says}", line.number),
        });
    }
    lines.push(format!("{} lines became {rows} rows.", report.lines.len()));
    lines
}
