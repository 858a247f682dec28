//! From the board and the cards to plain numbers: what each product takes, how long it takes, how long it keeps.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use chrono::NaiveDate;
use rust_decimal::prelude::ToPrimitive;

use crate::cost::{Per, Price};
use crate::dated::{self, DatedStore, Which};
use crate::diagnostic::{Code, Diagnostic, Span, Spanned, any_error};
use crate::formula::{self, folded};
use crate::house::{House, Store};
use crate::larder::{Form, Ingredient, names};
use crate::quantity::in_grams;
use crate::shelf_life::{Settings, calendar::last_day};
use crate::solve::resolve::{Found, What, poured_g_per_ml};
use crate::solve::{Options, Solved, solve};
use crate::text::nearest;

use super::board::{Board, Entry, Held, HeldDate, Quantity, Rate, Shelf};
use super::calendar::{Calendar, Day};
use super::model::{Goes, OnHand, Product, Take, Unit};
use super::orders::Stocked;
use super::uses::Uses;
use super::work;

/// Everything that a plan is made from.
#[derive(Clone, Debug)]
pub struct Kitchen {
    /// The days.
    pub calendar: Calendar,
    /// The products of the board, and the house's products that go into them.
    pub products: Vec<Product>,
    /// The ingredients that are bought.
    pub stocked: Vec<Stocked>,
    /// All ingredients, by the name under which they are stocked.
    pub ingredients: BTreeMap<String, Ingredient>,
}

impl Kitchen {
    /// Reads the cards of the board's products, solves and dates them. `from` goes before the board's own first day;
    /// what cannot be planned is reported and left out.
    pub fn of(
        board: &Board,
        file: &Arc<str>,
        house: &House,
        from: NaiveDate,
        draws: Settings,
    ) -> (Self, Vec<Diagnostic>) {
        let calendar =
            Calendar { from, days: board.days.max(1), closed: board.closed, closed_on: board.closed_on.clone() };
        let mut gathering = Gathering { house, calendar: &calendar, draws, found: Vec::new() };
        let cards = gathering.cards(board);
        let mut products: Vec<Product> = Vec::new();
        let mut grams: BTreeMap<String, f64> = BTreeMap::new();
        let mut ingredients: BTreeMap<String, Ingredient> = BTreeMap::new();
        for card in cards.values() {
            let Some((product, grams_per_unit)) = gathering.product(card) else { continue };
            grams.insert(product.name.clone(), grams_per_unit);
            for part in card.solved.stages.iter().flat_map(|s| &s.parts) {
                if let What::Ingredient(ingredient) = &part.found.what {
                    ingredients.entry(ingredient.name.clone()).or_insert_with(|| (**ingredient).clone());
                }
            }
            products.push(product);
        }
        // What goes in was counted in grams; it is drawn in what its own product counts.
        for part in products.iter_mut().flat_map(|p| &mut p.parts) {
            part.per_unit /= grams.get(&part.of).copied().unwrap_or(1.0);
        }
        let stocked = gathering.stocked(&board.ingredients, &ingredients);
        let found = without_repeats(gathering.found).into_iter().map(|d| d.in_file(file)).collect();
        (Self { calendar, products, stocked, ingredients }, found)
    }
}

/// A ring of cards is found from each card in it: say it once.
fn without_repeats(found: Vec<Diagnostic>) -> Vec<Diagnostic> {
    let mut said = Vec::new();
    for diagnostic in found {
        if !said.contains(&diagnostic) {
            said.push(diagnostic);
        }
    }
    said
}

/// A product of the plan with its card.
struct Card<'a> {
    solved: Solved,
    /// What the board says of it; nothing of a product that only goes into others.
    entry: Option<&'a Entry>,
    /// The place on the board that asks for it.
    asked_at: Span,
}

struct Gathering<'a> {
    house: &'a House,
    calendar: &'a Calendar,
    draws: Settings,
    found: Vec<Diagnostic>,
}

impl Gathering<'_> {
    /// The cards of the board and of everything inside them, by folded name.
    fn cards<'b>(&mut self, board: &'b Board) -> BTreeMap<String, Card<'b>> {
        let mut cards: BTreeMap<String, Card<'b>> = BTreeMap::new();
        let mut first: BTreeMap<String, &Spanned<String>> = BTreeMap::new();
        for entry in &board.products {
            let key = names::fold(&entry.name.value);
            if let Some(before) = first.insert(key.clone(), &entry.name) {
                let title = format!("`{}` and `{}` are the same product", before.value, entry.name.value);
                self.found.push(
                    Diagnostic::error(Code::SameName, title)
                        .at(entry.name.span, "again here")
                        .at(before.span, "first here")
                        .help("put both under one heading"),
                );
                continue;
            }
            if let Some(solved) = self.solved(entry) {
                cards.insert(key, Card { solved, entry: Some(entry), asked_at: entry.name.span });
            }
        }
        let mut inside: Vec<(Arc<Solved>, Span)> =
            cards.values().flat_map(|c| c.solved.inner.iter().map(|(s, _)| (Arc::clone(s), c.asked_at))).collect();
        let mut seen = BTreeSet::new();
        while let Some((solved, asked_at)) = inside.pop() {
            let key = names::fold(&solved.name);
            // A formula that goes into many is looked into once.
            if !seen.insert(key.clone()) {
                continue;
            }
            inside.extend(solved.inner.iter().map(|(s, _)| (Arc::clone(s), asked_at)));
            if !first.contains_key(&key) {
                cards.entry(key).or_insert_with(|| Card {
                    solved: Arc::unwrap_or_clone(solved),
                    entry: None,
                    asked_at,
                });
            }
        }
        cards
    }

    fn solved(&mut self, entry: &Entry) -> Option<Solved> {
        let name = &entry.name.value;
        let Some(source) = self.house.formula(name) else {
            let diagnostic = Diagnostic::error(Code::UnknownProduct, format!("the house has no formula `{name}`"))
                .at(entry.name.span, "no card of the house has this name");
            self.found.push(match nearest(name, self.house.formulas().map(|f| f.name.as_str())) {
                Some(near) => diagnostic.help(format!("did you mean `{near}`?")),
                None => {
                    diagnostic.help("a plan is made of the cards that lie beside it: write the name as on the card")
                }
            });
            return None;
        };
        self.found.extend(self.house.said_of(name).cloned());
        let (card, read) = match source {
            Ok(source) => formula::read(source.file, source.text),
            Err(unread) => (None, vec![*unread]),
        };
        let readable = !any_error(&read);
        self.found.extend(read);
        let outcome = solve(card.as_ref().filter(|_| readable)?, self.house, &Options::default());
        let sound = !any_error(&outcome.diagnostics);
        self.found.extend(outcome.diagnostics);
        outcome.solved.filter(|_| sound)
    }

    /// A product, and the grams in one of what it counts. Its parts are still in grams.
    fn product(&mut self, card: &Card<'_>) -> Option<(Product, f64)> {
        let solved = &card.solved;
        let g_per_ml = poured_g_per_ml(&solved.bottled().per_gram());
        let written = card.entry.and_then(first_quantity).map(|q| q.unit);
        let unit = written.unwrap_or(if g_per_ml.is_some() { Unit::Ml } else { Unit::G });
        let store = self.store(card)?;
        let last = self.last_day(card, store)?;
        let grams_per_unit = match unit {
            Unit::G => 1.0,
            Unit::Ml | Unit::Pieces => g_per_ml.or_else(|| self.no_density(&solved.name, card.asked_at))?,
        };
        let mut product = Product {
            name: solved.name.clone(),
            unit,
            life: last(NaiveDate::default()).map_or(0, |day| (day - NaiveDate::default()).num_days() as Day),
            works: work::works(solved),
            ..Product::default()
        };
        self.parts(solved, grams_per_unit, &mut product);
        if let Some(entry) = card.entry {
            let counted = |q: Quantity| counted(q, unit, g_per_ml);
            let all = self.of_board(entry, &counted, &last, &mut product);
            if all.is_none() {
                self.no_density(&solved.name, card.asked_at);
            }
        }
        Some((product, grams_per_unit))
    }

    fn no_density(&mut self, name: &str, at: Span) -> Option<f64> {
        self.found.push(
            Diagnostic::error(
                Code::DensityUnknown,
                format!("`{name}` is measured by volume or by the piece, and what that weighs is not known"),
            )
            .at(at, "a volume, a weight and pieces of it cannot be compared")
            .help("write every amount of it by weight: \"500 g\""),
        );
        None
    }

    /// What the board says, in whole units. `None` where a volume and a weight cannot be compared.
    fn of_board(
        &mut self,
        entry: &Entry,
        counted: &impl Fn(Quantity) -> Option<f64>,
        last: &impl Fn(NaiveDate) -> Option<NaiveDate>,
        product: &mut Product,
    ) -> Option<()> {
        let whole = |q: Quantity| counted(q).map(|x| x.round() as u64);
        product.par = entry.par.map_or(Some(0), |par| whole(par.value))?;
        if let Some((least, most)) = entry.batch {
            product.smallest = whole(least.value)?;
            product.largest = most.map_or(Some(None), |most| whole(most).map(|m| Some(m.max(1))))?;
        }
        product.uses = self.uses(entry, &whole)?;
        for held in &entry.on_hand {
            product
                .on_hand
                .push(OnHand { amount: counted(held.amount.value)?.floor() as u64, use_by: self.use_by(held, last) });
        }
        Some(())
    }

    fn use_by(&self, held: &Held, last: &impl Fn(NaiveDate) -> Option<NaiveDate>) -> Day {
        let last = match held.dated {
            HeldDate::UseBy(day) => day,
            HeldDate::Made(day) => last(day).unwrap_or(day),
        };
        self.calendar.day(last)
    }

    fn uses(&mut self, entry: &Entry, whole: &impl Fn(Quantity) -> Option<u64>) -> Option<Uses> {
        let mut uses = Uses::default();
        for (on, written) in uses.on.iter_mut().zip(&entry.use_on) {
            *on = written.map_or(Some(None), |q| whole(q.value).map(Some))?;
        }
        let of_days: u64 = uses.on.iter().flatten().sum();
        match entry.uses.map(|u| (u.value, u.span)) {
            None => {}
            Some((Rate::Day(q), _)) => {
                let each = whole(q)?;
                uses.on.iter_mut().for_each(|on| *on = on.or(Some(each)));
            }
            Some((Rate::Week(q), span)) => match whole(q)?.checked_sub(of_days) {
                Some(rest) => uses.week = rest,
                None => self.found.push(
                    Diagnostic::error(
                        Code::Contradiction,
                        format!("`{}`: single days use more than the week", entry.name.value),
                    )
                    .at(span, "less than the days of `use_on` together")
                    .help("`use` is for the whole week, the days of `use_on` counted in"),
                ),
            },
        }
        Some(uses)
    }

    /// The store of the board, else of the card, else the coldest that is not frozen.
    fn store(&mut self, card: &Card<'_>) -> Option<Store> {
        let stores = &self.house.settings.stores;
        let Some(wanted) = card.entry.and_then(|e| e.store.as_ref()) else {
            return dated::planned(&card.solved, stores).and_then(|place| stores.get(place)).cloned();
        };
        let found = stores.iter().find(|s| folded(&s.name) == folded(&wanted.value)).cloned();
        if found.is_none() {
            let all: Vec<&str> = stores.iter().map(|s| s.name.as_str()).collect();
            let diagnostic = Diagnostic::error(Code::UnknownWord, format!("the house has no store `{}`", wanted.value))
                .at(wanted.span, "not in house.toml");
            self.found.push(match nearest(&wanted.value, all.iter().copied()) {
                Some(near) => diagnostic.help(format!("did you mean `{near}`?")),
                None => diagnostic.help(format!("its stores are: {}", all.join(", "))),
            });
        }
        found
    }

    /// From the day made to the last day of use, in a store.
    fn last_day(&mut self, card: &Card<'_>, store: Store) -> Option<impl Fn(NaiveDate) -> Option<NaiveDate> + use<>> {
        let mut view = self.house.clone();
        view.settings.stores = vec![store];
        let (dated, found) = dated::of(&card.solved, &view, self.calendar.from, Which::All, self.draws);
        self.found.extend(found);
        let place = dated.stores.first()?;
        let at = card.entry.and_then(|e| e.store.as_ref()).map_or(card.asked_at, |s| s.span);
        let name = &card.solved.name;
        if let Some(stop) = dated.stops().next() {
            self.found.push(
                Diagnostic::error(Code::Stopped, format!("`{name}` is not planned: a caution says stop"))
                    .at(at, stop.to_string())
                    .help(format!("stillroom date \"{name}\" says more")),
            );
            return None;
        }
        let Some(life) = place.date.map(|last| (last - dated.made).num_days()) else {
            self.found.push(no_date(name, place, at));
            return None;
        };
        let (days, legal) = (place.days?, place.verdict.as_ref().and_then(|v| v.legal_days));
        let day_one = self.house.settings.day_one;
        // What an inner part decides is counted from the day made, as the date itself says.
        Some(move |made: NaiveDate| {
            let own = last_day(made, days, legal, day_one)?;
            Some(own.min(made.checked_add_signed(chrono::TimeDelta::days(life))?))
        })
    }

    fn parts(&mut self, solved: &Solved, grams_per_unit: f64, product: &mut Product) {
        let out = solved.bottled().total_grams();
        let of_gram = |grams: f64| if out > 0.0 { grams / out * grams_per_unit } else { 0.0 };
        for (stage, days_before) in solved.stages.iter().zip(work::days_before(solved)) {
            for part in &stage.parts {
                match &part.found.what {
                    What::Stage(_) => {}
                    What::Ingredient(ingredient) => product.takes.push(Take {
                        of: ingredient.name.clone(),
                        days_before,
                        grams_per_unit: of_gram(part.mass_g),
                    }),
                    What::Formula(place) => {
                        let Some((inner, _)) = solved.inner.get(*place) else { continue };
                        let per_unit = of_gram(part.mass_g);
                        product.parts.push(Goes { of: inner.name.clone(), days_before, per_unit });
                    }
                }
            }
        }
    }

    /// How each ingredient is bought.
    fn stocked(&mut self, shelves: &[Shelf], used: &BTreeMap<String, Ingredient>) -> Vec<Stocked> {
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
        let priced = ingredient.price.as_deref().and_then(of_price);
        let pack = shelf.and_then(|s| s.pack);
        let on_hand = shelf.and_then(|s| s.on_hand);
        let poured = if ingredient.form == Form::Liquid { Unit::Ml } else { Unit::G };
        let unit = pack.map(|p| p.value).or(priced).or(on_hand.map(|h| h.value)).map_or(poured, |q| q.unit);
        let weighs = |unit: Unit| match unit {
            Unit::G => Some(1.0),
            Unit::Ml => Found::ingredient(ingredient).g_per_ml,
            Unit::Pieces => ingredient.piece.map(in_grams),
        };
        let at = on_hand.or(pack).map_or(shelf.map_or(Span::default(), |s| s.name.span), |q| q.span);
        let in_thousandths = |q: Quantity| Some((q.amount * weighs(q.unit)? / weighs(unit)? * 1000.0).round() as u64);
        let stocked = || {
            Some(Stocked {
                name: ingredient.name.clone(),
                unit,
                grams_per_unit: weighs(unit)? * ingredient.usable.unwrap_or(1.0),
                pack: pack.map(|p| p.value).or(priced).map_or(Some(None), |q| in_thousandths(q).map(Some))?,
                lead: shelf.map_or(0, |s| s.lead),
                deliver: shelf.and_then(|s| s.deliver),
                on_hand: on_hand.map_or(Some(0), |q| in_thousandths(q.value))?,
            })
        };
        let stocked = stocked();
        if stocked.is_none() {
            self.no_density(&ingredient.name, at);
        }
        stocked
    }

    fn unknown_ingredient(&mut self, shelf: &Shelf) {
        let name = &shelf.name.value;
        let diagnostic = Diagnostic::error(Code::UnknownIngredient, format!("`{name}` is not in the larder"))
            .at(shelf.name.span, "no ingredient has this name");
        self.found.push(match self.house.larder.suggest(name) {
            Some(near) => diagnostic.help(format!("did you mean `{near}`?")),
            None => diagnostic.help("a product that the house makes goes under [product.…]"),
        });
    }
}

fn no_date(name: &str, place: &DatedStore, at: Span) -> Diagnostic {
    let store = &place.store.name;
    let why = match (&place.verdict, place.refused.first()) {
        (_, Some(why)) => why.to_string(),
        (None, None) => "the clock stops there: plan it for the store in which it is used".to_owned(),
        (Some(_), None) => "its life is not known".to_owned(),
    };
    Diagnostic::error(Code::NoDate, format!("`{name}` cannot be planned for the {store}: it has no date there"))
        .at(at, why)
        .help(format!("stillroom date \"{name}\" says in which store it keeps, and for how long"))
}

/// Water and nothing else: nobody orders it.
fn is_tap_water(ingredient: &Ingredient) -> bool {
    ingredient.per_gram.grams_of(crate::mixture::Component::Water) > 0.9999
}

fn first_quantity(entry: &Entry) -> Option<Quantity> {
    let of_rate = |rate: Rate| match rate {
        Rate::Week(q) | Rate::Day(q) => q,
    };
    let par = entry.par.map(|q| q.value);
    let uses = entry.uses.map(|u| of_rate(u.value));
    let on = entry.use_on.iter().flatten().next().map(|q| q.value);
    par.or(uses).or(on).or_else(|| entry.on_hand.first().map(|h| h.amount.value))
}

/// What a price is for: what is bought at once, where the board names no pack.
fn of_price(written: &str) -> Option<Quantity> {
    let (amount, unit) = match Price::parse(written).ok()?.per {
        Per::Grams(n) => (n, Unit::G),
        Per::Millilitres(n) => (n, Unit::Ml),
        Per::Pieces(n) => (n, Unit::Pieces),
        Per::Hours(_) | Per::KilowattHours(_) | Per::PureAlcohol(_) => return None,
    };
    amount.to_f64().filter(|n| *n > 0.0).map(|amount| Quantity { amount, unit })
}

/// An amount in the unit that a product is counted in.
fn counted(quantity: Quantity, unit: Unit, g_per_ml: Option<f64>) -> Option<f64> {
    match (quantity.unit, unit) {
        (Unit::Ml, Unit::G) => Some(quantity.amount * g_per_ml?),
        (Unit::G, Unit::Ml) => Some(quantity.amount / g_per_ml?),
        _ => Some(quantity.amount),
    }
}
