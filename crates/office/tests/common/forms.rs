//! The shelf in all its forms, each with three desks at it.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use quillbore_office::disk::{Disk, RealDisk};
use quillbore_office::names::{AttachmentName, JobKey};
use quillbore_office::shelf::{
    Attachment, Commit, CommitError, Committed, Doc, Folder, Loose, Mark, Memory, Shelf, Version,
    Write,
};
use tempfile::TempDir;

use super::memory_disk::MemoryDisk;

/// Where the shelves of a disk in memory are.
pub const ROOT: &str = "/shelf";

/// What takes away what lies beside a job.
pub type TakeBeside = Box<dyn Fn(&JobKey, &AttachmentName)>;

/// A shelf in one of its forms.
pub struct Form {
    pub name: &'static str,
    /// Three desks, each with a handle of its own.
    pub desks: Vec<Arc<dyn Shelf>>,
    /// The documents that can be kept here.
    pub docs: Vec<Doc>,
    pub disk: Option<MemoryDisk>,
    /// Takes a document away, as hands do.
    pub take_away: Box<dyn Fn(&Doc)>,
    /// Takes away what lies beside a job, where hands can.
    pub take_beside: Option<TakeBeside>,
    /// Waits until what was let go is known to all: a server hears of it a moment later.
    pub settle: Box<dyn Fn()>,
    /// How many operations are a lot: what is on a real disk takes its time.
    pub slow: bool,
    folder: Option<TempDir>,
}

impl Form {
    /// The jobs that can be kept here.
    pub fn jobs(&self) -> Vec<JobKey> {
        let jobs = self.docs.iter().filter_map(|doc| match doc {
            Doc::Job(key) => Some(key.clone()),
            Doc::Shop => None,
        });
        jobs.collect()
    }

    /// The first job that can be kept here.
    pub fn job(&self) -> JobKey {
        self.jobs()[0].clone()
    }

    /// Whether only one job can be kept here.
    pub fn is_one_file(&self) -> bool {
        self.docs.len() == 1
    }

    /// Where its files are, where it has some.
    pub fn root(&self) -> Option<PathBuf> {
        let folder = self.folder.as_ref();
        let folder = folder.map(|folder| folder.path().to_owned());
        folder.or_else(|| self.disk.as_ref().map(|_| PathBuf::from(ROOT)))
    }
}

/// Every form.
pub const FORMS: &[fn() -> Form] = &[
    folder_in_memory,
    folder_on_a_stick,
    folder_on_disk,
    memory,
    loose_in_memory,
    loose_on_disk,
    #[cfg(feature = "outside")]
    on_server,
];

/// Does the same with every form.
pub fn each(test: impl Fn(&Form)) {
    // While a program is started, files that are locked here are locked there as well.
    #[cfg(feature = "outside")]
    super::postgres::shared();
    for make in FORMS {
        let form = make();
        println!("{}", form.name);
        test(&form);
    }
}

pub fn mark(of: u8) -> Mark {
    Mark::of([of; 16])
}

pub fn key(text: &str) -> JobKey {
    JobKey::new(text).expect("a job's name")
}

pub fn name(text: &str) -> AttachmentName {
    AttachmentName::new(text).expect("an attachment's name")
}

pub fn job(text: &str) -> Doc {
    Doc::Job(key(text))
}

fn docs() -> Vec<Doc> {
    let jobs = ["26-0101", "26-0102", "25-0388", "S\u{f6}hne ring"].map(job);
    jobs.into_iter().chain([Doc::Shop]).collect()
}

/// The file of a document of a folder.
pub fn file_of(root: &Path, doc: &Doc) -> PathBuf {
    match doc {
        Doc::Job(key) => root.join(format!("{key}.ron")),
        Doc::Shop => root.join("shop.ron"),
    }
}

/// The file of what lies beside a job of a folder.
pub fn beside_file_of(root: &Path, job: &JobKey, name: &AttachmentName) -> PathBuf {
    root.join(format!("{job}.files")).join(name.as_str())
}

fn take_from_memory(disk: &MemoryDisk) -> Option<TakeBeside> {
    let disk = disk.clone();
    Some(Box::new(move |job, name| {
        disk.take(&beside_file_of(Path::new(ROOT), job, name));
    }))
}

fn take_from_disk(root: &Path) -> Option<TakeBeside> {
    let root = root.to_owned();
    Some(Box::new(move |job, name| {
        std::fs::remove_file(beside_file_of(&root, job, name)).expect("a file");
    }))
}

/// Three desks at a folder of a disk in memory.
pub fn desks(disk: &MemoryDisk) -> Vec<Arc<dyn Shelf>> {
    let desk = || -> Arc<dyn Shelf> {
        let disk: Arc<dyn Disk> = Arc::new(disk.clone());
        Arc::new(Folder::new(disk, Path::new(ROOT), None))
    };
    vec![desk(), desk(), desk()]
}

fn folder_over(name: &'static str, disk: MemoryDisk) -> Form {
    let desks = desks(&disk);
    desks[0].adopt(&mark(1)).expect("a mark");
    let taken = disk.clone();
    Form {
        name,
        desks,
        docs: docs(),
        take_beside: take_from_memory(&disk),
        disk: Some(disk),
        take_away: Box::new(move |doc| taken.take(&file_of(Path::new(ROOT), doc))),
        settle: Box::new(|| ()),
        slow: false,
        folder: None,
    }
}

fn folder_in_memory() -> Form {
    folder_over(
        "a folder on a disk in memory",
        MemoryDisk::with_folder(Path::new(ROOT)),
    )
}

fn folder_on_a_stick() -> Form {
    folder_over(
        "a folder on a memory stick",
        MemoryDisk::with_folder(Path::new(ROOT)).with_one_name(),
    )
}

fn folder_on_disk() -> Form {
    let folder = tempfile::tempdir().expect("a folder");
    let root = folder.path().to_owned();
    let desk =
        || -> Arc<dyn Shelf> { Arc::new(Folder::new(Arc::new(RealDisk::default()), &root, None)) };
    let desks = vec![desk(), desk(), desk()];
    desks[0].adopt(&mark(1)).expect("a mark");
    Form {
        name: "a folder",
        desks,
        docs: docs(),
        disk: None,
        take_beside: take_from_disk(folder.path()),
        take_away: Box::new(move |doc| {
            std::fs::remove_file(file_of(&root, doc)).expect("a document");
        }),
        settle: Box::new(|| ()),
        slow: true,
        folder: Some(folder),
    }
}

fn memory() -> Form {
    let memory = Arc::new(Memory::marked(mark(1)));
    let desk = || -> Arc<dyn Shelf> { memory.clone() };
    let desks = vec![desk(), desk(), desk()];
    Form {
        name: "memory",
        desks,
        docs: docs(),
        disk: None,
        take_beside: None,
        take_away: Box::new(move |doc| memory.take_away(doc)),
        settle: Box::new(|| ()),
        slow: false,
        folder: None,
    }
}

fn loose_in_memory() -> Form {
    let disk = MemoryDisk::with_folder(Path::new(ROOT));
    let path = Path::new(ROOT).join("26-0101.ron");
    let desk = || -> Arc<dyn Shelf> {
        let disk: Arc<dyn Disk> = Arc::new(disk.clone());
        Arc::new(Loose::new(disk, &path).expect("a job's name"))
    };
    let desks = vec![desk(), desk(), desk()];
    let taken = disk.clone();
    let file = path.clone();
    Form {
        name: "a single file on a disk in memory",
        desks,
        docs: vec![job("26-0101")],
        take_beside: take_from_memory(&disk),
        disk: Some(disk),
        take_away: Box::new(move |_| taken.take(&file)),
        settle: Box::new(|| ()),
        slow: false,
        folder: None,
    }
}

fn loose_on_disk() -> Form {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("26-0101.ron");
    let desk = || -> Arc<dyn Shelf> {
        let loose = Loose::new(Arc::new(RealDisk::default()), &path);
        Arc::new(loose.expect("a job's name"))
    };
    let desks = vec![desk(), desk(), desk()];
    Form {
        name: "a single file",
        desks,
        docs: vec![job("26-0101")],
        disk: None,
        take_beside: take_from_disk(folder.path()),
        take_away: Box::new(move |_| std::fs::remove_file(&path).expect("the file")),
        settle: Box::new(|| ()),
        slow: true,
        folder: Some(folder),
    }
}

/// Three desks at a database of a server.
#[cfg(feature = "outside")]
fn on_server() -> Form {
    use super::postgres::{Cluster, shared};
    let address = shared().database();
    let desks = [0, 1, 2].map(|_| Arc::new(Cluster::desk(&address)));
    desks[0].adopt(&mark(1)).expect("a mark");
    let all = desks.clone();
    let database = address.database_name().to_owned();
    Form {
        name: "a server",
        desks: desks
            .into_iter()
            .map(|desk| desk as Arc<dyn Shelf>)
            .collect(),
        docs: docs(),
        disk: None,
        take_beside: None,
        take_away: Box::new(move |doc| {
            let name = match doc {
                Doc::Job(key) => key.as_str(),
                Doc::Shop => "shop",
            };
            shared().sql(&database, &format!("SELECT quillbore.take_away('{name}')"));
        }),
        settle: Box::new(move || all.iter().for_each(|desk| desk.settle())),
        slow: true,
        folder: None,
    }
}

/// A document's new content.
pub fn write(doc: &Doc, bytes: &[u8], expected: Option<Version>) -> Write {
    Write {
        doc: doc.clone(),
        bytes: bytes.to_vec(),
        expected,
    }
}

/// A file beside a job.
pub fn beside(job: &JobKey, called: &str, bytes: &[u8]) -> Attachment {
    Attachment {
        job: job.clone(),
        name: name(called),
        bytes: bytes.to_vec(),
    }
}

/// Writes one document.
pub fn put(
    desk: &Arc<dyn Shelf>,
    doc: &Doc,
    bytes: &[u8],
    expected: Option<Version>,
) -> Result<Version, CommitError> {
    let committed = desk.commit(&Commit::one(doc.clone(), bytes.to_vec(), expected));
    committed.map(|Committed { versions, .. }| {
        assert_eq!(versions, [Version::of(bytes)]);
        versions[0]
    })
}

/// Writes one document that is not there yet.
pub fn start(desk: &Arc<dyn Shelf>, doc: &Doc, bytes: &[u8]) -> Version {
    put(desk, doc, bytes, None).expect("a new document")
}

/// A document's content.
pub fn content(desk: &Arc<dyn Shelf>, doc: &Doc) -> Option<Vec<u8>> {
    let stored = desk.read(doc).expect("it can be read");
    stored.map(|stored| {
        assert_eq!(stored.version, Version::of(&stored.bytes));
        stored.bytes
    })
}

/// The content that was replaced last.
pub fn before(desk: &Arc<dyn Shelf>, doc: &Doc) -> Option<Vec<u8>> {
    let stored = desk.previous(doc).expect("it can be read");
    stored.map(|stored| {
        assert_eq!(stored.version, Version::of(&stored.bytes));
        stored.bytes
    })
}
