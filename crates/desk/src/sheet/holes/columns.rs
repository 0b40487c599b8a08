//! The columns of the hole table: which are shown, and how each is painted. Their widths are fixed.

use quillbore_job::read_cell::CellKind;
use quillbore_job::words::english;
use quillbore_job::{Column, Unit};

use crate::grid::GridColumn;
use crate::words::holes as words;

/// A column of the table on the screen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Shown {
    Typed(Column),
    Made(Made),
}

/// A computed column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Made {
    Electrode,
    Drills,
    Verdict,
    Minutes,
    Wear,
    PerHole,
    Flush,
    Push,
}

impl Made {
    const fn head(self) -> &'static str {
        match self {
            Self::Electrode => words::ELECTRODE,
            Self::Drills => words::DRILLS,
            Self::Verdict => words::VERDICT,
            Self::Minutes => words::MINUTES_PER_HOLE,
            Self::Wear => words::WEAR,
            Self::PerHole => words::ELECTRODES_PER_HOLE,
            Self::Flush => words::FLUSH,
            Self::Push => words::PUSH,
        }
    }

    const fn unit(self, unit: Unit) -> &'static str {
        match self {
            Self::Electrode | Self::Drills | Self::Wear => unit.symbol(),
            Self::Flush => words::FLUSH_UNIT,
            Self::Push => unit.force_symbol(),
            Self::Verdict | Self::Minutes | Self::PerHole => "",
        }
    }

    const fn width(self) -> f32 {
        match self {
            Self::Electrode => 72.0,
            Self::Drills => 92.0,
            Self::Verdict => 128.0,
            Self::Minutes | Self::Wear => 56.0,
            Self::PerHole => 64.0,
            Self::Flush => 72.0,
            Self::Push => 56.0,
        }
    }
}

const USUAL: &[Shown] = &[
    Shown::Typed(Column::Mark),
    Shown::Typed(Column::Count),
    Shown::Typed(Column::Size),
    Shown::Typed(Column::Depth),
    Shown::Typed(Column::End),
    Shown::Typed(Column::Angle),
    Shown::Typed(Column::Behind),
    Shown::Made(Made::Electrode),
    Shown::Made(Made::Verdict),
    Shown::Made(Made::Minutes),
    Shown::Made(Made::Wear),
];

const MADE: &[Made] = &[
    Made::Electrode,
    Made::Drills,
    Made::Verdict,
    Made::Minutes,
    Made::Wear,
    Made::PerHole,
    Made::Flush,
    Made::Push,
];

/// Which columns are shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Which {
    /// The usual ones.
    Usual,
    /// The usual ones and behind them the note of a row, where the sheet is wide enough for it.
    WithNote,
    /// Every one there is, those that are not usual behind the others: none moves when they come.
    All,
}

/// The columns that are shown.
pub(super) fn shown(which: Which) -> Vec<Shown> {
    let usual = USUAL.iter().copied();
    match which {
        Which::Usual => usual.collect(),
        Which::WithNote => usual.chain([Shown::Typed(Column::Note)]).collect(),
        Which::All => {
            let note = Shown::Typed(Column::Note);
            let typed = Column::ALL.iter().map(|column| Shown::Typed(*column));
            let made = MADE.iter().map(|made| Shown::Made(*made));
            let others = typed
                .chain(made)
                .filter(|other| !USUAL.contains(other) && *other != note);
            usual.chain([note]).chain(others).collect()
        }
    }
}

/// A column as the grid paints it.
pub(super) fn grid_column(shown: Shown, unit: Unit) -> GridColumn {
    let (head, unit, width, right) = match shown {
        Shown::Typed(column) => (
            english::column(column).head,
            english::column_unit(column, unit),
            width(column),
            is_number(column.kind()),
        ),
        Shown::Made(made) => {
            let unit = made.unit(unit);
            (made.head(), unit, made.width(), made != Made::Verdict)
        }
    };
    // A head of several words stands on two lines, its unit on the second.
    let (first, second) = head.rsplit_once(' ').unwrap_or((head, ""));
    GridColumn {
        head: first.to_owned(),
        unit: format!("{second} {unit}").trim().to_owned(),
        word: head.to_owned(),
        width,
        right,
        read_only: matches!(shown, Shown::Made(_)),
    }
}

/// How wide a typed column is.
const fn width(column: Column) -> f32 {
    match column {
        Column::Mark => 40.0,
        Column::Count => 44.0,
        Column::Size => 118.0,
        Column::Depth => 72.0,
        Column::End => 64.0,
        Column::Behind => 70.0,
        Column::Angle => 48.0,
        Column::Note => 132.0,
        _ => match column.kind() {
            CellKind::Surface
            | CellKind::Exit
            | CellKind::Recess
            | CellKind::Broken
            | CellKind::Layers
            | CellKind::Tube => 120.0,
            CellKind::Depth | CellKind::Every => 84.0,
            _ => 72.0,
        },
    }
}

/// Whether cells stand to the right, figure under figure.
const fn is_number(kind: CellKind) -> bool {
    match kind {
        CellKind::Holes
        | CellKind::Depth
        | CellKind::Angle
        | CellKind::Length
        | CellKind::Distance
        | CellKind::Every => true,
        CellKind::Mark
        | CellKind::Size
        | CellKind::HoleEnd
        | CellKind::Surface
        | CellKind::Exit
        | CellKind::Recess
        | CellKind::Broken
        | CellKind::Proof
        | CellKind::YesNo
        | CellKind::Layers
        | CellKind::Ends
        | CellKind::Tube
        | CellKind::Note => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_usual_columns_and_the_scroll_bar_are_as_wide_as_the_sheet() {
        for (which, sheet) in [(Which::Usual, 776.0), (Which::WithNote, 908.0)] {
            let columns = shown(which);
            let widths = columns
                .iter()
                .map(|shown| grid_column(*shown, Unit::Mm).width);
            assert_eq!(widths.sum::<f32>() + 8.0, sheet);
        }
    }
}
