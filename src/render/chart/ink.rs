//! What every chart is drawn with: lines, areas and words on a sheet of paper, in the pixels that are shown.

use plotters::prelude::*;
pub(super) use plotters::style::RGBColor as Colour;
pub(super) use plotters::style::text_anchor::HPos;
use plotters::style::text_anchor::Pos;
use plotters::style::text_anchor::VPos;

use crate::render::html::ruly;

/// `plotters` counts whole pixels: everything is drawn this many times as large, and shown at its own size.
pub(super) const FINE: i32 = 4;
pub(super) const WIDTH: i32 = 800;
/// Left and right edge of the plots, pixels.
pub(super) const LEFT: i32 = 58;
pub(super) const RIGHT: i32 = 780;

pub(super) const INK: RGBColor = RGBColor(28, 36, 44);
pub(super) const CURVE: RGBColor = RGBColor(24, 78, 119);
pub(super) const BAND: RGBColor = RGBColor(176, 203, 222);
pub(super) const CHOSEN: RGBColor = RGBColor(150, 30, 20);
pub(super) const FAINT: RGBColor = RGBColor(205, 210, 214);
/// What is usually quoted: lighter than everything that is computed.
pub(super) const QUOTED: RGBColor = RGBColor(242, 240, 232);
pub(super) const REFUSED: RGBColor = RGBColor(236, 236, 236);

pub(super) type Sheet<'a> = DrawingArea<SVGBackend<'a>, plotters::coord::Shift>;
pub(super) type Drawn = Result<(), DrawingAreaErrorKind<std::io::Error>>;

/// A drawing of this height as SVG; an empty text where it failed.
pub(super) fn paper(height: i32, draw: impl FnOnce(&Sheet<'_>) -> Drawn) -> String {
    paper_of((WIDTH, height), draw)
}

/// The same of another width.
pub(super) fn paper_of((width, height): (i32, i32), draw: impl FnOnce(&Sheet<'_>) -> Drawn) -> String {
    let mut svg = String::new();
    let size = ((width * FINE).unsigned_abs(), (height * FINE).unsigned_abs());
    let drawn = {
        let sheet = SVGBackend::with_string(&mut svg, size).into_drawing_area();
        sheet.fill(&WHITE).and_then(|()| draw(&sheet)).and_then(|()| sheet.present())
    };
    match drawn {
        Ok(()) => shown_at(&svg, size, (width, height)),
        Err(_) => String::new(),
    }
}

fn shown_at(svg: &str, (w, h): (u32, u32), (width, height): (i32, i32)) -> String {
    svg.replacen(&format!("width=\"{w}\" height=\"{h}\""), &format!("width=\"{width}\" height=\"{height}\""), 1)
}

fn at(points: &[(i32, i32)]) -> Vec<(i32, i32)> {
    points.iter().map(|(x, y)| (x * FINE, y * FINE)).collect()
}

pub(super) fn line(sheet: &Sheet<'_>, points: &[(i32, i32)], colour: RGBColor, width: u32) -> Drawn {
    sheet.draw(&PathElement::new(at(points), colour.stroke_width(width * FINE.unsigned_abs())))
}

pub(super) fn dashed(sheet: &Sheet<'_>, x: i32, y0: i32, y1: i32) -> Drawn {
    let mut y = y0 - 6;
    while y < y1 {
        line(sheet, &[(x, y), (x, (y + 6).min(y1))], INK, 2)?;
        y += 10;
    }
    Ok(())
}

pub(super) fn fill(sheet: &Sheet<'_>, outline: &[(i32, i32)], colour: RGBColor) -> Drawn {
    sheet.draw(&Polygon::new(at(outline), colour.filled()))
}

/// Words, vertically centred on their place. `plotters` makes a letter 1.24 times smaller than asked.
pub(super) fn write(
    sheet: &Sheet<'_>,
    words: &str,
    place: (i32, i32),
    size: i32,
    bold: bool,
    side: HPos,
    ink: RGBColor,
) -> Drawn {
    let style = if bold { FontStyle::Bold } else { FontStyle::Normal };
    let font = FontDesc::new(FontFamily::SansSerif, 1.24 * f64::from(size * FINE), style);
    let style = TextStyle::from(font).color(&ink).pos(Pos::new(side, VPos::Center));
    // a drawing may stand inside a page
    let words: String = words.chars().map(ruly).collect();
    sheet.draw(&Text::new(words, (place.0 * FINE, place.1 * FINE), style))
}

/// A text in lines of at most so many letters.
pub(super) fn broken(text: &str, letters: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        match lines.last_mut() {
            Some(last) if last.chars().count() + 1 + word.chars().count() <= letters => {
                last.push(' ');
                last.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}
