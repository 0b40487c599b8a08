//! A shop file of an older format, which gave numbers, as a sheet that somebody typed.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::kind::read_shop;
use super::lists::ShopList;
use super::own::{ShopRow, ShopSheet};
use super::samples::{sample, samples};
use super::text_rows::text_rows;
use crate::ground::same_name::same_name;
use crate::shop::disk::ShopFile;
use crate::typed::entry::Unit;

/// The sheet of a file that was laid over the samples: each row with all that it gave.
pub(super) fn sheet_of(file: &ShopFile) -> ShopSheet {
    let texts = text_rows(file);
    let mut sheet = ShopSheet::default();
    let lines = texts.lines.iter().map(|(line, text)| {
        let entry = read_shop(line.kind(), text, Unit::Mm);
        (*line, entry)
    });
    sheet.lines = Arc::new(lines.filter(|(_, entry)| !entry.is_empty()).collect());
    for (list, rows) in &texts.lists {
        let mut own = Vec::new();
        for row in rows {
            let cells = row.cells.iter().map(|(column, text)| {
                let entry = read_shop(column.kind(), text, Unit::Mm);
                (*column, entry)
            });
            let cells: BTreeMap<_, _> = cells.filter(|(_, entry)| !entry.is_empty()).collect();
            own.push(Arc::new(ShopRow {
                id: sheet.next_row,
                stands_for: stands_for(*list, &row.name),
                cells,
            }));
            sheet.next_row += 1;
        }
        if !own.is_empty() {
            sheet.rows.insert(*list, own);
        }
    }
    sheet.left_out = left_out(&file.without);
    sheet
}

/// The sample of the same name; cards replace all others, so none stands for one.
fn stands_for(list: ShopList, name: &str) -> Option<String> {
    let mut all = samples().list(list).iter();
    let same = all.find(|sample| same_name(&sample.name, name))?;
    (list != ShopList::Rates).then(|| same.name.clone())
}

fn left_out(without: &[String]) -> BTreeSet<(ShopList, String)> {
    let lists = [
        ShopList::Materials,
        ShopList::Electrodes,
        ShopList::Guides,
        ShopList::Machines,
    ];
    let mut left_out = BTreeSet::new();
    for name in without {
        for list in lists {
            let named = samples()
                .list(list)
                .iter()
                .filter(|row| same_name(&row.name, name));
            left_out.extend(named.map(|row| (list, row.name.clone())));
        }
    }
    debug_assert!(
        left_out
            .iter()
            .all(|(list, name)| sample(*list, name).is_some())
    );
    left_out
}
