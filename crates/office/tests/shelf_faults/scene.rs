//! What is written in these tests, and onto what.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use quillbore_office::shelf::{Commit, Doc, Folder, Shelf, Version};

use crate::common::forms::{ROOT, beside, file_of, job, key, mark, name, start, write};
use crate::common::memory_disk::{MemoryDisk, Node};

pub(crate) const OLD: &[u8] = b"the old content";
pub(crate) const NEW: &[u8] = b"the new content, which is longer and says that a.pdf is there";

/// A commit onto a shelf.
pub(crate) struct Scene {
    pub(crate) what: &'static str,
    pub(crate) disk: MemoryDisk,
    pub(crate) commit: Commit,
}

/// One job over an old one.
pub(crate) fn over_an_old_one(disk: MemoryDisk) -> Scene {
    let shelf = shelf(&disk);
    let older = start(&shelf, &job("26-0101"), b"an older one");
    let one = Commit::one(job("26-0101"), OLD.to_vec(), Some(older));
    shelf.commit(&one).expect("the old one");
    Scene {
        what: "over an old one",
        commit: Commit::one(job("26-0101"), NEW.to_vec(), Some(Version::of(OLD))),
        disk,
    }
}

/// A new job.
pub(crate) fn a_new_one(disk: MemoryDisk) -> Scene {
    drop(shelf(&disk));
    Scene {
        what: "a new one",
        commit: Commit::one(job("26-0101"), NEW.to_vec(), None),
        disk,
    }
}

/// A job over an old one, the shop's data over old ones, and a file beside each of two jobs.
pub(crate) fn two_with_files(disk: MemoryDisk) -> Scene {
    let shelf = shelf(&disk);
    start(&shelf, &job("26-0101"), OLD);
    start(&shelf, &Doc::Shop, OLD);
    Scene {
        what: "two with files",
        commit: Commit {
            attachments: vec![
                beside(&key("26-0101"), "a.pdf", b"%PDF a"),
                beside(&key("26-0102"), "b.pdf", b"%PDF b"),
            ],
            documents: vec![
                write(&job("26-0101"), NEW, Some(Version::of(OLD))),
                write(&Doc::Shop, NEW, Some(Version::of(OLD))),
            ],
        },
        disk,
    }
}

/// A job over an old one, and two new ones, one of them with a file.
pub(crate) fn old_and_new_ones(disk: MemoryDisk) -> Scene {
    let shelf = shelf(&disk);
    start(&shelf, &job("26-0101"), OLD);
    Scene {
        what: "old and new ones",
        commit: Commit {
            attachments: vec![beside(&key("26-0103"), "a.pdf", b"%PDF a")],
            documents: vec![
                write(&job("26-0102"), NEW, None),
                write(&job("26-0101"), NEW, Some(Version::of(OLD))),
                write(&job("26-0103"), NEW, None),
            ],
        },
        disk,
    }
}

pub(crate) const SCENES: &[fn(MemoryDisk) -> Scene] =
    &[over_an_old_one, a_new_one, two_with_files, old_and_new_ones];

/// Does the same with every scene, on a disk and on a memory stick.
pub(crate) fn each(mut test: impl FnMut(&dyn Fn() -> Scene, bool)) {
    for stick in [false, true] {
        for scene in SCENES {
            let make = || {
                let disk = MemoryDisk::with_folder(Path::new(ROOT));
                let disk = if stick { disk.with_one_name() } else { disk };
                scene(disk)
            };
            println!("{}{}", make().what, if stick { ", on a stick" } else { "" });
            test(&make, stick);
        }
    }
}

/// A desk at the shelf, which has a mark.
pub(crate) fn shelf(disk: &MemoryDisk) -> Arc<dyn Shelf> {
    let shelf: Arc<dyn Shelf> =
        Arc::new(Folder::new(Arc::new(disk.clone()), Path::new(ROOT), None));
    shelf.adopt(&mark(1)).expect("a mark");
    shelf
}

/// What stands on the disk.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Standing {
    /// Of each document of the commit.
    pub(crate) docs: Vec<Option<Vec<u8>>>,
    /// Of each document of the commit, the version before.
    pub(crate) before: Vec<Option<Vec<u8>>>,
    /// Of each file of the commit.
    pub(crate) beside: Vec<Option<Vec<u8>>>,
}

impl Scene {
    pub(crate) fn standing(&self) -> Standing {
        let root = Path::new(ROOT);
        let docs = self.commit.documents.iter().map(|write| &write.doc);
        let before = |doc: &Doc| {
            let folder = file_of(root, doc).with_extension("files");
            self.disk.file(&folder.join("previous.ron"))
        };
        Standing {
            docs: docs
                .clone()
                .map(|doc| self.disk.file(&file_of(root, doc)))
                .collect(),
            before: docs.map(before).collect(),
            beside: self
                .commit
                .attachments
                .iter()
                .map(|file| {
                    let folder = root.join(format!("{}.files", file.job));
                    self.disk.file(&folder.join(file.name.as_str()))
                })
                .collect(),
        }
    }

    /// What must stand on the disk when the commit is done.
    pub(crate) fn done(&self, old: &Standing) -> Standing {
        let before = old.docs.iter().zip(&old.before);
        Standing {
            docs: self
                .commit
                .documents
                .iter()
                .map(|w| Some(w.bytes.clone()))
                .collect(),
            before: before
                .map(|(was, before)| was.clone().or(before.clone()))
                .collect(),
            beside: self
                .commit
                .attachments
                .iter()
                .map(|f| Some(f.bytes.clone()))
                .collect(),
        }
    }

    /// Every name that may be on the disk, beside files that a cut-off write left.
    pub(crate) fn names_allowed(&self) -> BTreeSet<PathBuf> {
        let root = Path::new(ROOT);
        let mut names: BTreeSet<PathBuf> = [root.to_owned()].into();
        names.insert(root.join(quillbore_office::shelf::folder::MARK_FILE));
        let docs = self.commit.documents.iter().map(|write| write.doc.clone());
        let jobs = self.commit.attachments.iter();
        for doc in docs.chain(jobs.map(|file| Doc::Job(file.job.clone()))) {
            let file = file_of(root, &doc);
            let folder = file.with_extension("files");
            names.insert(folder.join("previous.ron"));
            names.insert(folder.join("saving.lock"));
            names.extend([file, folder]);
        }
        for file in &self.commit.attachments {
            let folder = root.join(format!("{}.files", file.job));
            names.insert(folder.join(name(file.name.as_str()).as_str()));
        }
        names
    }

    /// Names that a write which was cut off left, and no other reason.
    pub(crate) fn left_behind(&self) -> Vec<PathBuf> {
        let allowed = self.names_allowed();
        let others = self.disk.names().into_iter();
        let others: Vec<PathBuf> = others.filter(|name| !allowed.contains(name)).collect();
        for name in &others {
            let shown = name.file_name().expect("a name").to_string_lossy();
            let cut_off = shown.starts_with('.') && shown.ends_with(".new");
            assert!(cut_off, "{} is left", name.display());
            assert!(matches!(self.disk.node(name), Some(Node::File { .. })));
        }
        others
    }
}
