//! How the columns of the run records are painted.

use quillbore_job::words::runs::head;
use quillbore_job::{FieldKind, Line, Unit};

use crate::grid::GridColumn;

/// A column as the grid paints it.
pub(super) fn grid_column(line: Line, unit: Unit) -> GridColumn {
    let head = head(line, unit);
    GridColumn {
        head: head.first.to_owned(),
        unit: head.below(),
        word: head.name(),
        width: width(line),
        stretch: matches!(line, Line::TubeUsed | Line::Pins),
        right: is_number(line.kind()),
        read_only: false,
    }
}

/// As wide as its head and what is usually typed below it.
const fn width(line: Line) -> f32 {
    match line {
        Line::Date => 82.0,
        Line::Serials | Line::By => 62.0,
        Line::Mark | Line::Good | Line::Scrap => 42.0,
        Line::Holes => 46.0,
        Line::ElectrodeNumber => 68.0,
        Line::TubeUsed => 118.0,
        Line::TubeBefore | Line::StopMinutes => 64.0,
        Line::DepthReached => 72.0,
        Line::SparkMinutes => 108.0,
        Line::FloorMinutes => 82.0,
        Line::Pins => 84.0,
        _ => 60.0,
    }
}

const fn is_number(kind: FieldKind) -> bool {
    matches!(
        kind,
        FieldKind::CountOrNone
            | FieldKind::Length
            | FieldKind::LengthOrNone
            | FieldKind::Minutes
            | FieldKind::MinutesOrNone
    )
}
