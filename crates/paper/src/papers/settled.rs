//! What was settled with the customer about checks, on the papers that offer and confirm.

use quillbore_job::answer::How;

use crate::matter::{Matter, answered};

/// What was agreed or accepted in all jobs, each with its part where there are several.
pub(super) fn settled(matters: &[Matter<'_>], how: How) -> Vec<String> {
    let of = |matter: &Matter<'_>| -> Vec<String> {
        let said = answered::offered(matter, how).into_iter();
        let part = matter.part_offered();
        let named = said.map(|said| match matters.len() {
            1 => said,
            _ => format!("{part}: {said}"),
        });
        named.collect()
    };
    matters.iter().flat_map(of).collect()
}

/// Holes that are offered as through ones because nobody gave their end.
pub(super) fn ends_assumed(matter: &Matter<'_>) -> Option<String> {
    let rows = matter.job.rows.iter();
    let open = rows.filter(|row| row.is_through_by_silence());
    let marks: Vec<String> = open.map(|row| matter.mark(row.id)).collect();
    (!marks.is_empty()).then(|| (matter.words().quotation.ends_assumed)(&marks))
}
