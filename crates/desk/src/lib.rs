//! Quillbore: the window, and the commands without a window.

pub mod actions;
pub mod all_words;
pub mod app;
pub mod commands;
pub mod desk;
pub mod dialogs;
pub mod drafts;
pub mod files;
pub mod grid;
pub mod issue;
pub mod look;
pub mod preview;
pub mod print;
pub mod run;
pub mod settings;
pub mod sheet;
pub mod shelf;
pub mod shelf_list;
pub mod spot;
pub mod view;
pub mod window;
pub mod worker;
pub mod working;
