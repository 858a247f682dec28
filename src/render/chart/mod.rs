//! Charts as SVG, and the same drawing as PNG. Text stays text; nothing depends on a font or a library of the machine.

mod fit;
mod ink;
mod life;
mod lots;
mod money;

use std::sync::LazyLock;

use resvg::usvg;

use super::picture;

pub use life::expected_life;
pub use lots::what_lots_say;
pub use money::where_the_money_goes;

/// What drawings are lettered with, as PNG and where words are measured.
static LETTERS: LazyLock<usvg::Options<'static>> =
    LazyLock::new(|| picture::letters(&[dejavu::sans::regular(), dejavu::sans::bold()], "DejaVu Sans"));

/// The drawing as PNG, twice as fine as shown; `None` where it could not be made.
pub fn png(svg: &str) -> Option<Vec<u8>> {
    picture::png(svg, &LETTERS, 2.0)
}
