//! What of the shop is a sample's, so that papers would leave under it.

use chrono::NaiveDate;

use super::shop_sheet::column;
use crate::ground::stands_in::{NotSaid, ShopSays, StandsIn};
use crate::shop::sheet::ShopColumn;

/// Half a sentence: what a sample or an older card stands in for, and what to do.
pub(super) fn stands_in(of: &StandsIn) -> String {
    match of {
        StandsIn::File => {
            "the shop's file can't be read or is gone, and samples stand in its place: see the shop's page (F7)"
                .to_owned()
        }
        StandsIn::Said(ShopSays::Reached, _) => {
            "a contact line of the shop can't be read, and papers would leave without it: correct it on the shop's page (F7)"
                .to_owned()
        }
        StandsIn::Said(says, NotSaid::Unread) => format!(
            "the shop's {} can't be read, and a sample would stand in its place: correct it on the shop's page (F7)",
            said(*says)
        ),
        StandsIn::Said(says, NotSaid::NotTyped) => format!(
            "the shop's {} was never typed, and a sample's would be printed: type it on the shop's page (F7)",
            said(*says)
        ),
        StandsIn::Card { from, columns } => card(*from, columns),
    }
}

const fn said(says: ShopSays) -> &'static str {
    match says {
        ShopSays::Name => "name",
        ShopSays::Address => "address",
        ShopSays::Currency => "currency",
        ShopSays::Terms => "text of terms",
        ShopSays::Exclusions => "text of exclusions",
        ShopSays::Cautions => "text of cautions",
        ShopSays::Reached => "contact line",
    }
}

fn card(from: Option<NaiveDate>, columns: &[&str]) -> String {
    let named = columns.iter().filter_map(|key| ShopColumn::of_key(key));
    let named: Vec<&str> = named.map(column).collect();
    let of = match from {
        Some(from) => format!("the rate card of {from}"),
        None => "a rate card whose day can't be read".to_owned(),
    };
    let what = if named.is_empty() {
        format!("{of} can't be used, and another one stands in its place")
    } else {
        let named = named.join(", ");
        format!("{of} can't be used in {named}, and older rates stand there")
    };
    format!("{what}: correct it on the shop's page (F7)")
}
