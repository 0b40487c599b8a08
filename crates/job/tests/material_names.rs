//! Materials by the names that stand on drawings, and where the shop's figures come from.

#![expect(clippy::unwrap_used, reason = "a helper that fails is a failed test")]

#[path = "hands/notes.rs"]
mod notes_told;

use notes_told::said;
use std::collections::BTreeMap;

use quillbore_calc::Idx;
use quillbore_calc::finding::Level;
use quillbore_job::results::{Beside, results_quick};
use quillbore_job::{Edit, Field, Job, Shop, Unit, apply};

fn shop() -> &'static Shop {
    Shop::embedded().unwrap()
}

/// The row's own name that a written one leads to.
fn row(name: &str) -> Option<&'static str> {
    let at = shop().material(name)?;
    Some(shop().tables.materials[at.at()].name.as_str())
}

/// Names as customers write them; numbers by UNS (ASTM E527 / SAE HS-1086), EN 10027-2 and the EN
/// names are from memory where no source is named.
#[test]
fn names_on_drawings_lead_to_the_right_row() {
    let rows: &[(&str, &[&str])] = &[
        (
            "Nickel alloy 718",
            &[
                "Inconel 718",
                "INCONEL\u{ae} 718",
                "inconel-718",
                "IN718",
                "IN 718",
                "Alloy 718",
                "718",
                "N07718",
                "UNS N07718",
                "2.4668",
                "W.-Nr. 2.4668",
                "W.Nr. 2.4668",
                "AMS 5662",
                "NiCr19Fe19Nb5Mo3",
            ],
        ),
        (
            "Nickel alloy 625",
            &["Inconel 625", "Alloy 625", "N06625", "2.4856"],
        ),
        ("Nickel alloy 600", &["Inconel 600", "N06600", "2.4816"]),
        (
            "Nickel alloy X",
            &["Hastelloy X", "Hastelloy-X", "HastX", "N06002", "2.4665"],
        ),
        ("Nickel alloy C-276", &["Hastelloy C-276", "C276", "N10276"]),
        (
            "Nickel alloy N07001",
            &["Waspaloy", "WASPALOY\u{2122}", "UNS N07001", "2.4654"],
        ),
        (
            "Nickel alloy, cast",
            &["MAR-M 247", "Mar M247", "IN-738", "IN 713C"],
        ),
        (
            "Nickel alloy, single crystal",
            &["CMSX-4", "single crystal"],
        ),
        (
            "Titanium Ti-6Al-4V",
            &[
                "Ti-6Al-4V",
                "Ti6Al4V",
                "TI 6AL 4V",
                "Ti 6-4",
                "Ti64",
                "6Al-4V",
                "Ti Gr. 5",
                "Titanium Grade 5",
                "R56400",
                "UNS R56400",
                "3.7165",
                "TA6V",
                "AMS 4928",
            ],
        ),
        (
            "Titanium Ti-6Al-4V ELI",
            &["Ti-6Al-4V ELI", "Grade 23 titanium", "ASTM F136"],
        ),
        (
            "Titanium grade 2",
            &["CP Ti", "CP titanium", "Ti Gr 2", "R50400", "3.7035"],
        ),
        (
            "Stainless 316",
            &[
                "316",
                "AISI 316",
                "316 SS",
                "SS316",
                "SS 316",
                "316 stainless",
                "Stainless steel 316",
                "316 stainless steel",
                "S31600",
                "UNS S31600",
                "1.4401",
                "EN 1.4401",
                "X5CrNiMo17-12-2",
            ],
        ),
        (
            "Stainless 316L",
            &["316L", "316 L", "AISI 316L", "S31603", "1.4404"],
        ),
        (
            "Stainless 304",
            &[
                "304",
                "AISI 304",
                "304SS",
                "1.4301",
                "DIN 1.4301",
                "X5CrNi18-10",
                "V2A",
            ],
        ),
        ("Stainless 304L", &["304L", "1.4307", "S30403"]),
        ("Stainless 303", &["303", "303 SS", "1.4305"]),
        ("Stainless 420", &["420 SS", "1.4021"]),
        ("Stainless 440C", &["440C", "440-C", "S44004", "1.4125"]),
        (
            "Stainless 17-4 PH",
            &[
                "17-4PH", "17-4 PH", "17/4 PH", "S17400", "1.4542", "AISI 630", "AMS 5643",
            ],
        ),
        (
            "Stainless 15-5 PH",
            &["15-5PH", "15-5 PH", "S15500", "1.4545"],
        ),
        (
            "Tool steel D2",
            &[
                "D2",
                "AISI D2",
                "D2 tool steel",
                "1.2379",
                "T30402",
                "X153CrMoV12",
                "SKD11",
            ],
        ),
        ("Tool steel H13", &["H13", "1.2344", "X40CrMoV5-1", "SKD61"]),
        ("Tool steel A2", &["A2", "1.2363"]),
        ("Tool steel O1", &["O1", "1.2510"]),
        ("Tool steel S7", &["S7", "AISI S7"]),
        (
            "High-speed steel M2",
            &["M2", "HSS M2", "1.3343", "HS6-5-2C"],
        ),
        (
            "Alloy steel 4140",
            &["4140", "AISI 4140", "42CrMo4", "1.7225"],
        ),
        ("Alloy steel 4340", &["4340", "AISI 4340", "G43400"]),
        ("Bearing steel 52100", &["52100", "100Cr6", "1.3505"]),
        ("Mild steel 1018", &["1018", "C1018", "1018 CRS"]),
        (
            "Aluminum 6061",
            &[
                "6061-T6",
                "6061",
                "AL 6061-T6",
                "Aluminium 6061",
                "EN AW-6061",
                "A96061",
                "3.3211",
            ],
        ),
        ("Aluminum 7075", &["7075-T6", "7075-T651", "EN AW-7075"]),
        ("Aluminum 2024", &["2024-T3", "2024-T351"]),
        (
            "Beryllium copper C17200",
            &[
                "BeCu",
                "Be-Cu",
                "C17200",
                "CuBe2",
                "CW101C",
                "beryllium copper",
            ],
        ),
        ("Brass C360", &["C360", "360 brass", "C36000", "CuZn36Pb3"]),
        ("Bearing bronze C932", &["SAE 660", "932 bronze", "C93200"]),
        ("Copper C110", &["C110", "Cu-ETP", "CW004A"]),
        (
            "Cobalt chrome F75",
            &["ASTM F75", "CoCrMo", "cobalt chrome"],
        ),
        ("Cobalt alloy 6", &["Stellite 6"]),
        ("Cobalt alloy 25", &["L605", "L-605", "Haynes 25"]),
        (
            "Iron-nickel alloy A-286",
            &["A286", "A-286", "S66286", "1.4980"],
        ),
        ("Iron-nickel 36", &["Invar", "Invar 36", "FeNi36", "1.3912"]),
        ("Iron-nickel-cobalt 29-17", &["Kovar", "1.3981"]),
        ("Nickel-titanium", &["Nitinol", "NiTi"]),
        ("Carbide WC-10Co", &["WC-10Co", "WC-10%Co", "WC 10Co"]),
        ("Polycrystalline diamond", &["PCD"]),
        ("Tungsten", &["W", "wolfram"]),
        ("Molybdenum", &["moly", "Mo"]),
    ];
    let mut tried = 0;
    for (own, names) in rows {
        assert_eq!(row(own), Some(*own));
        for name in *names {
            assert_eq!(row(name), Some(*own), "{name}");
            tried += 1;
        }
    }
    assert!(tried >= 60, "{tried}");
}

/// What could be one of several grades, or none of the list, leads nowhere: nobody should guess.
#[test]
fn what_is_no_grade_leads_nowhere() {
    for name in [
        "steel",
        "stainless",
        "aluminum",
        "titanium",
        "carbide",
        "Inconel",
        "Alloy 25",
        "660",
        "EN24",
        "1.4",
        "UNS",
        "W.-Nr.",
        "-",
        "",
        "unobtainium",
        "71",
        "7180",
    ] {
        assert_eq!(row(name), None, "{name}");
    }
}

/// Every name of every row leads to its row, so no two rows share one.
#[test]
fn no_name_leads_to_two_rows() {
    let mut seen: BTreeMap<String, usize> = BTreeMap::new();
    for (at, material) in shop().tables.materials.iter().enumerate() {
        for name in shop()
            .other_names(Idx::new(at))
            .iter()
            .chain([&material.name])
        {
            assert_eq!(shop().material(name), Some(Idx::new(at)), "{name}");
            let before = seen.insert(name.to_lowercase(), at);
            assert!(before.is_none_or(|before| before == at), "{name}");
        }
    }
    assert!(seen.len() > 300, "{}", seen.len());
    let twice =
        br#"(format: 1, materials: [(name: "Fine alloy", also: ["UNS N07718"], family: Nickel,
        density_g_cm3: 8.2)])"#;
    let refused = Shop::with_file(twice).unwrap_err().to_string();
    assert!(refused.contains("appears twice"), "{refused}");
}

#[test]
fn a_part_of_a_name_finds_its_rows() {
    let found = |text: &str| -> Vec<&str> {
        let rows = shop().materials_like(text).into_iter();
        rows.map(|at| shop().tables.materials[at.at()].name.as_str())
            .collect()
    };
    assert_eq!(
        found("inconel"),
        ["Nickel alloy 600", "Nickel alloy 625", "Nickel alloy 718"]
    );
    assert_eq!(found("hastelloy x"), ["Nickel alloy X"]);
    assert_eq!(found("grade 5"), ["Titanium Ti-6Al-4V"]);
    assert_eq!(
        found("1.43"),
        ["Stainless 303", "Stainless 304", "Stainless 304L"]
    );
    assert_eq!(found("unobtainium"), [""; 0]);
}

/// A standard, a handbook or a producer's data sheet by its title, or memory: no web page.
#[test]
fn sources_can_be_found_by_a_reader() {
    let pedigree = &shop().pedigree;
    let lists = [
        &pedigree.materials,
        &pedigree.process,
        &pedigree.tubes,
        &pedigree.guides,
        &pedigree.machines,
    ];
    for text in lists.into_iter().flatten() {
        let told = [
            "from memory",
            "common practice, no source",
            "invented",
            "data sheet \"",
            "publication",
            "pymatgen",
        ];
        assert!(told.iter().any(|word| text.contains(word)), "{text}");
        let low = text.to_lowercase();
        for site in [
            "http",
            "www",
            ".com",
            "scribd",
            "docslib",
            "makeitfrom",
            "azom",
            "articleid",
            "matweb",
            "supplier page",
        ] {
            assert!(!low.contains(site), "{text}");
        }
    }
}

#[test]
fn another_name_is_told_beside_the_material() {
    let job = |material: &str| {
        let edit = Edit::SetField {
            field: Field::Material,
            text: material.to_owned(),
            unit: Unit::Mm,
        };
        apply(&Job::default(), &edit).unwrap().0
    };
    let notes = |material: &str| -> Vec<String> {
        let job = job(material);
        let notes = results_quick(&job, shop()).notes.into_iter();
        let notes = notes.filter(|note| note.code() == "material-by-other-name");
        notes
            .inspect(|note| {
                assert_eq!(note.level, Level::Note);
                assert_eq!(note.beside, Beside::Field(Field::Material));
            })
            .map(|note| said(&job, &note))
            .collect()
    };
    assert_eq!(
        notes("Inconel 718"),
        [
            "\u{201c}Inconel 718\u{201d} is Nickel alloy 718 in the shop's list; papers print that name, and the drawing's in brackets."
        ]
    );
    assert_eq!(notes("nickel alloy 718"), [""; 0]);
    assert_eq!(notes("unobtainium"), [""; 0]);
}

#[test]
fn papers_name_the_shops_row_and_lose_nothing_of_the_drawings_name() {
    use quillbore_job::words::english::material_named;
    for (own, written, named) in [
        (
            Some("Nickel alloy 718"),
            "Inconel 718",
            "Nickel alloy 718 (Inconel 718)",
        ),
        (Some("Nickel alloy 718"), " 718 ", "Nickel alloy 718"),
        (
            Some("Nickel alloy 718"),
            "NICKEL ALLOY 718",
            "Nickel alloy 718",
        ),
        (Some("Stainless 17-4 PH"), "17-4PH", "Stainless 17-4 PH"),
        (Some("Aluminum 6061"), "6061-T6", "Aluminum 6061 (6061-T6)"),
        (Some("Stainless 316"), "1.4401", "Stainless 316 (1.4401)"),
        (None, "unobtainium", "unobtainium"),
        (None, "", ""),
    ] {
        assert_eq!(material_named(own, written), named, "{written}");
    }
}

/// Slips of published sheets that must not have come into the list: alloy X at 1.18 "microhm cm" (it is
/// microhm m), commercially pure titanium at 12.6 ohm cm under the number of Ti-6Al-4V, C173 bronze at 8.8
/// g/cm3 (C17200's own sheet: 8.26).
#[test]
fn slips_of_published_sheets_are_not_in_the_list() {
    let shop = Shop::embedded().expect("samples");
    let of = |name: &str| {
        let found = shop.material(name).expect("a material");
        found.of(&shop.tables.materials).expect("its row")
    };
    let micro = |name: &str| {
        let ohm_cm = of(name).resistivity_ohm_cm.expect("a resistivity");
        [ohm_cm.lower * 1e6, ohm_cm.upper * 1e6]
    };
    assert!(
        micro("Alloy X")
            .iter()
            .all(|at| (110.0..130.0).contains(at))
    );
    assert!(micro("CP Ti").iter().all(|at| (40.0..70.0).contains(at)));
    assert_ne!(of("R56400").name, of("CP Ti").name);
    assert!((of("C17200").density_g_cm3 - 8.26).abs() < 0.05);
    let metals = shop.tables.materials.iter();
    for metal in metals.filter(|metal| metal.resistivity_ohm_cm.is_some_and(|at| at.upper < 1e-3)) {
        let at = metal.resistivity_ohm_cm.expect("a resistivity");
        assert!(
            at.lower > 1.4e-6,
            "{}: no metal conducts better than silver",
            metal.name
        );
    }
}
