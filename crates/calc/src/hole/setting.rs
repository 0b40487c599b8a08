//! What of a job all its rows rest on.

use crate::figure::Figure;
use crate::idx::Idx;
use crate::input::{JobInput, PartAxis, RowId};
use crate::tables::Machine;
use crate::tables::Material;

use alloc::vec::Vec;

/// What of a job all its rows rest on, apart from the tables: in an equal setting an equal row comes
/// to the same.
///
/// Rows see nothing else of their job, so nothing else can make them change.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Setting {
    pub(super) material: Option<Idx<Material>>,
    pub(super) machine: Option<Idx<Machine>>,
    pub(super) measured_resistivity_ohm_cm: Option<f64>,
    pub(super) quantity: Option<u32>,
    pub(super) index_about: Option<PartAxis>,
    pub(super) pressure_bar: Option<f64>,
}

/// The figures of rows that the estimator overruled, by row and figure.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct RowOverrules(Vec<(Figure, f64)>);

impl Setting {
    pub(crate) const fn of(input: &JobInput) -> Self {
        Self {
            material: input.material,
            machine: input.machine,
            measured_resistivity_ohm_cm: input.measured_resistivity_ohm_cm,
            quantity: input.quantity,
            index_about: input.index_about,
            pressure_bar: input.pressure_bar,
        }
    }

    /// Parts in the lot, at least one.
    pub(crate) fn parts(&self) -> u32 {
        self.quantity.unwrap_or(1).max(1)
    }
}

impl RowOverrules {
    /// Those of a job whose value is a number.
    pub(crate) fn of(input: &JobInput) -> Self {
        let overrules = input.overrules.iter();
        let mut found: Vec<(Figure, f64)> = overrules
            .filter(|overrule| overrule.value.is_finite())
            .map(|overrule| (overrule.figure, overrule.value))
            .filter(|(figure, _)| figure.row().is_some())
            .collect();
        found.sort_by_key(|(figure, _)| place(*figure));
        Self(found)
    }

    /// Those of one row.
    pub(crate) fn of_row(&self, id: RowId) -> Self {
        let first = self.first_of(id);
        let of_row = self.0[first..].iter();
        let of_row = of_row.take_while(|(figure, _)| figure.row() == Some(id));
        Self(of_row.copied().collect())
    }

    /// Whether any of them is of this row.
    pub(super) fn concern(&self, id: RowId) -> bool {
        let first = self.0.get(self.first_of(id));
        first.is_some_and(|(figure, _)| figure.row() == Some(id))
    }

    pub(super) const fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// What the estimator put in a figure's place, where it is above 0.
    #[inline]
    pub(super) fn get(&self, figure: Figure) -> Option<f64> {
        if self.0.is_empty() {
            return None;
        }
        let wanted = place(figure);
        let at = self.0.partition_point(|(other, _)| place(*other) < wanted);
        let (found, value) = self.0.get(at)?;
        (*found == figure && *value > 0.0).then_some(*value)
    }

    /// Where those of a row begin.
    fn first_of(&self, id: RowId) -> usize {
        self.0.partition_point(|(other, _)| other.row() < Some(id))
    }
}

/// By what they are sorted.
fn place(figure: Figure) -> (Option<RowId>, Figure) {
    (figure.row(), figure)
}
