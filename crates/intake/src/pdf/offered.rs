//! Callouts of a PDF on their way into the hole table: all are offered, none is taken unasked.

use std::collections::BTreeMap;
use std::sync::Arc;

use quillbore_job::report::{FileStamp, LineOutcome, Report, Source};
use quillbore_job::{Column, Job, RowsAt, Unit, read_quantity};

use super::error::PaperError;
use super::seen::{Paged, SeenCallout};
use crate::callout::split;
use crate::cell_words::CellWord;
use crate::drawn::Marks;
use crate::new_row::{Cells, NewRow, edit_of, rows_of};
use crate::table::Taken;
use crate::watch::Watch;
use crate::words::pages as words;
use crate::words::{blind_by_depth, drawn::of_row};

/// A PDF that was read, and which of its callouts are to be drilled.
#[derive(Clone, Debug, PartialEq)]
pub struct Offered {
    from: Source,
    paged: Paged,
    /// By their numbers, from 0.
    is_taken: Vec<bool>,
    /// The unit that somebody says.
    said: Option<Unit>,
}

impl Offered {
    /// Reads the callouts of a file; `watch` hears now and then how far it is.
    ///
    /// # Errors
    /// Where it can't be read, or no text of it speaks of holes.
    pub fn read(bytes: &[u8], name: &str, watch: Watch<'_>) -> Result<Self, PaperError> {
        Self::of(super::read(bytes, watch)?, name)
    }

    /// The callouts of a file that was read.
    ///
    /// # Errors
    /// Where no text of it speaks of holes.
    pub fn of(paged: Paged, name: &str) -> Result<Self, PaperError> {
        let callouts = paged.pages.iter().map(|page| page.callouts.len()).sum();
        if callouts == 0 {
            return Err(PaperError::NoCallouts(words::of_pages(&paged)));
        }
        Ok(Self {
            from: Source::named(name),
            paged,
            is_taken: vec![false; callouts],
            said: None,
        })
    }

    /// The same, with what tells its file's content from another's: the report keeps it.
    #[must_use]
    pub fn stamped(mut self, stamp: FileStamp) -> Self {
        self.from = self.from.stamped(stamp);
        self
    }

    /// Where it came from.
    #[must_use]
    pub const fn from(&self) -> &Source {
        &self.from
    }

    /// What was read.
    #[must_use]
    pub const fn paged(&self) -> &Paged {
        &self.paged
    }

    /// All callouts in the order of reading; the numbers of the methods below count them from 0.
    pub fn callouts(&self) -> impl Iterator<Item = &SeenCallout> {
        self.paged.pages.iter().flat_map(|page| &page.callouts)
    }

    /// Whether a callout is to be taken.
    #[must_use]
    pub fn is_taken(&self, callout: usize) -> bool {
        self.is_taken.get(callout).copied().unwrap_or(false)
    }

    /// Takes a callout that was not to be taken, or the other way round.
    pub fn toggle(&mut self, callout: usize) {
        if let Some(is_taken) = self.is_taken.get_mut(callout) {
            *is_taken = !*is_taken;
        }
    }

    /// Takes these callouts and no others.
    ///
    /// # Errors
    /// Where there is no callout of such a number: nothing changes then.
    pub fn take_only(&mut self, callouts: &[usize]) -> Result<(), PaperError> {
        let all = self.is_taken.len();
        if let Some(beyond) = callouts.iter().find(|callout| **callout >= all) {
            return Err(PaperError::NoSuchCallout(*beyond, all));
        }
        for (number, is_taken) in self.is_taken.iter_mut().enumerate() {
            *is_taken = callouts.contains(&number);
        }
        Ok(())
    }

    /// The unit of the lengths: as somebody says, else as the texts do.
    #[must_use]
    pub fn unit(&self) -> Option<Unit> {
        self.said.or(self.paged.unit)
    }

    /// Says what unit the lengths are in, whatever the texts say.
    pub const fn say_unit(&mut self, unit: Unit) {
        self.said = Some(unit);
    }

    /// Takes the chosen callouts as rows of a job's hole table.
    ///
    /// # Errors
    /// Where the unit is not known, or none is chosen.
    pub fn take(&self, job: &Job, at: RowsAt) -> Result<Taken, PaperError> {
        if !self.is_taken.contains(&true) {
            return Err(PaperError::NoneTaken);
        }
        let Some(unit) = self.unit() else {
            return Err(PaperError::WhichUnit(words::of_units(&self.paged.evidence)));
        };
        let mut whole = vec![words::unit(unit, self.said.is_some(), &self.paged.evidence)];
        let mut marks = Marks::beside(job, at);
        let mut rows = Vec::new();
        // Lines of one table are read together, where its first one stands.
        let mut of_charts: BTreeMap<usize, Vec<(usize, &SeenCallout)>> = BTreeMap::new();
        let chosen = || {
            let numbered = self.callouts().enumerate();
            numbered
                .filter(|(number, _)| self.is_taken(*number))
                .map(|(_, callout)| callout)
        };
        for callout in chosen() {
            if let Some((chart, row)) = callout.row {
                of_charts.entry(chart).or_default().push((row, callout));
            }
        }
        for callout in chosen() {
            match callout.row {
                None => {
                    let mark = marks.next();
                    rows.push(row(callout, &mark, unit, &mut whole));
                }
                Some((chart, _)) => {
                    if let Some(lines) = of_charts.remove(&chart) {
                        rows.extend(self.of_chart(chart, &lines, job, unit, &mut whole));
                    }
                }
            }
        }
        let left = self.callouts().enumerate();
        let left = left.filter(|(number, _)| !self.is_taken(*number));
        whole.extend(words::left(left.map(|(_, callout)| callout)));
        whole.extend(words::of_pages(&self.paged));
        let report = Report {
            from: self.from.clone(),
            whole,
            taken: 0,
            lines: Vec::new(),
            outline: Vec::new(),
        };
        let count = rows.len();
        Ok(Taken {
            edit: edit_of(at, rows, unit, Some(Arc::new(report.clone()))),
            rows: count,
            report,
            is_drawn: true,
        })
    }

    /// Rows of the lines of a table, and what is told of them.
    fn of_chart(
        &self,
        chart: usize,
        lines: &[(usize, &SeenCallout)],
        job: &Job,
        unit: Unit,
        whole: &mut Vec<String>,
    ) -> Vec<NewRow> {
        let Some(chart) = self.paged.charts.get(chart) else {
            return Vec::new();
        };
        if let Some(named) = chart.named_unit().filter(|named| *named != unit) {
            // Its lengths would be taken for those of the other unit.
            whole.push(words::other_unit(
                named,
                lines.iter().map(|(_, callout)| *callout),
            ));
            return Vec::new();
        }
        let numbers: Vec<usize> = lines.iter().map(|(row, _)| *row).collect();
        let taken = match chart.take(job, &numbers, unit) {
            Ok(taken) => taken,
            Err(error) => {
                whole.push(words::table_refused(&error.to_string()));
                return Vec::new();
            }
        };
        whole.extend(lines.iter().map(|(_, callout)| words::of_table(callout)));
        whole.extend(words::to_notes(&chart.to_notes));
        let doubtful = taken.report.lines.iter();
        let doubtful = doubtful.filter(|line| line.outcome != LineOutcome::Taken);
        whole.extend(doubtful.filter_map(|line| {
            // The first line is the heads'.
            let at = (line.number as usize).checked_sub(2)?;
            let (_, callout) = lines.get(at)?;
            Some(words::line_of_table(callout, &line.says))
        }));
        rows_of(taken.edit)
    }
}

/// A callout as a row, and what is told of it.
fn row(callout: &SeenCallout, mark: &str, unit: Unit, whole: &mut Vec<String>) -> NewRow {
    let mut cells = Cells::from([
        (Column::Mark, mark.to_owned()),
        (Column::Note, callout.text.clone()),
    ]);
    let parted = split(&callout.text, unit);
    // A size and its limits alone: there is nothing to be taken apart.
    let is_size = parted.is_none() && read_quantity::size(&callout.text, unit).is_ok();
    if is_size {
        cells.insert(Column::Size, callout.text.clone());
    }
    let is_parted = parted.is_some() || is_size;
    whole.push(words::row(mark, callout));
    if let Some(parted) = parted {
        if !parted.words.is_empty() {
            whole.push(words::english(mark, parted.words.iter()));
        }
        cells.extend(parted.parts);
        if parted.is_deep {
            cells.insert(Column::End, CellWord::Blind.english().to_owned());
            whole.push(of_row(mark, &blind_by_depth(&callout.text)));
        }
    }
    whole.extend(words::doubts(mark, callout, is_parted));
    NewRow {
        cells,
        places: Vec::new(),
        typed_place: None,
    }
}
