//! What the clerk is asked for: errands one after the other, each for the job as it stands when its
//! turn has come.

use std::sync::Arc;

use quillbore_office::clerk::Request;
use quillbore_office::issue::{Seen, ToIssue};
use quillbore_office::shelf::Held;

use super::errand::Errand;
use super::state::Desk;
use crate::words::desk as words;

impl Desk {
    /// Tells the other desks that this job is open here, where it stands somewhere.
    pub(super) fn hold(&mut self) {
        // What was held is let go of first: it may be the same job.
        self.held = Held::Unknown;
        if let Some(opened) = &self.opened {
            self.clerk.ask(Request::Hold {
                opened: opened.clone(),
                by: self.name.clone(),
            });
        }
    }

    /// Asks what lies beside the job.
    pub(super) fn look_beside(&self) {
        if let Some(opened) = &self.opened {
            self.clerk.ask(Request::Beside(opened.clone()));
        }
    }

    /// Asks the clerk for what comes next, where nothing is under way; whether there was something.
    pub(super) fn next_errand(&mut self) -> bool {
        if self.busy.is_some() {
            return false;
        }
        let Some(errand) = self.todo.pop_front() else {
            return false;
        };
        if let Some(request) = self.request(errand) {
            self.busy = Some(self.history.state());
            self.clerk.ask(request);
        }
        true
    }

    /// A paper that was withdrawn in what stands on the shelf doesn't stand again without a trace.
    fn keep_withdrawals(&mut self) {
        let saved = self.opened.as_ref().map(|opened| &opened.base);
        if let Some(job) = saved.and_then(|saved| self.job().with_withdrawals_of(saved)) {
            self.history.put_for_good(job);
            self.across_merges.clear();
            self.refresh();
        }
    }

    /// The request for an errand; none where there is nothing that it could be about.
    fn request(&mut self, errand: Errand) -> Option<Request> {
        // What waited for something else to be done is issued as somebody saw it, or not at all.
        if let (Errand::Issue { paper, .. }, Some((_, pressed))) = (&errand, self.issuing)
            && pressed != self.history.state()
        {
            self.issuing = None;
            self.notice = words::not_issued_as_pressed(*paper);
            return None;
        }
        if matches!(errand, Errand::Save) {
            self.notice = words::SAVING.to_owned();
        }
        if matches!(errand, Errand::Save | Errand::Issue { .. }) {
            self.keep_withdrawals();
        }
        let job = Arc::clone(self.job());
        let (day, opened) = (self.day, self.opened.clone());
        match errand {
            Errand::Save => Some(Request::Save { job, opened, day }),
            Errand::SaveAs(path) => Some(Request::SaveAs { job, path, day }),
            Errand::SaveAsNext => Some(Request::SaveAsNext { job, day }),
            Errand::Merge => {
                let opened = opened?;
                Some(Request::Merge { job, opened })
            }
            Errand::Issue {
                paper,
                sheet,
                others,
            } => Some(Request::Issue(Box::new(ToIssue {
                paper,
                own: Seen { job, opened },
                others,
                sheet,
                day,
                lessons: Arc::clone(&self.shop.tables.lessons),
                without_records: self.is_without_records(),
                shop: self.shop_version,
            }))),
            Errand::OpenBeside(name) => {
                let opened = opened?;
                Some(Request::PlaceBeside { opened, name })
            }
            Errand::Reprint(number, then) => {
                let opened = opened?;
                self.then = then;
                Some(Request::Reprint {
                    job,
                    opened,
                    number,
                })
            }
            Errand::Print {
                papers,
                sheet,
                folder,
            } => Some(Request::Print {
                job,
                results: Arc::clone(&self.results),
                papers,
                sheet,
                day,
                folder,
                opened,
            }),
            Errand::Blank(form, sheet) => match opened {
                Some(opened) => Some(Request::Blank {
                    form,
                    job,
                    results: Arc::clone(&self.results),
                    sheet,
                    day,
                    opened,
                }),
                None => {
                    self.todo.push_front(Errand::Blank(form, sheet));
                    Some(Request::Save { job, opened, day })
                }
            },
            Errand::Threading => match opened {
                Some(opened) => Some(Request::Threading {
                    job,
                    results: Arc::clone(&self.results),
                    opened,
                }),
                None => {
                    self.todo.push_front(Errand::Threading);
                    Some(Request::Save { job, opened, day })
                }
            },
            Errand::Attach(from) => match opened {
                Some(opened) => Some(Request::Attach { opened, from }),
                None => {
                    // It has no folder yet: first the job, then the file.
                    self.todo.push_front(Errand::Attach(from));
                    Some(Request::Save { job, opened, day })
                }
            },
        }
    }
}
