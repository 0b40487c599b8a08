//! The head, two lines that never change their height: who, what, which revision and what is done next;
//! then where the job stands and what it lacks, or a question.

use egui::{Align, Color32, Layout, Rect, RichText, Ui, UiBuilder, vec2};
use quillbore_calc::finding::{Kind, Level};
use quillbore_job::life::{self, Blocker, Deed, State, next_deed};
use quillbore_job::reorder::last_price;
use quillbore_job::results::{Missing, NextStep, SideNote, next_call};
use quillbore_job::shop::minor_digits;
use quillbore_job::slip::{kind, line};
use quillbore_job::words::{life as life_words, slips};
use quillbore_job::{Field, Job, Paper};

use super::parts::pencil;
use super::shared::Shared;
use super::waiting::waiting_ui;
use crate::actions::Action;
use crate::grid::GridAt;
use crate::look;
use crate::spot::Spot;
use crate::view::{Ask, SheetView, Target, Waiting};
use crate::words::commands;
use crate::words::head as words;

/// The height of the first line.
const FIRST: f32 = 30.0;

/// A head at least so wide has room for words that the commands have, too.
const ROOMY: f32 = 700.0;

/// A head so wide has room for the word of the shelf beside the job.
const WITH_SHELF_WORD: f32 = 320.0;

/// Things that are missing which are told at most.
const MOST_MISSING: usize = 3;
/// Room for how many more are missing.
const AND_MORE: f32 = 80.0;

/// What the head is told beside the job.
#[derive(Clone, Copy)]
pub struct HeadNews<'a> {
    /// What undo and redo would do.
    pub labels: (Option<&'a str>, Option<&'a str>),
    /// The job is not saved.
    pub dirty: bool,
    /// The other desk that has the job open.
    pub elsewhere: Option<&'a str>,
    /// The shelf is out of sight: a word brings it.
    pub shelf_is_hidden: bool,
}

/// The head of the window.
pub fn head_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    news: HeadNews<'_>,
    view: &mut SheetView,
    asks: &mut Vec<Ask>,
) {
    let all = ui.max_rect();
    let first = all.with_max_y(all.top() + FIRST);
    let second = all.with_min_y(first.bottom());
    let next = &shared.whole.next;
    let left = words_ui(ui, first, (shared, next), news, view, asks);
    let mut who = first.with_max_x(left - 16.0);
    if news.shelf_is_hidden && who.width() > WITH_SHELF_WORD {
        who.min.x = shelf_word_ui(ui, who, asks);
    }
    who_ui(ui, who, shared.job, news.dirty);
    let layout = Layout::left_to_right(Align::Center);
    ui.scope_builder(UiBuilder::new().max_rect(second).layout(layout), |ui| {
        if view.waiting.as_ref().is_some_and(Waiting::is_in_head) {
            waiting_ui(ui, view, asks);
        } else {
            stands_ui(ui, (shared, next), news, asks);
        }
    });
}

/// The word that brings the shelf, at the left of a head; gives where it ends.
fn shelf_word_ui(ui: &mut Ui, place: Rect, asks: &mut Vec<Ask>) -> f32 {
    let layout = Layout::left_to_right(Align::Center);
    let shown = ui.scope_builder(UiBuilder::new().max_rect(place).layout(layout), |ui| {
        let keys = Action::Shelf.told_keys(ui.ctx());
        let word = look::keyed_word(ui, commands::action(Action::Shelf), &keys);
        if word.clicked() {
            asks.push(Ask::Do(Action::Shelf));
        }
        word.rect.right()
    });
    shown.inner + 16.0
}

/// The job's number, customer, part and revision.
fn who_ui(ui: &mut Ui, place: Rect, job: &Job, dirty: bool) {
    let t = look::tokens(ui);
    let number = match job.number.as_str() {
        "" => words::NEW_JOB,
        number => number,
    };
    let layout = Layout::left_to_right(Align::Center);
    ui.scope_builder(UiBuilder::new().max_rect(place).layout(layout), |ui| {
        ui.label(RichText::new(number).font(look::heading()));
        if dirty && ui.available_width() > 72.0 {
            ui.add_space(6.0);
            pencil(ui, words::NOT_SAVED);
        }
        ui.add_space(12.0);
        let part = words::part(job.text(Field::Part), job.text(Field::Revision));
        let who = words::who(job.text(Field::Customer), &part);
        let room = ui.available_rect_before_wrap();
        if room.width() > 24.0 {
            look::clipped_label(ui, room, &who, look::foot(), t.ink);
        }
    });
}

/// What is done next, and the words that do things, at the right; gives where they begin.
fn words_ui(
    ui: &mut Ui,
    place: Rect,
    (shared, next): (&Shared<'_>, &NextStep),
    news: HeadNews<'_>,
    view: &SheetView,
    asks: &mut Vec<Ask>,
) -> f32 {
    let layout = Layout::right_to_left(Align::Center);
    let shown = ui.scope_builder(UiBuilder::new().max_rect(place).layout(layout), |ui| {
        ui.spacing_mut().item_spacing.x = 16.0;
        let all = [
            Action::Commands,
            Action::Preview,
            Action::Redo,
            Action::Undo,
        ];
        // A very narrow head leaves what the commands have, too, to them.
        let shown = if place.width() < ROOMY { 1 } else { all.len() };
        for action in all.into_iter().take(shown) {
            let (allowed, label) = match action {
                Action::Undo => (news.labels.0.is_some(), news.labels.0),
                Action::Redo => (news.labels.1.is_some(), news.labels.1),
                _ => (true, None),
            };
            let hint = hint(action, label, ui);
            ui.add_enabled_ui(allowed, |ui| {
                let word = look::quiet_word(ui, commands::action(action));
                let word = word.on_hover_text(&hint);
                let word = word.on_disabled_hover_text(words::NOTHING_TO_UNDO);
                if word.clicked() {
                    asks.push(Ask::Do(action));
                }
            });
        }
        // While a paper is on the screen the key is about that paper: its words stand in the margin.
        let is_of_paper = |deed: Deed| match (view.paper, deed) {
            (None, _) => false,
            (Some(seen), Deed::Quote) => seen != Paper::Quotation,
            (Some(seen), Deed::Confirm) => seen != Paper::Confirmation,
            (Some(seen), Deed::Pack) => seen != Paper::Packing,
            (Some(seen), Deed::Release) => seen != Paper::Traveler,
            (Some(_), _) => true,
        };
        let keys = Action::NextStep.told_keys(ui.ctx());
        if let Some(deed) = next_deed(shared.job).filter(|deed| !is_of_paper(*deed)) {
            let word = words::deed(deed, next.part_here(), view.paper);
            if look::keyed_word(ui, &word, &keys).clicked() {
                asks.push(Ask::Do(Action::NextStep));
            }
        }
        ui.min_rect().left()
    });
    shown.inner
}

fn hint(action: Action, label: Option<&str>, ui: &Ui) -> String {
    let keys = action.told_keys(ui.ctx());
    match label {
        Some(label) => words::hint(commands::action(action), label, &keys),
        None => keys,
    }
}

/// Where the job stands, what is missing before the next step, each a word that leads there, and how
/// many stops and checks there are.
fn stands_ui(
    ui: &mut Ui,
    (shared, next): (&Shared<'_>, &NextStep),
    news: HeadNews<'_>,
    asks: &mut Vec<Ask>,
) {
    let job = shared.job;
    let all = ui.max_rect();
    let counted = ui.scope_builder(
        UiBuilder::new()
            .max_rect(all)
            .layout(Layout::right_to_left(Align::Center)),
        |ui| {
            counts_ui(ui, shared.whole.waiting, asks);
            ui.min_rect().left()
        },
    );
    let room = all.with_max_x(counted.inner - 16.0);
    let layout = Layout::left_to_right(Align::Center);
    ui.scope_builder(UiBuilder::new().max_rect(room).layout(layout), |ui| {
        ui.spacing_mut().item_spacing.x = 0.0;
        ui.set_clip_rect(ui.clip_rect().intersect(room.expand2(vec2(4.0, 4.0))));
        let ended = life::outcome(job).map(slips::outcome);
        let lacking = lacking(shared, next);
        let lead = words::lead(next, !lacking.is_empty());
        pencil(ui, &words::stands(&state_said(shared), ended, lead));
        let all = lacking.len();
        let mut more = all;
        for (at, (said, target)) in lacking.into_iter().take(MOST_MISSING).enumerate() {
            // What has no room beside the count of checks is counted, never written over it.
            let after = if at + 1 < all { AND_MORE } else { 0.0 };
            let wide =
                ui.painter()
                    .layout_no_wrap(said.clone(), look::small(), Color32::PLACEHOLDER);
            let needs = wide.size().x + after;
            if at > 0 && ui.cursor().left() + needs > room.right() {
                break;
            }
            more -= 1;
            if at > 0 {
                pencil(ui, ", ");
            }
            match target {
                Some(target) => {
                    if look::quiet_word(ui, &said).clicked() {
                        asks.push(Ask::GoTo(target));
                    }
                }
                None => pencil(ui, &said),
            }
        }
        if more > 0 {
            pencil(ui, &words::and_more(more));
        }
        if let Some(day) = next_call(job) {
            pencil(
                ui,
                &words::ask_about_quotation(day <= shared.day, &shared.shop.form.day(day)),
            );
        }
        if let Some(desk) = news.elsewhere {
            pencil(ui, &words::open_elsewhere(desk));
        }
    });
}

/// Where the job stands, with the price that was said to the customer; while nobody ordered at it,
/// today's stands beside it where it is another one.
fn state_said(shared: &Shared<'_>) -> String {
    let job = shared.job;
    let state = life::state(job);
    let said = match state {
        State::Delivered if life::sum::<kind::Delivery, _>(job, line::Count) == 0 => {
            words::NOTHING_TO_DELIVER
        }
        state => life_words::state(state),
    };
    let today = shared.results.figures.price.as_ref();
    let today = today.and_then(|price| price.breaks.first());
    let quantity = today.map_or(1, |today| today.quantity);
    let stands = match state {
        State::Inquiry | State::LaidAside => None,
        State::Quoted => {
            let last = last_price(job, quantity);
            last.map(|last| {
                let other = last.other_currency(job, shared.shop).map(str::to_owned);
                (last.each, other)
            })
        }
        State::Ordered | State::PartsHere | State::OnTheFloor | State::Delivered => {
            let orders = job.slips_of::<kind::Order>();
            let reckoned = shared.shop.tables.rates.currency.as_str();
            let mut priced = orders.filter_map(|order| {
                let pays = quillbore_job::order::pays_in(job, order);
                let other = pays.filter(|pays| *pays != reckoned).map(str::to_owned);
                Some((order.get(line::Each)?, other))
            });
            priced.next_back()
        }
    };
    let digits = shared.shop.tables.rates.minor_digits;
    let money = |each| shared.shop.form.money_exact(each, digits);
    let today = today.map(|today| today.each);
    stands.map_or_else(
        || said.to_owned(),
        |(each, currency)| {
            let is_open = state == State::Quoted;
            let other = today.filter(|today| is_open && *today != each);
            match currency {
                // What is in another currency is no price to hold today's against.
                Some(currency) => {
                    let each = shared.shop.form.money_exact(each, minor_digits(&currency));
                    words::at_price(said, &format!("{each} {currency}"), None)
                }
                None => words::at_price(said, &money(each), other.map(money).as_deref()),
            }
        },
    )
}

/// How many stops and checks wait for somebody, as one word that goes to the next of them.
fn counts_ui(ui: &mut Ui, [stops, checks]: [usize; 2], asks: &mut Vec<Ask>) {
    if stops + checks == 0 {
        return;
    }
    let keys = Action::NextNote.told_keys(ui.ctx());
    let word = look::keyed_word(ui, &words::counts(stops, checks), &keys);
    if word.clicked() {
        asks.push(Ask::Do(Action::NextNote));
    }
}

/// Whether a note of a level waits for somebody in the office: until it is answered, unless it is about
/// what the floor sees to.
#[must_use]
pub fn waits(note: &SideNote, level: Level) -> bool {
    let asked = note.question.as_ref();
    let answered = asked.is_some_and(|question| question.answer.is_some());
    note.level == level && !answered && !note.kind.is_for_the_floor()
}

/// What the job lacks before its next step, each with the place where it is mended.
fn lacking(shared: &Shared<'_>, next: &NextStep) -> Vec<(String, Option<Target>)> {
    let blocked = |blocker: &Blocker| (life_words::blocker(blocker), target_of(blocker));
    match next {
        NextStep::Quote {
            missing,
            no_holes,
            others,
        } => {
            let first_cell = Target::Cell(GridAt::new(0, 0));
            let missing = missing.iter().map(|missing| {
                let said = words::missing(*missing).to_owned();
                (said, Some(place_of(shared, *missing)))
            });
            let holes = no_holes.then(|| (words::HOLES.to_owned(), Some(first_cell)));
            missing
                .chain(holes)
                .chain(others.iter().map(blocked))
                .collect()
        }
        NextStep::Release(blockers) => {
            let blocked = blockers.iter().map(blocked);
            blocked.chain(short(shared)).collect()
        }
        NextStep::Deliver { left, held } => {
            let left = left.map(|left| (words::left_to_deliver(left, shared.shop.form), None));
            left.into_iter().chain(held.iter().map(blocked)).collect()
        }
        NextStep::Nothing => Vec::new(),
    }
}

/// What lies in the drawer in too small a number: it keeps no traveler back, since more may be bought
/// meanwhile, but nobody calls the job ready for the floor.
fn short(shared: &Shared<'_>) -> impl Iterator<Item = (String, Option<Target>)> {
    let findings = &shared.results.figures.findings;
    let is = |of: fn(&Kind) -> bool| findings.iter().any(|finding| of(&finding.kind));
    let tubes = is(|kind| matches!(kind, Kind::TubesShort { .. }));
    let guides = is(|kind| matches!(kind, Kind::GuidesShort { .. }));
    let said = [
        tubes.then_some(words::ELECTRODES_SHORT),
        guides.then_some(words::GUIDES_SHORT),
    ];
    let said = said.into_iter().flatten();
    said.map(|said| (said.to_owned(), Some(Target::NextNote)))
}

/// Where somebody types what is missing.
fn place_of(shared: &Shared<'_>, missing: Missing) -> Target {
    match missing {
        Missing::Material => Target::Spot(Spot::Field(Field::Material)),
        Missing::Machine => Target::Spot(Spot::Field(Field::Machine)),
        Missing::Quantity => Target::Spot(Spot::Field(Field::Quantity)),
        Missing::Size | Missing::Depth | Missing::Reading | Missing::Name | Missing::Exchange => {
            let mut notes = shared.results.notes.iter();
            let note = notes.find(|note| note.kind.missing() == Some(missing));
            note.map_or(Target::NextNote, |note| Target::Beside(note.beside))
        }
    }
}

/// Where somebody sees to what is in the way.
const fn target_of(blocker: &Blocker) -> Option<Target> {
    Some(match blocker {
        Blocker::Stop
        | Blocker::SheetUnread
        | Blocker::Unread { .. }
        | Blocker::Unanswered { .. }
        | Blocker::Unpriced => Target::NextNote,
        _ => return None,
    })
}
