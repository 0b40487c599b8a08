//! Papers and files handed to what the desktop has for them: opened, their folder shown, printed.

use std::path::{Path, PathBuf};

use egui::Context;
use quillbore_office::Failure;
use quillbore_office::clerk::Request;
use quillbore_office::print_out::Printer;

use super::App;
use crate::desk::{Errand, Then};
use crate::view::Waiting;
use crate::words::hand_over as words;

impl App {
    /// Does what was wanted with a file that is known to be the right one.
    pub(super) fn file_there(&mut self, at: usize, file: PathBuf, then: Then) {
        match then {
            Then::Tell => {}
            Then::Open => {
                let said = self.opened(&file);
                if let Some(job) = self.jobs.get_mut(at) {
                    job.desk.handed_over(said);
                }
            }
            Then::Print => self.print_file(file),
        }
    }

    /// Opens a file with whatever the desktop has for it.
    pub(super) fn open_file(&mut self, file: &Path) {
        let said = self.opened(file);
        self.desk_mut().handed_over(said);
    }

    fn opened(&mut self, path: &Path) -> String {
        match (self.open_path)(path) {
            Ok(()) => words::opened(&path.display().to_string()),
            Err(why) => words::not_opened(&path.display().to_string(), &why),
        }
    }

    /// Opens the folder of the job's papers.
    pub(super) fn open_folder(&mut self) {
        let folder = self.desk().papers_folder();
        self.open_file(&folder);
    }

    /// Prints a file; which printer is asked the first time.
    pub(super) fn print_file(&mut self, file: PathBuf) {
        if self.settings.printer.is_none() {
            self.to_print = Some(file);
            self.clerk.ask(Request::Printers);
            return;
        }
        let printer = Printer {
            command: self.settings.print_command.clone(),
            name: self.settings.printer.clone().unwrap_or_default(),
        };
        self.desk_mut().handed_over(words::printing(&printer.name));
        self.clerk.ask(Request::PrintOut { printer, file });
    }

    /// Asks which printer it is to be, of those that there are.
    pub(super) fn take_printers(&mut self, names: Vec<String>) {
        let Some(file) = self.to_print.take() else {
            return;
        };
        let only = match names.as_slice() {
            [one] => one.clone(),
            _ => String::new(),
        };
        self.wait_for(Waiting::Printer(only, file, names));
    }

    /// Goes on with what waited for a printer to be chosen.
    pub(super) fn printer_chosen(&mut self, ctx: &Context, name: &str, file: PathBuf) {
        let name = name.trim().to_owned();
        self.change(ctx, |settings| settings.printer = Some(name));
        self.print_file(file);
    }

    /// Tells how printing ended.
    pub(super) fn take_printed_out(&mut self, file: &Path, result: Result<String, Failure>) {
        let name = file.file_name().unwrap_or_default().to_string_lossy();
        self.desk_mut().handed_over(match result {
            Ok(said) => words::printed_out(&name, &said),
            Err(failure) => failure.to_string(),
        });
    }

    /// Asks for a file to attach.
    pub(super) fn ask_to_attach(&mut self) {
        self.wait_for(Waiting::AttachPath(String::new()));
    }

    /// Has a file copied into the job's folder.
    pub(super) fn attach(&mut self, from: PathBuf) {
        self.desk_mut().wants(Errand::Attach(from));
    }
}
