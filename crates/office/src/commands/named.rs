//! The job that a command names: by its file, or by its number on the shelf that is named too.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::disk::{Disk, RealDisk};
use crate::failure::Failure;
use crate::files;
use crate::names::JobKey;
use crate::office::{Office, read};
use crate::places;
use crate::save::Opened;
use crate::shelf::folder::MARK_FILE;
use crate::shelf::{Folder, Loose, Shelf};

/// The machine's own disk, as commands use it.
pub(super) fn disk() -> Arc<dyn Disk> {
    Arc::new(RealDisk::default())
}

/// An office around the job that a word names, and the job as it stands.
///
/// # Errors
/// Where there is no such job, or shop or job can't be read.
pub(super) fn office_with(
    word: &str,
    shelf: Option<&Path>,
    shop: Option<&Path>,
) -> Result<(Office, Opened), Failure> {
    let disk = disk();
    let (shelf, root, key) = find(&disk, word, shelf)?;
    let shop = files::shop(disk.as_ref(), shop, Some(shelf.as_ref()))?;
    let opened = read(&shelf, &key)?;
    let office = Office {
        shelf,
        root,
        disk,
        shop: Arc::new(shop),
    };
    Ok((office, opened))
}

type Place = (Arc<dyn Shelf>, Option<PathBuf>, JobKey);

fn find(disk: &Arc<dyn Disk>, word: &str, shelf: Option<&Path>) -> Result<Place, Failure> {
    let path = Path::new(word);
    if let Ok(key) = JobKey::new(word)
        && !path.exists()
    {
        let root = shelf.map_or_else(places::usual_shelf, Path::to_owned);
        let shelf = Folder::new(Arc::clone(disk), &root, None);
        return Ok((Arc::new(shelf), Some(root), key));
    }
    // A link that somebody named is followed: what is read is the file, not the link.
    let real = std::fs::canonicalize(path)
        .map_err(|error| Failure::io("The file can't be read", &error, path))?;
    let loose = Loose::new(Arc::clone(disk), &real).map_err(|e| Failure::from(e).at(path))?;
    let key = loose.key().clone();
    let root = loose.root().to_owned();
    let is_named =
        shelf.is_some_and(|shelf| std::fs::canonicalize(shelf).is_ok_and(|shelf| shelf == root));
    let ends = real.extension().is_some_and(|end| end == "ron");
    if ends && (is_named || disk.look(&root.join(MARK_FILE)).is_ok()) {
        let shelf = Folder::new(Arc::clone(disk), &root, None);
        return Ok((Arc::new(shelf), Some(root), key));
    }
    Ok((Arc::new(loose), None, key))
}
