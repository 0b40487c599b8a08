//! One length of a tube for the whole lot, where that costs less than each row's own.
//!
//! A row by itself takes the length that is cheapest for its own holes. Rows that share a diameter
//! could share electrodes: so each length of the tube is tried for all of them together, and taken
//! where the lot costs less with it.

use alloc::collections::BTreeMap;
use alloc::vec::Vec;

use super::electrodes::{Demand, Dressing};
use super::prepare::Row;
use crate::hole::{Context, Draw};
use crate::job_figures::HoleFigures;
use crate::quantity::Pace;
use crate::tables::{Tables, Tube, TubeMaterial};

/// Deviates of the wear at which lengths are compared: the middles of three equally likely thirds.
const WEAR_Z: [f64; 3] = [-0.967_421_566_101_701, 0.0, 0.967_421_566_101_701];

/// What must be saved to leave each row's own length [currency]; keeps equals as they are.
const WORTH_IT: f64 = 1e-6;

/// What tells one tube from another apart from its length.
type Kind = (u64, TubeMaterial, bool);

/// Gives rows of one diameter the one length that costs the lot least, where each has its own.
pub(super) fn one_length(context: &Context<'_>, rows: &mut [Row], holes: &mut [HoleFigures]) {
    let tables = context.tables();
    let mut kinds: BTreeMap<Kind, Vec<usize>> = BTreeMap::new();
    for (at, row) in rows.iter().enumerate() {
        let typed = context.is_typed(row.index);
        if let (Some(tube), false) = (tables.tubes.get(row.tube), typed) {
            kinds.entry(kind(tube)).or_default().push(at);
        }
    }
    for (of, members) in kinds {
        if members.len() < 2 {
            continue;
        }
        let lengths: Vec<usize> = (0..tables.tubes.len())
            .filter(|tube| kind(&tables.tubes[*tube]) == of)
            .collect();
        if lengths.len() < 2 {
            continue;
        }
        let own = cost_of_own(context, rows, &members);
        let common = lengths
            .into_iter()
            .filter_map(|tube| {
                let usable = context.usable_mm(tube)?;
                let drills: Option<Vec<Row>> = members
                    .iter()
                    .map(|&at| {
                        let row = &rows[at];
                        let drill = row.drill.with_usable(usable);
                        drill.reaches().then(|| Row {
                            tube,
                            at_median: drill.at(&Draw::MEDIAN),
                            drill,
                            ..row.clone()
                        })
                    })
                    .collect();
                let drills = drills?;
                let refs: Vec<&Row> = drills.iter().collect();
                Some((cost(context, &refs, tube), tube))
            })
            .min_by(|a, b| a.0.total_cmp(&b.0));
        let Some((_, tube)) = common.filter(|(cost, _)| *cost < own - WORTH_IT) else {
            continue;
        };
        for at in members {
            take(context, &mut rows[at], holes, tube);
        }
    }
}

fn kind(tube: &Tube) -> Kind {
    (tube.outer_mm.to_bits(), tube.material, tube.channels > 1)
}

/// Plans a row anew with a length.
fn take(context: &Context<'_>, row: &mut Row, holes: &mut [HoleFigures], tube: usize) {
    if row.tube == tube {
        return;
    }
    let (figures, drill) = context.figures_and_drill_with(row.index, tube);
    if let Some(planned) = drill.and_then(|drill| Row::new(row.index, drill, &figures)) {
        holes[row.index] = figures;
        *row = planned;
    }
}

/// What rows cost with the lengths they have, length by length.
fn cost_of_own(context: &Context<'_>, rows: &[Row], members: &[usize]) -> f64 {
    let mut by_tube: BTreeMap<usize, Vec<&Row>> = BTreeMap::new();
    for &at in members {
        by_tube.entry(rows[at].tube).or_default().push(&rows[at]);
    }
    by_tube
        .into_iter()
        .map(|(tube, rows)| cost(context, &rows, tube))
        .sum()
}

/// What electrodes of one length, their changes and the holes cost the lot [currency].
fn cost(context: &Context<'_>, rows: &[&Row], tube: usize) -> f64 {
    let tables: &Tables = context.tables();
    let parts = context.parts();
    let mut sum = 0.0;
    for z in WEAR_Z {
        let mut demand = Demand::default();
        let (mut minutes, mut change, mut usable) = (0.0, 0.0, 0.0);
        for row in rows {
            let hole = row.drill.at(&Draw {
                wear: libm::exp(row.wear_sigma * z),
                pace: Pace::Mean,
                ..Draw::MEDIAN
            });
            let dressing = Dressing {
                share: row.drill.dress_share(),
                length_mm: tables.start.dressing_mm,
            };
            demand.add(row.index, row.holes, &hole, dressing);
            minutes += f64::from(row.holes) * f64::from(parts) * hole.other_min;
            change = row.drill.change().mean();
            usable = row.drill.usable_mm();
        }
        usable += demand.part.fresh_undressed * tables.start.dressing_mm;
        let used = demand.used(parts, demand.at_least(usable, parts));
        let changed = used.changes_between() as f64 * change;
        let bought =
            used.electrodes() as f64 * tables.tubes.get(tube).map_or(0.0, |tube| tube.price);
        sum += context.money_of(minutes, changed, bought);
    }
    sum / WEAR_Z.len() as f64
}
