//! A margin that is possible, and hardly meant.

mod hands;

use hands::{field, ring};
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
