//! What hangs on rows: overruled figures and answers to checks. It stays and goes with its row.

use std::collections::BTreeSet;

use quillbore_calc::RowId;

use super::clash::{Clash, Met, Side};
use super::keyed::{Pair, keyed};
use super::three::Three;
use crate::job::Job;
use crate::pinned::answer::Answer;
use crate::typed::overrule::Overrule;

/// The overruled figures of both desks, for the rows of the merged job.
pub(super) fn overrules(three: &Three, merged: &Job, clashes: &mut Vec<Clash>) -> Vec<Overrule> {
    hung(
        three,
        merged,
        |job| &job.overrules,
        |overrule| overrule.figure.clone(),
        |overrule| overrule.figure.row(),
        |figure, met| clashes.push(Clash::Overrule(figure, met)),
    )
}

/// The answers of both desks, for the rows of the merged job.
pub(super) fn answers(three: &Three, merged: &Job, clashes: &mut Vec<Clash>) -> Vec<Answer> {
    hung(
        three,
        merged,
        |job| &job.answers,
        |answer| (answer.row, answer.concern),
        |answer| Some(answer.row),
        |(row, concern), met| clashes.push(Clash::Answer(row, concern, met)),
    )
}

fn hung<K: Ord + Clone, V: Clone + PartialEq>(
    three: &Three,
    merged: &Job,
    list: impl Fn(&Job) -> &Vec<V>,
    key: impl Fn(&V) -> K,
    row: impl Fn(&V) -> Option<RowId>,
    mut tell: impl FnMut(K, Met<V>),
) -> Vec<V> {
    let rows = |job: &Job| -> BTreeSet<RowId> { job.rows.iter().map(|row| row.id).collect() };
    let (base, here, there) = (rows(&three.base), rows(&three.ours), rows(&three.theirs));
    // Who took a row out took back nothing of what hung on it: where the row stays, so does that.
    let with_rows = |job: &Job, has: &BTreeSet<RowId>| -> Vec<V> {
        let went =
            |old: &&V| row(old).is_some_and(|row| base.contains(&row) && !has.contains(&row));
        let went = list(&three.base).iter().filter(went);
        list(job).iter().chain(went).cloned().collect()
    };
    let ours = with_rows(&three.ours, &here);
    let theirs = with_rows(&three.theirs, &there);
    let all = [list(&three.base).as_slice(), &ours, &theirs];
    let mut merged_list = keyed(all, &key, |_, pair| match pair {
        Pair::Both(ours, theirs) => {
            tell(key(ours), Met::Theirs(theirs.clone()));
            ours.clone()
        }
        Pair::TakenOut(by, kept) => {
            tell(key(kept), Met::TakenBack(by));
            kept.clone()
        }
    });
    let stay = rows(merged);
    merged_list.retain(|one| {
        let went = |row: &RowId| {
            let was = base.contains(row) || here.contains(row) || there.contains(row);
            was && !stay.contains(row)
        };
        let Some(id) = row(one).filter(went) else {
            return true;
        };
        // What its row's own desk gave it after the other had gone out of step is lost; what stood
        // there before went with the row.
        if !list(&three.base).contains(one) {
            let (of, had) = if here.contains(&id) {
                (Side::Ours, &three.ours)
            } else {
                (Side::Theirs, &three.theirs)
            };
            let mark = had.row(id).map_or("", |row| row.mark.text().trim());
            let mark = mark.to_owned();
            let lost = one.clone();
            tell(key(one), Met::RowGone { mark, of, lost });
        }
        false
    });
    merged_list
}
