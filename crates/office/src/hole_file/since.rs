//! Whether a file is one that a job's rows came from already, and whether it changed since.

use quillbore_job::Job;
use quillbore_job::report::{FileStamp, Source};

/// What a job knows of a file already.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Since {
    /// None of its rows came from a file.
    First,
    /// Rows came from a file of the same content, of this name.
    Same(String),
    /// Rows came from a file of this name with another content.
    Changed(FileStamp),
    /// The last rows that came from a file came from one of another name.
    Another(String),
}

/// What a job knows of the file that rows are about to come from; a reorder knows what the jobs before it did.
#[must_use]
pub fn since(job: &Job, source: &Source) -> Since {
    let Some((file, stamp)) = source.file().and_then(|file| Some((file, file.stamp?))) else {
        return Since::First;
    };
    let before = job.reports.iter().rev();
    let before: Vec<_> = before
        .filter_map(|report| {
            let before = report.from.file()?;
            Some((before, before.stamp?))
        })
        .collect();
    // The newest of its name counts: a file may have been changed, and changed back.
    let of_name = before.iter().find(|(before, _)| before.name == file.name);
    if let Some((before, was)) = of_name {
        return if was.hash == stamp.hash {
            Since::Same(before.name.clone())
        } else {
            Since::Changed(*was)
        };
    }
    if let Some((before, _)) = before.iter().find(|(_, was)| was.hash == stamp.hash) {
        return Since::Same(before.name.clone());
    }
    let last = before.first();
    last.map_or(Since::First, |(before, _)| {
        Since::Another(before.name.clone())
    })
}
