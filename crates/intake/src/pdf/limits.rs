//! Limits that stand upon each other in small letters behind a size.

use super::line::Line;

/// How small they are against the size, and how far they stand behind it and above each other, in parts of its
/// letters' size; common practice, no source.
const SMALLEST: f64 = 0.35;
const LARGEST: f64 = 0.85;
const BEHIND: std::ops::RangeInclusive<f64> = -0.3..=1.2;
const HIGHEST: f64 = 1.2;
const LOWEST: f64 = 0.9;

/// Joins sizes and the limits behind them, all lines of one direction; true where there was one.
pub(super) fn join_limits(lines: &mut Vec<Line>) -> bool {
    lines.sort_by(|a, b| a.base.total_cmp(&b.base).then(a.from.total_cmp(&b.from)));
    let small: Vec<usize> = (0..lines.len())
        .filter(|at| lines.get(*at).is_some_and(|line| is_limit(&line.text)))
        .collect();
    let mut gone = vec![false; lines.len()];
    let mut any = false;
    if small.len() < 2 {
        return false;
    }
    for at in 0..lines.len() {
        let Some(size) = lines.get(at).filter(|line| ends_as_size(&line.text)) else {
            continue;
        };
        let near = |number: &&usize| {
            lines.get(**number).is_some_and(|limit| {
                let scale = limit.size / size.size;
                let behind = (limit.from - size.to) / size.size;
                **number != at && (SMALLEST..=LARGEST).contains(&scale) && BEHIND.contains(&behind)
            })
        };
        let base = |number: usize| lines.get(number).map_or(0.0, |line| line.base);
        let above = size.base - HIGHEST * size.size;
        let below = size.base + LOWEST * size.size;
        let from = small.partition_point(|number| base(*number) < above);
        let to = small.partition_point(|number| base(*number) <= below);
        let close = small.get(from..to).unwrap_or_default();
        let mut found = close
            .iter()
            .take(MOST)
            .filter(near)
            .filter(|number| !gone.get(**number).copied().unwrap_or(true));
        let (Some(upper), Some(lower)) = (found.next().copied(), found.next().copied()) else {
            continue;
        };
        let Some(joined) = join(size, lines.get(upper), lines.get(lower)) else {
            continue;
        };
        for number in [upper, lower] {
            if let Some(gone) = gone.get_mut(number) {
                *gone = true;
            }
        }
        if let Some(size) = lines.get_mut(at) {
            *size = joined;
        }
        any = true;
    }
    let mut kept = gone.iter().map(|gone| !gone);
    lines.retain(|_| kept.next().unwrap_or(true));
    any
}

/// So many limits beside one size are looked at.
const MOST: usize = 200;

/// A size with its limits, where these stand upon each other.
fn join(size: &Line, upper: Option<&Line>, lower: Option<&Line>) -> Option<Line> {
    let (upper, lower) = (upper?, lower?);
    let apart = (lower.base - upper.base) / upper.size;
    let overlap = upper.to.min(lower.to) - upper.from.max(lower.from);
    let is_stack = (0.6..=2.0).contains(&apart) && overlap > 0.0;
    // `+0.02/-0.01`; what has no sign of its own is read by the other's.
    let signed = [upper, lower]
        .iter()
        .any(|line| line.text.starts_with(SIGNS));
    if !(is_stack && signed) {
        return None;
    }
    let mut joined = size.clone();
    joined.text = format!("{} {}/{}", size.text, upper.text.trim(), lower.text.trim());
    joined.take(upper);
    joined.take(lower);
    Some(joined)
}

const SIGNS: [char; 4] = ['+', '-', '\u{2212}', '\u{2013}'];

fn is_limit(text: &str) -> bool {
    let rest = text.trim().trim_start_matches(SIGNS).trim_start();
    text.len() <= 16
        && rest.contains(|sign: char| sign.is_ascii_digit())
        && rest
            .chars()
            .all(|sign| sign.is_ascii_digit() || ".,".contains(sign))
}

fn ends_as_size(text: &str) -> bool {
    text.trim_end()
        .ends_with(|sign: char| sign.is_ascii_digit())
}
