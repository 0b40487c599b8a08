//! Rows and slips of ours whose identities the other desk has given to something else.

use std::collections::BTreeMap;
use std::sync::Arc;

use quillbore_calc::RowId;

use super::refused::MergeRefused;
use crate::job::Job;
use crate::pinned::slip::pinned::Slip;
use crate::typed::row::Row;

/// Our job with new identities for the new rows and slips that share theirs with something else of
/// theirs; what hangs on a row goes with it.
pub(super) fn made_new(base: &Job, ours: Job, theirs: &Job) -> Result<Job, MergeRefused> {
    let mut ours = ours;
    let there: BTreeMap<RowId, &Arc<Row>> = theirs.rows.iter().map(|row| (row.id, row)).collect();
    let mut next = base.next_row.max(ours.next_row).max(theirs.next_row);
    let mut renumbered: BTreeMap<RowId, RowId> = BTreeMap::new();
    for row in &mut ours.rows {
        // An identity from before both is one row; one that they gave out and we did too is two,
        // unless the same stands there: then it is one that was saved before.
        let given = base.next_row..theirs.next_row;
        if given.contains(&row.id.0) && there.get(&row.id) != Some(&&*row) {
            let id = RowId(take(&mut next)?);
            renumbered.insert(row.id, id);
            Arc::make_mut(row).id = id;
        }
    }
    ours.next_row = next;
    let of = |row: RowId| renumbered.get(&row).copied().unwrap_or(row);
    for overrule in &mut ours.overrules {
        overrule.figure = overrule.figure.renumbered(of);
    }
    for answer in &mut ours.answers {
        answer.row = of(answer.row);
    }
    let there: BTreeMap<u32, &Arc<Slip>> =
        theirs.slips.iter().map(|slip| (slip.id, slip)).collect();
    let mut next = base.next_slip.max(ours.next_slip).max(theirs.next_slip);
    for slip in &mut ours.slips {
        let given = base.next_slip..theirs.next_slip;
        let other = there.get(&slip.id).copied();
        // Slips of two kinds have no lines that could be put together.
        let other_kind = other.is_some_and(|other| other.kind != slip.kind);
        if other_kind || (given.contains(&slip.id) && other != Some(&*slip)) {
            Arc::make_mut(slip).id = take(&mut next)?;
        }
    }
    ours.next_slip = next;
    Ok(ours)
}

/// An identity that nobody has had; the next one must be a number too.
fn take(next: &mut u32) -> Result<u32, MergeRefused> {
    let id = *next;
    *next = id.checked_add(1).ok_or(MergeRefused::IdentitiesRunOut)?;
    Ok(id)
}
