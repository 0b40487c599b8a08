//! stand-in until the seal branch brings Job::as_copy
use crate::job::Job;
impl Job {
    /// stand-in
    #[must_use]
    pub fn as_copy(&self, number: &str) -> (Self, Vec<String>) {
        (Self { number: number.to_owned(), ..self.clone() }, Vec::new())
    }
}
