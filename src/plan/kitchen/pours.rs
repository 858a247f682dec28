//! What the drinks of a menu take: of the products of the house, and of what is bought, as it is.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::solver::resolve::Material;
use crate::solver::{Solved, SolvedPart};
use crate::spelling::fold;

use super::super::board::Board;
use super::super::calendar::Calendar;
use super::super::model::PrepProduct;
use super::super::orders::Stocked;
use super::super::poured::{Glasses, OfBottles, Poured, taken_by};
use super::bottled::{Bottle, StandingBottles, is_made};

/// What the drinks of a menu find there.
#[derive(Debug, Default)]
pub(super) struct Pouring {
    /// The products of which the board's use counts, with what the menu would take of them in a week.
    pub(super) by_board: BTreeMap<String, f64>,
    /// The drinks that are poured of bottles that stand there, and how many glasses of each in the plan.
    pub(super) of_bottles: BTreeMap<String, u64>,
}

/// What is poured, and into what.
struct Bar<'a> {
    board: &'a Board,
    calendar: &'a Calendar,
    grams_per_unit: &'a BTreeMap<String, f64>,
    products: &'a mut [PrepProduct],
    stocked: &'a mut [Stocked],
    pouring: Pouring,
}

/// Puts it on the products and on the shelf. A use on the board was counted at the shelf and has these drinks in it: it counts,
/// and the menu is not added to it. An event comes on top of either. What is bottled ahead of a drink is poured in place of its
/// parts: of a bottle that the plan makes every glass, of one that only stands there until it is gone.
pub(super) fn pour(
    board: &Board,
    calendar: &Calendar,
    grams_per_unit: &BTreeMap<String, f64>,
    bottles: &[Bottle],
    (products, stocked): (&mut [PrepProduct], &mut [Stocked]),
) -> Pouring {
    let (made, standing): (Vec<&Bottle>, Vec<&Bottle>) =
        bottles.iter().partition(|bottle| is_made(&bottle.product, board, products));
    let mut standing: Vec<StandingBottles<'_>> =
        standing.into_iter().filter_map(|of| StandingBottles::of(of, products)).collect();
    let mut bar = Bar { board, calendar, grams_per_unit, products, stocked, pouring: Pouring::default() };
    for pour in &board.pours {
        let taken = taken_by(&pour.drink);
        let is_its = |bottle: &Bottle| bottle.pours == fold(&pour.drink.name);
        let mut of_any = OfBottles::new();
        for standing in standing.iter_mut().filter(|standing| is_its(standing.bottle)) {
            let mut poured = OfBottles::new();
            for day in 0..=standing.last_day() {
                let asked = pour.glasses.on_day(calendar, day).saturating_sub(of_any.get(&day).copied().unwrap_or(0));
                let glasses = standing.pour(day, asked);
                if glasses > 0 {
                    poured.insert(day, glasses);
                    *of_any.entry(day).or_default() += glasses;
                }
            }
            let beside = standing.bottle.beside(&taken);
            bar.take(&taken, &beside, &Glasses::OfBottles(Arc::new(poured)), &Arc::default());
        }
        let in_plan: u64 = of_any.range(0..calendar.days).map(|(_, glasses)| glasses).sum();
        if in_plan > 0 {
            *bar.pouring.of_bottles.entry(pour.drink.name.clone()).or_default() += in_plan;
        }
        let of_any = Arc::new(of_any);
        let made = made.iter().find(|bottle| is_its(bottle));
        let each =
            made.map_or_else(|| taken.iter().map(|(.., grams)| *grams).collect(), |bottle| bottle.beside(&taken));
        bar.take(&taken, &each, &pour.glasses, &of_any);
        if let Some(bottle) = made {
            bar.product(&bottle.product, Poured { glasses: pour.glasses.clone(), but: of_any, each: bottle.each });
        }
    }
    bar.pouring
}

impl Bar<'_> {
    /// So many grams of each part for so many glasses.
    fn take(&mut self, taken: &[(&Solved, &SolvedPart, f64)], each: &[f64], glasses: &Glasses, but: &Arc<OfBottles>) {
        for ((drink, part, _), grams) in taken.iter().zip(each).filter(|(_, grams)| **grams > 0.0) {
            let of = |each| Poured { glasses: glasses.clone(), but: Arc::clone(but), each };
            match &part.found.what {
                Material::Stage(_) => {}
                Material::Ingredient(ingredient) => {
                    let shelf = self.stocked.iter_mut().find(|shelf| shelf.name == ingredient.name);
                    shelf.into_iter().for_each(|shelf| shelf.poured.push(of(*grams)));
                }
                Material::Card(place) => {
                    let Some(inner) = drink.inner.get(*place) else { continue };
                    let name = inner.card.name.as_str();
                    self.product(name, of(grams / self.grams_per_unit.get(name).copied().unwrap_or(1.0)));
                }
            }
        }
    }

    /// What is counted at the shelf has these glasses in it.
    fn product(&mut self, name: &str, poured: Poured) {
        let mut entries = self.board.products.iter();
        let is_counted = entries.any(|entry| entry.has_use() && fold(&entry.name.value) == fold(name));
        match &poured.glasses {
            Glasses::Weekly(uses) if is_counted => {
                let a_week = poured.each * uses.in_a_week(self.calendar) as f64;
                *self.pouring.by_board.entry(name.to_owned()).or_default() += a_week;
            }
            _ => {
                if let Some(product) = self.products.iter_mut().find(|product| product.name == name) {
                    product.poured.push(poured);
                }
            }
        }
    }
}
