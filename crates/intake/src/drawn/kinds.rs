//! Which holes are alike.

use std::collections::BTreeMap;

use crate::seen::{Guessed, SeenDepth, SeenHole, SeenSurface, SurfaceKind};

/// Diameters of one kind differ by no more than this [mm]: what files of few digits round.
const SAME_WIDTH_MM: f64 = 2e-5;

/// Depths of one kind differ by no more than this [mm]: what a drawing rounds.
const SAME_DEPTH_MM: f64 = 5e-4;

/// Angles of one kind differ by no more than this [deg].
const SAME_ANGLE_DEG: f64 = 1e-3;

/// The kinds, by rising diameter and depth; holes of a kind in the file's order.
pub(super) fn kinds(holes: &[SeenHole]) -> Vec<Vec<usize>> {
    let mut kinds: Vec<Vec<usize>> = Vec::new();
    let mut order: Vec<usize> = (0..holes.len()).collect();
    order.sort_by(|a, b| {
        let [a, b] = [a, b].map(|at| {
            holes.get(*at).map_or((0.0, 0.0), |hole| {
                (hole.diameter, hole.depth.map_or(0.0, |depth| depth.on_axis))
            })
        });
        a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1))
    });
    // Which kinds have which text: a drawing may have thousands of both.
    let mut by_text: BTreeMap<Option<&str>, Vec<usize>> = BTreeMap::new();
    for at in order {
        let Some(hole) = holes.get(at) else { continue };
        let first_of = |kind: usize| {
            let first = kinds.get(kind).and_then(|kind| kind.first());
            first.and_then(|first| holes.get(*first))
        };
        let with_text = by_text.entry(hole.text.as_deref()).or_default();
        // Kinds of this diameter are the last ones.
        let wide = |kind: &usize| {
            first_of(*kind).is_some_and(|first| near(first.diameter, hole.diameter, SAME_WIDTH_MM))
        };
        let mut same = with_text.iter().rev().copied().take_while(wide);
        let found = same.find(|kind| first_of(*kind).is_some_and(|first| alike(first, hole)));
        match found.and_then(|kind| kinds.get_mut(kind)) {
            Some(kind) => kind.push(at),
            None => {
                with_text.push(kinds.len());
                kinds.push(vec![at]);
            }
        }
    }
    for kind in &mut kinds {
        kind.sort_unstable();
    }
    kinds
}

fn alike(one: &SeenHole, other: &SeenHole) -> bool {
    one.end == other.end
        && one.text == other.text
        && is_shown(one) == is_shown(other)
        && both(one.depth, other.depth, same_depth)
        && both(one.behind, other.behind, |a, b| near(a, b, SAME_DEPTH_MM))
        && both(one.recess, other.recess, |a, b| {
            a.into_iter().zip(b).all(|(a, b)| near(a, b, SAME_DEPTH_MM))
        })
        && both(one.begins, other.begins, same_surface)
        && both(one.leaves, other.leaves, same_surface)
}

/// Holes that may not be meant at all are no part of those that are.
fn is_shown(hole: &SeenHole) -> bool {
    !hole.guessed.contains(&Guessed::NotShown)
}

fn both<T: Copy>(one: Option<T>, other: Option<T>, same: impl Fn(T, T) -> bool) -> bool {
    match (one, other) {
        (Some(one), Some(other)) => same(one, other),
        (None, None) => true,
        _ => false,
    }
}

fn same_depth(one: SeenDepth, other: SeenDepth) -> bool {
    near(one.least, other.least, SAME_DEPTH_MM)
        && near(one.on_axis, other.on_axis, SAME_DEPTH_MM)
        && near(one.most, other.most, SAME_DEPTH_MM)
}

fn same_surface(one: SeenSurface, other: SeenSurface) -> bool {
    both(one.tilt_deg, other.tilt_deg, |a, b| {
        near(a, b, SAME_ANGLE_DEG)
    }) && same_kind(one.kind, other.kind)
}

fn same_kind(one: SurfaceKind, other: SurfaceKind) -> bool {
    use SurfaceKind::{Ball, Bore, Cylinder, Flat, Other};
    let lengths = |of: SurfaceKind| match of {
        Cylinder { radius, offset } | Ball { radius, offset } | Bore { radius, offset } => {
            [radius, offset]
        }
        Flat | Other => [0.0; 2],
    };
    let near = |(a, b): (f64, f64)| near(a, b, SAME_DEPTH_MM);
    std::mem::discriminant(&one) == std::mem::discriminant(&other)
        && lengths(one).into_iter().zip(lengths(other)).all(near)
}

fn near(one: f64, other: f64, by: f64) -> bool {
    (one - other).abs() <= by
}
