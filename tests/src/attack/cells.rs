//! Every parser of a typed cell.

use chrono::NaiveDate;
use quillbore_calc::RowId;
use quillbore_job::job::FigureKey;
use quillbore_job::places::{AxisPoints, PlacesGiven, read_places, split_lines};
use quillbore_job::read_field::read_field;
use quillbore_job::read_line::read_line;
use quillbore_job::read_overrule::read_overrule;
use quillbore_job::row::put;
use quillbore_job::{Column, Entry, Field, Job, Line, Row, Unit, order_text, serials};

use super::pick::Pick;

/// Whatever is typed, wherever: it is read the same twice, its text stays to the letter, and what
/// can't be read has its reason.
pub(super) fn typed(bytes: &[u8]) {
    let mut pick = Pick::new(bytes);
    let unit = pick.of(&[Unit::Mm, Unit::Inch]);
    match pick.byte() % 8 {
        0..=2 => column(&mut pick, unit),
        3 => {
            let field = pick.of(Field::ALL);
            entry(pick, |text| read_field(field, text, unit));
        }
        4 => {
            let line = pick.of(Line::ALL);
            entry(pick, |text| read_line(line, text, unit));
        }
        5 => {
            let row = RowId(0);
            let figure = match pick.byte() % 9 {
                0 => FigureKey::Gap(row),
                1 => FigureKey::Feed(row),
                2 => FigureKey::HoleMinutes(row),
                3 => FigureKey::Wear(row),
                4 => FigureKey::Electrodes("brass 0.70 x 400".to_owned()),
                5 => FigureKey::MachineHours,
                6 => FigureKey::LaborHours,
                7 => FigureKey::NotYetKnown,
                _ => FigureKey::UnitPrice(1),
            };
            entry(pick, |text| {
                let read = read_overrule(&figure, text, unit);
                let value = read.value().copied().unwrap_or(0.0);
                assert!(value.is_finite(), "{value} of {text:?}");
                read
            });
        }
        _ => lists(pick, unit),
    }
}

fn column(pick: &mut Pick<'_>, unit: Unit) {
    let column = pick.of(Column::ALL);
    let text = text_of(pick);
    let basis = Job::default().angle_basis();
    let (mut row, mut again) = (Row::default(), Row::default());
    put(&mut row, column, &text, unit, basis);
    put(&mut again, column, &text, unit, basis);
    assert!(row == again, "read in two ways");
    let cell = row.cell(column);
    assert!(
        cell.text == text || text.trim().is_empty(),
        "{text:?} became {:?}",
        cell.text
    );
    assert!(cell.why.is_none_or(|why| !why.to_string().is_empty()));
}

fn entry<T: PartialEq + std::fmt::Debug>(pick: Pick<'_>, read: impl Fn(&str) -> Entry<T>) {
    let mut pick = pick;
    let text = text_of(&mut pick);
    let once = read(&text);
    assert!(once == read(&text), "read in two ways: {text:?}");
    assert!(
        once.text() == text || text.trim().is_empty(),
        "{text:?} became {:?}",
        once.text()
    );
    assert!(once.why().is_none_or(|why| !why.to_string().is_empty()));
    assert!(
        once == read(once.text()),
        "its own text reads otherwise: {text:?}"
    );
}

fn lists(mut pick: Pick<'_>, unit: Unit) {
    let text = text_of(&mut pick);
    let _ = serials::read(&text);
    let given = PlacesGiven {
        unit,
        vector: pick.of(&[AxisPoints::IntoWork, AxisPoints::OutOfWork]),
        axis: [0.0, 0.0, -1.0],
        first_number: pick.of(&[1, 0, u32::MAX]),
    };
    if let Ok(read) = read_places(&split_lines(&text), &given) {
        for place in read.places {
            let parts = place.point_mm.iter().chain(&place.axis);
            assert!(parts.clone().all(|part| part.is_finite()), "{place:?}");
        }
    }
    let day = NaiveDate::from_ymd_opt(2026, 11, 25).unwrap_or_default();
    let old = Job {
        unit,
        ..Job::default()
    };
    let _ = order_text::order_edits(&text, &old, day, quillbore_job::Form::default());
}

/// Mostly what is left as it stands, sometimes a text of the list.
fn text_of(pick: &mut Pick<'_>) -> String {
    match pick.byte() % 4 {
        0 => pick.text(),
        _ => String::from_utf8_lossy(pick.rest()).into_owned(),
    }
}
