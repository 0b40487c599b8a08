//! The bar at the head of a paper: the shop's logo and what the paper is at the left, whose it is at
//! the right, and the rule under all.

use crate::logo::BOX_MM;
use crate::matter::Matter;
use crate::page::{Ink, Role, Stroke, Style, mm};
use crate::typeset::flow::Flow;
use crate::typeset::look::{CAPTION, TITLE};
use crate::typeset::wrap::shrink;

/// Height of the bar without a logo, and what of it lies below the letters [mm].
const HEIGHT: f64 = 9.0;
const BELOW: f64 = 2.6;
/// What the text at the right may be made smaller to before the logo is, in points.
const LEAST: f64 = 9.0;
/// The least width that a logo's box is left with [mm].
const NARROW: f64 = 15.0;

/// What stands in a bar.
pub(crate) struct Bar<'a> {
    /// What the paper is.
    pub(crate) title: &'a str,
    /// Whose it is, or its number.
    pub(crate) right: &'a str,
    /// How that is set.
    pub(crate) style: Style,
    /// What stands small under that, where a logo leaves room for it.
    pub(crate) small: &'a str,
}

impl Bar<'_> {
    /// Sets the bar, and says whether the small text stands in it.
    ///
    /// The logo stands on the line of the title. One that is higher than the bar makes it higher.
    pub(crate) fn set(&self, matter: &Matter<'_>, flow: &mut Flow) -> bool {
        let body = flow.body();
        let logo = matter.logo();
        let most = self.logo_box(body.width());
        let size = logo.as_ref().map(|logo| logo.fitted(most));
        let more = size.map_or(0.0, |(_, high)| (high - mm(HEIGHT - BELOW)).max(0.0));
        let top = flow.take(mm(HEIGHT) + more) + more;
        let line = top + mm(HEIGHT - BELOW);
        let page = flow.page();
        let mut left = body.left;
        if let (Some(logo), Some((wide, high))) = (&logo, size) {
            logo.set(page, (left, line - high), most);
            left += wide + mm(5.0);
        }
        let title = self.title.to_owned();
        let end = page.part(Role::Heading { level: 1, title }, |page| {
            page.text(left, line, TITLE.ink(Ink::Accent), self.title)
        });
        let room = body.right - end - mm(6.0);
        let has_room = more >= mm(1.0) && CAPTION.measure(self.small) <= room;
        let is_beside = has_room && !self.small.is_empty();
        let style = shrink(self.right, room, self.style);
        if is_beside {
            page.text_right(body.right, line - mm(3.8), style, self.right);
            page.text_right(body.right, line, CAPTION, self.small);
        } else {
            page.text_right(body.right, line, style, self.right);
        }
        let rule = Stroke::new(1.4, Ink::Accent);
        page.rule(body.left, body.right, top + mm(8.4), rule);
        is_beside
    }

    /// The box that title and text at the right leave for the logo.
    fn logo_box(&self, width: f64) -> (f64, f64) {
        let least = Style {
            size: self.style.size.min(LEAST),
            ..self.style
        };
        let texts = TITLE.measure(self.title) + least.measure(self.right);
        let left = width - texts - mm(11.0);
        (left.clamp(mm(NARROW), mm(BOX_MM.0)), mm(BOX_MM.1))
    }
}
