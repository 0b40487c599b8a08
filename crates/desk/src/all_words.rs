//! Every word that does something, in one list, found as one types: for those who work by keyboard.

use egui::Context;
use quillbore_calc::RowId;
use quillbore_job::answer::How;
use quillbore_job::concern::Concern;
use quillbore_job::results::Results;
use quillbore_job::words::{answers, slips};
use quillbore_job::{Job, Paper, SlipKind};
use quillbore_paper::BlankForm;

use crate::actions::Action;
use crate::sheet::answer::settling;
use crate::view::{Answering, Ask};
use crate::words::{commands as words, papers, slips::slip};

/// A word that does something.
#[derive(Clone, Debug, PartialEq)]
pub struct Command {
    /// The word.
    pub word: String,
    /// Its keys, where it has some.
    pub keys: String,
    /// Among which others it stands.
    pub group: Group,
    /// What it does.
    pub ask: Ask,
}

/// What commands that stand together are about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Group {
    /// The job as a whole.
    Job,
    /// What stands beside it on the desk, and the looks of the window.
    Window,
    /// Slips that are added.
    Add,
    /// Papers that are looked at.
    Preview,
    /// Papers that are issued.
    Issue,
    /// What is settled or answered.
    Answer,
}

/// The words that have every part of what is typed, in the order of the list; `of_job` are those that
/// the open job has for itself.
#[must_use]
pub fn found(typed: &str, ctx: &Context, of_job: &[Command]) -> Vec<Command> {
    let typed = typed.to_lowercase();
    let fits = |word: &Command| {
        let name = word.word.to_lowercase();
        typed.split_whitespace().all(|part| name.contains(part))
    };
    let all = all(ctx).into_iter().chain(of_job.iter().cloned());
    all.filter(fits).collect()
}

/// The words of a job: what settles its slips, and the answers to all that its side notes ask.
#[must_use]
pub fn of_job(job: &Job, results: &Results) -> Vec<Command> {
    let mut words: Vec<Command> = Vec::new();
    for (id, line) in results.notes.iter().filter_map(|note| note.settled_by) {
        let (word, ask) = settling(job, id, line);
        let kind = job
            .slip(id)
            .map_or(words::SLIP, |slip| slips::kind(slip.kind));
        let word = Command {
            word: words::settle(word, &slip(kind, id)),
            keys: String::new(),
            group: Group::Answer,
            ask,
        };
        if !words.contains(&word) {
            words.push(word);
        }
    }
    words.extend(asked(job, results).iter().flat_map(answering));
    words
}

/// What side notes ask of some rows, each with its name.
struct Asking {
    concern: Concern,
    rows: Vec<(RowId, String)>,
}

/// Everything that is asked and not answered: all rows of a concern together, then each by itself.
fn asked(job: &Job, results: &Results) -> Vec<Asking> {
    let open = results.found().unanswered;
    let named = |row: RowId| {
        let mark = job.row(row).map_or("", |row| row.mark.text().trim());
        let place = job.row_index(row).map_or(0, |index| index + 1);
        (row, words::row(mark, place))
    };
    let mut all = Vec::new();
    for &concern in Concern::ALL {
        let rows = open.iter().filter(|(asked, _)| *asked == concern);
        let rows: Vec<(RowId, String)> = rows.map(|(_, row)| named(*row)).collect();
        let each = rows.iter().map(|row| vec![row.clone()]);
        let together = (rows.len() > 1).then(|| rows.clone());
        let rows = together.into_iter().chain(each);
        all.extend(rows.map(|rows| Asking { concern, rows }));
    }
    all
}

/// The words that answer one of them.
fn answering(asking: &Asking) -> impl Iterator<Item = Command> {
    let about = match asking.rows.as_slice() {
        [(_, one)] => one.clone(),
        rows => words::all_rows(rows.len()),
    };
    let rows = asking.rows.iter();
    let questions: Vec<_> = rows.map(|(row, _)| (*row, asking.concern)).collect();
    let concern = answers::concern(asking.concern);
    How::ALL.iter().map(move |how| Command {
        word: words::answer(concern, &about, answers::how(*how)),
        keys: String::new(),
        group: Group::Answer,
        ask: Ask::Answer(Answering::new(questions.clone(), *how)),
    })
}

/// Among which others an action stands.
const fn group_of(action: Action) -> Group {
    if action.is_of_job() {
        Group::Job
    } else {
        Group::Window
    }
}

fn all(ctx: &Context) -> Vec<Command> {
    let actions = Action::ALL.iter();
    let of_job = actions.clone().filter(|action| action.is_of_job());
    let of_window = actions.filter(|action| !action.is_of_job());
    let actions = of_job
        .chain(of_window)
        .filter(|action| **action != Action::Commands)
        .map(|action| Command {
            word: words::action(*action).to_owned(),
            keys: action.told_keys(ctx),
            group: group_of(*action),
            ask: Ask::Do(*action),
        });
    let slips = SlipKind::ALL.iter().map(|kind| Command {
        word: words::add(slips::kind(*kind)),
        keys: String::new(),
        group: Group::Add,
        ask: Ask::Pin(*kind),
    });
    let runs = Command {
        word: words::RUNS_OF_MARKS.to_owned(),
        keys: String::new(),
        group: Group::Add,
        ask: Ask::RunsOfMarks,
    };
    let planned = Command {
        word: words::RUNS_OF_PLAN.to_owned(),
        keys: String::new(),
        group: Group::Add,
        ask: Ask::RunsOfPlan,
    };
    let laid_out = Paper::ALL.iter().map(|paper| Command {
        word: words::preview(slips::paper(*paper)),
        keys: String::new(),
        group: Group::Preview,
        ask: Ask::Preview(*paper),
    });
    let blank = BlankForm::ALL.iter().map(|form| Command {
        word: papers::blank(*form).to_owned(),
        keys: String::new(),
        group: Group::Preview,
        ask: Ask::BlankForm(*form),
    });
    let threading = Command {
        word: papers::THREADING.to_owned(),
        keys: String::new(),
        group: Group::Preview,
        ask: Ask::Threading,
    };
    let issued = Paper::ALL.iter().map(|paper| Command {
        word: words::issue(slips::paper(*paper)),
        keys: String::new(),
        group: Group::Issue,
        ask: Ask::Issue(*paper),
    });
    actions
        .chain(slips)
        .chain([runs, planned])
        .chain(laid_out)
        .chain(blank)
        .chain([threading])
        .chain(issued)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_word_stands_twice_and_every_one_is_found_by_itself() {
        let ctx = Context::default();
        let all = all(&ctx);
        for (at, word) in all.iter().enumerate() {
            assert!(all[at + 1..].iter().all(|other| other.word != word.word));
            let found = found(&word.word, &ctx, &[]);
            assert!(found.iter().any(|other| other == word), "{}", word.word);
        }
        assert!(found("no such word", &ctx, &[]).is_empty());
    }
}
