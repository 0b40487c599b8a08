//! What the desk remembers: settings changed and kept, the jobs opened last.

use std::path::{Path, PathBuf};

use egui::{Context, Theme};
use quillbore_office::clerk::Request;
use quillbore_office::shelf_at::is_server;
use quillbore_office::{Failure, places};

use super::{App, Wanted};
use crate::settings::Settings;
use crate::view::{SettingChange, SettingDrafts};
use crate::words::messages as words;

impl App {
    /// Shows what the settings say.
    pub(super) fn dress(&self, ctx: &Context) {
        ctx.set_theme(if self.settings.dark {
            Theme::Dark
        } else {
            Theme::Light
        });
        ctx.set_zoom_factor(self.settings.zoom);
    }

    /// Keeps the jobs opened last, the newest first.
    pub(super) fn note_recent(&mut self, ctx: &Context, wanted: &Wanted) {
        const MOST: usize = 5;
        let text = wanted.text();
        if self.settings.recent.first() == Some(&text) {
            return;
        }
        self.change(ctx, |settings| {
            settings.recent.retain(|other| *other != text);
            settings.recent.insert(0, text);
            settings.recent.truncate(MOST);
        });
    }

    /// Opens the settings, or closes them.
    pub(super) fn lay_out_settings(&mut self) {
        let drafts = SettingDrafts {
            desk_name: self.settings.desk_name.clone(),
            shelf: self.desk().shelf(),
            printer: self.settings.printer.clone().unwrap_or_default(),
            print_command: self.settings.print_command.clone(),
        };
        let view = self.view_mut();
        view.settings = match view.settings {
            Some(_) => None,
            None => Some(drafts),
        };
    }

    /// Changes one setting.
    pub(super) fn set(&mut self, ctx: &Context, setting: SettingChange) {
        match setting {
            SettingChange::Letter(letter) => self.change(ctx, |settings| settings.letter = letter),
            SettingChange::DeskName(name) => {
                for job in &mut self.jobs {
                    job.desk.name.clone_from(&name);
                }
                self.change(ctx, |settings| settings.desk_name = name);
            }
            SettingChange::Printer(name) => {
                let name = name.trim().to_owned();
                let known = self.settings.printer.clone().unwrap_or_default();
                // Leaving the empty line is no choice.
                if name != known {
                    self.change(ctx, |settings| settings.printer = Some(name));
                }
            }
            SettingChange::PrintCommand(command) => {
                let command = command.trim().to_owned();
                self.change(ctx, |settings| settings.print_command = command);
            }
            SettingChange::Shelf(folder) => {
                let folder = folder.trim();
                if folder != self.desk().shelf() {
                    let path = match is_server(Path::new(folder)) {
                        true => PathBuf::from(folder),
                        false => places::typed(folder),
                    };
                    self.clerk.ask(Request::Folder(path));
                }
            }
        }
    }

    /// Takes in whether there is a folder that is to be the shelf.
    pub(super) fn take_folder(&mut self, ctx: &Context, path: PathBuf, is_there: bool) {
        if is_there {
            self.change(ctx, |settings| settings.shelf = Some(path));
            self.desk_mut().notice = words::SHELF_AT_NEXT_START.to_owned();
        } else {
            self.desk_mut().notice = words::no_such_folder(path.display());
        }
    }

    /// Takes in whether a shelf is at an address that was typed.
    pub(super) fn take_server(
        &mut self,
        ctx: &Context,
        address: PathBuf,
        result: Result<(), Failure>,
    ) {
        match result {
            Ok(()) => self.take_folder(ctx, address, true),
            Err(failure) => self.desk_mut().notice = failure.to_string(),
        }
    }

    /// Shows everything larger or smaller.
    pub(super) fn zoom(&mut self, ctx: &Context, zoom: impl Fn(f32) -> f32) {
        self.change(ctx, |settings| settings.zoom = zoom(settings.zoom));
    }

    /// Changes the settings, shows them and keeps them.
    pub(super) fn change(&mut self, ctx: &Context, change: impl FnOnce(&mut Settings)) {
        change(&mut self.settings);
        self.dress(ctx);
        self.keep_settings();
    }

    /// Keeps the settings as they are.
    pub(super) fn keep_settings(&mut self) {
        if let Some(path) = &self.settings_path
            && let Err(error) = self.settings.write(path)
        {
            let said = words::settings_not_kept(error, path.display());
            self.desk_mut().notice = said;
        }
    }
}
