//! A table before it lands: what each of its columns holds and how that is known, over the sheet; each
//! can be said otherwise, and Enter lands the table.

use egui::{Color32, Key, Modifiers, Rect, Role, ScrollArea, Sense, Ui, WidgetInfo, pos2, vec2};
use quillbore_intake::{ColumnView, Foreign, Holds, Units, words as intake};
use quillbore_job::Unit;

use super::parts::pencil;
use super::shared::Shared;
use crate::incoming::{file_ui, lands_ui};
use crate::look;
use crate::view::{Ask, Decision, Pasting, SheetView, Waiting};
use crate::words::{incoming, paste as words};

/// The height of a column's line.
const ROW: f32 = 24.0;

/// Head, first values, what it holds.
const LEFTS: [f32; 3] = [0.0, 170.0, 440.0];

/// Columns that are in sight at once; more of them scroll.
const MOST: usize = 12;

/// The table over the sheet at `place`; Esc pastes nothing.
pub fn paste_ui(
    ui: &mut Ui,
    place: Rect,
    shared: &Shared<'_>,
    view: &mut SheetView,
    asks: &mut Vec<Ask>,
) {
    let Some(Waiting::Column(pasting, typed)) = &mut view.waiting else {
        return;
    };
    let first = !std::mem::replace(&mut view.waiting_shown, true);
    let t = look::tokens(ui);
    let id = ui.scope_id().with("paste");
    let from = pos2(place.left(), place.top() + 12.0);
    look::lies_over(ui, id, from, 12, |ui| {
        ui.set_width(place.width() - 24.0);
        ui.spacing_mut().item_spacing.y = 2.0;
        ui.label(look::spaced_caps(
            &words::head_of(pasting.file.as_ref()),
            t.ink,
        ));
        if let Some(file) = &pasting.file {
            file_ui(ui, file);
        }
        sheets_ui(ui, pasting, asks);
        let summary = pasting.summary();
        ui.label(intake::summary(&summary));
        if matches!(summary.units, Units::Unnamed { .. }) {
            unit_ui(ui, pasting);
        }
        pencil(ui, &words::columns(&pasting.table));
        ui.add_space(8.0);
        columns_ui(ui, pasting, asks);
        ui.add_space(8.0);
        if let Some(file) = &mut pasting.file {
            lands_ui(ui, shared, file);
            ui.add_space(8.0);
        }
        answer_ui(ui, first, pasting, typed, asks);
    });
}

/// The unit of numbers that have none, where nothing in the table says it.
fn unit_ui(ui: &mut Ui, pasting: &mut Pasting) {
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 10.0;
        pencil(ui, words::BARE_NUMBERS);
        for unit in [Unit::Mm, Unit::Inch] {
            let word = look::toggle_word(ui, incoming::unit(unit), pasting.unit == unit);
            if word.clicked() && pasting.unit != unit {
                pasting.unit = unit;
                pasting.changed();
            }
        }
    });
}

/// The sheets of a workbook, where there are several; a press takes another one.
fn sheets_ui(ui: &mut Ui, pasting: &mut Pasting, asks: &mut Vec<Ask>) {
    let sheets = pasting.table.sheets();
    if sheets.len() < 2 {
        return;
    }
    let mut wanted = None;
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 10.0;
        pencil(ui, words::SHEETS);
        for sheet in &sheets {
            let word = look::toggle_word(ui, &words::sheet(sheet), sheet.is_taken);
            if word.clicked() && !sheet.is_taken {
                wanted = Some(sheet.name.to_owned());
            }
        }
    });
    let Some(name) = wanted else { return };
    match pasting.table.on_sheet(&name) {
        Ok(table) => {
            pasting.table = table;
            pasting.to_next_question();
            pasting.changed();
        }
        Err(error) => asks.push(Ask::NoTable(error)),
    }
}

/// The columns, each on a line; a press on one asks what it is.
fn columns_ui(ui: &mut Ui, pasting: &mut Pasting, asks: &mut Vec<Ask>) {
    let columns = pasting.table.columns();
    let took = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
    let (down, up) = (took(Key::ArrowDown), took(Key::ArrowUp));
    let marked = columns
        .iter()
        .position(|column| column.about.column == pasting.at);
    let to = match (down, up, marked) {
        (true, _, Some(at)) => columns.get(at + 1),
        (_, true, Some(at)) => at.checked_sub(1).and_then(|at| columns.get(at)),
        _ => None,
    };
    if let Some(column) = to {
        asks.push(Ask::AtColumn(column.about.column));
    }
    let height = ROW * columns.len().min(MOST) as f32;
    let scroll = ScrollArea::vertical().id_salt("columns of the paste");
    scroll.max_height(height).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 0.0;
        for column in &columns {
            if column_ui(ui, column, column.about.column == pasting.at).clicked() {
                asks.push(Ask::AtColumn(column.about.column));
            }
        }
    });
}

/// One column: its head, the first of its values, what it holds and how that is known.
fn column_ui(ui: &mut Ui, column: &ColumnView, marked: bool) -> egui::Response {
    let t = look::tokens(ui);
    let size = vec2(ui.available_width(), ROW);
    let (place, response) = ui.allocate_exact_size(size, Sense::click());
    let name = words::column(column);
    response.widget_info(|| WidgetInfo::selected(Role::Link, true, marked, &name));
    look::ground_under(ui, place, marked, &response);
    let text = |from: usize, said: &str, ink: Color32, ui: &mut Ui| {
        let left = place.left() + LEFTS[from] + 4.0;
        let right = LEFTS
            .get(from + 1)
            .map_or(place.right() - 4.0, |next| place.left() + next - 8.0);
        let cell = Rect::from_min_max(pos2(left, place.top()), pos2(right, place.bottom()));
        look::clipped(ui, cell, said, look::body(), ink);
    };
    text(0, &words::head(&column.about), t.ink, ui);
    text(1, &column.about.values.join("; "), t.pencil, ui);
    let ink = if column.holds.is_none() {
        t.accent
    } else {
        t.ink
    };
    text(2, &words::holds(column), ink, ui);
    response
}

/// The line on which one says what the marked column is, narrowed by what is typed; Enter says it, or
/// lands the table where nothing is typed and every column is understood.
fn answer_ui(ui: &mut Ui, first: bool, pasting: &Pasting, typed: &mut String, asks: &mut Vec<Ask>) {
    let is_file = pasting.file.is_some();
    let choices = pasting.table.choices();
    let wanted = typed.trim().to_lowercase();
    let fits = |holds: &&Holds| intake::holds(**holds).contains(&wanted);
    let found: Vec<Holds> = choices.iter().filter(fits).copied().collect();
    let is_understood = pasting.table.not_understood().0 == 0;
    let response = ui
        .horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 8.0;
            pencil(ui, &words::which(&pasting.table, pasting.at));
            let response = look::line_edit(ui, typed, 150.0);
            response
                .widget_info(|| WidgetInfo::labeled(Role::TextInput, true, words::WHICH_IS_THIS));
            response
        })
        .inner;
    let [enter, escape] =
        [Key::Enter, Key::Escape].map(|key| ui.input(|input| input.key_pressed(key)));
    let entered = response.lost_focus() && enter;
    // It stays the place to type, for the next column or to land the table, whatever was pressed.
    if first || ui.memory(|memory| memory.focused().is_none()) {
        response.request_focus();
    }
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 10.0;
        let columns = pasting.table.columns();
        // What another column holds keeps its place, so that no word moves under the hand; it leads to
        // that column.
        let shown = Foreign::all_choices().into_iter();
        let shown = shown.filter(|holds| wanted.is_empty() || found.contains(holds));
        for holds in shown {
            let said = intake::holds(holds);
            if choices.contains(&holds) {
                if look::word(ui, said).clicked() {
                    asks.push(Ask::SayColumn(holds));
                }
                continue;
            }
            let mut all = columns.iter();
            let Some(column) = all.find(|column| column.holds == Some(holds)) else {
                continue;
            };
            let word = look::quiet_word(ui, said);
            if word
                .on_hover_text(words::taken(said, &column.about))
                .clicked()
            {
                asks.push(Ask::AtColumn(column.about.column));
            }
        }
        if found.is_empty() {
            let taken = columns.iter().find_map(|column| {
                let holds = column.holds.map(intake::holds)?;
                holds.contains(&wanted).then_some((holds, &column.about))
            });
            match taken {
                Some((holds, about)) => pencil(ui, &words::taken(holds, about)),
                None => pencil(ui, words::NO_COLUMN),
            }
        }
    });
    ui.add_space(8.0);
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 24.0;
        let land = ui
            .add_enabled_ui(is_understood, |ui| {
                look::keyed_word(ui, words::land(is_file), words::ENTER)
                    .on_disabled_hover_text(words::NOT_YET)
            })
            .inner;
        // Nothing is chosen by Enter on an empty line: a guess would be as good as none.
        match (entered, wanted.is_empty(), found.first()) {
            (true, false, Some(holds)) => asks.push(Ask::SayColumn(*holds)),
            (true, true, _) if is_understood => asks.push(Ask::LandTable),
            _ if land.clicked() => asks.push(Ask::LandTable),
            _ => {}
        }
        if is_file && look::quiet_word(ui, incoming::ATTACH_ALONE).clicked() {
            asks.push(Ask::AttachAlone);
        }
        let nothing = look::keyed_word(ui, words::nothing(is_file), words::ESC);
        if nothing.clicked() || escape {
            asks.push(Ask::GoOn(Decision::Stay));
        }
    });
}
