//! What it costs, at each quantity, and once.

use crate::matter::Matter;
use crate::page::{Ink, mm};
use crate::shown;
use crate::typeset::flow::Flow;
use crate::typeset::look::{BODY, STRONG};
use crate::typeset::table::{Cell, Column, Table, TableRow, Width};
use crate::words::heads;
use crate::words::quotation as words;

pub(super) fn set(matter: &Matter<'_>, flow: &mut Flow) {
    let Some(price) = &matter.figures.price else {
        flow.section(words::PRICE, "", mm(20.0));
        flow.text(BODY, words::NOT_PRICED);
        return;
    };
    let currency = &price.currency;
    let mut table = Table::new([
        Column::figures(heads::QUANTITY, heads::IN_PARTS, Width::Fixed(mm(22.0))),
        Column::figures(heads::PRICE_EACH, currency, Width::Fixed(mm(34.0))).style(STRONG),
        Column::figures(heads::PRICE_OF_LOT, currency, Width::Fixed(mm(34.0))),
        Column::text("", Width::Share(1.0)),
    ]);
    for line in &price.breaks {
        let remark = if line.minimum { words::MINIMUM } else { "" };
        table.row(
            TableRow::new([
                Cell::new(line.quantity.to_string()),
                Cell::new(shown::money(&line.each.to_string())),
                Cell::new(shown::money(&line.lot.to_string())),
                Cell::new(remark),
            ])
            .at_least(mm(6.0)),
        );
    }
    flow.section(words::PRICE, words::PRICE_REMARK, mm(24.0));
    if matter.issuer.sample_rates {
        flow.text(STRONG.ink(Ink::Accent), words::SAMPLE_RATES);
        flow.take(mm(1.0));
    }
    table.set(flow);
    if !price.one_off.is_empty() {
        flow.take(mm(2.5));
        once(price, currency, flow);
    }
    if price.breaks.iter().any(|line| line.minimum) {
        let rates = &matter.tables.rates;
        let amount = shown::fixed(rates.minimum_charge, rates.minor_digits as usize);
        let amount = format!("{}\u{a0}{currency}", shown::money(&amount));
        flow.take(mm(1.5));
        flow.text(BODY, &words::minimum_note(&amount));
    }
}

fn once(price: &quillbore_calc::job_figures::PriceFigures, currency: &str, flow: &mut Flow) {
    let mut table = Table::new([
        Column::text(words::CHARGED_ONCE, Width::Fixed(mm(56.0) + 8.0)),
        Column::figures(words::PRICE, currency, Width::Fixed(mm(34.0))).style(STRONG),
        Column::text("", Width::Share(1.0)),
    ]);
    for (what, amount) in &price.one_off {
        table.row(
            TableRow::new([
                Cell::new(what),
                Cell::new(shown::money(&amount.to_string())),
                Cell::default(),
            ])
            .at_least(mm(6.0)),
        );
    }
    table.set(flow);
}
