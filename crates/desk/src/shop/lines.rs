//! Single lines of the shop's sheet, each in its place: label above, what was typed below, in pencil where
//! it is as in the samples.

use chrono::NaiveDate;
use egui::{
    Align2, Frame, Id, Key, Margin, Rect, Response, RichText, Role, ScrollArea, TextEdit, Ui,
    UiBuilder, WidgetInfo, pos2, vec2,
};
use quillbore_job::Entry;
use quillbore_job::shop::sheet::{
    ShopBlock, ShopEdit, ShopKind, ShopLine as Line, ShopValue, usual_line,
};
use quillbore_job::words::shop_sheet as words;

use super::{At, ShopAsk, ShopPage, choices, start};
use crate::look;
use crate::sheet::field::label_ui;
use crate::sheet::measures::{FIELD, Measures};

/// Lines of a long text that are in sight.
const LONG_LINES: usize = 4;

/// The height of a long text, its label included.
pub(super) const fn long_height() -> f32 {
    15.0 + LONG_LINES as f32 * 17.0 + 4.0
}

/// The rows of the identity: each line with its tracks.
const IDENTITY: &[&[(Line, u8)]] = &[
    &[(Line::Name, 5), (Line::Contact, 4), (Line::Phone, 3)],
    &[
        (Line::Address, 5),
        (Line::Email, 4),
        (Line::Registration, 3),
    ],
    &[
        (Line::Currency, 3),
        (Line::PaperSize, 3),
        (Line::UsualTolerance, 6),
    ],
    &[(Line::Numbers, 3), (Line::Dates, 3), (Line::Sides, 6)],
];

/// The rows of the texts.
const TEXTS: &[&[(Line, u8)]] = &[
    &[(Line::Terms, 12)],
    &[(Line::Exclusions, 12)],
    &[(Line::Cautions, 12)],
];

/// The row of the calendar.
const CALENDAR: &[&[(Line, u8)]] = &[&[
    (Line::WorkDays, 4),
    (Line::HoursPerDay, 3),
    (Line::UnattendedHours, 3),
]];

const fn rows(block: ShopBlock) -> &'static [&'static [(Line, u8)]] {
    match block {
        ShopBlock::Identity => IDENTITY,
        ShopBlock::Texts => TEXTS,
        ShopBlock::Calendar => CALENDAR,
    }
}

/// The lines of a block at their places.
pub(super) fn block_ui(
    ui: &mut Ui,
    block: ShopBlock,
    page: &mut ShopPage,
    asks: &mut Vec<ShopAsk>,
) {
    let width = ui.available_width();
    let origin = ui.cursor().min;
    let mut y = origin.y;
    // A line that gives the keyboard away is told as left once more in the next frame.
    page.left = None;
    let all = rows(block).iter().flat_map(|row| row.iter());
    let all = all.map(|(line, _)| *line);
    for row in rows(block) {
        let is_long = |line: Line| line.kind() == ShopKind::Lines;
        let long = row.iter().any(|(line, _)| is_long(*line));
        let height = if long { long_height() } else { FIELD };
        let mut track = 0;
        for (line, tracks) in *row {
            let left = origin.x + Measures::track_left(width, track);
            let size = vec2(Measures::tracks(width, *tracks), height - 1.0);
            let mut place = Rect::from_min_size(pos2(left, y), size);
            if !is_long(*line) {
                place.max.y = y + FIELD - 1.0;
            }
            track += tracks;
            let sheet = page.history.now().clone();
            let typing = Typing {
                at: At::Line(*line),
                label: words::line(*line),
                about: words::line_about(*line),
                stands: sheet.line(*line),
                usual: usual_line(*line),
                choices: line.kind().choices(),
                is_long: is_long(*line),
                place,
            };
            if let Some(text) = line_ui(ui, &typing, page) {
                asks.push(ShopAsk::Edit(ShopEdit::SetLine {
                    line: *line,
                    text,
                    unit: sheet.unit,
                }));
            }
            let is_entered = ui.input(|input| input.key_pressed(Key::Enter));
            if is_entered && page.left == Some(At::Line(*line)) {
                let next = all.clone().skip_while(|known| known != line).nth(1);
                page.focus = next.map(At::Line);
                page.left = None;
            }
        }
        y += height;
    }
    ui.advance_cursor_after_rect(Rect::from_min_max(origin, pos2(origin.x + width, y)));
}

/// A line and where it stands.
pub(super) struct Typing<'a> {
    pub(super) at: At,
    pub(super) label: &'a str,
    pub(super) about: &'a str,
    pub(super) stands: &'a Entry<ShopValue>,
    pub(super) usual: &'a str,
    pub(super) choices: &'static [&'static str],
    pub(super) is_long: bool,
    pub(super) place: Rect,
}

/// One line to type on; gives the text that is to be put in its place, once it is left.
pub(super) fn line_ui(ui: &mut Ui, typing: &Typing<'_>, page: &mut ShopPage) -> Option<String> {
    let t = look::tokens(ui);
    let Typing {
        at,
        stands,
        usual,
        choices,
        is_long,
        ..
    } = *typing;
    let below = label_ui(ui, typing.place, typing.label);
    let id = ui.make_persistent_id(("shop line", at.key()));
    let shown = stands.text();
    let draft = page.drafts.get(&at).cloned();
    let mut text = draft.unwrap_or_else(|| shown.to_owned());
    let is_pressed = page.choosing == Some(at);
    let has_focus = ui.memory(|memory| memory.has_focus(id));
    let near = if has_focus || is_pressed {
        choices::near(choices, &text, shown)
    } else {
        Vec::new()
    };
    if has_focus && !near.is_empty() {
        choices::keys(ui, at, &near, page, &mut text);
    }
    let response = edit_ui(ui, below, (id, is_long), usual, &mut text);
    response.widget_info(|| WidgetInfo::labeled(Role::TextInput, true, typing.label));
    if page.focus == Some(at) {
        page.focus = None;
        response.request_focus();
        response.scroll_to_me(None);
    }
    look::line_under(ui, &response);
    if stands.why().is_some() {
        let under = response.rect.bottom() - 2.0;
        look::wavy_underline(ui.painter(), response.rect.x_range(), under, t.accent);
    }
    if response.has_focus() || response.changed() {
        page.drafts.insert(at, text.clone());
    }
    let marked = page.marked.filter(|(of, _)| *of == at);
    let marked = marked.map(|(_, index)| index);
    let (is_over, pressed) = choices::list_ui(ui, response.rect, id, &near, marked);
    // A press on the list takes the keyboard from the line, which is not left by that; a key leaves it
    // wherever the pointer is.
    let by_key = |key: &Key| response.ctx.input(|input| input.key_pressed(*key));
    let by_key = response.lost_focus() && [Key::Tab, Key::Enter, Key::Escape].iter().any(by_key);
    let is_over = is_over && !by_key;
    let lost = !is_over && (response.lost_focus() || (is_pressed && !response.has_focus()));
    if is_over {
        page.choosing = Some(at);
    } else if is_pressed {
        page.choosing = None;
    }
    response.on_hover_text(stands.why().unwrap_or(typing.about));
    if let Some(choice) = pressed {
        page.drafts.remove(&at);
        page.choosing = None;
        page.left = Some(at);
        return (choice != shown).then(|| choice.to_owned());
    }
    if !lost {
        return None;
    }
    page.marked = None;
    page.drafts.remove(&at);
    page.left = Some(at);
    // What is typed on this page is saved: Escape leaves the line, and undo takes the text back.
    (text != shown).then_some(text)
}

/// The place to type; what is usual stands there in pencil while it is empty.
fn edit_ui(
    ui: &mut Ui,
    at: Rect,
    (id, is_long): (Id, bool),
    usual: &str,
    text: &mut String,
) -> Response {
    if !is_long {
        let place = at.with_max_y(at.bottom() - 2.0);
        let edit = TextEdit::singleline(text).align(Align2::LEFT_CENTER);
        let edit = dressed(ui, edit, id, usual, at.width());
        let response = ui.put(place, edit).with_new_rect(place);
        look::mark_all(ui, &response, text);
        return response;
    }
    ui.scope_builder(UiBuilder::new().max_rect(at), |ui| {
        let area = ScrollArea::vertical().id_salt(id.with("long"));
        let area = area.auto_shrink(false).max_height(at.height());
        let edit = TextEdit::multiline(text).desired_rows(LONG_LINES);
        let edit = dressed(ui, edit, id, usual, at.width());
        let typed = area.show(ui, |ui| ui.add(edit)).inner;
        // The rule stands under the place, not under a text that is scrolled in it.
        typed.with_new_rect(at)
    })
    .inner
}

/// An editor without a box, with what is usual in pencil.
fn dressed<'a>(ui: &Ui, edit: TextEdit<'a>, id: Id, usual: &str, width: f32) -> TextEdit<'a> {
    let pencil = look::tokens(ui).pencil;
    let hint = RichText::new(usual).font(look::body()).color(pencil);
    edit.id(id)
        .frame(Frame::NONE)
        .margin(Margin::ZERO)
        .font(look::body())
        .hint_text(hint)
        .desired_width(width)
}

/// Every line that is being typed put in its place, as leaving it would do.
pub(super) fn commit_lines(page: &mut ShopPage, day: NaiveDate, asks: &mut Vec<ShopAsk>) {
    let sheet = page.history.now().clone();
    let form = page.form();
    for (at, text) in std::mem::take(&mut page.drafts) {
        let edit = match at {
            At::Line(line) => (text != sheet.line(line).text()).then(|| ShopEdit::SetLine {
                line,
                text,
                unit: sheet.unit,
            }),
            At::Start(line) => start::edit(&sheet, line, &text, &form.day(day)),
            At::Long(list, column) => {
                let row = page.grids.get(&list).map(|view| view.cursor().row);
                let rows = page.rows(list);
                row.and_then(|row| rows.get(row))
                    .filter(|row| row.typed(column).text() != text)
                    .map(|row| ShopEdit::SetCells {
                        list,
                        rows: vec![(row.at.clone(), vec![(column, text)])],
                        unit: sheet.unit,
                    })
            }
        };
        asks.extend(edit.map(ShopAsk::Edit));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheet::measures::TRACKS;

    #[test]
    fn every_line_has_one_place_and_every_row_fits() {
        let mut placed = Vec::new();
        for block in [ShopBlock::Identity, ShopBlock::Texts, ShopBlock::Calendar] {
            for row in rows(block) {
                let taken: u8 = row.iter().map(|(_, tracks)| tracks).sum();
                assert!(taken <= TRACKS, "{row:?}");
                assert!(row.iter().all(|(line, _)| line.block() == block));
                placed.extend(row.iter().map(|(line, _)| *line));
            }
        }
        placed.sort();
        assert_eq!(placed, Line::ALL);
    }
}
