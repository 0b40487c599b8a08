//! Drawings in PDF: the texts of their pages, the callouts among them, and a page as a picture.
//!
//! Objects, filters and fonts are read by a library; what a page's text is made of is gone through here, since
//! that must be bounded and may be stopped (see DEVELOPERS.md).

mod across;
mod behind;
mod body;
mod callouts;
mod chart;
mod charts;
mod error;
mod evidence;
mod grid;
mod guard;
mod heads;
mod hidden;
mod ink;
mod letters;
mod limits;
mod line;
mod notice;
mod offered;
mod open;
mod pack;
mod picture;
mod reach;
mod seen;
mod show;
mod stacked;
mod stacked_limits;
mod text_state;
mod walk;

pub use error::{PaperError, PdfError};
pub(crate) use evidence::{Evidence, unit_said};
pub use notice::Notice;
pub use offered::Offered;
pub use picture::{Picture, picture};
pub use seen::{Doubt, PageSeen, Paged, Part, SeenCallout, Spot, TextLine, WhyNone};

use std::cell::Cell;

use crate::watch::{Watch, share};
use callouts::{Found, callouts};
use letters::Letters;
use open::Open;
use walk::{Found as Drawn, Walk};

/// Whether a file of this name and these bytes is a PDF.
#[must_use]
pub fn is_pdf(bytes: &[u8], name: &str) -> bool {
    name.to_lowercase().ends_with(".pdf") || guard::begins_as_pdf(bytes)
}

/// The share of the work that opening a file is.
const OPENED: f64 = 0.3;

/// Reads the texts of a PDF and the callouts among them; `watch` hears now and then how far it is.
///
/// # Errors
/// Where the file is no PDF, is locked, can't be read, would become too large, or `watch` says so.
pub fn read(bytes: &[u8], watch: Watch<'_>) -> Result<Paged, PdfError> {
    let open = Open::new(bytes, guard::Pictures::Emptied, &|| watch(0.0))?;
    let done = Cell::new(OPENED);
    let cancel = || watch(done.get());
    let mut walk = Walk::new(&open, bytes.len(), &cancel);
    let mut paged = Paged {
        pages_in_file: open.pages().len(),
        ..Paged::default()
    };
    let mut of_page_before = 0;
    for (number, page) in open.pages().iter().take(MOST_PAGES).enumerate() {
        let read = share(number, open.pages().len().min(MOST_PAGES));
        done.set(OPENED + (1.0 - OPENED) * read);
        let (width, height) = page.render_dimensions();
        let (width, height) = (f64::from(width), f64::from(height));
        if !(width > 0.0 && height > 0.0 && width.is_finite() && height.is_finite()) {
            paged.pages.push(PageSeen {
                why_none: vec![WhyNone::NoSize],
                ..PageSeen::default()
            });
            continue;
        }
        let mut letters = Letters::new(walk.most_pieces());
        let found = walk.page(page, &mut letters)?;
        let (lines, off_page) = line::within(letters.lines(), width, height);
        let before = paged.charts.get(of_page_before..).unwrap_or_default();
        let Found {
            callouts,
            charts,
            notices,
        } = callouts(&lines, number, [width, height], before);
        paged.say(number, &lines);
        let first_chart = paged.charts.len();
        of_page_before = first_chart;
        paged.charts.extend(charts);
        paged.pages.push(PageSeen {
            width,
            height,
            lines: lines.iter().map(line::Line::seen).collect(),
            callouts: callouts
                .into_iter()
                .map(|callout| callout.behind_charts(first_chart))
                .collect(),
            why_none: why_none(&found, &lines),
            off_page,
            notices,
        });
    }
    paged.unit = paged.weigh_unit();
    Ok(paged)
}

/// No drawing has more pages that anybody looks through for holes.
pub const MOST_PAGES: usize = 60;

/// Why a page shows less text than is drawn on it.
fn why_none(found: &Drawn, lines: &[line::Line]) -> Vec<WhyNone> {
    let none = lines.is_empty();
    let few = found.strokes <= FEW_STROKES;
    let mut why = Vec::new();
    if none && found.is_picture() {
        why.push(WhyNone::Scan);
    }
    if none && !found.is_picture() && !few {
        why.push(WhyNone::Strokes);
    }
    if none && !found.is_picture() && few && !found.is_cut {
        why.push(WhyNone::Blank);
    }
    if found.nameless > 0 {
        why.push(WhyNone::NoLetters(found.nameless));
    }
    if found.hidden > 0 {
        why.push(WhyNone::Hidden(found.hidden));
    }
    if found.is_cut {
        why.push(WhyNone::TooMuch);
    }
    why
}

/// A page with a frame alone has no more strokes.
const FEW_STROKES: usize = 40;
