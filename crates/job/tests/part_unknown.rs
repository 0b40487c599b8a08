//! What of the part's size and mass is not known is said by name, beside the line that lacks it.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

mod hands;
#[path = "hands/notes.rs"]
mod notes_told;

use hands::{field, ring};
use notes_told::said;
use quillbore_job::results::{Beside, results_quick};
use quillbore_job::{Field, Shop};

/// What is said where these are typed as size along x, y, z and as mass, and beside which line.
fn told(typed: [&str; 4]) -> Option<(String, Field)> {
    let shop = Shop::embedded().expect("the embedded shop");
    let machine = shop.tables.machines.first().expect("a machine");
    let job = field(&ring(), Field::Machine, &machine.name);
    let lines = [Field::SizeX, Field::SizeY, Field::SizeZ, Field::Mass].into_iter();
    let job = lines
        .zip(typed)
        .fold(job, |job, (line, text)| field(&job, line, text));
    let notes = results_quick(&job, shop).notes;
    let note = notes
        .iter()
        .find(|note| note.code() == "part-size-unknown")?;
    let Beside::Field(beside) = note.beside else {
        return None;
    };
    Some((said(&job, note), beside))
}

#[test]
fn only_what_is_missing_is_named() {
    for (typed, what, beside) in [
        (
            ["", "", "", ""],
            "The size and the mass of the part are",
            Field::SizeX,
        ),
        (
            ["", "", "", "2 kg"],
            "The size of the part is",
            Field::SizeX,
        ),
        (
            ["60", "40", "25", ""],
            "The mass of the part is",
            Field::Mass,
        ),
        (
            ["60", "40", "", "2"],
            "The size along z of the part is",
            Field::SizeZ,
        ),
        (
            ["60", "", "", ""],
            "The size along y and z and the mass of the part are",
            Field::SizeY,
        ),
        // What can't be read says nothing.
        (
            ["60", "40", "25", "heavy"],
            "The mass of the part is",
            Field::Mass,
        ),
        (
            ["sixty", "40", "25", "2"],
            "The size along x of the part is",
            Field::SizeX,
        ),
    ] {
        let wanted = format!("{what} not known: nobody can say yet whether it fits the machine.");
        assert_eq!(told(typed), Some((wanted, beside)), "{typed:?}");
    }
    assert_eq!(told(["60", "40", "25", "2 kg"]), None);
}
