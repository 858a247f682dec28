//! Parts of a pasted card of which its recipe says neither that they are strained out nor that they stay in.

use super::model::{Card, Part};

/// What stands behind such a line.
pub(crate) const TAKEN_AS_STRAINED: &str = "strained out before bottling";

impl Card {
    /// Whether nobody has said that this part of it is strained out, but the reader of its recipe.
    pub(crate) fn is_taken_as_strained(&self, part: &Part) -> bool {
        let line = self.text.get(part.label.span.start..).and_then(|from| from.lines().next());
        part.is_strained() && line.is_some_and(|line| line.contains(TAKEN_AS_STRAINED))
    }
}
