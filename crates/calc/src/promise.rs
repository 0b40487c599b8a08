//! What may be promised: working days of a lot, from the day on which order, parts and drawing are in.

use crate::quantity::Band;

/// Days of work that differ by less than this share are the same: three days of eight hours are
/// three days, whatever the last digit of their hours.
const SAME: f64 = 1e-9;
/// Longer than anybody plans [d].
const MOST_DAYS: f64 = 1e6;

/// How the shop works, and what a lot waits for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Floor {
    /// Hours of a working day with somebody there [h].
    pub attended_hours: f64,
    /// Further hours of a working day that machines may run alone [h].
    pub unattended_hours: f64,
    /// Share of a running machine's time that somebody stands by it [-].
    pub attended_share: f64,
    /// Machine hours of other lots that come first on the same machine [h].
    pub queued_hours: f64,
    /// Working days that the parts are away for work elsewhere [d].
    pub outside_days: u32,
}

/// Working days of a lot [d].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct WorkingDays {
    /// As often more as fewer.
    pub p50: u32,
    /// One time in ten it takes more.
    pub p90: u32,
}

/// Working days that a lot takes once order, parts and drawing are in.
///
/// Formula: `days = ceil(Q k + max(M k, L / h)) + O` with `k = max(1 / (h + u), a / h)`, the `ceil`
/// at least 1; once with the median hours and once with the P90 ones. What runs alone takes any of
/// the day's `h + u` hours, what is attended only the `h` with somebody there; all labor is one
/// person's, standing by this machine included. Machine and labor go on side by side, outside work
/// behind or between them.
///
/// - `machine_hours`: M, machine hours of the lot [h], 0 and up.
/// - `labor_hours`: L, labor hours of the lot [h], 0 and up.
/// - `floor`: h, attended hours of a day [h], above 0; u, unattended ones [h], 0 and up; a, attended
///   share [-], held to 0 to 1; Q, machine hours queued [h], 0 and up; O, days outside [d], 0 and up.
///
/// Result: working days [d], each at least 1; `None` where nobody is ever there, hours are negative or
/// no numbers, or it takes more than a million days.
///
/// 153 machine hours (P90 260) and 60 labor hours (90), a machine attended 0.35 of its time. By day
/// alone: 153 / 8 = 19.1, 260 / 8 = 32.5. With 16 hours of night a machine hour takes
/// max(1 / 24, 0.35 / 8) = 0.04375 days: 6.7 and 11.4, less than the person's 60 / 8 = 7.5 in the
/// median alone. 24 hours queued, at 0.04375, and 5 days outside: 1.05 + 7.5 and 1.05 + 11.4, and 5.
///
/// ```
/// use quillbore_calc::Band;
/// use quillbore_calc::promise::{Floor, WorkingDays, working_days};
/// let machine = Band { p10: 90.0, p50: 153.0, p90: 260.0 };
/// let labor = Band { p10: 40.0, p50: 60.0, p90: 90.0 };
/// let day = Floor {
///     attended_hours: 8.0, unattended_hours: 0.0, attended_share: 0.35, queued_hours: 0.0, outside_days: 0,
/// };
/// let took = |floor: &Floor| working_days(machine, labor, floor);
/// assert_eq!(took(&day), Some(WorkingDays { p50: 20, p90: 33 }));
/// let night = Floor { unattended_hours: 16.0, ..day };
/// assert_eq!(took(&night), Some(WorkingDays { p50: 8, p90: 12 }));
/// let waits = Floor { queued_hours: 24.0, outside_days: 5, ..night };
/// assert_eq!(took(&waits), Some(WorkingDays { p50: 14, p90: 18 }));
/// ```
///
/// Source: ours.
#[must_use]
pub fn working_days(machine_hours: Band, labor_hours: Band, floor: &Floor) -> Option<WorkingDays> {
    let days = |machine, labor| days(machine, labor, floor);
    let p50 = days(machine_hours.p50, labor_hours.p50)?;
    let p90 = days(machine_hours.p90, labor_hours.p90)?;
    Some(WorkingDays {
        p50,
        p90: p90.max(p50),
    })
}

fn days(machine_hours: f64, labor_hours: f64, floor: &Floor) -> Option<u32> {
    let Floor {
        attended_hours: there,
        unattended_hours: alone,
        attended_share,
        queued_hours: queued,
        outside_days,
    } = *floor;
    let amounts = [machine_hours, labor_hours, alone, queued];
    let sound = amounts
        .iter()
        .all(|hours| hours.is_finite() && *hours >= 0.0);
    if !sound || !attended_share.is_finite() || !there.is_finite() || there <= 0.0 {
        return None;
    }
    let per_hour = (1.0 / (there + alone)).max(attended_share.clamp(0.0, 1.0) / there);
    let work = (machine_hours * per_hour).max(labor_hours / there);
    let days = queued * per_hour + work;
    if days.is_nan() || days > MOST_DAYS {
        return None;
    }
    let whole = libm::ceil(days - SAME * days).max(1.0);
    Some((whole as u32).saturating_add(outside_days))
}
