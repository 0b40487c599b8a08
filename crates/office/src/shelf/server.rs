//! A shelf on a PostgreSQL server: for two sites, or for desks over a bad line. Others run it, back it
//! up and replicate it; here it is only asked.
//!
//! Whatever is written is one statement of the server, which compares versions under the lock of the
//! one count of changes: so changes are seen in the order of their numbers, and a cursor skips none.
//! What replaces something leaves it there, for its history. Where the line breaks the same commit is
//! sent again under its own name, by which the server knows that it was done already. Holds are leases
//! by the server's clock alone.

mod address;
mod digests;
mod hold;
mod line;
mod lines;
mod moving;
mod password;
mod put;
mod schema;
mod seen;
mod tls;
mod watch;

use std::path::PathBuf;
use std::sync::Arc;
use std::time::Duration;

use postgres::types::Type;

pub use address::{Address, AddressRefused};
pub use digests::{Digested, Digester};
pub use password::{Kept, Password};
pub use schema::{NUMBER, ROLE_NAMES, Roles};

use super::changes::{Changes, Cursor};
use super::commit::{Commit, CommitError, Committed};
use super::doc::{Doc, Stored, Version};
use super::error::{ShelfError, Step};
use super::form::{CopyPlace, Shelf, Wake, Watch};
use super::held::{Held, desk_name};
use super::mark::Mark;
use crate::names::{AttachmentName, HIGHEST_NUMBER, JobKey};
use digests::Digests;
use hold::Holds;
use lines::{Lines, Patience};
use put::{doc_of, named};
use seen::Seen;

/// A shelf on a server.
#[derive(Debug)]
pub struct Server {
    lines: Arc<Lines>,
    holds: Holds,
    /// Who saves, for the history.
    desk: String,
    digester: Option<Digester>,
    seen: Option<Seen>,
}

/// What a desk brings to a server.
#[derive(Clone, Debug, Default)]
pub struct Brings {
    /// The mark that the shelf must have, where somebody knows that.
    pub known: Option<Mark>,
    /// What it calls itself.
    pub desk: String,
    /// Where passwords are kept.
    pub kept: Kept,
    /// What makes out what jobs are about.
    pub digester: Option<Digester>,
    /// The folder for what was seen last, where there is one.
    pub seen: Option<PathBuf>,
    /// How long a hold counts if nothing more is heard of the desk; a minute where nobody says.
    pub lease: Option<Duration>,
}

impl Server {
    /// A shelf at an address; nothing is asked of it yet.
    #[must_use]
    pub fn new(address: Address, brings: Brings) -> Self {
        let lines = Arc::new(Lines::new(address, brings.kept, brings.known));
        Self {
            holds: Holds::new(Arc::clone(&lines), brings.lease.unwrap_or(hold::LEASE)),
            lines,
            desk: desk_name(&brings.desk),
            digester: brings.digester,
            seen: brings.seen.as_deref().map(Seen::in_folder),
        }
    }

    /// Makes the tables, or brings older ones up to what this program knows; whoever asks must own the
    /// database. Jobs and versions stay.
    ///
    /// # Errors
    /// Where the server can't be reached, or this user may not.
    pub fn make(&self) -> Result<Roles, ShelfError> {
        let (line, seen) = self.lines.seen()?;
        if let Some(seen) = seen.filter(|seen| seen.number > NUMBER) {
            let place = self.place();
            return match seen.least_program > NUMBER {
                true => Err(ShelfError::NewerTables { place }),
                // A newer program looks after them.
                false => Ok(Roles::Granted),
            };
        }
        let made = line.ask(Patience::WRITE.answer, schema::make);
        made.map_err(|why| self.lines.told(Step::Adopt, &why))
    }

    /// Waits until the server knows of all holds that were let go.
    pub fn settle(&self) {
        self.holds.settle();
    }

    /// A content with its version, which must be the hash of it.
    fn stored(
        &self,
        bytes: Vec<u8>,
        version: Option<Version>,
        name: &str,
    ) -> Result<Stored, ShelfError> {
        let stored = Stored::new(bytes);
        if Some(stored.version) == version {
            return Ok(stored);
        }
        Err(ShelfError::Step {
            step: Step::Read,
            kind: std::io::ErrorKind::InvalidData,
            says: crate::words::server::damaged(name),
            place: self.place(),
        })
    }

    fn content(&self, query: &'static str, doc: &Doc) -> Result<Option<Stored>, ShelfError> {
        let name = named(doc).to_owned();
        let asked = self
            .lines
            .ask(Step::Read, Patience::LOOK, move |client, _| {
                let row = client.query_typed_opt(query, &[(&name, Type::TEXT)])?;
                row.map(|row| Ok((row.try_get::<_, Vec<u8>>(0)?, row.try_get::<_, Vec<u8>>(1)?)))
                    .transpose()
            })?;
        let found = asked.flatten();
        found
            .map(|(bytes, version)| self.stored(bytes, Version::from_bytes(&version), named(doc)))
            .transpose()
    }
}

impl Shelf for Server {
    fn place(&self) -> String {
        self.lines.place()
    }

    fn place_of(&self, job: &JobKey, name: &AttachmentName) -> String {
        format!("{}: {job}/{name}", self.place())
    }

    fn mark(&self) -> Result<Option<Mark>, ShelfError> {
        let mark = self.lines.ask(Step::Read, Patience::LOOK, |client, mark| {
            // A line that is there may lead nowhere any more.
            client.simple_query("")?;
            Ok(mark.clone())
        })?;
        Ok(mark)
    }

    fn adopt(&self, mark: &Mark) -> Result<(), ShelfError> {
        let (line, seen) = self.lines.seen()?;
        if self.lines.checked(seen.as_ref())?.is_some() {
            return Ok(());
        }
        let mark = mark.as_str().to_owned();
        let made = line.ask(Patience::WRITE.answer, move |client| {
            schema::make(client)?;
            client.query_typed("SELECT quillbore.adopt($1)", &[(&mark, Type::TEXT)])
        });
        made.map_err(|why| self.lines.told(Step::Adopt, &why))?;
        self.mark().map(drop)
    }

    fn begin_copy(&self, mark: &Mark) -> Result<CopyPlace, ShelfError> {
        self.begin_copy_there(mark)
    }

    fn end_copy(&self) -> Result<(), ShelfError> {
        self.end_copy_there()
    }

    fn has_had(&self, doc: &Doc, version: Version) -> Result<bool, ShelfError> {
        self.has_had_there(doc, version)
    }

    fn read(&self, doc: &Doc) -> Result<Option<Stored>, ShelfError> {
        let stored = self.content(
            "SELECT r.content, r.version FROM quillbore.document d \
             JOIN quillbore.revision r USING (change) \
             WHERE d.doc = $1 AND d.version IS NOT NULL",
            doc,
        )?;
        if let (Doc::Shop, Some(shop)) = (doc, &stored) {
            self.keep_seen(doc, shop);
        }
        Ok(stored)
    }

    fn previous(&self, doc: &Doc) -> Result<Option<Stored>, ShelfError> {
        self.content(
            "SELECT r.content, r.version FROM quillbore.document d \
             JOIN quillbore.revision r ON r.change = d.replaced WHERE d.doc = $1",
            doc,
        )
    }

    fn changes(&self, since: &Cursor) -> Result<Changes, ShelfError> {
        let before = since.opened().and_then(|bytes| {
            let (change, commit) = bytes.split_first_chunk::<8>()?;
            Some((i64::from_le_bytes(*change), commit.to_vec()))
        });
        let (change, commit) = before.unwrap_or((-1, Vec::new()));
        let asked = self
            .lines
            .ask(Step::List, Patience::LOOK, move |client, _| {
                let rows = client.query_typed(
                    "SELECT doc, is_there, last_change, last_commit, is_all \
                     FROM quillbore.changes($1, $2)",
                    &[(&change, Type::INT8), (&commit, Type::BYTEA)],
                )?;
                let mut told = Changes::default();
                for row in &rows {
                    let Some(doc) = row.try_get::<_, Option<&str>>(0)? else {
                        let last: i64 = row.try_get(2)?;
                        let commit: &[u8] = row.try_get(3)?;
                        told.cursor = Cursor::sealed(&[&last.to_le_bytes(), commit].concat());
                        told.all = row.try_get(4)?;
                        continue;
                    };
                    let Some(doc) = doc_of(doc) else { continue };
                    match row.try_get(1)? {
                        true => told.there.push(doc),
                        false => told.gone.push(doc),
                    }
                }
                told.there.sort();
                told.gone.sort();
                Ok(told)
            })?;
        // Nobody made a shelf there yet.
        Ok(asked.unwrap_or_else(|| Changes {
            all: true,
            ..Changes::default()
        }))
    }

    fn commit(&self, commit: &Commit) -> Result<Committed, CommitError> {
        commit.check(|doc, name| match (doc, name) {
            (Doc::Job(job), Some(name)) => self.place_of(job, name),
            _ => self.place(),
        })?;
        let digests = Digests::of(commit, self.digester.as_ref());
        self.lines.put(commit, &self.desk, digests)
    }

    fn highest_number(&self, year: u32) -> Result<Option<u32>, ShelfError> {
        let year = format!("{year:02}");
        let highest = i32::try_from(HIGHEST_NUMBER).unwrap_or(i32::MAX);
        let asked = self
            .lines
            .ask(Step::List, Patience::LOOK, move |client, _| {
                let row = client.query_typed_one(
                    "SELECT quillbore.highest_number($1, $2)",
                    &[(&year, Type::TEXT), (&highest, Type::INT4)],
                )?;
                row.try_get::<_, Option<i32>>(0)
            })?;
        Ok(asked
            .flatten()
            .and_then(|number| u32::try_from(number).ok()))
    }

    fn hold(&self, job: &JobKey, by: &str) -> Held {
        self.holds.take(job, by)
    }

    fn attachment(
        &self,
        job: &JobKey,
        name: &AttachmentName,
    ) -> Result<Option<Vec<u8>>, ShelfError> {
        let shown = format!("{job}/{name}");
        let (job, name) = (job.as_str().to_owned(), name.as_str().to_owned());
        let asked = self
            .lines
            .ask(Step::Read, Patience::WRITE, move |client, _| {
                let rows = client.query_typed(
                    "SELECT a.version, p.bytes FROM quillbore.attachment a \
                     JOIN quillbore.content_part p USING (version) \
                     WHERE a.job = $1 AND a.name = $2 ORDER BY p.part",
                    &[(&job, Type::TEXT), (&name, Type::TEXT)],
                )?;
                let mut found: Option<(Vec<u8>, Vec<u8>)> = None;
                for row in &rows {
                    let there = found.get_or_insert((row.try_get(0)?, Vec::new()));
                    there.1.extend_from_slice(row.try_get(1)?);
                }
                Ok(found)
            })?;
        let Some((version, bytes)) = asked.flatten() else {
            return Ok(None);
        };
        let stored = self.stored(bytes, Version::from_bytes(&version), &shown)?;
        Ok(Some(stored.bytes))
    }

    fn attachments(&self, job: &JobKey) -> Result<Vec<AttachmentName>, ShelfError> {
        let job = job.as_str().to_owned();
        let asked = self
            .lines
            .ask(Step::List, Patience::LOOK, move |client, _| {
                let rows = client.query_typed(
                    "SELECT name FROM quillbore.attachment WHERE job = $1 ORDER BY name",
                    &[(&job, Type::TEXT)],
                )?;
                let names = rows.iter().map(|row| row.try_get::<_, String>(0));
                names.collect::<Result<Vec<_>, _>>()
            })?;
        let names = asked.unwrap_or_default().into_iter();
        Ok(names
            .filter_map(|name| AttachmentName::new(&name).ok())
            .collect())
    }

    fn jobs_with_files(&self) -> Result<Vec<JobKey>, ShelfError> {
        let asked = self.lines.ask(Step::List, Patience::LOOK, |client, _| {
            let names = "SELECT DISTINCT job FROM quillbore.attachment ORDER BY job";
            let rows = client.query_typed(names, &[])?;
            let names = rows.iter().map(|row| row.try_get::<_, String>(0));
            names.collect::<Result<Vec<_>, _>>()
        })?;
        let names = asked.unwrap_or_default().into_iter();
        Ok(names.filter_map(|name| JobKey::new(&name).ok()).collect())
    }

    fn strays(&self) -> Result<Vec<String>, ShelfError> {
        self.strays_there()
    }

    fn is_on_disk(&self) -> bool {
        false
    }

    fn wants_password(&self) -> bool {
        self.lines.wants_password()
    }

    fn give_password(&self, password: &str) {
        self.lines.give(Password::new(password));
    }

    fn known_mark(&self) -> Option<Mark> {
        self.lines.known()
    }

    fn not_known(&self) -> Vec<(Doc, Version)> {
        self.lines.not_known()
    }

    fn keep_seen(&self, doc: &Doc, stored: &Stored) {
        if let Some(seen) = &self.seen {
            seen.keep(doc, stored);
        }
    }

    fn last_seen(&self, doc: &Doc) -> Option<Stored> {
        self.seen.as_ref()?.last(doc)
    }

    fn digests(&self, kind: &str) -> Result<Vec<(JobKey, String)>, ShelfError> {
        self.lines.digests(kind)
    }

    fn make_digests(&self, jobs: &[JobKey]) -> Result<Vec<(JobKey, String)>, ShelfError> {
        match &self.digester {
            Some(digester) => self.lines.make_digests(jobs, digester),
            None => Ok(Vec::new()),
        }
    }

    fn read_records(&self, jobs: &[JobKey]) -> Result<Vec<(JobKey, Stored)>, ShelfError> {
        let kind = self.digester.as_ref().map_or("", |made| made.kind.as_str());
        let found = self.lines.with_records(jobs, kind)?;
        let stored = found.into_iter().map(|found| {
            let version = Version::from_bytes(&found.version);
            let stored = self.stored(found.content, version, found.job.as_str())?;
            Ok((found.job, stored))
        });
        stored.collect()
    }

    fn watch(&self, wake: Wake) -> Option<Watch> {
        let listens = Arc::new(());
        watch::watch(Arc::clone(&self.lines), Arc::downgrade(&listens), wake);
        Some(Watch::new(listens))
    }
}
