//! A shelf that moves house onto a server, or from one.

use postgres::types::Type;

use super::Server;
use super::lines::Patience;
use super::put::{doc_of, named};
use super::schema::{self, NUMBER};
use crate::names::{AttachmentName, JobKey};
use crate::shelf::doc::{Doc, Version};
use crate::shelf::error::{ShelfError, Step};
use crate::shelf::form::{CopyPlace, Shelf as _};
use crate::shelf::mark::Mark;

impl Server {
    /// As `Shelf::begin_copy`; a copy that is brought up needs no owner.
    pub(super) fn begin_copy_there(&self, mark: &Mark) -> Result<CopyPlace, ShelfError> {
        let (line, seen) = self.lines.seen()?;
        // A whole one needs no owner.
        if let Some(seen) = &seen {
            if seen.least_program > NUMBER {
                let place = self.place();
                return Err(ShelfError::NewerTables { place });
            }
            if seen.mark.as_ref() == Some(mark) && !seen.is_half_copied {
                self.lines.know(mark, false);
                return Ok(CopyPlace::Whole);
            }
        }
        let new = mark.as_str().to_owned();
        let begun = line.ask(Patience::WRITE.answer, move |client| {
            schema::make(client)?;
            let begin = "SELECT quillbore.begin_copy($1)";
            let row = client.query_typed_one(begin, &[(&new, Type::TEXT)])?;
            row.try_get::<_, String>(0)
        });
        let begun = begun.map_err(|why| self.lines.told(Step::Adopt, &why))?;
        let place = match begun.as_str() {
            "unfinished" => CopyPlace::Unfinished,
            "whole" => CopyPlace::Whole,
            _ => return Ok(CopyPlace::Another),
        };
        self.lines.know(mark, place == CopyPlace::Unfinished);
        Ok(place)
    }

    /// As `Shelf::end_copy`.
    pub(super) fn end_copy_there(&self) -> Result<(), ShelfError> {
        let Some(mark) = self.mark()? else {
            return Ok(());
        };
        self.lines.ask(Step::Adopt, Patience::WRITE, |client, _| {
            client.query_typed("SELECT quillbore.end_copy()::text", &[])
        })?;
        self.lines.know(&mark, false);
        Ok(())
    }

    /// As `Shelf::has_had`: every version is kept.
    pub(super) fn has_had_there(&self, doc: &Doc, version: Version) -> Result<bool, ShelfError> {
        let (name, version) = (named(doc).to_owned(), version.0.bytes().to_vec());
        let asked = self
            .lines
            .ask(Step::Read, Patience::LOOK, move |client, _| {
                let row = client.query_typed_one(
                    "SELECT EXISTS (SELECT FROM quillbore.revision WHERE doc = $1 AND version = $2)",
                    &[(&name, Type::TEXT), (&version, Type::BYTEA)],
                )?;
                row.try_get::<_, bool>(0)
            })?;
        Ok(asked.unwrap_or(false))
    }

    /// As `Shelf::strays`: what a hand put into the tables.
    pub(super) fn strays_there(&self) -> Result<Vec<String>, ShelfError> {
        let asked = self.lines.ask(Step::List, Patience::LOOK, |client, _| {
            let all = "SELECT doc, NULL FROM quillbore.document WHERE version IS NOT NULL \
                UNION ALL SELECT job, name FROM quillbore.attachment ORDER BY 1, 2";
            let rows = client.query_typed(all, &[])?;
            let mut strays = Vec::new();
            for row in &rows {
                let (doc, name): (&str, Option<&str>) = (row.try_get(0)?, row.try_get(1)?);
                let is_ours = match name {
                    None => doc_of(doc).is_some(),
                    Some(name) => JobKey::new(doc).is_ok() && AttachmentName::new(name).is_ok(),
                };
                if !is_ours {
                    strays
                        .push(name.map_or_else(|| doc.to_owned(), |name| format!("{doc}/{name}")));
                }
            }
            Ok(strays)
        })?;
        Ok(asked.unwrap_or_default())
    }
}
