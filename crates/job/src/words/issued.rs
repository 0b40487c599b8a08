//! What is said of issued papers: entries that don't fit their seal, withdrawals, papers that stand
//! again.

/// What is kept on a withdrawal that was undone after others may have read it.
pub const UNDONE: &str = "the withdrawal was undone after it was saved; nobody said why";

/// A withdrawal slip without a paper of this job.
#[must_use]
pub fn withdraws_nothing(named: &str) -> String {
    if named.is_empty() {
        return "No paper is named here, so that nothing is withdrawn: type the number as it is on \
                the paper."
            .to_owned();
    }
    format!(
        "No paper of this job has the number \u{201c}{named}\u{201d}: type it as it is on the \
         paper. Only the number of an interrupted issue is settled this way."
    )
}

/// A paper that was withdrawn and stands again.
#[must_use]
pub fn stands_again(number: &str, why: &str) -> String {
    format!(
        "{number} was withdrawn here and is valid again: {}.",
        why.trim_end_matches('.')
    )
}

/// An entry that was changed after its paper was issued.
#[must_use]
pub fn entry_changed(number: &str) -> String {
    format!(
        "The entry of {number} was changed after it was issued: it doesn't match its seal, and neither \
         reprint nor order nor reorder relies on it. Take the job's earlier file from a backup, or \
         withdraw the paper and issue it again."
    )
}

/// An entry with a seal that this version doesn't know.
#[must_use]
pub fn seal_unknown(number: &str, version: u32) -> String {
    format!(
        "The entry of {number} has a seal of version {version}, which this version can't check: neither \
         reprint nor order nor reorder relies on it. Open the job with a newer version of the program."
    )
}

/// Entries without a seal.
#[must_use]
pub fn unsealed(numbers: &[&str]) -> String {
    const SHOWN: usize = 6;
    let more = numbers.len().saturating_sub(SHOWN);
    let named = numbers[..numbers.len() - more].join(", ");
    let more = match more {
        0 => String::new(),
        more => format!(" and {more} more"),
    };
    format!(
        "Issued before papers were sealed: {named}{more}. Whether somebody changed what this job says about \
         them can't be told."
    )
}

/// Why an entry's paper isn't shown again: its entry doesn't fit its seal.
#[must_use]
pub fn not_reprinted(number: &str) -> String {
    format!(
        "The entry of {number} doesn't match its seal, so nothing shows that the stored file is the paper \
         that was issued"
    )
}

/// What to do about it.
pub const NOT_REPRINTED_HINT: &str =
    "take the job's file from a backup, or withdraw the paper and issue it again";

/// Papers of the job before whose prices are left out.
#[must_use]
pub fn prices_not_trusted(numbers: &[&str]) -> String {
    format!(
        "The price of {} is left out: the entry in the previous job doesn't match its seal.",
        numbers.join(", ")
    )
}
