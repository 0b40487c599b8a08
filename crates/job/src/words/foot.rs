//! The running sentence in the foot: what is said on the phone, in the order it is said; and what the
//! shop doesn't know.
//!
//! Names in braces stand for what is filled in, piece by piece.

use super::own::Rests;

/// The price each, and that of the lot.
pub(crate) const PRICED: &str = "{each} each, {lot} for {parts}. ";

/// The order's price each and of all that was ordered, where today's is another one.
pub(crate) const ORDERED: &str = "Ordered at {each} each, {lot} for {parts}. ";

/// The range of a broken tool's price, and what it was reckoned at.
pub(crate) const BROKEN: &str = "{range}, reckoned {reckoned}; {try} to try. ";

/// The price of the lot where the minimum charge makes it.
pub(crate) const BY_MINIMUM: &str = "Minimum {lot} for {parts}; ";

/// Machine hours with their spread.
pub(crate) const HOURS: &str = "{likely} machine hours ({low} to {high})";

/// One size of electrode among several.
pub(crate) const ONE_SIZE: &str = "{count} x {size}";

/// Between the parts of a sentence.
pub(crate) const COMMA: &str = ", ";

/// Before the last of several.
pub(crate) const AND: &str = " and ";

/// Between fewest and most.
pub(crate) const TO: &str = " to ";

/// What ends a sentence.
pub(crate) const END: &str = ".";

/// What ends a text that was cut.
pub(crate) const CUT: char = '\u{2026}';

/// Between two sentences.
pub(crate) const NEXT: &str = " ";

/// That something stands against quoting.
pub(crate) const STOPPED: &str = "Can't be quoted: {stop}";

/// That there is no price though nothing is missing that could be named.
pub(crate) const NO_PRICE: &str = "No price yet: the side notes say what is missing.";

/// What is missing: the work material.
pub(crate) const MATERIAL: &str = "material";
/// The machine.
pub(crate) const MACHINE: &str = "machine";
/// The quantity.
pub(crate) const QUANTITY: &str = "quantity";
/// The size of a hole.
pub(crate) const SIZE: &str = "a size";
/// The depth of a hole.
pub(crate) const DEPTH: &str = "a depth";
/// The hole table's rows.
pub(crate) const HOLES: &str = "holes";

/// That one thing is missing for a price, or several.
pub(crate) const fn missing(one: bool) -> &'static str {
    if one {
        "No price yet: {missing} is missing."
    } else {
        "No price yet: {missing} are missing."
    }
}

/// Electrodes of one size.
pub(crate) const fn electrodes_of_one(count: u64) -> &'static str {
    if count == 1 {
        "{count} electrode {size}"
    } else {
        "{count} electrodes {size}"
    }
}

/// Electrodes of few sizes, each with its count; the unit stands once.
pub(crate) const ELECTRODES_EACH: &str = "{count} electrodes ({sizes} {unit})";

/// Electrodes of few tubes whose sizes don't tell them apart.
pub(crate) const ELECTRODES_NAMED: &str = "{count} electrodes ({sizes})";

/// Electrodes of many sizes.
pub(crate) fn electrodes_in(sizes: usize) -> String {
    format!("{{count}} electrodes in {sizes} sizes")
}

/// Electrodes of many tubes, some of them of the same size.
pub(crate) fn electrodes_of(tubes: usize) -> String {
    format!("{{count}} electrodes of {tubes} kinds")
}

/// A stop of a row.
pub(crate) fn stop_of(hole: &str, said: &str) -> String {
    format!("{hole}, {said}")
}

/// What figures rest on: the shop's runs in a material, or none.
pub(crate) fn rests_on(rests: Rests, material: Option<&str>) -> String {
    let runs = rests.behind.map_or(0, |behind| behind.grade);
    let runs_said = if runs == 1 { "run" } else { "runs" };
    match (runs, rests.calibrated) {
        (0, _) => format!(
            "Not calibrated: no runs in {}.",
            material.unwrap_or("these materials")
        ),
        (_, true) => format!("From {runs} {runs_said}."),
        (_, false) => format!("From {runs} {runs_said}, not calibrated yet."),
    }
}

/// Rows whose minutes aren't known, so that nothing that is said has them in it.
pub(crate) const WITHOUT: &str = "Without minutes: {rows}.";

/// That more rows are like those named.
pub(crate) fn and_more(rows: usize) -> String {
    format!(" and {rows} more")
}

/// That the rates are those of the sample shop.
pub(crate) const SAMPLE_RATES: &str = "Sample rates.";

/// A sentence or two inside another one, in short: whole sentences where one fits, else as much as
/// fits up to where it pauses; without its last point, and beginning small.
pub(crate) fn in_short(text: &str, letters: usize) -> String {
    let whole = text.trim().trim_end_matches('.');
    let fits = |text: &str| text.chars().count() <= letters;
    let short = if fits(whole) {
        whole.to_owned()
    } else {
        let cut = up_to(whole, &[". "], fits)
            .or_else(|| up_to(whole, &["; ", ": ", ", ", " once "], fits));
        cut.map_or_else(|| words_of(whole, letters), str::to_owned)
    };
    small(&short)
}

/// The longest beginning that ends before a pause and fits; a pause in quotes is none.
fn up_to<'a>(text: &'a str, pauses: &[&str], fits: impl Fn(&str) -> bool) -> Option<&'a str> {
    /// Shorter ones say too little.
    const LEAST: usize = 12;
    let is_quoted =
        |text: &str| text.matches('\u{201c}').count() != text.matches('\u{201d}').count();
    let cuts = pauses.iter().flat_map(|pause| text.match_indices(pause));
    let cuts = cuts.map(|(at, _)| &text[..at]);
    cuts.filter(|cut| cut.chars().count() >= LEAST && fits(cut) && !is_quoted(cut))
        .max_by_key(|cut| cut.len())
}

/// As many whole words as fit.
fn words_of(text: &str, letters: usize) -> String {
    let end = text
        .char_indices()
        .nth(letters)
        .map_or(text.len(), |(at, _)| at);
    let cut = &text[..end];
    let cut = cut.rfind(' ').map_or(cut, |at| &cut[..at]);
    format!("{}{CUT}", cut.trim_end_matches([',', ';', ':', ' ']))
}

/// The first letter small, where it begins an ordinary word.
fn small(text: &str) -> String {
    let mut letters = text.chars();
    let Some(first) = letters.next() else {
        return String::new();
    };
    let next = letters.clone().next();
    if next.is_none_or(|next| next.is_lowercase() || next == ' ') {
        first.to_lowercase().chain(letters).collect()
    } else {
        text.to_owned()
    }
}

#[cfg(test)]
mod tests {
    use quillbore_calc::learn::Behind;

    use super::{Rests, in_short, rests_on};

    #[test]
    fn runs_are_counted_and_said_to_be_enough_or_not() {
        let of = |grade, calibrated| {
            let behind = Some(Behind {
                grade,
                family: 9,
                all: 9,
                ..Behind::default()
            });
            rests_on(Rests { behind, calibrated }, Some("Nickel alloy 718"))
        };
        assert_eq!(of(0, false), "Not calibrated: no runs in Nickel alloy 718.");
        assert_eq!(of(1, false), "From 1 run, not calibrated yet.");
        assert_eq!(of(3, false), "From 3 runs, not calibrated yet.");
        assert_eq!(of(5, true), "From 5 runs.");
        let none = Rests {
            behind: None,
            calibrated: false,
        };
        assert_eq!(
            rests_on(none, None),
            "Not calibrated: no runs in these materials."
        );
    }

    #[test]
    fn a_stop_is_cut_where_it_pauses() {
        let said = "Not to be held: with the shop's tubes only 3.2 % of the holes would come out 0.79 mm to \
                    0.81 mm, the first piece measured. Open them by a second tube.";
        for (letters, short) in [
            (200, &said[1..said.len() - 1]),
            (130, &said[1..121]),
            (110, &said[1..95]),
            (50, "ot to be held"),
        ] {
            assert_eq!(in_short(said, letters), format!("n{short}"), "{letters}");
        }
        assert_eq!(in_short("Out of reach.", 100), "out of reach");
        assert_eq!(in_short("MAX alone.", 100), "MAX alone");
        assert_eq!(
            in_short("A margin can't be had.", 100),
            "a margin can't be had"
        );
        assert_eq!(in_short("", 100), "");
    }

    #[test]
    fn what_was_typed_is_not_cut_at_its_own_points() {
        let said = "\u{201c}W.-Nr. 2.4668, aged\u{201d} is not among the shop's materials: choose one of the list.";
        assert_eq!(
            in_short(said, 70),
            "\u{201c}W.-Nr. 2.4668, aged\u{201d} is not among the shop's materials"
        );
        assert_eq!(in_short("one two three four", 12), "one two\u{2026}");
        assert_eq!(
            in_short(&"x".repeat(50), 5),
            format!("{}\u{2026}", "x".repeat(5))
        );
    }
}
