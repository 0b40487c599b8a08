//! What jobs are about, kept beside them: so a desk that starts lists them without reading each.

use chrono::NaiveDate;
use postgres::Row;
use postgres::error::SqlState;
use postgres::types::{ToSql, Type};
use quillbore_job::file::hash;

use super::lines::{Lines, Patience};
use super::put::named;
use crate::names::JobKey;
use crate::shelf::commit::Commit;
use crate::shelf::doc::Doc;
use crate::shelf::error::{ShelfError, Step};

/// What a job is about.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Digested {
    /// All of it, for whoever made it.
    pub text: String,
    /// Who asked.
    pub customer: String,
    /// Part number.
    pub part: String,
    /// Drawing number.
    pub drawing: String,
    /// Where it stands.
    pub state: String,
    /// The day it was opened.
    pub opened: Option<NaiveDate>,
    /// When it is due.
    pub due: Option<NaiveDate>,
    /// It may have run records, or anything else that counts beyond it.
    pub has_records: bool,
}

/// Makes out what jobs are about; the shelf itself doesn't look into them.
#[derive(Clone, Debug)]
pub struct Digester {
    /// What tells its digests from those of programs that know more or less.
    pub kind: String,
    /// Of a job's content; nothing where it can't be read.
    pub of: fn(&[u8]) -> Option<Digested>,
}

/// What is sent of digests.
#[derive(Debug, Default)]
pub(super) struct Digests {
    pub(super) docs: Vec<String>,
    pub(super) versions: Vec<Vec<u8>>,
    pub(super) kind: String,
    pub(super) digests: Vec<String>,
    pub(super) customers: Vec<String>,
    pub(super) parts: Vec<String>,
    pub(super) drawings: Vec<String>,
    pub(super) states: Vec<String>,
    pub(super) opened: Vec<Option<NaiveDate>>,
    pub(super) due: Vec<Option<NaiveDate>>,
    pub(super) has_records: Vec<bool>,
}

/// A job that was found, as the server has it.
pub(super) struct Found {
    pub(super) job: JobKey,
    pub(super) content: Vec<u8>,
    pub(super) version: Vec<u8>,
}

impl Digests {
    /// Of the jobs of a commit.
    pub(super) fn of(commit: &Commit, digester: Option<&Digester>) -> Self {
        let mut digests = Self::default();
        let Some(digester) = digester else {
            return digests;
        };
        digests.kind.clone_from(&digester.kind);
        for write in &commit.documents {
            if write.doc != Doc::Shop
                && let Some(digested) = (digester.of)(&write.bytes)
            {
                digests.push(&write.doc, hash(&write.bytes).bytes(), digested);
            }
        }
        digests
    }

    /// What is sent of them, in the order of the function that takes it.
    pub(super) fn asked(&self) -> [(&(dyn ToSql + Sync), Type); 11] {
        [
            (&self.docs, Type::TEXT_ARRAY),
            (&self.versions, Type::BYTEA_ARRAY),
            (&self.kind, Type::TEXT),
            (&self.digests, Type::TEXT_ARRAY),
            (&self.customers, Type::TEXT_ARRAY),
            (&self.parts, Type::TEXT_ARRAY),
            (&self.drawings, Type::TEXT_ARRAY),
            (&self.states, Type::TEXT_ARRAY),
            (&self.opened, Type::DATE_ARRAY),
            (&self.due, Type::DATE_ARRAY),
            (&self.has_records, Type::BOOL_ARRAY),
        ]
    }

    pub(super) fn push(&mut self, doc: &Doc, version: &[u8], digested: Digested) {
        // The server's texts have no zero byte.
        let plain = |text: String| match text.contains('\0') {
            true => text.replace('\0', " "),
            false => text,
        };
        self.docs.push(named(doc).to_owned());
        self.versions.push(version.to_vec());
        self.digests.push(plain(digested.text));
        self.customers.push(plain(digested.customer));
        self.parts.push(plain(digested.part));
        self.drawings.push(plain(digested.drawing));
        self.states.push(plain(digested.state));
        self.opened.push(digested.opened);
        self.due.push(digested.due);
        self.has_records.push(digested.has_records);
    }
}

impl Lines {
    /// All digests of a kind, of jobs that still have those versions.
    pub(super) fn digests(&self, kind: &str) -> Result<Vec<(JobKey, String)>, ShelfError> {
        let kind = kind.to_owned();
        let asked = self.ask(Step::List, Patience::LOOK, move |client, _| {
            let rows = client.query_typed(
                "SELECT doc, digest FROM quillbore.digest JOIN quillbore.document \
                 USING (doc, version) WHERE kind = $1",
                &[(&kind, Type::TEXT)],
            )?;
            let told = rows.iter().map(|row| {
                let job = JobKey::new(row.try_get(0)?);
                Ok(job.ok().zip(Some(row.try_get::<_, String>(1)?)))
            });
            told.collect::<Result<Vec<_>, postgres::Error>>()
        })?;
        Ok(asked.unwrap_or_default().into_iter().flatten().collect())
    }

    /// Reads jobs together and makes their digests, which are kept beside them where this user may.
    pub(super) fn make_digests(
        &self,
        jobs: &[JobKey],
        digester: &Digester,
    ) -> Result<Vec<(JobKey, String)>, ShelfError> {
        let names: Vec<String> = jobs.iter().map(|job| job.as_str().to_owned()).collect();
        let digester = digester.clone();
        let asked = self.ask(Step::Read, Patience::LOOK, move |client, _| {
            let rows = client.query_typed(
                "SELECT d.doc, r.content, r.version FROM quillbore.document d \
                 JOIN quillbore.revision r USING (change) \
                 WHERE d.doc = ANY ($1) AND d.version IS NOT NULL",
                &[(&names, Type::TEXT_ARRAY)],
            )?;
            let mut digests = Digests {
                kind: digester.kind.clone(),
                ..Digests::default()
            };
            let mut made = Vec::new();
            for found in found(&rows)? {
                // What is damaged is told to whoever reads it alone.
                let is_whole = hash(&found.content).bytes() == found.version.as_slice();
                let digested = is_whole.then(|| (digester.of)(&found.content)).flatten();
                if let Some(digested) = digested {
                    made.push((found.job.clone(), digested.text.clone()));
                    digests.push(&Doc::Job(found.job), &found.version, digested);
                }
            }
            let keep =
                "SELECT quillbore.put_digests($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)::text";
            match client.query_typed(keep, &digests.asked()) {
                // Who only reads has them all the same.
                Err(error) if error.code() != Some(&SqlState::INSUFFICIENT_PRIVILEGE) => Err(error),
                _ => Ok(made),
            }
        })?;
        Ok(asked.unwrap_or_default())
    }

    /// The jobs of these whose digest doesn't say that they have no records.
    pub(super) fn with_records(
        &self,
        jobs: &[JobKey],
        kind: &str,
    ) -> Result<Vec<Found>, ShelfError> {
        let names: Vec<String> = jobs.iter().map(|job| job.as_str().to_owned()).collect();
        let kind = kind.to_owned();
        let asked = self.ask(Step::Read, Patience::LOOK, move |client, _| {
            let rows = client.query_typed(
                "SELECT d.doc, r.content, r.version FROM quillbore.document d \
                 JOIN quillbore.revision r USING (change) \
                 LEFT JOIN quillbore.digest g \
                   ON g.doc = d.doc AND g.version = d.version AND g.kind = $2 \
                 WHERE d.doc = ANY ($1) AND d.version IS NOT NULL \
                   AND g.has_records IS DISTINCT FROM false ORDER BY d.doc",
                &[(&names, Type::TEXT_ARRAY), (&kind, Type::TEXT)],
            )?;
            found(&rows)
        })?;
        Ok(asked.unwrap_or_default())
    }
}

/// Jobs that were found: name, content and version in each row.
fn found(rows: &[Row]) -> Result<Vec<Found>, postgres::Error> {
    let told = rows.iter().map(|row| {
        let (content, version) = (row.try_get(1)?, row.try_get(2)?);
        let job = JobKey::new(row.try_get(0)?).ok();
        Ok(job.map(|job| Found {
            job,
            content,
            version,
        }))
    });
    told.filter_map(Result::transpose).collect()
}
