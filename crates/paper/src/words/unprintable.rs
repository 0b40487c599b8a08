//! What is said of characters, and of a logo, that can't be printed.

use crate::page::Trouble;

/// The job's number.
pub const JOB_NUMBER: &str = "number of the job";
/// The shop's name.
pub const SHOP_NAME: &str = "name of the shop";
/// A line of the shop's address.
pub const SHOP_ADDRESS: &str = "address of the shop";
/// Whom customers ask in the shop.
pub const SHOP_CONTACT: &str = "contact of the shop";
/// The shop's telephone number.
pub const SHOP_PHONE: &str = "phone of the shop";
/// The shop's mail address.
pub const SHOP_EMAIL: &str = "mail address of the shop";
/// The number that the shop's papers have to show.
pub const SHOP_REGISTRATION: &str = "registration of the shop";
/// A paragraph of the shop's terms.
pub const SHOP_TERMS: &str = "terms of the shop";
/// A paragraph of the shop's exclusions.
pub const SHOP_EXCLUSIONS: &str = "exclusions of the shop";
/// A paragraph of the shop's cautions.
pub const SHOP_CAUTIONS: &str = "cautions of the shop";
/// A name in the shop's tables.
pub const SHOP_TABLES: &str = "name of a tube, guide, machine or material of the shop";

/// A cell of the hole table.
pub fn cell(mark: &str, column: &str) -> String {
    format!("hole {mark}, {column}")
}

/// A line of a slip.
pub fn line(slip: &str, line: &str) -> String {
    format!("{slip}, {line}")
}

/// One sentence: where, which characters, what to do.
pub fn sentence(what: &str, trouble: Trouble, characters: &[char]) -> String {
    let shown: Vec<String> = characters
        .iter()
        .map(|ch| format!("{ch} (U+{:04X})", u32::from(*ch)))
        .collect();
    let shown = shown.join(", ");
    match trouble {
        Trouble::NoGlyph => format!(
            "The papers' font lacks characters in \u{201c}{what}\u{201d}: {shown}. Write them in Latin, \
             Greek or Cyrillic letters there."
        ),
        Trouble::RightToLeft => format!(
            "\u{201c}{what}\u{201d} has text that runs from right to left, which the papers would print \
             backwards: {shown}. Write it in Latin letters there."
        ),
    }
}

/// One sentence and what to do: why the shop's logo is not drawn.
pub fn logo(why: &str, hint: &str) -> String {
    format!("{why}. {hint}.")
}
