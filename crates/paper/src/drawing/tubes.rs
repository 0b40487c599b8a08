//! Tube electrodes to scale, with a pencil tick for every hole that one drills.

use quillbore_calc::job_figures::{ElectrodeFigures, ElectrodeLoad};
use quillbore_calc::tables::Tube;

use super::hatch::hatch;
use crate::matter::Matter;
use crate::page::{Ink, Page, Stroke, mm};
use crate::shown;
use crate::typeset::flow::Flow;
use crate::typeset::look::{BODY, CAPTION, FIGURE};
use crate::words::drawing as words;

/// Loads drawn for one job; the table above lists all of them.
const SHOWN: usize = 12;
const ROW: f64 = 9.0 * 72.0 / 25.4;
const NAME: f64 = 36.0 * 72.0 / 25.4;
/// Closer ticks than this can't be told apart.
const TICK: f64 = 1.6;

struct DrawnTube<'a> {
    electrode: &'a ElectrodeFigures,
    load: &'a ElectrodeLoad,
    numbers: String,
}

/// Sets the chart of a job's electrodes.
pub fn strip(matter: &Matter<'_>, flow: &mut Flow) {
    let mut drawn = drawn(matter);
    let more = drawn.len().saturating_sub(SHOWN);
    drawn.truncate(SHOWN);
    let longest = drawn
        .iter()
        .filter_map(|tube| matter.tube(tube.electrode.tube))
        .map(|tube| tube.length_mm)
        .fold(0.0, f64::max);
    if longest <= 0.0 {
        return;
    }
    let body = flow.body();
    // The last figure of the ruler stands half past the tube's end.
    let scale = (body.width() - NAME - mm(3.0)) / longest;
    let total = ROW * drawn.len() as f64 + mm(8.0);
    flow.need(total);
    flow.take(mm(2.0));
    for tube in &drawn {
        let top = flow.take(ROW);
        chart(matter, flow.page(), tube, scale, (body.left, top));
    }
    let top = flow.take(mm(5.0));
    ruler(matter, flow.page(), (body.left + NAME, top), longest, scale);
    if more > 0 {
        flow.take(mm(2.0));
        flow.text(BODY, &words::not_drawn(more));
    }
}

fn drawn<'a>(matter: &Matter<'a>) -> Vec<DrawnTube<'a>> {
    let electrodes = matter
        .figures
        .lot
        .as_ref()
        .map_or(&[][..], |lot| &lot.electrodes);
    let mut list = Vec::new();
    for electrode in electrodes {
        let mut next = 1;
        for load in &electrode.plan {
            let last = next + load.times.saturating_sub(1);
            let numbers = if load.times > 1 {
                format!("{next}\u{2013}{last}")
            } else {
                next.to_string()
            };
            next = last + 1;
            list.push(DrawnTube {
                electrode,
                load,
                numbers,
            });
        }
    }
    list
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
    fn of(
        matter: &Matter<'_>,
        drawn: &DrawnTube<'_>,
        tube: &Tube,
        scale: f64,
        at: (f64, f64),
    ) -> Self {
        let usable = matter
            .figures
            .holes
            .iter()
            .find(|hole| hole.tube == Some(drawn.electrode.tube))
            .and_then(|hole| hole.usable_mm)
            .unwrap_or(tube.length_mm);
        let chuck = at.0 + NAME;
        Self {
            middle: at.1 + ROW * 0.55,
            thick: (tube.outer_mm * scale).clamp(2.4, mm(3.0)),
            chuck,
            held: chuck + (tube.length_mm - usable).max(0.0) * scale,
            tip: chuck + tube.length_mm * scale,
            used: ((usable - drawn.load.left_mm).max(0.0)) * scale,
        }
    }

    fn upper(&self) -> f64 {
        self.middle - self.thick / 2.0
    }

    fn lower(&self) -> f64 {
        self.middle + self.thick / 2.0
    }
}

fn chart(matter: &Matter<'_>, page: &mut Page, drawn: &DrawnTube<'_>, scale: f64, at: (f64, f64)) {
    let Some(tube) = matter.tube(drawn.electrode.tube) else {
        return;
    };
    let laid = Laid::of(matter, drawn, tube, scale, at);
    page.text(
        at.0,
        laid.middle - 1.0,
        FIGURE,
        &words::electrodes(&drawn.numbers),
    );
    page.text(at.0, laid.middle + CAPTION.size, CAPTION, &tube.name);
    outline(page, &laid);
    ticks(
        matter,
        page,
        drawn,
        (laid.tip, laid.used),
        (laid.upper(), laid.thick),
    );
    let rest = shown::with_unit(
        drawn.load.left_mm,
        matter.job.unit,
        shown::coarse(matter.job.unit),
    );
    let label = words::left(&rest);
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
fn ticks(
    matter: &Matter<'_>,
    page: &mut Page,
    drawn: &DrawnTube<'_>,
    (tip, used): (f64, f64),
    (top, thick): (f64, f64),
) {
    let wear = |row| {
        let hole = matter.figures_of(row);
        hole.and_then(|hole| hole.wear_mm).unwrap_or(0.0)
    };
    let total: f64 = drawn
        .load
        .holes
        .iter()
        .map(|(row, count)| wear(*row) * f64::from(*count))
        .sum();
    if total <= 0.0 {
        return;
    }
    let mut x = tip;
    for (row, count) in &drawn.load.holes {
        let step = wear(*row) / total * used;
        let every = (TICK / step.max(1e-6)).ceil().max(1.0);
        let start = x;
        let mut at = 0.0;
        while at + every <= f64::from(*count) + 1e-9 {
            at += every;
            let tick = start - step * at;
            page.line((tick, top - 2.2), (tick, top), Stroke::new(0.4, Ink::Text));
        }
        x = start - step * f64::from(*count);
        let label = format!("{}\u{a0}\u{d7}\u{a0}{count}", matter.mark(*row));
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

/// A scale under the tubes.
fn ruler(matter: &Matter<'_>, page: &mut Page, (left, top): (f64, f64), longest: f64, scale: f64) {
    let unit = matter.job.unit;
    let (step, per) = match unit {
        quillbore_job::Unit::Mm => (50.0, 50.0),
        quillbore_job::Unit::Inch => (quillbore_calc::quantity::MM_PER_INCH * 2.0, 2.0),
    };
    page.rule(left, left + longest * scale, top, Stroke::HAIR);
    let mut index = 0.0;
    while step * index <= longest + 1e-9 {
        let x = left + step * index * scale;
        page.line((x, top), (x, top + 3.0), Stroke::HAIR);
        page.text_center(
            x,
            top + 3.6 + CAPTION.size,
            CAPTION,
            &shown::fixed(per * index, 0),
        );
        index += 1.0;
    }
    page.text(
        left - mm(36.0),
        top + 3.6 + CAPTION.size,
        CAPTION,
        &words::scale(shown::unit(unit)),
    );
}
