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

/// So many of a thing, the number as it was typed; `None` where it is no plain one.
pub fn typed_count(number: &str, one: &str, several: &str) -> Option<String> {
    let read: u32 = number.parse().ok()?;
    Some(format!(
        "{number}\u{a0}{}",
        if read == 1 { one } else { several }
    ))
}
