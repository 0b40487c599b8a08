//! Files dropped on the window: those that may have holes in them are read and shown before they land; mail
//! and photos go into the job's folder, and onto its newest slip of received parts where there is one; a job's
//! file is opened.

use std::path::PathBuf;

use super::{App, Wanted};
use egui::Context;
use quillbore_office::hole_file::may_have_holes;

impl App {
    /// Takes in what was dropped on the window since the last frame.
    pub(super) fn take_dropped(&mut self, ctx: &Context) {
        let dropped = ctx.input(|input| input.raw.dropped_files.clone());
        let paths: Vec<PathBuf> = dropped.iter().map(|file| file.path().to_owned()).collect();
        for path in paths {
            if path.extension().is_some_and(|end| end == "ron") {
                self.open(ctx, Wanted::Path(path));
            } else if self.shop.open {
                self.drop_logo(path);
            } else if may_have_holes(&path) {
                self.take_holes_of(path, true);
            } else {
                self.attach(path);
            }
        }
    }
}
