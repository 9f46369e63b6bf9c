//! YAML as text with places: nothing is a number, a date or a flag yet.

use crate::finding::Place;

/// A value with its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Node {
    /// Where the value stands (the whole list or map for those).
    pub place: Place,
    /// What stands there.
    pub value: Value,
}

/// What a node holds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Value {
    /// A scalar, as written.
    Scalar(Scalar),
    /// A list.
    List(Vec<Node>),
    /// A map, in the order written; doubled keys have been reported and the first kept.
    Map(Vec<Pair>),
    /// Something that could not be read; already reported, so nobody reports it again.
    Hole,
}

/// A scalar's text as the author sees it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Scalar {
    /// For a plain scalar the bytes as written; for a quoted or block scalar its content.
    pub text: String,
    /// Whether it was written in quotes or as a block, so that YAML can't change it.
    pub quoted: bool,
}

/// A key and its value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pair {
    /// The key's text.
    pub key: String,
    /// Where the key stands.
    pub key_place: Place,
    /// The value; [`Value::Scalar`] with empty text where the key has none.
    pub node: Node,
}

impl Node {
    /// The pairs of a map, or none.
    #[must_use]
    pub fn pairs(&self) -> &[Pair] {
        match &self.value {
            Value::Map(pairs) => pairs,
            Value::Scalar(_) | Value::List(_) | Value::Hole => &[],
        }
    }

    /// The value under `key` of a map.
    #[must_use]
    pub fn get(&self, key: &str) -> Option<&Self> {
        self.pairs().iter().find(|p| p.key == key).map(|p| &p.node)
    }

    /// The text of a scalar.
    #[must_use]
    pub fn text(&self) -> Option<&str> {
        match &self.value {
            Value::Scalar(scalar) => Some(&scalar.text),
            Value::List(_) | Value::Map(_) | Value::Hole => None,
        }
    }
}
