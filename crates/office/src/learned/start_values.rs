//! What run records make of a single start value.

use quillbore_calc::learn::{Learns, Term};

use crate::pool::Teaching;

/// The factor that the shop's own runs put on a start value, by its name in the shop's list, and how many
/// runs speak of it; none where none does, or no run could.
///
/// It is what holds for the whole shop: machine, material and size make more of it on the page of what was
/// learned.
#[must_use]
pub fn of_start_value(name: &str, teaching: &Teaching) -> Option<(Learns, f64, u32)> {
    let factor = spoken_of_by(name)?;
    let learned = teaching.lessons.learned()?;
    let evidence = teaching.lessons.evidence().iter();
    let speaking = evidence.filter(|evidence| evidence.record.speaks_of(factor));
    let speaking: Vec<_> = speaking.collect();
    let like = speaking.first()?.record.like;
    let parts = learned.parts(factor, &like);
    let (_, shop) = parts.into_iter().find(|(term, _)| *term == Term::Shop)?;
    let runs = u32::try_from(speaking.len()).unwrap_or(u32::MAX);
    Some((factor, libm::exp(shop), runs))
}

/// Which factor stands on a start value, where one does.
fn spoken_of_by(name: &str) -> Option<Learns> {
    Some(match name {
        "gap_mm" => Learns::Gap,
        "feed_by_diameter" | "depth_s" | "depth_m" | "zone_feed" | "channels_feed"
        | "overtravel_feed" | "effort_by_width" => Learns::Burn,
        "wear_by_diameter" | "wear_at_100_diameters" | "channels_wear" => Learns::Wear,
        "touch_off_s"
        | "index_s"
        | "tilt_min"
        | "turn_over_min"
        | "change_by_hand_min"
        | "change_thin_min"
        | "change_by_changer_min"
        | "guide_change_min"
        | "dressing_min"
        | "setup_min"
        | "first_piece_min"
        | "load_min"
        | "receive_min"
        | "wash_min"
        | "pin_check_min"
        | "light_check_min"
        | "wire_check_min"
        | "air_check_min"
        | "pack_min" => Learns::Handling,
        _ => return None,
    })
}
