//! One length of a tube for the whole lot, where that costs less than each row's own.
//!
//! A row by itself takes the length that is cheapest for its own holes. Rows that share a diameter
//! could share electrodes: so each length of the tube is tried for all of them together, and taken
//! where the lot costs less with it.

use alloc::collections::BTreeMap;
use alloc::sync::Arc;
use alloc::vec::Vec;

use super::demand::{Demand, Dressing};
use super::rows::{Drilled, KeptRow, Planned, Planner};
use crate::hole::{Context, Draw};
use crate::idx::Idx;
use crate::input::RowInput;
use crate::quantity::Pace;
use crate::tables::{Tables, Tube, TubeMaterial};

/// Deviates of the wear at which lengths are compared: the middles of three equally likely thirds.
const WEAR_Z: [f64; 3] = [-0.967_421_566_101_701, 0.0, 0.967_421_566_101_701];

/// What must be saved to leave each row's own length [currency]; keeps equals as they are.
const WORTH_IT: f64 = 1e-6;

/// What tells one tube from another apart from its length.
type TubeKind = (u64, TubeMaterial, bool);

/// The rows of each kind of tube by themselves, and the one length that they were given.
#[derive(Default)]
pub(super) struct KeptLengths(BTreeMap<TubeKind, Shared>);

struct Shared {
    members: Vec<Arc<Drilled>>,
    /// The length that all of them take, where that is cheaper.
    taken: Option<Idx<Tube>>,
}

impl KeptLengths {
    /// What each row comes to, with the one length that costs the lot least where rows of one kind of
    /// tube have a length each.
    pub(super) fn plan(
        &mut self,
        rows: &mut [KeptRow],
        asked: &[RowInput],
        planner: &Planner<'_>,
    ) -> Vec<Planned> {
        let tables = planner.tables();
        let mut planned: Vec<Planned> = rows.iter().map(|row| row.own().clone()).collect();
        let mut kinds: BTreeMap<TubeKind, Vec<usize>> = BTreeMap::new();
        for (at, (row, asked)) in rows.iter().zip(asked).enumerate() {
            let tube = row.own().drilled.as_ref().map(|drilled| drilled.tube);
            let tube = tube.and_then(|tube| tube.of(&tables.tubes));
            if let (Some(tube), false) = (tube, asked.tube.is_some()) {
                kinds.entry(kind(tube)).or_default().push(at);
            }
        }
        let mut before = core::mem::take(&mut self.0);
        for (of, places) in kinds {
            let members = || {
                places
                    .iter()
                    .filter_map(|&at| rows[at].own().drilled.as_ref())
            };
            let known = before
                .remove(&of)
                .filter(|known| same(&known.members, members()));
            let shared = known.unwrap_or_else(|| {
                let members: Vec<Arc<Drilled>> = members().cloned().collect();
                Shared {
                    taken: one_length(of, &members, planner),
                    members,
                }
            });
            if let Some(tube) = shared.taken {
                for at in places {
                    planned[at] = rows[at].with(tube, &asked[at], planner);
                }
            }
            self.0.insert(of, shared);
        }
        planned
    }
}

/// Whether these are the same rows; equal rows are the same ones as long as they were taken over.
pub(super) fn same<'a>(
    before: &[Arc<Drilled>],
    mut now: impl Iterator<Item = &'a Arc<Drilled>>,
) -> bool {
    let mut all = before.iter();
    let alike = all.all(|before| now.next().is_some_and(|now| Arc::ptr_eq(before, now)));
    alike && now.next().is_none()
}

/// The length that costs these rows less than each row's own, the cheapest of all.
fn one_length(of: TubeKind, members: &[Arc<Drilled>], planner: &Planner<'_>) -> Option<Idx<Tube>> {
    let tables = planner.tables();
    if members.len() < 2 {
        return None;
    }
    let lengths: Vec<Idx<Tube>> = Idx::all(&tables.tubes)
        .filter(|tube| tube.of(&tables.tubes).is_some_and(|tube| kind(tube) == of))
        .collect();
    if lengths.len() < 2 {
        return None;
    }
    let context = planner.context();
    let members: Vec<Member<'_>> = members.iter().map(|row| Member::new(row)).collect();
    let own = cost_of_own(context, &members);
    let all: Vec<&Member<'_>> = members.iter().collect();
    let common = lengths.into_iter().filter_map(|tube| {
        let usable = context.usable_mm(tube)?;
        let reached = all.iter().all(|member| member.row.drill.reaches(usable));
        reached.then(|| (cost(context, &all, tube, Some(usable)), tube))
    });
    let (cost, tube) = common.min_by(|a, b| a.0.total_cmp(&b.0))?;
    (cost < own - WORTH_IT).then_some(tube)
}

/// A row with the wear at which lengths are compared, which is the same for all of them.
struct Member<'a> {
    row: &'a Drilled,
    wears: [f64; WEAR_Z.len()],
}

impl<'a> Member<'a> {
    fn new(row: &'a Drilled) -> Self {
        Self {
            row,
            wears: WEAR_Z.map(|z| libm::exp(row.wear_sigma * z)),
        }
    }
}

fn kind(tube: &Tube) -> TubeKind {
    (tube.outer_mm.to_bits(), tube.material, tube.channels > 1)
}

/// What rows cost with the lengths they have, length by length.
fn cost_of_own(context: &Context<'_>, members: &[Member<'_>]) -> f64 {
    let mut by_tube: BTreeMap<Idx<Tube>, Vec<&Member<'_>>> = BTreeMap::new();
    for member in members {
        by_tube.entry(member.row.tube).or_default().push(member);
    }
    by_tube
        .into_iter()
        .map(|(tube, members)| cost(context, &members, tube, None))
        .sum()
}

/// What electrodes of one length, their changes and the holes cost the lot [currency]; `usable` is the
/// length that they would have instead of their own [mm].
fn cost(
    context: &Context<'_>,
    members: &[&Member<'_>],
    tube: Idx<Tube>,
    usable: Option<f64>,
) -> f64 {
    let tables: &Tables = context.tables();
    let parts = context.parts();
    let mut sum = 0.0;
    let mut demand = Demand::default();
    for at_z in 0..WEAR_Z.len() {
        demand.clear();
        let (mut minutes, mut change, mut usable_mm) = (0.0, 0.0, 0.0);
        for (at, member) in members.iter().enumerate() {
            let row = member.row;
            usable_mm = usable.unwrap_or(row.drill.usable_mm());
            let draw = Draw {
                wear: member.wears[at_z],
                pace: Pace::Mean,
                ..Draw::MEDIAN
            };
            let hole = row.drill.at_usable(usable_mm, &draw);
            let dressing = Dressing::of(row, tables.start.dressing_mm);
            demand.add(at, row.holes, &hole, dressing);
            minutes += f64::from(row.holes) * f64::from(parts) * hole.other_min;
            change = row.drill.change().mean();
        }
        usable_mm += demand.part.fresh_undressed * tables.start.dressing_mm;
        let used = demand.used(parts, demand.at_least(usable_mm, parts));
        let changed = used.changes_between() as f64 * change;
        let bought =
            used.electrodes() as f64 * tube.of(&tables.tubes).map_or(0.0, |tube| tube.price);
        sum += context.money_of(minutes, changed, bought);
    }
    sum / WEAR_Z.len() as f64
}
