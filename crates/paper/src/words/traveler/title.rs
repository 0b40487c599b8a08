//! Words of the traveler's head.

/// The paper's name.
pub const TITLE: &str = "Traveler";
/// Caption of the job's number.
pub const JOB: &str = "job";
/// Caption of the day that the parts are due.
pub const DUE: &str = "due";
/// Caption of the call-off.
pub const CALL_OFF: &str = "call-off";
/// Caption of the customer's number of the inquiry.
pub const REFERENCE: &str = "customer's reference";
/// Name beside what the order says.
pub const ORDER: &str = "Order";
/// Name beside the office's notes.
pub const NOTES: &str = "Notes";
