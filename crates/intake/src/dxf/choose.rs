//! Which circles are holes: what is left out, and which of those about one center is meant.

use super::close::{LEVEL, Nearly, upward};
use super::cluster::Clusters;
use super::drawn::{As, Round};
use super::entity::Line;
use super::error::DxfError;
use super::near::{Near, Spot};
use super::notes::Note;
use super::place::{Point, dot, less, times};
use crate::seen::{Guessed, Why};

/// A hole, and the circles about its center.
pub(super) struct Chosen {
    /// The circle that is the hole.
    pub(super) hole: usize,
    /// Circles of the same size upon it.
    pub(super) twice: Vec<usize>,
    /// All circles about its center with their radii, its own among them; seen along z.
    pub(super) about: Vec<f64>,
    /// What of it is guessed.
    pub(super) guessed: Vec<Guessed>,
}

/// Circles sorted out.
pub(super) struct Choice {
    /// The holes, in the file's order.
    pub(super) holes: Vec<Chosen>,
    /// Which circles are none, and why.
    pub(super) refused: Vec<(usize, Why)>,
    /// Which of what nearly closes belongs to no hole.
    pub(super) open: Vec<usize>,
}

/// Chooses among circles; `hair` is how near centers have to be.
pub(super) fn choose(
    rounds: &[Round<'_>],
    nearly: &[Nearly<'_>],
    notes: &[Note<'_>],
    hair: f64,
    still_wanted: &dyn Fn() -> Result<(), DxfError>,
) -> Result<Choice, DxfError> {
    let mut why: Vec<Option<Why>> = rounds
        .iter()
        .map(|round| (round.look.line == Line::Center).then_some(Why::CenterLine))
        .collect();
    with_text_inside(rounds, notes, &mut why);
    let groups = about_one_center(rounds, nearly, hair);
    still_wanted()?;
    with_holes_upon(rounds, &mut why, hair, still_wanted)?;
    with_holes_inside(rounds, &groups, &mut why, hair, still_wanted)?;
    let mut choice = Choice {
        holes: Vec::new(),
        refused: Vec::new(),
        open: Vec::new(),
    };
    for group in groups {
        let (circles, threads): (Vec<usize>, Vec<usize>) =
            group.into_iter().partition(|at| *at < rounds.len());
        let threads = threads.into_iter().map(|at| at - rounds.len());
        let left: Vec<usize> = circles
            .into_iter()
            .filter(|at| why[*at].is_none())
            .collect();
        match chosen(rounds, &left) {
            Some(mut hole) => {
                for thread in threads {
                    let radius = nearly[thread].round.radius;
                    hole.about.push(radius);
                    hole.guessed.push(Guessed::OfConcentric(2.0 * radius));
                }
                choice.holes.push(hole);
            }
            None => choice.open.extend(threads),
        }
    }
    choice.holes.sort_by_key(|hole| rounds[hole.hole].order);
    let refused = why.into_iter().enumerate();
    choice.refused = refused.filter_map(|(at, why)| Some((at, why?))).collect();
    Ok(choice)
}

/// The hole among circles about one center: the smallest of those in sight, since what is wider is its
/// chamfer, countersink or thread.
fn chosen(rounds: &[Round<'_>], group: &[usize]) -> Option<Chosen> {
    let rank = |at: &usize| {
        let look = rounds[*at].look;
        (!look.shown, look.line)
    };
    let hole = group.iter().copied().min_by(|a, b| {
        let by_size = rounds[*a].radius.total_cmp(&rounds[*b].radius);
        rank(a).cmp(&rank(b)).then(by_size).then(a.cmp(b))
    })?;
    let round = &rounds[hole];
    let is_same = |at: &usize| {
        (rounds[*at].radius - round.radius).abs() <= SAME * round.radius.max(rounds[*at].radius)
    };
    let twice: Vec<usize> = group
        .iter()
        .copied()
        .filter(|at| *at != hole && is_same(at))
        .collect();
    let mut others: Vec<f64> = group
        .iter()
        .filter(|at| !is_same(at))
        .map(|at| rounds[*at].radius)
        .collect();
    others.sort_by(f64::total_cmp);
    others.dedup_by(|a, b| (*a - *b).abs() <= SAME * *a);
    let mut guessed = Vec::new();
    match round.drawn {
        As::Circle => {}
        As::Closed => guessed.push(Guessed::ClosedArcs),
        As::Curve(off) => guessed.push(Guessed::NotQuiteRound(off)),
    }
    if !twice.is_empty() {
        guessed.push(Guessed::DrawnTwice);
    }
    if !round.look.shown {
        guessed.push(Guessed::NotShown);
    }
    if round.look.line == Line::Dashed {
        guessed.push(Guessed::Dashed);
    }
    guessed.extend(
        others
            .iter()
            .map(|radius| Guessed::OfConcentric(2.0 * radius)),
    );
    let about = std::iter::once(round.radius).chain(others).collect();
    Some(Chosen {
        hole,
        twice,
        about,
        guessed,
    })
}

/// Radii that differ by less are one, in parts of them.
const SAME: f64 = 1e-6;

/// Centers that are nearer in parts of the smaller radius are one: two holes can't stand there.
const ONE_CENTER: f64 = 0.05;

/// Circles, and behind them what nearly closes, by the line that they stand about.
fn about_one_center(rounds: &[Round<'_>], nearly: &[Nearly<'_>], hair: f64) -> Vec<Vec<usize>> {
    let threads = nearly.iter().map(|nearly| &nearly.round);
    let keys: Vec<([f64; 6], f64)> = rounds
        .iter()
        .chain(threads)
        .map(|round| {
            let axis = axis_of(round.normal);
            let [x, y, z] = less(round.center, times(axis, dot(axis, round.center)));
            let [i, j, k] = times(axis, hair / SAME);
            ([i, j, k, x, y, z], ONE_CENTER * round.radius)
        })
        .collect();
    Clusters::new(&keys).groups()
}

fn axis_of(normal: Point) -> Point {
    let axis = upward(normal);
    if axis[2] > 1.0 - LEVEL {
        [0.0, 0.0, 1.0]
    } else {
        axis
    }
}

/// Circles seen along z; others are so small and far away that nothing finds them.
fn spots(rounds: &[Round<'_>]) -> Vec<Spot> {
    let spot = |round: &Round<'_>| {
        let [x, y, _] = round.center;
        if axis_of(round.normal) == [0.0, 0.0, 1.0] {
            ([x, y], round.radius)
        } else {
            ([f64::INFINITY; 2], 0.0)
        }
    };
    rounds.iter().map(spot).collect()
}

/// Balloons, datum targets, marks of views: a few letters stand in the circle and fill a good part of it.
fn with_text_inside(rounds: &[Round<'_>], notes: &[Note<'_>], why: &mut [Option<Why>]) {
    let near = Near::new(&spots(rounds));
    for note in notes.iter().filter(|note| note.may_be_mark()) {
        let mut within: Option<usize> = None;
        near.visit(note.middle, LETTERS.1 * note.height, false, |at| {
            let round = &rounds[at];
            let fits = note.height >= round.radius / LETTERS.1
                && note.height <= LETTERS.0 * round.radius
                && note.is_inside(round.center, round.radius);
            let is_less = within.is_none_or(|other| round.radius < rounds[other].radius);
            if fits && is_less && round.look.line != Line::Center {
                within = Some(at);
            }
            false
        });
        if let Some(at) = within {
            why[at].get_or_insert_with(|| Why::TextInside(note.says.to_owned()));
        }
    }
}

/// How high letters in a balloon are at most in parts of its radius, and how often they go into it at most;
/// common practice, no source.
const LETTERS: (f64, f64) = (1.7, 6.0);

/// Outlines of round parts, bosses and details: another circle stands in them, beside their center.
fn with_holes_inside(
    rounds: &[Round<'_>],
    groups: &[Vec<usize>],
    why: &mut [Option<Why>],
    hair: f64,
    still_wanted: &dyn Fn() -> Result<(), DxfError>,
) -> Result<(), DxfError> {
    let spots = spots(rounds);
    // Of each group the smallest that is in sight.
    let smallest = |group: &Vec<usize>| {
        let circles = group.iter().copied().filter(|at| *at < rounds.len());
        circles.filter(|at| why[*at].is_none()).min_by(|a, b| {
            let (a, b) = (&rounds[*a], &rounds[*b]);
            let by_sight = b.look.shown.cmp(&a.look.shown);
            by_sight.then(a.radius.total_cmp(&b.radius))
        })
    };
    let inside: Vec<Option<usize>> = groups.iter().map(smallest).collect();
    let nowhere = ([f64::INFINITY; 2], 0.0);
    let of_groups: Vec<Spot> = inside
        .iter()
        .map(|at| at.map_or(nowhere, |at| spots[at]))
        .collect();
    let near = Near::new(&of_groups);
    let mut hold = Vec::new();
    for (number, group) in groups.iter().enumerate() {
        if number.is_multiple_of(ASKED) {
            still_wanted()?;
        }
        for at in group.iter().copied().filter(|at| *at < rounds.len()) {
            let (center, radius) = spots[at];
            if why[at].is_some() || !center[0].is_finite() {
                continue;
            }
            near.visit(center, radius, false, |other| {
                let (there, small) = of_groups[other];
                let apart = libm::hypot(there[0] - center[0], there[1] - center[1]);
                let is_seen = inside[other].is_some_and(|other| rounds[other].look.shown);
                let holds = other != number
                    && (is_seen || !rounds[at].look.shown)
                    && apart + small < radius - hair;
                if holds {
                    hold.push(at);
                }
                holds
            });
        }
    }
    for at in hold {
        why[at] = Some(Why::HoldsHoles);
    }
    Ok(())
}

/// Circles that holes are spaced on: three of one size at least stand with their centers on its rim.
fn with_holes_upon(
    rounds: &[Round<'_>],
    why: &mut [Option<Why>],
    hair: f64,
    still_wanted: &dyn Fn() -> Result<(), DxfError>,
) -> Result<(), DxfError> {
    let spots = spots(rounds);
    let near = Near::new(&spots);
    let mut upon = Vec::new();
    for (at, (center, radius)) in spots.iter().enumerate() {
        if at.is_multiple_of(ASKED) {
            still_wanted()?;
        }
        if why[at].is_some() || !center[0].is_finite() {
            continue;
        }
        let slack = hair.max(SAME * radius);
        let mut sizes: Vec<f64> = Vec::new();
        near.visit(*center, radius + slack, false, |other| {
            let (there, small) = spots[other];
            let apart = libm::hypot(there[0] - center[0], there[1] - center[1]);
            let is_upon = (apart - radius).abs() <= slack && 2.0 * small < *radius;
            if is_upon && why[other].is_none() {
                sizes.push(small);
            }
            sizes.len() == MOST_UPON
        });
        sizes.sort_by(f64::total_cmp);
        let alike = |sizes: &[f64]| match sizes {
            [first, .., last] => last - first <= SAME * last,
            _ => false,
        };
        if sizes.windows(FEWEST_UPON).any(alike) {
            upon.push(at);
        }
    }
    for at in upon {
        why[at] = Some(Why::HolesUponIt);
    }
    Ok(())
}

/// Two holes may stand on a rim by chance, three of one size don't; more than these need not be looked at.
const FEWEST_UPON: usize = 3;
const MOST_UPON: usize = 64;

/// Whether it is still wanted is asked once for so many circles.
const ASKED: usize = 1024;
