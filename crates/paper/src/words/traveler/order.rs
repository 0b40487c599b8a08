//! Words of the electrodes' order.

use quillbore_job::words::own::Rests;

/// Nothing is worked out yet about the electrodes' order.
pub const NO_LOADS: &str = "Deep holes first on a new electrode. Change when what is left of it no \
     longer reaches the setting.";
/// Name of the section.
pub const NAME: &str = "Order, and when to change the electrode";
/// Head of the electrode's number.
pub const NUMBER: &str = "No.";
/// Head of the holes on an electrode.
pub const DRILLS: &str = "drills, in this order";
/// Head of what is left of it.
pub const LEFT: &str = "then left to use";
/// Head of what becomes of that.
pub const REST: &str = "what to do with the rest";

/// What becomes of what is left of an electrode.
pub fn rest(still: &str) -> String {
    if still.is_empty() {
        "too short for this job's holes".to_owned()
    } else {
        format!("keep, mark its length: still drills {still}")
    }
}

/// What the plan rests on, and what to go by.
pub fn remark(rests: Option<Rests>) -> String {
    let mut remark = "planned at the usual wear".to_owned();
    if let Some(rests) = rests {
        remark += &format!(" ({})", super::rests_on_shortly(rests));
    }
    remark + "; measure the electrode and go by what is left of it"
}
