//! A yield that counts what is served: "20 drinks" are twenty of the serving that the card states.

use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::input::FileReader;
use crate::units::display::{short, volume_text};

use super::model::{Card, Makes};

/// What is counted so is about as much: nobody measures a batch by its glasses.
pub(super) fn settle(card: &mut Card, reader: &mut FileReader<'_>) {
    let Some(Spanned { value: count, span }) = card.servings else { return };
    let Some(serving) = card.serving else {
        let title = format!("how much {} servings are, is not said", short(count));
        let help = "write what one of them is: serving = \"90 ml\"";
        reader.found.push(Diagnostic::warning(Code::Understood, title).at(span, "the amounts decide").help(help));
        return;
    };
    let volume = serving.value * count;
    let taken = format!("{} servings of {} are {}", short(count), volume_text(serving.value), volume_text(volume));
    reader.found.push(Diagnostic::note(Code::Understood, taken).at(span, "about so much"));
    card.makes = Some(Spanned { value: Makes::Volume(volume), span });
    card.makes_about = true;
}
