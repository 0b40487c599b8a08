//! Counts, choices, surfaces, layers, amounts, dates, resistivities and figures from text.

use chrono::NaiveDate;
use quillbore_calc::input::{Ends, HoleEnd, PartAxis, Surface};
use quillbore_job::Unit::{Inch, Mm};
use quillbore_job::field::AngleBasis;
use quillbore_job::read_quantity::{self as read, Misread};
use rust_decimal::Decimal;

#[track_caller]
fn check<T: PartialEq + std::fmt::Debug>(text: &str, found: Result<T, Misread>, expect: T) {
    let found = found.map_err(|why| why.to_string());
    assert_eq!(found, Ok(expect), "{text}");
}

#[track_caller]
fn refused<T: std::fmt::Debug>(text: &str, found: Result<T, Misread>, says: &str) {
    let why = found.map_or_else(|why| why.to_string(), |value| format!("{value:?}"));
    assert!(why.contains(says), "{text}: {why}");
}

#[test]
fn holes_between_two_dressings() {
    for (text, every) in [
        ("3", 3),
        ("every 3 holes", 3),
        ("dress every 3", 3),
        ("3 holes", 3),
        ("every hole", 1),
        ("each hole", 1),
        ("1", 1),
        ("0", 0),
        ("none", 0),
        ("Never", 0),
        ("no", 0),
        ("-", 0),
        ("1000000", 1_000_000),
    ] {
        assert_eq!(read::dress_every(text), Ok(every), "{text}");
    }
    for (text, says) in [
        ("-3", "can't be below zero"),
        ("2.5", "is not whole"),
        ("1,250", "could be"),
        (
            "three",
            "is not how often the tip is dressed: type 3 for every third hole",
        ),
        ("3 parts", "is left over"),
        ("none 3", "is left over"),
        ("1000001", "can't be larger"),
        ("99999999999999999999999", "more digits"),
    ] {
        refused(text, read::dress_every(text), says);
    }
}

#[test]
fn counts() {
    for text in [
        "36",
        "36x",
        "36 x",
        "36X",
        "36\u{d7}",
        "36 places",
        "36 PLCS",
        "(36)",
        "x36",
        "36 off",
        "36 holes",
        "qty 36",
        "36.0",
        "36 places equally spaced",
    ] {
        check(text, read::holes(text), 36);
    }
    for (text, says) in [
        ("0", "can't be zero"),
        ("-3", "can't be below zero"),
        ("3.5", "is not whole"),
        ("1/2", "is not whole"),
        ("1,250", "could be 1250 or 1.25"),
        ("1.000", "could be 1000 or 1"),
        ("2000000", "can't be larger than a million"),
        ("many", "is not a count of holes"),
        ("3-5", "left over"),
    ] {
        refused(text, read::holes(text), says);
    }
    check("25 pcs", read::whole("25 pcs", 1), 25);
    check("1\u{2009}250", read::whole("1\u{2009}250", 1), 1250);
    check("0", read::whole("0", 0), 0);
    refused("0", read::whole("0", 1), "can't be zero");
    check("10 working days", read::days("10 working days", 0), 10);
    refused("2 weeks", read::days("2 weeks", 0), "type 10 days");
}

#[test]
fn quantities() {
    for text in [
        "10, 25, 50",
        "10/25/50",
        "10 25 50",
        "10;25;50",
        "50, 25, 10, 25",
        "10,25,50",
        "10, 25 and 50",
    ] {
        check(text, read::quantities(text), vec![10, 25, 50]);
    }
    refused(
        "10,250",
        read::quantities("10,250"),
        "could be 10; 250 or 10250",
    );
    for (text, one, other) in [
        ("2 500", "2; 500", "2500"),
        ("10, 25, 2 500", "2; 500", "2500"),
        ("2\u{202f}500", "2; 500", "2500"),
        ("10,250; 500", "10; 250", "10250"),
        // What doesn't rise, or has a part that is no quantity, is hardly meant as a list.
        ("1,000,000", "1; 000", "1000"),
        ("500,250,100", "500; 250", "500250"),
        ("1,000,2,000", "1; 000", "1000"),
        ("50,100,200,25", "50; 100", "50100"),
        ("1.000, 2.000", "1; 000", "1000"),
    ] {
        let told = format!("could be {one} or {other}");
        refused(text, read::quantities(text), &told);
    }
    // Here spaces can only part quantities.
    for (text, list) in [
        ("10 25 100", vec![10, 25, 100]),
        ("2 500 1000", vec![2, 500, 1000]),
        ("100 250 500", vec![100, 250, 500]),
        ("2; 500", vec![2, 500]),
        // Between semicolons they can only group them, and so can apostrophes everywhere.
        ("1 000; 2 000", vec![1000, 2000]),
        ("10; 250; 2 500;", vec![10, 250, 2500]),
        ("1\u{202f}000; 12\u{a0}500 pcs", vec![1000, 12_500]),
        ("10 25; 2 500", vec![10, 25, 2500]),
        ("1'000, 2'000", vec![1000, 2000]),
        ("1\u{2019}000,2\u{2019}000", vec![1000, 2000]),
        ("500 1'000 1'000'000", vec![500, 1000, 1_000_000]),
        ("1'000; 2'000", vec![1000, 2000]),
        // As one number these would be more than a million.
        ("50,100,200", vec![50, 100, 200]),
        ("5,100,200,400", vec![5, 100, 200, 400]),
        ("50,100,200, 500", vec![50, 100, 200, 500]),
        ("50,100,200; 1 000", vec![50, 100, 200, 1000]),
    ] {
        check(text, read::quantities(text), list);
    }
    refused(
        "10, x",
        read::quantities("10, x"),
        "is not a list of quantities",
    );
    refused("10, 0", read::quantities("10, 0"), "can't be zero");
    let many: Vec<String> = (1..=60).map(|n| n.to_string()).collect();
    let many = many.join(" ");
    refused(&many, read::quantities(&many), "More than 50");
}

#[test]
fn choices() {
    for (text, end) in [
        ("through", HoleEnd::Through),
        ("THRU", HoleEnd::Through),
        ("thru.", HoleEnd::Through),
        ("T", HoleEnd::Through),
        ("thru all", HoleEnd::Through),
        ("into", HoleEnd::Into),
        ("into  bore", HoleEnd::Into),
        ("b", HoleEnd::Blind),
        ("Blind", HoleEnd::Blind),
    ] {
        check(text, read::hole_end(text), end);
    }
    refused(
        "maybe",
        read::hole_end("maybe"),
        "type through, into or blind",
    );
    for (text, yes) in [
        ("yes", true),
        ("Y", true),
        ("x", true),
        ("no", false),
        ("-", false),
        ("\u{2013}", false),
    ] {
        check(text, read::yes_no(text), yes);
    }
    refused("wax", read::yes_no("wax"), "is not yes or no");
    for (text, ends) in [
        ("one", Ends::One),
        ("1", Ends::One),
        ("Both", Ends::Both),
        ("both ends", Ends::Both),
    ] {
        check(text, read::ends(text), ends);
    }
    refused("three", read::ends("three"), "type one or both");
    for (text, axis) in [
        ("x", Some(PartAxis::X)),
        ("Z", Some(PartAxis::Z)),
        ("none", None),
    ] {
        check(text, read::part_axis(text), axis);
    }
    refused("w", read::part_axis("w"), "x, y, z or none");
    for (text, basis) in [
        ("from normal", AngleBasis::FromNormal),
        ("Normal", AngleBasis::FromNormal),
        ("from the surface", AngleBasis::FromSurface),
        ("surface", AngleBasis::FromSurface),
    ] {
        check(text, read::angle_basis(text), basis);
    }
    refused("30", read::angle_basis("30"), "from normal or from surface");
}

#[test]
fn surfaces() {
    let cylinder = |radius_mm, offset_mm| Surface::Cylinder {
        radius_mm,
        offset_mm,
    };
    let ball = |radius_mm, offset_mm| Surface::Ball {
        radius_mm,
        offset_mm,
    };
    for (text, unit, surface) in [
        ("flat", Mm, Surface::Flat),
        ("Plane", Mm, Surface::Flat),
        ("cylinder R20", Mm, cylinder(20.0, 0.0)),
        ("cyl. r 20", Mm, cylinder(20.0, 0.0)),
        ("round R 20 offset 5", Mm, cylinder(20.0, 5.0)),
        ("round R20, offset -5", Mm, cylinder(20.0, 5.0)),
        ("R20", Mm, cylinder(20.0, 0.0)),
        ("d40", Mm, cylinder(20.0, 0.0)),
        ("\u{d8}40", Mm, cylinder(20.0, 0.0)),
        ("cylinder dia 40 offset 5", Mm, cylinder(20.0, 5.0)),
        ("R1/2", Inch, cylinder(12.7, 0.0)),
        ("R20 mm offset 2", Inch, cylinder(20.0, 2.0)),
        ("ball R10", Mm, ball(10.0, 0.0)),
        ("sphere d 20 offset 1", Mm, ball(10.0, 1.0)),
    ] {
        check(text, read::surface(text, unit), surface);
    }
    for (text, says) in [
        ("cylinder", "is not a surface: type flat, cylinder R20"),
        ("20", "is not a surface"),
        ("R0", "can't be zero"),
        ("flat R20", "left over"),
        ("R20 offset", "A surface is missing"),
    ] {
        refused(text, read::surface(text, Mm), says);
    }
}

#[test]
fn layers() {
    let read = |text: &str, unit| {
        read::layers(text, unit).map(|layers| {
            layers
                .into_iter()
                .map(|layer| (layer.thickness.mm(), layer.material.unwrap_or_default()))
                .collect::<Vec<_>>()
        })
    };
    for (text, unit, expect) in [
        (
            "1.2 Nickel alloy 718 + 3",
            Mm,
            vec![(1.2, "Nickel alloy 718"), (3.0, "")],
        ),
        (
            "1.2 mm Nickel alloy 718; 3 mm of 17-4 PH",
            Inch,
            vec![(1.2, "Nickel alloy 718"), (3.0, "17-4 PH")],
        ),
        (".5 + 1 17-4 PH", Inch, vec![(12.7, ""), (25.4, "17-4 PH")]),
        ("3 M2 tool steel", Mm, vec![(3.0, "M2 tool steel")]),
    ] {
        let expect: Vec<(f64, String)> = expect
            .into_iter()
            .map(|(mm, name)| (mm, name.to_owned()))
            .collect();
        check(text, read(text, unit), expect);
    }
    for (text, says) in [
        ("Steel 3", "doesn't start with its thickness"),
        ("3 +", "doesn't start with its thickness"),
        ("0 Steel", "can't be zero"),
        ("1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1", "More than 20"),
    ] {
        refused(text, read(text, Mm), says);
    }
}

#[test]
fn masses() {
    for (text, unit, kg) in [
        ("12.5 kg", Inch, 12.5),
        ("12,5", Mm, 12.5),
        ("800 g", Mm, 0.8),
        // International pound, 0.45359237 kg exactly (agreement of 1959).
        ("28 lb", Mm, 12.700_586_36),
        ("28 lbs", Mm, 12.700_586_36),
        ("28", Inch, 12.700_586_36),
        ("16 oz", Mm, 0.453_592_37),
    ] {
        check(text, read::mass_kg(text, unit), kg);
    }
    refused("0", read::mass_kg("0", Mm), "can't be zero");
    refused("-1", read::mass_kg("-1", Mm), "below zero");
    refused("2 t", read::mass_kg("2 t", Mm), "is left over");
    refused("2 stone", read::mass_kg("2 stone", Mm), "left over");
}

#[test]
fn amounts_of_money() {
    let exact = Decimal::new;
    for (text, amount) in [
        ("1250", exact(1250, 0)),
        ("1250.5", exact(12505, 1)),
        ("1,250.50", exact(12505, 1)),
        ("1.250,50", exact(12505, 1)),
        ("1\u{2009}250.50", exact(12505, 1)),
        ("1 250.50", exact(12505, 1)),
        ("12 345 678,5", exact(123_456_785, 1)),
        ("48,20", exact(482, 1)),
        ("0", exact(0, 0)),
        ("0.125", exact(125, 3)),
        ("1,250,000", exact(1_250_000, 0)),
    ] {
        check(text, read::money(text), amount);
    }
    for (text, says) in [
        ("1 25", "left over"),
        ("1234 567", "left over"),
        ("0.5 250", "left over"),
        ("1,250", "could be 1250 or 1.25"),
        ("1.250", "could be 1250 or 1.25"),
        ("$250", "leave out $"),
        ("250 EUR", "leave out EUR"),
        ("-5", "can't be below zero"),
        ("1/3", "is not an amount of money"),
        ("1000000000000", "larger than a trillion"),
        ("US$ 250", "leave out US"),
        ("Fr. 250", "leave out Fr"),
        // A word without a number is no currency.
        (
            "same",
            "\u{201c}same\u{201d} is not an amount of money: type a number such as 86.00",
        ),
        (
            "same as 25-0388",
            "\u{201c}same as 25-0388\u{201d} is not an amount",
        ),
        ("same.", "is not an amount"),
        ("$", "\u{201c}$\u{201d} is not an amount"),
    ] {
        refused(text, read::money(text), says);
    }
}

#[test]
fn shares() {
    for (text, share) in [
        ("30", 0.3),
        ("30 %", 0.3),
        ("12.5%", 0.125),
        ("0", 0.0),
        ("0.3 %", 0.003),
    ] {
        check(text, read::share(text), share);
    }
    refused("0.3", read::share("0.3"), "could be 0.3 % or 30 %");
    refused("100", read::share("100"), "below 100 %");
    refused("-5", read::share("-5"), "below zero");
}

#[test]
fn days() {
    let day = |year, month, day| NaiveDate::from_ymd_opt(year, month, day).unwrap();
    for (text, expect) in [
        ("2027-01-12", day(2027, 1, 12)),
        ("2027/1/12", day(2027, 1, 12)),
        ("12 Jan 2027", day(2027, 1, 12)),
        ("January 12, 2027", day(2027, 1, 12)),
        ("Jan. 12th, 2027", day(2027, 1, 12)),
        ("12.01.2027", day(2027, 1, 12)),
        ("13/01/2027", day(2027, 1, 13)),
        ("01/13/2027", day(2027, 1, 13)),
        ("12/12/2027", day(2027, 12, 12)),
        ("2028-02-29", day(2028, 2, 29)),
    ] {
        check(text, read::date(text), expect);
    }
    for (text, says) in [
        ("12/01/2027", "could be 2027-01-12 or 2027-12-01"),
        ("2027-02-29", "no such date"),
        ("31.02.2027", "no such date"),
        ("12.1.27", "four digits"),
        ("tomorrow", "is not a date: type 2027-01-12"),
        ("2027", "is not a date"),
        ("99999999999-1-1", "four digits"),
    ] {
        refused(text, read::date(text), says);
    }
}

#[test]
fn resistivities() {
    for (text, ohm_cm) in [
        ("120 uohm cm", 120e-6),
        ("120 \u{b5}\u{3a9}\u{b7}cm", 120e-6),
        ("120 \u{3bc}\u{2126}cm", 120e-6),
        ("1.2 uohm m", 120e-6),
        ("1.2e-4 ohm cm", 1.2e-4),
        ("1.2E-4 Ohm-cm", 1.2e-4),
        ("1,2x10^-4 ohm cm", 1.2e-4),
        ("0.5 mohm cm", 5e-4),
        ("3 Mohm cm", 3e6),
        ("0.02 ohm m", 2.0),
        ("5 ohm mm", 0.5),
    ] {
        check(text, read::resistivity_ohm_cm(text), ohm_cm);
    }
    for (text, says) in [
        ("120", "type 120 uohm cm or 120 ohm cm"),
        ("1.2e-4", "has no unit"),
        ("0 ohm cm", "can't be zero"),
        ("1e99 ohm cm", "more digits"),
        ("5 siemens", "left over"),
    ] {
        refused(text, read::resistivity_ohm_cm(text), says);
    }
}

#[test]
fn overruled_figures() {
    for (text, unit, mm_min) in [
        ("15", Mm, 15.0),
        ("15 mm/min", Inch, 15.0),
        ("0.5", Inch, 12.7),
        ("0.5 ipm", Mm, 12.7),
        ("0.5 in/min", Mm, 12.7),
    ] {
        check(text, read::feed_mm_min(text, unit), mm_min);
    }
    refused("15 mm", read::feed_mm_min("15 mm", Mm), "type 15 mm/min");
    refused("0", read::feed_mm_min("0", Mm), "can't be zero");
    for (text, min) in [
        ("2.5", 2.5),
        ("2,5 min", 2.5),
        ("90 s", 1.5),
        ("1 h 30 min", 90.0),
        ("1 min 30 s", 1.5),
    ] {
        check(text, read::minutes(text), min);
    }
    refused("2 3", read::minutes("2 3"), "left over");
    check("1,300.5", read::minutes("1,300.5"), 1300.5);
    check("1.300", read::minutes("1.300"), 1.3);
    refused(
        "1,300",
        read::minutes("1,300"),
        "could be 1300 or 1.3: type the one",
    );
    for (text, hours) in [("3.5", 3.5), ("210 min", 3.5), ("3 h 30 min", 3.5)] {
        check(text, read::hours(text), hours);
    }
    refused("soon", read::hours("soon"), "is not a time in hours");
}

#[test]
fn lines_of_text() {
    check(
        " a  b\n c ",
        read::line(" a  b\n c ", 20),
        "a b c".to_owned(),
    );
    check("a \n b\n", read::lines("a \n b\n", 20), "a\n b".to_owned());
    refused(
        "aaaa",
        read::line("aaaa", 3),
        "longer than the 3 characters",
    );
    refused("a\u{7}b", read::line("a\u{7}b", 20), "can't be printed");
}

#[test]
fn counts_that_are_multiplied() {
    for (text, count) in [
        ("2x18", 36),
        ("2 x 18", 36),
        ("3*12", 36),
        ("2 \u{d7} 18 holes", 36),
        ("3x2x6", 36),
        ("36x", 36),
    ] {
        check(text, read::holes(text), count);
    }
    refused("2000x2000", read::holes("2000x2000"), "a million");
    refused("0x4", read::holes("0x4"), "zero");
    refused("2x1.5", read::holes("2x1.5"), "1.5");
}

#[test]
fn exits() {
    use quillbore_calc::input::Exit;
    let exit = |surface, tilt_deg| Exit { surface, tilt_deg };
    let bore = |radius_mm, offset_mm| Surface::Bore {
        radius_mm,
        offset_mm,
    };
    let edge = |included_deg, offset_mm| Surface::Edge {
        included_deg,
        offset_mm,
    };
    let read_exit = |text: &str, unit| read::exit(text, unit, AngleBasis::FromNormal);
    for (text, unit, expected) in [
        ("flat", Mm, exit(Surface::Flat, None)),
        ("30", Mm, exit(Surface::Flat, Some(30.0))),
        ("flat 30", Mm, exit(Surface::Flat, Some(30.0))),
        (
            "flat at 60 from surface",
            Mm,
            exit(Surface::Flat, Some(30.0)),
        ),
        ("square", Mm, exit(Surface::Flat, Some(0.0))),
        ("bore d12", Mm, exit(bore(6.0, 0.0), None)),
        (
            "bore 12 offset 2 at 30",
            Mm,
            exit(bore(6.0, 2.0), Some(30.0)),
        ),
        ("crossing hole d3", Mm, exit(bore(1.5, 0.0), None)),
        ("cross bore R.5", Inch, exit(bore(12.7, 0.0), None)),
        (
            "edge 120 offset 0.3",
            Mm,
            exit(edge(120.0, 0.3), Some(30.0)),
        ),
        ("edge", Mm, exit(edge(90.0, 0.0), Some(45.0))),
        // A unit holds for what follows it, not for what stood before.
        ("bore d12 offset 1/16\"", Mm, exit(bore(6.0, 1.5875), None)),
        ("bore d12 mm offset 2", Inch, exit(bore(6.0, 2.0), None)),
        ("bore d0.5 offset 2 mm", Inch, exit(bore(6.35, 2.0), None)),
    ] {
        check(text, read_exit(text, unit), expected);
    }
    for (text, unit, says) in [
        // Of a size alone nobody knows whether it is a bore or a bar.
        ("d12", Mm, "bore d12"),
        ("R6", Mm, "is not an exit"),
        ("1/2", Inch, "is not an exit"),
        ("bore d80 @ 30", Mm, "is not an exit"),
        ("bore d12 offset 2 at", Mm, "is not an exit"),
        ("edge 0.3", Mm, "edge offset 0.3"),
        ("edge 200", Mm, "between 20 and less than 180"),
        ("flat 95", Mm, "less than 90 degrees"),
        ("bore d0", Mm, "can't be zero"),
    ] {
        refused(text, read_exit(text, unit), says);
    }
    // What the drawing measures from holds for exits too.
    check(
        "flat 60",
        read::exit("flat 60", Mm, AngleBasis::FromSurface),
        exit(Surface::Flat, Some(30.0)),
    );
}

#[test]
fn recesses() {
    use quillbore_calc::input::Recess;
    let recess = |width_mm, depth_mm| Recess { depth_mm, width_mm };
    for (text, unit, expected) in [
        ("d12 x 8", Mm, recess(12.0, 8.0)),
        ("12 wide 8 deep", Mm, recess(12.0, 8.0)),
        ("8 deep d12", Mm, recess(12.0, 8.0)),
        ("\u{d8}12 \u{21a7}8", Mm, recess(12.0, 8.0)),
        ("12 x 8 mm", Inch, recess(12.0, 8.0)),
        ("8 deep 1/2\" wide", Mm, recess(12.7, 8.0)),
    ] {
        check(text, read::recess(text, unit), expected);
    }
    for (text, says) in [
        ("12", "is not a recess: type d12 x 8"),
        ("d12 d8", "is not a recess"),
        ("d12 x 0", "can't be zero"),
        ("d12 x 8 x 3", "left over"),
    ] {
        refused(text, read::recess(text, Mm), says);
    }
}

#[test]
fn proofs() {
    use quillbore_calc::input::Proof;
    for (text, proof) in [
        ("pin", Proof::Pin),
        ("Light", Proof::Light),
        ("wire check", Proof::Wire),
        ("air flow", Proof::Air),
        ("AIR", Proof::Air),
        ("pin-through", Proof::PinThrough),
        ("pin through", Proof::PinThrough),
    ] {
        check(text, read::proof(text), proof);
    }
    for text in ["sound", "pin and light", "0.25"] {
        refused(
            text,
            read::proof(text),
            "pin, light, wire, air or pin-through",
        );
    }
}

#[test]
fn pressures_and_rests() {
    use quillbore_calc::input::Rest;
    for (text, unit, bar) in [
        ("70", Mm, 70.0),
        ("70 bar", Inch, 70.0),
        ("7 MPa", Mm, 70.0),
        ("1000 psi", Mm, 68.947_572_9),
        ("1000", Inch, 68.947_572_9),
    ] {
        check(text, read::pressure_bar(text, unit), bar);
    }
    for text in ["1,000 psi", "1.000 psi"] {
        assert!(
            read::pressure_bar(text, Mm).is_err(),
            "{text} has two readings"
        );
    }
    for (text, says) in [
        ("0", "can't be zero"),
        ("70/80", "is not a pressure"),
        ("70 kgf", "left over"),
        ("5000", "1000 bar"),
    ] {
        refused(text, read::pressure_bar(text, Mm), says);
    }
    for (text, unit, rests) in [
        ("60 x 40", Mm, Rest::Rectangle([60.0, 40.0])),
        ("60 by 40 mm", Inch, Rest::Rectangle([60.0, 40.0])),
        ("2 x 1", Inch, Rest::Rectangle([50.8, 25.4])),
        ("ring d80", Mm, Rest::Ring(80.0)),
        ("d80", Mm, Rest::Ring(80.0)),
        ("whole face", Mm, Rest::Face),
    ] {
        check(text, read::rests_on(text, unit), rests);
    }
    for (text, says) in [
        ("parallels", "is not what a part rests on: type 60 x 40"),
        ("60 x 0", "can't be zero"),
        ("60 x 40 x 3", "left over"),
    ] {
        refused(text, read::rests_on(text, Mm), says);
    }
}
