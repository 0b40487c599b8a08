//! Sets matter down a column and from page to page.

use quillbore_job::Language;

use crate::page::{Document, MOST_PAGES, Page, PrintedOn, Role, Sheet, Stroke, Style, mm};
use crate::typeset::wrap::{self, Span};

/// The part of a page that matter may fill, in points from the upper left corner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Body {
    /// Left edge.
    pub left: f64,
    /// Right edge.
    pub right: f64,
    /// Upper edge.
    pub top: f64,
    /// Lower edge.
    pub bottom: f64,
}

impl Body {
    /// Margins of the papers: 20 mm at the edge that is punched, 10 mm elsewhere, less head and foot.
    pub fn of(sheet: Sheet) -> Self {
        let (width, height) = sheet.size();
        Self {
            left: mm(20.0),
            right: width - mm(10.0),
            top: mm(19.0),
            bottom: height - mm(27.0),
        }
    }

    /// The body of a page, counted from 1: on the back of a sheet the punched edge is the right one.
    pub fn of_page(on: PrintedOn, page: usize) -> Self {
        let body = Self::of(on.sheet);
        if !on.is_back(page) {
            return body;
        }
        let (width, _) = on.sheet.size();
        Self {
            left: width - body.right,
            right: width - body.left,
            ..body
        }
    }

    /// Its width.
    pub fn width(self) -> f64 {
        self.right - self.left
    }
}

/// Where on the pages the next thing goes.
#[derive(Debug)]
pub struct Flow {
    on: PrintedOn,
    language: Language,
    body: Body,
    pages: Vec<Page>,
    /// What comes now is more than a paper has pages for, and is not kept.
    is_full: bool,
    open: Page,
    y: f64,
    ruled: Option<f64>,
}

impl Flow {
    /// An empty first page of a paper in the shop's own language.
    pub fn new(on: impl Into<PrintedOn>) -> Self {
        Self::in_language(on, Language::default())
    }

    /// An empty first page of a paper in a language.
    pub fn in_language(on: impl Into<PrintedOn>, language: Language) -> Self {
        let on = on.into();
        let body = Body::of(on.sheet);
        Self {
            on,
            language,
            body,
            pages: Vec::new(),
            is_full: false,
            open: Page::default(),
            y: body.top,
            ruled: None,
        }
    }

    /// The language of the paper.
    pub fn language(&self) -> Language {
        self.language
    }

    /// The part of the page to fill.
    pub fn body(&self) -> Body {
        self.body
    }

    /// Upper edge of the next thing.
    pub fn y(&self) -> f64 {
        self.y
    }

    /// Height left on the page.
    pub fn room(&self) -> f64 {
        self.body.bottom - self.y
    }

    /// Height of an empty page.
    pub fn full(&self) -> f64 {
        self.body.bottom - self.body.top
    }

    /// Whether nothing was set on the page yet.
    pub fn at_top(&self) -> bool {
        self.y <= self.body.top
    }

    /// The page being filled.
    pub fn page(&mut self) -> &mut Page {
        &mut self.open
    }

    /// Moves down; at the head of a page space is dropped.
    pub fn skip(&mut self, height: f64) {
        if !self.at_top() {
            self.y += height;
        }
    }

    /// Takes height on the page and returns its upper edge.
    pub fn take(&mut self, height: f64) -> f64 {
        let top = self.y;
        self.y += height;
        top
    }

    /// Goes to the next page unless `height` is left on this one; returns whether it did.
    pub fn need(&mut self, height: f64) -> bool {
        // A thing of exactly the room left must not be pushed out by rounding.
        let moved = height > self.room() + 1e-6 && !self.at_top();
        if moved {
            self.next_page();
        }
        moved
    }

    /// Notes that a rule closes what stands above, so that what follows needs none of its own.
    pub fn mark_rule(&mut self) {
        self.ruled = Some(self.y);
    }

    /// Whether a rule stands just above.
    pub fn under_rule(&self) -> bool {
        self.ruled.is_some_and(|y| (y - self.y).abs() < mm(0.1))
    }

    /// Ends the page.
    pub fn next_page(&mut self) {
        self.ruled = None;
        let full = std::mem::take(&mut self.open);
        if self.pages.len() < MOST_PAGES {
            self.pages.push(full);
        } else {
            self.is_full = true;
        }
        self.y = self.body.top;
    }

    /// Sets a paragraph, indented by `indent`; it may go on to the next page.
    pub fn paragraph(&mut self, spans: &[Span<'_>], indent: f64) {
        if self.is_full {
            return;
        }
        self.open.begin(Role::Paragraph);
        self.lines(spans, indent);
        self.open.end();
    }

    /// Sets the lines of a text that is part of something, indented by `indent`.
    fn lines(&mut self, spans: &[Span<'_>], indent: f64) {
        let lines = wrap::wrap(spans, self.body.width() - indent);
        // A first line alone at the foot, or a last one alone at the head, is lost to the eye.
        if lines.len() <= 3 {
            self.need(wrap::height(&lines));
        } else {
            self.need(wrap::height(&lines[..2]));
        }
        let count = lines.len();
        for (index, line) in lines.iter().enumerate() {
            let keep = if index + 2 == count { 2.0 } else { 1.0 };
            self.need(line.leading * keep);
            let top = self.take(line.leading);
            line.set(&mut self.open, self.body.left + indent, top);
        }
    }

    /// Sets a text in one style.
    pub fn text(&mut self, style: Style, text: &str) {
        self.paragraph(&[Span::new(style, text)], 0.0);
    }

    /// The name of a section over a rule, kept together with `keep` points of what follows. A remark
    /// stands beside the name, or under the rule where it is too long for that.
    pub fn section(&mut self, name: &str, remark: &str, keep: f64) {
        use crate::typeset::look::{CAPTION, SECTION};
        self.skip(mm(3.6));
        let height = mm(6.2);
        let room = self.body.width() - SECTION.measure(name) - mm(4.0);
        let beside = CAPTION.measure(remark) <= room;
        let below = if beside { 0.0 } else { CAPTION.leading() * 2.0 };
        self.need(height + below + keep);
        let top = self.take(height);
        let Body { left, right, .. } = self.body;
        let baseline = top + mm(3.9);
        let title = name.to_owned();
        let heading = Role::Heading { level: 2, title };
        self.open
            .part(heading, |page| page.text(left, baseline, SECTION, name));
        if beside {
            self.open.text_right(right, baseline, CAPTION, remark);
        }
        self.open.rule(left, right, top + mm(5.2), Stroke::RULE);
        if beside {
            self.mark_rule();
        } else {
            self.text(CAPTION, remark);
            self.take(mm(0.8));
        }
    }

    /// Moves the left edge of the body in by `by` points; a negative `by` moves it out again.
    pub fn inset(&mut self, by: f64) {
        self.body.left += by;
    }

    /// Whether a paper has no more room: what is set now would not be kept.
    pub fn is_full(&self) -> bool {
        self.is_full
    }

    /// Gives up a paper that would go on for more pages than one may have.
    pub fn give_up(&mut self) {
        self.is_full = true;
    }

    /// Pages that are full already.
    pub fn pages_done(&self) -> usize {
        self.pages.len()
    }

    /// Height that matter takes on an empty page, or `None` where it takes more than one.
    pub fn height_of(&self, write: impl Fn(&mut Self)) -> Option<f64> {
        self.height_below(0.0, write)
    }

    /// Height that matter takes `above` points below the head of an empty page: at the head itself
    /// the space before it is dropped.
    fn height_below(&self, above: f64, write: impl Fn(&mut Self)) -> Option<f64> {
        let start = self.body.top + above;
        let mut trial = Self {
            on: self.on,
            language: self.language,
            body: self.body,
            pages: Vec::new(),
            is_full: false,
            open: Page::default(),
            y: start,
            ruled: None,
        };
        write(&mut trial);
        trial
            .pages
            .is_empty()
            .then_some(trial.y - start)
            .filter(|height| *height <= self.full())
    }

    /// Sets matter on one page where it fits on one; else it begins here and goes on.
    pub fn together(&mut self, write: impl Fn(&mut Self)) {
        // Anything but the head: the space before the matter counts, too.
        let height = self.height_below(mm(0.1), &write);
        if let Some(height) = height.or_else(|| self.height_of(&write)) {
            self.need(height);
        }
        write(self);
    }

    /// Sets two things side by side, the left one on `share` of the width; one under the other
    /// where they are too long for that.
    pub fn beside(&mut self, share: f64, left: impl Fn(&mut Self), right: impl Fn(&mut Self)) {
        let whole = self.body;
        let gap = mm(6.0);
        let middle = whole.left + (whole.width() - gap) * share;
        let halves = [
            Body {
                right: middle,
                ..whole
            },
            Body {
                left: middle + gap,
                ..whole
            },
        ];
        self.body = halves[0];
        let first = self.height_of(&left);
        self.body = halves[1];
        let second = self.height_of(&right);
        self.body = whole;
        let (Some(first), Some(second)) = (first, second) else {
            left(self);
            self.take(mm(2.0));
            right(self);
            return;
        };
        let height = first.max(second);
        self.need(height);
        let top = self.y;
        self.body = halves[0];
        left(self);
        self.body = halves[1];
        self.y = top;
        right(self);
        self.body = whole;
        self.y = top + height;
    }

    /// Sets paragraphs behind dashes.
    pub fn dashes<'a>(&mut self, style: Style, lines: impl Iterator<Item = &'a str>) {
        let lines = lines.map(str::trim).filter(|line| !line.is_empty());
        let mut lines = lines.peekable();
        if lines.peek().is_none() || self.is_full {
            return;
        }
        self.open.begin(Role::List);
        for line in lines {
            self.need(style.leading());
            let baseline = self.y + (style.leading() + style.face.cap_height(style.size)) / 2.0;
            let left = self.body.left;
            self.open.begin(Role::Entry);
            self.open.part(Role::Edge, |page| {
                page.text(left, baseline, style, "\u{2013}")
            });
            self.lines(&[Span::new(style, line)], mm(3.2));
            self.open.end();
        }
        self.open.end();
    }

    /// Ends the paper; `margin` writes head and foot of each page, given its number and their count.
    pub fn finish(mut self, margin: impl Fn(&mut Page, usize, usize)) -> Document {
        let is_blank = self.open.is_blank();
        match self.pages.last_mut() {
            // What ends behind the last full page ends on it.
            Some(last) if is_blank => last.items.append(&mut self.open.items),
            _ => self.next_page(),
        }
        let of = self.pages.len();
        // Both bodies are equally wide, so that a back is set as a front and moved as a whole.
        let fronts = Body::of(self.on.sheet);
        for (index, page) in self.pages.iter_mut().enumerate() {
            if self.on.is_back(index + 1) {
                page.shift(Body::of_page(self.on, index + 1).left - fronts.left);
            }
            margin(page, index + 1, of);
        }
        Document {
            sheet: self.on.sheet,
            pages: self.pages,
            is_cut: self.is_full,
            language: self.language,
        }
    }
}
