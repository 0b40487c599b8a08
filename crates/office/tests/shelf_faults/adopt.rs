//! Giving a folder its mark, on a disk that fails.

use std::path::Path;
use std::sync::Arc;

use quillbore_office::shelf::folder::MARK_FILE;
use quillbore_office::shelf::{Folder, Shelf};

use crate::common::forms::{ROOT, job, mark, put};
use crate::common::memory_disk::{Fault, MemoryDisk};

fn desk(disk: &MemoryDisk) -> Arc<dyn Shelf> {
    Arc::new(Folder::new(Arc::new(disk.clone()), Path::new(ROOT), None))
}

#[test]
fn a_folder_has_the_whole_mark_or_none_whatever_step_fails() {
    for stick in [false, true] {
        for at in 0..12 {
            for fault in Fault::all() {
                let disk = MemoryDisk::with_folder(Path::new(ROOT));
                let disk = if stick { disk.with_one_name() } else { disk };
                disk.break_at(at, fault);
                let said = desk(&disk).adopt(&mark(1));
                let hit = disk.mend();
                let path = Path::new(ROOT).join(MARK_FILE);
                let dead = matches!(fault, Fault::Dead { .. });
                match disk.file(&path) {
                    None => assert!(said.is_err()),
                    Some(empty) if empty.is_empty() => {
                        assert!(stick && dead && said.is_err());
                        disk.take(&path);
                    }
                    Some(_) => assert_eq!(desk(&disk).mark(), Ok(Some(mark(1)))),
                }
                assert!(hit || said.is_ok());
                // Once the disk is well again it is a shelf.
                let shelf = desk(&disk);
                shelf.adopt(&mark(2)).expect("a mark");
                put(&shelf, &job("26-0101"), b"a job", None).expect("saved");
            }
        }
    }
}

#[test]
fn a_mark_outlives_a_power_cut() {
    let disk = MemoryDisk::with_folder(Path::new(ROOT));
    desk(&disk).adopt(&mark(1)).expect("a mark");
    disk.cut_power(|_, _| false);
    assert_eq!(desk(&disk).mark(), Ok(Some(mark(1))));
}
