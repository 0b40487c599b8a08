//! All tables of a page, what goes on of those of the page before, and lines that look like theirs.

use quillbore_job::Column;

use super::body::{body, said};
use super::callouts::speaks;
use super::chart::Chart;
use super::grid::{Columns, rows};
use super::heads::heads;
use super::line::Line;
use super::notice::Notice;
use crate::head::Head;
use crate::meaning::Meaning;

/// The tables of a page.
#[derive(Default)]
pub(super) struct Charts {
    pub(super) charts: Vec<Chart>,
    /// Which lines of the page stand in them.
    pub(super) used: Vec<bool>,
    /// Which stand in what may be a table, so that those below each other are no callout.
    pub(super) apart: Vec<bool>,
    pub(super) notices: Vec<Notice>,
    /// How many heads had no table below them.
    in_vain: usize,
}

/// The tables of a page, and what goes on of those of the page before it.
pub(super) fn charts(lines: &[Line], before: &[Chart]) -> Charts {
    let mut all = Charts {
        used: vec![false; lines.len()],
        apart: vec![false; lines.len()],
        ..Charts::default()
    };
    let rows = rows(lines);
    for (number, row) in rows.iter().enumerate() {
        let below = rows.get(number + 1..).unwrap_or_default();
        let found = heads(lines, row, &all.used);
        for (part, heads) in found.iter().enumerate() {
            if all.in_vain == MOST_LOOKED_AT {
                break;
            }
            let beside = |part: Option<usize>| found.get(part?);
            let others = [
                beside(part.checked_sub(1)).and_then(|heads| heads.last().copied()),
                beside(Some(part + 1)).and_then(|heads| heads.first().copied()),
            ];
            all.add(lines, heads, others, below);
        }
    }
    let before = before.get(before.len().saturating_sub(MOST_LOOKED_AT)..);
    let before = before.unwrap_or_default();
    for chart in before {
        all.go_on(lines, &rows, chart);
    }
    all.tell_like(lines, &rows, before);
    all
}

/// So many tables of a page are looked at for lines that go on with them, and so many heads for what may be tables.
const MOST_LOOKED_AT: usize = 50;

impl Charts {
    /// The table below heads, if it is one.
    fn add(
        &mut self,
        lines: &[Line],
        heads: &[usize],
        others: [Option<usize>; 2],
        below: &[Vec<usize>],
    ) {
        let Some((mut columns, from)) =
            Columns::below(lines, heads, others).zip(heads.first().map(|first| lines[*first].base))
        else {
            return;
        };
        let mut texts: Vec<String> = heads.iter().map(|at| lines[*at].text.clone()).collect();
        let body = body(lines, &mut columns, &mut texts, from, below, &self.used);
        if body.rows.is_empty() {
            return;
        }
        let mut taken = heads.to_vec();
        taken.extend(body.taken);
        let speaks_of_sizes = may_be_sized(&texts)
            || body
                .rows
                .iter()
                .any(|row| row.cells.iter().any(|cell| speaks(cell)));
        let heads_text = texts.join(" | ");
        match Chart::of(vec![texts], body.rows, columns, body.ends) {
            Some(chart) => {
                taken.iter().for_each(|at| self.used[*at] = true);
                self.notices
                    .extend(body.alone.into_iter().map(Notice::Alone));
                self.charts.push(chart);
            }
            None => {
                self.in_vain += 1;
                taken.iter().for_each(|at| self.apart[*at] = true);
                if speaks_of_sizes {
                    self.notices.push(Notice::NoSizes(heads_text));
                }
            }
        }
    }

    /// What goes on of a table of the page before.
    fn go_on(&mut self, lines: &[Line], rows: &[Vec<usize>], chart: &Chart) {
        let first = rows.iter().position(|row| {
            chart.is_like(lines, row, &self.used, None) && chart.has_such(lines, row, &self.used)
        });
        let Some((first, below)) = first.and_then(|first| Some((first, rows.get(first..)?))) else {
            return;
        };
        let above = first.checked_sub(1).and_then(|above| rows.get(above));
        if above.is_some_and(|above| chart.is_headed_by(lines, above, below)) {
            return;
        }
        let Some(from) = below
            .first()
            .and_then(|row| row.first())
            .map(|at| lines[*at].base)
        else {
            return;
        };
        let mut columns = chart.columns.clone();
        let mut texts = chart.heads.first().cloned().unwrap_or_default();
        let body = body(lines, &mut columns, &mut texts, from, below, &self.used);
        let Some(chart) = Chart::of(chart.heads.clone(), body.rows, columns, body.ends) else {
            return;
        };
        body.taken.iter().for_each(|at| self.used[*at] = true);
        self.notices.push(Notice::Continued(chart.heads_text()));
        self.notices
            .extend(body.alone.into_iter().map(Notice::Alone));
        self.charts.push(chart);
    }

    /// Tells lines that stand in the columns of tables, below these or on the page behind theirs, and are none of
    /// their rows.
    fn tell_like(&mut self, lines: &[Line], rows: &[Vec<usize>], before: &[Chart]) {
        let own = self.charts.iter().take(MOST_LOOKED_AT);
        let own = own.map(|chart| (Some(chart.ends), chart));
        let mut notices = Vec::new();
        let mut left: Vec<bool> = self.used.clone();
        for (from, chart) in own.chain(before.iter().map(|chart| (None, chart))) {
            let like = rows
                .iter()
                .filter(|row| chart.is_like(lines, row, &left, from))
                .map(|row| chart.columns.within(lines, row, &left));
            let like: Vec<Vec<usize>> = like.collect();
            if like.is_empty() {
                continue;
            }
            let texts = like.iter().map(|at| said(lines, at)).collect();
            notices.push(Notice::LikeTable(chart.heads_text(), texts));
            for at in like.into_iter().flatten() {
                left[at] = true;
                self.apart[at] = true;
            }
        }
        self.notices.extend(notices);
    }
}

fn may_be_sized(heads: &[String]) -> bool {
    let sizes = [
        Meaning::Ours(Column::Size),
        Meaning::Ours(Column::Depth),
        Meaning::Lower,
        Meaning::Upper,
    ];
    heads.iter().any(|head| {
        sizes
            .iter()
            .any(|size| Head::of(head).says.may_be(Some(*size)))
    })
}
