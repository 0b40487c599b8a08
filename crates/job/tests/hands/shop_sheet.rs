//! What the tests do to the shop's sheet: typing, and the shop that it says.
#![allow(
    unreachable_pub,
    reason = "each test file uses it as a module of its own"
)]
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

use chrono::NaiveDate;
use quillbore_job::Unit;
use quillbore_job::shop::Shop;
use quillbore_job::shop::sheet::{
    ShopColumn as Column, ShopEdit, ShopLine, ShopList as List, ShopRowAt as At, ShopSheet,
    apply_shop,
};

pub fn day(text: &str) -> NaiveDate {
    text.parse().expect("a day")
}

pub fn cells(list: List, at: At, cells: &[(Column, &str)]) -> ShopEdit {
    let cells = cells
        .iter()
        .map(|(column, text)| (*column, (*text).to_owned()));
    ShopEdit::SetCells {
        list,
        rows: vec![(at, cells.collect())],
        unit: Unit::Mm,
    }
}

pub fn line(line: ShopLine, text: &str) -> ShopEdit {
    ShopEdit::SetLine {
        line,
        text: text.to_owned(),
        unit: Unit::Mm,
    }
}

pub fn done(edits: &[ShopEdit]) -> ShopSheet {
    let mut sheet = ShopSheet::default();
    for edit in edits {
        sheet = apply_shop(&sheet, edit).expect("an edit");
    }
    sheet
}

pub fn shop(sheet: &ShopSheet) -> Shop {
    Shop::of_sheet(sheet).expect("a shop")
}
