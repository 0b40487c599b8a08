//! Why a PDF could not be read, or nothing of it be taken; the sentences are in the words.

/// Why a PDF could not be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PdfError {
    /// The file is no PDF.
    NotPdf,
    /// It is locked with a password.
    Locked,
    /// It is locked in a way that doesn't let anybody see beforehand what it would swell to.
    LockedDark,
    /// It is damaged.
    Damaged,
    /// It has no page.
    NoPages,
    /// Unpacked it is larger than a drawing of its size can be.
    Swells,
    /// It has more parts than a drawing can have.
    TooManyParts,
    /// It has no page of this number, from 0.
    NoSuchPage(usize),
    /// More is drawn on the page than can be shown.
    TooMuchDrawn,
    /// Somebody didn't want it any more.
    Cancelled,
}

/// Why nothing of a PDF could be taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PaperError {
    /// It can't be read.
    Pdf(PdfError),
    /// No text of it speaks of holes; what is to be said of its pages.
    NoCallouts(Vec<String>),
    /// None of its callouts was chosen.
    NoneTaken,
    /// It has no callout of this number; how many it has.
    NoSuchCallout(usize, usize),
    /// Its texts don't say one unit for all lengths; what they say of units.
    WhichUnit(Vec<String>),
}

impl From<PdfError> for PaperError {
    fn from(error: PdfError) -> Self {
        Self::Pdf(error)
    }
}
