//! Words of the shop's sheet: its lists, lines and columns, what an edit of it is called, and what is
//! wrong with a row.

mod columns;
mod start_values;

use std::fmt;

pub use columns::{column, column_about, column_unit};
pub use start_values::start_value;

use super::speaker::capital;
use crate::merge::clash::{Side, Typed};
use crate::shop::sheet::{
    ShopClash, ShopColumn, ShopEdit, ShopFault, ShopLine, ShopList, ShopNote, ShopRefused,
    ShopRowAt, ShopSheet, Still,
};
use crate::typed::entry::Unit;

/// Longest name that a label repeats, in characters.
const LONGEST_NAME: usize = 24;

/// Longest text that a label repeats, in characters.
const LONGEST_VALUE: usize = 24;

/// What a list is called.
#[must_use]
pub const fn list(list: ShopList) -> &'static str {
    match list {
        ShopList::Rates => "rates",
        ShopList::Electrodes => "electrodes",
        ShopList::Guides => "guides",
        ShopList::Machines => "machines",
        ShopList::Customers => "customers",
        ShopList::Materials => "materials",
        ShopList::Families => "families of materials",
        ShopList::DaysOff => "days off",
        ShopList::StartValues => "start values",
    }
}

/// What one row of a list is called.
#[must_use]
pub const fn row(list: ShopList) -> &'static str {
    match list {
        ShopList::Rates => "rate card",
        ShopList::Electrodes => "electrode",
        ShopList::Guides => "guide",
        ShopList::Machines => "machine",
        ShopList::Customers => "customer",
        ShopList::Materials => "material",
        ShopList::Families => "family",
        ShopList::DaysOff => "day off",
        ShopList::StartValues => "start value",
    }
}

/// What stands under the head of a list, so that one needn't guess.
#[must_use]
pub const fn list_about(list: ShopList) -> &'static str {
    match list {
        ShopList::Rates => {
            "A card counts from its day on; what it leaves empty goes on from the card before. Machines: 68 for all, or each by its name: big one 70; small one 76."
        }
        ShopList::Electrodes => {
            "Type a diameter: what is left empty is as usual, in pencil. A count is of the day it was made; what travelers take and runs use up is reckoned from there."
        }
        ShopList::Guides => {
            "Each electrode diameter needs its guide: those of the samples count until they are left out. A count is of the day it was made; what travelers keep is reckoned from there."
        }
        ShopList::Machines => {
            "Type a name and what is known; the rest is as a common machine has it, in pencil, until it is typed."
        }
        ShopList::Customers => {
            "A job takes on what was agreed when the customer's name is typed in it."
        }
        ShopList::Materials => {
            "Materials of your own, and other names for those that are known. Feed and wear come from the family unless they are typed."
        }
        ShopList::Families => "Feed and wear of a 1 mm electrode in a shallow hole.",
        ShopList::DaysOff => {
            "Holidays and shutdowns: no working day counts there. Several at once: 24 Dec 2026 to 3 Jan 2027."
        }
        ShopList::StartValues => {
            "What estimates begin with. Run records narrow them; the factor that was learned stands beside."
        }
    }
}

/// The label of a single line.
#[must_use]
pub const fn line(line: ShopLine) -> &'static str {
    match line {
        ShopLine::Name => "name",
        ShopLine::Address => "address",
        ShopLine::Contact => "contact",
        ShopLine::Phone => "telephone",
        ShopLine::Email => "mail address",
        ShopLine::Registration => "tax number",
        ShopLine::Currency => "currency",
        ShopLine::PaperSize => "paper size",
        ShopLine::Sides => "papers are printed on",
        ShopLine::Numbers => "numbers written as",
        ShopLine::Dates => "dates written as",
        ShopLine::UsualTolerance => "tolerance where none is given, plus or minus",
        ShopLine::Terms => "terms",
        ShopLine::Exclusions => "exclusions",
        ShopLine::Cautions => "cautions",
        ShopLine::WorkDays => "working days",
        ShopLine::HoursPerDay => "hours a day",
        ShopLine::UnattendedHours => "unattended hours a day",
    }
}

/// What a single line is for, where its label says too little.
#[must_use]
pub const fn line_about(line: ShopLine) -> &'static str {
    match line {
        ShopLine::Name | ShopLine::Address => "Printed at the head of every paper.",
        ShopLine::Contact | ShopLine::Phone | ShopLine::Email => {
            "Whom customers ask; printed on papers that leave the house."
        }
        ShopLine::Registration => "Printed beside the address where it is typed.",
        ShopLine::Currency => {
            "A code of ISO 4217, such as USD or EUR: all rates and prices are in it."
        }
        ShopLine::PaperSize => "What papers are laid out for: a4 or letter.",
        ShopLine::Sides => {
            "One side or both sides of a sheet. On both, every other page has its binding margin at the right."
        }
        ShopLine::Numbers => {
            "How thousands and decimals are written: in the window and on papers that are printed from now on."
        }
        ShopLine::Dates => {
            "How dates are written: in the window and on papers that are printed from now on."
        }
        ShopLine::UsualTolerance => {
            "Taken where neither the row nor the drawing's title block gives limits."
        }
        ShopLine::Terms => "One a line, printed on quotations.",
        ShopLine::Exclusions => "One a line: what a quotation leaves out unless it says otherwise.",
        ShopLine::Cautions => "One a line, printed beside the program's own cautions.",
        ShopLine::WorkDays => "Mon-Fri, or single days.",
        ShopLine::HoursPerDay => "Hours of a working day that somebody is there.",
        ShopLine::UnattendedHours => "Further hours that machines may run alone.",
    }
}

/// What an edit is called in the words of undo, about the sheet before it.
#[must_use]
pub fn label(sheet: &ShopSheet, edit: &ShopEdit) -> String {
    match edit {
        ShopEdit::SetLine { line: of, text, .. } => said_of(line(*of), text),
        ShopEdit::SetCells { list: of, rows, .. } => match rows.as_slice() {
            [(at, cells)] => {
                let who = row_name(sheet, *of, at, cells);
                format!("{who}: {}", said_of_cells(cells))
            }
            rows => format!("{}: {}", list(*of), counted(rows.len(), "row")),
        },
        ShopEdit::DeleteRows { list: of, rows } => match rows.as_slice() {
            [at] => format!("delete {}", row_name(sheet, *of, at, &[])),
            rows => format!("delete {} of {}", counted(rows.len(), "row"), list(*of)),
        },
        ShopEdit::Samples {
            list: of,
            count: true,
        } => format!("bring the sample {} back", list(*of)),
        ShopEdit::Samples {
            list: of,
            count: false,
        } => format!("leave out the sample {}", list(*of)),
        ShopEdit::SetUnit(Unit::Mm) => "show millimeters".to_owned(),
        ShopEdit::SetUnit(Unit::Inch) => "show inches".to_owned(),
        ShopEdit::SetLogo(Some(_)) => "logo".to_owned(),
        ShopEdit::SetLogo(None) => "delete the logo".to_owned(),
        ShopEdit::Together(edits) => {
            let labels = edits.iter().map(|edit| label(sheet, edit));
            labels.collect::<Vec<_>>().join("; ")
        }
    }
}

/// What an undone step is called in the list of changes.
pub(crate) fn undone(label: &str) -> String {
    format!("undo: {label}")
}

fn said_of(what: &str, text: &str) -> String {
    match cut(text, LONGEST_VALUE) {
        text if text.is_empty() => format!("{what} cleared"),
        text => format!("{what} {text}"),
    }
}

/// What was typed into cells of one row: the first of them in full, the others counted.
fn said_of_cells(cells: &[(ShopColumn, String)]) -> String {
    const SAID: usize = 3;
    let (said, more) = cells.split_at(cells.len().min(SAID));
    let said = said
        .iter()
        .map(|(column, text)| said_of(self::column(*column), text));
    let mut said: Vec<String> = said.collect();
    if !more.is_empty() {
        said.push(format!("and {}", counted(more.len(), "more cell")));
    }
    said.join(", ")
}

fn row_name(
    sheet: &ShopSheet,
    of: ShopList,
    at: &ShopRowAt,
    cells: &[(ShopColumn, String)],
) -> String {
    let naming = of.columns().first().copied().unwrap_or(ShopColumn::Name);
    let name = match at {
        ShopRowAt::Sample(name) => name.clone(),
        ShopRowAt::Own(id) => sheet.row(of, *id).map_or_else(String::new, |row| {
            let typed = row.cell(naming).text();
            let sample = row.stands_for.as_deref().unwrap_or_default();
            if typed.is_empty() { sample } else { typed }.to_owned()
        }),
        ShopRowAt::New => {
            let named = cells.iter().find(|(column, _)| *column == naming);
            named.map_or_else(String::new, |(_, text)| text.clone())
        }
    };
    let name = match of {
        ShopList::StartValues => start_value(&name).to_owned(),
        _ => name,
    };
    match cut(&name, LONGEST_NAME) {
        name if name.is_empty() => format!("new {}", row(of)),
        name if begins_with_word(&name, row(of)) => name,
        name => format!("{} {name}", row(of)),
    }
}

/// Whether a name says by itself what it is the name of: `guide 0.30`.
fn begins_with_word(name: &str, word: &str) -> bool {
    let mut rest = name.chars();
    let mut signs = word.chars();
    signs.all(|sign| {
        let there = rest.next();
        there.is_some_and(|there| there.to_lowercase().eq(sign.to_lowercase()))
    }) && !rest.next().is_some_and(char::is_alphanumeric)
}

fn counted(count: usize, what: &str) -> String {
    let s = if count == 1 { "" } else { "s" };
    format!("{count} {what}{s}")
}

/// A text on one line and no longer than can be read at a glance.
fn cut(text: &str, most: usize) -> String {
    let line = text.split_whitespace().collect::<Vec<_>>().join(" ");
    if line.chars().count() <= most {
        return line;
    }
    let cut: String = line.chars().take(most).collect();
    format!("{}\u{2026}", cut.trim_end())
}

impl fmt::Display for ShopRefused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoSuchRow => f.write_str("This row is not there any more."),
            Self::NoSuchColumn { list: of, column } => {
                write!(
                    f,
                    "The {} have no column {}.",
                    list(*of),
                    self::column(*column)
                )
            }
            Self::TooManyRows { most } => write!(f, "A list has at most {most} rows."),
            Self::NoNewRows { list: of } => {
                write!(
                    f,
                    "The {} are those of the program: none is added.",
                    list(*of)
                )
            }
            Self::TextTooLong { most } => write!(f, "A text has at most {most} characters."),
            Self::PastLastColumn { columns, room } => write!(
                f,
                "The block has {}, and there is room for {room} from here.",
                counted(*columns, "column")
            ),
        }
    }
}

impl ShopRefused {
    /// What to do about it.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::NoSuchRow => "Look at the list anew: another desk may have deleted it.",
            Self::NoSuchColumn { .. } | Self::PastLastColumn { .. } => {
                "Begin the block further left, or copy fewer columns."
            }
            Self::TooManyRows { .. } => "Delete rows that are not used any more.",
            Self::NoNewRows { .. } => "Change one of those that are there.",
            Self::TextTooLong { .. } => "Shorten it.",
        }
    }
}

impl fmt::Display for ShopNote {
    /// One sentence: what is not used, and why.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let where_ = match (self.row, self.line) {
            (Some((of, _)), _) if self.name.is_empty() => without_name(row(of)),
            (Some((of, _)), _) => format!("{} {}", capital(row(of)), self.name),
            (None, Some(of)) => capital(line(of)),
            (None, None) => "The shop's data".to_owned(),
        };
        let column = self
            .column
            .map_or_else(String::new, |column| format!(", {}", self::column(column)));
        match &self.fault {
            ShopFault::Unread(why) => {
                write!(f, "{where_}{column}: {why} Until then it is not used.")
            }
            ShopFault::Missing if self.column.is_some_and(is_of_exchange) => write!(
                f,
                "{where_}{column} is missing: nothing is quoted in another currency without it."
            ),
            ShopFault::Missing => write!(
                f,
                "{where_}{column} is missing: it is not used until that is typed."
            ),
            ShopFault::Unfit(what) => write!(
                f,
                "{where_}: {what}. It is not used until that is corrected."
            ),
            ShopFault::Twice => write!(
                f,
                "{where_}: another row has this name. Only the first is used."
            ),
            ShopFault::NoSuchMachine(name) => {
                write!(
                    f,
                    "{where_}{column}: no machine is called \u{201c}{name}\u{201d}. Its rate is not used."
                )
            }
            ShopFault::OneRateForAll => write!(
                f,
                "{where_}{column}: an agreement has one amount for an hour of any machine: type it without a \
                 machine's name. Until then it is not used."
            ),
            ShopFault::CardForAll { day, rate, own } => write!(
                f,
                "{where_}{column}: {own} doesn't count, since the rate card of {day} says {rate} for all machines. \
                 Type \u{201c}{rate}; {name} {own}\u{201d} on that card to have both.",
                name = self.name
            ),
            ShopFault::CountUndated => write!(
                f,
                "{where_}{column} is missing: what run records use is not taken off what lies in the drawer until \
                 the day of the count is typed."
            ),
            ShopFault::Whole(error) => {
                write!(
                    f,
                    "{where_} can't be used: {error}. Name, address, texts and currency stand; the rows are the samples'."
                )
            }
        }
    }
}

const fn is_of_exchange(column: ShopColumn) -> bool {
    matches!(
        column,
        ShopColumn::Currency | ShopColumn::ExchangeRate | ShopColumn::ExchangeDay
    )
}

fn without_name(what: &str) -> String {
    let article = if what.starts_with(['a', 'e', 'i', 'o']) {
        "An"
    } else {
        "A"
    };
    format!("{article} {what} without a name")
}

/// One sentence: where two desks met, and what the other one wanted.
#[must_use]
pub fn clash(sheet: &ShopSheet, clash: &ShopClash) -> String {
    let theirs = |typed: &Typed| match cut(&typed.text, 60) {
        text if text.is_empty() => "emptied it".to_owned(),
        text => format!("typed {text}"),
    };
    match clash {
        ShopClash::Line(of, typed) => {
            format!(
                "The {}: another desk {}; yours stands.",
                line(*of),
                theirs(typed)
            )
        }
        ShopClash::Cell(of, id, column, typed) => {
            let who = row_name(sheet, *of, &ShopRowAt::Own(*id), &[]);
            let theirs = theirs(typed);
            format!(
                "{}, {}: another desk {theirs}; yours stands.",
                capital(&who),
                self::column(*column)
            )
        }
        ShopClash::Row(of, id, Side::Theirs) => {
            let who = row_name(sheet, *of, &ShopRowAt::Own(*id), &[]);
            format!(
                "{}: another desk deleted it while you changed it; it stays.",
                capital(&who)
            )
        }
        ShopClash::Row(of, id, Side::Ours) => {
            let who = row_name(sheet, *of, &ShopRowAt::Own(*id), &[]);
            format!(
                "{}: you deleted it while another desk changed it; it stays.",
                capital(&who)
            )
        }
        ShopClash::Logo => "The logo: another desk chose another one; yours stands.".to_owned(),
    }
}

/// What is still as in the samples, in a few words.
#[must_use]
pub fn still(still: Still) -> String {
    match still {
        Still::Name => "name and address".to_owned(),
        Still::Currency => "currency".to_owned(),
        Still::Rates => "rates".to_owned(),
        Still::Margin => "margin and minimum".to_owned(),
        Still::Running => "dielectric and power".to_owned(),
        Still::Machines => "some machines".to_owned(),
        Still::Electrodes => "some electrodes".to_owned(),
        Still::Guides => "some guides".to_owned(),
        Still::Terms => "terms".to_owned(),
        Still::Exclusions => "exclusions".to_owned(),
        Still::ElectrodePrices(1) => "the price of 1 electrode".to_owned(),
        Still::ElectrodePrices(count) => format!("prices of {count} electrodes"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shop::Shop;
    use crate::words::english;

    /// A name that begins with what it is the name of is not called so twice.
    #[test]
    fn a_change_names_its_row_once() {
        let of = |list, name: &str| {
            let edit = ShopEdit::SetCells {
                list,
                rows: vec![(
                    ShopRowAt::Sample(name.to_owned()),
                    vec![(ShopColumn::Price, "12".to_owned())],
                )],
                unit: Unit::Mm,
            };
            label(&ShopSheet::default(), &edit)
        };
        for (name, named) in [
            ("guide 0.30", "guide 0.30"),
            ("Guide 0.30", "Guide 0.30"),
            ("guided 0.30", "guide guided 0.30"),
            ("0.30", "guide 0.30"),
            ("guide", "guide"),
        ] {
            let said = of(ShopList::Guides, name);
            assert!(said.starts_with(&format!("{named}: ")), "{said}");
        }
    }

    /// A family is chosen by the word that is said of it everywhere.
    #[test]
    fn families_are_chosen_by_their_words() {
        let choices = ShopColumn::Family.kind().choices();
        let shop = Shop::embedded().expect("samples");
        for material in &shop.tables.materials {
            let word = english::family(material.family);
            assert!(choices.contains(&word), "{word}");
        }
    }
}
