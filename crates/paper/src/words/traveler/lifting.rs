//! A word about lifting the part, in our own words; local rules and riggers stand above it.

/// Most that one person lifts by hand even at best [kg].
///
/// The load constant of the lifting equation, 23 kg (51 lb): NIOSH publication 94-110, "Applications
/// Manual for the Revised NIOSH Lifting Equation" (from memory).
const AT_BEST_KG: f64 = 23.0;
/// Up to this a part is carried without a thought (memory of common practice).
const LIGHT_KG: f64 = 5.0;

/// How the part is lifted.
pub fn lifting(mass_kg: Option<f64>) -> &'static str {
    match mass_kg {
        None => "Mass not known: weigh the part, or ask, before anybody lifts it.",
        Some(kg) if kg <= LIGHT_KG => "By hand; gloves where edges are sharp.",
        Some(kg) if kg <= AT_BEST_KG => {
            "Heavy: close to the body, no twisting, a second person or the hoist where the reach is \
             long. Local lifting rules stand above this."
        }
        Some(_) => {
            "NOT BY HAND: more than one person lifts even at best (23 kg, 51 lb). Hoist, slings and \
             eyes rated for it, nobody under the load, fixture and water counted in. Local rules and \
             licensed riggers stand above this."
        }
    }
}
