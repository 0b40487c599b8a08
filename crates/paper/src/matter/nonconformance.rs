//! Non-conformances as papers tell them, and the pieces and marks that they are about.

use quillbore_job::inspected::Marks;
use quillbore_job::slip::{LineOf, View, kind, line};
use quillbore_job::{Form, Line, serials};

use crate::matter::Matter;
use crate::matter::day::day;
use crate::words::customer;
use crate::words::nonconformance::BETWEEN;

/// One non-conformance with its number on this job's papers.
pub(crate) struct Nonconformance<'a> {
    /// Its number, from 1, in the order they came.
    pub(crate) number: usize,
    slip: View<'a, kind::Nonconformance>,
    form: Form,
    words: &'static customer::Nonconformance,
}

/// All of a job, in the order they came.
pub(crate) fn all<'a>(matter: &Matter<'a>) -> Vec<Nonconformance<'a>> {
    matter
        .job
        .slips_of::<kind::Nonconformance>()
        .enumerate()
        .map(|(at, slip)| Nonconformance {
            number: at + 1,
            slip,
            form: matter.form(),
            words: &matter.words().nonconformance,
        })
        .collect()
}

impl Nonconformance<'_> {
    /// What is wrong.
    pub(crate) fn what(&self) -> String {
        let what = self.slip.get(line::What).replace('\n', " ");
        what.trim_end_matches('.').to_owned()
    }

    /// Whether nobody closed it.
    pub(crate) fn is_open(&self) -> bool {
        self.slip.get(line::Closed).is_none()
    }

    /// Why parts were delivered while it was open; empty where it is closed.
    fn sent_open(&self) -> &str {
        if self.is_open() {
            self.slip.get(line::SendBecause)
        } else {
            ""
        }
    }

    /// What a customer is told of it, in one paragraph.
    pub(crate) fn for_the_customer(&self) -> String {
        self.said(&[
            LineOf::new(line::HolesNamed),
            LineOf::new(line::Serials),
            LineOf::new(line::Count),
            LineOf::new(line::What),
            LineOf::new(line::Decision),
            LineOf::new(line::DecidedBy),
            LineOf::new(line::Redo),
            LineOf::new(line::NotSent),
            LineOf::new(line::SendBecause),
            LineOf::new(line::Closed),
        ])
    }

    /// What the floor is told of it: why work goes on, and what else was noted, too.
    pub(crate) fn for_the_floor(&self) -> String {
        self.said(&[
            LineOf::new(line::HolesNamed),
            LineOf::new(line::Serials),
            LineOf::new(line::Count),
            LineOf::new(line::What),
            LineOf::new(line::Decision),
            LineOf::new(line::DecidedBy),
            LineOf::new(line::Redo),
            LineOf::new(line::NotSent),
            LineOf::new(line::GoOn),
            LineOf::new(line::SendBecause),
            LineOf::new(line::Note),
            LineOf::new(line::Closed),
        ])
    }

    fn said(&self, lines: &[LineOf<kind::Nonconformance>]) -> String {
        let text = |line| {
            let text = self.slip.one_of(line).text().trim().replace('\n', " ");
            text.trim_end_matches('.').to_owned()
        };
        let mut said: Vec<String> = lines
            .iter()
            .map(|line| match line.line() {
                Line::Closed => (line, day(self.form, self.slip, line::Closed)),
                Line::SendBecause => (line, self.sent_open().to_owned()),
                _ => (line, text(line)),
            })
            .filter(|(_, told)| !told.is_empty())
            .map(|(line, told)| (self.words.of_line)(line.line(), &told))
            .collect();
        if self.slip.get(line::Decision).is_empty() {
            said.push(self.words.no_decision.to_owned());
        }
        if self.is_open() {
            said.push(self.words.not_closed.to_owned());
        }
        let date = day(self.form, self.slip, line::Date);
        let lead = match date.as_str() {
            "" => self.number.to_string(),
            date => format!("{}, {date}", self.number),
        };
        format!("{lead}: {}.", said.join("; ").trim_end_matches('.'))
    }

    /// The pieces it is about, of those that there are: by its own line, else as its holes are named.
    pub(crate) fn pieces(&self, known: &dyn Fn(&str) -> bool, marks: &Marks) -> Vec<String> {
        let typed = serials::read(self.slip.get(line::Serials));
        if !typed.is_empty() {
            return typed.into_iter().filter(|piece| known(piece)).collect();
        }
        let (_, pieces) = self.sides();
        let whole = pieces.is_some();
        serials::read(pieces.unwrap_or_else(|| self.slip.get(line::HolesNamed)))
            .into_iter()
            // Without "of", a word that is also a mark is no piece for sure.
            .filter(|piece| known(piece) && (whole || marks.row(piece).is_none()))
            .collect()
    }

    /// The first row whose mark it names.
    pub(crate) fn row(&self, marks: &Marks) -> Option<usize> {
        let (holes, _) = self.sides();
        let named = serials::read(holes);
        named.iter().filter_map(|word| marks.row(word)).min()
    }

    /// "B of 107" is holes of a piece; what has no "of" may be either.
    fn sides(&self) -> (&str, Option<&str>) {
        let named = self.slip.get(line::HolesNamed);
        for between in BETWEEN {
            if let Some((holes, pieces)) = named.split_once(between) {
                return (holes, Some(pieces));
            }
        }
        (named, None)
    }
}
