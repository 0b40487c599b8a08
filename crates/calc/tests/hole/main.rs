//! Figures and findings of one row.
#![expect(
    missing_docs,
    reason = "the shop's fixtures are public only for the documentation's examples"
)]

#[path = "../shop/rows.rs"]
mod shop;

use quillbore_calc::hole::row_figures;
use shop::*;

#[test]
fn smoke() {
    let tables = tables();
    let row = through(0.8, 20.0);
    let input = job(vec![row.clone()]);
    let f = row_figures(&input, &row, &tables);
    println!("{f:#?}");
}
