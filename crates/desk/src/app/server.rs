//! A shelf that tells what other desks do, and may want a password.

use quillbore_office::office::shelf_news::ShelfNews;

use super::App;
use crate::view::Waiting;
use crate::words::questions as words;

impl App {
    /// Looks at list and shop once another desk may have saved something.
    pub(super) fn look_at_news(&mut self) {
        let is_news = self.shelf_news.as_ref().is_some_and(ShelfNews::take);
        if is_news {
            self.list.look_again();
            self.look_at_shop();
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
