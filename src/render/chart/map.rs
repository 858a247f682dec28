//! A map of one thing against another, small enough to be read on a phone: axes, points, and words that lie over nothing.

use std::ops::Range;

use plotters::coord::cartesian::Cartesian2d;
use plotters::coord::ranged1d::Ranged;
use plotters::coord::types::RangedCoordf64;
use plotters::prelude::*;

use super::fit::{shortened, title_within, width};
use super::ink::{Colour, Drawn, FAINT, FINE, HPos, INK, Sheet, line, paper_of, write};
use super::life::TakenPlace;

/// Edges of a sheet and of its plot, pixels: as wide as a phone shows it without making its letters smaller.
pub(super) const SHEET: i32 = 360;
const LEFT: i32 = 44;
const RIGHT: i32 = SHEET - 12;
const TOP: i32 = 60;
const BOTTOM: i32 = 264;
/// Below the plot: the ticks, the name of the axis, and a line of words.
const WORDS: i32 = BOTTOM + 54;
const LINE: i32 = 18;
const SIZE: i32 = 13;

type Plane<'a> = DrawingArea<SVGBackend<'a>, Cartesian2d<RangedCoordf64, RangedCoordf64>>;

/// What is said of a map: of what it is and what it shows, the names of its axes, and lines of words beneath.
pub(super) struct Legend<'a> {
    pub name: &'a str,
    pub shows: &'static str,
    pub axes: [&'static str; 2],
    pub below: Vec<String>,
}

/// A map while it is drawn.
pub(super) struct Map<'a, 'b> {
    sheet: &'a Sheet<'b>,
    plane: Plane<'b>,
    taken: TakenPlace,
}

/// A map of these ranges; an empty text where the drawing failed.
pub(super) fn map(
    legend: &Legend<'_>,
    x: Range<f64>,
    y: Range<f64>,
    draw: impl FnOnce(&mut Map<'_, '_>) -> Drawn,
) -> String {
    let lines = i32::try_from(legend.below.len()).unwrap_or(0);
    let height = WORDS + LINE * lines;
    paper_of((SHEET, height), |sheet| {
        title_within(sheet, [legend.name, legend.shows], (10, SHEET - 10), (18, 14))?;
        // pixels are counted downwards
        let pixels = (LEFT * FINE..RIGHT * FINE, Range { start: BOTTOM * FINE, end: TOP * FINE });
        let plane =
            sheet.apply_coord_spec(Cartesian2d::<RangedCoordf64, RangedCoordf64>::new(x.clone(), y.clone(), pixels));
        let mut map = Map { sheet, plane, taken: TakenPlace { boxes: Vec::new(), within: (TOP, BOTTOM) } };
        draw(&mut map)?;
        map.axes(legend, x, y)?;
        for (place, said) in (0..).zip(&legend.below) {
            let said = shortened(said, (SHEET - 20) as f32, SIZE, false);
            write(sheet, &said, (10, WORDS + LINE * place), SIZE, false, HPos::Left, INK)?;
        }
        Ok(())
    })
}

impl Map<'_, '_> {
    /// Where a point stands, in the pixels that are shown.
    fn at(&self, x: f64, y: f64) -> (i32, i32) {
        let (x, y) = self.plane.map_coordinate(&(x, y));
        (x / FINE, y / FINE)
    }

    fn axes(&self, legend: &Legend<'_>, x: Range<f64>, y: Range<f64>) -> Drawn {
        let ticks = |of: Range<f64>, most: usize| RangedCoordf64::from(of).key_points(most);
        for tick in ticks(x, 7) {
            let (at, _) = self.at(tick, 0.0);
            line(self.sheet, &[(at, BOTTOM), (at, BOTTOM + 4)], INK, 1)?;
            write(self.sheet, &tick.to_string(), (at, BOTTOM + 14), 12, false, HPos::Center, INK)?;
        }
        for tick in ticks(y, 6) {
            let (_, at) = self.at(0.0, tick);
            line(self.sheet, &[(LEFT - 4, at), (LEFT, at)], INK, 1)?;
            write(self.sheet, &tick.to_string(), (LEFT - 7, at), 12, false, HPos::Right, INK)?;
        }
        line(self.sheet, &[(LEFT, TOP), (LEFT, BOTTOM), (RIGHT, BOTTOM)], INK, 1)?;
        let [x, y] = legend.axes;
        write(self.sheet, x, (RIGHT, BOTTOM + 32), SIZE, false, HPos::Right, INK)?;
        write(self.sheet, y, (10, TOP - 19), SIZE, false, HPos::Left, INK)
    }

    /// Words stay away from this line as well.
    pub(super) fn keep_free(&mut self, points: &[(f64, f64)]) {
        let shown: Vec<_> = points.iter().map(|(x, y)| self.at(*x, *y)).collect();
        self.taken.by_line(&shown);
    }

    /// An area between these points.
    pub(super) fn area(&self, points: &[(f64, f64)], colour: Colour) -> Drawn {
        self.plane.draw(&Polygon::new(points.to_vec(), colour.filled()))
    }

    pub(super) fn curve(&mut self, points: &[(f64, f64)], colour: Colour, thick: u32) -> Drawn {
        self.keep_free(points);
        self.plane.draw(&PathElement::new(points.to_vec(), colour.stroke_width(thick * FINE.unsigned_abs())))
    }

    pub(super) fn point(&mut self, (x, y): (f64, f64), colour: Colour) -> Drawn {
        /// Its radius, pixels.
        const WIDE: i32 = 5;
        let (left, top) = self.at(x, y);
        self.taken.boxes.push((left - WIDE, top - WIDE, left + WIDE, top + WIDE));
        let rim = Circle::new((x, y), (WIDE + 1) * FINE, WHITE.filled());
        self.plane.draw(&rim)?;
        self.plane.draw(&Circle::new((x, y), WIDE * FINE, colour.filled()))
    }

    /// The name of a region, where it lies over nothing: left out where there is no room for it. The first of its places
    /// from the middle outwards.
    pub(super) fn named(&mut self, words: &str, x: Range<f64>, y: Range<f64>) -> Drawn {
        let (left, bottom) = self.at(x.start, y.start);
        let (right, top) = self.at(x.end, y.end);
        let wide = width(words, SIZE, true).ceil() as i32;
        let (middle_x, middle_y) = ((left + right - wide) / 2, (top + bottom) / 2);
        let mut places: Vec<(i32, i32)> = (left + 6..=right - wide - 6)
            .step_by(4)
            .flat_map(|x| (top + 12..=bottom - 12).step_by(4).map(move |y| (x, y)))
            .collect();
        places.sort_by_key(|(x, y)| (x - middle_x).abs() + (y - middle_y).abs());
        let is_free = |(x, y): &(i32, i32)| self.taken.under((x - 4, y - 11, x + wide + 4, y + 11)) == 0;
        let Some((x, y)) = places.into_iter().find(is_free) else { return Ok(()) };
        self.taken.boxes.push((x - 4, y - 11, x + wide + 4, y + 11));
        write(self.sheet, words, (x, y), SIZE, true, HPos::Left, INK)
    }

    /// A limit: a line that words stay away from.
    pub(super) fn limit(&mut self, from: (f64, f64), to: (f64, f64)) -> Drawn {
        self.curve(&[from, to], FAINT, 2)
    }
}

/// Up to the next ten, hundred or other step.
pub(super) fn up_to(value: f64, step: f64) -> f64 {
    (value / step).ceil() * step
}
