//! The papers: how large they are, and where on them something may stand.

use crate::vocabulary::words;

use super::svg::DOTS_PER_MM;

words! {
    /// A paper for labels.
    LabelSize, "size of label":
    Roll = "roll" | "62x29",
    Large = "large" | "102x152",
    Sheet = "sheet" | "21",
}

words! {
    /// A paper for cards.
    CardSize, "size of card":
    A6 = "A6",
    A5 = "A5",
}

impl CardSize {
    /// Width and height, mm: ISO 216.
    pub(super) fn size(self) -> [f64; 2] {
        match self {
            Self::A6 => [105.0, 148.0],
            Self::A5 => [148.0, 210.0],
        }
    }
}

/// What a roll's printer reaches: 696 x 271 dots of 300 to the inch, in the middle of its 62 x 29 mm (from memory; it is
/// what such printers take as a picture).
const ROLL_DOTS: [f64; 2] = [696.0, 271.0];
/// What of that is left free to the left and right, in dots: rolls wander (ours).
const ROLL_EDGE_DOTS: f64 = 6.0;
/// A4: ISO 216.
const A4: [f64; 2] = [210.0, 297.0];
/// A sheet of 21: three columns of seven, in the middle of the sheet, with so much between columns and nothing between rows
/// (common practice, no source).
const ACROSS: usize = 3;
const DOWN: usize = 7;
const LABEL: [f64; 2] = [63.5, 38.1];
const BETWEEN: f64 = 2.54;

/// How a paper is printed on.
pub(super) struct LabelPaper {
    /// A page, mm.
    pub page: [f64; 2],
    /// What is sent as a picture: left, top, width, height, mm.
    pub picture: [f64; 4],
    /// The upper left corners of its labels, where words may begin, mm.
    pub places: Vec<[f64; 2]>,
    /// The room for words on each, mm.
    pub room: [f64; 2],
    /// The largest letters of a name, points (ours).
    pub name_pt: f64,
    /// A module of the code, in dots of 300 to the inch: four are a third of a millimetre, which a telephone reads (ours).
    pub module_dots: f64,
    /// Whether the code lies above the foot, in place of the upper corner.
    pub code_below: bool,
    /// The height of the line at its foot, mm (ours).
    pub foot: f64,
}

impl LabelSize {
    pub(super) fn paper(self) -> LabelPaper {
        match self {
            Self::Roll => {
                let page = [62.0, 29.0];
                let [wide, high] = ROLL_DOTS.map(|dots| dots / DOTS_PER_MM);
                let reached = [(page[0] - wide) / 2.0, (page[1] - high) / 2.0];
                let picture = [reached[0], reached[1], wide, high];
                let edge = ROLL_EDGE_DOTS / DOTS_PER_MM;
                let room = [wide - 2.0 * edge, high];
                let (places, name_pt) = (vec![[reached[0] + edge, reached[1]]], 15.0);
                LabelPaper { page, picture, places, room, name_pt, module_dots: 4.0, code_below: false, foot: 4.0 }
            }
            Self::Large => {
                let (page, margin) = ([102.0, 152.0], 5.0);
                let room = page.map(|side| side - 2.0 * margin);
                let picture = [0.0, 0.0, page[0], page[1]];
                let places = vec![[margin, margin]];
                LabelPaper {
                    page,
                    picture,
                    places,
                    room,
                    name_pt: 40.0,
                    module_dots: 8.0,
                    code_below: true,
                    foot: 10.0,
                }
            }
            Self::Sheet => {
                // labels have round corners, and a sheet is never drawn in straight
                let margin = 2.5;
                let wide = ACROSS as f64 * LABEL[0] + (ACROSS - 1) as f64 * BETWEEN;
                let corner = [(A4[0] - wide) / 2.0, (A4[1] - DOWN as f64 * LABEL[1]) / 2.0];
                let place = |n: usize| {
                    let [column, row] = [n % ACROSS, n / ACROSS].map(|n| n as f64);
                    [corner[0] + column * (LABEL[0] + BETWEEN) + margin, corner[1] + row * LABEL[1] + margin]
                };
                LabelPaper {
                    page: A4,
                    picture: [0.0, 0.0, A4[0], A4[1]],
                    places: (0..ACROSS * DOWN).map(place).collect(),
                    room: LABEL.map(|side| side - 2.0 * margin),
                    name_pt: 18.0,
                    module_dots: 4.0,
                    code_below: false,
                    foot: 5.0,
                }
            }
        }
    }

    /// How many labels a page has.
    pub fn on_a_page(self) -> usize {
        self.paper().places.len()
    }
}
