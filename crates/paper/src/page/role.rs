//! What a part of a page is, for whoever has it read aloud, and for whoever takes text out of it.

/// What a part of a page is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Role {
    /// A heading, which leads to its place from the list of contents too.
    Heading {
        /// 1 for the paper's title.
        level: u16,
        /// Its words.
        title: String,
    },
    /// A paragraph, or a field with its caption.
    Paragraph,
    /// Entries of a list.
    List,
    /// One of them.
    Entry,
    /// A table.
    Table,
    /// A row of a table.
    Row,
    /// The head of a column.
    Head,
    /// A cell, or a remark across so many columns.
    Cell {
        /// How many columns it spans.
        columns: u32,
    },
    /// A drawing, and what it shows.
    Figure(String),
    /// A sign that is drawn, since no face has it.
    Sign(char),
    /// What stands on every page, or shows nothing of its own: nobody reads it aloud.
    Edge,
}
