//! A hole that was seen, as the texts of a row's cells.

use quillbore_calc::quantity::MM_PER_INCH;
use quillbore_job::{Column, Unit, read_quantity as read};

use super::{NEAR_MM, chart_line};
use crate::callout;
use crate::cell_words::CellWord;
use crate::new_row::Cells;
use crate::seen::{SeenEnd, SeenHole, SeenSurface, SurfaceKind};
use crate::words::{blind_by_depth, drawn as words};

/// Angles below this are none [deg].
const LEAST_DEG: f64 = 5e-3;

/// Longest and shortest line of a wall that differ by more than this are told [mm].
const TOLD_MM: f64 = 0.01;

/// The cells of a row of such holes, but for their mark, with the count that a chart says, and what of them is to be looked at beside what was
/// guessed.
/// On a sheet whose angles are measured from the normal, `is_plain`, they need not say so.
pub(super) fn cells(hole: &SeenHole, unit: Unit, is_plain: bool) -> (Cells, Vec<String>) {
    let (mut cells, mut doubts, mut notes) = (Cells::new(), Vec::new(), Vec::new());
    cells.insert(Column::Size, length(hole.diameter, unit, 6));
    if let Some(depth) = hole.depth {
        cells.insert(Column::Depth, length(depth.on_axis, unit, 4));
        if depth.most - depth.least > TOLD_MM {
            let [least, most] = [depth.least, depth.most].map(|depth| length(depth, unit, 3));
            notes.push(words::along_the_wall(&least, &most, unit));
        }
    }
    let end = hole.end.map(|end| match end {
        SeenEnd::Through => "through",
        SeenEnd::Into => "into",
        SeenEnd::Blind => "blind",
    });
    cells.extend(end.map(|end| (Column::End, end.to_owned())));
    if let Some(begins) = hole.begins {
        if let Some(along) = begins.along_deg().filter(|along| *along >= LEAST_DEG) {
            let angle = match is_plain {
                true => trimmed(along, 3),
                false => from_normal(along),
            };
            cells.insert(Column::Angle, angle);
        }
        match (begins.tilt_deg, shape(begins.kind, unit)) {
            (None, _) => doubts.push(words::BEGINS_BESIDE.to_owned()),
            (_, Some(shape)) => {
                cells.extend((!shape.is_empty()).then_some((Column::Surface, shape)));
            }
            (_, None) => doubts.push(words::BEGINS_IN_OTHER.to_owned()),
        }
    }
    if let Some(leaves) = hole
        .leaves
        .filter(|leaves| !is_parallel(hole.begins, *leaves))
    {
        match (leaves.along_deg(), shape(leaves.kind, unit)) {
            (None, _) => doubts.push(words::LEAVES_BESIDE.to_owned()),
            (Some(along), Some(shape)) => {
                let name = if shape.is_empty() { "flat" } else { &shape };
                cells.insert(Column::Exit, format!("{name} at {}", from_normal(along)));
            }
            (_, None) => doubts.push(words::LEAVES_BY_OTHER.to_owned()),
        }
    }
    if let Some([wide, deep]) = hole.recess {
        let [wide, deep] = [wide, deep].map(|each| length(each, unit, 4));
        cells.insert(Column::Recess, format!("d{wide} x {deep}"));
    }
    if let Some(behind) = hole.behind {
        cells.insert(Column::Behind, length(behind, unit, 3));
    }
    if let Some(text) = &hole.text {
        let line = hole.line.as_ref();
        let line = line.and_then(|line| chart_line::cells(line, unit));
        let (said, is_deep) = match line {
            Some(line) => {
                let count = line.get(&Column::Count).cloned();
                cells.extend(count.map(|count| (Column::Count, count)));
                let mut read = hole.line.iter().flat_map(|line| &line.cells);
                let is_blind = line
                    .get(&Column::End)
                    .is_some_and(|end| end == CellWord::Blind.english());
                let is_deep = is_blind
                    && read.any(|cell| callout::split(cell, unit).is_some_and(|c| c.is_deep));
                (parts_into(line, hole, unit, &mut cells), is_deep)
            }
            None => callout_into(text, hole, unit, &mut cells),
        };
        match said {
            Says::Its if is_deep && hole.end.is_none() => {
                let end = cells.entry(Column::End);
                end.or_insert_with(|| CellWord::Blind.english().to_owned());
                doubts.push(blind_by_depth(text));
            }
            Says::Its => {}
            Says::Another => doubts.push(words::other_text(text, hole.diameter, unit)),
            Says::Unread => doubts.push(words::unread_text(text)),
        }
        notes.push(text.clone());
    }
    if !notes.is_empty() {
        cells.insert(Column::Note, notes.join("; "));
    }
    (cells, doubts)
}

/// What the text of a hole says of it.
enum Says {
    /// Its size.
    Its,
    /// The size of another one.
    Another,
    /// Nothing that could be taken apart as a whole.
    Unread,
}

/// Puts what a callout says into the cells: its size, with the limits that no picture shows, and what the
/// picture doesn't show either. Also whether it has a depth and says of no end.
fn callout_into(text: &str, hole: &SeenHole, unit: Unit, cells: &mut Cells) -> (Says, bool) {
    // A line of a chart begins with its mark: `A1 ⌀0.8 THRU`.
    let behind_mark = || {
        text.trim()
            .split_once(char::is_whitespace)
            .map(|(_, rest)| rest)
    };
    let whole = callout::split(text, unit);
    let behind = || callout::split(behind_mark()?, unit);
    let (parts, is_deep) = match whole.or_else(behind) {
        Some(callout) => (callout.parts, callout.is_deep),
        None => (vec![(Column::Size, text.to_owned())], false),
    };
    let parts = parts.into_iter().collect();
    (parts_into(parts, hole, unit, cells), is_deep)
}

/// Puts what is said of a hole into its cells.
fn parts_into(parts: Cells, hole: &SeenHole, unit: Unit, cells: &mut Cells) -> Says {
    let said = parts.get(&Column::Size);
    let Some(size) = said.and_then(|size| read::size(size, unit).ok()) else {
        return Says::Unread;
    };
    let (lower, upper) = (size.lower.mm(), size.upper.mm());
    let off = NEAR_MM + 0.02 * hole.diameter;
    if !(lower - off..=upper + off).contains(&hole.diameter) {
        return Says::Another;
    }
    for (column, part) in parts {
        let is_shown = cells.contains_key(&column) && column != Column::Size;
        // Marks and counts are those of the row, and the note has the whole text.
        let is_ours = matches!(column, Column::Mark | Column::Count | Column::Note);
        if !is_shown && !is_ours {
            cells.insert(column, part);
        }
    }
    Says::Its
}

/// A length in a unit, to so many decimals of a millimeter, without naughts at its end.
pub(crate) fn length(mm: f64, unit: Unit, decimals: usize) -> String {
    let (value, decimals) = match unit {
        Unit::Mm => (mm, decimals),
        Unit::Inch => (mm / MM_PER_INCH, decimals + 1),
    };
    trimmed(value, decimals)
}

fn trimmed(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    match text {
        "" | "-0" => "0".to_owned(),
        text => text.to_owned(),
    }
}

fn from_normal(deg: f64) -> String {
    format!("{} from normal", trimmed(deg, 3))
}

/// A surface as the hole table reads it, nothing for a plane; `None` where it has no word for it.
fn shape(kind: SurfaceKind, unit: Unit) -> Option<String> {
    let of = |name: &str, radius: f64, offset: f64| {
        let radius = length(radius, unit, 4);
        match offset < NEAR_MM {
            true => format!("{name} R{radius}"),
            false => format!("{name} R{radius} offset {}", length(offset, unit, 4)),
        }
    };
    match kind {
        SurfaceKind::Flat => Some(String::new()),
        SurfaceKind::Cylinder { radius, offset } => Some(of("cylinder", radius, offset)),
        SurfaceKind::Ball { radius, offset } => Some(of("ball", radius, offset)),
        SurfaceKind::Bore { radius, offset } => Some(of("bore", radius, offset)),
        SurfaceKind::Other => None,
    }
}

/// Whether it leaves a wall whose two faces are parallel, which needs no word.
fn is_parallel(begins: Option<SeenSurface>, leaves: SeenSurface) -> bool {
    begins.is_some_and(|begins| {
        begins.kind == SurfaceKind::Flat
            && leaves.kind == SurfaceKind::Flat
            && begins
                .tilt_deg
                .zip(leaves.tilt_deg)
                .is_some_and(|(begins, leaves)| (begins - leaves).abs() < LEAST_DEG)
    })
}
