//! What a field chooses among: names of the shop and of the trade, in a list that lies over the sheet.

use egui::{Id, Key, Modifiers, Pos2, Rect, Role, Sense, Ui, pos2, vec2};
use quillbore_job::choices::{choices, choices_like, customers_like};
use quillbore_job::words::english;
use quillbore_job::{Field, FieldKind};

use super::measures::BAR;
use super::shared::Shared;
use crate::look;
use crate::spot::Spot;
use crate::view::{Ask, SheetView};
use crate::words::sheet as words;

/// Most names that are listed.
const MOST: usize = 8;

/// The height of a name.
const ROW: f32 = 24.0;

/// The width of the list.
const WIDTH: f32 = 320.0;

/// The list of a field at `at` whose place to type is `id`; keys move in it, Enter takes the name that
/// is marked into what is typed, a press takes one and goes on to `down`.
pub(super) fn suggestions_ui(
    ui: &mut Ui,
    at: Rect,
    (spot, id): (Spot, Id),
    down: Option<Spot>,
    shared: &Shared<'_>,
    view: &mut SheetView,
    asks: &mut Vec<Ask>,
) {
    let focused = ui.memory(|memory| memory.has_focus(id));
    let is_pressed = view.choosing && view.drafts.contains_key(&spot);
    if !focused && !is_pressed {
        return;
    }
    let typed = view.drafts.get(&spot).map_or("", String::as_str);
    let Some((near, more)) = near(spot, shared, typed) else {
        view.choosing = false;
        return;
    };
    keys(ui, spot, &near, view);
    let said = match (near.is_empty(), more) {
        (true, _) => Some(words::NONE_OF_LIST.to_owned()),
        (false, 0) => None,
        (false, more) => Some(words::more_choices(more)),
    };
    let from = list_from(ui, at, near.len() + usize::from(said.is_some()));
    let t = look::tokens(ui);
    let mut over = false;
    look::lies_over(ui, id.with("list"), from, 0, |ui| {
        ui.spacing_mut().item_spacing = vec2(0.0, 0.0);
        ui.set_width(WIDTH);
        for (index, name) in near.iter().enumerate() {
            let marked = view.marked == Some((spot, index));
            let beside = beside(spot.kind(), name, shared);
            let response = choice_ui(ui, (name, &beside), marked);
            over |= response.contains_pointer();
            if response.clicked() {
                view.drafts.remove(&spot);
                view.marked = None;
                view.focus = down;
                asks.push(Ask::Edit(spot.edit(name.clone(), shared.job.unit)));
                over = false;
            }
        }
        if let Some(said) = said {
            let (place, _) = ui.allocate_exact_size(vec2(WIDTH, ROW), Sense::hover());
            look::clipped(
                ui,
                place.shrink2(vec2(6.0, 0.0)),
                &said,
                look::small(),
                t.pencil,
            );
        }
    });
    view.choosing = over;
}

/// Where the list of a line begins that has so many lines: below it, or above its label where there is no
/// room below.
pub(crate) fn list_from(ui: &Ui, line: Rect, lines: usize) -> Pos2 {
    let height = lines as f32 * ROW + 2.0;
    let below = line.bottom() + 2.0;
    let room = ui.ctx().content_rect().bottom() - BAR;
    let top = if below + height > room {
        line.top() - height - 15.0
    } else {
        below
    };
    pos2(line.left(), top)
}

/// The name that keys marked in the list of a field where this is typed.
pub(super) fn marked_name(
    spot: Spot,
    typed: &str,
    shared: &Shared<'_>,
    view: &SheetView,
) -> Option<String> {
    let (_, index) = view.marked.filter(|(of, _)| *of == spot)?;
    let (near, _) = near(spot, shared, typed)?;
    near.into_iter().nth(index)
}

/// The names near to what is typed, and how many more there are; `None` where the field chooses among
/// nothing, or what is typed is known by another name.
fn near(spot: Spot, shared: &Shared<'_>, typed: &str) -> Option<(Vec<String>, usize)> {
    let typed = typed.trim().to_lowercase();
    if spot == Spot::Field(Field::Customer) {
        // A customer may be new: nothing is said where none is near.
        let near = customers_like(shared.shop, &typed);
        return (!near.is_empty()).then(|| first_of(near));
    }
    let all = choices(spot.kind(), shared.shop)?;
    let stands = spot.entry(shared.job).text().to_lowercase();
    let near = if all.len() <= MOST || typed == stands {
        // What stands there comes first, then the whole list to choose otherwise.
        let (like, others): (Vec<_>, Vec<_>) = {
            let like = choices_like(spot.kind(), shared.shop, &typed);
            let is_like = |name: &String| !typed.is_empty() && like.contains(name);
            all.into_iter().partition(is_like)
        };
        if like.len() < MOST {
            like.into_iter().chain(others).collect()
        } else {
            like
        }
    } else {
        choices_like(spot.kind(), shared.shop, &typed)
    };
    if near.is_empty() && (typed.is_empty() || shared.shop.material(&typed).is_some()) {
        return None;
    }
    Some(first_of(near))
}

/// The names that are listed, and how many more there are.
fn first_of(mut near: Vec<String>) -> (Vec<String>, usize) {
    let more = near.len().saturating_sub(MOST);
    near.truncate(MOST);
    (near, more)
}

/// Moves the mark through the list; Enter takes the marked name into what is typed.
fn keys(ui: &Ui, spot: Spot, near: &[String], view: &mut SheetView) {
    let marked = view.marked.filter(|(of, _)| *of == spot);
    let mut marked = marked.map(|(_, index)| index);
    let last = near.len().checked_sub(1);
    let took = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
    if took(Key::ArrowDown) {
        marked = Some(marked.map_or(0, |index| index + 1)).min(last);
    }
    if took(Key::ArrowUp) {
        marked = marked.and_then(|index| index.checked_sub(1));
    }
    marked = marked.filter(|index| *index < near.len());
    if let Some(name) = marked.and_then(|index| near.get(index))
        && ui.input(|input| input.key_pressed(Key::Enter))
    {
        view.drafts.insert(spot, name.clone());
        marked = None;
    }
    view.marked = marked.map(|index| (spot, index));
}

/// A name in a list that lies over the sheet, and what is told beside it.
pub(crate) fn choice_ui(ui: &mut Ui, (name, beside): (&str, &str), marked: bool) -> egui::Response {
    let t = look::tokens(ui);
    // A press takes it, and keys mark it from the line: Tab goes past it to the next line.
    let (place, response) = ui.allocate_exact_size(vec2(WIDTH, ROW), Sense::CLICK);
    response.widget_info(|| egui::WidgetInfo::labeled(Role::Link, true, name));
    look::ground_under(ui, place, marked, &response);
    let ink = if marked { t.pressed } else { t.ink };
    let place = place.shrink2(vec2(6.0, 0.0));
    let beside = ui
        .painter()
        .layout_no_wrap(beside.to_owned(), look::small(), t.pencil);
    let wide = beside.size().x;
    let at = pos2(
        place.right() - wide,
        place.center().y - beside.size().y / 2.0,
    );
    ui.painter().galley(at, beside, t.pencil);
    let left = place.with_max_x(place.right() - wide - 8.0);
    look::clipped(ui, left, name, look::body(), ink);
    response
}

/// What is told beside a name, so that one needn't know it: what a machine drills and costs, the family
/// of a material.
fn beside(kind: FieldKind, name: &str, shared: &Shared<'_>) -> String {
    let tables = &shared.shop.tables;
    match kind {
        FieldKind::Machine => {
            let machine = tables.machines.iter().find(|machine| machine.name == name);
            machine.map_or_else(String::new, |machine| {
                let form = shared.shop.form;
                let tubes = form.limits(machine.tube_mm, shared.job.unit);
                let rate = form.money(machine.rate_per_hour, 0);
                words::machine(&tubes, &rate, &tables.rates.currency)
            })
        }
        FieldKind::Material => {
            let mut materials = tables.materials.iter();
            let material = materials.find(|material| material.name == name);
            material
                .map_or("", |material| english::family(material.family))
                .to_owned()
        }
        _ => String::new(),
    }
}
