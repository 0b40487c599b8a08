//! Words of what earlier runs taught.

use quillbore_job::Line;

/// The block's name.
pub const NAME: &str = "Last time";
/// Lead of the number of the job before.
pub const JOB_BEFORE: &str = "Reorder of job ";

/// Something that a run of this very job taught.
pub fn of_run(line: Line, mark: &str, day: &str, text: &str) -> String {
    let of: Vec<&str> = [mark, day]
        .into_iter()
        .filter(|text| !text.is_empty())
        .collect();
    let of = if of.is_empty() {
        String::new()
    } else {
        format!(" ({})", of.join(", "))
    };
    match line {
        Line::Trouble => format!("went wrong{of}: {text}"),
        Line::Settings => format!("settings that worked{of}: {text}"),
        _ => format!("from this job's own run{of}: {text}"),
    }
}
