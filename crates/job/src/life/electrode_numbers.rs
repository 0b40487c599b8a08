//! Which electrodes a run record names by their numbers.

/// Most electrodes that one line names by a range: what is more is no range of electrodes.
const MOST_IN_A_RANGE: u32 = 10_000;

/// The electrodes that a line names: each by its own number, a range as all that lie in it.
pub(crate) fn electrode_numbers(text: &str) -> Vec<String> {
    let mut all = Vec::new();
    for part in text.split([',', ';']).map(str::trim) {
        match range(part) {
            Some([first, last]) => all.extend((first..=last).map(|number| number.to_string())),
            None if part.is_empty() => {}
            None => all.push(part.to_lowercase()),
        }
    }
    all
}

/// The least and the greatest of a range, as `1 to 38` or `1-38`, either way round.
fn range(part: &str) -> Option<[u32; 2]> {
    let between = ["to", "-", "\u{2013}"].into_iter();
    let (first, last) = between
        .filter_map(|between| part.split_once(between))
        .next()?;
    let first = first.trim().parse::<u32>().ok()?;
    let last = last.trim().parse::<u32>().ok()?;
    let [first, last] = [first.min(last), first.max(last)];
    Some([first, last]).filter(|_| last - first < MOST_IN_A_RANGE)
}

#[cfg(test)]
mod tests {
    use super::electrode_numbers;

    #[test]
    fn ranges_name_all_that_lie_in_them() {
        assert_eq!(electrode_numbers(" "), [""; 0]);
        assert_eq!(electrode_numbers("7"), ["7"]);
        assert_eq!(electrode_numbers("1 to 3"), ["1", "2", "3"]);
        assert_eq!(electrode_numbers("9-10, 12\u{2013}12"), ["9", "10", "12"]);
        // What is no range is a name.
        assert_eq!(electrode_numbers("B-2; 3 to 1"), ["b-2", "1", "2", "3"]);
        assert_eq!(electrode_numbers("1-4000000000"), ["1-4000000000"]);
    }
}
