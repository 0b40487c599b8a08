//! Files dropped on the window: photos and papers go into the job's folder and onto its newest slip
//! of received parts; a job's file is opened.

use std::path::PathBuf;

use egui::Context;
use quillbore_job::slip::kind;

use super::{App, Wanted};
use crate::desk::Errand;
use crate::words::messages as words;

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
            } else {
                self.attach(path);
            }
        }
    }

    /// Has a file copied into the job's folder; its name goes on the newest slip of received parts.
    fn attach(&mut self, from: PathBuf) {
        let desk = self.desk_mut();
        if desk.job().slips_of::<kind::Received>().next().is_none() {
            desk.notice = words::NO_PARTS_RECEIVED.to_owned();
            return;
        }
        desk.wants(Errand::Attach(from));
    }
}
