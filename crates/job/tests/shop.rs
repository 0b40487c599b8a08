//! The shop: every row of the assets is sound, and a shop's own file is laid over them.

#![expect(clippy::unwrap_used, reason = "a helper that fails is a failed test")]

use chrono::NaiveDate;
use quillbore_calc::tables::{Family, Hazard, TubeMaterial};
use quillbore_calc::{Limits, Spread};
use quillbore_job::Shop;

fn shop() -> &'static Shop {
    Shop::embedded().unwrap()
}

fn day(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

fn names<'a, T>(rows: &'a [T], name: impl Fn(&'a T) -> &'a str) -> Vec<&'a str> {
    rows.iter().map(name).collect()
}

#[test]
fn materials_are_about_70_sorted_and_sound() {
    let materials = &shop().tables.materials;
    assert!((65..=75).contains(&materials.len()), "{}", materials.len());
    for material in materials {
        let name = &material.name;
        assert!((1.0..25.0).contains(&material.density_g_cm3), "{name}");
        let Limits {
            lower: low,
            upper: high,
        } = material.resistivity_ohm_cm.unwrap();
        assert!(low >= 1.5e-6 && low <= high && high <= 10.0, "{name}");
        assert!(
            material.feed_mm_min.p10 >= 1.0 && material.feed_mm_min.p90 <= 60.0,
            "{name}"
        );
        assert!(
            material.wear.p10 >= 0.1 && material.wear.p90 <= 4.0,
            "{name}"
        );
    }
    let names = names(materials, |material| &material.name);
    assert!(
        names.is_sorted_by_key(|name| name.to_lowercase()),
        "{names:?}"
    );
}

#[test]
fn every_row_says_where_it_comes_from() {
    let Shop {
        tables, pedigree, ..
    } = shop();
    let lists = [
        (tables.materials.len(), &pedigree.materials),
        (tables.materials.len(), &pedigree.process),
        (tables.tubes.len(), &pedigree.tubes),
        (tables.guides.len(), &pedigree.guides),
        (tables.machines.len(), &pedigree.machines),
    ];
    for (rows, told) in lists {
        assert_eq!(rows, told.len());
        assert!(told.iter().all(|text| text.trim().len() >= 6), "{told:?}");
    }
    for process in &pedigree.process {
        let honest = process.contains("common practice, no source") || process.contains("memory");
        assert!(honest, "{process}");
    }
    assert_eq!(pedigree.start.len(), 81);
    for (name, text) in &pedigree.start {
        let honest = ["memory", "invented", "our choice"]
            .iter()
            .any(|word| text.contains(word));
        assert!(honest, "{name}: {text}");
    }
}

#[test]
fn tubes_are_hollow_sorted_and_each_has_a_guide_and_a_machine() {
    let tables = &shop().tables;
    for tube in &tables.tubes {
        assert!(tube.bore_mm < 0.5 * tube.outer_mm, "{}", tube.name);
        assert!((0.1..=10.0).contains(&tube.outer_mm), "{}", tube.name);
        assert!((150.0..=1000.0).contains(&tube.length_mm), "{}", tube.name);
        assert!(tube.price > 0.0 && tube.channels >= 1, "{}", tube.name);
        assert!(
            tube.channels == 1 || tube.outer_mm >= tables.start.channels_from_mm,
            "{}",
            tube.name
        );
        let guided = tables
            .guides
            .iter()
            .any(|guide| guide.tube_mm == tube.outer_mm);
        assert!(guided, "no guide for {}", tube.name);
        let driven = tables.machines.iter().any(|machine| {
            let Limits {
                lower: least,
                upper: most,
            } = machine.tube_mm;
            (least..=most).contains(&tube.outer_mm) && tube.length_mm <= machine.tube_length_mm
        });
        assert!(driven, "no machine for {}", tube.name);
    }
    assert!(tables.tubes.is_sorted_by_key(|tube| tube.outer_mm));
    assert!(tables.guides.is_sorted_by_key(|guide| guide.tube_mm));
    let there = |tenths: u32, material: TubeMaterial, length_mm: f64| {
        let outer = f64::from(tenths) / 10.0;
        tables.tubes.iter().any(|tube| {
            tube.outer_mm == outer && tube.material == material && tube.length_mm >= length_mm
        })
    };
    for tenths in 1..=30 {
        assert!(there(tenths, TubeMaterial::Brass, 200.0), "{tenths}");
        let copper = tenths < 3 || there(tenths, TubeMaterial::Copper, 400.0);
        assert!(copper, "{tenths}");
        let long = tenths < 8 || there(tenths, TubeMaterial::Brass, 1000.0);
        assert!(long, "{tenths}");
    }
}

/// Density [g/cm3] and resistivity [ohm cm] against the sources named in each row.
#[test]
fn materials_agree_with_their_sources() {
    let rows: &[(&str, f64, f64)] = &[
        // Little Falls Alloys, data sheet "Beryllium Copper, C17200 Tempered, 25 Alloy".
        ("Beryllium copper C17200", 8.26, 46.2 * 0.16624e-6),
        // Special Metals, "INCONEL alloy 718", SMC-045: 0.296 lb/in3, 753 ohm circ mil/ft.
        ("Nickel alloy 718", 8.19, 753.0 * 0.16624e-6),
        // pymatgen 2026.10.16, periodic_table.json.
        ("Tungsten", 19.25, 5.28e-6),
        ("Molybdenum", 10.28, 5.34e-6),
        ("Tantalum", 16.65, 13.1e-6),
        ("Niobium", 8.57, 15.2e-6),
        ("Zirconium", 6.511, 42.1e-6),
        ("Silver", 10.49, 1.587e-6),
        ("Copper C110", 8.92, 1.678e-6),
    ];
    for (name, density, resistivity) in rows {
        let material = &shop().tables.materials[shop().material(name).unwrap().at()];
        assert_eq!(material.density_g_cm3, *density, "{name}");
        let Limits {
            lower: low,
            upper: high,
        } = material.resistivity_ohm_cm.unwrap();
        // Half a unit of the third printed digit: what a conversion of units leaves.
        let (low, high) = (low * 0.9995, high * 1.0005);
        assert!(
            (low..=high).contains(resistivity),
            "{name}: {low} {resistivity} {high}"
        );
    }
}

/// The start table of the trade: common practice, no source.
#[test]
fn feed_and_wear_are_those_of_the_start_table() {
    let rows = [
        ("Tool steel D2", (15.0, 35.0), (0.4, 1.2), false),
        ("Mild steel 1018", (15.0, 35.0), (0.4, 1.2), false),
        ("Stainless 316", (10.0, 30.0), (0.4, 1.2), false),
        ("Nickel alloy 718", (8.0, 30.0), (0.5, 1.5), false),
        ("Titanium Ti-6Al-4V", (5.0, 20.0), (0.5, 1.5), false),
        ("Aluminum 7075-T6", (25.0, 60.0), (0.1, 0.4), false),
        ("Bearing bronze C932", (5.0, 20.0), (0.8, 3.0), false),
        ("Carbide WC-10Co", (2.0, 10.0), (1.0, 4.0), false),
        ("Tungsten", (2.0, 10.0), (1.0, 4.0), true),
        ("Cobalt chrome F75", (8.0, 30.0), (0.5, 1.5), true),
        ("Brass C360", (5.0, 20.0), (0.8, 3.0), true),
    ];
    for (name, feed, wear, from_family) in rows {
        let material = &shop().tables.materials[shop().material(name).unwrap().at()];
        assert_eq!(
            material.feed_mm_min,
            Spread::new(feed.0, feed.1).unwrap(),
            "{name}"
        );
        assert_eq!(
            material.wear,
            Spread::new(wear.0, wear.1).unwrap(),
            "{name}"
        );
        assert_eq!(material.from_family, from_family, "{name}");
    }
}

#[test]
fn dangers_stand_in_the_rows() {
    let rows = [
        ("Titanium grade 2", Family::Titanium, Hazard::BurningFines),
        ("Magnesium AZ31B", Family::Magnesium, Hazard::BurningFines),
        ("Zirconium", Family::Zirconium, Hazard::BurningFines),
        ("Aluminum 6061-T6", Family::Aluminum, Hazard::BurningFines),
        ("Beryllium copper C17200", Family::Copper, Hazard::Beryllium),
        ("Carbide WC-6Co", Family::Carbide, Hazard::Cobalt),
        ("Nickel alloy 625", Family::Nickel, Hazard::Nickel),
        ("Stainless 304", Family::Stainless, Hazard::Chromium),
        ("Bearing bronze C932", Family::Copper, Hazard::CopperLead),
    ];
    for (name, family, hazard) in rows {
        let material = &shop().tables.materials[shop().material(name).unwrap().at()];
        assert_eq!(material.family, family, "{name}");
        assert!(material.hazards.contains(&hazard), "{name}");
    }
}

#[test]
fn start_values_come_in_the_units_of_the_calculation() {
    let start = &shop().tables.start;
    assert_eq!(
        start.touch_off_min,
        Spread::new(5.0 / 60.0, 15.0 / 60.0).unwrap()
    );
    assert_eq!(
        start.index_min,
        Spread::new(3.0 / 60.0, 10.0 / 60.0).unwrap()
    );
}

/// Every start value against the table that the calculation is built by («memory» of common practice,
/// no source).
#[test]
fn start_values_are_those_of_the_table() {
    let start = &shop().tables.start;
    let band = |p10, p90| Spread::new(p10, p90).unwrap();
    let close = |a: f64, b: f64| (a - b).abs() < 1e-12;
    let gaps = [
        (0.1, band(0.01, 0.03)),
        (0.3, band(0.02, 0.05)),
        (1.0, band(0.03, 0.08)),
        (3.0, band(0.05, 0.12)),
        (6.0, band(0.08, 0.20)),
    ];
    assert_eq!(start.gap_mm, gaps);
    let scatter = [(0.5, 0.006), (1.0, 0.010), (3.0, 0.015), (6.0, 0.025)];
    assert_eq!(start.size_scatter_mm, scatter);
    // Sizes below 0.2 mm go on along the line of the two above them.
    let feed = [
        (0.2, 0.4),
        (0.3, 0.55),
        (0.5, 0.8),
        (0.8, 1.0),
        (1.2, 1.0),
        (2.0, 0.6),
        (3.0, 0.35),
        (6.0, 0.12),
    ];
    assert_eq!(start.feed_by_diameter[2..], feed);
    let wear = [(0.2, 2.0), (0.3, 1.6), (0.5, 1.3), (1.0, 1.0), (3.0, 0.7)];
    assert_eq!(start.wear_by_diameter[2..], wear);
    for (table, digits) in [
        (&start.feed_by_diameter, 0.005),
        (&start.wear_by_diameter, 0.05),
    ] {
        let slope = libm::log(table[3].1 / table[2].1) / libm::log(0.3 / 0.2);
        for (at, value) in &table[..2] {
            let line = table[2].1 * libm::pow(at / 0.2, slope);
            assert!((value - line).abs() <= digits, "{at}: {value}, {line}");
        }
    }
    assert_eq!(start.wear_at_100_diameters, band(1.0, 1.5));
    assert_eq!((start.depth_s, start.depth_m), (band(60.0, 100.0), 1.5));
    assert_eq!(start.zone_feed, 0.5);
    let channels = [
        start.channels_feed,
        start.channels_wear,
        start.channels_from_mm,
    ];
    assert_eq!(channels, [0.8, 1.2, 0.6]);
    let overtravel = [
        start.overtravel_least_mm,
        start.overtravel_diameters,
        start.overtravel_feed,
    ];
    assert_eq!(overtravel, [1.0, 2.5, 3.0]);
    assert_eq!(
        start.effort_by_width,
        [(0.02, 0.5), (0.05, 0.8), (0.1, 1.0)]
    );
    assert_eq!(start.deepest_diameters, 200.0);
    assert_eq!(
        (start.tilt_min, start.turn_over_min),
        (band(10.0, 15.0), band(15.0, 30.0))
    );
    assert_eq!(start.change_by_hand_min, band(2.0, 3.0));
    assert_eq!(
        (start.change_thin_min, start.thin_tube_mm),
        (band(4.0, 6.0), 0.3)
    );
    assert!((start.change_by_changer_min.p50() - 0.5).abs() < 0.02);
    assert_eq!(start.guide_change_min, band(5.0, 10.0));
    assert_eq!(
        (start.dressing_min, start.dressing_mm),
        (band(0.5, 1.0), 3.0)
    );
    assert_eq!(
        (start.setup_min, start.first_piece_min),
        (band(30.0, 60.0), band(5.0, 10.0))
    );
    assert_eq!(start.tube_tolerance_mm, 0.01);
    assert_eq!(start.breakage, band(0.002, 0.01));
    assert_eq!(start.breakage_thin, band(0.01, 0.03));
    assert_eq!(start.breakage_thin_deep, band(0.02, 0.06));
    assert_eq!(
        (start.thin_deep_diameters, start.breakage_worth_holes),
        (30.0, 50.0)
    );
    assert!(close(start.part_risk_hole, 0.0002 / 100.0));
    assert_eq!(shop().tables.rates.part_risk_share, 0.005);
    assert_eq!((start.taper_mm_per_100, start.hole_scatter), (0.03, 0.15));
    assert_eq!(start.drift_mm_per_100, band(0.05, 0.2));
    let off = &start.deviations;
    // 0.62 in the logarithm at 1 mm and 20 diameters, the lot's own included; a factor of 2.2.
    assert!((off.process(1.0, 20.0) - 0.62).abs() < 0.005);
    assert!((libm::exp(1.281_551_6 * off.process(1.0, 20.0)) - 2.2).abs() < 0.05);
    assert_eq!((off.by_diameter, off.by_depth, off.lot), (0.20, 0.15, 0.27));
    assert_eq!((off.handling_shop, off.handling_machine), (0.35, 0.20));
    assert!((off.gap() - 0.308).abs() < 0.0005);
    assert_eq!(off.burn_and_wear, 0.5);
}

/// Format 1 said how far handling is off in one number; it is the shop's own now.
#[test]
fn handling_of_format_1_goes_on() {
    let own = r#"(format: 1, start: (handling_scatter: (0.1, "our clock")))"#;
    let off = Shop::with_file(own.as_bytes())
        .unwrap()
        .tables
        .start
        .deviations;
    assert_eq!((off.handling_shop, off.handling_machine), (0.1, 0.0));
    let newer = own.replace("format: 1", "format: 2");
    let error = Shop::with_file(newer.as_bytes()).unwrap_err();
    assert!(
        error.to_string().contains("handling_deviation_shop"),
        "{error}"
    );
}

/// The long head is a machine of our own: 1000 mm of tube, 170 mm held back.
#[test]
fn the_long_head_uses_830_mm_of_a_1000_mm_tube() {
    let tables = &shop().tables;
    let mut machines = tables.machines.iter();
    let steeple = machines.find(|m| m.name == "Steeple").unwrap();
    assert_eq!(steeple.tube_mm, Limits::new(0.5, 10.0));
    let lengths = tables.tubes.iter().map(|tube| tube.length_mm);
    let longest = lengths.fold(0.0, f64::max);
    assert_eq!((longest, steeple.tube_length_mm), (1000.0, 1000.0));
    let usable = (longest - steeple.held_back_mm).min(steeple.stroke_mm);
    assert_eq!(usable, 830.0);
}

#[test]
fn the_rate_card_goes_by_the_day() {
    let rows = [
        ("2025-12-31", 48.0, 68.0),
        ("2026-01-01", 48.0, 68.0),
        ("2026-06-30", 48.0, 68.0),
        ("2026-07-01", 50.0, 70.0),
        ("2031-01-01", 50.0, 70.0),
    ];
    for (on, labor, machine) in rows {
        let tables = shop().tables_on(day(on));
        assert_eq!(tables.rates.labor_per_hour, labor, "{on}");
        assert_eq!(tables.machines[0].rate_per_hour, machine, "{on}");
        assert_eq!(shop().rates_on(day(on)).rates, tables.rates, "{on}");
    }
    assert_eq!(shop().tables, shop().tables_on(day("2026-07-01")));
}

#[test]
fn a_material_is_found_under_its_other_names() {
    let rows = [
        ("304", "Stainless 304"),
        ("1.4301", "Stainless 304"),
        ("UNS S30400", "Stainless 304"),
        ("nickel ALLOY 718", "Nickel alloy 718"),
        ("718", "Nickel alloy 718"),
        ("d2", "Tool steel D2"),
        ("17-4PH", "Stainless 17-4 PH"),
        ("Ti 6Al 4V", "Titanium Ti-6Al-4V"),
        ("carbide wc-6co", "Carbide WC-6Co"),
        ("unobtainium", ""),
        ("", ""),
    ];
    for (text, name) in rows {
        let found = shop()
            .material(text)
            .map(|index| shop().tables.materials[index.at()].name.as_str());
        assert_eq!(found.unwrap_or_default(), name, "{text}");
    }
}

#[test]
fn working_days_leave_out_weekends_and_days_off() {
    let own = r#"(format: 1, calendar: (work_days: [Mon, Tue, Wed, Thu, Fri], hours_per_day: 9.0,
        unattended_hours_per_day: 6.0, days_off: ["2026-11-26"]))"#;
    let calendar = Shop::with_file(own.as_bytes()).unwrap().calendar;
    // 2026-11-25 is a Wednesday.
    let rows = [
        (0, "2026-11-25"),
        (1, "2026-11-27"),
        (2, "2026-11-30"),
        (8, "2026-12-08"),
    ];
    for (days, then) in rows {
        assert_eq!(
            calendar.after(day("2026-11-25"), days),
            Some(day(then)),
            "{days}"
        );
    }
    assert_eq!(calendar.after(day("2026-11-25"), u32::MAX), None);
}

#[test]
fn a_shops_own_file_replaces_adds_and_leaves_out() {
    let own = r#"( // our shop
        format: 1,
        name: "Tin Kettle Holes",
        without: ["Wren", "brass 0.10 x 150"],
        materials: [
            (name: "stainless 316", family: Stainless, density_g_cm3: 7.99,
             process: (feed_mm_min: (14, 18), wear: (0.6, 0.7), tube: Brass, pedigree: "our records")),
            (name: "Alloy 99", family: Nickel, density_g_cm3: 8.5, resistivity_uohm_cm: (120, 130)),
        ],
        tubes: [(name: "brass 1.00 x 400", material: Brass, outer_mm: 1, bore_mm: 0.4, channels: 1,
                 length_mm: 400, price: 1.10, stock: 12)],
        machines: [(name: "Old Mule", part_mm: (300, 300, 200), mass_kg: 100, stroke_mm: 300,
            tube_mm: (0.3, 3), tube_length_mm: 400, held_back_mm: 100, stand_off_mm: 8,
            pressure_bar: 50, changer: false, index_axis: false, tilt_deg: None,
            table_rapid_mm_min: 1000, head_rapid_mm_min: 1000, attended: 1, rate_per_hour: 40)],
        rates: [(valid_from: "2020-01-01", currency: "EUR", minor_digits: 2, labor_per_hour: 44,
            machines_per_hour: {"Old Mule": 41}, dielectric_per_hour: 1, power_per_hour: 1, margin: 0.25,
            minimum_charge: 90, price_step: 0.5, redo_share: 0.02, part_risk_share: 0)],
        start: (setup_min: ((20, 25), "our records")),
    )"#;
    let own = Shop::with_file(own.as_bytes()).unwrap();
    assert_eq!(own.name, "Tin Kettle Holes");
    assert_eq!(own.address, shop().address);
    assert_eq!(
        own.tables.materials.len(),
        shop().tables.materials.len() + 1
    );
    let index = own.material("Stainless 316").unwrap();
    let material = &own.tables.materials[index.at()];
    assert_eq!(material.feed_mm_min, Spread::new(14.0, 18.0).unwrap());
    assert_eq!(material.resistivity_ohm_cm, None);
    assert_eq!(own.pedigree.materials[index.at()], "the shop's own file");
    assert_eq!(own.pedigree.process[index.at()], "our records");
    assert_eq!(own.tables.rates.price_step, Some(0.5));
    assert!(own.material("Alloy 99").is_some());
    assert_eq!(own.tables.tubes.len(), shop().tables.tubes.len() - 1);
    let at = own
        .tables
        .tubes
        .iter()
        .position(|tube| tube.name == "brass 1.00 x 400")
        .unwrap();
    assert_eq!(own.tables.tubes[at].stock, Some(12));
    assert_eq!(own.pedigree.tubes[at], "the shop's own file");
    let machines = names(&own.tables.machines, |machine| &machine.name);
    assert_eq!(machines, ["Barrow", "Steeple", "Old Mule"]);
    assert_eq!(own.tables.machines[2].rate_per_hour, 41.0);
    // Its one card holds on every day: the start cards are gone.
    assert_eq!(own.rates_on(day("2027-01-01")).rates.currency, "EUR");
    assert_eq!(own.tables.start.setup_min, Spread::new(20.0, 25.0).unwrap());
    assert_eq!(own.tables.start.load_min, shop().tables.start.load_min);
}

#[test]
fn a_shop_file_that_cannot_be_used_is_refused_with_one_sentence() {
    let tube = |bore: &str| {
        format!(
            "(format: 1, tubes: [(name: \"t\", material: Brass, outer_mm: 1.0, bore_mm: {bore}, \
             channels: 1, length_mm: 400.0, price: 1.0)])"
        )
    };
    let rows: &[(&str, &str)] = &[
        ("", "The file is empty"),
        ("  \n", "The file is empty"),
        (
            "(name: \"x\")",
            "The file does not begin with a format number such as (format: 1, ...)",
        ),
        (
            "(format: 4)",
            "The file has format 4 and was written by a newer version: this version, which reads formats up to 3,",
        ),
        ("(format: 0)", "The file says format 0, which never existed"),
        (
            "(format: 1, name: \"x",
            "The file ends in the middle, at line 1, column 20",
        ),
        (
            "(format: 1,\n nome: \"x\")",
            "Line 2, column 6 of the file says \"nome\", a name that was written by a newer version",
        ),
        (
            &tube("1.5"),
            "In tubes, \"t\": the bore must be smaller than the diameter of the electrode",
        ),
        (
            &tube("NaN"),
            "In tubes, \"t\": bore_mm must be a number above 0",
        ),
        (
            &tube("inf"),
            "In tubes, \"t\": bore_mm must be a number above 0",
        ),
        (
            "(format: 1, without: [\"Robin\"])",
            "No row has the name \"Robin\" that is to be left out",
        ),
        (
            "(format: 1, start: (setup_min: ((60, 20), \"ours\")))",
            "In start, \"setup_min\": a band needs two numbers above 0, the smaller one first",
        ),
        (
            "(format: 1, materials: [(name: \"718\", family: Nickel, density_g_cm3: 8.2)])",
            "In materials, the name \"718\" appears twice",
        ),
        (
            "(format: 1, rates: [(valid_from: \"soon\", currency: \"USD\", minor_digits: 2, \
             labor_per_hour: 1, dielectric_per_hour: 1, power_per_hour: 1, margin: 0.2, \
             minimum_charge: 1, redo_share: 0, part_risk_share: 0)])",
            "In rates, \"soon\": the day is not a date like 2026-01-31",
        ),
        (
            "(format: 1, rates: [(valid_from: \"2026-01-01\", currency: \"USD\", minor_digits: 2, \
             labor_per_hour: 1, dielectric_per_hour: 1, power_per_hour: 1, margin: 0.2, \
             minimum_charge: 1, price_step: 0.125, redo_share: 0, part_risk_share: 0)])",
            "In rates, \"2026-01-01\": price_step must be above 0 and a whole number",
        ),
    ];
    for (text, sentence) in rows {
        let error = Shop::with_file(text.as_bytes()).unwrap_err();
        assert!(error.to_string().starts_with(sentence), "{text}\n{error}");
        assert!(error.hint().ends_with('.'), "{}", error.hint());
    }
}

/// Numbers that no shop has made figures that are none: the file is refused with the name of the value.
#[test]
fn a_number_that_no_shop_has_is_refused_by_name() {
    let refused = |text: &str, name: &str| {
        let error = Shop::with_file(text.as_bytes()).expect_err(text);
        let said = error.to_string();
        assert!(
            said.contains(name) && !said.contains('\n'),
            "{text}: {said}"
        );
        assert!(!error.hint().is_empty(), "{text}");
    };
    for number in ["1e308", "-1.0", "1e-308", "inf", "NaN", "-inf", "1e10"] {
        for name in [
            "zone_feed",
            "depth_m",
            "overlap_mm",
            "deviation_lot",
            "part_risk_hole",
        ] {
            let text = format!("(format: 2, start: ({name}: ({number}, \"ours\")))");
            let fits_a_share = name == "part_risk_hole" && number == "1e-308";
            if !fits_a_share {
                refused(&text, name);
            }
        }
        let band = format!("(format: 2, start: (setup_min: (({number}, 1e9), \"ours\")))");
        refused(&band, "setup_min");
    }
    refused(
        "(format: 2, start: (setup_min: ((1.0, 101.0), \"ours\")))",
        "setup_min",
    );
    refused(
        "(format: 2, start: (deviation_lot: (3.1, \"ours\")))",
        "deviation_lot",
    );
    refused("(format: 2, start: (depth_m: (11.0, \"ours\")))", "depth_m");
    refused(
        "(format: 2, start: (feed_by_diameter: ([(0.5, 1e300)], \"ours\")))",
        "feed_by_diameter",
    );
    refused(
        "(format: 2, start: (feed_by_diameter: ([(1e300, 1.0)], \"ours\")))",
        "feed_by_diameter",
    );
    let fine =
        "(format: 2, start: (setup_min: ((1.0, 99.0), \"ours\"), deviation_lot: (2.9, \"ours\")))";
    assert!(Shop::with_file(fine.as_bytes()).is_ok());
}
