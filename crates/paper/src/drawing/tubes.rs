//! Tube electrodes to scale, with a pencil tick for every hole that one drills.

use quillbore_calc::RowId;
use quillbore_calc::input::Ends;
use quillbore_calc::job_figures::{HoleFigures, JobFigures};
use quillbore_calc::tables::Tables;
use quillbore_job::{Form, Job, Unit};

use super::hatch::hatch;
use crate::matter::{Matter, mark_in};
use crate::page::{Ink, Page, Role, Stroke, mm};
use crate::shown;
use crate::typeset::flow::Flow;
use crate::typeset::look::{BODY, CAPTION, FIGURE};
use crate::typeset::wrap::fit;
use crate::words::drawing as words;

/// Loads drawn for one job; the table above lists all of them.
const SHOWN: usize = 12;
const ROW: f64 = 9.0 * 72.0 / 25.4;
/// The name has a line above the tube where there is no room beside it.
const LINE: f64 = 3.2 * 72.0 / 25.4;
const NAME: f64 = 36.0 * 72.0 / 25.4;
/// The most that names take of a chart's width.
const NAME_MOST: f64 = 0.35;
/// Narrower charts have the name above the tube.
const WITH_NAME: f64 = 110.0 * 72.0 / 25.4;
const RULER: f64 = 8.0 * 72.0 / 25.4;
/// Closer ticks than this can't be told apart.
const TICK: f64 = 1.6;

/// What is drawn of the electrodes of a lot.
#[derive(Clone, Debug, PartialEq)]
pub struct Chart {
    /// A tube for each of the first kinds of load, in the plan's order.
    pub loads: Vec<Load>,
    /// How many kinds there are.
    pub all: usize,
    /// The unit of the ruler.
    pub unit: Unit,
    /// How its figures are written.
    pub form: Form,
}

/// An electrode, or several alike, and what it drills.
#[derive(Clone, Debug, PartialEq)]
pub struct Load {
    /// The electrodes' numbers among those of their tube.
    pub numbers: String,
    /// The tube's name.
    pub name: String,
    /// Its outer diameter [mm].
    pub outer_mm: f64,
    /// Its length as it goes into the machine [mm].
    pub length_mm: f64,
    /// What is cut off before, since no stroke uses it [mm].
    pub cut_mm: f64,
    /// What of the length can be used up [mm].
    pub usable_mm: f64,
    /// What is left of that after the last hole [mm].
    pub left_mm: f64,
    /// Marks in drilling order, each with its holes and the wear of one [mm].
    pub holes: Vec<(String, u32, f64)>,
}

/// Sets the chart of a job's electrodes.
pub fn strip(matter: &Matter<'_>, flow: &mut Flow) {
    let chart = Chart::of(
        matter.job,
        matter.figures,
        matter.tables,
        matter.form(),
        SHOWN,
    );
    let more = chart.all - chart.loads.len();
    let body = flow.body();
    if chart.longest() <= 0.0 {
        return;
    }
    flow.need(ROW * chart.loads.len() as f64 + mm(8.0));
    flow.take(mm(2.0));
    let place = chart.place(body.left, body.width());
    flow.page().begin(Role::Figure(words::TUBES.to_owned()));
    for load in &chart.loads {
        let top = flow.take(ROW);
        place.load(flow.page(), load, top);
    }
    let top = flow.take(RULER);
    place.ruler(flow.page(), top);
    flow.page().end();
    if more > 0 {
        flow.take(mm(2.0));
        flow.text(BODY, &words::not_drawn(more));
    }
}

/// Draws as many tubes as there is room for into a place of left, top, width and height; gives how many
/// it drew.
pub fn draw(
    page: &mut Page,
    chart: &Chart,
    (left, top, width, height): (f64, f64, f64, f64),
) -> usize {
    if chart.longest() <= 0.0 {
        return 0;
    }
    let place = chart.place(left, width);
    let step = place.step();
    let fit = ((height - RULER - mm(3.0)) / step).max(1.0) as usize;
    let shown = chart.loads.len().min(fit);
    for (index, load) in chart.loads.iter().take(shown).enumerate() {
        place.load(page, load, top + step * index as f64);
    }
    place.ruler(page, top + step * shown as f64 + mm(1.0));
    shown
}

impl Chart {
    /// The electrodes of a job's lot, `most` kinds of load of them; none where nothing was planned.
    #[must_use]
    pub fn of(job: &Job, figures: &JobFigures, tables: &Tables, form: Form, most: usize) -> Self {
        let lot = figures.lot.as_ref();
        let electrodes = lot.map_or(&[][..], |lot| &lot.electrodes);
        let mut loads = Vec::new();
        for electrode in electrodes {
            let Some(tube) = electrode.tube.of(&tables.tubes) else {
                continue;
            };
            let mut holes = figures.holes.iter();
            let drilled = holes.find(|hole| hole.tube == Some(electrode.tube));
            let usable = drilled.and_then(|hole| hole.usable_mm);
            let mounted = drilled.and_then(|hole| hole.mounted_mm);
            let mounted = mounted.unwrap_or(tube.length_mm);
            let mut next = 1;
            for load in electrode.plan.iter().take(most - loads.len()) {
                let last = next + load.times.saturating_sub(1);
                let numbers = shown::numbers(next, last);
                next = last + 1;
                let holes = load.holes.iter().map(|(row, count)| {
                    let wear = of_row(job, figures, *row).and_then(wear_of_an_end);
                    (mark_in(job, *row), *count, wear.unwrap_or(0.0))
                });
                loads.push(Load {
                    numbers,
                    name: tube.name.clone(),
                    outer_mm: tube.outer_mm,
                    length_mm: mounted,
                    cut_mm: tube.length_mm - mounted,
                    usable_mm: usable.unwrap_or(mounted),
                    left_mm: load.left_mm,
                    holes: holes.collect(),
                });
            }
        }
        Self {
            loads,
            all: electrodes.iter().map(|of| of.plan.len()).sum(),
            unit: job.unit,
            form,
        }
    }

    fn longest(&self) -> f64 {
        let lengths = self.loads.iter().map(|load| load.length_mm);
        lengths.fold(0.0, f64::max)
    }

    /// Where the chart stands on a page, so far from its left and so wide.
    fn place(&self, left: f64, width: f64) -> Place<'_> {
        let names = self
            .loads
            .iter()
            .map(|load| CAPTION.measure(&load.name) + mm(3.0));
        let name = if width < WITH_NAME {
            0.0
        } else {
            names.fold(NAME, f64::max).min(width * NAME_MOST)
        };
        // The first figure of a ruler at the edge stands half before its beginning.
        let edge = if name > 0.0 { 0.0 } else { mm(1.0) };
        let (left, width) = (left + edge, width - edge);
        let longest = self.longest();
        Place {
            chart: self,
            left,
            name,
            longest,
            // The last figure of the ruler stands half past the tube's end.
            scale: (width - name - mm(3.0)) / longest,
        }
    }
}

/// What one end of a hole uses up of an electrode: a load counts ends.
fn wear_of_an_end(hole: &HoleFigures) -> Option<f64> {
    let ends = if hole.ends == Some(Ends::Both) {
        2.0
    } else {
        1.0
    };
    Some(hole.wear_mm? / ends)
}

fn of_row<'a>(job: &Job, figures: &'a JobFigures, row: RowId) -> Option<&'a HoleFigures> {
    let hole = figures.holes.get(job.row_index(row)?)?;
    (hole.row == row).then_some(hole)
}

/// A chart on a page.
struct Place<'a> {
    chart: &'a Chart,
    left: f64,
    /// Width of the name beside the tube; 0 where it stands above.
    name: f64,
    longest: f64,
    /// Points on paper a mm.
    scale: f64,
}

/// Where a tube's parts lie on the page.
struct Laid {
    /// The middle of the tube, from the top.
    middle: f64,
    /// How thick it is drawn.
    thick: f64,
    /// Its end in the chuck.
    chuck: f64,
    /// Where the length begins that drills.
    held: f64,
    /// Its tip.
    tip: f64,
    /// How much of it is used up, from the tip.
    used: f64,
}

impl Laid {
    fn upper(&self) -> f64 {
        self.middle - self.thick / 2.0
    }

    fn lower(&self) -> f64 {
        self.middle + self.thick / 2.0
    }
}

impl Place<'_> {
    /// Height of a tube with what is written at it.
    fn step(&self) -> f64 {
        if self.name > 0.0 { ROW } else { ROW + LINE }
    }

    fn laid(&self, load: &Load, top: f64) -> Laid {
        let chuck = self.left + self.name;
        Laid {
            middle: top + self.step() - ROW + ROW * 0.55,
            thick: (load.outer_mm * self.scale).clamp(2.4, mm(3.0)),
            chuck,
            held: chuck + (load.length_mm - load.usable_mm).max(0.0) * self.scale,
            tip: chuck + load.length_mm * self.scale,
            used: (load.usable_mm - load.left_mm).max(0.0) * self.scale,
        }
    }

    /// A tube with its load, from the top.
    fn load(&self, page: &mut Page, load: &Load, top: f64) {
        let laid = self.laid(load, top);
        let numbers = words::electrodes(&load.numbers);
        let Chart { unit, form, .. } = *self.chart;
        let length = |mm: f64| shown::with_unit(form, mm, unit, shown::coarse(unit));
        let cut = (load.cut_mm > 0.05).then(|| words::cut_to(&length(load.length_mm)));
        let cut = cut.as_deref().unwrap_or_default();
        if self.name > 0.0 {
            page.text(self.left, laid.middle - 1.0, FIGURE, &numbers);
            let below = laid.middle + CAPTION.size;
            let name = fit(&load.name, self.name - mm(2.0), CAPTION);
            page.text(self.left, below, CAPTION, &name);
            let right = self.left + self.name - mm(2.0);
            page.text_right(right, laid.middle - 1.0, CAPTION, cut);
        } else {
            let said = format!("{} {cut}", words::electrodes_of(&numbers, &load.name));
            page.text(self.left, top + CAPTION.size, CAPTION, &said);
        }
        outline(page, &laid);
        ticks(page, load, &laid);
        let label = words::left(&length(load.left_mm));
        let stub = laid.tip - laid.used - laid.held;
        if stub > CAPTION.measure(&label) + 4.0 {
            page.text_center(
                laid.held + stub / 2.0,
                laid.lower() + CAPTION.size + 0.6,
                CAPTION,
                &label,
            );
        }
    }

    /// A scale under the tubes.
    fn ruler(&self, page: &mut Page, top: f64) {
        let Chart { unit, form, .. } = *self.chart;
        let (step, per) = match unit {
            Unit::Mm => (50.0, 50.0),
            Unit::Inch => (quillbore_calc::quantity::MM_PER_INCH * 2.0, 2.0),
        };
        // Figures stand clear of each other.
        let every = (mm(11.0) / (step * self.scale)).ceil().max(1.0);
        let (step, per) = (step * every, per * every);
        let left = self.left + self.name;
        let end = left + self.longest * self.scale;
        page.rule(left, end, top, Stroke::HAIR);
        let below = top + 3.6 + CAPTION.size;
        let mut index = 0.0;
        while step * index <= self.longest + 1e-9 {
            let x = left + step * index * self.scale;
            page.line((x, top), (x, top + 3.0), Stroke::HAIR);
            let said = form.fixed(per * index, 0);
            // The last one stays within the sheet.
            let right = x + CAPTION.measure(&said) / 2.0;
            page.text_right(right.min(end), below, CAPTION, &said);
            index += 1.0;
        }
        let said = words::scale(unit.symbol());
        // Clear of the first figure, which stands around its mark.
        if CAPTION.measure(&said) + mm(4.0) < self.name {
            page.text(self.left, below, CAPTION, &said);
        } else {
            let whole = format!("{said}{}", words::HELD_BACK);
            let room = end - self.left;
            let said = if CAPTION.measure(&whole) < room {
                &whole
            } else {
                &said
            };
            page.text(self.left, below + CAPTION.leading(), CAPTION, said);
        }
    }
}

/// The tube with the length that is held and the length that is used up.
fn outline(page: &mut Page, laid: &Laid) {
    // The length that chuck, guide and stand-off hold back.
    page.rect(
        (laid.chuck, laid.upper()),
        (laid.held - laid.chuck, laid.thick),
        Some(Ink::Wash),
        Some(Stroke::new(0.5, Ink::Quiet)),
    );
    page.rect(
        (laid.held, laid.upper()),
        (laid.tip - laid.held, laid.thick),
        None,
        Some(Stroke::OUTLINE),
    );
    let worn = [
        (laid.tip - laid.used, laid.upper()),
        (laid.tip, laid.upper()),
        (laid.tip, laid.lower()),
        (laid.tip - laid.used, laid.lower()),
    ];
    hatch(page, &worn, 2.0, true, Stroke::new(0.3, Ink::Text));
}

/// A tick where each hole ends on the tube, counted from the tip.
fn ticks(page: &mut Page, load: &Load, laid: &Laid) {
    let (top, thick) = (laid.upper(), laid.thick);
    let worn = |(_, count, wear): &(String, u32, f64)| wear * f64::from(*count);
    let total: f64 = load.holes.iter().map(worn).sum();
    if total <= 0.0 {
        return;
    }
    let mut x = laid.tip;
    for (mark, count, wear) in &load.holes {
        let step = wear / total * laid.used;
        let every = (TICK / step.max(1e-6)).ceil().max(1.0);
        let start = x;
        let mut at = 0.0;
        while at + every <= f64::from(*count) + 1e-9 {
            at += every;
            let tick = start - step * at;
            page.line((tick, top - 2.2), (tick, top), Stroke::new(0.4, Ink::Text));
        }
        x = start - step * f64::from(*count);
        let label = words::times(mark, *count);
        if start - x > CAPTION.measure(&label) {
            page.text_center((start + x) / 2.0, top - 3.4, CAPTION, &label);
        }
        page.line(
            (x, top - 4.0),
            (x, top + thick),
            Stroke::new(0.6, Ink::Accent),
        );
    }
}
