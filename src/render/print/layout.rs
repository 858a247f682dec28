//! What stands where on a page: boxes in millimetres with measured text. PDF, SVG, PNG and the tests read the same boxes.

use super::code::Code2d;
use super::letters::{PrintFace, Unprintable, printable};

/// 25.4 mm of an inch, 72 points of it.
pub const MM_PER_POINT: f64 = 25.4 / 72.0;
/// Nothing is printed smaller, in points: the least that is asked of a label here.
pub const SMALLEST_PT: f64 = 6.0;
/// From one line to the next, as a share of the letters' size: close, and no letter touches another.
const LINE: f64 = 1.17;

/// The height of a capital letter, as a share of the size: that of DejaVu, 1493 of 2048.
const CAPITAL: f64 = 0.729;
/// The height of a small letter: that of DejaVu, 1120 of 2048.
const SMALL_LETTER: f64 = 0.547;

/// The size of letters of which the small ones are so tall, points.
pub(super) fn points_of(small_letters_mm: f64) -> f64 {
    small_letters_mm / SMALL_LETTER / MM_PER_POINT
}

/// Everything that is printed, page by page.
#[derive(Clone, Debug, PartialEq)]
pub struct PrintSheet {
    /// What a reader shows as its name.
    pub title: String,
    /// Width and height of each page, mm.
    pub size: [f64; 2],
    /// What of a page a printer of labels is sent as a picture: left, top, width, height, mm.
    pub picture: [f64; 4],
    /// The pages.
    pub pages: Vec<Vec<PrintBox>>,
}

/// A thing on a page.
#[derive(Clone, Debug, PartialEq)]
pub struct PrintBox {
    /// Its left edge, mm.
    pub x: f64,
    /// Its upper edge, mm.
    pub y: f64,
    /// Its width, mm.
    pub width: f64,
    /// Its height, mm.
    pub height: f64,
    /// What is drawn.
    pub ink: PrintInk,
}

/// What is drawn in a box.
#[derive(Clone, Debug, PartialEq)]
pub enum PrintInk {
    /// One line of words.
    Words {
        /// The words.
        words: String,
        /// The size of the letters, points.
        points: f64,
        /// Their cut.
        face: PrintFace,
        /// Whether a paragraph begins with them.
        begins: bool,
    },
    /// A frame: a box to tick, or to write into.
    Frame,
    /// A line to write on.
    Line,
    /// A code that a camera reads.
    Code(Code2d),
}

impl PrintBox {
    /// The line that its letters stand on, mm from the top of the page.
    pub(super) fn baseline(&self, points: f64, face: PrintFace) -> f64 {
        self.y + points * MM_PER_POINT * face.lettering().above
    }

    /// Moved by so much, mm.
    pub(super) fn moved(mut self, by: [f64; 2]) -> Self {
        (self.x, self.y) = (self.x + by[0], self.y + by[1]);
        self
    }
}

/// How words are set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Setting {
    pub points: f64,
    pub face: PrintFace,
}

impl Setting {
    pub(super) fn bold(points: f64) -> Self {
        Self { points, face: PrintFace::Bold }
    }

    pub(super) fn plain(points: f64) -> Self {
        Self { points, face: PrintFace::Regular }
    }

    /// Of words, mm.
    pub(super) fn width(self, words: &str) -> f64 {
        self.points * MM_PER_POINT * self.face.lettering().width(words)
    }

    /// Of a line, mm.
    pub(super) fn line(self) -> f64 {
        self.points * MM_PER_POINT * LINE
    }

    /// One line of words at a place.
    pub(super) fn words(self, words: String, [x, y]: [f64; 2], begins: bool) -> PrintBox {
        let Self { points, face } = self;
        let (width, height) = (self.width(&words), self.line());
        PrintBox { x, y, width, height, ink: PrintInk::Words { words, points, face, begins } }
    }

    /// The words in lines, each no wider than the room for it; a word that is wider than a line is broken.
    pub(super) fn lines(self, words: &str, room: impl Fn(usize) -> f64) -> Vec<String> {
        let mut lines: Vec<String> = vec![String::new()];
        for word in words.split(' ') {
            let place = lines.len() - 1;
            let line = &lines[place];
            let joined = if line.is_empty() { word.to_owned() } else { format!("{line} {word}") };
            if self.width(&joined) <= room(place) {
                lines[place] = joined;
                continue;
            }
            if !lines[place].is_empty() {
                lines.push(String::new());
            }
            for letter in word.chars() {
                let place = lines.len() - 1;
                let longer = format!("{}{letter}", lines[place]);
                if self.width(&longer) <= room(place) || lines[place].is_empty() {
                    lines[place] = longer;
                } else {
                    lines.push(letter.to_string());
                }
            }
        }
        lines
    }
}

/// Words with how they are set.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Para {
    /// Its first words, in bold; alone, they are all of it.
    lead: String,
    words: String,
    points: f64,
    /// A box to tick stands before it.
    pub tick: bool,
    /// Room above it, mm.
    pub above: f64,
}

impl Para {
    /// Tidied for print.
    pub(super) fn new(lead: &str, words: &str, points: f64) -> Result<Self, Unprintable> {
        Ok(Self { lead: printable(lead)?, words: printable(words)?, points, tick: false, above: 0.0 })
    }

    /// Its first words on one line of so much room, mm; what does not fit is left out, with a sign of it.
    pub(super) fn shortened(mut self, room: f64) -> Self {
        let set = Setting::bold(self.points);
        if set.width(&self.lead) > room {
            while !self.lead.is_empty() && set.width(&format!("{}…", self.lead)) > room {
                self.lead.pop();
            }
            self.lead = format!("{}…", self.lead.trim_end());
        }
        self
    }
}

/// Where paragraphs go, one under the other.
pub(super) struct Column {
    pub left: f64,
    pub top: f64,
    pub width: f64,
    /// What stands in its upper right corner: its width, and where it ends, mm.
    pub corner: [f64; 2],
    pub boxes: Vec<PrintBox>,
}

impl Column {
    pub(super) fn new([left, top]: [f64; 2], width: f64) -> Self {
        Self { left, top, width, corner: [0.0, 0.0], boxes: Vec::new() }
    }

    /// Puts a paragraph under what is there; gives the number of its lines.
    pub(super) fn put(&mut self, para: &Para) -> usize {
        let alone = para.words.is_empty();
        let (bold, plain) = (Setting::bold(para.points), Setting::plain(para.points));
        let set = if alone { bold } else { plain };
        let line = set.line();
        let top = self.top + para.above;
        let tick = if para.tick { line * 1.15 } else { 0.0 };
        let lead = if alone || para.lead.is_empty() { 0.0 } else { bold.width(&para.lead) + plain.width(" ") };
        let room = |n: usize| {
            let beside = top + line * (n as f64) < self.corner[1];
            self.width - tick - if beside { self.corner[0] } else { 0.0 } - if n == 0 { lead } else { 0.0 }
        };
        let lines = set.lines(if alone { &para.lead } else { &para.words }, room);
        let count = lines.len();
        if para.tick {
            let side = para.points * MM_PER_POINT * CAPITAL;
            let y = top + para.points * MM_PER_POINT * set.face.lettering().above - side;
            self.boxes.push(PrintBox { x: self.left, y, width: side, height: side, ink: PrintInk::Frame });
        }
        if lead > 0.0 {
            self.boxes.push(bold.words(para.lead.clone(), [self.left + tick, top], true));
        }
        for (n, words) in lines.into_iter().enumerate() {
            let at = [self.left + tick + if n == 0 { lead } else { 0.0 }, top + line * n as f64];
            self.boxes.push(set.words(words, at, n == 0 && lead == 0.0));
        }
        self.top = top + line * count as f64;
        count
    }
}
