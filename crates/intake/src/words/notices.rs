//! What is said of texts of a PDF that look like parts of tables or callouts.

use super::{first_of, in_quotes};
use crate::pdf::Notice;

/// What is to be known of a page, counted from 1.
pub(crate) fn notice(page: usize, notice: &Notice) -> String {
    match notice {
        Notice::Alone(text) => format!(
            "Page {page}: {} stands alone between the lines of a table, and was left: see whether it says something of the holes.",
            in_quotes(text)
        ),
        Notice::NoSizes(heads) => format!(
            "Page {page}: what stands below {} looks like a table, but no head says where the sizes stand: type its holes.",
            in_quotes(heads)
        ),
        Notice::LikeTable(heads, lines) => {
            let lines: Vec<String> = lines.iter().map(|line| in_quotes(line)).collect();
            format!(
                "Page {page}: not read as lines of the table {}, though they stand in its columns: {}. Type them if they are holes.",
                in_quotes(heads),
                first_of(&lines)
            )
        }
        Notice::Continued(heads) => format!(
            "Page {page}: lines without heads were read as those of the table {} on the page before.",
            in_quotes(heads)
        ),
        Notice::NotJoined(callout, text) => format!(
            "Page {page}: {} stands beside {}, and was not read as a part of it: compare both with the page.",
            in_quotes(text),
            in_quotes(callout)
        ),
        Notice::Loose(texts) => {
            let texts: Vec<String> = texts.iter().map(|text| in_quotes(text)).collect();
            let stand = if texts.len() == 1 { "stands" } else { "stand" };
            format!(
                "Page {page}: {} {stand} at no size that was read: see which holes are meant.",
                first_of(&texts)
            )
        }
    }
}
