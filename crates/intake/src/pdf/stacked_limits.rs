//! Limits of a size that stand upon each other: `0.62` over `0.58`.

use super::callouts::is_count;
use super::line::Line;
use crate::dxf::DIAMETER;

/// In parts of the letters' size: how far the base lines are apart, how far numbers stand beside each other's places,
/// how far behind a diameter sign; common practice, no source.
const APART: std::ops::RangeInclusive<f64> = 0.75..=1.6;
const STRAY: f64 = 1.3;
const BEHIND: std::ops::RangeInclusive<f64> = -0.3..=1.2;
const HIGHEST: f64 = 1.2;

/// Limits of one size are no farther from each other than this part of the larger.
const FARTHEST: f64 = 0.2;

/// So many lines are looked at for the one below.
const MOST: usize = 60;

/// Joins sizes and the limit below, and limits behind a diameter sign, all lines of one direction; true where there
/// was one.
pub(super) fn join_stacked(lines: &mut Vec<Line>) -> bool {
    lines.sort_by(|a, b| a.base.total_cmp(&b.base).then(a.from.total_cmp(&b.from)));
    let mut gone = vec![false; lines.len()];
    let mut any = false;
    for at in 0..lines.len() {
        if gone[at] {
            continue;
        }
        let upper = &lines[at];
        let Some(number) = last_number(&upper.text) else {
            continue;
        };
        let farthest = upper.base + APART.end() * upper.size;
        let below = lines.iter().enumerate().skip(at + 1).take(MOST);
        let mut below = below.take_while(|(_, line)| line.base <= farthest);
        let lower = below.find(|(other, lower)| {
            !gone[*other]
                && is_limit(upper, number, lower)
                && !are_cells(lines, at, *other)
                && (!lower.text.contains(DIAMETER) || is_one_stack(lines, at, *other))
        });
        let Some((lower_at, lower)) = lower else {
            continue;
        };
        let sign = if has_sign(&upper.text) {
            None
        } else {
            let around = at.saturating_sub(MOST)..lines.len().min(at + MOST);
            let Some(sign) = around
                .filter(|sign| !gone[*sign] && *sign != at && *sign != lower_at)
                .find(|sign| stands_before(&lines[*sign], upper, lower))
            else {
                continue;
            };
            Some(sign)
        };
        let joined = join(sign.map(|sign| &lines[sign]), upper, number, lower);
        for other in [Some(lower_at), sign].into_iter().flatten() {
            gone[other] = true;
        }
        lines[at] = joined;
        any = true;
    }
    let mut stays = gone.iter().map(|gone| !gone);
    lines.retain(|_| stays.next().unwrap_or(true));
    any
}

/// Where the last number of a text stands that ends it, or has blanks and words without numbers behind it.
fn last_number(text: &str) -> Option<[usize; 2]> {
    if text.len() > LONGEST_TEXT {
        return None;
    }
    let is_number = |sign: char| sign.is_ascii_digit() || matches!(sign, '.' | ',');
    let ends = text.rfind(|sign: char| sign.is_ascii_digit())? + 1;
    let begins = text[..ends].rfind(|sign| !is_number(sign)).map_or(0, |at| {
        at + text[at..].chars().next().map_or(1, char::len_utf8)
    });
    let before = text[..begins].trim_end().chars().next_back();
    let is_size = before.is_none_or(|sign| DIAMETER.contains(&sign));
    let behind = text[ends..].chars().next();
    let is_whole = behind.is_none_or(char::is_whitespace);
    (is_size && is_whole && ends - begins <= LONGEST).then_some([begins, ends])
}

/// A callout that ends with a size has so many bytes at most.
const LONGEST_TEXT: usize = 80;

/// A limit has so many signs at most.
const LONGEST: usize = 9;

fn has_sign(text: &str) -> bool {
    text.contains(DIAMETER)
}

/// Whether a line is the limit below another's number.
fn is_limit(upper: &Line, [begins, ends]: [usize; 2], lower: &Line) -> bool {
    let size = upper.size.max(lower.size);
    let apart = (lower.base - upper.base) / size;
    let text = without_sign(&lower.text);
    let number_ends = text.find(|sign: char| !sign.is_ascii_digit() && !matches!(sign, '.' | ','));
    let (number, rest) = text.split_at(number_ends.unwrap_or(text.len()));
    let is_alone = rest.is_empty()
        || (rest.starts_with(char::is_whitespace)
            && !rest.contains(|sign: char| sign.is_ascii_digit())
            && !rest.contains(DIAMETER));
    let is_one_size = size <= 1.1 * upper.size.min(lower.size);
    let above = upper.text.get(begins..ends).unwrap_or_default();
    let letters = upper.text.chars().count().max(1) as f64;
    let wide = (upper.to - upper.from) / letters;
    let at = |byte: usize| {
        let before = upper.text.get(..byte).unwrap_or_default().chars().count();
        upper.from + wide * before as f64
    };
    let stands_below =
        (lower.from - at(begins)).abs() <= STRAY * size && (lower.from - at(ends)) < -0.5 * size;
    is_alone
        && is_one_size
        && APART.contains(&apart)
        && stands_below
        && lower.marks.is_unseen == upper.marks.is_unseen
        && are_limits(above, number)
}

/// Whether two lines are cells of a column: others begin below each other beside them.
pub(super) fn are_cells(lines: &[Line], upper: usize, lower: usize) -> bool {
    let beside = |of: usize| {
        let line = &lines[of];
        let around = of.saturating_sub(MOST)..lines.len().min(of + MOST);
        let near = around.filter(move |other| {
            let other = &lines[*other];
            (other.base - line.base).abs() <= 0.1 * line.size
                && (other.from - line.from).abs() <= CELLS * line.size
        });
        // A count over its callout is no column.
        let is_callout = |text: &str| text.contains(DIAMETER) || is_count(text);
        near.filter(move |other| *other != of && !is_callout(&lines[*other].text))
    };
    let aligned = |one: usize| {
        beside(lower)
            .any(|other| (lines[one].from - lines[other].from).abs() <= 0.3 * lines[one].size)
    };
    beside(upper).any(aligned)
}

/// Cells of one line are no farther apart, in parts of the letters' size.
const CELLS: f64 = 20.0;

fn without_sign(limit: &str) -> &str {
    let limit = limit.trim();
    limit.strip_prefix(DIAMETER).unwrap_or(limit).trim_start()
}

/// Whether something stands right behind two lines between their base lines, and so belongs to both.
fn is_one_stack(lines: &[Line], upper: usize, lower: usize) -> bool {
    let around = upper..lines.len().min(lower + MOST);
    let [upper, lower] = [upper, lower].map(|at| &lines[at]);
    let off = 0.2 * upper.size;
    let mut between = around.map(|at| &lines[at]);
    between.any(|line| {
        let behind = (line.from - upper.to.max(lower.to)) / upper.size;
        (upper.base + off..=lower.base - off).contains(&line.base) && (0.0..=2.0).contains(&behind)
    })
}

/// Whether two numbers may be the limits of one size: as many decimals, and not far from each other.
pub(super) fn are_limits(upper: &str, lower: &str) -> bool {
    let decimals = |text: &str| {
        let point = text.rfind(['.', ','])?;
        Some(text.len() - point)
    };
    let value = |text: &str| text.replace(',', ".").parse::<f64>().ok();
    let are_alike = decimals(upper).is_some_and(|digits| decimals(lower) == Some(digits));
    let near = value(upper)
        .zip(value(lower))
        .is_some_and(|(upper, lower)| upper > lower && upper - lower <= FARTHEST * upper);
    are_alike && near
}

/// Whether a line that ends with a diameter sign stands before two limits, between their base lines.
fn stands_before(sign: &Line, upper: &Line, lower: &Line) -> bool {
    let behind = (upper.from.min(lower.from) - sign.to) / sign.size;
    sign.text.trim_end().ends_with(DIAMETER)
        && BEHIND.contains(&behind)
        && sign.base >= upper.base - 0.1 * sign.size
        && sign.base <= lower.base + 0.1 * sign.size
        && lower.base - upper.base <= 2.0 * HIGHEST * sign.size
        && sign.marks.is_unseen == upper.marks.is_unseen
}

/// A size with both limits; what stands between their base lines goes on with it.
fn join(sign: Option<&Line>, upper: &Line, [_, ends]: [usize; 2], lower: &Line) -> Line {
    let mut joined = sign.unwrap_or(upper).clone();
    let (number, rest) = upper.text.split_at(ends);
    let stem = sign.map_or("", |sign| sign.text.trim_end());
    joined.text = format!(
        "{stem}{}/{}{rest}",
        number.trim_start(),
        without_sign(&lower.text)
    );
    joined.take(upper);
    joined.take(lower);
    if rest.trim().is_empty() {
        joined.base = sign.map_or((upper.base + lower.base) / 2.0, |sign| sign.base);
    }
    joined
}
