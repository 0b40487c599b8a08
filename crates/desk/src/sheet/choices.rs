//! What a line chooses among: names of the shop and of the trade, as words under it.

use egui::Ui;
use quillbore_job::choices::{choices, choices_like};

use super::parts::pencil;
use super::shared::Shared;
use crate::look;
use crate::spot::Spot;
use crate::view::{Ask, SheetView};
use crate::words::sheet as words;

const CHOICES: usize = 8;
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
    let Some(all) = choices(spot.kind(), shared.shop) else {
        return;
    };
    let stands = spot.entry(shared.job).text().to_lowercase();
    let near = if all.len() <= CHOICES || typed == stands {
        all
    } else {
        choices_like(spot.kind(), shared.shop, &typed)
    };
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
