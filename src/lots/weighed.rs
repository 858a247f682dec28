//! What went into a lot, each thing once: a drink by its own parts, but for one that may be poured of a bottle of it, however deep.

use std::collections::BTreeSet;

use chrono::NaiveDate;

use crate::diagnostic::any_error;
use crate::drinks::{self, BottledPart};
use crate::house::House;
use crate::properties::{TargetKind, value_of};
use crate::solver::{IceWater, PouredPart, Solved, SolvedPart, inner_drink, parts_of_drink};
use crate::spelling::fold;

use super::ahead::bottled_as;
use super::book::{LotBook, LotStanding, LotState};
use super::due::{Soon, soon};
use super::event::PartFrom;
use super::request::RecordRequest;
use super::told_lot::STRONGER_BY;

/// A part of a lot, and what its lots may be called in the book, folded: of a drink, what it is bottled as.
pub(super) struct WeighedPart<'a> {
    pub(super) poured: PouredPart<'a>,
    pub(super) called: BTreeSet<String>,
    pub(super) is_drink: bool,
    /// Whether a bottle without the water of its ice may be it: that water is weighed in beside it.
    pub(super) may_lack_water: bool,
}

/// What went into a lot.
#[derive(Default)]
pub(super) struct Weighed<'a> {
    pub(super) parts: Vec<WeighedPart<'a>>,
    /// The drinks in it, whether they are poured of a bottle or made for it.
    pub(super) drinks: Vec<&'a SolvedPart>,
}

/// What is told of a part by what the card calls it, or what it is.
pub(super) fn told<'r>(request: &'r RecordRequest, part: &SolvedPart) -> Option<&'r PartFrom> {
    let is_it = |name: &str| fold(name) == fold(&part.label) || fold(name) == fold(&part.of);
    request.parts.iter().find(|(name, _)| is_it(name)).map(|(_, from)| from)
}

/// The drink that a card is a batch of, where it can be solved.
pub(super) fn poured_drink(solved: &Solved, house: &House) -> Option<Solved> {
    let card = house.read_card(solved.card.pours.as_deref()?).filter(|card| card.is_drink())?;
    let mut found = Vec::new();
    drinks::glass::drink(&card, house, &mut found).filter(|_| !any_error(&found))
}

/// The parts of a card; `batch_of` is the drink that it is a batch of, and may be filled from bottles of the drinks inside that.
pub(super) fn weighed<'a>(
    solved: &'a Solved,
    batch_of: Option<&'a Solved>,
    house: &House,
    book: &LotBook,
    request: &RecordRequest,
) -> Weighed<'a> {
    let mut weighing = PartsWeighing { house, book, request, weighed: Weighed::default() };
    for part in solved.parts().filter(|part| part.mass_g > 0.0 && part.stage().is_none()) {
        weighing.take(PouredPart { part, mass_g: part.mass_g, within: solved });
    }
    if let Some(drink) = batch_of {
        let bottled = drinks::bottled_parts(drink, house);
        weighing.fill_from_bottles(drink, &bottled);
    }
    weighing.weighed
}

struct PartsWeighing<'a, 'r> {
    house: &'r House,
    book: &'r LotBook,
    request: &'r RecordRequest,
    weighed: Weighed<'a>,
}

impl<'a> PartsWeighing<'a, '_> {
    fn take(&mut self, of: PouredPart<'a>) {
        if let Some(bottle) = self.bottle(of, false) {
            return self.add(bottle);
        }
        match parts_of_drink(of.part, of.mass_g, of.within) {
            Some(inside) => inside.into_iter().for_each(|own| self.take(own)),
            None => {
                let called = BTreeSet::from([fold(&of.part.of)]);
                self.add(WeighedPart { called, poured: of, is_drink: false, may_lack_water: false });
            }
        }
    }

    /// A part that is a drink as a bottle of it, where it is told to be one or one may be it.
    fn bottle(&mut self, poured: PouredPart<'a>, may_lack_water: bool) -> Option<WeighedPart<'a>> {
        let PouredPart { part, within, .. } = poured;
        let drink = inner_drink(within, part)?;
        self.weighed.drinks.push(part);
        let called = bottled_as(&drink.name, self.house);
        let bottle = WeighedPart { poured, called, is_drink: true, may_lack_water };
        let is_one = match told(self.request, part) {
            Some(PartFrom::Lot(_) | PartFrom::Batch(_)) => true,
            Some(PartFrom::Day(_) | PartFrom::NotTold) => false,
            None => !in_date(&bottle, self.book, self.request.made).is_empty(),
        };
        is_one.then_some(bottle)
    }

    /// The card of a batch lists the parts of the drinks inside its drink with its own: where such a drink is poured of a bottle, as much of
    /// each as is in that drink.
    fn fill_from_bottles(&mut self, within: &'a Solved, bottled: &[BottledPart<'a>]) {
        for part in within.last().parts.iter().filter(|part| part.mass_g > 0.0 && !part.after_ice) {
            let Some(drink) = inner_drink(within, part) else { continue };
            let Some(mut bottle) = self.bottle(PouredPart { part, mass_g: 0.0, within }, true) else {
                self.fill_from_bottles(drink, bottled);
                continue;
            };
            let inside = drink.with_inner();
            let is_inside = |of: &&BottledPart<'_>| inside.iter().any(|(card, _)| std::ptr::eq(*card, of.within));
            let lacks_water = match told(self.request, part) {
                Some(PartFrom::Lot(code)) => self.book.lot(code).is_some_and(|lot| bottle.is_stronger_than(lot, false)),
                _ => false,
            };
            let whole_g = |label: &str, of: &str| -> f64 {
                bottled.iter().filter(|all| all.is_line(label, of)).map(|all| all.mass_g).sum()
            };
            let is_in_bottle = |own: &&BottledPart<'_>| own.mass_g > 0.0 && !(lacks_water && own.is_ice);
            for own in bottled.iter().filter(is_inside).filter(is_in_bottle) {
                let line = self.weighed.parts.iter_mut().find(|line| {
                    let line = line.poured.part;
                    own.is_line(&line.label, &line.of)
                });
                let Some(line) = line else { continue };
                // the whole shrinks with each that is taken of it
                let share = own.mass_g / whole_g(&own.label, &own.of);
                bottle.poured.mass_g += share * line.poured.part.mass_g;
                line.poured.mass_g -= share * line.poured.part.mass_g;
            }
            // a hair of a part is what the rounded lines of the card leave
            self.weighed.parts.retain(|line| line.poured.mass_g > 1e-9 * line.poured.part.mass_g);
            if bottle.poured.mass_g > 0.0 {
                self.add(bottle);
            }
        }
    }

    fn add(&mut self, of: WeighedPart<'a>) {
        let is_it = |other: &&mut WeighedPart<'_>| {
            let (other, of) = (other.poured.part, of.poured.part);
            other.label == of.label && other.of == of.of
        };
        match self.weighed.parts.iter_mut().find(is_it) {
            Some(other) => other.poured.mass_g += of.poured.mass_g,
            None => self.weighed.parts.push(of),
        }
    }
}

/// The lots of a product of the house that may have gone in on a day: those that may be used, and those that were used up
/// on that day or since.
pub(super) fn in_date<'b>(part: &WeighedPart<'_>, book: &'b LotBook, made: NaiveDate) -> Vec<&'b LotState> {
    let may_be_used = |lot: &LotState| {
        soon(lot, made).is_some_and(|soon| soon > Soon::NoDate && soon != Soon::Frozen)
            && lot.left_g().is_none_or(|left| left.round() > 0.0)
    };
    let was_there = |lot: &LotState| lot.standing == LotStanding::UsedUp && lot.since >= made && lot.pulled.is_none();
    let may_be_it =
        |lot: &&LotState| part.is_of(lot) && lot.recorded.made <= made && (may_be_used(lot) || was_there(lot));
    book.lots().filter(may_be_it).collect()
}

impl WeighedPart<'_> {
    pub(super) fn is_of(&self, lot: &LotState) -> bool {
        self.called.contains(&fold(&lot.recorded.product))
    }

    /// The strength that the card counts a drink with, % vol.
    pub(super) fn counted_pct(&self) -> Option<f64> {
        let drink = inner_drink(self.poured.within, self.poured.part)?;
        value_of(TargetKind::Abv, drink.bottled())
    }

    /// Whether a bottle is stronger than the drink may be: with the least water of its ice, or, `undiluted`, with none.
    pub(super) fn is_stronger_than(&self, lot: &LotState, undiluted: bool) -> bool {
        let most = || {
            let drink = inner_drink(self.poured.within, self.poured.part)?;
            let all_g = drink.bottled().total_grams();
            // the bottle of a drink whose ice nobody weighed has the least water that it may be
            let less = |ice: &IceWater| if undiluted { ice.grams } else { ice.grams - ice.least_g };
            let less_g = drink.ice_water.as_ref().map_or(0.0, less);
            Some(self.counted_pct()? * all_g / (all_g - less_g) + STRONGER_BY)
        };
        lot.recorded.abv_pct.zip(most()).is_some_and(|(is, most)| is > most)
    }
}
