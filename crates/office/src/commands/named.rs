//! The job that a command names: by its file, or by its number on the shelf that is named too.

use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use quillbore_job::Shop;

use crate::disk::{Disk, RealDisk};
use crate::failure::Failure;
use crate::files;
use crate::names::JobKey;
use crate::office::{Around, Office, around, read};
use crate::places;
use crate::save::Opened;
use crate::shelf::{Folder, Shelf};

/// The machine's own disk, as commands use it.
pub(super) fn disk() -> Arc<dyn Disk> {
    Arc::new(RealDisk::default())
}

/// An office around the job that a word names, and the job as it stands.
///
/// # Errors
/// Where there is no such job, or shop or job can't be read.
pub(super) fn office_with(
    word: &OsStr,
    shelf: Option<&Path>,
    shop: Option<&Path>,
) -> Result<(Office, Opened), Failure> {
    let disk = disk();
    let named = shelf;
    let (shelf, root, key) = find(&disk, word, shelf)?;
    let is_named = shop.is_some();
    // Records of the shelf that somebody names count for a job from elsewhere, too; its shop where that
    // job lies on no shelf.
    let named: Option<Arc<dyn Shelf>> = named
        .map(|named| -> Arc<dyn Shelf> { Arc::new(Folder::new(Arc::clone(&disk), named, None)) });
    let of_shop = named.as_ref().filter(|_| root.is_none()).unwrap_or(&shelf);
    let shop = files::shop(disk.as_ref(), shop, Some(of_shop.as_ref()))?;
    let opened = read(&shelf, &key)?;
    let mut office = Office::new(shelf, root, Arc::clone(&disk), Arc::new(shop));
    if is_named {
        office = office.with_named_shop();
    }
    if let Some(named) = named {
        office.teaches = named;
    }
    Ok((office, opened))
}

/// The shop of the shelf in whose folder a new job is to lie; the samples where it is none.
///
/// # Errors
/// Where the shop's file can't be read.
pub(super) fn shop_around(disk: &Arc<dyn Disk>, job: &Path) -> Result<Shop, Failure> {
    let folder = match job.parent() {
        Some(folder) if folder != Path::new("") => folder,
        _ => Path::new("."),
    };
    let shelf = Folder::new(Arc::clone(disk), folder, None);
    let is_shelf = matches!(shelf.mark(), Ok(Some(_)));
    files::shop(
        disk.as_ref(),
        None,
        is_shelf.then_some(&shelf as &dyn Shelf),
    )
}

type Place = (Arc<dyn Shelf>, Option<PathBuf>, JobKey);

fn find(disk: &Arc<dyn Disk>, word: &OsStr, shelf: Option<&Path>) -> Result<Place, Failure> {
    let path = Path::new(word);
    // A number is one on the shelf, whatever happens to have that name where the command is run.
    let is_file = path.extension().is_some_and(|end| end == "ron") && path.exists();
    if let Some(Ok(key)) = word.to_str().map(JobKey::new)
        && !is_file
    {
        let root = match shelf {
            Some(shelf) => shelf.to_owned(),
            None => places::usual_shelf()?,
        };
        let shelf = Folder::new(Arc::clone(disk), &root, None);
        return Ok((Arc::new(shelf), Some(root), key));
    }
    // What is read is the file that a link leads to, not the link.
    let real = files::followed(path)?;
    let (alone, around) =
        around(disk, &real, shelf).map_err(|error| Failure::from(error).at(path))?;
    let (key, root) = (alone.key().clone(), alone.root().to_owned());
    Ok(match around {
        Around::Shelf | Around::Marked => {
            let shelf = Folder::new(Arc::clone(disk), &root, None);
            (Arc::new(shelf), Some(root), key)
        }
        Around::Plain => (Arc::new(alone), None, key),
    })
}
