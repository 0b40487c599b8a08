//! What is filled in by hand: fields with small captions, sign-off lines, squares to check.

use crate::page::{Ink, Page, Role, Stroke, Style, mm};
use crate::typeset::flow::Flow;
use crate::typeset::look::{BODY, CAPTION};
use crate::typeset::wrap::{self, SetLine, Span, wrap};
use crate::words::customer::Words;

/// A caption with a value under it, or a thin rule to write on.
#[derive(Clone, Debug, PartialEq)]
pub struct Captioned {
    caption: String,
    value: Option<String>,
    share: f64,
    style: Style,
    whole: bool,
    boxed: bool,
}

impl Captioned {
    /// A field with a printed value.
    pub fn filled(caption: &str, value: &str, share: f64) -> Self {
        Self {
            caption: caption.to_owned(),
            value: Some(value.to_owned()),
            ..Self::blank(caption, share)
        }
    }

    /// A field to fill in by hand.
    pub fn blank(caption: &str, share: f64) -> Self {
        Self {
            caption: caption.to_owned(),
            value: None,
            share,
            style: BODY,
            whole: false,
            boxed: false,
        }
    }

    /// A printed value, or a rule to write on where there is none.
    pub fn of(caption: &str, value: &str, share: f64) -> Self {
        if value.trim().is_empty() {
            Self::blank(caption, share)
        } else {
            Self::filled(caption, value, share)
        }
    }

    /// The same field with its value in another style.
    pub fn style(self, style: Style) -> Self {
        Self { style, ..self }
    }

    /// The same field with its value on one line: set smaller rather than broken.
    pub fn whole(self) -> Self {
        Self {
            whole: true,
            ..self
        }
    }

    /// The same field in a box of its own.
    pub fn boxed(self) -> Self {
        Self {
            boxed: true,
            ..self
        }
    }

    /// The value's lines in so many points.
    fn lines(&self, width: f64) -> Option<Vec<SetLine>> {
        let value = self.value.as_deref()?;
        let style = if self.whole {
            wrap::shrink(value, width, self.style)
        } else {
            self.style
        };
        Some(wrap(&[Span::new(style, value)], width))
    }
}

/// Space between neighboring fields.
const GAP: f64 = 9.0;
/// Space between a box and what stands in it.
const PAD: f64 = 3.0;
/// Room for a hand: no line to write on is lower than this.
pub const HAND: f64 = 7.2 * 72.0 / 25.4;

/// A row of fields across the body.
pub fn fields(flow: &mut Flow, row: &[Captioned]) {
    let body = flow.body();
    let shares: f64 = row.iter().map(|field| field.share).sum();
    let gaps = GAP * (row.len().saturating_sub(1)) as f64;
    let unit = (body.width() - gaps) / shares.max(f64::MIN_POSITIVE);
    let set: Vec<_> = row
        .iter()
        .map(|field| {
            let width = field.share * unit;
            let inner = if field.boxed {
                width - 2.0 * PAD
            } else {
                width
            };
            let caption = wrap(&[Span::new(CAPTION, &field.caption)], inner);
            (field, width, caption, field.lines(inner))
        })
        .collect();
    // A caption that is too long for its field takes another line, and the values stand side by side.
    let captions = set.iter().map(|(_, _, caption, _)| wrap::height(caption));
    let caption = captions.fold(CAPTION.leading(), f64::max);
    let height = set
        .iter()
        .map(|(_, _, _, lines)| match lines {
            Some(lines) => caption + wrap::height(lines),
            None => caption + HAND - mm(2.0),
        })
        .fold(0.0, f64::max)
        + mm(1.6);
    flow.need(height);
    let top = flow.take(height);
    let mut left = body.left;
    let page = flow.page();
    for (field, width, caption_lines, lines) in &set {
        let mut inner = left;
        if field.boxed {
            let size = (*width, height - mm(0.4));
            page.rect((left, top - mm(0.6)), size, None, Some(Stroke::OUTLINE));
            inner += PAD;
        }
        page.begin(Role::Paragraph);
        let mut y = top;
        for line in caption_lines {
            line.set(page, inner, y);
            y += line.leading;
        }
        match lines {
            Some(lines) => {
                let mut y = top + caption;
                for line in lines {
                    line.set(page, inner, y);
                    y += line.leading;
                }
            }
            // The box is the place to write in.
            None if field.boxed => {}
            None => page.rule(left, left + width, top + height - mm(1.2), Stroke::HAIR),
        }
        page.end();
        left += width + GAP;
    }
}

/// A square to check off, its lower edge on the baseline.
pub fn square(page: &mut Page, x: f64, baseline: f64, side: f64) {
    page.rect(
        (x, baseline - side),
        (side, side),
        None,
        Some(Stroke::new(0.6, Ink::Text)),
    );
}

/// A line of text behind a square to check off.
pub fn check(flow: &mut Flow, spans: &[Span<'_>]) {
    let indent = mm(5.6);
    let lines = wrap(spans, flow.body().width() - indent);
    flow.need(wrap::height(&lines) + mm(1.4));
    let left = flow.body().left;
    flow.page().begin(Role::Paragraph);
    for (index, line) in lines.iter().enumerate() {
        let top = flow.take(line.leading);
        if index == 0 {
            square(
                flow.page(),
                left,
                top + line.leading * 0.5 + mm(1.4),
                mm(2.8),
            );
        }
        line.set(flow.page(), left + indent, top);
    }
    flow.page().end();
    flow.skip(mm(1.4));
}

/// A statement with a square, a line for the name and one for the date.
pub fn sign_off(flow: &mut Flow, statement: &str) {
    let body = flow.body();
    let captions = &Words::of(flow.language()).captions;
    let (date, name) = (mm(21.0), mm(34.0));
    let indent = mm(5.6);
    let room = body.width() - indent - name - date - 2.0 * GAP;
    let lines = wrap(&[Span::new(BODY, statement)], room);
    let height = (wrap::height(&lines) + mm(3.4)).max(HAND + mm(1.6));
    flow.need(height);
    let top = flow.take(height);
    let base = top + height - mm(3.4);
    let first = base - wrap::height(&lines) + mm(1.0);
    let page = flow.page();
    page.begin(Role::Paragraph);
    let mut y = first;
    for line in &lines {
        line.set(page, body.left + indent, y);
        y += line.leading;
    }
    square(
        page,
        body.left,
        first + BODY.leading() * 0.5 + mm(1.4),
        mm(2.8),
    );
    let mut right = body.right;
    for (width, caption) in [(date, captions.date), (name, captions.name)] {
        page.rule(right - width, right, base, Stroke::HAIR);
        page.text(right - width, base + CAPTION.size * 1.05, CAPTION, caption);
        right -= width + GAP;
    }
    page.end();
}
