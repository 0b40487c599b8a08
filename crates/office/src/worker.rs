//! Slow answers on a thread of their own: the latest question wins, an equal one is not asked twice.

use std::sync::mpsc::{Receiver, Sender, channel};

/// Answers questions beside the window.
pub struct Worker<Q, A> {
    way: Way<Q, A>,
    asked: Option<Q>,
    answered: Option<(Q, A)>,
}

enum Way<Q, A> {
    /// On a thread.
    Thread {
        questions: Sender<Q>,
        answers: Receiver<(Q, A)>,
    },
    /// At once, where it is asked: for tests and for commands without a window.
    AtOnce(fn(&Q) -> A),
}

impl<Q: Clone + PartialEq + Send + 'static, A: Send + 'static> Worker<Q, A> {
    /// A worker on a thread, which calls `wake` whenever an answer is there.
    #[must_use]
    pub fn on_thread(answer: fn(&Q) -> A, wake: impl Fn() + Send + 'static) -> Self {
        let (questions, to_answer) = channel::<Q>();
        let (give, answers) = channel();
        std::thread::spawn(move || {
            while let Ok(mut question) = to_answer.recv() {
                while let Ok(later) = to_answer.try_recv() {
                    question = later;
                }
                let answer = answer(&question);
                if give.send((question, answer)).is_err() {
                    return;
                }
                wake();
            }
        });
        Self {
            way: Way::Thread { questions, answers },
            asked: None,
            answered: None,
        }
    }

    /// A worker that answers where it is asked.
    #[must_use]
    pub fn at_once(answer: fn(&Q) -> A) -> Self {
        Self {
            way: Way::AtOnce(answer),
            asked: None,
            answered: None,
        }
    }

    /// Asks, unless the same was asked last.
    pub fn ask(&mut self, question: Q) {
        if self.asked.as_ref() == Some(&question) {
            return;
        }
        self.asked = Some(question.clone());
        match &self.way {
            Way::AtOnce(answer) => {
                let answer = answer(&question);
                self.answered = Some((question, answer));
            }
            Way::Thread { questions, .. } => {
                // The thread ends only with the window.
                let _ = questions.send(question);
            }
        }
    }

    /// Takes in what has been answered; true if something has.
    pub fn poll(&mut self) -> bool {
        let Way::Thread { answers, .. } = &self.way else {
            return false;
        };
        let mut any = false;
        for answer in answers.try_iter() {
            self.answered = Some(answer);
            any = true;
        }
        any
    }

    /// The answer to this very question, if it is there.
    #[must_use]
    pub fn answer_to(&self, question: &Q) -> Option<&A> {
        self.answered
            .as_ref()
            .filter(|(answered, _)| answered == question)
            .map(|(_, answer)| answer)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn twice(n: &u32) -> u32 {
        n * 2
    }

    #[test]
    fn only_the_answer_to_the_question_asked_is_given() {
        let mut worker = Worker::at_once(twice);
        worker.ask(3);
        assert_eq!(worker.answer_to(&3), Some(&6));
        assert_eq!(worker.answer_to(&4), None);
    }

    #[test]
    fn the_last_of_several_questions_is_answered() {
        let (tell, told) = channel();
        let mut worker = Worker::on_thread(twice, move || {
            let _ = tell.send(());
        });
        for n in 1..=50 {
            worker.ask(n);
        }
        while worker.answer_to(&50).is_none() {
            told.recv()
                .expect("the worker goes on until it has answered");
            worker.poll();
        }
        assert_eq!(worker.answer_to(&50), Some(&100));
    }
}
