//! What is left out of a shop's file where an error is about it, and told.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::rows::naming;
use super::{ShopFault, ShopNote};
use crate::shop::disk::{Family, MaterialRow, ShopFile};
use crate::shop::error::ShopError;
use crate::shop::load::embedded_file;
use crate::shop::plain::plain;
use crate::shop::sheet::families;
use crate::shop::sheet::lists::{ShopLine as Line, ShopList as List};
use crate::shop::sheet::own::{ShopRow, ShopSheet};
use crate::shop::sheet::page::ShownRow;
use crate::shop::unfit::RowUnfit;

/// Leaves the row or line out that an error is about; nothing where it is about none.
pub(super) fn leave_out(
    sheet: &ShopSheet,
    file: &mut ShopFile,
    error: ShopError,
    notes: &mut Vec<ShopNote>,
) {
    let (list, mut name, fault) = match error {
        ShopError::Row { list, name, what } => (list, name, ShopFault::Unfit(what)),
        ShopError::Twice { list, name } => (list, name, ShopFault::Twice),
        _ => return,
    };
    let lists = BTreeMap::from([
        ("tubes", List::Electrodes),
        ("guides", List::Guides),
        ("machines", List::Machines),
        ("materials", List::Materials),
        ("rates", List::Rates),
        ("start", List::StartValues),
        ("calendar", List::DaysOff),
    ]);
    let mut known = lists.get(list).copied();
    let mut line = None;
    match list {
        "tubes" => file.tubes.retain(|row| row.name != name),
        "guides" => file.guides.retain(|row| row.name != name),
        "machines" => {
            file.machines.retain(|row| row.name != name);
            // A card that names it has rates of others, too.
            for card in &mut file.rates {
                card.machines_per_hour.remove(&name);
            }
        }
        "materials" => {
            let family = matches!(fault, ShopFault::Unfit(RowUnfit::ProcessBand { .. }))
                .then(|| own_family(file, &name))
                .flatten();
            match family {
                // What is wrong with it comes from the family, and all its materials have that.
                Some(family) => {
                    file.families.remove(&family);
                    known = Some(List::Families);
                    families::word(family).clone_into(&mut name);
                }
                None => leave_out_material(file, &mut name),
            }
        }
        "rates" => file.rates.retain(|row| row.valid_from != name),
        "start" => file.start.forget(&name),
        "shop" => {
            file.usual_tolerance_mm = None;
            line = Some(Line::UsualTolerance);
        }
        "calendar" => line = leave_out_of_calendar(file, &name),
        _ => return,
    }
    let row = known.filter(|_| line.is_none());
    let id = row.and_then(|list| {
        let named = |row: &&Arc<ShopRow>| ShownRow::of(sheet, list, row).text(naming(list)) == name;
        sheet.own(list).iter().find(named).map(|row| row.id)
    });
    notes.push(ShopNote {
        row: row.map(|list| (list, id)),
        name,
        column: None,
        line,
        fault,
    });
}

/// The family that a material has feed and wear of, where the shop typed that family.
fn own_family(file: &ShopFile, material: &str) -> Option<Family> {
    let samples = embedded_file().map(|file| file.materials);
    let samples = samples.unwrap_or_default();
    let mut all = file.materials.iter().chain(&samples);
    let row = all.find(|row| row.name == material)?;
    let is_own = row.process.is_none() && file.families.contains_key(&row.family);
    is_own.then_some(row.family)
}

/// Leaves a material out by its name, or by another name of it that another material has; the name is its
/// own then.
fn leave_out_material(file: &mut ShopFile, name: &mut String) {
    let says = plain(name);
    let by_name = file.materials.iter().rposition(|row| row.name == *name);
    // The other name may be the one that clashes, spelled otherwise.
    let clashing = |row: &MaterialRow| {
        let mut names = row.also.iter().chain([&row.name]);
        names.any(|other| plain(other) == says)
    };
    let at = by_name.or_else(|| file.materials.iter().rposition(clashing));
    if let Some(at) = at {
        *name = file.materials.remove(at).name;
    }
}

/// Puts what is usual into the place of what can't be in the calendar; which line that is, where it is one.
fn leave_out_of_calendar(file: &mut ShopFile, name: &str) -> Option<Line> {
    let usual = embedded_file().ok().and_then(|file| file.calendar);
    let (Some(own), Some(usual)) = (&mut file.calendar, usual) else {
        return None;
    };
    match name {
        "hours" => {
            own.hours_per_day = usual.hours_per_day;
            own.unattended_hours_per_day = usual.unattended_hours_per_day;
            Some(Line::HoursPerDay)
        }
        "work_days" => {
            own.work_days = usual.work_days;
            Some(Line::WorkDays)
        }
        day => {
            own.days_off.retain(|off| off != day);
            None
        }
    }
}
