//! What the last run of this work taught: read before anything is set up.

use quillbore_job::Field;
use quillbore_job::slip::{LineOf, kind, line};

use crate::matter::Matter;
use crate::matter::day::day;
use crate::typeset::flow::Flow;
use crate::typeset::look::{BODY, STRONG};
use crate::typeset::side::side;
use crate::typeset::wrap::Span;
use crate::words::traveler::lessons as words;

pub(super) fn set(matter: &Matter<'_>, flow: &mut Flow) {
    let lessons: Vec<&str> = matter
        .text(Field::Lessons)
        .lines()
        .map(str::trim)
        .filter(|line| !line.is_empty())
        .collect();
    let own = own_runs(matter);
    let before = matter.text(Field::Again);
    if lessons.is_empty() && own.is_empty() && before.is_empty() {
        return;
    }
    side(flow, words::NAME, |flow| {
        if !before.is_empty() {
            let lead = Span::new(STRONG, words::JOB_BEFORE);
            flow.paragraph(&[lead, Span::new(BODY, before)], 0.0);
        }
        flow.dashes(STRONG, lessons.iter().copied());
        flow.dashes(BODY, own.iter().map(String::as_str));
    });
}

/// What a run taught, the most telling first.
const TAUGHT: [LineOf<kind::Run>; 3] = [
    LineOf::new(line::NextTime),
    LineOf::new(line::Trouble),
    LineOf::new(line::Settings),
];

/// What earlier runs of this very job taught.
fn own_runs(matter: &Matter<'_>) -> Vec<String> {
    let runs = matter.job.slips_of::<kind::Run>();
    let mut told: Vec<String> = Vec::new();
    for run in runs {
        for line in TAUGHT {
            let text = run.one_of(&line).text().trim().replace('\n', " ");
            if text.is_empty() {
                continue;
            }
            let said = words::of_run(
                line.line(),
                run.get(line::Mark),
                &day(matter.form(), run, line::Date),
                &text,
            );
            if !told.contains(&said) {
                told.push(said);
            }
        }
    }
    told
}
