//! What a front office does with jobs, without a screen: the shelf and its forms, numbers, holds,
//! drafts, issue, print, the clerk who does it beside the window, and the commands.

pub mod blank;
pub mod clerk;
pub mod clock;
pub mod commands;
pub mod copy_shelf;
pub mod differs;
pub mod digest;
pub mod disk;
pub mod drafts;
pub mod drawer;
pub mod failure;
pub mod files;
pub mod hole_file;
pub mod issue;
pub mod learned;
pub mod listing;
pub mod names;
pub mod numbers;
pub mod office;
pub mod open;
pub mod places;
pub mod pool;
pub mod print;
pub mod print_out;
pub mod save;
pub mod shelf;
pub mod shelf_at;
pub mod shop_csv;
pub mod start;
pub mod threading;
pub mod today;
pub mod week;
pub mod words;
pub mod worker;

pub use failure::Failure;
pub use office::Office;
