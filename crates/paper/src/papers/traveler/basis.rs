//! What a row's planned figures rest on: start values, or what somebody typed in their place.

use quillbore_calc::RowId;
use quillbore_job::job::FigureKey;
use quillbore_job::words::own::Rests;

use crate::matter::Matter;

/// Whether minutes and wear of a row were typed; what wasn't rests on start values.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct TypedFigures {
    pub(super) minutes: bool,
    pub(super) wear: bool,
}

impl TypedFigures {
    pub(super) fn of(matter: &Matter<'_>, row: RowId) -> Self {
        // What can't be read was put in no figure's place.
        let has = |key| {
            let overrule = matter.job.overrule(&key);
            overrule.is_some_and(|overrule| overrule.value.value().is_some())
        };
        Self {
            minutes: has(FigureKey::HoleMinutes(row)) || has(FigureKey::Feed(row)),
            wear: has(FigureKey::Wear(row)),
        }
    }

    /// Whether nothing of it rests on start values.
    fn all(self) -> bool {
        self.minutes && self.wear
    }
}

/// What the minutes or the wear of rows rest on; nothing where all of it was typed.
pub(super) fn rests_on(matter: &Matter<'_>) -> Option<Rests> {
    on_start_values(matter).then(|| Rests::of(matter.figures))
}

/// Whether any row's minutes or wear rest on start values.
fn on_start_values(matter: &Matter<'_>) -> bool {
    let computed = matter.holes().filter(|hole| {
        let known = |figures: &quillbore_calc::job_figures::HoleFigures| {
            figures.minutes.is_some() || figures.wear_mm.is_some()
        };
        hole.figures.is_some_and(known)
    });
    let mut rows = computed.map(|hole| TypedFigures::of(matter, hole.row.id));
    rows.any(|typed| !typed.all())
}
