//! Words of what is seen on the way down: when a hole is through, where the tip is looked at; in whole sentences, or in
//! short words that are explained once below a long list.

/// How much is said at each mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Told {
    /// In whole sentences.
    Whole,
    /// In short words.
    Short,
}

/// What the short words mean.
pub const LEGEND: &str = "Through: when the flush comes out at the exit and the sparking dies away (at backing: when the sparking changes or \
     dies or the flush pressure changes, not before a travel of the hole's depth), so much of travel further, then stop; the \
     setting is the most. Else: not through at the setting: draw out, see the wear, set to that tip plus that wear; the length \
     to change at grows by as much; go on. Free: so much is kept free behind the exit. First try: the setting is short on \
     purpose, see the depths that the first hole decides. Look: on the first hole draw out at that travel, see the wear, then \
     go on, the tip never beyond its limit; later holes of open marks to that travel plus the first one's whole wear at most.";

/// A setting that is meant to fall short.
pub const fn first_try(told: Told) -> &'static str {
    match told {
        Told::Whole => {
            "The setting is a first try, short on purpose: see the depths that the first hole decides."
        }
        Told::Short => "First try.",
    }
}

/// No wear brings the tip past its limit: at the setting, or at a first try.
pub const fn out_of_reach(is_first_try: bool) -> &'static str {
    if is_first_try {
        "At the first try the tip can't pass its limit."
    } else {
        "At this setting the tip can't pass its limit."
    }
}

/// Where an open hole with a wall behind it is looked at, should nothing tell that it is through.
pub fn no_sign_by(told: Told, travel: &str, tip: &str) -> String {
    match told {
        Told::Whole => format!(
            "No sign by a travel of {travel}: draw out, see where the tip is; it goes no further than {tip}."
        ),
        Told::Short => format!("No sign by {travel}: look."),
    }
}

/// What a hole goes on to that was looked at on the way.
#[derive(Clone, Copy)]
pub enum GoesOn {
    /// A depth that the first hole decides.
    ToItsDepth,
    /// Until something tells that it is through.
    ToItsSign,
    /// A first half.
    NotThrough,
}

/// Where a hole is looked at that by the plan is not done before.
pub fn first_looked_at(told: Told, travel: &str, goes_on: GoesOn) -> String {
    if told == Told::Short {
        return format!("Look at {travel}.");
    }
    let then = match goes_on {
        GoesOn::ToItsDepth => "then go on toward the setting".to_owned(),
        GoesOn::ToItsSign => format!(
            "then go on until it is through, the tip never beyond its limit, and see the wear again; later holes to a travel of \
             {travel} plus that whole wear at most"
        ),
        GoesOn::NotThrough => "then go on with the first half, not through".to_owned(),
    };
    format!("First hole: draw out at a travel of {travel}, see the wear, {then}.")
}

/// What an electrode that wears little does behind an open hole.
pub fn free_below(told: Told, length: &str) -> String {
    match told {
        Told::Whole => format!("Keep {length} free behind the exit."),
        Told::Short => format!("Free: {length}."),
    }
}

/// When an open hole is done; its setting is the most.
pub fn through(told: Told, further: &str) -> String {
    match told {
        Told::Whole => format!(
            "Through when the flush comes out at the exit and the sparking dies away: {further} of travel further, then stop; \
             the setting is the most."
        ),
        Told::Short => format!("Through: {further}."),
    }
}

/// An open hole that is not through at its setting: it wears more than planned.
pub fn not_through_at_it(told: Told, tip: &str) -> String {
    match told {
        Told::Whole => format!(
            "Not through at it: draw out, see the wear, set to {tip} plus that wear; the length to change at grows by as much; \
             go on."
        ),
        Told::Short => format!("Else: {tip}."),
    }
}

/// When an open hole with a wall close behind it is done.
pub fn through_at_wall(told: Told, further: &str) -> String {
    match told {
        Told::Whole => format!(
            "Through when the flush comes out at the exit and the sparking dies away: {further} of travel further, then stop."
        ),
        Told::Short => format!("Through: {further}."),
    }
}

/// The same where backing hides the sign.
pub fn through_backed(told: Told, further: &str, [depth, planned]: [&str; 2]) -> String {
    match told {
        Told::Whole => format!(
            "Through when the sparking changes or dies at the backing, or the flush pressure changes: by plan at a travel of about \
             {planned}, never before {depth}; in doubt draw out and see the tip. {further} of travel further, then stop; the \
             setting is the most."
        ),
        Told::Short => format!("Through, at backing: {further}."),
    }
}
