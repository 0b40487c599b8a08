//! The box label: big type to be cut out of a sheet, with the code that leads back to the job.

use quillbore_job::slip::{kind, line};
use quillbore_job::{Field, Paper};

use crate::code::{self, DrawnCode};
use crate::letterhead::frame::Frame;
use crate::letterhead::who;
use crate::matter::Matter;
use crate::page::{Document, Page, Stroke, mm};
use crate::typeset::flow::Flow;
use crate::typeset::look::{BODY, CAPTION, LARGE, STRONG, TITLE};
use crate::typeset::wrap::{fit, shrink};

/// Width and height of the label [mm].
const SIZE: (f64, f64) = (140.0, 90.0);
/// Room for the customer's address [mm].
const ADDRESS: f64 = 4.4;
/// Most width and height of the logo [mm], beside the shop.
const LOGO: (f64, f64) = (38.0, 13.0);
/// A module of the label's code [mm].
const MODULE: f64 = 0.9;

/// Sets the label for the box of the newest delivery.
pub fn label(matter: &Matter<'_>) -> Document {
    let words = &matter.words().label;
    let mut flow = Flow::in_language(matter.sheet, matter.language);
    let body = flow.body();
    let (width, height) = (mm(SIZE.0), mm(SIZE.1));
    let top = flow.take(height + mm(6.0)) + mm(4.0);
    let left = body.left + (body.width() - width) / 2.0;
    write(matter, flow.page(), (left, top), (width, height));
    flow.take(mm(3.0));
    flow.text(CAPTION, words.cut);
    let frame = Frame::of(matter, Paper::Label, words.title, "");
    flow.finish(|page, number, of| frame.write(page, matter.sheet, number, of))
}

fn write(matter: &Matter<'_>, page: &mut Page, at: (f64, f64), size: (f64, f64)) {
    let all = matter.words();
    let words = &all.label;
    let cut = Stroke {
        dash: Some((4.0, 3.0)),
        ..Stroke::HAIR
    };
    page.rect(at, size, None, Some(cut));
    let (left, right) = (at.0 + mm(6.0), at.0 + size.0 - mm(6.0));
    let mut y = at.1 + mm(7.0);
    let width = right - left;
    let beside_code = width - mm(42.0);
    let line = |page: &mut Page, y: &mut f64, caption: &str, style, text: &str, width: f64| {
        page.text(left, *y, CAPTION, caption);
        *y += mm(6.6);
        let style = shrink(text, width, style);
        page.text(left, *y, style, &fit(text, width, style));
        *y += mm(6.6);
    };
    line(page, &mut y, words.from, BODY, "", width);
    from(matter, page, (left, right), at.1);
    line(
        page,
        &mut y,
        words.to,
        TITLE,
        matter.text(Field::Customer),
        width,
    );
    let address = who::address(matter);
    if !address.is_empty() {
        let style = shrink(&address, width, BODY);
        page.text(left, y - mm(2.0), style, &fit(&address, width, style));
        y += mm(ADDRESS);
    }
    line(
        page,
        &mut y,
        all.captions.part,
        TITLE,
        &matter.part(),
        beside_code,
    );
    line(
        page,
        &mut y,
        all.captions.customers_order,
        LARGE,
        matter.order_number(),
        beside_code,
    );
    let sent = matter.job.slips_of::<kind::Delivery>().next_back();
    let quantity = sent.map_or("", |slip| slip.text(line::Count));
    line(page, &mut y, words.parts, TITLE, quantity, beside_code);
    let bottom = at.1 + size.1 - mm(7.0);
    page.text(left, bottom - mm(8.5), CAPTION, words.number);
    page.rule(left, left + mm(14.0), bottom, Stroke::HAIR);
    let end = page.text(left + mm(15.0), bottom, STRONG, words.of);
    let from = (end + mm(1.0)).max(left + mm(20.0));
    page.rule(from, left + mm(34.0), bottom, Stroke::HAIR);
    page.text(
        left + mm(42.0),
        bottom - mm(8.5),
        CAPTION,
        all.captions.mass,
    );
    page.rule(left + mm(42.0), left + mm(72.0), bottom, Stroke::HAIR);
    let parts = sent.and_then(|slip| slip.get(line::Count)).unwrap_or(0);
    let mass = matter.mass_text(parts);
    if parts > 0 && !mass.is_empty() {
        page.text(
            left + mm(42.0),
            bottom - mm(1.2),
            BODY,
            &(all.packing.mass_of_parts)(&mass),
        );
    }
    let number = matter.number_of(Paper::Label);
    if number.is_empty() {
        return;
    }
    let text = code::of(&number, 1);
    if let Some(drawn) = DrawnCode::new(&text).map(|drawn| drawn.modules_of(mm(MODULE))) {
        let side = drawn.side();
        let corner = (
            right - side - drawn.quiet() + mm(4.0),
            bottom - mm(4.4) - drawn.quiet() - side,
        );
        drawn.set(page, corner);
        page.text_right(corner.0 + side, bottom, STRONG, &text);
    }
}

/// Who sends it: in one line, or in two beside the logo.
fn from(matter: &Matter<'_>, page: &mut Page, (left, right): (f64, f64), top: f64) {
    let address = matter.issuer.address.join(", ");
    let name = &matter.issuer.name;
    let mut line = |y: f64, text: &str, width: f64| {
        let style = shrink(text, width, BODY);
        page.text(left, top + mm(y), style, &fit(text, width, style));
    };
    let Some(logo) = matter.logo() else {
        let all = [name.as_str(), &address].join(", ");
        line(13.6, &all, right - left);
        return;
    };
    let most = (mm(LOGO.0), mm(LOGO.1));
    let corner = right - logo.fitted(most).0;
    let room = corner - mm(4.0) - left;
    line(11.2, name, room);
    line(15.0, &address, room);
    logo.set(page, (corner, top + mm(4.5)), most);
}
