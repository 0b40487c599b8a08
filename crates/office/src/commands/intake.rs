//! `quillbore intake`: a job from a hole table, a drawing (DXF, PDF) or a solid, and what was taken, guessed and
//! refused.

mod json;

use std::path::PathBuf;
use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_intake::drawn::Drawn;
use quillbore_intake::pdf::Offered;
use quillbore_intake::{Foreign, IntakeError, holds_of};
use quillbore_job::agreed::with_customer;
use quillbore_job::results::{Telling, results_now};
use quillbore_job::words::reports;
use quillbore_job::{Edit, Field, Job, Report, RowsAt, Unit, apply};

use self::json::ReportJson;
use super::ended::{Came, Ended, Made};
use super::line::{Word, Words};
use super::named;
use super::pages::{self, Chosen};
use super::saying::Saying;
use crate::failure::Failure;
use crate::files;
use crate::hole_file::{self, HoleFile, Holes, NotRead};
use crate::save::save;
use crate::shelf::{Loose, Shelf};
use crate::words::{commands as words, figures, intake as said};

/// What was asked.
#[derive(Clone, Debug, PartialEq)]
pub struct Intake {
    holes: PathBuf,
    out: PathBuf,
    /// The unit, where it was said.
    unit: Option<Unit>,
    fields: Vec<(Field, String)>,
    /// What columns hold, by head or number.
    columns: Vec<(String, String)>,
    /// The sheet of a workbook.
    worksheet: Option<String>,
    /// Diameters that are taken of a drawing or a solid.
    sizes: Option<String>,
    /// Callouts that are taken of a drawing in PDF.
    callouts: Option<Chosen>,
    /// The report is wanted as JSON.
    json: bool,
    shop: Option<PathBuf>,
    day: NaiveDate,
}

pub(super) fn read(mut line: Words<'_>, today: NaiveDate) -> Result<Intake, Failure> {
    let (mut holes, mut out, mut shop, mut day) = (None, None, None, today);
    let (mut unit, mut worksheet, mut sizes, mut callouts) = (None, None, None, None);
    let mut json = false;
    let (mut fields, mut columns) = (Vec::new(), Vec::new());
    while let Some(word) = line.take()? {
        let Word::Option(option) = word else {
            return Err(word.unknown());
        };
        let mut field = |field| -> Result<(), Failure> {
            fields.push((field, line.text(option)?));
            Ok(())
        };
        match option {
            "--material" => field(Field::Material)?,
            "--quantity" => field(Field::Quantity)?,
            "--thickness" => field(Field::Thickness)?,
            "--customer" => field(Field::Customer)?,
            "--part" => field(Field::Part)?,
            "--column" => columns.push(column(&line.text(option)?)?),
            "--holes" => holes = Some(line.path(option)?),
            "--out" => out = Some(line.path(option)?),
            "--shop" => shop = Some(line.path(option)?),
            "--shelf" => {
                line.path(option)?;
            }
            "--date" => day = line.date(option)?,
            "--unit" => unit = Some(self::unit(&line.text(option)?)?),
            "--worksheet" => worksheet = Some(line.text(option)?),
            "--json" => json = true,
            "--sizes" => sizes = Some(line.text(option)?),
            "--callouts" => callouts = Some(pages::chosen(&line.text(option)?)?),
            _ => return Err(word.unknown()),
        }
    }
    let missing = |what: &str| words::missing(what, words::SEE_HELP);
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
        columns,
        worksheet,
        sizes,
        callouts,
        json,
        shop,
        day,
    })
}

fn unit(word: &str) -> Result<Unit, Failure> {
    match word {
        "mm" => Ok(Unit::Mm),
        "inch" => Ok(Unit::Inch),
        other => Err(words::no_unit(other)),
    }
}

/// What is said of a column: its head or number, and what it holds.
fn column(word: &str) -> Result<(String, String), Failure> {
    let parts = word.rsplit_once('=');
    let parts = parts.map(|(name, holds)| (name.trim().to_owned(), holds.trim().to_owned()));
    parts.ok_or_else(|| said::holds_nothing(word))
}

/// Reads the file, and does with it what was said of it.
fn holes_of(asked: &Intake) -> Result<HoleFile, Failure> {
    let read = hole_file::read(named::disk().as_ref(), &asked.holes, &|_| false);
    let file = read.map_err(|error| match error {
        NotRead::Failed(failure) => failure,
        NotRead::Stopped => said::stopped().at(&asked.holes),
    })?;
    if asked.callouts.is_some() && !matches!(file.holes, Holes::Pages(_)) {
        return Err(said::no_pages().at(&asked.holes));
    }
    let holes = match file.holes {
        Holes::Table(table) => Holes::Table(Box::new(of_table(asked, *table)?)),
        Holes::Drawn(drawn) => Holes::Drawn(Box::new(of_drawn(asked, *drawn)?)),
        Holes::Pages(offered) => Holes::Pages(Box::new(of_pages(asked, *offered)?)),
    };
    Ok(HoleFile { holes, ..file })
}

/// The unit of the job: as asked for, else the one that a drawing or a solid names.
fn unit_of(file: &HoleFile, asked: &Intake) -> Unit {
    let named = match &file.holes {
        Holes::Table(_) => None,
        Holes::Drawn(drawn) => drawn.unit(),
        Holes::Pages(offered) => offered.unit(),
    };
    asked.unit.or(named).unwrap_or_default()
}

/// The table, with what was said of its sheet and its columns.
fn of_table(asked: &Intake, table: Foreign) -> Result<Foreign, Failure> {
    let failed = |error: IntakeError| hole_file::of_table(&error, &asked.holes);
    if asked.sizes.is_some() {
        return Err(said::of_drawings_alone().at(&asked.holes));
    }
    let mut table = match &asked.worksheet {
        Some(sheet) => table.on_sheet(sheet).map_err(failed)?,
        None => table.one_sheet().map_err(failed)?,
    };
    for (name, word) in &asked.columns {
        let column = table.column_named(name).map_err(failed)?;
        let holds = holds_of(word).ok_or_else(|| said::not_to_hold(word))?;
        table.say(column, holds).map_err(failed)?;
    }
    Ok(table)
}

/// A drawing or a solid, with those sizes chosen that were asked for.
fn of_drawn(asked: &Intake, mut drawn: Drawn) -> Result<Drawn, Failure> {
    if asked.worksheet.is_some() || !asked.columns.is_empty() {
        return Err(said::of_tables_alone().at(&asked.holes));
    }
    if let Some(unit) = asked.unit {
        drawn.say_unit(unit);
    }
    if let Some(sizes) = &asked.sizes
        && !drawn.only_sizes(sizes)
    {
        return Err(said::no_sizes(sizes));
    }
    Ok(drawn)
}

/// A drawing in PDF, with those callouts chosen that were asked for.
fn of_pages(asked: &Intake, mut offered: Offered) -> Result<Offered, Failure> {
    if asked.worksheet.is_some() || !asked.columns.is_empty() || asked.sizes.is_some() {
        return Err(said::of_pages_alone().at(&asked.holes));
    }
    if let Some(unit) = asked.unit {
        offered.say_unit(unit);
    }
    pages::choose(&mut offered, asked.callouts.as_ref(), &asked.holes)?;
    Ok(offered)
}

pub(super) fn run(asked: &Intake, saying: &mut Saying<'_>) -> Result<Came, Failure> {
    let disk = named::disk();
    let shop = match &asked.shop {
        Some(_) => files::shop(disk.as_ref(), asked.shop.as_deref(), None)?,
        None => named::shop_around(&disk, &asked.out)?,
    };
    saying.tell_not_used(&shop, asked.shop.as_deref());
    let shop = files::shop_on(&shop, asked.day);
    let file = holes_of(asked)?;
    if let (Holes::Pages(offered), None) = (&file.holes, &asked.callouts) {
        return Ok(pages::list(offered, saying));
    }
    let unit = unit_of(&file, asked);
    let mut job = Job {
        number: asked
            .out
            .file_stem()
            .map_or_else(String::new, |stem| stem.to_string_lossy().into_owned()),
        opened: Some(asked.day),
        ..Job::default()
    };
    let mut edits = vec![Edit::SetUnit(unit)];
    edits.extend(asked.fields.iter().map(|(field, text)| Edit::SetField {
        field: *field,
        text: text.clone(),
        unit,
    }));
    for edit in &edits {
        job = match edit {
            Edit::SetField {
                field: Field::Customer,
                text,
                unit,
            } => match with_customer(&job, &shop, text, *unit) {
                Some(agreed) => done(&job, &agreed)?,
                None => job,
            },
            edit => done(&job, edit)?,
        };
    }
    let taken = file.take(&job, RowsAt::Append, asked.unit.unwrap_or_default())?;
    job = done(&job, &taken.edit)?;
    // What was read is in the job now: of ten megabytes nobody needs another two copies.
    drop((taken.edit, file));
    let loose = Loose::new(disk, &asked.out).map_err(|e| Failure::from(e).at(&asked.out))?;
    let (key, shelf) = (loose.key().clone(), Arc::new(loose));
    let shelf: Arc<dyn Shelf> = shelf;
    let job = Arc::new(job);
    save(&shelf, &key, &job, None).map_err(|error| Failure::from(error).or_at(&asked.out))?;
    let report = if asked.json {
        Some(taken.report)
    } else {
        // What was told is let go before the figures take their room.
        say_report(&taken.report, taken.rows, saying);
        drop(taken.report);
        None
    };
    let shop = shop.for_job(&job);
    let results = results_now(&job, &shop);
    let telling = Telling::new(&job, &shop);
    let notes = results.notes.iter();
    let notes = notes.map(|note| figures::note(note, &telling));
    if let Some(report) = report {
        let report = ReportJson::of(&report, taken.rows, notes, shelf.place());
        saying
            .json(&report)
            .map_err(|error| figures::not_written(&error))?;
    } else {
        notes.for_each(|note| saying.line(note));
        saying.line(shelf.place());
    }
    Ok(Came {
        ended: Ended::with_stop(results.stopped()),
        made: Made::Job(PathBuf::from(shelf.place())),
    })
}

fn done(job: &Job, edit: &Edit) -> Result<Job, Failure> {
    let (job, _) =
        apply(job, edit).map_err(|refused| Failure::new(refused.to_string(), refused.hint()))?;
    Ok(job)
}

fn say_report(report: &Report, rows: usize, saying: &mut Saying<'_>) {
    report.whole.iter().for_each(|line| saying.line(line));
    let lines = report.lines.iter();
    lines.for_each(|line| saying.line(reports::line(line)));
    saying.line(if report.lines.is_empty() {
        said::rows(rows)
    } else {
        said::became(report.lines.len(), rows)
    });
}
