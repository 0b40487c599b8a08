//! The course of the search: simple rules, bounds, whole columns, repacking, and of few holes every way;
//! each only while a gap is left.

use alloc::vec::Vec;
use core::cmp::Reverse;

use super::{
    bounds, columns,
    exact::every_way,
    first_fit::{best_of_all, longest_remnant, needed},
    group::Group,
    lot::Lot,
    repack::repack,
    terms::Effort,
    whole_columns::keep_whole,
};
use crate::dice::Dice;
use crate::stop::Stop;

/// The best plan found and the best bound; none where it was stopped.
pub(super) fn search(lot: &Lot, effort: &Effort, stop: Stop<'_>) -> Option<(Vec<Group>, u64)> {
    let mut dice = Dice::new(effort.seed);
    let mut best = best_of_all(lot);
    let mut at_least = bounds::volume(lot).max(bounds::martello_toth(lot));
    if effort.columns > 0 && needed(&best) > at_least {
        let columns = columns::generate(lot, &best, effort.columns, stop)?;
        at_least = at_least.max(columns.at_least);
        if needed(&best) > at_least {
            let (whole, rest) = keep_whole(lot, &columns);
            let enough = at_least.saturating_sub(needed(&whole));
            let groups = best_of_all(&rest);
            let mut plan = repack(&rest, groups, enough, effort.kicks, &mut dice, stop)?;
            plan.extend(whole);
            best = better(best, plan);
        }
    }
    if effort.kicks > 0 && needed(&best) > at_least {
        let groups = best.clone();
        let repacked = repack(lot, groups, at_least, effort.kicks, &mut dice, stop)?;
        best = better(best, repacked);
    }
    if effort.kicks > 0 && needed(&best) > at_least {
        let tried = every_way(lot, &best, stop)?;
        best = tried.fewer.unwrap_or(best);
        if tried.all {
            at_least = needed(&best);
        }
    }
    // The part-used electrode comes first, then the fullest; what is left over is at the end.
    best.sort_by_key(|group| (!group.part_used, group.remnant()));
    Some((best, at_least))
}

/// Fewer new electrodes, or else the longer single remnant.
fn better(left: Vec<Group>, right: Vec<Group>) -> Vec<Group> {
    let merit = |groups: &[Group]| (needed(groups), Reverse(longest_remnant(groups)));
    if merit(&right) < merit(&left) {
        right
    } else {
        left
    }
}
