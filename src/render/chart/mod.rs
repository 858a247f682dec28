//! Charts as SVG, and the same drawing as PNG. Text stays text; nothing depends on a font or a library of the machine.

mod fit;
mod ink;
mod life;
mod money;

use std::sync::LazyLock;

use resvg::{tiny_skia, usvg};

pub use life::expected_life;
pub use money::where_the_money_goes;

/// What drawings are lettered with, as PNG and where words are measured: the same on every machine.
static LETTERS: LazyLock<usvg::Options<'static>> = LazyLock::new(|| {
    let mut options = usvg::Options::default();
    let fonts = options.fontdb_mut();
    fonts.load_font_data(dejavu::sans::regular().to_vec());
    fonts.load_font_data(dejavu::sans::bold().to_vec());
    fonts.set_sans_serif_family("DejaVu Sans");
    options
});

/// The drawing as PNG, twice as fine as shown; `None` where it could not be made.
pub fn png(svg: &str) -> Option<Vec<u8>> {
    const SCALE: f32 = 2.0;
    let tree = usvg::Tree::from_str(svg, &LETTERS).ok()?;
    let size = tree.size().to_int_size().scale_by(SCALE)?;
    let mut picture = tiny_skia::Pixmap::new(size.width(), size.height())?;
    resvg::render(&tree, tiny_skia::Transform::from_scale(SCALE, SCALE), &mut picture.as_mut());
    picture.encode_png().ok()
}
