//! Families of materials by the words of the shop's sheet.

use super::kind::words::FAMILIES;
use crate::shop::disk::Family;

/// The families, in the order of their words.
pub(super) const FAMILY_ORDER: [Family; 16] = [
    Family::Steel,
    Family::ToolSteel,
    Family::Stainless,
    Family::Nickel,
    Family::Cobalt,
    Family::Titanium,
    Family::Aluminum,
    Family::Copper,
    Family::Magnesium,
    Family::Refractory,
    Family::Zirconium,
    Family::Carbide,
    Family::Special,
    Family::Graphite,
    Family::Hard,
    Family::Precious,
];

/// The word of a family.
pub(super) fn word(family: Family) -> &'static str {
    let at = FAMILY_ORDER.iter().position(|known| *known == family);
    at.and_then(|at| FAMILIES.get(at)).copied().unwrap_or("")
}

/// The family of a word.
pub(super) fn family(word: &str) -> Option<Family> {
    let at = FAMILIES.iter().position(|known| *known == word)?;
    FAMILY_ORDER.get(at).copied()
}
