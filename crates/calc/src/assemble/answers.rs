//! Questions for searches and draws, each with a key of its own, and the answers that are kept.

use alloc::collections::BTreeMap;
use alloc::sync::Arc;
use alloc::vec::Vec;

use super::draws::{DrawQuestion, DrawnLot};
use super::travel::{OrderQuestion, search_order};
use crate::packing::{Packed, PackingQuestion};
use crate::stop::Stop;

/// What one search or draw is asked; equal questions have equal answers, whatever job asks them.
#[derive(Clone, Debug, PartialEq)]
pub enum Question {
    /// The order of some holes.
    Order(OrderQuestion),
    /// The electrodes of a tube.
    Packing(PackingQuestion),
    /// The same in the table's order.
    /// The joint draw of the lot.
    Draw(Arc<DrawQuestion>),
}

/// What a search or draw found.
#[derive(Clone, Debug)]
pub struct Answer(Answered);

#[derive(Clone, Debug)]
enum Answered {
    Order(Arc<[u32]>),
    Packing(Arc<Packed>),
    Draw(Arc<[DrawnLot]>),
}

impl Question {
    /// Searches or draws, and asks `stop` now and then whether the answer is still wanted; a search
    /// that was stopped has none.
    ///
    /// Formula: those of [`crate::order::hole_order`] and [`crate::packing::electrodes_for_lot`]; the
    /// draw is [`crate::spread::DRAWS`] lots, from the streams
    /// of [`crate::spread::Factor`].
    ///
    /// - `stop`: true where nobody wants the answer any more.
    ///
    /// Result: what was found, or `None` where it was stopped.
    ///
    /// ```
    /// use quillbore_calc::assemble::{Answers, Question, figures, figures_now, questions};
    /// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
    /// # use shop::*;
    /// let (input, tables) = (job(vec![through(0.8, 20.0)]), tables());
    /// let mut answers = Answers::default();
    /// for question in questions(&input, &tables) {
    ///     let found = question.answer(&|| false).unwrap();
    ///     answers.put(question, found);
    /// }
    /// assert_eq!(figures(&input, &tables, &answers), figures_now(&input, &tables));
    /// // A draw that nobody wants ends without one.
    /// let asked = questions(&input, &tables);
    /// let draw = asked.iter().find(|asked| matches!(asked, Question::Draw(_))).unwrap();
    /// assert!(draw.answer(&|| true).is_none());
    /// ```
    ///
    /// Source: the functions named above.
    #[must_use]
    pub fn answer(&self, stop: Stop<'_>) -> Option<Answer> {
        Some(Answer(match self {
            Self::Order(asked) => Answered::Order(search_order(asked, stop)?.into()),
            Self::Packing(asked) => Answered::Packing(Arc::new(asked.answer(stop)?)),
            Self::Draw(asked) => Answered::Draw(asked.answer(stop)?.into()),
        }))
    }
}

/// Answers that are kept, by question; a job's figures take those to its own.
///
/// Formula: an answer is let go where none of the last 64 turns asked for it; each [`Self::note`] is a
/// turn.
///
/// ```
/// use quillbore_calc::assemble::{Answers, Question};
/// use quillbore_calc::assemble::questions;
/// use quillbore_calc::packing::{Effort, Electrode, HoleKind, PackingAsked};
/// let holes = [HoleKind { id: 7, reach_mm: 0.0, consume_mm: 60.0, count: 5 }];
/// let asked = |parts: u32| {
///     let holes = [HoleKind { count: 5 * parts, ..holes[0] }];
///     Question::Packing(PackingAsked::new(&holes, &Electrode::new(130.0), Effort::quick()).question)
/// };
/// let mut answers = Answers::default();
/// for parts in [1, 2] {
///     answers.put(asked(parts), asked(parts).answer(&|| false).unwrap());
/// }
/// let has = |answers: &Answers| [1, 2, 3].map(|parts| answers.has(&asked(parts)));
/// assert_eq!(has(&answers), [true, true, false]);
/// // One is asked for once more, then neither for 64 turns, and for a 65th.
/// answers.note(&[asked(1)]);
/// for _ in 0..63 {
///     answers.note(&[]);
/// }
/// assert_eq!(has(&answers), [true, true, false]);
/// answers.note(&[]);
/// assert_eq!(has(&answers), [true, false, false]);
/// answers.note(&[]);
/// assert_eq!(has(&answers), [false, false, false]);
/// // What answers another kind of question answers none.
/// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
/// # use shop::*;
/// let of_job = questions(&job(vec![through(0.8, 20.0)]), &tables());
/// let draw = of_job.into_iter().find(|question| matches!(question, Question::Draw(_))).unwrap();
/// answers.put(draw.clone(), asked(1).answer(&|| false).unwrap());
/// assert!(!answers.has(&draw));
/// ```
///
/// Source: ours.
#[derive(Clone, Debug, Default)]
pub struct Answers {
    orders: BTreeMap<OrderQuestion, Kept<Arc<[u32]>>>,
    packings: BTreeMap<PackingQuestion, Kept<Arc<Packed>>>,
    draws: Vec<KeptDraw>,
    /// How often anybody has told what is asked.
    turn: u64,
}

/// A draw's question is too large to be sorted by, and there are few.
type KeptDraw = (Arc<DrawQuestion>, Kept<Arc<[DrawnLot]>>);

/// An answer, and when it was last asked for.
#[derive(Clone, Debug)]
struct Kept<T> {
    answer: T,
    turn: u64,
}

/// An answer that was not asked for in so many turns is let go: so far back undo finds it.
const TURNS: u64 = 64;

impl Answers {
    /// Keeps an answer.
    ///
    /// - `question`: what was asked.
    /// - `answer`: what it came to; one to another kind of question is not kept.
    pub fn put(&mut self, question: Question, answer: Answer) {
        let turn = self.turn;
        match (question, answer.0) {
            (Question::Order(asked), Answered::Order(answer)) => {
                self.orders.insert(asked, Kept { answer, turn });
            }
            (Question::Packing(asked), Answered::Packing(answer)) => {
                self.packings.insert(asked, Kept { answer, turn });
            }
            (Question::Draw(asked), Answered::Draw(answer)) => {
                self.draws.retain(|(other, _)| *other != asked);
                self.draws.push((asked, Kept { answer, turn }));
            }
            // What answers another kind of question answers none.
            _ => {}
        }
    }

    /// Whether a question has its answer here.
    ///
    /// - `question`: what is asked, by its value.
    ///
    /// Result: true where it has.
    #[must_use]
    pub fn has(&self, question: &Question) -> bool {
        match question {
            Question::Order(asked) => self.orders.contains_key(asked),
            Question::Packing(asked) => self.packings.contains_key(asked),
            Question::Draw(asked) => self.draw(asked).is_some(),
        }
    }

    /// Notes what is asked now; answers that nobody asked for in a long time are let go.
    ///
    /// - `asked`: all that is asked now, whether it has its answer or not.
    pub fn note(&mut self, asked: &[Question]) {
        self.turn += 1;
        let turn = self.turn;
        for question in asked {
            let last = match question {
                Question::Order(asked) => self.orders.get_mut(asked).map(|kept| &mut kept.turn),
                Question::Packing(asked) => self.packings.get_mut(asked).map(|kept| &mut kept.turn),
                Question::Draw(asked) => {
                    let mut draws = self.draws.iter_mut();
                    let found = draws.find(|(other, _)| other == asked);
                    found.map(|(_, kept)| &mut kept.turn)
                }
            };
            if let Some(last) = last {
                *last = turn;
            }
        }
        let oldest = turn.saturating_sub(TURNS);
        self.orders.retain(|_, kept| kept.turn >= oldest);
        self.packings.retain(|_, kept| kept.turn >= oldest);
        self.draws.retain(|(_, kept)| kept.turn >= oldest);
    }

    pub(super) fn order(&self, asked: &OrderQuestion) -> Option<&[u32]> {
        self.orders.get(asked).map(|kept| &*kept.answer)
    }

    pub(super) fn packing(&self, asked: &PackingQuestion) -> Option<&Packed> {
        self.packings.get(asked).map(|kept| &*kept.answer)
    }

    pub(super) fn draw(&self, asked: &DrawQuestion) -> Option<&[DrawnLot]> {
        let found = self.draws.iter().find(|(other, _)| **other == *asked);
        found.map(|(_, kept)| &*kept.answer)
    }
}
