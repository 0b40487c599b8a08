//! The part: its drawing, size and mass, material with its dangers, and how it came in.

use quillbore_calc::Idx;
use quillbore_calc::input::Layer;
use quillbore_calc::tables::{Hazard, Material};
use quillbore_job::shop::UnknownName;
use quillbore_job::slip::{LineOf, kind, line};
use quillbore_job::{Field, life};

use crate::matter::Matter;
use crate::matter::day;
use crate::shown;
use crate::typeset::flow::Flow;
use crate::typeset::form::{self, Captioned};
use crate::typeset::look::{BODY, STRONG};
use crate::typeset::side::side;
use crate::typeset::wrap::Span;
use crate::words::traveler::lifting;
use crate::words::traveler::part as words;
use crate::words::{captions, cautions};

pub(super) fn drawing(matter: &Matter<'_>, flow: &mut Flow) {
    side(flow, words::DRAWING, |flow| {
        form::fields(
            flow,
            &[
                Captioned::of(captions::DRAWING, matter.text(Field::Drawing), 2.6).style(STRONG),
                Captioned::of(
                    words::DRAWING_REVISION,
                    matter.follows().drawing_revision,
                    1.8,
                )
                .style(STRONG),
                Captioned::of(
                    words::TOLERANCE,
                    &shown::plus_minus(&matter.typed_length(Field::DefaultTolerance)),
                    1.8,
                ),
                Captioned::of(words::DATUMS, matter.text(Field::Datums), 3.6),
            ],
        );
        let calls = matter.job.slips_of::<kind::Call>();
        let spoken = calls.filter(|call| !call.get(line::SpokenOf).is_empty());
        for call in spoken {
            let who = [
                call.get(line::Who),
                &day::day(matter.form(), call, line::Date),
            ]
            .join(", ");
            let said = format!(
                "{} ({}). {}",
                call.get(line::SpokenOf),
                who.trim_matches([',', ' ']),
                words::SPOKEN_OF_THEN
            );
            let lead = Span::new(STRONG, words::SPOKEN_OF);
            flow.paragraph(&[lead, Span::new(BODY, &said)], 0.0);
        }
        form::sign_off(flow, words::DRAWING_CHECK);
    });
}

/// Size, wall and mass, with a word about lifting.
pub(super) fn part(matter: &Matter<'_>, flow: &mut Flow) {
    side(flow, words::PART, |flow| {
        form::fields(
            flow,
            &[
                Captioned::of(words::SIZE, &size(matter), 3.0),
                Captioned::of(words::WALL, &matter.typed_length(Field::Thickness), 1.6),
                Captioned::of(words::MASS, &matter.mass_of_one(), 1.4).style(STRONG),
            ],
        );
        let lifted = lifting::lifting(matter.input.mass_kg);
        let lead = Span::new(STRONG, words::LIFTING);
        flow.paragraph(&[lead, Span::new(BODY, lifted)], 0.0);
    });
}

/// The part's size as it was typed.
fn size(matter: &Matter<'_>) -> String {
    let typed = [Field::SizeX, Field::SizeY, Field::SizeZ].map(|field| matter.typed_length(field));
    if typed.iter().all(String::is_empty) {
        return String::new();
    }
    typed.map(|text| shown::or_missing(&text)).join(" \u{d7} ")
}

pub(super) fn material(matter: &Matter<'_>, flow: &mut Flow) {
    side(flow, words::MATERIAL, |flow| {
        form::fields(
            flow,
            &[
                Captioned::of(captions::MATERIAL, &matter.material_named(), 3.0).style(STRONG),
                Captioned::of(captions::CONDITION, matter.text(Field::Condition), 3.0),
                Captioned::of(captions::HARDNESS, matter.text(Field::Hardness), 1.6),
                Captioned::of(words::COATING, matter.text(Field::Coating), 2.4),
            ],
        );
        if matter.has(Field::Resistivity) {
            let lead = Span::new(STRONG, words::RESISTIVITY);
            let text = matter.text(Field::Resistivity);
            flow.paragraph(&[lead, Span::new(BODY, text)], 0.0);
        }
        for (name, hazards) in dangers(matter) {
            let lead = words::hazard(name);
            let text = match hazards {
                None => words::HAZARD_UNKNOWN.to_owned(),
                Some([]) => words::HAZARD_NONE.to_owned(),
                Some(hazards) => {
                    let named: Vec<&str> =
                        hazards.iter().map(|one| cautions::short(*one)).collect();
                    format!("{}; {}", named.join("; "), words::HAZARD_READ)
                }
            };
            flow.paragraph(&[Span::new(STRONG, &lead), Span::new(BODY, &text)], 0.0);
        }
    });
}

/// A material's name, where it is a layer's, and what it endangers; nothing is known of some.
type Danger<'a> = (Option<&'a str>, Option<&'a [Hazard]>);

/// What the job's material and then each layer's endangers.
fn dangers<'a>(matter: &Matter<'a>) -> Vec<Danger<'a>> {
    let of = |name, hazards: &'a [Hazard]| (name, Some(hazards));
    let mut all: Vec<Danger<'a>> = vec![match matter.material() {
        Some(material) => of(None, &material.hazards),
        None => (None, None),
    }];
    for of_layer in layer_materials(matter) {
        if let Some(material) = of_layer.of(&matter.tables.materials) {
            all.push(of(Some(material.name.as_str()), &material.hazards));
        }
    }
    for unknown in matter.unknown {
        if let UnknownName::LayerMaterial(_, name) = unknown {
            all.push((Some(name.as_str()), None));
        }
    }
    all
}

/// Materials of layers that are not the job's own, each once, in the table's order.
pub(super) fn layer_materials(matter: &Matter<'_>) -> Vec<Idx<Material>> {
    let mut found: Vec<Idx<Material>> = Vec::new();
    let layers = matter.input.rows.iter().flat_map(|row| &row.layers);
    for Layer { material, .. } in layers {
        if Some(*material) != matter.input.material && !found.contains(material) {
            found.push(*material);
        }
    }
    found
}

/// What all deliveries of parts say in a line, one after the other.
fn all_received(matter: &Matter<'_>, line: &LineOf<kind::Received>) -> String {
    let slips = matter.job.slips_of::<kind::Received>();
    let said: Vec<&str> = slips
        .map(|slip| slip.one_of(line).text().trim())
        .filter(|text| !text.is_empty())
        .collect();
    said.join("; ")
}

pub(super) fn received(matter: &Matter<'_>, flow: &mut Flow) {
    side(flow, words::RECEIVED, |flow| {
        let expected = words::expected(matter.follows().quantity, matter.count_of(Field::Spares));
        let count = match life::sum::<kind::Received, _>(matter.job, line::Count) {
            0 => String::new(),
            count => matter.form().count(f64::from(count)),
        };
        let together = |lines: &[LineOf<kind::Received>]| {
            let said: Vec<String> = lines
                .iter()
                .map(|line| all_received(matter, line))
                .filter(|text| !text.is_empty())
                .collect();
            said.join("; ")
        };
        let condition = [
            LineOf::new(line::Condition),
            LineOf::new(line::Hardness),
            LineOf::new(line::Coating),
            LineOf::new(line::Damage),
        ];
        form::fields(
            flow,
            &[
                Captioned::of(&expected, &count, 2.0).style(STRONG),
                Captioned::of(
                    words::HEAT,
                    &together(&[LineOf::new(line::Heat), LineOf::new(line::Serials)]),
                    3.0,
                ),
                Captioned::of(words::DAMAGE, &together(&condition), 5.0),
            ],
        );
        form::sign_off(flow, words::RECEIVED_CHECK);
    });
}
