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
use crate::shelf_at::{ShelfAt, is_server, shelf_at};
use crate::words::start as words;

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
    let Place {
        shelf,
        root,
        key,
        is_loose,
        is_named: is_of_named,
    } = find(&disk, word, shelf)?;
    let is_named = shop.is_some();
    // Records of the shelf that somebody names count for a job from elsewhere, too; its shop where that
    // job lies on no shelf.
    let named = match named {
        // It is open already, and its password was given.
        Some(_) if is_of_named => Some(Arc::clone(&shelf)),
        Some(named) => Some(at_shelf(&disk, named)?.shelf),
        None => None,
    };
    let of_shop = named.as_ref().filter(|_| is_loose).unwrap_or(&shelf);
    let shop = files::shop(disk.as_ref(), shop, Some(of_shop.as_ref()))?;
    let opened = read(&shelf, &key)?;
    let mut office = Office::new(shelf, root, Arc::clone(&disk), Arc::new(shop));
    if is_named {
        office = office.with_named_shop();
    }
    if let Some(named) = named {
        office.teaches = named;
    }
    office.look_at_records()?;
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

/// The shelf at a place; a password that nothing says is asked at the terminal.
///
/// # Errors
/// Where it is no address that can be read.
pub(super) fn at(disk: &Arc<dyn Disk>, place: &Path) -> Result<ShelfAt, Failure> {
    let at = shelf_at(disk, place, None, &places::desk_name(""))?;
    #[cfg(feature = "server")]
    super::password::ask_where_needed(&at)?;
    Ok(at)
}

/// As [`at`], of a shelf that is there: in an empty database nothing is looked for.
///
/// # Errors
/// Where it is no address that can be read, or nobody made a shelf there.
pub(super) fn at_shelf(disk: &Arc<dyn Disk>, place: &Path) -> Result<ShelfAt, Failure> {
    let at = at(disk, place)?;
    if is_server(place) && at.shelf.mark()?.is_none() {
        return Err(words::none_on_server(&at.shelf.place()));
    }
    Ok(at)
}

/// Where a job is.
struct Place {
    shelf: Arc<dyn Shelf>,
    /// The folder of the shelf, where it is one.
    root: Option<PathBuf>,
    key: JobKey,
    /// It lies on no shelf.
    is_loose: bool,
    /// The shelf is the one that was named.
    is_named: bool,
}

fn find(disk: &Arc<dyn Disk>, word: &OsStr, shelf: Option<&Path>) -> Result<Place, Failure> {
    let path = Path::new(word);
    // A number is one on the shelf, whatever happens to have that name where the command is run.
    let is_file = path.extension().is_some_and(|end| end == "ron") && path.exists();
    if let Some(Ok(key)) = word.to_str().map(JobKey::new)
        && !is_file
    {
        let place = match shelf {
            Some(shelf) => shelf.to_owned(),
            None => places::usual_shelf()?,
        };
        let at = at_shelf(disk, &place)?;
        return Ok(Place {
            shelf: at.shelf,
            root: at.root,
            key,
            is_loose: false,
            is_named: shelf.is_some(),
        });
    }
    // What is read is the file that a link leads to, not the link.
    let real = files::followed(path)?;
    let folder = shelf.filter(|place| !is_server(place));
    let (alone, around) =
        around(disk, &real, folder).map_err(|error| Failure::from(error).at(path))?;
    let (key, root) = (alone.key().clone(), alone.root().to_owned());
    Ok(match around {
        Around::Shelf | Around::Marked => Place {
            shelf: Arc::new(Folder::new(Arc::clone(disk), &root, None)),
            root: Some(root),
            key,
            is_loose: false,
            is_named: false,
        },
        Around::Plain => Place {
            shelf: Arc::new(alone),
            root: None,
            key,
            is_loose: true,
            is_named: false,
        },
    })
}
