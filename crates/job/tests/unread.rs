//! What was typed and can't be read, or is absurd, stops the figures that rest on it: no price, no
//! minutes and no electrode comes of a value that nobody typed.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

use quillbore_calc::RowId;
use quillbore_calc::finding::Level;
use quillbore_job::file::read_job;
use quillbore_job::job::FigureKey;
use quillbore_job::results::{Beside, NoteKind, Results, SideNote, Telling, results_now};
use quillbore_job::{CellAt, Column, Edit, Field, Job, Shop, Unit, apply};

/// What no reader can read as anything but text, and numbers that nothing in a shop has.
const ABSURD: &[&str] = &[
    "?!",
    "-5",
    "-5 %",
    "100 %",
    "1e308",
    "-1e308",
    "1e400",
    "NaN",
    "inf",
    "99999999999999999999",
    "4294967296",
    "0.8 +-99",
    "1/0",
    "\u{221e}",
];

/// Fields on which neither figure nor paper rests, with the reason.
const RESTS_NOTHING_ON: &[(Field, &str)] = &[
    (Field::Due, "the day that the customer asks for"),
    (Field::FollowUp, "a day to be reminded of"),
];

/// Fields on which papers rest and the price doesn't.
const PAPERS_ALONE: &[Field] = &[
    Field::Spares,
    Field::OutsideDays,
    Field::LeadDays,
    Field::ValidDays,
];

fn shop() -> &'static Shop {
    Shop::embedded().expect("the shop")
}

fn priced() -> Job {
    let job = read_job(include_bytes!("../../../demo-jobs/26-0102.ron")).expect("a demo job");
    assert!(results_now(&job, shop()).figures.price.is_some());
    job
}

fn with_field(job: &Job, field: Field, text: &str) -> Job {
    let edit = Edit::SetField {
        field,
        text: text.to_owned(),
        unit: Unit::Mm,
    };
    apply(job, &edit).expect("an edit").0
}

fn with_cell(job: &Job, column: Column, text: &str) -> Job {
    let edit = Edit::SetCells {
        at: CellAt { row: 0, column },
        rows: vec![vec![Some(text.to_owned())]],
        unit: Unit::Mm,
    };
    apply(job, &edit).expect("an edit").0
}

/// The stop that names a text as typed.
fn stop_about<'a>(results: &'a Results, job: &Job, text: &str) -> Option<(&'a SideNote, String)> {
    let telling = Telling::new(job, shop());
    let mut stops = results.notes.iter().filter_map(|note| {
        let names = matches!(note.kind, NoteKind::Unread | NoteKind::UnknownName);
        let says = telling.text(note).into_owned();
        (names && note.level == Level::Stop && says.contains(text)).then_some((note, says))
    });
    stops.next()
}

#[test]
fn a_field_that_cannot_be_read_leaves_no_price_and_is_a_stop_that_says_why() {
    let job = priced();
    let mut stopped = 0;
    for &field in Field::ALL {
        for text in ABSURD {
            let typed = with_field(&job, field, text);
            let results = results_now(&typed, shop());
            if typed.field(field).why().is_none() {
                continue;
            }
            let rests_nothing = RESTS_NOTHING_ON.iter().any(|(known, _)| *known == field);
            let stop = stop_about(&results, &typed, text);
            assert_eq!(stop.is_none(), rests_nothing, "{field:?} {text}");
            assert_eq!(results.stopped(), !rests_nothing, "{field:?} {text}");
            if let Some((note, says)) = stop {
                assert_eq!(note.beside, Beside::Field(field), "{says}");
                assert!(says.len() > text.len() + 10, "no reason: {says}");
                stopped += 1;
                let papers = PAPERS_ALONE.contains(&field);
                // A tolerance is taken where the row has no limits, and a basis where it has an angle.
                let by_row = matches!(field, Field::DefaultTolerance | Field::AngleBasis);
                let price = results.figures.price.is_none();
                assert!(price || papers || by_row, "{field:?} {text}: a price");
            }
        }
    }
    assert!(stopped > 150, "{stopped}");
}

#[test]
fn the_margin_that_was_typed_is_taken_or_none_is() {
    let job = priced();
    for text in ["100 %", "-5 %", "150", "abc", "1e308"] {
        let typed = with_field(&job, Field::Margin, text);
        let results = results_now(&typed, shop());
        assert!(results.figures.price.is_none(), "{text}");
        assert!(results.figures.lot.is_some(), "hours don't rest on it");
        assert!(stop_about(&results, &typed, text).is_some(), "{text}");
    }
    let zero = results_now(&with_field(&job, Field::Margin, "0 %"), shop());
    let price = zero.figures.price.expect("a price");
    assert!(price.margin.abs() < 1e-12);
}

#[test]
fn a_cell_that_cannot_be_read_leaves_its_row_without_minutes() {
    let job = priced();
    for &column in Column::ALL {
        let mut tried = 0;
        for text in ABSURD {
            let mut typed = with_cell(&job, column, text);
            if column == Column::Count {
                let places = Edit::SetPlaces {
                    row: typed.rows[0].id,
                    places: Vec::new(),
                };
                typed = apply(&typed, &places).expect("an edit").0;
            }
            let unread = typed.rows[0].cell(column).why.is_some();
            let results = results_now(&typed, shop());
            let unknown = column == Column::Tube && !unread;
            if !unread && !unknown {
                continue;
            }
            tried += 1;
            let hole = &results.figures.holes[0];
            assert_eq!(hole.minutes, None, "{column:?} {text}");
            assert_eq!(hole.tube, None, "{column:?} {text}");
            assert!(results.figures.lot.is_none(), "{column:?} {text}");
            assert!(results.figures.price.is_none(), "{column:?} {text}");
            let stop = stop_about(&results, &typed, text);
            let (note, _) = stop.unwrap_or_else(|| panic!("{column:?} {text}"));
            assert_eq!(
                note.beside,
                Beside::Row(typed.rows[0].id, Some(column)),
                "{column:?} {text}"
            );
        }
        let is_text = matches!(
            column,
            Column::Mark | Column::Tried | Column::Characteristic | Column::Zone | Column::Note
        );
        assert_eq!(tried > 0, !is_text, "{column:?}");
    }
}

/// A count that can't be read stands beside places that say how many holes there are.
#[test]
fn places_stand_for_a_count_that_cannot_be_read() {
    let job = priced();
    assert!(!job.rows[0].places.is_empty());
    let typed = with_cell(&job, Column::Count, "some");
    let results = results_now(&typed, shop());
    assert_eq!(
        results.figures.price,
        results_now(&job, shop()).figures.price
    );
    let unread = results.notes.iter().find(|n| n.kind == NoteKind::Unread);
    assert_eq!(unread.map(|note| note.level), Some(Level::Check));
}

#[test]
fn an_overruled_figure_that_cannot_be_read_is_not_replaced_by_the_computed_one() {
    let job = priced();
    let row = job.rows[0].id;
    let tube = shop().tables.tubes[0].name.clone();
    for (figure, of_row) in [
        (FigureKey::Gap(row), true),
        (FigureKey::Feed(row), true),
        (FigureKey::HoleMinutes(row), true),
        (FigureKey::Wear(row), true),
        (FigureKey::Electrodes(tube), false),
        (FigureKey::MachineHours, false),
        (FigureKey::LaborHours, false),
        (FigureKey::NotYetKnown, false),
        (FigureKey::UnitPrice(1), false),
    ] {
        for text in ["?!", "1e308", "-3", "NaN"] {
            let edit = Edit::Overrule {
                figure: figure.clone(),
                text: text.to_owned(),
                reason: "measured".to_owned(),
                unit: Unit::Mm,
            };
            let typed = apply(&job, &edit).expect("an edit").0;
            if typed.overrules[0].value.why().is_none() {
                continue;
            }
            let results = results_now(&typed, shop());
            assert!(results.figures.price.is_none(), "{figure:?} {text}");
            assert_eq!(results.figures.lot.is_none(), of_row, "{figure:?} {text}");
            let stop = stop_about(&results, &typed, text);
            assert!(stop.is_some(), "{figure:?} {text}");
        }
    }
}

#[test]
fn a_tolerance_or_a_basis_of_angles_that_cannot_be_read_stops_the_rows_that_need_it() {
    let job = priced();
    let no_limits = with_cell(&job, Column::Size, "1.2");
    assert!(results_now(&no_limits, shop()).figures.price.is_some());
    let typed = with_field(&no_limits, Field::DefaultTolerance, "close");
    assert_eq!(results_now(&typed, shop()).figures.holes[0].minutes, None);
    let tilted = with_cell(&job, Column::Angle, "20");
    let typed = with_field(&tilted, Field::AngleBasis, "the usual");
    assert_eq!(results_now(&typed, shop()).figures.holes[0].minutes, None);
    let said = with_cell(&typed, Column::Angle, "20 from normal");
    assert!(
        results_now(&said, shop()).figures.holes[0]
            .minutes
            .is_some()
    );
}

#[test]
fn a_name_that_the_shop_does_not_have_is_not_replaced_by_another() {
    let job = priced();
    let tube = with_cell(&job, Column::Tube, "brass 9.99 x 400");
    let layer = with_cell(&job, Column::Layers, "3 Unobtainium + 5");
    for (typed, name) in [(tube, "brass 9.99 x 400"), (layer, "Unobtainium")] {
        let results = results_now(&typed, shop());
        assert_eq!(results.figures.holes[0].minutes, None, "{name}");
        assert!(results.figures.price.is_none(), "{name}");
        assert!(stop_about(&results, &typed, name).is_some(), "{name}");
    }
    let edit = Edit::Overrule {
        figure: FigureKey::Electrodes("brass 9.99 x 400".to_owned()),
        text: "7".to_owned(),
        reason: "as last time".to_owned(),
        unit: Unit::Mm,
    };
    let typed = apply(&job, &edit).expect("an edit").0;
    let results = results_now(&typed, shop());
    assert!(results.figures.price.is_none());
    assert!(stop_about(&results, &typed, "brass 9.99 x 400").is_some());
}

#[test]
fn rows_that_can_be_read_keep_their_minutes_beside_one_that_cannot() {
    let job = priced();
    assert!(job.rows.len() > 1);
    let typed = with_cell(&job, Column::Depth, "deep");
    let results = results_now(&typed, shop());
    let minutes = |at: usize| results.figures.holes[at].minutes;
    assert_eq!(minutes(0), None);
    assert!(minutes(1).is_some());
    assert_eq!(results.figures.holes[0].row, RowId(job.rows[0].id.0));
}
