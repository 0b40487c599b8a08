//! Jobs that are being opened, and what happens to those on the desk while the window goes on.

use egui::Context;
use quillbore_job::Line;
use quillbore_job::slip::{kind, line};
use quillbore_office::clerk::{Reply, Request};
use quillbore_office::digest::half_joint;
use quillbore_office::names::JobKey;
use quillbore_office::open::OnDesk;
use quillbore_office::save::Opened;

use super::{App, OpenJob, Wanted};
use crate::desk::News;
use crate::spot::Spot;
use crate::view::Waiting;
use crate::words::messages as words;

impl App {
    /// Lays a job on top; it is opened where it doesn't lie on the desk yet.
    pub(super) fn open(&mut self, ctx: &Context, wanted: Wanted) {
        if let Some(at) = self.place_of(&wanted) {
            self.at = at;
            self.note_recent(ctx, &wanted);
            return;
        }
        if self.opening.contains(&wanted) {
            return;
        }
        let keepers = self.keepers(&wanted);
        self.opening.push(wanted.clone());
        self.clerk.ask(Request::Open {
            wanted,
            by: self.desk().name.clone(),
            keepers,
        });
        self.take_replies(ctx);
    }

    /// Jobs of the shelf that keep a quotation that this one doesn't know of.
    fn keepers(&self, wanted: &Wanted) -> Vec<JobKey> {
        let Wanted::Key(key) = wanted else {
            return Vec::new();
        };
        let half = half_joint(&self.list.index.lines).into_iter();
        let of_it = half.filter(|half| half.missing_in.contains(key));
        of_it.map(|half| half.keeper).collect()
    }

    /// Where a job lies on the desk.
    fn place_of(&self, wanted: &Wanted) -> Option<usize> {
        self.jobs.iter().position(|job| {
            job.desk
                .opened
                .as_ref()
                .is_some_and(|opened| self.is_it(opened, wanted))
        })
    }

    fn is_it(&self, opened: &Opened, wanted: &Wanted) -> bool {
        match wanted {
            Wanted::Key(key) => {
                opened.key == *key && opened.shelf.place() == self.office.shelf.place()
            }
            Wanted::Path(path) => opened.file() == *path,
        }
    }

    /// What a job is wanted by that stands as this.
    fn wanted_by(&self, opened: &Opened) -> Wanted {
        if opened.shelf.place() == self.office.shelf.place() {
            Wanted::Key(opened.key.clone())
        } else {
            Wanted::Path(opened.file())
        }
    }

    /// Takes in what the clerk has opened.
    pub(super) fn take_replies(&mut self, ctx: &Context) {
        for reply in self.clerk.replies() {
            match reply {
                Reply::Opened { wanted, result } => {
                    self.opening.retain(|other| *other != wanted);
                    match result {
                        Ok(opening) => self.lay_on_top(ctx, *opening),
                        Err(failure) => self.desk_mut().notice = failure.to_string(),
                    }
                }
                Reply::Adopted(Ok(())) => {
                    self.desk_mut().notice = words::IS_SHELF_NOW.to_owned();
                    self.list.look_again();
                }
                Reply::Adopted(Err(failure)) => self.desk_mut().notice = failure.to_string(),
                Reply::Shop {
                    result,
                    is_lost,
                    lacks,
                } => {
                    self.shop.is_lost = is_lost;
                    self.take_shop(result);
                    self.tell_lacks(lacks);
                }
                Reply::ShopSaved { ours, result } => self.take_shop_saved(&ours, result),
                Reply::HoursEach(hours) => self.take_hours(hours),
                Reply::Done(Ok(done)) => self.take_done(&done.key, &done.base),
                Reply::Done(Err(failure)) => self.today.notice = failure.to_string(),
                Reply::Printers(names) => self.take_printers(names),
                Reply::PrintedOut { file, result } => self.take_printed_out(&file, result),
                Reply::SamplesRemoved(result) => self.take_samples_removed(result),
                Reply::ListWritten(list, result) => self.list_written(list, result),
                Reply::ListRead(list, result) => self.take_list(list, result),
                Reply::Logo(result) => self.take_logo(result),
                Reply::Learned(told) => self.learned.told = Some(*told),
                Reply::Folder { path, is_there } => self.take_folder(ctx, path, is_there),
                Reply::ShelfServer { address, result } => {
                    self.take_server(ctx, address, result);
                }
                _ => {}
            }
        }
    }

    fn lay_on_top(&mut self, ctx: &Context, opening: OnDesk) {
        let wanted = self.wanted_by(&opening.opened);
        // Two paths may name one job, and it may have been opened while the clerk was at it.
        if let Some(at) = self.place_of(&wanted) {
            self.at = at;
        } else {
            let at = self.free_place();
            self.jobs[at].desk.take_opened(opening);
            self.at = at;
        }
        self.note_recent(ctx, &wanted);
        self.go_to_record();
        self.go_to_place();
        self.go_to_reorder();
    }

    /// Acts on what happened to the jobs on the desk.
    pub(super) fn take_news(&mut self, ctx: &Context) {
        for at in 0..self.jobs.len() {
            let Some(job) = self.jobs.get_mut(at) else {
                return;
            };
            job.desk.poll();
            let id = job.id;
            for news in job.desk.take_news() {
                self.act_on(ctx, id, news);
            }
        }
    }

    fn act_on(&mut self, ctx: &Context, id: u64, news: News) {
        let Some(at) = self.jobs.iter().position(|job| job.id == id) else {
            return;
        };
        match news {
            News::Stands(opened) => {
                let wanted = self.wanted_by(&opened);
                self.note_recent(ctx, &wanted);
                if opened.shelf.place() == self.office.shelf.place() {
                    self.list.took(&opened.key, &opened.base);
                }
                // What other desks did meanwhile is seen on this occasion.
                self.list.look_again();
            }
            News::NoShelf => {
                let jobs = self.list.index.lines.len();
                self.jobs[at].view.wait_for(Waiting::Adopt(jobs));
            }
            News::Saved => {
                if let Some(next) = self.jobs[at].after.take() {
                    // What was typed meanwhile is asked about again.
                    if self.jobs[at].desk.history.is_dirty() {
                        self.jobs[at].view.wait_for(Waiting::Guard(next));
                    } else {
                        self.at = at;
                        self.leave(ctx, next);
                    }
                }
            }
            News::NotSaved => {
                let OpenJob {
                    desk, view, after, ..
                } = &mut self.jobs[at];
                *after = None;
                if desk.changed_elsewhere {
                    view.wait_for(Waiting::Changed);
                }
            }
            News::OthersIssued(others) => {
                for (issued, opened) in others {
                    let of_it = |job: &OpenJob| {
                        let here = job.desk.opened.as_ref();
                        here.is_some_and(|here| {
                            here.key == opened.key && here.shelf.place() == opened.shelf.place()
                        })
                    };
                    let Some(other) = self.jobs.iter_mut().find(|job| of_it(job)) else {
                        continue;
                    };
                    let seen = self.joint.iter().find(|(id, _)| *id == other.id);
                    let seen =
                        seen.map_or_else(|| other.desk.job().clone(), |(_, job)| job.clone());
                    other.desk.take_in(issued, opened, &seen);
                }
                self.joint.clear();
            }
            News::FileThere(file, then) => self.file_there(at, file, then),
            News::Attached(name) => self.note_attached(at, &name),
        }
    }

    /// Writes the name of a file that was taken in on the newest slip of received parts.
    fn note_attached(&mut self, at: usize, name: &str) {
        let landed = self.jobs[at].landed.take();
        let attached = landed.into_iter().chain([words::attached(name)]);
        let said = attached.collect::<Vec<_>>().join(" ");
        let desk = &mut self.jobs[at].desk;
        let slip = desk.job().slips_of::<kind::Received>().next_back();
        let Some((id, before)) = slip.map(|s| (s.id(), s.entry(line::Files).text().to_owned()))
        else {
            desk.notice = said;
            return;
        };
        let text = format!("{before}\n{name}").trim().to_owned();
        let unit = desk.job().unit;
        let cursor = self.jobs[at].view.grid.cursor();
        let edit = Spot::Line(id, Line::Files).edit(text, unit);
        let desk = &mut self.jobs[at].desk;
        desk.edit(&edit, cursor, cursor);
        desk.notice = said;
    }
}
