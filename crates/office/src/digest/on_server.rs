//! Digests as a server keeps them beside its jobs.

use quillbore_job::file::read_job;

use super::cache::kind;
use super::of_job::Digest;
use crate::pool::may_teach;
use crate::shelf::server::{Digested, Digester};

/// What makes the digests of this program.
#[must_use]
pub fn digester() -> Digester {
    Digester {
        kind: kind(),
        of: digested,
    }
}

fn digested(content: &[u8]) -> Option<Digested> {
    let digest = Digest::of(&read_job(content).ok()?);
    let text = serde_json::to_string(&digest).ok()?;
    let summary = digest.summary;
    Some(Digested {
        text,
        customer: summary.customer,
        part: summary.part,
        drawing: summary.drawing,
        state: summary.state,
        opened: summary.opened,
        due: summary.due,
        has_records: may_teach(content),
    })
}
