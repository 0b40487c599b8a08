//! What differs in the orders, as papers list it.

use crate::matter::differs::Differs;
use crate::typeset::flow::Flow;
use crate::typeset::look::{BODY, STRONG};

/// What differs as a list, each part of it followed by how it was settled.
pub(crate) fn list(flow: &mut Flow, all: &[Differs]) {
    for differs in all {
        flow.dashes(BODY, differs.said.iter().map(String::as_str));
        flow.text(STRONG, &differs.settled);
    }
}
