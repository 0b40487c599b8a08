//! Two plots: every run against its estimate, and how far estimates were off as time went on.

use egui::{Color32, Ui, WidgetInfo};
use egui_plot::{HLine, Line as PlotLine, MarkerShape, Plot, PlotPoints, PlotUi, Points};
use quillbore_job::Line;
use quillbore_office::learned::{ErrorAt, Learned, Minutes, Run, Teaches};

use crate::look::{self, Tokens};
use crate::sheet::parts::pencil;
use crate::view::Ask;
use crate::words::learned as words;

const HEIGHT: f32 = 180.0;
/// Factors that are marked on the upright axis.
const MARKS: [f64; 11] = [0.1, 0.2, 0.33, 0.5, 0.7, 1.0, 1.4, 2.0, 3.0, 5.0, 10.0];
/// Lots over which errors are averaged.
const ERRORS_OVER: usize = 5;

/// A run as it stands in the plot.
struct Shown<'a> {
    /// Its place along the axis.
    at: f64,
    minutes: Minutes,
    run: &'a Run,
}

impl Shown<'_> {
    /// Minutes as the logarithm of a factor on what the start values say.
    fn factor(&self, minutes: f64) -> f64 {
        libm::log(minutes / self.minutes.by_start)
    }

    /// Where a number of minutes stands in the plot.
    fn point(&self, minutes: f64) -> [f64; 2] {
        [self.at, self.factor(minutes)]
    }
}

/// What runs took over what the start values say, in the order of their days; a press on one opens its
/// job.
pub(super) fn runs_ui(ui: &mut Ui, told: &Learned, asks: &mut Vec<Ask>) {
    let t = look::tokens(ui);
    ui.add_space(12.0);
    ui.label(words::RUNS_PLOT);
    pencil(ui, words::RUNS_PLOT_SAYS);
    let known = told.runs.iter().filter_map(|run| Some((run.minutes?, run)));
    let runs: Vec<Shown<'_>> = (1..)
        .zip(known)
        .map(|(at, (minutes, run))| Shown {
            at: f64::from(at),
            minutes,
            run,
        })
        .collect();
    let plot = factors_plot("runs over estimate", words::RUNS_AXIS).show(ui, |plot| {
        draw_runs(plot, &runs, t);
        plot.pointer_coordinate()
    });
    let count = runs.len();
    plot.response
        .widget_info(|| WidgetInfo::labeled(egui::Role::Image, true, words::runs_plot(count)));
    if let (true, Some(pointer)) = (plot.response.clicked(), plot.inner) {
        let away = |shown: &&Shown<'_>| (shown.at - pointer.x).abs();
        let nearest = runs.iter().min_by(|a, b| away(a).total_cmp(&away(b)));
        asks.extend(
            nearest.map(|shown| Ask::OpenRecord(shown.run.job.clone(), shown.run.slip, Line::Mark)),
        );
    }
}

fn draw_runs(plot: &mut PlotUi<'_>, runs: &[Shown<'_>], t: &Tokens) {
    plot.hline(HLine::new(words::START, 0.0).color(t.rule).width(1.0));
    for shown in runs {
        let [low, _, high] = shown.minutes.expected.map(|minutes| shown.point(minutes));
        plot.line(line("", vec![low, high], t.hairline, 3.0));
    }
    let likely = runs
        .iter()
        .map(|shown| shown.point(shown.minutes.expected[1]));
    plot.line(line(words::LIKELY, likely.collect(), t.accent, 2.0));
    type Is = fn(&Teaches) -> bool;
    let kinds: [(&str, Is, MarkerShape, bool); 3] = [
        (words::TEACHES, is_usual, MarkerShape::Circle, true),
        (words::FLAGGED, is_far_off, MarkerShape::Diamond, true),
        (words::LEFT_OUT, is_left_out, MarkerShape::Circle, false),
    ];
    for (name, is, shape, filled) in kinds {
        let of_those = runs.iter().filter(|shown| is(&shown.run.teaches));
        let points: Vec<[f64; 2]> = of_those
            .map(|shown| shown.point(shown.minutes.actual))
            .collect();
        plot.points(
            Points::new(name, PlotPoints::from(points))
                .shape(shape)
                .filled(filled)
                .radius(4.0)
                .color(t.ink),
        );
    }
}

const fn is_usual(teaches: &Teaches) -> bool {
    matches!(teaches, Teaches::Yes { far_off: None, .. })
}

const fn is_far_off(teaches: &Teaches) -> bool {
    matches!(
        teaches,
        Teaches::Yes {
            far_off: Some(_),
            ..
        }
    )
}

const fn is_left_out(teaches: &Teaches) -> bool {
    matches!(teaches, Teaches::No(_))
}

/// How far estimates were off, lot by lot, by the start values and by the runs before each.
pub(super) fn errors_ui(ui: &mut Ui, told: &Learned) {
    let t = look::tokens(ui);
    ui.add_space(12.0);
    ui.label(words::ERRORS_PLOT);
    if told.errors.len() < 2 {
        pencil(ui, words::TOO_FEW);
        return;
    }
    pencil(ui, words::ERRORS_PLOT_SAYS);
    let of = |which: fn(&ErrorAt) -> f64| smoothed(&told.errors, which);
    let (by_start, by_records) = (of(|at| at.by_start), of(|at| at.by_records));
    let response = factors_plot("errors", words::ERRORS_AXIS)
        .show(ui, |plot| {
            plot.line(line(words::BY_START, by_start, t.rule, 2.0));
            plot.line(line(words::BY_RUNS, by_records, t.accent, 2.0));
        })
        .response;
    let count = told.errors.len();
    response
        .widget_info(|| WidgetInfo::labeled(egui::Role::Image, true, words::errors_plot(count)));
    if let Some(last) = told.errors.last() {
        pencil(ui, &words::newest_error(last));
    }
}

/// A plot whose upright axis is factors, and that nothing moves.
fn factors_plot<'a>(name: &'a str, x_axis: &'a str) -> Plot<'a> {
    Plot::new(name)
        .height(HEIGHT)
        .allow_drag(false)
        .allow_zoom(false)
        .allow_scroll(false)
        .allow_boxed_zoom(false)
        .allow_double_click_reset(false)
        .show_background(false)
        .show_grid([false, true])
        .x_axis_label(x_axis)
        .include_y(libm::log(0.5))
        .include_y(libm::log(2.0))
        .y_grid_spacer(|input| {
            let (low, high) = input.bounds;
            let shown = MARKS.into_iter().map(libm::log);
            shown
                .filter(|value| (low..=high).contains(value))
                .map(|value| egui_plot::GridMark {
                    value,
                    step_size: 0.35,
                })
                .collect()
        })
        .y_axis_formatter(|mark, _| words::factor_mark(libm::exp(mark.value)))
        .x_axis_formatter(|mark, _| words::whole_mark(mark.value))
        .label_formatter(|_| None)
        .show_crosshair(false)
}

fn line<'a>(name: &str, points: Vec<[f64; 2]>, color: Color32, width: f32) -> PlotLine<'a> {
    PlotLine::new(name, PlotPoints::from(points))
        .color(color)
        .width(width)
}

/// Errors averaged over the last few lots, as logarithms of factors.
fn smoothed(errors: &[ErrorAt], which: fn(&ErrorAt) -> f64) -> Vec<[f64; 2]> {
    let logs: Vec<f64> = errors.iter().map(|at| libm::log(which(at))).collect();
    let at = |end: usize| {
        let last = &logs[(end + 1).saturating_sub(ERRORS_OVER)..=end];
        last.iter().sum::<f64>() / last.len() as f64
    };
    (0..logs.len())
        .map(|end| [end as f64 + 1.0, at(end)])
        .collect()
}
