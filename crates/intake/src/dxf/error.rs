//! Why a drawing could not be read; the sentences are in the words.

/// Where in a drawing's file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Spot {
    /// A line of its text, from 1.
    Line(usize),
    /// A byte of its binary form, from 0.
    Byte(usize),
}

/// Why a drawing could not be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum DxfError {
    /// The file is no DXF.
    NotDxf,
    /// The file is a DWG, which is another format.
    Dwg,
    /// Nothing is drawn in it.
    Empty,
    /// The file ends before its end mark.
    Cut(Spot),
    /// Where a group code has to stand there is something else.
    NoCode {
        /// Where.
        spot: Spot,
        /// What stands there, its beginning.
        found: String,
    },
    /// Blocks are placed so often that more is drawn by them than this.
    TooMuchPlaced(usize),
    /// Somebody didn't want it any more.
    Cancelled,
}
