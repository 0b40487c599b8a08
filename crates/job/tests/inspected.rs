//! What counts as checked, and what never does.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

use quillbore_job::inspected::{Checked, Inspections, Parts, all_checked, delivered, parts};
use quillbore_job::{CellAt, Column, Edit, Field, Job, Line, SlipKind, Unit, apply};

fn done(job: &Job, edit: &Edit) -> Job {
    apply(job, edit).expect("an edit").0
}

fn job() -> Job {
    [("A", "5"), ("B", "2")].into_iter().enumerate().fold(
        Job::default(),
        |job, (row, (mark, count))| {
            let columns = [(Column::Mark, mark), (Column::Count, count)];
            columns.into_iter().fold(job, |job, (column, text)| {
                let edit = Edit::SetCells {
                    at: CellAt { row, column },
                    rows: vec![vec![Some(text.to_owned())]],
                    unit: Unit::Mm,
                };
                done(&job, &edit)
            })
        },
    )
}

fn pin(job: &Job, kind: SlipKind, lines: &[(Line, &str)]) -> Job {
    let lines = lines
        .iter()
        .map(|(line, text)| (*line, (*text).to_owned()))
        .collect();
    let unit = Unit::Mm;
    done(job, &Edit::AddSlip { kind, lines, unit })
}

fn inspect(job: &Job, serials: &str, mark: &str, numbers: &str, count: &str) -> Job {
    let lines = [
        (Line::Serials, serials),
        (Line::Mark, mark),
        (Line::HoleNumbers, numbers),
        (Line::Checked, count),
    ];
    pin(job, SlipKind::Inspection, &lines)
}

#[test]
fn parts_are_those_that_came_else_those_ordered() {
    let ordered = pin(&job(), SlipKind::Order, &[(Line::Quantity, "12")]);
    assert_eq!(parts(&ordered).count, 12);
    let lines = [(Line::Count, "3"), (Line::Serials, "101-103")];
    let here = pin(&ordered, SlipKind::Received, &lines);
    assert_eq!(parts(&here).count, 3);
    assert_eq!(parts(&here).serials, ["101", "102", "103"]);
    let sent = pin(
        &here,
        SlipKind::Delivery,
        &[(Line::Count, "2"), (Line::Serials, "101-102")],
    );
    assert_eq!(delivered(&sent).serials, ["101", "102"]);
}

#[test]
fn a_piece_is_checked_where_every_hole_of_it_is() {
    let lot = Parts {
        serials: ["101", "102", "103"].map(str::to_owned).to_vec(),
        count: 3,
    };
    let of = |job: &Job| Inspections::of(job, &lot).checked(&job.rows[0]).parts;
    assert_eq!(of(&inspect(&job(), "101-103", "a", "", "15")), 3);
    assert_eq!(
        of(&inspect(&job(), "101-103", "A", "", "14")),
        0,
        "one hole is missing"
    );
    assert_eq!(of(&inspect(&job(), "101-102", "A", "", "10")), 2);
    assert_eq!(of(&inspect(&job(), "", "A", "", "15")), 3);
    assert_eq!(of(&inspect(&job(), "", "A", "", "14")), 2);
    assert_eq!(
        of(&inspect(&job(), "", "A", "", "9999")),
        3,
        "never more than there are"
    );
    assert_eq!(
        of(&inspect(&job(), "101-103", "B", "", "15")),
        0,
        "another mark"
    );
    assert_eq!(
        of(&inspect(&job(), "104", "A", "", "5")),
        0,
        "a piece of another lot"
    );
    let some = inspect(&job(), "102", "A", "1-4", "4");
    assert_eq!(of(&some), 0);
    assert_eq!(
        of(&inspect(&some, "102", "A", "4-5", "2")),
        1,
        "each hole counts once"
    );
    assert_eq!(
        of(&inspect(&some, "102", "A", "1-4", "4")),
        0,
        "the same four again"
    );
    let run = [(Line::Mark, "A"), (Line::Holes, "15"), (Line::Pins, "0.41")];
    assert_eq!(
        of(&pin(&job(), SlipKind::Run, &run)),
        0,
        "drilled is not checked"
    );
}

#[test]
fn all_are_checked_only_where_every_row_is() {
    let lot = Parts {
        serials: Vec::new(),
        count: 2,
    };
    let a = inspect(&job(), "", "A", "", "10");
    assert!(!all_checked(&a, &lot));
    let both = inspect(&a, "1-2", "B", "", "4");
    assert!(all_checked(&both, &lot));
    assert!(
        !all_checked(&both, &Parts::default()),
        "no parts, no statement"
    );
    let bad = pin(
        &both,
        SlipKind::Inspection,
        &[(Line::Mark, "A"), (Line::NotGood, "2")],
    );
    let lot_of_bad = Inspections::of(&bad, &lot).checked(&bad.rows[0]);
    assert_eq!(
        lot_of_bad,
        Checked {
            parts: 2,
            not_good: 2
        }
    );
}

/// What is typed of the inspection asks for a plan, or for a first article report, in words that the trade
/// uses.
#[test]
fn plans_and_first_articles_are_asked_for_in_words() {
    use quillbore_calc::standards::sampling::InspectionLevel;
    use quillbore_job::inspected::{sampling_asked, wants_first_article};
    let with = |text: &str| {
        let set = Edit::SetField {
            field: Field::Inspection,
            text: text.to_owned(),
            unit: Unit::Mm,
        };
        apply(&Job::default(), &set).expect("it is done").0
    };
    for (text, asked) in [
        ("", None),
        ("every hole by pin", None),
        ("AQL 1.0", Some((InspectionLevel::General(2), 1.0))),
        (
            "sample by ISO 2859-1, level I, AQL 0.65.",
            Some((InspectionLevel::General(1), 0.65)),
        ),
        (
            "level S-3, aql 4.0%",
            Some((InspectionLevel::Special(3), 4.0)),
        ),
        ("AQL as agreed", None),
        ("level the part, then every hole by pin", None),
        (
            "level S2; AQL: 2,5",
            Some((InspectionLevel::Special(2), 2.5)),
        ),
        (
            "Stichprobe nach ISO 2859-1, Pr\u{fc}fniveau iii, AQL 0,65",
            Some((InspectionLevel::General(3), 0.65)),
        ),
        ("AQL 1.0,level I", Some((InspectionLevel::General(1), 1.0))),
    ] {
        let job = with(text);
        assert_eq!(sampling_asked(&job), asked, "{text}");
        assert_eq!(job.field(Field::Inspection).why(), None, "{text}");
    }
    for (text, wanted) in [
        ("", false),
        ("every hole by pin; fair copies to the office", false),
        ("first article report", true),
        ("FAI to AS9102", true),
        ("mit Erstmusterpr\u{fc}fbericht", true),
    ] {
        assert_eq!(wants_first_article(&with(text)), wanted, "{text}");
    }
}

/// A plan that ISO 2859-1 doesn't have is told, and nothing is priced or planned by another one.
#[test]
fn a_level_that_there_is_not_is_told_with_those_that_there_are() {
    use quillbore_calc::finding::Level;
    use quillbore_job::Shop;
    use quillbore_job::inspected::sampling_asked;
    use quillbore_job::results::{Beside, Telling, results_now};
    for (text, says) in [
        (
            "AQL 1.0 level IV",
            "\u{201c}IV\u{201d} is not an inspection level of ISO 2859-1: type level I, II, III, S-1, S-2, \
             S-3 or S-4.",
        ),
        (
            "level S-5, AQL 1.0",
            "\u{201c}S-5\u{201d} is not an inspection level",
        ),
        (
            "AQL 1.0, level 2",
            "\u{201c}2\u{201d} is not an inspection level",
        ),
        (
            "AQL 1.0.2",
            "\u{201c}1.0.2\u{201d} is not an acceptance quality limit: type AQL 1.0",
        ),
    ] {
        let set = Edit::SetField {
            field: Field::Inspection,
            text: text.to_owned(),
            unit: Unit::Mm,
        };
        let (job, _) = apply(&Job::default(), &set).expect("it is done");
        let entry = job.field(Field::Inspection);
        assert_eq!(entry.text(), text);
        let why = entry.why().expect("it can't be read");
        assert!(why.starts_with(says), "{why}");
        assert_eq!(sampling_asked(&job), None, "{text}");
        let shop = Shop::embedded().expect("the shop");
        let results = results_now(&job, shop);
        let telling = Telling::new(&job, shop);
        let mut stops = results
            .notes
            .iter()
            .filter(|note| note.level == Level::Stop);
        let stop = stops.find(|note| note.beside == Beside::Field(Field::Inspection));
        assert!(telling.text(stop.expect("a stop")).contains(says), "{text}");
    }
}
