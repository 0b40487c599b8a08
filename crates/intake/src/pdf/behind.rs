//! What stands behind a callout on its base line, with more room between than words have.

use quillbore_job::Column;

use super::callouts::{is_count, speaks, split_either};
use super::line::{Line, in_order};
use super::notice::Notice;
use super::stacked::below;
use crate::callout::Callout;
use crate::cell_words::{CellWord, cell_word};

/// In parts of the letters' size: how far what is a part of a callout may stand behind it, how far what is told, and
/// how far off its base line, and by what sizes differ; common practice, no source.
const ROOM: f64 = 3.2;
const TOLD: f64 = 4.5;
const OFF: f64 = 0.35;
const SIZES: f64 = 1.45;

/// So many texts behind a callout are looked at.
const MOST_BEHIND: usize = 4;

/// So many lines are looked at for the one behind a callout.
const MOST: usize = 60;

/// The lines of a page with what stands behind callouts joined to these.
pub(super) struct Joined {
    pub(super) lines: Vec<Line>,
    /// Which of them stand in what may be a table.
    pub(super) apart: Vec<bool>,
    pub(super) notices: Vec<Notice>,
}

/// Joins texts that stand behind callouts where the whole reads as one; those that are used are left out, and cells
/// of what may be a table stand as they are.
pub(super) fn join_behind(lines: &[Line], used: &[bool], apart: &[bool]) -> Joined {
    let free = (0..lines.len()).filter(|at| !used[*at]);
    let (mut kept, apart): (Vec<Line>, Vec<bool>) =
        free.map(|at| (lines[at].clone(), apart[at])).unzip();
    let below = below(&kept);
    let mut gone = vec![false; kept.len()];
    let mut is_below_callout = vec![false; kept.len()];
    for (at, under) in below.iter().enumerate() {
        if let Some(under) = under {
            is_below_callout[*under] = speaks(&kept[at].text);
        }
    }
    let order = in_order(&kept);
    let mut notices = Vec::new();
    for (place, at) in order.iter().enumerate() {
        let at = *at;
        if gone[at] || apart[at] || !speaks(&kept[at].text) {
            continue;
        }
        let around = place.saturating_sub(MOST)..order.len().min(place + MOST);
        let next = order.get(around).unwrap_or_default();
        let counts_other = |part: usize| {
            is_count(&kept[part].text)
                && (below[part].is_some_and(|under| speaks(&kept[under].text))
                    || next.iter().any(|other| {
                        let room = gap(&kept[part], &kept[*other]);
                        room.is_some_and(|room| (0.0..=ROOM).contains(&room))
                    }))
        };
        let mut whole = kept[at].text.clone();
        let mut last = at;
        let mut parts = Vec::new();
        let mut best = 0;
        while parts.len() < MOST_BEHIND {
            let behind = next.iter().copied().filter(|next| !gone[*next]);
            let behind = behind.filter_map(|next| Some((next, gap(&kept[last], &kept[next])?)));
            let nearest = behind
                .filter(|(_, room)| (0.0..=TOLD).contains(room))
                .min_by(|(_, a), (_, b)| a.total_cmp(b));
            let Some((part, room)) = nearest else { break };
            let text = kept[part].text.trim();
            let is_other = apart[part] || is_its_own(text) || is_length_of_other(&whole, text);
            if is_other || is_below_callout[part] || counts_other(part) {
                break;
            }
            // An angle alone may be one that is measured there.
            let is_near = room <= ROOM && !is_bare_angle(text);
            whole = format!("{} {text}", whole.trim_end());
            let joins = is_near && goes_on(&kept[at].text, &whole);
            parts.push(part);
            if !is_near {
                break;
            }
            last = part;
            if joins {
                best = parts.len();
            }
        }
        for part in parts.iter().take(best) {
            let other = kept[*part].clone();
            let line = &mut kept[at];
            line.text = format!("{} {}", line.text.trim_end(), other.text.trim());
            line.take(&other);
            gone[*part] = true;
        }
        if let Some(other) = parts.get(best)
            && looks_like_a_part(&kept[*other].text)
        {
            let texts = [at, *other].map(|at| kept[at].text.trim().to_owned());
            let [callout, text] = texts;
            notices.push(Notice::NotJoined(callout, text));
        }
    }
    let mut stays = gone.iter().map(|gone| !gone);
    let both = kept.into_iter().zip(apart);
    let (lines, apart) = both.filter(|_| stays.next().unwrap_or(true)).unzip();
    Joined {
        lines,
        apart,
        notices,
    }
}

/// How far a line stands behind another, in parts of its letters' size; `None` where it stands on another base line.
fn gap(line: &Line, behind: &Line) -> Option<f64> {
    let turn = line.along[0] * behind.along[0] + line.along[1] * behind.along[1];
    let is_on_base = (behind.base - line.base).abs() <= OFF * line.size.min(behind.size);
    let is_alike = line.size <= SIZES * behind.size
        && behind.size <= SIZES * line.size
        && line.marks.is_unseen == behind.marks.is_unseen;
    (turn > 1.0 - 1e-3 && is_on_base && is_alike).then(|| (behind.from - line.to) / line.size)
}

/// Whether a text says the size of other holes.
fn is_its_own(text: &str) -> bool {
    let has_depth_word = || {
        let words = text.split_whitespace();
        let mut words = words.map(|word| word.trim_end_matches('.').to_lowercase());
        words.any(|word| matches!(word.as_str(), "deep" | "depth" | "dp" | "tief"))
    };
    text.contains(crate::dxf::DIAMETER) || (split_either(text).is_some() && !has_depth_word())
}

/// Whether a callout with what stands behind it reads as one, with the size that it has alone.
fn goes_on(callout: &str, whole: &str) -> bool {
    let size = |callout: &Callout| {
        let mut parts = callout.parts.iter();
        let part = parts.find(|(column, _)| *column == Column::Size);
        part.map(|(_, text)| text.clone())
    };
    let Some(joined) = split_either(whole) else {
        return false;
    };
    match split_either(callout) {
        Some(alone) => {
            let [alone_size, size] = [size(&alone), size(&joined)];
            joined.parts.len() >= alone.parts.len()
                && alone_size
                    .zip(size)
                    .is_none_or(|(alone, size)| size.starts_with(&alone))
        }
        None => true,
    }
}

/// Whether a text looks like a part of a callout, and is none by itself.
fn looks_like_a_part(text: &str) -> bool {
    let text = text.trim();
    let begins = text.starts_with(['\u{b1}', '+', '\u{21a7}', '(', '\u{d7}']);
    let has_number = text.contains(|sign: char| sign.is_ascii_digit());
    !speaks(text)
        && ((begins && has_number) || is_count(text) || text.contains('\u{b0}') || is_word(text))
}

/// Whether a number has no sign or word, before it or with it, by which it would be a part of the callout.
fn is_length_of_other(callout: &str, text: &str) -> bool {
    let is_bare = text
        .chars()
        .all(|sign| sign.is_ascii_digit() || ".,".contains(sign));
    let last = callout.split_whitespace().next_back().unwrap_or_default();
    let waits = matches!(last, "x" | "X" | "\u{d7}" | "\u{21a7}" | "\u{b1}")
        || cell_word(last, Column::Depth) == Some(CellWord::Deep);
    is_bare && !waits
}

fn is_bare_angle(text: &str) -> bool {
    text.contains('\u{b0}') && !text.contains(char::is_alphabetic)
}

/// Whether it says how a hole ends, or for which holes or how far the callout holds.
fn is_word(text: &str) -> bool {
    const WORDS: [&str; 5] = ["typ", "typical", "ref", "see", "both"];
    let first = text.split_whitespace().next().unwrap_or_default();
    let bare = first.trim_matches(|sign: char| !sign.is_alphabetic());
    cell_word(first, Column::End).is_some()
        || WORDS.iter().any(|word| bare.eq_ignore_ascii_case(word))
}
