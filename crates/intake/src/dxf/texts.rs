//! Texts by their group codes: single lines, formatted text, and text at the end of leaders.

use super::code_page::CodePage;
use super::entities::direction;
use super::entity::{Kind, Leader, Text};
use super::fields::Fields;
use super::place::{add, times};
use super::text_codes::{formatted as formatted_codes, plain};

/// A text of one line.
pub(super) fn line<'a>(name: &[u8], fields: &Fields<'a>, page: CodePage) -> Option<Kind<'a>> {
    let is_attribute = name == b"ATTRIB";
    let across = fields.whole(72);
    let up = fields.whole(if is_attribute { 74 } else { 73 });
    let first = fields.point(10)?;
    let second = fields.point(11);
    let (at, anchor_x) = match (across, second) {
        (1 | 4, Some(second)) => (second, 0.5),
        (2, Some(second)) => (second, 1.0),
        // Fitted between two points.
        (3 | 5, Some(second)) => (times(add(first, second), 0.5), 0.5),
        (_, Some(second)) if up != 0 => (second, 0.0),
        _ => (first, 0.0),
    };
    let anchor_y = match up {
        2 => 0.5,
        3 => 1.0,
        _ if across == 4 => 0.5,
        _ => 0.0,
    };
    let mut read = plain(&page.read(fields.text(1)));
    if is_attribute && is_depth(fields.text(2)) && read.says.parse::<f64>().is_ok() {
        // What an attribute is goes by its name; drawn, it is a bare number.
        read.says.insert(0, '\u{21a7}');
    }
    Some(Kind::Text(Box::new(Text {
        says: read.says,
        at,
        height: fields.number_or(40, 1.0)?,
        anchor: [anchor_x, anchor_y],
        size: read.size,
        along: direction(fields.number_or(50, 0.0)?),
        in_space: false,
    })))
}

/// Whether an attribute's name is that of a depth.
fn is_depth(name: &[u8]) -> bool {
    let name = name.to_ascii_uppercase();
    ["DEPTH", "DEEP", "TIEFE", "PROF"]
        .iter()
        .any(|depth| name.starts_with(depth.as_bytes()))
}

/// A text with codes, in pieces.
pub(super) fn formatted<'a>(fields: &Fields<'a>, page: CodePage) -> Option<Kind<'a>> {
    // Pieces of 250 bytes, the last one with the code 1: a letter may stand in two of them.
    let mut raw = Vec::new();
    for code in [3, 1] {
        for tag in fields.all().iter().filter(|tag| tag.code == code) {
            if let super::tags::Value::Text(text) = tag.value {
                raw.extend_from_slice(text);
            }
        }
    }
    let read = formatted_codes(&page.read(&raw));
    let at_corner = (fields.whole(71).clamp(1, 9) - 1) as f64;
    let row = (at_corner / 3.0).floor();
    let along = match fields.first(11) {
        Some(_) => fields.point(11)?,
        None => direction(fields.number_or(50, 0.0)?),
    };
    Some(Kind::Text(Box::new(Text {
        says: read.says,
        at: fields.point(10)?,
        height: fields.number_or(40, 1.0)?,
        anchor: [(at_corner - 3.0 * row) / 2.0, 1.0 - row / 2.0],
        size: read.size,
        along,
        in_space: true,
    })))
}

/// A leader with its own text; `None` where it has a block instead.
pub(super) fn multileader<'a>(fields: &Fields<'a>, page: CodePage) -> Option<Option<Kind<'a>>> {
    let mut says = None;
    // Each of its lines begins with a mark and ends with one; the first point of a line is its arrow's.
    let (mut in_line, mut tips) = (false, Vec::new());
    let mut points: Vec<[f64; 3]> = Vec::new();
    for tag in fields.all() {
        let value = tag.value;
        match (tag.code, value.text()) {
            (304, b"LEADER_LINE{") => (in_line, points) = (true, Vec::new()),
            (304, text) if says.is_none() && !in_line => {
                says = Some(formatted_codes(&page.read(text)).says);
            }
            (305, _) => {
                in_line = false;
                tips.extend(points.first());
            }
            (10, _) if in_line => points.push([value.number()?, 0.0, 0.0]),
            (20 | 30, _) if in_line => {
                if let Some(point) = points.last_mut() {
                    point[usize::from(tag.code / 10 - 1)] = value.number()?;
                }
            }
            _ => {}
        }
    }
    let says = says.filter(|says| !says.is_empty())?;
    Some(fields.point(12).or_else(|| fields.point(10)).map(|end| {
        Kind::Leader(Box::new(Leader {
            tips,
            end,
            says: Some(says),
            text: b"",
        }))
    }))
}
