//! What papers are called.

use quillbore_job::words::slips;

use crate::words::customer::Papers;

/// What they are called in English: the job calls them so, too.
pub(super) const WORDS: Papers = Papers { name: slips::paper };
