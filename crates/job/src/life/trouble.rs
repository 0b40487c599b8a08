//! Non-conformances that are open.

use crate::pinned::slip::lists::{kind, line};
use crate::pinned::slip::view::View;

/// Whether a non-conformance is open and nobody said why to go on.
#[must_use]
pub fn is_open(trouble: View<'_, kind::Nonconformance>) -> bool {
    trouble.get(line::Closed).is_none() && trouble.get(line::GoOn).is_empty()
}

/// Whether an open non-conformance keeps parts from being delivered: nobody said why not.
#[must_use]
pub fn holds_delivery(trouble: View<'_, kind::Nonconformance>) -> bool {
    trouble.get(line::Closed).is_none() && trouble.get(line::SendBecause).is_empty()
}
