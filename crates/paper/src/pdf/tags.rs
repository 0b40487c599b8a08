//! The structure of a paper: which of what is drawn belongs to which part, in the order it is read.

use std::num::{NonZeroU16, NonZeroU32};

use krilla::destination::XyzDestination;
use krilla::geom::Point;
use krilla::outline::{Outline, OutlineNode};
use krilla::surface::Surface;
use krilla::tagging::{
    Artifact, ArtifactType, ContentTag, Identifier, ListNumbering, Node, SpanTag, TableHeaderScope,
    Tag, TagGroup, TagTree,
};

use crate::page::Role;

/// The structure while pages are drawn.
#[derive(Default)]
pub(super) struct Tags {
    page: usize,
    /// Parts that were begun and not ended.
    open: Vec<Part>,
    /// Parts of the paper itself.
    paper: Vec<Node>,
    /// How many of the open parts are edges.
    edges: usize,
    marked: Option<Marked>,
    /// What is of no part of its own, and is read as a paragraph.
    loose: Vec<Identifier>,
    headings: Vec<Heading>,
}

struct Part {
    role: Role,
    holds: Vec<Node>,
}

/// What is drawn now.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Marked {
    /// Something that is not read.
    Edge,
    /// Something of the innermost part.
    OfPart,
}

struct Heading {
    level: u16,
    title: String,
    page: usize,
    top: f32,
}

impl Tags {
    /// Goes on at another page.
    pub(super) fn page(&mut self, page: usize) {
        self.page = page;
    }

    /// Begins a part.
    pub(super) fn begin(&mut self, role: &Role, surface: &mut Surface<'_>) {
        self.close(surface);
        if let Role::Sign(sign) = role
            && self.edges == 0
        {
            let mut text = [0; 4];
            let text: &str = sign.encode_utf8(&mut text);
            let tag = ContentTag::Span(SpanTag::empty().with_actual_text(Some(text)));
            let id = surface.start_tagged(tag);
            self.keep(id);
            self.marked = Some(Marked::OfPart);
        } else if *role != Role::Edge && !matches!(role, Role::Sign(_)) {
            self.gather();
        }
        self.edges += usize::from(*role == Role::Edge);
        self.open.push(Part {
            role: role.clone(),
            holds: Vec::new(),
        });
    }

    /// Whether the innermost part is a sign.
    pub(super) fn is_sign(&self) -> bool {
        let last = self.open.last();
        last.is_some_and(|part| matches!(part.role, Role::Sign(_)))
    }

    /// Ends the part that was begun last.
    pub(super) fn end(&mut self, surface: &mut Surface<'_>) {
        self.close(surface);
        let is_part = |part: &Part| !matches!(part.role, Role::Sign(_) | Role::Edge);
        if self.edges == 0 && self.open.last().is_some_and(is_part) {
            self.gather();
            // A cell in which nothing stands keeps its place among the others.
            let is_empty = |part: &Part| {
                matches!(part.role, Role::Cell { .. } | Role::Head) && part.holds.is_empty()
            };
            if self.open.last().is_some_and(is_empty) {
                let id = surface.start_tagged(ContentTag::Other);
                surface.end_tagged();
                self.keep(id);
            }
        }
        let Some(part) = self.open.pop() else {
            return;
        };
        self.edges -= usize::from(part.role == Role::Edge);
        if let Some(group) = group(part) {
            self.holds().push(group.into());
        }
    }

    /// A text is drawn next, its upper edge at `top`.
    pub(super) fn text(&mut self, top: f32, surface: &mut Surface<'_>) {
        if self.edges > 0 {
            self.mark(Marked::Edge, surface);
            return;
        }
        if let Some(Part {
            role: Role::Heading { level, title },
            holds,
        }) = self.open.last()
            && holds.is_empty()
        {
            self.headings.push(Heading {
                level: *level,
                title: title.clone(),
                page: self.page,
                top,
            });
        }
        self.mark(Marked::OfPart, surface);
    }

    /// Something is drawn next that is no text.
    pub(super) fn drawing(&mut self, surface: &mut Surface<'_>) {
        let shows = |part: &Part| matches!(part.role, Role::Figure(_) | Role::Sign(_));
        let marked = if self.edges == 0 && self.open.last().is_some_and(shows) {
            Marked::OfPart
        } else {
            Marked::Edge
        };
        self.mark(marked, surface);
    }

    /// Ends what is drawn.
    pub(super) fn close(&mut self, surface: &mut Surface<'_>) {
        if self.marked.take().is_some() {
            surface.end_tagged();
        }
    }

    /// The tree of all parts, and the list of contents.
    pub(super) fn finish(mut self, language: &str) -> (TagTree, Outline) {
        self.gather();
        while let Some(part) = self.open.pop() {
            if let Some(group) = group(part) {
                self.holds().push(group.into());
            }
        }
        let mut tree = TagTree::new().with_lang(Some(language.to_owned()));
        for node in self.paper {
            tree.push(node);
        }
        (tree, contents(&self.headings))
    }

    fn mark(&mut self, marked: Marked, surface: &mut Surface<'_>) {
        if self.marked == Some(marked) {
            return;
        }
        self.close(surface);
        match marked {
            Marked::Edge => {
                let kind = match self.edges {
                    0 => ArtifactType::Layout,
                    _ => ArtifactType::PaginationOther,
                };
                surface.start_tagged(ContentTag::Artifact(Artifact::with_kind(kind)));
            }
            Marked::OfPart => {
                let is_figure = matches!(
                    self.open.last(),
                    Some(Part {
                        role: Role::Figure(_),
                        ..
                    })
                );
                let id = surface.start_tagged(if is_figure {
                    ContentTag::Other
                } else {
                    ContentTag::Span(SpanTag::empty())
                });
                self.keep(id);
            }
        }
        self.marked = Some(marked);
    }

    /// Puts something drawn into the part that is open, or among what is of none.
    fn keep(&mut self, id: Identifier) {
        let part = self
            .open
            .iter_mut()
            .rfind(|part| !matches!(part.role, Role::Sign(_)));
        match part {
            Some(part) if has_text(&part.role) => part.holds.push(id.into()),
            _ => self.loose.push(id),
        }
    }

    /// Makes a paragraph of what is of no part of its own.
    fn gather(&mut self) {
        if self.loose.is_empty() {
            return;
        }
        let ids = std::mem::take(&mut self.loose);
        let holds = ids.into_iter().map(Node::from).collect();
        let paragraph = TagGroup::with_children(Tag::P, holds);
        self.holds().push(paragraph.into());
    }

    /// What the innermost part holds that is open.
    fn holds(&mut self) -> &mut Vec<Node> {
        match self.open.last_mut() {
            Some(part) => &mut part.holds,
            None => &mut self.paper,
        }
    }
}

/// Whether texts stand in such a part itself.
const fn has_text(role: &Role) -> bool {
    match role {
        Role::Heading { .. }
        | Role::Paragraph
        | Role::Entry
        | Role::Head
        | Role::Cell { .. }
        | Role::Figure(_) => true,
        Role::List | Role::Table | Role::Row | Role::Edge | Role::Sign(_) => false,
    }
}

/// A part as the engine takes it; none where it holds nothing, or is read as a part of another one.
fn group(Part { role, holds }: Part) -> Option<TagGroup> {
    if holds.is_empty() {
        return None;
    }
    Some(match role {
        Role::Heading { level, title } => {
            let level = NonZeroU16::new(level).unwrap_or(NonZeroU16::MIN);
            TagGroup::with_children(Tag::Hn(level, Some(title)), holds)
        }
        Role::Paragraph => TagGroup::with_children(Tag::P, holds),
        Role::List => TagGroup::with_children(Tag::L(ListNumbering::None), holds),
        Role::Entry => {
            let body = TagGroup::with_children(Tag::LBody, holds);
            TagGroup::with_children(Tag::LI, vec![body.into()])
        }
        Role::Table => TagGroup::with_children(Tag::Table, holds),
        Role::Row => TagGroup::with_children(Tag::TR, holds),
        Role::Head => TagGroup::with_children(Tag::TH(TableHeaderScope::Column), holds),
        Role::Cell { columns } => {
            let span = NonZeroU32::new(columns).filter(|span| span.get() > 1);
            TagGroup::with_children(Tag::TD.with_col_span(span), holds)
        }
        Role::Figure(says) => TagGroup::with_children(Tag::Figure(Some(says)), holds),
        Role::Edge | Role::Sign(_) => return None,
    })
}

/// The list of contents: headings of the first level, and under each those that follow it.
fn contents(headings: &[Heading]) -> Outline {
    let mut outline = Outline::new();
    let mut title: Option<OutlineNode> = None;
    for heading in headings {
        let place = XyzDestination::new(heading.page, Point::from_xy(0.0, heading.top));
        let node = OutlineNode::new(heading.title.clone(), place);
        match &mut title {
            Some(above) if heading.level > 1 => above.push_child(node),
            _ => {
                if let Some(before) = title.replace(node.with_open(true)) {
                    outline.push_child(before);
                }
            }
        }
    }
    if let Some(last) = title {
        outline.push_child(last);
    }
    outline
}
