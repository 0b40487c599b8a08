//! What was worked out for the rows of a job so far, by the value of what was asked.

use alloc::collections::BTreeMap;
use alloc::rc::Rc;
use core::cell::RefCell;

use super::asked::{Held, Key};
use super::chances::Chances;
use super::plans::Plans;
use crate::size::Sized;
use crate::size_choice::Choice;

/// Choices by what was asked.
pub(super) type Choices = RefCell<BTreeMap<Key, Rc<Choice>>>;

/// What was worked out so far, by the value of what was asked.
#[derive(Clone, Debug, Default)]
pub(super) struct Judgements {
    pub(super) choices: Choices,
    pub(super) of_all: Choices,
    pub(super) helds: RefCell<BTreeMap<Key, Held>>,
    pub(super) chances: Chances,
    pub(super) plans: Plans,
    /// Tubes to buy, by their step.
    pub(super) steps: RefCell<BTreeMap<u32, Option<Rc<Sized>>>>,
}
