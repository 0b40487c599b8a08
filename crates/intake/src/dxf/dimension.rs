//! What a dimension says: as its block shows it, or its own words with the measure in them.

use super::drawing::Block;
use super::entity::{Dimension, Kind, Text};
use super::notes::DIAMETER;

/// The text of a dimension of a hole; `block` is the one that its lines and its text stand in, and `across` how
/// far its ends are apart.
pub(super) fn says(dimension: &Dimension<'_>, block: Option<&Block<'_>>, across: f64) -> String {
    match block.and_then(shown_in) {
        Some(shown) => with_sign(dimension, shown),
        None => own_words(dimension, across),
    }
}

/// A dimension's block has few texts: the measure, and limits beside it; and few lines and arrows.
const MOST_TEXTS: usize = 8;
const MOST_LOOKED_AT: usize = 200;

/// No callout is longer, in bytes.
const LONGEST: usize = 400;

/// The texts of a block in the order in which they are read. The block is what stands on the sheet, with the
/// limits, words and scale that the dimension's style gives it.
fn shown_in(block: &Block<'_>) -> Option<String> {
    let texts = block.things.entities.iter().take(MOST_LOOKED_AT);
    let texts = texts.filter_map(|entity| match &entity.kind {
        Kind::Text(text) if !text.says.is_empty() => Some(text.as_ref()),
        _ => None,
    });
    let mut texts: Vec<&Text> = texts.take(MOST_TEXTS).collect();
    let [i, j, _] = texts.first()?.along;
    let along = |text: &Text| text.at[0] * i + text.at[1] * j;
    let up = |text: &Text| text.at[1] * i - text.at[0] * j;
    texts.sort_by(|a, b| {
        let left = along(a).total_cmp(&along(b));
        left.then(up(b).total_cmp(&up(a)))
    });
    let words: Vec<&str> = texts.iter().map(|text| text.says.as_str()).collect();
    let length: usize = words.iter().map(|words| words.len() + 1).sum();
    (length <= LONGEST).then(|| words.join(" "))
}

/// A bare measure with the sign of a diameter before it.
fn with_sign(dimension: &Dimension<'_>, shown: String) -> String {
    let is_bare = shown.starts_with(|sign: char| sign.is_ascii_digit() || sign == '.');
    let has_sign = shown.contains(DIAMETER);
    // What the dimension's own words put before the measure is there already.
    let is_own = dimension.says.is_empty() || dimension.says.starts_with("<>");
    let of_diameter = dimension.of_diameter || dimension.says.is_empty();
    if is_bare && !has_sign && is_own && of_diameter {
        format!("\u{2300}{shown}")
    } else {
        shown
    }
}

/// Its own words with the measure in them, or the measure.
fn own_words(dimension: &Dimension<'_>, across: f64) -> String {
    let measured = shown(dimension.measured.unwrap_or(across));
    if dimension.says.is_empty() {
        return format!("\u{2300}{measured}");
    }
    let Some((before, behind)) = dimension.says.split_once("<>") else {
        return dimension.says.clone();
    };
    let has_sign = before.trim_end().ends_with('\u{2300}');
    let sign = if has_sign || !dimension.of_diameter {
        ""
    } else {
        "\u{2300}"
    };
    format!("{before}{sign}{measured}{behind}")
}

/// A measure with the digits that drawings have.
fn shown(measure: f64) -> String {
    let text = format!("{measure:.5}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    text.to_owned()
}
