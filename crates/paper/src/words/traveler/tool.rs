//! What the floor reads of a broken tool.

/// Name of the section.
pub const FLOOR: &str = "On the floor";
/// Caption of the electrode.
pub const ELECTRODE: &str = "electrode";
/// Caption of the burnt hole.
pub const BURNT: &str = "burnt hole";
/// Caption of the plunges.
pub const PLUNGES: &str = "plunges";
/// Caption of the setting.
pub const SETTING: &str = "first plunge set to, from touching the stub";
/// Caption of the limit.
pub const NEVER: &str = "tip never beyond, from touching";
/// Caption of the minutes.
pub const MINUTES: &str = "minutes, likely";
/// What is done first.
pub const FIRST: &str = "Find the axis by the hole or thread, not by the stub, and take it as zero. Touch off on the stub; \
     flush hard; pick the rest out with the power off, count its pieces, and clean the thread before gauging.";
/// Blanks that the floor fills in.
pub const RECORD: [&str; 5] = [
    "minutes sparking",
    "electrode before / after",
    "tool out, whole or in pieces",
    "GO / NO-GO of the thread",
    "done by, on",
];

/// Plunges beside each other.
pub fn on_circle(plunges: &str) -> String {
    format!("{plunges}, each beside the last")
}

/// One plunge, then circles.
pub const LAYERED: &str = "1, then circles by layers";
/// One plunge.
pub const ONE: &str = "1";
