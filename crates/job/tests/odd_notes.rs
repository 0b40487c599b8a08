//! Notes about what is possible and hardly meant, and what takes a check off.

mod hands;

use hands::{cells, field, ring};
use quillbore_job::results::{NoteKind, Telling, results_now};
use quillbore_job::{Field, Job, Shop};

/// The ring with all that its price needs.
fn ready() -> Job {
    let job = field(&ring(), Field::Material, "Inconel 718");
    field(&job, Field::Machine, "Barrow")
}

#[test]
fn a_margin_that_makes_ten_times_the_cost_is_told() {
    let shop = Shop::embedded().expect("the shop");
    let told = |margin: &str| -> Option<String> {
        let job = field(&ready(), Field::Margin, margin);
        let results = results_now(&job, shop);
        let telling = Telling::new(&job, shop);
        let mut notes = results.notes.iter();
        let note = notes.find(|note| note.kind == NoteKind::MarginOdd)?;
        Some(telling.text(note).into_owned())
    };
    // 1 / (1 - 0.95) = 20, and 1 / (1 - 0.99) = 100.
    assert!(told("95").is_some_and(|said| said.contains("95 % the price is 20 times")));
    assert!(told("99").is_some_and(|said| said.contains("is 100 times the cost")));
    for usual in ["0", "30", "60", "89"] {
        assert_eq!(told(usual), None, "{usual} %");
    }
}

#[test]
fn a_tilt_that_no_axis_reaches_is_seen_to_by_a_named_fixture() {
    use quillbore_calc::finding::{Kind, Level};
    let mut shop = Shop::embedded().expect("the shop").clone();
    for machine in &mut shop.tables.machines {
        machine.tilt_deg = None;
    }
    let level = |job: &Job| {
        let results = results_now(job, &shop);
        let is_it = |kind: &NoteKind| matches!(kind, NoteKind::Found(Kind::TiltOutOfRange { .. }));
        let note = results.notes.iter().find(|note| is_it(&note.kind));
        note.map(|note| note.level)
    };
    // The index axis turns the part about z, and nothing leans it.
    let job = field(&ready(), Field::IndexAbout, "z");
    let job = cells(
        &job,
        1,
        &["B", "4", "0.80 +-0.05", "14", "through", "25 deg to normal"],
    );
    assert_eq!(level(&job), Some(Level::Check));
    let held = field(&job, Field::Fixture, "wedge 25");
    assert_eq!(level(&held), Some(Level::Note));
}
