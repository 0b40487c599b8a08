//! What is said of something on a disk that is no plain file.

/// That it is a link.
pub(crate) const IS_LINK: &str = "it is a link to something else";

/// That it is a pipe or a device.
pub(crate) const IS_NO_FILE: &str = "it is not a file but a pipe or a device";
