//! Papers printed in place of others: all of them or none, whatever step fails.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use quillbore_job::Paper;
use quillbore_office::disk::Disk;
use quillbore_office::print::{Printed, write};

use crate::common::memory_disk::{Fault, MemoryDisk, Node};

const PAPERS: [Paper; 3] = [Paper::Quotation, Paper::Confirmation, Paper::Traveler];

/// A folder in which two of three papers stand in an older version.
struct Scene {
    disk: MemoryDisk,
    folder: PathBuf,
}

impl Scene {
    fn new(folder: &Path, one_name: bool) -> Self {
        let disk = MemoryDisk::with_folder(folder);
        let disk = if one_name { disk.with_one_name() } else { disk };
        let scene = Self {
            disk,
            folder: folder.to_owned(),
        };
        for paper in [Paper::Quotation, Paper::Traveler] {
            scene.disk.put_file(&scene.path(paper), &old(paper));
        }
        scene
    }

    fn path(&self, paper: Paper) -> PathBuf {
        self.folder.join(format!("26-0101-{}.pdf", paper.key()))
    }

    fn printed(&self) -> Result<Vec<PathBuf>, String> {
        let printed = PAPERS.map(|paper| Printed {
            name: paper.key(),
            ending: "pdf",
            bytes: new(paper),
            unprintable: Vec::new(),
        });
        let disk: Arc<dyn Disk> = Arc::new(self.disk.clone());
        write(&disk, &printed, &self.folder, "26-0101", true).map_err(|not| not.to_string())
    }

    fn stands(&self, is_new: bool) -> bool {
        PAPERS.iter().all(|paper| {
            let there = self.disk.file(&self.path(*paper));
            match (is_new, paper) {
                (true, _) => there == Some(new(*paper)),
                (false, Paper::Confirmation) => there.is_none(),
                (false, _) => there == Some(old(*paper)),
            }
        })
    }

    /// What is there beside the papers.
    fn left(&self) -> Vec<PathBuf> {
        let names = self.disk.names().into_iter();
        let others = names
            .filter(|name| *name != self.folder && !PAPERS.iter().any(|p| self.path(*p) == *name));
        others.collect()
    }
}

fn old(paper: Paper) -> Vec<u8> {
    format!("%PDF {} of yesterday, and longer than today's", paper.key()).into_bytes()
}

fn new(paper: Paper) -> Vec<u8> {
    format!("%PDF {}", paper.key()).into_bytes()
}

#[test]
fn papers_are_replaced_all_or_none_whatever_step_fails() {
    let folder = tempfile::tempdir().expect("a folder");
    for one_name in [false, true] {
        let well = Scene::new(folder.path(), one_name);
        let before = well.disk.steps();
        well.printed().expect("printed");
        assert!(well.stands(true) && well.left().is_empty());
        let steps = well.disk.steps() - before;
        assert!(steps > 12, "{steps}");
        let mut failed = 0;
        for step in 0..steps {
            for fault in Fault::all() {
                if matches!(fault, Fault::Dead { .. }) {
                    continue;
                }
                let scene = Scene::new(folder.path(), one_name);
                scene.disk.break_at(step, fault);
                let printed = scene.printed();
                assert!(scene.disk.mend(), "step {step} was never reached");
                match printed {
                    Ok(_) => {
                        assert!(scene.stands(true), "{step} {fault:?}");
                        assert!(scene.left().len() <= 1, "{step} {fault:?}");
                    }
                    Err(said) => {
                        failed += 1;
                        assert!(scene.stands(false), "{step} {fault:?}: {said}");
                        assert_eq!(scene.left(), [""; 0].map(PathBuf::from), "{step} {fault:?}");
                    }
                }
            }
        }
        assert!(failed > 100, "{failed}");
    }
}

#[test]
fn where_nothing_can_be_put_back_it_is_told_which_are_new_and_which_are_old() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut told = 0;
    for step in 0..40 {
        let scene = Scene::new(folder.path(), false);
        scene.disk.break_at(step, Fault::Dead { short: 0 });
        let Err(said) = scene.printed() else { continue };
        let is_new = |paper: &Paper| scene.disk.file(&scene.path(*paper)) == Some(new(*paper));
        let Some((_, after)) = said.split_once("new are ") else {
            assert!(scene.stands(false), "{step}: {said}");
            continue;
        };
        told += 1;
        let (new, rest) = after.split_once(';').expect("more is said");
        let old = rest.split_once("as before are ").map_or("", |(_, old)| old);
        let old = old.split(';').next().expect("a part");
        for paper in &PAPERS {
            let name = format!("26-0101-{}.pdf", paper.key());
            assert_eq!(new.contains(&name), is_new(paper), "{step}: {said}");
            assert_eq!(old.contains(&name), !is_new(paper), "{step}: {said}");
        }
        // What stood there is not lost.
        let kept = scene.left();
        let kept = kept.iter().filter_map(|path| scene.disk.file(path));
        let kept: Vec<Vec<u8>> = kept.collect();
        assert!(kept.contains(&old_of(&scene, new)), "{step}: {said}");
    }
    assert!(told >= 3, "{told}");
}

/// What the first paper that is new was before.
fn old_of(scene: &Scene, new: &str) -> Vec<u8> {
    let paper = PAPERS.iter().find(|paper| new.contains(paper.key()));
    let paper = *paper.expect("a paper");
    assert!(scene.disk.file(&scene.path(paper)).is_some());
    old(paper)
}

#[test]
fn a_link_or_a_folder_under_the_name_of_one_paper_keeps_all_as_they_are() {
    let folder = tempfile::tempdir().expect("a folder");
    for node in [Node::Link, Node::Folder, Node::Other] {
        let scene = Scene::new(folder.path(), false);
        scene.disk.put(&scene.path(Paper::Traveler), node.clone());
        let said = scene.printed().expect_err("something is in the way");
        assert!(said.contains("26-0101-traveler.pdf"), "{said}");
        assert_eq!(scene.disk.node(&scene.path(Paper::Traveler)), Some(node));
        let quotation = scene.disk.file(&scene.path(Paper::Quotation));
        assert_eq!(quotation, Some(old(Paper::Quotation)));
        assert!(scene.left().is_empty());
    }
}
