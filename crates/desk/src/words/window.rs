//! What is said where the window can't be opened, and in the desktop's own dialogs.

use std::fmt::Display;

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

/// The kind of file that the dialogs show.
pub const JOB_FILES: &str = "Quillbore jobs";

/// That OpenGL can't be used.
#[must_use]
pub fn no_opengl(error: impl Display) -> String {
    format!("The window can't be opened, since OpenGL can't be used here ({error})")
}
