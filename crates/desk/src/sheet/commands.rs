//! Every command, over the sheet: one below the other, in groups, with its keys, found as one types.

use egui::{Align, Key, Modifiers, Rect, Role, ScrollArea, Sense, Ui, WidgetInfo, pos2, vec2};

use super::parts::pencil;
use super::shared::Shared;
use crate::all_words::{self, Command, Group};
use crate::look;
use crate::view::{Ask, Decision, SheetView, Waiting};
use crate::words::questions as words;

/// The width of the list.
const WIDTH: f32 = 480.0;

/// The height of a command.
const ROW: f32 = 24.0;

/// Commands that are shown at once: a job of many rows has one for the answer to each.
const MOST: usize = 100;

/// The list over the sheet at `place`; Enter does the one that is marked, Esc closes it.
pub fn commands_ui(
    ui: &mut Ui,
    place: Rect,
    shared: &Shared<'_>,
    view: &mut SheetView,
    asks: &mut Vec<Ask>,
) {
    let Some(Waiting::Command(typed)) = &mut view.waiting else {
        return;
    };
    let first = !std::mem::replace(&mut view.waiting_shown, true);
    if first {
        view.command = 0;
    }
    let of_job = all_words::of_job(shared.job, shared.results);
    let id = ui.scope_id().with("commands");
    let from = pos2(place.left(), place.top() + 12.0);
    let height = (place.height() - 24.0).max(120.0);
    let mut done = None;
    look::lies_over(ui, id, from, 12, |ui| {
        ui.set_width(WIDTH.min(place.width()) - 24.0);
        let took = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
        let (down, up) = (took(Key::ArrowDown), took(Key::ArrowUp));
        let before = typed.clone();
        let response = look::line_edit(ui, typed, ui.available_width());
        response.widget_info(|| WidgetInfo::labeled(Role::TextInput, true, words::FIND_COMMAND));
        if first {
            response.request_focus();
        }
        let pressed = |key| ui.input(|input| input.key_pressed(key));
        if pressed(Key::Escape) {
            done = Some(Ask::GoOn(Decision::Stay));
        }
        let entered = response.lost_focus() && pressed(Key::Enter);
        let found = all_words::found(typed, ui.ctx(), &of_job);
        let shown = found.len().min(MOST);
        if *typed != before {
            view.command = 0;
        }
        view.command = match (down, up) {
            (true, _) => (view.command + 1).min(shown.saturating_sub(1)),
            (_, true) => view.command.saturating_sub(1),
            _ => view.command,
        };
        let moved = down || up;
        ui.add_space(8.0);
        let scroll = ScrollArea::vertical().max_height(height - 60.0);
        scroll.auto_shrink([false, true]).show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 0.0;
            if found.is_empty() {
                pencil(ui, words::NO_COMMAND);
            }
            let mut group: Option<Group> = None;
            for (at, command) in found.iter().take(MOST).enumerate() {
                if group.replace(command.group) != Some(command.group) {
                    group_ui(ui, command.group);
                }
                let marked = at == view.command;
                let response = command_ui(ui, command, marked);
                if marked && moved {
                    response.scroll_to_me(Some(Align::Center));
                }
                if response.clicked() || (marked && entered) {
                    done = Some(command.ask.clone());
                }
            }
            if found.len() > MOST {
                pencil(ui, &words::more_commands(found.len() - MOST));
            }
        });
    });
    if let Some(ask) = done {
        if !matches!(ask, Ask::GoOn(_)) {
            asks.push(Ask::GoOn(Decision::Stay));
        }
        asks.push(ask);
    }
}

fn group_ui(ui: &mut Ui, group: Group) {
    ui.add_space(8.0);
    let ink = look::tokens(ui).ink;
    ui.label(look::spaced_caps(crate::words::commands::group(group), ink));
    ui.add_space(2.0);
}

/// A command with its keys at the right.
fn command_ui(ui: &mut Ui, command: &Command, marked: bool) -> egui::Response {
    let t = look::tokens(ui);
    let size = vec2(ui.available_width(), ROW);
    let (place, response) = ui.allocate_exact_size(size, Sense::click());
    response.widget_info(|| WidgetInfo::labeled(Role::Link, true, &command.word));
    look::ground_under(ui, place, marked, &response);
    let keys = ui
        .painter()
        .layout_no_wrap(command.keys.clone(), look::small(), t.pencil);
    let (ink, wide) = (if marked { t.pressed } else { t.ink }, keys.size().x);
    let at = pos2(
        place.right() - wide - 8.0,
        place.center().y - keys.size().y / 2.0,
    );
    ui.painter().galley(at, keys, t.pencil);
    let text = place.with_max_x(at.x - 8.0).with_min_x(place.left() + 6.0);
    look::clipped(ui, text, &command.word, look::body(), ink);
    response
}
