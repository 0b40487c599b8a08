//! The sections of a drawing: its unit, layers, line types, blocks, and what is drawn.

use std::collections::BTreeMap;

use super::code_page::CodePage;
use super::entities::read_entities;
use super::entity::{Line, LineBy, Things};
use super::error::DxfError;
use super::fields::Fields;
use super::line_type::line_of;
use super::place::Point;
use super::tags::{Tag, Tags};

/// A drawing as its file says it.
#[derive(Default)]
pub(super) struct Drawing<'a> {
    /// Its unit by `$INSUNITS`, in millimeters.
    pub(super) unit_mm: Option<f64>,
    /// What `$MEASUREMENT` makes one guess at, in millimeters.
    pub(super) hint_mm: Option<f64>,
    /// Layers, line types and texts.
    pub(super) tables: Tables,
    /// Blocks by their names in capitals.
    pub(super) blocks: BTreeMap<Vec<u8>, Block<'a>>,
    /// What is drawn.
    pub(super) things: Things<'a>,
}

/// A block.
pub(super) struct Block<'a> {
    /// The point of it that is placed.
    pub(super) base: Point,
    /// True where it is only named and stands in another file.
    pub(super) elsewhere: bool,
    /// What is drawn in it.
    pub(super) things: Things<'a>,
}

/// Layers, line types and the code page of texts.
#[derive(Default)]
pub(super) struct Tables {
    /// How texts are read.
    pub(super) page: CodePage,
    /// The layers, each by its number.
    pub(super) layers: Vec<Layer>,
    by_name: BTreeMap<Vec<u8>, u32>,
    lines: BTreeMap<Vec<u8>, Line>,
}

/// A layer.
pub(super) struct Layer {
    /// Its name.
    pub(super) name: String,
    /// True where it is off, so that what stands on it is not drawn.
    pub(super) off: bool,
    /// True where it is frozen, which takes blocks placed on it along.
    pub(super) frozen: bool,
    /// The name of its line type.
    line: Vec<u8>,
}

/// The format allows 255 letters.
const MOST_NAME: usize = 255;

impl Tables {
    /// The number of a layer, which is made where the tables don't have it.
    pub(super) fn layer(&mut self, name: &[u8]) -> u32 {
        let name = &name[..name.len().min(MOST_NAME)];
        let name = if name.is_empty() { b"0" } else { name };
        let key = name.to_ascii_uppercase();
        if let Some(number) = self.by_name.get(&key) {
            return *number;
        }
        let number = u32::try_from(self.layers.len()).unwrap_or(0);
        self.layers.push(Layer {
            name: self.page.read(name),
            off: false,
            frozen: false,
            line: Vec::new(),
        });
        self.by_name.insert(key, number);
        number
    }

    /// What a layer's line type says.
    pub(super) fn line_of_layer(&self, layer: u32) -> Line {
        let layer = self.layers.get(layer as usize);
        layer.map_or(Line::Plain, |layer| self.line(&layer.line))
    }

    /// Where an entity's line type comes from.
    pub(super) fn line_by(&self, name: &[u8]) -> LineBy {
        if name.is_empty() || name.eq_ignore_ascii_case(b"BYLAYER") {
            LineBy::Layer
        } else if name.eq_ignore_ascii_case(b"BYBLOCK") {
            LineBy::Block
        } else {
            LineBy::Own(self.line(name))
        }
    }

    fn line(&self, name: &[u8]) -> Line {
        let known = self.lines.get(&name.to_ascii_uppercase());
        known.copied().unwrap_or_else(|| line_of(name, &[]))
    }
}

impl<'a> Drawing<'a> {
    /// Reads all sections up to the end mark.
    pub(super) fn read(tags: &mut Tags<'a>) -> Result<Self, DxfError> {
        let mut drawing = Self::default();
        // Layer 0 is always there; what stands on it in a block goes with the insert.
        drawing.tables.layer(b"0");
        begins(tags)?;
        let mut fields = Fields::default();
        loop {
            let Some(tag) = tags.next()? else {
                return Err(DxfError::Cut(tags.spot()));
            };
            match (tag.code, tag.value.text()) {
                (0, b"EOF") => return Ok(drawing),
                (0, b"SECTION") => {
                    let name = tags.next_within()?;
                    match name.map(|name| name.value.text()) {
                        Some(b"HEADER") => drawing.read_header(tags)?,
                        Some(b"TABLES") => drawing.read_tables(tags, &mut fields)?,
                        Some(b"BLOCKS") => drawing.read_blocks(tags, &mut fields)?,
                        Some(b"ENTITIES") => {
                            drawing.things = read_entities(tags, &mut fields, &mut drawing.tables)?;
                        }
                        _ => {}
                    }
                }
                _ => {}
            }
        }
    }

    fn read_header(&mut self, tags: &mut Tags<'a>) -> Result<(), DxfError> {
        let mut variable: &[u8] = b"";
        while let Some(tag) = tags.next_within()? {
            if tag.code == 9 {
                variable = tag.value.text();
                continue;
            }
            match variable {
                b"$ACADVER" => self.tables.page.set_version(tag.value.text()),
                b"$DWGCODEPAGE" => self.tables.page.set_page(tag.value.text()),
                b"$INSUNITS" => self.unit_mm = tag.value.whole().and_then(millimeters),
                b"$MEASUREMENT" => {
                    self.hint_mm = match tag.value.whole() {
                        Some(0) => Some(25.4),
                        Some(1) => Some(1.0),
                        _ => None,
                    };
                }
                _ => {}
            }
        }
        Ok(())
    }

    fn read_tables(
        &mut self,
        tags: &mut Tags<'a>,
        fields: &mut Fields<'a>,
    ) -> Result<(), DxfError> {
        while let Some(tag) = in_section(tags)? {
            fields.take(tags)?;
            match tag.value.text() {
                b"LAYER" => {
                    let layer = self.tables.layer(fields.text(2));
                    if let Some(layer) = self.tables.layers.get_mut(layer as usize) {
                        layer.off = fields.whole(62) < 0;
                        layer.frozen = fields.whole(70) & 1 != 0;
                        layer.line = fields.text(6).to_vec();
                        layer.line.truncate(MOST_NAME);
                    }
                }
                b"LTYPE" => {
                    let name = fields.text(2);
                    let name = &name[..name.len().min(MOST_NAME)];
                    let line = line_of(name, &fields.numbers(49).unwrap_or_default());
                    self.tables.lines.insert(name.to_ascii_uppercase(), line);
                }
                _ => {}
            }
        }
        Ok(())
    }

    fn read_blocks(
        &mut self,
        tags: &mut Tags<'a>,
        fields: &mut Fields<'a>,
    ) -> Result<(), DxfError> {
        while let Some(tag) = in_section(tags)? {
            fields.take(tags)?;
            if tag.value.text() != b"BLOCK" {
                continue;
            }
            let name = fields.text(2).to_ascii_uppercase();
            // References to other files, and those laid over.
            let elsewhere = fields.whole(70) & (4 | 8) != 0;
            let base = fields.point(10).unwrap_or_default();
            let things = read_entities(tags, fields, &mut self.tables)?;
            self.blocks.insert(
                name,
                Block {
                    base,
                    elsewhere,
                    things,
                },
            );
        }
        Ok(())
    }
}

/// A drawing begins with a section; whatever begins otherwise is none.
fn begins(tags: &mut Tags<'_>) -> Result<(), DxfError> {
    match tags.peek() {
        Ok(Some(tag)) if tag.code == 0 && tag.value.text() == b"SECTION" => Ok(()),
        Ok(None) => Err(DxfError::Empty),
        Err(DxfError::Cancelled) => Err(DxfError::Cancelled),
        Ok(Some(_)) | Err(_) => Err(DxfError::NotDxf),
    }
}

/// The next tag of code 0 in a section, which is taken; `None` at the section's end, which stays.
fn in_section<'a>(tags: &mut Tags<'a>) -> Result<Option<Tag<'a>>, DxfError> {
    loop {
        let Some(tag) = tags.peek()? else {
            return Err(DxfError::Cut(tags.spot()));
        };
        if tag.code == 0 && matches!(tag.value.text(), b"ENDSEC" | b"EOF" | b"SECTION") {
            return Ok(None);
        }
        tags.next()?;
        if tag.code == 0 {
            return Ok(Some(tag));
        }
    }
}

/// Millimeters in a unit of `$INSUNITS`, by the numbers that the reference of the format gives them; feet
/// and miles of the survey are left out, since nobody draws parts in them.
const fn millimeters(unit: i64) -> Option<f64> {
    match unit {
        1 => Some(25.4),
        2 => Some(304.8),
        3 => Some(1_609_344.0),
        4 => Some(1.0),
        5 => Some(10.0),
        6 => Some(1_000.0),
        7 => Some(1_000_000.0),
        8 => Some(25.4e-6),
        9 => Some(0.0254),
        10 => Some(914.4),
        13 => Some(0.001),
        14 => Some(100.0),
        15 => Some(10_000.0),
        16 => Some(100_000.0),
        _ => None,
    }
}
