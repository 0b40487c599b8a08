//! What of a job the calculation is asked.

pub mod agreed;
pub mod amounts_in;
pub mod choices;
pub mod currency;
pub(crate) mod of_tool;
pub mod only_machine;
pub mod question;
pub mod quick;
pub mod to_input;
pub(crate) mod unread;
