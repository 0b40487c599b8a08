//! Reading a list of places: number, point, direction.

use std::collections::BTreeSet;

use quillbore_calc::Angle;
use quillbore_calc::direction::{from_tilt_turn, from_views, unit};
use quillbore_calc::input::Place;

use super::refused::{LineRefused, PlacesUnreadable};
use crate::ground::limits::MOST_PLACES;
use crate::typed::entry::Unit;
use crate::typed::read_quantity as read;
use crate::typed::read_quantity::misread::Misread;

/// What a list of places doesn't say itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlacesGiven {
    /// The unit of bare coordinates whose head names none.
    pub unit: Unit,
    /// Where a vector `i, j, k` points.
    pub vector: AxisPoints,
    /// The direction of a place that has none.
    pub axis: [f64; 3],
    /// The number of the first place where the list has none.
    pub first_number: u32,
}

/// Where a direction's vector points.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum AxisPoints {
    /// With the tool, into the work.
    #[default]
    IntoWork,
    /// Out of the work, as a surface's normal does.
    OutOfWork,
}

/// A list of places as read.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PlacesRead {
    /// Places, in the list's order.
    pub places: Vec<Place>,
    /// Lines that could not be read.
    pub refused: Vec<RefusedLine>,
    /// Heads of columns that say nothing about a place.
    pub ignored: Vec<String>,
}

/// A line that could not be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RefusedLine {
    /// Which line, from 1.
    pub line: usize,
    /// What is wrong with it, and what to do.
    pub why: String,
}

/// Reads lines of cells as places; the first line may name the columns.
///
/// Without a head, two to five and seven columns are read as `x y`, `x y z`, `number x y z`,
/// `x y z tilt turn` and `number x y z i j k`; six could be two things and need a head. A head may
/// also name `front` and `side`, the angles from vertical that two views show.
pub fn read_places(
    lines: &[Vec<String>],
    given: &PlacesGiven,
) -> Result<PlacesRead, PlacesUnreadable> {
    let blank = |cells: &Vec<String>| cells.iter().all(|cell| cell.trim().is_empty());
    let mut numbered = lines
        .iter()
        .enumerate()
        .filter(|(_, cells)| !blank(cells))
        .peekable();
    let Some((_, first)) = numbered.peek() else {
        return Err(PlacesUnreadable::Empty);
    };
    let mut result = PlacesRead::default();
    let columns = match head(first, &mut result.ignored)? {
        Some(columns) => {
            numbered.next();
            columns
        }
        None => by_width(first.len())?,
    };
    let mut taken = BTreeSet::new();
    let mut next_number = given.first_number;
    for (index, cells) in numbered {
        if result.places.len() >= MOST_PLACES {
            return Err(PlacesUnreadable::TooMany);
        }
        let refused = match place(cells, &columns, given, next_number) {
            Ok(place) if taken.insert(place.number) => {
                next_number = place.number.saturating_add(1);
                result.places.push(place);
                continue;
            }
            Ok(place) => LineRefused::NumberTwice(place.number),
            Err(why) => why,
        };
        result.refused.push(RefusedLine {
            line: index + 1,
            why: refused.to_string(),
        });
    }
    Ok(result)
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum PlaceColumn {
    Number,
    X,
    Y,
    Z,
    I,
    J,
    K,
    Tilt,
    Turn,
    Front,
    Side,
}

/// A column with the unit that its head gives it; `None` is a column that says nothing.
type Columns = Vec<Option<(PlaceColumn, Option<Unit>)>>;

fn by_width(columns: usize) -> Result<Columns, PlacesUnreadable> {
    use PlaceColumn::{I, J, K, Number, Tilt, Turn, X, Y, Z};
    let known: &[PlaceColumn] = match columns {
        2 => &[X, Y],
        3 => &[X, Y, Z],
        4 => &[Number, X, Y, Z],
        5 => &[X, Y, Z, Tilt, Turn],
        7 => &[Number, X, Y, Z, I, J, K],
        columns => return Err(PlacesUnreadable::ColumnsUnknown { columns }),
    };
    Ok(known.iter().map(|column| Some((*column, None))).collect())
}

/// The columns by a head, where the line is one: no number in it, and at least x and y.
fn head(cells: &[String], ignored: &mut Vec<String>) -> Result<Option<Columns>, PlacesUnreadable> {
    if cells
        .iter()
        .any(|cell| read::coordinate(cell, Unit::Mm).is_ok())
    {
        return Ok(None);
    }
    let columns: Columns = cells.iter().map(|cell| head_cell(cell)).collect();
    let has = |wanted: PlaceColumn| {
        columns
            .iter()
            .flatten()
            .any(|(column, _)| *column == wanted)
    };
    if !has(PlaceColumn::X) || !has(PlaceColumn::Y) {
        return Ok(None);
    }
    let mut seen = BTreeSet::new();
    for (column, cell) in columns.iter().zip(cells) {
        match column {
            Some((column, _)) if !seen.insert(*column) => {
                return Err(PlacesUnreadable::ColumnTwice {
                    head: cell.trim().to_owned(),
                });
            }
            None if !cell.trim().is_empty() => ignored.push(cell.trim().to_owned()),
            _ => {}
        }
    }
    Ok(Some(columns))
}

/// `X`, `x (mm)`, `Y [in]`, `No.`, `tilt deg`.
fn head_cell(cell: &str) -> Option<(PlaceColumn, Option<Unit>)> {
    let plain = cell
        .to_lowercase()
        .replace(['(', ')', '[', ']', '.', ',', '/', '_'], " ");
    let mut words = plain.split_whitespace();
    let column = match words.next()? {
        "number" | "no" | "nr" | "num" | "#" | "hole" | "point" | "pt" | "place" => {
            PlaceColumn::Number
        }
        "x" => PlaceColumn::X,
        "y" => PlaceColumn::Y,
        "z" => PlaceColumn::Z,
        "i" | "nx" => PlaceColumn::I,
        "j" | "ny" => PlaceColumn::J,
        "k" | "nz" => PlaceColumn::K,
        "tilt" => PlaceColumn::Tilt,
        "turn" => PlaceColumn::Turn,
        "front" => PlaceColumn::Front,
        "side" => PlaceColumn::Side,
        _ => return None,
    };
    let unit = match words.next() {
        Some("mm") => Some(Unit::Mm),
        Some("in" | "inch" | "inches" | "\"") => Some(Unit::Inch),
        _ => None,
    };
    Some((column, unit))
}

/// One line's cells by column.
struct Cells<'a> {
    cells: &'a [String],
    columns: &'a Columns,
    unit: Unit,
}

impl Cells<'_> {
    /// The text under a column with its unit; `None` where the list has no such column.
    fn under(&self, wanted: PlaceColumn) -> Option<(&str, Unit)> {
        let index = self
            .columns
            .iter()
            .position(|column| column.is_some_and(|(column, _)| column == wanted))?;
        let unit = self.columns.get(index).copied().flatten()?.1;
        let text = self.cells.get(index).map_or("", String::as_str);
        Some((text, unit.unwrap_or(self.unit)))
    }

    fn coordinate(&self, wanted: PlaceColumn) -> Result<f64, Misread> {
        match self.under(wanted) {
            Some((text, unit)) => Ok(read::coordinate(text, unit)?.mm()),
            None => Ok(0.0),
        }
    }

    /// Degrees under a column, zero where the list has none such.
    fn angle(&self, wanted: PlaceColumn) -> Result<f64, Misread> {
        self.under(wanted)
            .map_or(Ok(0.0), |(text, _)| read::turn(text).map(Angle::deg))
    }

    fn vector_part(&self, wanted: PlaceColumn) -> Result<f64, Misread> {
        self.under(wanted)
            .map_or(Ok(0.0), |(text, _)| read::vector_part(text))
    }
}

fn place(
    cells: &[String],
    columns: &Columns,
    given: &PlacesGiven,
    next_number: u32,
) -> Result<Place, LineRefused> {
    if let Some(extra) = cells
        .iter()
        .skip(columns.len())
        .find(|cell| !cell.trim().is_empty())
    {
        return Err(LineRefused::LeftOver(extra.clone()));
    }
    let cells = Cells {
        cells,
        columns,
        unit: given.unit,
    };
    let number = match cells.under(PlaceColumn::Number) {
        Some((text, _)) => read::whole(text, 0).map_err(LineRefused::Misread)?,
        None => next_number,
    };
    let mut point_mm = [0.0; 3];
    for (along, column) in point_mm
        .iter_mut()
        .zip([PlaceColumn::X, PlaceColumn::Y, PlaceColumn::Z])
    {
        *along = cells.coordinate(column).map_err(LineRefused::Misread)?;
    }
    let axis = axis(&cells, given).map_err(LineRefused::Misread)?;
    Ok(Place {
        number,
        point_mm,
        axis: unit(axis).ok_or(LineRefused::NoDirection)?,
    })
}

fn axis(cells: &Cells<'_>, given: &PlacesGiven) -> Result<[f64; 3], Misread> {
    let has = |column| cells.under(column).is_some();
    if has(PlaceColumn::I) || has(PlaceColumn::J) || has(PlaceColumn::K) {
        let vector = [
            cells.vector_part(PlaceColumn::I)?,
            cells.vector_part(PlaceColumn::J)?,
            cells.vector_part(PlaceColumn::K)?,
        ];
        return Ok(match given.vector {
            AxisPoints::IntoWork => vector,
            // Taken from zero, so that no part becomes a negative zero.
            AxisPoints::OutOfWork => vector.map(|part| 0.0 - part),
        });
    }
    if has(PlaceColumn::Front) || has(PlaceColumn::Side) {
        let (front, side) = (
            cells.angle(PlaceColumn::Front)?,
            cells.angle(PlaceColumn::Side)?,
        );
        // No direction is told where the place is refused for having none.
        return Ok(from_views(front, side).unwrap_or([0.0; 3]));
    }
    if has(PlaceColumn::Tilt) || has(PlaceColumn::Turn) {
        let (tilt, turn) = (
            cells.angle(PlaceColumn::Tilt)?,
            cells.angle(PlaceColumn::Turn)?,
        );
        return Ok(from_tilt_turn(tilt, turn));
    }
    Ok(given.axis)
}
