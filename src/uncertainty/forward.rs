//! A solved card run forward again with something in it changed. Only the stages that a change reaches are run, and of those
//! only the lines that it moves are counted anew: a card of very many parts has as many inputs, and each is tried.

use std::collections::BTreeMap;

use crate::mixture::Mixture;
use crate::solver::Solved;
use crate::solver::SolvedPart;
use crate::solver::resolve::Material;
use crate::solver::stage::{Course, Feed, Shares, Sums, in_front, run, sums};

/// What is the same thing wherever it stands, however a line writes its name.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Identity {
    Ingredient(String),
    /// A card, by its place among those inside the card.
    Inner(usize),
}

impl Identity {
    /// Of a part that is no earlier stage.
    pub(super) fn of(part: &SolvedPart) -> Option<Self> {
        match &part.found.what {
            Material::Ingredient(ingredient) => Some(Self::Ingredient(ingredient.id.clone())),
            Material::Card(place) => Some(Self::Inner(*place)),
            Material::Stage(_) => None,
        }
    }
}

/// What is changed, at one half-width.
#[derive(Clone, Debug)]
pub(super) enum Change {
    /// Grams of one line: (stage, part, half-width).
    Mass(usize, usize, f64),
    /// Composition of one gram of an ingredient or inner card, wherever it stands.
    Composition(Identity, Mixture),
    /// The share of the water of a stage that goes up: (stage, half-width).
    Evaporated(usize, f64),
    /// What the strained solids of a stage hold: at one half-width nothing of what its steps put in behind the straining.
    Behind(usize),
    /// What a line keeps: (stage, part, half-width).
    Holds(usize, usize, f64),
    /// What one gram of a strained line gives: (stage, part, change at one half-width).
    Gives(usize, usize, Mixture),
}

/// A line by its stage and its place there.
type LineAt = (usize, usize);

/// A solved card, ready to be run forward with changes.
pub(super) struct Forward<'a> {
    solved: &'a Solved,
    sums: Vec<Sums>,
    /// The lines of each stage that an earlier stage goes into, and which that is.
    from_stages: Vec<Vec<(usize, usize)>>,
    stands: BTreeMap<Identity, Vec<LineAt>>,
}

/// The lines and the losses that are not as they were.
#[derive(Default)]
struct Moved {
    lines: BTreeMap<LineAt, (Feed, f64)>,
    lost: BTreeMap<usize, Shares>,
    behind: BTreeMap<usize, f64>,
}

impl<'a> Forward<'a> {
    pub(super) fn new(solved: &'a Solved) -> Self {
        let of_stage =
            |stage: &crate::solver::SolvedStage| sums(stage.parts.iter().map(|p| (&p.feed, p.mass_g)), stage.lost);
        let mut from_stages = Vec::new();
        let mut stands: BTreeMap<Identity, Vec<LineAt>> = BTreeMap::new();
        for (s, stage) in solved.stages.iter().enumerate() {
            let parts = || stage.parts.iter().enumerate();
            from_stages.push(parts().filter_map(|(p, part)| Some((p, part.stage()?))).collect());
            for (p, part) in parts() {
                if let Some(of) = Identity::of(part) {
                    stands.entry(of).or_default().push((s, p));
                }
            }
        }
        Self { solved, sums: solved.stages.iter().map(of_stage).collect(), from_stages, stands }
    }

    /// What is bottled when each of these is off by so many half-widths.
    pub(super) fn run<'c>(&self, off: impl IntoIterator<Item = (&'c Change, f64)>) -> Mixture {
        let mut moved = Moved::default();
        for (change, side) in off {
            self.make(change, side, &mut moved);
        }
        let mut courses: BTreeMap<usize, Course> = BTreeMap::new();
        for place in 0..self.solved.stages.len() {
            // What an earlier stage gives goes on whole, as the sheet says: a gram more in, a gram more on, and what its
            // strained solids keep is missing later.
            for &(part, from) in self.from_stages.get(place).into_iter().flatten() {
                let (Some(now), Some(was)) = (courses.get(&from), self.solved.stages.get(from)) else { continue };
                let made = was.course.out.total_grams();
                let times = if made > 0.0 { now.out.total_grams() / made } else { 1.0 };
                self.at((place, part), &mut moved, |feed, mass| {
                    *mass *= times;
                    feed.per_gram = now.out.per_gram();
                });
            }
            courses.extend(self.course(place, &moved).map(|course| (place, course)));
        }
        let last = self.solved.stages.len().checked_sub(1).and_then(|last| courses.get(&last));
        last.map_or(*self.solved.bottled(), |course| course.out)
    }

    fn at(&self, place: LineAt, moved: &mut Moved, change: impl FnOnce(&mut Feed, &mut f64)) {
        let Some(part) = self.solved.stages.get(place.0).and_then(|s| s.parts.get(place.1)) else { return };
        let (feed, mass) = moved.lines.entry(place).or_insert((part.feed, part.mass_g));
        change(feed, mass);
    }

    fn make(&self, change: &Change, side: f64, moved: &mut Moved) {
        match change {
            Change::Mass(s, p, g) => self.at((*s, *p), moved, |_, mass| *mass = (*mass + side * g).max(0.0)),
            Change::Holds(s, p, by) => {
                self.at((*s, *p), moved, |feed, _| feed.holds = feed.holds.map(|h| h + side * by))
            }
            Change::Gives(s, p, delta) => self.at((*s, *p), moved, |feed, _| feed.per_gram += *delta * side),
            Change::Evaporated(s, by) => {
                let Some(stage) = self.solved.stages.get(*s) else { return };
                moved.lost.entry(*s).or_insert(stage.lost).evaporated += side * by;
            }
            Change::Behind(s) => *moved.behind.entry(*s).or_default() += side,
            Change::Composition(of, delta) => {
                for place in self.stands.get(of).into_iter().flatten() {
                    self.at(*place, moved, |feed, _| feed.per_gram += *delta * side);
                }
            }
        }
    }

    /// The course of a stage, if anything in it is not as it was.
    fn course(&self, place: usize, moved: &Moved) -> Option<Course> {
        let stage = self.solved.stages.get(place)?;
        let in_lines = self.moved_course(place, moved);
        let side = moved.behind.get(&place).copied();
        // what is counted in the order of the steps is off that by so much
        let side = if stage.in_order && (side.is_some() || in_lines.is_some()) {
            Some(1.0 + side.unwrap_or_default())
        } else {
            side
        };
        let Some(side) = side else { return in_lines };
        let lines = self.lines(place, moved);
        let lines: Vec<(&Feed, f64)> = lines.iter().map(|(feed, mass)| (feed, *mass)).collect();
        let lost = moved.lost.get(&place).copied().unwrap_or(stage.lost);
        let as_lines = in_lines.unwrap_or_else(|| run(lines.iter().copied(), lost));
        Some(as_lines.keeping(&in_front(&lines, lost, &stage.behind).kept, side))
    }

    /// The lines of a stage as they are now.
    fn lines(&self, place: usize, moved: &Moved) -> Vec<(Feed, f64)> {
        let parts = self.solved.stages.get(place).into_iter().flat_map(|stage| &stage.parts).enumerate();
        parts.map(|(p, part)| moved.lines.get(&(place, p)).copied().unwrap_or((part.feed, part.mass_g))).collect()
    }

    /// The same by its lines and its losses alone.
    fn moved_course(&self, place: usize, moved: &Moved) -> Option<Course> {
        let stage = self.solved.stages.get(place)?;
        let lines = moved.lines.range((place, 0)..(place + 1, 0));
        if let Some(lost) = moved.lost.get(&place) {
            let lines = self.lines(place, moved);
            return Some(sums(lines.iter().map(|(feed, mass)| (feed, *mass)), *lost).course(*lost));
        }
        let mut sums = *self.sums.get(place)?;
        let mut is_moved = false;
        for ((_, p), (feed, mass)) in lines {
            let was = stage.parts.get(*p)?;
            sums.add(&was.feed, -was.mass_g, stage.lost);
            sums.add(feed, *mass, stage.lost);
            is_moved = true;
        }
        is_moved.then(|| sums.course(stage.lost))
    }
}
