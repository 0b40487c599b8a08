//! The hole table, cell by cell.

use std::sync::Arc;

use super::clash::{Clash, Text};
use super::keyed::{Pair, Stands, keyed, stands, texts_stand};
use super::three::Three;
use crate::typed::field::AngleBasis;
use crate::typed::row::{Column, Row, put};

/// The rows of both desks: those that only one has are in no other's way.
pub(super) fn merged(three: &Three, clashes: &mut Vec<Clash>) -> Vec<Arc<Row>> {
    // All three are read with the basis that stands.
    let basis = three.ours.angle_basis();
    keyed(
        three.each(|job| job.rows.as_slice()),
        |row| row.id,
        |base, pair| match pair {
            Pair::Both(ours, theirs) => {
                let empty = Row::default();
                let base = base.map_or(&empty, Arc::as_ref);
                Arc::new(cells(base, ours, theirs, basis, clashes))
            }
            Pair::TakenOut(by, kept) => {
                clashes.push(Clash::Row(kept.id, by));
                Arc::clone(kept)
            }
        },
    )
}

/// One row, column by column; its places are one cell.
fn cells(base: &Row, ours: &Row, theirs: &Row, basis: AngleBasis, clashes: &mut Vec<Clash>) -> Row {
    let mut row = ours.clone();
    for &column in Column::ALL {
        let [old, mine, other] = [base, ours, theirs].map(|row| {
            let cell = row.cell(column);
            Text {
                text: cell.text,
                unit: cell.unit,
                is_measured: column.is_measured(),
            }
        });
        match texts_stand(&[old], &[mine], &[other]) {
            Stands::Ours => {}
            Stands::Theirs => {
                let unit = other.unit.unwrap_or_default();
                put(&mut row, column, other.text, unit, basis);
            }
            Stands::Met => clashes.push(Clash::Cell(row.id, column, (&other).into())),
        }
    }
    match stands(&base.places, &ours.places, &theirs.places) {
        Stands::Ours => {}
        Stands::Theirs => row.places = Arc::clone(&theirs.places),
        Stands::Met => clashes.push(Clash::Places(row.id, Arc::clone(&theirs.places))),
    }
    row
}
