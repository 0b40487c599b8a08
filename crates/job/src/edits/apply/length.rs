//! No text is longer than a job can hold.

use super::refused::EditRefused;
use crate::ground::limits::LONGEST_TEXT;

pub(super) fn check_length(text: &str) -> Result<(), EditRefused> {
    if text.chars().count() > LONGEST_TEXT {
        return Err(EditRefused::TextTooLong { most: LONGEST_TEXT });
    }
    Ok(())
}
