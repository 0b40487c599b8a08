//! Rows planned one by one; a row that stands as it stood before is taken as it was.

use alloc::boxed::Box;
use alloc::collections::BTreeMap;
use alloc::sync::Arc;
use alloc::vec::Vec;
use core::cell::OnceCell;

use crate::hole::{Context, Draw, DrawnHole, Drill, FeedWear, RowOverrules, Setting};
use crate::idx::Idx;
use crate::input::{Checked, JobInput, RowId, RowInput};
use crate::job_figures::HoleFigures;
use crate::rollup::{Checks, Proved};
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
    /// How its holes are checked.
    pub(super) checked: Checked,
}

impl Drilled {
    /// Minutes in its holes in a lot of so many parts, median.
    pub(super) fn in_holes_min(&self, parts: f64) -> f64 {
        f64::from(self.holes) * parts * self.at_median.minutes()
    }

    pub(super) fn new(holes: u32, tube: Idx<Tube>, drill: Drill, checked: Checked) -> Self {
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
            checked,
        }
    }

    /// What is checked of it in a lot of so many parts.
    pub(super) fn checks(&self, parts: f64) -> Checks {
        let ends = (self.ends() * parts) as u64;
        let holes = (f64::from(self.holes) * parts) as u64;
        Checks {
            ends: if self.checked.by_pin { ends } else { 0 },
            proved: Proved::of(self.checked.proof, holes),
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
            .map(|(drill, tube)| Drilled::new(figures.places, tube, drill, figures.checked));
        Self {
            figures: Arc::new(figures),
            drilled: drilled.map(Arc::new),
        }
    }

    /// The same, what is as it is in the row before shared with that.
    fn sharing(mut self, before: Option<&KeptRow>) -> Self {
        let Some(before) = before.map(|before| &before.own) else {
            return self;
        };
        if before.drilled == self.drilled {
            self.drilled.clone_from(&before.drilled);
        }
        let figures = Arc::make_mut(&mut self.figures);
        if before.figures.flush == figures.flush {
            figures.flush.clone_from(&before.figures.flush);
        }
        if before.figures.steps == figures.steps {
            figures.steps = Arc::clone(&before.figures.steps);
        }
        self
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
pub(super) struct KeptRows {
    rows: Vec<KeptRow>,
    /// Nobody will plan them again: what they were asked as isn't kept.
    once: bool,
}

/// A row as it was asked, and what it came to.
pub(super) struct KeptRow {
    /// Apart, so that a row that stands costs little to carry over; `None` where it is planned once.
    asked: Option<Box<AskedRow>>,
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
    fn id(&self) -> Option<RowId> {
        self.asked.as_ref().map(|asked| asked.row.id)
    }

    fn is_asked_as(&self, row: &RowInput, overrules: &RowOverrules) -> bool {
        let asked = self.asked.as_ref();
        asked.is_some_and(|asked| asked.row == *row && asked.overrules == *overrules)
    }

    /// What the row comes to by itself.
    pub(super) const fn own(&self) -> &Planned {
        &self.own
    }

    /// What this row comes to with this tube; as it is by itself where it can't be drilled with that.
    pub(super) fn with(
        &mut self,
        tube: Idx<Tube>,
        row: &RowInput,
        planner: &Planner<'_>,
    ) -> Planned {
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
        let planned = Planned::new(context.figures_and_drill_with(row, tube));
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
    /// None yet, and nothing to be kept for another time.
    pub(super) const fn once() -> Self {
        Self {
            rows: Vec::new(),
            once: true,
        }
    }

    /// None yet, kept or not as these.
    pub(super) const fn emptied(&self) -> Self {
        Self {
            rows: Vec::new(),
            once: self.once,
        }
    }

    /// Plans the rows of a job; those that are as before, in a setting as before, are taken over.
    pub(super) fn plan(&mut self, rows: &[RowInput], planner: &Planner<'_>) -> &mut [KeptRow] {
        let mut before = Before::new(core::mem::take(&mut self.rows));
        self.rows.reserve(rows.len());
        for row in rows {
            let overrules = planner.overrules.of_row(row.id);
            let known = before.take(row.id);
            let known = known.filter(|known| known.is_asked_as(row, &overrules));
            let before = self.rows.last();
            let planned = || Planned::new(planner.context().figures_and_drill(row)).sharing(before);
            let asked = || {
                let row = row.clone();
                Box::new(AskedRow { row, overrules })
            };
            let row = known.unwrap_or_else(|| KeptRow {
                own: planned(),
                asked: (!self.once).then(asked),
                other: None,
            });
            self.rows.push(row);
        }
        &mut self.rows
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
        let has = |row: &Option<KeptRow>| row.as_ref().and_then(KeptRow::id) == Some(id);
        let at = if self.rows.get(self.next).is_some_and(has) {
            self.next
        } else {
            let rows = &self.rows;
            let places = self.places.get_or_insert_with(|| {
                let ids = rows.iter().enumerate();
                ids.filter_map(|(at, row)| Some((row.as_ref()?.id()?, at)))
                    .collect()
            });
            *places.get(&id)?
        };
        self.next = at + 1;
        self.rows.get_mut(at)?.take()
    }
}
