//! What papers say of a row of holes as the drawing has it.

use quillbore_calc::input::HoleEnd;

use crate::words::customer::Hole;

/// What customers read of it in German.
pub(super) const WORDS: Hole = Hole {
    end: |end| match end {
        HoleEnd::Through => "durch",
        HoleEnd::Into => "Hohlraum",
        HoleEnd::Blind => "Sackloch",
    },
    entry: |surface| format!("Eintritt: {surface}."),
    broken: |tool| format!("Abgebrochenes Werkzeug: {tool}."),
    below: |below| format!("Unter der Fläche: {below}."),
    tried: |tried| format!("Schon versucht: {tried}."),
    recess: |recess| format!("In einer Vertiefung: {recess}."),
    exit: |surface| format!("Austritt: {surface}."),
    layers: |layers| format!("Schichten ab dem Eintritt: {layers}."),
    clearance: |length| format!("Freiraum dahinter: {length}."),
};
