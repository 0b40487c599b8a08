//! What the last run of this work taught: read before anything is set up.

use quillbore_job::{Field, Line, SlipKind};

use crate::flow::Flow;
use crate::look::{BODY, STRONG};
use crate::matter::Matter;
use crate::opening::day;
use crate::side::side;
use crate::words::lessons as words;
use crate::wrap::Span;

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

/// What earlier runs of this very job taught.
fn own_runs(matter: &Matter<'_>) -> Vec<String> {
    let runs = matter.job.slips(SlipKind::Run);
    let mut told: Vec<String> = Vec::new();
    for run in runs {
        for line in [Line::NextTime, Line::Trouble, Line::Settings] {
            let text = run.text(line).replace('\n', " ");
            if text.is_empty() {
                continue;
            }
            let said = words::of_run(line, run.text(Line::Mark), &day(run, Line::Date), &text);
            if !told.contains(&said) {
                told.push(said);
            }
        }
    }
    told
}
