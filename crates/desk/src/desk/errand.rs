//! What a desk can want done about its job.

use std::path::PathBuf;

use quillbore_job::Paper;
use quillbore_office::issue::Seen;
use quillbore_paper::Sheet;

/// Something a desk wants done about its job.
#[derive(Clone, Debug)]
pub enum Errand {
    /// Save it.
    Save,
    /// Save it under a path.
    SaveAs(PathBuf),
    /// Save it as a new job under the next number.
    SaveAsNext,
    /// Put the other desk's work and this one's together.
    Merge,
    /// Issue a paper of it, or a quotation of others too.
    Issue {
        /// Which.
        paper: Paper,
        /// The sheet.
        sheet: Sheet,
        /// The other jobs.
        others: Vec<Seen>,
    },
    /// Look at the stored file of a paper.
    Reprint(String),
    /// Print previews into a folder.
    Print {
        /// Which.
        papers: Vec<Paper>,
        /// The sheet.
        sheet: Sheet,
        /// The folder, as it was typed.
        folder: PathBuf,
    },
    /// Take a file into its folder; it is saved first where it stands nowhere.
    Attach(PathBuf),
}
