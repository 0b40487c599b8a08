//! What is said of papers that can't be written.

use std::io;
use std::path::{Path, PathBuf};

use quillbore_paper::pdf::PdfError;

use super::shown;
use super::system::by_system;
use crate::failure::Failure;
use crate::shelf::folder::NotTogether;

/// That another paper has the name.
pub(crate) fn another_stands(path: &Path) -> Failure {
    Failure::new(
        "Another paper is there already and nothing was written",
        "print into another folder, or add --replace",
    )
    .at(path)
}

/// That a paper can't be made, and which.
pub(crate) fn no_pdf(called: &str, error: &PdfError) -> Failure {
    Failure::new(format!("{called}: {error}"), error.hint())
}

/// That the folder of the papers can't be made.
pub(crate) fn no_folder(error: &io::Error, folder: &Path) -> Failure {
    by_system("The folder can't be made", error, folder)
}

/// That papers could not be written together: which of them are new all the same, and where what
/// stood there is kept.
pub(crate) fn not_together(not: &NotTogether, papers: &[PathBuf]) -> Failure {
    let why = not.why.to_string();
    let place = Path::new(not.why.place());
    if not.new.is_empty() {
        let message = format!("{why}, so none of the papers was written");
        return Failure::new(message, not.why.hint()).at(place);
    }
    let is_new = |path: &Path| not.new.iter().any(|(new, _)| new == path);
    let of = |new: bool| {
        let those = papers.iter().filter(|path| is_new(path) == new);
        let those: Vec<String> = those.map(|path| name(path)).collect();
        those.join(", ")
    };
    let mut message = format!("{why}, and not all could be put back: new are {}", of(true));
    let as_before = of(false);
    if !as_before.is_empty() {
        message += &format!("; as before are {as_before}");
    }
    for (new, earlier) in &not.new {
        if let Some(earlier) = earlier {
            let (new, earlier) = (name(new), name(earlier));
            message += &format!("; what {new} was is kept as {earlier}");
        }
    }
    Failure::new(
        message,
        "check free space and permissions, then print again",
    )
    .at(place)
}

fn name(path: &Path) -> String {
    shown::name(path.file_name().unwrap_or_default())
}
