//! What is said at once of what was typed for a quick price.

use quillbore_calc::finding::{Kind, Level};
use quillbore_calc::tables::Machine;
use quillbore_calc::{Idx, JobInput};

use super::assumed::{Assumed, DIAMETERS_DEEP, Facts};
use super::meant::Meant;
use super::range::QuickRange;
use super::tried::Tried;
use crate::asked::to_input::{Asked, to_input};
use crate::edits::apply::apply;
use crate::edits::apply::refused::EditRefused;
use crate::edits::edit::Edit;
use crate::job::Job;
use crate::shop::rows::Shop;
use crate::shop::unknown::UnknownName;
use crate::typed::quick::{LeadsTo, Quick, QuickField};
use crate::words::own::Rests;

/// The answer to a quick price, and what it takes for granted.
#[derive(Clone, Debug, PartialEq)]
pub struct QuickAnswer {
    /// What is said.
    pub says: Says,
    /// What is taken for granted, what matters most to the price first.
    pub assumed: Vec<Assumed>,
    /// The machine that it is said for; `None` where no price was tried.
    pub machine: Option<Idx<Machine>>,
    /// What to look at before anything is promised, assumptions apart.
    pub checks: Vec<Kind>,
    /// What the figures rest on, where there are any.
    pub rests: Option<Rests>,
}

/// What is said of what was typed.
#[derive(Clone, Debug, PartialEq)]
pub enum Says {
    /// Nothing: the sheet isn't empty, so no quick price is offered.
    Nothing,
    /// These fields are missing before anything can be said.
    Missing(Vec<QuickField>),
    /// These fields can't be read, and why.
    Unread(Vec<(QuickField, String)>),
    /// The shop has no such material.
    UnknownMaterial,
    /// The material may be any of so many.
    ManyMaterials(usize),
    /// A text is longer than the sheet takes.
    Refused(EditRefused),
    /// Something else on the sheet can't be read, and the price rests on it.
    SheetUnread,
    /// It can't be drilled, or has no price, as it stands.
    Stopped(Vec<Kind>),
    /// A price from and to.
    Range(QuickRange),
}

impl Quick {
    /// What is said at once, as the sheet would price what was typed with what is assumed.
    #[must_use]
    pub fn answer(&self, base: &Job, shop: &Shop) -> QuickAnswer {
        self.tried(base, shop).unwrap_or_else(|says| QuickAnswer {
            says,
            assumed: Vec::new(),
            machine: None,
            checks: Vec::new(),
            rests: None,
        })
    }

    /// The answer with its assumptions, or what is in the way of one.
    fn tried(&self, base: &Job, shop: &Shop) -> Result<QuickAnswer, Says> {
        if !Self::is_offered(base) {
            return Err(Says::Nothing);
        }
        let meant = Meant::of(&self.material, shop);
        let typed = self.typed(base, &meant, shop).and_then(Edit::together);
        let job = match typed.map(|edit| apply(base, &edit)) {
            Some(done) => done.map_err(Says::Refused)?.0,
            None => base.clone(),
        };
        self.in_the_way(&job)?;
        match meant {
            Meant::Unknown => return Err(Says::UnknownMaterial),
            Meant::TooMany(number) => return Err(Says::ManyMaterials(number)),
            Meant::Named(_) | Meant::Finished(_) | Meant::AnyOf(_) => {}
        }
        let asked = to_input(&job, shop);
        if is_unread(&asked) {
            return Err(Says::SheetUnread);
        }
        let mut input = asked.input;
        let depth_mm = assume(&mut input, &job);
        let tried = Tried::best(&input, &meant.priced(&shop.tables), &shop.tables);
        let facts = Facts {
            quick: self,
            meant: &meant,
            job: &job,
            tried: &tried,
            depth_mm,
            shop,
        };
        let stops = tried.kinds(Level::Stop);
        let range = QuickRange::of(&tried.figures, &shop.tables);
        let says = match range.filter(|_| stops.is_empty()) {
            Some(range) => Says::Range(range),
            None => Says::Stopped(stops),
        };
        let mut checks = tried.kinds(Level::Check);
        let is_assumed =
            |kind: &Kind| matches!(kind, Kind::LimitsAssumed { .. } | Kind::LowerAssumed { .. });
        checks.retain(|kind| !is_assumed(kind));
        Ok(QuickAnswer {
            says,
            assumed: Assumed::all(&facts),
            machine: tried.machine,
            checks,
            rests: tried.figures.first().map(Rests::of),
        })
    }

    /// What can't be read, else what is missing.
    fn in_the_way(&self, job: &Job) -> Result<(), Says> {
        let row = job.rows.first();
        let why = |field: QuickField| match field.goes_to() {
            LeadsTo::Field(on_sheet) => job.field(on_sheet).why(),
            LeadsTo::Column(column) => row.and_then(|row| row.cell(column).why),
            LeadsTo::Rates => None,
        };
        let all = QuickField::ALL.iter().copied();
        let unread = all.filter_map(|field| Some((field, why(field)?.to_owned())));
        let unread: Vec<_> = unread.collect();
        if !unread.is_empty() {
            return Err(Says::Unread(unread));
        }
        let needed = [QuickField::Material, QuickField::Size].into_iter();
        let missing: Vec<_> = needed.filter(|field| self.is_blank(*field)).collect();
        if missing.is_empty() {
            Ok(())
        } else {
            Err(Says::Missing(missing))
        }
    }
}

/// Whether something else that was typed on the sheet keeps it from having a price.
pub(super) fn is_unread(asked: &Asked) -> bool {
    let mut unknown = asked.unknown.iter();
    let mut rows = asked.input.rows.iter();
    asked.input.price_unread
        || rows.any(|row| row.unread)
        || unknown.any(|name| !matches!(name, UnknownName::Material(_)))
}

/// Puts in what nobody said and the calculation can't do without: one part, and a depth, which is given
/// back where it was assumed [mm].
fn assume(input: &mut JobInput, job: &Job) -> Option<f64> {
    input.quantity = input.quantity.or(Some(1));
    let size = job.rows.first()?.size.value()?;
    let row = input.rows.first_mut()?;
    if row.depth_mm.is_some() {
        return None;
    }
    let nominal = size.nominal.unwrap_or(size.upper);
    row.depth_mm = Some(DIAMETERS_DEEP * nominal.mm());
    row.depth_mm
}
