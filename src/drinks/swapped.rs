//! Another part in a drink: poured alike, and in the jigger steps that bring the glass nearest to what it was. Near is the least sum
//! of squares over alcohol, sugar, acid and volume, each in what a guest tells apart.

use rust_decimal::Decimal;

use crate::assessment::swapped::{SwapJudgement, compare};
use crate::assessment::undated;
use crate::card::{Amount, Card};
use crate::cost::{Currency, SellAsked};
use crate::diagnostic::{Code, Diagnostic, Spanned, any_error};
use crate::house::House;
use crate::mixture::{Component, Mixture};
use crate::safety::Caution;
use crate::solver::resolve::Material;
use crate::solver::{Options, Solved, SolvedPart, not_on_card, solve};
use crate::spelling::fold;
use crate::units::jigger::step_ml;
use crate::units::{literal, millilitres};
use crate::vocabulary::{Kind, MeasureSystem};

use super::figures::Figures;
use super::glass::{drink, glass_cost};

/// A drink with another part in it.
#[derive(Clone, Debug)]
pub struct GlassSwap {
    /// The old part as the card calls it.
    pub old: String,
    /// The new one.
    pub new: String,
    /// What was poured, line by line, millilitres: as it stands, with the new part poured alike, and nearest.
    pub lines: Vec<SwappedPour>,
    /// The glass as it stands.
    pub before: SwappedGlass,
    /// The new part poured alike.
    pub alike: SwappedGlass,
    /// Nearest to what it was.
    pub nearest: SwappedGlass,
    /// Allergens and stops that came and went.
    pub judged: SwapJudgement,
    /// By what the house's jigger pours more or less, ml.
    pub step_ml: f64,
    /// Which ounces the house means.
    pub measures: Option<MeasureSystem>,
    /// Whether the new part is the old one, by whatever name.
    pub is_itself: bool,
    /// Cautions that were not there.
    pub cautions: Vec<Caution>,
}

/// One line of it.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct SwappedPour {
    /// What is poured: the new part in the place of the old.
    pub of: String,
    /// Whether it is the one that was swapped.
    pub swapped: bool,
    /// As the card pours it, ml; `None` where it is not poured.
    pub before_ml: Option<f64>,
    /// In the nearest glass, ml.
    pub nearest_ml: Option<f64>,
    /// What is not poured stays as it is, in grams; `None` of what is poured.
    pub weighed_g: Option<f64>,
}

/// What a glass of it holds and costs.
#[derive(Clone, Debug)]
pub struct SwappedGlass {
    /// What it holds.
    pub figures: Figures,
    /// Of one glass before tax, where all of it has a price.
    pub cost: Option<(Decimal, Currency)>,
}

/// What a guest tells apart: grams of alcohol, sugar and acid in one glass, and millilitres of it (ours).
pub(crate) const TOLD_APART: [f64; 4] = [1.0, 1.0, 0.15, 10.0];
/// What a step of the water counts: half of what a guest tells apart, squared as the rest is (ours). It is left as it is where moving
/// it brings less.
const STEP_COUNTS: f64 = 0.25;
/// Less than this of water nobody pours, ml (ours: the least of a jigger).
const LEAST_ML: f64 = 3.7;

/// What a millilitre brings: alcohol, sugar, acid, volume.
type PerMillilitre = [f64; 4];

fn brings(part: &SolvedPart) -> Option<PerMillilitre> {
    let per_ml: Mixture = part.feed.per_gram * part.found.g_per_ml?;
    part.volume_ml()?;
    Some([per_ml.grams_of(Component::Ethanol), per_ml.sugar_grams(), per_ml.grams_of_all(&Component::ACIDS), 1.0])
}

/// Water, and soda with nothing in it.
fn lengthens(part: &SolvedPart) -> bool {
    let soda = matches!(&part.found.what, Material::Ingredient(of) if of.kind == Some(Kind::Soda));
    let plain = || brings(part).is_some_and(|[alcohol, sugar, acid, _]| alcohol + sugar + acid < 1e-3);
    part.is_water() || soda && plain()
}

/// Swaps one part of a drink for another.
pub fn swap_in_glass(
    card: &Card,
    house: &House,
    old: &str,
    new: &str,
    found: &mut Vec<Diagnostic>,
) -> Option<GlassSwap> {
    let before = drink(card, house, found)?;
    let parts = &before.last().parts;
    let is_it = |part: &&SolvedPart| [&part.label, &part.of].iter().any(|name| fold(name) == fold(old));
    let Some(place) = parts.iter().position(|part| is_it(&part) && part.melts.is_none()) else {
        found.push(not_on_card(old, parts.iter().filter(|p| p.melts.is_none()).map(|p| p.label.as_str())));
        return None;
    };
    let poured = |solved: &Solved| -> Vec<Option<f64>> {
        solved.last().parts.iter().filter(|part| part.melts.is_none()).map(SolvedPart::volume_ml).collect()
    };
    let was = poured(&before);
    let not_poured = |name: &str| {
        Diagnostic::error(
            Code::WrongDimension,
            format!("`{name}` is not poured: in a glass a liquid is swapped for a liquid"),
        )
        .help("swap a spirit, a liqueur, a syrup or a juice; on the card of a product any sugar: stillroom swap")
    };
    let Some(old_ml) = was.get(place).copied().flatten() else { return not_poured(old).refused(found) };
    let alike_card = with_part(card, house, place, Some(new), old_ml);
    let alike = solved(&alike_card, house, found)?;
    let step = step_ml(house.settings.measures);
    let Some(nearest_ml) = nearest(&before, &alike, place, step) else { return not_poured(new).refused(found) };
    let mut nearest_card = alike_card.clone();
    for (at, ml) in nearest_ml.iter().enumerate().filter(|(at, ml)| **ml != was.get(*at).copied().flatten()) {
        if let Some(ml) = ml {
            nearest_card = with_part(&nearest_card, house, at, None, *ml);
        }
    }
    let nearest = solved(&nearest_card, house, found)?;
    let lines = parts.iter().filter(|part| part.melts.is_none()).enumerate().map(|(at, part)| SwappedPour {
        of: if at == place { new.to_owned() } else { part.label.clone() },
        swapped: at == place,
        before_ml: was.get(at).copied().flatten(),
        nearest_ml: nearest_ml.get(at).copied().flatten(),
        weighed_g: part.volume_ml().is_none().then_some(part.mass_g),
    });
    Some(GlassSwap {
        old: parts.get(place)?.label.clone(),
        new: new.to_owned(),
        lines: lines.collect(),
        judged: compare(&before, &nearest, house),
        step_ml: step,
        measures: house.settings.measures,
        is_itself: made_of(&before, place) == made_of(&alike, place),
        cautions: come_in(&before, &nearest, house),
        before: SwappedGlass::of(&before, house)?,
        alike: SwappedGlass::of(&alike, house)?,
        nearest: SwappedGlass::of(&nearest, house)?,
    })
}

/// What a line of the glass is, by the larder or by its card.
fn made_of(drink: &Solved, place: usize) -> Option<&str> {
    match &drink.last().parts.get(place)?.found.what {
        Material::Ingredient(ingredient) => Some(&ingredient.id),
        Material::Card(inner) => drink.inner.get(*inner).map(|inner| inner.card.name.as_str()),
        Material::Stage(_) => None,
    }
}

/// The cautions of the new glass that the old one had not.
fn come_in(before: &Solved, after: &Solved, house: &House) -> Vec<Caution> {
    let (was, is) = (undated(before, house).0, undated(after, house).0);
    let is_new = |caution: &Caution| was.cautions.iter().all(|known| known.code != caution.code);
    is.cautions.into_iter().filter(is_new).collect()
}

impl SwappedGlass {
    fn of(solved: &Solved, house: &House) -> Option<Self> {
        let cost = glass_cost(solved, house, None, SellAsked::default(), &mut Vec::new());
        let cost = cost.filter(|cost| cost.of_many.complete).map(|cost| (cost.each, cost.of_many.currency));
        Some(Self { figures: Figures::of(solved.bottled())?, cost })
    }
}

/// The card with another amount, or another thing, in one of its lines.
fn with_part(card: &Card, house: &House, place: usize, new: Option<&str>, ml: f64) -> Card {
    let mut card = card.clone();
    if let Some(part) = card.last.parts.get_mut(place) {
        if let Some(new) = new {
            part.label = Spanned::new(new.to_owned(), part.label.span);
            part.of = Spanned::new(new.to_owned(), part.of.span);
            part.food = None;
        }
        part.amount.value = Amount::Volume(millilitres(ml));
        if let Ok(read) = literal::read_by(&format!("{ml} ml"), &house.customs()) {
            part.written = read;
        }
    }
    card
}

fn solved(card: &Card, house: &House, found: &mut Vec<Diagnostic>) -> Option<Solved> {
    let outcome = solve(card, house, &Options::default());
    // A name that the house has not got stands in no line of the card.
    let own = outcome.diagnostics.into_iter().map(|d| match d.code {
        Code::UnknownIngredient => Diagnostic { labels: Vec::new(), fix: None, ..d },
        _ => d,
    });
    found.extend(own.filter(|d| !found.contains(d)).collect::<Vec<_>>());
    outcome.solved.filter(|_| !any_error(found))
}

/// A line of the glass that is poured.
#[derive(Clone, Copy, Debug)]
struct PouredLine {
    brings: PerMillilitre,
    ml: f64,
    /// Plain water or soda: it makes the drink longer and nothing else.
    lengthens: bool,
}

/// A glass that was tried: how far it is from what it was, with what its moved water counts, and its lines.
type Tried = (f64, Vec<Option<PouredLine>>);

/// How far a glass is from another, in what a guest tells apart: the sum of the squares.
fn apart(is: PerMillilitre, was: PerMillilitre) -> f64 {
    is.into_iter().zip(was).zip(TOLD_APART).map(|((is, was), told)| ((is - was) / told).powi(2)).sum()
}

/// The millilitres of each line that bring the glass nearest, in steps of the house's jigger. The new part stands at its best, poured
/// alike or by any mark; plain water and soda are moved by a step as long as that brings the glass nearer than the step counts. Every
/// other part is the drink and stays; and one mixer with gas for another fills the glass as that did. `None` where the new part is not poured. Every choice is tried in one order, so the same answer
/// comes each time.
fn nearest(before: &Solved, alike: &Solved, place: usize, step: f64) -> Option<Vec<Option<f64>>> {
    let of = |solved: &Solved| -> Vec<Option<PouredLine>> {
        let line = |part: &SolvedPart| {
            Some(PouredLine { brings: brings(part)?, ml: part.volume_ml()?, lengthens: lengthens(part) })
        };
        solved.last().parts.iter().filter(|part| part.melts.is_none()).map(line).collect()
    };
    let (wanted, lines) = (held(&of(before)), of(alike));
    let old_ml = lines.get(place).copied().flatten()?.ml;
    let most = (3.0 * old_ml / step).round().max(1.0) as u32;
    let moved_by = |tried: &[Option<PouredLine>]| -> f64 {
        let steps = tried.iter().zip(&lines).enumerate().filter(|(at, _)| *at != place);
        steps.filter_map(|(_, (is, was))| Some((is.as_ref()?.ml - was.as_ref()?.ml).abs() / step)).sum()
    };
    let has_gas = |of: &Solved| of.last().parts.get(place).is_some_and(|part| part.found.gas);
    // what is dashed in below a step of the jigger is dashed in alike
    let is_dosed = old_ml < step;
    let most = if is_dosed || has_gas(before) && has_gas(alike) { 0 } else { most };
    let settled = |lines: &[Option<PouredLine>]| -> Option<Tried> {
        let poured = std::iter::once(old_ml).chain((1..=most).map(|steps| f64::from(steps) * step));
        let tried = poured.filter_map(|ml| {
            let mut tried = lines.to_vec();
            tried.get_mut(place)?.as_mut()?.ml = ml;
            Some((apart(held(&tried), wanted) + STEP_COUNTS * moved_by(&tried), tried))
        });
        tried.reduce(nearer)
    };
    let moved = |lines: &[Option<PouredLine>], (at, by): (usize, f64)| -> Option<Vec<Option<PouredLine>>> {
        let mut tried = lines.to_vec();
        let line = tried.get_mut(at)?.as_mut()?;
        line.ml = (line.ml + by >= LEAST_ML).then_some(line.ml + by)?;
        Some(tried)
    };
    let is_moved = |at: &usize| *at != place && lines.get(*at).copied().flatten().is_some_and(|line| line.lengthens);
    let moves: Vec<(usize, f64)> = (0..lines.len()).filter(is_moved).flat_map(|at| [(at, -step), (at, step)]).collect();
    let mut best = settled(&lines)?;
    while let Some(next) = moves.iter().filter_map(|by| settled(&moved(&best.1, *by)?)).reduce(nearer) {
        if next.0 >= best.0 - 1e-9 {
            break;
        }
        best = next;
    }
    // what is not poured stands as it was
    let poured = alike.last().parts.iter().filter(|part| part.melts.is_none());
    let lines = best.1;
    Some(poured.zip(lines).map(|(part, line)| line.map_or_else(|| part.volume_ml(), |line| Some(line.ml))).collect())
}

/// Of two the nearer; of two alike the first.
fn nearer(a: Tried, b: Tried) -> Tried {
    if b.0 < a.0 - 1e-12 { b } else { a }
}

/// What all lines bring together.
fn held(lines: &[Option<PouredLine>]) -> PerMillilitre {
    let mut sum = [0.0; 4];
    for line in lines.iter().flatten() {
        sum.iter_mut().zip(line.brings).for_each(|(sum, per_ml)| *sum += per_ml * line.ml);
    }
    sum
}
