//! Depths that the part's wall or size speaks against.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

mod hands;
#[path = "hands/notes.rs"]
mod notes_told;

use hands::{cells, field};
use notes_told::said;
use quillbore_calc::finding::Level;
use quillbore_job::results::{Beside, SideNote, results_quick};
use quillbore_job::{CellAt, Column, Edit, Field, Job, Shop, Unit};

const CODES: [&str; 3] = [
    "deeper-than-part",
    "blind-through-wall",
    "shorter-than-wall",
];

/// A part of a wall and a size, empty where nothing is typed, without holes.
fn part(wall: &str, size: [&str; 3]) -> Job {
    let sizes = [Field::SizeX, Field::SizeY, Field::SizeZ].into_iter();
    let job = field(&Job::default(), Field::Thickness, wall);
    let job = field(&job, Field::Material, "Stainless 316");
    sizes
        .zip(size)
        .fold(job, |job, (name, text)| field(&job, name, text))
}

/// Its holes, each as depth, end, angle, surface and layers.
fn drilled(part: &Job, holes: &[[&str; 5]]) -> Job {
    let columns = [
        Column::Depth,
        Column::End,
        Column::Angle,
        Column::Surface,
        Column::Layers,
    ];
    let rows = holes.iter().zip(["A", "B", "C", "D", "E", "F"]).enumerate();
    rows.fold(part.clone(), |job, (at, (hole, mark))| {
        let job = cells(&job, at, &[mark, "4", "0.80 +-0.05"]);
        columns.iter().zip(hole).fold(job, |job, (column, text)| {
            let edit = Edit::SetCells {
                at: CellAt {
                    row: at,
                    column: *column,
                },
                rows: vec![vec![Some((*text).to_owned())]],
                unit: Unit::Mm,
            };
            hands::done(&job, &edit)
        })
    })
}

fn notes(job: &Job) -> Vec<SideNote> {
    let shop = Shop::embedded().expect("the embedded shop");
    let notes = results_quick(job, shop).notes.into_iter();
    notes.filter(|note| CODES.contains(&note.code())).collect()
}

/// What one hole of a part has against it, as a code; empty where nothing.
fn told(part: &Job, hole: [&str; 5]) -> String {
    let notes = notes(&drilled(part, &[hole]));
    let codes: Vec<&str> = notes.iter().map(SideNote::code).collect();
    codes.join(" ")
}

#[test]
fn a_blind_hole_is_held_against_the_wall_along_its_axis() {
    let part = part("14", ["", "", "25"]);
    for (hole, wanted) in [
        (["22", "blind", "", "", ""], "blind-through-wall"),
        (["14", "blind", "", "", ""], "blind-through-wall"),
        // 14 mm exactly, typed in inches.
        (["14/25.4 in", "blind", "", "", ""], "blind-through-wall"),
        (["13.9", "blind", "", "", ""], ""),
        // The most that its limits allow counts.
        (["13.9 +-0.2", "blind", "", "", ""], "blind-through-wall"),
        (["12.0-13.8", "blind", "", "", ""], ""),
        // At 60 degrees from the normal the wall is 28 mm along the axis (1/cos 60 = 2).
        (["22", "blind", "60 from normal", "", ""], ""),
        (
            ["28", "blind", "60 from normal", "", ""],
            "blind-through-wall",
        ),
        (
            ["28", "blind", "30 from surface", "", ""],
            "blind-through-wall",
        ),
        (["", "blind", "", "", "6 + 7"], ""),
        (["", "blind", "", "", "6 + 9"], "blind-through-wall"),
        // On a curved entry the wall doesn't say how far its far side is, unless the hole is square.
        (
            ["22", "blind", "", "cylinder R20", ""],
            "blind-through-wall",
        ),
        (["22", "blind", "", "cylinder R20 offset 15", ""], ""),
        (["22", "blind", "20 from normal", "ball R20", ""], ""),
        // What can't be read, or says two things, is told as that.
        (["22", "blind", "about 30", "", ""], ""),
        (["22 thru", "blind", "", "", ""], ""),
        (["", "blind", "", "", ""], ""),
    ] {
        assert_eq!(told(&part, hole), wanted, "{hole:?}");
    }
}

#[test]
fn a_through_hole_clearly_shorter_than_the_wall_is_a_note() {
    let part = part("14", ["", "", "25"]);
    for (hole, wanted) in [
        (["8", "through", "", "", ""], "shorter-than-wall"),
        (["6", "into", "", "", ""], "shorter-than-wall"),
        (["6", "", "", "", ""], "shorter-than-wall"),
        (["8 thru", "through", "", "", ""], "shorter-than-wall"),
        (["13.5", "through", "", "", ""], ""),
        (["14", "through", "", "", ""], ""),
        (["40", "through", "", "", ""], ""),
        // Square through the wall it would be right; at 30 degrees the wall is 16.2 mm along the axis.
        (
            ["14", "through", "30 from normal", "", ""],
            "shorter-than-wall",
        ),
        (["16.2", "through", "30 from normal", "", ""], ""),
        // 80 degrees typed for 79.5: 76.8 mm along the axis instead of 80.6.
        (["76.8", "through", "80 from normal", "", ""], ""),
        // Grazing: half a degree more and the wall would be twice as thick.
        (["160", "through", "89 from normal", "", ""], ""),
        (["", "through", "", "", "1.2 + 3"], "shorter-than-wall"),
        (["", "through", "", "", "1.2 + 12.8"], ""),
        (["8", "through", "", "cylinder R20 offset 15", ""], ""),
        // The wall's own thickness has nothing against itself.
        (["", "through", "", "", ""], ""),
        (["thru", "", "30 from normal", "", ""], ""),
        (["thru", "", "84 from normal", "", ""], ""),
    ] {
        assert_eq!(told(&part, hole), wanted, "{hole:?}");
    }
    let hole = ["8", "through", "", "", ""];
    for wall in ["", "thin", "8", "5"] {
        let part = field(&part, Field::Thickness, wall);
        assert_eq!(told(&part, hole), "", "{wall}");
    }
}

#[test]
fn a_hole_longer_than_any_line_in_the_part_is_a_check() {
    // 2, 3 and 6 have 7 as their diagonal.
    let size = ["20", "30", "60"];
    for (hole, wanted) in [
        (["70", "through", "", "", ""], ""),
        (["70.01", "through", "", "", ""], "deeper-than-part"),
        (["70.01", "blind", "", "", ""], "deeper-than-part"),
        (["69.9-70.1", "through", "", "", ""], "deeper-than-part"),
        (["", "", "", "", "40 + 31"], "deeper-than-part"),
    ] {
        assert_eq!(told(&part("", size), hole), wanted, "{hole:?}");
    }
    let long = ["71", "blind", "", "", ""];
    assert_eq!(
        told(&part("14", size), long),
        "deeper-than-part",
        "one note"
    );
    assert_eq!(told(&part("", ["20", "30", ""]), long), "");
    assert_eq!(told(&part("", ["20", "30", "x"]), long), "");
    // 14 mm at 84 degrees are 134 mm, and more than the part: it is the wall that says so.
    let steep = ["thru", "", "84 from normal", "", ""];
    assert_eq!(told(&part("14", size), steep), "");
}

#[test]
fn rows_with_one_fault_say_the_same_and_stop_nothing() {
    let part = part("14", ["20", "30", "60"]);
    let job = drilled(
        &part,
        &[
            ["22", "blind", "", "", ""],
            ["30", "blind", "45 from normal", "", ""],
            ["8", "through", "", "", ""],
            ["6", "through", "", "", ""],
            ["71", "through", "", "", ""],
            ["75", "through", "30 from normal", "", ""],
        ],
    );
    let notes = notes(&job);
    let all: Vec<(Level, String)> = notes
        .iter()
        .map(|note| (note.level, said(&job, note)))
        .collect();
    let come_through = "Blind, but deep enough to come through the wall of 14.00 mm: it would have no \
        bottom. Check its depth and its end, unless the part is thicker there.";
    let shorter = "Through, but less deep than the wall of 14.00 mm along the hole's axis: the wall may \
        be thinner there.";
    let deeper = "Deeper than the part is long in any direction: no straight line in 20.00 x 30.00 x \
        60.00 mm is longer than 70.00 mm. Check the depth, and the size of the part.";
    let wanted = [
        (Level::Check, come_through),
        (Level::Check, come_through),
        (Level::Note, shorter),
        (Level::Note, shorter),
        (Level::Check, deeper),
        (Level::Check, deeper),
    ];
    let wanted = wanted.map(|(level, text)| (level, text.to_owned()));
    assert_eq!(all, wanted);
    // So that they are told as one, also where a row is out of sight.
    let told_as_one = notes.windows(2).map(|pair| pair[0].has_facts_of(&pair[1]));
    assert_eq!(
        told_as_one.collect::<Vec<_>>(),
        [true, false, true, false, true]
    );
    for (note, row) in notes.iter().zip(&job.rows) {
        assert_eq!(note.beside, Beside::Row(row.id, Some(Column::Depth)));
        assert!(note.question.is_none());
    }
}

/// Very many rows with the same fault are one note beside the wall, which says how many they are; up to
/// there each row has its own.
#[test]
fn very_many_rows_are_told_once() {
    let told = |rows: usize| {
        let edit = Edit::SetCells {
            at: CellAt {
                row: 0,
                column: Column::Mark,
            },
            rows: (1..=rows)
                .map(|row| {
                    [format!("H{row}"), "1".into(), "0.8".into(), "8".into()]
                        .map(Some)
                        .to_vec()
                })
                .collect(),
            unit: Unit::Mm,
        };
        let job = hands::done(&part("12 mm", ["", "", ""]), &edit);
        let notes = notes(&job).into_iter();
        notes
            .filter(|note| note.code() == "shorter-than-wall")
            .map(|note| (note.beside, said(&job, &note)))
            .collect::<Vec<_>>()
    };
    let each = told(999);
    assert_eq!(each.len(), 999);
    assert!(
        each.iter()
            .all(|(beside, _)| matches!(beside, Beside::Row(..)))
    );
    let once = told(1_000);
    let [(Beside::Field(Field::Thickness), said)] = once.as_slice() else {
        panic!("one note: {once:?}");
    };
    assert!(
        said.ends_with("It is so in 1000 rows, H1 the first of them."),
        "{said}"
    );
}
