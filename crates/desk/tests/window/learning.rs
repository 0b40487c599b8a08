//! What run records teach, in the window: a record that is typed moves the price at once, the working
//! names it, and a page shows what the shop has learned.

use egui::{Event, Key, Modifiers, vec2};
use egui_kittest::{Harness, kittest::Queryable as _};

use crate::hands::{Window, do_word, paste, press, type_on, window};

fn each(harness: &Harness<'_, Window>) -> String {
    let price = &harness.state().app().desk().results().figures.price;
    price.as_ref().expect("a price").breaks[0].each.to_string()
}

fn told(harness: &Harness<'_, Window>, text: &str) -> usize {
    harness.query_all_by_label_contains(text).count()
}

/// A job of 72 holes, its parts here, a line for its mark in the table of run records.
fn drilled(folder: &std::path::Path) -> Harness<'static, Window> {
    let mut harness = window(folder);
    paste(&mut harness, "A\t6\t0.8 +-0.05\t12\r\n");
    do_word(&mut harness, "add parts");
    type_on(&mut harness, "count of parts received 1", "12");
    harness.set_size(vec2(1936.0, 3200.0));
    harness.run();
    press(&mut harness, "a line for each mark");
    harness
}

fn type_sparking(harness: &mut Harness<'_, Window>, minutes: &str) {
    harness.get_by_label("run 1 sparking").click();
    harness.run();
    harness.event(Event::Text(minutes.to_owned()));
    harness.run();
    harness.key_press(Key::Enter);
    harness.run();
}

#[test]
fn a_record_that_is_typed_moves_the_price_at_once_and_the_working_names_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = drilled(folder.path());
    let before = each(&harness);
    assert_eq!(told(&harness, "no runs in Stainless 316"), 1);
    type_sparking(&mut harness, "300");
    let after = each(&harness);
    let amount = |text: &str| text.parse::<f64>().expect("an amount");
    assert!(amount(&after) > 1.3 * amount(&before), "{before} {after}");
    assert_eq!(told(&harness, "1 run of this material"), 1);
    assert_eq!(told(&harness, "From 1 run, not calibrated yet."), 1);
    assert_eq!(told(&harness, "no runs in Stainless 316"), 0);

    // The minutes of a hole name the record, what it makes of them, and by what.
    harness.set_size(vec2(1936.0, 3200.0));
    harness.run();
    harness.get_by_label("hole 1 min per hole").click();
    harness.run();
    harness.key_press(Key::Enter);
    harness.run();
    assert!(
        told(&harness, "x the start value") > 0,
        "what the runs make of it"
    );
    assert!(told(&harness, "this job A, 25 Nov 2026") > 0, "which run");
    assert!(told(&harness, "a product of shop") > 0, "by what");
    harness.key_press(Key::Escape);
    harness.run();

    // Taken back, the price is what it was.
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run();
    assert_eq!(each(&harness), before);
}

#[test]
fn a_page_shows_what_was_learned_and_leads_to_each_record() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = drilled(folder.path());
    type_sparking(&mut harness, "300");
    do_word(&mut harness, "save");
    harness.key_press(Key::F8);
    harness.run();
    assert_eq!(told(&harness, "1 of 1 run on the shelf count"), 1);
    assert!(told(&harness, "Stainless 316") > 0);
    assert_eq!(
        told(&harness, "minutes of 1 run against their estimates"),
        1
    );
    assert_eq!(told(&harness, "Every run"), 0);
    harness.key_press(Key::Escape);
    harness.run();
    assert_eq!(told(&harness, "What the shop has learned"), 0);

    // Left out it is listed as such, and the word leads to the reason.
    let slip = harness.state().job().slips.last().expect("a run").id;
    let shown = slip + 1;
    press(&mut harness, "run 1 mark");
    press(&mut harness, "trouble, settings, next time of line 1");
    type_on(
        &mut harness,
        &format!("left out of learning because of run record {shown}"),
        "the guide was worn",
    );
    do_word(&mut harness, "save");
    harness.key_press(Key::F8);
    harness.run();
    assert_eq!(told(&harness, "left out: the guide was worn"), 1);
    press(&mut harness, "look at 26-0101, hole A, 25 Nov 2026");
    assert!(harness.state().app().view().open_slips.contains(&slip));
    assert_eq!(told(&harness, "What the shop has learned"), 0);
}

/// A kind of work that is pressed is shown alone; the arrows go from run to run, Enter opens the job.
#[test]
fn the_charts_are_read_by_keyboard_too() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = drilled(folder.path());
    type_sparking(&mut harness, "300");
    do_word(&mut harness, "save");
    harness.key_press(Key::F8);
    harness.run();
    let kind = "stainless steel, brass 0.70";
    let head = format!("Minutes over the start values, run by run, {kind}");
    assert_eq!(told(&harness, &head), 0);
    press(&mut harness, kind);
    assert_eq!(told(&harness, &head), 1);
    harness
        .get_by_label("minutes of 1 run against their estimates")
        .focus();
    harness.run();
    for key in [Key::ArrowLeft, Key::ArrowRight] {
        harness.key_press(key);
        harness.run();
        assert_eq!(told(&harness, "hole A, 25 Nov 2026: minutes sparking"), 1);
    }
    harness.key_press(Key::Enter);
    harness.run();
    assert_eq!(told(&harness, "What the shop has learned"), 0);
    assert_eq!(harness.state().job().number, "26-0101");
}
