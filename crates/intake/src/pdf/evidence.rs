//! What the texts of a drawing say of the unit of its lengths.

use std::collections::BTreeSet;

use quillbore_job::Unit;

use super::line::Line;
use super::seen::Paged;
use super::stacked::below;
use crate::head_unit::{unit_alone, unit_of_all};

/// What says which unit it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Evidence {
    /// Words on a page, from 0: `DIMENSIONS ARE IN INCHES`.
    Words(Unit, String, usize),
    /// A length without a naught before its point, as inches are written (ASME Y14.5, from memory).
    Point(String, usize),
}

impl Paged {
    /// Notes what the lines of a page say of the unit.
    pub(super) fn say(&mut self, page: usize, lines: &[Line]) {
        let below = below(lines);
        for (line, under) in lines.iter().zip(below) {
            let alone = unit_said(&line.text).map(|unit| (unit, line.text.clone()));
            let both = || {
                let under = lines.get(under?)?;
                let text = format!("{} {}", line.text, under.text);
                // What the second line says alone is its own.
                let is_whole = unit_said(&under.text).is_none();
                unit_said(&text)
                    .filter(|_| is_whole)
                    .map(|unit| (unit, text))
            };
            if let Some((unit, text)) = alone.or_else(both)
                && self.evidence.len() < MOST
            {
                self.evidence.push(Evidence::Words(unit, text, page));
            }
            if let Some(unit) = unit_spelled(&line.text)
                && self.names_of_units.len() < MOST
            {
                let named = Evidence::Words(unit, line.text.clone(), page);
                self.names_of_units.push(named);
            }
        }
    }

    /// The unit that the texts say: by their words, else by how lengths are written.
    pub(super) fn weigh_unit(&mut self) -> Option<Unit> {
        for page in &self.pages {
            for callout in &page.callouts {
                let chart = callout.row.and_then(|(chart, _)| self.charts.get(chart));
                let evidence = match chart
                    .and_then(|chart| chart.named_unit().map(|unit| (unit, chart)))
                {
                    Some((unit, chart)) => Evidence::Words(unit, chart.heads_text(), callout.page),
                    None if has_bare_point(&without_brackets(&callout.text)) => {
                        Evidence::Point(callout.text.clone(), callout.page)
                    }
                    None => continue,
                };
                if self.evidence.len() < MOST && !self.evidence.contains(&evidence) {
                    self.evidence.push(evidence);
                }
            }
        }
        // A unit's name alone may be that of a column or a box.
        let is_words = |evidence: &Evidence| matches!(evidence, Evidence::Words(..));
        if !self.evidence.iter().any(is_words) {
            self.evidence.append(&mut self.names_of_units);
        }
        let said = |evidence: &Evidence| match evidence {
            Evidence::Words(unit, ..) => Some(*unit == Unit::Inch),
            Evidence::Point(..) => None,
        };
        let said: BTreeSet<bool> = self.evidence.iter().filter_map(said).collect();
        let points = self
            .evidence
            .iter()
            .any(|evidence| matches!(evidence, Evidence::Point(..)));
        let unit = |is_inch: bool| if is_inch { Unit::Inch } else { Unit::Mm };
        match said.len() {
            0 => points.then_some(Unit::Inch),
            1 => said.first().copied().map(unit),
            _ => None,
        }
    }
}

/// The unit that a text says of all lengths; where it names two, that of the lengths without brackets:
/// `DIMENSIONS IN MM [INCH]`.
pub(crate) fn unit_said(text: &str) -> Option<Unit> {
    unit_of_all(text).or_else(|| unit_of_all(&without_brackets(text)))
}

/// The unit that a line is the name of, spelled out and not in brackets: `MILLIMETERS`. What is short may be
/// anything.
fn unit_spelled(text: &str) -> Option<Unit> {
    let text = text.trim().trim_end_matches('.');
    let is_spelled = text.len() >= SPELLED && text.chars().all(|sign| sign.is_ascii_alphabetic());
    is_spelled.then(|| unit_alone(text)).flatten()
}

/// `INCH` is the shortest.
const SPELLED: usize = 4;

/// A text without what stands in brackets.
fn without_brackets(text: &str) -> String {
    let mut depth = 0_usize;
    let mut out = String::with_capacity(text.len());
    for sign in text.chars() {
        match sign {
            '[' | '(' => depth += 1,
            ']' | ')' => depth = depth.saturating_sub(1),
            sign if depth == 0 => out.push(sign),
            _ => {}
        }
    }
    out
}

/// So many texts that speak of units are kept.
const MOST: usize = 50;

/// Whether a number begins with its point: `.0315`.
fn has_bare_point(text: &str) -> bool {
    let mut before = ' ';
    let mut signs = text.chars().peekable();
    while let Some(sign) = signs.next() {
        if sign == '.' && !before.is_ascii_alphanumeric() && before != '.' {
            let digits = signs.clone().take_while(char::is_ascii_digit).count();
            if digits >= 2 {
                return true;
            }
        }
        before = sign;
    }
    false
}

#[cfg(test)]
mod tests {
    use super::has_bare_point;

    #[test]
    fn inches_begin_with_their_point() {
        for text in [
            "12X .0315 THRU",
            "\u{d8}.0625",
            "\u{2300}.020 +.001/-.000",
            ".031-.033",
        ] {
            assert!(has_bare_point(text), "{text}");
        }
        for text in [
            "\u{2300}0.80",
            "THRU.",
            "M6x.5",
            "A...05",
            "2.0315",
            ".5 THRU",
        ] {
            assert!(!has_bare_point(text), "{text}");
        }
    }
}
