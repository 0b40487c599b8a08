//! The three versions that a merge reads.

use crate::job::Job;

/// The job as it was opened here, and what each desk made of it.
pub(super) struct Three {
    pub(super) base: Job,
    pub(super) ours: Job,
    pub(super) theirs: Job,
}

impl Three {
    /// The same part of each of them.
    pub(super) fn each<'a, T: ?Sized>(&'a self, part: impl Fn(&'a Job) -> &'a T) -> [&'a T; 3] {
        [part(&self.base), part(&self.ours), part(&self.theirs)]
    }
}
