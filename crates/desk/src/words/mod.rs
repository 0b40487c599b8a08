//! Every English sentence and label of the window, by the part of it that says them; what jobs, papers
//! and the office say stands with them.

pub mod again;
pub mod commands;
pub mod desk;
pub mod first_start;
pub mod grid;
pub mod hand_over;
pub mod head;
pub mod help;
pub mod holes;
pub mod incoming;
pub mod learned;
pub mod letter;
pub mod map;
pub mod messages;
pub mod own;
pub mod papers;
pub mod paste;
pub mod plan;
pub mod price;
pub mod questions;
pub mod quick;
pub mod runs;
pub mod settings;
pub mod sheet;
pub mod shelf;
pub mod shop;
pub mod slips;
pub mod today;
pub mod window;
pub mod working;
