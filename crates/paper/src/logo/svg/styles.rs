//! What is said of an element: by its attributes, by the file's style sheet, by its own style.

use resvg::usvg::roxmltree::{Document, Node};
use simplecss::{AttributeOperator, DeclarationTokenizer, Element, PseudoClass, StyleSheet};

use super::bounded::{DEEPEST, MOST_WORK};
use crate::logo::fault::LogoFault;

/// The style sheet of a file.
pub(super) struct Styles<'a> {
    sheet: StyleSheet<'a>,
    cost: u64,
}

impl<'a> Styles<'a> {
    /// The sheets of a file, one after the other, as they are read by the library that draws it.
    ///
    /// # Errors
    /// Where to ask every element for every rule would take too long.
    pub(super) fn of(xml: &'a Document<'a>) -> Result<Self, LogoFault> {
        let mut sheet = StyleSheet::new();
        let sheets = xml.descendants().filter(|node| node.has_tag_name("style"));
        for text in sheets.filter_map(|node| node.text()) {
            if text.contains("@import") {
                return Err(LogoFault::Elsewhere);
            }
            sheet.parse_more(text);
        }
        let cost = sheet.rules.iter().fold(0_u64, |cost, rule| {
            cost.saturating_add(tries(&rule.selector.to_string()))
        });
        let elements = xml.descendants().filter(Node::is_element).count() as u64;
        if elements.saturating_mul(cost) > MOST_WORK {
            return Err(LogoFault::TooMuch);
        }
        Ok(Self { sheet, cost })
    }

    /// What it takes to ask an element for all rules.
    pub(super) fn cost(&self) -> u64 {
        self.cost
    }

    /// Name and value of all that is said of an element; what comes later counts more.
    pub(super) fn said<'n>(&'n self, node: Node<'n, 'n>) -> Vec<(&'n str, &'n str)> {
        let mut said: Vec<(&str, &str)> = node
            .attributes()
            .map(|attribute| (attribute.name(), attribute.value()))
            .collect();
        let rules = self.sheet.rules.iter();
        for rule in rules.filter(|rule| rule.selector.matches(&Asked(node))) {
            let declarations = rule.declarations.iter();
            said.extend(declarations.map(|declaration| (declaration.name, declaration.value)));
        }
        let own = DeclarationTokenizer::from(node.attribute("style").unwrap_or_default());
        said.extend(own.map(|declaration| (declaration.name, declaration.value)));
        said
    }
}

/// How often a selector may look at an element: each ancestor it names is looked for among all.
fn tries(selector: &str) -> u64 {
    let selector = selector.replace(" > ", ">").replace(" + ", "+");
    let ancestors = selector.matches(' ').count();
    u64::from(DEEPEST).saturating_pow(ancestors.try_into().unwrap_or(u32::MAX))
}

/// An element as a style sheet asks for it.
struct Asked<'n>(Node<'n, 'n>);

impl Element for Asked<'_> {
    fn parent_element(&self) -> Option<Self> {
        self.0.parent_element().map(Self)
    }

    fn prev_sibling_element(&self) -> Option<Self> {
        self.0.prev_sibling_element().map(Self)
    }

    fn has_local_name(&self, name: &str) -> bool {
        self.0.tag_name().name() == name
    }

    fn attribute_matches(&self, name: &str, operator: AttributeOperator<'_>) -> bool {
        let value = self.0.attribute(name);
        value.is_some_and(|value| operator.matches(value))
    }

    fn pseudo_class_matches(&self, class: PseudoClass<'_>) -> bool {
        matches!(class, PseudoClass::FirstChild) && self.prev_sibling_element().is_none()
    }
}
