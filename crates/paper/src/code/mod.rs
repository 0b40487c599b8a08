//! The code in the foot of every sheet: what it says, how it is read back, how it is drawn.

mod drawn;

use quillbore_job::Paper;

pub use drawn::DrawnCode;

/// What a sheet's code says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CodeSays {
    /// The job's number in capitals; compare it without regard to case.
    pub job: String,
    /// Which paper, where it names one.
    pub paper: Option<Paper>,
    /// The paper's revision; none on a draft.
    pub revision: Option<u32>,
    /// The sheet of the paper, from 1.
    pub sheet: Option<u32>,
}

impl CodeSays {
    /// The number of the issued paper; none where the code is a draft's or a job's.
    #[must_use]
    pub fn paper_number(&self) -> Option<String> {
        let (paper, revision) = (self.paper?, self.revision?);
        Some(format!("{}-{}{revision}", self.job, paper.letter()))
    }
}

/// The code's text on a sheet of a paper: the paper's number in capitals, a slash, the sheet.
///
/// `26-0107-T1/2` is the second sheet of traveler 1 of job 26-0107; `26-0107-T/2` is that sheet of
/// a draft. Digits, capitals, hyphen and slash are all in the alphanumeric mode of ISO/IEC 18004,
/// where two characters take 11 bits, so that the usual number fits the smallest symbol.
///
/// ```
/// use quillbore_paper::code;
/// assert_eq!(code::of("26-0107-t1", 2), "26-0107-T1/2");
/// let says = code::read("26-0107-T1/2").map(|says| (says.job, says.sheet));
/// assert_eq!(says, Some(("26-0107".to_owned(), Some(2))));
/// ```
#[must_use]
pub fn of(paper_number: &str, sheet: usize) -> String {
    format!("{}/{sheet}", paper_number.trim().to_uppercase())
}

/// What a code's text says, scanned or typed by hand in any case; a job's number alone is one too.
///
/// `None` where the text can't be one: nothing, blanks inside, no digit. A job whose own number
/// ends like a paper's (`RING-B1`) reads as that paper; look such a number up whole first.
#[must_use]
pub fn read(text: &str) -> Option<CodeSays> {
    let text = text.trim().to_uppercase();
    if text.contains(char::is_whitespace) || !text.contains(|ch: char| ch.is_ascii_digit()) {
        return None;
    }
    let (number, sheet) = match text.rsplit_once('/') {
        Some((number, sheet)) => (number, Some(whole(sheet).filter(|sheet| *sheet > 0)?)),
        None => (text.as_str(), None),
    };
    let (job, paper, revision) = match number.rsplit_once('-').and_then(paper_of) {
        Some(said) => said,
        None => (number, None, None),
    };
    (!job.is_empty()).then(|| CodeSays {
        job: job.to_owned(),
        paper,
        revision,
        sheet,
    })
}

/// The end of a paper's number, if it is one: its letter, then its revision or nothing.
fn paper_of<'a>((job, end): (&'a str, &str)) -> Option<(&'a str, Option<Paper>, Option<u32>)> {
    let mut rest = end.chars();
    let letter = rest.next()?;
    let paper = Paper::ALL.iter().find(|paper| paper.letter() == letter)?;
    match rest.as_str() {
        "" => Some((job, Some(*paper), None)),
        revision => Some((job, Some(*paper), Some(whole(revision)?))),
    }
}

/// A whole number of digits only.
fn whole(text: &str) -> Option<u32> {
    text.bytes()
        .all(|byte| byte.is_ascii_digit())
        .then(|| text.parse().ok())?
}
