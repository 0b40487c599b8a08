//! What a desk can want done about its job.

use std::path::PathBuf;

use quillbore_job::Paper;
use quillbore_office::issue::Seen;
use quillbore_office::names::AttachmentName;
use quillbore_paper::{BlankForm, Sheet};

/// What is done with a file once it is known to be the right one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Then {
    /// It is opened.
    Open,
    /// It is printed.
    Print,
    /// Where it is gets told.
    Tell,
}

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
    /// Look at the stored file of a paper, and do this with it.
    Reprint(String, Then),
    /// Print previews into a folder.
    Print {
        /// Which.
        papers: Vec<Paper>,
        /// The sheet.
        sheet: Sheet,
        /// The folder, as it was typed.
        folder: PathBuf,
    },
    /// Print a blank form into its folder and open it; the job is saved first where it stands nowhere.
    Blank(BlankForm, Sheet),
    /// Write the threading list into its folder and open it; the job is saved first where it stands nowhere.
    Threading,
    /// Open a file that lies in its folder.
    OpenBeside(AttachmentName),
    /// Take a file into its folder; it is saved first where it stands nowhere.
    Attach(PathBuf),
}
