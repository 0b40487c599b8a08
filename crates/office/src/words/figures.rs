//! The figures of a job as lines to read.

use std::fmt;

use quillbore_calc::flush::Regime;
use quillbore_calc::input::Ends;
use quillbore_calc::job_figures::{
    Break, Chance, CostLines, DepthPlan, MachineMinutes, PriceFigures, Verdict,
};
use quillbore_calc::{Band, Limits, RowId};
use quillbore_job::form::one_by_one;
use quillbore_job::results::promise::Promise;
use quillbore_job::results::{Beside, SideNote, Telling};
use quillbore_job::words::promise::comes_first;
use quillbore_job::words::speaker::Speaker;
use quillbore_job::words::{english, names, slips};
use quillbore_job::{Field, Form, Job};

use crate::failure::Failure;
use crate::office::queue::Queue;

/// What the job is: its number, whose it is, what it is of.
pub(crate) fn head(job: &Job) -> String {
    format!(
        "{}  {}  {}  {}",
        job.number,
        job.text(Field::Customer),
        job.text(Field::Part),
        job.text(Field::Material)
    )
}

/// A row, and how many holes of it one part has.
pub(crate) fn places(row: RowId, places: u32, speaker: &Speaker<'_>) -> String {
    let count = speaker.form.count(f64::from(places));
    let noun = if places == 1 { "hole" } else { "holes" };
    format!("{}  {count} {noun} in one part", speaker.hole(row))
}

/// The limits of a diameter.
pub(crate) fn limits(limits: Limits, speaker: &Speaker<'_>) -> String {
    let (lower, upper) = (speaker.length(limits.lower), speaker.length(limits.upper));
    format!("{lower} to {upper}")
}

/// A depth.
pub(crate) fn deep(depth_mm: f64, speaker: &Speaker<'_>) -> String {
    format!("{} deep", speaker.length(depth_mm))
}

/// The tube that a hole begins with.
pub(crate) fn electrode(name: &str) -> String {
    format!("electrode {name}")
}

/// What sizes it makes, and how they stand to the drawing.
pub(crate) fn drills(size: Limits, verdict: Verdict, speaker: &Speaker<'_>) -> String {
    format!(
        "drills {}: {}",
        limits(size, speaker),
        english::verdict(verdict)
    )
}

/// How likely the limits are held, at once and after the first piece.
pub(crate) fn chances(first_choice: Chance, held: f64, form: Form) -> String {
    format!(
        "right the first time {}, over {}; inside once the first piece is measured {}",
        form.percent(first_choice.inside),
        form.percent(first_choice.over),
        form.percent(held)
    )
}

/// How long a hole takes.
pub(crate) fn minutes(minutes: Band, form: Form) -> String {
    format!(
        "{} per hole ({} to {})",
        form.minutes_with_unit(minutes.p50),
        form.minutes(minutes.p10),
        form.minutes(minutes.p90)
    )
}

/// What length of electrode a hole takes.
pub(crate) fn wear(wear_mm: f64, ends: Option<Ends>, speaker: &Speaker<'_>) -> String {
    let over = match ends {
        Some(Ends::Both) => " over both ends",
        Some(Ends::One) | None => "",
    };
    format!("wear {}{over}", speaker.length(wear_mm))
}

/// How water flows, as far as that is known.
pub(crate) const fn regime(regime: Regime) -> &'static str {
    match regime {
        Regime::Laminar => "laminar",
        Regime::Uncertain => "uncertain",
        Regime::Turbulent => "turbulent",
    }
}

/// How a depth is come to.
pub(crate) fn first_try(plan: DepthPlan, speaker: &Speaker<'_>) -> String {
    format!(
        "first try: setting {}; tip never beyond {}; holes scatter by {}{}",
        speaker.length(plan.first_try_mm),
        speaker.length(plan.never_beyond_mm),
        speaker.length(plan.scatter_mm),
        if plan.two_steps { ", in two steps" } else { "" }
    )
}

/// How deep the tip goes, against what one electrode reaches and what none passes.
pub(crate) fn reach(
    [target_mm, one_mm, limit_mm]: [f64; 3],
    ends: Option<Ends>,
    speaker: &Speaker<'_>,
) -> String {
    let (from, through) = match ends {
        Some(Ends::Both) => ("from each end: ", "from both together none goes beyond"),
        Some(Ends::One) | None => ("", "none goes beyond"),
    };
    format!(
        "{from}target depth {}, one electrode reaches {}, {through} {}",
        speaker.length(target_mm),
        speaker.length(one_mm),
        speaker.length(limit_mm)
    )
}

/// The minutes of the machine, by what they go to.
pub(crate) fn machine(minutes: &MachineMinutes, form: Form) -> Vec<String> {
    let lines = [
        ("setting up", minutes.set_up),
        ("first piece", minutes.first_piece),
        ("loading", minutes.load),
        ("index and tilt", minutes.index),
        ("turning over", minutes.turn_over),
        ("travel", minutes.travel),
        ("in the holes", minutes.holes),
        ("electrode changes", minutes.electrode_changes),
        ("guide changes", minutes.guide_changes),
        ("dressing", minutes.dressing),
        ("broken electrodes", minutes.breakages),
    ];
    let line = |(what, minutes)| {
        let minutes = form.minutes_with_unit(minutes);
        format!("machine: {what:<20}{minutes:>14}")
    };
    lines.map(line).to_vec()
}

/// The hours of the lot with their spread.
pub(crate) fn hours(machine: Band, labor: Band, form: Form) -> [String; 2] {
    [("machine", machine), ("labor", labor)].map(|(whose, band)| {
        let shown = one_by_one(&form.hours_band(band));
        format!("hours: {whose:<8} low, likely, high  {shown}")
    })
}

/// What a quantity is offered at.
pub(crate) fn offered(offered: &Break, minor_digits: u32, form: Form) -> String {
    format!(
        "{:>8} at {:>12} each, {:>14} the lot{}",
        form.count(f64::from(offered.quantity)),
        form.money_exact(offered.each, minor_digits),
        form.money_exact(offered.lot, minor_digits),
        if offered.minimum {
            ", by the minimum charge"
        } else {
            ""
        }
    )
}

/// The cost of the lot, by what it goes to, and how far it spreads.
pub(crate) fn cost(price: &PriceFigures, minor_digits: u32, form: Form) -> Vec<String> {
    let CostLines {
        machine,
        labor,
        electrodes,
        guides,
        dielectric,
        power,
        outside,
        redo,
        part_risk,
        not_yet_known,
    } = price.cost;
    let lines = [
        ("machine", machine),
        ("labor", labor),
        ("electrodes", electrodes),
        ("guides", guides),
        ("dielectric", dielectric),
        ("power", power),
        ("outside work", outside),
        ("redone work", redo),
        ("part at risk", part_risk),
        ("not yet known", not_yet_known),
        ("expected cost", price.expected_cost),
    ];
    let line = |(what, amount)| {
        let amount = form.money(amount, minor_digits);
        format!("cost: {what:<22} {amount:>12}")
    };
    let Band { p10, p50, p90 } = price.lot_cost;
    let costs = [p10, p50, p90].map(|cost| form.money(cost, 0));
    let spread = format!("cost: low, likely, high      {}", one_by_one(&costs));
    lines.into_iter().map(line).chain([spread]).collect()
}

/// When it is done, and what comes first on its machine; nothing is known of that where the shelf
/// could not be read.
pub(crate) fn promised(promise: &Promise, queue: Option<Queue>, form: Form) -> String {
    let said = promise.said(form);
    let first = match queue {
        Some(queue) => comes_first(queue.hours, queue.jobs, queue.without_hours, form),
        None => "other jobs of the shelf not known".to_owned(),
    };
    match first.as_str() {
        "" => format!("promise: {said}"),
        first => format!("promise: {said} ({first})"),
    }
}

/// A side note, as a line.
pub(crate) fn note(note: &SideNote, telling: &Telling<'_>) -> String {
    let level = english::level(note.level);
    format!("{level}: {}", telling.text(note))
}

/// A side note as a line that says where it stands: "stop: hole A: size …", "check: order: price each …".
pub(crate) fn note_at_its_place(
    note: &SideNote,
    telling: &Telling<'_>,
    speaker: &Speaker<'_>,
) -> String {
    let place = match note.beside {
        Beside::Row(row, _) => Some(speaker.hole(row)),
        Beside::Slip(slip, _) => {
            let mut slips = speaker.job.slips.iter();
            let slip = slips.find(|known| known.id == slip);
            slip.map(|slip| slips::kind(slip.kind).to_owned())
        }
        // Its sentence names the line.
        Beside::Field(_) | Beside::Plan | Beside::Price | Beside::Papers => None,
    };
    let level = english::level(note.level);
    let text = telling.text(note);
    match place {
        Some(place) => format!("{level}: {place}: {text}"),
        None => format!("{level}: {text}"),
    }
}

/// That there are more notes than are told.
pub(crate) fn more_notes(more: usize) -> String {
    format!("and {more} more: quillbore figures tells them all")
}

/// A side note with what can be done about it.
pub(crate) fn note_and_remedy(note: &SideNote, telling: &Telling<'_>) -> String {
    let said = self::note(note, telling);
    match telling.offer(note) {
        Some(offer) => format!("{said} ({})", offer.words),
        None => said,
    }
}

/// What a side note is about.
pub(crate) fn about(beside: Beside, speaker: &Speaker<'_>) -> String {
    match beside {
        Beside::Row(row, _) => speaker.hole(row),
        Beside::Field(field) => names::field(field).to_owned(),
        Beside::Plan => "plan".to_owned(),
        Beside::Price => "price".to_owned(),
        Beside::Papers => "papers".to_owned(),
        Beside::Slip(slip, _) => format!("slip {}", slip + 1),
    }
}

/// That figures are not numbers.
pub(crate) fn not_written(error: &dyn fmt::Display) -> Failure {
    Failure::new(
        format!("The figures can't be written: {error}"),
        "report it",
    )
}
