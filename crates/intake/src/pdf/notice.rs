//! What is to be known of a page's tables and callouts beside what is offered of them.

/// What looks like a part of a table or a callout.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Notice {
    /// A text stands alone between the lines of a table, and belongs to none.
    Alone(String),
    /// Texts below heads: none of these says where the sizes stand.
    NoSizes(String),
    /// Lines stand where those of a table do, and were not taken for them: its heads, and the lines.
    LikeTable(String, Vec<String>),
    /// Lines of this page were read with the heads of the page before.
    Continued(String),
    /// A text stands behind a callout or below it, and is no part of what was read: the callout, and the text.
    NotJoined(String, String),
    /// Texts say how holes end or how deep they are, and stand at no size.
    Loose(Vec<String>),
}
