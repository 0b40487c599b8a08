//! A process that writes to a shelf without end is killed at many moments: each time every job opens
//! with the content of one of its saves, and no job names a file that is not there. Without a
//! harness, since the test starts itself as that process.

#![expect(clippy::expect_used, reason = "a helper that fails is a failed test")]

use std::collections::BTreeSet;
use std::io::{Read as _, Write as _};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::sync::Arc;
use std::time::Instant;

use quillbore_job::file::read_job;
use quillbore_job::{CellAt, Column, Edit, Job, Unit, apply};
use quillbore_office::disk::RealDisk;
use quillbore_office::names::{AttachmentName, JobKey};
use quillbore_office::save::{content, save};
use quillbore_office::shelf::{Attachment, Commit, Doc, Folder, Mark, Shelf, Version, Write};

/// Kills of each kind, unless the environment says another number.
const KILLS: u32 = 120;
const KILLS_ASKED: &str = "QUILLBORE_TEST_KILLS";
const WRITES: &str = "QUILLBORE_TEST_WRITES";

/// What the process writes.
#[derive(Clone, Copy)]
enum What {
    /// A job over itself.
    Saves,
    /// A file beside a job, then the job that names it, then another job.
    Issues,
}

fn main() {
    let folder = std::env::args_os().nth(1);
    match (std::env::var(WRITES).as_deref(), folder) {
        (Ok("saves"), Some(folder)) => write_until_killed(Path::new(&folder), What::Saves),
        (Ok("issues"), Some(folder)) => write_until_killed(Path::new(&folder), What::Issues),
        _ => {}
    }
    let asked = std::env::var(KILLS_ASKED).ok();
    let kills = asked.map_or(KILLS, |kills| kills.parse().expect("a number of kills"));
    let (saves, _) = kill(What::Saves, kills);
    let (issues, alone) = kill(What::Issues, kills);
    println!(
        "killed {kills} times while saving, {saves} in the middle, and {kills} times while issuing, \
         {issues} in the middle, {alone} with a paper that no job names: 1 passed, 0 failed"
    );
}

fn shelf(folder: &Path) -> Arc<dyn Shelf> {
    Arc::new(Folder::new(Arc::new(RealDisk::default()), folder, None))
}

fn job_key() -> JobKey {
    JobKey::new("26-0001").expect("a job's name")
}

fn other() -> Doc {
    Doc::Job(JobKey::new("26-0002").expect("a job's name"))
}

/// Kills the writing process again and again; how often in the middle of writing, and how often a
/// file was there that no job names.
fn kill(what: What, kills: u32) -> (usize, usize) {
    let folder = tempfile::tempdir().expect("a folder for the test");
    let shelf = shelf(folder.path());
    shelf.adopt(&Mark::of([1; 16])).expect("a mark");
    for doc in [Doc::Job(job_key()), other()] {
        let first = content(&job(0)).expect("a job's content");
        shelf
            .commit(&Commit::one(doc, first, None))
            .expect("the first version");
    }
    // A multiplicative congruential generator (Park and Miller 1988) spreads the moments.
    let mut random: u64 = 20_261_125;
    let (mut last, mut alone) = (0, 0);
    for _ in 0..kills {
        random = random * 48_271 % 2_147_483_647;
        let mut child = start(folder.path(), what);
        wait_for_a_save(&mut child);
        let begun = Instant::now();
        wait_for_a_save(&mut child);
        // Anywhere in the save after these two, however fast the machine is.
        let share = u32::try_from(random % 1_000).expect("below a thousand");
        std::thread::sleep(begun.elapsed() * share / 1_000);
        child.kill().expect("SIGKILL");
        child.wait().expect("the killed process");
        last = look(&shelf, what, last);
        alone += usize::from(papers_alone(&shelf, last));
    }
    let cut_short = left_behind(folder.path()) + left_behind(&folder.path().join("26-0001.files"));
    assert!(
        cut_short > 3,
        "some kills hit a save in the middle: {cut_short}"
    );
    if matches!(what, What::Issues) {
        assert!(alone > 3, "some kills hit between paper and job: {alone}");
    }
    // What was cut off is in nobody's way, and no lock is left.
    let now = version_of(&shelf, &Doc::Job(job_key()));
    assert!(matches!(
        shelf.hold(&job_key(), "front office"),
        quillbore_office::shelf::Held::Here(_)
    ));
    let rests_on = Version::of(&content(&job(now)).expect("a job's content"));
    let saved = save(&shelf, &job_key(), &Arc::new(job(now + 1)), Some(rests_on));
    saved.expect("a save after all that");
    (cut_short, alone)
}

/// What must hold after each kill; the version that stands there.
fn look(shelf: &Arc<dyn Shelf>, what: What, last: u32) -> u32 {
    let found = version_of(shelf, &Doc::Job(job_key()));
    assert!(found >= last + 2, "the saves before the kill are there");
    let previous = shelf
        .previous(&Doc::Job(job_key()))
        .expect("it can be read");
    let previous = version_in(&previous.expect("a version before").bytes);
    assert!(
        previous == found || previous + 1 == found,
        "{previous}, {found}"
    );
    let all = shelf.changes(&Default::default()).expect("a list");
    assert_eq!((all.there.len(), all.unusable.len()), (2, 0));
    let papers = shelf.attachments(&job_key()).expect("a list");
    match what {
        What::Saves => assert!(papers.is_empty()),
        What::Issues => {
            // Every version up to the job's has its paper, whole; perhaps one more than the job knows.
            for version in 1..=found {
                let there = shelf.attachment(&job_key(), &paper_name(version));
                let there = there.expect("it can be read");
                assert_eq!(there, Some(paper(version)), "the paper of {version}");
            }
            let names: BTreeSet<AttachmentName> = papers.into_iter().collect();
            let known = names
                .iter()
                .filter(|name| (1..=found + 1).any(|version| **name == paper_name(version)));
            assert_eq!(known.count(), names.len(), "{names:?}");
            // The other job comes last, so it may be one behind.
            let other = version_of(shelf, &other());
            assert!(other == found || other + 1 == found, "{other}, {found}");
        }
    }
    found
}

/// Whether a paper is there that the job does not know of; where it is, it is whole.
fn papers_alone(shelf: &Arc<dyn Shelf>, version: u32) -> bool {
    let next = shelf.attachment(&job_key(), &paper_name(version + 1));
    let next = next.expect("it can be read");
    assert!(next.is_none() || next == Some(paper(version + 1)));
    next.is_some()
}

fn version_of(shelf: &Arc<dyn Shelf>, doc: &Doc) -> u32 {
    let stored = shelf.read(doc).expect("it can be read");
    version_in(&stored.expect("the job is there").bytes)
}

/// The version in a job's content, which must be that version to the last letter.
fn version_in(bytes: &[u8]) -> u32 {
    let found = read_job(bytes).expect("the job opens");
    let version: u32 = found.number.parse().expect("a version");
    assert_eq!(
        found,
        job(version),
        "old or new content, nothing in between"
    );
    version
}

fn left_behind(folder: &Path) -> usize {
    std::fs::read_dir(folder)
        .expect("the folder")
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.extension().is_some_and(|end| end == "new"))
        .count()
}

fn start(folder: &Path, what: What) -> Child {
    let writes = match what {
        What::Saves => "saves",
        What::Issues => "issues",
    };
    Command::new(std::env::current_exe().expect("this test's own file"))
        .arg(folder)
        .env(WRITES, writes)
        .stdout(Stdio::piped())
        .spawn()
        .expect("the writing process")
}

/// Waits until the process says that one more save is done.
fn wait_for_a_save(child: &mut Child) {
    let stdout = child.stdout.as_mut().expect("its output");
    stdout.read_exact(&mut [0]).expect("a sign of a save");
}

/// Versions differ in length, so that a mixture of two could not be read as one.
fn job(version: u32) -> Job {
    let text = format!(
        "version {version} {}",
        "x".repeat(version as usize % 97 * 4)
    );
    let edit = Edit::SetCells {
        at: CellAt {
            row: 0,
            column: Column::Note,
        },
        rows: vec![vec![Some(text)]; 40],
        unit: Unit::Mm,
    };
    let (job, _) = apply(
        &Job {
            number: version.to_string(),
            ..Job::default()
        },
        &edit,
    )
    .expect("an edit");
    job
}

fn paper_name(version: u32) -> AttachmentName {
    AttachmentName::new(&format!("26-0001-{version}.pdf")).expect("a paper's name")
}

fn paper(version: u32) -> Vec<u8> {
    format!("%PDF of version {version}\n")
        .repeat(200)
        .into_bytes()
}

fn write_until_killed(folder: &Path, what: What) -> ! {
    let shelf = shelf(folder);
    let mut version = version_of(&shelf, &Doc::Job(job_key()));
    loop {
        let rests_on = |doc: &Doc| shelf.read(doc).expect("it can be read").map(|s| s.version);
        let write = |doc: Doc, version| Write {
            expected: rests_on(&doc),
            bytes: content(&job(version)).expect("a job's content"),
            doc,
        };
        version += 1;
        let commit = match what {
            What::Saves => Commit {
                attachments: Vec::new(),
                documents: vec![write(Doc::Job(job_key()), version)],
            },
            What::Issues => Commit {
                attachments: vec![Attachment {
                    job: job_key(),
                    name: paper_name(version),
                    bytes: paper(version),
                }],
                documents: vec![write(Doc::Job(job_key()), version), write(other(), version)],
            },
        };
        shelf.commit(&commit).expect("written");
        std::io::stdout().write_all(b"!").expect("a sign");
        std::io::stdout().flush().expect("a sign");
    }
}
