//! What is said where two desks' work was merged: what of it is not kept, and where.

use std::fmt;

use super::marks::in_one_line;
use super::{answers, edits, english, names, slips};
use crate::ground::text::LARGEST_FILE_MB;
use crate::job::Job;
use crate::merge::clash::{Clash, Met, Side, Typed};
use crate::merge::refused::MergeRefused;
use crate::pinned::answer::Answer;
use crate::typed::entry::Unit;
use crate::typed::form::Form;
use crate::typed::overrule::{FigureKey, Overrule};

/// What undo and redo call a merge.
pub const LABEL: &str = "merge the other desk's work";

/// One line: where two desks met in a job that holds both their work, and what does not stand.
#[must_use]
pub fn clash(job: &Job, clash: &Clash, form: Form) -> String {
    match clash {
        Clash::Unit(theirs) => format!(
            "unit: yours is kept; the other desk switched to {}",
            unit(*theirs)
        ),
        Clash::Number(theirs) => yours_stands("job number", &quoted(theirs)),
        Clash::Opened(theirs) => {
            let theirs = theirs.map_or_else(|| "none".to_owned(), |day| form.day(day));
            yours_stands("day opened", &theirs)
        }
        Clash::Field(field, theirs) => yours_stands(
            names::field(*field),
            &typed(job, theirs, field.kind().is_measured()),
        ),
        Clash::Cell(row, column, theirs) => yours_stands(
            &format!(
                "{}, {}",
                edits::hole(job, *row),
                english::column(*column).name
            ),
            &typed(job, theirs, column.is_measured()),
        ),
        Clash::Places(row, theirs) => format!(
            "{}, hole locations: yours are kept; theirs, {} of them, are in the version before",
            edits::hole(job, *row),
            theirs.len()
        ),
        Clash::Row(row, by) => taken_out(&edits::hole(job, *row), *by),
        Clash::Overrule(figure, met) => {
            let name = format!("overruled {}", edits::figure(job, figure));
            let told = |overrule: &Overrule| overruled(job, overrule);
            self::met(&name, met, told)
        }
        Clash::Answer(row, concern, met) => {
            let asked = answers::concern(*concern);
            let name = format!("answer to {asked} of {}", edits::hole(job, *row));
            let told = |answer: &Answer| quoted(&answers::told(answer));
            self::met(&name, met, told)
        }
        Clash::Line(id, line, theirs) => yours_stands(
            &format!("{}, {}", slip(job, *id), slips::line_of(job, *id, *line)),
            &typed(job, theirs, line.kind().is_measured()),
        ),
        Clash::Slip(id, by) => taken_out(&slip(job, *id), *by),
        Clash::PaperTwice {
            paper,
            number,
            date,
            kept_as,
            ..
        } => format!(
            "{} {number}: both desks issued one of that number; yours of {} is kept \
             as \u{201c}{kept_as}\u{201d}, and slips of yours that name it follow; withdraw the \
             one that must not be used",
            slips::paper(*paper),
            form.day(*date)
        ),
    }
}

fn yours_stands(what: &str, theirs: &str) -> String {
    format!("{what}: yours is kept; theirs was {theirs}")
}

fn taken_out(what: &str, by: Side) -> String {
    match by {
        Side::Ours => format!("{what}: you deleted it, the other desk changed it; it is kept"),
        Side::Theirs => format!("{what}: the other desk deleted it, you changed it; it is kept"),
    }
}

/// Where two desks met in something that hangs on a row.
fn met<T>(name: &str, met: &Met<T>, told: impl Fn(&T) -> String) -> String {
    match met {
        Met::Theirs(theirs) => yours_stands(name, &told(theirs)),
        Met::TakenBack(Side::Ours) => {
            format!("{name}: you withdrew it, the other desk changed it; theirs is kept")
        }
        Met::TakenBack(Side::Theirs) => {
            format!("{name}: the other desk withdrew it, you changed it; yours is kept")
        }
        // The merged job has no name for that row any more.
        Met::RowGone { mark, of, lost } => {
            let row = match in_one_line(mark).as_str() {
                "" => String::new(),
                mark => format!(" (hole {mark})"),
            };
            let gone = match of {
                Side::Ours => "the other desk deleted the row, and yours with it",
                Side::Theirs => "you deleted the row, and theirs with it",
            };
            format!("{name}{row}: {gone}: {}", told(lost))
        }
    }
}

/// A text that does not stand, with its unit where the merged job would read it in another.
fn typed(job: &Job, typed: &Typed, is_measured: bool) -> String {
    if typed.text.is_empty() {
        return "empty".to_owned();
    }
    let text = quoted(&typed.text);
    match typed.unit {
        Some(other) if is_measured && other != job.unit => {
            format!("{text}, numbers without a unit in {}", unit(other))
        }
        _ => text,
    }
}

fn overruled(job: &Job, overrule: &Overrule) -> String {
    let figure = &overrule.figure;
    let measured = matches!(
        figure,
        FigureKey::Gap(_) | FigureKey::Feed(_) | FigureKey::Wear(_)
    );
    let value = typed(job, &Typed::from(&overrule.value), measured);
    format!("{value}, because {}", quoted(&overrule.reason))
}

/// A slip by its kind and the first line that says something.
fn slip(job: &Job, id: u32) -> String {
    let Some(slip) = job.slip(id) else {
        return "a slip".to_owned();
    };
    let mut texts = slip
        .kind
        .lines()
        .iter()
        .map(|line| slip.line(*line).text().trim());
    let first = texts.find(|text| !text.is_empty());
    let kind = slips::kind(slip.kind);
    first.map_or_else(
        || kind.to_owned(),
        |text| format!("{kind} {}", quoted(text)),
    )
}

/// A text in quotation marks and in one line.
fn quoted(text: &str) -> String {
    format!("\u{201c}{}\u{201d}", in_one_line(text))
}

const fn unit(unit: Unit) -> &'static str {
    match unit {
        Unit::Mm => "millimeters",
        Unit::Inch => "inches",
    }
}

impl fmt::Display for MergeRefused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&refused(self))
    }
}

/// One sentence: why two desks' work can't be merged.
fn refused(why: &MergeRefused) -> String {
    match why {
        MergeRefused::TooManyRows { most } => {
            format!("The two tables together have more than {most} rows")
        }
        MergeRefused::TooManyReports { most } => {
            format!("Both desks' work together is more than {most} pasted tables")
        }
        MergeRefused::TooManySlips { most } => {
            format!("The two versions together have more than {most} slips")
        }
        MergeRefused::IdentitiesRunOut => {
            "The job has no identities left for the rows or slips of both".to_owned()
        }
        MergeRefused::TooLarge => {
            format!("The two versions together are larger than {LARGEST_FILE_MB} MB")
        }
    }
}

impl MergeRefused {
    /// What to do instead.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            MergeRefused::TooManyRows { .. } => {
                "Save yours as a new job, or delete rows that you don't need, then merge again."
            }
            MergeRefused::TooManySlips { .. }
            | MergeRefused::TooManyReports { .. }
            | MergeRefused::IdentitiesRunOut
            | MergeRefused::TooLarge => "Save yours as a new job; nothing was changed.",
        }
    }
}
