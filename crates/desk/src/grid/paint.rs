//! Draws a grid and hears what is done in it.

use egui::{Ui, Vec2};

use super::{
    at_work::AtWork,
    focus::{has_keyboard, keep_focus_keys, settle_focus, take_events},
    model::{GridAsk, GridModel},
    pointer::Pointer,
    table::{GridShown, draw},
    view::GridView,
};

/// Puts what is being typed in a cell in its place, as leaving the cell would do.
pub fn commit<M: GridModel + ?Sized>(model: &M, view: &mut GridView, asks: &mut Vec<GridAsk>) {
    AtWork::new(model, view, asks).commit();
}

/// Draws a grid of a size and pushes what is wanted.
pub fn grid_ui<M: GridModel + ?Sized>(
    ui: &mut Ui,
    salt: &str,
    model: &M,
    view: &mut GridView,
    size: Vec2,
    asks: &mut Vec<GridAsk>,
) -> GridShown {
    let id = ui.make_persistent_id(salt);
    let editor = id.with("editor");
    let rows = model.row_count() + 1;
    view.clamp(rows, model.columns().len());

    // The keyboard is read before anything is drawn: a focused editor would eat a pasted block.
    let has_keyboard = has_keyboard(ui, (id, editor), view);
    let mut late = Vec::new();
    let mut handled = false;
    let mut first = AtWork::new(model, view, asks);
    if has_keyboard {
        for event in take_events(ui, first.view, &mut late) {
            first.handle(&event);
            handled = true;
        }
    }
    handled |= first.press_pending();
    let mut copied = first.copied.take();
    let mut released = first.released;

    let mut pointer = Pointer::default();
    let shown = draw(ui, (id, editor), model, view, size, &mut pointer);
    keep_focus_keys(ui, id);

    let mut second = AtWork::new(model, view, asks);
    for event in &late {
        second.handle(event);
        handled = true;
    }
    copied = second.copied.take().or(copied);
    released |= second.released;
    let wanted = std::mem::take(&mut second.view.wanted);
    let clicked = second.follow_pointer(&pointer, ui);
    if let Some(text) = copied {
        ui.ctx().copy_text(text);
    }

    let wants = if released {
        ui.memory_mut(|memory| memory.surrender_focus(id));
        false
    } else {
        handled || clicked || wanted
    };
    settle_focus(ui, (id, editor), model, view, asks, wants);
    shown
}
