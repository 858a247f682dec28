//! Charts as SVG, and the same drawing as PNG. Text stays text; nothing depends on a font or a library of the machine.

mod dissolved;
mod fit;
mod ink;
mod life;
mod lots;
mod map;
mod money;
mod square;
mod strength;

use std::sync::LazyLock;

use resvg::usvg;

use super::picture;
use crate::house::House;
use crate::solver::Solved;

pub use dissolved::what_stays_dissolved;
pub use life::expected_life;
pub use lots::what_lots_say;
pub use money::where_the_money_goes;
pub(crate) use square::pearson_square;
pub use square::square_of_card;
pub use strength::how_sweet_and_strong;

/// What is drawn of a card as it is made: where it stands on the map of sweet and strong, or of what stays dissolved, and the
/// square of one that is mixed from two.
pub(crate) fn of_card(solved: &Solved, house: &House) -> Vec<String> {
    let (name, liquid, settings) = (&solved.name, solved.bottled(), &house.settings);
    let map = how_sweet_and_strong(name, liquid, &settings.markets)
        .or_else(|| what_stays_dissolved(name, liquid, &settings.stores));
    map.into_iter().chain(square_of_card(solved)).collect()
}

/// What drawings are lettered with, as PNG and where words are measured.
static LETTERS: LazyLock<usvg::Options<'static>> =
    LazyLock::new(|| picture::letters(&[dejavu::sans::regular(), dejavu::sans::bold()], "DejaVu Sans"));

/// What a drawing says as PNG has no letters for.
pub(crate) fn missing_letters(svg: &str) -> Vec<char> {
    picture::missing(svg, &LETTERS)
}

/// The drawing as PNG, twice as fine as shown; `None` where it could not be made.
pub fn png(svg: &str) -> Option<Vec<u8>> {
    picture::png(svg, &LETTERS, 2.0)
}
