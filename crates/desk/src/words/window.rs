//! What is said where the window can't be opened, and in the desktop's own dialogs.

/// The name of the program, in the window's title.
pub const NAME: &str = "Quillbore";

/// That there is no display.
pub const NO_DISPLAY: &str = "There is no display to open a window on";

/// What can be done without a window.
pub const WITHOUT_WINDOW: &str = "without a window, quillbore papers JOB.ron --out DIR prints and quillbore figures JOB.ron computes";

/// The title of the dialog that opens a job.
pub const OPEN_JOB: &str = "Open a job";

/// The title of the dialog that saves a job.
pub const SAVE_JOB: &str = "Save the job";

/// The title of the dialog that asks where to print.
pub const PAPERS_FOLDER: &str = "Folder for the papers";

/// The title of the dialog that asks for a file to attach.
pub const ATTACH: &str = "Attach to the job";

/// The title of the dialog that asks for a file with holes.
pub const HOLES: &str = "Take holes from a file";

/// What files with holes are called in a dialog.
pub const HOLE_FILES: &str = "Tables, drawings, solids";

/// The title of the dialog that asks for the logo.
pub const LOGO: &str = "Logo of the shop";

/// Asks for the file of a list of the shop.
pub const LIST_FILE: &str = "Table to take in (CSV)";

/// What files with tables are called in a dialog.
pub const TABLES: &str = "Tables";

/// The kind of file that a logo is.
pub const PICTURES: &str = "PNG or SVG";

/// The kind of file that the dialogs show.
pub const JOB_FILES: &str = "Quillbore jobs";

/// That the display can't be reached, by the name that the environment gives it.
#[must_use]
pub fn no_reach(named: Option<&str>, why: &str) -> String {
    let display = match named {
        Some(named) => format!("The display ({named})"),
        None => "The display".to_owned(),
    };
    format!("{display} can't be reached, so there is no window: {why}")
}

/// That OpenGL can't be used.
#[must_use]
pub fn no_opengl(why: &str) -> String {
    format!("The window can't be opened, since OpenGL can't be used here ({why})")
}

/// That the window can't be opened for another reason.
#[must_use]
pub fn no_window(why: &str) -> String {
    format!("The window can't be opened: {why}")
}

/// What a library says of a failure, without the place in its source, which tells nobody here
/// anything.
#[must_use]
pub fn without_source(said: &str) -> String {
    const SOURCE: &str = ".rs:";
    let Some((_, behind)) = said.rsplit_once(SOURCE) else {
        return said.to_owned();
    };
    let why = behind.trim_start_matches(|sign: char| sign.is_ascii_digit() || ": ".contains(sign));
    why.to_owned()
}

/// What a fault gives as its reason where it gives none.
pub const NO_REASON: &str = "it gave no reason";

/// That the program itself has a fault, what it said, and where in the source.
#[must_use]
pub fn fault(why: &str, place: &str) -> String {
    format!("Quillbore has a fault, and what it did last is not done: {why} ({place})")
}

/// What to do about a fault of the program.
pub const REPORT_FAULT: &str = "report this sentence; nothing that was saved is lost";

/// What to do about a fault of the program while the window is open.
pub const REPORT_FAULT_WITH_DRAFTS: &str = "report this sentence; work that was not saved is kept as a draft and offered at the next start";

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_place_of_a_library_on_the_machine_that_built_it_is_told() {
        let said = "winit EventLoopError: os error at /home/a b/x-0.1/src/linux/mod.rs:788: Failed to open";
        assert_eq!(without_source(said), "Failed to open");
        assert_eq!(without_source("no context"), "no context");
    }
}
