//! When the floor stops and calls.

use std::collections::BTreeMap;

use quillbore_calc::RowId;
use quillbore_calc::input::Ends;
use quillbore_job::Field;

use super::basis;
use super::lengths::ends;
use crate::matter::Matter;
use crate::page::mm;
use crate::shown;
use crate::typeset::flow::Flow;
use crate::typeset::look::{BODY, STRONG};
use crate::typeset::side::side;
use crate::words::traveler::limits as words;

/// The least that a rule tells between two lengths [mm]; common practice, no source.
const RULE_MM: f64 = 0.5;

pub(super) fn stop_if(matter: &Matter<'_>, flow: &mut Flow) {
    side(flow, words::NAME, |flow| {
        for line in matter
            .text(Field::StopIf)
            .lines()
            .filter(|line| !line.trim().is_empty())
        {
            flow.text(STRONG, line.trim());
        }
        flow.text(BODY, words::STOP_IF_LEAD);
        let mut holes = matter.figures.holes.iter();
        let both_ends = holes.any(|hole| hole.ends == Some(Ends::Both));
        let mut list: Vec<String> = words::stop_if(matter.kinds(), both_ends)
            .into_iter()
            .map(str::to_owned)
            .collect();
        let used = wear(matter);
        if !used.is_empty() {
            list.push(words::used_up(&used.join("; "), basis::rests_on(matter)));
        }
        flow.dashes(BODY, list.iter().map(String::as_str));
        flow.text(BODY, words::THEN);
        flow.take(mm(0.8));
    });
}

/// The wear of one hole to stop at and what is planned, row by row; rows alike are named together.
fn wear(matter: &Matter<'_>) -> Vec<String> {
    let unit = matter.job.unit;
    let mut groups: Vec<(String, Vec<RowId>)> = Vec::new();
    let mut known: BTreeMap<String, usize> = BTreeMap::new();
    for hole in matter.holes() {
        let Some(figures) = hole.figures else {
            continue;
        };
        let (Some(usual), Some(high)) = (figures.wear_mm, figures.wear_high_mm) else {
            continue;
        };
        let of_end = f64::from(ends(figures));
        let (usual, high) = (usual / of_end, high / of_end);
        let most = high.max(usual + RULE_MM);
        let decimals = shown::middling(unit) - 1;
        let shown = |mm| shown::with_unit(matter.form(), mm, unit, decimals);
        let text = words::wear(&shown(most), &shown(usual), of_end > 1.0);
        match known.get(&text) {
            Some(at) => groups[*at].1.push(hole.row.id),
            None => {
                known.insert(text.clone(), groups.len());
                groups.push((text, vec![hole.row.id]));
            }
        }
    }
    groups
        .into_iter()
        .map(|(text, marks)| words::of_marks(&matter.marks(marks), &text))
        .collect()
}
