//! Quillbore: the window, and the commands without a window.

pub mod actions;
pub mod dialogs;
pub mod grid;
pub mod look;
pub mod preview;
pub mod settings;
pub mod worker;
