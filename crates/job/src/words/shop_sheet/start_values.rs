//! What the start values of the process are called on the shop's page, with their units.

/// The name of a start value, by its name in files; that name itself where it is none of ours.
#[must_use]
pub fn start_value(key: &str) -> &str {
    match key {
        "gap_mm" => "gap per side by diameter, mm",
        "feed_by_diameter" => "feed by diameter, 1 mm is 1",
        "wear_by_diameter" => "wear by diameter, 1 mm is 1",
        "wear_at_100_diameters" => "wear at 100 diameters deep, times",
        "depth_s" => "depth that halves the feed, diameters",
        "depth_m" => "exponent of the depth law",
        "zone_feed" => "feed in entry and exit zones, share",
        "channels_feed" => "feed of several channels, share",
        "channels_wear" => "wear of several channels, times",
        "channels_from_mm" => "several channels from, mm",
        "overtravel_least_mm" => "overtravel at least, mm",
        "overtravel_diameters" => "overtravel, diameters",
        "overtravel_feed" => "feed in overtravel, times",
        "effort_by_width" => "feed by width of the limits, mm",
        "size_scatter_mm" => "scatter from hole to hole, mm",
        "deepest_diameters" => "deeper asks for a test burn, diameters",
        "touch_off_s" => "touch-off, s",
        "index_s" => "one index move, s",
        "tilt_min" => "one tilt, min",
        "turn_over_min" => "turning a part over, min",
        "change_by_hand_min" => "electrode change by hand, min",
        "change_thin_min" => "the same of thin ones, min",
        "change_by_changer_min" => "electrode change by changer, min",
        "guide_change_min" => "guide change, min",
        "dressing_min" => "dressing the tip, min",
        "dressing_mm" => "length lost at a dressing, mm",
        "setup_min" => "setting up one setup, min",
        "first_piece_min" => "first piece, min",
        "load_min" => "loading one part, min",
        "receive_min" => "receiving a lot, min",
        "wash_min" => "washing one part, min",
        "pin_check_min" => "pin check of one hole, min",
        "light_check_min" => "light check of one hole, min",
        "wire_check_min" => "wire or pin put through one hole, min",
        "air_check_min" => "air check of one hole, min",
        "pack_min" => "packing one part, min",
        "tube_tolerance_mm" => "tolerance of electrodes, mm",
        "breakage" => "electrodes broken per hole",
        "breakage_thin" => "the same of thin ones",
        "breakage_thin_deep" => "the same of thin ones, deep",
        "thin_deep_diameters" => "deep for thin ones from, diameters",
        "breakage_worth_holes" => "breakage is worth so many holes",
        "part_risk_hole" => "chance that a hole spoils its part",
        "thin_tube_mm" => "thin up to, mm",
        "drift_mm_per_100" => "drift, mm per 100 mm",
        "wire_clearance_mm" => "clearance of a wire in its exit, mm",
        "white_layer_mm" => "recast and white layer, mm",
        "changer_holds" => "electrodes that a changer holds",
        "part_spacing_mm" => "room between parts on the table, mm",
        "water_c" => "temperature of the dielectric, \u{b0}C",
        "pump_l_min" => "most that the flush pump gives, l/min",
        "least_gap_m_s" => "least flush speed up the gap, m/s",
        "overlap_mm" => "overlap of both ends, mm",
        "taper_mm_per_100" => "taper, mm per 100 mm",
        "hole_scatter" => "scatter of one hole, deviation",
        "web_by_flutes" => "web of taps by flutes, of diameter",
        "drill_web" => "web of drills, of diameter",
        "drill_frees" => "electrode that frees a drill, of it",
        "screw_share" => "hole that frees a screw, of minor",
        "extractor_body" => "body of extractors, of diameter",
        "fluted_feed" => "feed in taps and drills, share",
        "solid_feed" => "feed in screws, share",
        "past_tool_end_mm" => "past a tool's end, mm",
        "tool_cusp_mm" => "cusps around a tool's core, mm",
        "deviation_shop" => "not known yet: shop",
        "deviation_machine" => "not known yet: machine",
        "deviation_family" => "not known yet: family",
        "deviation_grade" => "not known yet: grade",
        "deviation_electrode" => "not known yet: electrode",
        "deviation_size_class" => "not known yet: size",
        "deviation_by_diameter" => "not known yet: by diameter",
        "deviation_by_depth" => "not known yet: by depth",
        "deviation_lot" => "from lot to lot",
        "burn_and_wear" => "burn and wear go together, share",
        "handling_deviation_shop" => "handling, not known yet: shop",
        "handling_deviation_machine" => "handling, not known yet: machine",
        "handling_deviation_lot" => "handling, from lot to lot",
        "gap_deviation_shop" => "gap, not known yet: shop",
        "gap_deviation_machine" => "gap, not known yet: machine",
        "gap_deviation_size_class" => "gap, not known yet: size",
        "gap_deviation_lot" => "gap, from lot to lot",
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shop::sheet::{ShopColumn, ShopList, ShopSheet, shown_rows};

    #[test]
    fn every_start_value_has_a_name_of_its_own() {
        let rows = shown_rows(&ShopSheet::default(), ShopList::StartValues, true);
        let names: std::collections::BTreeSet<String> = {
            let names = rows.iter().map(|row| {
                let key = row.text(ShopColumn::Name);
                assert_ne!(start_value(key), key, "{key} has no name");
                start_value(key).to_owned()
            });
            names.collect()
        };
        assert_eq!(names.len(), rows.len());
    }
}
