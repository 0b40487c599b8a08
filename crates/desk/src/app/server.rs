//! A shelf that tells what other desks do, and may want a password.

use quillbore_office::office::shelf_news::ShelfNews;

use super::App;
use crate::view::Waiting;
use crate::words::{questions as words, shelf as shelf_words};

impl App {
    /// Looks at list and shop once another desk may have saved something.
    pub(super) fn look_at_news(&mut self) {
        let is_news = self.shelf_news.as_ref().is_some_and(ShelfNews::take);
        if is_news {
            self.list.look_again();
            self.look_at_shop();
        }
    }

    /// Notes the mark of a server's shelf once it was seen: where the server is away at another start, what
    /// was seen last is shown, and another shelf at its place is told.
    pub(super) fn note_shelf(&mut self) {
        let Some(mark) = self.office.shelf.known_mark() else {
            return;
        };
        let noted = self.settings.shelves.get(&self.shelf_root);
        if noted.is_none_or(|noted| noted != mark.as_str()) {
            let mark = mark.as_str().to_owned();
            self.settings.shelves.insert(self.shelf_root.clone(), mark);
            self.keep_settings();
        }
    }

    /// Takes back what says that the shelf can't be reached, once its list is read again.
    pub(super) fn hear_of_shelf(&mut self) {
        let is_away = self.list.not_read().is_some();
        if std::mem::replace(&mut self.was_away, is_away) && !is_away {
            let said = self.jobs.iter_mut().map(|job| &mut job.desk.notice);
            for notice in said.filter(|notice| shelf_words::is_of_silence(notice)) {
                shelf_words::ANSWERS_AGAIN.clone_into(notice);
            }
        }
    }

    /// Asks for the password where the shelf's server wants one, unless somebody put that off.
    pub(super) fn ask_for_password(&mut self) {
        let is_open = self.view().waiting.is_some();
        if !is_open && !self.password_put_off && self.office.shelf.wants_password() {
            let asked = Waiting::Password(String::new());
            self.view_mut().wait_for(asked);
        }
    }

    /// Goes on with the password as it was typed.
    pub(super) fn give_password(&mut self, typed: &str) {
        if typed.is_empty() {
            self.put_off_password();
            return;
        }
        self.office.shelf.give_password(typed);
        self.desk_mut().notice = words::PASSWORD_GIVEN.to_owned();
        self.list.look_again();
        self.look_at_shop();
    }

    /// Leaves the shelf alone until somebody comes back to the window.
    pub(super) fn put_off_password(&mut self) {
        self.password_put_off = true;
        self.desk_mut().notice = words::WITHOUT_PASSWORD.to_owned();
    }
}
