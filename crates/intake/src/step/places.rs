//! Where bodies stand: representations, assemblies of products, mapped items.

use std::collections::{BTreeMap, BTreeSet};

use super::error::StepError;
use super::motion::{Motion, NoMotion};
use super::scan::Exchange;
use super::structure::{Part, Structure};
use crate::seen::{Refused, Why};

/// What a body is written as.
const SOLIDS: &[&str] = &[
    "MANIFOLD_SOLID_BREP",
    "BREP_WITH_VOIDS",
    "FACETED_BREP",
    "SHELL_BASED_SURFACE_MODEL",
    "FACE_BASED_SURFACE_MODEL",
    "TESSELLATED_SOLID",
    "TESSELLATED_SHELL",
];
/// Assemblies are no deeper than this.
const MOST_NESTED: usize = 64;
/// No more parts are placed.
const MOST_PLACED: usize = 20_000;
/// No more places are looked into, nor more of what stands there.
const MOST_LOOKS: usize = 2_000_000;
/// No name is shown longer.
const LONGEST_NAME: usize = 100;
/// No names one behind the other are shown longer.
const LONGEST_PATH: usize = 400;

/// A body at one of its places.
#[derive(Clone, Debug)]
pub(super) struct Placed {
    /// The solid or the surface model.
    pub(super) solid: u64,
    /// The representation that it stands in.
    pub(super) representation: u64,
    /// What brings it to its place, its lengths in millimeters.
    pub(super) motion: Motion,
    /// The names of what it is a part of, and its own.
    pub(super) name: String,
}

/// A place that is still to be looked into.
struct Open {
    what: What,
    motion: Motion,
    name: String,
    /// The step that led here, in the list of steps.
    step: usize,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum What {
    Product(u64),
    Representation(u64),
}

/// Every place of every body, in the file's order, and what could not be placed.
pub(super) fn places(file: &Exchange<'_>) -> Result<(Vec<Placed>, Vec<Refused>), StepError> {
    let mut structure = Structure::of(file);
    let children: BTreeSet<u64> = structure
        .parts
        .values()
        .flatten()
        .map(|part| part.child)
        .collect();
    let products: Vec<u64> = structure.shown.keys().copied().collect();
    let assemblies = structure.parts.keys().copied();
    let all: BTreeSet<u64> = products.into_iter().chain(assemblies).collect();
    let tops = all.iter().filter(|product| !children.contains(product));
    let mut tops: Vec<What> = tops.map(|top| What::Product(*top)).collect();
    let mut placed = Vec::new();
    // Representations, and bodies.
    let mut seen = BTreeSet::new();
    structure.walk(&tops, &mut placed, &mut seen)?;
    let mapped = structure.mapped_ones();
    // Products that are parts of each other have no top, and bodies may belong to no product: they are
    // shown where they stand.
    tops = all.iter().map(|product| What::Product(*product)).collect();
    tops.extend(
        file.representations
            .iter()
            .map(|shown| What::Representation(*shown)),
    );
    for top in tops {
        let new = match top {
            What::Product(product) => structure
                .shown
                .get(&product)
                .is_some_and(|shown| shown.iter().any(|shown| !seen.contains(shown))),
            What::Representation(shown) => {
                !seen.contains(&shown)
                    && !mapped.contains(&shown)
                    && !structure.repeats(shown, &seen)
            }
        };
        if new {
            structure.walk(&[top], &mut placed, &mut seen)?;
        }
    }
    for shown in &file.representations {
        if !seen.contains(shown) && !structure.repeats(*shown, &seen) {
            structure.walk(&[What::Representation(*shown)], &mut placed, &mut seen)?;
        }
    }
    // Solids that no representation shows are shown where they stand, by the units of the others.
    let known: BTreeSet<u64> = placed.iter().map(|place| place.solid).collect();
    let representation = placed.first().map_or(0, |place| place.representation);
    for kind in SOLIDS {
        let lost = file
            .of_kind(kind)
            .iter()
            .filter(|solid| !known.contains(solid));
        placed.extend(lost.map(|solid| Placed {
            solid: *solid,
            representation,
            motion: Motion::NONE,
            name: String::new(),
        }));
    }
    number(&mut placed);
    Ok((placed, structure.refused))
}

/// Places with the same name are told apart by a number.
fn number(placed: &mut [Placed]) {
    let mut times: BTreeMap<String, (usize, usize)> = BTreeMap::new();
    for place in placed.iter() {
        times.entry(place.name.clone()).or_default().0 += 1;
    }
    for place in placed {
        if let Some((all, so_far)) = times.get_mut(&place.name)
            && *all > 1
        {
            *so_far += 1;
            place.name = format!("{} ({so_far})", place.name);
        }
    }
}

impl Structure<'_, '_> {
    /// Walks down from some tops and places what stands there.
    fn walk(
        &mut self,
        tops: &[What],
        placed: &mut Vec<Placed>,
        seen: &mut BTreeSet<u64>,
    ) -> Result<(), StepError> {
        // What led to each step, and how deep it is.
        let mut steps: Vec<(What, Option<usize>, usize)> = Vec::new();
        let mut open = Vec::new();
        for top in tops.iter().rev() {
            let name = match top {
                What::Product(product) => joined("", &self.product_name(*product)),
                What::Representation(_) => String::new(),
            };
            steps.push((*top, None, 0));
            open.push(Open {
                what: *top,
                motion: Motion::NONE,
                name,
                step: steps.len() - 1,
            });
        }
        while let Some(here) = open.pop() {
            let mut inner: Vec<(What, Part)> = Vec::new();
            match here.what {
                What::Product(product) => {
                    for shown in self.shown.get(&product).cloned().unwrap_or_default() {
                        self.place(shown, &here, placed, seen, &mut inner);
                    }
                    for part in self.parts.get(&product).into_iter().flatten() {
                        let name = joined(&here.name, &part.name);
                        let (child, by) = (part.child, part.by);
                        let motion = part.motion.clone();
                        inner.push((
                            What::Product(child),
                            Part {
                                child,
                                motion,
                                name,
                                by,
                            },
                        ));
                    }
                }
                What::Representation(shown) => self.place(shown, &here, placed, seen, &mut inner),
            }
            self.looks += 1;
            if placed.len() + open.len() > MOST_PLACED || self.looks > MOST_LOOKS {
                return Err(StepError::TooMany);
            }
            for (what, part) in inner.into_iter().rev() {
                let depth = steps[here.step].2 + 1;
                let mut above = Some(here.step);
                let mut circular = false;
                while let Some(step) = above {
                    circular |= steps[step].0 == what;
                    above = steps[step].1;
                }
                let motion = match part.motion {
                    Err(NoMotion::Stretched) => Err(Why::Stretched),
                    Err(NoMotion::Missing(number)) => Err(Why::Missing(format!("#{number}"))),
                    Ok(_) if circular => Err(Why::HoldsItself),
                    Ok(_) if depth > MOST_NESTED => Err(Why::TooDeep(MOST_NESTED)),
                    Ok(motion) => Ok(here.motion.after(&motion)),
                };
                match motion {
                    Ok(motion) if motion.is_finite() => {
                        steps.push((what, Some(here.step), depth));
                        open.push(Open {
                            what,
                            motion,
                            name: part.name,
                            step: steps.len() - 1,
                        });
                    }
                    Ok(_) => self.refuse(part.by, Why::NotALength),
                    Err(why) => self.refuse(part.by, why),
                }
                if open.len() > MOST_PLACED || self.refused.len() > MOST_PLACED {
                    return Err(StepError::TooMany);
                }
            }
        }
        Ok(())
    }

    /// Whether a representation shows nothing but bodies that stand somewhere already: one that says something
    /// about them, as of their volume or their color.
    fn repeats(&self, representation: u64, seen: &BTreeSet<u64>) -> bool {
        let items = self.items(representation);
        let mut shows = items.iter().filter(|item| {
            let name = self.file.name(**item);
            is_solid(name) || name == "MAPPED_ITEM"
        });
        shows.all(|item| seen.contains(item))
    }

    /// Places the bodies of a representation and of those that are the same place.
    fn place(
        &mut self,
        representation: u64,
        here: &Open,
        placed: &mut Vec<Placed>,
        seen: &mut BTreeSet<u64>,
        inner: &mut Vec<(What, Part)>,
    ) {
        let mut around = vec![representation];
        let mut known = BTreeSet::from([representation]);
        while let Some(shown) = around.pop() {
            for other in self.same.get(&shown).into_iter().flatten() {
                if known.insert(*other) {
                    around.push(*other);
                }
            }
        }
        for shown in known {
            seen.insert(shown);
            let items = self.items(shown);
            self.looks += items.len();
            let solids: Vec<u64> = items
                .iter()
                .copied()
                .filter(|item| is_solid(self.file.name(*item)))
                .collect();
            seen.extend(&solids);
            for solid in &solids {
                let own = self.file.args(*solid, self.file.name(*solid));
                let own = own.and_then(|mut args| args.text()).unwrap_or_default();
                let alone = solids.len() == 1 && !here.name.is_empty();
                let name = if alone {
                    here.name.clone()
                } else {
                    joined(&here.name, &own)
                };
                placed.push(Placed {
                    solid: *solid,
                    representation: shown,
                    motion: here.motion,
                    name,
                });
            }
            for item in items {
                let Some(args) = self.file.args(item, "MAPPED_ITEM") else {
                    continue;
                };
                let (motion, child) = self.mapped(item, args, shown);
                let name = here.name.clone();
                inner.push((
                    What::Representation(child),
                    Part {
                        child,
                        motion,
                        name,
                        by: item,
                    },
                ));
            }
        }
    }
}

/// True of what a body is written as.
fn is_solid(name: &str) -> bool {
    SOLIDS.contains(&name)
}

/// A name behind those of what it is a part of; what is too long is cut, of the names the first ones.
fn joined(path: &str, name: &str) -> String {
    let name: String = name.chars().take(LONGEST_NAME).collect();
    let whole = match (path.is_empty(), name.is_empty()) {
        (_, true) => path.to_owned(),
        (true, false) => name,
        (false, false) => format!("{path} / {name}"),
    };
    let letters = whole.chars().count();
    if letters <= LONGEST_PATH {
        return whole;
    }
    let end = whole.chars().skip(letters - LONGEST_PATH);
    std::iter::once('\u{2026}').chain(end).collect()
}
