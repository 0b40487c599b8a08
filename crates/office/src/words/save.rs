//! What is said when a job can't be saved.

use crate::save::SaveError;

/// One sentence: why a job could not be saved.
pub(crate) fn said(why: &SaveError) -> String {
    match why {
        SaveError::WouldNotOpen { .. } => "This job would not open again as it is".to_owned(),
        SaveError::Name(why) => super::names::refused(why),
        SaveError::NoNumberLeft { year } => {
            format!("Every number of the year {year:02} is taken on this shelf")
        }
        SaveError::Commit(why) => super::shelf::commit(why),
    }
}

/// What to do about it.
pub(crate) const fn hint(why: &SaveError) -> &'static str {
    match why {
        SaveError::WouldNotOpen { .. } => "undo the last step and save again; nothing was written",
        SaveError::Name(why) => why.hint(),
        SaveError::NoNumberLeft { .. } => "save it under a name with save as",
        SaveError::Commit(why) => super::shelf::commit_hint(why),
    }
}
