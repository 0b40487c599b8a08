//! One slip as it is pinned to a sheet.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::lists::{Line, SlipKind};
use crate::typed::entry::Entry;
use crate::typed::field::Value;

/// One slip; its identity is never used again in this job.
#[derive(Clone, Debug, PartialEq)]
pub struct Slip {
    /// Identity in this job.
    pub id: u32,
    /// What it is.
    pub kind: SlipKind,
    /// What was typed; a line that is not here is empty.
    pub lines: Arc<BTreeMap<Line, Entry<Value>>>,
}

impl Slip {
    /// What was typed in a line.
    #[must_use]
    pub fn line(&self, line: Line) -> &Entry<Value> {
        self.lines.get(&line).unwrap_or(&Entry::EMPTY)
    }

    /// Whether a line can't be read.
    #[must_use]
    pub fn is_unread(&self) -> bool {
        self.lines.values().any(|entry| entry.why().is_some())
    }
}
