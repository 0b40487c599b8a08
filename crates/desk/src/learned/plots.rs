//! Charts: every run against its estimate by minutes and by wear, and how far estimates were off as
//! time went on.

use egui::{Key, Modifiers, Stroke, Ui, WidgetInfo};
use quillbore_job::{Form, Line};
use quillbore_office::learned::{ErrorAt, Learned, Run, Teaches};

use super::LearnedPage;
use super::chart::{Chart, Ring, places};
use crate::look;
use crate::sheet::parts::pencil;
use crate::view::Ask;
use crate::words::learned as words;

/// Lots over which errors are averaged.
const ERRORS_OVER: usize = 5;

/// What of a run stands in a chart, over what the start values say.
struct Shown {
    actual: f64,
    expected: [f64; 3],
}

/// A chart of the runs: which figure of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Of {
    Minutes,
    Wear,
}

impl Of {
    fn shown(self, run: &Run) -> Option<Shown> {
        match self {
            Self::Minutes => {
                let minutes = run.minutes?;
                Some(Shown {
                    actual: minutes.actual / minutes.by_start,
                    expected: minutes.expected.map(|expected| expected / minutes.by_start),
                })
            }
            Self::Wear => run.wear.map(|wear| Shown {
                actual: wear.actual,
                expected: wear.expected,
            }),
        }
    }
}

/// Minutes and wear of the runs of the chosen kind, in the order of their days; a ring opens its job.
pub(super) fn runs_ui(ui: &mut Ui, told: &Learned, page: &mut LearnedPage, asks: &mut Vec<Ask>) {
    let chosen = page.of;
    let of_kind = |run: &&Run| chosen.is_none_or(|kind| run.kind == Some(kind));
    let runs: Vec<&Run> = told.runs.iter().filter(of_kind).collect();
    // Of more than there is room for the newest are shown.
    let room = places(ui.available_width());
    let shown = &runs[runs.len().saturating_sub(room)..];
    page.at = page.at.filter(|at| *at < shown.len());
    ui.add_space(16.0);
    ui.label(words::runs_plot_head(
        chosen.as_ref(),
        shown.len(),
        runs.len(),
        page.form,
    ));
    pencil(ui, words::RUNS_PLOT_SAYS);
    // The line is there also where nothing is pointed at, so that what stands below never jumps.
    let at = page.at.and_then(|at| shown.get(at));
    ui.label(at.map_or_else(|| " ".to_owned(), |run| words::run_at(run, page.form)));
    chart_ui(ui, Of::Minutes, shown, page, asks);
    ui.label(words::WEAR_PLOT);
    chart_ui(ui, Of::Wear, shown, page, asks);
}

fn chart_ui(ui: &mut Ui, of: Of, runs: &[&Run], page: &mut LearnedPage, asks: &mut Vec<Ask>) {
    let t = look::tokens(ui);
    let shown: Vec<Option<Shown>> = runs.iter().map(|run| of.shown(run)).collect();
    let values = shown.iter().flatten().flat_map(|shown| {
        let [low, _, high] = shown.expected;
        [shown.actual, low, high]
    });
    let (chart, response) = Chart::begin(ui, runs.len(), values, page.form);
    let count = shown.iter().flatten().count();
    let name = words::runs_plot(count, of == Of::Wear);
    response.widget_info(|| WidgetInfo::labeled(egui::Role::Image, true, &name));
    let each = || shown.iter().map(Option::as_ref);
    chart.bands(
        ui,
        each().map(|shown| shown.map(|shown| [shown.expected[0], shown.expected[2]])),
    );
    let likely = each().map(|shown| shown.map(|shown| shown.expected[1]));
    chart.steps(ui, likely, Stroke::new(2.5, t.accent));
    move_to(ui, &chart, &response, page, runs.len());
    if let Some(at) = page.at {
        chart.cursor(ui, at, t.hairline);
    }
    for (at, (run, shown)) in runs.iter().zip(&shown).enumerate() {
        if let Some(shown) = shown {
            let is_at = page.at == Some(at);
            chart.ring(ui, at, shown.actual, ring(&run.teaches), is_at);
        }
    }
    if response.has_focus() {
        look::focus_frame(ui, response.rect);
    }
    if let (true, Some(run)) = (response.clicked(), page.at.and_then(|at| runs.get(at))) {
        asks.push(Ask::OpenRecord(run.job.clone(), run.slip, Line::Mark));
    }
}

/// The run that is spoken of: under the pointer, or gone to by the arrows.
fn move_to(
    ui: &Ui,
    chart: &Chart,
    response: &egui::Response,
    page: &mut LearnedPage,
    count: usize,
) {
    if let Some(pointer) = response.hover_pos() {
        page.at = chart.nearest(pointer.x);
        ui.set_cursor_icon(egui::CursorIcon::PointingHand);
    }
    if response.gained_focus() || (response.has_focus() && page.at.is_none()) {
        page.at = page.at.or_else(|| count.checked_sub(1));
    }
    if response.has_focus() {
        ui.memory_mut(|memory| {
            let arrows = egui::EventFilter {
                horizontal_arrows: true,
                ..egui::EventFilter::default()
            };
            memory.set_focus_lock_filter(response.id, arrows);
        });
        let pressed = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
        let last = count.saturating_sub(1);
        if pressed(Key::Home) {
            page.at = Some(0);
        }
        if pressed(Key::End) {
            page.at = Some(last);
        }
        if pressed(Key::ArrowLeft) {
            page.at = page.at.map(|at| at.saturating_sub(1));
        }
        if pressed(Key::ArrowRight) {
            page.at = page.at.map(|at| (at + 1).min(last));
        }
    }
}

const fn ring(teaches: &Teaches) -> Ring {
    match teaches {
        Teaches::Yes { far_off: None, .. } => Ring::Counts,
        Teaches::Yes { .. } => Ring::FarOff,
        Teaches::No(_) => Ring::Struck,
    }
}

/// How far estimates were off, lot by lot, by the start values and by the runs before each.
pub(super) fn errors_ui(ui: &mut Ui, told: &Learned, form: Form) {
    let t = look::tokens(ui);
    ui.add_space(16.0);
    ui.label(words::ERRORS_PLOT);
    if told.errors.len() < 2 {
        pencil(ui, words::TOO_FEW);
        return;
    }
    pencil(ui, words::ERRORS_PLOT_SAYS);
    let errors = &told.errors[told
        .errors
        .len()
        .saturating_sub(places(ui.available_width()))..];
    let of = |which: fn(&ErrorAt) -> f64| smoothed(errors, which);
    let (by_start, by_records) = (of(|at| at.by_start), of(|at| at.by_records));
    let values = by_start.iter().chain(&by_records).copied();
    let (chart, response) = Chart::begin(ui, errors.len(), values, form);
    let name = words::errors_plot(errors.len());
    response.widget_info(|| WidgetInfo::labeled(egui::Role::Image, true, &name));
    let thin = Stroke::new(1.4, t.pencil);
    chart.steps(ui, by_start.iter().copied().map(Some), thin);
    let thick = Stroke::new(2.5, t.accent);
    chart.steps(ui, by_records.iter().copied().map(Some), thick);
    if let Some(last) = errors.last() {
        pencil(ui, &words::newest_error(last, form));
    }
}

/// Errors averaged over the last few lots by their logarithms.
fn smoothed(errors: &[ErrorAt], which: fn(&ErrorAt) -> f64) -> Vec<f64> {
    let logs: Vec<f64> = errors.iter().map(|at| libm::log(which(at))).collect();
    let at = |end: usize| {
        let last = &logs[(end + 1).saturating_sub(ERRORS_OVER)..=end];
        libm::exp(last.iter().sum::<f64>() / last.len() as f64)
    };
    (0..logs.len()).map(at).collect()
}
