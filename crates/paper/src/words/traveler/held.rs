//! Words of what holds a part against its flush, and of the flush itself.

use quillbore_calc::job_figures::Moves;

/// What moves the part, and what must hold it: push, clamp, and what a stop takes.
pub struct Holds<'a> {
    /// The flush's greatest push.
    pub push: &'a str,
    /// What the clamp must give, where it must, and why.
    pub clamp: Option<(&'a str, Moves)>,
    /// What a stop takes sideways, where there is something.
    pub stop: Option<&'a str>,
}

/// What holds the part in a setup.
pub fn holds(Holds { push, clamp, stop }: &Holds<'_>) -> String {
    let held = match clamp {
        None => format!(" Flush pushes with up to {push}; the part's weight holds it."),
        Some((clamp, Moves::Tips)) => format!(
            " Flush pushes with up to {push} and tips the part: clamp with {clamp} above its middle at least."
        ),
        Some((clamp, Moves::Lifts)) => format!(
            " Flush that gets under the part lifts it with up to {push}, more where it can't run off: leave it a way out, clamp with \
             {clamp} above its middle at least."
        ),
        Some((clamp, Moves::Nearly)) => format!(
            " Flush pushes with up to {push}, which the part's weight barely holds: clamp with {clamp} above its middle."
        ),
    };
    match stop {
        Some(stop) => format!("{held} A stop takes {stop} sideways."),
        None => held,
    }
}

/// Nobody could work out what holds the part.
pub fn not_known(push: &str) -> String {
    format!(
        " Flush pushes with up to {push}; what holds the part against it was not worked out: clamp it."
    )
}

/// Lead of what a part rests on.
pub const RESTS_ON: &str = "Rests on: ";
/// All of its lower face.
pub const WHOLE_FACE: &str = "all of its lower face.";

/// A rectangle of its lower face.
pub fn rectangle(sides: &str, unit: &str) -> String {
    format!("{sides}\u{a0}{unit} about the middle of its lower face.")
}

/// A ring under it.
pub fn ring(across: &str, unit: &str) -> String {
    format!("a ring of {across}\u{a0}{unit} about the middle of its lower face.")
}

/// Lead of the flush.
pub const FLUSH: &str = "Flush: ";

/// Pressure, and what each electrode lets through in the open and at the bottom.
pub fn flush(pressure: &str, typed: bool, flows: &[String]) -> String {
    let whose = if typed { " (this job's own)" } else { "" };
    let flows = flows.join("; ");
    format!(
        "{pressure} at the pump{whose}. Reckoned flow, in the open and at the bottom: {flows}. Much less in the open: \
         the electrode is clogged or bent."
    )
}

/// One electrode's flow.
pub fn flow(electrode: &str, flow: &str) -> String {
    format!("{electrode} {flow}")
}

/// How many electrodes more there are.
pub fn more(count: usize) -> String {
    format!("{count} more electrodes")
}
