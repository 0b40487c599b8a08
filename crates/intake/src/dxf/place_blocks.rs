//! Every block placed where its inserts put it.

use std::collections::BTreeMap;

use super::drawing::{Block, Drawing};
use super::drawn::{Drawn, From, Look, Placed};
use super::entity::{Entity, Insert, Kind, Line, LineBy, Things};
use super::error::DxfError;
use super::lay::Lay;
use super::place::{Place, is_sound, times};
use crate::seen::{Refused, Why};

/// All that stands in the drawing, and what of it was not taken.
pub(super) fn place_blocks<'e, 'a>(
    drawing: &'e Drawing<'a>,
    most: usize,
    cancel: &dyn Fn() -> bool,
) -> Result<(Drawn<'e, 'a>, Vec<Refused>), DxfError> {
    let in_model = |entity: &Entity<'_>| !entity.on_paper && entity.kind.is_geometry();
    let mut placing = Placing {
        drawing,
        lay: Lay {
            drawn: Drawn::default(),
            refused: Vec::new(),
        },
        others: BTreeMap::new(),
        // A drawing without a model is drawn on its sheet.
        paper_counts: !drawing.things.entities.iter().any(in_model),
        placed: 0,
        most,
    };
    let mut open = vec![Step::List {
        rest: &drawing.things.entities,
        inside: Inside::default(),
    }];
    placing.others(&drawing.things, None)?;
    let mut steps = 0_u32;
    while let Some(step) = open.pop() {
        steps = steps.wrapping_add(1);
        if steps.is_multiple_of(1024) && cancel() {
            return Err(DxfError::Cancelled);
        }
        match step {
            Step::List { rest, inside } => {
                if let Some((entity, rest)) = rest.split_first() {
                    open.push(Step::List { rest, inside });
                    placing.entity(entity, inside, &mut open)?;
                }
            }
            Step::Grid(grid) => placing.cell(grid, &mut open)?,
        }
    }
    for (kind, (from, times)) in placing.others {
        placing.lay.refused.push(Refused {
            from: placing.lay.drawn.path(from),
            why: Why::NotRead(String::from_utf8_lossy(kind).into_owned(), times),
        });
    }
    Ok((placing.lay.drawn, placing.lay.refused))
}

/// Blocks in blocks in blocks: no drawing needs more.
const MOST_DEEP: usize = 64;

enum Step<'e, 'a> {
    /// Entities that are still to be looked at.
    List {
        rest: &'e [Entity<'a>],
        inside: Inside<'e>,
    },
    /// Rows and columns that are still to be placed.
    Grid(Grid<'e, 'a>),
}

#[derive(Clone, Copy)]
struct Grid<'e, 'a> {
    insert: &'e Insert<'a>,
    block: &'e Block<'a>,
    next: u64,
    inside: Inside<'e>,
}

/// What an entity takes from the insert that it stands in.
#[derive(Clone, Copy)]
struct Inside<'e> {
    place: Place,
    block: Option<&'e [u8]>,
    layer: Option<u32>,
    line: Line,
    shown: bool,
    on_paper: bool,
    within: Option<u32>,
}

impl Default for Inside<'_> {
    fn default() -> Self {
        Self {
            place: Place::HERE,
            block: None,
            layer: None,
            line: Line::Plain,
            shown: true,
            on_paper: false,
            within: None,
        }
    }
}

struct Placing<'e, 'a> {
    drawing: &'e Drawing<'a>,
    lay: Lay<'e, 'a>,
    /// What is not read: the first of each kind, and how many there are.
    others: BTreeMap<&'a [u8], (From<'a>, usize)>,
    paper_counts: bool,
    placed: usize,
    most: usize,
}

impl<'e, 'a> Placing<'e, 'a> {
    fn entity(
        &mut self,
        entity: &'e Entity<'a>,
        inside: Inside<'e>,
        open: &mut Vec<Step<'e, 'a>>,
    ) -> Result<(), DxfError> {
        if inside.block.is_some() {
            self.count(entity.kind.weight())?;
        }
        let from = From {
            handle: entity.handle,
            at: entity.at,
            within: inside.within,
        };
        let look = self.look(entity, inside);
        let on_paper = !self.paper_counts && (inside.on_paper || entity.on_paper);
        match &entity.kind {
            Kind::Insert(insert) => {
                let inside = Inside { on_paper, ..inside };
                self.insert(entity, insert, inside, look, from, open);
            }
            Kind::Text(text) if !on_paper => self.lay.drawn.texts.push(Placed {
                what: text,
                place: inside.place,
                from,
                normal: entity.normal(),
            }),
            Kind::Dimension(dimension) if !on_paper => self.lay.drawn.dimensions.push(Placed {
                what: dimension,
                place: inside.place,
                from,
                normal: entity.normal(),
            }),
            Kind::Leader(leader) if !on_paper => self.lay.drawn.leaders.push(Placed {
                what: leader,
                place: inside.place,
                from,
                normal: entity.normal(),
            }),
            kind if on_paper => {
                self.lay.drawn.on_sheet.extend(kind.says());
                self.lay.on_paper(kind, from);
            }
            kind => self
                .lay
                .geometry(kind, entity.normal(), &inside.place, look, from),
        }
        Ok(())
    }

    /// Counts what is not read, each time that its block is placed.
    fn others(&mut self, things: &Things<'a>, within: Option<u32>) -> Result<(), DxfError> {
        if within.is_some() {
            self.count(things.others.len())?;
        }
        for (kind, others) in &things.others {
            let from = From {
                handle: others.handle,
                at: others.at,
                within,
            };
            let counted = self.others.entry(kind).or_insert((from, 0));
            counted.1 = counted.1.saturating_add(others.times);
        }
        Ok(())
    }

    fn count(&mut self, more: usize) -> Result<(), DxfError> {
        self.placed = self.placed.saturating_add(more);
        if self.placed > self.most {
            return Err(DxfError::TooMuchPlaced(self.most));
        }
        Ok(())
    }

    fn look(&self, entity: &Entity<'_>, inside: Inside<'e>) -> Look {
        // Layer 0 in a block is the insert's own.
        let layer = match inside.layer {
            Some(layer) if entity.layer == 0 => layer,
            _ => entity.layer,
        };
        let line = match entity.line {
            LineBy::Layer => self.drawing.tables.line_of_layer(layer),
            LineBy::Block => inside.line,
            LineBy::Own(line) => line,
        };
        let on = self.drawing.tables.layers.get(layer as usize);
        let on = on.is_none_or(|layer| !layer.off && !layer.frozen);
        Look {
            layer,
            line,
            shown: on && entity.visible && inside.shown,
        }
    }

    fn insert(
        &mut self,
        entity: &'e Entity<'a>,
        insert: &'e Insert<'a>,
        inside: Inside<'e>,
        look: Look,
        from: From<'a>,
        open: &mut Vec<Step<'e, 'a>>,
    ) {
        let lists = || {
            open.iter().filter_map(|step| match step {
                Step::List { inside, .. } => inside.block,
                Step::Grid(_) => None,
            })
        };
        let block = self.drawing.blocks.get(&insert.block.to_ascii_uppercase());
        let plane = Place::of_normal(entity.normal());
        let numbers = is_sound(insert.at) && is_sound(insert.scale);
        let why = match (block, plane) {
            _ if lists().any(|name| name.eq_ignore_ascii_case(insert.block)) => {
                Err(Why::HoldsItself)
            }
            _ if lists().count() >= MOST_DEEP => Err(Why::TooDeep(MOST_DEEP)),
            (Some(block), Some(plane)) if !block.elsewhere && numbers => Ok((block, plane)),
            (Some(block), _) if !block.elsewhere => Err(Why::NotALength),
            _ => Err(Why::Missing(
                self.drawing
                    .tables
                    .page
                    .read(&insert.block[..insert.block.len().min(MOST_NAME)]),
            )),
        };
        let (block, plane) = match why {
            Ok(found) => found,
            Err(why) => {
                let from = self.lay.drawn.path(from);
                self.lay.refused.push(Refused { from, why });
                return;
            }
        };
        let within = u32::try_from(self.lay.drawn.within.len()).ok();
        self.lay.drawn.within.push(from);
        let frozen = self.drawing.tables.layers.get(look.layer as usize);
        let frozen = frozen.is_some_and(|layer| layer.frozen);
        let place = inside
            .place
            .after(&plane)
            .after(&Place::moved(insert.at))
            .after(&Place::turned(insert.turned));
        open.push(Step::Grid(Grid {
            insert,
            block,
            next: 0,
            inside: Inside {
                place,
                block: Some(insert.block),
                layer: Some(look.layer),
                line: look.line,
                // A layer that is only off leaves what the block has on others.
                shown: inside.shown && entity.visible && !frozen,
                on_paper: inside.on_paper,
                within,
            },
        }));
    }

    /// The next of rows and columns.
    fn cell(&mut self, grid: Grid<'e, 'a>, open: &mut Vec<Step<'e, 'a>>) -> Result<(), DxfError> {
        let Grid {
            insert,
            block,
            next,
            inside,
        } = grid;
        let [columns, rows] = insert.times.map(u64::from);
        if next >= columns * rows {
            return Ok(());
        }
        self.count(1)?;
        if !inside.on_paper {
            self.others(&block.things, inside.within)?;
        }
        let step = [
            (next % columns) as f64 * insert.steps[0],
            (next / columns) as f64 * insert.steps[1],
            0.0,
        ];
        let place = inside
            .place
            .after(&Place::moved(step))
            .after(&Place::scaled(insert.scale))
            .after(&Place::moved(times(block.base, -1.0)));
        open.push(Step::Grid(Grid {
            next: next + 1,
            ..grid
        }));
        open.push(Step::List {
            rest: &block.things.entities,
            inside: Inside { place, ..inside },
        });
        Ok(())
    }
}

/// How much of a block's name is told.
const MOST_NAME: usize = 255;
