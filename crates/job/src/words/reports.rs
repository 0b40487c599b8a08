//! What is said of a hole table that came from elsewhere.

use crate::pinned::report::{LineOutcome, Report, ReportLine, Source};

/// Longest name of a file that the line of a report repeats, in characters.
const LONGEST_NAME: usize = 60;

/// A report in one line: where the table came from, how much of it stands as it stood.
///
/// `pasted: 40 lines, 38 as they stand, 2 to look at`
#[must_use]
pub fn summary(report: &Report) -> String {
    let all = report.all();
    let count = |outcome| report.count(outcome);
    let taken = count(LineOutcome::Taken);
    let mut said = vec![match all {
        1 => "1 line".to_owned(),
        all => format!("{all} lines"),
    }];
    match (taken, all) {
        (1, 1) => said.push("as it stands".to_owned()),
        (taken, all) if taken == all => said.push("all as they stand".to_owned()),
        (1, _) => said.push("1 as it stands".to_owned()),
        (taken, _) => said.push(format!("{taken} as they stand")),
    }
    let others = [
        (count(LineOutcome::InPart), "in part"),
        (count(LineOutcome::LeftOut), "left out"),
        (
            count(LineOutcome::Guessed) + count(LineOutcome::Unread),
            "to look at",
        ),
    ];
    let others = others.iter().filter(|(count, _)| *count > 0);
    said.extend(others.map(|(count, what)| format!("{count} {what}")));
    format!("{}: {}", source(&report.from), said.join(", "))
}

/// Where a table came from.
fn source(from: &Source) -> String {
    match from {
        Source::Pasted => "pasted".to_owned(),
        Source::File(name) if name.chars().count() > LONGEST_NAME => {
            let start: String = name.chars().take(LONGEST_NAME).collect();
            format!("{start}\u{2026}")
        }
        Source::File(name) => name.clone(),
    }
}

/// What became of one line: `line 3: unread: size “about 1”: ...`.
#[must_use]
pub fn line(line: &ReportLine) -> String {
    let outcome = match line.outcome {
        LineOutcome::Taken | LineOutcome::InPart => "taken",
        LineOutcome::LeftOut => "left out",
        LineOutcome::Guessed => "look",
        LineOutcome::Unread => "unread",
    };
    let says = line.says.strip_prefix(outcome).unwrap_or(&line.says);
    match says.trim_start_matches([',', ':', ' ']) {
        "" => format!("line {}: {outcome}", line.number),
        says => format!("line {}: {outcome}: {says}", line.number),
    }
}
