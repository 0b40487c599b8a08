//! What was known of a shelf, kept between two starts: one line that says what it is, how far the
//! shelf was followed, and what was known then.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use quillbore_job::file::FORMAT;
use serde::{Deserialize, Serialize};

use super::follow::Follower;
use super::line::ShelfLine;
use super::of_job::Digest;
use crate::names::JobKey;
use crate::shelf::{Cursor, Mark};

/// Raised whenever a digest says more than before: an older cache is thrown away.
const VERSION: u32 = 9;

/// What tells digests of this program from those of one that knows more or less.
pub(super) fn kind() -> String {
    format!("{VERSION}/{FORMAT}")
}

/// The first line.
#[derive(Serialize, Deserialize)]
struct Head {
    version: u32,
    /// The newest job format of the program that wrote it: what an older one couldn't read, this
    /// one perhaps can.
    format: u32,
    /// What tells the shelf from others.
    mark: Option<String>,
    /// Bytes of the cursor, which comes behind the head.
    cursor: usize,
}

/// What comes behind the cursor.
#[derive(Serialize, Deserialize)]
struct Known<Name, Says> {
    jobs: Vec<(Name, Says)>,
    unusable: Vec<(Name, Says)>,
    owed: Vec<Name>,
}

type Says = Result<Digest, String>;

impl Follower {
    /// What a follower knew; `None` where the cache is of another version or damaged, since it is only
    /// a cache. Whether it is of the same shelf is found out at the first look, which begins anew where
    /// it is of another: so a list can be shown before the shelf answers.
    #[must_use]
    pub fn from_cache(bytes: &[u8]) -> Option<Self> {
        let end = bytes.iter().position(|byte| *byte == b'\n')?;
        let head: Head = serde_json::from_slice(&bytes[..end]).ok()?;
        if (head.version, head.format) != (VERSION, FORMAT) {
            return None;
        }
        let (cursor, known) = bytes[end + 1..].split_at_checked(head.cursor)?;
        let known: Known<String, Says> = serde_json::from_slice(known).ok()?;
        let mark = match head.mark {
            Some(mark) => Some(Mark::read(&mark)?),
            None => None,
        };
        let job = |(name, says): (String, Says)| {
            let key = JobKey::new(&name).ok()?;
            let line = Arc::new(ShelfLine::job(&key, says));
            Some((key, line))
        };
        let unusable = |(name, says): (String, Says)| {
            let job = None;
            Arc::new(ShelfLine { name, job, says })
        };
        let jobs = known.jobs.into_iter().map(job);
        let owed = known.owed.iter().map(|name| JobKey::new(name).ok());
        Some(Self {
            mark,
            cursor: Cursor(cursor.to_owned()),
            jobs: jobs.collect::<Option<BTreeMap<_, _>>>()?,
            unusable: known.unusable.into_iter().map(unusable).collect(),
            owed: owed.collect::<Option<BTreeSet<_>>>()?,
            has_news: false,
        })
    }

    /// The bytes of a cache of what is known now; from here on only what comes later is news.
    #[must_use]
    pub fn to_cache(&mut self) -> Vec<u8> {
        self.has_news = false;
        let head = Head {
            version: VERSION,
            format: FORMAT,
            mark: self.mark.as_ref().map(|mark| mark.as_str().to_owned()),
            cursor: self.cursor.0.len(),
        };
        let known = Known {
            jobs: self.jobs.values().map(said).collect(),
            unusable: self.unusable.iter().map(said).collect(),
            owed: self.owed.iter().map(JobKey::as_str).collect(),
        };
        // Plain data always can be written; if it ever couldn't, no cache is the same as an empty one.
        let mut bytes = serde_json::to_vec(&head).unwrap_or_default();
        bytes.push(b'\n');
        bytes.extend(&self.cursor.0);
        bytes.extend(serde_json::to_vec(&known).unwrap_or_default());
        bytes
    }
}

fn said(line: &Arc<ShelfLine>) -> (&str, &Says) {
    (&line.name, &line.says)
}
