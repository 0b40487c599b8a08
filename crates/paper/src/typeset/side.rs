//! Matter with its name beside it, as in a form: a hairline, the name at the left, the matter right.

use crate::page::{Role, Stroke, Style, mm};
use crate::typeset::flow::Flow;
use crate::typeset::look::SIDE;
use crate::typeset::wrap::{self, Span, wrap};

/// Width of the names' column.
const COLUMN: f64 = 25.0 * 72.0 / 25.4;

/// Sets matter with a name beside it, on one page where it fits.
pub fn side(flow: &mut Flow, name: &str, write: impl Fn(&mut Flow)) {
    styled(flow, name, SIDE, Stroke::HAIR, write);
}

/// The same with the name and the line above it in a style of their own.
pub fn styled(flow: &mut Flow, name: &str, style: Style, rule: Stroke, write: impl Fn(&mut Flow)) {
    let closed = flow.under_rule();
    if !closed {
        flow.skip(mm(1.0));
    }
    flow.together(|flow| {
        // On a new page the rule above is gone.
        let closed = closed && flow.under_rule();
        let (left, right) = (flow.body().left, flow.body().right);
        let line = flow.take(mm(1.3));
        if !closed {
            flow.page().rule(left, right, line, rule);
        }
        let top = flow.y();
        let lines = wrap(&[Span::new(style, name)], COLUMN - mm(2.0));
        let mut y = top;
        let title = name.to_owned();
        flow.page().begin(Role::Heading { level: 2, title });
        for line in &lines {
            line.set(flow.page(), left, y);
            y += line.leading;
        }
        flow.page().end();
        let page = flow.pages_done();
        flow.inset(COLUMN);
        write(flow);
        flow.inset(-COLUMN);
        if flow.pages_done() == page {
            let short = top + wrap::height(&lines) - flow.y();
            if short > 0.0 {
                flow.take(short);
            }
        }
    });
}
