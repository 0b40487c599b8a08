//! Factors by kind of work, and below by material, machine and size.

use egui::Ui;
use quillbore_job::Form;
use quillbore_office::learned::{Group, GroupOf, Learned, Made};

use super::LearnedPage;
use crate::look;
use crate::sheet::columns::{Column, Columns};
use crate::sheet::parts::pencil;
use crate::words::learned as words;

/// What it is about, runs, holes, minutes now and before, another factor, last run.
const COLUMNS: [Column; 7] = [
    Column::left(208.0),
    Column::right(44.0),
    Column::right(52.0),
    Column::right(142.0),
    Column::right(100.0),
    Column::right(140.0),
    Column::right(90.0),
];

/// The kinds of work; one that is pressed is shown alone in the charts.
pub(super) fn kinds_ui(ui: &mut Ui, told: &Learned, page: &mut LearnedPage) {
    ui.add_space(8.0);
    heads_ui(ui, words::KINDS, words::WEAR);
    let form = page.form;
    for group in &told.groups {
        let GroupOf::Kind(kind) = group.of else {
            continue;
        };
        let is_chosen = page.of == Some(kind);
        let row = Columns::new(&COLUMNS);
        let mut pressed = false;
        row.row(ui, |at, ui| {
            if at == 0 {
                let word = look::toggle_word(ui, &words::group(&group.of, form), is_chosen);
                pressed = word.clicked();
            } else {
                figure_ui(ui, at, group, group.wear.as_ref(), form);
            }
        });
        if pressed {
            page.of = (!is_chosen).then_some(kind);
            page.at = None;
        }
    }
}

/// A table for each of materials, machines and sizes.
pub(super) fn others_ui(ui: &mut Ui, told: &Learned, form: Form) {
    type Is = fn(&GroupOf) -> bool;
    let tables: [(&str, &str, Is); 3] = [
        (words::MATERIALS, words::WEAR, |of| {
            matches!(of, GroupOf::Material(_))
        }),
        (words::MACHINES, words::HANDLING, |of| {
            matches!(of, GroupOf::Machine(_))
        }),
        (words::SIZES, words::GAP, |of| {
            matches!(of, GroupOf::Sizes(_))
        }),
    ];
    for (head, last, is_of) in tables {
        ui.add_space(12.0);
        heads_ui(ui, head, last);
        for group in told.groups.iter().filter(|group| is_of(&group.of)) {
            let last = match group.of {
                GroupOf::Machine(_) => group.handling.as_ref(),
                GroupOf::Sizes(_) => group.gap.as_ref(),
                GroupOf::Kind(_) | GroupOf::Material(_) => group.wear.as_ref(),
            };
            Columns::new(&COLUMNS).row(ui, |at, ui| {
                if at == 0 {
                    ui.label(words::group(&group.of, form));
                } else {
                    figure_ui(ui, at, group, last, form);
                }
            });
        }
    }
}

/// The heads of a table: what its lines are about, and the factor beside the minutes.
fn heads_ui(ui: &mut Ui, about: &str, last: &str) {
    let heads = [
        about,
        words::RUNS,
        words::HOLES,
        words::MINUTES,
        words::AT_START,
        last,
        words::NEWEST,
    ];
    Columns::new(&COLUMNS).row(ui, |at, ui| pencil(ui, heads[at]));
}

/// What stands in a column of a group's line.
fn figure_ui(ui: &mut Ui, at: usize, group: &Group, last: Option<&Made>, form: Form) {
    let said = |made: Option<&Made>| made.map_or_else(String::new, |made| words::made(made, form));
    match at {
        1 => ui.label(form.count(group.runs as f64)),
        2 => ui.label(words::holes(group.holes, form)),
        3 => ui.label(said(group.burn.as_ref())),
        4 => {
            let before = (group.burn.as_ref()).map(|made| words::at_start(made, form));
            ui.label(before.unwrap_or_default())
        }
        5 => ui.label(said(last)),
        _ => {
            let day = group.last.map(|day| form.day(day));
            ui.label(day.unwrap_or_default())
        }
    };
}
