//! A page as SVG in millimetres, and the same as PNG at the 300 dots an inch of a label printer.

use std::fmt::Write as _;
use std::sync::LazyLock;

use resvg::usvg;

use crate::render::html::escaped;
use crate::render::picture;

use super::STROKE_MM;
use super::layout::{MM_PER_POINT, PrintBox, PrintInk, PrintSheet};
use super::letters::PrintFace;

/// Dots of a label printer: 300 to the inch.
pub const DOTS_PER_MM: f64 = 300.0 / 25.4;

/// Where a measure is printed to: a ten thousandth of a millimetre.
fn mm(value: f64) -> String {
    let text = format!("{value:.4}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// One page, the part of it that is sent as a picture, in millimetres.
pub fn svg(sheet: &PrintSheet, page: usize) -> String {
    let [_, _, width, height] = sheet.picture;
    drawn(sheet, page, &format!("width=\"{}mm\" height=\"{}mm\"", mm(width), mm(height)))
}

fn drawn(sheet: &PrintSheet, page: usize, size: &str) -> String {
    let [left, top, width, height] = sheet.picture.map(mm);
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" {size} viewBox=\"{left} {top} {width} {height}\">\n\
         <title>{}</title>\n<rect x=\"{left}\" y=\"{top}\" width=\"{width}\" height=\"{height}\" fill=\"#fff\"/>\n",
        escaped(&sheet.title)
    );
    for thing in sheet.pages.get(page).into_iter().flatten() {
        out.push_str(&element(thing));
    }
    out + "</svg>\n"
}

fn element(thing: &PrintBox) -> String {
    let [x, y, width, height] = [thing.x, thing.y, thing.width, thing.height];
    let half = STROKE_MM / 2.0;
    let stroke = mm(STROKE_MM);
    match &thing.ink {
        PrintInk::Words { words, points, face, .. } => {
            let weight = if *face == PrintFace::Bold { " font-weight=\"bold\"" } else { "" };
            let [at, base, size] = [x, thing.baseline(*points, *face), points * MM_PER_POINT].map(mm);
            // the width is told, so that other letters take no more room than these
            format!(
                "<text x=\"{at}\" y=\"{base}\" font-family=\"DejaVu Sans Condensed, DejaVu Sans, sans-serif\" \
                 font-stretch=\"condensed\" font-kerning=\"none\" font-size=\"{size}\"{weight} textLength=\"{}\" \
                 lengthAdjust=\"spacingAndGlyphs\" xml:space=\"preserve\">{}</text>\n",
                mm(width),
                escaped(words)
            )
        }
        PrintInk::Frame => format!(
            "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"none\" stroke=\"#000\" stroke-width=\"{stroke}\"/>\n",
            mm(x + half),
            mm(y + half),
            mm(width - STROKE_MM),
            mm(height - STROKE_MM)
        ),
        PrintInk::Line => {
            let y = mm(y + height / 2.0);
            let (x, end) = (mm(x), mm(x + width));
            format!("<path d=\"M{x} {y}H{end}\" stroke=\"#000\" stroke-width=\"{stroke}\"/>\n")
        }
        PrintInk::Code(code) => {
            let mut path = String::new();
            for (column, row, count) in code.runs() {
                let _ = write!(path, "M{column} {row}h{count}v1h-{count}z");
            }
            let side = width / code.with_border() as f64;
            let [x, y] = [x, y].map(mm);
            format!(
                "<path transform=\"translate({x} {y}) scale({side:.6})\" shape-rendering=\"crispEdges\" d=\"{path}\"/>\n"
            )
        }
    }
}

/// One page as PNG, black on white; `None` where it could not be made.
pub fn png(sheet: &PrintSheet, page: usize) -> Option<Vec<u8>> {
    static LETTERS: LazyLock<usvg::Options<'static>> = LazyLock::new(|| {
        picture::letters(&[PrintFace::Regular.file(), PrintFace::Bold.file()], "DejaVu Sans Condensed")
    });
    let [_, _, width, height] = sheet.picture;
    let [width, height] = [width, height].map(|side| (side * DOTS_PER_MM).round());
    picture::png(&drawn(sheet, page, &format!("width=\"{width}\" height=\"{height}\"")), &LETTERS, 1.0)
}
