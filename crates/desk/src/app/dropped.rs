//! Files dropped on the window: photos and papers go into the job's folder and onto its newest slip
//! of received parts; a job's file is opened.

use std::fs::{self, OpenOptions};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use egui::Context;
use quillbore_job::{Line, SlipKind};

use super::App;
use crate::spot::Spot;
use crate::view::Ask;

/// Largest photo or paper that is taken in.
const LARGEST: u64 = 200_000_000;

impl App {
    /// Takes in what was dropped on the window since the last frame.
    pub(super) fn take_dropped(&mut self, ctx: &Context) {
        let dropped = ctx.input(|input| input.raw.dropped_files.clone());
        let paths: Vec<PathBuf> = dropped.iter().map(|file| file.path().to_owned()).collect();
        for path in paths {
            if path.extension().is_some_and(|end| end == "ron") {
                self.perform(ctx, Ask::Open(path));
            } else {
                self.attach(ctx, &path);
            }
        }
    }

    /// Copies a file into the job's folder and writes its name on the newest slip of received parts.
    fn attach(&mut self, ctx: &Context, from: &Path) {
        let desk = self.desk();
        let slip = desk.job().slips(SlipKind::Received).next_back();
        let Some((id, before)) = slip.map(|s| (s.id, s.line(Line::Files).text().to_owned())) else {
            self.desk_mut().notice =
                "Write down parts received first: photos and papers belong to that slip."
                    .to_owned();
            return;
        };
        if desk.file.is_none() && !self.desk_mut().save() {
            return;
        }
        let folder = self.desk().papers_folder();
        match copy_beside(from, &folder) {
            Ok(name) => {
                let text = format!("{before}\n{name}").trim().to_owned();
                let unit = self.desk().job().unit;
                self.perform(ctx, Ask::Edit(Spot::Line(id, Line::Files).edit(text, unit)));
                self.desk_mut().notice = format!("Taken into the job's folder: {name}");
            }
            Err(error) => {
                self.desk_mut().notice =
                    format!("The file can't be taken in: {error}: {}", from.display());
            }
        }
    }
}

/// Copies a file into a folder under its name, or one with a number where that is taken.
fn copy_beside(from: &Path, folder: &Path) -> io::Result<String> {
    const TRIES: u32 = 1_000;
    if fs::metadata(from)?.len() > LARGEST {
        return Err(io::Error::other("it is larger than 200 MB"));
    }
    let bytes = fs::read(from)?;
    fs::create_dir_all(folder)?;
    let stem = from.file_stem().unwrap_or_default().to_string_lossy();
    let end = from
        .extension()
        .map_or_else(String::new, |end| format!(".{}", end.to_string_lossy()));
    for again in 1..TRIES {
        let name = if again == 1 {
            format!("{stem}{end}")
        } else {
            format!("{stem}-{again}{end}")
        };
        let path = folder.join(&name);
        let made = OpenOptions::new().write(true).create_new(true).open(&path);
        match made {
            Ok(mut file) => {
                let written = file.write_all(&bytes).and_then(|()| file.sync_all());
                if let Err(error) = written {
                    // Half a photo is worse than none.
                    let _ = fs::remove_file(&path);
                    return Err(error);
                }
                return Ok(name);
            }
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {}
            Err(error) => return Err(error),
        }
    }
    Err(io::ErrorKind::AlreadyExists.into())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_photo_never_takes_another_ones_place() {
        let folder = tempfile::tempdir().expect("a folder");
        let photo = folder.path().join("flange.jpg");
        fs::write(&photo, "light").expect("written");
        let job = folder.path().join("26-0107.files");
        assert_eq!(copy_beside(&photo, &job).expect("copied"), "flange.jpg");
        fs::write(&photo, "other light").expect("written");
        assert_eq!(copy_beside(&photo, &job).expect("copied"), "flange-2.jpg");
        assert_eq!(fs::read(job.join("flange.jpg")).expect("there"), b"light");
        assert!(copy_beside(&folder.path().join("none.jpg"), &job).is_err());
    }
}
