//! Rate cards: what hours and losses cost, from a day on.

use std::collections::BTreeMap;

use quillbore_calc::tables::Rates;

use super::checks::{At, day};
use crate::shop::disk::{MachineRow, RateRow};
use crate::shop::error::ShopError;
use crate::shop::minor::is_step;
use crate::shop::rows::RateCard;
use crate::shop::unfit::RowUnfit;

/// The cards by their days, the newest one last.
pub(super) fn rate_cards(
    rows: Vec<RateRow>,
    machines: &[MachineRow],
) -> Result<Vec<RateCard>, ShopError> {
    let cards = rows.into_iter().map(|row| rate_card(row, machines));
    let mut cards = cards.collect::<Result<Vec<_>, _>>()?;
    cards.sort_by_key(|card| card.valid_from);
    for pair in cards.windows(2) {
        let [one, next] = pair else { continue };
        if one.valid_from == next.valid_from {
            return Err(ShopError::Twice {
                list: "rates",
                name: one.valid_from.to_string(),
            });
        }
        if one.rates.currency != next.rates.currency {
            return Err(ShopError::Currencies {
                first: one.rates.currency.clone(),
                second: next.rates.currency.clone(),
            });
        }
    }
    Ok(cards)
}

fn rate_card(row: RateRow, machines: &[MachineRow]) -> Result<RateCard, ShopError> {
    let at = At("rates", &row.valid_from);
    at.told(&row.pedigree)?;
    let valid_from = day(&row.valid_from).ok_or_else(|| at.bad(RowUnfit::Day))?;
    if row.currency.len() != 3 || !row.currency.bytes().all(|c| c.is_ascii_uppercase()) {
        return Err(at.bad(RowUnfit::Currency));
    }
    if row.minor_digits > 4 {
        return Err(at.bad(RowUnfit::MinorDigits));
    }
    if row.margin >= 1.0 {
        return Err(at.bad(RowUnfit::Margin));
    }
    if row
        .price_step
        .is_some_and(|step| !is_step(step, row.minor_digits))
    {
        return Err(at.bad(RowUnfit::PriceStep));
    }
    Ok(RateCard {
        valid_from,
        machines_per_hour: machines_per_hour(at, &row.machines_per_hour, machines)?,
        rates: Rates {
            minor_digits: row.minor_digits,
            labor_per_hour: at.not_negative("labor_per_hour", row.labor_per_hour)?,
            dielectric_per_hour: at.not_negative("dielectric_per_hour", row.dielectric_per_hour)?,
            power_per_hour: at.not_negative("power_per_hour", row.power_per_hour)?,
            margin: at.share("margin", row.margin)?,
            minimum_charge: at.not_negative("minimum_charge", row.minimum_charge)?,
            try_charge: row
                .try_charge
                .map(|charge| at.not_negative("try_charge", charge))
                .transpose()?,
            price_step: row.price_step,
            redo_share: at.share("redo_share", row.redo_share)?,
            part_risk_share: at.share("part_risk_share", row.part_risk_share)?,
            currency: row.currency,
        },
        pedigree: row.pedigree,
    })
}

/// The rate of each machine: the card's, else the machine's own.
fn machines_per_hour(
    at: At<'_>,
    of_card: &BTreeMap<String, f64>,
    machines: &[MachineRow],
) -> Result<BTreeMap<String, f64>, ShopError> {
    for (name, rate) in of_card {
        at.not_negative(name.as_str(), *rate)?;
        if !machines.iter().any(|machine| machine.name == *name) {
            return Err(at.bad(RowUnfit::NoSuchMachine { name: name.clone() }));
        }
    }
    let own = machines.iter();
    let own = own.map(|machine| (machine.name.clone(), machine.rate_per_hour));
    let of_card = of_card.iter().map(|(name, rate)| (name.clone(), *rate));
    Ok(own.chain(of_card).collect())
}
