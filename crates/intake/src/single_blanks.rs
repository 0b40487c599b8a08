//! A list whose cells a single blank parts: only where each of its lines has as many words as its head.

use crate::delimited::Cells;
use crate::head::{Head, Says};
use crate::lines::Lines;

/// The table of such a text; `None` where a word of its head is not known, or a line has other words than
/// one a column.
pub(crate) fn split_by_single_blanks(text: &str) -> Option<Cells> {
    let mut filled = (1..)
        .zip(text.lines())
        .filter(|(_, line)| !line.trim().is_empty());
    let (number, head) = filled.next()?;
    let columns = head.split_whitespace().count();
    let is_plain = |word: &str| matches!(Head::of(word).says, Says::Plainly(_));
    if columns < 3 || !head.split_whitespace().all(is_plain) {
        return None;
    }
    let mut lines = Lines::default();
    lines.push(number, 0, head.split_whitespace());
    for (number, line) in filled {
        if line.split_whitespace().count() != columns {
            return None;
        }
        lines.push(number, 0, line.split_whitespace());
    }
    (lines.len() > 1).then_some(Cells {
        separator: ' ',
        lines,
    })
}

#[cfg(test)]
mod tests {
    use super::split_by_single_blanks;

    #[test]
    fn every_line_has_as_many_words_as_the_head() {
        let cells = split_by_single_blanks("Hole Qty Dia Depth\nA 4 0.80 12\n\nB 2 0.50 8\n");
        assert_eq!(cells.map(|cells| cells.lines.cells()), Some(12));
        for text in [
            "Hole Qty Dia Depth\nA 4 0.80 12\nB 2 0.50\n",
            "Hole Qty Dia Remarks of ours\nA 4 0.80 12 x y\n",
            "Dia Depth\n0.8 12\n",
            "Hole Qty Dia Depth\n",
        ] {
            assert!(split_by_single_blanks(text).is_none(), "{text}");
        }
    }
}
