//! In what two rows differ, as far as the newer one says anything.

use std::collections::BTreeSet;

use quillbore_calc::Length;
use quillbore_calc::input::Place;
use quillbore_job::quantity::LimitsGiven;
use quillbore_job::{Column, Row, Unit};

/// Locations that are no farther apart are one [mm]: a drawing writes them to some hundredths.
const SAME_MM: f64 = 0.01;

/// In what a row differs from the one before.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Differs {
    /// Cells, in the table's order.
    pub(crate) cells: Vec<CellDiffers>,
    /// Locations.
    pub(crate) places: Option<PlacesDiffer>,
}

/// A cell that says something else.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct CellDiffers {
    pub(crate) column: Column,
    pub(crate) was: String,
    pub(crate) is: String,
    /// The unit that its number is meant in.
    pub(crate) unit: Unit,
    /// The unit that it was meant in, where that is another and neither text says so.
    pub(crate) was_unit: Option<Unit>,
}

/// How the locations of a row differ.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct PlacesDiffer {
    /// Locations that were not there.
    pub(crate) come: usize,
    /// Locations that are there no more.
    pub(crate) gone: usize,
    /// There were none before: they come along with the same number of holes.
    pub(crate) are_first: bool,
}

impl Differs {
    /// Whether nothing that the newer one says is another.
    pub(crate) fn is_none(&self) -> bool {
        self.cells.is_empty() && self.places.is_none_or(|places| places.are_first)
    }
}

/// In what the newer of two rows differs; one of a drawing or a solid has marks of ours and no limits.
pub(crate) fn differs(row: &Row, newer: &Row, is_drawn: bool) -> Differs {
    let mut cells = Vec::new();
    for &column in Column::ALL {
        if !differs_in(row, newer, column, is_drawn) {
            continue;
        }
        let (was, is) = (row.cell(column), newer.cell(column));
        cells.push(CellDiffers {
            column,
            was: was.text.to_owned(),
            is: if column == Column::Note && !was.text.is_empty() {
                // What somebody added to a note stays.
                format!("{}; {}", was.text, is.text)
            } else {
                is.text.to_owned()
            },
            unit: is.unit.unwrap_or_default(),
            was_unit: was.unit.filter(|unit| {
                let others = column.is_measured() && is.unit != Some(*unit);
                let bare = |text: &str| !text.contains(char::is_alphabetic) && !text.contains('"');
                others && (was.text == is.text || (bare(was.text) && bare(is.text)))
            }),
        });
    }
    let shared = shared(&row.places, &newer.places);
    let [before, now] = [row, newer].map(|row| row.places.len());
    let places = PlacesDiffer {
        come: now - shared,
        gone: before - shared,
        are_first: before == 0 && row.holes() == newer.holes(),
    };
    // Locations of another number of holes can't stay; where the file has none, the same number may.
    let is_silent = now == 0 && (before == 0 || row.holes() == newer.holes());
    let is_same = places.come == 0 && places.gone == 0;
    Differs {
        cells,
        places: (!is_silent && !is_same).then_some(places),
    }
}

/// Whether the newer row says something else in a column.
pub(crate) fn differs_in(row: &Row, newer: &Row, column: Column, is_drawn: bool) -> bool {
    let (was, is) = (row.cell(column), newer.cell(column));
    match column {
        Column::Count => row.holes() != newer.holes(),
        Column::Mark if is_drawn => false,
        _ if is.text.is_empty() => false,
        Column::Note => !was.text.contains(is.text),
        _ if was.why.is_some() || is.why.is_some() => was.text != is.text,
        Column::Size | Column::Depth if is_drawn && is_within(row, newer, column) => false,
        _ => !row.reads_alike(newer, column),
    }
}

/// Whether a drawn size or depth, which has no limits, is one that the row allows.
fn is_within(row: &Row, newer: &Row, column: Column) -> bool {
    let near = 1e-4;
    let between = |value: Length, least: Length, most: Length| {
        (least.mm() - near..=most.mm() + near).contains(&value.mm())
    };
    match column {
        Column::Size => match (row.size.value(), newer.size.value()) {
            (Some(was), Some(is)) if is.given == LimitsGiven::None => {
                between(is.upper, was.lower, was.upper)
            }
            _ => false,
        },
        _ => match (row.depth.value(), newer.depth.value()) {
            (Some(was), Some(is)) if is.limits.is_none() => match (is.aim, was.limits, was.aim) {
                (Some(is), Some(limits), _) => between(is, limits.lower, limits.upper),
                (Some(is), None, Some(aim)) => between(is, aim, aim),
                _ => false,
            },
            _ => false,
        },
    }
}

/// How many locations two rows have in common.
pub(crate) fn shared(one: &[Place], other: &[Place]) -> usize {
    let there: BTreeSet<[i64; 3]> = one.iter().flat_map(around).collect();
    let is_there = |place: &&Place| there.contains(&cell(place));
    other.iter().filter(is_there).count().min(one.len())
}

/// The cell of a grid that a location lies in.
pub(crate) fn cell(place: &Place) -> [i64; 3] {
    #[expect(
        clippy::cast_possible_truncation,
        reason = "locations of a job are within reach of a machine"
    )]
    place.point_mm.map(|mm| libm::round(mm / SAME_MM) as i64)
}

/// The same with the cells around it: a location may lie on the edge of one.
fn around(place: &Place) -> impl Iterator<Item = [i64; 3]> + use<> {
    let [x, y, z] = cell(place);
    let near = -1..=1;
    near.clone().flat_map(move |i| {
        let near = near.clone();
        near.clone()
            .flat_map(move |j| near.clone().map(move |k| [x + i, y + j, z + k]))
    })
}
