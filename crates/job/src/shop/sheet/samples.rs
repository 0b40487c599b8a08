//! The samples that come with the program, as texts.

use std::sync::OnceLock;

use super::lists::{ShopLine, ShopList};
use super::text_rows::{TextRow, TextRows, text_rows};
use crate::shop::load::embedded_file;
use crate::typed::form::{Dates, Numbers};

/// The samples; none where the assets can't be read, which a test rules out.
pub(super) fn samples() -> &'static TextRows {
    static SAMPLES: OnceLock<TextRows> = OnceLock::new();
    SAMPLES.get_or_init(|| {
        let file = embedded_file();
        file.map(|file| text_rows(&file)).unwrap_or_default()
    })
}

/// A sample by its name.
pub(super) fn sample(list: ShopList, name: &str) -> Option<&'static TextRow> {
    samples().list(list).iter().find(|row| row.name == name)
}

/// The text of a line as the samples have it; empty where they have none.
#[must_use]
pub fn usual_line(line: ShopLine) -> &'static str {
    let usual = match line {
        ShopLine::PaperSize => "a4",
        ShopLine::Sides => "one side",
        ShopLine::Numbers => Numbers::default().key(),
        ShopLine::Dates => Dates::default().key(),
        _ => "",
    };
    let known = samples().lines.get(&line);
    known.map_or(usual, String::as_str)
}
