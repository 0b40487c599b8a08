//! Slips, line by line.

use std::sync::Arc;

use super::clash::Clash;
use super::keyed::{Pair, entries, keyed};
use super::three::Three;
use crate::pinned::slip::lists::Line;
use crate::pinned::slip::pinned::Slip;

/// The slips of both desks: those that only one has are in no other's way.
pub(super) fn merged(three: &Three, clashes: &mut Vec<Clash>) -> Vec<Arc<Slip>> {
    keyed(
        three.each(|job| job.slips.as_slice()),
        |slip| slip.id,
        |base, pair| match pair {
            Pair::Both(ours, theirs) => Arc::new(lines(base, ours, theirs, clashes)),
            Pair::TakenOut(by, kept) => {
                clashes.push(Clash::Slip(kept.id, by));
                Arc::clone(kept)
            }
        },
    )
}

fn lines(base: Option<&Arc<Slip>>, ours: &Slip, theirs: &Slip, clashes: &mut Vec<Clash>) -> Slip {
    let empty = Arc::default();
    let base = base.map_or(&empty, |base| &base.lines);
    // A line that nobody types is about the one before it: an acceptance and what was accepted.
    let groups = ours.kind.lines().chunk_by(|_, line| !line.is_typed());
    let all = [base, &ours.lines, &theirs.lines].map(Arc::as_ref);
    let measured = |line: Line| line.kind().is_measured();
    let lines = entries(groups, measured, all, |line, lost| {
        clashes.push(Clash::Line(ours.id, line, lost));
    });
    Slip {
        lines: Arc::new(lines),
        ..ours.clone()
    }
}
