//! What it costs, at each quantity, and once.

use crate::matter::Matter;
use crate::page::{Ink, mm};
use crate::papers::{charged_once, tool_receipt};
use crate::typeset::flow::Flow;
use crate::typeset::look::{BODY, STRONG};
use crate::typeset::table::{Cell, Column, Table, TableRow, Width};

pub(super) fn set(matter: &Matter<'_>, flow: &mut Flow) {
    let words = &matter.words().quotation;
    let heads = &matter.words().heads;
    let Some(price) = &matter.figures.price else {
        flow.section(words.price, "", mm(20.0));
        flow.text(BODY, words.not_priced);
        return;
    };
    let currency = &price.currency;
    let mut table = Table::new([
        Column::figures(heads.quantity, heads.in_parts, Width::Fixed(mm(22.0))),
        Column::figures(heads.price_each, currency, Width::Fixed(mm(34.0))).style(STRONG),
        Column::figures(heads.price_of_lot, currency, Width::Fixed(mm(34.0))),
        Column::text("", Width::Share(1.0)),
    ]);
    let mut breaks: Vec<_> = price.breaks.iter().collect();
    breaks.sort_by_key(|line| line.quantity);
    breaks.dedup_by_key(|line| line.quantity);
    for line in breaks {
        let minimum = line.minimum.then(|| words.minimum.to_owned());
        let per_hole = line.per_hole.map(|price| {
            let price = matter.form().amount(price);
            (words.per_hole)(&format!("{price}\u{a0}{currency}"))
        });
        let remark: Vec<String> = minimum.into_iter().chain(per_hole).collect();
        table.row(
            TableRow::new([
                Cell::new(matter.form().count(f64::from(line.quantity))),
                Cell::new(matter.form().amount(line.each)),
                Cell::new(matter.form().amount(line.lot)),
                Cell::new(remark.join("; ")),
            ])
            .at_least(mm(6.0)),
        );
    }
    flow.section(words.price, words.price_remark, mm(24.0));
    if matter.issuer.sample_rates {
        flow.text(STRONG.ink(Ink::Accent), words.sample_rates);
        flow.take(mm(1.0));
    }
    table.set(flow);
    charged_once::set(matter, price, flow);
    if matter.job.has_broken_tool()
        && let Some([from, to]) = tool_receipt::range(matter).filter(|[from, to]| from < to)
    {
        let [from, to] = [from, to].map(|amount| tool_receipt::amount_of(matter, amount));
        flow.take(mm(1.5));
        flow.text(BODY, &(words.tools_range)(&from, &to));
        flow.text(BODY, &tool_receipt::try_charge(matter).unwrap_or_default());
    }
    if price.breaks.iter().any(|line| line.minimum) {
        let rates = &matter.tables.rates;
        let amount = matter
            .form()
            .money(rates.minimum_charge, rates.minor_digits);
        let amount = format!("{amount}\u{a0}{currency}");
        flow.take(mm(1.5));
        flow.text(BODY, &(words.minimum_note)(&amount));
    }
}
