//! What is bottled ahead of the drinks that are sold: its glasses are poured, and what is in the bottle goes into none of them again.

use std::collections::BTreeMap;

use crate::diagnostic::{Code, Diagnostic};
use crate::drinks::glass::drink;
use crate::drinks::{BottledPart, HeldOtherwise, bottled_parts, held_otherwise};
use crate::house::House;
use crate::mixture::chill::let_down;
use crate::solver::resolve::Material;
use crate::solver::target::volume_ml;
use crate::solver::{IceWater, Solved, SolvedPart, inner_drink};
use crate::spelling::fold;
use crate::units::display::grouped;
use crate::units::in_millilitres;

use super::super::board::Board;
use super::super::calendar::{Calendar, Day};
use super::super::model::PrepProduct;
use super::super::poured::{Glasses, glasses_made, taken_by};
use super::super::schedule::MOST_LIFE;

/// What the scale and a rounded measure leave between a bottle and the glass that it was filled for, as a share (ours).
const ROUNDED_OFF: f64 = 0.02;
/// A last glass that lacks less than this share of itself is poured (ours: what stands in a bottle is rounded down).
const LAST_GLASS: f64 = 0.1;

/// A product that is the bottle of a drink.
pub(super) struct Bottle {
    /// The drink that it pours, folded.
    pours: String,
    pub(super) product: String,
    /// What a glass takes of it, in what the product counts.
    pub(super) each: f64,
    /// What of each thing comes with that, grams.
    holds: BTreeMap<String, f64>,
    /// Water of these, that of ice as well.
    water_g: f64,
    /// The place of what it is the bottle of among what is there, where that was filled by another card than that of today.
    pub(super) by_old_card: Option<usize>,
    /// What is said where the card of the drink has changed since it was filled.
    changed: Option<Changed>,
}

/// How a bottle stands to a card that has changed since it was filled.
struct Changed {
    /// How many glasses of the drink as it is now are in a glass of the bottle.
    glasses_now: f64,
    /// What a glass of the drink as it is now has bottled of each thing, grams: the bottle stands in its place.
    in_place_of: BTreeMap<String, f64>,
    said: Diagnostic,
}

impl Bottle {
    /// By its card; a card that does not say how much a glass takes is no such bottle, which is said.
    pub(super) fn of(
        (batch, by_old_card): (&Solved, Option<usize>),
        grams_per_unit: f64,
        house: &House,
        found: &mut Vec<Diagnostic>,
    ) -> Option<Self> {
        let pours = batch.card.pours.as_ref()?;
        let Some(serving) = batch.card.serving else {
            let title =
                format!("`{}` does not say how much of it a glass of {pours} takes: none is counted", batch.name);
            let help = "write how much is poured for a guest: serving = \"90 ml\"";
            found.push(Diagnostic::warning(Code::NotStated, title).help(help).in_file(&batch.card.file));
            return None;
        };
        let share = in_millilitres(serving.value) / volume_ml(batch.bottled())?;
        let parts = batch.parts().filter_map(|part| Some((name_of(batch, part)?, part.mass_g * share)));
        let mut holds = BTreeMap::new();
        parts.for_each(|(of, grams)| *holds.entry(of).or_default() += grams);
        let each = share * batch.bottled().total_grams() / grams_per_unit;
        let water_g = batch.parts().filter(|part| part.is_water()).map(|part| part.mass_g * share).sum();
        let changed = Changed::of(batch, (in_millilitres(serving.value), water_g), house);
        Some(Self { pours: fold(pours), product: batch.name.clone(), each, holds, water_g, by_old_card, changed })
    }

    /// Bottles that were filled by an older card of their drink are poured for it all the same, and that is said.
    pub(super) fn of_an_older_card(&self) -> Option<Diagnostic> {
        self.changed.as_ref().map(|changed| changed.said.clone())
    }

    /// How many of its own glasses go where a card takes so much of the drink: into one glass that is sold of it one, into another drink
    /// as many millilitres as that takes.
    fn glasses(&self, drink: &InGlass<'_>) -> f64 {
        let of_changed = self.changed.as_ref().filter(|_| drink.within.is_some());
        drink.glasses / of_changed.map_or(1.0, |changed| changed.glasses_now)
    }

    /// What of it goes into a glass that is sold, in what the product counts.
    pub(super) fn poured(&self, drink: &InGlass<'_>) -> f64 {
        self.each * self.glasses(drink)
    }

    /// Whether it is poured for a drink.
    pub(super) fn is_of(&self, drink: &Solved) -> bool {
        self.pours == fold(&drink.name)
    }

    /// What is still added to a glass of each part of the drink, grams, in their order.
    pub(super) fn beside(&self, drink: &InGlass<'_>) -> Vec<f64> {
        let holds = self.changed.as_ref().map_or(&self.holds, |changed| &changed.in_place_of);
        let mut held: BTreeMap<&String, f64> = holds.iter().map(|(of, g)| (of, g * drink.glasses)).collect();
        let rest = |(card, part, grams): &(&Solved, &SolvedPart, f64)| {
            let Some(held) = name_of(card, part).and_then(|of| held.get_mut(&of)) else { return *grams };
            let of_bottle = held.min(*grams);
            *held -= of_bottle;
            if of_bottle >= *grams * (1.0 - ROUNDED_OFF) { 0.0 } else { grams - of_bottle }
        };
        drink.taken.iter().map(rest).collect()
    }

    /// What of the water of its ice the bottle of a drink inside does not hold, for a glass that it goes into, grams: where nobody weighed
    /// that, of the least that it may be.
    pub(super) fn water_beside_g(&self, drink: &InGlass<'_>) -> f64 {
        let is_strained = drink.card.card.drink.how.as_ref().is_some_and(|how| how.value.is_strained());
        let ice = drink.card.ice_water.as_ref().filter(|_| is_strained && drink.within.is_some());
        let of_ice = ice.map_or(0.0, IceWater::sure_g) * drink.times;
        let poured: f64 = drink.taken.iter().filter(|(_, part, _)| part.is_water()).map(|(.., grams)| grams).sum();
        let missing = of_ice + poured - self.water_g * self.glasses(drink);
        if missing > ROUNDED_OFF * of_ice { missing } else { 0.0 }
    }

    /// Whether a glass of it still meets ice: one that is strained off its ice does not, where the bottle holds the water of that.
    pub(super) fn meets_ice(&self, drink: &InGlass<'_>) -> bool {
        let is_strained = drink.card.card.drink.how.as_ref().is_some_and(|how| how.value.is_strained());
        let Some(ice) = drink.card.ice_water.as_ref().filter(|_| is_strained) else { return true };
        let poured: f64 = drink.taken.iter().filter(|(_, part, _)| part.is_water()).map(|(.., grams)| grams).sum();
        self.water_g * self.glasses(drink) - poured < ice.least_g * drink.times * SOME_OF_IT
    }
}

impl Changed {
    /// `None` where the bottle holds what the drink is made of now. It holds so many millilitres, and grams of water, for a glass.
    fn of(batch: &Solved, (glass_ml, water_g): (f64, f64), house: &House) -> Option<Self> {
        let pours = batch.card.pours.as_deref()?;
        let drink = drink(&house.read_card(pours)?, house, &mut Vec::new())?;
        let otherwise = held_otherwise(batch, &drink, house);
        if otherwise.is_empty() {
            return None;
        }
        let [held, now] = [|of: &HeldOtherwise| of.held_g, |of: &HeldOtherwise| of.now_g].map(|grams| {
            let each = |of: &HeldOtherwise| match grams(of) {
                g if g > 0.0 => format!("{} g {}", grouped(g, 1), of.part),
                _ => format!("no {}", of.part),
            };
            otherwise.iter().map(each).collect::<Vec<_>>().join(", ")
        });
        let title = format!(
            "the card of {pours} was changed after `{}` was filled: a glass of the bottle has {held}, a glass by the card {now}",
            batch.name
        );
        let help = format!(
            "what stands there is poured as {pours} until it is gone, by what it holds itself; new bottles by the card of now: \
             stillroom serve {pours:?} --make 40 -o FILE"
        );
        let said = Diagnostic::warning(Code::DrinkRule, title).help(help).in_file(&batch.card.file);
        let mut in_place_of = BTreeMap::new();
        let bottled = bottled_parts(&drink, house);
        let named = bottled.iter().filter_map(|part| Some((part.name.clone()?, part.mass_g)));
        named.for_each(|(of, grams)| *in_place_of.entry(of).or_default() += grams);
        let glasses_now = glass_ml / like_it_ml(&drink, (&bottled, water_g))?;
        (glasses_now.is_finite() && glasses_now > 0.0).then_some(Self { glasses_now, in_place_of, said })
    }
}

/// What of a glass of a drink, as it is now, is bottled, millilitres: with the water of its ice where the bottle holds some.
fn like_it_ml(drink: &Solved, (bottled, water_g): (&[BottledPart<'_>], f64)) -> Option<f64> {
    let ice = drink.ice_water.as_ref();
    let of_ice_g = ice.map_or(0.0, IceWater::sure_g);
    let in_bottle_g = if water_g > of_ice_g * SOME_OF_IT { of_ice_g } else { 0.0 };
    let liquid = let_down(drink.bottled(), in_bottle_g - ice.map_or(0.0, |ice| ice.grams));
    let all_g: f64 = bottled.iter().map(|part| part.mass_g).sum();
    Some(volume_ml(&liquid)? * (all_g + in_bottle_g) / liquid.total_grams())
}

/// A bottle that holds less than this share of the water of the ice was filled without it (ours: one for the freezer may leave out most).
const SOME_OF_IT: f64 = 0.1;

/// A drink as it goes into a glass that is sold: itself, or inside another.
pub(super) struct InGlass<'a> {
    pub(super) card: &'a Solved,
    /// How many times what it was solved for.
    pub(super) times: f64,
    /// How many glasses by its card that is.
    pub(super) glasses: f64,
    /// The place of the drink that it is inside of.
    pub(super) within: Option<usize>,
    /// Its parts with their grams, those of drinks inside it as well; the water from ice is none.
    pub(super) taken: Vec<(&'a Solved, &'a SolvedPart, f64)>,
}

impl<'a> InGlass<'a> {
    /// A drink and all drinks inside it, each before those inside it; what is in a drink that is poured of a bottle that is made goes
    /// into no glass by itself.
    pub(super) fn all_of(drink: &'a Solved, is_made: impl Fn(&Solved) -> bool) -> Vec<Self> {
        let mut all: Vec<Self> = Vec::new();
        let mut open = vec![(drink, 1.0, None)];
        while let Some((card, times, within)) = open.pop() {
            let taken = taken_by(card).into_iter().map(|(of, part, grams)| (of, part, grams * times)).collect();
            all.push(Self { card, times, glasses: times * glasses_made(card), within, taken });
            let inside = card.parts().filter(|_| !is_made(card)).filter_map(|part| {
                let inner = inner_drink(card, part)?;
                Some((inner, times * part.mass_g / inner.bottled().total_grams(), Some(all.len() - 1)))
            });
            open.extend(inside);
        }
        all
    }
}

/// What a part is called where it is bought or made.
fn name_of(card: &Solved, part: &SolvedPart) -> Option<String> {
    match &part.found.what {
        Material::Ingredient(ingredient) => Some(ingredient.name.clone()),
        Material::Card(place) => card.inner.get(*place).map(|inner| inner.card.name.clone()),
        Material::Stage(_) => None,
    }
}

/// Whether a plan makes more of a product: who only stands there is poured until it is gone.
pub(super) fn is_made(product: &str, board: &Board, products: &[PrepProduct]) -> bool {
    let folded = fold(product);
    let is_it = |of: &str| fold(of) == folded;
    let mut entries = board.products.iter().filter(|entry| is_it(&entry.name.value));
    let mut parts = products.iter().flat_map(|product| &product.parts);
    let mut poured = board.pours.iter().flat_map(|pour| taken_by(&pour.drink));
    entries.any(|entry| entry.par.is_some() || entry.has_use())
        || parts.any(|part| is_it(&part.of))
        || poured.any(|(card, part, _)| {
            matches!(part.found.what, Material::Card(_)) && name_of(card, part).is_some_and(|of| is_it(&of))
        })
}

/// The bottles of a product that stand there, the soonest date first.
struct StandingBottles<'a> {
    bottle: &'a Bottle,
    /// The last day and what is left of each.
    left: Vec<(Day, u64)>,
}

impl<'a> StandingBottles<'a> {
    fn of(bottle: &'a Bottle, products: &[PrepProduct]) -> Option<Self> {
        let product = products.iter().find(|product| product.name == bottle.product)?;
        let of_it = product.on_hand.iter().filter(|held| held.by_old_card == bottle.by_old_card);
        let mut left: Vec<(Day, u64)> = of_it.map(|held| (held.use_by, held.amount)).collect();
        left.sort_unstable();
        Some(Self { bottle, left })
    }

    /// Takes up to so many glasses for a day, with so much of the drink in each; gives them, and what they took.
    fn pour(&mut self, day: Day, glasses: u64, drink: &InGlass<'_>) -> (u64, u64) {
        let each = self.bottle.poured(drink);
        let (mut asked, mut taken) = (glasses, 0);
        for (_, left) in self.left.iter_mut().filter(|(use_by, _)| *use_by >= day) {
            let poured = asked.min((*left as f64 / each + LAST_GLASS) as u64);
            let of_it = ((poured as f64 * each).round() as u64).min(*left);
            *left -= of_it;
            taken += of_it;
            asked -= poured;
        }
        (glasses - asked, taken)
    }

    fn last_day(&self) -> Day {
        self.left.iter().map(|(use_by, _)| *use_by).max().unwrap_or(-1)
    }
}

/// What is poured of a bottle: glasses, and what they take of it, by day.
type OfStanding<'a> = (&'a Bottle, BTreeMap<Day, (u64, u64)>);

/// Pours the bottles that stand there day by day, for all that is asked, in its order: for each drink of each glass what it gets.
pub(super) fn pour_standing<'a>(
    calendar: &Calendar,
    bottles: &[&'a Bottle],
    products: &[PrepProduct],
    asked: &[(&Glasses, &[InGlass<'_>])],
) -> Vec<Vec<Vec<OfStanding<'a>>>> {
    let mut standing: Vec<StandingBottles<'a>> =
        bottles.iter().filter_map(|bottle| StandingBottles::of(bottle, products)).collect();
    let last = standing.iter().map(StandingBottles::last_day).max().unwrap_or(-1);
    let last = last.min(calendar.days.saturating_add(MOST_LIFE));
    let mut poured: Vec<Vec<Vec<OfStanding<'a>>>> =
        asked.iter().map(|(_, inside)| inside.iter().map(|_| Vec::new()).collect()).collect();
    for day in 0..=last {
        for ((glasses, inside), poured) in asked.iter().zip(&mut poured) {
            let sold = glasses.on_day(calendar, day);
            let mut left: Vec<u64> = Vec::new();
            for (drink, poured) in inside.iter().zip(poured) {
                let mut wanted = drink.within.and_then(|outer| left.get(outer).copied()).unwrap_or(sold);
                for of_it in standing.iter_mut().filter(|of_it| of_it.bottle.is_of(drink.card)) {
                    let got = of_it.pour(day, wanted, drink);
                    wanted -= got.0;
                    if got.0 == 0 {
                        continue;
                    }
                    match poured.iter_mut().find(|(bottle, _)| std::ptr::eq(*bottle, of_it.bottle)) {
                        Some((_, days)) => drop(days.insert(day, got)),
                        None => poured.push((of_it.bottle, BTreeMap::from([(day, got)]))),
                    }
                }
                left.push(wanted);
            }
        }
    }
    poured
}
