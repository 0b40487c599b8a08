//! Numbers of issued papers as people type them.

use crate::ground::same_name::same_name;

/// Whether what somebody typed means the paper of this number: in capitals or not, with blanks around
/// it or without. Nothing typed means none.
#[must_use]
pub fn is_number(number: &str, typed: &str) -> bool {
    !typed.trim().is_empty() && same_name(number, typed)
}
