//! What desks do, at random.

mod faults;

use std::collections::{BTreeMap, BTreeSet};
use std::time::Duration;

use quillbore_office::names::AttachmentName;
use quillbore_office::shelf::{Attachment, Commit, Cursor, Doc, Held, Stored, Version};

use super::model::{Model, Outcome};
use crate::common::forms::{Form, beside, name, write};
use crate::common::random::Random;

/// What one desk knows of the shelf.
#[derive(Clone, Default)]
struct Desk {
    cursor: Cursor,
    knows: BTreeMap<Doc, Vec<u8>>,
}

/// A shelf with desks at it.
pub(crate) struct Play {
    form: Form,
    random: Random,
    model: Model,
    desks: Vec<Desk>,
    held: Vec<Held>,
    /// Versions that stood there once.
    stale: Vec<Version>,
    counts: BTreeMap<&'static str, usize>,
}

impl Play {
    pub(crate) fn new(form: Form, seed: u64) -> Self {
        Self {
            desks: vec![Desk::default(); form.desks.len()],
            form,
            random: Random::new(seed),
            model: Model::default(),
            held: Vec::new(),
            stale: vec![Version::of(b"never was")],
            counts: BTreeMap::new(),
        }
    }

    pub(crate) const fn counts(&self) -> &BTreeMap<&'static str, usize> {
        &self.counts
    }

    pub(crate) fn has_seen_everything(&self) {
        let mut all = vec![
            "attachment taken",
            "changed",
            "changes",
            "damaged cursor",
            "done",
            "elsewhere",
            "first cursor",
            "gone",
            "held",
            "highest",
            "lent cursor",
            "previous",
            "read",
            "read beside",
            "taken",
            "taken away",
        ];
        if self.form.take_beside.is_some() {
            all.push("taken from beside");
        }
        if self.form.disk.is_some() {
            all.extend(["fault", "fault that stopped it"]);
        }
        if self.form.disk.is_some() && !self.form.is_one_file() {
            all.push("half done");
        }
        let missing = all.iter().filter(|what| !self.counts.contains_key(**what));
        let missing: Vec<&&str> = missing.collect();
        assert!(missing.is_empty(), "{missing:?}: {:?}", self.counts);
    }

    fn count(&mut self, what: &'static str) {
        *self.counts.entry(what).or_default() += 1;
    }

    /// Does one thing.
    pub(crate) fn act(&mut self, at: usize) {
        let desk = self.random.below(self.desks.len());
        match self.random.below(100) {
            0..40 => self.commit(at, desk),
            40..55 => self.read(at, desk),
            55..63 => self.previous(at, desk),
            63..71 => self.read_beside(at, desk),
            71..84 => self.changes(at, desk),
            84..88 => self.highest(at, desk),
            88..95 => self.hold(at, desk),
            95..97 => self.let_go(),
            97 => self.take_beside(),
            _ => self.take_away(),
        }
    }

    fn any_doc(&mut self) -> Doc {
        self.random.pick(&self.form.docs).clone()
    }

    /// Few contents, so that the same comes up again; most have the same length.
    fn any_bytes(&mut self) -> Vec<u8> {
        let letter = b'a' + u8::try_from(self.random.below(5)).expect("a letter");
        let length = if self.random.one_in(8) {
            self.random.below(90)
        } else {
            12
        };
        vec![letter; length]
    }

    fn any_name(&mut self) -> AttachmentName {
        name(["a.pdf", "b.pdf", "ring 4-118.jpg"][self.random.below(3)])
    }

    /// Most often what stands there, sometimes what stood there, sometimes nothing.
    fn any_expected(&mut self, doc: &Doc) -> Option<Version> {
        match self.random.below(10) {
            0 => None,
            1 | 2 => Some(*self.random.pick(&self.stale)),
            _ => self.model.docs.get(doc).map(|now| Version::of(now)),
        }
    }

    fn any_commit(&mut self) -> Commit {
        let mut commit = Commit::default();
        for _ in 0..[1, 1, 1, 1, 2, 2, 3, 0][self.random.below(8)] {
            let doc = self.any_doc();
            // Twice the same document is refused; once in a while it is tried.
            let again = commit.documents.iter().any(|write| write.doc == doc);
            if again && !self.random.one_in(10) {
                continue;
            }
            let expected = self.any_expected(&doc);
            let bytes = self.any_bytes();
            commit.documents.push(write(&doc, &bytes, expected));
        }
        for _ in 0..[0, 0, 0, 1, 2][self.random.below(5)] {
            let jobs = self.form.jobs();
            let job = self.random.pick(&jobs).clone();
            let called = self.any_name();
            // One content for each name, mostly.
            let bytes = if self.random.one_in(10) {
                self.any_bytes()
            } else {
                called.as_str().as_bytes().to_vec()
            };
            let file: Attachment = beside(&job, called.as_str(), &bytes);
            commit.attachments.push(file);
        }
        commit
    }

    fn commit(&mut self, at: usize, desk: usize) {
        let commit = self.any_commit();
        let must = self.model.outcome(&commit);
        self.model.touch(&commit);
        if self.form.disk.is_some() && self.random.one_in(10) {
            self.commit_with_a_fault(at, desk, &commit, &must);
            return;
        }
        let said = self.form.desks[desk].commit(&commit);
        match said {
            Ok(committed) => {
                assert_eq!(must, Outcome::Done, "{at}: {commit:?}");
                let versions = commit.documents.iter();
                let versions: Vec<Version> = versions.map(|w| Version::of(&w.bytes)).collect();
                assert_eq!(committed.versions, versions, "{at}");
                assert!(committed.locked, "{at}");
                self.done(&commit);
            }
            Err(error) => {
                let said = Outcome::of(&error);
                assert_eq!(said, Some(must.clone()), "{at}: {commit:?}: {error}");
                self.count(match must {
                    Outcome::Changed(_) => "changed",
                    Outcome::Gone(_) => "gone",
                    Outcome::Taken(_) => "taken",
                    Outcome::AttachmentTaken(..) => "attachment taken",
                    Outcome::Done => "done",
                });
            }
        }
    }

    fn done(&mut self, commit: &Commit) {
        for write in &commit.documents {
            let now = self.model.docs.get(&write.doc);
            self.stale.extend(now.map(|now| Version::of(now)));
        }
        let few = self.stale.len().saturating_sub(20);
        self.stale.drain(..few);
        self.model.write(commit);
        self.count("done");
    }

    fn read(&mut self, at: usize, desk: usize) {
        let doc = self.any_doc();
        let stored = self.form.desks[desk].read(&doc).expect("it can be read");
        let now = self.model.docs.get(&doc).cloned().map(Stored::new);
        assert_eq!(stored, now, "{at}: {doc:?}");
        self.count("read");
    }

    fn previous(&mut self, at: usize, desk: usize) {
        let doc = self.any_doc();
        let stored = self.form.desks[desk]
            .previous(&doc)
            .expect("it can be read");
        let before = self.model.before.get(&doc).cloned().map(Stored::new);
        assert_eq!(stored, before, "{at}: {doc:?}");
        self.count("previous");
    }

    fn read_beside(&mut self, at: usize, desk: usize) {
        let jobs = self.form.jobs();
        let job = self.random.pick(&jobs).clone();
        let called = self.any_name();
        let shelf = &self.form.desks[desk];
        let there = shelf.attachment(&job, &called).expect("it can be read");
        let must = self.model.beside.get(&(job.clone(), called));
        assert_eq!(there.as_ref(), must, "{at}: {job}");
        let names = shelf.attachments(&job).expect("they can be listed");
        let must = self.model.beside.keys().filter(|(of, _)| *of == job);
        let must: Vec<AttachmentName> = must.map(|(_, name)| name.clone()).collect();
        assert_eq!(names, must, "{at}: {job}");
        self.count("read beside");
    }

    /// What is told must cover all that truly differs from what the desk knows.
    fn changes(&mut self, at: usize, desk: usize) {
        match self.random.below(20) {
            0 => {
                self.desks[desk] = Desk::default();
                self.count("first cursor");
            }
            // A cursor of another desk is as good, for what that one knows.
            1..5 => {
                let other = self.random.below(self.desks.len());
                self.desks[desk] = self.desks[other].clone();
                self.count("lent cursor");
            }
            5 => {
                let cursor = &mut self.desks[desk].cursor.0;
                if !cursor.is_empty() {
                    let spoiled = self.random.below(cursor.len());
                    cursor[spoiled] ^= 1 << self.random.below(8);
                    self.count("damaged cursor");
                }
            }
            _ => {}
        }
        let Desk { cursor, knows } = &self.desks[desk];
        let told = self.form.desks[desk].changes(cursor).expect("a list");
        let now = &self.model.docs;
        for (doc, bytes) in now {
            let known = knows.get(doc) == Some(bytes);
            assert!(known || told.there.contains(doc), "{at}: {doc:?}");
        }
        for doc in knows.keys().filter(|doc| !now.contains_key(*doc)) {
            assert!(told.all || told.gone.contains(doc), "{at}: {doc:?}");
        }
        let there: BTreeSet<&Doc> = told.there.iter().collect();
        assert_eq!(there.len(), told.there.len(), "{at}: none twice");
        assert!(there.iter().all(|doc| now.contains_key(*doc)), "{at}");
        assert!(told.gone.iter().all(|doc| !now.contains_key(doc)), "{at}");
        if told.all {
            assert!(there.iter().copied().eq(now.keys()), "{at}");
        }
        assert_eq!(told.unusable, [], "{at}");
        self.desks[desk] = Desk {
            cursor: told.cursor,
            knows: now.clone(),
        };
        self.count("changes");
    }

    /// No number that is taken may be given out again; one too high does no harm.
    fn highest(&mut self, at: usize, desk: usize) {
        for year in [25, 26] {
            let told = self.form.desks[desk]
                .highest_number(year)
                .expect("a number");
            let docs = self.model.docs.keys().filter_map(|doc| match doc {
                Doc::Job(job) => Some(job),
                Doc::Shop => None,
            });
            let taken = docs.chain(self.model.beside.keys().map(|(job, _)| job));
            let taken = taken.filter_map(|job| job.number_of(year)).max();
            let once = self.model.touched.iter();
            let once = once.filter_map(|job| job.number_of(year)).max();
            let own = self
                .form
                .is_one_file()
                .then_some(101)
                .filter(|_| year == 26);
            assert!(taken <= told && told <= once.max(own), "{at}: {told:?}");
        }
        self.count("highest");
    }

    fn hold(&mut self, at: usize, desk: usize) {
        let jobs = self.form.jobs();
        let job = self.random.pick(&jobs).clone();
        let held = self.form.desks[desk].hold(&job, &format!("desk {desk}"));
        self.model.touched.insert(job.clone());
        match (&held, self.model.holds.get(&job)) {
            (Held::Here(_), None) => {
                self.model.holds.insert(job, desk);
                self.held.push(held);
                self.count("held");
            }
            (Held::Elsewhere(by), Some(holder)) => {
                assert_eq!(*by, format!("desk {holder}"), "{at}");
                self.count("elsewhere");
            }
            other => panic!("{at}: {job}: {other:?}"),
        }
    }

    /// All desks close what they have open.
    fn let_go(&mut self) {
        self.held.clear();
        (self.form.settle)();
        self.model.holds.clear();
    }

    fn take_beside(&mut self) {
        let Some(take) = &self.form.take_beside else {
            return;
        };
        let there: Vec<_> = self.model.beside.keys().cloned().collect();
        if there.is_empty() {
            return;
        }
        let gone = self.random.pick(&there);
        take(&gone.0, &gone.1);
        self.model.beside.remove(gone);
        self.count("taken from beside");
    }

    fn take_away(&mut self) {
        let doc = self.any_doc();
        if self.model.docs.remove(&doc).is_none() {
            return;
        }
        (self.form.take_away)(&doc);
        if self.form.slow {
            // Hands are slower than the steps of a disk's clock.
            std::thread::sleep(Duration::from_millis(20));
        }
        self.count("taken away");
    }
}
