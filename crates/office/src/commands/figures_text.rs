//! The figures as text to read.

use std::fmt::Write as _;

use quillbore_calc::Limits;
use quillbore_calc::input::Ends;
use quillbore_calc::job_figures::HoleFigures;
use quillbore_job::results::{Results, Telling};
use quillbore_job::words::english;
use quillbore_job::words::speaker::Speaker;
use quillbore_job::{Field, Job, Shop, show_quantity as show};

/// Every figure of a job, line by line, in the job's unit.
#[must_use]
pub(super) fn figures_text(job: &Job, shop: &Shop, results: &Results) -> String {
    let speaker = Speaker {
        job,
        tables: &shop.tables,
        unit: job.unit,
    };
    let mut text = String::new();
    // Writing to a String can't fail.
    let _ = writeln!(
        text,
        "{}  {}  {}  {}",
        job.number,
        job.text(Field::Customer),
        job.text(Field::Part),
        job.text(Field::Material)
    );
    for hole in &results.figures.holes {
        let _ = writeln!(text, "\n{}", hole_text(hole, shop, &speaker));
    }
    if let Some(lot) = &results.figures.lot {
        let _ = writeln!(text);
        for (what, minutes) in [
            ("setting up", lot.machine.set_up),
            ("first piece", lot.machine.first_piece),
            ("loading", lot.machine.load),
            ("index and tilt", lot.machine.index),
            ("turning over", lot.machine.turn_over),
            ("travel", lot.machine.travel),
            ("in the holes", lot.machine.holes),
            ("electrode changes", lot.machine.electrode_changes),
            ("guide changes", lot.machine.guide_changes),
            ("dressing", lot.machine.dressing),
            ("broken electrodes", lot.machine.breakages),
        ] {
            let _ = writeln!(
                text,
                "machine: {what:<20}{:>14}",
                show::minutes_with_unit(minutes)
            );
        }
    }
    if let Some(price) = &results.figures.price {
        let _ = writeln!(text);
        for offered in &price.breaks {
            let digits = shop.tables.rates.minor_digits;
            let _ = writeln!(
                text,
                "{:>8} at {:>12} each, {:>14} the lot{}",
                offered.quantity,
                show::money_exact(offered.each, digits),
                show::money_exact(offered.lot, digits),
                if offered.minimum {
                    ", by the minimum charge"
                } else {
                    ""
                }
            );
        }
    }
    if let Some(price) = &results.figures.price {
        let cost = &price.cost;
        let _ = writeln!(text);
        for (what, amount) in [
            ("machine", cost.machine),
            ("labor", cost.labor),
            ("electrodes", cost.electrodes),
            ("guides", cost.guides),
            ("dielectric", cost.dielectric),
            ("power", cost.power),
            ("outside work", cost.outside),
            ("redone work", cost.redo),
            ("part at risk", cost.part_risk),
            ("not yet known", cost.not_yet_known),
            ("expected cost", price.expected_cost),
        ] {
            let amount = show::money(amount, shop.tables.rates.minor_digits);
            let _ = writeln!(text, "cost: {what:<22} {amount:>12}");
        }
        let [low, likely, high] = [price.lot_cost.p10, price.lot_cost.p50, price.lot_cost.p90]
            .map(|cost| show::money(cost, 0));
        let _ = writeln!(text, "cost: low, likely, high      {low}, {likely}, {high}");
    }
    let _ = writeln!(text);
    let foot: String = speaker
        .foot(&results.figures)
        .into_iter()
        .map(|piece| piece.text)
        .collect();
    let _ = writeln!(text, "{foot}");
    let telling = Telling::new(job, &shop.tables);
    for note in &results.notes {
        let remedy = telling
            .offer(note)
            .map_or_else(String::new, |offer| format!(" ({})", offer.words));
        let _ = writeln!(
            text,
            "{}: {}{remedy}",
            english::level(note.level),
            telling.text(note)
        );
    }
    text.truncate(text.trim_end().len());
    text
}

fn hole_text(hole: &HoleFigures, shop: &Shop, speaker: &Speaker<'_>) -> String {
    let mut text = format!("{}  {} places", speaker.hole(hole.row), hole.places);
    if let Some(Limits { lower, upper }) = hole.limits_mm {
        let _ = write!(
            text,
            "  {} to {}",
            speaker.length(lower),
            speaker.length(upper)
        );
    }
    if let Some(depth) = hole.depth_mm {
        let _ = write!(text, "  {} deep", speaker.length(depth));
    }
    if let Some(tube) = hole.tube.and_then(|tube| tube.of(&shop.tables.tubes)) {
        let _ = write!(text, "\n  electrode {}", tube.name);
    }
    if let (Some(size), Some(verdict)) = (hole.size_mm, hole.verdict) {
        let _ = write!(
            text,
            ", drills {} to {}: {}",
            speaker.length(size.lower),
            speaker.length(size.upper),
            english::verdict(verdict)
        );
    }
    if let (Some(chance), Some(held)) = (hole.first_choice, hole.held) {
        let _ = write!(
            text,
            "\n  first choice right {}, over {}; inside once the first piece is measured {}",
            show::percent(chance.inside),
            show::percent(chance.over),
            show::percent(held)
        );
    }
    if let Some(minutes) = hole.minutes {
        let _ = write!(
            text,
            "\n  {} a hole ({} to {})",
            show::minutes_with_unit(minutes.p50),
            show::minutes(minutes.p10),
            show::minutes(minutes.p90)
        );
    }
    if let Some(wear) = hole.wear_mm {
        let over = match hole.ends {
            Some(Ends::Both) => " over both ends",
            Some(Ends::One) | None => "",
        };
        let _ = write!(text, ", wear {}{over}", speaker.length(wear));
    }
    if let Some(plan) = hole.depth_plan {
        let _ = write!(
            text,
            "\n  first try: setting {}; tip never beyond {}; holes scatter by {}{}",
            speaker.length(plan.first_try_mm),
            speaker.length(plan.never_beyond_mm),
            speaker.length(plan.scatter_mm),
            if plan.two_steps { ", in two steps" } else { "" }
        );
    }
    if let (Some(target), Some(reach), Some(limit)) =
        (hole.target_depth_mm, hole.reach_one_mm, hole.limit_mm)
    {
        let (from, through) = match hole.ends {
            Some(Ends::Both) => ("from each end: ", "from both together none passes"),
            Some(Ends::One) | None => ("", "none passes"),
        };
        let _ = write!(
            text,
            "\n  {from}target depth {}, one electrode reaches {}, {through} {}",
            speaker.length(target),
            speaker.length(reach),
            speaker.length(limit)
        );
    }
    text
}
