//! What an element of an SVG leads to.

use std::collections::BTreeMap;

use resvg::usvg::roxmltree::{Document, Node};

use super::styles::Styles;

/// The elements of a file by their ids.
pub(super) struct Ids<'n>(BTreeMap<&'n str, Vec<Node<'n, 'n>>>);

impl<'n> Ids<'n> {
    /// All ids of a file.
    pub(super) fn of(xml: &'n Document<'n>) -> Self {
        let mut ids: BTreeMap<&str, Vec<Node<'_, '_>>> = BTreeMap::new();
        for node in xml.descendants() {
            for attribute in node.attributes().filter(|found| found.name() == "id") {
                ids.entry(attribute.value()).or_default().push(node);
            }
        }
        Self(ids)
    }

    /// All elements that a link may mean: of several with one id, nobody knows which.
    pub(super) fn meant(&self, link: Link<'_>) -> &[Node<'n, 'n>] {
        match link {
            Link::Here(id) => self.0.get(id).map_or(&[], Vec::as_slice),
            Link::Elsewhere => &[],
        }
    }
}

/// Where a link leads.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Link<'a> {
    /// To an element of the same file, by its id.
    Here(&'a str),
    /// To another file.
    Elsewhere,
}

/// Properties that can lead to another element.
const LEADING: [&str; 9] = [
    "fill",
    "stroke",
    "clip-path",
    "mask",
    "filter",
    "marker",
    "marker-start",
    "marker-mid",
    "marker-end",
];

/// All links of an element with the property or attribute that has them, also those that a later
/// rule of the style sheet takes back. Who may follow one that is pressed is not drawn.
pub(super) fn of<'n>(node: Node<'n, 'n>, styles: &'n Styles<'_>) -> Vec<(&'n str, Link<'n>)> {
    let mut found = Vec::new();
    let is_pressed = node.tag_name().name() == "a";
    for (name, value) in styles.said(node) {
        if name == "href" && !is_pressed {
            let value = value.trim();
            found.push((
                name,
                value.strip_prefix('#').map_or(Link::Elsewhere, Link::Here),
            ));
        } else if LEADING.contains(&name) {
            found.extend(urls(value).map(|link| (name, link)));
        }
    }
    found
}

/// The links of a property's value.
fn urls(value: &str) -> impl Iterator<Item = Link<'_>> {
    value.split("url(").skip(1).map(|rest| {
        let inner = rest.split(')').next().unwrap_or(rest);
        let inner = inner.trim_matches(|ch: char| ch.is_whitespace() || matches!(ch, '"' | '\''));
        inner.strip_prefix('#').map_or(Link::Elsewhere, Link::Here)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn links_are_found_in_any_quotes() {
        let all = |value| urls(value).collect::<Vec<_>>();
        assert_eq!(all("url(#a)"), [Link::Here("a")]);
        assert_eq!(all(" url( '#a b' ) red"), [Link::Here("a b")]);
        assert_eq!(
            all("url(\"#a\") url(b.svg#c)"),
            [Link::Here("a"), Link::Elsewhere]
        );
        assert_eq!(all("url(#a"), [Link::Here("a")]);
        assert_eq!(all("#ff0000"), []);
    }
}
