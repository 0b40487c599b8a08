//! Cautions in our own words; local rules and licensed people always stand above them.

use quillbore_calc::tables::Hazard;

/// Name of the section.
pub const NAME: &str = "Cautions";
/// Name beside cautions of the shop's own.
pub const IN_THIS_SHOP: &str = "In this shop";
/// What comes before all others.
pub const FIRST: &str = "These cautions are reminders for trained people. Local codes, the \
     machine's own safety instructions, the safety data sheets and the word of licensed or \
     appointed people stand above them; where those ask for more, do more.";

/// Name beside what is said of sludge.
pub const SLUDGE: &str = "Sludge, skin";
/// Name beside what the materials bring.
pub const MATERIALS: &str = "Materials";

/// What the materials bring, in short.
pub fn of_materials(shorts: &str) -> String {
    format!(
        "{shorts}. Extraction on, gloves; no dry sweeping, no blowing off; wash before eating; sludge and \
         fluid go as local waste rules say, never poured away. Read the safety data sheets."
    )
}

/// A pressure in both units that gauges have.
pub fn pressure(bar: &str, psi: &str) -> String {
    format!("{bar}\u{a0}bar ({psi}\u{a0}psi)")
}

/// Cautions that hold for every job: the danger, then what to do.
pub fn always(pressure: Option<&str>) -> Vec<(&'static str, String)> {
    let jet = match pressure {
        Some(pressure) => format!("Pump and hoses are under a pressure of up to {pressure}."),
        None => "Pump and hoses are under high pressure.".to_owned(),
    };
    vec![
        (
            "Fluid under pressure",
            format!(
                "{jet} A jet as thin as a hair goes through glove and skin. The wound may look \
                 like a pinprick and hardly hurt: go to a hospital at once all the same, say \
                 \u{201c}high-pressure fluid injection\u{201d}, and take the safety data sheet of \
                 the fluid along. Let the pressure off before a fitting is opened; never feel for \
                 a leak with the hand."
            ),
        ),
        (
            "Electric shock",
            "Electrode, chuck, guide, part and table carry voltage while it sparks. Generator \
             off and proved off before a hand goes in; doors and interlocks stay as the builder \
             made them. Work on the wiring is for licensed electricians."
                .to_owned(),
        ),
        (
            "Moving head",
            "Head, table and index axis start by themselves, and the electrode turns. Keep hands, \
             hair, sleeves and rags away; lock the machine out before reaching in. A thin tube \
             out of its guide whips: guard closed, glasses on."
                .to_owned(),
        ),
        (
            "Gas, mist, fire",
            "Sparking in water or oil gives off hydrogen, fumes and mist. Extraction on, no flame \
             or smoking near the tank, the spark well covered or well flushed. The fire \
             extinguisher that local rules ask for hangs within reach."
                .to_owned(),
        ),
        (
            SLUDGE,
            "Sludge and used fluid hold fines of the part and of the electrode, brass and copper \
             too. Gloves and glasses; no dry sweeping, no blowing off; wash before eating. Both \
             are collected and handed over as local waste rules say, never poured away."
                .to_owned(),
        ),
    ]
}

/// The caution for a danger of work materials, named one after the other.
pub fn of(hazard: Hazard, material: &str) -> (&'static str, String) {
    match hazard {
        Hazard::BurningFines => (
            "Fines that burn",
            format!(
                "Fines of {material} burn fiercely, and wet they give off hydrogen. Keep them wet \
                 and few, in vented containers only; clean tank, filter and sump before and after \
                 this lot. Burning metal must not be met with water, foam or carbon dioxide: only \
                 with what the fire authority names for metal fires. Have the place approved \
                 before the first burn."
            ),
        ),
        Hazard::Nickel => toxic(
            "Nickel",
            material,
            "Nickel is in mist, sludge and filters; it sensitizes the skin and the lungs.",
        ),
        Hazard::Cobalt => toxic(
            "Cobalt",
            material,
            "Cobalt is in mist, sludge and filters; it harms the lungs and sensitizes the skin.",
        ),
        Hazard::Chromium => toxic(
            "Chromium",
            material,
            "Chromium is in mist, sludge and filters, and sparking may leave some of it as \
             hexavalent chromium, which causes cancer.",
        ),
        Hazard::CopperLead => toxic(
            "Copper and lead",
            material,
            "Copper and lead are in mist, sludge and filters.",
        ),
        Hazard::Beryllium => (
            "Beryllium",
            format!(
                "{material}: beryllium in mist or dust can ruin the lungs for life. Don't begin \
                 without the written program that the law asks for: enclosed work, tested \
                 extraction, tested air, trained people, waste apart."
            ),
        ),
    }
}

fn toxic(name: &'static str, material: &str, what: &str) -> (&'static str, String) {
    (
        name,
        format!(
            "{material}: {what} Extraction on; gloves; no dry sweeping, no blowing off; wash before eating. \
             Sludge, filters and fluid are collected and handed over as local waste rules say, \
             never poured away."
        ),
    )
}

/// A short noun for the line of the work material.
pub fn short(hazard: Hazard) -> &'static str {
    match hazard {
        Hazard::BurningFines => "fines burn and give off hydrogen",
        Hazard::Nickel => "nickel in mist and sludge",
        Hazard::Cobalt => "cobalt in mist and sludge",
        Hazard::Chromium => "chromium in mist and sludge",
        Hazard::Beryllium => "BERYLLIUM in mist and dust",
        Hazard::CopperLead => "copper and lead in mist and sludge",
    }
}
