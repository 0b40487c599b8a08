//! Who has the keyboard, the grid or the editor in one of its cells, and which events each hears.

use egui::{Event, EventFilter, Id, Ui};

use super::{
    at_work::AtWork,
    hears::{ends_draft, is_for_grid},
    model::{GridAsk, GridModel},
    view::GridView,
};

/// Takes the grid's events out of the input. While a cell is edited, those from the first one
/// that ends the editing on are kept for after the editor has read what came before.
pub(super) fn take_events(ui: &Ui, view: &GridView, late: &mut Vec<Event>) -> Vec<Event> {
    ui.input_mut(|input| match &view.draft {
        None => extract(&mut input.events, is_for_grid),
        Some(draft) if draft.new => extract(&mut input.events, is_for_grid),
        Some(draft) => {
            let ends = |event: &Event| ends_draft(event, draft.in_text);
            if let Some(end) = input.events.iter().position(ends) {
                let mut tail = input.events.split_off(end);
                *late = extract(&mut tail, is_for_grid);
                input.events.append(&mut tail);
            }
            Vec::new()
        }
    })
}

fn extract(events: &mut Vec<Event>, wanted: impl Fn(&Event) -> bool) -> Vec<Event> {
    let (taken, left) = std::mem::take(events).into_iter().partition(wanted);
    *events = left;
    taken
}

/// Whether keys are the grid's: it has the focus, or had it in the last frame and nothing else took it
/// since, such as another grid on the same sheet.
pub(super) fn has_keyboard(ui: &Ui, (id, editor): (Id, Id), view: &GridView) -> bool {
    let focused = ui.memory(egui::Memory::focused);
    let here = focused.is_some_and(|focused| focused == id || focused == editor);
    here || (view.active && focused.is_none())
}

/// While the grid has the keyboard, Tab, arrows and Esc are its own.
pub(super) fn keep_focus_keys(ui: &Ui, id: Id) {
    let all = EventFilter {
        tab: true,
        horizontal_arrows: true,
        vertical_arrows: true,
        escape: true,
    };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(id, all));
}

/// Gives the keyboard to the editor or to the grid, and commits an editor that lost it.
pub(super) fn settle_focus<M: GridModel + ?Sized>(
    ui: &Ui,
    (id, editor): (Id, Id),
    model: &M,
    view: &mut GridView,
    asks: &mut Vec<GridAsk>,
    wants: bool,
) {
    if let Some(draft) = &view.draft {
        if wants || draft.new {
            ui.memory_mut(|memory| memory.request_focus(editor));
            if draft.new {
                ui.ctx().request_repaint();
            }
        } else if !ui.memory(|memory| memory.has_focus(editor)) {
            AtWork::new(model, view, asks).commit();
        }
    } else if wants {
        ui.memory_mut(|memory| memory.request_focus(id));
    }
    view.active = view.draft.is_some() || ui.memory(|memory| memory.has_focus(id));
}
