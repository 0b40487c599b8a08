//! Where bodies stand: representations, assemblies of products, mapped items.

use std::collections::{BTreeMap, BTreeSet};

use super::error::StepError;
use super::motion::{Motion, NoMotion};
use super::scan::File;
use super::units::Units;
use crate::seen::{Refused, Why};

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

/// A part of an assembly, or a representation mapped into another one.
struct Part {
    /// The product's definition, or the representation.
    child: u64,
    motion: Result<Motion, NoMotion>,
    name: String,
    /// What of the file places it.
    by: u64,
}

/// The structure of a file.
struct Structure<'f, 'a> {
    file: &'f File<'a>,
    /// Representations of each product definition.
    shown: BTreeMap<u64, Vec<u64>>,
    /// Representations that are the same place: neighbors of each.
    same: BTreeMap<u64, Vec<u64>>,
    /// Parts of each product definition.
    parts: BTreeMap<u64, Vec<Part>>,
    units: BTreeMap<u64, Units>,
    refused: Vec<Refused>,
    /// How many places and items were looked at.
    looks: usize,
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
pub(super) fn places(file: &File<'_>) -> Result<(Vec<Placed>, Vec<Refused>), StepError> {
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
            What::Representation(shown) => !seen.contains(&shown) && !mapped.contains(&shown),
        };
        if new {
            structure.walk(&[top], &mut placed, &mut seen)?;
        }
    }
    for shown in &file.representations {
        if !seen.contains(shown) {
            structure.walk(&[What::Representation(*shown)], &mut placed, &mut seen)?;
        }
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

impl<'f, 'a> Structure<'f, 'a> {
    fn of(file: &'f File<'a>) -> Self {
        let mut structure = Self {
            file,
            shown: BTreeMap::new(),
            same: BTreeMap::new(),
            parts: BTreeMap::new(),
            units: BTreeMap::new(),
            refused: Vec::new(),
            looks: 0,
        };
        for shown in file.of_kind("SHAPE_DEFINITION_REPRESENTATION") {
            let args = file.args(*shown, "SHAPE_DEFINITION_REPRESENTATION");
            let pair = args.and_then(|mut args| Some((args.reference()?, args.reference()?)));
            if let Some((shape, representation)) = pair
                && let Some(product) = structure.shape_of(shape)
            {
                structure
                    .shown
                    .entry(product)
                    .or_default()
                    .push(representation);
            }
        }
        for kind in [
            "SHAPE_REPRESENTATION_RELATIONSHIP",
            "REPRESENTATION_RELATIONSHIP",
        ] {
            for related in file.of_kind(kind) {
                let args = file.args(*related, kind).map(|args| args.skip(2));
                let pair = args.and_then(|mut args| Some((args.reference()?, args.reference()?)));
                if let Some((a, b)) = pair {
                    structure.same.entry(a).or_default().push(b);
                    structure.same.entry(b).or_default().push(a);
                }
            }
        }
        structure.parts();
        structure
    }

    /// The product definition, or the use of one, that a shape is of.
    fn shape_of(&self, shape: u64) -> Option<u64> {
        let args = self.file.args(shape, "PRODUCT_DEFINITION_SHAPE")?;
        args.skip(2).reference()
    }

    fn parts(&mut self) {
        let file = self.file;
        let mut uses: BTreeMap<u64, u64> = BTreeMap::new();
        for placing in file.of_kind("CONTEXT_DEPENDENT_SHAPE_REPRESENTATION") {
            let args = file.args(*placing, "CONTEXT_DEPENDENT_SHAPE_REPRESENTATION");
            let pair = args.and_then(|mut args| Some((args.reference()?, args.reference()?)));
            if let Some((relation, shape)) = pair
                && let Some(used) = self.shape_of(shape)
            {
                uses.insert(used, relation);
            }
        }
        for used in file.of_kind("NEXT_ASSEMBLY_USAGE_OCCURRENCE") {
            let kind = "NEXT_ASSEMBLY_USAGE_OCCURRENCE";
            let Some(args) = file.args(*used, kind) else {
                continue;
            };
            let pair = {
                let mut args = args.skip(3);
                args.reference().zip(args.reference())
            };
            let Some((parent, child)) = pair else {
                self.refuse(*used, Why::Missing(format!("#{used}")));
                continue;
            };
            // A use without a place is shown by what its parent's representation maps.
            let Some(relation) = uses.get(used) else {
                continue;
            };
            let mut texts = args.skip(1);
            let name = texts.text().filter(|name| !name.is_empty());
            let name = name.or_else(|| args.skip(5).text().filter(|name| !name.is_empty()));
            let name = name.unwrap_or_else(|| self.product_name(child));
            let motion = self.related(*relation, parent);
            self.parts.entry(parent).or_default().push(Part {
                child,
                motion,
                name,
                by: *used,
            });
        }
    }

    fn refuse(&mut self, number: u64, why: Why) {
        let from = format!("#{number}");
        self.refused.push(Refused { from, why });
    }

    /// The name of a product by its definition.
    fn product_name(&self, definition: u64) -> String {
        let file = self.file;
        let mut name = String::new();
        let formation = file.args(definition, file.name(definition));
        let formation = formation.and_then(|args| args.skip(2).reference());
        let product = formation.and_then(|at| file.args(at, file.name(at))?.skip(2).reference());
        if let Some(mut args) = product.and_then(|product| file.args(product, "PRODUCT")) {
            let id = args.text().unwrap_or_default();
            name = args.text().filter(|name| !name.is_empty()).unwrap_or(id);
        }
        name
    }

    /// What a relation between the representations of a part and of its assembly does to the part.
    fn related(&mut self, relation: u64, parent: u64) -> Result<Motion, NoMotion> {
        let file = self.file;
        let missing = || NoMotion::Missing(relation);
        let pair = file
            .args(relation, "REPRESENTATION_RELATIONSHIP")
            .and_then(|args| {
                let mut args = args.skip(2);
                Some([args.reference()?, args.reference()?])
            });
        let pair = pair.ok_or_else(missing)?;
        let by = file.args(relation, "REPRESENTATION_RELATIONSHIP_WITH_TRANSFORMATION");
        let by = by
            .and_then(|mut args| args.reference())
            .ok_or_else(missing)?;
        let units = pair.map(|shown| self.length(shown));
        let Some(args) = file.args(by, "ITEM_DEFINED_TRANSFORMATION") else {
            return Motion::read(file, by, units[1]);
        };
        let mut args = args.skip(2);
        let items = args.reference().zip(args.reference()).ok_or_else(missing)?;
        // The first item stands in the first representation, unless the file shows it in the other.
        let held = pair.map(|shown| self.items(shown));
        let crossed = held[0].contains(&items.1)
            && held[1].contains(&items.0)
            && !(held[0].contains(&items.0) && held[1].contains(&items.1));
        let items = if crossed { (items.1, items.0) } else { items };
        let first = Motion::read(file, items.0, units[0])?;
        let second = Motion::read(file, items.1, units[1])?;
        let of_parent = self.shown.get(&parent).cloned().unwrap_or_default();
        let parent_first = of_parent.contains(&pair[0]) && !of_parent.contains(&pair[1]);
        Ok(if parent_first {
            first.after(&second.undone())
        } else {
            second.after(&first.undone())
        })
    }

    fn length(&mut self, representation: u64) -> f64 {
        let file = self.file;
        let units = self.units.entry(representation);
        let units = units.or_insert_with(|| Units::of(file, representation));
        units.length_mm.unwrap_or(1.0)
    }

    fn items(&self, representation: u64) -> Vec<u64> {
        let args = self
            .file
            .args(representation, self.file.name(representation));
        let args = args.or_else(|| self.file.args(representation, "REPRESENTATION"));
        args.map(|args| args.skip(1).references())
            .unwrap_or_default()
    }

    /// The representations that others show as their own.
    fn mapped_ones(&self) -> BTreeSet<u64> {
        let file = self.file;
        let items = file
            .representations
            .iter()
            .flat_map(|shown| self.items(*shown));
        let maps = items.filter_map(|item| file.args(item, "MAPPED_ITEM")?.skip(1).reference());
        maps.filter_map(|map| file.args(map, "REPRESENTATION_MAP")?.skip(1).reference())
            .collect()
    }

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

    /// What a mapped item does, and to which representation.
    fn mapped(
        &mut self,
        item: u64,
        args: super::args::Args<'_>,
        shown: u64,
    ) -> (Result<Motion, NoMotion>, u64) {
        let mut args = args.skip(1);
        let parts = args.reference().zip(args.reference());
        let found = parts.and_then(|(map, target)| {
            let mut args = self.file.args(map, "REPRESENTATION_MAP")?;
            Some((args.reference()?, args.reference()?, target))
        });
        let Some((origin, child, target)) = found else {
            return (Err(NoMotion::Missing(item)), 0);
        };
        let lengths = [self.length(child), self.length(shown)];
        let motion = Motion::read(self.file, origin, lengths[0]).and_then(|origin| {
            let target = Motion::read(self.file, target, lengths[1])?;
            Ok(target.after(&origin.undone()))
        });
        (motion, child)
    }
}

/// True of what a body is written as.
pub(super) fn is_solid(name: &str) -> bool {
    matches!(
        name,
        "MANIFOLD_SOLID_BREP"
            | "BREP_WITH_VOIDS"
            | "FACETED_BREP"
            | "SHELL_BASED_SURFACE_MODEL"
            | "FACE_BASED_SURFACE_MODEL"
            | "TESSELLATED_SOLID"
            | "TESSELLATED_SHELL"
    )
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
