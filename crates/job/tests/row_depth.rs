//! How deep a row's holes are, and what is said where the drawing says through.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

#[path = "hands/notes.rs"]
mod notes_told;

use notes_told::said;
use quillbore_calc::Limits;
use quillbore_calc::finding::Level;
use quillbore_job::results::{Beside, SideNote, results_quick};
use quillbore_job::to_input::to_input;
use quillbore_job::{CellAt, Column, Edit, Field, Job, Shop, Unit, apply};

fn shop() -> &'static Shop {
    Shop::embedded().expect("the embedded shop")
}

fn job(wall: &str, cells: &[(Column, &str)]) -> Job {
    let field = |field, text: &str| Edit::SetField {
        field,
        text: text.to_owned(),
        unit: Unit::Mm,
    };
    let mut edits = vec![
        field(Field::Material, "Stainless 316"),
        field(Field::Quantity, "4"),
        field(Field::Thickness, wall),
    ];
    edits.extend(cells.iter().map(|(column, text)| Edit::SetCells {
        at: CellAt {
            row: 0,
            column: *column,
        },
        rows: vec![vec![Some((*text).to_owned())]],
        unit: Unit::Mm,
    }));
    edits.iter().fold(Job::default(), |job, edit| {
        apply(&job, edit).expect("an edit").0
    })
}

fn notes(job: &Job, code: &str) -> Vec<SideNote> {
    let notes = results_quick(job, shop()).notes;
    notes
        .into_iter()
        .filter(|note| note.code() == code)
        .collect()
}

fn depth(job: &Job) -> (Option<f64>, Option<Limits>) {
    let asked = to_input(job, shop());
    let row = asked.input.rows.first().expect("a row");
    (row.depth_mm, row.depth_limits_mm)
}

#[test]
fn limits_of_the_depth_reach_the_calculation() {
    for (text, mm, limits) in [
        ("12", 12.0, None),
        ("12 +-0.2", 12.0, Some(Limits::new(11.8, 12.2))),
        ("12 +.1/-0", 12.05, Some(Limits::new(12.0, 12.1))),
        ("12,0-12,4", 12.2, Some(Limits::new(12.0, 12.4))),
        (".5 in +.01/-0", 12.827, Some(Limits::new(12.7, 12.954))),
    ] {
        let job = job("", &[(Column::Depth, text), (Column::End, "blind")]);
        assert_eq!(depth(&job), (Some(mm), limits), "{text}");
    }
}

#[test]
fn through_takes_the_wall_and_says_so() {
    let said = |job: &Job| {
        let notes = notes(job, "depth-from-wall");
        let [note] = notes.as_slice() else {
            panic!("{notes:?}");
        };
        assert_eq!(note.level, Level::Note);
        assert!(matches!(note.beside, Beside::Row(_, Some(Column::Depth))));
        said(job, note)
    };
    let flat = job("12", &[(Column::Depth, "THRU")]);
    assert_eq!(depth(&flat), (Some(12.0), None));
    assert_eq!(
        said(&flat),
        "Through: 12.00 mm deep, by the wall's thickness."
    );
    let tilted = job(
        "12",
        &[(Column::Depth, "thru"), (Column::Angle, "60 from normal")],
    );
    assert!(depth(&tilted).0.is_some_and(|mm| (mm - 24.0).abs() < 1e-9));
    assert_eq!(
        said(&tilted),
        "Through: 24.00 mm deep, by the wall's thickness along the hole's axis."
    );
    let into = job("12", &[(Column::Depth, "thru"), (Column::End, "into")]);
    assert_eq!(
        said(&into),
        "Through the wall into the cavity: 12.00 mm deep, by the wall's thickness."
    );
    let layered = job(
        "12",
        &[(Column::Depth, "thru"), (Column::Layers, "1.2 + 3")],
    );
    assert_eq!(depth(&layered), (Some(4.2), None));
    assert_eq!(
        said(&layered),
        "Through: 4.20 mm deep, by the sum of its layers."
    );
    // A depth that stands beside the word wins, and needs no word about the wall.
    let both = job("12", &[(Column::Depth, "14 thru")]);
    assert_eq!(depth(&both), (Some(14.0), None));
    assert_eq!(notes(&both, "depth-from-wall"), []);
}

#[test]
fn through_without_a_wall_is_a_missing_depth() {
    let job = job("", &[(Column::Depth, "thru")]);
    assert_eq!(depth(&job), (None, None));
    assert_eq!(notes(&job, "depth-from-wall"), []);
    let missing = notes(&job, "depth-missing");
    assert!(
        missing
            .iter()
            .any(|note| said(&job, note).contains("wall thickness"))
    );
}

#[test]
fn through_and_blind_is_a_contradiction_that_stops() {
    for depth_text in ["thru", "14 thru"] {
        let job = job("12", &[(Column::Depth, depth_text), (Column::End, "blind")]);
        let found = notes(&job, "through-and-blind");
        assert_eq!(found.len(), 1, "{depth_text}");
        assert_eq!(found[0].level, Level::Stop);
        assert!(results_quick(&job, shop()).stopped());
    }
    let through = job("12", &[(Column::Depth, "thru"), (Column::End, "through")]);
    assert_eq!(notes(&through, "through-and-blind"), []);
}

#[test]
fn dressing_and_outside_work_reach_the_calculation() {
    for (text, every) in [("", None), ("none", Some(0)), ("3", Some(3)), ("x", None)] {
        let job = job("12", &[(Column::Mark, "A"), (Column::DressEvery, text)]);
        let asked = to_input(&job, shop());
        assert_eq!(asked.input.rows[0].dress_every, every, "{text}");
        assert_eq!(
            notes(&job, "unread").len(),
            usize::from(text == "x"),
            "{text}"
        );
    }
    let edit = |job: &Job, field, text: &str| {
        let text = text.to_owned();
        let unit = Unit::Mm;
        let edit = Edit::SetField { field, text, unit };
        apply(job, &edit).expect("an edit").0
    };
    let job = edit(&Job::default(), Field::OutsidePerPart, "4,50");
    let job = edit(&job, Field::OutsideCost, "120");
    let input = to_input(&job, shop()).input;
    assert_eq!((input.outside_work, input.outside_per_part), (120.0, 4.5));
}
