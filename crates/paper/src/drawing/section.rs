//! Sections of holes: surface, angle, layers, through or blind. Angles are true, lengths are not.

use std::collections::BTreeMap;

use quillbore_calc::input::{Ends, HoleEnd, RowInput, Surface};
use quillbore_calc::job_figures::HoleFigures;

use super::face::Face;
use super::hatch::hatch;
use super::stub::Stub;
use crate::matter::{Hole, Matter};
use crate::page::{Ink, Page, Path, Role, Step, Stroke, mm};
use crate::typeset::flow::Flow;
use crate::typeset::look::{CAPTION, STRONG};
use crate::typeset::wrap::{self, SetLine, Span, wrap};
use crate::words::drawing as words;

/// Sections beside each other on one sheet.
const ACROSS: usize = 3;
const HEIGHT: f64 = 21.5 * 72.0 / 25.4;
/// Height of a section's marks at most; more rows than have room there are counted.
const MARKS: f64 = 60.0 * 72.0 / 25.4;

/// What is drawn of one hole.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// Angle between axis and surface normal [deg].
    pub tilt_deg: f64,
    /// Whether the hole is closed at its end.
    pub blind: bool,
    /// The face that the tool enters.
    pub entry: Face,
    /// The face that the tool leaves.
    pub exit: Face,
    /// Shares of the thickness that each layer takes, from the entry on; empty for one material.
    pub layers: Vec<f64>,
    /// Shares of the thickness behind which a free gap and a far wall follow.
    pub wall_behind: bool,
    /// The broken tool that sits in the hole.
    pub stub: Option<Stub>,
}

impl Section {
    /// A number that sections alike share.
    fn number(&self) -> u64 {
        let stub = self.stub.iter();
        let stub = stub.flat_map(|stub| [&stub.above, &stub.burnt]);
        let lengths = self.layers.iter().chain([&self.tilt_deg]).chain(stub);
        // Zero is one number, whatever its sign.
        let words = lengths.map(|length| (length + 0.0).to_bits());
        words.fold(0xcbf2_9ce4_8422_2325, |number, word| {
            (number ^ word).wrapping_mul(0x0100_0000_01b3)
        })
    }
}

/// Sets strips of sections, one section for each kind of hole.
pub fn strip(matter: &Matter<'_>, flow: &mut Flow) {
    let kinds = kinds(matter);
    for (number, chosen) in kinds.chunks(ACROSS).enumerate() {
        let last = (number + 1) * ACROSS >= kinds.len();
        one_strip(matter, flow, chosen, last);
    }
}

/// Holes that look alike and are made alike.
struct Alike<'a> {
    section: Section,
    /// Depth and end, angles, layers, what is behind, the ends.
    says: Vec<String>,
    holes: Vec<Hole<'a>>,
}

fn one_strip(matter: &Matter<'_>, flow: &mut Flow, chosen: &[Alike<'_>], last: bool) {
    let body = flow.body();
    let step = body.width() / ACROSS as f64;
    let wide = step * 0.36;
    let room = step - wide - mm(3.0);
    let told: Vec<(String, Vec<SetLine>)> = (chosen.iter())
        .map(|alike| {
            let marks = matter.marks(alike.holes.iter().map(|hole| hole.row.id));
            let mut lines = named(&marks, alike.holes.len(), room);
            let says = alike.says.iter();
            lines.extend(says.flat_map(|said| wrap(&[Span::new(CAPTION, said)], room)));
            (marks, lines)
        })
        .collect();
    let tallest = told.iter().map(|(_, lines)| wrap::height(lines));
    let height = HEIGHT.max(tallest.fold(0.0, f64::max) + mm(4.0));
    let foot = if last {
        CAPTION.leading() + mm(0.6)
    } else {
        0.0
    };
    flow.need((height + foot).min(flow.full()));
    let top = flow.take(height + foot);
    for (index, (alike, (marks, lines))) in chosen.iter().zip(&told).enumerate() {
        let left = body.left + step * index as f64;
        let page = flow.page();
        page.part(Role::Figure(words::section_of(marks)), |page| {
            draw(page, &alike.section, (left, top + mm(1.5), wide, mm(16.5)));
        });
        let mut y = top + mm(1.6);
        for line in lines {
            line.set(page, left + wide + mm(1.6), y);
            y += line.leading;
        }
    }
    if last {
        let bottom = top + height + CAPTION.size;
        flow.page()
            .text(body.left, bottom, CAPTION, words::SECTIONS);
    }
}

/// What is said beside a section, a line for each kind of it.
fn says(matter: &Matter<'_>, hole: &Hole<'_>, section: &Section) -> Vec<String> {
    let unit = matter.job.unit;
    let degrees = |deg: f64| matter.form().fixed(deg, 1);
    let mut said = vec![
        words::deep(&hole.depth_text(unit), unit.symbol(), &hole.end_text()),
        words::from_normal(&degrees(section.tilt_deg)),
        words::from_surface(&degrees(90.0 - section.tilt_deg)),
    ];
    said.extend(hole.layers_text(unit, &matter.material_named()));
    said.extend(
        hole.clearance(unit)
            .map(|clear| words::clear_behind(&clear)),
    );
    if hole.figures.and_then(|figures| figures.ends) == Some(Ends::Both) {
        said.push(words::HALF_EACH.to_owned());
    }
    said
}

/// The marks beside a section, smaller where they are many; so many rows that nobody would look for one of
/// them there are counted, and stand in the table.
fn named(marks: &str, rows: usize, room: f64) -> Vec<SetLine> {
    let set = |style, text: &str| wrap(&[Span::new(style, text)], room);
    let strong = set(STRONG, marks);
    if wrap::height(&strong) <= mm(9.0) {
        return strong;
    }
    let small = set(CAPTION.ink(Ink::Text), marks);
    if wrap::height(&small) <= MARKS {
        return small;
    }
    set(STRONG, &words::rows_alike(rows))
}

/// Kinds of holes in the table's order, each with the rows that look and are made like it.
fn kinds<'a>(matter: &Matter<'a>) -> Vec<Alike<'a>> {
    let mut kinds: Vec<Alike<'a>> = Vec::new();
    // There may be as many kinds as rows: those that share a number and what is said are compared.
    let mut known: BTreeMap<(u64, Vec<String>), Vec<usize>> = BTreeMap::new();
    for hole in matter.holes() {
        let Some(section) = of(matter, &hole) else {
            continue;
        };
        let says = says(matter, &hole, &section);
        let alike = known.entry((section.number(), says.clone())).or_default();
        match alike.iter().find(|at| kinds[**at].section == section) {
            Some(at) => kinds[*at].holes.push(hole),
            None => {
                alike.push(kinds.len());
                kinds.push(Alike {
                    section,
                    says,
                    holes: vec![hole],
                });
            }
        }
    }
    kinds
}

fn of(matter: &Matter<'_>, hole: &Hole<'_>) -> Option<Section> {
    of_row(hole.figures?, matter.asked(hole.row.id)?)
}

/// What is to be drawn of a row, once its depth is known.
#[must_use]
pub fn of_row(figures: &HoleFigures, input: &RowInput) -> Option<Section> {
    figures.depth_mm?;
    let total: f64 = input.layers.iter().map(|layer| layer.thickness_mm).sum();
    Some(Section {
        tilt_deg: figures.tilt_deg,
        blind: input.end == HoleEnd::Blind,
        entry: Face::of(input.surface),
        exit: exit_of(figures, input),
        // What is left of a tool is no layer of the part.
        layers: (input.layers.iter())
            .filter(|_| input.broken.is_none())
            .map(|layer| layer.thickness_mm / total.max(f64::MIN_POSITIVE))
            .collect(),
        wall_behind: figures.behind_mm.is_some(),
        stub: Stub::of(figures, input),
    })
}

/// How the face runs that a hole leaves: parallel to the one it enters, where nobody told it, and round where it
/// goes through the whole of a round bar or ball.
fn exit_of(figures: &HoleFigures, input: &RowInput) -> Face {
    match input.exit.filter(|_| input.end != HoleEnd::Blind) {
        Some(exit) if exit.surface == Surface::Flat => {
            let tilt_deg = exit.tilt_deg.unwrap_or(input.tilt_deg);
            let off_deg = figures.tilt_deg.abs() - tilt_deg.abs();
            if off_deg == 0.0 {
                Face::Square
            } else {
                Face::Plane(off_deg)
            }
        }
        Some(exit) => Face::of(exit.surface),
        None if figures.zones_mm.is_some_and(|zones| zones.exit > 0.0) => Face::of(input.surface),
        None => Face::Square,
    }
}

/// Draws one section into an area: left, top, width, height.
pub fn draw(page: &mut Page, section: &Section, (left, top, width, height): (f64, f64, f64, f64)) {
    let wall = if section.wall_behind {
        height * 0.16
    } else {
        0.0
    };
    let gap = if section.wall_behind {
        height * 0.12
    } else {
        0.0
    };
    let surface = top + height * 0.26;
    // What is not straight at the exit has its height in the metal's.
    let relief = if section.exit == Face::Square {
        0.0
    } else {
        height * 0.12
    };
    let thick = height * 0.64 - wall - gap - relief;
    let bottom = surface + thick;
    // Beyond some 75 degrees a hole would leave the picture: it is drawn no flatter than that.
    let tan = libm::tan(section.tilt_deg.clamp(-75.0, 75.0).to_radians());
    let depth = if section.blind { thick * 0.7 } else { thick };
    let wide = if section.stub.is_some() { 0.09 } else { 0.03 };
    let half = width * wide * (1.0 + tan * tan).sqrt();
    let middle = left + width / 2.0 - tan * depth / 2.0;
    let at = |y: f64| middle + tan * (y - surface);
    let lower = surface + depth;
    let faces = Faces {
        across: (left, left + width),
        mouths: [(at(surface), surface), (at(bottom), bottom)],
        relief: [thick * 0.22, relief],
    };
    metal(page, section, &faces);
    if section.wall_behind {
        let far = bottom + relief + gap;
        let outline = rectangle(left, far, width, wall);
        hatch(page, &outline, 3.4, true, Stroke::HAIR);
        page.rule(left, left + width, far, Stroke::OUTLINE);
    }
    bore(
        page,
        [(at(surface), surface), (at(lower), lower)],
        half,
        section.blind,
    );
    if let Some(stub) = &section.stub {
        let top = surface + depth * stub.above;
        stub.draw(page, [(at(top), top), (at(lower), lower)], half);
    }
    // The center line runs on by the same length along the axis, however flat it is.
    let over = height * 0.2 / (1.0 + tan * tan).sqrt();
    page.line(
        (at(surface - over), surface - over),
        (at(lower + over * 0.6), lower + over * 0.6),
        Stroke::CENTER,
    );
    normal(page, (at(surface), surface), section.tilt_deg, height);
}

fn rectangle(left: f64, top: f64, width: f64, height: f64) -> [(f64, f64); 4] {
    [
        (left, top),
        (left + width, top),
        (left + width, top + height),
        (left, top + height),
    ]
}

/// Where the faces of a section stand.
struct Faces {
    /// Left and right side of the metal.
    across: (f64, f64),
    /// Where the hole's axis enters and leaves.
    mouths: [(f64, f64); 2],
    /// How high the faces rise or fall at most.
    relief: [f64; 2],
}

fn metal(page: &mut Page, section: &Section, faces: &Faces) {
    let (left, right) = faces.across;
    let [entry, exit] = faces.mouths;
    let upper = (section.entry).outline((left, right), entry, -1.0, faces.relief[0]);
    let lower = (section.exit).outline((left, right), exit, 1.0, faces.relief[1]);
    let thick = exit.1 - entry.1;
    let whole = [1.0];
    let layers = if section.layers.is_empty() {
        &whole[..]
    } else {
        &section.layers
    };
    let mut y = entry.1;
    for (index, share) in layers.iter().enumerate() {
        let is_last = index + 1 == layers.len();
        let mut outline = if index == 0 {
            upper.clone()
        } else {
            vec![(left, y), (right, y)]
        };
        y += thick * share;
        if is_last {
            outline.extend(lower.iter().rev());
        } else {
            outline.extend([(right, y), (left, y)]);
        }
        hatch(page, &outline, 3.4, index % 2 == 0, Stroke::HAIR);
        if !is_last {
            page.rule(left, right, y, Stroke::new(0.5, Ink::Text));
        }
    }
    for face in [&upper, &lower] {
        outlined(page, face);
    }
}

fn outlined(page: &mut Page, face: &[(f64, f64)]) {
    if let [from, to] = face
        && from.1 == to.1
    {
        page.rule(from.0, to.0, from.1, Stroke::OUTLINE);
        return;
    }
    let mut steps: Vec<Step> = face.iter().map(|(x, y)| Step::Line(*x, *y)).collect();
    if let Some((first, (x, y))) = steps.first_mut().zip(face.first()) {
        *first = Step::Move(*x, *y);
    }
    page.path(Path {
        steps,
        stroke: Some(Stroke::OUTLINE),
        ..Path::default()
    });
}

/// The hole itself: the metal is cut away, its walls are drawn.
fn bore(page: &mut Page, [start, end]: [(f64, f64); 2], half: f64, blind: bool) {
    let over = 1.2;
    let outline = [
        (start.0 - half, start.1 - over),
        (start.0 + half, start.1 - over),
        (end.0 + half, end.1 + if blind { 0.0 } else { over }),
        (end.0 - half, end.1 + if blind { 0.0 } else { over }),
    ];
    let mut steps: Vec<Step> = outline
        .iter()
        .map(|point| Step::Line(point.0, point.1))
        .collect();
    steps[0] = Step::Move(outline[0].0, outline[0].1);
    steps.push(Step::Close);
    page.path(Path {
        steps,
        fill: Some(Ink::Paper),
        ..Path::default()
    });
    page.line(
        (start.0 - half, start.1),
        (end.0 - half, end.1),
        Stroke::OUTLINE,
    );
    page.line(
        (start.0 + half, start.1),
        (end.0 + half, end.1),
        Stroke::OUTLINE,
    );
    if blind {
        page.line(
            (end.0 - half, end.1),
            (end.0 + half, end.1),
            Stroke::OUTLINE,
        );
    }
}

/// The surface's normal and the arc from it to the axis.
fn normal(page: &mut Page, (x, y): (f64, f64), tilt_deg: f64, height: f64) {
    if tilt_deg.abs() < 0.5 {
        return;
    }
    let length = height * 0.22;
    let stroke = Stroke::new(0.4, Ink::Accent);
    page.line((x, y), (x, y - length), stroke);
    let (count, turn) = (12, -tilt_deg.to_radians());
    let point = |index: i32| {
        let angle = turn * f64::from(index) / f64::from(count);
        (
            x + libm::sin(angle) * length * 0.8,
            y - libm::cos(angle) * length * 0.8,
        )
    };
    let mut steps = vec![Step::Move(point(0).0, point(0).1)];
    steps.extend((1..=count).map(|index| Step::Line(point(index).0, point(index).1)));
    page.path(Path {
        steps,
        stroke: Some(stroke),
        ..Path::default()
    });
}
