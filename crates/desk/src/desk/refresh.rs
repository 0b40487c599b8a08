//! What is computed of the job, and the job before it: brought up to what is typed.

use std::sync::Arc;

use quillbore_job::Field;
use quillbore_office::clerk::Request;

use super::state::{Desk, JobBefore};

impl Desk {
    /// Computes what an edit changed; what rests on searches follows as they are done.
    pub(super) fn refresh(&mut self) {
        self.recompute();
        // Where searches are done at once their answers may ask for nothing more, or for some.
        while self.take_answers() {
            self.recompute();
        }
        self.look_before();
    }

    /// Computes the results with what is known, and wants what is not.
    pub(super) fn recompute(&mut self) {
        let (results, open) = self.kept.results(self.history.now(), &self.shop);
        self.worker.want(open);
        self.results = Arc::new(results);
    }

    /// Keeps what searches have found; whether they have found anything.
    pub(super) fn take_answers(&mut self) -> bool {
        let answers = self.worker.answers();
        let any = !answers.is_empty();
        for (question, answer) in answers {
            self.kept.put(question, answer);
        }
        any
    }

    /// Asks for the job that this one does again, when its number is new.
    fn look_before(&mut self) {
        let number = self.job().text(Field::Again).trim().to_owned();
        if self.before.as_ref().is_some_and(|b| b.number == number) {
            return;
        }
        self.before = Some(JobBefore {
            number: number.clone(),
            job: None,
        });
        if !number.is_empty() {
            self.clerk.ask(Request::Before { number });
        }
    }
}
