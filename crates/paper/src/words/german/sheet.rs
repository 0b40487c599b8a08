//! Lines and columns of the sheet that an order can differ in, by their names in job files.

use quillbore_job::words::english;
use quillbore_job::{Column, Field};

/// A line of the sheet that was quoted.
pub(super) fn field(key: &str) -> &str {
    match Field::of_key(key) {
        Some(Field::Material) => "Werkstoff",
        Some(Field::Condition) => "Zustand",
        Some(Field::Hardness) => "Härte",
        Some(Field::Coating) => "Beschichtung",
        Some(Field::Thickness) => "Wanddicke",
        Some(Field::DefaultTolerance) => "Allgemeintoleranz",
        Some(Field::LiabilityCap) => "Haftung je Teil",
        Some(Field::Exclusions) => "Ausschlüsse",
        Some(other) => english::field(other),
        None => key,
    }
}

/// A column of the hole table that the drawing says.
pub(super) fn column(key: &str) -> &str {
    match Column::of_key(key) {
        Some(Column::Count) => "Anzahl",
        Some(Column::Size) => "Durchmesser",
        Some(Column::Depth) => "Tiefe",
        Some(Column::End) => "Ende",
        Some(Column::Angle) => "Winkel",
        Some(Column::Surface) => "Fläche am Eintritt",
        Some(Column::Exit) => "Fläche am Austritt",
        Some(Column::Recess) => "Vertiefung",
        Some(Column::Broken) => "abgebrochenes Werkzeug",
        Some(Column::Below) => "Tiefe unter der Fläche",
        Some(Column::Wire) => "Draht",
        Some(Column::LeastExit) => "kleinster Austritt",
        Some(Column::ToProfile) => "Mitte bis Kontur",
        Some(Column::Proved) => "Nachweis",
        Some(Column::Behind) => "Freiraum dahinter",
        Some(Column::Layers) => "Schichten",
        Some(other) => english::column(other).head,
        None => key,
    }
}
