//! What lies in a shelf's folder and is none of its own.

use std::ffi::OsStr;

use super::files::stem;
use super::{Files, MARK_FILE};
use crate::disk::Kind;
use crate::names::{AttachmentName, JobKey, OURS_BESIDE};
use crate::shelf::doc::Doc;
use crate::shelf::error::{ShelfError, Step};

impl Files {
    /// Names, from the shelf's folder on, in their order; what stands among the jobs and can't be one is
    /// told as that.
    pub(in crate::shelf) fn strays(&self) -> Result<Vec<String>, ShelfError> {
        let root = self.root();
        let found = self.disk.list(root).map_err(self.step(Step::List, root))?;
        let mut strays = Vec::new();
        for found in &found {
            let name = found.name.to_string_lossy();
            let is_ours =
                name.to_lowercase().ends_with(".ron") || name == MARK_FILE || is_of_save(&name);
            if is_ours {
                continue;
            }
            match folder_of(&found.name).filter(|_| found.look.kind == Kind::Folder) {
                Some(doc) => self.strays_beside(&doc, &name, &mut strays)?,
                None => strays.push(name.into_owned()),
            }
        }
        strays.sort();
        Ok(strays)
    }

    fn strays_beside(
        &self,
        doc: &Doc,
        folder: &str,
        strays: &mut Vec<String>,
    ) -> Result<(), ShelfError> {
        let path = self.folder(doc);
        let found = self
            .disk
            .list(&path)
            .map_err(self.step(Step::List, &path))?;
        for found in &found {
            let name = found.name.to_string_lossy();
            let is_file = found.look.kind == Kind::File;
            let is_ours = OURS_BESIDE.contains(&name.as_ref()) || is_of_save(&name);
            // Beside the shop nothing is kept for anybody.
            let is_kept = matches!(doc, Doc::Job(_)) && AttachmentName::new(&name).is_ok();
            if !is_file || !(is_ours || is_kept) {
                strays.push(format!("{folder}/{name}"));
            }
        }
        Ok(())
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
            "old/26-0101.ron",
            "26-0101.files/mails/1.txt",
            "26-0101.files/con.pdf",
            "shop.files/logo.png",
        ] {
            put(other);
        }
        let named = [
            "26-0101.files/con.pdf",
            "26-0101.files/mails",
            "drawing.pdf",
            "old",
            "shop.files/logo.png",
        ];
        assert_eq!(shelf.strays(), Ok(named.map(str::to_owned).to_vec()));
    }
}
