//! Parts that go out and are not recorded.

mod hands;

use hands::{pin, ring};
use quillbore_job::results::{NoteKind, Telling, results_now};
use quillbore_job::{Line, SlipKind};

#[test]
fn parts_that_go_out_before_their_holes_are_recorded_are_told() {
    let shop = quillbore_job::Shop::embedded().expect("the shop");
    // 36 holes A in one part: what is good are parts, as the table's head says.
    let told = |good: &str, parts: &str| -> Option<String> {
        let job = pin(
            &ring(),
            SlipKind::Run,
            &[(Line::Mark, "a"), (Line::Good, good)],
        );
        let job = pin(&job, SlipKind::Delivery, &[(Line::Count, parts)]);
        let results = results_now(&job, shop);
        let telling = Telling::new(&job, shop);
        let mut notes = results.notes.iter();
        let note = notes.find(|note| note.kind == NoteKind::RecordsBehind)?;
        Some(telling.text(note).into_owned())
    };
    let said = told("20", "25").expect("it is told");
    assert!(
        said.contains("fewer parts came out good than the 25 that go out: A on 20."),
        "{said}"
    );
    assert_eq!(told("25", "25"), None);
    assert_eq!(told("1", "1"), None);
    assert!(told("0", "1").is_some_and(|said| said.contains("the one that goes out")));
    // What is recorded nowhere is the certificate's to refuse.
    let job = pin(&ring(), SlipKind::Delivery, &[(Line::Count, "25")]);
    let results = results_now(&job, shop);
    assert!(
        !results
            .notes
            .iter()
            .any(|note| note.kind == NoteKind::RecordsBehind)
    );
}
