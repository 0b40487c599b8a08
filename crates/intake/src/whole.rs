//! What is told of a table as a whole.

use quillbore_job::report::Source;
use quillbore_job::{Unit, words::english};

use crate::column::{ForeignColumn, Holds, How};
use crate::foreign::Foreign;
use crate::head_unit::HeadUnit;
use crate::lines::Line;
use crate::meaning::Meaning;
use crate::section::Section;
use crate::totals::Totals;
use crate::words;

/// A table and what it came to.
pub(crate) struct Whole<'a> {
    pub(crate) foreign: &'a Foreign,
    /// What bare lengths were read in.
    pub(crate) unit: Unit,
    pub(crate) sections: &'a [Section],
    pub(crate) totals: &'a Totals,
}

impl Whole<'_> {
    /// What is told, the head first.
    pub(crate) fn said(&self) -> Vec<String> {
        let foreign = self.foreign;
        let wide = foreign.columns.len() > 1;
        let separator = foreign.separator.filter(|_| wide).map(words::separator);
        let named = foreign.named_units().next().is_some();
        let line = foreign.said_unit().filter(|_| !named);
        let line = line.map(|(line, _)| line);
        let looks = self.totals.looks;
        let looks = looks.filter(|looks| *looks != self.unit && !named && line.is_none());
        let mut said: Vec<String> = self.head().or_else(|| self.order()).into_iter().collect();
        said.extend(foreign.of_sheet());
        said.extend(separator);
        said.extend(foreign.encoding.map(words::encoding_guessed));
        said.extend(self.nothing_under());
        said.push(words::units(self.unit, line, &self.other_units()));
        said.extend(self.sections());
        said.extend(looks.map(words::looks_like));
        let has_axis =
            |column: &ForeignColumn| matches!(column.holds, Some(Holds::A(Meaning::Axis(_))));
        if foreign.columns.iter().any(has_axis) {
            said.push(words::SENSE_OF_AXES.to_owned());
        }
        said.push(self.holes());
        said.extend(self.columns());
        said
    }

    fn head(&self) -> Option<String> {
        let foreign = self.foreign;
        let line = foreign.head_lines().first().copied()?;
        let filled = foreign.lines.from(0).find(Line::is_filled);
        let first = filled.is_some_and(|filled| filled.number == line);
        let by_head = foreign
            .columns
            .iter()
            .filter(|column| column.how == How::Head);
        let known: Vec<&str> = by_head.map(|column| column.head.text.as_str()).collect();
        Some(words::head_taken((!first).then_some(line), &known))
    }

    /// That a file's columns were taken in the hole table's order.
    fn order(&self) -> Option<String> {
        let foreign = self.foreign;
        let placed = foreign
            .columns
            .iter()
            .filter(|column| column.how == How::Place && column.look.filled > 0);
        let columns: Vec<&str> = placed
            .filter_map(|column| Some(english::column(column.place?).head))
            .collect();
        let ordered =
            foreign.laid && (foreign.from != Source::Pasted || foreign.separator.is_some());
        (ordered && !columns.is_empty()).then(|| words::in_order(&columns))
    }

    /// Columns that are not understood and have nothing in them: no question is asked.
    fn nothing_under(&self) -> Option<String> {
        let empty = self.foreign.columns.iter().filter(|column| {
            column.holds.is_none() && column.look.filled == 0 && !column.head.text.is_empty()
        });
        let empty: Vec<&str> = empty.map(|column| column.head.text.as_str()).collect();
        (!empty.is_empty()).then(|| words::nothing_under(&empty))
    }

    /// The heads that name another unit than the one that bare numbers are read in.
    fn other_units(&self) -> Vec<(&str, HeadUnit)> {
        let columns = self.foreign.columns.iter();
        let is_length = |column: &&ForeignColumn| matches!(column.holds, Some(Holds::A(meaning)) if meaning.is_length());
        columns
            .filter(is_length)
            .filter_map(|column| Some((column.head.text.as_str(), column.head.unit?)))
            .filter(|(_, named)| *named != HeadUnit::Whole(self.unit) && named.is_of_length())
            .collect()
    }

    /// The lines between the rows that name a unit, where any names another than that of bare numbers.
    fn sections(&self) -> Vec<String> {
        let typed_in = |section: &Section| section.unit.typed_in();
        let mut all = self.sections.iter();
        if all.all(|section| typed_in(section) == Some(self.unit)) {
            return Vec::new();
        }
        let sections = self.sections.iter();
        let said = sections.map(|section| {
            let columns = self.foreign.columns.iter();
            let mut heads = columns.filter_map(|column| column.head.unit);
            let other = heads.any(|unit| unit.is_of_length() && unit != section.unit);
            words::unit_of_section(section.number, section.unit, other)
        });
        said.collect()
    }

    fn holes(&self) -> String {
        let Totals {
            rows,
            holes,
            uncounted,
            ..
        } = *self.totals;
        let mut said = words::holes_in_rows(holes, rows);
        if uncounted > 0 {
            said = format!("{said}; {}", words::uncounted(uncounted));
        }
        format!("{said}.")
    }

    /// What was guessed, remembered or said of columns.
    fn columns(&self) -> impl Iterator<Item = String> {
        let columns = self.foreign.columns.iter().enumerate();
        columns.filter_map(|(at, column)| {
            let holds = column.holds?;
            let about = || self.foreign.about(at);
            match column.how {
                How::Guess(why) => Some(words::guessed(&about(), holds, why)),
                How::Memory => Some(words::remembered(&about(), holds)),
                How::Said => Some(words::said(&about(), holds)),
                How::Head | How::Place | How::NotUnderstood => None,
            }
        })
    }
}
