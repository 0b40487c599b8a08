//! Where pages go: a PDF, the window's preview, or a plain text record for tests.

use super::item::{Path, StraightLine, TextRun};
use super::picture::Picture;
use super::role::Role;
use super::sheet::Sheet;

/// What an engine must be able to do to show a paper.
pub trait Sink {
    /// Begins page `number` of `of`.
    fn page(&mut self, sheet: Sheet, number: usize, of: usize);
    /// Sets a text.
    fn text(&mut self, run: &TextRun);
    /// Draws a straight line.
    fn line(&mut self, line: &StraightLine);
    /// Draws an outline.
    fn path(&mut self, path: &Path);
    /// Puts a picture.
    fn picture(&mut self, picture: &Picture);
    /// Begins a part of the paper.
    fn begin(&mut self, role: &Role);
    /// Ends the part that was begun last.
    fn end(&mut self);
}
