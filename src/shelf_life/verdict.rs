//! The one date: refusals, the screen, the legal days, staling and growth brought down to one number of days with the one
//! rule that decided it, or the reasons why there is none.
//!
//! `days = floor(least term - cold days already spent + 1e-6)`. The hurdles of the finished product decide, each at its
//! cautious end; no word of a card is among them.

use serde::Serialize;

use super::authority::Authority;
use super::calendar::{SLOWS_C, STOPS_C};
use super::hurdles::{Hurdles, Screened};
use super::lots::{self, DECIDING_SHARE, Lots};
use super::product::Product;
use super::reason::{ControlBecause, DateRule, Mark, Note};
use super::refusal::{self, Refusal};
use super::simulate::{Draws, Lives, simulate_with_acetic};
use super::staling::{Staling, Tier};
use super::warmth::Warmth;
use crate::units::{Temperature, degrees_celsius};

/// So many draws are enough to see that growth is far from deciding.
const FIRST_LOOK: u32 = 1_000;
/// By how much the growth of a first look must be later than what decides already, to be looked at no further.
const FAR: f64 = 2.0;

/// Warm hours before bottling that take so much of a life are worth a word (ours).
const MUCH_OF_A_LIFE: f64 = 0.25;

/// Growth over all lots, those without the yeast among them, in days. `None` for a quantile that is not reached.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Growth {
    /// 5 % of all lots.
    #[serde(rename = "q05")]
    pub q05_days: Option<f64>,
    /// 10 % of all lots: the one that may decide.
    #[serde(rename = "q10")]
    pub q10_days: Option<f64>,
    /// Half of all lots.
    #[serde(rename = "q50")]
    pub q50_days: Option<f64>,
    /// The share of lots that nothing grows in, those without the yeast counted.
    #[serde(skip)]
    pub never: f64,
    /// The share of such a life that went by warm before it was bottled.
    #[serde(skip)]
    pub stood_warm: f64,
}

/// A term of a date.
#[derive(Clone, Debug, PartialEq)]
pub struct Term {
    /// Days.
    pub days: f64,
    /// What says so.
    pub rule: DateRule,
}

/// The answer for one store.
#[derive(Clone, Debug, PartialEq)]
pub struct Verdict {
    /// The hurdles at their cautious ends, with the screen.
    pub hurdles: Hurdles,
    /// Whole days; 0 is "use at once"; none where a date is refused.
    pub days: Option<u32>,
    /// The legal limit is among what holds: it is counted with the day made as day 1, whatever the house's habit.
    pub legal_days: Option<u32>,
    /// What kind of date it is.
    pub mark: Mark,
    /// The one rule that decided.
    pub decided_by: Option<DateRule>,
    /// How good its evidence is.
    pub tier: Option<Tier>,
    /// Reasons that it has of itself: they pass on to whatever it goes into.
    pub refused_by_nature: Vec<Refusal>,
    /// Reasons of this store alone.
    pub refused_here: Vec<Refusal>,
    /// Every term that holds, the least first.
    pub terms: Vec<Term>,
    /// Growth, where it was drawn.
    pub growth: Option<Growth>,
    /// Days by which 0, 1, 2 … 100 % of all lots are expected to show growth; infinite where it never comes. Only where it
    /// was asked for.
    pub lives_days: Vec<f64>,
    /// What else must be said.
    pub notes: Vec<Note>,
}

impl Verdict {
    /// What law, staling and spoiled lots allow, in days.
    pub fn ceiling_days(&self) -> Option<f64> {
        self.terms.iter().find(|t| !matches!(t.rule, DateRule::Growth { .. })).map(|t| t.days)
    }

    /// What the house's own lots bear, in days, where the house has accepted it.
    pub fn of_lots_days(&self) -> Option<f64> {
        self.terms.iter().find(|t| matches!(t.rule, DateRule::OfLots { .. })).map(|t| t.days)
    }

    /// Every reason why there is no date, those that it has of itself first.
    pub fn refusals(&self) -> impl Iterator<Item = &Refusal> {
        self.refused_by_nature.iter().chain(&self.refused_here)
    }
}

/// What is asked of a product.
#[derive(Clone, Copy, Debug, Default)]
pub struct Asked {
    /// How many draws, and from which seed.
    pub draws: Draws,
    /// The share of lots that show growth day by day, for a chart.
    pub lives: bool,
}

/// The verdict for each store.
pub fn verdicts(product: &Product, stores: &[Temperature], authority: &Authority, asked: Asked) -> Vec<Verdict> {
    let stores: Vec<f64> = stores.iter().map(|&t| degrees_celsius(t)).collect();
    let hurdles = Hurdles::of(product);
    let warmth = Warmth::of(&product.stages);
    let nature = refusal::by_nature(product, &warmth);
    let lots = Lots::of(product, &hurdles);
    let mut found: Vec<Verdict> = stores
        .iter()
        .map(|&t_c| {
            let here = refusal::by_store(product, &hurdles, t_c, authority);
            undecided(product, hurdles, t_c, authority, nature.clone(), here)
        })
        .collect();
    if let Some(lots) = lots {
        grow(&mut found, &stores, product, &hurdles, &lots, asked);
    }
    for verdict in &mut found {
        decide(verdict, product, &warmth, authority);
    }
    found
}

/// Everything but growth, and nothing decided yet.
fn undecided(
    product: &Product,
    hurdles: Hurdles,
    t_c: f64,
    authority: &Authority,
    refused_by_nature: Vec<Refusal>,
    refused_here: Vec<Refusal>,
) -> Verdict {
    let mut terms = Vec::new();
    if hurdles.control() {
        let days = authority.control_days(product, &hurdles);
        let because = ControlBecause::of(&hurdles);
        let entered = authority.entered.clone().filter(|_| authority.decides(days));
        let rule = DateRule::Control { because, days, max_c: authority.control_c(), entered };
        terms.push(Term { days: f64::from(days), rule });
    } else if let (Some(days), Some(entered)) = (authority.days, &authority.entered) {
        // what is stricter always counts
        terms.push(Term { days: f64::from(days), rule: DateRule::LocalCode { days, entered: entered.clone() } });
    }
    if let Some(days) = product.spoiled_lot_days {
        // whole days strictly below the age at which it was seen; an age that is no number is none at all
        let days = if days.is_finite() { (days.ceil() - 1.0).max(0.0) } else { 0.0 };
        terms.push(Term { days, rule: DateRule::SpoiledLot });
    }
    let staling = Staling { product, hurdles: &hurdles, t_c: if t_c.is_finite() { t_c } else { 30.0 } };
    // in a freezer that is not cold enough to stop the count nothing grows, and what stales gets half of its days
    let half = if t_c <= SLOWS_C && t_c > STOPS_C { 0.5 } else { 1.0 };
    let stale = staling
        .terms()
        .into_iter()
        .map(|(days, what)| Term { days: half * days, rule: DateRule::Stale(what) })
        .collect();
    terms.extend(by_lots(product, mark(&hurdles, product), t_c, stale));
    terms.sort_by(|a, b| a.days.total_cmp(&b.days));
    let legal = terms.iter().find_map(|t| match t.rule {
        DateRule::Control { days, .. } | DateRule::LocalCode { days, .. } => Some(days),
        _ => None,
    });
    Verdict {
        hurdles,
        days: None,
        legal_days: legal,
        mark: Mark::None,
        decided_by: None,
        tier: None,
        refused_by_nature,
        refused_here,
        terms,
        growth: None,
        lives_days: Vec::new(),
        notes: Vec::new(),
    }
}

/// What stales, or in its place what the house has accepted of its own lots. Where the date is one of safety ("use by") they
/// only shorten it: no number of good lots lifts a ceiling.
fn by_lots(product: &Product, mark: Mark, t_c: f64, stale: Vec<Term>) -> Vec<Term> {
    let Some(own) = product.of_lots.iter().find(|own| own.t_c == t_c) else { return stale };
    let own = Term { days: f64::from(own.days), rule: DateRule::OfLots { lots: own.lots } };
    if mark == Mark::BestBefore { vec![own] } else { stale.into_iter().chain([own]).collect() }
}

/// Adds the growth of yeast and lactic bacteria, where it may decide or is asked for.
fn grow(found: &mut [Verdict], stores: &[f64], product: &Product, hurdles: &Hurdles, lots: &Lots, asked: Asked) {
    let conditions = lots.conditions(product, hurdles);
    let open: Vec<usize> =
        (0..found.len()).filter(|&place| found[place].refusals().next().is_none() && stores[place] > SLOWS_C).collect();
    let temperatures: Vec<f64> = open.iter().map(|&place| stores[place]).collect();
    let mut drawn: Vec<Option<Lives>> = Vec::new();
    let first = Draws { draws: asked.draws.draws.min(FIRST_LOOK), ..asked.draws };
    let drawn_in =
        |temperatures: &[f64], draws: Draws| simulate_with_acetic(&conditions, product.acetic_pct, temperatures, draws);
    let first_lives = drawn_in(&temperatures, first);
    let stood_warm = lots::warm_share(product, lots, &conditions, first);
    let left = 1.0 - stood_warm;
    let rest = |days: f64| if days.is_finite() { left * days } else { days };
    let by = |lives: &Lives, share: f64| rest(lots.of_all(lives, share));
    let close: Vec<bool> = open
        .iter()
        .zip(&first_lives)
        .map(|(&place, lives)| {
            let least = found[place].terms.first().map_or(f64::INFINITY, |t| t.days);
            asked.lives || by(lives, DECIDING_SHARE) < FAR * least
        })
        .collect();
    if asked.draws.draws > FIRST_LOOK && close.iter().any(|close| *close) {
        let wanted: Vec<f64> = temperatures.iter().zip(&close).filter(|(_, c)| **c).map(|(t, _)| *t).collect();
        let mut full = drawn_in(&wanted, asked.draws).into_iter();
        drawn.extend(close.iter().map(|close| if *close { full.next() } else { None }));
    } else {
        drawn.extend(first_lives.iter().zip(&close).map(|(lives, close)| close.then(|| lives.clone())));
    }
    for (&place, lives) in open.iter().zip(drawn) {
        let Some(lives) = lives else { continue };
        let finite = |days: f64| days.is_finite().then_some(days);
        let verdict = &mut found[place];
        let organism = lives.first().map_or("a sugar-loving yeast", |(code, _)| lots::trade_name(code));
        let q10 = by(&lives, DECIDING_SHARE);
        if q10.is_finite() {
            verdict.terms.push(Term { days: q10, rule: DateRule::Growth { organism } });
            verdict.terms.sort_by(|a, b| a.days.total_cmp(&b.days));
        }
        verdict.growth = Some(Growth {
            q05_days: finite(by(&lives, 0.05)),
            q10_days: finite(q10),
            q50_days: finite(by(&lives, 0.50)),
            never: 1.0 - lots.present * (1.0 - lives.never()),
            stood_warm,
        });
        if asked.lives {
            let percents = lives.percents();
            verdict.lives_days = (0..=100).map(|p| rest(lots.of_all_percents(&percents, p))).collect();
        }
    }
}

fn decide(verdict: &mut Verdict, product: &Product, warmth: &Warmth, authority: &Authority) {
    let refused = !verdict.refused_by_nature.is_empty() || !verdict.refused_here.is_empty();
    // whole days: what stands cold overnight is of the day that it began
    let spent = if warmth.cold_days.is_finite() { warmth.cold_days.floor() } else { f64::MAX };
    if let Some(least) = verdict.terms.first().filter(|_| !refused) {
        let days = (least.days - spent + 1e-6).floor();
        verdict.days = Some(if days.is_finite() { days.max(0.0) as u32 } else { u32::MAX });
        verdict.mark = mark(&verdict.hurdles, product);
        verdict.tier = Some(least.rule.tier());
        verdict.decided_by = Some(least.rule.clone());
    }
    verdict.legal_days = verdict.legal_days.filter(|_| !refused).map(|days| (f64::from(days) - spent).max(0.0) as u32);
    let by_growth = matches!(verdict.decided_by, Some(DateRule::Growth { .. }));
    let stood_warm = verdict.growth.as_ref().map_or(0.0, |growth| growth.stood_warm);
    verdict.notes = [
        (Note::ByAlcohol, verdict.hurdles.screened == Screened::Alcohol),
        (Note::HouseResponsibility, verdict.hurdles.control() && authority.milder_than_default()),
        (Note::StoodWarm, by_growth && stood_warm >= MUCH_OF_A_LIFE),
        (Note::FridgeIsNoProof, by_growth),
        (Note::DiscardTheLot, product.spoiled_lot_days.is_some()),
    ]
    .into_iter()
    .filter_map(|(note, applies)| applies.then_some(note))
    .collect();
}

/// "Use by" for what could harm: what needs control, raw juice, dairy, egg, nut.
fn mark(hurdles: &Hurdles, product: &Product) -> Mark {
    let contents = product.contents;
    let perishable = hurdles.control()
        || product.raw_juice > 0.0
        || contents.emulsion_or_milk()
        || contents.dairy.is_some()
        || contents.nut;
    if perishable { Mark::UseBy } else { Mark::BestBefore }
}
