//! A sink that writes down what it is given, one thing a line.

use std::fmt::Write;

use super::document::Document;
use super::item::{Path, StraightLine, TextRun};
use super::picture::Picture;
use super::role::Role;
use super::sheet::Sheet;
use super::sink::Sink;

/// The record of a document as plain text.
#[derive(Debug, Default)]
pub struct Record {
    /// What was recorded so far.
    pub text: String,
}

impl Record {
    fn note(&mut self, line: std::fmt::Arguments<'_>) {
        // Writing to a String cannot fail.
        let _ = self.text.write_fmt(line);
        self.text.push('\n');
    }
}

impl Sink for Record {
    fn page(&mut self, sheet: Sheet, number: usize, of: usize) {
        self.note(format_args!("page {number} of {of} {sheet:?}"));
    }

    fn text(&mut self, run: &TextRun) {
        let TextRun { x, y, style, text } = run;
        let (face, size) = (style.face, style.size);
        self.note(format_args!(
            "text {x:.1} {y:.1} {face:?} {size} \"{text}\""
        ));
    }

    fn line(&mut self, line: &StraightLine) {
        let (from, to, stroke) = (line.from, line.to, line.stroke);
        self.note(format_args!(
            "line {:.1} {:.1} {:.1} {:.1} {} {:?}",
            from.0, from.1, to.0, to.1, stroke.width, stroke.ink
        ));
    }

    fn path(&mut self, path: &Path) {
        self.note(format_args!(
            "path {} steps fill {:?} stroke {:?}",
            path.steps.len(),
            path.fill,
            path.stroke.map(|stroke| stroke.ink)
        ));
    }

    fn picture(&mut self, picture: &Picture) {
        let Picture { at, size, pixels } = picture;
        self.note(format_args!(
            "picture {:.1} {:.1} {:.1} {:.1} {pixels:?}",
            at.0, at.1, size.0, size.1
        ));
    }

    fn begin(&mut self, role: &Role) {
        self.note(format_args!("begin {role:?}"));
    }

    fn end(&mut self) {
        self.note(format_args!("end"));
    }
}

/// The whole document as plain text.
pub fn record(document: &Document) -> String {
    let mut record = Record::default();
    document.play(&mut record);
    record.text
}
