//! What is written about the run records behind a figure.

use quillbore_calc::job_figures::OwnFigures;
use quillbore_calc::learn::Behind;
use quillbore_job::Form;
use quillbore_job::taught::Taught;
use quillbore_job::words::{own, taught as taught_words};
use quillbore_office::learned::{BehindFactor, Part};
use quillbore_office::pool::Source;

/// The weight of a record that fits as well as any.
const FULL: f64 = 1.25;

/// What the records make of a start value.
#[must_use]
pub fn made(behind: &BehindFactor, records: Behind, form: Form) -> String {
    let [low, likely, high] = behind.made.map(|factor| own::times_plain(factor, form));
    let [start_low, start_high] = behind.start.map(|factor| own::times_plain(factor, form));
    format!(
        "{}: {likely} x the start value ({low} to {high}); without runs {start_low} to {start_high} x",
        own::records(records)
    )
}

/// What each part makes of it.
#[must_use]
pub fn parts(parts: &[(Part, f64)], form: Form) -> String {
    let said: Vec<String> = parts
        .iter()
        .map(|(part, factor)| {
            let name = match part {
                Part::Shop => "shop",
                Part::Machine(name) | Part::Material(name) => name,
                Part::Family => "family",
                Part::Electrode => "electrode material",
                Part::Size => "size class",
                Part::SizeAndDepth => "size and depth",
            };
            format!("{name} {}", form.fixed(*factor, 2))
        })
        .collect();
    format!("a product of {}", said.join(", "))
}

/// A record by its job, mark and day; `here` is the number of the job on the desk.
#[must_use]
pub fn record(source: &Source, here: &str, form: Form) -> String {
    let job = match &source.job {
        Some(job) if job.as_str() == here => "this job".to_owned(),
        Some(job) => job.to_string(),
        None => "this job".to_owned(),
    };
    let day = source
        .taught
        .date
        .map_or_else(String::new, |day| format!(", {}", form.day(day)));
    match source.taught.mark.as_str() {
        "" => format!("{job}{day}"),
        mark => format!("{job} {mark}{day}"),
    }
}

/// How far a record is believed.
#[must_use]
pub fn weight(weight: f64, form: Form) -> String {
    format!("counts {}", form.percent_rough((weight / FULL).min(1.0)))
}

/// How many more there are.
#[must_use]
pub fn and_more(count: usize) -> String {
    match count {
        1 => "and 1 more".to_owned(),
        count => format!("and {count} more"),
    }
}

/// Under the hours: what the records make of minutes and wear, over all rows.
#[must_use]
pub fn in_short(rows: &[&OwnFigures], form: Form) -> Option<String> {
    let behind = rows
        .iter()
        .map(|own| own.behind)
        .min_by_key(|behind| behind.grade)?;
    let range = |of: fn(&OwnFigures) -> f64| {
        let factors = rows.iter().map(|own| of(own));
        let (low, high) = factors.fold((f64::INFINITY, 0.0_f64), |(low, high), factor| {
            (low.min(factor), high.max(factor))
        });
        let [low, high] = [low, high].map(|factor| own::times_plain(factor, form));
        if low == high {
            format!("{low} x")
        } else {
            format!("{low} to {high} x")
        }
    };
    let (burn, wear) = (range(|own| own.burn.factor), range(|own| own.wear.factor));
    let records = own::records(behind);
    Some(if rows.iter().any(|own| own.wear_measured) {
        format!("minutes {burn}, wear {wear} the start values: {records}")
    } else {
        format!(
            "minutes {burn} the start values, wear with them {wear} (no run measured a length): {records}"
        )
    })
}

/// What a run record was held against, and whether it counts.
#[must_use]
pub fn held_against(taught: &Taught, form: Form) -> String {
    let told = match &taught.says {
        Ok(told) => told,
        Err(why) => return format!("Doesn't count: {}.", taught_words::why(why, form)),
    };
    let planned = &told.planned;
    let minutes = |minutes: f64| form.minutes(minutes);
    let mut said = format!(
        "By the start values: {} min sparking, {} by the clock, {} mm lost",
        minutes(planned.burn_min),
        minutes(planned.clock_min),
        form.fixed(planned.wear_mm, 0)
    );
    if let Some(gap) = planned.gap_mm {
        said += &format!(", gap {} mm", form.fixed(gap, 3));
    }
    said += if taught.left_out.is_empty() {
        ". Counts"
    } else {
        ". Left out"
    };
    let without: Vec<String> = (taught.without.iter())
        .map(|why| taught_words::why(why, form))
        .collect();
    if !without.is_empty() {
        said += &format!(", but for: {}", without.join("; "));
    }
    said + "."
}
