//! What a solved card may be: a verdict for each store of the house, and the cautions that apply.
//!
//! Gathers the plain inputs of [`crate::shelf_life`] and [`crate::safety`] from the card, the larder, the house and
//! the solved mixture, in the order that keeps the arrows one way: screen, then date, then the cautions that need the
//! days. What is not stated stays unknown. A card that uses another card of the house never outlives it, takes over
//! its refusals, its allergens and its cautions.

pub(crate) mod authority;
pub mod batch;
mod declared;
mod doses;
pub mod facts;
pub mod identity;
mod ingredients;
mod intake;
mod judge;
pub(crate) mod lot;
mod method;
pub mod product;
mod stages;
pub(crate) mod store;
pub mod swapped;
pub mod whatif;

use chrono::NaiveDate;

use crate::diagnostic::{Code, Diagnostic};
use crate::house::{House, Store};
use crate::safety::intake::Intake;
use crate::safety::{self, Caution, hazards};
use crate::shelf_life::Draws;
use crate::shelf_life::screen::Screen;
use crate::solver::Solved;

use authority::LocalLimits;
pub(crate) use declared::AllergenLists;
pub use identity::{IdentityQuestion, open_identities};
use judge::{Judge, Judged};
pub use lot::Lot;
pub(crate) use store::Decision;
pub use store::{DatedStore, planned, storage};
use store::{refuse_unidentified, refuse_where_stopped, unknown_store};

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
    /// The one sentence on its allergens: what is named, and what nobody has stated.
    pub allergens_say: String,
    /// Numbers of the authority that decided, with who entered them.
    pub local: Option<LocalLimits>,
    /// Its readings in words, where they count.
    pub readings: Option<String>,
    /// Of each of them, where it must be declared.
    pub lists: Vec<AllergenLists>,
    /// The most of substances that have a limit, by what is weighed in.
    pub doses: Vec<Intake>,
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
    pub(crate) fn stops(&self) -> impl Iterator<Item = &Caution> {
        self.cautions.iter().filter(|c| c.stops())
    }

    /// Whether there is one.
    pub fn stopped(&self) -> bool {
        self.stops().next().is_some()
    }
}

/// The certain stops of a solved card in the store that it is planned for.
pub(crate) fn stops(solved: &Solved, house: &House) -> (Vec<Caution>, Vec<Diagnostic>) {
    // Whether something stops it does not hang on the day.
    let (dated, mut found) = assess(solved, house, NaiveDate::default(), Which::Planned, Draws::FEW);
    found.extend(dated.unidentified.iter().map(IdentityQuestion::diagnostic));
    (dated.stops().cloned().collect(), found)
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
    let judge =
        Judge { house, start: lot.start(), draws, local: local.as_ref(), with_bands: which == Which::AllWithBands };
    let judged = judge.judge(solved, &stores, lot.spoiled_days);
    let planned = planned(solved, &stores).unwrap_or(0);
    let screen = judged.stores.iter().find_map(|s| s.verdict.as_ref()).map(|v| v.screen);
    let allergens: Vec<String> =
        judged.facts.allergens.present.iter().map(|allergen| allergen.as_str().to_owned()).collect();
    let lists = declared::lists(&judged.facts);
    let hazards = hazards::carried_by(&judged.facts);
    let allergens_open = declared::not_stated(solved);
    let allergens_doubted = declared::doubted(&judged.facts);
    let allergens_say = declared::in_words(&allergens, &allergens_open, &allergens_doubted);
    let Judged { mut stores, cautions, carried, readings, found: of_batches, .. } = judged;
    found.extend(of_batches);
    found.extend(identity::restricted(solved));
    let unidentified = open_identities(solved);
    for store in &mut stores {
        refuse_where_stopped(store, &carried);
        refuse_unidentified(store, &unidentified);
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
        allergens_say,
        lists,
        doses: intake::doses(solved),
        hazards,
        allergens_open,
        allergens_doubted,
        stores,
        local,
        readings,
        unidentified,
        what_if,
    };
    (dated, found)
}
