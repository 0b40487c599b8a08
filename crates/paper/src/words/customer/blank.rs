//! Words of blank forms.

use quillbore_job::Form;

/// Blank forms.
#[derive(Clone, Copy, Debug)]
pub struct Blank {
    /// What the inspection record's blank pages are called.
    pub inspection: &'static str,
    /// What a blank page goes with once it is written on, by the travelers that stand.
    pub goes_with: fn(&[&str]) -> String,
    /// Lines that have no room on the pages that were asked for.
    pub more_lines: fn(Form, u32) -> String,
}
