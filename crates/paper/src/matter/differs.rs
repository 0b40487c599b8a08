//! What differs in the orders of a job from what was offered or planned.

use quillbore_job::order::{self, Difference, Topic};
use quillbore_job::slip::{kind, line};

use super::Matter;

/// What differs in one order, and how that was settled.
pub(crate) struct Differs {
    /// The differences that were settled alike.
    pub(crate) said: Vec<String>,
    /// Who accepted them and why, or that nobody has.
    pub(crate) settled: String,
}

/// What differs in the orders on topics that a paper is about, accepted and open apart.
pub(crate) fn of(matter: &Matter<'_>, about: impl Fn(Topic) -> bool) -> Vec<Differs> {
    let words = &matter.words().order;
    let mut all = Vec::new();
    for order in matter.job.slips_of::<kind::Order>() {
        let found = order::differences(matter.job, order).into_iter();
        let found = found.filter(|difference| about(difference.topic()));
        let (accepted, open): (Vec<_>, Vec<_>) =
            found.partition(|difference| order::is_accepted(order, difference));
        let by = (words.accepted)(order.get(line::Accepted));
        let of = |found: &[Difference], settled: &str| Differs {
            said: (found.iter())
                .map(|difference| (words.difference)(matter.form(), difference))
                .collect(),
            settled: settled.to_owned(),
        };
        all.push(of(&accepted, &by));
        all.push(of(&open, words.not_accepted));
    }
    all.retain(|differs| !differs.said.is_empty());
    all
}
