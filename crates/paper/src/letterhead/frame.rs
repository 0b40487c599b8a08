//! Head and foot of every page, and the mark of a preview.

use quillbore_job::{Language, Paper};

use crate::code::{self, DrawnCode};
use crate::matter::Matter;
use crate::page::Face;
use crate::page::{Ink, Item, Page, Path, PrintedOn, Role, Step, Stroke, mm};
use crate::typeset::flow::Body;
use crate::typeset::look::{MARGIN, STRONG};
use crate::typeset::wrap::{fit, shrink};
use crate::words::customer::Words;

/// Height of the foot from its rule to the edge of the sheet [mm].
const FOOT: f64 = 25.6;

/// What every page of a paper says at its edges.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Frame {
    /// The paper and what it is about, upper left.
    pub head: String,
    /// Who issued it, upper right.
    pub issuer: String,
    /// The paper's number as [`crate::code`] makes it, lower left; empty where there is no job yet.
    pub code: String,
    /// What must be said on every sheet, beside the code.
    pub note: String,
    /// Why the paper isn't valid yet; marks every sheet.
    pub preview: Option<String>,
    /// The language of all that.
    pub language: Language,
}

impl Frame {
    /// The edges of a paper of a job.
    pub fn of(matter: &Matter<'_>, paper: Paper, title: &str, note: &str) -> Self {
        let number = matter.number.unwrap_or(&matter.job.number);
        let part = match paper {
            Paper::Quotation => matter.part_offered(),
            _ => matter.part(),
        };
        let head = format!("{title} {number}   {part}");
        Self {
            head: head.trim().to_owned(),
            issuer: (matter.words().frame.printed)(
                &matter.issuer.name,
                &matter.form().day(matter.date),
            ),
            code: matter.number_of(paper),
            note: note.to_owned(),
            preview: matter.preview.map(str::to_owned),
            language: matter.language,
        }
    }

    /// Writes head and foot of page `number` of `of`.
    pub fn write(&self, page: &mut Page, on: impl Into<PrintedOn>, number: usize, of: usize) {
        page.begin(Role::Edge);
        self.edges(page, on.into(), number, of);
        page.end();
    }

    fn edges(&self, page: &mut Page, on: PrintedOn, number: usize, of: usize) {
        let (width, height) = on.sheet.size();
        let body = Body::of_page(on, number);
        let Body { left, right, .. } = body;
        let top = mm(13.4);
        let strong = MARGIN.ink(Ink::Text).bold();
        // Who issued it and when stands whole; what the paper is about has what that leaves.
        let issuer = fit(&self.issuer, (right - left) * 0.6, MARGIN);
        let room = right - left - MARGIN.measure(&issuer) - mm(6.0);
        page.text(left, top, strong, &fit(&self.head, room, strong));
        page.text_right(right, top, MARGIN, &issuer);
        page.rule(left, right, mm(15.4), Stroke::HAIR);

        let rule = height - mm(FOOT);
        page.rule(left, right, rule, Stroke::HAIR);
        let mut beside = left;
        if !self.code.is_empty() {
            let text = code::of(&self.code, number);
            let (upper, room) = (height - mm(14.6), (right - left) * 0.5);
            if let Some(drawn) = DrawnCode::new(&text) {
                let quiet = drawn.quiet();
                // The sheet's own margin at the left and below is white and belongs to the code.
                drawn.set(page, (left, rule + quiet));
                beside = left + drawn.side() + quiet.max(mm(2.4));
            }
            page.text(beside, upper, strong, &fit(&text, room, strong));
        }
        let lower = height - mm(10.6);
        let count = (Words::of(self.language).frame.page)(number, of);
        page.text_right(right, lower, strong, &count);
        let room = right - beside - strong.measure(&count) - mm(6.0);
        page.text(beside, lower, MARGIN, &fit(&self.note, room, MARGIN));
        if let Some(why) = &self.preview {
            mark(page, body, (width, height), (why, self.language));
        }
    }
}

/// Why the paper of a matter isn't valid yet, where the head of its pages has no room for all of it.
pub(crate) fn cut_preview<'a>(matter: &Matter<'a>) -> Option<&'a str> {
    let why = matter.preview?;
    let room = Body::of(matter.sheet.sheet).width();
    let text = (matter.words().frame.preview_of)(why);
    (shrink(&text, room, STRONG).measure(&text) > room).then_some(why)
}

/// A word across the sheet under everything else, and the reason in the head.
fn mark(
    page: &mut Page,
    body: Body,
    (width, height): (f64, f64),
    (why, language): (&str, Language),
) {
    let words = &Words::of(language).frame;
    let room = body.width();
    let strong = STRONG.ink(Ink::Accent);
    let whole = (words.preview_of)(why);
    let style = shrink(&whole, room, strong);
    let (text, style) = if style.measure(&whole) > room {
        ((words.preview_of)(words.preview_long), strong)
    } else {
        (whole, style)
    };
    page.text(body.left, mm(9.4), style, &fit(&text, room, style));
    // The word is drawn as an outline, so that it never mixes with the text read back from a PDF.
    if let Some(path) = word_across(words.preview, (width / 2.0, height / 2.0), 118.0, 0.92) {
        page.items.insert(0, Item::Path(path));
    }
}

/// The outlines of a word set around a point, turned by `turn` radians.
fn word_across(word: &str, center: (f64, f64), size: f64, turn: f64) -> Option<Path> {
    let face = Face::SansBold;
    let parsed = face.metrics().parsed()?;
    let scale = size / f64::from(parsed.units_per_em());
    let (sin, cos) = (libm::sin(turn), libm::cos(turn));
    let mut pen = -face.measure(word, size) / 2.0;
    let drop = face.cap_height(size) / 2.0;
    let mut outline = Outline {
        steps: Vec::new(),
        at: (0.0, 0.0),
        place: Box::new(|_, _| (0.0, 0.0)),
    };
    for ch in word.chars() {
        let glyph = parsed.glyph_index(ch)?;
        let start = pen;
        outline.place = Box::new(move |x, y| {
            let (along, up) = (start + f64::from(x) * scale, f64::from(y) * scale - drop);
            (
                center.0 + along * cos - up * sin,
                center.1 - along * sin - up * cos,
            )
        });
        parsed.outline_glyph(glyph, &mut outline);
        pen += face.measure(ch.encode_utf8(&mut [0; 4]), size);
    }
    Some(Path {
        steps: outline.steps,
        fill: Some(Ink::Ghost),
        ..Path::default()
    })
}

/// Takes the outline of a glyph and raises its quadratic curves to cubic ones.
struct Outline {
    steps: Vec<Step>,
    at: (f64, f64),
    place: Box<dyn Fn(f32, f32) -> (f64, f64)>,
}

impl ttf_parser::OutlineBuilder for Outline {
    fn move_to(&mut self, x: f32, y: f32) {
        self.at = (self.place)(x, y);
        self.steps.push(Step::Move(self.at.0, self.at.1));
    }

    fn line_to(&mut self, x: f32, y: f32) {
        self.at = (self.place)(x, y);
        self.steps.push(Step::Line(self.at.0, self.at.1));
    }

    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        let (from, by, to) = (self.at, (self.place)(x1, y1), (self.place)(x, y));
        let third = |end: (f64, f64)| {
            (
                end.0 + (by.0 - end.0) * 2.0 / 3.0,
                end.1 + (by.1 - end.1) * 2.0 / 3.0,
            )
        };
        self.steps.push(Step::Curve(third(from), third(to), to));
        self.at = to;
    }

    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        let to = (self.place)(x, y);
        self.steps
            .push(Step::Curve((self.place)(x1, y1), (self.place)(x2, y2), to));
        self.at = to;
    }

    fn close(&mut self) {
        self.steps.push(Step::Close);
    }
}
