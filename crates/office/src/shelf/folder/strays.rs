//! What lies in a shelf's folder and is none of its own.

use std::ffi::OsStr;

use super::files::stem;
use super::{COPY_FILE, Files, MARK_FILE};
use crate::disk::Kind;
use crate::names::{AttachmentName, JobKey, OURS_BESIDE};
use crate::shelf::doc::Doc;
use crate::shelf::error::{ShelfError, Step};

impl Files {
    /// Names, from the shelf's folder on, in their order.
    pub(in crate::shelf) fn strays(&self) -> Result<Vec<String>, ShelfError> {
        let root = self.root();
        let found = self.disk.list(root).map_err(self.step(Step::List, root))?;
        let mut strays = Vec::new();
        for found in &found {
            let name = found.name.to_string_lossy();
            // What stands among the jobs and can't be one is told as that.
            let is_job = !name.starts_with('.') && name.to_lowercase().ends_with(".ron");
            let is_ours = is_job || name == MARK_FILE || name == COPY_FILE || is_of_save(&name);
            if is_ours {
                continue;
            }
            match folder_of(&found.name).filter(|_| found.look.kind == Kind::Folder) {
                Some(doc) => self.strays_beside(&doc, &name, &mut strays),
                None => strays.push(name.into_owned()),
            }
        }
        strays.sort();
        Ok(strays)
    }

    fn strays_beside(&self, doc: &Doc, folder: &str, strays: &mut Vec<String>) {
        let Ok(found) = self.disk.list(&self.folder(doc)) else {
            strays.push(folder.to_owned());
            return;
        };
        // A name that is no text is none of a file that was ever kept; beside the shop nothing is.
        let is_kept = |name: &OsStr| {
            let name = name.to_str().filter(|_| matches!(doc, Doc::Job(_)));
            name.is_some_and(|name| AttachmentName::new(name).is_ok())
        };
        for found in &found {
            let name = found.name.to_string_lossy();
            let is_ours = OURS_BESIDE.contains(&name.as_ref()) || is_of_save(&name);
            if found.look.kind != Kind::File || !(is_ours || is_kept(&found.name)) {
                strays.push(format!("{folder}/{name}"));
            }
        }
    }
}

/// The document whose folder it is.
fn folder_of(name: &OsStr) -> Option<Doc> {
    let of = name.to_str()?.strip_suffix(".files")?;
    if of == stem(&Doc::Shop) {
        return Some(Doc::Shop);
    }
    JobKey::new(of).ok().map(Doc::Job)
}

/// What a save that was cut off leaves, or a lock.
fn is_of_save(name: &str) -> bool {
    let is_new = name.starts_with('.') && name.ends_with(".new");
    is_new || name.to_lowercase().ends_with(".lock")
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use crate::disk::RealDisk;
    use crate::shelf::{Folder, Mark, Shelf};

    #[test]
    fn what_is_none_of_the_shelfs_own_is_named_and_nothing_else() {
        let folder = tempfile::tempdir().unwrap();
        let shelf = Folder::new(Arc::new(RealDisk::default()), folder.path(), None);
        shelf.adopt(&Mark::of([1; 16])).unwrap();
        let put = |name: &str| {
            let path = folder.path().join(name);
            std::fs::create_dir_all(path.parent().unwrap()).unwrap();
            std::fs::write(path, "x").unwrap();
        };
        for ours in [
            "26-0101.ron",
            ".26-0101.ron.0.new",
            "no job: two points.ron",
            "26-0101.files/26-0101-Q1.pdf",
            "26-0101.files/previous.ron",
            "26-0101.files/saving.lock",
            "26-0101.files/.previous.ron.3.new",
            "shop.files/previous.ron",
            "shop.files/saving.lock",
        ] {
            put(ours);
        }
        assert_eq!(shelf.strays(), Ok(Vec::new()));
        for other in [
            "drawing.pdf",
            ".26-0102.ron",
            "old/26-0101.ron",
            "26-0101.files/mails/1.txt",
            "26-0101.files/con.pdf",
            "shop.files/logo.png",
        ] {
            put(other);
        }
        #[cfg(target_os = "linux")]
        {
            use std::os::unix::ffi::OsStrExt as _;
            let name = std::ffi::OsStr::from_bytes(b"26-0101.files/Pr\xfcfung.pdf");
            std::fs::write(folder.path().join(name), "x").unwrap();
        }
        let named = [
            ".26-0102.ron",
            "26-0101.files/Pr\u{fffd}fung.pdf",
            "26-0101.files/con.pdf",
            "26-0101.files/mails",
            "drawing.pdf",
            "old",
            "shop.files/logo.png",
        ];
        let is_there = |name: &&str| cfg!(target_os = "linux") || !name.contains('\u{fffd}');
        let named: Vec<String> = named
            .iter()
            .filter(|n| is_there(n))
            .map(|n| (*n).to_owned())
            .collect();
        assert_eq!(shelf.strays(), Ok(named));
    }
}
