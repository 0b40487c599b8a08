//! Things that are counted, in whatever language they are named.

use quillbore_job::Form;

/// So many of a thing.
pub fn count(form: Form, number: u32, one: &str, several: &str) -> String {
    if number == 1 {
        format!("1\u{a0}{one}")
    } else {
        format!("{}\u{a0}{several}", form.count(f64::from(number)))
    }
}
