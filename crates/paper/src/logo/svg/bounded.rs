//! How much an SVG comes to once every link is followed, how deep that goes, and whether it ends.

use std::collections::{BTreeMap, BTreeSet};

use resvg::usvg::roxmltree::Node;

use super::links::{self, Ids};
use super::numbers::is_beyond;
use super::styles::Styles;
use crate::logo::fault::LogoFault;

/// Most elements within one another, those that links lead to counted where they lead from.
pub(super) const DEEPEST: u32 = 48;
/// Most that all elements come to, each as often as links lead to it: bytes of its attributes and
/// rules of the style sheet to be looked at.
pub(super) const MOST_WORK: u64 = 8_000_000;
/// What an element comes to by itself.
const EACH: u64 = 32;
/// Most colors of a gradient: every shape that it fills gets its own.
const MOST_STOPS: usize = 100;

/// Refuses an SVG that would take too long, too much memory, or no end.
///
/// # Errors
/// Where it is so.
pub(super) fn check(
    root: Node<'_, '_>,
    styles: &Styles<'_>,
    ids: &Ids<'_>,
) -> Result<(), LogoFault> {
    let mut weighing = Weighing {
        ids,
        styles,
        known: BTreeMap::new(),
        open: BTreeSet::new(),
    };
    weighing.weigh(root, 0).map(|_| ())
}

/// What an element comes to with all that is in it and that it leads to.
#[derive(Clone, Copy)]
struct Weight {
    work: u64,
    depth: u32,
}

struct Weighing<'n> {
    ids: &'n Ids<'n>,
    styles: &'n Styles<'n>,
    known: BTreeMap<usize, Weight>,
    /// The elements that are being weighed: who comes to one of them again goes in a circle.
    open: BTreeSet<usize>,
}

impl<'n> Weighing<'n> {
    fn weigh(&mut self, node: Node<'n, 'n>, depth: u32) -> Result<Weight, LogoFault> {
        if let Some(known) = self.known.get(&node.id().get_usize()).copied() {
            return within(known, depth);
        }
        if depth > DEEPEST {
            return Err(LogoFault::TooMuch);
        }
        if !self.open.insert(node.id().get_usize()) {
            return Err(LogoFault::Circle);
        }
        let mut said = self.styles.said(node).into_iter();
        if said.any(|(name, value)| is_beyond(name, value)) {
            return Err(LogoFault::TooMuch);
        }
        let attributes = node.attributes().map(|found| found.value().len() as u64);
        let mut weight = Weight {
            work: EACH + self.styles.cost() + attributes.sum::<u64>(),
            depth: 0,
        };
        let children: Vec<Node<'_, '_>> = node.children().filter(Node::is_element).collect();
        let stops = children
            .iter()
            .filter(|child| child.tag_name().name() == "stop");
        if stops.count() > MOST_STOPS {
            return Err(LogoFault::TooMuch);
        }
        for below in children.into_iter().chain(self.led_to(node)) {
            let more = self.weigh(below, depth + 1)?;
            weight.work = weight.work.saturating_add(more.work);
            weight.depth = weight.depth.max(more.depth + 1);
        }
        self.open.remove(&node.id().get_usize());
        self.known.insert(node.id().get_usize(), weight);
        within(weight, depth)
    }

    /// All elements that links of this one may lead to.
    fn led_to(&self, node: Node<'n, 'n>) -> Vec<Node<'n, 'n>> {
        let links = links::of(node, self.styles).into_iter();
        links
            .flat_map(|(_, link)| self.ids.meant(link))
            .copied()
            .collect()
    }
}

fn within(weight: Weight, depth: u32) -> Result<Weight, LogoFault> {
    if weight.work > MOST_WORK || depth + weight.depth > DEEPEST {
        return Err(LogoFault::TooMuch);
    }
    Ok(weight)
}
