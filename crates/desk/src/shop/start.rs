//! The first start: the shop in six lines, none of which has to be filled in. They are lines of the same
//! sheet as on the shop's page.

use chrono::NaiveDate;
use egui::{Key, Modifiers, Rect, ScrollArea, Ui, UiBuilder, pos2, vec2};
use quillbore_job::shop::sheet::{
    ShopColumn as Column, ShopEdit, ShopLine as Line, ShopList as List, ShopRowAt as RowAt,
    ShopSheet, ShopValue, usual_line,
};
use quillbore_job::{Entry, Unit};

use super::lines::{Typing, line_ui};
use super::model::with_samples_out;
use super::notes::notes_ui;
use super::{At, ShopAsk, ShopPage};
use crate::look;
use crate::sheet::measures::{FIELD, Measures};
use crate::sheet::parts::{pencil, plain_head};
use crate::words::first_start as words;

/// A place of the first start.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum StartLine {
    /// A single line of the sheet.
    Of(Line),
    /// Millimeters or inches.
    Unit,
    /// A column of the one rate card.
    Rate(Column),
    /// A column of the one machine.
    Machine(Column),
    /// The diameters of the electrodes in the drawer.
    Sizes,
}

/// The six lines, each place with its tracks.
const ROWS: [&[(StartLine, u8)]; 6] = [
    &[
        (StartLine::Of(Line::Name), 5),
        (StartLine::Of(Line::Address), 7),
    ],
    &[
        (StartLine::Of(Line::Currency), 3),
        (StartLine::Unit, 3),
        (StartLine::Of(Line::PaperSize), 3),
    ],
    &[
        (StartLine::Rate(Column::MachineHour), 3),
        (StartLine::Rate(Column::LaborHour), 3),
    ],
    &[
        (StartLine::Rate(Column::Margin), 3),
        (StartLine::Rate(Column::Minimum), 3),
    ],
    &[
        (StartLine::Machine(Column::Name), 4),
        (StartLine::Machine(Column::ElectrodeFrom), 3),
        (StartLine::Machine(Column::ElectrodeTo), 3),
    ],
    &[(StartLine::Sizes, 12)],
];

/// The page over the sheet.
pub fn start_ui(
    ui: &mut Ui,
    (sheet, margin, width): (Rect, Rect, f32),
    page: &mut ShopPage,
    day: NaiveDate,
    asks: &mut Vec<ShopAsk>,
) {
    if page.drafts.is_empty()
        && ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape))
    {
        asks.push(ShopAsk::Close);
    }
    ui.scope_builder(UiBuilder::new().max_rect(sheet), |ui| {
        let across = sheet.width() < width;
        let scroll = ScrollArea::new([across, true]).id_salt("first start");
        scroll.auto_shrink([false, false]).show(ui, |ui| {
            ui.set_width(width);
            plain_head(ui, words::HEAD);
            pencil(ui, words::ABOUT);
            ui.add_space(8.0);
            if page.stands.is_none() && page.failed.is_none() {
                pencil(ui, crate::words::shop::LOOKING);
                return;
            }
            rows_ui(ui, page, day, asks);
            ui.add_space(16.0);
            words_ui(ui, page, asks);
        });
    });
    notes_ui(ui, margin, page, asks);
}

fn rows_ui(ui: &mut Ui, page: &mut ShopPage, day: NaiveDate, asks: &mut Vec<ShopAsk>) {
    let width = ui.available_width();
    let origin = ui.cursor().min;
    let gap = 8.0;
    let mut y = origin.y;
    // A line that gives the keyboard away is told as left once more in the next frame.
    page.left = None;
    if std::mem::take(&mut page.is_fresh) {
        page.focus = Some(At::Start(StartLine::Of(Line::Name)));
    }
    for (index, row) in ROWS.iter().enumerate() {
        let mut track = 0;
        for (line, tracks) in *row {
            let left = origin.x + Measures::track_left(width, track);
            let size = vec2(Measures::tracks(width, *tracks), FIELD - 1.0);
            let place = Rect::from_min_size(pos2(left, y), size);
            track += tracks;
            let sheet = page.history.now().clone();
            let stands = stands(&sheet, *line);
            let typing = Typing {
                at: At::Start(*line),
                label: words::label(*line),
                about: words::about(*line),
                stands: &stands,
                usual: &usual(&sheet, *line),
                choices: match line {
                    StartLine::Of(line) => line.kind().choices(),
                    _ => &[],
                },
                is_long: false,
                place,
            };
            let next = ROWS.get(index + 1).and_then(|row| row.first());
            if let Some(text) = line_ui(ui, &typing, page) {
                asks.extend(edit(&sheet, *line, &text, &page.form().day(day)).map(ShopAsk::Edit));
            }
            let here = ui.input(|input| input.key_pressed(Key::Enter));
            if here && page.left == Some(At::Start(*line)) {
                let beside = row.iter().skip_while(|(known, _)| known != line).nth(1);
                page.focus = beside.or(next).map(|(line, _)| At::Start(*line));
                page.left = None;
            }
        }
        y += FIELD + gap;
    }
    ui.advance_cursor_after_rect(Rect::from_min_max(origin, pos2(origin.x + width, y)));
}

fn words_ui(ui: &mut Ui, page: &ShopPage, asks: &mut Vec<ShopAsk>) {
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 24.0;
        if look::word(ui, words::START).clicked() {
            asks.push(ShopAsk::Close);
        }
        if look::word(ui, words::ALL).clicked() {
            asks.push(ShopAsk::WholePage);
        }
        if look::quiet_word(ui, words::SAMPLES).clicked() {
            asks.push(ShopAsk::SeeSamples);
        }
        if page.has_samples && look::quiet_word(ui, words::REMOVE_SAMPLES).clicked() {
            asks.push(ShopAsk::RemoveSamples);
        }
    });
}

/// What was typed at a place.
fn stands(sheet: &ShopSheet, line: StartLine) -> Entry<ShopValue> {
    let cell = |list: List, column: Column| {
        let row = sheet.own(list).last();
        row.map_or(Entry::EMPTY, |row| row.cell(column).clone())
    };
    match line {
        StartLine::Of(Line::Address) => {
            let typed = sheet.line(Line::Address);
            match typed.value() {
                Some(ShopValue::Text(text)) => one_line(text),
                _ => typed.clone(),
            }
        }
        StartLine::Of(line) => sheet.line(line).clone(),
        StartLine::Unit => text(sheet.unit.symbol()),
        StartLine::Rate(column) => cell(List::Rates, column),
        StartLine::Machine(column) => cell(List::Machines, column),
        StartLine::Sizes => {
            let all = sheet.own(List::Electrodes).iter();
            let sizes = all
                .map(|row| row.cell(Column::Outer).text())
                .filter(|size| !size.is_empty());
            let sizes: Vec<&str> = sizes.collect();
            if sizes.is_empty() {
                Entry::EMPTY
            } else {
                text(&sizes.join("  "))
            }
        }
    }
}

fn text(text: &str) -> Entry<ShopValue> {
    Entry::read(text, Unit::Mm, ShopValue::Text(text.to_owned()))
}

fn one_line(lines: &str) -> Entry<ShopValue> {
    text(&lines.lines().collect::<Vec<_>>().join("; "))
}

/// What an empty place says.
fn usual(sheet: &ShopSheet, line: StartLine) -> String {
    let of_row = |list: List, column: Column| {
        let rows = quillbore_job::shop::sheet::shown_rows(sheet, list, true);
        rows.last()
            .map_or_else(String::new, |row| row.usual(column).to_owned())
    };
    match line {
        StartLine::Of(Line::Address) => usual_line(Line::Address).replace('\n', "; "),
        StartLine::Of(line) => usual_line(line).to_owned(),
        // The samples' machines are none of this shop's.
        StartLine::Rate(Column::MachineHour) if sheet.own(List::Rates).is_empty() => String::new(),
        StartLine::Rate(column) => of_row(List::Rates, column),
        StartLine::Machine(Column::Name) | StartLine::Unit | StartLine::Sizes => String::new(),
        StartLine::Machine(_) if sheet.own(List::Machines).is_empty() => String::new(),
        StartLine::Machine(column) => of_row(List::Machines, column),
    }
}

/// What is typed at a place, as an edit of the sheet; a new rate card is valid from `day`, as the shop
/// writes it.
pub(super) fn edit(sheet: &ShopSheet, line: StartLine, text: &str, day: &str) -> Option<ShopEdit> {
    let unit = sheet.unit;
    let own = |list: List| {
        sheet
            .own(list)
            .last()
            .map_or(RowAt::New, |row| RowAt::Own(row.id))
    };
    match line {
        StartLine::Of(line) => Some(ShopEdit::SetLine {
            line,
            text: text.to_owned(),
            unit,
        }),
        StartLine::Unit => match text.trim().to_lowercase().as_str() {
            "mm" | "millimeters" => Some(ShopEdit::SetUnit(Unit::Mm)),
            "in" | "inch" | "inches" => Some(ShopEdit::SetUnit(Unit::Inch)),
            _ => None,
        },
        StartLine::Rate(column) => {
            let at = own(List::Rates);
            let mut cells = vec![(column, text.to_owned())];
            if at == RowAt::New && !text.trim().is_empty() {
                cells.push((Column::ValidFrom, day.to_owned()));
            }
            Some(ShopEdit::SetCells {
                list: List::Rates,
                rows: vec![(at, cells)],
                unit,
            })
        }
        StartLine::Machine(column) => {
            let edit = ShopEdit::SetCells {
                list: List::Machines,
                rows: vec![(own(List::Machines), vec![(column, text.to_owned())])],
                unit,
            };
            Some(with_samples_out(sheet, edit))
        }
        StartLine::Sizes => Some(sizes(sheet, text)),
    }
}

/// The electrodes of these diameters and no others; with any of its own the samples are no choice.
fn sizes(sheet: &ShopSheet, text: &str) -> ShopEdit {
    let list = List::Electrodes;
    let wanted = split_sizes(text);
    let own = sheet.own(list);
    let has = |size: &String| own.iter().any(|row| row.cell(Column::Outer).text() == size);
    let new: Vec<_> = {
        let new = wanted.iter().filter(|size| !has(size));
        new.map(|size| (RowAt::New, vec![(Column::Outer, size.clone())]))
            .collect()
    };
    let gone: Vec<RowAt> = {
        let gone = own.iter().filter(|row| {
            let size = row.cell(Column::Outer).text();
            !size.is_empty() && !wanted.iter().any(|wanted| wanted == size)
        });
        gone.map(|row| RowAt::Own(row.id)).collect()
    };
    let mut edits = Vec::new();
    if !gone.is_empty() {
        edits.push(ShopEdit::DeleteRows { list, rows: gone });
    }
    edits.push(ShopEdit::SetCells {
        list,
        rows: new,
        unit: sheet.unit,
    });
    edits.push(ShopEdit::Samples {
        list,
        count: wanted.is_empty(),
    });
    ShopEdit::Together(edits)
}

/// Diameters with spaces between; a unit belongs to the number before it.
fn split_sizes(text: &str) -> Vec<String> {
    let mut sizes: Vec<String> = Vec::new();
    for word in text
        .split([' ', ';', '\t', '\n'])
        .filter(|word| !word.is_empty())
    {
        let word = word.trim_end_matches(',');
        let is_unit = matches!(word.to_lowercase().as_str(), "mm" | "in" | "inch" | "\"");
        let is_there = word.is_empty() || sizes.iter().any(|size| size == word);
        match sizes.last_mut().filter(|_| is_unit) {
            Some(last) => *last = format!("{last} {word}"),
            None if is_there => {}
            None => sizes.push(word.to_owned()),
        }
    }
    sizes
}

#[cfg(test)]
mod tests {
    use quillbore_job::shop::Shop;
    use quillbore_job::shop::sheet::apply_shop;

    use super::*;

    fn day() -> &'static str {
        "27.11.2026"
    }

    fn typed(lines: &[(StartLine, &str)]) -> ShopSheet {
        let mut sheet = ShopSheet::default();
        for (line, text) in lines {
            let edit = edit(&sheet, *line, text, day()).expect("an edit");
            sheet = apply_shop(&sheet, &edit).expect("typed");
        }
        sheet
    }

    #[test]
    fn six_lines_are_a_shop() {
        let sheet = typed(&[
            (StartLine::Of(Line::Name), "Tallow Street Fine Bores"),
            (StartLine::Of(Line::Address), "1 Tallow Street; Exampleton"),
            (StartLine::Of(Line::Currency), "EUR"),
            (StartLine::Rate(Column::MachineHour), "62"),
            (StartLine::Rate(Column::LaborHour), "44"),
            (StartLine::Rate(Column::Margin), "25"),
            (StartLine::Rate(Column::Minimum), "120"),
            (StartLine::Machine(Column::Name), "Plover"),
            (StartLine::Machine(Column::ElectrodeTo), "3"),
            (StartLine::Sizes, "0.3 0,5  0.8; 1/16 in 0.3"),
        ]);
        let shop = Shop::of_sheet(&sheet).expect("a shop");
        assert_eq!(shop.not_used, []);
        assert_eq!(shop.address, ["1 Tallow Street", "Exampleton"]);
        let rates = &shop.tables.rates;
        assert_eq!(
            (rates.labor_per_hour, rates.margin, rates.minimum_charge),
            (44.0, 0.25, 120.0)
        );
        assert_eq!(sheet.own(List::Rates).len(), 1);
        let machine = &shop.tables.machines[0];
        assert_eq!(
            (shop.tables.machines.len(), machine.rate_per_hour),
            (1, 62.0)
        );
        let sizes: Vec<f64> = shop.tables.tubes.iter().map(|tube| tube.outer_mm).collect();
        assert_eq!(sizes, [0.3, 0.5, 0.8, 1.5875]);
        assert!(!shop.has_sample_rates());
    }

    #[test]
    fn sizes_typed_anew_keep_the_rows_that_stay() {
        let sheet = typed(&[(StartLine::Sizes, "0.3 0.5 0.8")]);
        let kept = sheet.own(List::Electrodes)[1].id;
        let fewer = edit(&sheet, StartLine::Sizes, "0.5 1.0", day()).expect("an edit");
        let sheet = apply_shop(&sheet, &fewer).expect("typed");
        let rows = sheet.own(List::Electrodes);
        assert_eq!(rows.len(), 2);
        assert_eq!(rows[0].id, kept);
        let none = edit(&sheet, StartLine::Sizes, " ", day()).expect("an edit");
        let sheet = apply_shop(&sheet, &none).expect("typed");
        let shop = Shop::of_sheet(&sheet).expect("a shop");
        assert!(shop.tables.tubes.len() > 100, "the samples count again");
    }

    #[test]
    fn every_row_fits() {
        for row in ROWS {
            let taken: u8 = row.iter().map(|(_, tracks)| tracks).sum();
            assert!(taken <= crate::sheet::measures::TRACKS);
        }
    }
}
