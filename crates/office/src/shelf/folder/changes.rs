//! What is other in a folder than it was: by the stamps of its files, never by reading them.

use std::collections::{BTreeMap, BTreeSet};
use std::ffi::OsStr;
use std::io;

use super::Files;
use crate::disk::{Kind, Stamp};
use crate::names::{JobKey, number_of};
use crate::shelf::changes::{Changes, Cursor, Unusable, Why};
use crate::shelf::doc::Doc;
use crate::shelf::error::{ShelfError, Step};

/// What a name in the folder means.
enum Meaning {
    Doc(Doc),
    Unusable(Unusable),
    /// Nothing of ours.
    Other,
}

impl Files {
    pub(in crate::shelf) fn changes(&self, since: &Cursor) -> Result<Changes, ShelfError> {
        let root = self.root();
        let found = self.disk.list(root);
        let found = found.map_err(self.step(Step::List, root))?;
        let known = since.opened();
        let before = known.map(stamps).unwrap_or_default();
        let mut now: BTreeMap<String, Stamp> = BTreeMap::new();
        let mut changes = Changes::default();
        for found in &found {
            match meaning(&found.name, found.look.kind) {
                Meaning::Doc(doc) => {
                    let name = super::files::stem(&doc).to_owned();
                    if before.get(name.as_str()) != Some(&found.look.stamp) {
                        changes.there.push(doc);
                    }
                    now.insert(name, found.look.stamp);
                }
                Meaning::Unusable(unusable) => changes.unusable.push(unusable),
                Meaning::Other => {}
            }
        }
        let listed: BTreeSet<String> = now.keys().map(|name| name.to_lowercase()).collect();
        let missing = before.keys().filter(|name| !now.contains_key(**name));
        for name in missing.copied().collect::<Vec<&str>>() {
            let Some(doc) = doc_of(name) else { continue };
            // Where big and small letters are one, a name that is spelled anew would be found again.
            let spelled_anew = listed.contains(&name.to_lowercase());
            match self.stamp_of_missed(&doc)?.filter(|_| !spelled_anew) {
                Some(stamp) => {
                    if before.get(name) != Some(&stamp) {
                        changes.there.push(doc);
                    }
                    now.insert(name.to_owned(), stamp);
                }
                None => changes.gone.push(doc),
            }
        }
        changes.there.sort();
        changes.there.dedup();
        changes.unusable.sort();
        changes.all = known.is_none();
        changes.cursor = cursor(&now);
        Ok(changes)
    }

    /// The stamp of a document that a listing left out: some disks leave out a name that is given to
    /// another file meanwhile, and a save does just that.
    fn stamp_of_missed(&self, doc: &Doc) -> Result<Option<Stamp>, ShelfError> {
        let path = self.doc_path(doc);
        match self.disk.look(&path) {
            Ok(look) => Ok((look.kind == Kind::File).then_some(look.stamp)),
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
            Err(error) => Err(self.step(Step::List, &path)(error)),
        }
    }

    /// The jobs that have a folder of files.
    pub(in crate::shelf) fn jobs_with_files(&self) -> Result<Vec<JobKey>, ShelfError> {
        let root = self.root();
        let found = self.disk.list(root);
        let found = found.map_err(self.step(Step::List, root))?;
        let job = |name: &OsStr| JobKey::new(name.to_str()?.strip_suffix(".files")?).ok();
        let folders = found.iter().filter(|found| found.look.kind == Kind::Folder);
        let mut jobs: Vec<JobKey> = folders.filter_map(|found| job(&found.name)).collect();
        jobs.sort();
        Ok(jobs)
    }

    pub(in crate::shelf) fn highest_number(&self, year: u32) -> Result<Option<u32>, ShelfError> {
        let root = self.root();
        let found = self.disk.list(root);
        let found = found.map_err(self.step(Step::List, root))?;
        let number = |name: &OsStr| {
            let name = name.to_string_lossy().to_lowercase();
            // The folder of a job that was taken away keeps its number too.
            let stem = name
                .strip_suffix(".ron")
                .or_else(|| name.strip_suffix(".files"))?;
            number_of(stem, year)
        };
        let numbers = found.iter().filter_map(|found| number(&found.name));
        Ok(numbers.max())
    }
}

fn meaning(name: &OsStr, kind: Kind) -> Meaning {
    let shown = name.to_string_lossy();
    if shown.starts_with('.') || !shown.to_lowercase().ends_with(".ron") {
        return Meaning::Other;
    }
    let unusable = |why| {
        Meaning::Unusable(Unusable {
            name: shown.clone().into_owned(),
            why,
        })
    };
    let Some(text) = name.to_str() else {
        return unusable(Why::NoText);
    };
    match (kind, text.strip_suffix(".ron").map(doc_of)) {
        (Kind::Link, _) => unusable(Why::Link),
        (Kind::Folder, _) => unusable(Why::Folder),
        (Kind::Other, _) => unusable(Why::NoFile),
        (Kind::File, None) => unusable(Why::Ending),
        (Kind::File, Some(None)) => unusable(Why::Name),
        (Kind::File, Some(Some(doc))) => Meaning::Doc(doc),
    }
}

fn doc_of(stem: &str) -> Option<Doc> {
    if stem == super::files::stem(&Doc::Shop) {
        return Some(Doc::Shop);
    }
    JobKey::new(stem).ok().map(Doc::Job)
}

/// Stamps as a cursor: for each name its length, itself, and the stamp's two numbers.
fn cursor(stamps: &BTreeMap<String, Stamp>) -> Cursor {
    let mut bytes = Vec::with_capacity(stamps.len() * 32);
    for (name, stamp) in stamps {
        let Ok(length) = u16::try_from(name.len()) else {
            continue;
        };
        bytes.extend(length.to_le_bytes());
        bytes.extend(name.as_bytes());
        bytes.extend(stamp.changed_ns.to_le_bytes());
        bytes.extend(stamp.bytes.to_le_bytes());
    }
    Cursor::sealed(&bytes)
}

/// The stamps of a cursor.
fn stamps(mut left: &[u8]) -> BTreeMap<&str, Stamp> {
    let mut stamps = BTreeMap::new();
    while let Some((name, stamp)) = next_stamp(&mut left) {
        stamps.insert(name, stamp);
    }
    stamps
}

fn next_stamp<'a>(left: &mut &'a [u8]) -> Option<(&'a str, Stamp)> {
    let (length, rest) = left.split_first_chunk::<2>()?;
    let (name, rest) = rest.split_at_checked(usize::from(u16::from_le_bytes(*length)))?;
    let (changed, rest) = rest.split_first_chunk::<8>()?;
    let (bytes, rest) = rest.split_first_chunk::<8>()?;
    *left = rest;
    let stamp = Stamp {
        changed_ns: i64::from_le_bytes(*changed),
        bytes: u64::from_le_bytes(*bytes),
    };
    Some((std::str::from_utf8(name).ok()?, stamp))
}
