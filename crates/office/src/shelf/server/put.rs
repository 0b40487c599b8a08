//! One commit: a single statement, or with large files a transaction whose last statement it is. The
//! server compares versions and writes; asked a second time it knows that it was done.

use std::collections::BTreeSet;
use std::sync::Arc;
use std::time::Duration;

use postgres::types::{ToSql, Type};
use postgres::{Client, Row};
use quillbore_job::file::hash;

use super::digests::Digests;
use super::lines::{Lines, Patience};
use crate::names::{AttachmentName, JobKey};
use crate::shelf::commit::{Commit, CommitError, Committed};
use crate::shelf::doc::{Doc, Version};
use crate::shelf::error::{ShelfError, Step};
use crate::shelf::mark::Mark;

/// Largest part of a file that is sent at once, and largest file that goes with the statement itself.
pub(super) const PART: usize = 1 << 20;

/// The slowest line that a large file is still sent over, for each byte of it.
const SLOWEST: Duration = Duration::from_micros(20);

/// What a shelf calls a document.
pub(super) fn named(doc: &Doc) -> &str {
    match doc {
        Doc::Job(key) => key.as_str(),
        Doc::Shop => SHOP,
    }
}

/// The document of a name.
pub(super) fn doc_of(name: &str) -> Option<Doc> {
    match name {
        SHOP => Some(Doc::Shop),
        name => JobKey::new(name).ok().map(Doc::Job),
    }
}

/// The shop's own data; no job may have that name.
const SHOP: &str = "shop";

/// What is sent, kept until it is known to be done.
struct Sent {
    id: [u8; 16],
    by: String,
    docs: Vec<String>,
    expected: Vec<Option<Vec<u8>>>,
    versions: Vec<Vec<u8>>,
    contents: Vec<Vec<u8>>,
    files: Vec<File>,
    digests: Digests,
}

struct File {
    job: String,
    name: String,
    version: Vec<u8>,
    bytes: Vec<u8>,
}

/// What the server said, as it stands.
struct Came {
    to: String,
    name: Option<String>,
    beside: Option<String>,
}

impl Lines {
    pub(super) fn put(
        &self,
        commit: &Commit,
        by: &str,
        digests: Digests,
    ) -> Result<Committed, CommitError> {
        let mut id = [0; 16];
        getrandom::fill(&mut id).map_err(|error| ShelfError::Step {
            step: Step::WriteNew,
            kind: std::io::ErrorKind::Other,
            says: error.to_string(),
            place: self.place(),
        })?;
        let sent = Arc::new(Sent::of(commit, id, by, digests));
        let bytes: usize = sent.files.iter().map(|file| file.bytes.len()).sum();
        let bytes = u32::try_from(bytes).unwrap_or(u32::MAX);
        let patience = Patience {
            answer: Patience::WRITE.answer + SLOWEST * bytes,
            ..Patience::WRITE
        };
        let asked = self.ask(Step::WriteNew, patience, move |client, mark| {
            sent.send(client, mark)
        });
        let is_known = !matches!(asked, Err(ShelfError::NoServer { .. }));
        self.note_end(&commit.documents, is_known);
        let came = match asked {
            Ok(Some(came)) => came,
            Ok(None) => return Err(self.not_marked()),
            Err(error @ ShelfError::NoServer { .. }) => return Err(CommitError::NotKnown(error)),
            Err(error) => return Err(error.into()),
        };
        self.outcome(commit, &came)
    }

    fn not_marked(&self) -> CommitError {
        let place = self.place();
        ShelfError::NotMarked { place }.into()
    }

    fn outcome(&self, commit: &Commit, came: &[Came]) -> Result<Committed, CommitError> {
        let place = || self.place();
        let docs = || came.iter().filter_map(|came| doc_of(came.name.as_deref()?));
        let first = came.first().map_or("", |came| came.to.as_str());
        let odd = || {
            CommitError::from(ShelfError::Step {
                step: Step::WriteNew,
                kind: std::io::ErrorKind::InvalidData,
                says: first.to_owned(),
                place: place(),
            })
        };
        match first {
            "done" => {
                let documents = commit.documents.iter();
                let versions = documents.map(|write| Version::of(&write.bytes));
                Ok(Committed {
                    versions: versions.collect(),
                    locked: true,
                })
            }
            "changed" => Err(CommitError::Changed(docs().collect())),
            "gone" => Err(docs().next().map_or_else(odd, CommitError::Gone)),
            "taken" => Err(docs().next().map_or_else(odd, CommitError::Taken)),
            "file taken" => {
                let came = came.first();
                let named = came.and_then(|came| {
                    let job = JobKey::new(came.name.as_deref()?).ok()?;
                    Some((job, AttachmentName::new(came.beside.as_deref()?).ok()?))
                });
                let taken = |(job, name)| CommitError::AttachmentTaken(job, name);
                Err(named.map_or_else(odd, taken))
            }
            "unmarked" => Err(self.not_marked()),
            "another shelf" => Err(ShelfError::Vanished { place: place() }.into()),
            _ => Err(odd()),
        }
    }
}

impl Sent {
    fn of(commit: &Commit, id: [u8; 16], by: &str, digests: Digests) -> Self {
        let documents = &commit.documents;
        // Twice the same is one.
        let mut seen = BTreeSet::new();
        let files = commit.attachments.iter();
        let files = files.filter(|file| seen.insert((&file.job, &file.name)));
        Self {
            id,
            by: by.to_owned(),
            docs: documents.iter().map(|w| named(&w.doc).to_owned()).collect(),
            expected: documents
                .iter()
                .map(|w| w.expected.map(|version| version.0.bytes().to_vec()))
                .collect(),
            versions: documents
                .iter()
                .map(|w| hash(&w.bytes).bytes().to_vec())
                .collect(),
            contents: documents.iter().map(|w| w.bytes.clone()).collect(),
            files: files
                .map(|file| File {
                    job: file.job.as_str().to_owned(),
                    name: file.name.as_str().to_owned(),
                    version: hash(&file.bytes).bytes().to_vec(),
                    bytes: file.bytes.clone(),
                })
                .collect(),
            digests,
        }
    }

    fn send(&self, client: &mut Client, mark: &Mark) -> Result<Vec<Came>, postgres::Error> {
        let mut large: Vec<&File> = self.files.iter().collect();
        large.retain(|file| file.bytes.len() > PART);
        if large.is_empty() {
            return self.ask(|text, asked| client.query_typed(text, asked), mark);
        }
        // In one order for all desks, so that no two wait for each other.
        large.sort_by_key(|file| &file.version);
        let mut transaction = client.transaction()?;
        for file in large {
            for (part, bytes) in (0_i32..).zip(file.bytes.chunks(PART)) {
                transaction.query_typed(
                    "SELECT quillbore.put_part($1, $2, $3)",
                    &[
                        (&file.version, Type::BYTEA),
                        (&part, Type::INT4),
                        (&bytes, Type::BYTEA),
                    ],
                )?;
            }
        }
        let came = self.ask(|text, asked| transaction.query_typed(text, asked), mark)?;
        // Nothing of it stays where it was refused.
        if came.first().is_some_and(|came| came.to == "done") {
            transaction.commit()?;
        } else {
            transaction.rollback()?;
        }
        Ok(came)
    }

    fn ask(
        &self,
        query: impl FnOnce(&str, &[(&(dyn ToSql + Sync), Type)]) -> Result<Vec<Row>, postgres::Error>,
        mark: &Mark,
    ) -> Result<Vec<Came>, postgres::Error> {
        let files = &self.files;
        let jobs: Vec<&str> = files.iter().map(|file| file.job.as_str()).collect();
        let names: Vec<&str> = files.iter().map(|file| file.name.as_str()).collect();
        let versions: Vec<&[u8]> = files.iter().map(|file| file.version.as_slice()).collect();
        let size = |file: &File| i64::try_from(file.bytes.len()).unwrap_or(i64::MAX);
        let sizes: Vec<i64> = files.iter().map(size).collect();
        let inline = |file: &'_ File| file.bytes.len() <= PART;
        let bytes: Vec<Option<&[u8]>> = files
            .iter()
            .map(|file| inline(file).then_some(file.bytes.as_slice()))
            .collect();
        let (mark, id) = (mark.as_str(), self.id.as_slice());
        let put: [(&(dyn ToSql + Sync), Type); 12] = [
            (&mark, Type::TEXT),
            (&id, Type::BYTEA),
            (&self.by, Type::TEXT),
            (&self.docs, Type::TEXT_ARRAY),
            (&self.expected, Type::BYTEA_ARRAY),
            (&self.versions, Type::BYTEA_ARRAY),
            (&self.contents, Type::BYTEA_ARRAY),
            (&jobs, Type::TEXT_ARRAY),
            (&names, Type::TEXT_ARRAY),
            (&versions, Type::BYTEA_ARRAY),
            (&sizes, Type::INT8_ARRAY),
            (&bytes, Type::BYTEA_ARRAY),
        ];
        let asked: Vec<_> = put.into_iter().chain(self.digests.asked()).collect();
        let rows = query(
            "SELECT came_to, name, beside, CASE WHEN came_to = 'done' THEN \
             quillbore.put_digests($13, $14, $15, $16, $17, $18, $19, $20, $21, $22, $23)::text END \
             FROM quillbore.put($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12)",
            &asked,
        )?;
        let came = rows.iter().map(|row| {
            Ok(Came {
                to: row.try_get(0)?,
                name: row.try_get(1)?,
                beside: row.try_get(2)?,
            })
        });
        came.collect()
    }
}
