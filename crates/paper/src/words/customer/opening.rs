//! Words of the head of papers that go to or come from a customer.

/// How papers begin.
#[derive(Clone, Copy, Debug)]
pub struct Opening {
    /// Lead of the customer's number of the inquiry.
    pub reference: &'static str,
    /// A paper that this one replaces: its number, the day that it was withdrawn, by whom, why.
    pub withdrawn: fn(&str, &str, &str, &str) -> String,
}
