//! Two desks changed the shop's sheet: what each of them did put together, cell by cell.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::edit::{ShopEdit, ShopRowAt};
use super::kind::ShopValue;
use super::lists::{ShopColumn, ShopLine, ShopList};
use super::own::{MOST_CHANGES, ShopRow, ShopSheet};
use crate::merge::clash::{Side, Typed};
use crate::merge::keyed::{Pair, Stands, entries, keyed, stands};
use crate::typed::entry::Entry;

/// Both desks' work in one sheet, and where they met.
#[derive(Clone, Debug, PartialEq)]
pub struct ShopMerged {
    /// The sheet with both desks' work; where both changed the same thing, ours stands.
    pub sheet: ShopSheet,
    /// What of theirs does not stand.
    pub clashes: Vec<ShopClash>,
    /// Rows of ours that are known by another identity now, from the one that they had.
    pub renumbered: BTreeMap<u32, u32>,
}

/// Something of the shop's sheet that two desks did, each in its way.
#[derive(Clone, Debug, PartialEq)]
pub enum ShopClash {
    /// A single line, with their text.
    Line(ShopLine, Typed),
    /// A cell of a row, with their text.
    Cell(ShopList, u32, ShopColumn, Typed),
    /// A row that one took out and the other changed: it stays.
    Row(ShopList, u32, Side),
    /// The logo: ours stands.
    Logo,
}

impl ShopClash {
    /// The edit that puts what the other desk wanted in place, where it is one: their text, or the row
    /// taken out.
    #[must_use]
    pub fn take_theirs(&self) -> Option<ShopEdit> {
        Some(match self {
            Self::Line(line, typed) => ShopEdit::SetLine {
                line: *line,
                text: typed.text.clone(),
                unit: typed.unit.unwrap_or_default(),
            },
            Self::Cell(list, id, column, typed) => ShopEdit::SetCells {
                list: *list,
                rows: vec![(ShopRowAt::Own(*id), vec![(*column, typed.text.clone())])],
                unit: typed.unit.unwrap_or_default(),
            },
            Self::Row(list, id, Side::Theirs) => ShopEdit::DeleteRows {
                list: *list,
                rows: vec![ShopRowAt::Own(*id)],
            },
            Self::Row(_, _, Side::Ours) | Self::Logo => return None,
        })
    }
}

/// What a row is known by at both desks: rows that stand for one sample are the same row.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum RowKey {
    Sample(String),
    Own(u32),
}

fn key_of(row: &Arc<ShopRow>) -> RowKey {
    let sample = row.stands_for.clone().map(RowKey::Sample);
    sample.unwrap_or(RowKey::Own(row.id))
}

/// Puts together what we and they made of `base`: what only one of the two touched is taken as they
/// left it; new rows of both stay, ours under new identities where both gave one out.
#[must_use]
pub fn merge_shop(base: &ShopSheet, ours: &ShopSheet, theirs: &ShopSheet) -> ShopMerged {
    let mut clashes = Vec::new();
    let (ours, renumbered) = &with_new_identities(base, ours, theirs);
    let all = [base, ours, theirs].map(|side| &*side.lines);
    let measured = |line: ShopLine| line.kind().is_measured();
    let lines = entries(ShopLine::ALL.chunks(1), measured, all, |line, lost| {
        clashes.push(ShopClash::Line(line, lost));
    });
    let mut rows = BTreeMap::new();
    for list in ShopList::ALL {
        let merged = keyed(
            [base, ours, theirs].map(|side| side.own(*list)),
            key_of,
            |base, pair| match pair {
                Pair::Both(ours, theirs) => {
                    Arc::new(cells(*list, base, ours, theirs, &mut clashes))
                }
                Pair::TakenOut(by, kept) => {
                    clashes.push(ShopClash::Row(*list, kept.id, by));
                    Arc::clone(kept)
                }
            },
        );
        if !merged.is_empty() {
            rows.insert(*list, merged);
        }
    }
    let next_row = base.next_row.max(ours.next_row).max(theirs.next_row);
    let logo = match stands(&base.logo, &ours.logo, &theirs.logo) {
        Stands::Theirs => theirs.logo.clone(),
        Stands::Ours => ours.logo.clone(),
        Stands::Met => {
            clashes.push(ShopClash::Logo);
            ours.logo.clone()
        }
    };
    let sheet = ShopSheet {
        unit: ours.unit,
        lines: Arc::new(lines),
        rows,
        next_row,
        without_samples: of_both([base, ours, theirs].map(|side| &side.without_samples)),
        left_out: of_both([base, ours, theirs].map(|side| &side.left_out)),
        logo,
        changes: changes(base, ours, theirs),
    };
    ShopMerged {
        sheet,
        clashes,
        renumbered: renumbered.clone(),
    }
}

/// Puts what was typed since a save began onto what that save left on the shelf: `saved` is what was saved,
/// `stands` what is there now, `renumbered` what became of the identities of its rows.
#[must_use]
pub fn merge_since(
    saved: &ShopSheet,
    now: &ShopSheet,
    stands: &ShopSheet,
    renumbered: &BTreeMap<u32, u32>,
) -> ShopMerged {
    let mut all = renumbered.clone();
    // What was begun since has an identity that the save may have given to another row.
    let mut next = now.next_row.max(stands.next_row);
    for row in now.rows.values().flatten() {
        if (saved.next_row..stands.next_row).contains(&row.id) {
            all.insert(row.id, next);
            next = next.saturating_add(1);
        }
    }
    let base = saved.renumbered(renumbered);
    let merged = merge_shop(&base, &now.renumbered(&all), stands);
    all.extend(merged.renumbered);
    ShopMerged {
        renumbered: all,
        ..merged
    }
}

/// Our sheet with new identities for our new rows that share theirs with other rows of theirs.
fn with_new_identities(
    base: &ShopSheet,
    ours: &ShopSheet,
    theirs: &ShopSheet,
) -> (ShopSheet, BTreeMap<u32, u32>) {
    let there: BTreeMap<u32, &Arc<ShopRow>> = {
        let rows = theirs.rows.values().flatten();
        rows.map(|row| (row.id, row)).collect()
    };
    let mut renumbered = BTreeMap::new();
    let mut next = base.next_row.max(ours.next_row).max(theirs.next_row);
    for row in ours.rows.values().flatten() {
        let given = base.next_row..theirs.next_row;
        let other = there.get(&row.id).copied();
        if given.contains(&row.id) && other.is_some() && other != Some(row) {
            renumbered.insert(row.id, next);
            next = next.saturating_add(1);
        }
    }
    let mut ours = ours.renumbered(&renumbered);
    ours.next_row = next;
    (ours, renumbered)
}

fn cells(
    list: ShopList,
    base: Option<&Arc<ShopRow>>,
    ours: &ShopRow,
    theirs: &ShopRow,
    clashes: &mut Vec<ShopClash>,
) -> ShopRow {
    let empty: BTreeMap<ShopColumn, Entry<ShopValue>> = BTreeMap::new();
    let base = base.map_or(&empty, |row| &row.cells);
    let measured = |column: ShopColumn| column.kind().is_measured();
    let all = [base, &ours.cells, &theirs.cells];
    // Rows that both began for one sample go by the identity that is on the shelf.
    let id = theirs.id;
    let cells = entries(list.columns().chunks(1), measured, all, |column, lost| {
        clashes.push(ShopClash::Cell(list, id, column, lost));
    });
    ShopRow {
        id,
        stands_for: theirs.stands_for.clone(),
        cells,
    }
}

/// What both have of a set: theirs, but for what we took out, and what we put in.
fn of_both<T: Ord + Clone>([base, ours, theirs]: [&BTreeSet<T>; 3]) -> BTreeSet<T> {
    let gone: BTreeSet<&T> = base.difference(ours).collect();
    let stays = theirs.iter().filter(|item| !gone.contains(item));
    stays.chain(ours.difference(base)).cloned().collect()
}

/// What both desks changed, by day.
fn changes(
    base: &ShopSheet,
    ours: &ShopSheet,
    theirs: &ShopSheet,
) -> Vec<Arc<super::own::ShopChange>> {
    let mut changes = theirs.changes.clone();
    let known = base.changes.len().min(ours.changes.len());
    let new = ours.changes.iter().skip(known);
    changes.extend(
        new.filter(|change| !theirs.changes.contains(change))
            .cloned(),
    );
    changes.sort_by_key(|change| change.day);
    let too_many = changes.len().saturating_sub(MOST_CHANGES);
    changes.drain(..too_many);
    changes
}
