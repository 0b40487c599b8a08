//! A commit on a disk that fails once meanwhile.

use std::io::ErrorKind;

use quillbore_office::shelf::{Commit, CommitError, Stored};

use super::{Outcome, Play};
use crate::common::memory_disk::Fault;

impl Play {
    /// One step of the commit fails: each document is the old or the new one, whole, the first ones
    /// before the later ones; no file lies beside a job that was not there, unless it is all done.
    pub(super) fn commit_with_a_fault(
        &mut self,
        at: usize,
        desk: usize,
        commit: &Commit,
        must: &Outcome,
    ) {
        let disk = self.form.disk.clone().expect("a disk");
        let kinds = [
            ErrorKind::StorageFull,
            ErrorKind::PermissionDenied,
            ErrorKind::Interrupted,
        ];
        let fault = Fault::Once {
            short: self.random.below(20),
            kind: *self.random.pick(&kinds),
        };
        disk.break_at(self.random.below(40), fault);
        let said = self.form.desks[desk].commit(commit);
        if !disk.mend() {
            // The commit was over before that step.
            let same = said
                .as_ref()
                .map_or_else(Outcome::of, |_| Some(Outcome::Done));
            assert_eq!(same.as_ref(), Some(must), "{at}: {commit:?}");
            if said.is_ok() {
                self.done(commit);
            }
            return;
        }
        self.count("fault");
        let half = matches!(said, Err(CommitError::HalfDone { .. }));
        let all = matches!(said, Ok(_) | Err(CommitError::NotSettled { .. }));
        let why = format!("{at}: {said:?}");
        let new = self.check_documents(desk, commit, &why);
        if all {
            assert!(
                new == commit.documents.len() && *must == Outcome::Done,
                "{why}"
            );
        } else if half {
            assert!(0 < new && new < commit.documents.len(), "{why}");
            self.count("half done");
        } else {
            self.count("fault that stopped it");
        }
        self.check_beside(desk, commit, all || half, &why);
    }

    /// That each document is the old or the new one, and takes over which it is; how many are new,
    /// the first ones before the later ones.
    fn check_documents(&mut self, desk: usize, commit: &Commit, why: &str) -> usize {
        let shelf = &self.form.desks[desk];
        let mut new = 0;
        for (nth, write) in commit.documents.iter().enumerate() {
            let doc = &write.doc;
            let bytes = |stored: Option<Stored>| stored.map(|stored| stored.bytes);
            let now = bytes(shelf.read(doc).expect("it can be read"));
            let before = bytes(shelf.previous(doc).expect("it can be read"));
            let was = self.model.docs.get(doc).cloned();
            let is_same = was.as_ref() == Some(&write.bytes);
            let is_new = now.as_ref() == Some(&write.bytes);
            assert!(is_new || now == was, "{why}");
            if is_new && !is_same {
                assert!(new == nth, "{why}");
            }
            new += usize::from(is_new);
            // The version before is kept before the new one stands there.
            let kept = before.as_ref() == self.model.before.get(doc);
            assert!(kept || before == was, "{why}");
            if is_new && !is_same && was.is_some() {
                assert_eq!(before, was, "{why}");
            }
            self.model.docs.extend(now.map(|now| (doc.clone(), now)));
            self.model
                .before
                .extend(before.map(|before| (doc.clone(), before)));
        }
        new
    }

    /// That all files of the commit lie beside their jobs, or none that did not before.
    fn check_beside(&mut self, desk: usize, commit: &Commit, all: bool, why: &str) {
        for file in &commit.attachments {
            let named = (file.job.clone(), file.name.clone());
            if all {
                self.model.beside.insert(named.clone(), file.bytes.clone());
            }
            let there = self.form.desks[desk].attachment(&file.job, &file.name);
            let there = there.expect("it can be read");
            assert_eq!(there.as_ref(), self.model.beside.get(&named), "{why}");
        }
    }
}
