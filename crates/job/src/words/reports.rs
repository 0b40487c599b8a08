//! What is said of a hole table that came from elsewhere.

use crate::pinned::report::{FileStamp, LineOutcome, Report, ReportLine, Source};

/// Longest name of a file that the line of a report repeats, in characters.
const LONGEST_NAME: usize = 60;

/// A report in one line: where the table came from, how much of it stands as it stood.
///
/// `pasted: 40 lines, 38 as they stand, 2 to look at`
#[must_use]
pub fn summary(report: &Report) -> String {
    let all = report.all();
    if all == 0 {
        // A drawing or a solid has no lines.
        return format!("{}: taken, guessed and left out", source(&report.from));
    }
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

/// Where a table came from: `pasted`, `ring.xlsx, sheet Holes, 48 kB`.
fn source(from: &Source) -> String {
    let Some(file) = from.file() else {
        return "pasted".to_owned();
    };
    let mut said = vec![in_short(&file.name)];
    said.extend(
        file.sheet
            .as_ref()
            .map(|sheet| format!("sheet {}", in_short(sheet))),
    );
    said.extend(file.stamp.map(|stamp| size(stamp.bytes)));
    said.join(", ")
}

/// What tells a file's content from another's: `1.2 MB, changed 2026-03-12, SHA-256 ba7816bf 8f01cfea ...`.
#[must_use]
pub fn stamp(stamp: &FileStamp) -> String {
    let day = stamp.day.map(|day| format!("changed {day}"));
    let hash = format!("SHA-256 {}", stamp.hash);
    let all = [Some(size(stamp.bytes)), day, Some(hash)];
    all.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// The size of a file: `812 bytes`, `48 kB`, `1.2 MB`.
#[must_use]
pub fn size(bytes: u64) -> String {
    let thousands = bytes.div_ceil(1_000);
    match bytes {
        1 => "1 byte".to_owned(),
        2..1_000 | 0 => format!("{bytes} bytes"),
        1_000..1_000_000 => format!("{thousands} kB"),
        _ => format!("{}.{} MB", thousands / 1_000, thousands % 1_000 / 100),
    }
}

fn in_short(name: &str) -> String {
    if name.chars().count() <= LONGEST_NAME {
        return name.to_owned();
    }
    let start: String = name.chars().take(LONGEST_NAME).collect();
    format!("{start}\u{2026}")
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
