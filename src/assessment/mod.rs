//! What a solved card may be: a verdict for each store of the house, and the cautions that apply.
//!
//! Gathers the plain inputs of [`crate::shelf_life`] and [`crate::safety`] from the card, the larder, the house and
//! the solved mixture, in the order that keeps the arrows one way: screen, then date, then the cautions that need the
//! days. What is not stated stays unknown. A card that uses another card of the house takes over what that one is: its
//! contents, its allergens, its cautions and the refusals of its nature, but not its days.

mod activity;
mod airless;
mod alcohol_left;
mod as_it_stood;
mod as_told;
pub(crate) mod authority;
pub mod batch;
pub(crate) mod by_name;
mod claims;
mod contradicted;
pub mod crystals;
mod curd;
mod dairy;
pub(crate) use curd::asked as curd_asked;
mod declared;
mod doses;
pub(crate) mod dressed;
pub mod facts;
mod gas;
mod gone_stale;
pub mod heated;
mod identity;
mod in_pan;
mod ingredients;
mod intake;
mod judge;
mod left_in;
mod lent_sugar;
pub(crate) mod lot;
mod method;
pub(crate) mod most;
mod nature;
mod of_lots;
mod part_kept;
mod ph;
mod ph_not_read;
mod plant_parts;
pub mod product;
mod stages;
mod stood;
pub(crate) mod store;
pub mod swapped;
mod told_against;
mod warned;
pub mod whatif;
mod working;

use std::collections::BTreeSet;

use chrono::NaiveDate;
use uom::si::time::hour;

use crate::card::Card;
use crate::diagnostic::{Code, Diagnostic};
use crate::house::{House, Store, which_store};
use crate::safety::intake::Intake;
use crate::safety::warnings::Holds;
use crate::safety::{self, Caution, hazards, steps};
use crate::shelf_life::class::{self, Quoted};
use crate::shelf_life::hurdles::Hurdles;
use crate::shelf_life::reason::Note;
use crate::shelf_life::{Draws, Product};
use crate::solver::Solved;
use crate::solver::resolve::FoundPart;
use crate::vocabulary::{Open, ProductClass};

use alcohol_left::AlcoholLeft;
pub(crate) use as_told::as_told;
pub(crate) use declared::{AllergenLists, allergens_by_group};
pub(crate) use facts::allergens_by_line;
pub use identity::{IdentityQuestion, open_identities};
use judge::{Judge, Judged};
pub use lot::{Lot, LotsCounted};
pub use part_kept::{PartKept, PartLot};
pub use store::{DatedStore, planned, storage};
use store::{refuse_of_a_drink, refuse_unidentified, refuse_where_stopped, unknown_store};

/// A label may be off by so much, % vol (Regulation (EU) 1169/2011, Annex XII, of all that it sets apart nothing).
const LABEL_MAY_BE_OFF: f64 = 0.3;

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
    /// The hurdles of the finished product at their cautious ends, with the screen.
    pub hurdles: Hurdles,
    /// The product as its date saw it.
    pub product: Product,
    /// The share of its alcohol that heat surely left, 0 to 1; 1 of a strength that was read.
    pub alcohol_sure: f64,
    /// The share that may be left at the most.
    pub(crate) alcohol_most: f64,
    /// What the card calls it and what is usually quoted for that: see [`Named`].
    pub named: Named,
    /// What was assumed of it, the day of its parts first.
    pub assumed: Vec<String>,
    /// Allergens, its own and those of inner cards.
    pub allergens: Vec<String>,
    /// The one sentence on its allergens: what is named, and what nobody has stated.
    pub allergens_say: String,
    /// Its readings in words, where they count.
    pub readings: Option<String>,
    /// Of each of them, where it must be declared.
    pub lists: Vec<AllergenLists>,
    /// The same of those that may be in it.
    pub doubted_lists: Vec<AllergenLists>,
    /// The most of substances that have a limit, by what is weighed in.
    pub doses: Vec<Intake>,
    /// What of it a label warns of.
    pub(crate) warned: Vec<Holds>,
    /// What somebody has set or said of the hazards that it carries.
    pub hazards: Vec<hazards::PublishedLimit>,
    /// Its ingredients of which nobody has said which allergens they bring.
    pub allergens_open: Vec<String>,
    /// What is to be asked of ingredients whose names may be misspelt allergens.
    pub allergens_doubted: Vec<String>,
    /// Its ingredients of which nothing says that they are food: with one of them nothing is dated.
    pub unidentified: Vec<IdentityQuestion>,
    /// What one change would buy; only where it was asked for ([`whatif::what_if`]).
    pub what_if: Vec<whatif::WhatIf>,
}

impl Assessment {
    /// Leaves one store only. A store that the house does not have is reported, and all are kept.
    pub(crate) fn keep_only(&mut self, wanted: &str) -> Option<Diagnostic> {
        let Some(place) = self.stores.iter().position(|s| s.store.name.eq_ignore_ascii_case(wanted)) else {
            return Some(
                Diagnostic::error(Code::BadArgument, format!("the house has no store `{wanted}`"))
                    .help(which_store(self.stores.iter().map(|dated| &dated.store), wanted)),
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
    pub(crate) fn stops(&self) -> impl Iterator<Item = &Caution> {
        self.cautions.iter().filter(|c| c.stops())
    }

    /// Between which strengths it is, % vol, where heat may have driven off more of `abv_pct` than a label may be off by.
    pub(crate) fn strength_between(&self, abv_pct: f64) -> Option<[f64; 2]> {
        let least = abv_pct * self.alcohol_sure;
        (abv_pct - least > LABEL_MAY_BE_OFF).then_some([least, (abv_pct * self.alcohol_most).max(least)])
    }

    /// Whether there is one.
    pub fn stopped(&self) -> bool {
        self.stops().next().is_some()
    }
}

/// The allergens of what the card of a bottle says goes in for a guest.
pub(crate) fn allergens_for_a_guest(card: &Card) -> BTreeSet<String> {
    let told = card.for_a_guest.iter().flat_map(|text| steps::read(text).found.allergens);
    told.map(|allergen| Open::Known(allergen).as_str().to_owned()).collect()
}

/// What stops a card, whatever is asked of it: the stops in the store that it is planned for, and as errors its
/// ingredients of which nothing says that they are food.
pub(crate) fn stops(solved: &Solved, house: &House) -> (Vec<Caution>, Vec<Diagnostic>) {
    let (dated, _) = undated(solved, house);
    (dated.stops().cloned().collect(), dated.unidentified.iter().map(IdentityQuestion::diagnostic).collect())
}

/// The judgement without a day: neither cautions nor identity nor whether there is a date hang on the day or on its digits.
pub(crate) fn undated(solved: &Solved, house: &House) -> (Assessment, Vec<Diagnostic>) {
    assess(solved, house, NaiveDate::default(), Which::Planned, Draws::FEW)
}

/// The same of what is poured, of whichever of its lots that stand there.
pub(crate) fn poured(solved: &Solved, house: &House) -> (Assessment, Vec<Diagnostic>) {
    let lot = Lot { counted: LotsCounted::OwnToo, ..Lot::default() };
    assess(solved, house, lot, Which::Planned, Draws::FEW)
}

/// What a card calls its product, whether it earns the word, and what is usually quoted for it. None of it changes a date.
#[derive(Clone, Debug, Default)]
pub struct Named {
    /// What it is, of the classes that its composition earns: the one that the card names, else the first.
    pub class: Option<ProductClass>,
    /// Why the word of the card is ignored, in words.
    pub ignored: Option<String>,
    /// What is usually quoted for it.
    pub quoted: Vec<&'static Quoted>,
}

impl Named {
    fn of(solved: &Solved, product: &Product, hurdles: &Hurdles) -> Self {
        let said = solved.card.class.as_ref().and_then(|class| class.value.known());
        let lacks = said.and_then(|class| Some((class, class::missing(class, product, hurdles)?)));
        let ignored = lacks
            .map(|(class, lacks)| format!("called {class}, but {lacks}: what is in it dates it, and not the word"));
        let earned = class::earned(product);
        let class = said.filter(|class| earned.contains(class));
        let class = class.or_else(|| earned.into_iter().find(|class| class::quoted(*class).next().is_some()));
        let quoted = class.map(|class| class::quoted(class).collect()).unwrap_or_default();
        Self { class, ignored, quoted }
    }
}

/// What is assumed of the day of its parts.
fn assumed(solved: &Solved, lot: &Lot, product: &Product) -> Vec<String> {
    let mut assumed = Vec::new();
    let parts: Vec<&str> = solved.inner.iter().map(|inner| inner.card.name.as_str()).collect();
    if !parts.is_empty() && !lot.tells_a_day() {
        assumed.push(format!("use only {} that is in date; counted as made the same day", parts.join(", ")));
    }
    if product.raw_juice > 0.0 && !lot.tells_a_day() {
        let waits =
            solved.card.all_stages().any(|s| s.takes.as_ref().is_some_and(|takes| takes.time.get::<hour>() >= 20.0));
        let day = if waits { "it goes in" } else { "it is made" };
        let cards = solved.with_inner();
        let mut parts = cards.iter().flat_map(|(card, _)| card.stages.iter().flat_map(|stage| &stage.parts));
        let is_juice = parts.any(|part| part.found.what.ingredient().is_some_and(|i| product::is_raw_juice(part, i)));
        assumed.push(match is_juice {
            true => format!("fresh juice pressed on the day {day}"),
            false => format!("what its raw fruit gives counts as fresh juice of the day {day}"),
        });
    }
    assumed
}

/// The same with all the water that may still go in, to taste: what is dated has to keep whatever the bottle becomes.
fn watered(solved: &Solved, house: &House) -> Option<Solved> {
    let more_g = most_water_g(solved);
    let water = house.larder.find("water").filter(|_| more_g > 0.0).map(FoundPart::ingredient)?;
    Some(solved.with_water(water, more_g))
}

/// The water that may still go into what is bottled, by its own card and by those that go into it, grams.
pub(crate) fn most_water_g(solved: &Solved) -> f64 {
    let of_card = |(card, share): (&Solved, f64)| {
        card.card.keep.more_water.map_or(0.0, |more| share * more * card.bottled().total_grams())
    };
    solved.with_inner().into_iter().map(of_card).sum()
}

/// Which stores are asked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Which<'a> {
    /// All of the house's.
    All,
    /// All of the house's, and what a degree more or less would change.
    AllWithBands,
    /// The one that the card is planned for.
    Planned,
    /// This one, whatever the card is planned for.
    Only(&'a Store),
}

/// Dates a lot of a solved card; of a lot of which no more is known, the day made is enough.
pub fn assess(
    solved: &Solved,
    house: &House,
    lot: impl Into<Lot>,
    which: Which<'_>,
    draws: Draws,
) -> (Assessment, Vec<Diagnostic>) {
    let mut lot = lot.into();
    lot.spoiled_days = lot.spoiled_days.into_iter().chain(most::grew_days(solved, house)).reduce(f64::min);
    let day = Some(lot.made).filter(|day| *day != NaiveDate::default());
    let (local, mut found) = authority::read(house, &solved.name, day);
    found.extend(unknown_store(solved, house));
    let stores: Vec<Store> = match which {
        Which::All | Which::AllWithBands => house.settings.stores.clone(),
        Which::Planned => planned(solved, &house.settings.stores)
            .and_then(|place| house.settings.stores.get(place))
            .cloned()
            .into_iter()
            .collect(),
        Which::Only(store) => vec![store.clone()],
    };
    let judge = Judge { house, lot: &lot, draws, local: &local, with_bands: which == Which::AllWithBands };
    let mut judged = judge.judge(solved, &stores);
    if let Some(watered) = watered(solved, house) {
        let mut with_it = judge.judge(&watered, &stores);
        let verdicts = with_it.stores.iter_mut().filter_map(|dated| dated.verdict.as_mut());
        verdicts.for_each(|verdict| verdict.notes.push(Note::WithMoreWater));
        judged = with_it.shorter_with(judged);
    }
    let planned = planned(solved, &stores).unwrap_or(0);
    let product = judged.inputs.product.clone();
    let hurdles = Hurdles::of(&product);
    let named = Named::of(solved, &product, &hurdles);
    let assumed = assumed(solved, &lot, &product);
    let allergens: Vec<String> =
        judged.facts.allergens.present.iter().map(|allergen| allergen.as_str().to_owned()).collect();
    let lists = declared::lists(&judged.facts, judged.facts.allergens.present.iter());
    let doubted_lists = declared::lists(&judged.facts, declared::in_doubt(&judged.facts));
    let hazards = hazards::carried_by(&judged.facts);
    let mut allergens_open = declared::not_stated(solved);
    allergens_open.extend(dressed::not_stated(solved, house));
    let unidentified = open_identities(solved, house);
    // what may be anything may bring any
    for name in unidentified.iter().filter_map(IdentityQuestion::may_bring_any) {
        if !allergens_open.contains(&name) {
            allergens_open.push(name);
        }
    }
    let allergens_doubted = declared::doubted(&judged.facts);
    let known = [allergens_open.as_slice(), &allergens_doubted].concat();
    allergens_open.extend(of_lots::not_stated(solved, house, &lot, &known));
    let allergens_say = declared::in_words(&allergens, &allergens_open, &allergens_doubted);
    let AlcoholLeft { sure: alcohol_sure, most: alcohol_most } = judged.inputs.alcohol;
    let Judged { mut stores, mut cautions, carried, readings, found: of_batches, .. } = judged;
    if let (Which::Only(_), Some(only)) = (which, stores.first()) {
        cautions = safety::gather(only.cautions.clone(), carried.clone());
    }
    found.extend(of_batches);
    found.extend(identity::restricted(solved));
    found.extend(curd::asked(solved));
    if !product.contents.dried {
        found.extend(crystals::over_saturated(solved.bottled()));
    }
    for store in &mut stores {
        refuse_where_stopped(store, &carried);
        refuse_unidentified(store, &unidentified);
        refuse_of_a_drink(store, solved);
        lot.take_out_frozen_days(store);
    }
    let what_if = Vec::new();
    let doses = intake::doses(solved);
    let dated = Assessment {
        lot,
        planned,
        cautions,
        carried,
        hurdles,
        product,
        alcohol_sure,
        alcohol_most,
        named,
        assumed,
        allergens,
        allergens_say,
        lists,
        doubted_lists,
        warned: warned::of(solved, &judged.facts, &doses),
        doses,
        hazards,
        allergens_open,
        allergens_doubted,
        stores,
        readings,
        unidentified,
        what_if,
    };
    (dated, found)
}
