//! What was seen of a shelf last, kept in the user's own cache: to be looked at while the server is away.

use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

use super::put::named;
use crate::disk::{Disk, RealDisk};
use crate::shelf::doc::{Doc, Stored, Version};
use crate::shelf::folder::write_whole;

/// Documents that are kept; the oldest go first.
const MOST: usize = 300;

/// Documents as they were seen last.
#[derive(Debug)]
pub(super) struct Seen {
    folder: PathBuf,
    /// The shop's data are read again and again, and written only where they are others.
    shop: Mutex<Option<Version>>,
}

impl Seen {
    pub(super) fn in_folder(folder: &Path) -> Self {
        Self {
            folder: folder.to_owned(),
            shop: Mutex::default(),
        }
    }

    /// Keeps a document, readable for the user alone. It is only a cache, so what fails is passed over.
    pub(super) fn keep(&self, doc: &Doc, stored: &Stored) {
        if *doc == Doc::Shop {
            let mut shop = self.shop.lock().unwrap_or_else(PoisonError::into_inner);
            if shop.replace(stored.version) == Some(stored.version) {
                return;
            }
        }
        let disk: Arc<dyn Disk> = Arc::new(RealDisk::private());
        if std::fs::create_dir_all(&self.folder).is_ok() {
            let _ = write_whole(&disk, &self.path(doc), &stored.bytes);
            self.drop_oldest();
        }
    }

    /// A document as it was seen last.
    pub(super) fn last(&self, doc: &Doc) -> Option<Stored> {
        std::fs::read(self.path(doc)).ok().map(Stored::new)
    }

    fn path(&self, doc: &Doc) -> PathBuf {
        self.folder.join(format!("{}.ron", named(doc)))
    }

    fn drop_oldest(&self) {
        let kept = std::fs::read_dir(&self.folder).into_iter().flatten();
        let mut kept: Vec<_> = kept
            .flatten()
            .filter_map(|file| Some((file.metadata().ok()?.modified().ok()?, file.path())))
            .collect();
        kept.sort();
        for (_, path) in kept.iter().rev().skip(MOST) {
            let _ = std::fs::remove_file(path);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::names::JobKey;

    #[test]
    fn the_newest_that_were_seen_are_kept() {
        let folder = tempfile::tempdir().unwrap();
        let seen = Seen::in_folder(&folder.path().join("seen"));
        let job = |at: usize| Doc::Job(JobKey::new(&format!("26-{at:04}")).unwrap());
        assert_eq!(seen.last(&job(1)), None);
        for at in 0..MOST + 20 {
            seen.keep(&job(at), &Stored::new(format!("job {at}").into_bytes()));
        }
        let newest = seen.last(&job(MOST + 19)).unwrap();
        assert_eq!(newest.bytes, format!("job {}", MOST + 19).into_bytes());
        let kept = (0..MOST + 20).filter(|at| seen.last(&job(*at)).is_some());
        assert_eq!(kept.count(), MOST);
        for text in ["one", "two"] {
            seen.keep(&Doc::Shop, &Stored::new(text.into()));
            assert_eq!(seen.last(&Doc::Shop).unwrap().bytes, text.as_bytes());
        }
    }
}
