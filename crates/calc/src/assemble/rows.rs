//! Rows planned one by one; a row that stands as it stood before is taken as it was.

use alloc::boxed::Box;
use alloc::collections::BTreeMap;
use alloc::sync::Arc;
use alloc::vec::Vec;
use core::cell::OnceCell;

use crate::hole::{Context, Draw, DrawnHole, Drill, FeedWear, RowOverrules, Setting};
use crate::idx::Idx;
use crate::input::{JobInput, RowId, RowInput};
use crate::job_figures::HoleFigures;
use crate::tables::{Tables, Tube};

/// A row's figures, and what the lot needs of it where it is complete.
#[derive(Clone, Debug)]
pub(super) struct Planned {
    pub(super) figures: Arc<HoleFigures>,
    pub(super) drilled: Option<Arc<Drilled>>,
}

/// A row as the lot needs it.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Drilled {
    /// Holes in one part.
    pub(super) holes: u32,
    /// Index of its tube.
    pub(super) tube: Idx<Tube>,
    pub(super) drill: Drill,
    /// One hole at the medians.
    pub(super) at_median: DrawnHole,
    /// Deviation of the logarithm of the lot's feed.
    pub(super) feed_sigma: f64,
    /// Deviation of the logarithm of the lot's wear.
    pub(super) wear_sigma: f64,
    /// The two by the start values alone.
    pub(super) start_sigmas: FeedWear<f64>,
    /// What of the two is from lot to lot.
    pub(super) lots: FeedWear<f64>,
}

impl Drilled {
    /// Minutes in its holes in a lot of so many parts, median.
    pub(super) fn in_holes_min(&self, parts: f64) -> f64 {
        f64::from(self.holes) * parts * self.at_median.minutes()
    }

    pub(super) fn new(holes: u32, tube: Idx<Tube>, drill: Drill) -> Self {
        let FeedWear {
            feed: feed_sigma,
            wear: wear_sigma,
        } = drill.sigmas();
        Self {
            holes,
            tube,
            at_median: drill.at(&Draw::MEDIAN),
            start_sigmas: drill.start_sigmas(),
            lots: drill.lots(),
            drill,
            feed_sigma,
            wear_sigma,
        }
    }

    /// Whether a hole comes to the same at the same factors, whatever they are.
    pub(super) fn draws_as(&self, other: &Self) -> bool {
        let sigmas = |row: &Self| [row.feed_sigma, row.wear_sigma];
        self.drill == other.drill && sigmas(self) == sigmas(other)
    }

    /// Ends drilled in one part.
    pub(super) fn ends(&self) -> f64 {
        let ends = self.at_median.stages.iter().flatten().count();
        f64::from(self.holes) * ends as f64
    }
}

impl Planned {
    fn new((figures, drill): (HoleFigures, Option<Drill>)) -> Self {
        let drilled = drill
            .zip(figures.tube)
            .map(|(drill, tube)| Drilled::new(figures.places, tube, drill));
        Self {
            figures: Arc::new(figures),
            drilled: drilled.map(Arc::new),
        }
    }

    /// The same, what the lot needs of it shared with the row before where it is the same.
    fn sharing(self, before: Option<&KeptRow>) -> Self {
        let before = before.map(|before| &before.own.drilled);
        match before.filter(|before| **before == self.drilled) {
            Some(before) => Self {
                drilled: before.clone(),
                ..self
            },
            None => self,
        }
    }
}

/// What plans rows, made when the first row asks for it.
pub(super) struct Planner<'a> {
    setting: Setting,
    overrules: RowOverrules,
    tables: &'a Tables,
    context: OnceCell<Context<'a>>,
}

impl<'a> Planner<'a> {
    pub(super) fn new(input: &JobInput, tables: &'a Tables) -> Self {
        Self {
            setting: Setting::of(input),
            overrules: RowOverrules::of(input),
            tables,
            context: OnceCell::new(),
        }
    }

    pub(super) const fn setting(&self) -> &Setting {
        &self.setting
    }

    pub(super) const fn tables(&self) -> &'a Tables {
        self.tables
    }

    pub(super) fn context(&self) -> &Context<'a> {
        self.context
            .get_or_init(|| Context::of(self.setting.clone(), self.overrules.clone(), self.tables))
    }
}

/// The rows of a job, and what they came to.
#[derive(Default)]
pub(super) struct KeptRows(Vec<KeptRow>);

/// A row as it was asked, and what it came to.
pub(super) struct KeptRow {
    /// Apart, so that a row that stands costs little to carry over.
    asked: Box<AskedRow>,
    own: Planned,
    /// With a tube that the lot takes instead of the row's own.
    other: Option<(Idx<Tube>, Planned)>,
}

/// A row with the figures of it that were overruled.
struct AskedRow {
    row: RowInput,
    overrules: RowOverrules,
}

impl KeptRow {
    /// What the row comes to by itself.
    pub(super) const fn own(&self) -> &Planned {
        &self.own
    }

    /// Whether somebody chose its tube.
    pub(super) const fn is_typed(&self) -> bool {
        self.asked.row.tube.is_some()
    }

    /// What it comes to with this tube; as it is by itself where it can't be drilled with that.
    pub(super) fn with(&mut self, tube: Idx<Tube>, planner: &Planner<'_>) -> Planned {
        if self
            .own
            .drilled
            .as_ref()
            .is_some_and(|row| row.tube == tube)
        {
            return self.own.clone();
        }
        if let Some((_, planned)) = self.other.as_ref().filter(|(other, _)| *other == tube) {
            return planned.clone();
        }
        let context = planner.context();
        let planned = Planned::new(context.figures_and_drill_with(&self.asked.row, tube));
        let planned = if planned.drilled.is_some() {
            planned
        } else {
            self.own.clone()
        };
        self.other = Some((tube, planned.clone()));
        planned
    }
}

impl KeptRows {
    /// Plans the rows of a job; those that are as before, in a setting as before, are taken over.
    pub(super) fn plan(&mut self, rows: &[RowInput], planner: &Planner<'_>) -> &mut [KeptRow] {
        let mut before = Before::new(core::mem::take(&mut self.0));
        self.0.reserve(rows.len());
        for row in rows {
            let overrules = planner.overrules.of_row(row.id);
            let known = before.take(row.id);
            let known =
                known.filter(|known| known.asked.row == *row && known.asked.overrules == overrules);
            let before = self.0.last();
            let planned = || Planned::new(planner.context().figures_and_drill(row)).sharing(before);
            let row = known.unwrap_or_else(|| KeptRow {
                own: planned(),
                asked: Box::new(AskedRow {
                    row: row.clone(),
                    overrules,
                }),
                other: None,
            });
            self.0.push(row);
        }
        &mut self.0
    }
}

/// The rows of before, looked up by identity; whether they still hold is for their values to say.
struct Before {
    rows: Vec<Option<KeptRow>>,
    /// Where the next row stands if nothing was put in or taken out.
    next: usize,
    places: Option<BTreeMap<RowId, usize>>,
}

impl Before {
    fn new(rows: Vec<KeptRow>) -> Self {
        Self {
            rows: rows.into_iter().map(Some).collect(),
            next: 0,
            places: None,
        }
    }

    fn take(&mut self, id: RowId) -> Option<KeptRow> {
        let has = |row: &Option<KeptRow>| row.as_ref().is_some_and(|row| row.asked.row.id == id);
        let at = if self.rows.get(self.next).is_some_and(has) {
            self.next
        } else {
            let rows = &self.rows;
            let places = self.places.get_or_insert_with(|| {
                let ids = rows.iter().enumerate();
                ids.filter_map(|(at, row)| Some((row.as_ref()?.asked.row.id, at)))
                    .collect()
            });
            *places.get(&id)?
        };
        self.next = at + 1;
        self.rows.get_mut(at)?.take()
    }
}
