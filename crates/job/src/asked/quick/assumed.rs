//! What a quick price takes for granted, and where somebody would say otherwise.

use quillbore_calc::JobFigures;
use quillbore_calc::finding::Kind;
use quillbore_calc::input::Ends;

use super::meant::Meant;
use super::tried::Tried;
use crate::job::Job;
use crate::shop::rows::Shop;
use crate::typed::field::Field;
use crate::typed::quick::{LeadsTo, Quick, QuickField};
use crate::typed::row::Column;
use crate::words::quick as words;
use crate::words::speaker::Speaker;

/// How deep a hole is taken to be while nobody said it [diameters] (our choice, no source).
pub(super) const DIAMETERS_DEEP: f64 = 10.0;

/// Something that a quick price takes for granted.
#[derive(Clone, Debug, PartialEq)]
pub enum Assumed {
    /// A text is a part of this material's name alone.
    Material(String),
    /// A text may mean any of so many materials: the range holds all of them.
    AnyMaterial(usize),
    /// Nobody said how deep [mm].
    Depth(f64),
    /// Nobody said how many holes.
    OneHole,
    /// Nobody said how many parts.
    OnePart,
    /// The hole goes through.
    Through,
    /// Nothing stands behind the exit.
    NothingBehind,
    /// The far side can be reached, and the part is turned over.
    BothEnds,
    /// All holes lie in one direction.
    OneSetup,
    /// The shop's usual tolerance: plus or minus [mm].
    Tolerance(f64),
    /// A lower limit where a maximum alone was given [mm].
    LowerLimit(f64),
    /// Entry square to a flat face.
    Square,
    /// This machine, by name.
    Machine(String),
    /// The part fits the machine.
    Fits,
    /// The material's condition makes no difference.
    Condition,
    /// What a part is worth is not in the price.
    WithoutPartValue,
    /// The rates are those that come with the program.
    SampleRates,
}

/// What an assumption is read off.
pub(super) struct Facts<'a> {
    pub(super) quick: &'a Quick,
    pub(super) meant: &'a Meant,
    pub(super) job: &'a Job,
    pub(super) tried: &'a Tried,
    /// The depth that was assumed [mm].
    pub(super) depth_mm: Option<f64>,
    pub(super) shop: &'a Shop,
}

impl Assumed {
    /// Where somebody would say otherwise.
    #[must_use]
    pub const fn leads_to(&self) -> LeadsTo {
        match self {
            Self::Material(_) | Self::AnyMaterial(_) => LeadsTo::Field(Field::Material),
            Self::Depth(_) => LeadsTo::Column(Column::Depth),
            Self::OneHole => LeadsTo::Column(Column::Count),
            Self::OnePart => LeadsTo::Field(Field::Quantity),
            Self::BothEnds => LeadsTo::Column(Column::Ends),
            Self::Through => LeadsTo::Column(Column::End),
            Self::NothingBehind => LeadsTo::Column(Column::Behind),
            Self::OneSetup => LeadsTo::Column(Column::Angle),
            Self::Tolerance(_) | Self::LowerLimit(_) => LeadsTo::Column(Column::Size),
            Self::Square => LeadsTo::Column(Column::Surface),
            Self::Machine(_) => LeadsTo::Field(Field::Machine),
            Self::Fits => LeadsTo::Field(Field::SizeX),
            Self::Condition => LeadsTo::Field(Field::Condition),
            Self::WithoutPartValue => LeadsTo::Field(Field::PartValue),
            Self::SampleRates => LeadsTo::Rates,
        }
    }

    /// Whether it is worth a word by telephone; the others stand in the list alone.
    #[must_use]
    pub const fn is_said(&self) -> bool {
        match self {
            Self::Material(_)
            | Self::AnyMaterial(_)
            | Self::Depth(_)
            | Self::OneHole
            | Self::OnePart
            | Self::BothEnds
            | Self::Through
            | Self::NothingBehind
            | Self::OneSetup
            | Self::Tolerance(_) => true,
            Self::LowerLimit(_)
            | Self::Square
            | Self::Machine(_)
            | Self::Fits
            | Self::Condition
            | Self::WithoutPartValue
            | Self::SampleRates => false,
        }
    }

    /// What it says.
    #[must_use]
    pub fn words(&self, speaker: &Speaker<'_>) -> String {
        let fixed = match self {
            Self::Material(name) => return name.clone(),
            Self::AnyMaterial(number) => return words::any_material(*number),
            Self::Depth(mm) => {
                let diameters = speaker.form.number(DIAMETERS_DEEP, 3);
                return words::deep(&speaker.length(*mm), &diameters);
            }
            Self::Tolerance(mm) => return words::tolerance(&speaker.length(*mm)),
            Self::LowerLimit(mm) => return words::lower_limit(&speaker.length(*mm)),
            Self::Machine(name) => return words::on_machine(name),
            Self::OneHole => words::ONE_HOLE,
            Self::OnePart => words::ONE_PART,
            Self::BothEnds => words::BOTH_ENDS,
            Self::Through => words::THROUGH,
            Self::NothingBehind => words::NOTHING_BEHIND,
            Self::OneSetup => words::ONE_SETUP,
            Self::Square => words::SQUARE,
            Self::Fits => words::FITS,
            Self::Condition => words::CONDITION,
            Self::WithoutPartValue => words::WITHOUT_PART_VALUE,
            Self::SampleRates => words::SAMPLE_RATES,
        };
        fixed.to_owned()
    }

    /// Everything that is taken for granted, what matters most to the price first.
    pub(super) fn all(facts: &Facts<'_>) -> Vec<Self> {
        let Facts { quick, job, .. } = facts;
        let when = |is: bool, assumed: Self| is.then_some(assumed);
        let is_open = |field: Field| job.field(field).is_empty();
        let is_found = |kind: Kind| facts.found(|found| (*found == kind).then_some(()));
        let from_both = facts.tried.figures.iter().any(is_from_both);
        let usual = |kind: &Kind| matches!(kind, Kind::LimitsAssumed { .. }).then_some(());
        let lower = |kind: &Kind| match kind {
            Kind::LowerAssumed { lower_mm, .. } => Some(*lower_mm),
            _ => None,
        };
        let usual_mm = facts.shop.usual_tolerance_mm;
        let all = [
            facts.material(),
            facts.depth_mm.map(Self::Depth),
            when(quick.is_blank(QuickField::Holes), Self::OneHole),
            when(quick.is_blank(QuickField::Parts), Self::OnePart),
            when(!facts.says_through(), Self::Through),
            Some(Self::NothingBehind),
            Some(if from_both {
                Self::BothEnds
            } else {
                Self::OneSetup
            }),
            facts.found(usual).map(|()| Self::Tolerance(usual_mm)),
            facts.found(lower).map(Self::LowerLimit),
            Some(Self::Square),
            is_found(Kind::PartSizeUnknown).map(|()| Self::Fits),
            when(is_open(Field::Condition), Self::Condition),
            is_found(Kind::PartValueUnknown).map(|()| Self::WithoutPartValue),
            when(facts.shop.has_sample_rates(), Self::SampleRates),
            facts.machine(),
        ];
        all.into_iter().flatten().collect()
    }
}

impl Facts<'_> {
    /// What a text that is no name of a material was taken for.
    fn material(&self) -> Option<Assumed> {
        match self.meant {
            Meant::Finished(row) => {
                let row = row.of(&self.shop.tables.materials)?;
                Some(Assumed::Material(row.name.clone()))
            }
            Meant::AnyOf(rows) => Some(Assumed::AnyMaterial(rows.len())),
            Meant::Named(_) | Meant::TooMany(_) | Meant::Unknown => None,
        }
    }

    /// The machine, where nobody typed one.
    fn machine(&self) -> Option<Assumed> {
        let is_open = self.job.field(Field::Machine).is_empty();
        let machine = self.tried.machine.filter(|_| is_open)?;
        let machine = machine.of(&self.shop.tables.machines)?;
        Some(Assumed::Machine(machine.name.clone()))
    }

    /// What the first finding says that says it.
    fn found<T>(&self, says: impl Fn(&Kind) -> Option<T>) -> Option<T> {
        self.tried.found().find_map(|finding| says(&finding.kind))
    }

    /// Whether the depth was typed with the word that it goes through.
    fn says_through(&self) -> bool {
        let depth = self.job.rows.first().and_then(|row| row.depth.value());
        depth.is_some_and(|depth| depth.through)
    }
}

/// Whether holes are drilled from both ends.
fn is_from_both(figures: &JobFigures) -> bool {
    let mut holes = figures.holes.iter();
    holes.any(|hole| hole.ends == Some(Ends::Both))
}
