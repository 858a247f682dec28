//! What the label of a bottle says, written on the line of a part: a card says it in the name, or the larder for all cards.

use crate::diagnostic::{Code, Diagnostic};
use crate::input::{FieldKind, FieldShape};

/// Under `[target]` it would be the strength of the whole batch.
pub(super) const OF_THE_LABEL: FieldKind<()> = FieldKind::new(FieldShape::None, |given, reader| {
    let key = &given.key.value;
    reader.refuse(
        Diagnostic::error(Code::Misplaced, format!("`{key}` of {} stands on its label, not on its line", given.place))
            .at(given.key.span, "not known here")
            .help(format!(
                "a strength goes into the name, as \"overproof rum 63 %\"; whatever a label says goes into larder.toml, once: \
                 [ingredient.\"your name for it\"] and below it {key} = …"
            )),
    )
});
