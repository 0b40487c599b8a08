//! What is written at a customer's file before it lands.

use quillbore_intake::compare::{Became, Comparison, Difference};
use quillbore_intake::pdf::SeenCallout;
use quillbore_intake::seen::{Seen as SeenInFile, SeenEnd, SeenHole};
use quillbore_intake::words::compare::became;
use quillbore_intake::words::pages;
use quillbore_job::report::Source;
use quillbore_job::words::english::column;
use quillbore_job::words::reports;
use quillbore_job::{Column, Form, Unit};
use quillbore_office::Failure;
use quillbore_office::hole_file::Weighed;

use crate::incoming::{Lands, Seen};
use crate::sheet::shared::Shared;

/// The head of a file.
#[must_use]
pub fn head(name: &str) -> String {
    format!("holes of {name}")
}

/// What a file is: its size, the day of its last change, the first signs of its hash.
#[must_use]
pub fn file(source: &Source, form: Form) -> Option<String> {
    let stamp = source.file()?.stamp?;
    let day = stamp
        .day
        .map(|day| format!(", changed on {}", form.day(day)));
    let hash: String = stamp.hash.to_string().chars().take(12).collect();
    Some(format!(
        "{}{}, SHA-256 {hash}\u{2026}",
        reports::size(stamp.bytes),
        day.unwrap_or_default()
    ))
}

/// The unit that the file's lengths are in, and who says so.
#[must_use]
pub const fn unit_of(unit: Unit, seen: &SeenInFile) -> &'static str {
    match (unit, seen.unit_mm.is_some()) {
        (Unit::Mm, true) => "lengths in millimeters, by the file's own word",
        (Unit::Inch, true) => "lengths in inches, by the file's own word",
        (Unit::Mm, false) => "lengths in millimeters, as you said",
        (Unit::Inch, false) => "lengths in inches, as you said",
    }
}

/// A unit to choose.
#[must_use]
pub const fn unit(unit: Unit) -> &'static str {
    match unit {
        Unit::Mm => "millimeters",
        Unit::Inch => "inches",
    }
}

/// The heads of the list of kinds, lengths with the unit where it is known.
#[must_use]
pub fn heads(unit: Option<Unit>) -> [String; 5] {
    let of = |name: &str| match unit {
        Some(unit) => format!("{name} {}", unit.symbol()),
        None => name.to_owned(),
    };
    let plain = str::to_owned;
    [
        plain("holes"),
        of("size"),
        of("depth"),
        plain("end"),
        plain("surfaces, notes"),
    ]
}

/// How many of a kind are taken.
#[must_use]
pub fn of_all(taken: usize, all: usize) -> String {
    if taken == 0 || taken == all {
        return all.to_string();
    }
    format!("{taken} of {all}")
}

/// A kind, for readers of the screen.
#[must_use]
pub fn kind(taken: usize, all: usize, size: &str, depth: &str) -> String {
    let deep = match depth {
        "" => String::new(),
        depth => format!(", {depth} deep"),
    };
    format!("{size}{deep}: {taken} of {all} holes taken")
}

/// What stands in a cell that has no column in the list.
#[must_use]
pub fn cell(of: Column, text: &str) -> String {
    match of {
        Column::Angle => text.replacen(" from", "\u{b0} from", 1),
        Column::Surface => format!("from {text}"),
        Column::Exit => format!("out by {text}"),
        _ => format!("{} {text}", column(of).name),
    }
}

/// The name of the line on which sizes are typed.
pub const SIZES: &str = "sizes to take";

/// How holes are chosen.
pub const HOW_TO_CHOOSE: &str =
    "0.5-1.2, or a press on a line or a hole, or a frame around some (Shift adds)";

/// That what was typed is no sizes.
pub const NO_SIZES: &str = "that is no size: type 0.8, or 0.5-1.2";

/// Takes all holes.
pub const ALL: &str = "all";

/// Takes none.
pub const NONE: &str = "none";

/// From where the picture is seen.
#[must_use]
pub const fn seen(seen: Seen) -> &'static str {
    match seen {
        Seen::AlongZ => "along z",
        Seen::AlongY => "along y",
        Seen::AlongX => "along x",
    }
}

/// Shows all of the picture.
pub const WHOLE: &str = "whole";

/// What the picture shows, for readers of the screen.
#[must_use]
pub fn picture(taken: usize, all: usize) -> String {
    format!("picture of the file: {taken} of {all} holes taken")
}

/// What is said of a hole that the pointer is on.
#[must_use]
pub fn hole(hole: &SeenHole, unit: Option<Unit>) -> String {
    let by = match unit {
        Some(Unit::Inch) => quillbore_calc::quantity::MM_PER_INCH,
        _ => 1.0,
    };
    let decimals = if unit == Some(Unit::Inch) { 4 } else { 3 };
    let of = |mm: f64| format!("{:.decimals$}", mm / by);
    let end = hole.end.map(|end| match end {
        SeenEnd::Through => "through",
        SeenEnd::Into => "into a cavity",
        SeenEnd::Blind => "blind",
    });
    let [x, y, z] = hole.entry.map(of);
    let depth = hole
        .depth
        .map(|depth| format!("{} deep", of(depth.on_axis)));
    let group = Some(hole.group.clone()).filter(|group| !group.is_empty());
    let all = [
        Some(of(hole.diameter)),
        depth,
        end.map(str::to_owned),
        Some(format!("at x {x}, y {y}, z {z}")),
        group,
    ];
    all.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// The head of a drawing in PDF.
#[must_use]
pub fn callouts_of(name: &str) -> String {
    format!("callouts of {name}")
}

/// Who says the unit of a drawing in PDF.
#[must_use]
pub const fn unit_of_pages(unit: Option<Unit>) -> &'static str {
    match unit {
        Some(_) => "lengths are in",
        None => "the pages don't say which unit their lengths are in:",
    }
}

/// A callout, for readers of the screen.
#[must_use]
pub fn callout(callout: &SeenCallout) -> String {
    format!("callout {}, {}", callout.text, pages::place(callout))
}

/// Where a callout stands, and what is to be looked at.
#[must_use]
pub fn callout_at(callout: &SeenCallout) -> String {
    let doubts = callout.doubts.iter().map(|doubt| pages::doubt(*doubt));
    let place = pages::place(callout);
    let all = std::iter::once(place.as_str()).chain(doubts);
    all.collect::<Vec<_>>().join("; ")
}

/// The name of the line on which a text is typed whose callouts are taken.
pub const TEXTS: &str = "take those with";

/// How callouts are taken.
pub const HOW_TO_TAKE: &str = "0.8, or a press on a line or on its frame";

/// Which page is shown.
#[must_use]
pub fn page(at: usize, pages: usize) -> String {
    format!("page {} of {pages}", at + 1)
}

/// Turns back.
pub const PAGE_BEFORE: &str = "page before";

/// Turns on.
pub const PAGE_AFTER: &str = "next page";

/// That a page can't be shown; its callouts can be taken all the same.
#[must_use]
pub fn not_shown(why: &str) -> String {
    let why = match why {
        "" => String::new(),
        why => format!(" {why}"),
    };
    format!("The page can't be shown here; compare with the drawing itself.{why}")
}

/// Lands the callouts that were chosen.
#[must_use]
pub fn land_callouts(callouts: usize) -> String {
    match callouts {
        1 => "take 1 callout".to_owned(),
        callouts => format!("take {callouts} callouts"),
    }
}

/// Before the ways in which rows land.
pub const ROWS_GO: &str = "the rows go";

/// Where rows land.
#[must_use]
pub fn lands(lands: Lands, there: usize) -> String {
    match (lands, there) {
        (Lands::Below, 1) => "below the 1 row there".to_owned(),
        (Lands::Below, there) => format!("below the {there} rows there"),
        (Lands::InPlace, _) => "in their place".to_owned(),
        (Lands::Compared, _) => "compared with them: what is the same stays".to_owned(),
    }
}

/// Keeps the file with the job.
pub const KEEP: &str = "keep the file with the job";

/// How many rows are the same and how many differ.
#[must_use]
pub fn compared(comparison: &Comparison) -> String {
    format!(
        "{} the same, {} changed, {} gone, {} new",
        comparison.same,
        comparison.count(Became::Changed),
        comparison.count(Became::Gone),
        comparison.count(Became::Added)
    )
}

/// A row that differs.
#[must_use]
pub fn difference(line: &Difference) -> String {
    format!("{} {}", became(line.what), line.says)
}

/// That the price is being reckoned.
pub const WEIGHING: &str = "reckoning the price\u{2026}";

/// What the file makes of the price.
#[must_use]
pub fn weighed(weighed: &Weighed, shared: &Shared<'_>) -> String {
    let rates = &shared.shop.tables.rates;
    let (digits, form) = (rates.minor_digits, shared.shop.form);
    let money = |amount| form.money_exact(amount, digits);
    let currency = &rates.currency;
    match (weighed.before, weighed.after) {
        (Some(before), Some(after)) if before == after => format!(
            "The price stays {} {currency} each, {} for the lot.",
            money(after.each),
            money(after.lot)
        ),
        (Some(before), Some(after)) => {
            let (more, word) = if after.lot >= before.lot {
                (after.lot - before.lot, "more")
            } else {
                (before.lot - after.lot, "less")
            };
            format!(
                "{} {currency} each was {}; the lot {} was {}: {} {word}.",
                money(after.each),
                money(before.each),
                money(after.lot),
                money(before.lot),
                money(more)
            )
        }
        (None, Some(after)) => format!(
            "{} {currency} each, {} for the lot.",
            money(after.each),
            money(after.lot)
        ),
        (_, None) => "There is no price yet: see what the head says is missing.".to_owned(),
    }
}

/// Lands what was chosen.
#[must_use]
pub fn land(holes: usize, rows: usize) -> String {
    let of = |count: usize, one: &str, several: &str| match count {
        1 => format!("1 {one}"),
        count => format!("{count} {several}"),
    };
    format!(
        "take {} in {}",
        of(holes, "hole", "holes"),
        of(rows, "row", "rows")
    )
}

/// The key that does.
pub const ENTER: &str = "Enter";

/// Why it can't land yet.
pub const NOT_YET: &str =
    "First say what is asked above: the unit, what each column is, at least one hole.";

/// Puts the file into the job's folder alone.
pub const ATTACH_ALONE: &str = "only attach the file";

/// Takes nothing of it.
pub const TAKE_NOTHING: &str = "take nothing";

/// The key that does.
pub const ESC: &str = "Esc";

/// That nothing was taken.
pub const NOTHING_TAKEN: &str = "Nothing was taken from the file.";

/// That somebody stopped the reading.
pub const STOPPED: &str = "Stopped: nothing was taken from the file.";

/// That a dropped file has no holes and was attached.
#[must_use]
pub fn attached_alone(failure: &Failure) -> String {
    format!("No holes were taken, the file is only attached: {failure}")
}

/// That a file has landed.
#[must_use]
pub fn landed(name: &str, before: usize, now: usize) -> String {
    match (before, now) {
        (0, 1) => format!("Taken from {name}: 1 row."),
        (0, now) => format!("Taken from {name}: {now} rows."),
        (before, now) => format!("Taken from {name}: {now} rows, where {before} were."),
    }
}
