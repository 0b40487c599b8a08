//! The clerk: does what a desk asks of the office beside the window, one thing after the other, and
//! tells how it ended. The window's thread never waits for the shelf.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, Sender, channel};

use chrono::NaiveDate;
use quillbore_job::results::Results;
use quillbore_job::shop::Logo;
use quillbore_job::shop::sheet::{ShopChange, ShopList, ShopSheet};
use quillbore_job::{Form, Job, Paper};
use quillbore_paper::{BlankForm, Sheet};

use crate::failure::Failure;
use crate::issue::{IssuedNow, NotIssued, ToIssue};
use crate::learned::{Learned, learned};
use crate::names::{AttachmentName, JobKey};
use crate::office::queue::Queue;
use crate::office::shop::{SheetSaved, SheetStands};
use crate::office::shop_lost::InPlaceOfLost;
use crate::office::{Attached, Into, MergedWork, Office, SavedAs, Wanted, reprint};
use crate::open::OnDesk;
use crate::places;
use crate::pool::Pool;
use crate::print::Sitting;
use crate::print_out::{Printer, print_out, printers};
use crate::save::{Opened, SaveError};
use crate::shelf::Held;
use crate::shelf_at::{is_server, shelf_at};
use crate::shop_csv::TakenIn;
use crate::start;
use crate::today::Waiting;

/// What a desk asks.
#[derive(Clone, Debug)]
pub enum Request {
    /// Open a job for the desk of this name.
    Open {
        /// Which.
        wanted: Wanted,
        /// The desk's name.
        by: String,
        /// Jobs that are known to keep a quotation that this one doesn't know of.
        keepers: Vec<JobKey>,
    },
    /// Tell the other desks that a job is open here.
    Hold {
        /// Which.
        opened: Opened,
        /// The desk's name.
        by: String,
    },
    /// Save a job.
    Save {
        /// The job.
        job: Arc<Job>,
        /// What it was opened from.
        opened: Option<Opened>,
        /// Today.
        day: NaiveDate,
    },
    /// Save a job as a new one under the next number.
    SaveAsNext {
        /// The job.
        job: Arc<Job>,
        /// Today.
        day: NaiveDate,
    },
    /// Save a job under a path.
    SaveAs {
        /// The job.
        job: Arc<Job>,
        /// The path.
        path: PathBuf,
        /// Today.
        day: NaiveDate,
    },
    /// Put the other desk's work and ours together.
    Merge {
        /// Ours.
        job: Arc<Job>,
        /// What it was opened from.
        opened: Opened,
    },
    /// Issue a paper.
    Issue(Box<ToIssue>),
    /// Look whether the stored file of a paper is the one that was issued.
    Reprint {
        /// The job.
        job: Arc<Job>,
        /// Where it stands.
        opened: Opened,
        /// The paper's number.
        number: String,
    },
    /// Print papers as previews.
    Print {
        /// The job.
        job: Arc<Job>,
        /// What was computed of it.
        results: Arc<Results>,
        /// Which papers.
        papers: Vec<Paper>,
        /// The sheet.
        sheet: Sheet,
        /// Today.
        day: NaiveDate,
        /// The folder, as somebody typed it.
        folder: PathBuf,
        /// Where the job stands.
        opened: Option<Opened>,
    },
    /// Print a blank form beside its job.
    Blank {
        /// Which.
        form: BlankForm,
        /// The job.
        job: Arc<Job>,
        /// What was computed of it.
        results: Arc<Results>,
        /// The sheet.
        sheet: Sheet,
        /// Today.
        day: NaiveDate,
        /// Where the job stands.
        opened: Opened,
    },
    /// Write the threading list of a job beside it.
    Threading {
        /// The job.
        job: Arc<Job>,
        /// What was computed of it.
        results: Arc<Results>,
        /// Where the job stands.
        opened: Opened,
    },
    /// Take a file into a job's folder.
    Attach {
        /// The job.
        opened: Opened,
        /// The file.
        from: PathBuf,
    },
    /// The job with a number, where the shelf has it.
    Before {
        /// The number, as typed.
        number: String,
    },
    /// Look at the run records of the shelf.
    Records,
    /// What the run records of the shelf have taught, for the page about it.
    Learned {
        /// Today.
        day: NaiveDate,
    },
    /// Look at the shop's sheet on the shelf.
    Shop,
    /// Put something in the place of a shop's file that is lost, and look at it.
    ReplaceLostShop(InPlaceOfLost),
    /// The hours that each of these jobs still takes.
    HoursEach {
        /// Which.
        jobs: Vec<JobKey>,
        /// Today.
        day: NaiveDate,
    },
    /// Note in its job that a line of the day's list is done.
    Done {
        /// The line.
        line: Box<Waiting>,
        /// Today.
        day: NaiveDate,
        /// What the desk calls itself.
        by: String,
    },
    /// Print a file on a printer.
    PrintOut {
        /// The printer.
        printer: Printer,
        /// The file.
        file: PathBuf,
    },
    /// The names of the printers.
    Printers,
    /// What lies beside a job.
    Beside(Opened),
    /// Where a file beside a job is, to be opened.
    PlaceBeside {
        /// The job.
        opened: Opened,
        /// The file.
        name: AttachmentName,
    },
    /// Take the sample jobs away.
    RemoveSamples,
    /// Write a list of the shop's sheet into a new file.
    ListTo(Arc<ShopSheet>, ShopList, PathBuf),
    /// Read a file as a list of the shop's sheet.
    ListFrom(Arc<ShopSheet>, ShopList, PathBuf),
    /// Read a file as the shop's logo.
    Logo(PathBuf),
    /// Save the shop's sheet.
    SaveShop {
        /// What it was made of.
        base: SheetStands,
        /// The sheet.
        ours: Arc<ShopSheet>,
    },
    /// The hours of jobs that come first on a machine.
    Queue {
        /// Which.
        jobs: Vec<JobKey>,
        /// Today.
        day: NaiveDate,
    },
    /// Make the folder a shelf.
    Adopt,
    /// Look whether there is such a folder, to be the shelf from the next start on.
    Folder(PathBuf),
}

/// How what was asked ended.
#[derive(Debug)]
pub enum Reply {
    /// A job was opened, or not.
    Opened {
        /// Which was wanted.
        wanted: Wanted,
        /// The job.
        result: Result<Box<OnDesk>, Failure>,
    },
    /// Whether a job could be held.
    Held(Held),
    /// A job was saved, or not.
    Saved(Result<Opened, SaveError>),
    /// A job was saved under a path, or not.
    SavedAs {
        /// The path.
        path: PathBuf,
        /// The job there.
        result: Result<Box<SavedAs>, Failure>,
    },
    /// Two desks' work was put together, or not.
    Merged {
        /// Ours, as it was then.
        ours: Arc<Job>,
        /// Both.
        result: Result<Box<MergedWork>, Failure>,
    },
    /// A paper was issued, or not.
    Issued(Result<Box<IssuedNow>, NotIssued>),
    /// The place of a stored paper, or why it can't be shown.
    Reprint(Result<String, Failure>),
    /// The places of previews.
    Printed(Result<Vec<String>, Failure>),
    /// The place of a blank form.
    Blank(Result<String, Failure>),
    /// The place of a threading list, and what there is to say of it.
    Threading(Result<(String, Vec<String>), Failure>),
    /// The name of a file that was taken in.
    Attached(Result<AttachmentName, Failure>),
    /// The job with a number.
    Before {
        /// The number, as typed.
        number: String,
        /// The job, where the shelf has it.
        job: Option<Arc<Job>>,
    },
    /// The run records of the shelf.
    Records(Arc<Pool>),
    /// What the run records of the shelf have taught.
    Learned(Box<Learned>),
    /// The shop's sheet as it stands on the shelf, or why it can't be read.
    Shop {
        /// The sheet, or why not.
        result: Result<SheetStands, Failure>,
        /// Whether its file is lost, so that something has to take its place.
        is_lost: bool,
        /// A change that was made and that the file lacks.
        lacks: Option<ShopChange>,
    },
    /// The hours that each job still takes.
    HoursEach(BTreeMap<JobKey, f64>),
    /// The job in which a line of the day's list was noted as done.
    Done(Result<Box<Opened>, Failure>),
    /// A file was printed, or not.
    PrintedOut {
        /// The file.
        file: PathBuf,
        /// What the print command said.
        result: Result<String, Failure>,
    },
    /// The names of the printers.
    Printers(Vec<String>),
    /// What lies beside a job.
    Beside(Result<Vec<Attached>, Failure>),
    /// Where a file beside a job is.
    PlaceBeside(Result<String, Failure>),
    /// The sample jobs are gone, or not.
    SamplesRemoved(Result<(), Failure>),
    /// The file that a list was written into, or why it is none.
    ListWritten(ShopList, Result<PathBuf, Failure>),
    /// What a file says of a list.
    ListRead(ShopList, Result<TakenIn, Failure>),
    /// A file as the shop's logo, or why it is none.
    Logo(Result<Logo, Failure>),
    /// The shop's sheet was saved, or not.
    ShopSaved {
        /// Ours, as it was then.
        ours: Arc<ShopSheet>,
        /// What stands on the shelf now.
        result: Result<Box<SheetSaved>, Failure>,
    },
    /// The hours of jobs that come first on a machine.
    Queue {
        /// Which.
        jobs: Vec<JobKey>,
        /// Their hours.
        queue: Queue,
    },
    /// The folder is a shelf now, or not.
    Adopted(Result<(), Failure>),
    /// Whether there is such a folder.
    Folder {
        /// The path, as typed.
        path: PathBuf,
        /// It is there.
        is_there: bool,
    },
    /// The address of a server that is to be the shelf.
    ShelfServer {
        /// The address, as typed.
        address: PathBuf,
        /// Whether a shelf is there.
        result: Result<(), Failure>,
    },
}

/// Somebody who does what is asked, and through whom a desk hears how it ended.
pub struct Clerk {
    way: Way,
    tell: Sender<Reply>,
    replies: Receiver<Reply>,
}

#[derive(Clone)]
enum Way {
    /// On a thread.
    Thread(Sender<(Request, Sender<Reply>)>),
    /// At once, where it is asked: for tests and for commands without a window.
    AtOnce(Arc<Office>),
}

impl Clerk {
    /// A clerk on a thread, which calls `wake` whenever something is done. Nobody waits for its end:
    /// a shelf that hangs must not hold the program.
    #[must_use]
    pub fn on_thread(office: Arc<Office>, wake: impl Fn() + Send + 'static) -> Self {
        let (ask, asked) = channel::<(Request, Sender<Reply>)>();
        std::thread::spawn(move || {
            while let Ok((request, tell)) = asked.recv() {
                // The desk may have been closed meanwhile: what was asked is done all the same.
                let _ = tell.send(done(&office, request));
                wake();
            }
        });
        Self::with(Way::Thread(ask))
    }

    /// A clerk that does things where they are asked.
    #[must_use]
    pub fn at_once(office: Arc<Office>) -> Self {
        Self::with(Way::AtOnce(office))
    }

    /// The same clerk, who tells another desk.
    #[must_use]
    pub fn for_another(&self) -> Self {
        Self::with(self.way.clone())
    }

    fn with(way: Way) -> Self {
        let (tell, replies) = channel();
        Self { way, tell, replies }
    }

    /// Asks; the reply comes later, or at once.
    pub fn ask(&self, request: Request) {
        let tell = self.tell.clone();
        match &self.way {
            Way::AtOnce(office) => {
                let _ = tell.send(done(office, request));
            }
            Way::Thread(ask) => {
                // The thread ends only with the program.
                let _ = ask.send((request, tell));
            }
        }
    }

    /// What has been done since the last look.
    #[must_use]
    pub fn replies(&self) -> Vec<Reply> {
        self.replies.try_iter().collect()
    }
}

fn done(office: &Office, request: Request) -> Reply {
    match request {
        Request::Open {
            wanted,
            by,
            keepers,
        } => {
            let result = office.open(&wanted, &by, &keepers).map(Box::new);
            Reply::Opened { wanted, result }
        }
        Request::Hold { opened, by } => Reply::Held(opened.shelf.hold(&opened.key, &by)),
        Request::Save { job, opened, day } => Reply::Saved(office.save(&job, opened.as_ref(), day)),
        Request::SaveAsNext { job, day } => {
            let result = office.save_as_next(&job, day).map(Box::new);
            let path = PathBuf::from(office.shelf.place());
            Reply::SavedAs { path, result }
        }
        Request::SaveAs { job, path, day } => {
            let result = office.save_as(&job, &path, day).map(Box::new);
            Reply::SavedAs { path, result }
        }
        Request::Merge { job, opened } => {
            let result = office.merge(&job, &opened).map(Box::new);
            Reply::Merged { ours: job, result }
        }
        Request::Issue(wanted) => Reply::Issued(office.issue(&wanted).map(Box::new)),
        Request::Reprint {
            job,
            opened,
            number,
        } => Reply::Reprint(stored_place(&job, &opened, &number, office.shop().form)),
        Request::Print {
            job,
            results,
            papers,
            sheet,
            day,
            folder,
            opened,
        } => {
            let into = Into::of(&folder, opened.as_ref());
            let sitting = Sitting {
                job: &job,
                results: &results,
            };
            Reply::Printed(office.print(sitting, &papers, sheet, day, &into))
        }
        Request::Blank {
            form,
            job,
            results,
            sheet,
            day,
            opened,
        } => {
            let sitting = Sitting {
                job: &job,
                results: &results,
            };
            Reply::Blank(office.blank(form, sitting, sheet, day, &opened))
        }
        Request::Threading {
            job,
            results,
            opened,
        } => {
            let sitting = Sitting {
                job: &job,
                results: &results,
            };
            Reply::Threading(office.threading(sitting, &opened))
        }
        Request::Attach { opened, from } => Reply::Attached(office.attach(&opened, &from)),
        Request::Before { number } => {
            let job = office.job_numbered(&number);
            Reply::Before { number, job }
        }
        Request::Records => Reply::Records(Arc::new(office.records())),
        Request::Learned { day } => {
            let shop = office.shop_on(day);
            Reply::Learned(Box::new(learned(&office.records(), &shop, day)))
        }
        Request::Shop => shop_read(office, office.look_at_shop()),
        Request::ReplaceLostShop(by) => shop_read(office, office.replace_lost_shop(by)),
        Request::HoursEach { jobs, day } => Reply::HoursEach(office.hours_each(&jobs, day)),
        Request::Done { line, day, by } => {
            Reply::Done(office.note_done(&line, day, &by).map(Box::new))
        }
        Request::PrintOut { printer, file } => {
            let result = print_out(&printer, &file);
            Reply::PrintedOut { file, result }
        }
        Request::Printers => Reply::Printers(printers()),
        Request::Beside(opened) => Reply::Beside(office.beside(&opened)),
        Request::PlaceBeside { opened, name } => {
            Reply::PlaceBeside(office.place_beside(&opened, &name))
        }
        Request::RemoveSamples => {
            let root = places::sample_shelf();
            Reply::SamplesRemoved(root.and_then(|root| start::remove_samples(&root)))
        }
        Request::ListTo(sheet, list, path) => {
            let written = office.list_to(&sheet, list, &path);
            Reply::ListWritten(list, written.map(|()| path))
        }
        Request::ListFrom(sheet, list, path) => {
            Reply::ListRead(list, office.list_from(&sheet, list, &path))
        }
        Request::Logo(path) => Reply::Logo(office.logo(&path)),
        Request::SaveShop { base, ours } => {
            let result = office.save_shop(&base, &ours).map(Box::new);
            Reply::ShopSaved { ours, result }
        }
        Request::Queue { jobs, day } => {
            let queue = office.queue(&jobs, day);
            Reply::Queue { jobs, queue }
        }
        Request::Adopt => Reply::Adopted(adopt(office)),
        Request::Folder(address) if is_server(&address) => Reply::ShelfServer {
            result: on_server(office, &address),
            address,
        },
        Request::Folder(path) => Reply::Folder {
            is_there: path.is_dir(),
            path,
        },
    }
}

/// The place of a stored paper, where its file is the one that was issued.
fn stored_place(job: &Job, opened: &Opened, number: &str, form: Form) -> Result<String, Failure> {
    let (place, _) = reprint::reprint(job, opened, number, form)?;
    Ok(place)
}

/// Whether a shelf is at an address; a password that is missing is asked when it is opened.
fn on_server(office: &Office, address: &Path) -> Result<(), Failure> {
    let at = shelf_at(&office.disk, address, None, "")?;
    start::open_on_server(&at.shelf, false).map(drop)
}

fn adopt(office: &Office) -> Result<(), Failure> {
    // Without random numbers there is no mark that no other shelf has.
    office.shelf.adopt(&places::new_mark()?)?;
    Ok(())
}

fn shop_read(office: &Office, result: Result<SheetStands, Failure>) -> Reply {
    Reply::Shop {
        is_lost: result.is_err() && office.has_lost_shop(),
        lacks: result.as_ref().ok().and_then(|stands| office.lacks(stands)),
        result,
    }
}
