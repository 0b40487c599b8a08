//! What is said of drawings in PDF: why one can't be read, its callouts, its pages.

use std::error::Error;
use std::fmt;

use quillbore_job::Unit;

use super::notices::notice;
use super::{count, first_of, in_quotes, words_taken};
use crate::cell_words::TakenWord;
use crate::pdf::{
    Doubt, Evidence, MOST_PAGES, Paged, PaperError, PdfError, SeenCallout, Spot, WhyNone,
};

/// Where a callout stands: `page 1, upper right`.
#[must_use]
pub fn place(callout: &SeenCallout) -> String {
    format!("page {}, {}", callout.page + 1, spot(callout.spot))
}

fn spot(spot: Spot) -> &'static str {
    match (spot.down, spot.across) {
        (0, 0) => "upper left",
        (0, 1) => "upper middle",
        (0, _) => "upper right",
        (1, 0) => "left",
        (1, 1) => "middle",
        (1, _) => "right",
        (_, 0) => "lower left",
        (_, 1) => "lower middle",
        (_, _) => "lower right",
    }
}

/// A callout in a list to choose from, by its number from 1.
#[must_use]
pub fn listed(number: usize, callout: &SeenCallout) -> String {
    let of_table = if callout.is_of_table() {
        ", a line of a table"
    } else {
        ""
    };
    let doubts: Vec<&str> = callout.doubts.iter().map(|each| doubt(*each)).collect();
    let doubts = if doubts.is_empty() {
        String::new()
    } else {
        format!(" ({})", doubts.join("; "))
    };
    format!(
        "{number}: {}, {}{of_table}{doubts}",
        callout.text,
        place(callout)
    )
}

/// What is to be looked at in a callout.
#[must_use]
pub const fn doubt(doubt: Doubt) -> &'static str {
    match doubt {
        Doubt::AsText => "not taken apart: it comes as a note, its size is to be typed",
        Doubt::Unseen => "written unseen, as programs do that guess the letters of a scan",
        Doubt::SignByFont => {
            "its sign is a letter of a font of drawing signs: compare it with the page"
        }
        Doubt::NoLetter => {
            "the file doesn't say what one of its letters is: compare it with the page"
        }
    }
}

/// A row and the callout that it was made of.
pub(crate) fn row(mark: &str, callout: &SeenCallout) -> String {
    format!("{mark}: {}, {}.", in_quotes(&callout.text), place(callout))
}

/// A row of a table on the page.
pub(crate) fn of_table(callout: &SeenCallout) -> String {
    format!(
        "A line of a table, {}: {}.",
        place(callout),
        in_quotes(&callout.text)
    )
}

/// What is told of a line of a table.
pub(crate) fn line_of_table(callout: &SeenCallout, says: &str) -> String {
    format!("{}: {says}.", in_quotes(&callout.text))
}

/// What is to be looked at in a row.
pub(crate) fn doubts(mark: &str, callout: &SeenCallout, is_parted: bool) -> Vec<String> {
    let told = callout
        .doubts
        .iter()
        .copied()
        .filter(|doubt| *doubt != Doubt::AsText);
    let as_text = (!is_parted).then_some(Doubt::AsText);
    let all = told.chain(as_text);
    all.map(|each| format!("{mark}: {}.", doubt(each)))
        .collect()
}

/// Words of a callout that were taken as English ones.
pub(crate) fn english<'w>(mark: &str, words: impl Iterator<Item = &'w TakenWord>) -> String {
    format!("{mark}: {}", words_taken(words))
}

/// Columns of a table that nobody understands.
pub(crate) fn to_notes(heads: &[String]) -> Option<String> {
    let heads: Vec<String> = heads.iter().map(|head| in_quotes(head)).collect();
    (!heads.is_empty()).then(|| {
        format!(
            "What stands under {} in a table was not understood and went into the notes.",
            heads.join(", ")
        )
    })
}

/// That lines of a table are in another unit.
pub(crate) fn other_unit<'c>(
    named: Unit,
    callouts: impl Iterator<Item = &'c SeenCallout>,
) -> String {
    let texts: Vec<String> = callouts.map(|callout| in_quotes(&callout.text)).collect();
    format!(
        "Not taken: the heads of a table say {}, so its lines were left for a second intake: {}.",
        unit_name(named),
        first_of(&texts)
    )
}

/// That a table on the page could not be taken.
pub(crate) fn table_refused(why: &str) -> String {
    format!("Not taken: a table. {why}.")
}

/// Callouts that were left.
pub(crate) fn left<'c>(callouts: impl Iterator<Item = &'c SeenCallout>) -> Option<String> {
    let texts: Vec<String> = callouts
        .map(|callout| format!("{} ({})", in_quotes(&callout.text), place(callout)))
        .collect();
    (!texts.is_empty()).then(|| format!("Left out: {}.", first_of(&texts)))
}

const fn unit_name(unit: Unit) -> &'static str {
    match unit {
        Unit::Mm => "millimeters",
        Unit::Inch => "inches",
    }
}

/// The unit of the lengths, and who says so.
pub(crate) fn unit(unit: Unit, is_said: bool, evidence: &[Evidence]) -> String {
    let name = unit_name(unit);
    if is_said {
        return format!("Lengths were read in {name}, as was said.");
    }
    match of_units(evidence).first() {
        Some(first) => format!("Lengths were read in {name}: {first}."),
        None => format!("Lengths were read in {name}."),
    }
}

/// What the texts say of units, each with its page.
pub(crate) fn of_units(evidence: &[Evidence]) -> Vec<String> {
    let say = |evidence: &Evidence| match evidence {
        Evidence::Words(_, text, page) => format!("page {} says {}", page + 1, in_quotes(text)),
        Evidence::Point(text, page) => format!(
            "page {} writes {} without a naught before the point",
            page + 1,
            in_quotes(text)
        ),
    };
    let words = evidence
        .iter()
        .filter(|each| matches!(each, Evidence::Words(..)));
    let points = evidence
        .iter()
        .filter(|each| matches!(each, Evidence::Point(..)));
    words.chain(points).take(super::NAMED).map(say).collect()
}

/// What is to be said of pages that show less than is drawn on them, and of those that were not read.
#[must_use]
pub fn of_pages(paged: &Paged) -> Vec<String> {
    let mut said = Vec::new();
    for (number, page) in (1..).zip(&paged.pages) {
        said.extend(page.why_none.iter().map(|why| why_none(number, *why)));
        if page.off_page > 0 {
            let lines = count(
                page.off_page as u64,
                "line of text stands",
                "lines of text stand",
            );
            said.push(format!(
                "Page {number}: {lines} outside what is shown, and was left."
            ));
        }
        said.extend(page.notices.iter().map(|seen| notice(number, seen)));
    }
    if paged.pages_in_file > paged.pages.len() {
        said.push(format!(
            "Of {} pages the first {MOST_PAGES} were read; save the others as a file of their own to read them.",
            paged.pages_in_file
        ));
    }
    said
}

fn why_none(number: usize, why: WhyNone) -> String {
    match why {
        WhyNone::Blank => format!("Page {number} is blank."),
        WhyNone::Scan => format!(
            "Page {number} is a picture without letters, as a scan is: type its holes, or ask for the PDF that the CAD system writes."
        ),
        WhyNone::Strokes => format!(
            "Page {number} has its letters drawn as lines, which are not read: type its holes, or ask for a PDF with text."
        ),
        WhyNone::NoLetters(letters) => format!(
            "Page {number}: the file doesn't say what {} {}; compare its texts with the page.",
            count(letters as u64, "letter", "letters"),
            if letters == 1 { "is" } else { "are" }
        ),
        WhyNone::Hidden(letters) => format!(
            "Page {number}: {} on layers that are not shown, and left.",
            count(letters as u64, "letter is", "letters are")
        ),
        WhyNone::NoSize => format!(
            "Page {number} has no size that could be shown, and was left: ask for it again."
        ),
        WhyNone::TooMuch => format!(
            "Page {number} holds more than is read of one file, and was read in part: ask for the drawing alone."
        ),
    }
}

impl PdfError {
    /// What to do about it.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::NotPdf => "ask for the drawing as a PDF, DXF or STEP file",
            Self::Locked => {
                "ask for the password's owner to save it without one, or print it and type its holes"
            }
            Self::LockedDark => {
                "open it in a viewer and print it into a new PDF, or ask for one without protection"
            }
            Self::Damaged => "see whether it was copied whole, or ask for it again",
            Self::NoPages => "ask for it again",
            Self::Swells | Self::TooManyParts => {
                "open it in a viewer and print the pages that matter into a new PDF"
            }
            Self::NoSuchPage(_) => "choose a page that it has",
            Self::TooMuchDrawn => "open it in a viewer beside this one",
            Self::Cancelled => "read it again when there is time",
        }
    }
}

impl Error for PdfError {}

impl fmt::Display for PdfError {
    /// One sentence: why a PDF could not be read.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NotPdf => "This is not a PDF file",
            Self::Locked => "The PDF is locked with a password",
            Self::LockedDark => {
                "The PDF is locked in a way that doesn't let anybody see beforehand how large it would become"
            }
            Self::Damaged => "The PDF is damaged, or not written as PDF is",
            Self::NoPages => "The PDF has no page",
            Self::Swells => "The PDF would become much larger than a drawing once it is unpacked",
            Self::TooManyParts => "The PDF has more parts than a drawing can have",
            Self::NoSuchPage(page) => return write!(f, "The PDF has no page {}", page + 1),
            Self::TooMuchDrawn => "More is drawn on the page than can be shown",
            Self::Cancelled => "Reading the PDF was stopped",
        })
    }
}

impl PaperError {
    /// What to do about it.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::Pdf(error) => error.hint(),
            Self::NoCallouts(_) => "type the holes, or ask for a file that shows them (DXF, STEP)",
            Self::NoneTaken => "say --callouts \"1,3,5-9\" or --callouts all",
            Self::NoSuchCallout(..) => "leave --callouts out to see all with their numbers",
            Self::WhichUnit(_) => "say --unit mm or --unit inch",
        }
    }
}

impl Error for PaperError {}

impl fmt::Display for PaperError {
    /// One sentence or more: why nothing could be taken.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Pdf(error) => error.fmt(f),
            Self::NoCallouts(pages) if pages.is_empty() => {
                f.write_str("No text of the PDF speaks of a hole")
            }
            Self::NoCallouts(pages) => {
                write!(
                    f,
                    "No text of the PDF speaks of a hole. {}",
                    pages.join(" ")
                )
            }
            Self::NoneTaken => f.write_str("None of its callouts was chosen"),
            Self::NoSuchCallout(number, all) => write!(
                f,
                "There is no callout {}: the PDF has {}",
                number + 1,
                count(*all as u64, "callout", "callouts")
            ),
            Self::WhichUnit(says) if says.is_empty() => {
                f.write_str("No text of the PDF says in which unit its lengths are")
            }
            Self::WhichUnit(says) => write!(
                f,
                "The texts of the PDF don't agree on the unit of its lengths: {}",
                says.join("; ")
            ),
        }
    }
}
