//! The single lines of a block: a label, a hairline to type on, choices under the line one is at.

use egui::{Frame, Margin, RichText, TextEdit, Ui, vec2};
use quillbore_calc::input::PartAxis;
use quillbore_job::field::AngleBasis;
use quillbore_job::words::english;
use quillbore_job::{Block, Field, FieldKind};

use super::parts::{block_head, pencil};
use super::shared::{Anchors, Shared};
use crate::look;
use crate::spot::Spot;
use crate::view::{Ask, SheetView};
use crate::words::sheet as words;

const LABEL_WIDTH: f32 = 132.0;
const CHOICES: usize = 8;
const AXES: [Option<PartAxis>; 4] = [
    None,
    Some(PartAxis::X),
    Some(PartAxis::Y),
    Some(PartAxis::Z),
];

/// The lines that a first quotation needs; the others are laid out when asked for, or once filled.
const ESSENTIAL: &[Field] = &[
    Field::Customer,
    Field::CustomerReference,
    Field::Part,
    Field::Revision,
    Field::Drawing,
    Field::DrawingRevision,
    Field::Material,
    Field::Condition,
    Field::Quantity,
    Field::Breaks,
    Field::SizeX,
    Field::SizeY,
    Field::SizeZ,
    Field::Mass,
    Field::Thickness,
    Field::AngleBasis,
    Field::Due,
    Field::PartValue,
    Field::Machine,
    Field::IndexAbout,
    Field::Margin,
    Field::LeadDays,
];

/// The block of the inquiry.
pub fn inquiry_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    view: &mut SheetView,
    anchors: &mut Anchors,
    asks: &mut Vec<Ask>,
) {
    let summary = [
        Field::Customer,
        Field::Part,
        Field::Revision,
        Field::Material,
        Field::Quantity,
    ]
    .iter()
    .map(|field| shared.job.text(*field))
    .filter(|text| !text.is_empty())
    .collect::<Vec<_>>()
    .join("   ");
    if block_head(ui, Block::Inquiry, view, &summary) {
        fields_ui(ui, Block::Inquiry, shared, view, anchors, asks);
    }
}

/// The lines of a block, in two columns; long texts over both.
pub fn fields_ui(
    ui: &mut Ui,
    block: Block,
    shared: &Shared<'_>,
    view: &mut SheetView,
    anchors: &mut Anchors,
    asks: &mut Vec<Ask>,
) {
    let all = view.laid_out.contains(&block);
    let shown = |field: &&Field| {
        field.block() == block
            && (all || ESSENTIAL.contains(field) || !shared.job.field(**field).is_empty())
    };
    let fields: Vec<Spot> = Field::ALL
        .iter()
        .filter(shown)
        .map(|field| Spot::Field(*field))
        .collect();
    let short = fields.iter().filter(|spot| !is_long(**spot)).count();
    spots_ui(ui, &fields, shared, view, anchors, asks);
    let hidden = Field::ALL
        .iter()
        .filter(|field| field.block() == block)
        .count();
    let word = words::lines(all);
    if hidden > short || all {
        let response = look::quiet_word(ui, word);
        response.widget_info(|| {
            egui::WidgetInfo::labeled(
                egui::Role::Link,
                true,
                words::lines_of(all, english::block(block)),
            )
        });
        if response.clicked() {
            super::parts::toggle(&mut view.laid_out, block);
        }
    }
}

/// Lines to type on, in two columns; long texts over both.
pub fn spots_ui(
    ui: &mut Ui,
    spots: &[Spot],
    shared: &Shared<'_>,
    view: &mut SheetView,
    anchors: &mut Anchors,
    asks: &mut Vec<Ask>,
) {
    let (long, short): (Vec<Spot>, Vec<Spot>) = spots.iter().partition(|spot| is_long(**spot));
    let column = (ui.available_width() - 24.0) / 2.0;
    let order: Vec<Spot> = short.iter().chain(&long).copied().collect();
    for pair in short.chunks(2) {
        ui.horizontal_top(|ui| {
            ui.spacing_mut().item_spacing.x = 0.0;
            for (index, spot) in pair.iter().enumerate() {
                if index > 0 {
                    ui.add_space(24.0);
                }
                let down = egui::Layout::top_down(egui::Align::Min);
                ui.allocate_ui_with_layout(vec2(column, 22.0), down, |ui| {
                    ui.set_width(column);
                    line_ui(ui, *spot, &order, shared, view, anchors, asks);
                });
            }
        });
    }
    for spot in long {
        line_ui(ui, spot, &order, shared, view, anchors, asks);
    }
}

fn is_long(spot: Spot) -> bool {
    spot.kind() == FieldKind::Lines
}

/// One line: its label and the place to type.
fn line_ui(
    ui: &mut Ui,
    spot: Spot,
    order: &[Spot],
    shared: &Shared<'_>,
    view: &mut SheetView,
    anchors: &mut Anchors,
    asks: &mut Vec<Ask>,
) {
    let t = look::tokens(ui);
    let entry = spot.entry(shared.job);
    let label = spot.label();
    let mut focused = false;
    ui.horizontal_top(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        ui.allocate_ui_with_layout(
            vec2(LABEL_WIDTH, 20.0),
            egui::Layout::left_to_right(egui::Align::Center),
            |ui| {
                ui.set_width(LABEL_WIDTH);
                ui.add(
                    egui::Label::new(RichText::new(label).font(look::small()).color(t.pencil))
                        .truncate(),
                );
            },
        );
        let stands = shown_text(shared, spot);
        let mut text = view
            .drafts
            .get(&spot)
            .cloned()
            .unwrap_or_else(|| stands.clone());
        let lines = is_long(spot);
        let rows = text.lines().count().clamp(1, 6);
        let edit = if lines {
            TextEdit::multiline(&mut text).desired_rows(rows)
        } else {
            TextEdit::singleline(&mut text)
        };
        let response = ui.add(
            edit.id(ui.make_persistent_id(("line", spot.key())))
                .frame(Frame::NONE)
                .margin(Margin::symmetric(0, 1))
                .font(look::body())
                .desired_width(ui.available_width() - 4.0),
        );
        let name = spot.name(shared.job);
        response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::TextInput, true, &name));
        if view.focus == Some(spot) {
            view.focus = None;
            response.request_focus();
            response.scroll_to_me(None);
        }
        if let Spot::Line(slip, _) = spot
            && view.focus_slip == Some(slip)
            && entry.is_empty()
        {
            view.focus_slip = None;
            response.request_focus();
            response.scroll_to_me(None);
        }
        look::line_under(ui, &response, t.hairline, t.accent);
        if entry.why().is_some() {
            look::wavy_underline(
                ui.painter(),
                response.rect.x_range(),
                response.rect.bottom() - 1.0,
                t.accent,
            );
        }
        anchors.put(spot.beside(), response.rect.center().y);
        focused = response.has_focus();
        if response.has_focus() || response.changed() {
            view.drafts.insert(spot, text.clone());
        }
        if response.lost_focus() && !view.choosing {
            let pressed = |key| ui.input(|input| input.key_pressed(key));
            let entered = !lines && pressed(egui::Key::Enter);
            view.drafts.remove(&spot);
            if entered {
                // Enter goes on to the next line, and takes what the typed beginning means.
                let here = order.iter().position(|other| *other == spot);
                view.focus = here.and_then(|here| order.get(here + 1).copied());
                text = begun(spot, &text, shared).unwrap_or(text);
            }
            if !pressed(egui::Key::Escape) && text != stands {
                asks.push(set(spot, text, shared));
            }
        }
    });
    if focused || (view.choosing && view.drafts.contains_key(&spot)) {
        choices_ui(ui, spot, shared, view, asks);
    }
}

/// A field's text; a bare number that was typed in the other unit says so.
fn shown_text(shared: &Shared<'_>, spot: Spot) -> String {
    let entry = spot.entry(shared.job);
    let other = entry.unit().is_some_and(|unit| unit != shared.job.unit);
    let measures = matches!(spot.kind(), FieldKind::Length | FieldKind::Tolerance);
    if other && measures {
        words::with_unit(entry.text(), entry.unit())
    } else {
        entry.text().to_owned()
    }
}

/// Every draft put into its place, as leaving the lines would do.
pub fn commit_drafts(shared: &Shared<'_>, view: &mut SheetView, asks: &mut Vec<Ask>) {
    for (spot, text) in std::mem::take(&mut view.drafts) {
        if text != shown_text(shared, spot) {
            asks.push(set(spot, text, shared));
        }
    }
}

fn set(spot: Spot, text: String, shared: &Shared<'_>) -> Ask {
    Ask::Edit(spot.edit(text, shared.job.unit))
}

/// The choices of a line, as words under it.
fn choices_ui(
    ui: &mut Ui,
    spot: Spot,
    shared: &Shared<'_>,
    view: &mut SheetView,
    asks: &mut Vec<Ask>,
) {
    let typed = view
        .drafts
        .get(&spot)
        .map_or("", String::as_str)
        .to_lowercase();
    let Some(names) = names(spot, shared) else {
        return;
    };
    let all_fit = names.len() <= CHOICES;
    let by_other_name = materials_like(spot, &typed, shared);
    let stands = spot.entry(shared.job).text().to_lowercase();
    let near: Vec<String> = names
        .into_iter()
        .filter(|name| {
            all_fit
                || typed == stands
                || typed
                    .split_whitespace()
                    .all(|word| name.to_lowercase().contains(word))
                || by_other_name.contains(name)
        })
        .collect();
    let none = near.is_empty() && !typed.trim().is_empty();
    let more = near.len().saturating_sub(CHOICES);
    let mut over = false;
    ui.horizontal_wrapped(|ui| {
        ui.add_space(LABEL_WIDTH + 6.0);
        for name in near.iter().take(CHOICES) {
            let response = look::word(ui, name);
            over |= response.contains_pointer();
            if response.clicked() {
                view.drafts.remove(&spot);
                asks.push(set(spot, name.clone(), shared));
                over = false;
            }
            ui.add_space(4.0);
        }
        if none && shared.shop.material(&typed).is_none() {
            pencil(ui, words::NONE_OF_LIST);
        }
        if more > 0 {
            pencil(ui, &words::more_choices(more));
        }
    });
    view.choosing = over;
}

/// The names that a line chooses among, if it does.
fn names(spot: Spot, shared: &Shared<'_>) -> Option<Vec<String>> {
    let tables = &shared.shop.tables;
    Some(match spot.kind() {
        FieldKind::Material => tables
            .materials
            .iter()
            .map(|row| row.name.clone())
            .collect(),
        FieldKind::Machine => tables.machines.iter().map(|row| row.name.clone()).collect(),
        FieldKind::AngleBasis => [AngleBasis::FromNormal, AngleBasis::FromSurface]
            .map(|basis| english::angle_basis(basis).to_owned())
            .to_vec(),
        FieldKind::YesNo => vec![english::YES.to_owned(), english::NO.to_owned()],
        FieldKind::OneOf(words) => words.iter().map(|word| (*word).to_owned()).collect(),
        FieldKind::PartAxis => AXES
            .map(|axis| english::part_axis(axis).to_owned())
            .to_vec(),
        _ => return None,
    })
}

/// The own names of the materials that a text may mean by another name.
fn materials_like(spot: Spot, typed: &str, shared: &Shared<'_>) -> Vec<String> {
    if spot.kind() != FieldKind::Material || typed.trim().is_empty() {
        return Vec::new();
    }
    let rows = shared.shop.materials_like(typed).into_iter();
    rows.filter_map(|at| Some(at.of(&shared.shop.tables.materials)?.name.clone()))
        .collect()
}

/// The one name that a typed text is a part of, where the shop doesn't know the text itself.
fn begun(spot: Spot, text: &str, shared: &Shared<'_>) -> Option<String> {
    let typed = text.trim().to_lowercase();
    if typed.is_empty() || shared.shop.material(&typed).is_some() {
        return None;
    }
    let fits = |name: &&String| {
        let name = name.to_lowercase();
        typed.split_whitespace().all(|word| name.contains(word))
    };
    let names = names(spot, shared)?;
    if names.iter().any(|name| name.to_lowercase() == typed) {
        return None;
    }
    let by_other_name = materials_like(spot, &typed, shared);
    let mut found = names
        .iter()
        .filter(|name| fits(name) || by_other_name.contains(name));
    match (found.next(), found.next()) {
        (Some(one), None) => Some(one.clone()),
        _ => None,
    }
}
