//! The figures as text to read.

use quillbore_calc::Figure;
use quillbore_calc::job_figures::HoleFigures;
use quillbore_job::results::foot::{Foot, text};
use quillbore_job::results::{Results, Telling};
use quillbore_job::words::price as job_words;
use quillbore_job::words::speaker::Speaker;
use quillbore_job::words::workings;
use quillbore_job::{Job, Shop};

use crate::words::figures as words;

/// Says every figure of a job, line by line, in the job's unit; `promised` says when it is done, `foot`
/// what is said on the phone.
pub(super) fn figures_lines(
    job: &Job,
    shop: &Shop,
    results: &Results,
    promised: Option<String>,
    foot: &Foot,
    say: impl FnMut(&str),
) {
    let speaker = Speaker {
        job,
        tables: &shop.tables,
        unit: job.unit,
        form: shop.form,
    };
    let form = shop.form;
    let figures = &results.figures;
    let minor_digits = shop.tables.rates.minor_digits;
    let mut blocks = Blocks { say, blanks: 0 };
    blocks.line(&words::head(job));
    for hole in &figures.holes {
        blocks.add(hole_lines(hole, shop, &speaker));
    }
    if let Some(lot) = &figures.lot {
        blocks.add(words::machine(&lot.machine, form));
        blocks.add(words::hours(lot.machine_hours, lot.labor_hours, form));
    }
    if let Some(price) = &figures.price {
        let breaks = price.breaks.iter();
        blocks.add(breaks.map(|at| words::offered(at, minor_digits, form)));
        let goes_by = workings::goes_by(Figure::LotCost, shop);
        let cost = words::cost(price, minor_digits, form).into_iter();
        blocks.add(cost.chain(goes_by));
        blocks.add(job_words::risk(price, minor_digits, form));
    }
    blocks.add(promised);
    let foot = [&foot.said, &foot.rests].map(|line| text(line));
    let foot = foot.into_iter().filter(|line| !line.is_empty());
    let telling = Telling::new(job, shop);
    let notes = results.notes.iter();
    let notes = notes.map(|note| words::note_and_remedy(note, &telling));
    blocks.add(foot.chain(notes));
}

/// Blocks of lines with a blank one between, and nothing empty at the end.
struct Blocks<S> {
    say: S,
    /// Blank lines that are said once something follows.
    blanks: usize,
}

impl<S: FnMut(&str)> Blocks<S> {
    fn add(&mut self, block: impl IntoIterator<Item = String>) {
        self.blanks += 1;
        block.into_iter().for_each(|line| self.line(&line));
    }

    fn line(&mut self, line: &str) {
        let line = line.trim_end();
        if line.is_empty() {
            self.blanks += 1;
            return;
        }
        for _ in 0..std::mem::take(&mut self.blanks) {
            (self.say)("");
        }
        (self.say)(line);
    }
}

/// The figures of a row, as far as there are any.
fn hole_lines(hole: &HoleFigures, shop: &Shop, speaker: &Speaker<'_>) -> Vec<String> {
    let mut lines = vec![words::places(hole.row, hole.places, speaker)];
    let mut add = |before: &str, said: Option<String>| {
        let Some(said) = said else { return };
        if let Some(indent) = before.strip_prefix('\n') {
            lines.push(format!("{indent}{said}"));
        } else if let Some(last) = lines.last_mut() {
            last.push_str(before);
            last.push_str(&said);
        }
    };
    let limits = hole.limits_mm.map(|at| words::limits(at, speaker));
    add("  ", limits);
    add("  ", hole.depth_mm.map(|depth| words::deep(depth, speaker)));
    let tube = hole.tube.and_then(|tube| tube.of(&shop.tables.tubes));
    add("\n  ", tube.map(|tube| words::electrode(&tube.name)));
    let size = hole.size_mm.zip(hole.verdict);
    let size = size.map(|(size, verdict)| words::drills(size, verdict, speaker));
    add(", ", size);
    let chances = hole.first_choice.zip(hole.held);
    let chances = chances.map(|(first, held)| words::chances(first, held, speaker.form));
    add("\n  ", chances);
    add(
        "\n  ",
        hole.minutes
            .map(|minutes| words::minutes(minutes, speaker.form)),
    );
    let wear = hole.wear_mm;
    add(", ", wear.map(|mm| words::wear(mm, hole.ends, speaker)));
    let plan = hole.depth_plan;
    add("\n  ", plan.map(|plan| words::first_try(plan, speaker)));
    let depths = [hole.target_depth_mm, hole.reach_one_mm, hole.limit_mm];
    if let [Some(target), Some(one), Some(limit)] = depths {
        let reach = words::reach([target, one, limit], hole.ends, speaker);
        add("\n  ", Some(reach));
    }
    lines
}
