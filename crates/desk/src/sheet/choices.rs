//! What a line chooses among: names of the shop and of the trade, as words under it.

use egui::Ui;
use quillbore_calc::input::PartAxis;
use quillbore_job::FieldKind;
use quillbore_job::field::AngleBasis;
use quillbore_job::words::english;

use super::parts::pencil;
use super::shared::Shared;
use crate::look;
use crate::spot::Spot;
use crate::view::{Ask, SheetView};
use crate::words::sheet as words;

const CHOICES: usize = 8;
const AXES: [Option<PartAxis>; 4] = [
    None,
    Some(PartAxis::X),
    Some(PartAxis::Y),
    Some(PartAxis::Z),
];

/// The choices of a line, as words under it, `indent` from the left.
pub(super) fn choices_ui(
    ui: &mut Ui,
    spot: Spot,
    indent: f32,
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
        ui.add_space(indent);
        for name in near.iter().take(CHOICES) {
            let response = look::word(ui, name);
            over |= response.contains_pointer();
            if response.clicked() {
                view.drafts.remove(&spot);
                asks.push(Ask::Edit(spot.edit(name.clone(), shared.job.unit)));
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
pub(super) fn begun(spot: Spot, text: &str, shared: &Shared<'_>) -> Option<String> {
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
