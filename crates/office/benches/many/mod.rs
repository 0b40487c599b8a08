//! What both benches of a shelf of 50,000 jobs make it of.

/// Customers, none of whom there is.
pub(crate) const CUSTOMERS: [&str; 7] = [
    "Alder Finch Rotors",
    "Dunmoor Hydraulics",
    "Moss & Pell Tooling",
    "Hollis Valve",
    "Quarry Lane Molds",
    "Fenwick Injectors",
    "Tarn Turbine Service",
];

/// Materials as the digest shows them.
pub(crate) const MATERIALS: [&str; 4] = [
    "Nickel alloy 718",
    "Alloy steel 4340",
    "Tool steel D2",
    "Carbide, 10 % cobalt",
];

/// How many jobs there are: few where the bench is only tried.
pub(crate) fn jobs() -> u32 {
    let is_read = std::env::args().any(|word| word == "--bench");
    if is_read { 50_000 } else { 200 }
}
