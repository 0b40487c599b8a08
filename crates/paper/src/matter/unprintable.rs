//! Characters of a finished paper that can't be printed as they are read, and the fields that they
//! were typed in; a logo that can't be drawn.

use std::collections::BTreeMap;

use quillbore_job::words::{english, names, slips};
use quillbore_job::{Column, Field, Language};

use super::Matter;
use super::hole::mark_of;
use crate::logo::{DrawnLogo, LogoFault};
use crate::page::{Document, Trouble};
use crate::words::customer::Words;
use crate::words::unprintable as words;

/// What a paper can't print as it is.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Unprintable {
    /// A text that has characters the papers can't print as they are read.
    Text {
        /// The field, cell or line of a slip that it was typed in.
        what: String,
        /// Why.
        trouble: Trouble,
        /// The characters, each once.
        characters: Vec<char>,
    },
    /// The shop's logo.
    Logo(LogoFault),
}

impl Unprintable {
    /// One sentence: what, where, and what to do.
    #[must_use]
    pub fn sentence(&self) -> String {
        match self {
            Self::Text {
                what,
                trouble,
                characters,
            } => words::sentence(what, *trouble, characters),
            Self::Logo(fault) => words::logo(&fault.to_string(), fault.hint()),
        }
    }
}

/// What of a finished paper can't be printed as it is read: the shop's logo, and texts by the fields
/// that they come from.
///
/// Only what reached a page counts: a field that a paper doesn't print may hold anything.
#[must_use]
pub fn of(document: &Document, matters: &[Matter<'_>]) -> Vec<Unprintable> {
    let logo = matters.first().and_then(|matter| {
        let drawn = DrawnLogo::of(matter.issuer.logo.as_deref()?);
        drawn.err().map(Unprintable::Logo)
    });
    let mut found: Vec<Unprintable> = logo.into_iter().collect();
    let mut left = document.troubles();
    if left.is_empty() {
        return found;
    }
    let on_page = left.clone();
    let several = matters.len() > 1;
    for matter in matters {
        for (what, text) in sources(matter) {
            let what = if several {
                format!("{} ({what})", matter.job.number)
            } else {
                what
            };
            for (trouble, characters) in in_text(text, &on_page) {
                for ch in &characters {
                    left.remove(ch);
                }
                let what = what.clone();
                found.push(Unprintable::Text {
                    what,
                    trouble,
                    characters,
                });
            }
        }
    }
    // Whatever was typed nowhere comes from the shop's tables: names of tubes, machines, materials.
    let mut rest: BTreeMap<Trouble, Vec<char>> = BTreeMap::new();
    for (ch, trouble) in left {
        rest.entry(trouble).or_default().push(ch);
    }
    found.extend(
        rest.into_iter()
            .map(|(trouble, characters)| Unprintable::Text {
                what: words::SHOP_TABLES.to_owned(),
                trouble,
                characters,
            }),
    );
    found
}

/// The troubled characters of a text, by trouble.
fn in_text(text: &str, on_page: &BTreeMap<char, Trouble>) -> BTreeMap<Trouble, Vec<char>> {
    let mut found: BTreeMap<Trouble, Vec<char>> = BTreeMap::new();
    for ch in text.chars() {
        if let Some(trouble) = on_page.get(&ch) {
            let characters = found.entry(*trouble).or_default();
            if !characters.contains(&ch) {
                characters.push(ch);
            }
        }
    }
    found
}

/// Every text of a job and of the shop that a paper may print, with the name of its field.
fn sources<'a>(matter: &Matter<'a>) -> Vec<(String, &'a str)> {
    let job = matter.job;
    // It is read in the shop, in whatever language the paper is.
    let phrases = &Words::of(Language::English).phrases;
    let mut all: Vec<(String, &'a str)> = vec![(words::JOB_NUMBER.to_owned(), &job.number)];
    for &field in Field::ALL {
        all.push((names::field(field).to_owned(), job.text(field)));
    }
    for (index, row) in job.rows.iter().enumerate() {
        for &column in Column::ALL {
            let mark = mark_of(row, index, phrases);
            let what = words::cell(&mark, english::column(column).head);
            all.push((what, row.cell(column).text));
        }
    }
    for slip in &job.slips {
        for line in slip.kind.lines() {
            let what = words::line(slips::kind(slip.kind), slips::line_in(slip.kind, *line));
            all.push((what, slip.line(*line).text()));
        }
    }
    let issuer = matter.issuer;
    all.push((words::SHOP_NAME.to_owned(), &issuer.name));
    let identity = &issuer.identity;
    for (what, text) in [
        (words::SHOP_CONTACT, &identity.contact),
        (words::SHOP_PHONE, &identity.phone),
        (words::SHOP_EMAIL, &identity.email),
        (words::SHOP_REGISTRATION, &identity.registration),
    ] {
        all.push((what.to_owned(), text));
    }
    for (what, texts) in [
        (words::SHOP_ADDRESS, &issuer.address),
        (words::SHOP_TERMS, &issuer.terms),
        (words::SHOP_EXCLUSIONS, &issuer.exclusions),
        (words::SHOP_CAUTIONS, &issuer.cautions),
    ] {
        all.extend(texts.iter().map(|text| (what.to_owned(), text.as_str())));
    }
    all
}
