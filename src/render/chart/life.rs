//! The share of lots expected without visible growth against days, store by store.

use crate::assessment::{Assessment, DatedStore, storage};
use crate::safety::Storage;
use crate::shelf_life::calendar::in_words;
use crate::shelf_life::class::{Quoted, QuotedStore};
use crate::shelf_life::reason::Mark;
use crate::units::display::temperature_text;

use super::fit::title;
use super::ink::{
    BAND, CHOSEN, CURVE, Colour, Drawn, FAINT, HPos, INK, LEFT, QUOTED, REFUSED, RIGHT, Sheet, broken, dashed, fill,
    line, paper, write,
};
use crate::report::store::dated_heading;

pub(super) const TITLE: i32 = 64;
const FOOT: i32 = 74;
/// Height of one store, pixels, and of its plot; of a line of a refusal and of what is round it.
pub(super) const PANEL: i32 = 176;
const REASON: i32 = 19;
const ROUND_REASONS: i32 = 66;
pub(super) const PLOT_TOP: i32 = 34;
pub(super) const PLOT_HEIGHT: i32 = 112;
const MARKS: [(f64, &str); 11] = [
    (1.0, "1 day"),
    (2.0, "2 days"),
    (7.0, "1 week"),
    (14.0, "2 weeks"),
    (30.4, "1 month"),
    (61.0, "2 months"),
    (91.0, "3 months"),
    (183.0, "6 months"),
    (365.0, "1 year"),
    (730.0, "2 years"),
    (1825.0, "5 years"),
];

/// The share of lots expected without visible growth against days, one strip a store, with the ceiling and the chosen date.
/// A store without an honest date shows the reason and no curve. An empty text where the drawing failed.
pub fn expected_life(name: &str, dated: &Assessment) -> String {
    let stores: Vec<&DatedStore> = dated.stores.iter().filter(|s| s.verdict.is_some()).collect();
    let height = TITLE + stores.iter().map(|s| panel(s)).sum::<i32>() + FOOT;
    paper(height, |sheet| draw(sheet, name, dated, &stores, height))
}

fn draw(sheet: &Sheet<'_>, name: &str, dated: &Assessment, stores: &[&DatedStore], height: i32) -> Drawn {
    title(sheet, name, "expected life")?;
    let made = match dated.stopped() {
        true => "STOP: do not make or serve it as the card stands; the cautions say why".to_owned(),
        false => format!("made {} · share of lots expected without visible growth", dated.lot.made.format("%-d %b %Y")),
    };
    write(sheet, &made, (LEFT, 46), 13, false, HPos::Left, INK)?;
    let axis = Axis::over(stores);
    let mut top = TITLE;
    for store in stores {
        strip(sheet, store, &dated.named.quoted, &axis, top)?;
        top += panel(store);
    }
    let foot = height - FOOT + 14;
    let words = [
        "curve: lots in which no growth shows yet · band: the store one degree warmer or colder",
        "dashed: the limit of law or staling · solid: the chosen date · grey: what is usually quoted",
        "Growth here is spoilage, not illness. The house and its food authority decide.",
    ];
    for (line, text) in words.into_iter().enumerate() {
        write(sheet, text, (LEFT, foot + 19 * i32::try_from(line).unwrap_or(0)), 12, false, HPos::Left, INK)?;
    }
    Ok(())
}

/// Days on a logarithmic axis, the same for all stores.
pub(super) struct Axis {
    pub to: f64,
}

impl Axis {
    fn over(stores: &[&DatedStore]) -> Self {
        let of_store = |s: &&DatedStore| {
            let verdict = s.verdict.as_ref().filter(|_| s.refused.is_empty());
            let half = verdict.and_then(|v| v.lives_days.get(50).copied()).filter(|d| d.is_finite());
            let ceiling = verdict.and_then(|v| v.ceiling_days());
            [half, ceiling].into_iter().flatten().fold(30.0, f64::max)
        };
        let longest = stores.iter().map(of_store).fold(30.0, f64::max);
        Self { to: (2.0 * longest).clamp(60.0, 2000.0) }
    }

    pub(super) fn x(&self, days: f64) -> i32 {
        let share = days.max(1.0).ln() / self.to.ln();
        LEFT + (f64::from(RIGHT - LEFT) * share.min(1.0)).round() as i32
    }
}

/// Why there is no date, a reason a line or more.
fn reasons(store: &DatedStore) -> Vec<String> {
    store.refused.iter().flat_map(|why| broken(&why.to_string(), 92)).collect()
}

/// Height of a store: one without a date has no plot.
fn panel(store: &DatedStore) -> i32 {
    match i32::try_from(reasons(store).len()) {
        Ok(0) | Err(_) => PANEL,
        Ok(lines) => ROUND_REASONS + REASON * lines,
    }
}

fn strip(sheet: &Sheet<'_>, store: &DatedStore, quoted: &[&Quoted], axis: &Axis, top: i32) -> Drawn {
    let heading = if store.refused.is_empty() {
        dated_heading(store)
    } else {
        format!("{} ({}): no date", store.store.name, temperature_text(store.store.temperature))
    };
    write(sheet, &heading, (LEFT, top + 16), 15, true, HPos::Left, INK)?;
    let (y0, y1) = (top + PLOT_TOP, top + PLOT_TOP + PLOT_HEIGHT);
    if !store.refused.is_empty() {
        let lines = reasons(store);
        let y1 = y0 + REASON * i32::try_from(lines.len()).unwrap_or(0) + 14;
        fill(sheet, &[(LEFT, y0), (RIGHT, y0), (RIGHT, y1), (LEFT, y1)], REFUSED)?;
        for (place, text) in lines.iter().enumerate() {
            let y = y0 + 17 + REASON * i32::try_from(place).unwrap_or(0);
            write(sheet, text, (LEFT + 14, y), 13, false, HPos::Left, INK)?;
        }
        return line(sheet, &[(LEFT, y0), (RIGHT, y0), (RIGHT, y1), (LEFT, y1), (LEFT, y0)], FAINT, 1);
    }
    let y = |share: f64| y1 - (f64::from(PLOT_HEIGHT) * share).round() as i32;
    let points = |lives: &[f64]| -> Vec<(i32, i32)> {
        let last = lives.len().saturating_sub(1).max(1) as f64;
        lives
            .iter()
            .enumerate()
            .filter(|(_, days)| days.is_finite() && **days <= axis.to)
            .map(|(gone, days)| (axis.x(*days), y(1.0 - gone as f64 / last)))
            .collect()
    };
    // From the first day on all are good; where the curve leaves the axis it goes on level.
    let whole = |lives: &[f64]| -> Vec<(i32, i32)> {
        let mut all = vec![(LEFT, y(1.0))];
        all.extend(points(lives));
        let level = all.last().map_or(y(1.0), |p| p.1);
        all.push((RIGHT, level));
        all
    };
    let kind = if storage(&store.store) == Storage::Chill { QuotedStore::Cold } else { QuotedStore::Room };
    for band in quoted.iter().filter(|q| q.store == kind) {
        let (low, high) = (axis.x(band.low_days), axis.x(band.high_days));
        fill(sheet, &[(low, y0), (high, y0), (high, y1), (low, y1)], QUOTED)?;
    }
    if let Some((warmer, colder)) = &store.band {
        let mut outline = whole(colder);
        outline.extend(whole(warmer).into_iter().rev());
        fill(sheet, &outline, BAND)?;
    }
    grid(sheet, axis, y0, y1)?;
    let Some(verdict) = &store.verdict else { return Ok(()) };
    let mut taken = TakenPlace { boxes: Vec::new(), within: (y0, y1) };
    if verdict.lives_days.iter().any(|d| d.is_finite()) {
        let curve = whole(&verdict.lives_days);
        line(sheet, &curve, CURVE, 3)?;
        taken.by_line(&curve);
        if let Some((warmer, colder)) = &store.band {
            taken.by_line(&whole(warmer));
            taken.by_line(&whole(colder));
        }
    } else {
        let says = if verdict.growth.is_some() {
            "growth is not expected to show"
        } else {
            "growth is not drawn: law or staling decides"
        };
        // on the side of the date where there is room
        let date = store.days.map_or(RIGHT, |days| axis.x(f64::from(days)));
        let left = if date < (LEFT + RIGHT) / 2 { date + 14 } else { LEFT + 14 };
        write(sheet, says, (left, y0 + 16), 13, false, HPos::Left, INK)?;
        taken.boxes.push((left - 14, y0, left + 320, y0 + 26));
    }
    limits(sheet, store, axis, taken)
}

fn limits(sheet: &Sheet<'_>, store: &DatedStore, axis: &Axis, mut taken: TakenPlace) -> Drawn {
    let Some(verdict) = &store.verdict else { return Ok(()) };
    let (y0, y1) = taken.within;
    let mark = if store.mark == Mark::BestBefore { "best before" } else { "use by" };
    let date = store.days.map(|days| (axis.x(f64::from(days)), days));
    let ceiling = verdict.ceiling_days().map(|days| (axis.x(days), days as u32));
    let same = date.zip(ceiling).is_some_and(|(d, c)| d.1 == c.1);
    if let Some((x, _)) = ceiling.filter(|_| !same) {
        dashed(sheet, x, y0, y1)?;
        taken.boxes.push((x - 3, y0, x + 3, y1));
    }
    if let Some((x, days)) = date {
        line(sheet, &[(x, y0 - 6), (x, y1)], CHOSEN, 3)?;
        taken.boxes.push((x - 3, y0, x + 3, y1));
        let at_ceiling = if same { " (limit)" } else { "" };
        beside(sheet, [&format!("{mark}{at_ceiling}"), &in_words(days)], x, &mut taken, CHOSEN)?;
    }
    if let Some((x, days)) = ceiling.filter(|_| !same) {
        // Short, so that it finds room: where both lines are near each other the date goes first.
        let days = in_words(days);
        beside(sheet, ["limit", &days], x, &mut taken, INK)?;
    }
    Ok(())
}

/// Where something is drawn already, so that no words are put over it.
pub(super) struct TakenPlace {
    pub boxes: Vec<(i32, i32, i32, i32)>,
    pub within: (i32, i32),
}

impl TakenPlace {
    pub(super) fn by_line(&mut self, points: &[(i32, i32)]) {
        self.boxes.extend(points.windows(2).filter_map(|pair| {
            let [(x0, y0), (x1, y1)] = pair else { return None };
            Some((*x0.min(x1), y0.min(y1) - 2, *x0.max(x1), y0.max(y1) + 2))
        }));
    }

    /// How much of it lies under these words.
    pub(super) fn under(&self, (left, top, right, bottom): (i32, i32, i32, i32)) -> usize {
        self.boxes.iter().filter(|b| b.0 < right && b.2 > left && b.1 < bottom && b.3 > top).count()
    }
}

/// Two lines of words beside an upright line, to its left or right and at the height where they lie over nothing, or over
/// least.
pub(super) fn beside(sheet: &Sheet<'_>, words: [&str; 2], x: i32, taken: &mut TakenPlace, ink: Colour) -> Drawn {
    let letters = words.iter().map(|w| w.chars().count()).max().unwrap_or(0);
    let width = 8 * i32::try_from(letters).unwrap_or(0);
    let (y0, y1) = taken.within;
    let middle = y0 + PLOT_HEIGHT / 3;
    let mut heights: Vec<i32> = (y0 + 18..=y1 - 18).step_by(2).collect();
    heights.sort_by_key(|y| (y - middle).abs());
    let places = heights.into_iter().flat_map(|y| [(x - 8 - width, y, HPos::Right), (x + 8, y, HPos::Left)]);
    let inside = places.filter(|(left, _, _)| *left >= LEFT && left + width <= RIGHT);
    let best = inside.min_by_key(|(left, y, _)| taken.under((*left, y - 17, left + width, y + 17)));
    let Some((left, y, side)) = best else { return Ok(()) };
    taken.boxes.push((left, y - 18, left + width, y + 18));
    let beside = if matches!(side, HPos::Right) { x - 8 } else { x + 8 };
    for (line, text) in words.into_iter().enumerate() {
        write(sheet, text, (beside, if line == 0 { y - 8 } else { y + 8 }), 13, true, side, ink)?;
    }
    Ok(())
}

pub(super) fn grid(sheet: &Sheet<'_>, axis: &Axis, y0: i32, y1: i32) -> Drawn {
    for (share, words) in [(1.0, "100 %"), (0.5, "50 %"), (0.0, "0 %")] {
        let y = y1 - (f64::from(y1 - y0) * share).round() as i32;
        line(sheet, &[(LEFT, y), (RIGHT, y)], FAINT, 1)?;
        write(sheet, words, (LEFT - 6, y), 11, false, HPos::Right, INK)?;
    }
    let mut free_from = i32::MIN;
    for (days, words) in MARKS.into_iter().filter(|(days, _)| *days <= axis.to) {
        let x = axis.x(days);
        let half = 4 * i32::try_from(words.len()).unwrap_or(0);
        if x - half >= free_from && x + half <= RIGHT + 14 {
            line(sheet, &[(x, y1), (x, y1 + 4)], INK, 1)?;
            write(sheet, words, (x, y1 + 13), 11, false, HPos::Center, INK)?;
            free_from = x + half + 6;
        }
    }
    Ok(())
}
