//! The grid by keyboard, mouse and clipboard, without a display.

use std::borrow::Cow;

use egui::{Event, Key, Modifiers, OutputCommand};
use egui_kittest::{Harness, kittest::Queryable as _};
use quillbore_desk::{
    grid::{CellState, GridAsk, GridAt, GridColumn, GridModel, GridView, SetWhy, grid_ui},
    look,
};

/// Rows of text; the last column is computed and can't be typed in.
struct Rows {
    columns: Vec<GridColumn>,
    rows: Vec<Vec<String>>,
}

impl GridModel for Rows {
    fn row_name(&self) -> &str {
        "hole"
    }
    fn row_count(&self) -> usize {
        self.rows.len()
    }
    fn columns(&self) -> &[GridColumn] {
        &self.columns
    }
    fn text(&self, at: GridAt) -> Cow<'_, str> {
        let row = &self.rows[at.row];
        row.get(at.col).map_or(Cow::Borrowed(""), Into::into)
    }
    fn state(&self, at: GridAt) -> CellState {
        if at.col == 3 {
            CellState::Computed
        } else if self.text(at).contains('?') {
            CellState::Unread
        } else {
            CellState::Plain
        }
    }
}

struct Sheet {
    model: Rows,
    view: GridView,
    asks: Vec<GridAsk>,
    other: String,
}

impl Sheet {
    /// Does what was asked, as the document would.
    fn perform(&mut self) {
        let asked = self.asks.len();
        for ask in &self.asks[asked.saturating_sub(1)..] {
            match ask {
                GridAsk::SetCells { at, rows, .. } => {
                    for (i, texts) in rows.iter().enumerate() {
                        let row = at.row + i;
                        while self.model.rows.len() <= row {
                            self.model.rows.push(vec![String::new(); 4]);
                        }
                        for (j, text) in texts.iter().enumerate() {
                            if at.col + j < 3 {
                                self.model.rows[row][at.col + j].clone_from(text);
                            }
                        }
                    }
                }
                GridAsk::InsertRows { at, count } => {
                    for _ in 0..*count {
                        self.model.rows.insert(*at, vec![String::new(); 4]);
                    }
                }
                GridAsk::DeleteRows { at, count } => {
                    self.model.rows.drain(*at..at + count);
                }
                GridAsk::OpenWorking(_) | GridAsk::NotTyped(_) => {}
            }
        }
    }
}

fn sheet(rows: &[[&str; 4]]) -> Harness<'static, Sheet> {
    let column = |head: &str, right| GridColumn {
        head: head.to_owned(),
        unit: String::new(),
        word: head.to_owned(),
        width: 80.0,
        right,
        read_only: head == "minutes",
    };
    let columns = vec![
        column("mark", false),
        column("size", true),
        column("depth", true),
        column("minutes", true),
    ];
    let rows = rows
        .iter()
        .map(|row| row.iter().map(|text| (*text).to_owned()).collect())
        .collect();
    let state = Sheet {
        model: Rows { columns, rows },
        view: GridView::default(),
        asks: Vec::new(),
        other: String::new(),
    };
    let mut harness = Harness::builder()
        .with_size(egui::vec2(600.0, 400.0))
        .with_context_setup(look::dress)
        .build_ui_state(
            |ui, sheet: &mut Sheet| {
                let before = sheet.asks.len();
                grid_ui(
                    ui,
                    "holes",
                    &sheet.model,
                    &mut sheet.view,
                    egui::vec2(400.0, 300.0),
                    &mut sheet.asks,
                );
                if sheet.asks.len() > before {
                    sheet.perform();
                }
                let name = ui.label("elsewhere").id;
                ui.text_edit_singleline(&mut sheet.other).labelled_by(name);
            },
            state,
        );
    harness.run();
    harness
}

const AB: [[&str; 4]; 2] = [["A", "0.8", "14", "1.5"], ["B", "1.2", "20", "3.1"]];

fn cell(harness: &Harness<'_, Sheet>, name: &str) -> String {
    harness.get_by_label(name).value().unwrap_or_default()
}

fn at(harness: &Harness<'_, Sheet>) -> (usize, usize) {
    let at = harness.state().view.cursor();
    (at.row, at.col)
}

fn press(harness: &mut Harness<'_, Sheet>, key: Key) {
    harness.key_press(key);
    harness.run();
}

fn copied(harness: &Harness<'_, Sheet>) -> Option<String> {
    let commands = &harness.output().platform_output.commands;
    commands.iter().find_map(|command| match command {
        OutputCommand::CopyText(text) => Some(text.clone()),
        _ => None,
    })
}

fn forty_rows() -> String {
    (0..40)
        .map(|i| format!("R{i}\t0,{:02}\t{}\r\n", 30 + i, 10 + i))
        .collect()
}

#[test]
fn forty_pasted_rows_arrive_as_one_block() {
    let mut harness = sheet(&[]);
    harness.get_by_label("hole 1 mark").click();
    harness.run();
    harness.event(Event::Paste(forty_rows()));
    harness.run();

    let state = harness.state();
    assert_eq!(state.asks.len(), 1, "{:?}", state.asks);
    let GridAsk::SetCells { at, rows, why } = &state.asks[0] else {
        panic!("{:?}", state.asks[0]);
    };
    assert_eq!((*at, *why), (GridAt::new(0, 0), SetWhy::Pasted));
    assert_eq!(rows.len(), 40);
    assert_eq!(rows[39], ["R39", "0,69", "49"]);
    assert_eq!(state.model.rows.len(), 40);
}

#[test]
fn a_block_pasted_while_a_cell_is_edited_is_still_a_block() {
    let mut harness = sheet(&AB);
    harness.get_by_label("hole 1 mark").click();
    harness.run();
    press(&mut harness, Key::F2);
    assert!(harness.query_by_label("editing hole 1 mark").is_some());
    harness.event(Event::Paste(forty_rows()));
    harness.run();
    assert_eq!(harness.state().asks.len(), 1);
    assert_eq!(cell(&harness, "hole 2 size"), "0,31");
    assert_eq!(harness.state().view.draft(), None);
}

#[test]
fn one_cell_pasted_into_an_editor_stays_in_the_editor() {
    let mut harness = sheet(&AB);
    harness.get_by_label("hole 1 size").click();
    harness.run();
    press(&mut harness, Key::F2);
    harness.event(Event::Paste("5".to_owned()));
    harness.run();
    assert_eq!(harness.state().view.draft(), Some("0.85"));
    press(&mut harness, Key::Enter);
    assert_eq!(cell(&harness, "hole 1 size"), "0.85");
}

#[test]
fn a_selected_block_is_copied_with_tabs() {
    let mut harness = sheet(&AB);
    harness.get_by_label("hole 1 size").click();
    harness.run();
    for key in [Key::ArrowRight, Key::ArrowDown] {
        harness.key_press_modifiers(Modifiers::SHIFT, key);
        harness.run();
    }
    harness.event(Event::Copy);
    harness.step();
    assert_eq!(copied(&harness).as_deref(), Some("0.8\t14\n1.2\t20"));
}

#[test]
fn typing_replaces_and_enter_goes_down() {
    let mut harness = sheet(&AB);
    harness.get_by_label("hole 1 size").click();
    harness.run();
    harness.event(Event::Text("1".to_owned()));
    harness.event(Event::Text("/32".to_owned()));
    harness.run();
    assert_eq!(harness.state().view.draft(), Some("1/32"));
    press(&mut harness, Key::Enter);
    assert_eq!(cell(&harness, "hole 1 size"), "1/32");
    assert_eq!(at(&harness), (1, 1));
}

#[test]
fn fast_typing_in_one_frame_is_read_in_its_order() {
    let mut harness = sheet(&AB);
    harness.get_by_label("hole 1 size").click();
    harness.run();
    let key = |key| Event::Key {
        key,
        physical_key: None,
        pressed: true,
        repeat: false,
        modifiers: Modifiers::NONE,
    };
    let text = |text: &str| Event::Text(text.to_owned());
    harness.input_mut().events.extend([
        text("0"),
        text("."),
        text("9"),
        key(Key::Tab),
        text("1"),
        text("7"),
        key(Key::Enter),
        text("2"),
    ]);
    harness.run();
    assert_eq!(at(&harness), (1, 1));
    assert_eq!(harness.state().view.draft(), Some("2"));
    let set: Vec<_> = harness.state().asks.iter().collect();
    assert_eq!(set.len(), 2, "{set:?}");
    harness
        .input_mut()
        .events
        .extend([text("5"), key(Key::Enter), text("8"), key(Key::Escape)]);
    harness.run();
    assert_eq!(cell(&harness, "hole 2 size"), "25");
    assert_eq!(harness.state().view.draft(), None);
    assert_eq!(at(&harness), (2, 1));
}

#[test]
fn escape_discards_the_draft() {
    let mut harness = sheet(&AB);
    harness.get_by_label("hole 2 depth").click();
    harness.run();
    harness.event(Event::Text("99".to_owned()));
    harness.run();
    press(&mut harness, Key::Escape);
    assert_eq!(harness.state().view.draft(), None);
    assert_eq!(cell(&harness, "hole 2 depth"), "20");
    assert!(harness.state().asks.is_empty());
    press(&mut harness, Key::ArrowUp);
    assert_eq!(at(&harness), (0, 2), "the grid keeps the keyboard");
}

#[test]
fn the_empty_last_row_starts_a_row_and_enter_returns_to_where_tab_began() {
    let mut harness = sheet(&AB);
    harness.get_by_label("hole 3 mark").click();
    harness.run();
    for (text, key) in [("C", Key::Tab), ("0.5", Key::Tab), ("9", Key::Enter)] {
        harness.event(Event::Text(text.to_owned()));
        harness.run();
        press(&mut harness, key);
    }
    assert_eq!(harness.state().model.rows[2], ["C", "0.5", "9", ""]);
    assert_eq!(at(&harness), (3, 0));
}

#[test]
fn arrows_ends_pages_and_tab_move_the_cursor() {
    let mut harness = sheet(&AB);
    harness.get_by_label("hole 1 mark").click();
    harness.run();
    let command = Modifiers::COMMAND;
    let none = Modifiers::NONE;
    for (modifiers, key, expect) in [
        (none, Key::ArrowRight, (0, 1)),
        (none, Key::ArrowDown, (1, 1)),
        (none, Key::End, (1, 3)),
        (none, Key::Home, (1, 0)),
        (none, Key::ArrowLeft, (1, 0)),
        (none, Key::PageDown, (2, 0)),
        (none, Key::PageUp, (0, 0)),
        (command, Key::End, (2, 3)),
        (command, Key::Home, (0, 0)),
        (command, Key::ArrowDown, (2, 0)),
        (command, Key::ArrowUp, (0, 0)),
        (none, Key::Tab, (0, 1)),
        (Modifiers::SHIFT, Key::Tab, (0, 0)),
        (none, Key::Enter, (1, 0)),
        (Modifiers::SHIFT, Key::Enter, (0, 0)),
    ] {
        harness.key_press_modifiers(modifiers, key);
        harness.run();
        assert_eq!(at(&harness), expect, "{modifiers:?} {key:?}");
    }
}

#[test]
fn clear_cut_fill_insert_and_delete() {
    let mut harness = sheet(&AB);
    harness.get_by_label("hole 1 size").click();
    harness.run();
    harness.key_press_modifiers(Modifiers::SHIFT, Key::ArrowDown);
    harness.run();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::D);
    harness.run();
    assert_eq!(cell(&harness, "hole 2 size"), "0.8");

    harness.event(Event::Cut);
    harness.step();
    assert_eq!(copied(&harness).as_deref(), Some("0.8\n0.8"));
    harness.run();
    assert_eq!(cell(&harness, "hole 1 size"), "");

    press(&mut harness, Key::Insert);
    assert_eq!(harness.state().model.rows.len(), 4);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Delete);
    harness.run();
    assert_eq!(harness.state().model.rows.len(), 2);

    harness.get_by_label("hole 2 depth").click();
    harness.run();
    press(&mut harness, Key::Delete);
    assert_eq!(cell(&harness, "hole 2 depth"), "");
}

#[test]
fn a_block_is_drawn_with_the_mouse_and_with_shift() {
    let mut harness = sheet(&AB);
    let from = harness.get_by_label("hole 1 mark").rect().center();
    let to = harness.get_by_label("hole 2 size").rect().center();
    harness.drag_at(from);
    harness.run();
    harness.hover_at(to);
    harness.run();
    harness.drop_at(to);
    harness.run();
    let block = harness.state().view.block();
    assert_eq!(
        (block.from, block.to),
        (GridAt::new(0, 0), GridAt::new(1, 1))
    );

    harness.get_by_label("hole 1 depth").click();
    harness.run();
    harness
        .get_by_label("hole 2 depth")
        .click_modifiers(Modifiers::SHIFT);
    harness.run();
    let block = harness.state().view.block();
    assert_eq!(
        (block.from, block.to),
        (GridAt::new(0, 2), GridAt::new(1, 2))
    );
}

#[test]
fn one_cell_pasted_on_a_selection_fills_it() {
    let mut harness = sheet(&AB);
    harness.get_by_label("hole 1 size").click();
    harness.run();
    harness.key_press_modifiers(Modifiers::SHIFT, Key::ArrowDown);
    harness.run();
    harness.event(Event::Paste("0,50\r\n".to_owned()));
    harness.run();
    assert_eq!(cell(&harness, "hole 1 size"), "0,50");
    assert_eq!(cell(&harness, "hole 2 size"), "0,50");
}

/// Down to the end of the table is down to its last row; below it only what is asked for there.
#[test]
fn what_is_filled_down_to_the_end_makes_no_row() {
    let mut harness = sheet(&AB);
    harness.get_by_label("hole 1 size").click();
    harness.run();
    harness.key_press_modifiers(Modifiers::COMMAND.plus(Modifiers::SHIFT), Key::ArrowDown);
    harness.run();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::D);
    harness.run();
    assert_eq!(cell(&harness, "hole 2 size"), "0.8");
    assert_eq!(harness.state().model.rows.len(), 2);
    harness.get_by_label("hole 3 depth").click();
    harness.run();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::D);
    harness.run();
    assert_eq!(cell(&harness, "hole 3 depth"), "20");
}

#[test]
fn a_computed_figure_opens_its_working_and_takes_no_typing() {
    let mut harness = sheet(&AB);
    harness.get_by_label("hole 2 minutes").click();
    harness.run();
    let working = GridAsk::OpenWorking(GridAt::new(1, 3));
    assert_eq!(
        harness.state().asks.as_slice(),
        std::slice::from_ref(&working)
    );
    press(&mut harness, Key::Enter);
    assert_eq!(harness.state().asks, [working.clone(), working.clone()]);
    harness.event(Event::Text("4".to_owned()));
    harness.run();
    assert_eq!(harness.state().view.draft(), None);
    // What was typed doesn't vanish without a word.
    let refused = GridAsk::NotTyped(GridAt::new(1, 3));
    assert_eq!(harness.state().asks, [working.clone(), working, refused]);
}

#[test]
fn going_elsewhere_keeps_what_was_typed() {
    let mut harness = sheet(&AB);
    harness.get_by_label("hole 1 size").click();
    harness.run();
    harness.event(Event::Text("0.7".to_owned()));
    harness.run();
    harness
        .get_by_role_and_label(egui::Role::TextInput, "elsewhere")
        .click();
    harness.run();
    assert_eq!(cell(&harness, "hole 1 size"), "0.7");
    harness.event(Event::Text("x".to_owned()));
    harness.run();
    assert_eq!(harness.state().other, "x");
    assert!(!harness.state().view.is_active());
}

#[test]
fn a_screen_reader_can_go_to_a_cell() {
    let mut harness = sheet(&AB);
    harness.get_by_label("hole 2 depth").click_accesskit();
    harness.run();
    assert_eq!(at(&harness), (1, 2));
    assert!(harness.state().view.is_active());
}
