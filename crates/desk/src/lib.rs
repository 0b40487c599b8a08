//! The window of Quillbore: it shows the office and asks it, and opens no file but its settings.

pub mod actions;
pub mod all_words;
pub mod app;
pub mod desk;
pub mod dialogs;
mod fault;
pub mod grid;
pub mod incoming;
pub mod learned;
pub mod letter;
pub mod look;
pub mod preview;
pub mod run;
pub mod settings;
pub mod sheet;
pub mod shop;
pub mod spot;
pub mod today;
pub mod view;
pub mod window;
pub mod words;
pub mod working;
