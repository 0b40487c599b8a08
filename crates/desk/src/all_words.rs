//! Every word that does something, in one list, found as one types: for those who work by keyboard.

use egui::Context;
use quillbore_job::words::slips;
use quillbore_job::{Paper, SlipKind};

use crate::actions::Action;
use crate::view::Ask;

/// A word that does something.
#[derive(Clone, Debug, PartialEq)]
pub struct Word {
    /// The word.
    pub word: String,
    /// Its keys, where it has some.
    pub keys: String,
    /// What it does.
    pub ask: Ask,
}

/// The words that have every part of what is typed, in the order of the list.
#[must_use]
pub fn found(typed: &str, ctx: &Context) -> Vec<Word> {
    let typed = typed.to_lowercase();
    let fits = |word: &Word| {
        let name = word.word.to_lowercase();
        typed.split_whitespace().all(|part| name.contains(part))
    };
    all(ctx).into_iter().filter(fits).collect()
}

fn all(ctx: &Context) -> Vec<Word> {
    let actions = Action::ALL
        .iter()
        .filter(|action| **action != Action::AllWords)
        .map(|action| Word {
            word: action.word().to_owned(),
            keys: action
                .keys()
                .first()
                .map_or_else(String::new, |keys| ctx.format_shortcut(keys)),
            ask: Ask::Do(*action),
        });
    let slips = SlipKind::ALL.iter().map(|kind| Word {
        word: format!("write down {}", slips::kind(*kind)),
        keys: String::new(),
        ask: Ask::Pin(*kind),
    });
    let laid_out = Paper::ALL.iter().map(|paper| Word {
        word: format!("lay out {}", slips::paper(*paper)),
        keys: String::new(),
        ask: Ask::LayOut(*paper),
    });
    let issued = Paper::ALL.iter().map(|paper| Word {
        word: format!("issue {}", slips::paper(*paper)),
        keys: String::new(),
        ask: Ask::Issue(*paper),
    });
    actions.chain(slips).chain(laid_out).chain(issued).collect()
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
            let found = found(&word.word, &ctx);
            assert!(found.iter().any(|other| other == word), "{}", word.word);
        }
        assert!(found("no such word", &ctx).is_empty());
    }
}
