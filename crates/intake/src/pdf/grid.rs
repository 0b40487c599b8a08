//! Lines of text that stand side by side, and the columns that heads make of a page.

use super::line::Line;

/// In parts of the letters' size: how far cells of one line stand off its base line, how far a table goes on beside
/// its heads, how far a cell stands off its column, how far words of one cell are apart; common practice, no source.
const OFF: f64 = 0.35;
const BESIDE: f64 = 8.0;
const STRAY: f64 = 0.6;
const WORDS: f64 = 2.0;

/// Lines of text that stand in one line, from the top and the left.
pub(super) fn rows(lines: &[Line]) -> Vec<Vec<usize>> {
    let mut order: Vec<usize> = (0..lines.len()).collect();
    order.sort_by(|a, b| {
        let [one, other] = [a, b].map(|at| &lines[*at]);
        one.way()
            .cmp(&other.way())
            .then(one.base.total_cmp(&other.base))
    });
    let mut rows: Vec<Vec<usize>> = Vec::new();
    for at in order {
        let line = &lines[at];
        let same = rows
            .last()
            .and_then(|row| row.first())
            .is_some_and(|first| {
                let first = &lines[*first];
                first.way() == line.way()
                    && line.base - first.base <= OFF * first.size.min(line.size)
            });
        match rows.last_mut() {
            Some(row) if same => row.push(at),
            _ => rows.push(vec![at]),
        }
    }
    for row in &mut rows {
        row.sort_by(|a, b| lines[*a].from.total_cmp(&lines[*b].from).then(a.cmp(b)));
    }
    rows
}

/// Where the columns of a table stand.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Columns {
    along: [f64; 2],
    /// Size of the heads' letters.
    pub(super) size: f64,
    /// Where the table begins and ends, with what stands beside its heads.
    left: f64,
    right: f64,
    /// Nothing stands behind it that it ends at.
    is_open: bool,
    /// Where a column ends and the next one begins.
    ends: Vec<f64>,
    /// From where to where the texts of each go.
    spans: Vec<[f64; 2]>,
}

impl Columns {
    /// Below heads; nothing that stands in `others`, as heads of tables beside, belongs to it.
    pub(super) fn below(
        lines: &[Line],
        heads: &[usize],
        others: [Option<usize>; 2],
    ) -> Option<Self> {
        let first = &lines[*heads.first()?];
        let last = &lines[*heads.last()?];
        let parts = heads.iter().zip(heads.iter().skip(1));
        let [before, behind] = others.map(|at| at.map(|at| &lines[at]));
        let left = first.from - BESIDE * first.size;
        let right = last.to + BESIDE * last.size;
        Some(Self {
            along: first.along,
            size: first.size,
            left: before.map_or(left, |line| left.max((line.to + first.from) / 2.0)),
            is_open: behind.is_none(),
            right: behind.map_or(right, |line| right.min((last.to + line.from) / 2.0)),
            ends: parts
                .map(|(one, next)| (lines[*one].to + lines[*next].from) / 2.0)
                .collect(),
            spans: heads
                .iter()
                .map(|at| [lines[*at].from, lines[*at].to])
                .collect(),
        })
    }

    /// How many there are.
    pub(super) const fn count(&self) -> usize {
        self.spans.len()
    }

    /// Whether lines of text go the same way as its heads.
    pub(super) fn is_turned_alike(&self, lines: &[Line], row: &[usize]) -> bool {
        row.first().is_some_and(|at| {
            let along = lines[*at].along;
            (along[0] - self.along[0]).abs() < 1e-3 && (along[1] - self.along[1]).abs() < 1e-3
        })
    }

    /// Whether a text stands between its first and its last column.
    fn holds(&self, line: &Line) -> bool {
        (self.left..=self.right).contains(&line.middle())
    }

    /// The texts of a line that stand in it; words of its last cell may go farther than its head does.
    pub(super) fn within(&self, lines: &[Line], row: &[usize], used: &[bool]) -> Vec<usize> {
        let mut within: Vec<usize> = Vec::new();
        for at in row.iter().copied().filter(|at| !used[*at]) {
            let goes_on = within.last().is_some_and(|last| {
                self.is_open && lines[at].from - lines[*last].to <= WORDS * self.size
            });
            if goes_on || self.holds(&lines[at]) {
                within.push(at);
            }
        }
        within
    }

    /// The column that a text stands in.
    pub(super) fn column(&self, line: &Line) -> usize {
        self.ends.partition_point(|end| *end < line.middle())
    }

    /// Whether a text stands where others of its column do.
    pub(super) fn fits(&self, line: &Line) -> bool {
        self.spans.get(self.column(line)).is_some_and(|[from, to]| {
            let stray = STRAY * self.size;
            line.from <= to + stray && line.to >= from - stray
        })
    }

    /// Keeps in mind where a text of it stands.
    pub(super) fn widen(&mut self, line: &Line) {
        let column = self.column(line);
        if let Some([from, to]) = self.spans.get_mut(column) {
            *from = from.min(line.from);
            *to = to.max(line.to);
        }
    }
}
