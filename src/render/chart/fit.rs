//! Words that must find room: measured by the letters that a picture is lettered with.

use resvg::usvg;

use super::LETTERS;
use super::ink::{Drawn, HPos, INK, LEFT, RIGHT, Sheet, write};

pub(super) fn width(words: &str, size: i32, bold: bool) -> f32 {
    let weight = if bold { "bold" } else { "normal" };
    let escaped = words.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;");
    let svg = format!(
        "<svg xmlns='http://www.w3.org/2000/svg' width='1' height='1'>\
         <text font-family='sans-serif' font-size='{size}' font-weight='{weight}'>{escaped}</text></svg>"
    );
    usvg::Tree::from_str(&svg, &LETTERS).map_or(0.0, |tree| tree.root().abs_bounding_box().width())
}

/// Words that are no wider than the room for them: what does not fit is left out at the end, with a sign of it.
pub(super) fn shortened(words: &str, room: f32, size: i32, bold: bool) -> String {
    if width(words, size, bold) <= room {
        return words.to_owned();
    }
    let ends: Vec<usize> = words.char_indices().map(|(at, _)| at).collect();
    let cut = |end: usize| format!("{}…", words.get(..end).unwrap_or_default().trim_end());
    let fit = ends.partition_point(|end| width(&cut(*end), size, bold) <= room);
    cut(ends.get(fit.saturating_sub(1)).copied().unwrap_or(0))
}

/// The title of a chart: a product's name, as much of it as there is room for, and what is shown of it.
pub(super) fn title(sheet: &Sheet<'_>, name: &str, shows: &str) -> Drawn {
    title_within(sheet, [name, shows], (LEFT, RIGHT), (22, 20))
}

/// The same between two edges, at a height and of a size.
pub(super) fn title_within(
    sheet: &Sheet<'_>,
    [name, shows]: [&str; 2],
    (left, right): (i32, i32),
    (y, size): (i32, i32),
) -> Drawn {
    let room = (right - left) as f32 - width(&format!(": {shows}"), size, true);
    let words = format!("{}: {shows}", shortened(name, room, size, true));
    write(sheet, &words, (left, y), size, true, HPos::Left, INK)
}
