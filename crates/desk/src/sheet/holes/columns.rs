//! The columns of the hole table: which are shown, and how each is painted.

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
}

impl Made {
    const fn head(self) -> &'static str {
        match self {
            Self::Electrode => words::ELECTRODE,
            Self::Drills => words::DRILLS,
            Self::Verdict => words::VERDICT,
            Self::Minutes => words::MINUTES_A_HOLE,
            Self::Wear => words::WEAR,
            Self::PerHole => words::PER_HOLE,
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
];

/// The columns that are shown: the usual ones, or every one there is.
pub(super) fn shown(all: bool) -> Vec<Shown> {
    if !all {
        return USUAL.to_vec();
    }
    let typed = Column::ALL.iter().map(|column| Shown::Typed(*column));
    let made = MADE.iter().map(|made| Shown::Made(*made));
    typed.chain(made).collect()
}

/// A column as the grid paints it.
pub(super) fn grid_column(shown: Shown, unit: Unit) -> GridColumn {
    let length = unit.symbol();
    let (head, unit, width, right) = match shown {
        Shown::Typed(column) => (
            english::column(column).head,
            english::column_unit(column, unit),
            width(column),
            is_number(column.kind()),
        ),
        Shown::Made(made) => {
            let (unit, width, right) = match made {
                Made::Electrode => (length, 72.0, true),
                Made::Drills => (length, 92.0, true),
                Made::Verdict => ("", 104.0, false),
                Made::Minutes => (words::MINUTES, 54.0, true),
                Made::Wear => (length, 54.0, true),
                Made::PerHole => ("", 58.0, true),
            };
            (made.head(), unit, width, right)
        }
    };
    GridColumn {
        head: head.to_owned(),
        unit: unit.to_owned(),
        word: head.to_owned(),
        width,
        stretch: matches!(shown, Shown::Typed(column) if is_long(column.kind())),
        right,
        read_only: matches!(shown, Shown::Made(_)),
    }
}

/// How wide a typed column is painted.
const fn width(column: Column) -> f32 {
    match column.kind() {
        CellKind::Mark => 46.0,
        CellKind::Holes => 48.0,
        CellKind::Size => 104.0,
        CellKind::Depth | CellKind::Every => 84.0,
        CellKind::Angle => 62.0,
        CellKind::HoleEnd => 64.0,
        // Its head is longer than what stands below it.
        CellKind::YesNo if matches!(column, Column::CoreTrapped) => 84.0,
        CellKind::Length | CellKind::YesNo | CellKind::Ends => 70.0,
        CellKind::Surface | CellKind::Layers | CellKind::Tube => 120.0,
        CellKind::Note => 150.0,
    }
}

/// Whether cells stand to the right, figure under figure.
const fn is_number(kind: CellKind) -> bool {
    match kind {
        CellKind::Holes
        | CellKind::Depth
        | CellKind::Angle
        | CellKind::Length
        | CellKind::Every => true,
        CellKind::Mark
        | CellKind::Size
        | CellKind::HoleEnd
        | CellKind::Surface
        | CellKind::YesNo
        | CellKind::Layers
        | CellKind::Ends
        | CellKind::Tube
        | CellKind::Note => false,
    }
}

/// Whether a column takes the room that is left.
const fn is_long(kind: CellKind) -> bool {
    matches!(kind, CellKind::Size | CellKind::Note)
}
