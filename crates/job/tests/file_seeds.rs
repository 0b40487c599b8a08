//! The seeds of the fuzz targets, replayed: what `tests/fuzz` checks of any bytes.

#![expect(clippy::unwrap_used, reason = "a helper that fails is a failed test")]

use std::path::{Path, PathBuf};

use quillbore_job::Shop;
use quillbore_job::file::{read_job, write_job};

fn seeds(target: &str) -> Vec<(PathBuf, Vec<u8>)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/fuzz/seeds");
    let entries = std::fs::read_dir(folder.join(target)).unwrap();
    let mut paths: Vec<PathBuf> = entries.map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    let read = |path: PathBuf| (path.clone(), std::fs::read(path).unwrap());
    paths.into_iter().map(read).collect()
}

#[test]
fn a_seed_is_a_job_that_comes_back_or_one_sentence() {
    let (mut jobs, mut refused) = (0, 0);
    for (path, bytes) in seeds("read_job") {
        match read_job(&bytes) {
            Ok(job) => {
                let text = write_job(&job);
                assert_eq!(
                    read_job(text.as_bytes()).as_ref(),
                    Ok(&job),
                    "{}",
                    path.display()
                );
                assert_eq!(write_job(&job), text, "{}", path.display());
                jobs += 1;
            }
            Err(error) => {
                assert!(
                    !error.to_string().contains('\n'),
                    "{}: {error}",
                    path.display()
                );
                refused += 1;
            }
        }
    }
    assert!(jobs >= 6 && refused >= 7, "{jobs} jobs, {refused} refused");
}

#[test]
fn a_seed_is_a_shop_or_one_sentence() {
    let seeds = seeds("shop_file");
    assert!(seeds.len() >= 5);
    for (path, bytes) in seeds {
        if let Err(error) = Shop::with_file(&bytes) {
            assert!(
                !error.to_string().contains('\n'),
                "{}: {error}",
                path.display()
            );
        }
    }
}
