//! Lines between the rows that name the unit of those below them: `Side B (inch)`.

use crate::fold::{folded, tokens};
use crate::foreign::Foreign;
use crate::head_unit::{HeadUnit, unit_of_all};
use crate::no_row::Role;

/// Rows below a line that names a unit, up to the next such line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Section {
    /// The line's place among all lines.
    at: usize,
    /// Its number in the text.
    pub(crate) number: usize,
    pub(crate) unit: HeadUnit,
}

impl Foreign {
    /// The sections of a table, from the top; a title above the head may begin one where nothing else
    /// names a unit.
    pub(crate) fn sections(&self) -> Vec<Section> {
        let said = self.said_unit().map(|(_, unit)| unit);
        let named = self.named_units().next().is_some() || said.is_some();
        let roles = self.layout.roles.iter();
        let lines = roles.filter(|(at, role)| match role {
            Role::Words => self.is_between_rows(**at),
            Role::Title => !named,
            _ => false,
        });
        let sections = lines.filter_map(|(at, _)| {
            let line = self.lines.line(*at)?;
            let mut filled = line.cells().filter(|cell| !cell.trim().is_empty());
            let (Some(text), None) = (filled.next(), filled.next()) else {
                return None;
            };
            // What is said of all dimensions first holds for the table, and for what is above it, too.
            let of_all = unit_of_all(text).filter(|unit| Some(*unit) != said);
            let unit = of_all
                .map(HeadUnit::Whole)
                .or_else(|| unit_in_heading(text));
            Some(Section {
                at: *at,
                number: line.number,
                unit: unit?,
            })
        });
        sections.collect()
    }

    /// Whether rows stand above a line and below it.
    fn is_between_rows(&self, at: usize) -> bool {
        let is_row = |at: usize| {
            let line = self.lines.line(at);
            self.layout.is_row(at) && line.is_some_and(|line| line.is_filled())
        };
        (0..at).rev().any(is_row) && (at + 1..self.lines.len()).any(is_row)
    }
}

/// The unit of the lengths in a line.
pub(crate) fn section_of(sections: &[Section], at: usize) -> Option<HeadUnit> {
    let above = sections.partition_point(|section| section.at < at);
    let section = above.checked_sub(1).and_then(|last| sections.get(last));
    section.map(|section| section.unit)
}

/// The unit that a heading names in brackets or at its end, behind a sign; a length is none: `burr 0.1 mm`.
fn unit_in_heading(text: &str) -> Option<HeadUnit> {
    let is_whole = |unit: &HeadUnit| unit.typed_in().is_some();
    let text = text.trim().trim_end_matches(['.', ':']);
    let last = match text.strip_suffix([')', ']']) {
        Some(inner) => inner.rsplit_once(['(', '['])?.1,
        None => match text.rsplit_once([':', '=']) {
            Some((_, last)) => last,
            None => {
                let last = text.rsplit_once([',', '\u{2013}', '-'])?.1;
                // Behind a town it is a state.
                return HeadUnit::of_text(last)
                    .filter(|unit| is_whole(unit) && folded(last) != "in");
            }
        },
    };
    let unit = HeadUnit::of_text(last).filter(is_whole);
    // `(all inch)`: its other words are letters.
    let spoken = || {
        let words = tokens(last);
        let letters = last.chars().all(|letter| !letter.is_ascii_digit());
        let unit = words.last().and_then(HeadUnit::of).filter(is_whole);
        unit.filter(|_| letters && words.len() <= 3)
    };
    unit.or_else(spoken)
}

#[cfg(test)]
mod tests {
    use quillbore_job::Unit;

    use super::unit_in_heading;
    use crate::head_unit::HeadUnit;

    #[test]
    fn units_of_headings() {
        for (text, unit) in [
            ("Side B (inch)", Some(Unit::Inch)),
            ("Seite B [mm]", Some(Unit::Mm)),
            ("Side B (all in inch):", Some(Unit::Inch)),
            ("Side B - inch", Some(Unit::Inch)),
            ("Back face: in", Some(Unit::Inch)),
            ("Fort Orrin, IN", None),
            ("Side B", None),
            ("Side B (burr 0.1 mm)", None),
            ("holes 2 mm from the edge", None),
            ("Setup 2: all from back face", None),
        ] {
            let found = unit_in_heading(text).and_then(HeadUnit::typed_in);
            assert_eq!(found, unit, "{text}");
        }
    }
}
