//! What was agreed with the customer on paying, delivery and clauses, on the papers that offer and
//! confirm.

use quillbore_job::Field;

use crate::matter::Matter;
use crate::typeset::flow::Flow;
use crate::typeset::look::BODY;
use crate::typeset::side::side;

/// Sets what was agreed, of several jobs once where it is the same; nothing where nothing was.
pub(super) fn set(matters: &[Matter<'_>], flow: &mut Flow) {
    let said: Vec<Vec<String>> = matters.iter().map(terms).collect();
    let is_same = said.windows(2).all(|pair| pair[0] == pair[1]);
    let lines: Vec<String> = if is_same {
        said.into_iter().next().unwrap_or_default()
    } else {
        let each = matters.iter().zip(said);
        each.flat_map(|(matter, said)| {
            let part = matter.part_offered();
            said.into_iter().map(move |line| format!("{part}: {line}"))
        })
        .collect()
    };
    if lines.is_empty() {
        return;
    }
    let Some(words) = matters.first().map(|first| &first.words().agreed) else {
        return;
    };
    side(flow, words.title, |flow| {
        flow.dashes(BODY, lines.iter().map(String::as_str));
        flow.text(BODY, words.go_first);
    });
}

fn terms(matter: &Matter<'_>) -> Vec<String> {
    let words = &matter.words().agreed;
    let said = |field, say: fn(&str) -> String| {
        let text = matter.text(field);
        (!text.is_empty()).then(|| say(text))
    };
    let mut terms = Vec::new();
    terms.extend(said(Field::Payment, words.payment));
    terms.extend(said(Field::Delivery, words.delivery));
    let clauses = matter.text(Field::Clauses).lines().map(str::trim);
    terms.extend(clauses.filter(|line| !line.is_empty()).map(str::to_owned));
    terms
}
