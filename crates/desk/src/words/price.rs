//! What is written at the price.

/// The head of the hours.
pub const HOURS: &str = "hours of the lot";

/// The hours of the machine, and its cost.
pub const MACHINE: &str = "machine";

/// The hours of labor, and their cost.
pub const LABOR: &str = "labor";

/// The head of the machine's minutes.
pub const MACHINE_MINUTES: &str = "machine minutes";

/// Minutes in the holes.
pub const IN_HOLES: &str = "in the holes";

/// Minutes of setting up.
pub const SETTING_UP: &str = "setting up";

/// Minutes of the first piece.
pub const FIRST_PIECE: &str = "first piece";

/// Minutes of loading.
pub const LOADING: &str = "loading";

/// Minutes of index and tilt.
pub const INDEX_AND_TILT: &str = "index and tilt";

/// Minutes of turning parts over.
pub const TURNING_OVER: &str = "turning over";

/// Minutes of travel.
pub const TRAVEL: &str = "travel";

/// Minutes of electrode changes.
pub const ELECTRODE_CHANGES: &str = "electrode changes";

/// Minutes of guide changes.
pub const GUIDE_CHANGES: &str = "guide changes";

/// Minutes of dressing.
pub const DRESSING: &str = "dressing";

/// Minutes for broken electrodes.
pub const BROKEN_ELECTRODES: &str = "broken electrodes";

/// The head of the costs.
pub const COST: &str = "cost of the lot";

/// The head of the price in short.
pub const IN_SHORT: &str = "Price in short";

/// The price of one part.
pub const EACH: &str = "each";

/// The price of the lot.
pub const LOT: &str = "the lot";

/// The hours of the machine, low, likely and high.
pub const HOURS_IN_SHORT: &str = "hours, low likely high";

/// The job of the shelf that is most like this one.
pub const LAST_SIMILAR: &str = "last similar";

/// The job most like this one with its price.
#[must_use]
pub fn last_similar(number: &str, each: &str, quantity: &str) -> String {
    format!("{each} at {quantity}, {number}")
}

/// The margin.
pub const MARGIN: &str = "margin on price";

/// The markup.
pub const MARKUP: &str = "markup on cost";

/// The heads of the quantities.
pub const BREAK_HEADS: [&str; 5] = ["quantity", "cost each", "price each", "margin", "the lot"];

/// What can be done with a price.
pub const TYPE_OVER: &str = "press: how it comes about; type over it: another price";

/// The name of the place where another price is typed.
#[must_use]
pub fn price_at(quantity: u32) -> String {
    format!("price each at {quantity}")
}

/// Why a price stands that was typed over the computed one.
#[must_use]
pub fn set_by(name: &str) -> String {
    match name.trim() {
        "" => "set by hand".to_owned(),
        name => format!("set by {name}"),
    }
}

/// That a price is the minimum charge.
pub const BY_MINIMUM: &str = "by the minimum charge";

/// What a price comes to for each start hole.
#[must_use]
pub fn per_hole(price: &str) -> String {
    format!("{price} for each start hole")
}

/// That a price is overruled.
pub const OVERRULED: &str = "overruled";

/// The price in one line.
#[must_use]
pub fn each_at(each: &str, quantity: &str) -> String {
    format!("{each} each at {quantity}")
}

/// What is charged once.
#[must_use]
pub fn once(what: &str, amount: &str) -> String {
    format!("once, apart: {what} {amount}")
}

/// When the lot is done, and what comes first on its machine.
#[must_use]
pub fn promised(promise: &str, first: &str) -> String {
    match first {
        "" => promise.to_owned(),
        first => format!("{promise}; {first}"),
    }
}

/// What stands for the travel where no hole has a location.
pub const NOT_LOCATED: &str = "no locations";
