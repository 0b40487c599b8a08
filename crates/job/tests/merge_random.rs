//! Whatever two desks do to one job: what comes of it can be saved, and nothing is lost in silence.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

mod random;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use chrono::NaiveDate;
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;
use quillbore_calc::RowId;
use quillbore_job::Form;
use quillbore_job::file::{hash, read_job, write_job};
use quillbore_job::job::FigureKey;
use quillbore_job::merge::{Clash, MergeRefused, Merged, Met, Typed, merge};
use quillbore_job::words;
use quillbore_job::{
    Column, Edit, Entry, Issued, Job, Line, Paper, Row, Slip, SlipKind, Unit, apply,
};
use random::edit;

/// What somebody does at a desk.
#[derive(Clone, Debug)]
enum Act {
    Edit(Edit),
    /// A paper whose text is this.
    Issue(Paper, u8),
    /// Saved under another number, as by hand.
    Number(u8),
}

fn act() -> impl Strategy<Value = Act> {
    let paper = prop::sample::select(vec![Paper::Quotation, Paper::Traveler]);
    prop_oneof![
        24 => edit().prop_map(Act::Edit),
        3 => (paper, 0..3_u8).prop_map(|(paper, text)| Act::Issue(paper, text)),
        1 => (0..2_u8).prop_map(Act::Number),
    ]
}

fn done(job: &Job, acts: &[Act]) -> Job {
    let mut job = job.clone();
    for act in acts {
        match act {
            Act::Edit(edit) => {
                if let Ok((next, _)) = apply(&job, edit) {
                    job = next;
                }
            }
            Act::Issue(paper, text) => {
                let issued = issued(&job, *paper, *text);
                job.issued.push(Arc::new(issued));
            }
            Act::Number(at) => {
                job.number = format!("26-020{at}");
                job.opened = NaiveDate::from_ymd_opt(2026, 3, 1 + u32::from(*at));
            }
        }
    }
    job
}

fn issued(job: &Job, paper: Paper, text: u8) -> Issued {
    let number = job.next_paper_number(paper);
    Issued {
        file: format!("{number}.pdf"),
        paper,
        date: NaiveDate::from_ymd_opt(2026, 3, 2).unwrap_or_default(),
        valid_until: None,
        kept_by: None,
        hash: hash(&[text]),
        lines: vec![],
        currency: None,
        rests_on: vec![("labor per hour".to_owned(), 45.5)],
        pages: vec![format!("page {text}")],
        replaces: job.to_replace(paper),
        inputs: Some(Arc::new(job.inputs())),
        seal: None,
        number,
    }
    .sealed()
}

/// A job with something to meet in.
fn begun() -> Job {
    let rows = Edit::InsertRows {
        before: 0,
        count: 3,
    };
    let slips = [SlipKind::Order, SlipKind::Hold].map(|kind| Edit::AddSlip {
        kind,
        lines: vec![(Line::Note, "B".to_owned())],
        unit: Unit::Mm,
    });
    let start = Job {
        number: "26-0101".to_owned(),
        ..Job::default()
    };
    let acts: Vec<Act> = std::iter::once(rows).chain(slips).map(Act::Edit).collect();
    done(&start, &acts)
}

/// A job and what two desks made of it.
fn three() -> impl Strategy<Value = [Job; 3]> {
    let acts = |most| prop::collection::vec(act(), 0..most);
    let left = prop_oneof![7 => Just(None), 1 => (0..5_u32).prop_map(Some)];
    (acts(30), acts(24), acts(24), left).prop_map(|(before, ours, theirs, left)| {
        let mut base = done(&begun(), &before);
        if let Some(left) = left {
            base.next_row = u32::MAX - left;
            base.next_slip = u32::MAX - left;
        }
        let [ours, theirs] = [&ours, &theirs].map(|acts| done(&base, acts));
        [base, ours, theirs]
    })
}

/// Everything that a job says, each thing under a name of its own; `None` of it is empty.
type Said = BTreeMap<String, String>;

/// What a text says: the same in another unit is the same, unless it is measured.
fn text_said(text: &str, unit: Option<Unit>, measured: bool) -> Option<String> {
    let unit = unit?;
    let unit = if measured { unit } else { Unit::Mm };
    Some(format!("{text}|{unit:?}"))
}

fn entry_said<T>(entry: &Entry<T>, measured: bool) -> Option<String> {
    text_said(entry.text(), entry.unit(), measured)
}

/// A row's name and all that hangs on it begin with this.
fn row_name(row: RowId) -> String {
    format!("row {:010} ", row.0)
}

fn slip_name(id: u32) -> String {
    format!("slip {id:010} ")
}

fn figure_name(figure: &FigureKey) -> String {
    match figure {
        FigureKey::Gap(row)
        | FigureKey::Feed(row)
        | FigureKey::HoleMinutes(row)
        | FigureKey::Wear(row) => {
            format!("{}{}", row_name(*row), &format!("{figure:?}")[..3])
        }
        other => format!("figure {other:?}"),
    }
}

fn answer_name(row: RowId, concern: impl std::fmt::Debug) -> String {
    format!("{}answer {concern:?}", row_name(row))
}

/// With every unit, also those that make no difference, where it is `exact`.
fn row_said(row: &Row, exact: bool) -> Vec<(String, String)> {
    let name = row_name(row.id);
    let mut said = vec![(name.clone(), "there".to_owned())];
    for &column in Column::ALL {
        let cell = row.cell(column);
        let cell = text_said(cell.text, cell.unit, exact || column.is_measured());
        said.extend(cell.map(|cell| (format!("{name}{column:?}"), cell)));
    }
    if !row.places.is_empty() {
        said.push((format!("{name}places"), format!("{:?}", row.places)));
    }
    said
}

fn slip_said(slip: &Slip, exact: bool) -> Vec<(String, String)> {
    let name = slip_name(slip.id);
    let mut said = vec![(name.clone(), format!("{:?}", slip.kind))];
    for (&line, entry) in slip.lines.iter() {
        // What was accepted is told apart from who accepted it, but stands with it.
        if line == Line::AcceptedWhat {
            continue;
        }
        let mut text =
            entry_said(entry, exact || line.kind().is_measured()).expect("no empty lines");
        if line == Line::Accepted {
            let what = slip.line(Line::AcceptedWhat);
            text += &entry_said(what, exact).unwrap_or_default();
        }
        said.push((format!("{name}{line:?}"), text));
    }
    said
}

fn said(job: &Job, exact: bool) -> Said {
    let mut said: Said = BTreeMap::new();
    for (field, entry) in job.fields.iter() {
        let text = entry_said(entry, field.kind().is_measured());
        said.extend(text.map(|text| (format!("field {field:?}"), text)));
    }
    said.insert("number".to_owned(), job.number.clone());
    said.insert("opened".to_owned(), format!("{:?}", job.opened));
    said.extend(job.rows.iter().flat_map(|row| row_said(row, exact)));
    said.extend(job.slips.iter().flat_map(|slip| slip_said(slip, exact)));
    for overrule in &job.overrules {
        let value = entry_said(&overrule.value, true).expect("a value");
        let text = format!("{value}|{}", overrule.reason);
        said.insert(figure_name(&overrule.figure), text);
    }
    for answer in &job.answers {
        let told = format!(
            "{:?}",
            (&answer.facts, answer.how, &answer.said, answer.date)
        );
        said.insert(answer_name(answer.row, answer.concern), told);
    }
    said
}

/// What a clash names as not standing: the thing, and the text where it has one.
fn named(clash: &Clash) -> Option<(String, Option<String>)> {
    let typed = |typed: &Typed, measured| text_said(&typed.text, typed.unit, measured);
    Some(match clash {
        Clash::Unit(_) | Clash::PaperTwice { .. } => return None,
        Clash::Number(theirs) => ("number".to_owned(), Some(theirs.clone())),
        Clash::Opened(theirs) => ("opened".to_owned(), Some(format!("{theirs:?}"))),
        Clash::Field(field, theirs) => {
            let text = typed(theirs, field.kind().is_measured());
            (format!("field {field:?}"), text)
        }
        Clash::Cell(row, column, theirs) => {
            let text = typed(theirs, column.is_measured());
            (format!("{}{column:?}", row_name(*row)), text)
        }
        Clash::Places(row, theirs) => {
            let places = (!theirs.is_empty()).then(|| format!("{theirs:?}"));
            (format!("{}places", row_name(*row)), places)
        }
        Clash::Row(row, _) => (row_name(*row), None),
        Clash::Overrule(figure, met) => {
            let lost = lost(met).map(|overrule| {
                let value = entry_said(&overrule.value, true).expect("a value");
                format!("{value}|{}", overrule.reason)
            });
            (figure_name(figure), lost)
        }
        Clash::Answer(row, concern, met) => {
            let lost = lost(met).map(|answer| {
                format!(
                    "{:?}",
                    (&answer.facts, answer.how, &answer.said, answer.date)
                )
            });
            (answer_name(*row, concern), lost)
        }
        Clash::Line(slip, line, theirs) => {
            let text = typed(theirs, line.kind().is_measured());
            (format!("{}{line:?}", slip_name(*slip)), text)
        }
        Clash::Slip(slip, _) => (slip_name(*slip), None),
    })
}

fn lost<T>(met: &Met<T>) -> Option<&T> {
    match met {
        Met::Theirs(lost) | Met::RowGone { lost, .. } => Some(lost),
        Met::TakenBack(_) => None,
    }
}

/// What is told, each thing until it is looked for.
struct Told(Vec<(String, Option<String>)>);

impl Told {
    fn take(&mut self, wanted: impl Fn(&str, Option<&String>) -> bool) -> bool {
        let before = self.0.len();
        self.0.retain(|(name, text)| !wanted(name, text.as_ref()));
        before > self.0.len()
    }
}

/// Ours with the identities that its new rows and slips have in the merged job, found by what they
/// say: behind those of base and theirs they stand in our order.
fn as_merged(base: &Job, ours: &Job, theirs: &Job, merged: &Job) -> Result<Job, TestCaseError> {
    let mut ours = ours.clone();
    let there: BTreeSet<RowId> = theirs.rows.iter().map(|row| row.id).collect();
    let only_ours = merged.rows.iter();
    let mut only_ours =
        only_ours.filter(|row| row.id.0 >= base.next_row && !there.contains(&row.id));
    let mut new_ids: BTreeMap<RowId, RowId> = BTreeMap::new();
    for row in &mut ours.rows {
        let is_theirs = theirs
            .row(row.id)
            .is_some_and(|other| row_said(other, true) == row_said(row, true));
        if row.id.0 < base.next_row || is_theirs {
            continue;
        }
        let new = only_ours.next();
        prop_assert!(new.is_some(), "a new row of ours is gone: {:?}", row);
        let new = new.expect("a row").id;
        prop_assert!(new.0 >= theirs.next_row, "{:?} was given out before", new);
        new_ids.insert(row.id, new);
        Arc::make_mut(row).id = new;
    }
    prop_assert_eq!(only_ours.next(), None, "a row that nobody made");
    let of = |row: RowId| new_ids.get(&row).copied().unwrap_or(row);
    for overrule in &mut ours.overrules {
        overrule.figure = overrule.figure.renumbered(of);
    }
    for answer in &mut ours.answers {
        answer.row = of(answer.row);
    }
    let there: BTreeSet<u32> = theirs.slips.iter().map(|slip| slip.id).collect();
    let only_ours = merged.slips.iter();
    let mut only_ours =
        only_ours.filter(|slip| slip.id >= base.next_slip && !there.contains(&slip.id));
    for slip in &mut ours.slips {
        let is_theirs = theirs
            .slip(slip.id)
            .is_some_and(|other| slip_said(other, true) == slip_said(slip, true));
        if slip.id < base.next_slip || is_theirs {
            continue;
        }
        let new = only_ours.next();
        prop_assert!(new.is_some(), "a new slip of ours is gone: {:?}", slip);
        let new = new.expect("a slip").id;
        prop_assert!(new >= theirs.next_slip, "{} was given out before", new);
        Arc::make_mut(slip).id = new;
    }
    prop_assert_eq!(only_ours.next(), None, "a slip that nobody made");
    Ok(ours)
}

/// Names of rows and slips that a job has.
fn things(said: &Said) -> BTreeSet<String> {
    let names = said.keys().filter(|name| name.ends_with(' '));
    names.cloned().collect()
}

/// The row or slip that a name belongs to.
fn thing(name: &str) -> Option<String> {
    let row = "row 0000000000 ".len();
    let slip = "slip 0000000000 ".len();
    let is_row = name.starts_with("row ");
    let is_slip = name.starts_with("slip ");
    let end = if is_row { row } else { slip };
    (is_row || is_slip).then(|| name[..end].to_owned())
}

/// Whether cells or places of a row, or lines of a slip, differ; what hangs on a row doesn't count.
fn was_changed(thing: &str, base: &Said, side: &Said) -> bool {
    let own = |said: &Said| -> Vec<(String, String)> {
        let of = said.iter().filter(|(name, _)| name.starts_with(thing));
        let own = of.filter(|(name, _)| !hangs(name));
        own.map(|(name, text)| (name.clone(), text.clone()))
            .collect()
    };
    own(base) != own(side)
}

fn hangs(name: &str) -> bool {
    let hung = [" Gap", " Fee", " Wea", " Hol", " answer "];
    name.starts_with("row ") && hung.iter().any(|hung| name.contains(hung))
}

/// Every thing by the rules: what one changed is there, what both changed is ours and told.
fn check_nothing_is_lost(
    [base, ours, theirs]: [&Job; 3],
    merged: &Merged,
) -> Result<(), TestCaseError> {
    let ours = as_merged(base, ours, theirs, &merged.job)?;
    let papers = check_papers(base, &ours, theirs, merged)?;
    let [b, mut o, t, m] = [base, &ours, theirs, &merged.job].map(|job| said(job, false));
    let [exact_b, exact_o, exact_t] = [base, &ours, theirs].map(|job| said(job, true));
    for (from, to) in papers {
        for (name, text) in &mut o {
            // Slips about a paper of ours that has another number now follow it.
            let is_new = b.get(name) != Some(text);
            if name.ends_with("Paper") && is_new && text.trim().starts_with(&format!("{from}|")) {
                *text = text.replacen(&from, &to, 1);
            }
        }
    }
    let mut told = Told(merged.clashes.iter().filter_map(named).collect());
    let (in_base, in_ours, in_theirs, stay) = (things(&b), things(&o), things(&t), things(&m));
    let names: BTreeSet<&String> = b.keys().chain(o.keys()).chain(t.keys()).collect();
    prop_assert!(m.keys().all(|name| names.contains(name)));
    for &name in &names {
        let (mut old, mut mine, mut other) = (b.get(name), o.get(name), t.get(name));
        let stands = m.get(name);
        if let Some(thing) = thing(name) {
            let was = in_base.contains(&thing);
            let (ours_has, theirs_has) = (in_ours.contains(&thing), in_theirs.contains(&thing));
            if *name == thing && was && ours_has != theirs_has {
                // One took it out: it goes where the other left it as it was.
                let side = if ours_has { &exact_o } else { &exact_t };
                let changed = was_changed(&thing, &exact_b, side);
                prop_assert_eq!(stands.is_some(), changed, "{}", name);
                prop_assert_eq!(told.take(|told, _| told == name), changed, "{}", name);
                continue;
            }
            // Who took it out said nothing about what it holds.
            if was && !ours_has {
                mine = old;
            }
            if was && !theirs_has {
                other = old;
            }
            if !stay.contains(&thing) {
                prop_assert_eq!(stands, None);
                let new = [mine, other]
                    .into_iter()
                    .find(|side| *side != old)
                    .flatten();
                if new.is_some() {
                    let is_told = told.take(|told, text| told == name && text == new);
                    prop_assert!(is_told, "{} is not told", name);
                }
                continue;
            }
            // New at both, brought back by both.
            if !was {
                old = None;
            }
        }
        if mine == old || mine == other {
            prop_assert_eq!(stands, other, "{}", name);
        } else if other == old {
            prop_assert_eq!(stands, mine, "{}", name);
        } else if hangs(name) || name.starts_with("figure") {
            prop_assert_eq!(stands, mine.or(other), "{}", name);
            let lost = mine.and(other);
            let is_told = told.take(|told, text| told == name && text == lost);
            prop_assert!(is_told, "{} is not told", name);
        } else {
            prop_assert_eq!(stands, mine, "{}", name);
            // Who accepted and what stand together; each that differs is told by itself.
            let is_told = if name.ends_with("Accepted") {
                told.take(|told, _| told.starts_with(name.as_str()))
            } else {
                told.take(|told, text| told == name && text == other)
            };
            prop_assert!(is_told, "{} is not told", name);
        }
    }
    prop_assert_eq!(told.0, [], "told for nothing");
    check_order(base, &ours, theirs, &merged.job)
}

/// Both desks' papers are there with all that they say; the numbers of ours that got others.
fn check_papers(
    base: &Job,
    ours: &Job,
    theirs: &Job,
    merged: &Merged,
) -> Result<BTreeMap<String, String>, TestCaseError> {
    let job = &merged.job;
    for issued in &theirs.issued {
        prop_assert!(job.issued.contains(issued), "{} of theirs", issued.number);
    }
    let twice: BTreeMap<String, String> = merged
        .clashes
        .iter()
        .filter_map(|clash| match clash {
            Clash::PaperTwice {
                number, kept_as, ..
            } => Some((number.clone(), kept_as.clone())),
            _ => None,
        })
        .collect();
    let mut only_ours = 0;
    for issued in &ours.issued {
        let renamed = |number: &String| twice.get(number).unwrap_or(number).clone();
        let is_new = !base.issued.contains(issued);
        let changed = |mine: Issued, before: &Issued| {
            // Under another name it has another seal, which fits it.
            if mine == *before { mine } else { mine.sealed() }
        };
        let mut mine = issued.as_ref().clone();
        if is_new {
            mine.replaces = mine.replaces.iter().map(renamed).collect();
        }
        let mut mine = changed(mine, issued);
        let meets = |other: &Arc<Issued>| other.number == mine.number && **other != mine;
        let meets = theirs.issued.iter().any(meets) && is_new;
        prop_assert_eq!(meets, twice.contains_key(&mine.number));
        only_ours += usize::from(!theirs.issued.iter().any(|other| **other == mine));
        let before = mine.clone();
        mine.number = renamed(&mine.number);
        let mine = changed(mine, &before);
        let there = job.issued.iter().any(|there| **there == mine);
        prop_assert!(there, "{} of ours", issued.number);
    }
    prop_assert_eq!(job.issued.len(), theirs.issued.len() + only_ours);
    for &paper in Paper::ALL {
        let next = job.next_paper_number(paper);
        for side in [ours, theirs] {
            let other = Job {
                number: job.number.clone(),
                ..side.clone()
            };
            let theirs = other.next_paper_number(paper);
            prop_assert!(
                next.len() > theirs.len() || next >= theirs,
                "{} {}",
                next,
                theirs
            );
        }
    }
    Ok(twice)
}

/// Rows and slips stand as at either desk, but for those that both made alike: they are one.
fn check_order(base: &Job, ours: &Job, theirs: &Job, job: &Job) -> Result<(), TestCaseError> {
    let rows = |job: &Job| -> Vec<u32> { job.rows.iter().map(|row| row.id.0).collect() };
    let slips = |job: &Job| -> Vec<u32> { job.slips.iter().map(|slip| slip.id).collect() };
    for (list, next) in [
        (rows as fn(&Job) -> Vec<u32>, base.next_row),
        (slips, base.next_slip),
    ] {
        let [ours, theirs, merged] = [ours, theirs, job].map(list);
        let alike = |id: &u32| *id >= next && ours.contains(id) && theirs.contains(id);
        for side in [&ours, &theirs] {
            let both = |id: &&u32| side.contains(id) && merged.contains(id) && !alike(id);
            let in_merged: Vec<&u32> = merged.iter().filter(both).collect();
            let in_side: Vec<&u32> = side.iter().filter(both).collect();
            prop_assert_eq!(
                in_merged,
                in_side,
                "of {:?} and {:?}: {:?}",
                ours,
                theirs,
                merged
            );
        }
    }
    Ok(())
}

fn check_can_be_saved(job: &Job) -> Result<(), TestCaseError> {
    let again = read_job(write_job(job).as_bytes());
    prop_assert_eq!(again.as_ref(), Ok(job));
    Ok(())
}

/// The job with what has no order of its own in one order.
fn sorted(job: &Job) -> Job {
    let mut job = job.clone();
    job.overrules.sort_by(|a, b| a.figure.cmp(&b.figure));
    job.answers
        .sort_by_key(|answer| (answer.row, answer.concern));
    job
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 1_000,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn what_two_desks_did_can_be_saved_and_nothing_is_lost(
        [base, ours, theirs] in three(),
        later in prop::collection::vec(act(), 0..6),
    ) {
        let merged = match merge(&base, &ours, &theirs) {
            Ok(merged) => merged,
            Err(why) => {
                prop_assert_eq!(why, MergeRefused::IdentitiesRunOut);
                prop_assert!(base.next_row > u32::MAX - 5);
                return Ok(());
            }
        };
        let job = &merged.job;
        check_can_be_saved(job)?;
        for (part, name) in [(|job: &Job| job.next_row) as fn(&Job) -> u32, |job| job.next_slip]
            .into_iter()
            .zip(["row", "slip"])
        {
            prop_assert!(part(job) >= part(&ours).max(part(&theirs)), "next {}", name);
        }
        prop_assert_eq!(job.unit, ours.unit);
        let unit = (theirs.unit != base.unit && theirs.unit != ours.unit)
            .then_some(Clash::Unit(theirs.unit));
        let told = merged.clashes.iter().find(|clash| matches!(clash, Clash::Unit(_)));
        prop_assert_eq!(told, unit.as_ref());
        check_nothing_is_lost([&base, &ours, &theirs], &merged)?;
        for clash in &merged.clashes {
            let line = words::merge::clash(job, clash, Form::default());
            prop_assert!(!line.contains('\n') && !line.ends_with('.') && line.len() > 15, "{}", line);
        }
        // Put together once more with the same file: nothing is left to do.
        let again = merge(&theirs, job, &theirs);
        prop_assert_eq!(again.as_ref(), Ok(&Merged { job: job.clone(), clashes: vec![] }));
        // The other desk went on meanwhile.
        let theirs_later = done(&theirs, &later);
        if let Ok(again) = merge(&theirs, job, &theirs_later) {
            check_can_be_saved(&again.job)?;
            check_nothing_is_lost([&theirs, job, &theirs_later], &again)?;
        }
    }

    #[test]
    fn a_desk_that_did_nothing_changes_nothing([base, ours, _] in three()) {
        let same = |job: &Job| Merged { job: sorted(job), clashes: vec![] };
        let of = |ours: &Job, theirs: &Job| {
            let merged = merge(&base, ours, theirs).expect("one job's worth");
            Merged { job: sorted(&merged.job), ..merged }
        };
        prop_assert_eq!(of(&ours, &base), same(&ours));
        let theirs = ours;
        let shown = Job { unit: base.unit, ..theirs.clone() };
        let mut other = of(&base, &theirs);
        other.clashes.retain(|clash| *clash != Clash::Unit(theirs.unit));
        prop_assert_eq!(other, same(&shown));
        prop_assert_eq!(of(&base, &base), same(&base));
    }
}

/// The desks of these tests meet in every way that there is.
#[test]
fn the_desks_meet_in_every_way() {
    let mut runner = TestRunner::deterministic();
    let mut seen = BTreeMap::new();
    let strategy = three();
    for _ in 0..2_000 {
        let [base, ours, theirs] = strategy.new_tree(&mut runner).expect("jobs").current();
        let Ok(merged) = merge(&base, &ours, &theirs) else {
            *seen.entry("refused".to_owned()).or_insert(0) += 1;
            continue;
        };
        let ways = merged.clashes.iter().map(|clash| {
            let whole = format!("{clash:?}");
            let kind = whole.split(['(', ' ']).next().unwrap_or_default();
            let by = match clash {
                Clash::Row(_, by) | Clash::Slip(_, by) => format!("{by:?}"),
                Clash::Overrule(_, met) => way(met),
                Clash::Answer(_, _, met) => way(met),
                _ => String::new(),
            };
            format!("{kind} {by}")
        });
        ways.for_each(|way| *seen.entry(way).or_insert(0) += 1);
    }
    let seen: Vec<&String> = seen.keys().collect();
    let ways = "Answer Gone Ours,Answer Gone Theirs,Answer Met,Answer Taken Ours,\
        Answer Taken Theirs,Cell ,Field ,Line ,Number ,Opened ,Overrule Gone Ours,\
        Overrule Gone Theirs,Overrule Met,Overrule Taken Ours,Overrule Taken Theirs,PaperTwice ,\
        Places ,Row Ours,Row Theirs,Slip Ours,Slip Theirs,Unit ,refused";
    assert_eq!(seen, ways.split(',').collect::<Vec<_>>());
}

fn way<T>(met: &Met<T>) -> String {
    match met {
        Met::Theirs(_) => "Met".to_owned(),
        Met::TakenBack(by) => format!("Taken {by:?}"),
        Met::RowGone { of, .. } => format!("Gone {of:?}"),
    }
}
