//! What the lots of a product say of its quality: the looks themselves, the fitted curve, the oldest age looked at, the date.

use crate::report::learn::LessonView;

use super::fit::title;
use super::ink::{BAND, CHOSEN, CURVE, Drawn, HPos, INK, LEFT, Sheet, dashed, fill, line, paper, write};
use super::life::{Axis, PANEL, PLOT_HEIGHT, PLOT_TOP, TITLE, TakenPlace, beside, grid};

const FOOT: i32 = 74;
/// Points of the curve.
const POINTS: i32 = 180;

/// What the lots say, a strip a store and recipe. An empty text where the drawing failed.
pub fn what_lots_say(lessons: &[LessonView]) -> String {
    let strips = i32::try_from(lessons.len()).unwrap_or(0);
    let height = TITLE + PANEL * strips + FOOT;
    paper(height, |sheet| draw(sheet, lessons, height))
}

fn draw(sheet: &Sheet<'_>, lessons: &[LessonView], height: i32) -> Drawn {
    let one = lessons.first().filter(|first| lessons.iter().all(|view| view.product == first.product));
    title(sheet, one.map_or("The lot book", |view| &view.product), "what the lots say")?;
    let shows = "share of lots still fine, by their age when they were looked at or finished";
    write(sheet, shows, (LEFT, 46), 13, false, HPos::Left, INK)?;
    let longest = |view: &LessonView| 1.3 * view.lesson.q50_days.max(view.lesson.oldest_fine_days);
    let axis = Axis { to: lessons.iter().map(longest).fold(14.0, f64::max).min(2000.0) };
    for (place, view) in (0..).zip(lessons) {
        strip(sheet, view, one.is_none(), &axis, TITLE + PANEL * place)?;
    }
    let words = [
        "steps: the lots · blue ground: between two looks · curve: with what was expected",
        "dashed: the oldest age that was looked at and fine · solid: the days that the lots bear",
        "Quality alone: no number of good lots lifts a date of safety.",
    ];
    for (line, text) in (0..).zip(words) {
        write(sheet, text, (LEFT, height - FOOT + 14 + 19 * line), 12, false, HPos::Left, INK)?;
    }
    Ok(())
}

fn strip(sheet: &Sheet<'_>, view: &LessonView, named: bool, axis: &Axis, top: i32) -> Drawn {
    let lesson = &view.lesson;
    let name = if named { format!("{}, ", view.product) } else { String::new() };
    let lots = if lesson.lots == 1 { "1 lot".to_owned() } else { format!("{} lots", lesson.lots) };
    let heading = format!("{name}{}: {lots}, {} of them going or off", lesson.store, lesson.refused);
    write(sheet, &heading, (LEFT, top + 16), 15, true, HPos::Left, INK)?;
    let (y0, y1) = (top + PLOT_TOP, top + PLOT_TOP + PLOT_HEIGHT);
    let y = |share: f64| y1 - (f64::from(PLOT_HEIGHT) * share).round() as i32;
    let mut left = 1.0;
    let mut from = LEFT;
    let mut steps = Vec::new();
    for mass in lesson.shares.iter().filter(|mass| mass.up_to.is_finite()) {
        let (after, up_to) = (axis.x(mass.after), axis.x(mass.up_to));
        let (high, low) = (y(left), y(left - mass.share));
        fill(sheet, &[(after, high), (up_to, high), (up_to, low), (after, low)], BAND)?;
        steps.push([(from, high), (after, high)]);
        (left, from) = (left - mass.share, up_to);
    }
    let last = axis.x(lesson.oldest_fine_days);
    steps.push([(from, y(left)), (last.max(from), y(left))]);
    grid(sheet, axis, y0, y1)?;
    let mut taken = TakenPlace { boxes: Vec::new(), within: (y0, y1) };
    let days = |point: i32| axis.to.powf(f64::from(point) / f64::from(POINTS));
    let curve: Vec<(i32, i32)> =
        (0..=POINTS).map(|point| (axis.x(days(point)), y(1.0 - view.looks.learned.refused_by(days(point))))).collect();
    line(sheet, &curve, CURVE, 3)?;
    taken.by_line(&curve);
    for step in &steps {
        line(sheet, step, INK, 2)?;
        taken.by_line(step);
    }
    dashed(sheet, last, y0, y1)?;
    taken.boxes.push((last - 3, y0, last + 3, y1));
    let borne = lesson.accepted_days.unwrap_or(lesson.offered_days);
    let x = axis.x(f64::from(borne));
    line(sheet, &[(x, y0 - 6), (x, y1)], CHOSEN, 3)?;
    taken.boxes.push((x - 3, y0, x + 3, y1));
    let word = if lesson.accepted_days.is_some() { "taken" } else { "offered" };
    beside(sheet, [word, &format!("{borne} days")], x, &mut taken, CHOSEN)?;
    beside(sheet, ["looked at to", &format!("{:.0} days", lesson.oldest_fine_days)], last, &mut taken, INK)
}
