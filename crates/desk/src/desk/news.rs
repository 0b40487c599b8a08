//! What happens to a job without the window having done it.

use std::path::PathBuf;

use quillbore_job::Issued;
use quillbore_office::save::Opened;

use super::errand::Then;

/// Something that happened to a job, for the window to act on.
#[derive(Debug)]
pub enum News {
    /// It stands on a shelf as this.
    Stands(Opened),
    /// It was saved, so what waited for that goes on.
    Saved,
    /// It could not be saved, so what waited for that is given up.
    NotSaved,
    /// It could not be saved, since nobody said yet that the folder is a shelf.
    NoShelf,
    /// Other jobs got an entry of the paper that was issued.
    OthersIssued(Vec<(Issued, Opened)>),
    /// A file is there and the right one: this is done with it.
    FileThere(PathBuf, Then),
    /// A file was taken into its folder under this name.
    Attached(String),
}
