//! Asking for a file or a folder, behind a small trait, so that tests script the answers.

use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, TryRecvError, channel};

use quillbore_job::shop::sheet::ShopList;
use quillbore_office::hole_file::ENDINGS as HOLE_ENDINGS;

use crate::words::window as words;

/// What a dialog is asked for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PathQuestion {
    /// A job's file to open.
    OpenJob {
        /// Where to begin.
        folder: PathBuf,
    },
    /// Where to save a job.
    SaveJob {
        /// Where to begin.
        folder: PathBuf,
        /// The name to begin with.
        name: String,
    },
    /// A file to attach to a job.
    Attach {
        /// Where to begin.
        folder: PathBuf,
    },
    /// A file to take holes from.
    Holes {
        /// Where to begin.
        folder: PathBuf,
    },
    /// A file for a list of the shop.
    List {
        /// Which list.
        list: ShopList,
        /// Where to begin.
        folder: PathBuf,
    },
    /// The file of the shop's logo.
    Logo {
        /// Where to begin.
        folder: PathBuf,
    },
    /// A folder for papers.
    PapersFolder {
        /// Where to begin.
        folder: PathBuf,
    },
}

/// How a dialog ended.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PathAnswer {
    /// This file or folder.
    Chosen(PathBuf),
    /// No choice, or no dialog on this machine: the two look the same.
    None,
}

/// Asks the user for files and folders without holding up the window.
pub trait Dialogs {
    /// Begins to ask; a question asked before is forgotten.
    fn ask(&mut self, question: PathQuestion);
    /// The answer, once there is one.
    fn answer(&mut self) -> Option<(PathQuestion, PathAnswer)>;
}

/// The desktop's own dialogs, each on a thread of its own.
#[derive(Default)]
pub struct DesktopDialogs {
    asked: Option<(PathQuestion, Receiver<Option<PathBuf>>)>,
    wake: Option<egui::Context>,
}

impl DesktopDialogs {
    /// Dialogs that wake this window when they are answered.
    #[must_use]
    pub fn new(wake: egui::Context) -> Self {
        Self {
            asked: None,
            wake: Some(wake),
        }
    }
}

impl Dialogs for DesktopDialogs {
    fn ask(&mut self, question: PathQuestion) {
        let (sender, receiver) = channel();
        let wake = self.wake.clone();
        let to_show = question.clone();
        self.asked = Some((question, receiver));
        std::thread::spawn(move || {
            // If the window closed meanwhile, nobody waits for the answer.
            let _ = sender.send(show(&to_show));
            if let Some(ctx) = wake {
                ctx.request_repaint();
            }
        });
    }

    fn answer(&mut self) -> Option<(PathQuestion, PathAnswer)> {
        let (_, receiver) = self.asked.as_ref()?;
        let chosen = match receiver.try_recv() {
            Ok(chosen) => chosen,
            Err(TryRecvError::Empty) => return None,
            Err(TryRecvError::Disconnected) => None,
        };
        let (question, _) = self.asked.take()?;
        Some((
            question,
            chosen.map_or(PathAnswer::None, PathAnswer::Chosen),
        ))
    }
}

fn show(question: &PathQuestion) -> Option<PathBuf> {
    let dialog = |title: &str, folder: &Path| {
        rfd::FileDialog::new()
            .set_title(title)
            .set_directory(folder)
    };
    match question {
        PathQuestion::OpenJob { folder } => dialog(words::OPEN_JOB, folder)
            .add_filter(words::JOB_FILES, &["ron"])
            .pick_file(),
        PathQuestion::SaveJob { folder, name } => dialog(words::SAVE_JOB, folder)
            .add_filter(words::JOB_FILES, &["ron"])
            .set_file_name(name)
            .save_file(),
        PathQuestion::Attach { folder } => dialog(words::ATTACH, folder).pick_file(),
        PathQuestion::Holes { folder } => dialog(words::HOLES, folder)
            .add_filter(words::HOLE_FILES, HOLE_ENDINGS)
            .pick_file(),
        PathQuestion::List { folder, .. } => dialog(words::LIST_FILE, folder)
            .add_filter(words::TABLES, &["csv", "txt", "tsv"])
            .pick_file(),
        PathQuestion::Logo { folder } => dialog(words::LOGO, folder)
            .add_filter(words::PICTURES, &["png", "svg"])
            .pick_file(),
        PathQuestion::PapersFolder { folder } => dialog(words::PAPERS_FOLDER, folder).pick_folder(),
    }
}
