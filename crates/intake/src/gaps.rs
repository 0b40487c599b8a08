//! Cells that blanks part: lists as programs print them, and text out of a printed page.

use std::borrow::Cow;

use crate::delimited::{Cells, MOST_CELLS};
use crate::fold::Key;
use crate::head::Head;
use crate::layout::Layout;
use crate::lines::Lines;
use crate::trade_words::is_total_word;

/// The table of a text whose cells blanks part, where its head is known; `None` where it is none.
///
/// Where each line has as many cells, two blanks part them; else the places where all lines of the table are
/// blank do, so that cells may be empty.
pub(crate) fn split_by_blanks(text: &str) -> Option<Cells> {
    // A carriage return alone ends a line too, as where commas part the cells.
    let mut after_returns = text.split('\r').skip(1);
    let text = &*if after_returns.any(|after| !after.starts_with('\n')) {
        Cow::Owned(text.replace("\r\n", "\n").replace('\r', "\n"))
    } else {
        Cow::Borrowed(text)
    };
    let known = |line: &str| {
        let known = cells_of(line).filter(|cell| Head::of(cell).is_known());
        known.count() >= 2
    };
    // Commas or quotes in the head part its cells.
    let head = text.lines().take(HEAD_AMONG).find(|line| known(line))?;
    if head.contains([',', '"']) {
        return None;
    }
    let by_gaps = split_by_gaps(text).filter(|cells| has_known_head(&cells.lines));
    by_gaps.or_else(|| split_by_places(text))
}

/// Whether some line names two columns that are known.
pub(crate) fn has_known_head(lines: &Lines) -> bool {
    let heads = Layout::of(lines, false).heads;
    heads.iter().filter(|head: &&Head| head.is_known()).count() >= 2
}

/// Splits text whose cells are parted by two blanks or more; `None` where lines with several cells differ in
/// how many, since nothing tells which of them is missing.
fn split_by_gaps(text: &str) -> Option<Cells> {
    let mut lines = Lines::default();
    let mut usual = None;
    for (number, line) in (1..).zip(text.lines()) {
        let count = cells_of(line).count();
        if count > 1 && *usual.get_or_insert(count) != count {
            return None;
        }
        if count > 0 {
            lines.push(number, 0, cells_of(line));
        }
    }
    let separator = ' ';
    (usual? <= MOST_CELLS).then_some(Cells { separator, lines })
}

fn cells_of(line: &str) -> impl Iterator<Item = &str> + Clone {
    let cells = line.split("  ").map(str::trim);
    cells.filter(|cell| !cell.is_empty())
}

/// Lines from the top among which a head is looked for.
const HEAD_AMONG: usize = 60;

/// Most letters of a line that a printed list has.
const MOST_LETTERS: usize = 400;

/// Splits the lines from a known head to the next blank one where all of them are blank at once; what stands
/// above and below is a cell a line.
fn split_by_places(text: &str) -> Option<Cells> {
    let all: Vec<&str> = text.lines().collect();
    let near = all.iter().take(HEAD_AMONG);
    let head = near.clone().position(|line| {
        let known = cells_of(line).filter(|cell| Head::of(cell).is_known());
        !line.contains('\t') && known.count() >= 3
    })?;
    let blank = |line: &&str| line.trim().is_empty();
    // A blank line or a rule may stand right below the head.
    let first = (head + 1..all.len()).find(|at| all.get(*at).is_some_and(|line| !blank(line)))?;
    let past = (first..all.len()).find(|at| all.get(*at).is_some_and(blank));
    let past = past.unwrap_or(all.len());
    let table = all.get(head..past)?;
    if table.len() < 3 || table.iter().any(|line| line.chars().count() > MOST_LETTERS) {
        return None;
    }
    let columns = columns(table);
    if columns.len() < 3 {
        return None;
    }
    let mut lines = Lines::default();
    for (at, line) in all.iter().enumerate() {
        if blank(line) {
            continue;
        }
        let number = at + 1;
        if (head..past).contains(&at) {
            let letters: Vec<char> = line.chars().collect();
            // A letter between two columns belongs to the one before it.
            let ends = columns.iter().skip(1).copied().chain([letters.len()]);
            let cut = |(begins, ends): (&usize, usize)| -> String {
                let letters = letters.get(*begins..ends.min(letters.len()));
                let letters = letters.unwrap_or_default().iter();
                letters.collect::<String>().trim().to_owned()
            };
            let cells: Vec<String> = columns.iter().zip(ends).map(cut).collect();
            lines.push(number, 0, cells.iter().map(String::as_str));
        } else {
            lines.push(number, 0, std::iter::once(line.trim()));
        }
    }
    let separator = ' ';
    Some(Cells { separator, lines })
}

/// Where the columns begin: two blanks part them that stand in all of the lines. Rules and sums have none.
fn columns(table: &[&str]) -> Vec<usize> {
    let is_rule = |line: &&&str| {
        let signs = |letter: char| letter.is_whitespace() || "-=_+|".contains(letter);
        line.chars().all(signs)
    };
    let is_sum = |line: &&&str| {
        let first = line.split_whitespace().next();
        first.is_some_and(|first| is_total_word(&Key::of_text(first)))
    };
    let lines = table.iter().filter(|line| !is_rule(line) && !is_sum(line));
    let width = table.iter().map(|line| line.chars().count()).max();
    let mut filled = vec![false; width.unwrap_or(0)];
    for line in lines {
        for (at, letter) in line.chars().enumerate() {
            if let Some(filled) = filled.get_mut(at)
                && !letter.is_whitespace()
            {
                *filled = true;
            }
        }
    }
    let (mut columns, mut last) = (vec![0], None);
    for at in (0..filled.len()).filter(|at| filled.get(*at) == Some(&true)) {
        if last.is_some_and(|last| at - last > 2) {
            columns.push(at);
        }
        last = Some(at);
    }
    columns
}

#[cfg(test)]
mod tests {
    use super::{split_by_blanks, split_by_gaps};
    use crate::delimited::Cells;

    fn cells(cells: &Cells) -> Vec<Vec<&str>> {
        let lines = cells.lines.from(0);
        lines.map(|line| line.cells().collect()).collect()
    }

    #[test]
    fn gaps_part_cells_where_every_line_has_as_many() {
        let read = split_by_gaps("List 2\nA  0.8 mm   14\n\n  B  0.9 mm  9 ").expect("a table");
        assert_eq!(
            cells(&read),
            [
                vec!["List 2"],
                vec!["A", "0.8 mm", "14"],
                vec!["B", "0.9 mm", "9"]
            ]
        );
        assert!(split_by_gaps("A  0.8  14\nB  0.9").is_none());
        assert!(split_by_gaps("A 0.8").is_none());
    }

    #[test]
    fn places_part_cells_where_some_are_empty() {
        let list = "Part 4-118  rev B\n\n\
            Hole   Qty   Dia    Depth   Note\n\
            ----------------------------------\n\
            A        4   0.80   12.5    to the plenum\n\
            B       12   1,00\n\
            C        1   0.50    3      deburr, then ream\n\
            TOTAL   17\n\n\
            Deburr all edges.\n";
        let read = split_by_blanks(list).expect("a table");
        assert_eq!(
            cells(&read),
            [
                vec!["Part 4-118  rev B"],
                vec!["Hole", "Qty", "Dia", "Depth", "Note"],
                vec!["-------", "------", "-------", "--------", "------"],
                vec!["A", "4", "0.80", "12.5", "to the plenum"],
                vec!["B", "12", "1,00", "", ""],
                vec!["C", "1", "0.50", "3", "deburr, then ream"],
                vec!["TOTAL", "17", "", "", ""],
                vec!["Deburr all edges."],
            ]
        );
        assert!(split_by_blanks("A  0.8  14\nB  0.9\n").is_none());
    }
}
