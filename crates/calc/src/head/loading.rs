//! How many parts stand on the machine's table at once.

/// Share of a part by which a table may be too small and still count as large enough.
const NEARLY: f64 = 1e-9;

/// What a part stands on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Footprint {
    /// A rectangle of these sides [mm].
    Rectangle([f64; 2]),
    /// A circle of this diameter [mm].
    Round(f64),
}

/// A part as it stands on the table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piece {
    /// What it stands on, with what holds it.
    pub footprint: Footprint,
    /// Its mass, with what holds it [kg]; `None` where it is not known.
    pub mass_kg: Option<f64>,
}

/// The table that parts stand on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Table {
    /// Its sides [mm].
    pub size_mm: [f64; 2],
    /// What it carries [kg].
    pub mass_kg: f64,
}

/// How many parts are loaded at once.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Loading {
    /// Their number.
    pub pieces: u32,
    /// What holds no more.
    pub holds: Holds,
}

/// What of a table limits how many parts are loaded at once.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Holds {
    /// Its size.
    Size,
    /// The mass that it carries.
    Mass,
}

/// How many parts stand on the table at once.
///
/// Formula: rows and columns of equal pitch, rectangles turned either way, all alike; round ones also with
/// each other row moved by half a pitch, rows `sqrt(3) / 2` of a pitch apart, along either side of the
/// table. At most as many as it carries. Now and then a mixed pattern holds one more.
///
/// - `piece`: what a part stands on [mm] and its mass [kg], above 0.
/// - `table`: its sides [mm], above 0, and what it carries [kg], 0 and up.
/// - `spacing_mm`: room between parts [mm], 0 and up.
///
/// Result: their number [-], 0 where not one fits, and what limits it; `None` where an argument is no such
/// figure.
///
/// Parts of 90 by 40 with 10 between on a table of 290 by 190: 2 rows of 5 the one way, 3 columns of 4 the
/// other; at 20 kg each a table for 200 kg carries 10:
///
/// ```
/// use quillbore_calc::head::{Footprint, Holds, Loading, Piece, Table, loading};
/// let table = Table { size_mm: [290.0, 190.0], mass_kg: 200.0 };
/// let stand = |mass_kg| {
///     loading(&Piece { footprint: Footprint::Rectangle([90.0, 40.0]), mass_kg }, &table, 10.0)
/// };
/// assert_eq!(stand(None), Some(Loading { pieces: 12, holds: Holds::Size }));
/// assert_eq!(stand(Some(20.0)), Some(Loading { pieces: 10, holds: Holds::Mass }));
/// ```
///
/// Source: geometry; arithmetic.
#[must_use]
pub fn loading(piece: &Piece, table: &Table, spacing_mm: f64) -> Option<Loading> {
    let counts = |value: f64| value > 0.0 && value.is_finite();
    let [one, other] = table.size_mm;
    let sides = match piece.footprint {
        Footprint::Rectangle(sides) => sides,
        Footprint::Round(diameter) => [diameter; 2],
    };
    let carries = table.mass_kg >= 0.0 && spacing_mm >= 0.0 && spacing_mm.is_finite();
    let figures = [one, other, sides[0], sides[1], piece.mass_kg.unwrap_or(1.0)];
    if !carries || !figures.into_iter().all(counts) {
        return None;
    }
    let grid = |[width, depth]: [f64; 2]| {
        in_row(one, width, spacing_mm) * in_row(other, depth, spacing_mm)
    };
    let stand = match piece.footprint {
        Footprint::Rectangle([width, depth]) => grid([width, depth]).max(grid([depth, width])),
        Footprint::Round(diameter) => {
            let offset = |along, across| offset_rows(along, across, diameter, spacing_mm);
            let rows = offset(one, other).max(offset(other, one));
            grid([diameter; 2]).max(rows)
        }
    };
    let carried = piece.mass_kg.map_or(f64::INFINITY, |mass| {
        libm::floor(table.mass_kg / mass + NEARLY)
    });
    Some(Loading {
        pieces: stand.min(carried) as u32,
        holds: if carried < stand {
            Holds::Mass
        } else {
            Holds::Size
        },
    })
}

/// Parts in a row of a length.
fn in_row(length: f64, part: f64, spacing: f64) -> f64 {
    (libm::floor((length - part) / (part + spacing) + NEARLY) + 1.0).max(0.0)
}

/// Round parts where each other row is moved by half a pitch.
fn offset_rows(length: f64, depth: f64, diameter: f64, spacing: f64) -> f64 {
    let pitch = diameter + spacing;
    let apart = pitch * libm::sqrt(0.75);
    let rows = in_row(depth, diameter, apart - diameter);
    let moved = in_row(length - pitch / 2.0, diameter, spacing);
    let odd = libm::floor(rows / 2.0);
    (rows - odd) * in_row(length, diameter, spacing) + odd * moved
}
