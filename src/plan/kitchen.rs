//! From the board and the cards to plain numbers: what each product takes, how long it takes, how long it keeps.

mod bottled;
mod pours;
mod product;
mod shelf;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use chrono::NaiveDate;

use crate::aim;
use crate::assessment::Assessment;
use crate::card::{self, Card};
use crate::diagnostic::once::without_repeats;
use crate::diagnostic::{Code, Diagnostic, Span, Spanned, any_error};
use crate::house::House;
use crate::larder::Ingredient;
use crate::shelf_life::Draws;
use crate::solver::resolve::Material;
use crate::solver::{Options, Solved, solve};
use crate::spelling::{fold, meant_or, nearest};

use super::board::{Board, Entry};
use super::calendar::Calendar;
use super::left_out::LeftOut;
use super::model::PrepProduct;
use super::orders::Stocked;
use super::poured::{OnIce, taken_by};
use bottled::Bottle;
pub use pours::PouredOfBottles;
use pours::Pouring;

/// Everything that a plan is made from.
#[derive(Clone, Debug)]
pub struct Kitchen {
    /// The days.
    pub calendar: Calendar,
    /// The products of the board, and the house's products that go into them.
    pub products: Vec<PrepProduct>,
    /// The ingredients that are bought.
    pub stocked: Vec<Stocked>,
    /// All ingredients, by the name under which they are stocked.
    pub ingredients: BTreeMap<String, Ingredient>,
    /// The judgement of each product, of those too that are not planned for it.
    pub judged: Vec<(String, Assessment)>,
    /// Products of which the board's own use counts, with what the menu would take of them in a week.
    pub by_board: BTreeMap<String, f64>,
    /// The drinks that are poured of bottles that stand there.
    pub of_bottles: Vec<PouredOfBottles>,
    /// The ice that the others meet.
    pub on_ice: Vec<OnIce>,
    /// Drinks and products that cannot be planned.
    pub left_out: Vec<LeftOut>,
}

impl Kitchen {
    /// Reads the cards of the board's products, solves and dates them. `from` goes before the board's own first day;
    /// what cannot be planned is reported and left out.
    pub fn gather(
        board: &Board,
        file: &Arc<str>,
        house: &House,
        from: NaiveDate,
        draws: Draws,
    ) -> (Self, Vec<Diagnostic>) {
        let calendar =
            Calendar { from, days: board.days.max(1), closed: board.closed, closed_on: board.closed_on.clone() };
        let left_out = board.left_out.clone();
        let mut gathering =
            Gathering { house, calendar: &calendar, draws, found: Vec::new(), judged: Vec::new(), left_out };
        let cards = gathering.cards(board, file);
        let mut products: Vec<PrepProduct> = Vec::new();
        let mut grams: BTreeMap<String, f64> = BTreeMap::new();
        let mut ingredients: BTreeMap<String, Ingredient> = BTreeMap::new();
        let mut bottles: Vec<Bottle> = Vec::new();
        for card in cards.values() {
            let before = std::mem::take(&mut gathering.found);
            let product = gathering.product(card);
            let said = std::mem::replace(&mut gathering.found, before);
            if product.is_none() {
                gathering.left_out.push(LeftOut::by(&card.solved.name, &said));
            }
            // said where it is asked for
            gathering.found.extend(said.into_iter().map(|d| d.in_file(card.asked_in)));
            let Some((product, grams_per_unit)) = product else { continue };
            grams.insert(product.name.clone(), grams_per_unit);
            bottles.extend(gathering.bottles(card, &product, grams_per_unit));
            for (_, part, _) in taken_by(&card.solved) {
                keep_ingredient(&part.found.what, &mut ingredients);
            }
            products.push(product);
        }
        board.pours.iter().flat_map(|pour| taken_by(&pour.drink)).for_each(|(_, part, _)| {
            keep_ingredient(&part.found.what, &mut ingredients);
        });
        // What goes in was counted in grams; it is drawn in what its own product counts.
        for part in products.iter_mut().flat_map(|p| &mut p.parts) {
            part.per_unit /= grams.get(&part.of).copied().unwrap_or(1.0);
        }
        let mut stocked = gathering.stocked(&board.ingredients, &ingredients);
        let pouring = pours::pour(board, &calendar, &grams, &bottles, (&mut products, &mut stocked));
        let Pouring { by_board, of_bottles, on_ice } = pouring;
        gathering.found.extend(par_without_use(board, &products));
        // a cycle of cards is found from each card in it
        let found = without_repeats(gathering.found).into_iter().map(|d| d.in_file(file)).collect();
        let (judged, left_out) = (gathering.judged, gathering.left_out);
        let calendar = calendar.clone();
        (Self { calendar, products, stocked, ingredients, judged, by_board, of_bottles, on_ice, left_out }, found)
    }
}

fn keep_ingredient(what: &Material, ingredients: &mut BTreeMap<String, Ingredient>) {
    if let Material::Ingredient(ingredient) = what {
        ingredients.entry(ingredient.name.clone()).or_insert_with(|| (**ingredient).clone());
    }
}

/// Products with a par of which neither the board nor a menu says how fast they go.
fn par_without_use<'a>(board: &'a Board, products: &'a [PrepProduct]) -> impl Iterator<Item = Diagnostic> + 'a {
    let is_poured = |name: &str| products.iter().any(|p| fold(&p.name) == fold(name) && !p.poured.is_empty());
    board.products.iter().filter_map(move |entry| {
        let name = &entry.name.value;
        let par = entry.par.filter(|_| !entry.has_use() && !is_poured(name))?;
        Some(
            Diagnostic::error(Code::ParWithoutUse, format!("`{name}` has a par and no use"))
                .at(par.span, "how fast does it go?")
                .help("add use = \"6 L a week\" or use = \"900 ml a day\", or sell a drink with it in menu.toml: without it nobody can say when it runs out or how much its life allows"),
        )
    })
}

struct BoardCard<'a> {
    solved: Solved,
    /// What the board says of it; nothing of a product that only goes into others.
    entry: Option<&'a Entry>,
    /// The place on the board, or on the menu, that asks for it.
    asked_at: Span,
    /// The file of that.
    asked_in: &'a Arc<str>,
}

struct Gathering<'a> {
    house: &'a House,
    calendar: &'a Calendar,
    draws: Draws,
    found: Vec<Diagnostic>,
    judged: Vec<(String, Assessment)>,
    left_out: Vec<LeftOut>,
}

impl Gathering<'_> {
    /// The cards of the board, and those inside them and inside the drinks of a menu, by folded name.
    fn cards<'b>(&mut self, board: &'b Board, file: &'b Arc<str>) -> BTreeMap<String, BoardCard<'b>> {
        let mut cards: BTreeMap<String, BoardCard<'b>> = BTreeMap::new();
        let mut first: BTreeMap<String, &Spanned<String>> = BTreeMap::new();
        for entry in &board.products {
            let key = fold(&entry.name.value);
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
            let first_of_it = self.found.len();
            match self.solved(entry) {
                Some(solved) => {
                    let asked_at = entry.name.span;
                    cards.insert(key, BoardCard { solved, entry: Some(entry), asked_at, asked_in: file });
                }
                None => {
                    let said = self.found.get(first_of_it..).unwrap_or_default();
                    self.left_out.push(LeftOut::by(&entry.name.value, said));
                }
            }
        }
        let within = |solved: &Solved, asked: (&'b Arc<str>, Span)| -> Vec<_> {
            solved.inner.iter().map(|inner| (Arc::clone(&inner.card), asked)).collect()
        };
        let of_menu = board.pours.iter().flat_map(|pour| within(&pour.drink, (&pour.asked_at.0, pour.asked_at.1)));
        let of_board = cards.values().flat_map(|c| within(&c.solved, (file, c.asked_at)));
        // the last is looked into first: what the board asks for is asked there
        let mut inside: Vec<(Arc<Solved>, (&'b Arc<str>, Span))> = of_menu.chain(of_board).collect();
        let mut seen = BTreeSet::new();
        while let Some((solved, asked)) = inside.pop() {
            let key = fold(&solved.name);
            // A card that goes into many is looked into once.
            if !seen.insert(key.clone()) {
                continue;
            }
            inside.extend(within(&solved, asked));
            // a drink in a drink is poured with it
            if !first.contains_key(&key) && !solved.card.is_drink() {
                cards.entry(key).or_insert_with(|| BoardCard {
                    solved: Arc::unwrap_or_clone(solved),
                    entry: None,
                    asked_at: asked.1,
                    asked_in: asked.0,
                });
            }
        }
        cards
    }

    /// The bottles of a drink that a product is: by its card, and by the older one that what stands there was filled by.
    fn bottles(&mut self, card: &BoardCard<'_>, product: &PrepProduct, grams_per_unit: f64) -> Vec<Bottle> {
        let held = card.entry.iter().flat_map(|entry| &entry.on_hand).enumerate();
        let old = held.filter_map(|(place, held)| Some((&**held.made_by.as_ref()?, Some(place))));
        let all = [(&card.solved, None)].into_iter().chain(old);
        let all: Vec<Bottle> = all
            .filter_map(|(filled, place)| Bottle::of((filled, place), grams_per_unit, self.house, &mut self.found))
            .collect();
        let stands = |bottle: &&Bottle| product.on_hand.iter().any(|held| held.by_old_card == bottle.by_old_card);
        self.found.extend(all.iter().filter(stands).filter_map(Bottle::of_an_older_card));
        all
    }

    fn solved(&mut self, entry: &Entry) -> Option<Solved> {
        let otherwise = "a plan is made of the cards that lie beside it: write the name as on the card";
        let card = card_named(&entry.name, self.house, otherwise, &mut self.found)?;
        let made = aim::chosen(&card, self.house, &Options::default(), &mut self.found)?;
        let outcome = solve(&made.card, &made.house, &Options::default());
        let sound = !any_error(&outcome.diagnostics);
        self.found.extend(outcome.diagnostics);
        outcome.solved.filter(|_| sound)
    }
}

/// The card of the house with a name that a board or a menu has; without one, or with one that cannot be read, that is said.
pub(crate) fn card_named(
    name: &Spanned<String>,
    house: &House,
    otherwise: &str,
    found: &mut Vec<Diagnostic>,
) -> Option<Card> {
    let Spanned { value: name, span } = name;
    let Some(source) = house.card(name).cloned() else {
        let near = nearest(name, house.cards().map(|f| f.name.as_str()));
        return Diagnostic::error(Code::UnknownProduct, format!("the house has no formula `{name}`"))
            .at(*span, "no card of the house has this name")
            .help(meant_or(near, otherwise))
            .refused(found);
    };
    found.extend(house.said_of(name).cloned());
    let (card, read) = card::read_by(source.file, source.text, &house.customs());
    let readable = !any_error(&read);
    found.extend(read);
    card.filter(|_| readable)
}
