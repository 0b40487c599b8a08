//! What of an SVG is drawn, and whether papers can draw it. Definitions that nothing leads to may
//! hold anything.

use std::collections::BTreeSet;

use resvg::usvg::roxmltree::Node;

use super::links::{self, Ids, Link};
use super::styles::Styles;
use crate::logo::fault::{LogoFault, Thing};

/// Namespace of SVG.
const SVG: &str = "http://www.w3.org/2000/svg";

/// Elements that are drawn only where something leads to them, or never.
const NOT_DRAWN: [&str; 19] = [
    "clipPath",
    "defs",
    "desc",
    "filter",
    "font",
    "linearGradient",
    "marker",
    "mask",
    "metadata",
    "pattern",
    "radialGradient",
    "script",
    "style",
    "symbol",
    "title",
    "view",
    "animate",
    "animateTransform",
    "set",
];

/// Refuses an SVG that shows something which papers don't draw.
///
/// # Errors
/// Where it does.
pub(super) fn check(
    root: Node<'_, '_>,
    styles: &Styles<'_>,
    ids: &Ids<'_>,
) -> Result<(), LogoFault> {
    let mut looking = Looking {
        ids,
        styles,
        seen: BTreeSet::new(),
    };
    looking.at(root)
}

struct Looking<'n> {
    ids: &'n Ids<'n>,
    styles: &'n Styles<'n>,
    /// Elements that links have led to.
    seen: BTreeSet<usize>,
}

impl<'n> Looking<'n> {
    fn at(&mut self, node: Node<'n, 'n>) -> Result<(), LogoFault> {
        if !matches!(node.tag_name().namespace(), None | Some(SVG)) {
            return Ok(());
        }
        let said = self.styles.said(node);
        let last = |name| said.iter().rfind(|(known, _)| *known == name);
        if last("display").is_some_and(|(_, value)| value.trim() == "none") {
            return Ok(());
        }
        match node.tag_name().name() {
            "text" | "flowRoot" if has_letters(node) => {
                return Err(LogoFault::Holds(Thing::Text));
            }
            "image" => return Err(LogoFault::Holds(Thing::Picture)),
            "foreignObject" if !is_choice(node) => {
                return Err(LogoFault::Holds(Thing::WebPage));
            }
            "foreignObject" => return Ok(()),
            _ => {}
        }
        // The functions of a filter, such as blur(2px), lead nowhere.
        if last("filter").is_some_and(|(_, value)| value.contains('(') && !value.contains("url(")) {
            return Err(LogoFault::Holds(Thing::Filter));
        }
        self.at_links(node)?;
        self.at_children(node)
    }

    fn at_children(&mut self, node: Node<'n, 'n>) -> Result<(), LogoFault> {
        let children = node.children().filter(Node::is_element);
        for child in children.filter(|child| !NOT_DRAWN.contains(&child.tag_name().name())) {
            self.at(child)?;
        }
        Ok(())
    }

    fn at_links(&mut self, node: Node<'n, 'n>) -> Result<(), LogoFault> {
        for (name, link) in links::of(node, self.styles) {
            if link == Link::Elsewhere {
                return Err(LogoFault::Elsewhere);
            }
            for target in self.ids.meant(link) {
                self.led_to(name, *target)?;
            }
        }
        Ok(())
    }

    fn led_to(&mut self, by: &str, target: Node<'n, 'n>) -> Result<(), LogoFault> {
        match (by, target.tag_name().name()) {
            ("fill" | "stroke", "pattern") => return Err(LogoFault::Holds(Thing::Pattern)),
            ("filter", "filter") => return Err(LogoFault::Holds(Thing::Filter)),
            (_, "marker") => return Err(LogoFault::Holds(Thing::Marker)),
            _ => {}
        }
        if !self.seen.insert(target.id().get_usize()) {
            return Ok(());
        }
        if NOT_DRAWN.contains(&target.tag_name().name()) {
            self.at_links(target)?;
            return self.at_children(target);
        }
        self.at(target)
    }
}

/// Whether an element or one within it holds more than blanks.
fn has_letters(node: Node<'_, '_>) -> bool {
    let texts = node.descendants().filter(Node::is_text);
    texts
        .filter_map(|text| text.text())
        .any(|text| !text.trim().is_empty())
}

/// Whether an element is one of several of which the first that can be is drawn.
fn is_choice(node: Node<'_, '_>) -> bool {
    node.parent_element()
        .is_some_and(|parent| parent.tag_name().name() == "switch")
}
