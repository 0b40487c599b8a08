//! How the columns of the shop's lists are painted.

use quillbore_job::Unit;
use quillbore_job::shop::sheet::{ShopColumn as Column, ShopKind, ShopList as List};
use quillbore_job::words::shop_sheet as words;

use crate::grid::GridColumn;

/// The columns of a list as the grid paints them.
pub(super) fn grid_columns(list: List, unit: Unit) -> Vec<GridColumn> {
    let columns = list.columns().iter();
    columns
        .map(|column| grid_column(list, *column, unit))
        .collect()
}

fn grid_column(list: List, column: Column, unit: Unit) -> GridColumn {
    GridColumn {
        head: words::column(column).to_owned(),
        unit: words::column_unit(column, unit).to_owned(),
        word: words::column(column).to_owned(),
        width: width(list, column),
        right: is_figure(column) && !is_named_rate(list, column),
        // Names of start values and families are the program's.
        read_only: is_given(list, column),
    }
}

fn is_figure(column: Column) -> bool {
    column.kind().is_figure() || matches!(column, Column::Kept | Column::Free)
}

/// Whether a rate may be one for each machine, and so is a text.
fn is_named_rate(list: List, column: Column) -> bool {
    list == List::Rates && column == Column::MachineHour
}

/// Whether what stands there is the program's and is not typed.
pub(super) fn is_given(list: List, column: Column) -> bool {
    let is_named = matches!(list, List::Families | List::StartValues) && column == Column::Name;
    is_named || column.kind() == ShopKind::Computed
}

fn width(list: List, column: Column) -> f32 {
    match (list, column) {
        (List::Rates, Column::MachineHour) => 168.0,
        (List::Customers | List::Materials, Column::Name) => 168.0,
        (List::StartValues, Column::Name) => 232.0,
        (List::StartValues, Column::Value) => 232.0,
        (List::Families, Column::Name) => 168.0,
        (_, Column::Name) => 152.0,
        (_, Column::Note) => 328.0,
        (_, Column::Address | Column::Clauses | Column::OtherNames | Column::Hazards) => 200.0,
        (_, Column::Contact | Column::Email | Column::Payment | Column::Delivery) => 152.0,
        (_, Column::Sampling | Column::Family | Column::Stubs | Column::What) => 152.0,
        (_, Column::ElectrodeFrom | Column::ElectrodeTo | Column::LongestElectrode) => 104.0,
        (_, Column::ForElectrode | Column::TheirNumber | Column::Phone) => 104.0,
        (_, Column::ResistivityFrom | Column::ResistivityTo | Column::ExchangeRate) => 96.0,
        (_, Column::Kept | Column::Free) => 56.0,
        // A day in the longest of the forms.
        (_, Column::ValidFrom | Column::Counted | Column::ExchangeDay | Column::Day) => 96.0,
        (_, Column::Learned) => 144.0,
        (_, Column::Channels | Column::Metal | Column::Changer) => 64.0,
        _ => 80.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Heads are told by their words: no two columns of a list may have the same.
    #[test]
    fn no_list_has_two_columns_of_one_word() {
        for list in List::ALL {
            let mut heads: Vec<String> = {
                let columns = grid_columns(*list, Unit::Mm).into_iter();
                columns.map(|column| column.word).collect()
            };
            heads.sort();
            let count = heads.len();
            heads.dedup();
            assert_eq!(heads.len(), count, "{list:?}");
        }
    }
}
