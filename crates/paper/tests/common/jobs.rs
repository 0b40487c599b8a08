//! The jobs that lie in the repository: demo jobs, and hard ones of our own.

use std::collections::BTreeMap;
use std::path::Path;

use quillbore_job::Job;
use quillbore_job::file::read_job;

fn folder() -> std::path::PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

fn open(path: &Path) -> Job {
    let bytes = std::fs::read(path).unwrap_or_else(|why| panic!("{}: {why}", path.display()));
    read_job(&bytes).unwrap()
}

/// A hard job.
pub fn hard(name: &str) -> Job {
    open(&folder().join("tests/hard-jobs").join(format!("{name}.ron")))
}

/// Every hard job and every demo job by name.
pub fn all() -> BTreeMap<String, Job> {
    let mut jobs = BTreeMap::new();
    for folder in [folder().join("tests/hard-jobs"), folder().join("demo-jobs")] {
        let files = std::fs::read_dir(&folder).unwrap();
        for file in files {
            let path = file.unwrap().path();
            if path.extension().is_some_and(|ext| ext == "ron") {
                let name = path.file_stem().unwrap().to_string_lossy().into_owned();
                jobs.insert(name, open(&path));
            }
        }
    }
    jobs
}
