//! Holes of drawings and solids as rows: every cell is read, nothing is lost between file and table.
#![expect(
    clippy::unwrap_used,
    reason = "helpers of tests stop the test as tests do"
)]

use std::path::{Path, PathBuf};

use quillbore_intake::drawn::{Drawn, DrawnError, Shows};
use quillbore_job::{Column, Job, RowsAt, Unit, apply};

fn files(corpus: &str, ends: &str) -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../tests")
        .join(corpus);
    let files = std::fs::read_dir(folder)
        .unwrap()
        .map(|file| file.unwrap().path());
    let mut files: Vec<PathBuf> = files
        .filter(|file| file.extension().is_some_and(|is| is == ends))
        .collect();
    files.sort();
    assert!(files.len() > 10, "{corpus}");
    files
}

fn read(file: &Path) -> Result<Drawn, DrawnError> {
    let name = file.file_name().unwrap().to_string_lossy().into_owned();
    let bytes = std::fs::read(file).unwrap();
    let shows = Shows::of(&bytes, &name).unwrap();
    Drawn::read(shows, &bytes, &name, &|_| false)
}

/// The job that comes of a file, and what is told.
fn taken(drawn: &Drawn) -> (Job, Vec<String>) {
    let job = Job::default();
    let taken = drawn.take(&job, RowsAt::Append).unwrap();
    let (job, _) = apply(&job, &taken.edit).unwrap();
    assert_eq!(job.rows.len(), taken.rows);
    (job, taken.report.whole)
}

#[test]
fn every_hole_of_every_file_is_a_place_of_a_row_that_is_read() {
    let all = files("step-corpus", "step")
        .into_iter()
        .chain(files("dxf-corpus", "dxf"));
    let mut rows = 0;
    for file in all {
        let mut drawn = match read(&file) {
            Ok(drawn) => drawn,
            Err(DrawnError::NoHoles(_)) => continue,
            Err(error) => panic!("{}: {error}", file.display()),
        };
        drawn.say_unit(Unit::Mm);
        let (job, _) = taken(&drawn);
        let holes: usize = drawn.kinds().map(|kind| kind.holes.len()).sum();
        let places: usize = job.rows.iter().map(|row| row.places.len()).sum();
        assert_eq!(places, holes, "{}", file.display());
        for (row, kind) in job.rows.iter().zip(drawn.kinds()) {
            let (hole, count) = (kind.first, kind.holes.len());
            for &column in Column::ALL {
                let cell = row.cell(column);
                assert_eq!(
                    cell.why,
                    None,
                    "{}: {column:?} {:?}",
                    file.display(),
                    cell.text
                );
            }
            assert_eq!(
                row.count.value().copied().map(usize::try_from),
                Some(Ok(count))
            );
            let size = row.size.value().unwrap();
            let off = 0.021 * hole.diameter;
            assert!(
                size.lower.mm() - off <= hole.diameter && hole.diameter <= size.upper.mm() + off
            );
            if let (Some(depth), Some(seen)) = (row.depth.value(), hole.depth) {
                let mm = depth.nominal.unwrap().mm();
                assert!((mm - seen.on_axis).abs() < 1e-3, "{}: {mm}", file.display());
            }
            rows += 1;
        }
    }
    assert!(rows > 60, "{rows}");
}
