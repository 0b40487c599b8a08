//! A shelf at the start of a day: found, made anew with the demo jobs, or waiting for a yes.

use std::path::Path;
use std::sync::Arc;
use std::sync::mpsc::channel;
use std::time::Duration;

use crate::disk::{Disk, Kind};
use crate::failure::Failure;
use crate::names::JobKey;
use crate::places;
use crate::shelf::{Commit, Doc, Folder, Mark, Shelf, ShelfError};
use crate::words::start as words;

/// The demo jobs of the sample shelf.
pub const DEMO_JOBS: &[(&str, &str)] = &[
    ("25-0388", include_str!("../../../demo-jobs/25-0388.ron")),
    ("26-0021", include_str!("../../../demo-jobs/26-0021.ron")),
    ("26-0048", include_str!("../../../demo-jobs/26-0048.ron")),
    ("26-0079", include_str!("../../../demo-jobs/26-0079.ron")),
    ("26-0101", include_str!("../../../demo-jobs/26-0101.ron")),
    ("26-0102", include_str!("../../../demo-jobs/26-0102.ron")),
    ("26-0103", include_str!("../../../demo-jobs/26-0103.ron")),
    ("26-0104", include_str!("../../../demo-jobs/26-0104.ron")),
    ("26-0105", include_str!("../../../demo-jobs/26-0105.ron")),
    ("26-0106", include_str!("../../../demo-jobs/26-0106.ron")),
];

/// The shop of the sample shelf, which says itself that it is the invented one: its papers may leave.
pub const DEMO_SHOP: &str = include_str!("../../../assets/sample-shelf/shop.ron");

/// How long a window waits for a server before it opens with what was seen last.
const WINDOW_WAITS: Duration = Duration::from_secs(3);

/// How a shelf was found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Standing {
    /// It is one.
    Ready,
    /// It was made just now.
    New,
    /// A folder that nobody said yet is a shelf, with so many jobs in it: that is asked.
    NotMarked(usize),
    /// A server that was seen before and gives no answer, in words: what was known of it is shown.
    Away(String),
}

/// What a shelf gets that is made anew.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Begins {
    /// Nothing: it is somebody's own.
    Empty,
    /// The demo jobs: it is the sample shelf.
    WithDemoJobs,
}

/// The shelf in a folder; `known` is the mark that it had before, where somebody knows that. A folder
/// that is not there is made.
///
/// # Errors
/// Where the folder can't be made, or a shelf that was there has vanished.
pub fn open(
    disk: &Arc<dyn Disk>,
    root: &Path,
    known: Option<Mark>,
    begins: Begins,
) -> Result<(Arc<Folder>, Standing), Failure> {
    let was_known = known.is_some();
    let shelf = Arc::new(Folder::new(Arc::clone(disk), root, known));
    if !root.is_dir() {
        if was_known {
            return Err(words::vanished(root));
        }
        std::fs::create_dir_all(root).map_err(|error| words::not_made(&error, root))?;
        shelf.adopt(&places::new_mark()?)?;
        if begins == Begins::WithDemoJobs {
            put_demo_jobs(shelf.as_ref())?;
        }
        return Ok((shelf, Standing::New));
    }
    if shelf.mark()?.is_some() {
        return Ok((shelf, Standing::Ready));
    }
    if was_known {
        return Err(words::vanished(root));
    }
    let jobs = disk.list(root);
    let jobs = jobs.map_err(|error| words::not_listed(&error, root))?;
    let is_job = |name: &str| {
        name.strip_suffix(".ron")
            .is_some_and(|s| JobKey::new(s).is_ok())
    };
    let jobs = jobs
        .iter()
        .filter(|found| found.look.kind == Kind::File && found.name.to_str().is_some_and(is_job));
    let standing = Standing::NotMarked(jobs.count());
    Ok((shelf, standing))
}

/// The shelf on a server, as it stands; `was_known` where it was used here before: then nobody waits long
/// for a server that says nothing, since what was seen of it last can be shown meanwhile.
///
/// # Errors
/// Where nobody made a shelf there, or it can't be used and was never seen.
pub fn open_on_server(shelf: &Arc<dyn Shelf>, was_known: bool) -> Result<Standing, Failure> {
    let mark = match was_known {
        true => mark_soon(shelf),
        false => shelf.mark(),
    };
    match mark {
        Ok(Some(_)) => Ok(Standing::Ready),
        Ok(None) => Err(words::none_on_server(&shelf.place())),
        // Somebody may give it in the window.
        Err(error @ ShelfError::NoEntry { .. }) => Ok(Standing::Away(error.to_string())),
        Err(error @ ShelfError::NoServer { .. }) if was_known => {
            Ok(Standing::Away(error.to_string()))
        }
        Err(error) => Err(error.into()),
    }
}

/// The mark, unless the shelf takes longer than somebody waits for a window.
fn mark_soon(shelf: &Arc<dyn Shelf>) -> Result<Option<Mark>, ShelfError> {
    let (tell, told) = channel();
    let asked = Arc::clone(shelf);
    std::thread::spawn(move || tell.send(asked.mark()));
    told.recv_timeout(WINDOW_WAITS).unwrap_or_else(|_| {
        Err(ShelfError::NoServer {
            says: words::NO_ANSWER_YET.to_owned(),
            place: shelf.place(),
        })
    })
}

/// Whether there are sample jobs on this machine.
#[must_use]
pub fn has_samples() -> bool {
    places::sample_shelf().is_ok_and(|root| root.is_dir())
}

/// Takes the sample shelf away, with everything that was typed in it; `root` must be that shelf and no
/// other.
///
/// # Errors
/// Where it is another folder, or can't be taken away.
pub fn remove_samples(root: &Path) -> Result<(), Failure> {
    if root != places::sample_shelf()? {
        return Err(words::not_the_samples(root));
    }
    std::fs::remove_dir_all(root).map_err(|error| words::not_removed(&error, root))
}

fn put_demo_jobs(shelf: &dyn Shelf) -> Result<(), Failure> {
    for (name, text) in DEMO_JOBS {
        let doc = Doc::Job(JobKey::new(name)?);
        shelf.commit(&Commit::one(doc, text.as_bytes().to_vec(), None))?;
    }
    shelf.commit(&Commit::one(Doc::Shop, DEMO_SHOP.as_bytes().to_vec(), None))?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use std::fs;

    use quillbore_job::Shop;

    use super::*;
    use crate::disk::RealDisk;
    use crate::shelf::Cursor;

    fn jobs(shelf: &Folder) -> usize {
        shelf
            .changes(&Cursor::default())
            .expect("changes")
            .there
            .iter()
            .filter(|doc| matches!(doc, Doc::Job(_)))
            .count()
    }

    #[test]
    fn a_sample_shelf_begins_with_the_demo_jobs_and_one_taken_out_stays_out() {
        let folder = tempfile::tempdir().expect("a folder");
        let root = folder.path().join("shelf");
        let disk: Arc<dyn Disk> = Arc::new(RealDisk::default());
        let samples = Begins::WithDemoJobs;
        let (shelf, standing) = open(&disk, &root, None, samples).expect("a shelf");
        assert_eq!((standing, jobs(&shelf)), (Standing::New, DEMO_JOBS.len()));
        let stored = shelf.read(&Doc::Shop).expect("read").expect("a shop");
        let shop = Shop::with_file(&stored.bytes).expect("the invented shop");
        let sample = Shop::embedded().expect("the samples");
        assert_eq!((shop.stands_in(), &shop.name), (Vec::new(), &sample.name));
        assert_eq!(
            (&shop.address, &shop.tables),
            (&sample.address, &sample.tables)
        );
        let own = folder.path().join("own");
        let (shelf, standing) = open(&disk, &own, None, Begins::Empty).expect("a shelf");
        assert_eq!((standing, jobs(&shelf)), (Standing::New, 0));
        assert!(remove_samples(&own).is_err() && own.is_dir());
        fs::remove_file(root.join("26-0101.ron")).expect("taken out");
        let (shelf, standing) = open(&disk, &root, None, samples).expect("a shelf");
        assert_eq!(
            (standing, jobs(&shelf)),
            (Standing::Ready, DEMO_JOBS.len() - 1)
        );
    }

    #[test]
    fn a_folder_without_a_mark_waits_for_a_yes_and_a_known_one_has_vanished() {
        let folder = tempfile::tempdir().expect("a folder");
        let disk: Arc<dyn Disk> = Arc::new(RealDisk::default());
        fs::write(
            folder.path().join("26-0101.ron"),
            include_str!("../../../demo-jobs/26-0101.ron"),
        )
        .expect("a job");
        let (shelf, standing) = open(&disk, folder.path(), None, Begins::Empty).expect("a folder");
        assert_eq!(standing, Standing::NotMarked(1));
        let refused = shelf.commit(&Commit::one(Doc::Shop, b"x".to_vec(), None));
        assert!(refused.is_err(), "nothing is written before the yes");
        let mark = places::new_mark().expect("a mark");
        for root in [folder.path().to_owned(), folder.path().join("gone")] {
            let known = open(&disk, &root, Some(mark.clone()), Begins::Empty);
            let said = known.expect_err("it has vanished").to_string();
            assert!(said.contains("not there"), "{said}");
        }
        assert!(!folder.path().join("gone").exists());
        shelf.adopt(&mark).expect("a yes");
        let (_, standing) = open(&disk, folder.path(), Some(mark), Begins::Empty).expect("a shelf");
        assert_eq!(standing, Standing::Ready);
    }
}
