//! What a desk wants done about its job: asked of the clerk one after the other, each for the job as
//! it stands when its turn has come.

use std::path::PathBuf;
use std::sync::Arc;

use quillbore_job::Paper;
use quillbore_office::clerk::Request;
use quillbore_office::issue::{Seen, ToIssue};
use quillbore_paper::Sheet;

use super::Desk;
use crate::grid::CellAt;

/// Something a desk wants done about its job.
#[derive(Clone, Debug)]
pub enum Errand {
    /// Save it.
    Save,
    /// Save it under a path.
    SaveAs(PathBuf),
    /// Save it as a new job under the next number.
    SaveAsNext,
    /// Put the other desk's work and this one's together.
    Merge,
    /// Issue a paper of it, or a quotation of others too.
    Issue {
        /// Which.
        paper: Paper,
        /// The sheet.
        sheet: Sheet,
        /// The other jobs.
        others: Vec<Seen>,
    },
    /// Look at the stored file of a paper.
    Reprint(String),
    /// Print previews into a folder.
    Print {
        /// Which.
        papers: Vec<Paper>,
        /// The sheet.
        sheet: Sheet,
        /// The folder, as it was typed.
        folder: PathBuf,
    },
    /// Take a file into its folder; it is saved first where it stands nowhere.
    Attach(PathBuf),
}

impl Desk {
    /// Has something done about the job; how it ends is told in the notice, and as news.
    pub fn wants(&mut self, errand: Errand) {
        self.todo.push_back(errand);
        self.next_errand();
    }

    /// Saves the job where it was opened, or on the shelf under the next number.
    pub fn save(&mut self) {
        // What waits to be saved is saved as it stands then: asking twice is asking once.
        let waits = self
            .todo
            .iter()
            .any(|errand| matches!(errand, Errand::Save));
        if !waits {
            self.wants(Errand::Save);
        }
    }

    /// Puts the other desk's work and this one's together and saves it; until that is done it can be
    /// undone, with the cursor where it is now.
    pub fn merge(&mut self, cursor: CellAt) {
        self.cursor = cursor;
        self.wants(Errand::Merge);
    }

    /// Saves what another desk's save is in the way of as a new job, under the next number.
    pub fn save_as_next(&mut self) {
        self.wants(Errand::SaveAsNext);
    }

    /// The job as it stands, with what it rests on.
    #[must_use]
    pub fn seen(&self) -> Seen {
        Seen {
            job: Arc::clone(self.job()),
            opened: self.opened.clone(),
        }
    }

    /// The folder that previews of this job go to, unless another is named.
    #[must_use]
    pub fn papers_folder(&self) -> PathBuf {
        match &self.opened {
            Some(opened) => opened.folder(),
            None => PathBuf::from(self.shelf()).join("papers"),
        }
    }

    /// Asks the clerk for what comes next, where nothing is under way.
    pub(super) fn next_errand(&mut self) {
        if self.busy.is_some() {
            return;
        }
        let Some(errand) = self.todo.pop_front() else {
            return;
        };
        let request = self.request(errand);
        if let Some(request) = request {
            self.busy = Some(self.history.state());
            self.clerk.ask(request);
        }
        self.take_replies();
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
            }))),
            Errand::Reprint(number) => {
                let opened = opened?;
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
