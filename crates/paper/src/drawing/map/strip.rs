//! The maps of all clampings on a paper: each with its details, and a box to tick for each part.

use quillbore_job::Field;

use super::details::{self, Detail, details};
use super::{Look, Map, draw, draw_whole};
use crate::matter::Matter;
use crate::page::{Page, Role, Stroke, mm};
use crate::typeset::flow::Flow;
use crate::typeset::look::{BODY, SMALL, STRONG};
use crate::words::drawing as words;
use crate::words::phrases;

/// Height of both views at most.
const HEIGHT: f64 = 98.0 * 72.0 / 25.4;
/// The same of a crowded map without details.
const LARGE: f64 = 190.0 * 72.0 / 25.4;
/// How much larger a detail is at least.
const WORTH: f64 = 1.3;
/// Parts that have a box each.
const MOST_PARTS: u32 = 60;
/// A box to tick.
const BOX: f64 = 3.2 * 72.0 / 25.4;
/// From one box to the next.
const STEP: f64 = 11.0 * 72.0 / 25.4;

/// Sets the maps of all clampings.
pub fn strip(matter: &Matter<'_>, flow: &mut Flow) {
    let count = matter.figures.setups.len();
    let maps: Vec<(usize, Map)> = (0..count)
        .filter_map(|index| {
            let map = Map::of(matter.job, matter.input, matter.figures, index)?;
            Some((index, map))
        })
        .collect();
    let mut is_first = true;
    for (index, map) in &maps {
        let first = std::mem::take(&mut is_first);
        one(matter, flow, (*index, map), first);
    }
}

/// Says which rows have no place on any map.
pub fn unplaced(matter: &Matter<'_>, flow: &mut Flow) {
    let rows = matter.input.rows.iter().filter(|row| row.places.is_empty());
    let rows: Vec<_> = rows.map(|row| row.id).collect();
    if !rows.is_empty() {
        flow.text(BODY, &words::no_locations(&matter.marks(rows)));
    }
}

/// The map of one clamping.
fn one(matter: &Matter<'_>, flow: &mut Flow, (index, map): (usize, &Map), is_first: bool) {
    let look = Look::whole(matter.form(), matter.job.unit);
    let width = flow.body().width();
    let (most, larger) = laid_out(map, width, &look);
    let (_, high) = map.fit(width, most, look.around);
    let all = high + SMALL.leading() + mm(2.0);
    if is_first {
        flow.section(words::MAP, words::MAP_REMARK, all + BOX);
    }
    flow.need(all + BOX);
    let top = flow.take(all);
    let left = flow.body().left;
    let said = phrases::setup(index + 1);
    let page = flow.page();
    let said = said.trim().trim_end_matches(':');
    page.text(left, top + STRONG.size, STRONG, said);
    if let Some(zero) = map.zero() {
        let beside = left + STRONG.measure(said) + mm(4.0);
        page.text(beside, top + STRONG.size, SMALL, &zero);
    }
    let place = (left, top + SMALL.leading(), width, most);
    page.part(Role::Figure(words::map_of(map.spots.len())), |page| {
        draw_whole(page, map, place, &look, &larger);
    });
    let of_all = larger.iter().map(Vec::len).sum::<usize>();
    for (row, pair) in larger.chunks(2).enumerate() {
        let heights = pair
            .iter()
            .map(|detail| details::height(map, detail, width / 2.0));
        let height = heights.fold(0.0, f64::max);
        flow.need(height);
        let top = flow.take(height);
        for (column, detail) in pair.iter().enumerate() {
            let number = row * 2 + column + 1;
            let left = left + width / 2.0 * column as f64;
            let place = (left, top, width / 2.0, height);
            let page = flow.page();
            page.part(Role::Figure(words::detail_of(detail.len())), |page| {
                details::draw(page, map, (number, detail), place, &look);
            });
        }
    }
    if !larger.is_empty() && of_all < map.spots.len() {
        let others = (map.spots.len() - of_all) as f64;
        let others = matter.form().count(others);
        flow.text(SMALL, &words::others_in_annex(&others));
    }
    ticks(matter, flow);
}

/// How high a map is at most, and what stands larger below it: nothing where all holes have their names, or where
/// that is hardly larger; then a crowded map is larger itself.
fn laid_out(map: &Map, width: f64, look: &Look) -> (f64, Vec<Detail>) {
    let place = (0.0, 0.0, width, HEIGHT);
    let tried = draw(&mut Page::default(), map, place, look);
    if tried.unlabeled == 0 {
        return (HEIGHT, Vec::new());
    }
    let details = details(map);
    // Nothing is to be seen in one of all holes that is not in the map.
    let is_all = details.len() == 1 && details[0].len() == map.spots.len();
    let gains = |detail| details::gain(map, detail, width / 2.0, tried.scale) > WORTH;
    if is_all || !details.iter().any(gains) {
        return (LARGE, Vec::new());
    }
    (HEIGHT, details)
}

/// A box for each part, to be ticked when this clamping of it is drilled.
fn ticks(matter: &Matter<'_>, flow: &mut Flow) {
    let parts = matter.follows().quantity.unwrap_or(0);
    if parts == 0 || parts > MOST_PARTS {
        return;
    }
    let width = flow.body().width();
    let lead = STRONG.measure(words::DRILLED) + mm(3.0);
    let in_line = (((width - lead) / STEP).floor() as u32).max(1);
    let spares = matter.count_of(Field::Spares).unwrap_or(0);
    let boxes = parts + spares.min(MOST_PARTS);
    let mut next = 1;
    while next <= boxes {
        flow.need(BOX + mm(2.0));
        let top = flow.take(BOX + mm(2.0));
        let left = flow.body().left;
        let page = flow.page();
        if next == 1 {
            page.text(left, top + BOX - 1.0, STRONG, words::DRILLED);
        }
        for (at, number) in (next..=boxes).take(in_line as usize).enumerate() {
            let x = left + lead + STEP * at as f64;
            page.rect((x, top), (BOX, BOX), None, Some(Stroke::RULE));
            let named = if number > parts {
                words::SPARE.to_owned()
            } else {
                number.to_string()
            };
            page.text(x + BOX + 2.0, top + BOX - 1.5, SMALL, &named);
        }
        next += in_line;
    }
}
