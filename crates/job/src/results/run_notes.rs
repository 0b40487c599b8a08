//! What is said beside run records whose entries can't be: it changes no figure and keeps no paper back.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;
use quillbore_calc::finding::Level;
use quillbore_calc::tables::Tube;

use super::kind::NoteKind;
use super::note::{Beside, SideNote};
use super::run_fault::RunFault;
use crate::asked::to_input::Asked;
use crate::job::Job;
use crate::life::drawer::{Thing, says_how_many};
use crate::life::inspected::{parts, same_mark};
use crate::life::{not_sent, sum};
use crate::pinned::slip::lists::{Line, kind, line};
use crate::pinned::slip::view::View;
use crate::shop::rows::Shop;
use crate::typed::field::Field;
use crate::typed::form::Form;
use crate::typed::read_quantity::pin_sizes;
use crate::words::run_notes as words;
use crate::words::speaker::Speaker;

type Record<'a> = View<'a, kind::Run>;

/// Most minutes of one line: a machine that runs a week around the clock.
const MOST_MINUTES: f64 = 10_000.0;

/// How much longer than its length in the shop's list a new tube may measure [mm].
const CUT_LONG_MM: f64 = 2.0;

/// Times the depth asked for from which on a depth is mistyped.
const TOO_DEEP: f64 = 2.0;

/// Depth that a through hole's tip goes beyond its exit at most [mm]; common practice, no source.
const BEYOND_EXIT_MM: f64 = 3.0;

/// Everything that is to be said of run records, in their order.
pub(super) fn all(speaker: &Speaker<'_>, asked: &Asked, shop: &Shop) -> Vec<SideNote> {
    let Speaker { job, tables, .. } = *speaker;
    if job.slips_of::<kind::Run>().next().is_none() {
        return Vec::new();
    }
    let held = HeldAgainst {
        job,
        speaker,
        tubes: &tables.tubes,
        by_name: tables
            .tubes
            .iter()
            .map(|tube| (lowered(&tube.name), tube))
            .collect(),
        marks: marks(job, asked),
        received: sum::<kind::Received, _>(job, line::Count),
        parts: parts(job).count,
        more: again(job),
        counted: &shop.counted,
    };
    let runs = job.slips_of::<kind::Run>();
    let mut notes: Vec<SideNote> = runs.flat_map(|run| held.of_line(run)).collect();
    notes.extend(held.of_sums());
    notes.extend(scrap(job, speaker.form));
    notes
}

/// What rows of a mark ask for together.
#[derive(Default)]
struct Asks {
    /// Holes in one part; none where a count can't be read.
    holes: Option<u64>,
    /// The deepest of them.
    depth_mm: Option<f64>,
}

fn marks(job: &Job, asked: &Asked) -> BTreeMap<String, Asks> {
    let mut marks: BTreeMap<String, Asks> = BTreeMap::new();
    for (row, input) in job.rows.iter().zip(&asked.input.rows) {
        let Some(mark) = same_mark(row.mark.text()) else {
            continue;
        };
        let readable = !row.places.is_empty() || row.count.why().is_none();
        let holes = readable.then(|| u64::from(row.holes()));
        let of_mark = marks.entry(mark).or_insert(Asks {
            holes: Some(0),
            depth_mm: None,
        });
        of_mark.holes = of_mark.holes.zip(holes).map(|(sum, more)| sum + more);
        // Of a depth that nobody knows nothing is too deep.
        of_mark.depth_mm = match (of_mark.depth_mm, input.depth_mm) {
            (Some(one), Some(other)) => Some(one.max(other)),
            (one, other) => one.or(other),
        };
    }
    marks
}

/// Parts that may stand on records twice or were never counted in: spares, and what was done again.
fn again(job: &Job) -> u64 {
    let spares = job.count(Field::Spares).unwrap_or(0);
    let redone = sum::<kind::Nonconformance, _>(job, line::Redo);
    u64::from(spares) + u64::from(redone)
}

/// What run records are held against.
struct HeldAgainst<'a> {
    job: &'a Job,
    speaker: &'a Speaker<'a>,
    tubes: &'a [Tube],
    by_name: BTreeMap<String, &'a Tube>,
    marks: BTreeMap<String, Asks>,
    /// Parts received; 0 where nobody counted.
    received: u32,
    /// Parts received, else ordered or asked for.
    parts: u32,
    more: u64,
    /// The days on which electrodes were counted.
    counted: &'a BTreeMap<(Thing, String), NaiveDate>,
}

impl HeldAgainst<'_> {
    /// What is wrong with one line by itself.
    fn of_line(&self, run: Record<'_>) -> Vec<SideNote> {
        let mut notes = Vec::new();
        notes.extend(self.mark(run));
        notes.extend(self.tube(run));
        notes.extend(self.electrodes(run));
        notes.extend(dressed(run));
        notes.extend(self.depth(run));
        notes.extend(minutes(run, self.speaker.form));
        notes.extend(self.pins(run));
        notes
    }

    /// The mark that a line is about; of a job with one row it needs none.
    fn mark_of(&self, run: Record<'_>) -> Option<String> {
        let only = || match self.job.rows.as_slice() {
            [row] => same_mark(row.mark.text()),
            _ => None,
        };
        same_mark(run.get(line::Mark)).or_else(only)
    }

    fn mark(&self, run: Record<'_>) -> Option<SideNote> {
        let mark = same_mark(run.get(line::Mark))?;
        let unknown = !self.marks.contains_key(&mark);
        unknown.then(|| {
            let said = words::unknown_mark(run.get(line::Mark));
            note(run, Line::Mark, RunFault::UnknownMark, said)
        })
    }

    /// A record that doesn't say how many electrodes it took, of one that lies counted in the drawer.
    fn electrodes(&self, run: Record<'_>) -> Option<SideNote> {
        let tube = self.by_name.get(&lowered(run.get(line::TubeUsed)))?;
        let counted = self.counted.get(&(Thing::Electrode, tube.name.clone()));
        if let Some(day) = counted.filter(|day| run.get(line::Date) == Some(**day)) {
            let said = words::counted_that_day(&tube.name, &self.speaker.form.day(*day));
            let told = note(run, Line::Date, RunFault::CountedThatDay, said);
            return Some(SideNote {
                level: Level::Note,
                ..told
            });
        }
        let unsaid = tube.stock.is_some() && run.get(line::Holes).is_some() && !says_how_many(run);
        unsaid.then(|| SideNote {
            level: Level::Note,
            ..note(
                run,
                Line::Electrodes,
                RunFault::ElectrodesUnsaid,
                words::electrodes_unsaid(&tube.name),
            )
        })
    }

    /// A tube that the shop doesn't have, or one longer than any of its size when new.
    fn tube(&self, run: Record<'_>) -> Vec<SideNote> {
        let name = run.get(line::TubeUsed);
        let used = self.by_name.get(&lowered(name)).copied();
        let mut notes = Vec::new();
        if !name.is_empty() && used.is_none() {
            let said = words::unknown_tube(name);
            notes.push(note(run, Line::TubeUsed, RunFault::UnknownTube, said));
        }
        // Without a name that is known it is one of the shop's, whichever.
        let same_size =
            |tube: &&Tube| used.is_none_or(|used| (tube.outer_mm - used.outer_mm).abs() < 1e-6);
        let lengths = self.tubes.iter().filter(same_size);
        let longest = lengths.map(|tube| tube.length_mm).reduce(f64::max);
        let before = run.get(line::TubeBefore).map(quillbore_calc::Length::mm);
        if let (Some(longest), Some(before)) = (longest, before)
            && before > longest + CUT_LONG_MM
        {
            let said = {
                let [before, longest] = [before, longest].map(|mm| self.speaker.length(mm));
                words::tube_too_long(&before, &longest, used.is_some())
            };
            notes.push(note(run, Line::TubeBefore, RunFault::TubeTooLong, said));
        }
        notes
    }

    fn depth(&self, run: Record<'_>) -> Option<SideNote> {
        let reached = run.get(line::DepthReached)?.mm();
        let asked = self.marks.get(&self.mark_of(run)?)?.depth_mm?;
        let too_deep = reached > TOO_DEEP * asked && reached > asked + BEYOND_EXIT_MM;
        too_deep.then(|| {
            let [reached, asked] = [reached, asked].map(|mm| self.speaker.length(mm));
            let said = words::too_deep(&reached, &asked);
            note(run, Line::DepthReached, RunFault::TooDeep, said)
        })
    }

    fn pins(&self, run: Record<'_>) -> Option<SideNote> {
        let typed = run.get(line::Pins);
        let unit = run.entry(line::Pins).unit().unwrap_or(self.job.unit);
        let unread = !typed.is_empty() && pin_sizes(typed, unit).is_none();
        unread.then(|| SideNote {
            level: Level::Note,
            ..note(run, Line::Pins, RunFault::PinsUnread, words::pins(typed))
        })
    }

    /// What the lines of a mark come to together: a piece stands on a line for each of its marks, so
    /// marks are not added up.
    fn of_sums(&self) -> Vec<SideNote> {
        let mut parts: BTreeMap<String, u64> = BTreeMap::new();
        let mut holes: BTreeMap<String, u64> = BTreeMap::new();
        let mut told: BTreeSet<(String, RunFault)> = BTreeSet::new();
        let mut notes = Vec::new();
        for run in self.job.slips_of::<kind::Run>() {
            let count = |count: Option<u32>| u64::from(count.unwrap_or(0));
            // A line whose mark nobody knows stands by itself.
            let mark = self.mark_of(run);
            let form = self.speaker.form;
            let key = mark.clone().unwrap_or_else(|| format!("\u{0}{}", run.id()));
            let sum = parts.entry(key.clone()).or_default();
            *sum += count(run.get(line::Good)) + count(run.get(line::Scrap));
            let most = u64::from(self.received) + self.more;
            if self.received > 0
                && *sum > most
                && told.insert((key.clone(), RunFault::TooManyParts))
            {
                let said = words::too_many_parts(run.get(line::Mark), *sum, most, form);
                notes.push(note(run, Line::Good, RunFault::TooManyParts, said));
            }
            let each = mark.and_then(|mark| self.marks.get(&mark)?.holes);
            let sum = holes.entry(key.clone()).or_default();
            *sum += count(run.get(line::Holes));
            let pieces = u64::from(self.parts) + self.more;
            if let Some(each) = each
                && self.parts > 0
                && *sum > each.saturating_mul(pieces)
                && told.insert((key, RunFault::TooManyHoles))
            {
                let said = words::too_many_holes(run.get(line::Mark), [*sum, each, pieces], form);
                notes.push(note(run, Line::Holes, RunFault::TooManyHoles, said));
            }
        }
        notes
    }
}

/// Parts that are scrap by the run records where no non-conformance says whether they are done again or
/// never delivered: told at the newest line that counts any. One part may stand as scrap at several marks,
/// so the mark with the most tells.
fn scrap(job: &Job, form: Form) -> Option<SideNote> {
    let mut by_mark: BTreeMap<Option<String>, u32> = BTreeMap::new();
    let mut newest = None;
    for run in job.slips_of::<kind::Run>() {
        let Some(scrap) = run.get(line::Scrap).filter(|scrap| *scrap > 0) else {
            continue;
        };
        let sum = by_mark.entry(same_mark(run.get(line::Mark))).or_default();
        *sum = sum.saturating_add(scrap);
        newest = Some(run);
    }
    let scrap = by_mark.into_values().max()?;
    let said = not_sent(job).saturating_add(sum::<kind::Nonconformance, _>(job, line::Redo));
    let unsaid = scrap.checked_sub(said).filter(|unsaid| *unsaid > 0)?;
    let said = words::scrap_unsaid(unsaid, form);
    Some(note(newest?, Line::Scrap, RunFault::ScrapUnsaid, said))
}

/// What names that agree have in common.
fn lowered(name: &str) -> String {
    name.trim().to_lowercase()
}

/// More dressed off than the tube lost; where it grew that is told already.
fn dressed(run: Record<'_>) -> Option<SideNote> {
    let before = run.get(line::TubeBefore)?.mm();
    let after = run.get(line::TubeAfter)?.mm();
    let dressed = run.get(line::Dressed)?.mm();
    let lost = before - after;
    // Lengths are typed to a hundredth at best.
    let too_much = lost >= 0.0 && dressed > lost + 1e-6;
    too_much.then(|| {
        note(
            run,
            Line::Dressed,
            RunFault::DressedTooMuch,
            words::dressed(),
        )
    })
}

fn minutes(run: Record<'_>, form: Form) -> Vec<SideNote> {
    let (spark, clock) = (run.get(line::SparkMinutes), run.get(line::FloorMinutes));
    let stops = run.get(line::StopMinutes);
    // No minutes at all are not read as minutes, which is told already.
    let mut notes: Vec<SideNote> = [(Line::SparkMinutes, spark), (Line::FloorMinutes, clock)]
        .into_iter()
        .filter(|(_, minutes)| minutes.is_some_and(|minutes| minutes > MOST_MINUTES))
        .map(|(line, _)| {
            note(
                run,
                line,
                RunFault::ManyMinutes,
                words::many_minutes(&form.minutes_with_unit(MOST_MINUTES)),
            )
        })
        .collect();
    if let Some(clock) = clock {
        let stood = stops.unwrap_or(0.0);
        if stood >= clock || spark.is_some_and(|spark| spark > clock - stood + 1e-9) {
            let said = words::clock_too_short(spark, clock, stops, form);
            notes.push(note(run, Line::FloorMinutes, RunFault::ClockTooShort, said));
        }
    }
    notes
}

fn note(run: Record<'_>, line: Line, fault: RunFault, said: String) -> SideNote {
    let beside = Beside::Slip(run.id(), Some(line));
    SideNote::new(Level::Check, NoteKind::Run(fault), beside, said)
}
