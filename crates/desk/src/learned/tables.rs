//! Factors by material, machine and size.

use egui::{Grid, Ui};
use quillbore_office::learned::{Group, GroupOf, Learned, Made};

use crate::look;
use crate::sheet::parts::pencil;
use crate::words::learned as words;

/// A table for each of materials, machines and sizes.
pub(super) fn tables_ui(ui: &mut Ui, told: &Learned) {
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
        ui.add_space(8.0);
        Grid::new(head)
            .num_columns(7)
            .spacing([18.0, 2.0])
            .show(ui, |ui| {
                pencil(ui, head);
                for head in [
                    words::RUNS,
                    words::HOLES,
                    words::MINUTES,
                    words::AT_START,
                    last,
                    words::NEWEST,
                ] {
                    pencil(ui, head);
                }
                ui.end_row();
                for group in told.groups.iter().filter(|group| is_of(&group.of)) {
                    group_ui(ui, group);
                }
            });
    }
}

fn group_ui(ui: &mut Ui, group: &Group) {
    ui.label(egui::RichText::new(words::group(&group.of)).font(look::bold()));
    ui.label(group.runs.to_string());
    ui.label(words::holes(group.holes));
    ui.label(group.burn.as_ref().map_or_else(String::new, words::made));
    pencil(
        ui,
        &group
            .burn
            .as_ref()
            .map_or_else(String::new, words::at_start),
    );
    let last: Option<&Made> = match group.of {
        GroupOf::Material(_) => group.wear.as_ref(),
        GroupOf::Machine(_) => group.handling.as_ref(),
        GroupOf::Sizes(_) => group.gap.as_ref(),
    };
    ui.label(last.map_or_else(String::new, words::made));
    ui.label(group.last.map_or_else(String::new, |day| day.to_string()));
    ui.end_row();
}
