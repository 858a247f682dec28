//! The Pearson square: two sides, what is wanted between them, and how many parts of each.

use crate::card::TargetKind;
use crate::properties::value_of;
use crate::render::text::square::{parts, strength};
use crate::report::square::SquareView;
use crate::solver::square::SquareKind;
use crate::solver::{Solved, SolvedPart};
use crate::units::display::grouped;

use super::fit::{shortened, title_within};
use super::ink::{CHOSEN, CURVE, Drawn, HPos, INK, Sheet, line, paper_of, write};
use super::map::SHEET;

const HEIGHT: i32 = 232;
/// Where the sides and the parts stand, pixels: the strong one above.
const ROWS: [i32; 2] = [72, 162];
const MIDDLE: (i32, i32) = (SHEET / 2, (ROWS[0] + ROWS[1]) / 2);

/// A side: what it is called, how strong, how many parts of it, and grams.
struct MixedSide {
    name: String,
    value: f64,
    parts: f64,
    grams: f64,
}

/// The square of three strengths.
pub(crate) fn pearson_square(view: &SquareView) -> String {
    let weak = if view.weak == 0.0 { "water" } else { "weak" };
    let side = |name: &str, value, parts, grams| MixedSide { name: name.to_owned(), value, parts, grams };
    let sides = [
        side("strong", view.strong, view.square.strong_parts, view.exact.strong_mass_g),
        side(weak, view.weak, view.square.weak_parts, view.exact.weak_mass_g),
    ];
    square(["The Pearson square", "parts of each"], view.of, &sides, view.target)
}

/// The square of a card that is mixed from two: of a spirit and what weakens it, or of what is sweet and what thins it. `None`
/// of every other card.
pub fn square_of_card(solved: &Solved) -> Option<String> {
    let [stage] = solved.stages.as_slice() else { return None };
    let [one, other] = stage.parts.as_slice() else { return None };
    let is_mixed = |part: &SolvedPart| part.feed.holds.is_none() && part.melts.is_none() && part.mass_g > 0.0;
    if !is_mixed(one) || !is_mixed(other) || stage.lost.evaporated != 0.0 {
        return None;
    }
    let of = |kind, part: &SolvedPart| value_of(kind, &part.found.per_gram).map(tenths);
    let kinds = [(SquareKind::Abv, TargetKind::Abv), (SquareKind::Brix, TargetKind::Brix)];
    kinds.into_iter().find_map(|(drawn, kind)| {
        let (target, a, b) = (tenths(value_of(kind, solved.bottled())?), of(kind, one)?, of(kind, other)?);
        let (strong, weak) = if a >= b { ((one, a), (other, b)) } else { ((other, b), (one, a)) };
        // the sides are far enough apart to be drawn, and what is wanted lies between them
        if !(strong.1 - weak.1 >= 1.0 && weak.1 < target && target < strong.1) {
            return None;
        }
        let side = |(part, value): (&SolvedPart, f64), parts| MixedSide {
            name: part.label.clone(),
            value,
            parts,
            grams: part.mass_g,
        };
        let sides = [side(strong, target - weak.1), side(weak, strong.1 - target)];
        Some(square([&solved.name, "mixed from two"], drawn, &sides, target))
    })
}

/// As it is printed: parts are counted from what is read.
fn tenths(value: f64) -> f64 {
    (10.0 * value).round() / 10.0
}

fn square(title: [&str; 2], of: SquareKind, sides: &[MixedSide; 2], target: f64) -> String {
    paper_of((SHEET, HEIGHT), |sheet| drawn(sheet, title, of, sides, target))
}

fn drawn(sheet: &Sheet<'_>, title: [&str; 2], of: SquareKind, sides: &[MixedSide; 2], target: f64) -> Drawn {
    title_within(sheet, title, (10, SHEET - 10), (18, 14))?;
    // what is long stands above the strong side and below the weak one, out of the way of the lines
    for ((side, y), beyond) in sides.iter().zip(ROWS).zip([-20, 20]) {
        write(sheet, &shortened(&side.name, 250.0, 13, true), (10, y + beyond), 13, true, HPos::Left, INK)?;
        write(sheet, &strength(of, side.value), (10, y), 13, false, HPos::Left, INK)?;
        let count = format!("{} parts", parts(side.parts));
        write(sheet, &count, (SHEET - 10, y), 13, true, HPos::Right, INK)?;
        let grams = format!("{} g", grouped(side.grams, usize::from(side.grams < 20.0)));
        write(sheet, &grams, (SHEET - 10, y + beyond), 13, false, HPos::Right, INK)?;
    }
    // from each side through what is wanted to the other's parts, and no word on the way
    let (x, y) = MIDDLE;
    for ([from, to], colour) in [([ROWS[0], ROWS[1]], CURVE), ([ROWS[1], ROWS[0]], CHOSEN)] {
        let toward = |end: i32| if end < y { y - 16 } else { y + 16 };
        line(sheet, &[(92, from), (x - 40, toward(from))], colour, 2)?;
        line(sheet, &[(x + 40, toward(to)), (SHEET - 102, to)], colour, 2)?;
    }
    let rim = [(x - 40, y - 16), (x + 40, y - 16), (x + 40, y + 16), (x - 40, y + 16), (x - 40, y - 16)];
    line(sheet, &rim, INK, 1)?;
    write(sheet, &strength(of, target), MIDDLE, 14, true, HPos::Center, INK)?;
    let how = match of {
        SquareKind::Abv => "parts by volume; the grams are exact",
        SquareKind::Brix => "parts by weight: exact, as the grams are",
    };
    write(sheet, how, (10, HEIGHT - 14), 12, false, HPos::Left, INK)
}
