//! What became of a file, as JSON.

use quillbore_job::Report;
use quillbore_job::report::ReportLine;
use serde::Serialize;

/// A report, with the rows that came of it and what is to be looked at in the job.
#[derive(Debug, Serialize)]
pub(super) struct ReportJson<'a> {
    /// Where the rows came from; `None` where that is no file.
    file: Option<FileJson<'a>>,
    /// Rows of the hole table.
    rows: usize,
    /// What holds for the whole, in words.
    whole: &'a [String],
    /// Lines of a table, each with what became of it.
    lines: Vec<LineJson<'a>>,
    /// The job's side notes, in words.
    notes: Vec<String>,
    /// Where the job stands.
    job: String,
}

#[derive(Debug, Serialize)]
struct FileJson<'a> {
    name: &'a str,
    sheet: Option<&'a str>,
    bytes: Option<u64>,
    /// The day of its last change, as the disk tells it.
    changed: Option<String>,
    sha256: Option<String>,
}

#[derive(Debug, Serialize)]
struct LineJson<'a> {
    line: u32,
    /// taken, `in_part`, `left_out`, guessed or unread.
    outcome: &'static str,
    says: &'a str,
}

impl<'a> ReportJson<'a> {
    pub(super) fn of(
        report: &'a Report,
        rows: usize,
        notes: impl Iterator<Item = String>,
        job: String,
    ) -> Self {
        let line = |line: &'a ReportLine| LineJson {
            line: line.number,
            outcome: line.outcome.key(),
            says: &line.says,
        };
        Self {
            file: report.from.file().map(|file| FileJson {
                name: &file.name,
                sheet: file.sheet.as_deref(),
                bytes: file.stamp.map(|stamp| stamp.bytes),
                changed: file.stamp.and_then(|stamp| Some(stamp.day?.to_string())),
                sha256: file.stamp.map(|stamp| stamp.hash.to_string()),
            }),
            rows,
            whole: &report.whole,
            lines: report.lines.iter().map(line).collect(),
            notes: notes.collect(),
            job,
        }
    }
}
