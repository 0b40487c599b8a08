//! The report of a table on disk: one line of the table a line.

use std::sync::Arc;

use serde::{Deserialize, Serialize};

use super::parts::{Day, HashFile, Named, Unfit, is_zero};
use crate::pinned::report::{
    FileStamp, LineOutcome, Report, ReportLine, Source, SourceFile as Foreign, TooMuch,
};

/// A report on disk, of which a job keeps no more than it can.
#[derive(Clone, Debug, Deserialize, Serialize)]
#[serde(try_from = "ReportParts", into = "ReportParts")]
pub(super) struct ReportFile(pub(super) Arc<Report>);

#[derive(Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct ReportParts {
    from: SourceFile,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    sheet: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    stamp: Option<StampFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    whole: Vec<String>,
    #[serde(default, skip_serializing_if = "is_zero")]
    taken: u32,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    lines: Vec<LineFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    outline: Vec<Vec<(i64, i64)>>,
}

/// Where a table came from, on disk.
#[derive(Debug, Deserialize, Serialize)]
#[serde(rename_all = "snake_case")]
enum SourceFile {
    Pasted,
    File(String),
}

/// What tells a file's content from another's, on disk.
#[derive(Clone, Copy, Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct StampFile {
    bytes: u64,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    day: Option<Day>,
    sha256: HashFile,
}

/// A line on disk: its number, what became of it, in words.
#[derive(Debug, Deserialize, Serialize)]
struct LineFile(u32, Named<LineOutcome>, String);

impl From<ReportFile> for ReportParts {
    fn from(ReportFile(report): ReportFile) -> Self {
        let Report {
            from,
            whole,
            taken,
            lines,
            outline,
        } = Arc::unwrap_or_clone(report);
        let (from, sheet, stamp) = match from {
            Source::Pasted => (SourceFile::Pasted, None, None),
            Source::File(file) => (SourceFile::File(file.name), file.sheet, file.stamp),
        };
        Self {
            from,
            sheet,
            stamp: stamp.map(|stamp| StampFile {
                bytes: stamp.bytes,
                day: stamp.day.map(Day),
                sha256: HashFile(stamp.hash),
            }),
            whole,
            taken,
            lines: lines
                .into_iter()
                .map(|line| LineFile(line.number, Named(line.outcome), line.says))
                .collect(),
            outline: outline
                .into_iter()
                .map(|ring| ring.into_iter().map(|[x, y]| (x, y)).collect())
                .collect(),
        }
    }
}

impl TryFrom<ReportParts> for ReportFile {
    type Error = Unfit;

    fn try_from(parts: ReportParts) -> Result<Self, Unfit> {
        let lines = parts.lines.into_iter();
        let report = Report {
            from: match parts.from {
                SourceFile::Pasted => Source::Pasted,
                SourceFile::File(name) => Source::File(Foreign {
                    name,
                    sheet: parts.sheet,
                    stamp: parts.stamp.map(|stamp| FileStamp {
                        bytes: stamp.bytes,
                        day: stamp.day.map(|Day(day)| day),
                        hash: stamp.sha256.0,
                    }),
                }),
            },
            whole: parts.whole,
            taken: parts.taken,
            lines: lines
                .map(|LineFile(number, Named(outcome), says)| ReportLine {
                    number,
                    outcome,
                    says,
                })
                .collect(),
            outline: parts
                .outline
                .into_iter()
                .map(|ring| ring.into_iter().map(|(x, y)| [x, y]).collect())
                .collect(),
        };
        match report.too_much() {
            Some(TooMuch::Told) => Err(Unfit::ReportTooLong),
            Some(TooMuch::Text) => Err(Unfit::ReportText),
            None => Ok(Self(Arc::new(report))),
        }
    }
}
