//! Why a solid could not be read; the sentences are in the words.

/// Why nothing of a STEP file could be taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum StepError {
    /// It doesn't begin as a STEP file does.
    NotStep,
    /// It has no DATA section.
    NoData,
    /// It ends in the middle of its data, in this line.
    Cut(usize),
    /// What stands in this line is not how a STEP file is written.
    Unreadable(usize),
    /// Two of its instances have the same number, the second in this line.
    Twice {
        /// The number.
        number: u64,
        /// The line.
        line: usize,
    },
    /// It shows no solid and no surface.
    NoSolid,
    /// Parts are placed, or faces share their edges, so many times that it can't be a part.
    TooMany,
    /// Somebody stopped it.
    Stopped,
}
