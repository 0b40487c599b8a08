//! A process that saves without end is killed at 240 moments: each time the job opens, with the
//! content of one of its saves. Without a harness, since the test starts itself as that process.

use std::io::{Read as _, Write as _};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use quillbore_job::file::{RealDisk, hash, read_job, save, write_job};
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
    let (mut cut_short, mut versions) = (0, std::collections::BTreeSet::new());
    // A multiplicative congruential generator (Park and Miller 1988) spreads the moments.
    let mut random: u64 = 20_261_125;
    for _ in 0..KILLS {
        random = random * 48_271 % 2_147_483_647;
        let mut child = start(&path);
        std::thread::sleep(Duration::from_micros(random % 25_000));
        child.kill().expect("SIGKILL");
        child.wait().expect("the killed process");
        let bytes = std::fs::read(&path).expect("the job's file is there");
        let found = read_job(&bytes).expect("the job opens");
        let version: u32 = found.number.parse().expect("a version");
        assert_eq!(
            found,
            job(version),
            "old or new content, nothing in between"
        );
        versions.insert(version);
        for entry in std::fs::read_dir(folder.path()).expect("the folder") {
            let path = entry.expect("an entry").path();
            if path.extension().is_some_and(|extension| extension == "new") {
                cut_short += 1;
                std::fs::remove_file(path).expect("what the cut-off save left");
            }
        }
    }
    assert!(
        versions.len() > 20,
        "the saves went on between the kills: {}",
        versions.len()
    );
    assert!(
        cut_short > 5,
        "some kills hit a save in the middle: {cut_short}"
    );
    println!("killed {KILLS} times, {cut_short} in the middle of writing: 1 passed, 0 failed");
}

/// Starts the process and waits until it is about to save.
fn start(path: &Path) -> Child {
    let mut child = Command::new(std::env::current_exe().expect("this test's own file"))
        .env(SAVES_WHAT, path)
        .stdout(Stdio::piped())
        .spawn()
        .expect("the saving process");
    let mut ready = [0];
    let stdout = child.stdout.as_mut().expect("its output");
    stdout.read_exact(&mut ready).expect("a sign that it saves");
    child
}

/// Versions differ in length, so that a mixture of two could not be read as one.
fn job(version: u32) -> Job {
    let text = format!(
        "version {version} {}",
        "x".repeat((version % 97) as usize * 40)
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
    let mut bytes = std::fs::read(path).expect("the job's file");
    let mut version: u32 = read_job(&bytes)
        .expect("a job")
        .number
        .parse()
        .expect("a version");
    std::io::stdout().write_all(b"!").expect("a sign");
    std::io::stdout().flush().expect("a sign");
    loop {
        version += 1;
        save(&RealDisk, path, &job(version), Some(hash(&bytes))).expect("a save");
        bytes = write_job(&job(version)).into_bytes();
    }
}
