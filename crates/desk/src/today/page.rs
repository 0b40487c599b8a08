//! The page of the day's list: head, lines in columns of fixed widths, foot.

use egui::{
    Align, Key, Layout, Modifiers, Rect, Role, ScrollArea, Sense, Ui, UiBuilder, WidgetInfo, pos2,
    vec2,
};
use quillbore_job::Form;
use quillbore_office::today::{Today, Waiting};
use quillbore_office::words::today as said;

use super::{Row, TodayAsk, TodayPage, rows};
use crate::look;
use crate::sheet::parts::pencil;
use crate::words::shelf::{GoesBy, amount};
use crate::words::today as words;

/// The height of a line.
const LINE: f32 = 24.0;

/// The height of the first line of head and foot.
const FIRST: f32 = 28.0;

/// The columns: when, number, customer, part, what waits, price, hours, age; what waits takes the room
/// that is left.
const WIDTHS: [f32; 8] = [88.0, 72.0, 168.0, 144.0, 0.0, 96.0, 52.0, 36.0];

/// The column that takes the room that is left.
const SAYS: usize = 4;

/// Columns whose figures stand at the right.
const RIGHT: [bool; 8] = [false, false, false, false, false, true, true, true];

/// The least width that has room for all columns.
const LEAST: f32 = 920.0;

/// Between two columns.
const GAP: f32 = 8.0;

/// The head of the window while the page lies over the sheet.
pub fn today_head_ui(ui: &mut Ui, page: &mut TodayPage, day: &str, asks: &mut Vec<TodayAsk>) {
    let all = ui.max_rect();
    let first = all.with_max_y(all.top() + FIRST);
    let right = Layout::right_to_left(Align::Center);
    ui.scope_builder(UiBuilder::new().max_rect(first).layout(right), |ui| {
        ui.spacing_mut().item_spacing.x = 16.0;
        if look::keyed_word(ui, words::CLOSE, words::ESC).clicked() {
            asks.push(TodayAsk::Close);
        }
        let set_aside = page.list.as_ref().map_or(0, |list| list.foot.set_aside);
        if set_aside > 0 {
            let word = words::show_aside(set_aside);
            if look::toggle_word(ui, &word, page.with_aside).clicked() {
                asks.push(TodayAsk::ShowAside);
            }
        }
        let left = Layout::left_to_right(Align::Center);
        ui.with_layout(left, |ui| {
            ui.label(egui::RichText::new(words::PAGE).font(look::heading()));
            ui.add_space(12.0);
            ui.label(egui::RichText::new(day).font(look::foot()));
        });
    });
    let second = all.with_min_y(first.bottom());
    let left = Layout::left_to_right(Align::Center);
    ui.scope_builder(UiBuilder::new().max_rect(second).layout(left), |ui| {
        if page.until.is_some() {
            until_ui(ui, page, asks);
        } else {
            words_ui(ui, page, asks);
        }
    });
}

/// What can be done with the line one is at.
fn words_ui(ui: &mut Ui, page: &mut TodayPage, asks: &mut Vec<TodayAsk>) {
    ui.spacing_mut().item_spacing.x = 16.0;
    let line = page.line().cloned().map(Box::new);
    let is_aside = line.as_ref().is_some_and(|line| line.put_off.is_some());
    ui.add_enabled_ui(line.is_some(), |ui| {
        for (word, keys, ask) in [
            (
                words::OPEN,
                "Enter",
                TodayAsk::Open as fn(Box<Waiting>) -> TodayAsk,
            ),
            (
                words::DONE,
                "Space",
                TodayAsk::Done as fn(Box<Waiting>) -> TodayAsk,
            ),
        ] {
            if look::keyed_word(ui, word, keys).clicked() {
                asks.extend(line.clone().map(ask));
            }
        }
        if is_aside {
            if look::keyed_word(ui, words::BRING_BACK, "S").clicked() {
                asks.extend(line.clone().map(TodayAsk::BringBack));
            }
        } else if look::keyed_word(ui, words::SET_ASIDE, "S").clicked() {
            page.until = Some(String::new());
        }
    });
    pencil(ui, words::KEYS);
}

/// The day until which the line is set aside.
fn until_ui(ui: &mut Ui, page: &mut TodayPage, asks: &mut Vec<TodayAsk>) {
    let first = !std::mem::replace(&mut page.until_shown, true);
    let line = page.line().cloned();
    let Some(text) = &mut page.until else { return };
    pencil(ui, words::UNTIL);
    let response = look::line_edit(ui, text, 140.0);
    response.widget_info(|| WidgetInfo::labeled(Role::TextInput, true, words::UNTIL));
    if first {
        response.request_focus();
    }
    let [enter, escape] =
        [Key::Enter, Key::Escape].map(|key| ui.input(|input| input.key_pressed(key)));
    let entered = response.lost_focus() && enter;
    let typed = text.clone();
    ui.add_space(8.0);
    let put = look::word(ui, words::SET_ASIDE_IT).clicked() || entered;
    ui.add_space(8.0);
    let given_up = look::quiet_word(ui, words::NOT_NOW).clicked() || escape;
    if put && let Some(line) = line {
        asks.push(TodayAsk::SetAside(Box::new(line), typed));
    }
    if put || given_up {
        page.until = None;
        page.until_shown = false;
        // What was pressed was about the day alone: the list hears nothing of it.
        ui.input_mut(|input| {
            input.consume_key(Modifiers::NONE, Key::Enter);
            input.consume_key(Modifiers::NONE, Key::Escape);
        });
    }
}

/// The foot of the window while the page lies over the sheet.
pub fn today_foot_ui(ui: &mut Ui, page: &TodayPage, form: Form) {
    let t = look::tokens(ui);
    let all = ui.max_rect();
    let first = all.with_max_y(all.top() + FIRST);
    let second = all.with_min_y(first.bottom());
    let sentence = page
        .list
        .as_ref()
        .map_or_else(|| page.looking().to_owned(), |list| list.foot.said(form));
    look::clipped_label(ui, first, &sentence, look::foot_bold(), t.ink);
    if !page.notice.is_empty() {
        look::clipped_label(ui, second, &page.notice, look::small(), t.accent);
        return;
    }
    // Its column may be too narrow for it.
    let list = page.list.as_deref();
    let here = list.and_then(|list| Some((list, page.line_at(list, page.at)?)));
    if let Some((list, line)) = here {
        let others = said::others(&line.others, &list.foot, form);
        let says = words::line(&line.number, &words::says(&line.says, &others));
        look::clipped_label(ui, second, &says, look::small(), t.ink);
    }
}

/// The lines, and the keys that are heard among them.
pub fn today_ui(
    ui: &mut Ui,
    place: Rect,
    page: &mut TodayPage,
    goes_by: GoesBy<'_>,
    asks: &mut Vec<TodayAsk>,
) {
    if page.until.is_none() {
        keys(ui, page, asks);
    }
    let Some(list) = page.list.clone() else {
        ui.scope_builder(UiBuilder::new().max_rect(place), |ui| {
            ui.add_space(12.0);
            ui.label(page.looking());
        });
        return;
    };
    if page.count(&list) == 0 {
        ui.scope_builder(UiBuilder::new().max_rect(place), |ui| {
            ui.add_space(12.0);
            ui.label(list.foot.said(goes_by.2));
        });
        return;
    }
    let width = place.width().max(LEAST);
    ui.scope_builder(UiBuilder::new().max_rect(place), |ui| {
        let across = ScrollArea::horizontal().id_salt("today across");
        across.auto_shrink([false, false]).show(ui, |ui| {
            ui.set_width(width);
            lines_ui(ui, &list, page, goes_by, asks);
        });
    });
}

/// The heads, and below them the lines.
fn lines_ui(
    ui: &mut Ui,
    list: &Today,
    page: &mut TodayPage,
    goes_by: GoesBy<'_>,
    asks: &mut Vec<TodayAsk>,
) {
    ui.spacing_mut().item_spacing.y = 0.0;
    let size = vec2(ui.available_width(), LINE + 8.0);
    let (heads, _) = ui.allocate_exact_size(size, Sense::hover());
    heads_ui(ui, heads, goes_by.0);
    let rows = rows(list, page.with_aside);
    let at_row = rows.iter().position(|row| *row == Row::Line(page.at));
    let mut scroll = ScrollArea::vertical().id_salt("today");
    let follow = std::mem::take(&mut page.follow);
    if std::mem::take(&mut page.is_fresh) {
        scroll = scroll.vertical_scroll_offset(0.0);
    } else if follow && let Some(row) = at_row {
        // The line one goes to stands in the middle.
        let top = row as f32 * LINE - ui.available_height() / 2.0;
        scroll = scroll.vertical_scroll_offset(top.max(0.0));
    }
    let scroll = scroll.auto_shrink([false, false]);
    scroll.show_rows(ui, LINE, rows.len(), |ui, range| {
        for row in rows.get(range).unwrap_or_default() {
            row_ui(ui, *row, list, page, goes_by, asks);
        }
    });
}

fn keys(ui: &Ui, page: &mut TodayPage, asks: &mut Vec<TodayAsk>) {
    if ui.ctx().text_edit_focused() {
        return;
    }
    let shown = page.list.as_ref().map_or(0, |list| page.count(list));
    let last = shown.saturating_sub(1);
    let took = |key: Key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
    for (key, to) in [
        (Key::ArrowDown, (page.at + 1).min(last)),
        (Key::ArrowUp, page.at.saturating_sub(1)),
        (Key::Home, 0),
        (Key::End, last),
    ] {
        if took(key) {
            page.at = to;
            page.follow = true;
        }
    }
    for (number, key) in NUMBERS.into_iter().enumerate() {
        if took(key) {
            page.go_to_group(number + 1);
        }
    }
    let line = page.line().cloned().map(Box::new);
    // A word that has the keyboard hears Enter and Space itself.
    let is_free = ui.memory(|memory| memory.focused().is_none());
    if is_free && took(Key::Enter) {
        asks.extend(line.clone().map(TodayAsk::Open));
    }
    if is_free && took(Key::Space) {
        asks.extend(line.clone().map(TodayAsk::Done));
    }
    if took(Key::S)
        && let Some(line) = line
    {
        if line.put_off.is_some() {
            asks.push(TodayAsk::BringBack(line));
        } else {
            page.until = Some(String::new());
        }
    }
    if took(Key::Escape) {
        asks.push(TodayAsk::Close);
    }
}

const NUMBERS: [Key; 9] = [
    Key::Num1,
    Key::Num2,
    Key::Num3,
    Key::Num4,
    Key::Num5,
    Key::Num6,
    Key::Num7,
    Key::Num8,
    Key::Num9,
];

/// Where each column stands in a line.
fn columns(place: Rect) -> [Rect; 8] {
    let fixed: f32 = WIDTHS.iter().sum();
    let gaps = GAP * (WIDTHS.len() as f32 - 1.0);
    let left_over = (place.width() - fixed - gaps).max(120.0);
    let mut x = place.left();
    std::array::from_fn(|at| {
        let width = if at == SAYS { left_over } else { WIDTHS[at] };
        let column = Rect::from_min_size(pos2(x, place.top()), vec2(width, place.height()));
        x += width + GAP;
        column
    })
}

fn heads_ui(ui: &mut Ui, place: Rect, currency: &str) {
    let t = look::tokens(ui);
    for (column, (head, right)) in columns(place.shrink2(vec2(4.0, 0.0)))
        .into_iter()
        .zip(words::heads(currency).into_iter().zip(RIGHT))
    {
        set(ui, column, &head, look::small(), t.pencil, right);
        let named = ui.interact(column, ui.scope_id().with(&head), Sense::hover());
        named.widget_info(|| WidgetInfo::labeled(Role::Label, true, &head));
    }
    look::hairline_at(ui.painter(), place.x_range(), place.bottom() - 1.0, t.rule);
}

/// A text in its column, cut where the column ends and told whole on hover.
fn set(ui: &mut Ui, place: Rect, text: &str, font: egui::FontId, ink: egui::Color32, right: bool) {
    if !right {
        look::clipped(ui, place, text, font, ink);
        return;
    }
    let galley = look::elided(ui.painter(), text, font, ink, place.width());
    let at = pos2(
        place.right() - galley.size().x,
        place.center().y - galley.size().y / 2.0,
    );
    ui.painter().galley(at, galley, ink);
}

fn row_ui(
    ui: &mut Ui,
    row: Row,
    list: &Today,
    page: &mut TodayPage,
    goes_by: GoesBy<'_>,
    asks: &mut Vec<TodayAsk>,
) {
    let t = look::tokens(ui);
    let size = vec2(ui.available_width(), LINE);
    match row {
        Row::Head(..) | Row::AsideHead(_) => {
            let (place, _) = ui.allocate_exact_size(size, Sense::hover());
            let head = match row {
                Row::Head(group, count) => {
                    words::group(&said::group(group, &list.foot, goes_by.2), count)
                }
                Row::AsideHead(count) => words::group(words::ASIDE, count),
                Row::Line(_) => String::new(),
            };
            let place = place.shrink2(vec2(4.0, 0.0));
            look::clipped_label(ui, place, &head, look::small_bold(), t.ink);
            look::hairline_at(
                ui.painter(),
                place.x_range(),
                place.bottom() - 1.0,
                t.hairline,
            );
        }
        Row::Line(at) => {
            let Some(line) = page.line_at(list, at) else {
                return;
            };
            let (place, response) = ui.allocate_exact_size(size, Sense::click());
            let name = words::line(&line.number, &line.says);
            response.widget_info(|| WidgetInfo::labeled(Role::Link, true, &name));
            look::ground_under(ui, place, at == page.at, &response);
            line_ui(ui, place, line, (list, goes_by), at == page.at);
            if response.clicked() {
                page.at = at;
                asks.push(TodayAsk::Open(Box::new(line.clone())));
            }
        }
    }
}

fn line_ui(
    ui: &mut Ui,
    place: Rect,
    line: &Waiting,
    (list, goes_by): (&Today, GoesBy<'_>),
    is_at: bool,
) {
    let t = look::tokens(ui);
    let ink = if is_at { t.pressed } else { t.ink };
    let form = goes_by.2;
    let others = said::others(&line.others, &list.foot, form);
    let says = words::says(&line.says, &others);
    let price = line.price.as_ref();
    let price = price.map(|price| amount(price, goes_by));
    let when = line.put_off.or(line.when);
    let texts = [
        when.map(|day| form.day(day)).unwrap_or_default(),
        line.number.clone(),
        line.customer.clone(),
        words::part(&line.part, &line.revision),
        says,
        price.unwrap_or_default(),
        line.hours
            .map(|hours| form.hours(hours))
            .unwrap_or_default(),
        line.age.map(words::age).unwrap_or_default(),
    ];
    let columns = columns(place.shrink2(vec2(4.0, 0.0)));
    for (at, (column, text)) in columns.into_iter().zip(texts).enumerate() {
        let font = if at == 1 { look::bold() } else { look::body() };
        set(ui, column, &text, font, ink, RIGHT[at]);
    }
}

#[cfg(test)]
mod tests {
    use chrono::{Datelike as _, NaiveDate};
    use egui::epaint::text::{Fonts, TextOptions};
    use quillbore_job::form::{Dates, Numbers};

    use super::*;

    /// Figures and days in the longest form fit their fixed columns.
    #[test]
    fn days_and_amounts_of_every_form_fit_their_columns() {
        let mut fonts = Fonts::new(TextOptions::default(), look::definitions());
        fonts.begin_pass(TextOptions::default(), Default::default());
        let mut view = fonts.with_pixels_per_point(1.0);
        let mut width = |text: &str| -> f32 {
            let signs = text.chars();
            signs
                .map(|sign| view.glyph_width(&look::body(), sign))
                .sum()
        };
        let first = NaiveDate::from_ymd_opt(2028, 1, 1).expect("a day");
        for numbers in Numbers::ALL {
            for dates in Dates::ALL {
                let (numbers, dates) = (*numbers, *dates);
                let form = Form { numbers, dates };
                for day in first.iter_days().take_while(|day| day.year() == 2028) {
                    let shown = form.day(day);
                    assert!(width(&shown) <= WIDTHS[0], "{shown}");
                }
                let amount = form.money(999_999.99, 2);
                assert!(width(&amount) <= WIDTHS[5], "{amount}");
                let hours = form.hours(88_888.0);
                assert!(width(&hours) <= WIDTHS[6], "{hours}");
            }
        }
    }
}
