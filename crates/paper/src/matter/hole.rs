//! A row of holes with all that is known of it, as papers show it.

use quillbore_calc::input::HoleEnd;
use quillbore_calc::job_figures::HoleFigures;
use quillbore_calc::{Length, Limits};
use quillbore_job::entry::Entry;
use quillbore_job::{Form, Row, Unit};

use crate::shown;
use crate::words::customer::{Phrases, Words};

/// A row of holes with all that is known of it.
#[derive(Clone, Copy, Debug)]
pub struct Hole<'a> {
    /// What was typed.
    pub row: &'a Row,
    /// What was computed.
    pub figures: Option<&'a HoleFigures>,
    /// Where it stands in the table, from 0.
    pub index: usize,
    /// How numbers are written.
    pub form: Form,
    /// What is said of it.
    pub words: &'static Words,
}

impl Hole<'_> {
    /// Its mark, or its place in the table where it has none.
    pub fn mark(&self) -> String {
        mark_of(self.row, self.index, &self.words.phrases)
    }

    /// Its depth on the axis; what can't be read stands as it was typed.
    pub fn depth_text(&self, unit: Unit) -> String {
        match self.figures.and_then(|figures| figures.depth_mm) {
            Some(mm) => shown::length(self.form, mm, unit, shown::middling(unit)),
            None if self.row.depth.text().trim().is_empty() => shown::missing(),
            None => self.row.depth.text().trim().to_owned(),
        }
    }

    /// Its layers from the entry on, each with its thickness and material; what can't be read stands as
    /// it was typed. A layer without a material of its own is of the work material.
    pub fn layers_text(&self, unit: Unit, work_material: &str) -> Option<String> {
        let typed = self.row.layers.text().trim();
        let Some(layers) = self.row.layers.value() else {
            return (!typed.is_empty()).then(|| typed.to_owned());
        };
        let of = |layer: &quillbore_job::quantity::LayerText| {
            let thick =
                shown::with_unit(self.form, layer.thickness.mm(), unit, shown::middling(unit));
            let material = match &layer.material {
                Some(named) => named.clone(),
                None => work_material.to_owned(),
            };
            format!("{thick} {material}").trim_end().to_owned()
        };
        let told: Vec<String> = layers.iter().map(of).collect();
        Some(told.join(self.words.phrases.then))
    }

    /// The clearance behind its exit with its unit; what can't be read stands as it was typed.
    pub fn clearance(&self, unit: Unit) -> Option<String> {
        let typed = self.row.behind.text().trim();
        let read = self.row.behind.value();
        let read = read.map(|mm| shown::with_unit(self.form, mm.mm(), unit, shown::middling(unit)));
        read.or_else(|| (!typed.is_empty()).then(|| typed.to_owned()))
    }

    /// What is asked of it for the sake of a wire, and how it is proved open, sentence by sentence; what
    /// can't be read stands as it was typed.
    pub fn asked_of_wire(&self, unit: Unit) -> Vec<String> {
        let words = self.words.hole;
        let row = self.row;
        let length = |typed: &Entry<Length>, say: fn(&str) -> String| {
            let typed = (!typed.is_empty()).then(|| self.typed_length(typed, unit));
            typed.map(|typed| say(&typed))
        };
        let lengths = [
            length(&row.wire, words.wire),
            length(&row.least_exit, words.least_exit),
            length(&row.to_profile, words.to_profile),
        ];
        let mut said: Vec<String> = lengths.into_iter().flatten().collect();
        said.extend(self.proof().map(|proof| (words.proved)(&proof)));
        said
    }

    /// What proves it open, where somebody said so; what can't be read stands as it was typed.
    pub fn proof(&self) -> Option<String> {
        let proved = &self.row.proved;
        let typed = (!proved.is_empty()).then(|| proved.text().trim().to_owned());
        let read = proved.value();
        read.map(|proof| (self.words.hole.proof)(*proof).to_owned())
            .or(typed)
    }

    /// Whether its ends are checked by pin.
    pub fn is_pinned(&self) -> bool {
        self.figures.is_none_or(|figures| figures.checked.by_pin)
    }

    /// A length with its unit; what can't be read stands as it was typed.
    fn typed_length(&self, typed: &Entry<Length>, unit: Unit) -> String {
        match typed.value() {
            Some(length) => shown::in_full(self.form, length.mm(), unit),
            None => typed.text().trim().to_owned(),
        }
    }

    /// Where it ends; where nobody said so it is taken to go through, and what can't be read stands as
    /// it was typed.
    pub fn end_text(&self) -> String {
        match self.row.end.value() {
            Some(end) => (self.words.hole.end)(*end).to_owned(),
            None if self.row.end.is_empty() => (self.words.hole.end)(HoleEnd::Through).to_owned(),
            None => self.row.end.text().trim().to_owned(),
        }
    }

    /// Its size as the drawing gives it, or the broken tool that sits there.
    pub fn size_text(&self, unit: Unit) -> String {
        let size = &self.row.size;
        match size.text().trim() {
            "" => shown::plus_minus(self.row.broken.text().trim()),
            typed => as_drawn(typed, size.unit(), unit),
        }
    }

    /// Its depth as it stands on the drawing, where that says more than a depth: its limits.
    pub fn depth_drawn(&self, unit: Unit) -> Option<String> {
        let depth = &self.row.depth;
        self.has_depth_limits()
            .then(|| as_drawn(depth.text().trim(), depth.unit(), unit))
    }

    /// Whether the drawing gives its depth's limits.
    pub fn has_depth_limits(&self) -> bool {
        let depth = self.row.depth.value();
        depth.is_some_and(|depth| depth.limits.is_some())
    }

    /// Lower and upper limit of its diameter [mm]; a broken tool's burnt hole has none that anybody
    /// would measure.
    pub fn limits_mm(&self) -> Option<Limits> {
        let figures = self.figures.filter(|_| !self.is_broken_tool());
        figures.and_then(|figures| figures.limits_mm)
    }

    /// Whether a broken tool sits there.
    pub fn is_broken_tool(&self) -> bool {
        !self.row.broken.is_empty()
    }

    /// How the broken tool sits there, as it was said: below the face, what was tried.
    pub fn tool_told(&self, unit: Unit) -> Vec<String> {
        let row = self.row;
        let mut said = Vec::new();
        let typed = |text: &str| (!text.trim().is_empty()).then(|| text.trim().to_owned());
        if !row.size.is_empty() {
            said.extend(typed(row.broken.text()).map(|tool| (self.words.hole.broken)(&tool)));
        }
        let below = row.below.value();
        let below =
            below.map(|below| shown::with_unit(self.form, below.mm(), unit, shown::middling(unit)));
        let below = below.or_else(|| typed(row.below.text()));
        said.extend(below.map(|below| (self.words.hole.below)(&below)));
        said.extend(typed(row.tried.text()).map(|tried| (self.words.hole.tried)(&tried)));
        said
    }

    /// Whether it is closed at its end.
    pub fn is_blind(&self) -> bool {
        self.row.end.value() == Some(&HoleEnd::Blind)
    }

    /// How many of it one part has.
    pub fn count(&self) -> Option<u32> {
        match self.figures {
            Some(figures) => Some(figures.places),
            None => self.row.count.value().copied(),
        }
    }
}

/// The mark of a row, or its place in the table where it has none.
pub(super) fn mark_of(row: &Row, index: usize, words: &Phrases) -> String {
    if row.mark.is_empty() {
        return (words.row)(index + 1);
    }
    row.mark.text().trim().to_owned()
}

/// A length as it stands on the drawing, with its unit where the paper's is another one.
fn as_drawn(typed: &str, typed_in: Option<Unit>, unit: Unit) -> String {
    let text = shown::plus_minus(typed);
    let mut words = text.split(|letter: char| !letter.is_alphabetic());
    let names = text.contains(['"', '#', '\u{2033}'])
        || words.any(|word| matches!(word, "mm" | "in" | "inch" | "um" | "\u{b5}m" | "\u{3bc}m"));
    match typed_in.filter(|typed| *typed != unit && !names) {
        Some(typed_in) => format!("{text}\u{a0}{}", typed_in.symbol()),
        None => text,
    }
}
