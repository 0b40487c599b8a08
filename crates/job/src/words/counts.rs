//! What is said of counts beside locations.

/// A count beside locations of another number.
pub(crate) fn count_is_not_places(count: u32, places: u32) -> String {
    let stand = match places {
        1 => "one location stands".to_owned(),
        _ => format!("{places} locations stand"),
    };
    format!(
        "The count says {count} and {stand} there: the locations are drilled and priced. Correct one of the two."
    )
}

/// What makes the count agree.
pub(crate) fn count_as_places(places: u32) -> String {
    format!("make the count {places}")
}
