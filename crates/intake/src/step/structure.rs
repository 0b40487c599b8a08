//! The structure of a file: which representation shows which product, and what is a part of what.

use std::collections::{BTreeMap, BTreeSet};

use super::args::Args;
use super::motion::{Motion, NoMotion};
use super::scan::Exchange;
use super::units::Units;
use crate::seen::{Refused, Why};

/// A part within an assembly.
const USE: &str = "NEXT_ASSEMBLY_USAGE_OCCURRENCE";

/// A part of an assembly, or a representation mapped into another one.
pub(super) struct Part {
    /// The product's definition, or the representation.
    pub(super) child: u64,
    pub(super) motion: Result<Motion, NoMotion>,
    pub(super) name: String,
    /// What of the file places it.
    pub(super) by: u64,
}

/// The structure of a file.
pub(super) struct Structure<'f, 'a> {
    pub(super) file: &'f Exchange<'a>,
    /// Representations of each product definition.
    pub(super) shown: BTreeMap<u64, Vec<u64>>,
    /// Representations that are the same place: neighbors of each.
    pub(super) same: BTreeMap<u64, Vec<u64>>,
    /// Parts of each product definition.
    pub(super) parts: BTreeMap<u64, Vec<Part>>,
    pub(super) units: BTreeMap<u64, Units>,
    pub(super) refused: Vec<Refused>,
    /// How many places and items were looked at.
    pub(super) looks: usize,
}

impl<'f, 'a> Structure<'f, 'a> {
    pub(super) fn of(file: &'f Exchange<'a>) -> Self {
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
        let blank = self.names_of_several();
        for used in file.of_kind(USE) {
            let Some(args) = file.args(*used, USE) else {
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
            let name = args.skip(1).text().filter(|name| !name.is_empty());
            let name = name.filter(|name| !blank.contains(name));
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

    /// Names that uses of different products have in common: they tell what a use is, not of what.
    fn names_of_several(&self) -> BTreeSet<String> {
        let mut of: BTreeMap<String, u64> = BTreeMap::new();
        let mut several = BTreeSet::new();
        for used in self.file.of_kind(USE) {
            let Some(args) = self.file.args(*used, USE) else {
                continue;
            };
            let (name, child) = (args.skip(1).text(), args.skip(4).reference());
            let Some((name, child)) = name.zip(child) else {
                continue;
            };
            if *of.entry(name.clone()).or_insert(child) != child {
                several.insert(name);
            }
        }
        several
    }

    pub(super) fn refuse(&mut self, number: u64, why: Why) {
        let from = format!("#{number}");
        self.refused.push(Refused { from, why });
    }

    /// The name of a product by its definition.
    pub(super) fn product_name(&self, definition: u64) -> String {
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

    pub(super) fn items(&self, representation: u64) -> Vec<u64> {
        let args = self
            .file
            .args(representation, self.file.name(representation));
        let args = args.or_else(|| self.file.args(representation, "REPRESENTATION"));
        args.map(|args| args.skip(1).references())
            .unwrap_or_default()
    }

    /// The representations that others show as their own.
    pub(super) fn mapped_ones(&self) -> BTreeSet<u64> {
        let file = self.file;
        let items = file
            .representations
            .iter()
            .flat_map(|shown| self.items(*shown));
        let maps = items.filter_map(|item| file.args(item, "MAPPED_ITEM")?.skip(1).reference());
        maps.filter_map(|map| file.args(map, "REPRESENTATION_MAP")?.skip(1).reference())
            .collect()
    }

    /// What a mapped item does, and to which representation.
    pub(super) fn mapped(
        &mut self,
        item: u64,
        args: Args<'_>,
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
