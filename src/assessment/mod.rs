//! What a solved card may be: a verdict for each store of the house, and the cautions that apply.
//!
//! Gathers the plain inputs of [`crate::shelf_life`] and [`crate::safety`] from the card, the larder, the house and
//! the solved mixture, in the order that keeps the arrows one way: screen, then date, then the cautions that need the
//! days. What is not stated stays unknown. A card that uses another card of the house never outlives it, takes over
//! its refusals, its allergens and its cautions.

pub mod authority;
pub mod batch;
pub mod facts;
pub mod lot;
pub mod product;
pub mod store;
pub mod swapped;
pub mod whatif;

use std::cell::RefCell;
use std::collections::HashMap;
use std::rc::Rc;

use chrono::NaiveDate;

use crate::diagnostic::{Code, Diagnostic};
use crate::house::{House, Store};
use crate::safety::allergens::{Carrier, Declared, declare};
use crate::units::{Temperature, celsius, degrees_celsius};

use crate::safety::{self, Caution, Facts, Market, Storage};
use crate::shelf_life::reason::Mark;
use crate::shelf_life::screen::Screen;
use crate::shelf_life::{Authority, Draws, Product, Treatment, Verdict, calendar, verdicts};
use crate::solver::Solved;
use crate::spelling;

use authority::LocalLimits;
pub use lot::Lot;
pub use store::{DatedStore, planned, storage};
use store::{OnceOpened, StoreRefusal, hold_to_part, refuse_where_stopped, unknown_store};

/// The answer for a card.
#[derive(Clone, Debug)]
pub struct Assessment {
    /// What is known of the lot: the day made, and its time in the freezer.
    pub lot: Lot,
    /// The stores of the house, in its order.
    pub stores: Vec<DatedStore>,
    /// The store that the card is planned for: `[keep] store`, else the coldest that is not frozen.
    pub planned: usize,
    /// Every caution of the planned store, and what is carried out of inner cards.
    pub cautions: Vec<Caution>,
    /// What is carried out of inner cards.
    pub carried: Vec<Caution>,
    /// The answer of the pH and water activity tables.
    pub screen: Option<Screen>,
    /// Allergens, its own and those of inner cards.
    pub allergens: Vec<String>,
    /// Numbers of the authority that decided, with who entered them.
    pub local: Option<LocalLimits>,
    /// Its readings in words, where they count.
    pub readings: Option<String>,
    /// Of each of them, the markets of the house (all, where it names none) on whose list it stands.
    pub listed_in: Vec<(String, Vec<Market>)>,
    /// Its ingredients of which nobody has said which allergens they bring.
    pub allergens_open: Vec<String>,
    /// What is to be asked of ingredients whose names may be misspelt allergens.
    pub allergens_doubted: Vec<String>,
    /// What one change would buy; only where it was asked for ([`whatif::of`]).
    pub what_if: Vec<whatif::WhatIf>,
}

impl Assessment {
    /// Leaves one store only. A store that the house does not have is reported, and all are kept.
    pub fn keep_only(&mut self, wanted: &str) -> Option<Diagnostic> {
        let Some(place) = self.stores.iter().position(|s| s.store.name.eq_ignore_ascii_case(wanted)) else {
            let names: Vec<&str> = self.stores.iter().map(|s| s.store.name.as_str()).collect();
            return Some(
                Diagnostic::error(Code::BadArgument, format!("the house has no store `{wanted}`"))
                    .help(format!("its stores are: {}", names.join(", "))),
            );
        };
        let kept = self.stores.swap_remove(place);
        self.cautions = safety::gather(kept.cautions.clone(), self.carried.clone());
        for change in &mut self.what_if {
            change.buys.retain(|b| b.store == kept.store.name);
        }
        self.stores = vec![kept];
        self.planned = 0;
        None
    }

    /// The cautions that say not to make or serve it as planned, and that hang on nothing unstated.
    pub fn stops(&self) -> impl Iterator<Item = &Caution> {
        self.cautions.iter().filter(|c| c.stops())
    }

    /// Whether there is one.
    pub fn stopped(&self) -> bool {
        self.stops().next().is_some()
    }
}

/// The certain stops of a solved card in the store that it is planned for.
pub fn stops(solved: &Solved, house: &House) -> (Vec<Caution>, Vec<Diagnostic>) {
    // Whether something stops it does not hang on the day.
    let (dated, found) = assess(solved, house, NaiveDate::default(), Which::Planned, Draws::FEW);
    (dated.stops().cloned().collect(), found)
}

/// A card dated with its inner cards, and the facts that its outer cards take over.
struct Judged {
    stores: Vec<DatedStore>,
    facts: Facts,
    cautions: Vec<Caution>,
    carried: Vec<Caution>,
    found: Vec<Diagnostic>,
    readings: Option<String>,
}

/// Which stores are asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Which {
    /// All of the house's.
    All,
    /// All of the house's, and what a degree more or less would change.
    AllWithBands,
    /// The one that the card is planned for.
    Planned,
}

/// Dates a lot of a solved card; of a lot of which no more is known, the day made is enough.
pub fn assess(
    solved: &Solved,
    house: &House,
    lot: impl Into<Lot>,
    which: Which,
    draws: Draws,
) -> (Assessment, Vec<Diagnostic>) {
    let lot = lot.into();
    let (local, mut found) = authority::read(house);
    found.extend(unknown_store(solved, house));
    let stores: Vec<Store> = match which {
        Which::All | Which::AllWithBands => house.settings.stores.clone(),
        Which::Planned => planned(solved, &house.settings.stores)
            .and_then(|place| house.settings.stores.get(place))
            .cloned()
            .into_iter()
            .collect(),
    };
    let judged = Judge {
        house,
        start: lot.start(),
        draws,
        local: local.as_ref(),
        with_bands: which == Which::AllWithBands,
        judged: RefCell::default(),
    }
    .judge(solved, &stores, lot.spoiled_days);
    let planned = planned(solved, &stores).unwrap_or(0);
    let allergens = judged.facts.allergens.present.iter().cloned().collect();
    let screen = judged.stores.iter().find_map(|s| s.verdict.as_ref()).map(|v| v.screen);
    let listed_in = listed_in(&judged.facts);
    let allergens_open = not_stated(solved);
    let allergens_doubted = doubted(&judged.facts);
    let Judged { mut stores, cautions, carried, readings, found: of_batches, .. } = judged;
    found.extend(of_batches);
    for store in &mut stores {
        refuse_where_stopped(store, &carried);
        lot.take_out_frozen_days(store);
    }
    let what_if = Vec::new();
    let dated = Assessment {
        lot,
        planned,
        cautions,
        carried,
        screen,
        allergens,
        listed_in,
        allergens_open,
        allergens_doubted,
        stores,
        local,
        readings,
        what_if,
    };
    (dated, found)
}

/// What a card and its inner cards are judged with.
struct Judge<'a> {
    house: &'a House,
    start: NaiveDate,
    draws: Draws,
    local: Option<&'a LocalLimits>,
    with_bands: bool,
    /// The inner cards that have been judged, by folded name and the stores they were judged in.
    judged: RefCell<HashMap<(String, Vec<String>), Rc<Judged>>>,
}

impl Judge<'_> {
    /// The same formula in the same stores is the same wherever it goes in.
    fn judge_once(&self, solved: &Solved, asked: &[Store]) -> Rc<Judged> {
        let key = (spelling::fold(&solved.name), asked.iter().map(|store| store.name.clone()).collect());
        if let Some(judged) = self.judged.borrow().get(&key) {
            return Rc::clone(judged);
        }
        let judged = Rc::new(self.judge(solved, asked, None));
        self.judged.borrow_mut().insert(key, Rc::clone(&judged));
        judged
    }

    /// In the stores that are asked for, and for its cautions in the one that it is planned for itself: an inner card
    /// is kept in its own until it goes in.
    fn judge(&self, solved: &Solved, asked: &[Store], spoiled_lot_days: Option<f64>) -> Judged {
        let houses = &self.house.settings.stores;
        let own_store = planned(solved, houses).and_then(|place| houses.get(place));
        let mut all = asked.to_vec();
        all.extend(own_store.filter(|own| !asked.contains(own)).cloned());
        let inner: Vec<(&str, Rc<Judged>)> =
            solved.inner.iter().map(|i| (i.card.name.as_str(), self.judge_once(&i.card, &all))).collect();
        let mut facts = facts::of_parts(solved, self.house);
        for (_, judged) in &inner {
            facts.take_in(&judged.facts);
        }
        let batch = batch::judged_batch(solved, self.house);
        let product = Product { spoiled_lot_days, ..product::date_inputs(solved, self.house, &batch, &facts) };
        facts::of_product(&mut facts, solved, self.house, &product);
        facts.conclude();

        let limits = authority::for_product(self.local, &solved.name);
        let thawed = all.iter().filter(|s| storage(s) != Storage::Frozen);
        let temperatures: Vec<_> = thawed.map(|s| s.temperature).collect();
        let mut opened = self.opened(&product, &temperatures, &limits).into_iter();
        let mut verdicts = verdicts(&product, &temperatures, &limits, self.draws).into_iter();
        let mut bands = self.bands(&all, &product, &limits).into_iter();
        let of_heat = facts::of_heated_stages(solved, self.house, &facts);
        let mut stores: Vec<DatedStore> = all
            .iter()
            .enumerate()
            .map(|(place, store)| {
                let frozen = storage(store) == Storage::Frozen;
                let mut dated = self.one_store(store, if frozen { None } else { verdicts.next() });
                if !frozen {
                    (dated.band, dated.opened) = (bands.next(), opened.next());
                }
                for (name, judged) in &inner {
                    if let Some(part) = judged.stores.get(place) {
                        hold_to_part(&mut dated, name, part);
                    }
                }
                facts::of_store(&mut facts, &dated);
                dated.cautions = safety::gather(safety::evaluate(&facts), of_heat.clone());
                dated
            })
            .collect();
        let own = stores.iter().find(|s| Some(&s.store) == own_store).map(|s| s.cautions.clone());
        stores.truncate(asked.len());
        let carried: Vec<Caution> =
            inner.iter().flat_map(|(name, judged)| safety::carry(name, &judged.cautions)).collect();
        let mut found = batch.found;
        for diagnostic in inner.iter().flat_map(|(_, judged)| &judged.found) {
            if !found.contains(diagnostic) {
                found.push(diagnostic.clone());
            }
        }
        Judged {
            cautions: safety::gather(own.unwrap_or_default(), carried.clone()),
            carried,
            stores,
            facts,
            found,
            readings: batch::in_words(&batch.measured),
        }
    }

    /// The lives at a degree more and a degree less, for each store that is not frozen.
    fn bands(&self, stores: &[Store], product: &Product, limits: &Authority) -> Vec<(Vec<f64>, Vec<f64>)> {
        if !self.with_bands {
            return Vec::new();
        }
        let thawed: Vec<&Store> = stores.iter().filter(|s| storage(s) != Storage::Frozen).collect();
        let lives_at = |more: f64| {
            let moved: Vec<_> = thawed.iter().map(|s| celsius(degrees_celsius(s.temperature) + more)).collect();
            verdicts(product, &moved, limits, self.draws).into_iter().map(|v| v.lives_days)
        };
        lives_at(1.0).zip(lives_at(-1.0)).collect()
    }

    /// What is left of the life once it is opened, for each store that is not frozen; nothing where opening changes
    /// nothing: of what was not filled hot and closed, anything may have got in already.
    fn opened(&self, product: &Product, temperatures: &[Temperature], limits: &Authority) -> Vec<OnceOpened> {
        if !product.process.hot_bottled() {
            return Vec::new();
        }
        let process = Treatment { opened: true, ..product.process.clone() };
        let product = Product { process, ..product.clone() };
        verdicts(&product, temperatures, limits, self.draws).iter().map(OnceOpened::from_verdict).collect()
    }

    fn one_store(&self, store: &Store, verdict: Option<Verdict>) -> DatedStore {
        let days = verdict.as_ref().and_then(|v| v.days);
        let legal = verdict.as_ref().and_then(|v| v.legal_days);
        let decided_by = verdict.as_ref().and_then(|v| v.decided_by.as_ref()).map(|rule| {
            let words = rule.to_string();
            match self.local.filter(|_| words.contains("local code")) {
                Some(local) => format!("{words} ({})", local.entered),
                None => words,
            }
        });
        DatedStore {
            store: store.clone(),
            days,
            date: days.and_then(|d| calendar::last_day(self.start, d, legal, self.house.settings.day_one)),
            mark: verdict.as_ref().map_or(Mark::None, |v| v.mark),
            tier: verdict.as_ref().and_then(|v| v.tier),
            decided_by,
            refused: verdict.iter().flat_map(|v| &v.refused).map(StoreRefusal::own).collect(),
            cautions: Vec::new(),
            band: None,
            opened: None,
            left_when_thawed: None,
            verdict,
        }
    }
}

/// Each allergen that is surely in it, with the markets that ask for it on a label.
fn listed_in(facts: &Facts) -> Vec<(String, Vec<Market>)> {
    let lists: Vec<(Market, Vec<Declared>)> = safety::or_all(&facts.market)
        .iter()
        .map(|&market| (market, declare(market, &facts.allergens, Carrier::Itself)))
        .collect();
    let on = |allergen: &str| -> Vec<Market> {
        lists
            .iter()
            .filter(|(_, list)| list.iter().any(|d| d.allergen == allergen))
            .map(|(market, _)| *market)
            .collect()
    };
    facts.allergens.present.iter().map(|allergen| (allergen.clone(), on(allergen))).collect()
}

/// The ingredients of which nobody has said which allergens they bring.
fn not_stated(solved: &Solved) -> Vec<String> {
    let mut names: Vec<String> =
        solved.ingredients().iter().filter(|(i, _)| !i.allergens_stated).map(|(i, _)| i.name.clone()).collect();
    names.sort();
    names.dedup();
    names
}

/// The questions of the allergens that may be there, those that surely are left out.
fn doubted(facts: &Facts) -> Vec<String> {
    let allergens = &facts.allergens;
    let open = allergens.unsure.difference(&allergens.present);
    let mut asked: Vec<String> = open.filter_map(|a| facts.questions.get(a)).flatten().cloned().collect();
    asked.sort();
    asked.dedup();
    asked
}
