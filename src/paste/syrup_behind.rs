//! "Strain, mix with syrup", "strain, dilute and sweeten", "strain, add everything else": what goes in behind the straining is named by
//! what is made of it, by what it does, or as the rest.

use crate::card::{Part, Stage};
use crate::larder::Form;
use crate::vocabulary::Kind;

use super::names::Names;
use super::put_in_behind::told;
use super::speaks::says_all;
use super::strains::Piece;
use super::words::WordList;

/// Which of the parts these pieces put in behind a straining without their names: the sugar and the water of a syrup that no line is
/// called, where no step in front of the straining names them and something else is what the strained things stood in.
pub(super) fn syrup_behind(stage: &Stage, before: &[Piece<'_>], after: &[Piece<'_>], names: Names<'_>) -> Vec<bool> {
    let none = vec![false; stage.parts.len()];
    let is_syrup_listed = stage.parts.iter().any(|part| {
        kind(part, names) == Some(Kind::Syrup)
            || [&part.label, &part.of].into_iter().any(|name| WordList::Syrup.is_said_in(&name.value))
    });
    if is_syrup_listed || before.iter().any(|piece| says_all(piece.text)) {
        return none;
    }
    let told_before = told(stage, before, names);
    let told_after = told(stage, after, names);
    let puts: Vec<PutsIn> = after.iter().filter_map(|piece| PutsIn::of(piece.text)).collect();
    let late: Vec<bool> = stage
        .parts
        .iter()
        .zip(&told_before)
        .map(|(part, told)| !told && !part.is_strained() && puts.iter().any(|puts| puts.means(kind(part, names))))
        .collect();
    // "simmer the ginger. Strain. Mix the syrup with the rum": the syrup is what ran through
    let mut stands = stage.parts.iter().zip(&late).zip(told_before.iter().zip(&told_after));
    let is_known = stands.any(|((part, late), (before, after))| {
        let is_liquid = names.house.larder.find(&part.of.value).is_none_or(|known| known.form != Form::Solid);
        let is_only_rest = !puts.contains(&PutsIn::Rest) || *before;
        is_liquid && !part.is_strained() && !late && (*before || !after) && is_only_rest
    });
    if is_known { late } else { none }
}

fn kind(part: &Part, names: Names<'_>) -> Option<Kind> {
    names.house.larder.find(&part.of.value).and_then(|known| known.kind)
}

/// What a clause puts in without naming it.
#[derive(Clone, Copy, PartialEq, Eq)]
enum PutsIn {
    /// The sugar and the water.
    Syrup,
    /// The sugar.
    Sweet,
    /// The water.
    Water,
    /// All that no step named before.
    Rest,
}

impl PutsIn {
    fn of(text: &str) -> Option<Self> {
        let puts_in = || {
            [WordList::Join, WordList::Mixed, WordList::PutIn, WordList::Cut].into_iter().any(|list| list.within(text))
        };
        let (sweetens, dilutes) = (WordList::Sweetened.within(text), WordList::Diluted.within(text));
        match (sweetens, dilutes) {
            _ if WordList::Others.is_said_in(text) && puts_in() => Some(Self::Rest),
            _ if WordList::Syrup.is_said_in(text) && (puts_in() || sweetens || dilutes) => Some(Self::Syrup),
            // "dilute and sweeten"
            (true, true) => Some(Self::Syrup),
            (true, false) => Some(Self::Sweet),
            (false, true) => Some(Self::Water),
            (false, false) => None,
        }
    }

    fn means(self, kind: Option<Kind>) -> bool {
        match self {
            Self::Syrup => matches!(kind, Some(Kind::Sugar | Kind::Honey | Kind::Water)),
            Self::Sweet => matches!(kind, Some(Kind::Sugar | Kind::Honey)),
            Self::Water => kind == Some(Kind::Water),
            Self::Rest => true,
        }
    }
}
