//! What is computed of the job, and the job before it: brought up to what is typed.

use std::sync::Arc;

use quillbore_job::Field;
use quillbore_job::taught::taught;
use quillbore_office::clerk::Request;
use quillbore_office::pool::Pool;

use super::state::{Desk, JobBefore, LearnedOf};

impl Desk {
    /// Computes what an edit changed; what rests on searches follows as they are done.
    pub(super) fn refresh(&mut self) {
        self.learn();
        self.recompute();
        // Where searches are done at once their answers may ask for nothing more, or for some.
        while self.take_answers() {
            self.recompute();
        }
        self.look_before();
    }

    /// Asks for the run records of the shelf as they stand now.
    pub fn look_at_records(&self) {
        self.clerk.ask(Request::Records);
    }

    /// Learns anew where the records of the shelf or of this job are others than before.
    fn learn(&mut self) {
        let own = taught(self.history.now(), &self.office.shop);
        let key = self.opened.as_ref().map(|opened| opened.key.clone());
        let same = |of: &LearnedOf| {
            let same_pool = match (&of.pool, &self.pool) {
                (Some(one), Some(other)) => Arc::ptr_eq(one, other),
                (None, None) => true,
                _ => false,
            };
            same_pool && of.day == self.day && of.key == key && of.own == own
        };
        if self.learned_of.as_ref().is_some_and(same) {
            return;
        }
        let none = || Pool::new(Arc::clone(&self.office.shop));
        let pool = self.pool.clone().unwrap_or_else(|| Arc::new(none()));
        self.teaching = pool.teaching_with(self.day, key.as_ref(), &own);
        if self.teaching.lessons != self.shop.tables.lessons {
            self.shop.tables.lessons = Arc::clone(&self.teaching.lessons);
        }
        self.learned_of = Some(LearnedOf {
            pool: self.pool.clone(),
            own,
            key,
            day: self.day,
        });
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
