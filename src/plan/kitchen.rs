//! From the board and the cards to plain numbers: what each product takes, how long it takes, how long it keeps.

mod product;
mod shelf;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use chrono::NaiveDate;

use crate::aim;
use crate::assessment::Assessment;
use crate::card;
use crate::diagnostic::{Code, Diagnostic, Span, Spanned, any_error};
use crate::house::House;
use crate::larder::Ingredient;
use crate::shelf_life::Draws;
use crate::solver::resolve::Material;
use crate::solver::{Options, Solved, solve};
use crate::spelling::{fold, meant_or, nearest};

use super::board::{Board, Entry};
use super::calendar::Calendar;
use super::model::PrepProduct;
use super::orders::Stocked;

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
        let mut gathering = Gathering { house, calendar: &calendar, draws, found: Vec::new(), judged: Vec::new() };
        let cards = gathering.cards(board);
        let mut products: Vec<PrepProduct> = Vec::new();
        let mut grams: BTreeMap<String, f64> = BTreeMap::new();
        let mut ingredients: BTreeMap<String, Ingredient> = BTreeMap::new();
        for card in cards.values() {
            let Some((product, grams_per_unit)) = gathering.product(card) else { continue };
            grams.insert(product.name.clone(), grams_per_unit);
            for part in card.solved.stages.iter().flat_map(|s| &s.parts) {
                if let Material::Ingredient(ingredient) = &part.found.what {
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
        (Self { calendar: calendar.clone(), products, stocked, ingredients, judged: gathering.judged }, found)
    }
}

/// A cycle of cards is found from each card in it: say it once.
fn without_repeats(found: Vec<Diagnostic>) -> Vec<Diagnostic> {
    let mut said = Vec::new();
    for diagnostic in found {
        if !said.contains(&diagnostic) {
            said.push(diagnostic);
        }
    }
    said
}

struct BoardCard<'a> {
    solved: Solved,
    /// What the board says of it; nothing of a product that only goes into others.
    entry: Option<&'a Entry>,
    /// The place on the board that asks for it.
    asked_at: Span,
}

struct Gathering<'a> {
    house: &'a House,
    calendar: &'a Calendar,
    draws: Draws,
    found: Vec<Diagnostic>,
    judged: Vec<(String, Assessment)>,
}

impl Gathering<'_> {
    /// The cards of the board and of everything inside them, by folded name.
    fn cards<'b>(&mut self, board: &'b Board) -> BTreeMap<String, BoardCard<'b>> {
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
            if let Some(solved) = self.solved(entry) {
                cards.insert(key, BoardCard { solved, entry: Some(entry), asked_at: entry.name.span });
            }
        }
        let mut inside: Vec<(Arc<Solved>, Span)> =
            cards.values().flat_map(|c| c.solved.inner.iter().map(|i| (Arc::clone(&i.card), c.asked_at))).collect();
        let mut seen = BTreeSet::new();
        while let Some((solved, asked_at)) = inside.pop() {
            let key = fold(&solved.name);
            // A card that goes into many is looked into once.
            if !seen.insert(key.clone()) {
                continue;
            }
            inside.extend(solved.inner.iter().map(|i| (Arc::clone(&i.card), asked_at)));
            if !first.contains_key(&key) {
                cards.entry(key).or_insert_with(|| BoardCard {
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
        let Some(source) = self.house.card(name).cloned() else {
            let diagnostic = Diagnostic::error(Code::UnknownProduct, format!("the house has no formula `{name}`"))
                .at(entry.name.span, "no card of the house has this name");
            let near = nearest(name, self.house.cards().map(|f| f.name.as_str()));
            let otherwise = "a plan is made of the cards that lie beside it: write the name as on the card";
            return diagnostic.help(meant_or(near, otherwise)).refused(&mut self.found);
        };
        self.found.extend(self.house.said_of(name).cloned());
        let (card, read) = card::read_by(source.file, source.text, &self.house.customs());
        let readable = !any_error(&read);
        self.found.extend(read);
        let card = card.filter(|_| readable)?;
        let card = aim::chosen(&card, self.house, &Options::default(), &mut self.found)?;
        let outcome = solve(&card, self.house, &Options::default());
        let sound = !any_error(&outcome.diagnostics);
        self.found.extend(outcome.diagnostics);
        outcome.solved.filter(|_| sound)
    }
}
