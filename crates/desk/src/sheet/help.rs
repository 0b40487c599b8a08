//! What F1 says, over the margin until Esc: what can be typed where one is at, and the keys that save
//! most.

use egui::{Label, RichText, ScrollArea, Ui, UiBuilder, vec2};
use quillbore_job::Job;
use quillbore_job::words::english;

use super::holes::column_here;
use super::margin::{MarginPlace, column_of, ground_ui};
use crate::look;
use crate::spot::Spot;
use crate::view::SheetView;
use crate::words::help as words;

/// The help, where it was asked for.
pub fn help_ui(ui: &mut Ui, place: MarginPlace, job: &Job, view: &mut SheetView) {
    if !view.help {
        return;
    }
    let at = column_of(place);
    ground_ui(ui, at, "help");
    let inner = at.shrink2(vec2(4.0, 8.0));
    ui.scope_builder(UiBuilder::new().max_rect(inner), |ui| {
        let area = ScrollArea::vertical().id_salt("help").auto_shrink(false);
        area.show(ui, |ui| said_ui(ui, inner.width() - 8.0, job, view));
    });
}

fn said_ui(ui: &mut Ui, width: f32, job: &Job, view: &mut SheetView) {
    ui.set_width(width);
    let Here {
        name,
        purpose,
        typed,
    } = here(job, view);
    if !name.is_empty() {
        ui.label(RichText::new(name).font(look::bold()));
    }
    if !purpose.is_empty() {
        ui.add(Label::new(purpose).wrap());
        ui.add_space(4.0);
    }
    ui.add(Label::new(typed).wrap());
    ui.add_space(12.0);
    for (keys, does) in words::KEYS {
        ui.label(RichText::new(*keys).font(look::small_bold()));
        ui.add(Label::new(RichText::new(*does).font(look::small())).wrap());
        ui.add_space(4.0);
    }
    ui.add_space(8.0);
    if look::keyed_word(ui, words::CLOSE, words::ESC).clicked() {
        view.help = false;
    }
}

/// What is said of the place one is at.
struct Here {
    name: &'static str,
    /// What it is for, where its name may leave one guessing.
    purpose: &'static str,
    /// What can be typed there.
    typed: String,
}

fn here(job: &Job, view: &SheetView) -> Here {
    if view.grid.is_active() {
        if let Some(column) = column_here(view) {
            return Here {
                name: english::column(column).head,
                purpose: "",
                typed: words::said(words::cell(column.kind())),
            };
        }
    } else if let Some(spot) = view.at_field {
        return Here {
            name: spot.label(job),
            purpose: match spot {
                Spot::Field(field) => words::purpose(field),
                Spot::Line(..) => "",
            },
            typed: words::said(words::field(spot.kind())),
        };
    }
    Here {
        name: "",
        purpose: "",
        typed: words::NOWHERE.to_owned(),
    }
}
