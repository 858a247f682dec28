//! Water that goes up from a pan of which the card does not say how much: how much that may be.

use uom::si::time::minute;

use crate::card::{Card, Stage};
use crate::diagnostic::{Code, Diagnostic, Span};
use crate::mixture::{Component, Mixture};
use crate::units::boiling::{boiled_seconds, boils, is_covered, make_caramel};
use crate::units::degrees_celsius;
use crate::units::display::grouped;
use crate::units::spans::{SpanEnd, time};
use crate::vocabulary::ProductClass;

/// Share of its water that a pan at the boil loses in a minute, at the least and at the most: half an hour of simmering takes
/// 6 to 18 % (common practice, no source).
const A_MINUTE: (f64, f64) = (0.002, 0.006);
const SECONDS_A_MINUTE: f64 = 60.0;
/// Boiling, °C.
const BOIL_C: f64 = 100.0;
/// So many degrees below the boil the half of it goes up (from memory: about as the pressure of steam over a moved surface).
const HALVED_BY_C: f64 = 8.0;
/// Less than this share of the water is not worth a question (ours).
const LEAST: f64 = 0.02;

/// Of water that is poured on hot caramel, grams a gram of sugar: cooling from 170 to 105 °C boils off 0.06 (specific heat 2.0 J/(g·K), heat of
/// vaporisation 2257 J/g, from memory); what spits, and the heat under it, come on top (ours).
const CARAMEL: (f64, f64) = (0.02, 0.1);

/// What makes water go up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Steaming {
    /// A pan is held so hot, °C, for so many minutes; without a heat where a word tells it: "simmer".
    Held { to_c: Option<f64>, minutes: f64 },
    /// It is poured on hot caramel.
    Caramel,
}

/// What an open pan may lose of its water.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Unstated {
    /// Why.
    pub by: Steaming,
    /// The least: a share of the water; on caramel grams a gram of sugar.
    pub low: f64,
    /// The most.
    pub high: f64,
    /// Where the card says that it is hot.
    pub at: Span,
}

impl Unstated {
    /// The most, as a share of the water of what is in the pan.
    pub(crate) fn most_of(&self, pan: &Mixture) -> f64 {
        match self.by {
            Steaming::Held { .. } => self.high,
            Steaming::Caramel => (self.high * pan.sugar_grams() / pan.grams_of(Component::Water)).min(MOST_CARAMEL),
        }
    }

    /// "in 30 min at 100 °C", "on hot caramel".
    pub(crate) fn during(&self) -> String {
        match self.by {
            Steaming::Held { to_c, minutes } => format!("in {}", held(to_c, minutes)),
            Steaming::Caramel => "on hot caramel".to_owned(),
        }
    }

    /// "18 % of the water".
    pub(crate) fn most_said(&self) -> String {
        let most = grouped(100.0 * self.high, 0);
        match self.by {
            Steaming::Held { .. } => format!("{most} % of the water"),
            Steaming::Caramel => format!("{most} g for each 100 g of sugar"),
        }
    }

    fn title(&self) -> String {
        let [low, high] = [self.low, self.high].map(|share| grouped(100.0 * share, 0));
        match self.by {
            Steaming::Held { to_c, minutes } => {
                format!(
                    "{} take about {low} to {high} % of the water, and the card states no loss",
                    held(to_c, minutes)
                )
            }
            Steaming::Caramel => format!(
                "water boils up on hot caramel, about {low} to {high} g for each 100 g of sugar, and the card states no loss"
            ),
        }
    }

    /// What to write, where it is known: caramel is a share of no water.
    fn example(&self) -> String {
        match self.by {
            Steaming::Held { .. } => grouped(50.0 * (self.low + self.high), 0),
            Steaming::Caramel => "…".to_owned(),
        }
    }
}

/// More than so much of its water no caramel takes (ours).
const MOST_CARAMEL: f64 = 0.5;

fn held(to_c: Option<f64>, minutes: f64) -> String {
    let minutes = grouped(minutes, 0);
    to_c.map_or_else(
        || format!("{minutes} min at a simmer or a boil"),
        |to_c| format!("{minutes} min at {} °C", grouped(to_c, 0)),
    )
}

/// What a stage may lose that is held hot and of which the card states no loss.
pub(crate) fn unstated(card: &Card, stage: &Stage) -> Option<Unstated> {
    let is_said = stage.loss.evaporated.is_some() || stage.loss.evaporated_as_needed.is_some();
    let is_dried = card.class.as_ref().is_some_and(|class| class.value == ProductClass::DriedFruit);
    // What is cooked in a bag or under pressure loses nothing.
    let is_closed = !card.process.is_empty();
    if is_said || is_dried || is_closed {
        return None;
    }
    let held = held_hot(card, stage).map(|(to_c, minutes, at)| {
        let times = times_boiled(to_c, minutes);
        let (low, high) = ((A_MINUTE.0 * times).min(0.5), (A_MINUTE.1 * times).min(0.9));
        Unstated { by: Steaming::Held { to_c, minutes }, low, high, at }
    });
    let caramel = make_caramel(steps_of(card, stage)).then(|| {
        let (low, high) = CARAMEL;
        Unstated { by: Steaming::Caramel, low, high, at: card.name.span }
    });
    let most = held.into_iter().chain(caramel).max_by(|one, other| one.high.total_cmp(&other.high));
    most.filter(|open| open.high >= LEAST)
}

/// Asks for the loss of each stage that is held hot, once a card.
pub(crate) fn asked(card: &Card) -> impl Iterator<Item = Diagnostic> {
    card.all_stages().filter_map(|stage| unstated(card, stage)).map(|open| {
        let write = format!("[loss] evaporated = \"{} %\"", open.example());
        Diagnostic::warning(Code::Understood, open.title())
            .at(open.at, "counted as none, and as doubt")
            .help(format!("weigh the pan before and after, and write what went up of the water, as {write}"))
    })
}

/// So many minutes at the boil take as much; a simmer steams as one.
fn times_boiled(to_c: Option<f64>, minutes: f64) -> f64 {
    let to_c = to_c.unwrap_or(BOIL_C);
    minutes * 0.5f64.powf((BOIL_C - to_c).max(0.0) / HALVED_BY_C)
}

/// Whether a step boils this with a lid on.
pub(crate) fn is_under_a_lid(card: &Card, stage: &Stage) -> bool {
    steps_of(card, stage).iter().flat_map(|step| step.split(". ")).any(|said| is_covered(said) && boils(said))
}

/// The steps of a card are those of all its stages: with one alone they are its own, and so they are of what is heated above them all, and
/// of the one pan that is held hot where it tells none of its own.
fn steps_of<'c>(card: &'c Card, stage: &'c Stage) -> &'c [String] {
    let is_held = |stage: &Stage| stage.heated.as_ref().is_some_and(|heated| heated.value.hold.is_some());
    let is_only = || stage.steps.is_empty() && card.all_stages().filter(|other| is_held(other)).count() == 1;
    let is_of_card = card.stages.is_empty() || is_held(stage) && (stage.name.is_none() || is_only());
    if is_of_card { &card.steps } else { &stage.steps }
}

/// How hot a stage is held for how many minutes without a lid. A simmer of which a step tells steams as one, whatever least heat `heated`
/// counts of it for the date.
fn held_hot(card: &Card, stage: &Stage) -> Option<(Option<f64>, f64, Span)> {
    let stated = stage.heated.as_ref().filter(|_| !is_under_a_lid(card, stage)).and_then(|heated| {
        let minutes = heated.value.hold?.get::<minute>();
        let to_c = heated.value.bubbles.is_none().then(|| degrees_celsius(heated.value.to));
        Some((to_c, minutes, heated.span))
    });
    let at = stage.heated.as_ref().map_or(card.name.span, |heated| heated.span);
    // "1.5 hours" ends no sentence
    let sentences = steps_of(card, stage).iter().flat_map(|step| step.split(". ")).filter(|said| !is_covered(said));
    let simmered = sentences.into_iter().find_map(|said| Some((None, simmered_minutes(said)?, at)));
    let most = |one: &(Option<f64>, f64, Span), other: &(Option<f64>, f64, Span)| {
        times_boiled(one.0, one.1).total_cmp(&times_boiled(other.0, other.1))
    };
    stated.into_iter().chain(simmered).max_by(most)
}

/// `Simmer for 30 minutes`: words of the open pan, and the first time behind them in the same sentence; in other words and languages the
/// time in the same clause.
fn simmered_minutes(step: &str) -> Option<f64> {
    let lower = step.to_lowercase();
    let Some(at) = ["simmer", "boil for", "boil gently"].iter().filter_map(|word| lower.find(word)).min() else {
        return boiled_seconds(step).map(|seconds| seconds / SECONDS_A_MINUTE);
    };
    let sentence = lower.get(at..)?.split(['.', ';']).next()?;
    // "bring to a simmer, take off the heat for an hour"
    let ends = ["off the heat", "take off", "take it off", "from the heat", "turn off"];
    let end = ends.iter().filter_map(|end| sentence.find(end)).min().unwrap_or(sentence.len());
    let sentence = sentence.get(..end)?;
    let words: Vec<&str> = sentence.split_whitespace().map(|word| word.trim_end_matches(',')).collect();
    time(&words, SpanEnd::Least).map(|told| told.seconds / SECONDS_A_MINUTE)
}
