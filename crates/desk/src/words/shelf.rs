//! What is written at the shelf.

/// Before the line that finds a job.
pub const FIND: &str = "find";

/// The name of the line that finds a job.
pub const FIND_ON_SHELF: &str = "find on the shelf";

/// That the folder is being looked through.
pub const LOOKING: &str = "looking through the folder";

/// How many jobs are open.
#[must_use]
pub fn open_jobs(count: usize) -> String {
    match count {
        1 => "1 job open".to_owned(),
        count => format!("{count} jobs open"),
    }
}

/// The first line of a job.
#[must_use]
pub fn number_and_state(number: &str, state: &str) -> String {
    format!("{number}  {state}")
}

/// That a file is no job.
pub const NO_JOB: &str = "no job";

/// That a job can't be read.
pub const UNREADABLE: &str = "can't be read";

/// The name of a job opened last.
#[must_use]
pub fn recent(number: &str) -> String {
    format!("recent {number}")
}

/// The name of a job of the shelf.
#[must_use]
pub fn job(name: &str) -> String {
    format!("job {name}")
}

/// Where a job has neither customer nor part.
pub const NO_CUSTOMER: &str = "no customer yet";
