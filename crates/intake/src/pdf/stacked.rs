//! Lines that stand below each other, of those that have one direction.

use super::line::{Line, in_order};

/// How far base lines of one text are apart, in parts of its letters' size, and by what these differ; common
/// practice, no source.
const NEAREST: f64 = 0.75;
const FARTHEST: f64 = 2.0;
const SIZES: f64 = 1.35;

/// So many lines below one are looked at.
const MOST: usize = 200;

/// Of each line the one right below it, if any.
pub(super) fn below(lines: &[Line]) -> Vec<Option<usize>> {
    let order = in_order(lines);
    let mut below = vec![None; lines.len()];
    for (place, at) in order.iter().enumerate() {
        let line = &lines[*at];
        let next = order.get(place + 1..).unwrap_or_default().iter().take(MOST);
        let near = next.take_while(|other| {
            lines[**other].way() == line.way()
                && lines[**other].base - line.base <= FARTHEST * line.size
        });
        let fits = near.filter(|other| is_below(line, &lines[**other]));
        let nearest = fits.min_by(|a, b| {
            let apart = |at: &usize| {
                let other = &lines[*at];
                (other.base - line.base) + (other.middle() - line.middle()).abs() / 4.0
            };
            apart(a).total_cmp(&apart(b))
        });
        below[*at] = nearest.copied();
    }
    // A line is below one other: the nearest.
    let mut above: Vec<Option<usize>> = vec![None; lines.len()];
    for (at, under) in below.iter().enumerate() {
        let Some(under) = *under else { continue };
        let nearer = above[under].is_none_or(|other| lines[at].base > lines[other].base);
        if nearer {
            above[under] = Some(at);
        }
    }
    for (at, under) in below.iter_mut().enumerate() {
        if under.is_some_and(|under| above[under] != Some(at)) {
            *under = None;
        }
    }
    below
}

fn is_below(line: &Line, other: &Line) -> bool {
    let size = line.size.max(other.size);
    let apart = (other.base - line.base) / size;
    let overlap = line.to.min(other.to) - line.from.max(other.from);
    let is_one_size = size <= SIZES * line.size.min(other.size);
    is_one_size
        && (NEAREST..=FARTHEST).contains(&apart)
        && overlap > 0.0
        && line.marks.is_unseen == other.marks.is_unseen
}
