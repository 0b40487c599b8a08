//! The run records typed as a table: by hand, filled down, out of a spreadsheet.

use egui::{Event, Key, Modifiers, Pos2};
use egui_kittest::{Harness, kittest::Queryable as _};
use quillbore_job::slip::{RUN_COLUMNS, kind, line};
use quillbore_job::{Line, SlipKind};

use crate::hands::{Window, do_word, paste, type_on, window};

/// Hands that count what they do: each key with those held with it, each click, each text typed into
/// a cell, each block pasted.
struct Hands {
    harness: Harness<'static, Window>,
    done: usize,
}

impl Hands {
    fn click(&mut self, label: &str) {
        self.harness.get_by_label(label).click();
        self.harness.run();
        self.done += 1;
    }

    /// The head of a column, a little above its first line.
    fn click_head(&mut self, column: &str) {
        // The first line may be the one that is typed on.
        let second = self.harness.get_by_label(&format!("run 2 {column}")).rect();
        let at = Pos2::new(second.center().x, second.top() - second.height() - 12.0);
        self.harness.drag_at(at);
        self.harness.drop_at(at);
        self.harness.run();
        self.done += 1;
    }

    fn key(&mut self, held: Modifiers, key: Key) {
        self.harness.key_press_modifiers(held, key);
        self.harness.run();
        self.done += 1;
    }

    fn text(&mut self, text: &str) {
        self.harness.event(Event::Text(text.to_owned()));
        self.harness.run();
        self.done += 1;
    }

    fn paste(&mut self, text: &str) {
        self.harness.event(Event::Paste(text.to_owned()));
        self.harness.run();
        self.done += 1;
    }

    /// One text into every line of a column.
    fn fill(&mut self, column: &str, text: &str) {
        self.click(&format!("run 1 {column}"));
        self.text(text);
        self.click_head(column);
        self.key(Modifiers::COMMAND, Key::D);
    }

    /// What stands in a line of every run record.
    fn column(&self, line: Line) -> Vec<String> {
        let runs = self.harness.state().job().slips_of::<kind::Run>();
        runs.map(|run| run.slip().line(line).text().to_owned())
            .collect()
    }

    fn undo_label(&self) -> String {
        let desk = self.harness.state().app().desk();
        desk.history.undo_label().unwrap_or_default().to_owned()
    }
}

/// A job of fourteen marks whose parts are here.
fn fourteen(folder: &std::path::Path) -> Hands {
    let mut harness = window(folder);
    let rows: String = (1..=14)
        .map(|row| format!("H{row}\t{row}\t0.8 +-0.05\t12\r\n"))
        .collect();
    paste(&mut harness, &rows);
    do_word(&mut harness, "add parts");
    type_on(&mut harness, "count of parts received 1", "12");
    // The whole sheet in sight.
    harness.set_size(egui::vec2(1936.0, 3200.0));
    harness.run();
    Hands { harness, done: 0 }
}

#[test]
fn fourteen_marks_are_typed_by_hand_in_less_than_sixty_steps() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut hands = fourteen(folder.path());
    hands.click("a line for each mark");
    // The keyboard is in the table already, in the first place that nobody could know.
    hands.text("1-12");
    hands.click_head("pieces or serials");
    hands.key(Modifiers::COMMAND, Key::D);
    hands.fill("length before", "400");
    hands.fill("broke", "0");
    hands.fill("good parts", "12");
    hands.fill("scrap parts", "0");
    hands.click("run 1 sparking");
    for mark in 1..=14 {
        hands.text(&format!("{mark}.5"));
        hands.key(Modifiers::NONE, Key::Enter);
    }
    assert!(hands.done < 60, "{} steps", hands.done);
    assert_eq!(hands.done, 49);

    let each = |text: &str| vec![text.to_owned(); 14];
    let count = |of: &dyn Fn(u32) -> String| (1..=14).map(of).collect::<Vec<_>>();
    for (line, texts) in [
        (Line::Date, each("25 Nov 2026")),
        (Line::Serials, each("1-12")),
        (Line::Mark, count(&|mark| format!("H{mark}"))),
        (Line::Holes, count(&|mark| (mark * 12).to_string())),
        (Line::TubeBefore, each("400")),
        (Line::SparkMinutes, count(&|mark| format!("{mark}.5"))),
        (Line::Breakages, each("0")),
        (Line::Good, each("12")),
        (Line::Scrap, each("0")),
    ] {
        assert_eq!(hands.column(line), texts, "{line:?}");
    }
    let tubes = hands.column(Line::TubeUsed);
    let shop = &hands.harness.state().app().desk().shop.tables.tubes;
    assert!(
        tubes
            .iter()
            .all(|name| shop.iter().any(|tube| tube.name == *name)),
        "{tubes:?}"
    );
}

#[test]
fn a_block_of_a_spreadsheet_is_two_steps_and_one_step_back() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut hands = fourteen(folder.path());
    let rows: String = (1..=14)
        .map(|mark| {
            format!(
                "H{mark}\t{}\t400\t{}\t{mark},5\t0\t12\t0\r\n",
                mark * 12,
                390 - mark
            )
        })
        .collect();
    let heads = "mark\tholes\ttube before (mm)\ttube after (mm)\tsparking by the counter\tbroke or stuck\tgood\tscrap\r\n";
    hands.click("run 1 mark");
    hands.paste(&format!("{heads}{rows}"));
    assert_eq!(hands.done, 2);
    assert_eq!(hands.undo_label(), "add 14 run records");
    assert_eq!(hands.column(Line::TubeAfter)[13], "376");
    let unread = hands.harness.state().job().slips.iter();
    assert_eq!(unread.filter(|slip| slip.is_unread()).count(), 0);
    // Over some of them again, and it is one step, too.
    hands.click("run 13 good parts");
    hands.paste("11\t1\r\n10\t2\r\n9\t3\r\n");
    assert_eq!(hands.undo_label(), "paste 3 run records");
    assert_eq!(hands.column(Line::Scrap)[12..], ["1", "2", "3"]);
    hands.key(Modifiers::COMMAND, Key::Z);
    assert_eq!(hands.column(Line::Scrap), vec!["0"; 14]);
    hands.key(Modifiers::COMMAND, Key::Z);
    assert_eq!(hands.column(Line::Mark), Vec::<String>::new());
    hands.key(Modifiers::COMMAND.plus(Modifiers::SHIFT), Key::Z);
    assert_eq!(hands.column(Line::Mark).len(), 14);
    // What has no room is told, and nothing is lost.
    hands.click("run 1 name");
    hands.paste("Moss\tx\r\n");
    let notice = hands.harness.state().app().desk().notice.clone();
    assert!(notice.starts_with("The block has 2 columns"), "{notice}");
    assert_eq!(hands.column(Line::By), vec![""; 14]);
}

#[test]
fn lines_are_added_below_the_last_one_and_taken_out_together() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut hands = fourteen(folder.path());
    hands.click("run 1 mark");
    for text in ["H1", "H2", "H1"] {
        hands.text(text);
        hands.key(Modifiers::NONE, Key::Enter);
    }
    assert_eq!(hands.column(Line::Mark), ["H1", "H2", "H1"]);
    let others = |hands: &Hands| {
        let slips = hands.harness.state().job().slips.iter();
        slips.filter(|slip| slip.kind != SlipKind::Run).count()
    };
    assert_eq!(others(&hands), 1);
    hands.click("run 1 mark");
    hands.key(Modifiers::SHIFT, Key::ArrowDown);
    hands.click("delete line");
    assert_eq!(hands.column(Line::Mark), ["H1"]);
    assert_eq!(hands.undo_label(), "delete 2 run records");
    assert_eq!(others(&hands), 1);
    hands.key(Modifiers::COMMAND, Key::Z);
    assert_eq!(hands.column(Line::Mark), ["H1", "H2", "H1"]);
}

#[test]
fn nothing_moves_while_one_types() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut hands = fourteen(folder.path());
    hands.click("a line for each mark");
    let places = |hands: &Hands| {
        let place = |row, column| {
            let label = format!("run {row} {column}");
            hands.harness.get_by_label(&label).rect()
        };
        [
            place(1, "electrode no."),
            place(2, "mark"),
            place(14, "name"),
        ]
    };
    // Marks and dates that would sort otherwise, texts longer than their column, a cell that can't be
    // read: the lines stay where they are.
    let before = places(&hands);
    hands.click("run 1 mark");
    hands.text("Z, the last of all marks there are");
    assert_eq!(places(&hands), before);
    hands.key(Modifiers::NONE, Key::Enter);
    assert_eq!(places(&hands), before);
    hands.click("run 1 holes");
    hands.text("many");
    hands.key(Modifiers::NONE, Key::Enter);
    assert_eq!(places(&hands), before);
    assert_eq!(
        hands.column(Line::Mark)[0],
        "Z, the last of all marks there are"
    );
}

#[test]
fn what_cannot_be_is_told_beside_the_table() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut hands = fourteen(folder.path());
    hands.click("a line for each mark");
    hands.click("run 3 mark");
    hands.text("Q");
    hands.click("run 4 holes");
    hands.text("many");
    hands.click("run 14 pin sizes");
    hands.text("0.80 go");
    hands.key(Modifiers::NONE, Key::Enter);
    // Where several lines say the same it is said once, and of which.
    hands.fill("good parts", "lots");
    hands
        .harness
        .get_by_label_contains("good \u{201c}lots\u{201d}: ");
    hands
        .harness
        .get_by_label("lines 1, 2, 3, 4, 5, 6 and 8 more: ");
    hands.harness.get_by_label("line 3: ");
    let height = |hands: &Hands, said: &str| {
        let told = hands.harness.get_by_label_contains(said);
        told.rect().center().y
    };
    let unknown = height(
        &hands,
        "No row of the hole table has the mark \u{201c}Q\u{201d}",
    );
    let unread = height(&hands, "holes \u{201c}many\u{201d}: ");
    let pins = height(&hands, "holds other words than sizes");
    assert!(unknown < unread && unread < pins, "from the top down");
}

#[test]
fn keys_go_to_the_table_that_was_clicked_last() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut hands = fourteen(folder.path());
    hands.click("a line for each mark");
    hands.click("hole 2 size");
    // The very frame after a screen reader's click, before anything has settled.
    hands.harness.get_by_label("run 2 holes").click_accesskit();
    hands.harness.step();
    hands.harness.event(Event::Text("7".to_owned()));
    hands.harness.run();
    hands.key(Modifiers::NONE, Key::Enter);
    assert_eq!(hands.column(Line::Holes)[1], "7");
    let job = hands.harness.state().job();
    assert_eq!(job.rows[1].size.text(), "0.8 +-0.05");
    hands.click("hole 2 depth");
    hands.text("9");
    hands.key(Modifiers::NONE, Key::Enter);
    assert_eq!(hands.harness.state().job().rows[1].depth.text(), "9");
    assert_eq!(hands.column(Line::Holes)[1], "7");
}

#[test]
fn a_column_out_of_sight_comes_into_sight_with_the_cursor() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut hands = fourteen(folder.path());
    hands.click("a line for each mark");
    hands.click("all columns of runs");
    hands.click("run 2 electrode no.");
    let sheet = hands.harness.get_by_label("run 2 electrode no.").rect();
    let last = "run 2 depth if other";
    assert!(hands.harness.query_by_label(last).is_none(), "out of sight");
    hands.key(Modifiers::NONE, Key::End);
    let at = hands.harness.state().app().view().runs.cursor();
    assert_eq!((at.row, at.col), (1, RUN_COLUMNS.len() - 1));
    let seen = hands.harness.get_by_label(last).rect();
    let table = hands.harness.get_by_label("run table").rect();
    assert!(seen.right() <= table.right() + 1.0, "{seen:?} in {table:?}");
    // The first column stays where it is.
    assert_eq!(
        hands.harness.get_by_label("run 2 electrode no.").rect(),
        sheet
    );
    hands.key(Modifiers::NONE, Key::Home);
    assert_eq!(
        hands.harness.get_by_label("run 2 electrode no.").rect(),
        sheet
    );
    assert!(hands.harness.query_by_label(last).is_none());
}

#[test]
fn the_long_texts_of_a_line_stand_below_the_table() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut hands = fourteen(folder.path());
    hands.click("a line for each mark");
    hands.click("run 2 mark");
    hands.click("trouble, settings, next time of line 2");
    let lesson = "do differently next time of run record 3";
    type_on(&mut hands.harness, lesson, "fresh tube after 40 holes");
    hands.click("trouble, settings, next time of line 2");
    let job = hands.harness.state().job();
    let second = job.slips_of::<kind::Run>().nth(1).expect("a record");
    assert_eq!(second.get(line::NextTime), "fresh tube after 40 holes");
    let told = hands
        .harness
        .query_all_by_label_contains("fresh tube after 40 holes");
    assert!(told.count() > 0, "in one line below the table");
}

/// Above what was typed stands the plan in pencil, also of what comes next; the lines of the electrodes
/// take over from it no more than is known.
#[test]
fn the_plan_stands_in_pencil_above_each_run() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut hands = fourteen(folder.path());
    type_on(&mut hands.harness, "quantity", "3");
    let planned = |hands: &Hands| {
        let view = hands.harness.state().app().view();
        let plan = &view.run_plan.as_ref().expect("a plan").plan;
        (plan.beside.iter().flatten().count(), plan.left.len())
    };
    assert_eq!(planned(&hands).0, 0);
    let left = planned(&hands).1;
    assert!(left >= 14, "a stretch of each mark at least: {left}");
    hands.click("a line for each electrode");
    assert_eq!(planned(&hands), (left, 0));
    assert_eq!(hands.column(Line::ElectrodeNumber).len(), left);
    assert!(hands.column(Line::TubeBefore).iter().all(String::is_empty));
    hands.click("a line for each electrode");
    let notice = &hands.harness.state().app().desk().notice;
    assert!(notice.starts_with("Every electrode"), "{notice}");
}

/// What a run teaches moves the estimate, and not the plan that stands above the runs.
#[test]
fn the_plan_stands_still_while_runs_are_typed() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut hands = fourteen(folder.path());
    type_on(&mut hands.harness, "quantity", "3");
    hands.click("a line for each electrode");
    let planned = |hands: &Hands| {
        let view = hands.harness.state().app().view();
        view.run_plan.as_ref().expect("a plan").plan.beside.clone()
    };
    let hours = |hands: &Hands| {
        let figures = &hands.harness.state().app().desk().results().figures;
        figures.lot.as_ref().expect("a lot").machine_hours.p50
    };
    let (before, hours_before) = (planned(&hands), hours(&hands));
    assert!(before.iter().all(Option::is_some));
    hands.click("run 1 sparking");
    hands.text("3");
    hands.key(Modifiers::NONE, Key::Enter);
    assert!(hours(&hands) > 1.05 * hours_before, "the estimate moves");
    assert_eq!(planned(&hands), before);
    let notice = &hands.harness.state().app().desk().notice;
    assert!(notice.contains("holds for the whole shop"), "{notice}");
}
