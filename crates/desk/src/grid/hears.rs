//! Which events of the window are a grid's, and which of them end the editing of a cell.

use egui::{Event, Key, Modifiers};

/// Whether a key pressed with these modifiers is the grid's while it has the keyboard.
#[must_use]
pub fn uses_key(key: Key, modifiers: Modifiers) -> bool {
    match key {
        Key::A | Key::D => is_command_only(modifiers),
        Key::Delete => !modifiers.alt,
        Key::Space => modifiers.shift && !modifiers.command,
        Key::ArrowUp | Key::ArrowDown | Key::ArrowLeft | Key::ArrowRight => !modifiers.alt,
        Key::Home | Key::End => !modifiers.alt,
        Key::PageUp | Key::PageDown | Key::Tab | Key::Enter => !modifiers.command,
        Key::F2 | Key::Backspace | Key::Escape | Key::Insert => !modifiers.command,
        _ => false,
    }
}

/// Whether an event is the grid's while no cell is being edited.
pub(super) fn is_for_grid(event: &Event) -> bool {
    match event {
        Event::Copy | Event::Cut | Event::Paste(_) | Event::Text(_) => true,
        Event::Key {
            key,
            pressed: true,
            modifiers,
            ..
        } => uses_key(*key, *modifiers),
        _ => false,
    }
}

/// Whether an event ends the editing of a cell.
pub(super) fn ends_draft(event: &Event, in_text: bool) -> bool {
    match event {
        Event::Paste(text) => is_many_cells(text),
        Event::Key {
            key, pressed: true, ..
        } => match key {
            Key::Enter | Key::Tab | Key::Escape => true,
            Key::ArrowUp | Key::ArrowDown | Key::PageUp | Key::PageDown => true,
            Key::ArrowLeft | Key::ArrowRight => !in_text,
            _ => false,
        },
        _ => false,
    }
}

fn is_command_only(modifiers: Modifiers) -> bool {
    modifiers.command && !modifiers.shift && !modifiers.alt
}

/// Whether clipboard text is more than one cell; a single cell may end in a line end.
pub(super) fn is_many_cells(text: &str) -> bool {
    trim_line_end(text).contains(['\t', '\n', '\r'])
}

pub(super) fn trim_line_end(text: &str) -> &str {
    let text = text.strip_suffix('\n').unwrap_or(text);
    text.strip_suffix('\r').unwrap_or(text)
}
