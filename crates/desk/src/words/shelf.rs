//! What is written at the shelf.

/// The head of the panel.
pub const HEAD: &str = "Shelf";

/// Before the line that finds a job.
pub const FIND: &str = "find";

/// The name of the line that finds a job.
pub const FIND_ON_SHELF: &str = "find on the shelf";

/// That the folder is being looked through.
pub const LOOKING: &str = "looking through the folder";

/// Before the jobs opened last.
pub const LATELY: &str = "lately";

/// That a file is no job.
pub const NO_JOB: &str = "no job";

/// That a job can't be read.
pub const UNREADABLE: &str = "can't be read";

/// The name of a job opened lately.
#[must_use]
pub fn lately(number: &str) -> String {
    format!("lately {number}")
}

/// The name of a job of the shelf.
#[must_use]
pub fn job(name: &str) -> String {
    format!("job {name}")
}
