//! What is charged once, whatever the quantity.

use quillbore_calc::job_figures::PriceFigures;
use quillbore_job::to_input;

use crate::matter::Matter;
use crate::page::mm;
use crate::typeset::flow::Flow;
use crate::typeset::look::STRONG;
use crate::typeset::table::{Cell, Column, Table, TableRow, Width};

/// The amounts charged once, below the prices; nothing where there are none.
pub(super) fn set(matter: &Matter<'_>, price: &PriceFigures, flow: &mut Flow) {
    if price.one_off.is_empty() {
        return;
    }
    flow.take(mm(2.5));
    let words = &matter.words().quotation;
    let currency = &price.currency;
    let mut table = Table::new([
        Column::text(words.charged_once, Width::Fixed(mm(56.0) + 8.0)),
        Column::figures(words.price, currency, Width::Fixed(mm(34.0))).style(STRONG),
        Column::text("", Width::Share(1.0)),
    ]);
    for (what, amount) in &price.one_off {
        let what =
            to_input::charged_once(what).map_or(what.as_str(), |field| (words.charge)(field));
        table.row(
            TableRow::new([
                Cell::new(what),
                Cell::new(matter.form().amount(*amount)),
                Cell::default(),
            ])
            .at_least(mm(6.0)),
        );
    }
    table.set(flow);
}
