//! What the rows of the shop are called that an issued paper rests on. These names stand in its entry
//! and are looked for among today's: whoever changes one makes old papers rest on nothing.

use chrono::NaiveDate;

/// What an hour of labor costs.
pub(crate) const LABOR: &str = "labor per hour";

/// What an hour of dielectric costs.
pub(crate) const DIELECTRIC: &str = "dielectric per hour";

/// What an hour of power costs.
pub(crate) const POWER: &str = "power per hour";

/// The margin on price.
pub(crate) const MARGIN: &str = "margin";

/// What a lot costs at least.
pub(crate) const MINIMUM_CHARGE: &str = "minimum charge";

/// The step that prices are rounded to.
pub(crate) const PRICE_STEP: &str = "price step";

/// The share of cost for what is done again.
pub(crate) const REDO: &str = "share for redoing";

/// The share of cost for the customer's part at risk.
pub(crate) const PART_RISK: &str = "share for the part's risk";

/// How fast a material is drilled.
pub(crate) const FEED: &str = "feed, mm/min";

/// How much of a tube a material takes.
pub(crate) const WEAR: &str = "wear, mm per mm";

/// What an hour of a machine costs.
pub(crate) fn machine_rate(machine: &str) -> String {
    format!("{machine} per hour")
}

/// The share of its time that somebody stands beside a machine.
pub(crate) fn attended(machine: &str) -> String {
    format!("{machine} attended")
}

/// The low end of a material's feed or wear.
pub(crate) fn low(material: &str, what: &str) -> String {
    format!("{material} {what}, P10")
}

/// The high end of a material's feed or wear.
pub(crate) fn high(material: &str, what: &str) -> String {
    format!("{material} {what}, P90")
}

/// What a tube costs.
pub(crate) fn tube_price(tube: &str) -> String {
    format!("{tube} each")
}

/// How long a tube is.
pub(crate) fn tube_length(tube: &str) -> String {
    format!("{tube} length, mm")
}

/// What one unit of the shop's currency is in the quotation's.
pub(crate) const EXCHANGE_RATE: &str = "exchange rate";

/// The same with the currencies, and the day that it is of.
pub(crate) fn exchange_of(day: NaiveDate, own: &str, currency: &str) -> String {
    format!("1 {own} in {currency}, of {day}")
}

/// What the expected cost lies above the likely one, since so much is not known.
pub(crate) const NOT_YET_KNOWN: &str = "not yet known, % on the cost";

/// How many run records of the same material stand behind it.
pub(crate) const RECORDS: &str = "run records of this material";

/// What run records make of the sparking minutes of the lot.
pub(crate) const MINUTES_BY_RUNS: &str = "minutes by this shop's runs, x the start values";

/// What run records make of the wear of the lot, whether or not one of them measured a length.
pub(crate) const fn wear_by_runs(measured: bool) -> &'static str {
    if measured {
        "wear by this shop's runs, x the start values"
    } else {
        "wear as the minutes suggest it (no run measured a length), x the start values"
    }
}
