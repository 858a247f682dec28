//! The one date: the screen, the ceiling, growth and quality brought down to one number of days, with the one rule that
//! decided it, or the reasons why there is none.
//!
//! `days = floor(min(C, q05 of growth, q10 of quality))`, where C is the least of the legal limit, the figure of the class
//! and what a spoiled lot showed. Nothing lengthens a ceiling.

use serde::Serialize;

use super::authority::Authority;
use super::ceilings::{Ceiling, ClassFigures, ClassGroup, Quality, Tier};
use super::data::{self, ShelfLifeTables};
use super::organisms::MODELLED;
use super::product::Product;
use super::reason::{CodeOf, DateRule, Mark, Note};
use super::refusal::{self, HeldBy, Refusal};
use super::screen::{Screen, ScreenClass};
use super::simulate::{Conditions, Draws, Spread, simulate};
use crate::references::Key;
use crate::units::{Temperature, degrees_celsius};
use crate::vocabulary::ProductClass;

/// Growth as it may be shown, in days. `None` for a quantile that is not reached or must not be shown.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Growth {
    #[serde(rename = "q05")]
    pub q05_days: Option<f64>,
    #[serde(rename = "q10")]
    pub q10_days: Option<f64>,
    #[serde(rename = "q50")]
    pub q50_days: Option<f64>,
    #[serde(rename = "q95")]
    pub q95_days: Option<f64>,
    #[serde(skip)]
    pub p_no_growth: f64,
}

/// Quality as it may be shown, in days.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Staleness {
    pub what: &'static str,
    pub sources: &'static [Key],
    #[serde(rename = "q10")]
    pub q10_days: f64,
    #[serde(rename = "q50")]
    pub q50_days: f64,
}

/// The figure of a class that caps a date.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct CeilingFigure {
    /// Of which class.
    pub class: ProductClass,
    /// Days.
    pub days: f64,
    /// Its entry in the bibliography.
    pub source: Key,
    /// What is said there.
    pub says: &'static str,
}

/// The answer for one store.
#[derive(Clone, Debug, PartialEq)]
pub struct Verdict {
    /// The screen.
    pub screen: Screen,
    /// Whole days; 0 is "use at once"; none where a date is refused.
    pub days: Option<u32>,
    /// Days that the law counts, the day made as day 1, whatever the house's own habit.
    pub legal_days: Option<u32>,
    /// What kind of date it is.
    pub mark: Mark,
    /// The one rule that decided.
    pub decided_by: Option<DateRule>,
    /// How good its evidence is.
    pub tier: Option<Tier>,
    /// What holds it to the legal limit of food that needs control.
    pub held: Option<HeldBy>,
    /// Every reason why there is no date.
    pub refused: Vec<Refusal>,
    /// The ceiling in days: law, class and spoiled lots together. None where the store itself is refused by law.
    pub ceiling_days: Option<f64>,
    /// What its class caps it at, and where that stands.
    pub ceiling: Option<CeilingFigure>,
    /// The growth model; none where it does not apply.
    pub growth: Option<Growth>,
    /// The quality model, where there is one.
    pub quality: Option<Staleness>,
    /// 5 % quantile of the earlier of growth and quality, where both are within a factor of two.
    pub joint_q05_days: Option<f64>,
    /// Days by which 0, 1, 2 … 100 % of lots are expected to be no longer good: the earlier of growth and quality. Infinite
    /// where it never comes.
    pub lives_days: Vec<f64>,
    /// What else must be said.
    pub notes: Vec<Note>,
}

struct Term {
    days: f64,
    rule: DateRule,
    tier: Tier,
}

/// What is known of a product at one store before anything is drawn.
struct Case<'a> {
    product: &'a Product,
    authority: &'a Authority,
    tables: &'static ShelfLifeTables,
    t_c: f64,
    held: Option<HeldBy>,
    ceiling: Option<Ceiling>,
    quality: Option<&'static Quality>,
    refused: Vec<Refusal>,
}

/// The verdict for each store.
pub fn verdicts(product: &Product, stores: &[Temperature], authority: &Authority, settings: Draws) -> Vec<Verdict> {
    let tables = data::tables();
    let cases: Vec<_> = stores.iter().map(|&t| Case::new(product, degrees_celsius(t), authority, tables)).collect();
    let conditions: Vec<_> = cases.iter().map(Case::conditions).collect();
    let spreads = simulate(&conditions, &tables.organisms, settings);
    cases.into_iter().zip(&spreads).map(|(case, spread)| case.verdict(spread)).collect()
}

impl<'a> Case<'a> {
    fn new(product: &'a Product, t_c: f64, authority: &'a Authority, tables: &'static ShelfLifeTables) -> Self {
        let held = refusal::held(product, tables, authority);
        let ceiling = tables.ceilings.ceiling(product, t_c, product.pasteurised(tables));
        let named: Option<&'static ClassFigures> = product.class.and_then(|name| tables.ceilings.class(name));
        let quality = named.and_then(|class| tables.ceilings.quality_of(class));
        let refused = refusal::refusals(product, t_c, held, ceiling, tables, authority);
        Self { product, authority, tables, t_c, held, ceiling, quality, refused }
    }

    /// The inputs of the draws. An unknown water activity is pure water's; a temperature that is no number is refused
    /// already and drawn as a hot day.
    fn conditions(&self) -> Conditions {
        let product = self.product;
        let (log10_n0, h0) = product.start(self.tables);
        let uncertainty = |uncertainty: f64| if uncertainty.is_finite() { uncertainty.max(0.0) } else { 0.0 };
        Conditions {
            t_c: if self.t_c.is_finite() { self.t_c } else { 30.0 },
            ph: product.cautious_ph().and(product.ph).map(|ph| ph.value.get()),
            ph_sd: product.ph.map_or(0.0, |ph| uncertainty(ph.uncertainty)),
            aw: product.cautious_aw().and(product.water_activity).map_or(1.0, |aw| aw.value.get()),
            aw_sd: product.water_activity.map_or(0.0, |aw| uncertainty(aw.uncertainty)),
            abv_pct: product.abv_pct(),
            log10_n0,
            h0,
            quality: self.quality,
        }
    }

    /// Dried fruit below water activity 0.60, or of an unknown one, has no microbial date: its class alone caps it.
    fn growth_applies(&self) -> bool {
        !(refusal::is_dried(self.product, self.tables) && self.product.cautious_aw().is_none_or(|aw| aw < 0.60))
    }

    fn is_juice(&self) -> bool {
        refusal::is_juice(self.product, self.tables)
    }

    /// The terms of the ceiling, in the order in which a tie is decided.
    fn ceiling_terms(&self) -> Vec<Term> {
        let mut terms = Vec::new();
        if let Some((held, days)) = self.held_days() {
            let max_c = self.authority.max_c();
            let entered = self.authority.pa_days.is_some() || self.authority.pa_temperature.is_some();
            let code = if entered { CodeOf::Place(self.authority.name.clone()) } else { CodeOf::Default };
            let rule = DateRule::FoodCode { held, days, max_c, code };
            terms.push(Term { days: f64::from(days), rule, tier: Tier::Law });
        }
        if let Some(days) = self.authority.max_days {
            terms.push(Term {
                days: f64::from(days),
                rule: DateRule::LocalCode { days, entered: self.authority.name.clone() },
                tier: Tier::Law,
            });
        }
        if let Some(days) = self.product.spoiled_lot_days {
            // whole days strictly below the age at which it was seen; an age that is no number is none at all
            let days = if days.is_finite() { (days.ceil() - 1.0).max(0.0) } else { 0.0 };
            terms.push(Term { days, rule: DateRule::SpoiledLot, tier: Tier::House });
        }
        if let Some(ceiling) = self.ceiling {
            let rule = DateRule::Class { class: ceiling.class.name, tier: ceiling.row.tier };
            terms.push(Term { days: ceiling.row.high_days, rule, tier: ceiling.row.tier });
        }
        terms
    }

    fn verdict(self, spread: &Spread) -> Verdict {
        let mut terms = self.ceiling_terms();
        let ceiling_days = least(&terms).map(|t| t.days);
        let growth_applies = self.growth_applies();
        if growth_applies {
            let code = spread.first.map(|(code, _)| code).unwrap_or(MODELLED[0]);
            let rule = DateRule::Growth { organism: self.name_of(code) };
            terms.push(Term { days: spread.micro.q05, rule, tier: Tier::Assumed });
        }
        if let (Some(days), Some(quality)) = (spread.quality, self.quality) {
            terms.push(Term { days: days.q10, rule: DateRule::Quality { what: &quality.what }, tier: quality.tier });
        }

        let deciding = least(&terms).filter(|_| self.refused.is_empty());
        let days = deciding.map(|t| t.days.floor().max(0.0) as u32);
        let by_law = self.refused.iter().any(|r| matches!(r, Refusal::TooWarm { .. }));
        let micro = spread.micro;
        let cannot_tell = !(micro.q50.is_finite() && micro.q95 <= 100.0 * micro.q05);
        let lactic = refusal::lactic_bacteria_decide(self.product);
        let finite = |days: f64| days.is_finite().then_some(days);
        let shown = |days: f64| finite(days).filter(|_| !cannot_tell && !lactic);
        let joint = spread.quality.filter(|q| growth_applies && (q.q10 <= 2.0 * micro.q05 && micro.q05 <= 2.0 * q.q10));
        Verdict {
            screen: self.product.screen(self.tables),
            held: self.held,
            days,
            legal_days: self.legal_days().filter(|_| days.is_some()),
            mark: self.mark(deciding),
            decided_by: deciding.map(|t| t.rule.clone()),
            tier: deciding.map(|t| t.tier),
            ceiling_days: ceiling_days.filter(|_| !by_law),
            ceiling: self.ceiling.map(|ceiling| CeilingFigure {
                class: ceiling.class.name,
                days: ceiling.row.high_days,
                source: ceiling.row.key,
                says: &ceiling.row.source,
            }),
            growth: growth_applies.then(|| Growth {
                q05_days: finite(micro.q05),
                q10_days: finite(micro.q10),
                q50_days: shown(micro.q50),
                q95_days: shown(micro.q95),
                p_no_growth: spread.p_no_growth,
            }),
            quality: spread.quality.zip(self.quality).map(|(days, quality)| Staleness {
                what: &quality.what,
                sources: &quality.keys,
                q10_days: days.q10,
                q50_days: days.q50,
            }),
            joint_q05_days: joint.map(|_| spread.joint_q05),
            lives_days: if growth_applies { spread.lives.clone() } else { spread.stale.clone() },
            notes: self.notes(deciding, growth_applies && cannot_tell),
            refused: self.refused,
        }
    }

    fn name_of(&self, code: &'static str) -> &'static str {
        self.tables.organisms.modelled().into_iter().find(|o| o.code == code).map_or(code, |o| o.name)
    }

    /// What holds it to the legal days, and how many they are; none where the authority has assessed the product and
    /// only its pH is not known to us.
    fn held_days(&self) -> Option<(HeldBy, u32)> {
        let held = self.held.filter(|held| !(self.authority.assessed && *held == HeldBy::PhUnknown))?;
        Some((held, self.authority.days()))
    }

    fn legal_days(&self) -> Option<u32> {
        let held = self.held_days().map(|(_, days)| days);
        held.into_iter().chain(self.authority.max_days).min()
    }

    /// "Use by" for what could spoil or harm; "best before" only where the class lives by alcohol or dryness, or is fully
    /// processed, and neither growth nor a lot nor the law decided.
    fn mark(&self, deciding: Option<&Term>) -> Mark {
        let Some(term) = deciding else { return Mark::None };
        let keeps = matches!(self.ceiling.map(|c| c.class.group), Some(ClassGroup::Strong | ClassGroup::Dried))
            || self.product.pasteurised(self.tables);
        match term.rule {
            DateRule::Class { .. } | DateRule::Quality { .. } if keeps && self.held.is_none() => Mark::BestBefore,
            _ => Mark::UseBy,
        }
    }

    fn notes(&self, deciding: Option<&Term>, cannot_tell: bool) -> Vec<Note> {
        let (product, rule) = (self.product, deciding.map(|t| &t.rule));
        let named = product.class.and_then(|name| self.tables.ceilings.class(name));
        let same = named.zip(self.ceiling).is_some_and(|(named, c)| std::ptr::eq(named, c.class));
        let strong = product.abv_pct() >= refusal::NO_GROWTH_REPORTED_PCT_VOL;
        let by_growth = matches!(rule, Some(DateRule::Growth { .. }));
        let mild = self.authority.milder_than_default() || self.authority.assessed;
        [
            (Note::ModelCannotTell, cannot_tell),
            (Note::LacticBacteria, refusal::lactic_bacteria_decide(product)),
            (Note::JuiceModelNotTrusted, self.is_juice()),
            (Note::TableIgnoresAlcohol, strong && product.screen(self.tables).class == ScreenClass::Pa),
            (Note::HouseResponsibility, mild),
            (Note::ShortestThatFits, self.ceiling.is_some() && !same),
            (Note::WarmerThanAnyFigure, self.ceiling.is_some_and(|c| c.warmer_than_any)),
            (Note::YeastMustGetIn, by_growth && !strong),
            (Note::FridgeIsNoProof, by_growth && self.t_c <= 8.0),
            (Note::DiscardTheLot, product.spoiled_lot_days.is_some()),
            (Note::PreservativeEarnsNothing, product.preservatives > 0),
        ]
        .into_iter()
        .filter_map(|(note, applies)| applies.then_some(note))
        .collect()
    }
}

/// The shortest term; the earlier in the list where two are alike.
fn least(terms: &[Term]) -> Option<&Term> {
    terms.iter().min_by(|a, b| a.days.total_cmp(&b.days))
}
