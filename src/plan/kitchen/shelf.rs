//! How each ingredient is bought.

use std::collections::{BTreeMap, BTreeSet};

use rust_decimal::prelude::ToPrimitive;

use crate::assessment::{Which, assess};
use crate::card;
use crate::cost::{Price, PriceUnit};
use crate::diagnostic::{Code, Diagnostic, Span};
use crate::input::key;
use crate::larder::{Form, Ingredient};
use crate::shelf_life::Draws;
use crate::solver::resolve::FoundPart;
use crate::solver::{Options, solve};
use crate::spelling::meant_or;
use crate::units::{Customs, in_grams};
use crate::vocabulary::Kind;

use super::super::board::{Quantity, Shelf};
use super::super::calendar::Day;
use super::super::model::PrepUnit;
use super::super::orders::{OfFruit, Stocked};
use super::Gathering;

impl Gathering<'_> {
    pub(super) fn stocked(&mut self, shelves: &[Shelf], used: &BTreeMap<String, Ingredient>) -> Vec<Stocked> {
        let mut by_name: BTreeMap<&str, &Shelf> = BTreeMap::new();
        let mut said = BTreeSet::new();
        for shelf in shelves {
            match self.house.larder.find(&shelf.name.value) {
                Some(ingredient) => {
                    if by_name.insert(&ingredient.name, shelf).is_some() && said.insert(&ingredient.name) {
                        self.found.push(
                            Diagnostic::error(
                                Code::SameName,
                                format!("`{}` stands on the board twice", ingredient.name),
                            )
                            .at(shelf.name.span, "again here")
                            .help("put both under one heading"),
                        );
                    }
                }
                None => self.unknown_ingredient(shelf),
            }
        }
        let bought = used.values().filter(|i| by_name.contains_key(i.name.as_str()) || !is_tap_water(i));
        let bought: Vec<_> = bought.collect();
        bought.into_iter().filter_map(|i| self.one_stocked(i, by_name.get(i.name.as_str()).copied())).collect()
    }

    fn one_stocked(&mut self, ingredient: &Ingredient, shelf: Option<&Shelf>) -> Option<Stocked> {
        let priced = ingredient.price.as_deref().and_then(|price| of_price(price, &self.house.customs()));
        let pack = shelf.and_then(|s| s.pack);
        let on_hand = shelf.and_then(|s| s.on_hand);
        let fruit = self.house.larder.fruit_of(ingredient);
        let fruit = fruit.map(|of| OfFruit { name: of.id.clone(), whole: of.id == ingredient.id });
        let poured = match ingredient.form {
            Form::Liquid => PrepUnit::Ml,
            // nobody weighs limes
            _ if fruit.as_ref().is_some_and(|fruit| fruit.whole) && ingredient.piece.is_some() => PrepUnit::Pieces,
            _ => PrepUnit::G,
        };
        let unit = pack.map(|p| p.value.holds).or(priced).or(on_hand.map(|h| h.value)).map_or(poured, |q| q.unit);
        let weighs = |unit: PrepUnit| match unit {
            PrepUnit::G => Some(1.0),
            PrepUnit::Ml => FoundPart::ingredient(ingredient).g_per_ml,
            PrepUnit::Pieces => ingredient.piece.map(in_grams),
        };
        let at =
            on_hand.map(|q| q.span).or(pack.map(|p| p.span)).unwrap_or(shelf.map_or(Span::default(), |s| s.name.span));
        let in_thousandths = |q: Quantity| Some((q.amount * weighs(q.unit)? / weighs(unit)? * 1000.0).round() as u64);
        let stocked = || {
            Some(Stocked {
                name: ingredient.name.clone(),
                unit,
                grams_per_unit: weighs(unit)? * ingredient.usable.unwrap_or(1.0),
                pack: pack.map(|p| p.value.holds).or(priced).map_or(Some(None), |q| in_thousandths(q).map(Some))?,
                pack_by_price: pack.is_none(),
                in_pack: pack.map_or(1, |p| p.value.of),
                lead: shelf.map_or(0, |s| s.lead),
                deliver: shelf.and_then(|s| s.deliver),
                on_hand: on_hand.map_or(Some(0), |q| in_thousandths(q.value))?,
                fruit: fruit.clone().filter(|_| unit == PrepUnit::Pieces),
                keeps: if unit == PrepUnit::Pieces { None } else { self.keeps(ingredient) },
                poured: Vec::new(),
            })
        };
        let stocked = stocked();
        if stocked.is_none() {
            self.no_density(&ingredient.name, at);
        }
        stocked
    }

    /// On how many days behind the first a juice that is bought may go in, by its own date in the store of such a product; all else keeps
    /// as long as a plan looks ahead, or nobody knows how long.
    fn keeps(&self, ingredient: &Ingredient) -> Option<Day> {
        if !matches!(ingredient.kind, Some(Kind::Juice | Kind::SweetCitrusJuice)) {
            return None;
        }
        let text = format!("name = \"juice\"\n[parts]\n{} = \"1 kg\"\n", key(&ingredient.name));
        let card = card::read_by("juice".into(), text.into(), &self.house.customs()).0?;
        let solved = solve(&card, self.house, &Options::default()).solved?;
        let made = self.calendar.from;
        let (judged, _) = assess(&solved, self.house, made, Which::Planned, Draws::FEW);
        let last = judged.stores.first()?.date.filter(|_| judged.product.raw_juice > 0.0)?;
        Some((last - made).num_days() as Day)
    }

    fn unknown_ingredient(&mut self, shelf: &Shelf) {
        let name = &shelf.name.value;
        let diagnostic = Diagnostic::error(Code::UnknownIngredient, format!("`{name}` is not in the larder"))
            .at(shelf.name.span, "no ingredient has this name");
        let otherwise = "a product that the house makes goes under [product.…]";
        self.found.push(diagnostic.help(meant_or(self.house.larder.suggest(name).as_deref(), otherwise)));
    }
}

/// Water and nothing else: nobody orders it.
fn is_tap_water(ingredient: &Ingredient) -> bool {
    ingredient.per_gram.grams_of(crate::mixture::Component::Water) > 0.9999
}

/// What a price is for: what is bought at once, where the board names no pack.
fn of_price(written: &str, customs: &Customs) -> Option<Quantity> {
    let (amount, unit) = match Price::parse_by(written, customs).ok()?.per {
        PriceUnit::Grams(n) => (n, PrepUnit::G),
        PriceUnit::Millilitres(n) => (n, PrepUnit::Ml),
        PriceUnit::Pieces(n) => (n, PrepUnit::Pieces),
        PriceUnit::Hours(_) | PriceUnit::KilowattHours(_) | PriceUnit::PureAlcohol(_) => return None,
    };
    amount.to_f64().filter(|n| *n > 0.0).map(|amount| Quantity { amount, unit })
}
