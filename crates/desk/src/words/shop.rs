//! What is written on the page of the shop.

use std::path::Path;

use quillbore_calc::learn::Learns;
use quillbore_job::Form;
use quillbore_job::shop::Logo;
use quillbore_job::shop::LogoKind;
use quillbore_job::shop::sheet::{ShopChange, ShopList};
use quillbore_job::words::shop_sheet as words;

use crate::shop::Part;

/// The name of the page.
pub const PAGE: &str = "The shop";

/// What a change of the shop's currency leaves as it was, and what it doesn't.
#[must_use]
pub fn other_currency(was: &str, is: &str) -> String {
    format!(
        "The currency was {was}: rates and prices here count as {is} now; amounts in jobs stay in {was}."
    )
}

/// Closes the page.
pub const CLOSE: &str = "close";

/// The key that closes it.
pub const ESC: &str = "Esc";

/// While the sheet is on its way.
pub const LOOKING: &str = "Looking at the shelf \u{2026}";

/// While it is being saved.
pub const SAVING: &str = "Saving \u{2026}";

/// Tries to save once more.
pub const SAVE_AGAIN: &str = "try again";

/// When what is typed counts.
pub const COUNTS_AT_ONCE: &str = "What is typed here is saved at once and counts for all desks; papers that were issued stay as they are. Pencil: as in the samples.";

/// That the shelf's sheet counts for nothing in this window.
pub const OVERRULED: &str = "This window was started with --shop: it goes by that file. What is typed here is saved, and counts without it.";

/// Shows the samples of a long list.
pub const SHOW_SAMPLES: &str = "show the samples";

/// Leaves the samples of a list out.
pub const SAMPLES_OUT: &str = "leave out the samples";

/// Brings the samples of a list back.
pub const SAMPLES_BACK: &str = "bring the samples back";

/// Deletes the row one is at.
pub const DELETE_ROW: &str = "delete row";

/// Takes what was typed in a row of the program's own out again.
pub const AS_SAMPLE: &str = "as in the samples again";

/// That something of the sheet is not used.
pub const NOT_USED: &str = "check";

/// Leads to what a note speaks of.
pub const GO_THERE: &str = "go there";

/// That two desks typed two things.
pub const TWO_DESKS: &str = "check";

/// The other desk's stands.
pub const TAKE_THEIRS: &str = "take theirs";

/// Ours stands.
pub const KEEP_OURS: &str = "keep mine";

/// That nothing was changed yet.
pub const NO_CHANGES: &str = "Nothing was changed yet: everything is as in the samples.";

/// Before the logo.
pub const LOGO: &str = "logo";

/// What is typed for the logo.
pub const LOGO_PATH: &str =
    "file of the logo, PNG or SVG: type its path and Enter, or drop it on the page";

/// Chooses the file of the logo.
pub const CHOOSE_LOGO: &str = "browse";

/// The file of a list.
pub const LIST_FILE: &str = "CSV file";

/// What that is for.
pub const LIST_FILE_ABOUT: &str =
    "a table of this list, to be written for a spreadsheet or to be taken in from one";

/// Takes a file in.
pub const LIST_FROM: &str = "take in";

/// Writes the list into a new file.
pub const LIST_TO: &str = "write";

/// That none is named.
pub const NO_LIST_FILE: &str = "Type the file's path in the line first, or browse.";

/// Where a list was written.
#[must_use]
pub fn list_written(list: ShopList, path: &Path) -> String {
    format!("{}: written to {}.", words::list(list), path.display())
}

/// Deletes the logo.
pub const DELETE_LOGO: &str = "delete the logo";

/// That there is none.
pub const NO_LOGO: &str = "none: papers begin with the name";

/// What kind of logo there is.
#[must_use]
pub fn logo(logo: &Logo) -> String {
    let kind = match logo.kind() {
        LogoKind::Png => "PNG",
        LogoKind::Svg => "SVG",
    };
    let kib = logo.bytes().len().div_ceil(1024);
    format!("{kind}, {kib} KB, on all papers")
}

/// The name of a part.
#[must_use]
pub const fn part(part: Part) -> &'static str {
    match part {
        Part::List(ShopList::DaysOff) => "calendar and days off",
        Part::List(list) => words::list(list),
        Part::Texts => "texts of papers",
        Part::Identity => "name, currency, logo",
        Part::Changes => "changes",
    }
}

/// The word that leads to a part, for whoever can't see where it stands.
#[must_use]
pub fn go_to(part: &str) -> String {
    format!("go to {part}")
}

/// A word of a list, told from the same word of the others.
#[must_use]
pub fn of_list(word: &str, list: &str) -> String {
    format!("{word}: {list}")
}

/// A text of several lines with the row that it belongs to.
#[must_use]
pub fn of_row(column: &str, row: &str) -> String {
    match row {
        "" => format!("{column} (of the row above, once it has a name)"),
        row => format!("{column} of {row}"),
    }
}

/// One change: the day, the desk, what.
#[must_use]
pub fn change(change: &ShopChange, form: Form) -> String {
    let by = &change.by;
    format!("{}  {by}  {}", form.day(change.day), change.what)
}

/// What is still as in the samples.
#[must_use]
pub fn still(still: &[String]) -> String {
    match still {
        [] => "Nothing that counts is a sample any more.".to_owned(),
        still => format!("Still samples: {}.", still.join(", ")),
    }
}

/// The sentence in the foot: the card in force, what is short.
#[must_use]
pub fn foot(
    valid_from: &str,
    own_rates: bool,
    machines: usize,
    [short, not_used]: [usize; 2],
) -> String {
    let rates = if own_rates {
        format!("Rates of {valid_from}.")
    } else {
        "Sample rates.".to_owned()
    };
    let machines = match machines {
        1 => "1 machine.".to_owned(),
        count => format!("{count} machines."),
    };
    let unused = match not_used {
        0 => String::new(),
        1 => " 1 thing is not used: see the margin.".to_owned(),
        count => format!(" {count} things are not used: see the margin."),
    };
    let short = match short {
        0 => String::new(),
        1 => " 1 is short in the drawer.".to_owned(),
        count => format!(" {count} are short in the drawer."),
    };
    format!("{rates} {machines}{short}{unused}")
}

/// What runs make of a start value.
#[must_use]
pub fn learned(of: Learns, factor: f64, runs: u32, form: Form) -> String {
    let of = match of {
        Learns::Burn => "minutes x",
        Learns::Wear => "lost x",
        Learns::Handling | Learns::Gap => "x",
    };
    let runs = match runs {
        1 => "1 run".to_owned(),
        runs => format!("{runs} runs"),
    };
    format!("{of} {}, {runs}", form.fixed(factor, 2))
}

/// That a step was taken back, or done again.
#[must_use]
pub fn stepped(back: bool, label: &str) -> String {
    if back {
        format!("Undone: {label}.")
    } else {
        format!("Done again: {label}.")
    }
}

/// From which day on a card counts that was begun without one.
#[must_use]
pub fn card_counts_from(day: &str) -> String {
    format!(
        "This card counts from today, {day}: type another day in its first cell where it is another."
    )
}

/// Where that stands which was being typed in a row that was taken out meanwhile.
#[must_use]
pub fn row_taken_out(list: ShopList) -> String {
    format!(
        "The row of {} in which you are typing was taken out meanwhile: what you type stands in a new row.",
        words::list(list)
    )
}

/// What was being typed in a text of a row that was taken out meanwhile.
#[must_use]
pub fn text_taken_out(list: ShopList, column: &str, text: &str) -> String {
    format!(
        "The row of {} in which you were typing was taken out meanwhile. Its {column} has no place any more: {text}",
        words::list(list)
    )
}

/// That the shop's file is an older one than was there.
#[must_use]
pub fn lacks(change: &ShopChange, form: Form) -> String {
    format!(
        "The shop's file is an older one: it lacks \u{201c}{}\u{201d} of {} by {}, which shop.files/previous.ron has.",
        change.what,
        form.day(change.day),
        change.by
    )
}

/// That figures moved since another desk changed the shop.
pub const OTHER_DESK_CHANGED: &str = "Another desk changed the shop: prices are reckoned anew.";

/// The word that takes the version before of a shop's file that is lost.
pub const TAKE_BEFORE: &str = "take the version before";

/// The word that begins a shop anew whose file is lost.
pub const BEGIN_ANEW: &str = "begin anew";

/// That something could not be saved, and why.
#[must_use]
pub fn not_saved(why: &str) -> String {
    format!("Not saved: {why}")
}
