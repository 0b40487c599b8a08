//! The unit that a foreign table is in, as far as it says so.

use quillbore_job::Unit;

use crate::foreign::Foreign;
use crate::head_unit::{unit_alone, unit_of_all};
use crate::no_row::Role;

impl Foreign {
    /// The unit of bare lengths: what the heads agree on, else a line beside the table, else the
    /// context's.
    pub(crate) fn unit(&self, context: Unit) -> Unit {
        let mut units = self.named_units();
        match units.next() {
            Some(first) if units.all(|unit| unit == first) => first,
            Some(_) => context,
            None => self.said_unit().map_or(context, |(_, unit)| unit),
        }
    }

    /// What a line above or below the rows says of the unit of all dimensions, and its number.
    pub(crate) fn said_unit(&self) -> Option<(usize, Unit)> {
        let roles = self.layout.roles.iter();
        let words = roles.filter(|(_, role)| matches!(role, Role::Title | Role::Words));
        let mut lines = words.filter_map(|(at, role)| Some((self.lines.line(*at)?, *role)));
        lines.find_map(|(line, role)| {
            // `Units:` and `inch` may stand in two cells, and the unit by itself above the head.
            let filled: Vec<&str> = line
                .cells()
                .filter(|cell| !cell.trim().is_empty())
                .collect();
            let each = || line.cells().find_map(unit_of_all);
            let together = || unit_of_all(&filled.join(" "));
            let alone = || match (role, filled.as_slice()) {
                (Role::Title, [one]) => unit_alone(one),
                _ => None,
            };
            Some((line.number, each().or_else(together).or_else(alone)?))
        })
    }

    /// The units that heads name, of those that a job is typed in.
    pub(crate) fn named_units(&self) -> impl Iterator<Item = Unit> {
        self.columns
            .iter()
            .filter_map(|column| column.head.unit?.implies())
    }
}
