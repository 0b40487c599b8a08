//! Words of the box label.

/// The box label.
#[derive(Clone, Copy, Debug)]
pub struct Label {
    /// The label's name.
    pub title: &'static str,
    /// What to do with the sheet.
    pub cut: &'static str,
    /// Caption of the sender.
    pub from: &'static str,
    /// Caption of the receiver.
    pub to: &'static str,
    /// Caption of the parts in the box.
    pub parts: &'static str,
    /// Caption of the number of the box.
    pub number: &'static str,
    /// Between the number of the box and how many there are.
    pub of: &'static str,
}
