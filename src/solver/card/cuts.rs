//! What a slice, a wedge, a half or a chunk of a thing weighs: of no cut what the whole of it does.

use crate::card::{Amount, Card, Part};
use crate::diagnostic::{Code, Diagnostic};
use crate::larder::Ingredient;
use crate::spelling::words;
use crate::units::display::grouped;
use crate::units::in_grams;
use crate::vocabulary::{Kind, Portion, Word};

use super::super::resolve::PieceWeight;

/// How a thing is cut.
const CUTS: [Portion; 7] =
    [Portion::Wheel, Portion::Slice, Portion::Wedge, Portion::Quarter, Portion::Half, Portion::Chunk, Portion::Cube];

/// Cuts that kitchens say for one another, where the larder knows only the other: a slice of a lemon is a wheel of it, and
/// an Italian spicchio of one a wedge.
const ALSO_CUT: [(Portion, Portion); 5] = [
    (Portion::Slice, Portion::Wheel),
    (Portion::Wheel, Portion::Slice),
    (Portion::Clove, Portion::Wedge),
    (Portion::Chunk, Portion::Cube),
    (Portion::Cube, Portion::Chunk),
];

/// What a cut is of one, and between which shares it lies: a wedge is an eighth, from a sixth to a twelfth (common practice,
/// no source).
const SHARES: [(Portion, f64, (f64, f64)); 3] = [
    (Portion::Half, 1.0 / 2.0, (0.45, 0.55)),
    (Portion::Quarter, 1.0 / 4.0, (0.2, 0.3)),
    (Portion::Wedge, 1.0 / 8.0, (1.0 / 12.0, 1.0 / 6.0)),
];

/// Of what is heavier than this, grams, a wedge is cut from a slice, and no share of the whole (ours).
const MOST_IN_WEDGES_G: f64 = 450.0;

/// A chunk as bars cut one from a large fruit, cubes of 2, 2.5 and 3 cm at 1 g/ml, grams (common practice, no source).
const CHUNK_G: (f64, f64, f64) = (8.0, 15.6, 27.0);

/// What is lighter than this, grams, is not cut into such chunks (ours).
const LEAST_IN_CHUNKS_G: f64 = 300.0;

/// More of what is counted goes into no glass, grams (ours: a large glass is half a litre).
const MOST_IN_GLASS_G: f64 = 500.0;

/// "3 pezzi", "2 Stück" of a pineapple in a glass are cut from one, and nobody says how large.
pub(super) fn no_glass_holds(card: &Card, part: &Part, one: &PieceWeight) -> Option<Diagnostic> {
    let Amount::Pieces(count) = part.amount.value else { return None };
    let all_g = count * one.each_g;
    if !card.is_drink() || all_g <= MOST_IN_GLASS_G {
        return None;
    }
    let title = format!(
        "`{}` = \"{}\" are {} g, as whole ones: no glass holds that",
        part.label.value,
        part.written.text.trim(),
        grouped(all_g, 0)
    );
    let help = "write what is cut from one: \"3 chunks\", \"2 slices\", \"1 wedge\"; or weigh what goes in: \"45 g\"";
    Some(Diagnostic::error(Code::PieceUnknown, title).at(part.amount.span, "of what size?").help(help))
}

/// Whether a word is of how a thing is cut.
pub(super) fn is_cut(portion: Portion) -> bool {
    CUTS.contains(&portion)
}

/// The cut that a line of a fruit or a vegetable names, if it names one.
pub(super) fn cut_in(portions: &[Portion], ingredient: &Ingredient) -> Option<Portion> {
    let has = |cut: &Portion| portions.contains(cut);
    // "a 1 inch cube": the length says what it weighs
    if has(&Portion::Inch) || has(&Portion::Centimetre) {
        return None;
    }
    // "2 half slices"
    if has(&Portion::Half) && portions.iter().any(|other| is_cut(*other) && *other != Portion::Half) {
        return Some(Portion::Half);
    }
    // an Italian spicchio is of a lemon what it is of garlic, and a spear of a pineapple is no pineapple
    let is_fruit = matches!(ingredient.kind, Some(Kind::Fruit | Kind::Vegetable));
    let is_of_fruit = |portion: &Portion| {
        is_fruit && matches!(portion, Portion::Clove | Portion::Stick) && ingredient.portion(*portion).is_none()
    };
    portions.iter().copied().find(|portion| is_cut(*portion) || is_of_fruit(portion))
}

/// What one such cut weighs, where the larder has it, or it is a share of one; `of_table` looks up what the larder says of a portion.
pub(super) fn cut_weight(
    cut: Portion,
    portions: &[Portion],
    ingredient: &Ingredient,
    of_table: impl Fn(Portion) -> Option<PieceWeight>,
) -> Option<PieceWeight> {
    let has = |portion: &Portion| ingredient.portion(*portion).is_some();
    let known = |cut: Portion| {
        let also = ALSO_CUT.iter().filter(|(one, _)| *one == cut).map(|(_, other)| *other);
        std::iter::once(cut).chain(also).find(has).and_then(&of_table)
    };
    let whole = || of_table(Portion::Piece);
    let slice = portions.iter().find(|other| matches!(other, Portion::Slice | Portion::Wheel));
    if let (Portion::Half, Some(slice)) = (cut, slice) {
        return known(*slice).map(|slice| share(slice, 0.5, (0.45, 0.55), cut));
    }
    // "half with syrup": the piece that the larder knows is such a cut
    let is_the_piece = || {
        let piece = ingredient.portion(Portion::Piece)?;
        words(&piece.said).iter().any(|word| Portion::parse(word) == Some(cut)).then(whole).flatten()
    };
    let of_share = || {
        let cut = if cut == Portion::Clove { Portion::Wedge } else { cut };
        let (_, of_one, between) = SHARES.iter().find(|(one, ..)| *one == cut)?;
        let whole = whole().filter(|one| cut != Portion::Wedge || one.each_g <= MOST_IN_WEDGES_G)?;
        Some(share(whole, *of_one, *between, cut))
    };
    let in_chunks = || {
        let is_large = ingredient.portion(Portion::Piece).is_some_and(|one| in_grams(one.grams) >= LEAST_IN_CHUNKS_G);
        let (low, each_g, high) = CHUNK_G;
        (is_large && matches!(cut, Portion::Chunk | Portion::Cube)).then(|| PieceWeight {
            each_g,
            half_width_g: Some(0.5 * (high - low)),
            range_g: Some((low, high)),
            status: format!("a {cut} of 2 to 3 cm; common practice, no source"),
        })
    };
    known(cut).or_else(is_the_piece).or_else(of_share).or_else(in_chunks)
}

/// A share of one: as far off as both.
fn share(one: PieceWeight, of_one: f64, between: (f64, f64), cut: Portion) -> PieceWeight {
    let (light, heavy) = one.range_g.unwrap_or((one.each_g, one.each_g));
    let (low, high) = (light * between.0, heavy * between.1);
    PieceWeight {
        each_g: one.each_g * of_one,
        half_width_g: Some(0.5 * (high - low)),
        range_g: Some((low, high)),
        status: format!("a {cut} of it; common practice, no source"),
    }
}
