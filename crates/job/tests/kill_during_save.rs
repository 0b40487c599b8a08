//! A process that saves without end is killed at 240 moments: each time the job opens, with the
//! content of one of its saves. Without a harness, since the test starts itself as that process.

#![expect(clippy::expect_used, reason = "a helper that fails is a failed test")]

use std::io::{Read as _, Write as _};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::Instant;

use quillbore_job::file::{RealDisk, hash, previous_path, read_job, save, write_job};
use quillbore_job::{CellAt, Column, Edit, Job, Unit, apply};

const KILLS: u32 = 240;
const SAVES_WHAT: &str = "QUILLBORE_TEST_SAVES";

fn main() {
    if let Some(path) = std::env::var_os(SAVES_WHAT) {
        save_until_killed(Path::new(&path));
    }
    let folder = tempfile::tempdir().expect("a folder for the test");
    let path = folder.path().join("26-0001.ron");
    std::fs::write(&path, write_job(&job(0))).expect("the first version");
    // A multiplicative congruential generator (Park and Miller 1988) spreads the moments.
    let mut random: u64 = 20_261_125;
    let mut last = 0;
    for _ in 0..KILLS {
        random = random * 48_271 % 2_147_483_647;
        let mut child = start(&path);
        wait_for_a_save(&mut child);
        let begun = Instant::now();
        wait_for_a_save(&mut child);
        // Anywhere in the save after these two, however fast the machine is.
        let share = u32::try_from(random % 1_000).expect("below a thousand");
        std::thread::sleep(begun.elapsed() * share / 1_000);
        child.kill().expect("SIGKILL");
        child.wait().expect("the killed process");
        let found = version_of(&path);
        assert!(found >= last + 2, "the saves before the kill are there");
        last = found;
        let previous = version_of(&previous_path(&path));
        assert!(
            previous == found || previous + 1 == found,
            "{previous}, {found}"
        );
    }
    // What the cut-off saves left is in nobody's way.
    let folders = [folder.path().to_owned(), path.with_extension("files")];
    let cut_short: usize = folders.iter().map(|folder| left_behind(folder)).sum();
    assert!(
        cut_short > 5,
        "some kills hit a save in the middle: {cut_short}"
    );
    println!("killed {KILLS} times, {cut_short} in the middle of writing: 1 passed, 0 failed");
}

/// The version in a file, which must be that version to the last letter.
fn version_of(path: &Path) -> u32 {
    let bytes = std::fs::read(path).expect("the file is there");
    let found = read_job(&bytes).expect("the job opens");
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

fn start(path: &Path) -> Child {
    Command::new(std::env::current_exe().expect("this test's own file"))
        .env(SAVES_WHAT, path)
        .stdout(Stdio::piped())
        .spawn()
        .expect("the saving process")
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

fn save_until_killed(path: &Path) -> ! {
    let mut version = version_of(path);
    let mut opened = hash(&std::fs::read(path).expect("the job's file"));
    loop {
        version += 1;
        opened = save(&RealDisk, path, &job(version), Some(opened)).expect("a save");
        std::io::stdout().write_all(b"!").expect("a sign");
        std::io::stdout().flush().expect("a sign");
    }
}
