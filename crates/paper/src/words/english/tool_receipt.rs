//! Words of the receipt for a broken tool.

use quillbore_job::words::english;

use crate::words::customer::ToolReceipt;

/// What it says in English.
pub(super) const WORDS: ToolReceipt = ToolReceipt {
    title: "Broken tool receipt",
    contact: "name and number",
    due: "needed by",
    comes_in: "comes in",
    material: "part material",
    size: "part size",
    mass: "mass",
    value: "worth of the part",
    condition: "condition as it came in, earlier damage",
    received: "came in on, taken by",
    broken: "Broken tool",
    mark: "mark",
    tool: "tool",
    made_of: "made of",
    below: "below the face",
    left: "length left",
    assumed: "assumed",
    end: "hole",
    tried: "tried so far",
    agreed: "Agreed",
    from_to: |from, to| {
        format!("Price from {from} up to about {to}. We ask before it comes to more than that.")
    },
    price: |price| format!("Price {price}. We ask before it comes to more than that."),
    no_price: "The price is told before the work begins.",
    for_the_try: |charge| format!("If it can't be got out, {charge} for the try."),
    no_guarantee: "The tool is burnt away in the middle and its rest picked out. Neither thread nor hole is \
                   guaranteed: it may have to be recut or take an insert.",
    risk: |cap| match cap {
        Some(cap) => format!("Should the part be spoiled, our liability is limited to {cap}."),
        None => "The part is worked on at its owner's risk.".to_owned(),
    },
    by_customer: "read and agreed, the work may begin: name, date",
    by_shop: "received as described, for the shop: name, date",
    stuff: english::stuff,
    floor: "On the floor",
    machine: "machine",
    electrode: "electrode",
    burnt: "burnt hole",
    plunges: "plunges",
    setting: "first plunge set to, from touching the stub",
    never: "tip never beyond, from touching",
    minutes: "minutes, likely",
    before: "Find the axis by the hole or thread, not by the stub, and take it as zero. Touch off on the stub; \
             flush hard; pick the rest out with the power off, count its pieces, and clean the thread before \
             gauging.",
    record: [
        "minutes sparking",
        "electrode before / after",
        "tool out, whole or in pieces",
        "GO / NO-GO of the thread",
        "done by, on",
    ],
    on_circle: |plunges| format!("{plunges}, each beside the last"),
    layered: "1, then circles by layers",
    foot: "Stays with the part.",
};
