//! Whom a paper goes to, and how the shop that it comes from is reached.

use quillbore_job::Field;

use crate::matter::{Issuer, Matter};
use crate::page::mm;
use crate::typeset::flow::Flow;
use crate::typeset::form::{self, Captioned};
use crate::typeset::look::CAPTION;
use crate::typeset::wrap::shrink;

/// Where the shop is and how it is reached, at the right under its name, without the first lines that
/// stand there already.
pub(crate) fn issuer(matter: &Matter<'_>, flow: &mut Flow, stand: usize) {
    let body = flow.body();
    let lines = lines(matter.issuer).split_off(stand);
    if lines.is_empty() {
        flow.take(mm(1.6));
    }
    for (index, text) in lines.iter().enumerate() {
        let style = shrink(text, body.width(), CAPTION);
        if style.measure(text) > body.width() {
            flow.text(CAPTION, text);
            continue;
        }
        let height = if index + 1 == lines.len() { 5.0 } else { 3.4 };
        let line = flow.take(mm(height));
        flow.page()
            .text_right(body.right, line + mm(3.0), style, text);
    }
}

/// Address, ways to reach it, and the number that papers have to show; the first line stands always.
pub(crate) fn lines(issuer: &Issuer) -> Vec<String> {
    let identity = &issuer.identity;
    let ways = [&identity.contact, &identity.phone, &identity.email];
    let ways = ways.map(|way| way.trim()).into_iter();
    let ways: Vec<&str> = ways.filter(|way| !way.is_empty()).collect();
    let mut lines = vec![issuer.address.join(", ")];
    let more = [ways.join(", "), identity.registration.trim().to_owned()];
    lines.extend(more.into_iter().filter(|line| !line.is_empty()));
    lines
}

/// The customer's address, whom it is for, and the number that the shop has there; nothing where none
/// of it is known.
pub(crate) fn customer(matter: &Matter<'_>, flow: &mut Flow, contact: Contact) {
    let words = &matter.words().who;
    let address = address(matter);
    let number = matter.text(Field::OurNumber);
    let mut row = Vec::new();
    if !address.is_empty() {
        row.push(Captioned::filled(words.address, &address, 4.0));
    }
    let attention = matter.text(Field::Contact);
    if contact == Contact::Named && !attention.is_empty() {
        row.push(Captioned::filled(words.attention, attention, 3.0));
    }
    if !number.is_empty() {
        let caption = (words.our_number)(matter.text(Field::Customer));
        row.push(Captioned::filled(&caption, number, 2.4));
    }
    if !row.is_empty() {
        form::fields(flow, &row);
    }
}

/// The customer's address in one line.
pub(crate) fn address(matter: &Matter<'_>) -> String {
    let lines = matter.text(Field::CustomerAddress).lines().map(str::trim);
    let lines: Vec<&str> = lines.filter(|line| !line.is_empty()).collect();
    lines.join(", ")
}

/// Whether whom a paper is for is named with the address.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Contact {
    /// With the address.
    Named,
    /// Elsewhere on the paper.
    Elsewhere,
}
