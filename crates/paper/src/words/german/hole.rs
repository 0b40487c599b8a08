//! What papers say of a row of holes as the drawing has it.

use quillbore_calc::input::{HoleEnd, Proof};

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
    depth_drawn: |depth| format!("Tiefe laut Zeichnung: {depth}."),
    recess: |recess| format!("In einer Vertiefung: {recess}."),
    wire: |wire| format!("Startbohrung für Draht {wire}."),
    least_exit: |length| format!("Freier Austritt mindestens {length}."),
    to_profile: |length| format!("Von der Mitte bis zur Kontur {length}."),
    proof: |proof| match proof {
        Proof::Pin => "Prüfstift",
        Proof::Light => "Licht",
        Proof::Wire => "durchgeschobenem Draht",
        Proof::Air => "Luftdurchfluss",
        Proof::PinThrough => "durchgeschobenem Stift",
    },
    proved: |proof| format!("Jede Bohrung auf Durchgang geprüft mit: {proof}."),
    exit: |surface| format!("Austritt: {surface}."),
    layers: |layers| format!("Schichten ab dem Eintritt: {layers}."),
    clearance: |length| format!("Freiraum dahinter: {length}."),
};
