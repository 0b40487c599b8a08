//! What saves steps: a price by telephone, what comes next by one key, the next stop or check by
//! another, and the sentence of the foot on the clipboard.

use egui::{Event, Key, Modifiers, OutputCommand};
use egui_kittest::{Harness, kittest::Queryable as _};
use quillbore_desk::view::Waiting;
use quillbore_job::life::{self, State};
use quillbore_job::quick::Quick;
use quillbore_job::{Edit, Field, Paper, Unit};

use crate::hands::{
    MAILED, Window, desk_of, office, paste, press, window, window_size, window_with,
};

/// A window with an empty sheet.
fn empty(folder: &std::path::Path) -> Harness<'static, Window> {
    let office = office(folder);
    let standing = quillbore_office::start::Standing::Ready;
    window_with(desk_of(&office), office, standing)
}

fn told(harness: &Harness<'_, Window>, text: &str) -> usize {
    harness.query_all_by_label_contains(text).count()
}

#[test]
fn a_price_by_telephone_takes_five_fields_and_answers_from_the_second() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = empty(folder.path());
    press_field(&mut harness, "quick price: material");
    let mut steps = 0;
    let mut answers = Vec::new();
    for text in ["718", "0.8", "14", "36", "25"] {
        harness.event(Event::Text(text.to_owned()));
        harness.run();
        answers.push(told(&harness, "Assumed: ").min(1));
        harness.key_press(Key::Tab);
        harness.run();
        // A field and its Tab are one step.
        steps += 1;
    }
    assert!(steps <= 8);
    assert_eq!(answers, [0, 1, 1, 1, 1], "from the second field on");
    // It says what the calculation says of the five texts, and names what it assumes.
    let desk = harness.state().app().desk();
    let quick = Quick {
        material: "718".to_owned(),
        size: "0.8".to_owned(),
        depth: "14".to_owned(),
        holes: "36".to_owned(),
        parts: "25".to_owned(),
    };
    let answer = quick.answer(desk.job(), &desk.shop);
    let said = answer.told(&quick, desk.job(), &desk.shop);
    assert!(told(&harness, &said[0].text) > 0, "{}", said[0].text);
    assert!(told(&harness, "no wall behind") > 0);
    assert!(
        harness.state().job().rows.is_empty(),
        "nothing is on the sheet yet"
    );
    // Enter makes it the job, in one step that undo takes back.
    press_field(&mut harness, "quick price: parts");
    harness.key_press(Key::Enter);
    harness.run();
    let job = harness.state().job();
    assert_eq!(job.rows.len(), 1);
    assert_eq!(job.rows[0].size.text(), "0.8");
    assert_eq!(job.text(Field::Quantity), "25");
    let figures = &harness.state().app().desk().results().figures;
    assert!(figures.price.is_some());
    harness.key_press(Key::Escape);
    harness.run();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run();
    assert!(Quick::is_offered(harness.state().job()), "one step back");
}

fn press_field(harness: &mut Harness<'_, Window>, name: &str) {
    let role = egui::accesskit::Role::TextInput;
    harness.get_by_role_and_label(role, name).focus();
    harness.run();
}

#[test]
fn an_assumption_that_is_pressed_leads_where_one_says_otherwise() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = empty(folder.path());
    press_field(&mut harness, "quick price: material");
    harness.event(Event::Text("718".to_owned()));
    harness.run();
    harness.key_press(Key::Tab);
    harness.run();
    harness.event(Event::Text("0.8 +-0.05".to_owned()));
    harness.run();
    // In the foot and in the margin.
    let wall = harness.query_all_by_label("no wall behind").next();
    wall.expect("it is named").click();
    harness.run();
    harness.event(Event::Text("3".to_owned()));
    harness.run();
    harness.key_press(Key::Enter);
    harness.run();
    let row = &harness.state().job().rows[0];
    assert_eq!(row.behind.text(), "3", "the cell had the keyboard");
}

#[test]
fn one_key_shows_what_comes_next_and_again_does_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(&mut harness, "A\t6\t0.8 +-0.05\t12\r\n");
    let next = |harness: &mut Harness<'_, Window>| {
        harness.key_press_modifiers(Modifiers::COMMAND, Key::Enter);
        harness.run();
    };
    let state = |harness: &Harness<'_, Window>| life::state(harness.state().job());
    next(&mut harness);
    assert_eq!(harness.state().app().view().paper, Some(Paper::Quotation));
    assert_eq!(state(&harness), State::Inquiry, "it is shown first");
    next(&mut harness);
    assert_eq!(state(&harness), State::Quoted);
    assert_eq!(harness.state().app().view().paper, None);
    next(&mut harness);
    assert_eq!(state(&harness), State::Ordered);
    let role = egui::accesskit::Role::TextInput;
    let po = harness.get_by_role_and_label(role, "customer's PO of order 1");
    assert!(po.is_focused(), "the new slip has the keyboard");
}

#[test]
fn pasted_rows_come_to_a_previewed_quotation_in_fifteen_steps() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = empty(folder.path());
    let mut steps = 0;
    let rows: String = (1..=14)
        .map(|row| {
            format!(
                "H{row}\t{row}\t0,8{} +-0,05\t{}\tTHRU\r\n",
                row % 3,
                8 + row
            )
        })
        .collect();
    harness.event(Event::Paste(format!(
        "Bohrung\tStk\t\u{d8}\tTiefe\tArt\r\n{rows}"
    )));
    harness.run();
    steps += 1;
    while let Some(Waiting::Column(pasting, _)) = &harness.state().app().view().waiting {
        let open = pasting.table.not_understood().0 > 0;
        if open {
            crate::hands::type_on(&mut harness, "which is this", "end");
        } else {
            harness.key_press(Key::Enter);
            harness.run();
        }
        steps += 1;
        assert!(steps < 6, "the table asks and asks");
    }
    assert_eq!(harness.state().job().rows.len(), 14);
    for (name, text) in [
        ("customer", "Grove Pump Works"),
        ("material", "Stainless 316"),
        ("quantity", "12"),
        ("machine", "Wren"),
    ] {
        crate::hands::type_on(&mut harness, name, text);
        steps += 1;
    }
    harness.key_press(Key::Escape);
    harness.run();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Enter);
    harness.run();
    steps += 1;
    assert_eq!(harness.state().app().view().paper, Some(Paper::Quotation));
    assert!(
        harness
            .state()
            .app()
            .desk()
            .results()
            .figures
            .price
            .is_some()
    );
    assert!(steps <= 15, "{steps} steps");
}

#[test]
fn the_next_stop_or_check_is_gone_to_and_its_remedy_taken_by_two_keys() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(
        &mut harness,
        "hole\tdia\tdepth\tend\tbehind\r\nA\t0.8 +-0.05\t8\tinto\t1\r\n",
    );
    let has = |harness: &Harness<'_, Window>, code: &str| {
        let results = harness.state().app().desk().results().clone();
        results.notes.iter().any(|note| note.code() == code)
    };
    assert!(has(&harness, "backing-needed"));
    assert!(told(&harness, "1 check") > 0, "the head counts it");
    harness.key_press(Key::F3);
    harness.run();
    let remedy = harness.get_by_label("add backing");
    assert!(remedy.is_focused(), "its first word has the keyboard");
    harness.key_press(Key::Enter);
    harness.run();
    assert!(!has(&harness, "backing-needed"));
    harness.key_press(Key::F3);
    harness.run();
    assert_eq!(
        harness.state().app().desk().notice,
        "No stop and no check waits."
    );
}

/// A check beside a line that is folded away far below: the line comes into sight, and the word of the note takes
/// the keyboard.
#[test]
fn the_next_note_brings_its_line_into_sight() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut desk = desk_of(&office(folder.path()));
    for (field, text) in [
        (Field::Material, "Stainless 316"),
        (Field::Machine, "Wren"),
        (Field::Quantity, "12"),
        (Field::OutsideCost, "180"),
        (Field::AmountsIn, "EUR"),
    ] {
        let edit = Edit::SetField {
            field,
            text: text.to_owned(),
            unit: Unit::Mm,
        };
        desk.edit(
            &edit,
            quillbore_desk::grid::GridAt::default(),
            quillbore_desk::grid::GridAt::default(),
        );
    }
    let office = office(folder.path());
    let standing = quillbore_office::start::Standing::Ready;
    let mut harness = window_with(desk, office, standing);
    harness.set_size(window_size(1280.0, 800.0));
    harness.run();
    harness.key_press(Key::F3);
    harness.run();
    let word = harness.get_by_label("they are in USD now");
    assert!(word.is_focused(), "its word has the keyboard");
    let line = harness.get_by_label("amounts typed in").rect();
    assert!(line.top() > 64.0 && line.bottom() < 740.0, "{line:?}");
}

#[test]
fn what_is_missing_is_pressed_in_the_head_and_leads_to_its_field() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = empty(folder.path());
    for (missing, field) in [("material", "material"), ("quantity", "quantity")] {
        let link = harness
            .query_all_by_role(egui::accesskit::Role::Link)
            .find(|node| node.rect().top() < 64.0 && has_label(node, missing));
        link.expect("it is in the head").click();
        harness.run();
        let role = egui::accesskit::Role::TextInput;
        assert!(harness.get_by_role_and_label(role, field).is_focused());
        harness.key_press(Key::Escape);
        harness.run();
    }
    let mut harness = window(folder.path());
    {
        let mut links = harness.query_all_by_role(egui::accesskit::Role::Link);
        let holes = links.find(|node| has_label(node, "holes"));
        holes.expect("they are missing").click();
    }
    harness.run();
    assert!(harness.state().app().view().grid.is_active());
}

fn has_label(node: &egui_kittest::Node<'_>, label: &str) -> bool {
    use egui_kittest::kittest::NodeT as _;
    node.accesskit_node().label().as_deref() == Some(label)
}

#[test]
fn the_sentence_of_the_foot_goes_to_the_clipboard() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(&mut harness, "A\t6\t0.8 +-0.05\t12\r\n");
    harness.event(Event::Key {
        key: Key::C,
        physical_key: None,
        pressed: true,
        repeat: false,
        modifiers: Modifiers::COMMAND.plus(Modifiers::SHIFT),
    });
    harness.step();
    let commands = harness.output().platform_output.commands.clone();
    let copied = commands.into_iter().find_map(|command| match command {
        OutputCommand::CopyText(text) => Some(text),
        _ => None,
    });
    let copied = copied.expect("the sentence is on the clipboard");
    assert!(copied.contains("machine hours"), "{copied}");
    harness.run();
    assert!(told(&harness, "The sentence is on the clipboard.") > 0);
}

#[test]
fn what_is_typed_in_a_cell_is_in_its_place_before_the_job_is_saved() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(&mut harness, "A\t6\t0.8 +-0.05\t12\r\n");
    press(&mut harness, "hole 1 depth");
    harness.event(Event::Text("14".to_owned()));
    harness.run();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::S);
    harness.run();
    assert_eq!(harness.state().job().rows[0].depth.text(), "14");
    assert!(!harness.state().app().desk().history.is_dirty());
}

#[test]
fn a_price_that_is_typed_over_is_set_and_the_margin_answers() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(&mut harness, "A\t6\t0.8 +-0.05\t12\r\n");
    let offered = |harness: &Harness<'_, Window>| {
        let figures = &harness.state().app().desk().results().figures;
        let price = figures.price.clone().expect("a price");
        price.breaks.first().expect("a quantity").clone()
    };
    let each = offered(&harness).each.to_string();
    let margin = |harness: &Harness<'_, Window>, share: f64| {
        told(harness, &quillbore_job::Form::default().percent(share))
    };
    harness.get_by_label(&each).focus();
    harness.run();
    for digit in ["2", "5", "0"] {
        harness.event(Event::Text(digit.to_owned()));
        harness.run();
    }
    harness.key_press(Key::Enter);
    harness.run();
    let now = offered(&harness);
    assert_eq!(now.each.to_string(), "250.00");
    assert!(now.overruled);
    let share = 1.0 - now.unit_cost / 250.0;
    assert!(margin(&harness, share) > 0, "{share}");
    // Esc leaves the price as it stands.
    harness.get_by_label("250.00").focus();
    harness.run();
    harness.event(Event::Text("9".to_owned()));
    harness.run();
    harness.key_press(Key::Escape);
    harness.run();
    assert_eq!(offered(&harness).each.to_string(), "250.00");
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run();
    assert_eq!(
        offered(&harness).each.to_string(),
        each,
        "undo takes it back"
    );
}

#[test]
fn a_reorder_shows_last_time_today_and_the_order_side_by_side() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(&mut harness, "A\t6\t0.8 +-0.05\t12\r\n");
    crate::hands::do_word(&mut harness, "issue quotation");
    let quoted = harness.state().job().issued[0].lines[0].each;
    let quoted = quoted.expect("a price").to_string();
    crate::hands::do_word(&mut harness, "add a run record for each mark");
    press(&mut harness, "run 1 floor");
    harness.event(Event::Text("240".to_owned()));
    harness.run();
    harness.key_press(Key::Enter);
    harness.run();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::S);
    harness.run();
    let took = life::hours_each(harness.state().job()).expect("hours of last time");
    harness.key_press_modifiers(Modifiers::COMMAND, Key::R);
    harness.run();
    let order = "customer's PO: number; quantity; price each; revision";
    crate::hands::type_on(&mut harness, order, "PO 9; 12; 77.75");
    let places = |text: &str| -> Vec<egui::Rect> {
        let all = harness.query_all_by_label(text);
        all.map(|node| node.rect()).collect()
    };
    let order = places("77.75 USD");
    // The slip says it as well, further down.
    let order = order.iter().min_by(|a, b| a.top().total_cmp(&b.top()));
    let order = order.expect("the order's price");
    let beside = |text: &str| {
        let all = places(text).into_iter();
        let mut line = all.filter(|place| (place.center().y - order.center().y).abs() < 1.0);
        line.next()
            .unwrap_or_else(|| panic!("{text} is not on the line"))
    };
    let today = harness.state().app().desk().results().figures.price.clone();
    let today = today.expect("a price").breaks[0].each.to_string();
    let with_currency = |each: &str| beside(&format!("{each} USD"));
    let (last, today) = (with_currency(&quoted), with_currency(&today));
    assert!(last.right() < order.right() && today.right() < order.right());
    let minutes = quillbore_job::Form::default().minutes(took.hours * 60.0);
    let took = places(&format!("{minutes} by the clock"));
    assert!(took[0].top() > order.top(), "minutes of a part below");
}

#[test]
fn f1_says_what_can_be_typed_where_one_is() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    press_field(&mut harness, "part value");
    harness.key_press(Key::F1);
    harness.run();
    assert!(told(&harness, "An amount of money, without its currency: ") > 0);
    harness.key_press(Key::F1);
    harness.run();
    assert_eq!(
        told(&harness, "An amount of money, without its currency: "),
        0
    );
    press(&mut harness, "hole 1 size");
    harness.key_press(Key::F1);
    harness.run();
    assert!(told(&harness, "A diameter with its limits: ") > 0);
    harness.key_press(Key::Escape);
    harness.run();
    assert_eq!(
        told(&harness, "A diameter with its limits: "),
        0,
        "Esc closes it"
    );
}

/// In a preview P prints, M writes a letter with the paper that stands, and nothing is sent before that.
#[test]
fn a_paper_that_stands_is_mailed_by_one_key() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(&mut harness, "A\t6\t0.8 +-0.05\t12\r\n");
    crate::hands::type_on(&mut harness, "contact", "Ms. Lind <lind@grove.example>");
    crate::hands::do_word(&mut harness, "save");
    let press_key = |harness: &mut Harness<'_, Window>, held: Modifiers, key: Key| {
        harness.key_press_modifiers(held, key);
        harness.run();
    };
    press_key(&mut harness, Modifiers::COMMAND, Key::P);
    press_key(&mut harness, Modifiers::NONE, Key::M);
    let notice = |harness: &Harness<'_, Window>| harness.state().app().desk().notice.clone();
    assert_eq!(notice(&harness), "Issue it first: a preview is not sent.");
    assert!(MAILED.take().is_empty());
    press_key(&mut harness, Modifiers::COMMAND, Key::Enter);
    press_key(&mut harness, Modifiers::COMMAND, Key::P);
    // What comes next is another paper; the quotation that stands is looked at.
    harness
        .get_by_role_and_label(egui::accesskit::Role::Link, "quotation")
        .click();
    harness.run();
    press_key(&mut harness, Modifiers::NONE, Key::M);
    let mailed = MAILED.take();
    let [letter] = mailed.as_slice() else {
        panic!("one letter: {mailed:?}");
    };
    let issued = harness.state().job().issued[0].clone();
    assert!(letter.starts_with("mailto:lind@grove.example?subject=Quotation%20"));
    assert!(
        letter.contains(&issued.number) && letter.contains("GP-12"),
        "{letter}"
    );
    let notice = notice(&harness);
    assert!(notice.contains(&issued.file), "where the file is: {notice}");
    press_key(&mut harness, Modifiers::NONE, Key::P);
    let waiting = &harness.state().app().view().waiting;
    assert!(
        matches!(waiting, Some(Waiting::PrintPath(_))),
        "{waiting:?}"
    );
}

/// Whoever types what stands above is told of the sign that takes it.
#[test]
fn a_value_typed_again_tells_of_the_sign_for_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(&mut harness, "A\t6\t0.8 +-0.05\t12\r\n");
    let notice = |harness: &Harness<'_, Window>| harness.state().app().desk().notice.clone();
    for (text, is_told) in [("0.9 +-0.05", false), ("0.8 +-0.05", true), ("\"", false)] {
        press(&mut harness, "hole 2 size");
        harness.event(Event::Text(text.to_owned()));
        harness.run();
        harness.key_press(Key::Enter);
        harness.run();
        let said = notice(&harness);
        assert_eq!(
            said.contains("a single \" in a cell"),
            is_told,
            "{text}: {said}"
        );
    }
    assert_eq!(harness.state().job().rows[1].size.text(), "0.8 +-0.05");
}

/// Ctrl+R on a line of the shelf opens that job and asks for its order.
#[test]
fn a_job_is_done_again_from_its_line_on_the_shelf() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(&mut harness, "A\t6\t0.8 +-0.05\t12\r\n");
    crate::hands::do_word(&mut harness, "save");
    let number = harness.state().job().number.clone();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::N);
    harness.run();
    assert_eq!(harness.state().job().number, "");
    harness.get_by_label(&format!("job {number}")).focus();
    harness.run();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::R);
    harness.run();
    assert_eq!(harness.state().job().number, number);
    let waiting = &harness.state().app().view().waiting;
    assert!(matches!(waiting, Some(Waiting::Again(_))), "{waiting:?}");
}

#[test]
fn an_answer_that_moves_the_price_says_so() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    // Limits closer than the process holds: parts are at risk until that is agreed.
    paste(
        &mut harness,
        "hole\tdia\tdepth\tend\r\nA\t0.4 +-0.02\t4\tthrough\r\n",
    );
    crate::hands::type_on(&mut harness, "part value", "400");
    let each = |harness: &Harness<'_, Window>| {
        let figures = &harness.state().app().desk().results().figures;
        figures.price.as_ref().expect("a price").breaks[0].each
    };
    let before = each(&harness);
    let word = harness.get_by_label_contains("told and agreed: ");
    word.click();
    harness.run();
    harness.event(Event::Text("Ms. Arl".to_owned()));
    harness.run();
    harness.key_press(Key::Enter);
    harness.run();
    let notice = harness.state().app().desk().notice.clone();
    assert_ne!(each(&harness), before, "{notice}");
    assert!(
        notice.contains(&format!("price each {before} to ")),
        "{notice}"
    );
}

#[test]
fn a_table_goes_to_the_holes_also_from_the_quick_price() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    harness.key_press_modifiers(Modifiers::COMMAND, Key::N);
    harness.run();
    let first = harness.get_by_label("quick price: material");
    assert!(first.is_focused());
    harness.event(Event::Paste(
        "hole\tqty\tdia\tdepth\r\nA\t6\t0.8 +-0.05\t12\r\nB\t2\t0.5\t4\r\n".to_owned(),
    ));
    harness.run();
    crate::hands::land(&mut harness);
    assert_eq!(harness.state().job().rows.len(), 2);
}
