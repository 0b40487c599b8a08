//! The language that papers for a customer are printed in.

use crate::ground::list::list;

list! {
    /// A language of the papers that go to a customer; its name is what is typed.
    #[derive(Default)]
    pub enum Language {
        /// Its tag by BCP 47.
        tag: &'static str,
    }

    /// English: the shop's own.
    #[default]
    English "English" "en";
    /// German, as in Germany.
    German "German" "de-DE";
}
