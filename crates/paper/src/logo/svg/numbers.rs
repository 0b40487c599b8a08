//! Numbers that no drawing has: an arc of such a radius is cut into millions of curves.

/// The largest number that a measure of a shape may have.
const LARGEST: f64 = 1e7;

/// Attributes and properties that measure or place a shape.
const MEASURES: [&str; 28] = [
    "cx",
    "cy",
    "d",
    "dx",
    "dy",
    "font-size",
    "fr",
    "fx",
    "fy",
    "gradientTransform",
    "height",
    "points",
    "r",
    "rx",
    "ry",
    "stroke-dasharray",
    "stroke-dashoffset",
    "stroke-miterlimit",
    "stroke-width",
    "transform",
    "viewBox",
    "width",
    "x",
    "x1",
    "x2",
    "y",
    "y1",
    "y2",
];

/// Whether what is said of a shape has a number that no drawing has.
pub(super) fn is_beyond(name: &str, value: &str) -> bool {
    MEASURES.contains(&name) && numbers(value).any(|number| number > LARGEST)
}

/// The numbers in a text without their signs, as SVG writes them: one ends where the next can begin.
fn numbers(text: &str) -> impl Iterator<Item = f64> {
    let bytes = text.as_bytes();
    let mut at = 0;
    std::iter::from_fn(move || {
        let is_digit = |at: usize| bytes.get(at).is_some_and(u8::is_ascii_digit);
        let begins = |at: usize| is_digit(at) || (bytes.get(at) == Some(&b'.') && is_digit(at + 1));
        while at < bytes.len() && !begins(at) {
            at += 1;
        }
        let begin = at;
        while is_digit(at) {
            at += 1;
        }
        if bytes.get(at) == Some(&b'.') {
            at += 1;
            while is_digit(at) {
                at += 1;
            }
        }
        if matches!(bytes.get(at), Some(b'e' | b'E')) {
            let sign = usize::from(matches!(bytes.get(at + 1), Some(b'+' | b'-')));
            if is_digit(at + 1 + sign) {
                at += 1 + sign;
                while is_digit(at) {
                    at += 1;
                }
            }
        }
        let number = text.get(begin..at).filter(|number| !number.is_empty());
        number.map(|number| number.parse().unwrap_or(f64::INFINITY))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_read_as_svg_writes_them() {
        let all = |text| numbers(text).collect::<Vec<_>>();
        assert_eq!(all("M1.5.5-2e1,3em"), [1.5, 0.5, 20.0, 3.0]);
        assert_eq!(all("translate(-1E+2 .25)"), [100.0, 0.25]);
        assert_eq!(all("100%"), [100.0]);
        assert_eq!(all("none e . -"), Vec::<f64>::new());
        assert_eq!(all("1e999"), [f64::INFINITY]);
    }

    #[test]
    fn only_measures_can_be_beyond() {
        assert!(is_beyond("d", "M0 0A1e38 1 0 0 0 1 1"));
        assert!(is_beyond("width", "-10000001"));
        assert!(!is_beyond("width", "10000000"));
        assert!(!is_beyond("id", "layer20261107"));
    }
}
