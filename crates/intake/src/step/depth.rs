//! How deep a bore is: on its axis, and along the shortest and the longest line of its wall.

use super::ends::{Bore, End};
use super::holes::Piece;
use super::wall::Wall;
use crate::seen::SeenDepth;

/// How deep a bore is.
pub(super) fn depth(
    bore: &Bore<'_>,
    wall: &Wall<'_>,
    first: &Piece,
    last: &Piece,
    ends: [&End; 2],
) -> SeenDepth {
    let begin = first.ring.range(0);
    let end = last.ring.range(1);
    let angle = |at: usize| first.ring.lines[at].0;
    // How long a line is, up to the surfaces around broken edges.
    let whole = |angle: f64, from: f64, to: f64| {
        bore.past_break(&ends[1].around, angle, to, 1.0)
            - bore.past_break(&ends[0].around, angle, from, -1.0)
    };
    let count = first.ring.lines.len().min(last.ring.lines.len());
    let lengths: Vec<f64> = (0..count)
        .map(|at| {
            let (from, to) = (first.ring.lines[at].1[0].t, last.ring.lines[at].1[1].t);
            whole(angle(at), from, to)
        })
        .collect();
    let length = |at: usize| lengths.get(at).copied().unwrap_or_default();
    // The line at any angle, between the two ends as they are at the lines known.
    let slack = 0.1 * (begin[1] - begin[0]).max(end[1] - end[0]) + 1e-9;
    let anywhere = |angle: f64| {
        let crossings = wall.crossings(angle);
        let from = crossings
            .iter()
            .find(|crossing| crossing.t >= begin[0] - slack)?;
        let to = crossings
            .iter()
            .rev()
            .find(|crossing| crossing.t <= end[1] + slack)?;
        Some(whole(angle, from.t, to.t)).filter(|length| *length > 0.0)
    };
    let most = (0..count)
        .max_by(|a, b| length(*a).total_cmp(&length(*b)))
        .unwrap_or(0);
    let least = (0..count)
        .min_by(|a, b| length(*a).total_cmp(&length(*b)))
        .unwrap_or(0);
    let wavy = length(most) - length(least) > 1e-9 * length(most).abs();
    let best = |at: usize, sign: f64| {
        if !wavy {
            return length(at);
        }
        let before = angle((at + count - 1) % count);
        let after = angle((at + 1) % count);
        let aside = |other: f64| super::wall::turned(other - angle(at));
        let around = [angle(at) + aside(before), angle(at) + aside(after)];
        let found = furthest(around, |angle| {
            anywhere(angle).map_or(f64::MIN, |length| sign * length)
        });
        sign * found.max(sign * length(at))
    };
    SeenDepth {
        least: best(least, -1.0),
        on_axis: ends[1].t - ends[0].t,
        most: best(most, 1.0),
    }
}

/// The most that something is between two angles, by golden sections.
fn furthest([mut low, mut high]: [f64; 2], of: impl Fn(f64) -> f64) -> f64 {
    let share = 0.381_966_011_250_105_1;
    let mut best = f64::MIN;
    let (mut a, mut b) = (low + share * (high - low), high - share * (high - low));
    let (mut at_a, mut at_b) = (of(a), of(b));
    for _ in 0..28 {
        best = best.max(at_a).max(at_b);
        if at_a > at_b {
            (high, b, at_b) = (b, a, at_a);
            a = low + share * (high - low);
            at_a = of(a);
        } else {
            (low, a, at_a) = (a, b, at_b);
            b = high - share * (high - low);
            at_b = of(b);
        }
    }
    best
}
