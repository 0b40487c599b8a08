//! Words in head and foot of every page.

use quillbore_job::words::life;

use crate::words::customer::Frame;

const PREVIEW: &str = "PREVIEW";

/// What customers read of them in English.
pub(super) const WORDS: Frame = Frame {
    preview: PREVIEW,
    printed: |issuer, day| format!("{issuer}, printed {day}"),
    page: |number, of| format!("page {number} of {of}"),
    not_issued: life::not_issued,
    preview_long: "not valid yet: the reasons stand in the paper",
    preview_of: |why| format!("{PREVIEW}  {why}"),
};
