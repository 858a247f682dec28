//! What the label of a bottle says, written on the line of a part: its strength is part of its name, the rest belongs in the larder.

use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::input::{FieldKind, FieldShape};

/// "Overproof rum" with 63 % on its label: "overproof rum 63%".
pub(super) fn of_strength(name: Spanned<String>, abv: Option<f64>) -> Spanned<String> {
    match abv {
        Some(abv) => Spanned { value: format!("{} {abv}%", name.value.trim()), ..name },
        None => name,
    }
}

/// Under `[target]` it would be what the whole batch is brought to.
pub(super) const OF_THE_LABEL: FieldKind<()> = FieldKind::new(FieldShape::None, |given, reader| {
    let key = &given.key.value;
    reader.refuse(
        Diagnostic::error(Code::Misplaced, format!("`{key}` of {} stands on its label, not on its line", given.place))
            .at(given.key.span, "not known here")
            .help(format!(
                "it goes into larder.toml, once for all cards: [ingredient.\"your name for it\"] and below it {key} = …"
            )),
    )
});
