//! What stands under `strained`: whether a maker says it, or the reader of a pasted recipe that says neither.

use crate::input::{FieldKind, FieldShape};

/// What the reader of a recipe writes, for a maker to put `true` or `false` in its place.
pub(crate) const ASSUMED: &str = "assumed";

/// Whether the solids of a part are strained out again.
#[derive(Clone, Copy)]
pub(super) enum SaidOut {
    Said(bool),
    Assumed,
}

pub(super) const STRAINED: FieldKind<SaidOut> =
    FieldKind::new(FieldShape::Either(&[FieldShape::Flag, FieldShape::Words(|| vec![ASSUMED])]), |given, reader| {
        match given.value.value.text() {
            Some(word) if word.trim() == ASSUMED => Some(SaidOut::Assumed),
            _ => given.flag(reader).map(SaidOut::Said),
        }
    });
