//! Parts of a map that stand larger below it, where not every hole has room for its label.

use super::labels::Reserved;
use super::model::{Map, Vector, extent_of};
use super::room::{Dots, Segment, closed};
use super::view::View;
use super::{AROUND, Look, bar};
use crate::page::{Page, Stroke, mm};
use crate::typeset::look::{CAPTION, STRONG};
use crate::words::drawing as words;

/// Holes of one detail at most.
const MOST_HOLES: usize = 36;
/// Details of a map at most.
pub(super) const MOST: usize = 6;
/// Places of one that is cut out of a long way at most: their names have room.
const MOST_PLACES: usize = 12;
/// Height of one, at least and at most.
const LEAST_HEIGHT: f64 = 26.0 * 72.0 / 25.4;
const HEIGHT: f64 = 70.0 * 72.0 / 25.4;

/// Holes that stand larger, by their index.
pub(super) type Detail = Vec<usize>;

/// The details of a map: all of it in a few, or where that would be too many those in which a mark begins.
pub(super) fn details(map: &Map) -> Vec<Detail> {
    let mut parts: Vec<Detail> = Vec::new();
    let mut waiting = vec![(0..map.spots.len()).collect::<Vec<usize>>()];
    while let Some(mut part) = waiting.pop() {
        let [least, most] = extent_of(
            part.iter().map(|index| map.at(map.spots[*index].at_mm)),
            0.0,
        );
        let [wide, deep] = [0, 1].map(|i| most[i] - least[i]);
        if part.len() <= MOST_HOLES || wide.max(deep) < 1e-6 {
            parts.push(part);
            continue;
        }
        let along = usize::from(deep > wide);
        let seen = |index: &usize| map.at(map.spots[*index].at_mm)[along];
        part.sort_by(|a, b| seen(a).total_cmp(&seen(b)));
        let rest = part.split_off(part.len() / 2);
        waiting.extend([rest, part]);
    }
    for part in &mut parts {
        part.sort_unstable();
    }
    parts.sort_by_key(|part| part.first().copied());
    if parts.len() <= MOST {
        return parts;
    }
    // From where a mark begins, as far as it goes on in the order of drilling.
    let mut begun: Vec<&str> = Vec::new();
    let mut beginnings: Vec<Detail> = Vec::new();
    for (index, spot) in map.spots.iter().enumerate() {
        if begun.contains(&spot.mark.as_str()) {
            continue;
        }
        begun.push(&spot.mark);
        let is_shown = beginnings.iter().any(|shown| shown.contains(&index));
        if !is_shown && beginnings.len() < MOST {
            beginnings.push(way_from(map, index));
        }
    }
    beginnings
}

/// Holes from one on, as they are drilled, as far as they have room.
fn way_from(map: &Map, first: usize) -> Detail {
    let mut places = 0;
    let mut before = None;
    let rest = first..map.spots.len().min(first + MOST_HOLES);
    rest.take_while(|index| {
        // As seen: holes above each other are at one place.
        let at = [0, 1].map(|axis| (map.at(map.spots[*index].at_mm)[axis] * 100.0).round() as i64);
        if before.replace(at) != Some(at) {
            places += 1;
        }
        places <= MOST_PLACES
    })
    .collect()
}

/// How much larger a detail stands than the map of so many points a mm, where it is so wide.
pub(super) fn gain(map: &Map, detail: &Detail, width: f64, scale: f64) -> f64 {
    Fitted::into(map, detail, width, HEIGHT).scale / scale
}

/// Where the holes of a detail lie in its place, and how large.
struct Fitted {
    least: Vector,
    most: Vector,
    /// Points of the page that its holes may take.
    room: (f64, f64),
    /// Points a mm.
    scale: f64,
}

impl Fitted {
    fn into(map: &Map, detail: &Detail, width: f64, height: f64) -> Self {
        let points = detail.iter().map(|index| map.at(map.spots[*index].at_mm));
        let [least, most] = extent_of(points, 0.5);
        // Labels stand right of the holes.
        let room = (width - 4.0 * AROUND, height - 3.2 * AROUND);
        let scale = (room.0 / (most[0] - least[0])).min(room.1 / (most[1] - least[1]));
        Self {
            least,
            most,
            room,
            scale,
        }
    }
}

/// The height that a detail takes where it is so wide.
pub(super) fn height(map: &Map, detail: &Detail, width: f64) -> f64 {
    let points = detail.iter().map(|index| map.at(map.spots[*index].at_mm));
    let [least, most] = extent_of(points, 0.5);
    let [wide, deep] = [0, 1].map(|i| most[i] - least[i]);
    let scale = (width - 4.0 * AROUND) / wide;
    (deep * scale + 3.2 * AROUND).clamp(LEAST_HEIGHT, HEIGHT)
}

/// Frames what stands larger below, in a view that has been drawn; gives where their names stand, and the frames.
pub(super) fn frames(
    page: &mut Page,
    places: &[(f64, f64)],
    details: &[Detail],
    (left_edge, right_edge): (f64, f64),
) -> (Vec<Reserved>, Vec<Segment>) {
    let mut lines = Vec::new();
    if details.is_empty() {
        return (Vec::new(), lines);
    }
    let dots = Dots::of(places.iter().copied());
    let mut named = Vec::new();
    for (number, detail) in (1..).zip(details) {
        let points = detail.iter().map(|index| places[*index]);
        let [least, most] = extent_of(points.map(|(x, y)| [x, y, 0.0]), 6.0);
        let (low, high) = (
            (least[0] - 3.0, least[1] - 3.0),
            (most[0] + 3.0, most[1] + 3.0),
        );
        page.rect(
            low,
            (high.0 - low.0, high.1 - low.1),
            None,
            Some(Stroke::CENTER),
        );
        lines.extend(closed(&[low, (high.0, low.1), high, (low.0, high.1)]));
        let said = words::detail(number);
        let wide = STRONG.measure(&said);
        let middle = (low.1 + high.1 + STRONG.size * 0.7) / 2.0;
        // Beside it where that is outside the holes, else above it.
        let beside = [(high.0 + 2.0, middle), (low.0 - 2.0 - wide, middle)];
        let free = beside.into_iter().find(|&(left, base)| {
            left >= left_edge && left + wide <= right_edge && !dots.any_under((left, base), wide)
        });
        let at = free.unwrap_or((low.0 + 1.0, low.1 - 1.5));
        page.text(at.0, at.1, STRONG, &said);
        named.push((at, wide));
    }
    (named, lines)
}

/// Draws a detail into a place of left, top, width and height.
pub(super) fn draw(
    page: &mut Page,
    map: &Map,
    (number, detail): (usize, &Detail),
    (left, top, width, height): (f64, f64, f64, f64),
    look: &Look,
) {
    let Fitted {
        least,
        most,
        room,
        scale,
    } = Fitted::into(map, detail, width, height);
    let [wide, deep] = [0, 1].map(|i| most[i] - least[i]);
    let corner = (
        left + AROUND + (room.0 - wide * scale) / 2.0,
        top + 1.6 * AROUND + (room.1 - deep * scale) / 2.0,
    );
    let view = View {
        map,
        axes: [0, 1],
        corner,
        origin: (least[0], most[1]),
        scale,
        picked: look.picked,
    };
    page.rect(
        (left, top),
        (width - mm(2.0), height - mm(2.0)),
        None,
        Some(Stroke::CENTER),
    );
    page.text(
        left + 4.0,
        top + STRONG.size + 2.0,
        STRONG,
        &words::detail(number),
    );
    view.holes(page, detail.iter().copied());
    let edges = (left + 2.0, left + width - mm(3.0));
    let unlabeled = view.labels(page, edges, detail.iter().copied(), (&[], &[]));
    if unlabeled > 0 {
        let said = words::unlabeled(unlabeled);
        page.text_right(
            left + width - mm(4.0),
            top + STRONG.size + 2.0,
            CAPTION,
            &said,
        );
    }
    bar(
        page,
        (left + 4.0, top + height - mm(2.0) - 5.0),
        scale,
        look,
    );
}
