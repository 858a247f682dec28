//! The pages as PDF: the letters embedded, the text searchable, read aloud in its order (PDF/UA-1, by krilla's validator).

use krilla::color::luma;
use krilla::configure::{Accessibility, Configuration, ConfigurationBuilder};
use krilla::destination::XyzDestination;
use krilla::geom::{Path, PathBuilder, Point, Rect};
use krilla::metadata::Metadata;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::paint::{Fill, Stroke};
use krilla::surface::Surface;
use krilla::tagging::{Artifact, ArtifactType, ContentTag, Node, SpanTag, Tag, TagGroup, TagTree};
use krilla::text::{Font, GlyphId, KrillaGlyph};
use krilla::{Document, SerializeSettings};

use super::STROKE_MM;
use super::code::Code2d;
use super::layout::{MM_PER_POINT, PrintBox, PrintInk, PrintSheet};
use super::letters::PrintFace;

/// The language of the words that this program writes.
const LANGUAGE: &str = "en";

fn pt(mm: f64) -> f32 {
    (mm / MM_PER_POINT) as f32
}

/// The document.
///
/// # Errors
/// What of the standard it does not keep, in the words of the validator: a fault of this program.
pub fn pdf(sheet: &PrintSheet) -> Result<Vec<u8>, String> {
    let settings = SerializeSettings { configuration: configuration()?, ..SerializeSettings::default() };
    let mut document = Document::new_with(settings);
    let fonts = [font(PrintFace::Regular)?, font(PrintFace::Bold)?];
    let mut tree = TagTree::new().with_lang(Some(LANGUAGE.to_owned()));
    let mut outline = Outline::new();
    let [width, height] = sheet.size.map(pt);
    for (number, boxes) in sheet.pages.iter().enumerate() {
        let page = PageSettings::from_wh(width, height).ok_or("a page without a size")?;
        let mut page = document.start_page_with(page);
        let mut surface = page.surface();
        surface.set_fill(Some(Fill { paint: luma::Color::black().into(), ..Fill::default() }));
        for group in tagged(&mut surface, &fonts, boxes) {
            tree.push(Node::Group(group));
        }
        surface.finish();
        page.finish();
        let title = if number == 0 { sheet.title.clone() } else { format!("{}, page {}", sheet.title, number + 1) };
        outline.push_child(OutlineNode::new(title, XyzDestination::new(number, Point::from_xy(0.0, 0.0))));
    }
    document.set_outline(outline);
    document.set_tag_tree(tree);
    let metadata = Metadata::new().title(sheet.title.clone()).language(LANGUAGE.to_owned());
    document.set_metadata(metadata.producer(env!("CARGO_PKG_NAME").to_owned()));
    document.finish().map_err(|error| error.to_string())
}

fn configuration() -> Result<Configuration, String> {
    let asked = ConfigurationBuilder::new().with_accessibility_validator(Accessibility::UA1).finish();
    asked.map_err(|error| format!("{error:?}"))
}

fn font(face: PrintFace) -> Result<Font, String> {
    Font::new(face.file().into(), 0).ok_or_else(|| "the letters cannot be embedded".to_owned())
}

/// Draws the boxes, and gives the paragraphs and figures that they are, in reading order.
fn tagged(surface: &mut Surface<'_>, fonts: &[Font; 2], boxes: &[PrintBox]) -> Vec<TagGroup> {
    let mut groups: Vec<TagGroup> = Vec::new();
    for drawn in boxes {
        match &drawn.ink {
            PrintInk::Words { words, points, face, begins } => {
                let said = surface.start_tagged(ContentTag::Span(SpanTag::empty()));
                let start = Point::from_xy(pt(drawn.x), pt(drawn.baseline(*points, *face)));
                let font = fonts[usize::from(*face == PrintFace::Bold)].clone();
                surface.draw_glyphs(start, &glyphs(*face, words), font, words, *points as f32, false);
                surface.end_tagged();
                match groups.last_mut().filter(|_| !begins) {
                    Some(group) => group.push(said),
                    None => groups.push(TagGroup::with_children(Tag::P, vec![said.into()])),
                }
            }
            PrintInk::Code(code) => {
                let shown = surface.start_tagged(ContentTag::Other);
                if let Some(path) = modules(drawn, code) {
                    surface.draw_path(&path);
                }
                surface.end_tagged();
                let alt = format!("QR code: {}", code.says);
                groups.push(TagGroup::with_children(Tag::Figure(Some(alt)), vec![shown.into()]));
            }
            PrintInk::Frame | PrintInk::Line => {
                surface.start_tagged(ContentTag::Artifact(Artifact::with_kind(ArtifactType::Layout)));
                if let Some(path) = outline_of(drawn) {
                    stroked(surface, &path);
                }
                surface.end_tagged();
            }
        }
    }
    groups
}

fn glyphs(face: PrintFace, words: &str) -> Vec<KrillaGlyph> {
    let letters = face.lettering();
    let glyph = |(at, letter): (usize, char)| {
        let id = GlyphId::new(letters.glyph(letter).unwrap_or_default().to_u32());
        KrillaGlyph::new(id, letters.advance(letter) as f32, 0.0, 0.0, 0.0, at..at + letter.len_utf8(), None)
    };
    words.char_indices().map(glyph).collect()
}

fn modules(drawn: &PrintBox, code: &Code2d) -> Option<Path> {
    let side = drawn.width / code.with_border() as f64;
    let mut path = PathBuilder::new();
    for (column, row, count) in code.runs() {
        let [x, y] = [drawn.x + side * column as f64, drawn.y + side * row as f64];
        path.push_rect(Rect::from_xywh(pt(x), pt(y), pt(side * count as f64), pt(side))?);
    }
    path.finish()
}

/// A frame is drawn inside its box, so that nothing of it lies outside.
fn outline_of(drawn: &PrintBox) -> Option<Path> {
    let mut path = PathBuilder::new();
    let half = STROKE_MM / 2.0;
    if drawn.ink == PrintInk::Frame {
        let [width, height] = [drawn.width, drawn.height].map(|side| pt(side - STROKE_MM));
        path.push_rect(Rect::from_xywh(pt(drawn.x + half), pt(drawn.y + half), width, height)?);
    } else {
        let y = pt(drawn.y + drawn.height / 2.0);
        path.move_to(pt(drawn.x), y);
        path.line_to(pt(drawn.x + drawn.width), y);
    }
    path.finish()
}

fn stroked(surface: &mut Surface<'_>, path: &Path) {
    let fill = surface.get_fill().cloned();
    let black = Stroke { paint: luma::Color::black().into(), width: pt(STROKE_MM), ..Stroke::default() };
    surface.set_fill(None);
    surface.set_stroke(Some(black));
    surface.draw_path(path);
    surface.set_stroke(None);
    surface.set_fill(fill);
}
