//! What the drinks of a menu take: of the products of the house, and of what is bought, as it is.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::solver::resolve::Material;
use crate::solver::{Solved, SolvedPart, inner_drink};
use crate::spelling::fold;
use crate::units::in_grams;

use super::super::board::Board;
use super::super::calendar::{Calendar, Day};
use super::super::model::{PrepProduct, PrepUnit};
use super::super::orders::Stocked;
use super::super::poured::{Glasses, OfBottles, OnIce, Poured};
use super::bottled::{Bottle, InGlass, is_made, pour_standing};

/// What the drinks of a menu find there.
#[derive(Debug, Default)]
pub(super) struct Pouring {
    /// The products of which the board's use counts, with what the menu would take of them in a week.
    pub(super) by_board: BTreeMap<String, f64>,
    /// The drinks that are poured of bottles that stand there.
    pub(super) of_bottles: Vec<PouredOfBottles>,
    /// The ice that all others meet.
    pub(super) on_ice: Vec<OnIce>,
}

/// Glasses that are poured of bottles that stand there.
#[derive(Clone, Debug, PartialEq)]
pub struct PouredOfBottles {
    /// The drink that is sold.
    pub drink: String,
    /// The drink inside it of which the bottle is, where it is not its own.
    pub inside: Option<String>,
    /// The product that is the bottle.
    pub bottle: String,
    /// What a glass takes of it, in what the product counts.
    pub each: f64,
    /// What the product counts.
    pub unit: PrepUnit,
    /// The water of the ice of the drink inside that is not in the bottle, for a glass, grams.
    pub water_g: f64,
    /// How many, in the days of the plan.
    pub glasses: u64,
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

/// Glasses that are sold, less those of which this is poured already.
#[derive(Clone)]
struct SoldGlasses {
    glasses: Glasses,
    but: Arc<OfBottles>,
}

/// Puts it on the products and on the shelf. A use on the board was counted at the shelf and has these drinks in it: it counts,
/// and the menu is not added to it. An event comes on top of either. What is bottled ahead of a drink, or of a drink inside it, is
/// poured in place of its parts: of a bottle that the plan makes every glass, of one that only stands there until it is gone.
pub(super) fn pour(
    board: &Board,
    calendar: &Calendar,
    grams_per_unit: &BTreeMap<String, f64>,
    bottles: &[Bottle],
    (products, stocked): (&mut [PrepProduct], &mut [Stocked]),
) -> Pouring {
    let (made, standing): (Vec<&Bottle>, Vec<&Bottle>) =
        bottles.iter().partition(|bottle| bottle.by_old_card.is_none() && is_made(&bottle.product, board, products));
    let is_made = |drink: &Solved| made.iter().any(|bottle| bottle.is_of(drink));
    let glasses: Vec<Vec<InGlass<'_>>> = board.pours.iter().map(|pour| InGlass::all_of(&pour.drink, is_made)).collect();
    let asked: Vec<(&Glasses, &[InGlass<'_>])> =
        board.pours.iter().zip(&glasses).map(|(pour, inside)| (&pour.glasses, inside.as_slice())).collect();
    let poured = pour_standing(calendar, &standing, products, &asked);
    let pouring = Pouring::default();
    let mut bar = Bar { board, calendar, grams_per_unit, products, stocked, pouring };
    for ((pour, inside), poured) in board.pours.iter().zip(&glasses).zip(poured) {
        let mut left: Vec<Arc<OfBottles>> = Vec::new();
        for (drink, poured) in inside.iter().zip(poured) {
            let mut but = drink.within.and_then(|outer| left.get(outer).cloned()).unwrap_or_default();
            for (bottle, days) in poured {
                let of_any = Arc::make_mut(&mut but);
                days.iter().for_each(|(day, (glasses, _))| *of_any.entry(*day).or_default() += glasses);
                bar.of_standing(&pour.drink.name, drink, (bottle, &days));
            }
            left.push(Arc::clone(&but));
            let rest = SoldGlasses { glasses: pour.glasses.clone(), but };
            match made.iter().copied().find(|bottle| bottle.is_of(drink.card)) {
                Some(bottle) => bar.of_made(bottle, drink, rest),
                None => bar.of_parts(drink, &rest),
            }
        }
    }
    bar.pouring
}

impl Bar<'_> {
    /// Glasses of a bottle that stands there, day by day, with what they take of it.
    fn of_standing(&mut self, sold: &str, drink: &InGlass<'_>, (bottle, days): (&Bottle, &BTreeMap<Day, (u64, u64)>)) {
        let each = |of: fn(&(u64, u64)) -> u64| {
            let days: OfBottles = days.iter().map(|(day, poured)| (*day, of(poured))).collect();
            SoldGlasses { glasses: Glasses::OfBottles(Arc::new(days)), but: Arc::default() }
        };
        let in_plan = days.range(0..self.calendar.days).map(|(_, (glasses, _))| glasses).sum();
        if in_plan > 0 {
            let product = self.products.iter().find(|product| product.name == bottle.product);
            self.pouring.of_bottles.push(PouredOfBottles {
                drink: sold.to_owned(),
                inside: drink.within.map(|_| drink.card.name.clone()),
                bottle: bottle.product.clone(),
                each: bottle.poured(drink),
                unit: product.map_or(PrepUnit::Ml, |product| product.unit),
                water_g: bottle.water_beside_g(drink),
                glasses: in_plan,
            });
        }
        self.beside(bottle, drink, &each(|(glasses, _)| *glasses));
        // what is poured is not thrown away
        let SoldGlasses { glasses, but } = each(|(_, amount)| *amount);
        self.product(&bottle.product, Poured { glasses, but, each: 1.0 });
    }

    /// Glasses of a bottle that the plan makes.
    fn of_made(&mut self, bottle: &Bottle, drink: &InGlass<'_>, SoldGlasses { glasses, but }: SoldGlasses) {
        let each = bottle.poured(drink);
        self.beside(bottle, drink, &SoldGlasses { glasses: glasses.clone(), but: Arc::clone(&but) });
        self.product(&bottle.product, Poured { glasses, but, each });
    }

    /// Glasses that are made of their parts; a drink inside has its own.
    fn of_parts(&mut self, drink: &InGlass<'_>, asked: &SoldGlasses) {
        self.on_ice(drink, asked);
        for part in drink.card.parts().filter(|part| part.melts.is_none()) {
            if inner_drink(drink.card, part).is_none() {
                self.take(drink.card, part, drink.times * part.mass_g, asked);
            }
        }
    }

    /// What goes into a glass beside what its bottle holds, and the ice that it still meets.
    fn beside(&mut self, bottle: &Bottle, drink: &InGlass<'_>, asked: &SoldGlasses) {
        let beside = bottle.beside(drink);
        for ((card, part, _), grams) in drink.taken.iter().zip(&beside) {
            self.take(card, part, *grams, asked);
        }
        if bottle.meets_ice(drink) {
            self.on_ice(drink, asked);
        }
    }

    /// The ice of the glasses in the days of the plan.
    fn on_ice(&mut self, drink: &InGlass<'_>, asked: &SoldGlasses) {
        let InGlass { card: drink, glasses: each, .. } = drink;
        let poured = |day| asked.but.get(&day).copied().unwrap_or(0);
        let of_day = |day| asked.glasses.on_day(self.calendar, day).saturating_sub(poured(day));
        let glasses: u64 = (0..self.calendar.days).map(of_day).sum();
        let told = drink.card.drink.ice.as_ref().and_then(|ice| ice.grams).map(in_grams);
        if glasses > 0 && (told.is_some() || drink.ice_water.is_some()) {
            let ice_g = told.map(|grams| grams * each * glasses as f64);
            self.pouring.on_ice.push(OnIce { drink: drink.name.clone(), ice_g });
        }
    }

    /// So many grams of a part in each of the glasses.
    fn take(&mut self, card: &Solved, part: &SolvedPart, grams: f64, asked: &SoldGlasses) {
        if grams <= 0.0 {
            return;
        }
        let of = |each| Poured { glasses: asked.glasses.clone(), but: Arc::clone(&asked.but), each };
        match &part.found.what {
            Material::Stage(_) => {}
            Material::Ingredient(ingredient) => {
                let shelf = self.stocked.iter_mut().find(|shelf| shelf.name == ingredient.name);
                shelf.into_iter().for_each(|shelf| shelf.poured.push(of(grams)));
            }
            Material::Card(place) => {
                let Some(inner) = card.inner.get(*place) else { return };
                let name = inner.card.name.as_str();
                self.product(name, of(grams / self.grams_per_unit.get(name).copied().unwrap_or(1.0)));
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
