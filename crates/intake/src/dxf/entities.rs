//! Entities by their group codes.

use super::drawing::Tables;
use super::entity::{Arc, Chain, Dimension, Ellipse, Entity, Insert, Kind, Leader, Others, Things};
use super::error::DxfError;
use super::fields::Fields;
use super::place::{Point, sin_cos};
use super::spline;
use super::tags::{Tag, Tags};
use super::text_codes::formatted;
use super::texts;

/// Everything up to the end of a block or a section, which is left.
pub(super) fn read_entities<'a>(
    tags: &mut Tags<'a>,
    fields: &mut Fields<'a>,
    tables: &mut Tables,
) -> Result<Things<'a>, DxfError> {
    let mut things = Things::default();
    // An old polyline's points follow it as entities of their own.
    let mut chain: Option<Entity<'a>> = None;
    loop {
        let Some(tag) = tags.peek()? else {
            return Err(DxfError::Cut(tags.spot()));
        };
        let name = tag.value.text();
        if tag.code == 0 && matches!(name, b"ENDSEC" | b"ENDBLK" | b"EOF" | b"SECTION") {
            break;
        }
        tags.next()?;
        if tag.code != 0 {
            continue;
        }
        fields.take(tags)?;
        if name == b"VERTEX"
            && let Some(chain) = &mut chain
        {
            add_vertex(fields, chain);
            continue;
        }
        things.entities.extend(chain.take());
        match kind(name, fields, tables) {
            Is::Drawn(kind) => {
                let entity = common(tag, fields, tables, kind);
                if name == b"POLYLINE" {
                    chain = Some(entity);
                } else {
                    things.entities.push(entity);
                }
            }
            Is::NotRead if fields.whole(67) != 1 => {
                let others = things.others.entry(&name[..name.len().min(MOST_KIND)]);
                let others = others.or_insert_with(|| Others {
                    handle: handle(fields),
                    at: tag.at,
                    times: 0,
                });
                others.times += 1;
            }
            Is::NotRead | Is::Beside => {}
        }
    }
    things.entities.extend(chain.take());
    Ok(things)
}

/// A handle is a number of up to 16 digits.
const MOST_HANDLE: usize = 16;

fn handle<'a>(fields: &Fields<'a>) -> &'a [u8] {
    let handle = fields.text(5);
    &handle[..handle.len().min(MOST_HANDLE)]
}

fn common<'a>(
    tag: Tag<'a>,
    fields: &Fields<'a>,
    tables: &mut Tables,
    kind: Kind<'a>,
) -> Entity<'a> {
    let turned = fields.first(210).map(|_| fields.point(210).map(Box::new));
    Entity {
        handle: handle(fields),
        at: tag.at,
        layer: tables.layer(fields.text(8)),
        line: tables.line_by(fields.text(6)),
        visible: fields.whole(60) == 0,
        on_paper: fields.whole(67) == 1,
        kind: if turned == Some(None) {
            Kind::Unreadable
        } else {
            kind
        },
        turned: turned.flatten(),
    }
}

fn add_vertex<'a>(fields: &Fields<'a>, entity: &mut Entity<'a>) {
    let Kind::Chain(chain) = &mut entity.kind else {
        return;
    };
    // Points that only steer a curve are no points of it.
    if fields.whole(70) & 16 != 0 {
        return;
    }
    match (fields.point(10), fields.number_or(42, 0.0)) {
        (Some(point), Some(bulge)) => chain.points.push((point, bulge)),
        _ => entity.kind = Kind::Unreadable,
    }
}

/// What is made of an entity.
enum Is<'a> {
    /// It is drawn.
    Drawn(Kind<'a>),
    /// It may be a part of the drawing, and is not read.
    NotRead,
    /// It is neither edge nor text.
    Beside,
}

fn kind<'a>(name: &'a [u8], fields: &Fields<'a>, tables: &Tables) -> Is<'a> {
    let read = match name {
        b"CIRCLE" => circle(fields),
        b"ARC" => arc(fields),
        b"ELLIPSE" => ellipse(fields),
        b"LINE" => line(fields),
        b"LWPOLYLINE" => chain(fields),
        // Meshes are surfaces, no chains.
        b"POLYLINE" if fields.whole(70) & (16 | 64) != 0 => return Is::NotRead,
        b"POLYLINE" => Some(Kind::Chain(Box::new(Chain {
            points: Vec::new(),
            closed: fields.whole(70) & 1 != 0,
            in_space: fields.whole(70) & 8 != 0,
        }))),
        b"SPLINE" => spline::points(fields).map(Kind::Curve),
        b"INSERT" => insert(fields),
        // Its lines and texts are a block.
        b"ACAD_TABLE" => table(fields),
        b"ATTRIB" if fields.whole(70) & 1 != 0 => return Is::Beside,
        b"TEXT" | b"ATTRIB" => texts::line(name, fields, tables.page),
        b"MTEXT" => texts::formatted(fields, tables.page),
        b"DIMENSION" if !matches!(fields.whole(70) & 7, 0 | 1 | 3 | 4) => return Is::Beside,
        b"DIMENSION" => dimension(fields, tables),
        b"LEADER" => leader(fields),
        b"MULTILEADER" | b"MLEADER" => match texts::multileader(fields, tables.page) {
            Some(leader) => leader,
            None => return Is::Beside,
        },
        b"POINT" if fields.text(8).eq_ignore_ascii_case(b"DEFPOINTS") => return Is::Beside,
        b""
        | b"SEQEND"
        | b"VERTEX"
        | b"ATTDEF"
        | b"VIEWPORT"
        | b"HATCH"
        | b"SOLID"
        | b"TRACE"
        | b"IMAGE"
        | b"WIPEOUT"
        | b"XLINE"
        | b"RAY"
        | b"OLE2FRAME"
        | b"OLEFRAME"
        | b"ARC_DIMENSION"
        | b"LARGE_RADIAL_DIMENSION"
        | b"LIGHT"
        | b"SUN" => return Is::Beside,
        _ => return Is::NotRead,
    };
    Is::Drawn(read.unwrap_or(Kind::Unreadable))
}

/// How much of an entity's name is kept.
const MOST_KIND: usize = 40;

fn circle<'a>(fields: &Fields<'a>) -> Option<Kind<'a>> {
    Some(Kind::Circle {
        center: fields.point(10)?,
        radius: fields.number(40)?,
    })
}

fn arc<'a>(fields: &Fields<'a>) -> Option<Kind<'a>> {
    Some(Kind::Arc(Box::new(Arc {
        center: fields.point(10)?,
        radius: fields.number(40)?,
        start: fields.number(50)?,
        end: fields.number(51)?,
    })))
}

fn ellipse<'a>(fields: &Fields<'a>) -> Option<Kind<'a>> {
    Some(Kind::Ellipse(Box::new(Ellipse {
        center: fields.point(10)?,
        major: fields.point(11)?,
        ratio: fields.number(40)?,
        start: fields.number_or(41, 0.0)?,
        end: fields.number_or(42, std::f64::consts::TAU)?,
    })))
}

fn line<'a>(fields: &Fields<'a>) -> Option<Kind<'a>> {
    Some(Kind::Line(Box::new([fields.point(10)?, fields.point(11)?])))
}

fn chain<'a>(fields: &Fields<'a>) -> Option<Kind<'a>> {
    let height = fields.number_or(38, 0.0)?;
    let mut points: Vec<(Point, f64)> = Vec::new();
    for tag in fields.all() {
        match (tag.code, points.last_mut()) {
            (10, _) => points.push(([tag.value.number()?, 0.0, height], 0.0)),
            (20, Some((point, _))) => point[1] = tag.value.number()?,
            (42, Some((_, bulge))) => *bulge = tag.value.number()?,
            _ => {}
        }
    }
    Some(Kind::Chain(Box::new(Chain {
        points,
        closed: fields.whole(70) & 1 != 0,
        in_space: false,
    })))
}

fn insert<'a>(fields: &Fields<'a>) -> Option<Kind<'a>> {
    let times = |code| u32::try_from(fields.whole(code)).unwrap_or(1).max(1);
    Some(Kind::Insert(Box::new(Insert {
        block: fields.text(2),
        at: fields.point(10)?,
        scale: [
            fields.number_or(41, 1.0)?,
            fields.number_or(42, 1.0)?,
            fields.number_or(43, 1.0)?,
        ],
        turned: fields.number_or(50, 0.0)?,
        times: [times(70), times(71)],
        steps: [fields.number_or(44, 0.0)?, fields.number_or(45, 0.0)?],
    })))
}

fn table<'a>(fields: &Fields<'a>) -> Option<Kind<'a>> {
    Some(Kind::Insert(Box::new(Insert {
        block: fields.text(2),
        at: fields.point(10)?,
        scale: [1.0; 3],
        turned: 0.0,
        times: [1; 2],
        steps: [0.0; 2],
    })))
}

/// A dimension between two points.
fn dimension<'a>(fields: &Fields<'a>, tables: &Tables) -> Option<Kind<'a>> {
    let kind = fields.whole(70) & 7;
    let (of_diameter, of_radius) = (kind == 3, kind == 4);
    let (first, second) = if of_diameter || of_radius {
        (10, 15)
    } else {
        (13, 14)
    };
    Some(Kind::Dimension(Box::new(Dimension {
        says: formatted(&tables.page.read(fields.text(1))).says,
        measured: fields.number(42).filter(|measured| *measured > 0.0),
        ends: [fields.point(first)?, fields.point(second)?],
        of_diameter,
        of_radius,
        block: fields.text(2),
    })))
}

fn leader<'a>(fields: &Fields<'a>) -> Option<Kind<'a>> {
    let points = fields.points(10)?;
    let (tip, end) = (*points.first()?, *points.last()?);
    Some(Kind::Leader(Box::new(Leader {
        tips: vec![tip],
        end,
        says: None,
        text: fields.text(340),
    })))
}

/// A direction in a plane, by its angle in degrees.
pub(super) fn direction(degrees: f64) -> Point {
    let (sin, cos) = sin_cos(degrees);
    [cos, sin, 0.0]
}
