//! A drawing as PNG, lettered the same on every machine: nothing depends on a font of it.

use resvg::{tiny_skia, usvg};

/// Letters to draw with, and the family that stands for "sans-serif".
pub(super) fn letters(faces: &[&'static [u8]], family: &str) -> usvg::Options<'static> {
    let mut options = usvg::Options::default();
    let fonts = options.fontdb_mut();
    for face in faces {
        fonts.load_font_data(face.to_vec());
    }
    fonts.set_sans_serif_family(family);
    options
}

/// What a drawing says and these letters do not have, in its order, each once: a box would stand for it.
pub(super) fn missing(svg: &str, letters: &usvg::Options<'static>) -> Vec<char> {
    let mut missing = Vec::new();
    if let Ok(tree) = usvg::Tree::from_str(svg, letters) {
        missing_in(tree.root(), &mut missing);
    }
    missing
}

fn missing_in(group: &usvg::Group, missing: &mut Vec<char>) {
    for node in group.children() {
        match node {
            usvg::Node::Group(inner) => missing_in(inner, missing),
            usvg::Node::Text(text) => {
                let glyphs = text.layouted().iter().flat_map(|span| &span.positioned_glyphs);
                // the first glyph of every font stands for a letter that it does not have
                for letter in glyphs.filter(|glyph| glyph.id.0 == 0).flat_map(|glyph| glyph.text.chars()) {
                    if !letter.is_whitespace() && !missing.contains(&letter) {
                        missing.push(letter);
                    }
                }
            }
            _ => {}
        }
    }
}

/// The drawing with so many dots for one of its units; `None` where it could not be made.
pub(super) fn png(svg: &str, letters: &usvg::Options<'static>, scale: f32) -> Option<Vec<u8>> {
    let tree = usvg::Tree::from_str(svg, letters).ok()?;
    let size = tree.size().to_int_size().scale_by(scale)?;
    let mut picture = tiny_skia::Pixmap::new(size.width(), size.height())?;
    resvg::render(&tree, tiny_skia::Transform::from_scale(scale, scale), &mut picture.as_mut());
    picture.encode_png().ok()
}
