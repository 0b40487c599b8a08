//! How the columns of the run records are painted: the usual ones as wide as the sheet, or all of them.

use quillbore_job::slip::RUN_COLUMNS;
use quillbore_job::words::runs::head;
use quillbore_job::{FieldKind, Line, Unit};

use crate::grid::GridColumn;

/// The columns that a run is usually recorded in, with their widths.
const USUAL: [(Line, f32); 14] = [
    (Line::ElectrodeNumber, 60.0),
    (Line::Mark, 40.0),
    (Line::Serials, 96.0),
    (Line::Holes, 44.0),
    (Line::TubeBefore, 72.0),
    (Line::TubeAfter, 72.0),
    (Line::SparkMinutes, 52.0),
    (Line::FloorMinutes, 52.0),
    (Line::StopMinutes, 44.0),
    (Line::Breakages, 44.0),
    (Line::Good, 40.0),
    (Line::Scrap, 40.0),
    (Line::Pins, 64.0),
    (Line::By, 48.0),
];

/// The columns that are shown: the usual ones, and behind them the others where all are wanted.
pub(super) fn shown(all: bool) -> Vec<Line> {
    let usual = USUAL.iter().map(|(line, _)| *line);
    let is_usual = |line: &Line| USUAL.iter().any(|(usual, _)| usual == line);
    let columns = RUN_COLUMNS.iter().map(quillbore_job::slip::LineOf::line);
    let others = columns.filter(|line| all && !is_usual(line));
    usual.chain(others).collect()
}

/// A column as the grid paints it.
pub(super) fn grid_column(line: Line, unit: Unit) -> GridColumn {
    let head = head(line, unit);
    GridColumn {
        head: head.first.to_owned(),
        unit: head.below(),
        word: head.name(),
        width: width(line),
        right: is_number(line.kind()),
        read_only: false,
    }
}

fn width(line: Line) -> f32 {
    let usual = USUAL.iter().find(|(usual, _)| *usual == line);
    usual.map_or_else(|| width_of_other(line), |(_, width)| *width)
}

const fn width_of_other(line: Line) -> f32 {
    match line {
        Line::TubeUsed => 128.0,
        _ => 84.0,
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_usual_columns_and_the_scroll_bar_are_as_wide_as_the_sheet() {
        let columns = shown(false).into_iter();
        let widths = columns.map(|line| grid_column(line, Unit::Mm).width);
        assert_eq!(widths.sum::<f32>() + 8.0, 776.0);
    }

    #[test]
    fn every_column_has_its_place_once() {
        let mut all = shown(true);
        assert_eq!(all.len(), RUN_COLUMNS.len());
        all.sort();
        all.dedup();
        assert_eq!(all.len(), RUN_COLUMNS.len());
    }
}
