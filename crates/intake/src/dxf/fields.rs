//! The group codes of one entity.

use super::error::DxfError;
use super::place::Point;
use super::tags::{Tag, Tags, Value};

/// The group codes of one entity, in their order; without those that other programs added.
#[derive(Default)]
pub(super) struct Fields<'a> {
    tags: Vec<Tag<'a>>,
}

impl<'a> Fields<'a> {
    /// Takes all up to the next code 0.
    pub(super) fn take(&mut self, tags: &mut Tags<'a>) -> Result<(), DxfError> {
        self.tags.clear();
        let mut in_group = false;
        while let Some(tag) = tags.next_within()? {
            match tag.code {
                102 => in_group = tag.value.text().starts_with(b"{"),
                1000.. => {}
                _ if in_group => {}
                _ => self.tags.push(tag),
            }
        }
        Ok(())
    }

    /// All of them.
    pub(super) fn all(&self) -> &[Tag<'a>] {
        &self.tags
    }

    /// The first value of a code.
    pub(super) fn first(&self, code: u16) -> Option<Value<'a>> {
        self.tags
            .iter()
            .find(|tag| tag.code == code)
            .map(|tag| tag.value)
    }

    /// The text of a code; empty where there is none.
    pub(super) fn text(&self, code: u16) -> &'a [u8] {
        self.first(code).map_or(b"", Value::text)
    }

    /// A number that has to be there.
    pub(super) fn number(&self, code: u16) -> Option<f64> {
        self.first(code)?.number()
    }

    /// A number that may be left out; `None` where what stands there is none.
    pub(super) fn number_or(&self, code: u16, otherwise: f64) -> Option<f64> {
        match self.first(code) {
            Some(value) => value.number(),
            None => Some(otherwise),
        }
    }

    /// A whole number; 0 where there is none.
    pub(super) fn whole(&self, code: u16) -> i64 {
        self.first(code).and_then(Value::whole).unwrap_or(0)
    }

    /// A point that has to be there; its z may be left out.
    pub(super) fn point(&self, code: u16) -> Option<Point> {
        Some([
            self.number(code)?,
            self.number(code + 10)?,
            self.number_or(code + 20, 0.0)?,
        ])
    }

    /// All points of a code; `None` where a number of one is none.
    pub(super) fn points(&self, code: u16) -> Option<Vec<Point>> {
        let mut points: Vec<Point> = Vec::new();
        for tag in &self.tags {
            if tag.code == code {
                points.push([tag.value.number()?, 0.0, 0.0]);
            } else if tag.code == code + 10
                && let Some(last) = points.last_mut()
            {
                last[1] = tag.value.number()?;
            } else if tag.code == code + 20
                && let Some(last) = points.last_mut()
            {
                last[2] = tag.value.number()?;
            }
        }
        Some(points)
    }

    /// All numbers of a code; `None` where one of them is none.
    pub(super) fn numbers(&self, code: u16) -> Option<Vec<f64>> {
        let all = self.tags.iter().filter(|tag| tag.code == code);
        all.map(|tag| tag.value.number()).collect()
    }
}
