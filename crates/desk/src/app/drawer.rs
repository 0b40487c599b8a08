//! What lies in the drawer and what was learned, worked out for the shop's page where it is to be seen.

use std::collections::BTreeMap;
use std::sync::Arc;

use quillbore_job::shop::sheet::{ShopColumn, ShopList, shown_rows};
use quillbore_office::drawer::drawer;
use quillbore_office::files;
use quillbore_office::learned::of_start_value;

use super::App;
use crate::words::shop as words;

impl App {
    /// Works it out anew where the records or the shop are others than before.
    pub(super) fn look_in_drawer(&mut self) {
        let desk = &self.jobs[self.at].desk;
        let Some(pool) = desk.records().filter(|_| self.shop.open) else {
            return;
        };
        let shop = self.office.shop();
        let same =
            |(known, of): &(Arc<_>, Arc<_>)| Arc::ptr_eq(known, pool) && Arc::ptr_eq(of, &shop);
        if self.shop.computed_of.as_ref().is_some_and(same) {
            return;
        }
        let mut computed = BTreeMap::new();
        let lies = drawer(&shop, pool, None);
        self.shop.short = lies.short().len();
        for (thing, name, lies) in lies.all() {
            let mut tell = |column, text: Option<String>| {
                let key = (ShopList::of(thing), name.to_owned(), column);
                computed.extend(text.map(|text| (key, text)));
            };
            let kept = (lies.reserved > 0).then(|| lies.reserved.to_string());
            tell(ShopColumn::Kept, kept);
            tell(ShopColumn::Free, lies.free().map(|free| free.to_string()));
        }
        let teaching = pool.teaching(desk.day);
        for row in shown_rows(self.shop.history.now(), ShopList::StartValues, true) {
            let name = row.text(ShopColumn::Name);
            if let Some((of, factor, runs)) = of_start_value(name, &teaching) {
                let list = ShopList::StartValues;
                let key = (list, name.to_owned(), ShopColumn::Learned);
                computed.insert(key, words::learned(of, factor, runs, shop.form));
            }
        }
        let in_force = files::shop_on(&shop, desk.day);
        let digits = in_force.tables.rates.minor_digits;
        for machine in &in_force.tables.machines {
            let key = (
                ShopList::Machines,
                machine.name.clone(),
                ShopColumn::MachineHour,
            );
            computed.insert(key, shop.form.money(machine.rate_per_hour, digits));
        }
        self.shop.computed = Arc::new(computed);
        self.shop.computed_of = Some((Arc::clone(pool), shop));
    }
}
