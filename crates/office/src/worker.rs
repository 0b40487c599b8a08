//! Searches and draws on a thread of their own: what is wanted most is looked for first, and what
//! nobody wants any more is stopped.

use std::collections::VecDeque;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};

use quillbore_calc::assemble::{Answer, Question};
use quillbore_calc::stop::never;

/// Answers questions beside the window.
pub struct Worker(Way);

enum Way {
    /// On a thread.
    Thread {
        board: Arc<Board>,
        answers: Receiver<(Question, Answer)>,
    },
    /// At once, where it is asked: for tests and for commands without a window.
    AtOnce(Vec<(Question, Answer)>),
}

/// What is wanted, for the window to write and for the thread to read.
#[derive(Default)]
struct Board {
    wanted: Mutex<Wanted>,
    changed: Condvar,
    /// What the thread is looking for is not wanted any more.
    stopped: AtomicBool,
}

#[derive(Default)]
struct Wanted {
    /// What is to be looked for next comes first.
    open: VecDeque<Question>,
    /// What the thread is looking for.
    current: Option<Question>,
    /// The window has gone.
    over: bool,
}

impl Worker {
    /// A worker on a thread, which calls `wake` whenever an answer is there.
    #[must_use]
    pub fn on_thread(wake: impl Fn() + Send + 'static) -> Self {
        let board = Arc::new(Board::default());
        let (give, answers) = channel();
        let its_own = Arc::clone(&board);
        std::thread::spawn(move || its_own.work(&give, &wake));
        Self(Way::Thread { board, answers })
    }

    /// A worker that answers where it is asked.
    #[must_use]
    pub const fn at_once() -> Self {
        Self(Way::AtOnce(Vec::new()))
    }

    /// Wants these answers, the most urgent first, and no others any more.
    pub fn want(&mut self, questions: Vec<Question>) {
        match &mut self.0 {
            Way::AtOnce(answered) => {
                let answer = |question: Question| {
                    let answer = question.answer(&never)?;
                    Some((question, answer))
                };
                answered.extend(questions.into_iter().filter_map(answer));
            }
            Way::Thread { board, .. } => board.want(questions),
        }
    }

    /// What has been answered since the last look.
    pub fn answers(&mut self) -> Vec<(Question, Answer)> {
        match &mut self.0 {
            Way::AtOnce(answered) => std::mem::take(answered),
            Way::Thread { answers, .. } => answers.try_iter().collect(),
        }
    }
}

impl Drop for Worker {
    fn drop(&mut self) {
        if let Way::Thread { board, .. } = &self.0 {
            board.wanted().over = true;
            board.stopped.store(true, Ordering::Relaxed);
            board.changed.notify_all();
        }
    }
}

impl Board {
    /// Nothing that holds this lock can panic, so a poisoned one is as good as any.
    fn wanted(&self) -> MutexGuard<'_, Wanted> {
        self.wanted.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn want(&self, questions: Vec<Question>) {
        let mut wanted = self.wanted();
        let (current, open): (Vec<_>, Vec<_>) = questions
            .into_iter()
            .partition(|question| wanted.current.as_ref() == Some(question));
        // What is being looked for goes on, where it is wanted still.
        if wanted.current.is_some() {
            self.stopped.store(current.is_empty(), Ordering::Relaxed);
        }
        wanted.open = open.into();
        self.changed.notify_all();
    }

    fn work(&self, give: &Sender<(Question, Answer)>, wake: &dyn Fn()) {
        while let Some(question) = self.next() {
            let answer = question.answer(&|| self.stopped.load(Ordering::Relaxed));
            self.wanted().current = None;
            if let Some(answer) = answer {
                if give.send((question, answer)).is_err() {
                    return;
                }
                wake();
            }
        }
    }

    /// The next question, once there is one; none when the window has gone.
    fn next(&self) -> Option<Question> {
        let mut wanted = self.wanted();
        loop {
            if wanted.over {
                return None;
            }
            if let Some(question) = wanted.open.pop_front() {
                self.stopped.store(false, Ordering::Relaxed);
                wanted.current = Some(question.clone());
                return Some(question);
            }
            wanted = self
                .changed
                .wait(wanted)
                .unwrap_or_else(PoisonError::into_inner);
        }
    }
}

#[cfg(test)]
mod tests {
    use quillbore_calc::assemble::{Answers, figures_now, questions};
    use quillbore_job::to_input::to_input;
    use quillbore_job::{CellAt, Column, Edit, Field, Job, Shop, Unit, apply};

    use super::*;

    /// Hundreds of unlike holes, so that a packing takes its time.
    fn asked(rows: usize) -> Vec<Question> {
        let shop = Shop::embedded().expect("the shop");
        let field = |job: &Job, field: Field, text: &str| {
            let text = text.to_owned();
            let unit = Unit::Mm;
            let edit = Edit::SetField { field, text, unit };
            apply(job, &edit).expect("an edit").0
        };
        let job = field(&Job::default(), Field::Material, "Alloy steel 4340");
        let job = field(&field(&job, Field::Machine, "Barrow"), Field::Quantity, "7");
        let cells = (0..rows).map(|row| {
            let depth = 5.0 + (row * 37 % 301) as f64 * 0.13;
            let texts = ["", "3", "1.0 +-0.05", &format!("{depth:.2}")].map(str::to_owned);
            texts.map(Some).to_vec()
        });
        let edit = Edit::SetCells {
            at: CellAt {
                row: 0,
                column: Column::Mark,
            },
            rows: cells.collect(),
            unit: Unit::Mm,
        };
        let job = apply(&job, &edit).expect("the rows").0;
        let input = to_input(&job, shop).input;
        assert!(figures_now(&input, &shop.tables).price.is_some());
        questions(&input, &shop.tables)
    }

    #[test]
    fn every_question_is_answered_once_as_it_is_at_once() {
        let asked = asked(9);
        let (tell, told) = channel();
        let mut worker = Worker::on_thread(move || {
            let _ = tell.send(());
        });
        worker.want(asked.clone());
        let mut found = Vec::new();
        while found.len() < asked.len() {
            told.recv().expect("the worker goes on");
            found.extend(worker.answers());
        }
        assert!(found.iter().map(|(question, _)| question).eq(&asked));
        let mut at_once = Worker::at_once();
        at_once.want(asked);
        let text = |found: &[(Question, Answer)]| format!("{found:?}");
        assert_eq!(text(&found), text(&at_once.answers()));
    }

    #[test]
    fn what_is_not_wanted_any_more_is_stopped_and_has_no_answer() {
        let (long, short) = (asked(400), asked(5));
        let (tell, told) = channel();
        let mut worker = Worker::on_thread(move || {
            let _ = tell.send(());
        });
        // The last one wanted wins, however often somebody changes his mind.
        for _ in 0..50 {
            worker.want(long.clone());
            worker.want(short.clone());
        }
        let mut answers = Answers::default();
        while !short.iter().all(|question| answers.has(question)) {
            told.recv().expect("the worker goes on");
            for (question, answer) in worker.answers() {
                answers.put(question, answer);
            }
        }
        assert!(!long.iter().all(|question| answers.has(question)));
    }
}
